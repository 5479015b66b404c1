"""Rings of double lines that stand clear around a house: a sheet's border, an eave with its gutter, a kerb."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from export.architects_drawing.boundaries import Boundary
from export.architects_drawing.pairs import THICKEST_IN, Flags, Floats

CLEAR_IN = THICKEST_IN + 1.0
DOUBLE = 0.75
HOUSE_FT2 = 400.0
EDGE_IN = 0.5


def lines_of_frames(found: Sequence[Boundary], lines: Floats) -> Flags:
    """The lines that make a ring clear around walls that close by themselves.

    Parameters
    ----------
    found : sequence of Boundary
        What was found with all lines.
    lines : (n, 4) float
        What is drawn. [in]

    Returns
    -------
    (n,) bool
        The lines within a wall's thickness of a ring's edge: no house's wall has the house clear within it.
    """
    made = shapely.linestrings(lines.reshape(-1, 2, 2))
    out = np.zeros(len(lines), bool)
    walled = [b for b in found if b.looks.double >= DOUBLE]
    houses = [b.shape for b in walled if b.looks.area_ft2 >= HOUSE_FT2]
    for ring in walled:
        inside = ring.shape.buffer(-CLEAR_IN)
        clear = [h for h in houses if h.area < inside.area and inside.covers(h)]
        if clear:
            band = ring.shape.exterior.buffer(THICKEST_IN + EDGE_IN, join_style="mitre")
            shapely.prepare(band)
            own = shapely.covers(band, made)
            out |= own & ~shapely.intersects(shapely.union_all(clear).buffer(EDGE_IN), made)
    return out
