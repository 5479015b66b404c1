"""The trusses of one cell: where they stand along the ridge, and the strip of roof that each takes."""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace
from enum import Enum

from framing.frame_side import SIDES, FrameSide
from framing.layout.cell_ends import hip_at, hips_and_setback
from framing.layout.landing import Ground
from framing.layout.records import (
    PLY_FT,
    SMALLEST_BAY_FT,
    Cell,
    Draft,
    Key,
    KeyKind,
    Strip,
    cell_ring,
    gable_truss_ft,
    on_wing_side,
)
from framing.members import MemberKind
from framing.plan import HipOrigin, Plan, Point
from framing.roof.wings import Wing
from framing.tolerances import TIE_FT

MERGED = "A bay under 3 in. is merged with its neighbour."


class EndKind(Enum):
    """What a cell has at one end of its ridge."""

    HIP = "hip"
    GABLE = "gable"
    CHORD = "chord"
    WALL = "wall"


@dataclass(frozen=True, slots=True, kw_only=True)
class CellEnd:
    """One end of a cell: its line, the first truss line there and that truss's key (None: none of its own)."""

    side: FrameSide
    kind: EndKind
    line_ft: float
    truss_ft: float
    key: Key

    @property
    def inward(self) -> int:
        """Direction along the ridge into the cell."""
        return self.side.inward


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One truss line of a cell, by its coordinate along the ridge."""

    at_ft: float
    key: Key
    kind: MemberKind
    plies: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CellPlan:
    """A cell with its ends and its truss lines from low to high."""

    cell: Cell
    wing: Wing
    low_end: CellEnd
    high_end: CellEnd
    setback_ft: float
    slots: tuple[Slot, ...]
    notes: tuple[str, ...]

    @property
    def jacks_only(self) -> bool:
        """Whether jacks run from a hip end to the chord at the other end and take the whole cell."""
        kinds = {self.low_end.kind, self.high_end.kind}
        return self.low_end.key == self.high_end.key and kinds == {EndKind.HIP, EndKind.CHORD}


def plan_cell(plan: Plan, ground: Ground, cell: Cell, wing: Wing) -> CellPlan:
    """Where the trusses of a cell stand.

    Spacing runs from the end nearest the layout's start; the small bay is the last before the far end.
    """
    over = plan.roof.overhang_ft
    to_chord = [ground.short_hip_chord(cell, wing, s, over) for s in cell.ends]
    if any(to_chord):
        hips = [c is not None or hip_at(cell, wing, s) for c, s in zip(to_chord, cell.ends, strict=True)]
        setback = cell.size_ft(cell.ridge_axis)
    else:
        hips, setback = hips_and_setback(plan, cell, wing)
    low, high = (_cell_end(plan, ground, cell, wing, s, setback, hips) for s in cell.ends)
    ends = _one_on_chord(low, high)
    starts_low = ground.starts_low(cell, cell.ridge_axis, ends[0].line_ft, ends[1].line_ft)
    near, far = ends if starts_low else ends[::-1]
    places, note = _places(plan, near, far) if ends == (low, high) else ([near.truss_ft], (MERGED,))
    slots = []
    for i, at in enumerate(places):
        end = near if i == 0 else far if i == len(places) - 1 else None
        kind, plies = _kind(plan, wing, cell, hips, at, end)
        key = end.key if end is not None else Key(KeyKind.TRUSS, (cell.index, i))
        slots.append(Slot(at_ft=at, key=key, kind=kind, plies=plies))
    slots.sort(key=lambda s: s.at_ft)
    return CellPlan(
        cell=cell, wing=wing, low_end=ends[0], high_end=ends[1], setback_ft=setback, slots=tuple(slots), notes=note
    )


def _cell_end(
    plan: Plan, ground: Ground, cell: Cell, wing: Wing, side: FrameSide, setback: float, hips: list[bool]
) -> CellEnd:
    line = cell.side_ft(side)
    to = ground.short_hip_chord(cell, wing, side, plan.roof.overhang_ft)
    if to is not None:
        return CellEnd(side=side, kind=EndKind.HIP, line_ft=line, truss_ft=to.bearing_ft, key=ground.chord_key(to))
    if hips[side.is_high]:
        length = cell.size_ft(cell.ridge_axis)
        both = abs(2 * setback - length) <= TIE_FT and all(hips)
        key = Key(KeyKind.HIP_GIRDER, (cell.index, 0 if both else side))
        return CellEnd(side=side, kind=EndKind.HIP, line_ft=line, truss_ft=line + side.inward * setback, key=key)
    if wing.gable[side] and on_wing_side(cell, wing, side):
        at = wing.side_ft(side) + side.inward * (gable_truss_ft(plan) + PLY_FT / 2.0)
        key = Key(KeyKind.GABLE_END, (cell.index, side))
        return CellEnd(side=side, kind=EndKind.GABLE, line_ft=line, truss_ft=at, key=key)
    chord = ground.chord_at(cell, side)
    if chord is not None:
        return CellEnd(
            side=side, kind=EndKind.CHORD, line_ft=line, truss_ft=chord.bearing_ft, key=ground.chord_key(chord)
        )
    past_jog = max(side.inward * w.bearing_ft for w in ground.walls_at(cell, side))  # the wall farthest in
    key = Key(KeyKind.END_TRUSS, (cell.index, side))
    return CellEnd(side=side, kind=EndKind.WALL, line_ft=line, truss_ft=side.inward * past_jog, key=key)


def _places(plan: Plan, near: CellEnd, far: CellEnd) -> tuple[list[float], tuple[str, ...]]:
    """Truss lines from the near end to the far end."""
    toward, spacing = near.inward, plan.trusses.spacing_ft
    if near.key == far.key:
        return [near.truss_ft], ()
    from_corner = near.kind is EndKind.GABLE or (
        near.kind is EndKind.HIP and plan.trusses.hip_origin is HipOrigin.CORNER
    )
    origin = near.line_ft if from_corner else near.truss_ft
    run = toward * (far.truss_ft - origin)
    room = toward * (far.line_ft - origin)
    first = toward * (near.truss_ft - origin)
    inside = max(first, toward * (near.line_ft - origin))  # a girder may stand past its line by an absorbed jog
    places = [near.truss_ft]
    merged = False
    k = 1
    while k * spacing < run - TIE_FT:
        if k * spacing > inside + TIE_FT:
            bays = (k * spacing - inside, min(run, room) - k * spacing)
            slim = min(bays) < SMALLEST_BAY_FT - TIE_FT
            merged |= slim
            if not slim:
                places.append(origin + toward * k * spacing)
        k += 1
    places.append(far.truss_ft)
    return places, (MERGED,) if merged else ()


def _one_on_chord(low: CellEnd, high: CellEnd) -> tuple[CellEnd, CellEnd]:
    """The two ends; a plain wall's own truss less than 3 in. from a chord at the other end is that chord's."""
    slim = abs(high.truss_ft - low.truss_ft) < SMALLEST_BAY_FT - TIE_FT
    if slim and (low.kind, high.kind) == (EndKind.WALL, EndKind.CHORD):
        low = replace(low, key=high.key, truss_ft=high.truss_ft)
    elif slim and (low.kind, high.kind) == (EndKind.CHORD, EndKind.WALL):
        high = replace(high, key=low.key, truss_ft=low.truss_ft)
    return low, high


def _kind(
    plan: Plan, wing: Wing, cell: Cell, hips: list[bool], at: float, end: CellEnd | None
) -> tuple[MemberKind, int]:
    if end is not None and end.kind is EndKind.HIP:
        return MemberKind.HIP_GIRDER, plan.trusses.girder_plies
    if end is not None and end.kind is EndKind.GABLE:
        return MemberKind.GABLE_END, 1
    low, high = cell.ends
    full = wing.half_width_ft - TIE_FT
    near_hip = (hips[0] and at - wing.side_ft(low) < full) or (hips[1] and wing.side_ft(high) - at < full)
    return (MemberKind.STEP_DOWN if near_hip else MemberKind.COMMON), 1


def trusses(plan: Plan, ground: Ground, cp: CellPlan, seams: frozenset[int]) -> tuple[list[Draft], list[Strip]]:
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
    )


def _truss_strips(plan: Plan, ground: Ground, cp: CellPlan, slot: Slot, low: float, high: float) -> list[Strip]:
    """A truss line's strip inside the cell and, over walls, out to the eaves."""
    axis = cp.cell.ridge_axis
    across = (cp.cell.low_ft[1 - axis], cp.cell.high_ft[1 - axis])
    out = [
        Strip(ring_ft=r, owner=k, wing=cp.cell.wing, outward=())
        for r, k in _shared(ground, cp, slot, (low, high), across)
    ]
    reach = plan.roof.overhang_ft
    for end in (cp.low_end, cp.high_end):  # the overhang past a plain end wall goes to the first truss of the cell
        if end.kind is EndKind.WALL and slot.key == end.key and reach:
            beyond = (end.line_ft, end.line_ft - end.inward * reach)
            wide = (across[0] - reach, across[1] + reach)
            ring = cell_ring(axis, beyond, wide)
            out.append(Strip(ring_ft=ring, owner=slot.key, wing=cp.cell.wing, outward=SIDES, beyond=True))
    for i, side in enumerate(cp.cell.flanks):
        beyond = (across[i], across[i] + (reach if i else -reach))
        for part in ground.wall_parts(cp.cell, side, low, high) if reach else []:
            out.append(Strip(ring_ft=cell_ring(axis, part, beyond), owner=slot.key, wing=cp.cell.wing, outward=(side,)))
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
