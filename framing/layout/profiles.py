"""The top line of a member as its own wing's roof gives it."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import LineString

from framing.layout.records import Draft
from framing.members import MemberKind
from framing.plan import Plan, Point
from framing.roof.surface import Floats, Roof, visible_height_ft
from framing.roof.wings import side_line
from framing.tolerances import ROUNDING, TIE_FT

SMALLEST_DEPTH_FT = 0.5
FAR_FT = 1e3


def member_shape(plan: Plan, roof: Roof, draft: Draft) -> tuple[Point, ...]:
    """The top of the top chord from tail to tail: (distance from the start bearing, height above the tie beam).

    A girder at a seam reaches to the roof that is seen over it; what stops at a seam stays under it.
    """
    a, b = np.array(draft.start.point_ft), np.array(draft.end.point_ft)
    length = float(np.hypot(*(b - a)))
    u = (b - a) / length
    heel = plan.trusses.heel_ft
    if draft.kind is MemberKind.GIRDER:
        return _seen_top(roof, heel, a, u, length)
    wing = roof.wings[draft.wing]
    ends = wing.ends if draft.kind is MemberKind.GABLE_END else ()
    sides = [s for s in wing.eave_sides if s not in (*draft.open_sides, *ends)]
    slopes = [side_line(wing, k) for k in sides]
    between = (-draft.tail_start_ft, length + draft.tail_end_ft)
    at = {*between} | folds(slopes, a, u, between)
    seen = bool(roof.angled_eaves or draft.open_sides)
    if seen:
        at |= seen_folds(roof, a, u, between)
    places, lines = np.array(sorted(at)), np.array(slopes).reshape(-1, 3)
    run = (lines[:, :2] @ (a[:, None] + np.outer(u, places)) + lines[:, 2:]).min(axis=0, initial=FAR_FT)
    if seen:
        places, run = _under_the_roof(roof, a + places[:, None] * u, places, run)
    points = [(s, heel + roof.rise_per_run * r) for s, r in zip(places.tolist(), run.tolist(), strict=True)]
    return bent_only(points)


def _seen_top(roof: Roof, heel_ft: float, start_ft: Floats, unit: Floats, length_ft: float) -> tuple[Point, ...]:
    """The visible roof along a girder between its bearings, where it is deep enough for a girder."""
    places = np.array(sorted({0.0, length_ft} | seen_folds(roof, start_ft, unit, (0.0, length_ft))))
    rise = np.maximum(visible_height_ft(roof, start_ft + places[:, None] * unit), 0.0)
    top = np.maximum(heel_ft + rise, SMALLEST_DEPTH_FT)
    return bent_only(list(zip(places.tolist(), top.tolist(), strict=True)))


def bent_only(points: list[Point]) -> tuple[Point, ...]:
    """A line's points without those on a straight between their neighbours."""
    kept = [points[0]]
    for i in range(1, len(points) - 1):
        (s0, z0), (s1, z1), (s2, z2) = kept[-1], points[i], points[i + 1]
        if abs((z1 - z0) * (s2 - s1) - (z2 - z1) * (s1 - s0)) > ROUNDING and not math.isclose(s1, s0):
            kept.append(points[i])
    return (*kept, points[-1])


def folds(
    slopes: list[tuple[float, float, float]], start_ft: Floats, unit: Floats, between_ft: tuple[float, float]
) -> set[float]:
    """Where along a line from a point two slopes, each a x + b y + c of run, are equally high. [ft]"""
    lines = np.array(slopes).reshape(-1, 3)
    rise, at_start = lines[:, :2] @ unit, lines[:, :2] @ start_ft + lines[:, 2]
    i, j = np.triu_indices(len(lines), 1)
    crossing = abs(rise[i] - rise[j]) > ROUNDING
    i, j = i[crossing], j[crossing]
    places = (at_start[j] - at_start[i]) / (rise[i] - rise[j])
    return {float(s) for s in places if between_ft[0] < s < between_ft[1]}


def seen_folds(roof: Roof, start_ft: Floats, unit: Floats, between_ft: tuple[float, float]) -> set[float]:
    """Where along a line the visible roof folds, and beside it where an angled wall's face cuts its own. [ft]"""
    line = LineString([start_ft + s * unit for s in between_ft])
    faces = np.array([f.in_frame for f in roof.faces], dtype=object)
    edges = shapely.boundary(faces[shapely.intersects(faces, line)])
    places = (shapely.get_coordinates(shapely.intersection(edges, line)) - start_ft) @ unit
    return {float(s) for s in places if between_ft[0] < s < between_ft[1]}


def _under_the_roof(roof: Roof, points: Floats, places: Floats, run: Floats) -> tuple[Floats, Floats]:
    """A member's own line where it stays under the visible roof, else the visible roof's, with the crossings. [ft]"""
    seen = visible_height_ft(roof, points) / roof.rise_per_run
    middle = (points[0] + points[-1]) / 2.0
    beside = points + TIE_FT * np.sign(middle - points)  # at the eave rounding may have left the roof
    seen = np.where(np.isfinite(seen), seen, visible_height_ft(roof, beside) / roof.rise_per_run)
    seen = np.where(np.isfinite(seen), seen, run)
    gap = run - seen
    cross = np.flatnonzero(gap[:-1] * gap[1:] < 0)
    t = gap[cross] / (gap[cross] - gap[cross + 1])
    more = places[cross] + t * (places[cross + 1] - places[cross])
    height = run[cross] + t * (run[cross + 1] - run[cross])
    order = np.argsort(np.r_[places, more], kind="stable")
    return np.r_[places, more][order], np.r_[np.minimum(run, seen), height][order]
