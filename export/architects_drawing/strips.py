"""Pairs of lines -> strips of wall with their ends: where nothing goes on, and where a corner is."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely

from export.architects_drawing.pairs import Flags, Floats, Ints, Pairs, lengths_of

RUN_ON = 1.6
BEYOND_IN = 1.5
THICKEST_LEAVES_IN, FILLED = 22.0, 0.7
WIDEST_LEAF_IN = 50.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strips:
    """Pieces of wall: `shapes` (n,) polygons, `thick_in` and `long_in` (n,), and both ends of each.

    Of the 2 n ends (first all that look back, then all that look on): `middle` (2 n, 2), `out` (2 n, 2) the unit
    vector that leaves the wall, `thick` (2 n,), and whether nothing goes on there (`free`) and whether a line
    leaves across it (`corner`). [in]
    """

    shapes: Floats
    thick_in: Floats
    long_in: Floats
    middle: Floats
    out: Floats
    thick: Floats
    free: Flags
    corner: Flags

    def some(self, keep: Flags) -> Strips:
        """The strips that are flagged, with their ends as they are."""
        both = np.r_[keep, keep]
        return Strips(
            shapes=self.shapes[keep],
            thick_in=self.thick_in[keep],
            long_in=self.long_in[keep],
            middle=self.middle[both],
            out=self.out[both],
            thick=self.thick[both],
            free=self.free[both],
            corner=self.corner[both],
        )


def strips_of(lines: Floats, pairs: Pairs) -> Strips:
    """The strips of wall between the two lines of each pair.

    Parameters
    ----------
    lines : (n, 4) float
        x0 y0 x1 y1. [in]
    pairs : Pairs
        Each both ways round; the way with the longer line first is used.

    Returns
    -------
    Strips
        Each as far as both lines run, and on by up to 1.6 times the thickness where one of them does.
    """
    f = _faces(lines, pairs)
    start, end = np.minimum(f.of_i[0], f.of_j[0]), np.maximum(f.of_i[1], f.of_j[1])
    middle = (f.on_i(f.low) + f.on_j(f.high)) / 2.0
    slanted = [_slanted(lines, f, k, t, middle) for k, t in ((0, start), (1, end))]
    corners = [
        f.on_i(np.where(slanted[0], f.of_i[0], start)),
        f.on_i(np.where(slanted[1], f.of_i[1], end)),
        f.on_j(np.where(slanted[1], f.of_j[1], end)),
        f.on_j(np.where(slanted[0], f.of_j[0], start)),
    ]
    shapes = shapely.polygons(np.stack(corners, axis=1))
    whole = ~_piers(shapes, f.far, end - start)
    shapes, corners, u = shapes[whole], [c[whole] for c in corners], f.u[whole]
    middle = np.vstack([(corners[0] + corners[3]) / 2.0, (corners[1] + corners[2]) / 2.0])
    out, thick = np.vstack([-u, u]), np.r_[f.far[whole], f.far[whole]]
    free = _free(shapes, middle, out, thick)
    faces = np.zeros(len(lines), bool)
    faces[pairs.i] = True
    return Strips(
        shapes=shapes,
        thick_in=f.far[whole],
        long_in=(end - start)[whole],
        middle=middle,
        out=out,
        thick=thick,
        free=free,
        corner=_corner(lines, faces, middle, out, thick, free),
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Faces:
    """Both lines of each wall, measured along the longer one from its start: `base`, unit vectors `u` and `n`.

    Line j is at `off` + `slope` t to its left. They face one another from `low` to `high`; `of_i` and `of_j` say
    how far each is taken, at either end. [in]
    """

    i: Ints
    j: Ints
    base: Floats
    u: Floats
    n: Floats
    off: Floats
    slope: Floats
    far: Floats
    low: Floats
    high: Floats
    of_i: tuple[Floats, Floats]
    of_j: tuple[Floats, Floats]

    def on_i(self, t: Floats) -> Floats:
        """The points of the longer line."""
        return np.asarray(self.base + self.u * t[:, None], float)

    def on_j(self, t: Floats) -> Floats:
        """The points of the other line beside them."""
        return np.asarray(self.on_i(t) + self.n * (self.off + self.slope * t)[:, None], float)


def _faces(lines: Floats, pairs: Pairs) -> _Faces:
    length = lengths_of(lines)
    first = (length[pairs.i] > length[pairs.j]) | ((length[pairs.i] == length[pairs.j]) & (pairs.i < pairs.j))
    i, j, far = pairs.i[first], pairs.j[first], np.abs(pairs.d_in[first])
    low, high = pairs.low_in[first], pairs.high_in[first]
    u = (lines[i, 2:] - lines[i, :2]) / length[i][:, None]
    n = np.column_stack([-u[:, 1], u[:, 0]])
    a, b = lines[j, :2] - lines[i, :2], lines[j, 2:] - lines[i, :2]
    ta, tb, na, nb = (np.sum(x, axis=1) for x in (a * u, b * u, a * n, b * n))
    slope = (nb - na) / np.where(np.abs(tb - ta) < 1e-9, 1.0, tb - ta)
    most = np.where(high - low >= 0.9 * far, RUN_ON * far, 0.0)
    return _Faces(
        i=i,
        j=j,
        base=lines[i, :2],
        u=u,
        n=n,
        off=na - slope * ta,
        slope=slope,
        far=far,
        low=low,
        high=high,
        of_i=(np.maximum(low - most, 0.0), np.minimum(high + most, length[i])),
        of_j=(np.maximum(low - most, np.minimum(ta, tb)), np.minimum(high + most, np.maximum(ta, tb))),
    )


def _slanted(lines: Floats, f: _Faces, end: int, t: Floats, middle: Floats) -> Flags:
    """Where a line that leaves the longer face at an acute corner would be crossed by a square end."""
    out = np.zeros(len(f.i), bool)
    runs_on = np.flatnonzero(np.abs(f.of_i[end] - f.of_j[end]) > 0.5)
    if not len(runs_on):
        return out
    at_i, at_j = f.on_i(t), f.on_j(t)
    tree = shapely.STRtree(shapely.linestrings(lines.reshape(-1, 2, 2)))
    for tip, other in ((at_i, at_j), (at_j, at_i)):
        k, line = tree.query(shapely.points(tip[runs_on]), predicate="dwithin", distance=0.5)
        k = runs_on[k]
        foreign = (line != f.i[k]) & (line != f.j[k])
        k, line = k[foreign], line[foreign]
        across, back = (_side(lines[line], p[k] - tip[k]) for p in (other, middle))
        out[k[(across * back < 0.0) & (np.abs(across) > 0.15) & (np.abs(back) > 0.15)]] = True
    return out


def _side(lines: Floats, way: Floats) -> Floats:
    """How far to the left of each line a way leads."""
    u = lines[:, 2:] - lines[:, :2]
    return np.asarray((u[:, 0] * way[:, 1] - u[:, 1] * way[:, 0]) / np.maximum(np.hypot(*u.T), 1e-9), float)


def _piers(shapes: Floats, thick: Floats, long: Floats) -> Flags:
    """The strips across a longer one: two jambs with a pier between them, that only look like a wall's faces."""
    out = np.zeros(len(shapes), bool)
    short = np.flatnonzero(long < RUN_ON * thick)
    if len(short):
        inside = shapely.buffer(shapes[short], -0.5)
        k, over = shapely.STRtree(shapes).query(inside, predicate="covered_by")
        out[short[k[long[over] > 1.05 * long[short[k]]]]] = True
    return out


def bands(middle: Floats, out: Floats, from_in: Floats, to_in: Floats, half_in: Floats) -> Floats:
    """Rectangles before ends: so far from the end, to so far, so wide to either side. [in]."""
    side = np.column_stack([-out[:, 1], out[:, 0]]) * half_in[:, None]
    near, far = middle + out * from_in[:, None], middle + out * to_in[:, None]
    made: Floats = shapely.polygons(np.stack([near - side, far - side, far + side, near + side], axis=1))
    return made


def _free(shapes: Floats, middle: Floats, out: Floats, thick: Floats) -> Flags:
    """The ends before which no wall goes on."""
    n = len(middle)
    if not n:
        return np.zeros(0, bool)
    before = bands(middle, out, np.full(n, 0.2), np.full(n, BEYOND_IN), thick * 0.35)
    end, strip = shapely.STRtree(shapes).query(before, predicate="intersects")
    free = np.ones(n, bool)
    free[end[strip != end % len(shapes)]] = False
    return free


def _corner(lines: Floats, faces: Flags, middle: Floats, out: Floats, thick: Floats, free: Flags) -> Flags:
    """The free ends across which a line runs that is longer than the wall is thick: the corner of a building.

    A line that is no face of a wall may be a jamb and the open leaf of a door in one.
    """
    corner = np.zeros(len(middle), bool)
    asked = np.flatnonzero(free)
    if not len(asked):
        return corner
    n = len(asked)
    here = bands(middle[asked], out[asked], np.full(n, -BEYOND_IN), np.full(n, BEYOND_IN), thick[asked] * 0.25)
    made = shapely.linestrings(lines.reshape(-1, 2, 2))
    end, line = shapely.STRtree(made).query(here, predicate="intersects")
    end = asked[end]
    way = lines[line, 2:] - lines[line, :2]
    long = np.hypot(*way.T)
    along = np.abs(np.sum(way * out[end], axis=1)) / long
    side = np.column_stack([-out[end, 1], out[end, 0]])
    p, q = (np.sum((lines[line, k : k + 2] - middle[end]) * side, axis=1) for k in (0, 2))
    half = thick[end] / 2.0
    across = np.minimum(np.maximum(p, q), half) - np.maximum(np.minimum(p, q), -half)
    crossing = (along < 0.2) & (across > 0.7 * thick[end])
    end, line, way, long = end[crossing], line[crossing], way[crossing], long[crossing]
    faced = way[:, 0] * out[end, 1] > way[:, 1] * out[end, 0]
    runs_on = (long > RUN_ON * thick[end]) & (faces[line] | (long > thick[end] + WIDEST_LEAF_IN))
    corner[end[runs_on & ~_jamb(2 * line + faced, long, thick[end])]] = True
    return corner


def _jamb(which: Ints, long: Floats, thick: Floats) -> Flags:
    """Whether a line across an end is the jamb of a wall of several leaves: all that ends there fills it.

    `which` (n,) tells the lines apart, and their two sides; `long` is the line's length, `thick` the end's. [in]
    """
    fills = np.bincount(which, thick)[which] if len(which) else np.zeros(0)
    return np.asarray((long <= THICKEST_LEAVES_IN) & (fills >= FILLED * long), bool)
