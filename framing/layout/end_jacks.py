"""The end jacks of a hip end: full length from the end line to the hip girder, between the corner jacks' tops."""

from __future__ import annotations

import itertools
import math

from framing.layout.cell_plan import CellEnd, CellPlan
from framing.layout.hip_corners import Corner, jack
from framing.layout.landing import Ground
from framing.layout.records import SMALLEST_BAY_FT, Draft, Key, KeyKind, Landing, RoofStrip, cell_point, cell_ring
from framing.members import MemberKind
from framing.plan import Plan
from framing.tolerances import TIE_FT


def end_jacks(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    end: CellEnd,
    corners: list[Corner],
    distances: tuple[list[float], list[float]],
    corner_jacks: list[Draft],
) -> tuple[list[Draft], list[RoofStrip]]:
    """Full-length jacks from the end line to the hip girder, between the corner jacks' tops or as far as a seam, whose
    girder takes the half bay beside it; where one would stand on a corner jack, over an absorbed jog, or within 3 in.
    of a girder, that one takes its strip.
    """
    axis = cp.cell.ridge_axis
    low, high = cp.cell.low_ft[1 - axis], cp.cell.high_ft[1 - axis]
    at_low = any(c.toward_across > 0 for c in corners)
    at_high = any(c.toward_across < 0 for c in corners)
    depth_ft = min((c.square_ft for c in corners), default=cp.setback_ft)
    first, last = low + at_low * depth_ft, high - at_high * depth_ft
    places = _end_jack_places(plan, ground, cp, (first, last), keep_ends=(at_low, at_high))
    drafts: list[Draft] = []
    strips: list[RoofStrip] = []
    (first, last), beside_seams = _beside_seams(ground, cp, end, places, (first, last))
    for girder, between in beside_seams:
        strips += _strips(plan, ground, cp, end, girder, depth_ft, between, between)
    mids = [(a + b) / 2.0 for a, b in itertools.pairwise(places)]
    for i, (at, lo, hi) in enumerate(zip(places, [first, *mids], [*mids, last], strict=True)):
        key = Key(KeyKind.END_JACK, (cp.cell.index, end.side, i))
        top = Landing(wall=None, member=end.key, point_ft=cell_point(axis, end.truss_ft, at))
        width = hi - lo if not corners else max(hi - lo, plan.trusses.spacing_ft / 2)
        foot = ground.land(cp.cell, end.side, at)
        draft = jack(plan, cp, end, key, MemberKind.END_JACK, foot, top, width)
        beside = ground.girder_beside(foot.point_ft, top.point_ft)
        twin = next((c.key for c in corner_jacks if _same_place(c, draft)), beside)
        if twin is None:
            drafts.append(draft)
        else:
            key = twin
        wide = (
            low + distances[1][-1] if i == 0 and at_low else lo,
            high - distances[1][-1] if i == len(places) - 1 and at_high else hi,
        )
        strips += _strips(plan, ground, cp, end, key, depth_ft, (lo, hi), wide)
    return drafts, strips


def _beside_seams(
    ground: Ground, cp: CellPlan, end: CellEnd, places: list[float], between: tuple[float, float]
) -> tuple[tuple[float, float], list[tuple[Key, tuple[float, float]]]]:
    """From where to where across the end the jacks take the roof, and the half bays beside half-hips' seams with the
    girder that takes each, where one runs all along the corner's square.
    """
    (first, last), axis = between, cp.cell.ridge_axis
    out: list[tuple[Key, tuple[float, float]]] = []
    for half_hip in cp.half_hips:
        if half_hip.end_side is not end.side:
            continue
        heels = [ground.land(cp.cell, half_hip.side, at) for at in ((end.line_ft + end.truss_ft) / 2.0, end.truss_ft)]
        key, at = heels[0].member, heels[0].point_ft[1 - axis]
        if key is None or heels[1].member != key:
            continue
        if half_hip.side.is_high:
            middle = min((places[-1] + at) / 2.0, last)
            out.append((key, (middle, last)))
            last = middle
        else:
            middle = max((places[0] + at) / 2.0, first)
            out.append((key, (first, middle)))
            first = middle
    return (first, last), [(key, part) for key, part in out if part[1] - part[0] > TIE_FT]


def _same_place(one: Draft, other: Draft) -> bool:
    ends = ((one.start, other.start), (one.end, other.end))
    return all(math.dist(a.point_ft, b.point_ft) < SMALLEST_BAY_FT for a, b in ends)


def _strips(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    end: CellEnd,
    key: Key,
    depth_ft: float,
    at_girder: tuple[float, float],
    at_wall: tuple[float, float],
) -> list[RoofStrip]:
    """An end jack's strip, wider at the wall where it takes its half of the odd bay beside a corner jack."""
    axis = cp.cell.ridge_axis
    ring = [
        (0.0, at_wall[0]),
        (0.0, at_wall[1]),
        (depth_ft - (at_wall[1] - at_girder[1]), at_wall[1]),
        (depth_ft, at_girder[1]),
        (depth_ft, at_girder[0]),
        (depth_ft - (at_girder[0] - at_wall[0]), at_wall[0]),
    ]
    corners = [p for k, p in enumerate(ring) if math.dist(p, ring[k - 1]) > TIE_FT]
    points = tuple(cell_point(axis, end.line_ft + end.inward * d, c) for d, c in corners)
    over = plan.roof.overhang_ft
    tail = (end.line_ft, end.line_ft - end.inward * over)
    parts = ground.wall_parts(cp.cell, end.side, *at_wall) if over else []
    open_sides = cp.open_sides(end.truss_ft)
    return [
        RoofStrip(ring_ft=points, owner=key, wing=cp.cell.wing, outward=(), open_sides=open_sides),
        *(
            RoofStrip(ring_ft=cell_ring(axis, tail, p), owner=key, wing=cp.cell.wing, outward=(end.side,))
            for p in parts
        ),
    ]


def _end_jack_places(
    plan: Plan, ground: Ground, cp: CellPlan, between: tuple[float, float], *, keep_ends: tuple[bool, bool]
) -> list[float]:
    """Across the end at the truss spacing from the corner jack nearest the layout's start, the remainder at the
    far one; a side without a corner jack has its first jack one spacing in.
    """
    first, last = between
    spacing = plan.trusses.spacing_ft
    if last - first < SMALLEST_BAY_FT:
        return [(first + last) / 2.0]
    from_low = ground.starts_low(cp.cell, 1 - cp.cell.ridge_axis, first, last)
    near_kept, far_kept = keep_ends if from_low else keep_ends[::-1]
    n = int((last - first + TIE_FT) / spacing)
    steps = [k * spacing for k in range(n + 1)]
    length = last - first
    inner = [d for d in steps if SMALLEST_BAY_FT <= d <= length - SMALLEST_BAY_FT + TIE_FT]
    places = ([0.0] if near_kept else []) + inner + ([length] if far_kept else [])
    if not places:
        places = [length / 2.0]
    return sorted(first + d if from_low else last - d for d in places)
