"""The trusses of one cell, and the strip of roof that each takes."""

from __future__ import annotations

import itertools

from framing.frame_side import SIDES
from framing.layout.cell_plan import CellEnd, CellPlan, EndKind, Slot
from framing.layout.landing import Ground
from framing.layout.records import Draft, Key, KeyKind, RoofStrip, cell_ring
from framing.members import MemberKind
from framing.plan import Plan, Point
from framing.tolerances import TIE_FT


def trusses(plan: Plan, ground: Ground, cp: CellPlan, seams: frozenset[int]) -> tuple[list[Draft], list[RoofStrip]]:
    """The spanning trusses of a cell and the strips of roof that its truss lines take.

    `seams` are the chords whose plain truss belongs to this cell.
    """
    drafts, strips = [], []
    for slot, plain, (low, high) in zip(cp.slots, _plain_bounds(cp), strip_bounds(plan, cp), strict=True):
        if _is_own(slot.key, seams):
            drafts.append(_truss(plan, ground, cp, slot, plain[1] - plain[0]))
        if slot.kind is not MemberKind.GABLE_END and high - low > TIE_FT and not cp.jacks_only:
            strips += _truss_strips(plan, ground, cp, slot, low, high)
    return drafts, strips


def _is_own(key: Key, seams: frozenset[int]) -> bool:
    """Whether a truss line's truss is one of the cell's own."""
    own = (KeyKind.TRUSS, KeyKind.HIP_GIRDER, KeyKind.END_TRUSS)
    return key.kind in own or (key.kind is KeyKind.SEAM and key.place[0] in seams)


def strip_bounds(plan: Plan, cp: CellPlan) -> list[tuple[float, float]]:
    """For each truss line, from where to where along the ridge its strip runs inside the cell.

    Midway to the neighbours; at a chord or a plain wall to the cell's end; next to a gable end from the truss itself,
    where the outlookers' strip ends; a hip girder takes its inner half bay.
    """
    low, high = (list(bounds) for bounds in zip(*_plain_bounds(cp), strict=True))
    if outlookers_reach(plan, cp, cp.low_end):
        low[1] = min(cp.slots[1].at_ft, cp.high_end.line_ft)
    if outlookers_reach(plan, cp, cp.high_end):
        high[-2] = max(cp.slots[-2].at_ft, cp.low_end.line_ft)
    return list(zip(low, high, strict=True))


def _plain_bounds(cp: CellPlan) -> list[tuple[float, float]]:
    """The same without outlookers."""
    at = [s.at_ft for s in cp.slots]
    mids = [min(max((a + b) / 2.0, cp.low_end.line_ft), cp.high_end.line_ft) for a, b in itertools.pairwise(at)]
    ends = ((cp.low_end, at[0]), (cp.high_end, at[-1]))
    first, last = (truss_ft if end.kind is EndKind.HIP else end.line_ft for end, truss_ft in ends)
    return list(itertools.pairwise((first, *mids, last)))


def outlookers_reach(plan: Plan, cp: CellPlan, end: CellEnd) -> bool:
    """Whether a gable's outlookers run to the first truss inside: where its bay is half the backspan asked for or more.
    Else they are no lever: the gable takes its half bay and the whole overhang.
    """
    if end.kind is not EndKind.GABLE or len(cp.slots) < 2:
        return False
    inside = cp.slots[1 if end is cp.low_end else -2]
    bay = abs(inside.at_ft - end.truss_ft)
    return inside.kind is not MemberKind.GABLE_END and bay >= plan.roof.outlooker_backspan_ft / 2.0


def _truss(plan: Plan, ground: Ground, cp: CellPlan, slot: Slot, width: float) -> Draft:
    start, end = (ground.land(cp.cell, s, slot.at_ft) for s in cp.cell.flanks)
    tail = plan.roof.overhang_ft + plan.wall_thickness_ft / 2.0
    return Draft(
        key=slot.key,
        kind=slot.kind,
        plies=slot.plies,
        start=start,
        end=end,
        tail_start_ft=tail if start.wall is not None else 0.0,
        tail_end_ft=tail if end.wall is not None else 0.0,
        wing=cp.cell.wing,
        width_ft=width,
        open_sides=cp.open_sides(slot.at_ft),
    )


def _truss_strips(plan: Plan, ground: Ground, cp: CellPlan, slot: Slot, low: float, high: float) -> list[RoofStrip]:
    """A truss line's strip inside the cell and, over walls, out to the eaves."""
    axis = cp.cell.ridge_axis
    across = (cp.cell.low_ft[1 - axis], cp.cell.high_ft[1 - axis])
    out = [
        RoofStrip(ring_ft=r, owner=k, wing=cp.cell.wing, outward=(), open_sides=cp.open_sides(slot.at_ft))
        for r, k in _shared(ground, cp, slot, (low, high), across)
    ]
    reach = plan.roof.overhang_ft
    for end in (cp.low_end, cp.high_end):  # the overhang past a plain end wall goes to the first truss of the cell
        if end.kind is EndKind.WALL and slot.key == end.key and reach:
            beyond = (end.line_ft, end.line_ft - end.inward * reach)
            wide = (across[0] - reach, across[1] + reach)
            ring = cell_ring(axis, beyond, wide)
            out.append(RoofStrip(ring_ft=ring, owner=slot.key, wing=cp.cell.wing, outward=SIDES, beyond=True))
    for i, side in enumerate(cp.cell.flanks):
        beyond = (across[i], across[i] + (reach if i else -reach))
        for part in ground.wall_parts(cp.cell, side, low, high) if reach else []:
            out.append(
                RoofStrip(ring_ft=cell_ring(axis, part, beyond), owner=slot.key, wing=cp.cell.wing, outward=(side,))
            )
    return out


def _shared(
    ground: Ground, cp: CellPlan, slot: Slot, along: tuple[float, float], across: tuple[float, float]
) -> list[tuple[tuple[Point, ...], Key]]:
    """The strip inside the cell; where a chord covers only part of the cell's end, the rest of its half bay
    goes to the next truss.
    """
    axis = cp.cell.ridge_axis
    for end in (cp.low_end, cp.high_end):
        chord = ground.chord_at(cp.cell, end.side) if end.kind is EndKind.CHORD else None
        if chord is None or not chord.girder or slot.key != end.key or len(cp.slots) < 2:
            continue
        low, high = max(chord.girder_ft[0], across[0]), min(chord.girder_ft[1], across[1])
        next_key = cp.slots[1 if end is cp.low_end else -2].key
        parts = [((low, high), slot.key), ((across[0], low), next_key), ((high, across[1]), next_key)]
        return [(cell_ring(axis, along, c), k) for c, k in parts if c[1] - c[0] > TIE_FT]
    return [(cell_ring(axis, along, across), slot.key)]
