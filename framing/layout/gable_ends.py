"""A gable-end truss: it stands on the wall along its whole length, with anchors at the stated spacing.

The outlookers' strip, from the rake's edge to the first truss inside, is a lever over the gable wall: with
backspan b and overhang OH under w the wall takes w (OH + b/2 + OH^2 / (2 b)), the truss inside
w (b/2 - OH^2 / (2 b)). Source: own derivation: tests/statics.
"""

from __future__ import annotations

import itertools

from framing.layout.ground import Ground
from framing.layout.parts import SHORTEST_PIECE_FT, SMALLEST_BAY_FT, Draft, Landing, Strip, cell_point, cell_ring
from framing.layout.trusses import CellEnd, CellPlan, outlookers_reach
from framing.members import MemberKind
from framing.outline import TIE_FT
from framing.plan import Plan

Interval = tuple[float, float]


def gable_end(plan: Plan, ground: Ground, cp: CellPlan, end: CellEnd) -> tuple[Draft, list[Strip]]:
    """The gable-end truss of a cell's end and the strips of its anchors."""
    axis = cp.cell.ridge_axis
    low, high = cp.cell.low_ft[1 - axis], cp.cell.high_ft[1 - axis]
    wall = ground.walls_at(cp.cell, end.side)[0]
    places = anchor_places_ft(
        low, high, plan.trusses.gable_anchor_spacing_ft, from_low=_from_low(ground, cp, low, high)
    )
    half = plan.wall_thickness_ft / 2.0
    over, rake = plan.roof.overhang_ft, plan.roof.rake_overhang_ft
    i_gable = 0 if end is cp.low_end else len(cp.slots) - 1
    inside = cp.slots[1 if i_gable == 0 else -2] if len(cp.slots) > 1 else None
    lever = None
    if inside is not None and outlookers_reach(plan, cp, end):
        to, lever = inside.at_ft, (inside.key, axis, end.truss_ft, inside.at_ft)
    else:
        to = (end.truss_ft + inside.at_ft) / 2.0 if inside is not None else end.line_ft
    ends = [ground.land(cp.cell, s, end.truss_ft).point_ft[1 - axis] for s in (2 * (1 - axis), 2 * (1 - axis) + 1)]
    points = [cell_point(axis, end.truss_ft, c) for c in ends]
    to = min(max(to, cp.cell.low_ft[axis]), cp.cell.high_ft[axis])
    tail = over + half
    draft = Draft(
        key=end.key,
        kind=MemberKind.GABLE_END,
        plies=1,
        start=Landing(wall=wall.index, member=None, point_ft=points[0]),
        end=Landing(wall=wall.index, member=None, point_ft=points[1]),
        tail_start_ft=tail if ground.walls_at(cp.cell, 2 * (1 - axis)) else 0.0,
        tail_end_ft=tail if ground.walls_at(cp.cell, 2 * (1 - axis) + 1) else 0.0,
        wing=cp.cell.wing,
        width_ft=abs(to - end.truss_ft) / 2.0 + rake,
        gable_wall=wall.index,
        gable_anchors_ft=tuple(cell_point(axis, wall.bearing_ft, c) for c in places),
    )
    strips = []
    mids = [(a + b) / 2.0 for a, b in itertools.pairwise(places)]
    for k, (c0, c1) in enumerate(zip([low, *mids], [*mids, high], strict=True)):
        first, last = k == 0, k == len(places) - 1
        inner, beyond = (end.line_ft, to), (end.line_ft, end.line_ft - end.inward * rake)
        pieces: list[tuple[Interval, Interval, int | None, bool]] = [(inner, (c0, c1), None, False)]
        if rake:
            pieces.append((beyond, (c0, c1), -1, False))
        for at_end, k_side, c in ((first, 0, (c0 - over, c0)), (last, 1, (c1, c1 + over))):
            side = 2 * (1 - axis) + k_side
            at_wing_edge = abs(cp.cell.side_ft(side) - cp.wing.side_ft(side)) <= TIE_FT
            if at_end and at_wing_edge and over and rake:
                pieces.append((beyond, c, side, True))
            if at_end and over:
                low_in, high_in = sorted(inner)
                pieces += [(part, c, side, False) for part in ground.wall_parts(cp.cell, side, low_in, high_in)]
        strips += [
            Strip(
                ring_ft=cell_ring(axis, a, c), owner=end.key, outward=out, anchor=k, lever=lever, beyond=past_the_wall
            )
            for a, c, out, past_the_wall in pieces
        ]
    return draft, strips


def _from_low(ground: Ground, cp: CellPlan, low: float, high: float) -> bool:
    origin = ground.origin_ft[1 - cp.cell.ridge_axis]
    return abs(origin - low) <= abs(origin - high)


def anchor_places_ft(low_ft: float, high_ft: float, spacing_ft: float, *, from_low: bool) -> list[float]:
    """Coordinates of a gable end's anchors: 12 in. from each end, between them at the spacing from the end
    nearest the layout's start, the small bay last. Source: common practice, no source.
    """
    length = high_ft - low_ft
    if length < 2 * SHORTEST_PIECE_FT + SMALLEST_BAY_FT:
        return [(low_ft + high_ft) / 2.0]
    places, d = [SHORTEST_PIECE_FT], SHORTEST_PIECE_FT + spacing_ft
    while d < length - SHORTEST_PIECE_FT - SMALLEST_BAY_FT:
        places.append(d)
        d += spacing_ft
    places.append(length - SHORTEST_PIECE_FT)
    return sorted(low_ft + p if from_low else high_ft - p for p in places)
