"""What wide lines and hatches are, once the unit is known: walls where they are as thick, lines or nothing else."""

from __future__ import annotations

import numpy as np
import shapely

from export.architects_drawing.pairs import THICKEST_IN, THINNEST_IN, Flags
from export.architects_drawing.strokes import Strokes

ON_LINE_IN = 0.25


def as_seen(strokes: Strokes, in_per_unit: float) -> Strokes:
    """The strokes with a wall's edges for each line as wide as a wall, and the middle of each that is thinner.

    Parameters
    ----------
    strokes : Strokes
        As they were gathered.
    in_per_unit : float
        Inches a unit of the drawing.

    Returns
    -------
    Strokes
        Without the edges of hatches that lie on lines.
    """
    width = np.abs(strokes.wide) * in_per_unit
    wall = (width >= THINNEST_IN) & (width <= THICKEST_IN)
    keep = (strokes.wide == 0.0) | (wall == (strokes.wide > 0.0))
    keep &= ~_outlined(strokes, keep, ON_LINE_IN / in_per_unit)
    return strokes.only(keep)


def _outlined(strokes: Strokes, keep: Flags, near: float) -> Flags:
    """The edges of hatches that lie on lines which are drawn anyway."""
    hatch = np.isin(strokes.layer, list(strokes.hatched))
    out = np.zeros(len(hatch), bool)
    asked, drawn = np.flatnonzero(hatch & keep), strokes.segments[keep & ~hatch]
    if not len(asked) or not len(drawn):
        return out
    tree = shapely.STRtree(shapely.linestrings(drawn.reshape(-1, 2, 2)))
    on = np.ones(len(asked), bool)
    for share in (0.1, 0.5, 0.9):
        at = strokes.segments[asked, :2] * (1.0 - share) + strokes.segments[asked, 2:] * share
        met = np.zeros(len(asked), bool)
        met[tree.query(shapely.points(at), predicate="dwithin", distance=near)[0]] = True
        on &= met
    out[asked[on]] = True
    return out
