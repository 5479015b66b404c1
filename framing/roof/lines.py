"""The lines where the faces of a roof meet or end: ridge, hip, valley, eave, rake."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from framing.plan import Point
from framing.roof.wings import Wing, covers, side_line
from framing.tolerances import PROBE_FT, TIE_FT
from framing.walls.outline import Frame

Floats = NDArray[np.float64]


class LineKind(StrEnum):
    """What a line of the roof is called."""

    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    EAVE = "eave"
    RAKE = "rake"
    STEP = "step"


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofLine:
    """A straight line of the roof in plan coordinates, z above the top of the tie beam. [ft]"""

    kind: LineKind
    start_ft: tuple[float, float, float]
    end_ft: tuple[float, float, float]

    @property
    def length_ft(self) -> float:
        """True (sloped) length. [ft]"""
        return math.dist(self.start_ft, self.end_ft)


def roof_lines(
    polygons: list[Polygon],
    wings: tuple[Wing, ...],
    overhangs_ft: Point,
    rise_per_run: float,
    heel_ft: float,
    frame: Frame,
) -> tuple[RoofLine, ...]:
    """Every line of the roof, told apart by the slopes on its two sides."""
    noded = shapely.union_all([shapely.boundary(p) for p in polygons], grid_size=TIE_FT)
    ends = np.array([[g.coords[i], g.coords[i + 1]] for g in _simple(noded) for i in range(len(g.coords) - 1)])
    along = ends[:, 1] - ends[:, 0]
    length = np.hypot(along[:, 0], along[:, 1])
    ends, along = ends[length > 10 * PROBE_FT], along[length > 10 * PROBE_FT]
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    normal = np.column_stack([-along[:, 1], along[:, 0]])
    mid = ends.mean(axis=1)
    left, slope_left = _surface(mid + PROBE_FT * normal, wings, overhangs_ft, rise_per_run)
    right, slope_right = _surface(mid - PROBE_FT * normal, wings, overhangs_ft, rise_per_run)
    kinds = [
        _kind(*args)
        for args in zip(left, right, slope_left, slope_right, along, normal, [rise_per_run] * len(mid), strict=True)
    ]
    out: list[RoofLine] = []
    for kind in LineKind:
        segments = [shapely.LineString(e) for e, k in zip(ends, kinds, strict=True) if k is kind]
        kinked = kind in (LineKind.RAKE, LineKind.STEP)  # straight in plan, bent at the ridge: not to be joined
        joined = segments if kinked or not segments else _simple(shapely.line_merge(shapely.union_all(segments)))
        for line in joined:
            out += _straight(kind, line, wings, overhangs_ft, rise_per_run, heel_ft, frame)
    return tuple(out)


def _simple(geometry: shapely.Geometry) -> list[shapely.LineString]:
    return [g for g in shapely.get_parts(geometry) if isinstance(g, shapely.LineString) and not g.is_empty]


def _surface(points: Floats, wings: tuple[Wing, ...], overhangs: Point, rise: float) -> tuple[Floats, Floats]:
    """Height (-inf outside) and gradient of the visible roof at points."""
    best = np.full(len(points), -math.inf)
    slope = np.zeros((len(points), 2))
    for wing in wings:
        x, y = points[:, 0], points[:, 1]
        lines = np.array([side_line(wing, k) for k in wing.eave_sides])
        distance = lines[:, :1] * x + lines[:, 1:2] * y + lines[:, 2:]
        nearest = distance.argmin(axis=0)
        height = rise * distance.min(axis=0)
        better = covers(wing, overhangs, points) & (height > best)
        best = np.where(better, height, best)
        slope[better] = rise * lines[nearest[better], :2]
    return best, slope


def _kind(
    left: float, right: float, g_left: Floats, g_right: Floats, along: Floats, normal: Floats, rise: float
) -> LineKind | None:
    """The name of a line from the heights and slopes a hair to its left and right."""
    if math.isinf(left) or math.isinf(right):
        inner = g_right if math.isinf(left) else g_left
        return LineKind.RAKE if abs(inner @ along) > 0.1 * rise else LineKind.EAVE
    if abs(left - right) > 10 * rise * PROBE_FT:
        return LineKind.STEP
    fold = float((g_left - g_right) @ normal)  # the change of slope across the line, positive in a valley
    if abs(fold) < 0.1 * rise:
        return None
    level = abs(g_left @ along) < 0.1 * rise
    if fold > 0:
        return LineKind.VALLEY
    return LineKind.RIDGE if level else LineKind.HIP


def _straight(
    kind: LineKind,
    line: shapely.LineString,
    wings: tuple[Wing, ...],
    overhangs: Point,
    rise: float,
    heel: float,
    frame: Frame,
) -> list[RoofLine]:
    """A merged line cut at its corners, with heights."""
    pts = np.array(shapely.simplify(line, 10 * TIE_FT).coords)
    out = []
    for a, b in itertools.pairwise(pts):
        t = (b - a) / np.hypot(*(b - a))
        n = np.array([-t[1], t[0]])
        probes = np.array([p + PROBE_FT * (0.5 * s * n + u * t) for p, u in ((a, 1.0), (b, -1.0)) for s in (1.0, -1.0)])
        h, g = _surface(probes, wings, overhangs, rise)
        z = []
        for i, p in ((0, a), (2, b)):
            j = i if h[i] >= h[i + 1] else i + 1
            z.append(heel + float(h[j] + g[j] @ (p - probes[j])))
        pa, pb = frame.to_plan((float(a[0]), float(a[1]))), frame.to_plan((float(b[0]), float(b[1])))
        out.append(RoofLine(kind=kind, start_ft=(*pa, z[0]), end_ft=(*pb, z[1])))
    return out
