"""Rings of double lines that stand clear around a house: a sheet's border, an eave with its gutter, a kerb."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from export.architects_drawing.boundaries import Boundary
from export.architects_drawing.boundary import OPENED_IN, filled, offset, polygons, union_of, united
from export.architects_drawing.bridges import bridges_of
from export.architects_drawing.pairs import THICKEST_IN, Flags, Floats, Pairs, nearest
from export.architects_drawing.strips import Strips, strips_of

CLEAR_IN = THICKEST_IN + 1.0
LONG_IN = 30.0
MOST_TOUCHING = 0.25
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


def lines_of_rings(lines: Floats, pairs: Pairs) -> Flags:
    """The lines of unbroken rings of double lines that no wall inside touches, where walls inside close by themselves.

    Parameters
    ----------
    lines : (n, 4) float
        What is drawn. [in]
    pairs : Pairs
        Which lines may be two faces of a wall.

    Returns
    -------
    (n,) bool
        A house's outside wall has partitions that meet it.
    """
    out = np.zeros(len(lines), bool)
    strips = strips_of(lines, nearest(pairs))
    long = strips.shapes[strips.long_in > LONG_IN]
    if len(long) < 3:
        return out
    made = shapely.linestrings(lines.reshape(-1, 2, 2))
    for ring in polygons(united(list(long))):
        holes = [shapely.Polygon(h) for h in ring.interiors]
        if any(h.area >= HOUSE_FT2 * 144.0 and _house_within(ring, h, strips) for h in holes):
            out |= shapely.covers(ring.buffer(EDGE_IN, join_style="mitre"), made)
    return out


def _house_within(ring: shapely.Polygon, hole: shapely.Polygon, strips: Strips) -> bool:
    """Whether the walls in a ring's hole stand clear of it and close around a house."""
    inside = shapely.covers(hole, strips.shapes)
    touching = inside & shapely.dwithin(ring, strips.shapes, CLEAR_IN)
    length = strips.long_in
    if length[touching].sum() > MOST_TOUCHING * length[inside].sum():
        return False
    clear = inside & ~touching
    own = strips.some(clear)
    walls = filled(union_of([*own.shapes, *bridges_of(own).shapes]))
    return any(p.area >= HOUSE_FT2 * 144.0 for p in polygons(offset(offset(walls, -OPENED_IN), OPENED_IN)))
