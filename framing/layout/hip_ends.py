"""The jacks of one hip end: end jacks, side jacks and the 45 degree corner jacks, with their strips.

Along both walls of a corner side jacks stand at the truss spacing from the corner. The line at 45 degrees
from the corner divides the roof between them. A side jack's strip is cut by that line; its load is carried
as that of the square-ended strip of the same area (mean length), so that a uniform load goes half to the
wall and half to the corner jack: own derivation: tests/statics.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from framing.layout.ground import Ground
from framing.layout.parts import SHORTEST_PIECE_FT, SMALLEST_BAY_FT, Draft, Key, Landing, Strip, cell_point, cell_ring
from framing.layout.trusses import CellEnd, CellPlan
from framing.members import MemberKind
from framing.outline import TIE_FT, tie_key
from framing.plan import Plan, Point


@dataclass(frozen=True, slots=True, kw_only=True)
class _Corner:
    """A hip corner: `at_ft` (along, across) of the wing's corner, and the directions into the cell."""

    end: CellEnd
    side: int  # the cell's side across the ridge that the corner lies on
    along_ft: float
    across_ft: float
    toward_along: int
    toward_across: int
    key: Key


@dataclass(frozen=True, slots=True, kw_only=True)
class HipEnd:
    """What a hip end adds: members and strips."""

    drafts: tuple[Draft, ...]
    strips: tuple[Strip, ...]


def hip_end(plan: Plan, ground: Ground, cp: CellPlan, end: CellEnd) -> HipEnd:
    """The jacks between a cell's hip end and its hip girder."""
    corners = _corners(cp, end)
    drafts: list[Draft] = []
    strips: list[Strip] = []
    distances = _side_jack_distances(plan, cp.setback_ft)
    for corner in corners:
        drafts.append(_corner_jack(plan, ground, cp, corner))
        for on_end_wall in (False, True):
            d, s = _side_jacks(plan, ground, cp, corner, distances, on_end_wall=on_end_wall)
            drafts += d
            strips += s
        strips += _corner_strips(plan, ground, cp, corner, distances)
    d, s = _end_jacks(plan, ground, cp, end, corners, distances)
    return HipEnd(drafts=tuple(drafts + d), strips=tuple(strips + s))


def _corners(cp: CellPlan, end: CellEnd) -> list[_Corner]:
    """The cell's corners at this end that are also its wing's corners."""
    across = 1 - cp.cell.ridge_axis
    out = []
    for k in (0, 1):
        side = 2 * across + k
        if abs(cp.cell.side_ft(side) - cp.wing.side_ft(side)) <= TIE_FT:
            out.append(
                _Corner(
                    end=end,
                    side=side,
                    along_ft=end.line_ft,
                    across_ft=cp.cell.side_ft(side),
                    toward_along=end.inward,
                    toward_across=1 if k == 0 else -1,
                    key=("corner jack", cp.cell.index, end.side, k),
                )
            )
    return out


def _side_jack_distances(plan: Plan, setback_ft: float) -> tuple[list[float], list[float]]:
    """Distances from the corner at which side jacks are built, and the bounds of their strips.

    The bounds have one more entry: from the corner jack's strip to the half bay next to the girder.
    A jack shorter than the larger of the overhang and 12 in. is not built; its strip goes to the corner jack.
    """
    spacing = plan.trusses.spacing_ft
    shortest = max(plan.roof.overhang_ft, SHORTEST_PIECE_FT)
    all_places, k = [0.0], 1
    while k * spacing < setback_ft - SMALLEST_BAY_FT + TIE_FT:
        all_places.append(k * spacing)
        k += 1
    all_places.append(setback_ft)
    mids = [(a + b) / 2.0 for a, b in itertools.pairwise(all_places)]
    built = [(p, m) for p, m in zip(all_places[1:-1], mids, strict=False) if p >= shortest - TIE_FT]
    if not built:
        return [], [mids[-1]]
    return [p for p, _ in built], [m for _, m in built] + [mids[-1]]


def _at(cp: CellPlan, corner: _Corner, p: float, q: float, *, on_end_wall: bool) -> Point:
    """The frame point at p along a corner's wall from the corner and q square to it into the house."""
    da, dc = (q, p) if on_end_wall else (p, q)
    return cell_point(
        cp.cell.ridge_axis, corner.along_ft + corner.toward_along * da, corner.across_ft + corner.toward_across * dc
    )


def _direction(cp: CellPlan, corner: _Corner, p: float, q: float, *, on_end_wall: bool) -> Point:
    da, dc = (q, p) if on_end_wall else (p, q)
    return cell_point(cp.cell.ridge_axis, corner.toward_along * da, corner.toward_across * dc)


def _corner_jack(plan: Plan, ground: Ground, cp: CellPlan, corner: _Corner) -> Draft:
    """From the corner at 45 degrees to the hip girder."""
    half = plan.wall_thickness_ft / 2.0
    low = _corner_landing(ground, cp, corner, half)
    top = Landing(
        wall=None, member=corner.end.key, point_ft=_at(cp, corner, cp.setback_ft, cp.setback_ft, on_end_wall=False)
    )
    on_wall = low.wall is not None and bool(ground.walls_at(cp.cell, corner.side))
    tail = (plan.roof.overhang_ft + half) * 2.0**0.5 if on_wall else 0.0
    return Draft(
        key=corner.key,
        kind=MemberKind.CORNER_JACK,
        plies=1,
        start=low,
        end=top,
        tail_start_ft=tail,
        tail_end_ft=0.0,
        wing=cp.cell.wing,
        width_ft=plan.trusses.spacing_ft,
    )


def _corner_landing(ground: Ground, cp: CellPlan, corner: _Corner, half: float) -> Landing:
    """The wall whose left end the corner is; else the end wall or girder, else the side's."""
    point = _at(cp, corner, half, half, on_end_wall=False)
    outline_corner = _at(cp, corner, 0.0, 0.0, on_end_wall=False)
    for i, p in enumerate(ground.outline.local_ft):
        if abs(p[0] - outline_corner[0]) <= TIE_FT and abs(p[1] - outline_corner[1]) <= TIE_FT:
            return Landing(wall=i, member=None, point_ft=point)
    ends = ground.walls_at(cp.cell, corner.end.side)
    sides = ground.walls_at(cp.cell, corner.side)
    along, across = corner.along_ft + corner.toward_along * half, corner.across_ft + corner.toward_across * half
    if ends or not sides:
        return ground.land(cp.cell, corner.end.side, across)
    return ground.land(cp.cell, corner.side, along)


def _side_jacks(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    corner: _Corner,
    distances: tuple[list[float], list[float]],
    *,
    on_end_wall: bool,
) -> tuple[list[Draft], list[Strip]]:
    """The side jacks along one wall of a corner, and the girder's half bay beside them."""
    places, bounds = distances
    side = corner.end.side if on_end_wall else corner.side
    drafts, strips = [], []
    for i, (p, lo, hi) in enumerate(zip(places, bounds[:-1], bounds[1:], strict=True)):
        foot = _at(cp, corner, p, 0.0, on_end_wall=on_end_wall)
        landing = ground.land(cp.cell, side, foot[1 - side // 2])
        key: Key = ("side jack", *corner.key[1:], int(on_end_wall), i)
        drafts.append(
            Draft(
                key=key,
                kind=MemberKind.SIDE_JACK,
                plies=1,
                start=landing,
                end=Landing(wall=None, member=corner.key, point_ft=_at(cp, corner, p, p, on_end_wall=on_end_wall)),
                tail_start_ft=_tail(plan, landing),
                tail_end_ft=0.0,
                wing=cp.cell.wing,
                width_ft=hi - lo,
            )
        )
        measure = _direction(cp, corner, -0.5, 1.0, on_end_wall=on_end_wall)
        ring = tuple(_at(cp, corner, *pq, on_end_wall=on_end_wall) for pq in ((lo, 0.0), (hi, 0.0), (hi, hi), (lo, lo)))
        strips.append(Strip(ring_ft=ring, owner=key, outward=None, measure=measure))
        strips += _tail_strip(plan, ground, cp, corner, side, (lo, hi), key, on_end_wall=on_end_wall)
    if not on_end_wall:
        lo, hi = bounds[-1], cp.setback_ft
        corners = ((lo, 0.0), (hi, 0.0), (hi, hi), (lo, lo))
        ring = tuple(_at(cp, corner, *pq, on_end_wall=False) for pq in corners)
        strips.append(Strip(ring_ft=ring, owner=corner.end.key, outward=None))
        strips += _tail_strip(plan, ground, cp, corner, side, (lo, hi), corner.end.key, on_end_wall=False)
    return drafts, strips


def _tail(plan: Plan, landing: Landing) -> float:
    return plan.roof.overhang_ft + plan.wall_thickness_ft / 2.0 if landing.wall is not None else 0.0


def _tail_strip(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    corner: _Corner,
    side: int,
    along: tuple[float, float],
    key: Key,
    *,
    on_end_wall: bool,
) -> list[Strip]:
    """The eave overhang in front of a strip, where a wall stands there."""
    over = plan.roof.overhang_ft
    out = []
    for low, high in _wall_parts(ground, cp, corner, side, along, on_end_wall=on_end_wall) if over else []:
        corners = ((low, -over), (high, -over), (high, 0.0), (low, 0.0))
        ring = tuple(_at(cp, corner, *pq, on_end_wall=on_end_wall) for pq in corners)
        out.append(Strip(ring_ft=ring, owner=key, outward=side))
    return out


def _wall_parts(
    ground: Ground, cp: CellPlan, corner: _Corner, side: int, along: tuple[float, float], *, on_end_wall: bool
) -> list[tuple[float, float]]:
    """The parts of an interval, by distance from a corner along its wall, behind which an outside wall stands."""
    axis = 1 - side // 2
    ends = sorted(_at(cp, corner, p, 0.0, on_end_wall=on_end_wall)[axis] for p in along)
    from_ft = _at(cp, corner, 0.0, 0.0, on_end_wall=on_end_wall)[axis]
    parts = ground.wall_parts(cp.cell, side, *ends)
    return [(min(abs(a - from_ft), abs(b - from_ft)), max(abs(a - from_ft), abs(b - from_ft))) for a, b in parts]


def _corner_strips(
    plan: Plan, ground: Ground, cp: CellPlan, corner: _Corner, distances: tuple[list[float], list[float]]
) -> list[Strip]:
    """The square at the corner, and its tail: a half bay on both sides and, where the house has its own corner
    there, the overhang's square.
    """
    to, over = distances[1][0], plan.roof.overhang_ft
    ring = tuple(_at(cp, corner, *pq, on_end_wall=False) for pq in ((0.0, 0.0), (to, 0.0), (to, to), (0.0, to)))
    strips = [Strip(ring_ft=ring, owner=corner.key, outward=None)]
    if over:
        own_corner = ground.is_outside_corner(_at(cp, corner, 0.0, 0.0, on_end_wall=False))
        for on_end_wall, side in ((False, corner.side), (True, corner.end.side)):
            strips += _tail_strip(plan, ground, cp, corner, side, (0.0, to), corner.key, on_end_wall=on_end_wall)
            if own_corner:
                square = ((-over, -over), (0.0, -over), (0.0, 0.0), (-over, 0.0))
                ring = tuple(_at(cp, corner, *pq, on_end_wall=on_end_wall) for pq in square)
                strips.append(Strip(ring_ft=ring, owner=corner.key, outward=side, beyond=True))
    return strips


def _end_jacks(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    end: CellEnd,
    corners: list[_Corner],
    distances: tuple[list[float], list[float]],
) -> tuple[list[Draft], list[Strip]]:
    """Full-length jacks from the end line to the hip girder, between the corner jacks' tops."""
    axis = cp.cell.ridge_axis
    low, high = cp.cell.low_ft[1 - axis], cp.cell.high_ft[1 - axis]
    at_low = any(c.toward_across > 0 for c in corners)
    at_high = any(c.toward_across < 0 for c in corners)
    setback, cut = cp.setback_ft, distances[1][-1]
    first = low + setback if at_low else low
    last = high - setback if at_high else high
    places = _end_jack_places(plan, ground, cp, (first, last), keep_ends=(at_low, at_high))
    drafts: list[Draft] = []
    strips: list[Strip] = []
    mids = [(a + b) / 2.0 for a, b in itertools.pairwise(places)]
    bounds = list(zip([first, *mids], [*mids, last], strict=True))
    depth = (end.line_ft, end.line_ft + end.inward * setback)
    for i, (at, (lo, hi)) in enumerate(zip(places, bounds, strict=True)):
        landing = ground.land(cp.cell, end.side, at)
        key: Key = ("end jack", cp.cell.index, end.side, i)
        wide_lo = low + cut if i == 0 and at_low else lo
        wide_hi = high - cut if i == len(places) - 1 and at_high else hi
        top = Landing(wall=None, member=end.key, point_ft=cell_point(axis, depth[1], at))
        drafts.append(
            Draft(
                key=key,
                kind=MemberKind.END_JACK,
                plies=1,
                start=landing,
                end=top,
                tail_start_ft=_tail(plan, landing),
                tail_end_ft=0.0,
                wing=cp.cell.wing,
                width_ft=hi - lo if not (at_low or at_high) else max(hi - lo, plan.trusses.spacing_ft / 2),
            )
        )
        inner_lo, inner_hi = setback - (lo - wide_lo), setback - (wide_hi - hi)
        corners_ring = [
            (0.0, wide_lo),
            (0.0, wide_hi),
            (inner_hi, wide_hi),
            (setback, hi),
            (setback, lo),
            (inner_lo, wide_lo),
        ]
        ring = tuple(cell_point(axis, end.line_ft + end.inward * d, c) for d, c in corners_ring)
        strips.append(Strip(ring_ft=ring, owner=key, outward=None))
        out = (end.line_ft, end.line_ft - end.inward * plan.roof.overhang_ft)
        for part in ground.wall_parts(cp.cell, end.side, wide_lo, wide_hi) if plan.roof.overhang_ft else []:
            strips.append(Strip(ring_ft=cell_ring(axis, out, part), owner=key, outward=end.side))
    return drafts, strips


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
    across = 1 - cp.cell.ridge_axis
    sides = (2 * across, 2 * across + 1)
    typed = [
        min((ground.outline.walls[w.index].typed_order for w in ground.walls_at(cp.cell, s)), default=len(ground.walls))
        for s in sides
    ]
    origin = ground.origin_ft[across]
    from_low = (tie_key(abs(origin - first)), typed[0]) <= (tie_key(abs(origin - last)), typed[1])
    near_kept, far_kept = keep_ends if from_low else keep_ends[::-1]
    n = int((last - first + TIE_FT) / spacing)
    steps = [k * spacing for k in range(n + 1)]
    length = last - first
    inner = [d for d in steps if SMALLEST_BAY_FT <= d <= length - SMALLEST_BAY_FT + TIE_FT]
    places = ([0.0] if near_kept else []) + inner + ([length] if far_kept else [])
    if not places:
        places = [length / 2.0]
    return sorted(first + d if from_low else last - d for d in places)
