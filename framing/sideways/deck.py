"""Forces on the deck -> the lines that hold it: the lever rule along either axis, exact for loads across a line.

The forces along x go to the lines along x, those along y to the lines along y. Where one axis has a single line, what
its forces turn about that line is held by the outermost two of the other axis.
Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.sideways.lines import Line, lever_shares
from framing.tolerances import SPECK_FT2

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Deck:
    """The deck between the lines along x and along y (`lines[0]`, `lines[1]`), rising."""

    lines: tuple[tuple[Line, ...], tuple[Line, ...]]

    def line_ft(self, axis: int) -> Floats:
        """The coordinate of each line along an axis, on the other one. (n,) [ft]"""
        return np.array([line.at_ft for line in self.lines[axis]])

    def n_ends(self, axis: int) -> int:
        """How many ends of spans stand on the lines along an axis: two a span, one on a single line."""
        n = len(self.lines[axis])
        return min(n, 1) if n < 2 else 2 * (n - 1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class OnDeck:
    """Forces brought to the ends of the deck's spans, per axis: `ends_lb` (n_ends, k), at the lower line and at the
    upper, span by span; `force_lb` (k,) all of them, `moment_lbft` (k,) each times its coordinate on the other axis.
    """

    ends_lb: tuple[Floats, Floats]
    force_lb: tuple[Floats, Floats]
    moment_lbft: tuple[Floats, Floats]

    def __add__(self, other: OnDeck) -> OnDeck:
        """Both together."""
        return OnDeck(
            ends_lb=_sum(self.ends_lb, other.ends_lb),
            force_lb=_sum(self.force_lb, other.force_lb),
            moment_lbft=_sum(self.moment_lbft, other.moment_lbft),
        )


def _sum(one: tuple[Floats, Floats], other: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    return (one[0] + other[0], one[1] + other[1])


def points_on_deck(deck: Deck, point_ft: Floats, force_lb: Floats) -> OnDeck:
    """Forces at points: (m, 2) and (m, k, 2)."""
    return _brought(deck, point_ft, force_lb, tuple(ends_of_points(deck, point_ft, axis) for axis in (0, 1)))


def areas_on_deck(deck: Deck, polygon: NDArray[np.object_], force_lb: Floats) -> OnDeck:
    """Forces spread evenly over polygons (m,), (m, k, 2): a polygon across a line is cut there."""
    middle = shapely.get_coordinates(shapely.centroid(polygon))
    return _brought(deck, middle, force_lb, (ends_of_areas(deck, polygon, 0), ends_of_areas(deck, polygon, 1)))


def ends_of_areas(deck: Deck, polygon: NDArray[np.object_], axis: int) -> Floats:
    """The share of a force along an axis, spread over each polygon, that goes to each end of a span. (m, n_ends)"""
    out = ends_of_points(deck, shapely.get_coordinates(shapely.centroid(polygon)), axis)
    bounds = shapely.bounds(polygon)
    across, inner = 1 - axis, deck.line_ft(axis)[1:-1]
    cut = [(bounds[:, across] < c) & (c < bounds[:, across + 2]) for c in inner]
    for i in np.flatnonzero(np.any(cut, axis=0)) if len(inner) else ():
        out[i] = _of_parts(deck, axis, polygon[i], bounds[i], inner)
    return out


def on_line(deck: Deck, at_ends_factor: Floats, axis: int, line: int) -> Floats:
    """What of the ends of spans (..., n_ends) stands on one line. (...,)"""
    n = len(deck.lines[axis])
    if n == 1:
        return np.asarray(at_ends_factor[..., 0])
    out = np.zeros(at_ends_factor.shape[:-1])
    if line < n - 1:
        out += at_ends_factor[..., 2 * line]
    if line:
        out += at_ends_factor[..., 2 * line - 1]
    return out


def ends_of_points(deck: Deck, point_ft: Floats, axis: int) -> Floats:
    """The share of a force at each point that goes to each end of a span. (m, n_ends)"""
    share, below = lever_shares(point_ft[:, 1 - axis], deck.line_ft(axis))
    n = len(deck.lines[axis])
    if n < 2:
        return share
    out, rows = np.zeros((len(point_ft), deck.n_ends(axis))), np.arange(len(point_ft))
    out[rows, 2 * below] = share[rows, below]
    out[rows, 2 * below + 1] = share[rows, below + 1]
    return out


def _of_parts(deck: Deck, axis: int, polygon: shapely.Geometry, bounds: Floats, inner: Floats) -> Floats:
    """The shares of one polygon, cut at the lines between the outermost."""
    across = 1 - axis
    at = [bounds[across], *(c for c in inner if bounds[across] < c < bounds[across + 2]), bounds[across + 2]]
    out = np.zeros(deck.n_ends(axis))
    total = 0.0
    for low, high in pairwise(at):
        box = [bounds[0] - 1.0, bounds[1] - 1.0, bounds[2] + 1.0, bounds[3] + 1.0]
        box[across], box[across + 2] = low, high
        part = shapely.intersection(polygon, shapely.box(*box))
        if part.area > SPECK_FT2:
            out += part.area * ends_of_points(deck, shapely.get_coordinates(shapely.centroid(part)), axis)[0]
            total += part.area
    if not total:  # a sliver without an area of its own
        out += ends_of_points(deck, shapely.get_coordinates(shapely.centroid(polygon)), axis)[0]
        total = 1.0
    return out / total


def _brought(deck: Deck, point_ft: Floats, force_lb: Floats, shares: tuple[Floats, ...]) -> OnDeck:
    ends, force, moment = [], [], []
    for axis in (0, 1):
        along = force_lb[:, :, axis]
        ends.append(shares[axis].T @ along)
        force.append(along.sum(axis=0))
        moment.append(point_ft[:, 1 - axis] @ along)
    return OnDeck(ends_lb=(ends[0], ends[1]), force_lb=(force[0], force[1]), moment_lbft=(moment[0], moment[1]))


def line_forces_lb(deck: Deck, load: OnDeck) -> tuple[Floats, Floats]:
    """What the lines along x and along y take of a load on the deck: (n_x, k) and (n_y, k)."""
    out = []
    for axis in (0, 1):
        n, ends = len(deck.lines[axis]), load.ends_lb[axis]
        each = [on_line(deck, ends.T, axis, i) for i in range(n)]
        out.append(np.array(each).reshape(n, ends.shape[1]))
    for axis in (0, 1):
        _hold_turning(deck, load, out, axis)
    return out[0], out[1]


def _hold_turning(deck: Deck, load: OnDeck, out: list[Floats], axis: int) -> None:
    """A single line's forces turn about it: a couple on the outermost lines of the other axis."""
    other = deck.line_ft(1 - axis)
    if len(deck.lines[axis]) != 1 or len(other) < 2:
        return
    turn = load.moment_lbft[axis] - load.force_lb[axis] * deck.line_ft(axis)[0]
    couple = turn / (other[-1] - other[0])
    out[1 - axis][-1] -= couple
    out[1 - axis][0] += couple
