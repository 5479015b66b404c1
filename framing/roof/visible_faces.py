"""Wings -> what is seen of each slope from above: the part that no other wing's roof hides."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import MultiPolygon, Polygon, box

from framing.frame_side import SIDES, FrameSide
from framing.plan import Point
from framing.roof.wings import Box, Wing, reach, side_line
from framing.tolerances import ROUNDING, SLIVER_FT2
from framing.walls.outline import on_grid

Plane = tuple[float, float, float]


def visible_polygons(wings: tuple[Wing, ...], overhangs: Point) -> list[tuple[Polygon, Wing, FrameSide]]:
    """Each slope less what the other wings' roofs hide, polygon by polygon."""
    reaches = [reach(w, overhangs) for w in wings]
    lines = [{k: side_line(w, k) for k in w.eave_sides} for w in wings]
    bulk = _Bulk(wings, reaches, lines)
    out: list[tuple[Polygon, Wing, FrameSide]] = []
    for i, wing in enumerate(wings):
        for k, plane in lines[i].items():
            ring = _box_ring(reaches[i])
            for other, line in lines[i].items():
                if other != k:
                    ring = clip(ring, _minus(line, plane))
            if len(ring) < 3 or (others := bulk.may_hide(i, ring, plane)) is None:
                continue
            hidden = []
            for j in others:
                part = _hidden_by(ring, plane, reaches[j], lines[j], earlier=j < i)
                if len(part) >= 3 and (shadow := shapely.make_valid(Polygon(part))).area > SLIVER_FT2:
                    hidden.append(less_no_eave(shadow, wings[j]))
            hidden += [box(*b) for b in wing.no_eave_ft]
            seen = Polygon(ring).difference(shapely.union_all(hidden)) if hidden else Polygon(ring)
            parts = seen.geoms if isinstance(seen, MultiPolygon) else [seen]
            out += [(p, wing, k) for p in parts if isinstance(p, Polygon) and p.area > SLIVER_FT2]
    return out


class _Bulk:
    """All wings' roofs as tables: which of them may hide a slope, told at once."""

    def __init__(self, wings: tuple[Wing, ...], reaches: list[Box], lines: list[dict[FrameSide, Plane]]) -> None:
        self.reaches_ft = np.array(reaches)
        self.planes = np.array([[of.get(k, (0.0, 0.0, math.inf)) for k in SIDES] for of in lines])
        self.whole = np.array([not w.no_eave_ft for w in wings])

    def may_hide(self, own: int, ring: list[Point], plane: Plane) -> list[int] | None:
        """The other wings that may hide a part of a slope; None where one of them hides all of it."""
        points = np.array(ring)
        low, high = points.min(axis=0), points.max(axis=0)
        over = self.planes - np.array(plane)  # how far the others' planes lie over the slope's
        height = over[:, :, :2] @ points.T + over[:, :, 2:]
        least, most = height.min(axis=2), height.max(axis=2)
        within = (self.reaches_ft[:, :2] <= low + ROUNDING) & (self.reaches_ft[:, 2:] >= high - ROUNDING)
        all_of_it = within.all(axis=1) & ((least >= -ROUNDING) & (most > ROUNDING)).all(axis=1) & self.whole
        meet = (self.reaches_ft[:, :2] < high).all(axis=1) & (self.reaches_ft[:, 2:] > low).all(axis=1)
        near = meet & ~(most < -ROUNDING).any(axis=1)
        all_of_it[own] = near[own] = False
        return None if all_of_it.any() else np.flatnonzero(near).tolist()


def less_no_eave(part: Polygon, wing: Wing) -> Polygon:
    """A part of a wing's roof without the stretches where it has no eave."""
    return part.difference(shapely.union_all([box(*b) for b in wing.no_eave_ft])) if wing.no_eave_ft else part


def _hidden_by(
    ring: list[Point],
    plane: Plane,
    reach_ft: Box,
    others: dict[FrameSide, Plane],
    *,
    earlier: bool,
) -> list[Point]:
    """The part of a slope under another wing's roof; where both are one plane the earlier wing has it."""
    x0, y0, x1, y1 = reach_ft
    part = ring
    for half_plane in ((1.0, 0.0, -x0), (-1.0, 0.0, x1), (0.0, 1.0, -y0), (0.0, -1.0, y1)):
        part = clip(part, half_plane)
    if len(part) < 3:
        return []
    for line in others.values():
        a, b, c = _minus(line, plane)
        if a == 0.0 and b == 0.0:
            if c < -ROUNDING or (abs(c) <= ROUNDING and not earlier):
                return []
            continue
        part = clip(part, (a, b, c))
        if len(part) < 3:
            return []
    return part


def _minus(p: Plane, q: Plane) -> Plane:
    return (p[0] - q[0], p[1] - q[1], p[2] - q[2])


def _box_ring(b: Box) -> list[Point]:
    return [(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (b[0], b[3])]


def clip(ring: list[Point], plane: Plane) -> list[Point]:
    """The part of a convex ring where a plane, a x + b y + c, is not under 0; what lies within a rounding of that line
    lies on it, and corners within a rounding of each other are one, so that the part is a valid ring again.
    """
    a, b, c = plane
    out: list[Point] = []
    values = [v if abs(v) > ROUNDING else 0.0 for v in (a * x + b * y + c for x, y in ring)]
    for i, (x, y) in enumerate(ring):
        d, (xp, yp), dp = values[i], ring[i - 1], values[i - 1]
        if d * dp < 0:
            t = dp / (dp - d)
            out.append((on_grid(2.0 * (xp + t * (x - xp))) / 2.0, on_grid(2.0 * (yp + t * (y - yp))) / 2.0))
        if d >= 0:
            out.append((x, y))
    if max(values, default=0.0) <= 0:
        return []
    return [p for i, p in enumerate(out) if max(abs(p[0] - out[i - 1][0]), abs(p[1] - out[i - 1][1])) > ROUNDING]
