"""Where a block or a wall drawn apart stands: on the plan's own sheet where there is room, else on further sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from export.paper.sheet import Point

Window = tuple[float, float, float, float]
STEP_IN = 0.25
CLEAR_IN = 0.12
FROM_EDGE_IN = 0.15


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where the `item`-th of the sizes stands: its sheet, from 0, and its upper left corner."""

    sheet: int
    corner: Point
    item: int


def spots_of(sizes: Sequence[Point], window: Window, taken: Sequence[BaseGeometry]) -> tuple[Spot, ...]:
    """Every item (width, height) on the first sheet where it keeps clear of what stands there, as high as it can.

    What is `taken` stands on the first sheet; each further one begins empty.
    """
    standing: list[list[BaseGeometry]] = [list(taken)]
    spots = []
    for i, size in enumerate(sizes):
        found = ((k, free_corner(size, window, here)) for k, here in enumerate(standing))
        sheet, corner = next(((k, c) for k, c in found if c is not None), (len(standing), None))
        if corner is None:
            standing.append([])
            corner = free_corner(size, window, []) or (window[0] + FROM_EDGE_IN, window[3] - FROM_EDGE_IN)
        standing[sheet].append(_box(corner, size))
        spots.append(Spot(sheet=sheet, corner=corner, item=i))
    return tuple(spots)


def free_corner(size: Point, window: Window, taken: Sequence[BaseGeometry]) -> Point | None:
    """The upper left corner of the highest place in the window, then the one farthest left, where such a box is clear
    of everything; None without one.
    """
    left, bottom, right, top = (
        window[0] + FROM_EDGE_IN,
        window[1] + FROM_EDGE_IN,
        window[2] - FROM_EDGE_IN,
        window[3] - FROM_EDGE_IN,
    )
    xs = np.arange(left, right - size[0] + 1e-9, STEP_IN)
    ys = np.arange(top, bottom + size[1] - 1e-9, -STEP_IN)
    if not len(xs) or not len(ys):
        return None
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    boxes = shapely.box(x - CLEAR_IN, y - size[1] - CLEAR_IN, x + size[0] + CLEAR_IN, y + CLEAR_IN)
    met = np.zeros(len(boxes), dtype=bool)
    met[shapely.STRtree(list(taken)).query(boxes, predicate="intersects")[0]] = True
    free = np.flatnonzero(~met)
    return (float(x[free[0]]), float(y[free[0]])) if len(free) else None


def _box(corner: Point, size: Point) -> BaseGeometry:
    return shapely.box(corner[0], corner[1] - size[1], corner[0] + size[0], corner[1])
