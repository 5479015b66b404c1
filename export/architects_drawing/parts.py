"""A boundary without a part that walls as thick as the outside ones cut off: a porch, a carport, a wing taken down."""

from __future__ import annotations

import itertools
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from export.architects_drawing.boundaries import Boundary, How, boundary_of
from export.architects_drawing.boundary import filled, houses, offset, polygons, union_of
from export.architects_drawing.pairs import Floats
from export.architects_drawing.ranking import Evidence

AT_EDGE_IN, TOUCHING_IN = 1.0, 1.0
THINNER_IN = 1.0
"""By so much a partition is thinner than the outside walls."""
LEAST_PART_IN2 = 12.0 * 144.0
MOST_PARTS = 3
"""Where walls cut a house into more, its inside walls are as thick as the outside ones and tell nothing."""
LEAST_REST = 0.6
LEAST_WALL = 0.35
"""Of the line that a part is cut off along; where less is wall, what was closed there is no opening."""
CLOSED_IN = 9.0
BEHIND = 0.05


def without_parts(first: Boundary, lines: Floats, evidence: Evidence) -> Iterator[Boundary]:
    """The boundaries that are left without each part, and without all but the largest.

    Parameters
    ----------
    first : Boundary
        The likeliest of its place.
    lines : (n, 4) float
        What is drawn. [in]
    evidence : Evidence
        What ranks a boundary.

    Yields
    ------
    Boundary
        Of the same place, ranked behind the first.
    """
    walls, bridges = _outside_like(first)
    if not len(walls):
        return
    solid = offset(offset(union_of([*walls, *bridges]), CLOSED_IN), -CLOSED_IN)
    parts = sorted(
        (p for p in polygons(first.shape.difference(solid)) if p.area > LEAST_PART_IN2), key=lambda p: -p.area
    )
    if not 1 < len(parts) <= MOST_PARTS:
        return
    doubtful = [k for k in range(len(parts)) if not _named(parts[k], evidence)]
    edge, wall = first.shape.exterior.buffer(AT_EDGE_IN), union_of(list(walls)).buffer(AT_EDGE_IN)
    for without in (c for n in range(1, len(parts)) for c in itertools.combinations(doubtful, n)):
        kept = shapely.union_all([p for k, p in enumerate(parts) if k not in without])
        around = [p for p in (*walls, *bridges) if p.distance(kept) < TOUCHING_IN]
        open_air = shapely.union_all([parts[k] for k in without])
        whole = filled(union_of([offset(kept, TOUCHING_IN), *around]).intersection(first.shape)).difference(open_air)
        for rest in houses(whole, evidence.lines, lines):
            along = rest.exterior.difference(edge)
            if (
                rest.area >= LEAST_REST * first.shape.area
                and along.intersection(wall).length >= LEAST_WALL * along.length
            ):
                made = boundary_of(rest, replace(first.origin, how=How.WITHOUT), None, evidence)
                yield replace(made, place=first.place, score=min(made.score, first.score - BEHIND))


def _outside_like(first: Boundary) -> tuple[Floats, Floats]:
    """The walls, and what closes their openings, that are as thick as the walls along the boundary."""
    walls = np.array(first.origin.walls, object)
    at_edge = shapely.dwithin(walls, first.shape.exterior, AT_EDGE_IN) if len(walls) else np.zeros(0, bool)
    if not at_edge.any():
        return walls[:0], walls[:0]
    rings = np.stack([shapely.get_coordinates(w)[:4] for w in walls])
    long = np.hypot(*np.diff(rings, axis=1).transpose(2, 0, 1)).max(axis=1)
    thick = shapely.area(walls) / long
    order = np.argsort(thick[at_edge])
    share = np.cumsum(long[at_edge][order]) / long[at_edge].sum()
    least = thick[at_edge][order][np.searchsorted(share, 0.5)] - THINNER_IN
    bridges = [b.shapes[shapely.area(b.shapes) >= least * b.wide_in] for b in first.origin.bridges if len(b.shapes)]
    return walls[thick >= least], np.concatenate(bridges) if bridges else walls[:0]


def _named(part: Polygon, evidence: Evidence) -> bool:
    """Whether a room within walls is written into a part."""
    return bool(shapely.contains_xy(part, evidence.indoors).any()) if len(evidence.indoors) else False
