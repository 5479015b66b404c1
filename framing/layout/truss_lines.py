"""Where the trusses of one cell stand along its ridge."""

from __future__ import annotations

from dataclasses import replace

from framing.frame_side import FrameSide
from framing.layout.cell_ends import hip_at, hips_and_setback
from framing.layout.cell_plan import CellEnd, CellPlan, EndKind, Slot
from framing.layout.landing import Ground
from framing.layout.records import PLY_FT, SMALLEST_BAY_FT, Cell, Key, KeyKind, cell_point, gable_truss_ft, on_wing_side
from framing.layout.seams import half_hips
from framing.members import MemberKind
from framing.plan import HipOrigin, Plan
from framing.roof.wings import Wing
from framing.tolerances import TIE_FT


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
    places, merged = _places(plan, near, far) if ends == (low, high) else ([near.truss_ft], [near.truss_ft])
    slots = []
    for i, at in enumerate(places):
        end = near if i == 0 else far if i == len(places) - 1 else None
        kind, plies = _kind(plan, wing, cell, hips, at, end)
        key = end.key if end is not None else Key(KeyKind.TRUSS, (cell.index, i))
        slots.append(Slot(at_ft=at, key=key, kind=kind, plies=plies))
    slots.sort(key=lambda s: s.at_ft)
    seams = [h for e in ends if e.kind is EndKind.HIP for h in half_hips(ground, cell, wing, e, slots)]
    return CellPlan(
        cell=cell,
        wing=wing,
        low_end=ends[0],
        high_end=ends[1],
        setback_ft=setback,
        slots=tuple(slots),
        half_hips=tuple(seams),
        merged_ft=tuple(merged),
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
    beside_ft = None if chord is None else ground.beside_support_ft(cell, side, chord)
    if beside_ft is not None:
        key = Key(KeyKind.END_TRUSS, (cell.index, side))
        return CellEnd(side=side, kind=EndKind.CHORD, line_ft=line, truss_ft=beside_ft, key=key)
    if chord is not None:
        return CellEnd(
            side=side, kind=EndKind.CHORD, line_ft=line, truss_ft=chord.bearing_ft, key=ground.chord_key(chord)
        )
    walls = ground.walls_at(cell, side)
    if not walls:
        middle = (cell.low_ft[side.along] + cell.high_ft[side.along]) / 2.0
        raise ground.nothing_carries(cell_point(side.axis, line, middle))
    past_jog = max(side.inward * w.bearing_ft for w in walls)  # the wall farthest in
    key = Key(KeyKind.END_TRUSS, (cell.index, side))
    return CellEnd(side=side, kind=EndKind.WALL, line_ft=line, truss_ft=side.inward * past_jog, key=key)


def _places(plan: Plan, near: CellEnd, far: CellEnd) -> tuple[list[float], list[float]]:
    """Truss lines from the near end to the far end, and those left out because a bay beside them is under 3 in."""
    toward, spacing = near.inward, plan.trusses.spacing_ft
    if near.key == far.key:
        return [near.truss_ft], []
    from_corner = near.kind is EndKind.GABLE or (
        near.kind is EndKind.HIP and plan.trusses.hip_origin is HipOrigin.CORNER
    )
    origin = near.line_ft if from_corner else near.truss_ft
    run = toward * (far.truss_ft - origin)
    room = toward * (far.line_ft - origin)
    first = toward * (near.truss_ft - origin)
    inside = max(first, toward * (near.line_ft - origin))  # a girder may stand past its line by an absorbed jog
    places = [near.truss_ft]
    merged: list[float] = []
    k = 1
    while k * spacing < run - TIE_FT:
        if k * spacing > inside + TIE_FT:
            bays = (k * spacing - inside, min(run, room) - k * spacing)
            kept = places if min(bays) >= SMALLEST_BAY_FT - TIE_FT else merged
            kept.append(origin + toward * k * spacing)
        k += 1
    places.append(far.truss_ft)
    return places, merged


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
