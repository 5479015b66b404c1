"""Truss lines of cells that face one another in one line, each named for a chord of its own, are one truss line."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations

from framing.layout.cell_plan import CellEnd, CellPlan
from framing.layout.records import SMALLEST_BAY_FT, Key, KeyKind
from framing.tolerances import TIE_FT
from framing.walls.outline import tie_key


def share_truss_lines(cell_plans: list[CellPlan]) -> list[CellPlan]:
    """The cells' plans; where plain truss lines at the ends of two lie within 3 in. of one another, that of the cell
    that spans the other stands for both.
    """
    plain = [(cp, end) for cp in cell_plans for end in (cp.low_end, cp.high_end) if end.key.kind is KeyKind.SEAM]
    spanning: dict[Key, tuple[int, int, Key]] = {}
    for (one, at), (other, there) in permutations(plain, 2):
        if at.key != there.key and _spans(other, there, one, at):
            wide = (tie_key(_across_ft(other)[1] - _across_ft(other)[0]), -other.cell.index, there.key)
            spanning[at.key] = max(wide, spanning.get(at.key, wide))
    stands_for = {key: found[2] for key, found in spanning.items() if found[2] not in spanning}
    return [_renamed(cp, stands_for) for cp in cell_plans] if stands_for else cell_plans


def _across_ft(cp: CellPlan) -> tuple[float, float]:
    across = 1 - cp.cell.ridge_axis
    return (cp.cell.low_ft[across], cp.cell.high_ft[across])


def _spans(cp: CellPlan, end: CellEnd, other: CellPlan, at: CellEnd) -> bool:
    """Whether a cell's truss line runs along all of another's; of equal ones the first cell's."""
    if cp.cell.ridge_axis != other.cell.ridge_axis or abs(end.truss_ft - at.truss_ft) >= SMALLEST_BAY_FT - TIE_FT:
        return False
    (low, high), (a, b) = _across_ft(cp), _across_ft(other)
    wider = tie_key(high - low) > tie_key(b - a) or cp.cell.index < other.cell.index
    return wider and low <= a + TIE_FT and high >= b - TIE_FT


def _renamed(cp: CellPlan, stands_for: dict[Key, Key]) -> CellPlan:
    low, high = (replace(e, key=stands_for.get(e.key, e.key)) for e in (cp.low_end, cp.high_end))
    slots = tuple(replace(s, key=stands_for.get(s.key, s.key)) for s in cp.slots)
    return replace(cp, low_end=low, high_end=high, slots=slots)
