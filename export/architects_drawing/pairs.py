"""Straight strokes -> lines without their cuts, the pairs that may be a wall's two faces, and what is no wall."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Flags = NDArray[np.bool_]

THINNEST_IN, THICKEST_IN = 2.8, 16.5
PARALLEL = math.sin(math.radians(1.0))
POST_IN, POST_ASPECT = 24.0, 1.6
LEVEL_IN = 1.0
MOST_LINES = 30_000


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pairs:
    """Pairs of parallel lines a few inches apart, each both ways round: `i` is seen from `j`.

    `d_in` is how far j lies to the left of i, negative to its right; `low_in` and `high_in` say along i, from its
    start, how far they face one another.
    """

    i: Ints
    j: Ints
    d_in: Floats
    low_in: Floats
    high_in: Floats


def lengths_of(lines: Floats) -> Floats:
    """How long each line is."""
    return np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1])


def merged(lines: Floats, layer: Ints) -> tuple[Floats, Ints]:
    """The lines with those that run on in one another made one, layer by layer; doubles once.

    Parameters
    ----------
    lines : (n, 4) float
        x0 y0 x1 y1. [in]
    layer : (n,) int
        The layer of each.

    Returns
    -------
    lines : (m, 4) float
        Each from its left end, or its lower. [in]
    layer : (m,) int
        The layer of each.
    """
    length = lengths_of(lines)
    keep = length > 0.5
    lines, layer, length = lines[keep], layer[keep], length[keep]
    if not len(lines):
        return lines, layer
    swap = (lines[:, 2] - lines[:, 0] < -1e-6) | (
        (np.abs(lines[:, 2] - lines[:, 0]) <= 1e-6) & (lines[:, 3] < lines[:, 1])
    )
    lines = np.where(swap[:, None], lines[:, [2, 3, 0, 1]], lines)
    ux, uy = ((lines[:, 2:] - lines[:, :2]) / length[:, None]).T
    turn = np.round(np.degrees(np.arctan2(uy, ux)) * 5.0).astype(int)
    turn[turn == -450] = 450
    off = -uy * lines[:, 0] + ux * lines[:, 1]
    along = ux * lines[:, 0] + uy * lines[:, 1]
    off_bin = np.round(off / 0.15).astype(int)
    order = np.lexsort((along, off_bin, turn, layer))
    lines, layer, turn, off_bin = lines[order], layer[order], turn[order], off_bin[order]
    along, length = along[order], length[order]
    out: list[Floats] = []
    kinds: list[int] = []
    reach = -np.inf
    for k in range(len(lines)):
        same = k and layer[k] == layer[k - 1] and turn[k] == turn[k - 1] and off_bin[k] == off_bin[k - 1]
        end = along[k] + length[k]
        if not same or along[k] > reach + 0.3:
            out.append(lines[k].copy())
            kinds.append(int(layer[k]))
            reach = end
        elif end > reach:
            out[-1][2:] = lines[k, 2:]
            reach = end
    return np.array(out), np.array(kinds, int)


def pairs_of(lines: Floats, nearest_in: float = THINNEST_IN, farthest_in: float = THICKEST_IN) -> Pairs:
    """Every two lines that are parallel within a degree, so far apart, and face one another.

    Parameters
    ----------
    lines : (n, 4) float
        x0 y0 x1 y1. [in]
    nearest_in, farthest_in : float
        How far apart, at least and at most. [in]

    Returns
    -------
    Pairs
        Facing for at least 0.9 times their distance, or for 2 in. where their ends are level (a wall's stub).
    """
    i, j = _near(lines, farthest_in)
    length = lengths_of(lines)
    u = (lines[:, 2:] - lines[:, :2]) / length[:, None]
    level = np.abs(u[i, 0] * u[j, 1] - u[i, 1] * u[j, 0]) < PARALLEL
    i, j = i[level], j[level]
    a, b = lines[j, :2] - lines[i, :2], lines[j, 2:] - lines[i, :2]
    ta, tb = np.sum(a * u[i], axis=1), np.sum(b * u[i], axis=1)
    low, high = np.maximum(0.0, np.minimum(ta, tb)), np.minimum(length[i], np.maximum(ta, tb))
    na, nb = u[i, 0] * a[:, 1] - u[i, 1] * a[:, 0], u[i, 0] * b[:, 1] - u[i, 1] * b[:, 0]
    share = ((low + high) / 2.0 - ta) / np.where(np.abs(tb - ta) < 1e-9, 1.0, tb - ta)
    d = na + (nb - na) * share
    facing, far = high - low, np.abs(d)
    ends_level = (np.abs(np.minimum(ta, tb)) < LEVEL_IN) | (np.abs(np.maximum(ta, tb) - length[i]) < LEVEL_IN)
    good = (far >= nearest_in) & (far <= farthest_in) & ((facing >= 0.9 * far) | ((facing >= 2.0) & ends_level))
    return Pairs(i=i[good], j=j[good], d_in=d[good], low_in=low[good], high_in=high[good])


def _near(lines: Floats, reach_in: float) -> tuple[Ints, Ints]:
    """The numbers of all lines that lie near one another, both ways round."""
    made = shapely.linestrings(lines.reshape(-1, 2, 2))
    tree = shapely.STRtree(made)
    found = [
        tree.query(made[k : k + 2000], predicate="dwithin", distance=reach_in) + np.array([[k], [0]])
        for k in range(0, len(made), 2000)
    ]
    i, j = np.hstack(found) if found else np.zeros((2, 0), int)
    return i[i != j], j[i != j]


def taken(pairs: Pairs, chosen: Flags) -> Pairs:
    """The pairs of which both lines are chosen."""
    keep = chosen[pairs.i] & chosen[pairs.j]
    return some(pairs, keep)


def some(pairs: Pairs, keep: Flags) -> Pairs:
    """The pairs that are flagged."""
    return Pairs(
        i=pairs.i[keep], j=pairs.j[keep], d_in=pairs.d_in[keep], low_in=pairs.low_in[keep], high_in=pairs.high_in[keep]
    )


def nearest(pairs: Pairs) -> Pairs:
    """The pairs without those between whose lines another one stands: the nearest partner on each side."""
    left = pairs.d_in > 0
    order = np.lexsort((np.abs(pairs.d_in), left, pairs.i))
    keep = np.zeros(len(pairs.i), bool)
    key: tuple[int, bool] | None = None
    covered: list[tuple[float, float]] = []
    for k in order:
        if key != (pairs.i[k], left[k]):
            key, covered = (pairs.i[k], left[k]), []
        low, high = pairs.low_in[k], pairs.high_in[k]
        clear = (high - low) - sum(max(0.0, min(high, b) - max(low, a)) for a, b in covered)
        if clear >= min(2.0, 0.5 * (high - low)):
            keep[k] = True
            covered.append((low, high))
    seen = set(zip(pairs.i[keep].tolist(), pairs.j[keep].tolist(), strict=True))
    both = [(j, i) in seen for i, j in zip(pairs.i.tolist(), pairs.j.tolist(), strict=True)]
    return some(pairs, keep & np.array(both, bool))


def posts(segments: Floats, shape: Ints) -> Flags:
    """The segments of closed boxes of a post's size: as near square as a post, no side over 24 in."""
    out = np.zeros(len(segments), bool)
    if not len(segments):
        return out
    order = np.argsort(shape, kind="stable")
    starts = np.r_[0, np.flatnonzero(np.diff(shape[order])) + 1, len(order)]
    for a, b in itertools.pairwise(starts):
        ring = segments[order[a:b]]
        if b - a == 4 and np.allclose(ring[0, :2], ring[-1, 2:], atol=0.1):
            w, h = lengths_of(ring)[:2]
            out[order[a:b]] = max(w, h) <= POST_IN and max(w, h) < POST_ASPECT * min(w, h)
    return out | _loose_boxes(segments, out)


def _loose_boxes(segments: Floats, known: Flags) -> Flags:
    """The same for boxes that are drawn as four lines."""
    out = np.zeros(len(segments), bool)
    length = lengths_of(segments)
    short = np.flatnonzero((length <= POST_IN) & (length > 1.0) & ~known)
    if len(short) < 4:
        return out
    ends: dict[tuple[int, int], list[int]] = {}
    for k in short.tolist():
        for at in (segments[k, :2], segments[k, 2:]):
            ends.setdefault((round(at[0] * 4), round(at[1] * 4)), []).append(k)
    joined = {p: ks for p, ks in ends.items() if len(ks) == 2}
    partners: dict[int, set[int]] = {}
    for a, b in joined.values():
        partners.setdefault(a, set()).add(b)
        partners.setdefault(b, set()).add(a)
    for k in short.tolist():
        if out[k] or len(partners.get(k, ())) != 2:
            continue
        p, q = partners[k]
        across = (partners.get(p, set()) & partners.get(q, set())) - {k}
        if len(across) == 1 and max(length[k], length[p]) < POST_ASPECT * min(length[k], length[p]):
            out[[k, p, q, across.pop()]] = True
    return out
