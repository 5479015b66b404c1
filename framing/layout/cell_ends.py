"""What a cell has at its sides: a chord along it, a hip, a hip so short that its jacks run to the chord."""

from __future__ import annotations

from framing.frame_side import FrameSide
from framing.layout.records import (
    NARROW_WING_FT,
    SHORTEST_HIP_CELL_FT,
    SHORTEST_PIECE_FT,
    SMALLEST_BAY_FT,
    Cell,
    Chord,
    on_wing_side,
)
from framing.plan import Plan
from framing.roof.wings import Wing
from framing.tolerances import TIE_FT


def touches(chord: Chord, cell: Cell, side: FrameSide) -> bool:
    """Whether a chord lies along a cell's side."""
    axis = side.along
    return (
        chord.axis == axis
        and abs(chord.line_ft - cell.side_ft(side)) <= TIE_FT
        and min(chord.high_ft, cell.high_ft[axis]) - max(chord.low_ft, cell.low_ft[axis]) > TIE_FT
    )


def hip_at(cell: Cell, wing: Wing, side: FrameSide) -> bool:
    """Whether a cell has a hip at a side: only where it lies on its own wing's end."""
    across = wing.size_ft[1 - cell.ridge_axis]
    return (
        side in cell.ends
        and not wing.gable[side]
        and on_wing_side(cell, wing, side)
        and _depth_ft(cell, wing) >= SHORTEST_HIP_CELL_FT
        and across >= NARROW_WING_FT - TIE_FT
    )


def _depth_ft(cell: Cell, wing: Wing) -> float:
    """A cell's length along the ridge as far as its wing reaches, without what lies past it over an absorbed jog."""
    axis = cell.ridge_axis
    return min(cell.high_ft[axis], wing.high_ft[axis]) - max(cell.low_ft[axis], wing.low_ft[axis])


def short_hip_at(cell: Cell, wing: Wing, side: FrameSide, overhang_ft: float) -> bool:
    """Whether a cell is so short that jacks run from its hip end straight to the chord at its other end: half its
    length, the setback that a hip girder of its own would get, makes jacks shorter than are built.
    """
    length = cell.size_ft(cell.ridge_axis)
    n_corners = sum(on_wing_side(cell, wing, s) for s in cell.flanks)
    return (
        side in cell.ends
        and not wing.gable[side]
        and on_wing_side(cell, wing, side)
        and not on_wing_side(cell, wing, side.opposite)
        and wing.size_ft[1 - cell.ridge_axis] >= NARROW_WING_FT - TIE_FT
        and _depth_ft(cell, wing) >= SHORTEST_PIECE_FT
        and length < 2.0 * max(overhang_ft, SHORTEST_PIECE_FT) - TIE_FT
        and length * n_corners <= cell.size_ft(1 - cell.ridge_axis) + TIE_FT
    )


def covers_side(chord: Chord, cell: Cell, side: FrameSide) -> bool:
    """Whether a chord runs along the whole of a cell's side."""
    axis = side.along
    return (
        touches(chord, cell, side)
        and chord.low_ft <= cell.low_ft[axis] + TIE_FT
        and chord.high_ft >= cell.high_ft[axis] - TIE_FT
    )


def hips_and_setback(plan: Plan, cell: Cell, wing: Wing) -> tuple[list[bool], float]:
    """At which ends a cell has a hip, and its setback: only where end jacks of a length find room behind the wing's
    own end, which lies inside the cell's over an absorbed jog.
    """
    wanted = [hip_at(cell, wing, s) for s in cell.ends]
    setback = _setback_ft(plan, cell, wing, sum(wanted))
    least = SHORTEST_PIECE_FT + plan.wall_thickness_ft / 2.0
    past = [abs(cell.side_ft(s) - wing.side_ft(s)) for s in cell.ends]
    hips = [h and setback - p >= least - TIE_FT for h, p in zip(wanted, past, strict=True)]
    return hips, setback if hips == wanted else _setback_ft(plan, cell, wing, sum(hips))


def _setback_ft(plan: Plan, cell: Cell, wing: Wing, n_hips: int) -> float:
    """Outside face to hip girder: as asked for, at most half the wing's width and half the cell's length; and
    no more than its corner jacks, at 45 degrees, find room for across the cell.
    """
    length, across = cell.size_ft(cell.ridge_axis), 1 - cell.ridge_axis
    setback = min(plan.trusses.setback_ft, wing.size_ft[across] / 2.0)
    n_corners = sum(on_wing_side(cell, wing, s) for s in cell.flanks)
    if n_hips and n_corners:
        setback = min(setback, cell.size_ft(across) / n_corners)
    if n_hips == 2 and length - 2 * setback < SMALLEST_BAY_FT:
        return length / 2.0
    return min(setback, length / 2.0) if n_hips else setback
