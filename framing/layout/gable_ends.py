"""A gable-end truss: it stands on the wall along its whole length, with anchors at the stated spacing.

The outlookers' strip, from the rake's edge to the first truss inside, is a lever over the gable wall: with
backspan b and overhang OH under w the wall takes w (OH + b/2 + OH^2 / (2 b)), the truss inside
w (b/2 - OH^2 / (2 b)). It is kept in two halves, because a rake framed as a ladder hangs on the gable end alone: the
gable then takes w (OH + b/2), the truss inside its plain strip. Source: own derivation: tests/statics.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

from framing.errors import LayoutError
from framing.frame_side import SIDES, FrameSide
from framing.layout.cell_plan import CellEnd, CellPlan
from framing.layout.landing import Ground
from framing.layout.records import (
    PLY_FT,
    SHORTEST_PIECE_FT,
    SMALLEST_BAY_FT,
    Draft,
    Key,
    Landing,
    RoofStrip,
    WallLine,
    cell_point,
    cell_ring,
    on_wing_side,
)
from framing.layout.trusses import outlookers_reach
from framing.members import MemberKind, OutlookerLever
from framing.plan import GableWall, Plan
from framing.tolerances import TIE_FT

Interval = tuple[float, float]


def gable_end(plan: Plan, ground: Ground, cp: CellPlan, end: CellEnd) -> tuple[Draft, list[RoofStrip]]:
    """The gable-end truss of a cell's end and the strips of its anchors.

    Raises
    ------
    LayoutError
        If the plan has a masonry gable there: its raked beam carries what a gable-end truss would, and is not framed.
    """
    across = 1 - cp.cell.ridge_axis
    low, high = cp.cell.low_ft[across], cp.cell.high_ft[across]
    walls = _gable_walls(ground, cp, end)
    if plan.roof.gable_wall is GableWall.MASONRY:
        name = ground.outline.walls[walls[0].index].name
        raise LayoutError(
            f'roof gable_wall: block up to a raked beam is not framed on {name}; write "truss" for a gable-end truss '
            f"on the tie beam, or make {name} a hip by [[roof.edge]], and leave raked beam and nailer to the engineer"
        )
    places = anchor_places_ft(
        max(low, min(w.own_ft[0] for w in walls)),
        min(high, max(w.own_ft[1] for w in walls)),
        plan.trusses.gable_anchor_spacing_ft,
        from_low=ground.starts_low(cp.cell, across, low, high),
    )
    to, mid, lever = _reach(plan, cp, end)
    strips = []
    mids = [(a + b) / 2.0 for a, b in itertools.pairwise(places)]
    for k, between in enumerate(zip([low, *mids], [*mids, high], strict=True)):
        at_ends = (k == 0, k == len(places) - 1)
        strips += [
            RoofStrip(
                ring_ft=cell_ring(cp.cell.ridge_axis, a, c),
                owner=end.key,
                wing=cp.cell.wing,
                outward=outward,
                anchor=k,
                lever=lever and replace(lever, nearer_inside=min(a) >= min(mid, to) and max(a) <= max(mid, to)),
                beyond=past_the_wall,
            )
            for a, c, outward, past_the_wall in _parts(plan, ground, cp, end, (mid, to), between, at_ends)
        ]
    return _draft(plan, ground, cp, end, to, places), strips


def _gable_walls(ground: Ground, cp: CellPlan, end: CellEnd) -> list[WallLine]:
    """The walls under a gable end: those whose face its wing ends on, not what stands before or behind it."""
    return [w for w in ground.walls_at(cp.cell, end.side) if abs(w.face_ft - cp.wing.side_ft(end.side)) <= TIE_FT]


def _reach(plan: Plan, cp: CellPlan, end: CellEnd) -> tuple[float, float, OutlookerLever[Key] | None]:
    """How far in the gable end's strip runs, midway to the truss inside, and the outlookers' lever: to the first truss
    inside, or without a lever midway to it.
    """
    axis = cp.cell.ridge_axis
    if len(cp.slots) < 2:
        return end.line_ft, end.line_ft, None
    inside = cp.slots[1] if end is cp.low_end else cp.slots[-2]
    to = mid = (end.truss_ft + inside.at_ft) / 2.0
    lever = None
    if outlookers_reach(plan, cp, end):
        to = inside.at_ft
        if plan.roof.gable_truss_ft is None:  # it may stand flush: the ladder's first truss then carries the most
            mid = (cp.wing.side_ft(end.side) + end.side.inward * PLY_FT / 2.0 + inside.at_ft) / 2.0
        lever = OutlookerLever(inside=inside.key, axis=axis, gable_ft=end.truss_ft, inside_ft=to, nearer_inside=False)
    low, high = cp.cell.low_ft[axis], cp.cell.high_ft[axis]
    return min(max(to, low), high), min(max(mid, low), high), lever


def _draft(plan: Plan, ground: Ground, cp: CellPlan, end: CellEnd, to: float, places: list[float]) -> Draft:
    axis, across, sides = cp.cell.ridge_axis, 1 - cp.cell.ridge_axis, cp.cell.flanks
    wall = _gable_walls(ground, cp, end)[0]
    landings = [
        Landing(
            wall=wall.index,
            member=None,
            point_ft=cell_point(axis, end.truss_ft, ground.land(cp.cell, s, end.truss_ft).point_ft[across]),
        )
        for s in sides
    ]
    at = end.truss_ft
    on_wall = [any(w.low_ft <= at <= w.high_ft for w in ground.walls_at(cp.cell, s)) for s in sides]
    tails = [plan.roof.overhang_ft + plan.wall_thickness_ft / 2.0 if on else 0.0 for on in on_wall]
    return Draft(
        key=end.key,
        kind=MemberKind.GABLE_END,
        plies=1,
        start=landings[0],
        end=landings[1],
        tail_start_ft=tails[0],
        tail_end_ft=tails[1],
        wing=cp.cell.wing,
        width_ft=abs(to - end.truss_ft) / 2.0 + plan.roof.rake_overhang_ft,
        gable_wall=wall.index,
        gable_anchors=tuple(ground.land(cp.cell, end.side, c) for c in places),
    )


def _parts(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    end: CellEnd,
    reach: Interval,
    between: Interval,
    at_ends: tuple[bool, bool],
) -> list[tuple[Interval, Interval, tuple[FrameSide, ...], bool]]:
    """One anchor's part of the gable end: inside in two halves, under the rake, and at its ends out to the eaves.

    `reach` is midway to the truss inside and how far in the strip runs. Each is (along, across, the sides that the
    eave there may fall toward, whether it lies past the wall's end).
    """
    over, rake = plan.roof.overhang_ft, plan.roof.rake_overhang_ft
    mid, to = reach
    inner = [(end.line_ft, mid), (mid, to)] if abs(to - mid) > TIE_FT else [(end.line_ft, to)]
    beyond = (end.line_ft, end.line_ft - end.inward * rake)
    parts: list[tuple[Interval, Interval, tuple[FrameSide, ...], bool]] = [(a, between, (), False) for a in inner]
    if rake:
        parts.append((beyond, between, SIDES, False))
    tails = ((between[0] - over, between[0]), (between[1], between[1] + over))
    for k, side in enumerate(cp.cell.flanks):
        if not (at_ends[k] and over):
            continue
        if rake and on_wing_side(cp.cell, cp.wing, side):
            parts.append((beyond, tails[k], (side,), True))
        for half in inner:
            low, high = sorted(half)
            parts += [(part, tails[k], (side,), False) for part in ground.wall_parts(cp.cell, side, low, high)]
    return parts


def anchor_places_ft(low_ft: float, high_ft: float, spacing_ft: float, *, from_low: bool) -> list[float]:
    """Coordinates of a gable end's anchors: 12 in. from each end, between them at the spacing from the end
    nearest the layout's start, the small bay last: the last two may stand near each other, so that no bay is wider than
    the spacing and the end has its own. Source: common practice, no source.
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
