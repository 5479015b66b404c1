"""Lines that run on past the openings of a wall beside them: solid eaves, strings of dimensions, edges of paving."""

from __future__ import annotations

import itertools
from collections import defaultdict
from dataclasses import dataclass

import numpy as np
import shapely

from export.architects_drawing.pairs import THICKEST_IN, Flags, Floats, Pairs, lengths_of, nearest, some

FARTHEST_IN, NEAREST_IN = 26.0, 9.0
OPENING_IN = (20.0, 24 * 12.0)
SAME_LINE_IN = 1.0
AT_EDGE_IN, BEYOND_IN, MOST_OF = 2.0, 1.0, 0.8
WHOLE = 0.95
ACROSS, SHORTEST_JAMB_IN = 0.5, 2.5


@dataclass(frozen=True, slots=True, kw_only=True)
class _Beside:
    """A line beside another: its number, how far to the left, from where to where along the other. [in].

    `next_in_row` says that it runs along all of the other, and that no wall goes on across the other's ends.
    """

    line: int
    left_in: float
    low_in: float
    high_in: float
    next_in_row: bool


def lines_past(lines: Floats, pairs: Pairs) -> Flags:
    """The lines that stand before a wall and do not break where both of its faces do.

    Parameters
    ----------
    lines : (n, 4) float
        x0 y0 x1 y1. [in]
    pairs : Pairs
        Which lines face one another.

    Returns
    -------
    (n,) bool
        Lines 9 to 26 in. before a wall, and the rows of lines before them; a leaf of the wall would have jambs where
        the wall is open, and would end at a corner or at another wall.
    """
    long, loose = lengths_of(lines), _loose(lines)
    apart = loose & _clear_of_walls(lines, pairs)
    near = nearest(some(pairs, np.abs(pairs.d_in) <= FARTHEST_IN))
    beside: defaultdict[int, list[_Beside]] = defaultdict(list)
    for i, j, d, low, high in zip(
        near.i.tolist(), near.j.tolist(), near.d_in.tolist(), near.low_in.tolist(), near.high_in.tolist(), strict=True
    ):
        row = bool(loose[i] and high - low >= WHOLE * long[i])
        beside[i].append(_Beside(line=j, left_in=d, low_in=low, high_in=high, next_in_row=row))
    out = np.zeros(len(lines), bool)
    for i, all_beside in beside.items():
        walls = {a.left_in > 0 for a, b in _openings(all_beside) if _passed(lines, i, a, b, beside)}
        walls |= _walls_beside(i, apart, beside) if apart[i] else set()
        for left in walls:
            out[[i, *_rows_before(i, not left, beside)]] = True
    return _with_joined(lines, out, apart, beside)


def _loose(lines: Floats) -> Flags:
    """The lines from whose ends no other goes on across: a wall's face has a corner or a jamb there."""
    ends = shapely.points(np.vstack([lines[:, :2], lines[:, 2:]]))
    p, q = shapely.STRtree(ends).query(ends, predicate="dwithin", distance=SAME_LINE_IN)
    i, j = p % len(lines), q % len(lines)
    way = (lines[:, 2:] - lines[:, :2]) / lengths_of(lines)[:, None]
    across = (np.abs(np.sum(way[i] * way[j], axis=1)) < ACROSS) & (lengths_of(lines)[j] > SHORTEST_JAMB_IN)
    out = np.ones(len(lines), bool)
    out[i[across & (i != j)]] = False
    return out


def _clear_of_walls(lines: Floats, pairs: Pairs) -> Flags:
    """The lines neither of whose ends lies on a line that may be a wall's face."""
    face = np.zeros(len(lines), bool)
    face[pairs.i[np.abs(pairs.d_in) <= THICKEST_IN]] = True
    ends = shapely.points(np.vstack([lines[:, :2], lines[:, 2:]]))
    p, j = shapely.STRtree(shapely.linestrings(lines.reshape(-1, 2, 2))).query(
        ends, predicate="dwithin", distance=SAME_LINE_IN
    )
    out = np.ones(len(lines), bool)
    out[(p % len(lines))[face[j] & (j != p % len(lines))]] = False
    return out


def _walls_beside(i: int, apart: Flags, beside: dict[int, list[_Beside]]) -> set[bool]:
    """On which side, to the left or not, a line has a wall of two faces, and nothing on the other."""
    sides = {b.left_in > 0 for b in beside[i] if not apart[b.line] and _behind(beside.get(b.line, []), i)}
    return {left for left in sides if _single(beside[i], left)}


def _rows_before(i: int, left: bool, beside: dict[int, list[_Beside]]) -> set[int]:
    """The lines in rows on one side of a line, each along all of the one before it."""
    found: set[int] = set()
    ahead = [(i, left)]
    while ahead:
        k, left = ahead.pop()
        for b in beside.get(k, []):
            if b.next_in_row and (b.left_in > 0) == left and b.line not in found:
                found.add(b.line)
                ahead += [(b.line, c.left_in < 0) for c in beside.get(b.line, []) if c.line == k]
    return found


def _with_joined(lines: Floats, found: Flags, apart: Flags, beside: dict[int, list[_Beside]]) -> Flags:
    """With the lines that go on from their ends before the same walls, where no opening tells."""
    out = found.copy()
    before = [i for i in beside if _walls_beside(i, apart, beside)]
    ends = [{_corner(p) for p in (lines[i, :2], lines[i, 2:])} for i in before]
    reached = {_corner(p) for i in np.flatnonzero(found).tolist() for p in (lines[i, :2], lines[i, 2:])}
    more = True
    while more:
        more = False
        for i, own in zip(before, ends, strict=True):
            if not out[i] and own & reached:
                out[i] = more = True
                reached |= own
    return out


def _corner(p: Floats) -> tuple[int, int]:
    """A point on a grid of an inch."""
    return (round(float(p[0])), round(float(p[1])))


def _single(beside: list[_Beside], left: bool) -> bool:
    """Whether a line has others to one side alone, none of them near: it is no face of a wall of its own."""
    here = [abs(b.left_in) for b in beside if (b.left_in > 0) == left]
    other_side = any((b.left_in > 0) != left and abs(b.left_in) <= THICKEST_IN and not b.next_in_row for b in beside)
    return not other_side and min(here, default=0.0) >= NEAREST_IN


def _openings(beside: list[_Beside]) -> list[tuple[_Beside, _Beside]]:
    """Every two pieces of one face with an opening's width between them."""
    out = []
    for left in (True, False):
        if not _single(beside, left):
            continue
        row = sorted((b for b in beside if (b.left_in > 0) == left), key=lambda b: b.low_in)
        for a, b in itertools.pairwise(row):
            wide = OPENING_IN[0] <= b.low_in - a.high_in <= OPENING_IN[1]
            if wide and abs(a.left_in - b.left_in) < SAME_LINE_IN and a.line != b.line:
                out.append((a, b))
    return out


def _passed(lines: Floats, i: int, a: _Beside, b: _Beside, beside: dict[int, list[_Beside]]) -> bool:
    """Whether a wall with two faces ends on either side of an opening, and no jamb of it comes out to line i."""
    behind = [_behind(beside.get(face.line, []), i) for face in (a, b)]
    if not behind[0] or not behind[1] or behind[0] & behind[1]:
        return False
    u = (lines[i, 2:] - lines[i, :2]) / lengths_of(lines[i : i + 1])
    along, off = (
        np.column_stack([(lines[:, k : k + 2] - lines[i, :2]) @ w for k in (0, 2)])
        for w in (u, np.array((-u[1], u[0])))
    )
    off = off * np.sign(a.left_in)
    far = abs(a.left_in)
    spans = np.minimum(off.max(axis=1), far) - np.maximum(off.min(axis=1), 0.0)
    for edge in (a.high_in, b.low_in):
        jamb = (np.abs(along - edge).max(axis=1) <= AT_EDGE_IN) & (spans >= MOST_OF * far)
        if (jamb & (off.min(axis=1) >= -BEYOND_IN)).any():
            return False
    return True


def _behind(beside: list[_Beside], i: int) -> set[int]:
    """The lines that face a line from the other side than line i does."""
    mine = [b.left_in > 0 for b in beside if b.line == i]
    return {b.line for b in beside if mine and (b.left_in > 0) != mine[0]}
