"""Eave outline -> the faces of the roof of equal pitch over it: the straight skeleton, by a shrinking outline.

Every edge moves inward at its own speed (1 for an eave, 0 for a gable). From one event to the next (an edge
vanishes, an inside corner runs into another edge) the corners move on straight lines; at an event the outline is
cleaned: points that met become one, corners that touch an edge divide it, and where the outline meets itself it
falls into parts, of which those without area are ridges. The corners' paths and the ridges divide the plan into
one face per eave. Source: own derivation: tests/invariants/test_skeleton.py (the mitred inward offset of the outline
is what lies above a height).
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from framing.errors import LayoutError
from framing.plan import Point
from framing.tolerances import ROUNDING, SPECK_FT2, TIE_FT

Floats = NDArray[np.float64]
MOST_EVENTS = 2000


@dataclass(frozen=True, slots=True, kw_only=True)
class SkeletonFace:
    """The plan of one face: `edge` is the eave it rises from, by its place in the outline."""

    edge: int
    polygon: Polygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A corner of the shrinking outline: where it is, the edges before and after, and where its path began."""

    at: Point
    before: int
    after: int
    born: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Edges:
    """The outline's edges as moving lines: `inward` (n, 2) unit normals, `speed_ratio` (n,) 1 or 0."""

    inward: Floats
    speed_ratio: Floats


Loop = tuple[Corner, ...]
Segment = tuple[Point, Point]


def skeleton_faces(
    ring_ft: tuple[Point, ...], speeds: tuple[float, ...], names: tuple[str, ...]
) -> tuple[SkeletonFace, ...]:
    """The faces over an outline, counter-clockwise, one or more per edge of speed 1.

    Parameters
    ----------
    ring_ft : tuple of (x, y)
        The eaves' corners. [ft]
    speeds : tuple of float
        Of the edge from each corner to the next: 1 for an eave, 0 for a gable.
    names : tuple of str
        The wall that each edge runs along.

    Raises
    ------
    LayoutError
        If the outline does not shrink to nothing (not known to happen); names the walls.
    """
    n = len(ring_ft)
    points = np.array(ring_ft, dtype=np.float64)
    along = np.roll(points, -1, axis=0) - points
    along /= np.hypot(along[:, 0], along[:, 1])[:, None]
    edges = Edges(inward=np.column_stack([-along[:, 1], along[:, 0]]), speed_ratio=np.array(speeds, dtype=np.float64))
    loops: list[Loop] = [tuple(Corner(at=p, before=(i - 1) % n, after=i, born=p) for i, p in enumerate(ring_ft))]
    arcs: list[Segment] = []
    for _ in range(MOST_EVENTS):
        if not loops:
            return _faces(ring_ft, edges, arcs, names)
        moving = [(loop, _velocities(loop, edges)) for loop in loops]
        step = min(_time_to_event(loop, v, edges) for loop, v in moving)
        if not math.isfinite(step):
            break
        loops = []
        for loop, v in moving:
            moved = [(c.at[0] + step * dx, c.at[1] + step * dy) for c, (dx, dy) in zip(loop, v.tolist(), strict=True)]
            parts, paths = _cleaned(loop, moved)
            loops += parts
            arcs += paths
    raise _not_found([c.after for loop in loops for c in loop], names)


def _not_found(edges: list[int], names: tuple[str, ...]) -> LayoutError:
    walls = ", ".join(dict.fromkeys(names[edge] for edge in sorted(set(edges))))
    return LayoutError(
        f"roof: the planes over {walls} could not be found; move a corner of one of them that is at an angle by 1 in., "
        "or draw that part square to the house, and please report this plan"
    )


def _velocities(loop: Loop, edges: Edges) -> Floats:
    """Of every corner, so that it stays on both its edges. (m, 2)"""
    a, b = edges.inward[[c.before for c in loop]], edges.inward[[c.after for c in loop]]
    s, t = edges.speed_ratio[[c.before for c in loop]], edges.speed_ratio[[c.after for c in loop]]
    cross = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    straight = np.abs(cross) < ROUNDING
    safe = np.where(straight, 1.0, cross)
    v = np.column_stack([(s * b[:, 1] - t * a[:, 1]) / safe, (t * a[:, 0] - s * b[:, 0]) / safe])
    out: Floats = np.where(straight[:, None], a * s[:, None], v)
    return out


def _time_to_event(loop: Loop, v: Floats, edges: Edges) -> float:
    """How far the outline can shrink before an edge of a loop vanishes or an inside corner meets an edge. [ft]"""
    p = np.array([c.at for c in loop])
    of = np.array([c.after for c in loop])
    q, w = np.roll(p, -1, axis=0), np.roll(v, -1, axis=0)
    n = edges.inward[of]
    d = np.column_stack([n[:, 1], -n[:, 0]])
    length, rate = ((q - p) * d).sum(axis=1), ((w - v) * d).sum(axis=1)
    shrinking = rate < -ROUNDING
    times = [float(t) for t in (length[shrinking] / -rate[shrinking]) if t > TIE_FT / 10]
    before = edges.inward[[c.before for c in loop]]
    reflex = np.flatnonzero(before[:, 0] * n[:, 1] - before[:, 1] * n[:, 0] < -ROUNDING)
    if len(reflex):
        gap = ((p[reflex][:, None, :] - p[None, :, :]) * n[None, :, :]).sum(axis=2)
        closing = edges.speed_ratio[of][None, :] - v[reflex] @ n.T
        with np.errstate(divide="ignore", invalid="ignore"):
            t = np.where(closing > ROUNDING, gap / closing, np.inf)
            hit = p[reflex][:, None, :] + t[:, :, None] * v[reflex][:, None, :]
            start, end = p[None, :, :] + t[:, :, None] * v[None, :, :], q[None, :, :] + t[:, :, None] * w[None, :, :]
            within = ((hit - start) * d[None]).sum(axis=2) >= -TIE_FT
            within &= ((end - hit) * d[None]).sum(axis=2) >= -TIE_FT
        m = len(loop)
        beside = (np.arange(m)[None, :] == reflex[:, None]) | (np.arange(m)[None, :] == (reflex[:, None] - 1) % m)
        times += t[within & ~beside & (t > TIE_FT / 10) & np.isfinite(t)].tolist()
    return min(times, default=math.inf)


def _cleaned(loop: Loop, moved: list[Point]) -> tuple[list[Loop], list[Segment]]:
    """What a loop becomes when its corners have moved: the parts with area, and the paths that ended."""
    nodes = _one_where_met(moved)
    ring: list[tuple[Point, int]] = []  # a point and the edge that runs on from it
    m = len(loop)
    for i, corner in enumerate(loop):
        a, b = nodes[i], nodes[(i + 1) % m]
        if a == b:
            continue
        ring.append((a, corner.after))
        ring += [(p, corner.after) for p in _on_the_way(a, b, nodes)]
    parts, ridges = _apart(ring)
    living = {(c.before, c.after, nodes[i]): c.born for i, c in enumerate(loop)}
    loops = []
    for part in parts:
        corners = []
        for k, (at, after) in enumerate(part):
            before = part[k - 1][1]
            if before == after:
                continue  # a point that touched an edge whose other part is elsewhere
            corners.append(Corner(at=at, before=before, after=after, born=living.pop((before, after, at), at)))
        loops.append(tuple(corners))
    ended = [(born, at) for (_, _, at), born in living.items() if born != at]
    return loops, ended + ridges


def _one_where_met(moved: list[Point]) -> list[Point]:
    """The points, those that met made the same."""
    out: list[Point] = []
    for p in moved:
        out.append(next((q for q in out if math.dist(p, q) <= TIE_FT), p))
    return out


def _on_the_way(a: Point, b: Point, nodes: list[Point]) -> list[Point]:
    """The nodes that lie on a segment between its ends, in order."""
    length = math.dist(a, b)
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    found = {}
    for p in set(nodes):
        x, y = p[0] - a[0], p[1] - a[1]
        s = x * ux + y * uy
        if abs(x * uy - y * ux) <= TIE_FT < s < length - TIE_FT:
            found[p] = s
    return sorted(found, key=found.__getitem__)


def _apart(ring: list[tuple[Point, int]]) -> tuple[list[list[tuple[Point, int]]], list[Segment]]:
    """A ring that may meet itself taken apart at the points where it does; parts without area are ridges."""
    parts: list[list[tuple[Point, int]]] = []
    ridges: list[Segment] = []
    path: list[tuple[Point, int]] = []
    for at, edge in [*ring, *ring[:1]]:
        k = next((k for k, (p, _) in enumerate(path) if p == at), None)
        if k is not None:
            loop, path = path[k:], path[:k]
            points = [p for p, _ in loop]
            if len(loop) >= 3 and abs(_area_ft2(points)) > SPECK_FT2:
                parts.append(loop)
            elif len(loop) >= 2:
                ridges += [(points[i], points[i + 1]) for i in range(len(points) - 1)]
        path.append((at, edge))
    return parts, ridges


def _area_ft2(points: list[Point]) -> float:
    return 0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True))


def _faces(
    ring_ft: tuple[Point, ...], edges: Edges, arcs: list[Segment], names: tuple[str, ...]
) -> tuple[SkeletonFace, ...]:
    """The plan divided by the eaves and the paths; each part belongs to the eave on its edge."""
    n = len(ring_ft)
    eaves = {i: (ring_ft[i], ring_ft[(i + 1) % n]) for i in range(n) if edges.speed_ratio[i] > 0}
    lines = [LineString(s) for s in {frozenset(a): a for a in [*eaves.values(), *arcs] if a[0] != a[1]}.values()]
    parts = [g for g in shapely.get_parts(shapely.polygonize(lines)) if isinstance(g, Polygon)]
    out = []
    for edge, (a, b) in eaves.items():
        mid = shapely.Point((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
        on = [p for p in parts if p.distance(mid) <= TIE_FT]
        if not on:
            raise _not_found([edge], names)
        out.append(
            SkeletonFace(edge=edge, polygon=shapely.geometry.polygon.orient(min(on, key=lambda p: p.distance(mid))))
        )
    return tuple(out)
