"""Where a block or a wall drawn apart stands: on the plan's own sheet where there is room, else on further sheets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from export.paper.sheet import Point

Floats = NDArray[np.float64]
Objects = NDArray[np.object_]

Window = tuple[float, float, float, float]
STEP_IN = 0.25
NEAR_IN = 1e-6
CLEAR_IN = 0.08
FROM_EDGE_IN = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """Where the `item`-th of the sizes stands: its sheet, from 0, and its upper left corner in the window, or None in
    that sheet's column, under what stands there already.
    """

    sheet: int
    corner: Point | None
    item: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """The room in the column of every sheet but the first. [in]."""

    width_in: float
    height_in: float


def spots_of(sizes: Sequence[Point], window: Window, taken: Sequence[BaseGeometry], column: Column) -> tuple[Spot, ...]:
    """Every item (width, height) on the first sheet where it keeps clear of what stands there, as high as it can.

    What is `taken` stands on the first sheet; each further one begins empty.
    """
    standing: list[list[BaseGeometry]] = [list(taken)]
    placed: list[list[BaseGeometry]] = [[]]
    left: list[float] = [0.0]  # of the column of each sheet
    spots = []
    for i, size in enumerate(sizes):
        for k in range(len(standing) + 1):
            if k == len(standing):
                standing.append([])
                placed.append([])
                left.append(column.height_in)
            if k and size[0] <= column.width_in + NEAR_IN and size[1] <= left[k] and standing[k]:
                left[k] -= size[1]
                spots.append(Spot(sheet=k, corner=None, item=i))
                break
            corner = free_corner(size, window, standing[k], placed[k])
            if corner is None and not standing[k]:
                corner = (window[0] + FROM_EDGE_IN, window[3] - FROM_EDGE_IN)  # larger than a sheet: drawn all the same
            if corner is not None:
                standing[k].append(_box(corner, size))
                placed[k].append(_box(corner, size))
                spots.append(Spot(sheet=k, corner=corner, item=i))
                break
    return tuple(spots)


def free_corner(
    size: Point, window: Window, taken: Sequence[BaseGeometry], beside: Sequence[BaseGeometry] = ()
) -> Point | None:
    """The upper left corner of the highest place in the window, then the one farthest left, where such a box is clear
    of everything; None without one. Places close to those `beside` it are tried too.
    """
    left, bottom, right, top = (
        window[0] + FROM_EDGE_IN,
        window[1] + FROM_EDGE_IN,
        window[2] - FROM_EDGE_IN,
        window[3] - FROM_EDGE_IN,
    )
    edges = np.reshape([b.bounds for b in beside], (-1, 4))
    xs = np.union1d(np.arange(left, right, STEP_IN), edges[:, 2] + CLEAR_IN + NEAR_IN)
    ys = np.union1d(np.arange(top, bottom, -STEP_IN), edges[:, 1] - CLEAR_IN - NEAR_IN)[::-1]
    xs, ys = xs[xs <= right - size[0] + NEAR_IN], ys[ys >= bottom + size[1] - NEAR_IN]
    if not len(xs) or not len(ys):
        return None
    rows = np.column_stack((ys - size[1] - CLEAR_IN, ys + CLEAR_IN))
    columns = np.column_stack((xs - CLEAR_IN, xs + size[0] + CLEAR_IN))
    upright, others = _upright(np.array(taken, dtype=object))
    met = _met_by(shapely.bounds(upright), columns, rows)
    standing = shapely.STRtree(others)
    for k in np.flatnonzero(~met.all(axis=1)):  # the highest first: what lies lower is not looked at
        open_ = np.flatnonzero(~met[k])
        boxes = shapely.box(columns[open_, 0], rows[k, 0], columns[open_, 1], rows[k, 1])
        free = np.delete(open_, np.unique(standing.query(boxes, predicate="intersects")[0]))
        if len(free):
            return (float(xs[free[0]]), float(ys[k]))
    return None


def _upright(shapes: Objects) -> tuple[Objects, Objects]:
    """The shapes that fill their bounds, level and upright lines among them, and the others."""
    x0, y0, x1, y1 = shapely.bounds(shapes).reshape(-1, 4).T
    fills = np.abs((x1 - x0) * (y1 - y0) - shapely.area(shapes)) < NEAR_IN**2
    straight = (np.minimum(x1 - x0, y1 - y0) == 0.0) | (shapely.area(shapes) > 0.0)
    return shapes[fills & straight], shapes[~(fills & straight)]


def _met_by(bounds: Floats, columns: Floats, rows: Floats) -> NDArray[np.bool_]:
    """Whether a box of each row and column, from low to high, meets any of the bounds. (n_rows, n_columns)"""
    met = np.zeros((len(rows), len(columns)), dtype=bool)
    from_x, to_x = np.searchsorted(columns[:, 1], bounds[:, 0]), np.searchsorted(columns[:, 0], bounds[:, 2], "right")
    from_y = len(rows) - np.searchsorted(rows[::-1, 0], bounds[:, 3], "right")
    to_y = len(rows) - np.searchsorted(rows[::-1, 1], bounds[:, 1])
    for i, j, k, m in zip(from_x, to_x, from_y, to_y, strict=True):
        met[k:m, i:j] = True
    return met


def _box(corner: Point, size: Point) -> BaseGeometry:
    return shapely.box(corner[0], corner[1] - size[1], corner[0] + size[0], corner[1])
