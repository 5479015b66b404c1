"""The eaves along walls at any angle: one ring of edges, shorter along some walls where they would meet."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import shapely
from shapely.geometry import LineString, Polygon

from framing.plan import Point
from framing.roof.eave_refusals import eaves_meet, eaves_shortened, whole_inches_under
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline

Plane = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class AngledEaves:
    """The eaves' corners; the wall that each edge from them runs along; the corners of the same edges where all eaves
    are as deep as the shortest; where a longer eave ends on a shorter one; and what is to be said of the shorter ones.
    """

    ring: tuple[Point, ...]
    walls: list[int]
    level: tuple[Point, ...]
    ends: tuple[LineString, ...] = ()
    notes: tuple[str, ...] = ()


def eaves_of(outline: Outline, gables: frozenset[int], overhangs_ft: Point) -> AngledEaves:
    """The eaves all as deep as the overhang; where these leave no one ring, shorter along some walls, and said.

    Raises
    ------
    LayoutError
        If the eaves leave no one ring with those shortened either.
    """
    found = _eave_ring(outline, gables, overhangs_ft)
    return _shortened_eaves(outline, gables, overhangs_ft) if found is None else found


def wall_plane(outline: Outline, wall: int) -> Plane:
    """(a, b, c) such that a x + b y + c is the distance into the house from a wall's outside face. [ft]"""
    (x0, y0), (x1, y1) = outline.local_ft[wall], outline.local_ft[(wall + 1) % len(outline.walls)]
    length = math.dist((x0, y0), (x1, y1))
    a, b = (y0 - y1) / length, (x1 - x0) / length
    return (a, b, -(a * x0 + b * y0))


def ring_beside(outline: Outline, out_ft: list[float]) -> tuple[Point, ...]:
    """The corners of the lines that run beside the walls, wall by wall so far out from its outside face (in, where
    negative), in the outline's frame; corner i begins the line of wall i. [ft]
    """
    planes = [wall_plane(outline, i) for i in range(len(outline.walls))]
    return tuple(_meet(planes[i - 1], out_ft[i - 1], planes[i], out_ft[i]) for i in range(len(planes)))


def _eave_ring(outline: Outline, gables: frozenset[int], overhangs_ft: Point) -> AngledEaves | None:
    """The eaves all as deep as the overhang; None where they leave no one ring."""
    n = len(outline.walls)
    out = [overhangs_ft[1] if i in gables else overhangs_ft[0] for i in range(n)]
    ring = ring_beside(outline, out)
    if _same_way_round(outline, ring):
        return AngledEaves(ring=ring, walls=list(range(n)), level=ring)
    grown = Polygon(outline.local_ft).buffer(overhangs_ft[0], join_style="mitre", mitre_limit=100.0)
    if gables or not isinstance(grown, Polygon) or grown.interiors or not _clear_of_itself(grown):
        return None
    planes = [wall_plane(outline, i) for i in range(n)]
    closed = list(shapely.geometry.polygon.orient(grown).exterior.coords)
    walls = [_wall_along(planes, overhangs_ft[0], a, b) for a, b in itertools.pairwise(closed)]
    if None in walls:
        return None
    ring = tuple((x, y) for x, y in closed[:-1])
    return AngledEaves(ring=ring, walls=[w for w in walls if w is not None], level=ring)


def _shortened_eaves(outline: Outline, gables: frozenset[int], overhangs_ft: Point) -> AngledEaves:
    """The eaves with some of them as much shorter, by whole inches, as keeps them apart; never a gable's."""
    n, over_ft = len(outline.walls), overhangs_ft[0]
    full = [overhangs_ft[1] if i in gables else over_ft for i in range(n)]
    eaves = set(range(n)) - gables
    for depth_ft in (*whole_inches_under(over_ft), 0.0):
        if _apart(outline, full, eaves, depth_ft):
            level = ring_beside(outline, _no_deeper(full, eaves, depth_ft))
            return _ring_with_shorter(outline, gables, full, _of_use(outline, full, eaves, depth_ft), depth_ft, level)
    turned = _turned_back(outline, ring_beside(outline, full))
    raise eaves_meet(outline, turned, overhangs_ft, lambda less_ft: _eave_ring(outline, gables, less_ft) is not None)


def _apart(outline: Outline, full_ft: list[float], along: set[int], depth_ft: float) -> bool:
    return _same_way_round(outline, ring_beside(outline, _no_deeper(full_ft, along, depth_ft)))


def _of_use(outline: Outline, full_ft: list[float], eaves: set[int], depth_ft: float) -> set[int]:
    """The walls along which eaves have to be shorter, and those between two of them: the longest first keep theirs."""
    n = len(full_ft)
    order = sorted(eaves, key=lambda i: (-round(outline.walls[i].length_ft, 6), i))
    needed = list(order)
    while (free := next((i for i in needed if _apart(outline, full_ft, {*needed} - {i}, depth_ft)), None)) is not None:
        needed.remove(free)
    return {*needed} | {i for i in eaves if {(i - 1) % n, (i + 1) % n} <= {*needed}}


def _ring_with_shorter(
    outline: Outline,
    gables: frozenset[int],
    full_ft: list[float],
    along: set[int],
    depth_ft: float,
    level: tuple[Point, ...],
) -> AngledEaves:
    """The eaves, shorter along some walls."""
    n = len(full_ft)
    ring = ring_beside(outline, _no_deeper(full_ft, along, depth_ft))
    cut = [i for i in range(n) if (i in along) != ((i - 1) % n in along) and not {i, (i - 1) % n} & gables]
    ends = tuple(LineString([level[i], ring[i]]) for i in cut)
    notes = eaves_shortened(outline, sorted(along), max(full_ft[i] for i in along), depth_ft)
    return AngledEaves(ring=ring, walls=list(range(n)), level=level, ends=ends, notes=notes)


def _no_deeper(out_ft: list[float], walls: set[int], most_ft: float) -> list[float]:
    return [min(d, most_ft) if i in walls else d for i, d in enumerate(out_ft)]


def _meet(before: Plane, out_before_ft: float, after: Plane, out_after_ft: float) -> Point:
    """Where the lines beside two walls meet."""
    (a, b, c), (d, e, f) = before, after
    cross = a * e - b * d
    p, q = -out_before_ft - c, -out_after_ft - f
    return ((p * e - q * b) / cross, (a * q - d * p) / cross)


def _same_way_round(outline: Outline, ring: tuple[Point, ...]) -> bool:
    return not _turned_back(outline, ring) and _clear_of_itself(Polygon(ring))


def _clear_of_itself(ring: Polygon) -> bool:
    """Whether a ring neither crosses nor touches itself, by more than rounding."""
    return bool(ring.is_valid) and bool(shapely.minimum_clearance(ring) > 10 * TIE_FT)


def _turned_back(outline: Outline, ring: tuple[Point, ...]) -> list[int]:
    """The walls whose eaves run the other way round, because the eaves beside them run past one another."""
    n = len(ring)
    out = []
    for i in range(n):
        (x0, y0), (x1, y1) = outline.local_ft[i], outline.local_ft[(i + 1) % n]
        (u0, v0), (u1, v1) = ring[i], ring[(i + 1) % n]
        if (x1 - x0) * (u1 - u0) + (y1 - y0) * (v1 - v0) <= TIE_FT:
            out.append(i)
    return out


def _wall_along(planes: list[Plane], out_ft: float, a: Point, b: Point) -> int | None:
    for i, (p, q, c) in enumerate(planes):
        off = [abs(p * x + q * y + c + out_ft) for x, y in (a, b)]
        if max(off) <= TIE_FT and (b[0] - a[0]) * q - (b[1] - a[1]) * p > 0:
            return i
    return None
