"""What a cell has at its sides: a chord along it, a hip, a hip so short that its jacks run to the chord."""

from __future__ import annotations

from framing.layout.parts import NARROW_WING_FT, SHORTEST_HIP_CELL_FT, SHORTEST_PIECE_FT, Cell, Chord, on_wing_side
from framing.outline import TIE_FT
from framing.wings import Wing


def touches(chord: Chord, cell: Cell, side: int) -> bool:
    """Whether a chord lies along a cell's side."""
    axis = side // 2
    return (
        chord.axis == 1 - axis
        and abs(chord.line_ft - cell.side_ft(side)) <= TIE_FT
        and min(chord.high_ft, cell.high_ft[1 - axis]) - max(chord.low_ft, cell.low_ft[1 - axis]) > TIE_FT
    )


def hip_at(cell: Cell, wing: Wing, side: int) -> bool:
    """Whether a cell has a hip at a side: only where it lies on its own wing's end."""
    across = wing.size_ft[1 - cell.ridge_axis]
    return (
        side // 2 == cell.ridge_axis
        and not wing.gable[side]
        and on_wing_side(cell, wing, side)
        and cell.size_ft(cell.ridge_axis) >= SHORTEST_HIP_CELL_FT
        and across >= NARROW_WING_FT - TIE_FT
    )


def short_hip_at(cell: Cell, wing: Wing, side: int, overhang_ft: float) -> bool:
    """Whether a cell is so short that jacks run from its hip end straight to the chord at its other end: half its
    length, the setback that a hip girder of its own would get, makes jacks shorter than are built.
    """
    length = cell.size_ft(cell.ridge_axis)
    n_corners = sum(on_wing_side(cell, wing, 2 * (1 - cell.ridge_axis) + k) for k in (0, 1))
    return (
        side // 2 == cell.ridge_axis
        and not wing.gable[side]
        and on_wing_side(cell, wing, side)
        and not on_wing_side(cell, wing, side ^ 1)
        and wing.size_ft[1 - cell.ridge_axis] >= NARROW_WING_FT - TIE_FT
        and SHORTEST_PIECE_FT <= length < 2.0 * max(overhang_ft, SHORTEST_PIECE_FT) - TIE_FT
        and length * n_corners <= cell.size_ft(1 - cell.ridge_axis) + TIE_FT
    )


def covers_side(chord: Chord, cell: Cell, side: int) -> bool:
    """Whether a chord runs along the whole of a cell's side."""
    axis = 1 - side // 2
    return (
        touches(chord, cell, side)
        and chord.low_ft <= cell.low_ft[axis] + TIE_FT
        and chord.high_ft >= cell.high_ft[axis] - TIE_FT
    )
