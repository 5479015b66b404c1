"""The top line of a member as its own wing's roof gives it."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import LineString

from framing.layout.parts import Draft
from framing.members import MemberKind
from framing.plan import Plan, Point
from framing.roof import Floats, Roof, visible_height_ft
from framing.wings import side_line

SMALLEST_DEPTH_FT = 0.5


def member_shape(plan: Plan, roof: Roof, draft: Draft) -> tuple[Point, ...]:
    """The top of the top chord from tail to tail: (distance from the start bearing, height above the tie beam).

    A girder at a seam without a wall is drawn with parallel chords, as deep as the roof over its ends allows.
    """
    a, b = np.array(draft.start.point_ft), np.array(draft.end.point_ft)
    length = float(np.hypot(*(b - a)))
    u = (b - a) / length
    wing = roof.wings[draft.wing]
    sides = (
        wing.eave_sides
        if draft.kind is not MemberKind.GABLE_END
        else tuple(k for k in wing.eave_sides if k // 2 != wing.ridge_axis)
    )
    lines = np.array([side_line(wing, k) for k in sides])
    slopes = lines[:, 0] * u[0] + lines[:, 1] * u[1]
    starts = lines[:, 0] * a[0] + lines[:, 1] * a[1] + lines[:, 2]
    low, high = -draft.tail_start_ft, length + draft.tail_end_ft
    at = {low, high}
    for i in range(len(lines)):
        for j in range(i):
            if abs(slopes[i] - slopes[j]) > 1e-9:
                s = float((starts[j] - starts[i]) / (slopes[i] - slopes[j]))
                if low < s < high:
                    at.add(s)
    if roof.angled_eaves:
        at |= _breaks(roof, a, u, (low, high))
    places = np.array(sorted(at))
    run = (starts[:, None] + slopes[:, None] * places).min(axis=0)
    if roof.angled_eaves:
        places, run = _under_the_roof(roof, a + places[:, None] * u, places, run)
    heel = plan.trusses.heel_ft
    points = [(s, heel + roof.rise_per_run * r) for s, r in zip(places.tolist(), run.tolist(), strict=True)]
    if draft.kind is MemberKind.GIRDER:
        depth = max(plan.trusses.heel_ft, SMALLEST_DEPTH_FT, length / 12.0)
        points = [(0.0, depth), (length, depth)]
    kept = [points[0]]
    for i in range(1, len(points) - 1):
        (s0, z0), (s1, z1), (s2, z2) = kept[-1], points[i], points[i + 1]
        if abs((z1 - z0) * (s2 - s1) - (z2 - z1) * (s1 - s0)) > 1e-9 and not math.isclose(s1, s0):
            kept.append(points[i])
    return (*kept, points[-1])


def _breaks(roof: Roof, a: Floats, u: Floats, between: tuple[float, float]) -> set[float]:
    """Where along a member the visible roof folds, and beside it where an angled wall's face cuts its own."""
    line = LineString([a + between[0] * u, a + between[1] * u])
    faces = np.array([f.in_frame for f in roof.faces], dtype=object)
    edges = shapely.boundary(faces[shapely.intersects(faces, line)])
    places = (shapely.get_coordinates(shapely.intersection(edges, line)) - a) @ u
    return {float(s) for s in places if between[0] < s < between[1]}


def _under_the_roof(roof: Roof, points: Floats, places: Floats, run: Floats) -> tuple[Floats, Floats]:
    """A member's own line where it stays under the visible roof, else the visible roof's, with the crossings. [ft]"""
    seen = visible_height_ft(roof, points) / roof.rise_per_run
    seen = np.where(np.isfinite(seen), seen, run)
    gap = run - seen
    cross = np.flatnonzero(gap[:-1] * gap[1:] < 0)
    t = gap[cross] / (gap[cross] - gap[cross + 1])
    more = places[cross] + t * (places[cross + 1] - places[cross])
    height = run[cross] + t * (run[cross + 1] - run[cross])
    order = np.argsort(np.r_[places, more], kind="stable")
    return np.r_[places, more][order], np.r_[np.minimum(run, seen), height][order]
