"""Patches + tributaries -> pieces: every square foot of the roof with the one member that takes it."""

from __future__ import annotations

import contextlib
import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from framing.frame_side import SIDES
from framing.loads.load_points import LoadPoints, Ways, load_points, ways
from framing.members import Framing
from framing.plan import Point
from framing.roof.surface import Roof, own_height_ft
from framing.tolerances import FINE_GRID_FT, ROUNDING, SLIVER_FT2, SPECK_FT2, TIE_FT
from framing.walls.outline import tie_key
from framing.wind.patches import Bools, Floats, Patches

Ints = NDArray[np.int64]
FARTHEST_FT = 1e3
BIT_FT = 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Arrays over n pieces, in the outline's frame.

    `patch` and `tributary` (n,) say where a piece comes from, `polygon` (n,) its shape; `area_ft2` (n,) its plan area;
    `centre_ft` (n, 2) its centroid; `on_valley` whether it is a valley set's roof above the owner's own wing; `way` the
    member that it loads, `points` where its load stands on it.
    """

    patch: Ints
    tributary: Ints
    polygon: NDArray[np.object_]
    area_ft2: Floats
    centre_ft: Floats
    on_valley: Bools
    way: Ways
    points: LoadPoints


def build_pieces(roof: Roof, framing: Framing, patches: Patches) -> Pieces:
    """The roof cut by who takes what. Every patch is covered once: what no tributary reaches goes to the nearest."""
    rings = _polygons([t.ring_ft for t in framing.tributaries])
    outward = np.array([[s in t.outward for s in SIDES] for t in framing.tributaries])
    tree = shapely.STRtree(patches.polygon)
    of_tributary, of_patch = tree.query(rings, predicate="intersects")
    inside = patches.in_cells[of_patch]
    falls_so = outward[of_tributary, patches.side[of_patch]]
    is_tail = np.array([bool(t.outward) for t in framing.tributaries])[of_tributary]
    fits = np.where(is_tail, ~inside & falls_so, inside)
    of_tributary, of_patch = of_tributary[fits], of_patch[fits]
    cut = _cut(rings, of_tributary, patches.polygon, of_patch)
    beyond = np.array([t.beyond for t in framing.tributaries])
    middle = shapely.get_coordinates(shapely.centroid(rings))
    cut = _without_taken(cut, of_patch, beyond[of_tributary], middle[of_tributary])
    area = shapely.area(cut)
    keep = area > SPECK_FT2
    of_tributary, of_patch, area, cut = of_tributary[keep], of_patch[keep], area[keep], cut[keep]
    more = _left_over(patches, rings, of_patch, area, cut)
    of_patch = np.concatenate([of_patch, more[0]])
    of_tributary = np.concatenate([of_tributary, more[1]])
    cut = np.concatenate([cut, more[2]])
    centre = shapely.get_coordinates(shapely.centroid(cut))
    way = ways(framing, of_tributary, patches.in_bearings[of_patch])
    return Pieces(
        patch=of_patch,
        tributary=of_tributary,
        polygon=cut,
        area_ft2=shapely.area(cut),
        centre_ft=centre,
        on_valley=_on_valley(roof, framing, patches, of_tributary, of_patch, centre),
        way=way,
        points=load_points(framing, way, cut, centre),
    )


def _polygons(rings_ft: list[tuple[Point, ...]]) -> NDArray[np.object_]:
    """The rings as polygons, made in one call. (n,)"""
    of_ring = np.repeat(np.arange(len(rings_ft)), [len(r) for r in rings_ft])
    rings = shapely.linearrings(np.array([p for r in rings_ft for p in r]), indices=of_ring)
    out: NDArray[np.object_] = shapely.polygons(rings)
    return out


def _cut(
    rings: NDArray[np.object_], of_ring: Ints, polygon: NDArray[np.object_], of_patch: Ints
) -> NDArray[np.object_]:
    """Each ring's part of its patch, the pairs in the order of the rings. Where edges lie almost on one another the
    exact intersection can be the whole patch or nothing, and the quick cut a notch beside it: a patch is cut again on a
    fine grid where what comes out is larger or smaller than it in all, or has its middle outside the ring.
    """
    ring, patch = rings[of_ring], polygon[of_patch]
    cut = _clipped(rings, of_ring, patch)
    other = shapely.is_missing(cut) | ~shapely.is_valid(cut)
    cut[other] = shapely.intersection(ring[other], patch[other])
    covered = np.bincount(of_patch, weights=shapely.area(cut), minlength=len(polygon))
    again = abs(covered - shapely.area(polygon)) > SLIVER_FT2
    again[of_patch[shapely.distance(ring, shapely.centroid(cut)) > TIE_FT]] = True
    off = np.flatnonzero(again[of_patch])
    cut[off] = shapely.intersection(ring[off], patch[off], grid_size=FINE_GRID_FT)
    return cut


def _clipped(rings: NDArray[np.object_], of_ring: Ints, patch: NDArray[np.object_]) -> NDArray[np.object_]:
    """The patches of each ring that is a rectangle square to the frame cut by it, several times as quick as the exact
    intersection; None with the other rings, and where the cut trips over a patch that only touches the rectangle.
    """
    cut = np.full(len(patch), None, dtype=object)
    boxes = shapely.bounds(rings)
    is_box = shapely.area(rings) >= (1.0 - ROUNDING) * np.prod(boxes[:, 2:] - boxes[:, :2], axis=1)
    ends = np.searchsorted(of_ring, np.arange(len(rings) + 1))
    for i in np.flatnonzero(is_box):
        of_box = slice(ends[i], ends[i + 1])
        with contextlib.suppress(shapely.GEOSException):
            cut[of_box] = shapely.clip_by_rect(patch[of_box], *boxes[i])
    return cut


def _without_taken(cut: NDArray[np.object_], of_patch: Ints, beyond: Bools, middle_ft: Floats) -> NDArray[np.object_]:
    """The pieces past the ends of walls less what another piece of the same patch has; of what two of them reach each
    keeps what is nearer its strip's middle.
    """
    out = cut.copy()
    for i in np.flatnonzero(beyond):
        same = of_patch == of_patch[i]
        taken = [*cut[same & ~beyond]]
        for j in np.flatnonzero(same & beyond):
            if tie_key(math.dist(middle_ft[i], middle_ft[j])):
                taken.append(_nearer(cut[j], middle_ft[j], middle_ft[i]))
            elif j < i:
                taken.append(cut[j])
        if taken:
            out[i] = out[i].difference(shapely.union_all(taken))
    return out


def _nearer(piece: shapely.Geometry, own_ft: Floats, other_ft: Floats) -> shapely.Geometry:
    """The part of a piece that lies nearer one point than another."""
    toward = (own_ft - other_ft) / math.dist(own_ft, other_ft)
    along, halfway = np.array([-toward[1], toward[0]]), (own_ft + other_ft) / 2.0
    far = FARTHEST_FT * np.array([along, along + toward, toward - along, -along])
    return shapely.intersection(piece, Polygon(halfway + far))


def _left_over(
    patches: Patches, rings: NDArray[np.object_], of_patch: Ints, area: Floats, cut: NDArray[np.object_]
) -> tuple[Ints, Ints, NDArray[np.object_]]:
    """What the tributaries leave uncovered, bit by bit with the nearest; two as near halve it between them."""
    covered = np.bincount(of_patch, weights=area, minlength=len(patches.polygon))
    short = np.flatnonzero(shapely.area(patches.polygon) - covered > SLIVER_FT2)
    middle_ft = shapely.get_coordinates(shapely.centroid(rings))
    bits: list[tuple[int, shapely.Geometry]] = []
    for i in short.tolist():
        rest = patches.polygon[i].difference(shapely.union_all(cut[of_patch == i]))
        bits += [(i, bit) for bit in _small(rest)]
    out: list[tuple[int, int, shapely.Geometry]] = []
    for (i, bit), near in zip(bits, _nearest(rings, shapely.centroid([bit for _, bit in bits])), strict=True):
        if len(near) == 2 and tie_key(math.dist(*middle_ft[near])):
            out += [(i, int(a), _nearer(bit, middle_ft[a], middle_ft[b])) for a, b in (near, near[::-1])]
        else:
            out.append((i, int(near[0]), bit))
    out = [row for row in out if row[2].area > SPECK_FT2]
    which, nearest, shapes = (list(column) for column in zip(*out, strict=True)) if out else ([], [], [])
    return np.array(which, dtype=np.int64), np.array(nearest, dtype=np.int64), np.array(shapes, dtype=object)


def _small(rest: shapely.Geometry) -> list[Polygon]:
    """Its parts in bits of 6 in. or less either way, so that the nearest strip is the one nearest all of a bit."""
    out = []
    for part in shapely.get_parts(rest):
        x0, y0, x1, y1 = part.bounds
        nx, ny = (max(1, math.ceil((high - low) / BIT_FT - TIE_FT)) for low, high in ((x0, x1), (y0, y1)))
        xs, ys = np.linspace(x0, x1, nx + 1), np.linspace(y0, y1, ny + 1)
        cells = shapely.box(xs[:-1, None], ys[None, :-1], xs[1:, None], ys[None, 1:]).ravel()
        bits = [part] if len(cells) == 1 else shapely.get_parts(shapely.intersection(part, cells))
        out += [bit for bit in bits if isinstance(bit, Polygon) and bit.area > SPECK_FT2]
    return out


def _nearest(rings: NDArray[np.object_], points: NDArray[np.object_]) -> list[Ints]:
    """For each point the rings nearest it, of equals those whose middles are nearest."""
    if not len(points):
        return []
    middles, tree = shapely.centroid(rings), shapely.STRtree(rings)
    _, off_ft = tree.query_nearest(points, all_matches=False, return_distance=True)
    of_point, near = tree.query(points, predicate="dwithin", distance=off_ft + TIE_FT)
    keys = np.column_stack([_tie_keys(shapely.distance(a[near], points[of_point])) for a in (rings, middles)])
    out = []
    for rows in np.split(np.arange(len(near)), np.searchsorted(of_point, np.arange(1, len(points)))):
        best = min(map(tuple, keys[rows].tolist()))
        out.append(near[rows[(keys[rows] == best).all(axis=1)]])
    return out


def _tie_keys(values_ft: Floats) -> Ints:
    return np.array([tie_key(v) for v in values_ft])


def _on_valley(
    roof: Roof, framing: Framing, patches: Patches, of_tributary: Ints, of_patch: Ints, centre: Floats
) -> Bools:
    """Whether the roof over a piece stands above the wing that the trusses there are shaped to."""
    height = patches.height_ft(of_patch, centre)
    out = np.zeros(len(of_tributary), dtype=bool)
    shapes = sorted({(t.wing, t.open_sides) for t in framing.tributaries})
    shape_of = np.array([shapes.index((t.wing, t.open_sides)) for t in framing.tributaries])[of_tributary]
    over = (roof.overhang_ft, roof.rake_overhang_ft)
    for k, (wing, open_sides) in enumerate(shapes):
        at = np.flatnonzero(shape_of == k)
        own = own_height_ft(roof.wing(wing), over, roof.rise_per_run, centre[at], open_sides)
        out[at] = np.isfinite(own) & (own < height[at] - TIE_FT) & patches.in_walls[of_patch[at]]
    return out
