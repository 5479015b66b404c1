"""Framing lines under 1 ft apart made one, where between them no truss could be built."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from framing.frame_side import FrameSide
from framing.layout.jogs import Framed, framed_runs, runs_of, stays_near
from framing.layout.records import SHORTEST_PIECE_FT, Cell, WallLine
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, tie_key

Runs = list[list[WallLine]]


def too_narrow(cells: Iterable[Cell]) -> tuple[Cell, ...]:
    """The cells whose trusses would be under 1 ft long."""
    return tuple(c for c in cells if c.size_ft(1 - c.ridge_axis) < SHORTEST_PIECE_FT - TIE_FT)


def aligned(outline: Outline, framed: Framed, narrow: tuple[Cell, ...]) -> Framed | None:
    """The framing lines, those at the sides of every narrow cell moved into one as a jog's are: the lines at one side
    to the other's, out from the house where that can be; None where no line can move.
    """
    runs = runs_of(framed)
    moved = False
    for cell in sorted(narrow, key=lambda c: tie_key(c.size_ft(1 - c.ridge_axis))):
        low, high = cell.flanks
        ways = [_moved(outline, runs, cell, a, b) for a, b in ((low, high), (high, low))]
        best = min((w for w in ways if w is not None), key=lambda w: w[0], default=None)
        if best is not None:
            runs, moved = best[1], True
    return framed_runs(runs) if moved else None


def _moved(
    outline: Outline, runs: Runs, cell: Cell, side: FrameSide, to: FrameSide
) -> tuple[tuple[bool, int, int], Runs] | None:
    """The runs, those in line with one side of a cell moved to its other side, and what tells which way is better:
    whether a line moves into the house, how many walls move, and which was typed first.
    """
    at, line = cell.side_ft(side), cell.side_ft(to)
    on = {k for k, run in enumerate(runs) if run[0].axis == side.along and abs(run[0].line_ft - at) <= TIE_FT}
    walls = [w for k in on for w in runs[k]]
    if not walls or not all(stays_near(runs[k], line) for k in on):
        return None
    out = [[replace(w, line_ft=line) for w in run] if k in on else run for k, run in enumerate(runs)]
    if not _same_shape(runs, out):
        return None
    inward = any((line - at) * w.inward > 0 for w in walls)
    return (inward, len(walls), min(outline.walls[w.index].typed_order for w in walls)), out


def _same_shape(before: Runs, after: Runs) -> bool:
    """Whether every line still runs the way it did, over each of its walls."""
    old, new = framed_runs(before), framed_runs(after)
    return all(
        _heads(a, b, c, d)
        for a, b, c, d in zip(
            old.corners_ft,
            old.corners_ft[1:] + old.corners_ft[:1],
            new.corners_ft,
            new.corners_ft[1:] + new.corners_ft[:1],
            strict=True,
        )
    ) and all(w.high_ft - w.low_ft > TIE_FT for w in new.lines)


def _heads(a: Point, b: Point, c: Point, d: Point) -> bool:
    return (b[0] - a[0]) * (d[0] - c[0]) + (b[1] - a[1]) * (d[1] - c[1]) > TIE_FT
