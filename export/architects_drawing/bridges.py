"""Free ends of walls -> the bridges that close doors, windows, garages and open fronts."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from export.architects_drawing.pairs import Flags, Floats, Ints
from export.architects_drawing.strips import Strips, bands

IN_LINE_IN = 1.2
WIDEST_THROUGH_IN = 8 * 12.0
WIDEST_OPENING_IN, WIDEST_TO_SIDE_IN = 24 * 12.0, 18 * 12.0
NARROWEST_MOUTH_IN, WIDEST_MOUTH_IN = 60.0, 26 * 12.0
MOST_ENDS = 4000
END_TO_END, END_TO_SIDE, AT_SLANT = 0, 1, 2
IN_PLANE_IN = 3.0
MOST_OPEN = 0.4
SLANTED_DEG = 4.0
"""A wall that turns away by more stops what looks along it: no opening goes on behind it."""
SQUARE_ENOUGH_DEG = 30.0
"""At a wall that is met at less an opening may end, or whoever looks along a wall just stops seeing there."""

THICKEST_SILL_IN, BESIDE_IN, BESIDE_EACH_IN = 4.6, 1.0, 6.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Bridges:
    """What closes openings: `shapes` (n,) polygons, `wide_in` (n,), `middle` (n, 2), `kind` (n,)."""

    shapes: Floats
    wide_in: Floats
    middle: Floats
    kind: Ints

    def some(self, keep: Flags) -> Bridges:
        """The bridges that are flagged."""
        return Bridges(
            shapes=self.shapes[keep], wide_in=self.wide_in[keep], middle=self.middle[keep], kind=self.kind[keep]
        )


def bridges_of(strips: Strips) -> Bridges:
    """The bridges from every free end along its wall's line: to an end that looks back, else to the side of a wall.

    Doors and windows, whose two ends are in line, come first; the others end at them.
    """
    starts = np.flatnonzero(strips.free & ~strips.corner & (strips.thick > 2.0))[:MOST_ENDS]
    facing = {e: f for e in starts.tolist() if (f := _facing(strips, e, starts)) is not None}
    plain = [e for e, f in facing.items() if f.both_in_line]
    rest = starts[~np.isin(starts, plain)]
    to_side = _to_sides(strips, rest, plain, [facing[e].shape for e in plain])
    tree = shapely.STRtree(strips.shapes)
    shapes, wide, middle, kind = [], [], [], []
    for e in starts.tolist():
        f, side = facing.get(e), to_side.get(e)
        if f is not None and (side is None or side[0] > f.reach_in - 1.0):
            reach, shape, of = f.reach_in, f.shape, END_TO_END
        elif side is not None:
            reach, shape, of = side
        else:
            continue
        if strips.thick[e] <= THICKEST_SILL_IN and _along_a_wall(strips, e, reach, tree):
            continue
        shapes.append(shape)
        wide.append(reach)
        middle.append(strips.middle[e] + strips.out[e] * reach / 2.0)
        kind.append(of)
    return Bridges(
        shapes=np.array(shapes, object),
        wide_in=np.array(wide, float),
        middle=np.array(middle, float).reshape(-1, 2),
        kind=np.array(kind, int),
    )


def _along_a_wall(strips: Strips, e: int, reach_in: float, tree: shapely.STRtree) -> bool:
    """Whether a wall runs beside the whole way from an end to the next: between two window sills nothing is open."""
    n = max(2, int(reach_in / BESIDE_EACH_IN))
    at = strips.middle[e] + strips.out[e] * ((np.arange(n) + 0.5) / n * reach_in)[:, None]
    off = np.array((-strips.out[e][1], strips.out[e][0])) * (strips.thick[e] / 2.0 + BESIDE_IN)
    return any(len(np.unique(tree.query(shapely.points(at + by), "intersects")[0])) == n for by in (off, -off))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Facing:
    """An end that looks back: how far off, the rectangle up to it, and whether both faces run on."""

    reach_in: float
    shape: shapely.Polygon
    both_in_line: bool


def _facing(strips: Strips, e: int, others: Ints) -> _Facing | None:
    """The nearest end that looks back at an end with a face in line, and the rectangle between them."""
    u = strips.out[e]
    side = np.array((-u[1], u[0]))
    way = strips.middle[others] - strips.middle[e]
    ahead, off = way @ u, way @ side
    mine, theirs = strips.thick[e] / 2.0, strips.thick[others] / 2.0
    right_gap, left_gap = np.abs(off - theirs + mine), np.abs(off + theirs - mine)
    good = (
        (strips.out[others] @ u < -np.cos(np.radians(2.0)))
        & (ahead > 0.5)
        & (ahead <= WIDEST_OPENING_IN)
        & (np.minimum(right_gap, left_gap) <= IN_LINE_IN + 0.004 * ahead)
    )
    if not good.any():
        return None
    k = np.flatnonzero(good)[np.argmin(ahead[good])]
    low, high = max(-mine, off[k] - theirs[k]), min(mine, off[k] + theirs[k])
    if high - low < 1.0:
        return None
    a = strips.middle[e]
    end = others[k]
    near = (a + side * low, a + side * high)
    back = strips.middle[end]
    their_side = np.array((strips.out[end][1], -strips.out[end][0]))
    far = (back + their_side * (low - off[k]), back + their_side * (high - off[k]))
    return _Facing(
        reach_in=float(ahead[k]),
        shape=shapely.Polygon([near[0], far[0], far[1], near[1]]),
        both_in_line=bool(max(right_gap[k], left_gap[k]) <= IN_LINE_IN and ahead[k] <= WIDEST_THROUGH_IN),
    )


def _to_sides(
    strips: Strips, starts: Ints, bridged: Sequence[int], bridges: Sequence[shapely.Polygon]
) -> dict[int, tuple[float, shapely.Polygon, int]]:
    """For each end that has one before it, how far the side of a crossing wall is, the rectangle up to it, and whether
    the wall is met end to side or at a slant.

    What is `bridged` from an end along its wall, a door or a window, is wall here: nobody looks out through it.
    """
    if not len(starts):
        return {}
    n = len(starts)
    middle, out, thick = strips.middle[starts], strips.out[starts], strips.thick[starts]
    ahead = bands(middle, out, np.full(n, 0.5), np.full(n, WIDEST_TO_SIDE_IN), thick * 0.25)
    sides = np.array([*strips.shapes, *bridges], object)
    ways = np.vstack([strips.out[: len(strips.shapes)], strips.out[list(bridged)]])
    k, strip = shapely.STRtree(sides).query(ahead, predicate="intersects")
    axis = ways[strip]
    along = np.abs(np.sum(axis * out[k], axis=1))
    crossing = (along < np.cos(np.radians(SLANTED_DEG))) & (strip != starts[k] % len(strips.shapes))
    k, strip, ends = k[crossing], strip[crossing], (along < np.cos(np.radians(SQUARE_ENOUGH_DEG)))[crossing]
    met = shapely.intersection(ahead[k], sides[strip])
    reach: dict[int, tuple[float, bool]] = {}
    for at, shape, square in zip(k.tolist(), met, ends.tolist(), strict=True):
        points = shapely.get_coordinates(shape)
        if len(points):
            near = float(np.min((points - middle[at]) @ out[at]))
            reach[at] = min(reach.get(at, (np.inf, True)), (near, square))
    found = {}
    for at, (far, square) in reach.items():
        shape = bands(
            middle[at : at + 1], out[at : at + 1], np.zeros(1), np.array([far + 1.0]), thick[at : at + 1] / 2.0
        )[0]
        found[int(starts[at])] = (far, shape, END_TO_SIDE if square else AT_SLANT)
    return found


def mouths_of(strips: Strips, walls: BaseGeometry) -> Bridges:
    """What closes a front that is open from wall to wall: two free parallel ends in one plane, a garage or carport.

    Both ends are of one piece of `walls`: no bridge goes from one plan of a sheet to another.
    """
    ends = np.flatnonzero(strips.free & (strips.thick > 2.0))[:MOST_ENDS]
    pieces = np.array(getattr(walls, "geoms", [walls]), object)
    piece = np.full(len(strips.middle), -1)
    at, of = shapely.STRtree(pieces).query(shapely.points(strips.middle), predicate="dwithin", distance=0.5)
    piece[at] = of
    shapes, wide, middles = [], [], []
    for e in ends.tolist():
        u = strips.out[e]
        side = np.array((-u[1], u[0]))
        way = strips.middle[ends] - strips.middle[e]
        ahead, off = way @ u, way @ side
        good = (
            (strips.out[ends] @ u > np.cos(np.radians(2.0)))
            & (np.abs(ahead) < IN_PLANE_IN)
            & (off > NARROWEST_MOUTH_IN)
            & (off < WIDEST_MOUTH_IN)
            & (piece[ends] == piece[e])
        )
        if not good.any():
            continue
        f = ends[np.flatnonzero(good)[np.argmin(off[good])]]
        inner = [strips.middle[k] + s * side * strips.thick[k] / 2.0 for k, s in ((e, 1.0), (f, -1.0))]
        back = -u * strips.thick[e]
        shapes.append(shapely.Polygon([inner[0], inner[1], inner[1] + back, inner[0] + back]))
        wide.append(float(np.hypot(*(inner[1] - inner[0]))))
        middles.append((inner[0] + inner[1]) / 2.0)
    return Bridges(
        shapes=np.array(shapes, object),
        wide_in=np.array(wide, float),
        middle=np.array(middles, float).reshape(-1, 2),
        kind=np.full(len(shapes), END_TO_END),
    )


def walled_in(mouths: Bridges, walls: BaseGeometry) -> Bridges:
    """The mouths of what has walls on most of its sides and opens to one: between two houses it opens to both ends."""
    if not len(mouths.shapes):
        return mouths
    closed = shapely.union_all([walls, *mouths.shapes])
    solid = shapely.union_all([shapely.Polygon(p.exterior) for p in shapely.get_parts(walls)])
    filled = shapely.union_all([shapely.Polygon(p.exterior) for p in shapely.get_parts(closed)])
    keep = np.zeros(len(mouths.shapes), bool)
    for pocket in shapely.get_parts(filled.difference(closed).difference(solid)):
        at = np.flatnonzero(shapely.dwithin(mouths.shapes, pocket, 0.1))
        open_in = float(shapely.length(pocket.exterior.intersection(shapely.union_all(mouths.shapes[at]).buffer(0.1))))
        apart = max((float(shapely.distance(mouths.shapes[at], m).max()) for m in mouths.shapes[at]), default=0.0)
        keep[at] |= open_in <= MOST_OPEN * pocket.exterior.length and apart <= NARROWEST_MOUTH_IN
    return mouths.some(keep)
