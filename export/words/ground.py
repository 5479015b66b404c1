"""Filled cells and openings in words, short enough for a table."""

from __future__ import annotations

from framing.ground.over_openings import OpeningBeam
from framing.ground.stops import CellPull
from framing.units import feet_inches


def cell_words(cell: CellPull) -> str:
    """Such as `W1 at 4'-4"`, `corner of W1 and W2`, `W5 at 2'-8", jamb`."""
    if len(cell.walls) > 1:
        place = f"corner of {' and '.join(cell.walls)}"
    else:
        place = f"{cell.walls[0]} at {feet_inches(max(cell.at_ft[0], 0.0))}"
    return f"{place}, jamb" if cell.jamb else place


def opening_words(o: OpeningBeam) -> str:
    """Such as `opening 1, W5 3'-0" to 19'-0"`."""
    return f"opening {o.index + 1}, {o.opening.wall} {feet_inches(o.opening.from_ft)} to {feet_inches(o.opening.to_ft)}"
