"""A wing: a largest rectangle inside the walls, with its own roof; and how all of them are found."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from framing.frame_side import SIDES, FrameSide, sides_of
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, on_grid

Interval = tuple[float, float]
Box = tuple[float, float, float, float]
Part = tuple[int, float, float]  # wall index, from and to by stations


@dataclass(frozen=True, slots=True, kw_only=True)
class Wing:
    """A largest rectangle inside the walls, in the outline's frame; its own roof stands over it.

    `low_ft` and `high_ft` are corners of its outside faces. `ridge_axis` is 0 when the ridge runs along
    the frame's x, 1 along y. `gable` says for each side whether it is a gable. `no_eave_ft` are rectangles
    (x low, y low, x high, y high) outside the walls where an eave side has no overhang, because that part of
    the wall is another wing's gable.
    """

    name: str
    low_ft: Point
    high_ft: Point
    ridge_axis: int
    gable: tuple[bool, bool, bool, bool]
    no_eave_ft: tuple[Box, ...] = ()

    @property
    def size_ft(self) -> Point:
        """Extent along x and y. [ft]"""
        return (self.high_ft[0] - self.low_ft[0], self.high_ft[1] - self.low_ft[1])

    @property
    def square(self) -> bool:
        """Whether both extents are equal and neither end is a gable, so that the ridge is a point."""
        sx, sy = self.size_ft
        return abs(sx - sy) <= TIE_FT and not any(self.gable)

    @property
    def eave_sides(self) -> tuple[FrameSide, ...]:
        """The sides from which the roof rises."""
        return tuple(s for s in SIDES if not self.gable[s])

    @property
    def half_width_ft(self) -> float:
        """Plan distance from the eave walls to the ridge. [ft]"""
        across = self.size_ft[1 - self.ridge_axis] / 2.0
        along = self.size_ft[self.ridge_axis]
        n_hips = sum(not self.gable[s] for s in self.ends)
        return across if n_hips == 0 else min(across, along / n_hips)

    @property
    def ends(self) -> tuple[FrameSide, FrameSide]:
        """The sides at the low and the high end of its ridge."""
        return sides_of(self.ridge_axis)

    def side_ft(self, side: FrameSide) -> float:
        """The coordinate of a side on the axis that it is square to. [ft]"""
        return (self.high_ft if side.is_high else self.low_ft)[side.axis]

    def side_interval_ft(self, side: FrameSide) -> Interval:
        """The extent of a side along its own length. [ft]"""
        return (self.low_ft[side.along], self.high_ft[side.along])


def side_line(wing: Wing, side: FrameSide) -> tuple[float, float, float]:
    """(a, b, c) such that a x + b y + c is the distance into the wing from a side. [ft]"""
    ox, oy = side.outward
    sign = ox + oy
    return (-ox, -oy, sign * wing.side_ft(side))


def largest_rectangles(outline: Outline) -> list[tuple[Point, Point]]:
    """All rectangles between wall lines that lie inside the outline and fit in no larger one."""
    pts = np.array(outline.local_ft)
    xs, ys = np.unique(pts[:, 0]), np.unique(pts[:, 1])
    inside = cells_inside(outline.local_ft, xs, ys)
    found = sorted((i1, i0, j0, j1) for i0 in range(len(xs) - 1) for i1, j0, j1 in _from_column(inside, i0))
    return [((float(xs[i0]), float(ys[j0])), (float(xs[i1]), float(ys[j1]))) for i1, i0, j0, j1 in found]


def _from_column(inside: np.ndarray, i0: int) -> Iterator[tuple[int, int, int]]:
    """(i1, j0, j1) of the largest rectangles whose first column of cells is i0: runs of cells that are inside in all
    their columns and not in all of the column before or the one after.
    """
    n = len(inside)
    before = inside[i0 - 1] if i0 else np.zeros_like(inside[0])
    free = inside[i0].copy()
    for i1 in range(i0 + 1, n + 1):
        after = inside[i1] if i1 < n else np.zeros_like(free)
        edges = np.flatnonzero(np.diff(np.concatenate(([False], free, [False]))))
        for j0, j1 in edges.reshape(-1, 2).tolist():
            if not (before[j0:j1].all() or after[j0:j1].all()):
                yield i1, j0, j1
        free &= after
        if not free.any():
            return


def cells_inside(corners_ft: tuple[Point, ...], xs: np.ndarray, ys: np.ndarray) -> np.ndarray:
    """For the grid between the lines xs (n,) and ys (m,), which of the (n-1, m-1) cells lie inside a
    right-angled outline: a cell is inside when an odd number of upright walls stand to its left.
    """
    mx, my = (xs[:-1] + xs[1:]) / 2, (ys[:-1] + ys[1:]) / 2
    n_left = np.zeros((len(mx), len(my)), dtype=np.int64)
    for (xa, ya), (xb, yb) in zip(corners_ft, corners_ft[1:] + corners_ft[:1], strict=True):
        if xa == xb:
            n_left += (mx[:, None] > xa) & (my[None, :] > min(ya, yb)) & (my[None, :] < max(ya, yb))
    odd: np.ndarray = n_left % 2 == 1
    return odd


def reach(wing: Wing, overhangs_ft: Point) -> Box:
    """The rectangle (x low, y low, x high, y high) that a wing's own roof covers, overhangs (eave, rake)
    included, `no_eave_ft` not yet taken out. [ft]
    """
    out = [overhangs_ft[1] if wing.gable[s] else overhangs_ft[0] for s in SIDES]
    low, high = wing.low_ft, wing.high_ft
    return (
        on_grid(low[0] - out[0]),
        on_grid(low[1] - out[2]),
        on_grid(high[0] + out[1]),
        on_grid(high[1] + out[3]),
    )


def covers(wing: Wing, overhangs_ft: Point, points_ft: np.ndarray) -> np.ndarray:
    """Whether a wing's own roof covers points (n, 2). (n,) bool"""
    x, y = points_ft[:, 0], points_ft[:, 1]

    def within(b: Box) -> np.ndarray:
        out: np.ndarray = (x > b[0]) & (y > b[1]) & (x < b[2]) & (y < b[3])
        return out

    covered = within(reach(wing, overhangs_ft))
    for cut in wing.no_eave_ft:
        covered &= ~within(cut)
    return covered
