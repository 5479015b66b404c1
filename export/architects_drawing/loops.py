"""Straight strokes -> the loops that they close, gaps healed; the rest with the reason why it closes none."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from ezdxf.edgeminer import Deposit, Edge, find_loop_by_edge, make_edge
from ezdxf.math import Vec3

from export.architects_drawing.layers import Chain
from framing.plan import Point
from framing.units import feet_inches

GAP_FT = 0.5 / 12.0
SAME_FT = 1.0 / 64.0 / 12.0
LEAST_TURN = math.sin(math.radians(1.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """A closed outline: its corners in order, and the gaps that were closed, each (place, width in feet)."""

    corners: tuple[Point, ...]
    gaps: tuple[tuple[Point, float], ...] = ()

    @property
    def chain(self) -> Chain:
        """The same as a chain."""
        return Chain(points=self.corners, closed=True)

    @property
    def ring(self) -> shapely.Polygon:
        """The same as a polygon."""
        return shapely.Polygon(self.corners)


@dataclass(frozen=True, slots=True, kw_only=True)
class Broken:
    """Strokes that hang together and close no loop, and why not."""

    chains: tuple[Chain, ...]
    why: str


def place(p: Point) -> str:
    """A point of the drawing, for somebody who looks it up there."""
    return f"({p[0] + 0.0:.10g}, {p[1] + 0.0:.10g})"


def size_of(chains: Sequence[Chain]) -> Point:
    """Longer and shorter side of the rectangle around chains, along the longest straight stroke among them."""
    strokes = [np.diff(np.array((*c.points, c.points[0]) if c.closed else c.points), axis=0) for c in chains]
    steps = np.vstack(strokes)
    ux, uy = steps[np.hypot(*steps.T).argmax()] / np.hypot(*steps.T).max()
    xy = np.vstack([np.array(c.points) for c in chains])
    longer, shorter = sorted((float(np.ptp(xy @ (ux, uy))), float(np.ptp(xy @ (-uy, ux)))), reverse=True)
    return (longer, shorter)


def join(chains: Sequence[Chain], ft: float) -> tuple[list[Loop], list[Broken]]:
    """The loops among chains, and what is left.

    Parameters
    ----------
    chains : sequence of Chain
        In the drawing's units, in its order.
    ft : float
        Feet in one of these units.

    Returns
    -------
    loops : list of Loop
        Each begins where its first chain begins, and runs as that one does.
    rest : list of Broken
        What hangs together and is open or branches.
    """
    loops = [Loop(corners=_cleaned(c.points, ft)) for c in chains if c.closed]
    loops = [loop for loop in loops if len(loop.corners) > 2]
    lines = _each_once([c for c in chains if not c.closed and _length(c.points) > GAP_FT / ft], ft)
    edges = [make_edge(line.points[0], line.points[-1], payload=line) for line in lines]
    if not edges:
        return loops, []
    deposit = Deposit(edges, gap_tol=GAP_FT / ft)
    rest: list[Broken] = []
    left = dict.fromkeys(edges)
    while left:
        first = next(iter(left))
        network = sorted(deposit.find_network(first) or {first}, key=lambda edge: edge.id)
        for edge in network:
            left.pop(edge)
        found = _closed(network, deposit, ft)
        if isinstance(found, Broken):
            rest.append(found)
        elif len(found.corners) > 2:
            loops.append(found)
    return loops, rest


def crossing(loop: Loop) -> Point | None:
    """A point where a loop crosses or touches itself; None where it does not."""
    if loop.ring.is_valid:
        return None
    sides = [shapely.LineString(s) for s in zip(loop.corners, (*loop.corners[1:], loop.corners[0]), strict=True)]
    n = len(sides)
    for i in range(n):
        for j in range(i + 1, n):
            met = shapely.intersection(sides[i], sides[j])
            if not met.is_empty and (j - i not in (1, n - 1) or met.length > 0):
                at = met.representative_point()
                return (at.x, at.y)
    return loop.corners[0]


def _length(points: Sequence[Point]) -> float:
    return sum(map(math.dist, points[:-1], points[1:]))


def _cleaned(points: Sequence[Point], ft: float) -> tuple[Point, ...]:
    """The corners without those that repeat the one before."""
    kept: list[Point] = []
    for p in points:
        if not kept or math.dist(kept[-1], p) * ft > SAME_FT:
            kept.append(p)
    if len(kept) > 1 and math.dist(kept[-1], kept[0]) * ft <= SAME_FT:
        kept.pop()
    return tuple(kept)


def _each_once(lines: list[Chain], ft: float) -> list[Chain]:
    """The lines without those drawn twice, either way round."""
    step = SAME_FT / ft
    seen: set[tuple[tuple[int, int], ...]] = set()
    kept = []
    for line in lines:
        key = tuple((round(x / step), round(y / step)) for x, y in line.points)
        if key not in seen and key[::-1] not in seen:
            seen.add(key)
            kept.append(line)
    return kept


def _closed(network: list[Edge], deposit: Deposit, ft: float) -> Loop | Broken:
    """The one loop that lines make, or why they make none."""
    chains = tuple(edge.payload for edge in network)
    ends = [p for edge in network for p in (edge.start, edge.end)]
    meeting = deposit.degrees(ends)
    branch = next(((n, p) for n, p in zip(meeting, ends, strict=True) if n > 2), None)
    if branch is not None:
        why = f"{branch[0]} line ends meet at {place(_flat(branch[1]))}; leave only the outside walls on it"
        return Broken(chains=chains, why=why)
    loose = [_flat(p) for n, p in zip(meeting, ends, strict=True) if n == 1]
    if loose:
        return Broken(chains=chains, why=_open(loose, ft))
    return _walk(network, deposit, ft)


def _walk(network: list[Edge], deposit: Deposit, ft: float) -> Loop | Broken:
    """Round the loop from the start of its first line."""
    way = (find_loop_by_edge(deposit, network[0]) if len(network) > 1 else network) or network
    runs = [_run(edge) for edge in way]
    corners: list[Point] = []
    gaps: list[tuple[Point, float]] = []
    for before, run in zip((runs[-1], *runs), runs, strict=False):
        met = _meeting(before[-2:], run[:2], ft)
        if met is None:
            why = f"two lines of one wall run beside each other at {place(run[0])}; draw the wall as one line"
            return Broken(chains=tuple(edge.payload for edge in network), why=why)
        gap_ft = math.dist(before[-1], run[0]) * ft
        if gap_ft > SAME_FT:
            gaps.append((run[0], gap_ft))
        corners += (*met, *run[1:-1])
    return Loop(corners=_cleaned(corners, ft), gaps=tuple(gaps))


def _run(edge: Edge) -> tuple[Point, ...]:
    """The points of a line in the way that the loop goes over it."""
    points: tuple[Point, ...] = edge.payload.points
    return points[::-1] if edge.is_reverse else points


def _flat(p: Vec3) -> Point:
    return (float(p.x), float(p.y))


def _meeting(a: Sequence[Point], b: Sequence[Point], ft: float) -> tuple[Point, ...] | None:
    """The corner where the line through `a` meets the one through `b`; none on a straight wall.

    None if they run beside each other.
    """
    (ux, uy), (vx, vy) = _direction(a), _direction(b)
    wx, wy = b[0][0] - a[1][0], b[0][1] - a[1][1]
    turn = ux * vy - uy * vx
    if abs(turn) > LEAST_TURN:
        t = (wx * vy - wy * vx) / turn
        corner = (a[1][0] + ux * t, a[1][1] + uy * t)
        if max(math.dist(corner, a[1]), math.dist(corner, b[0])) * ft <= GAP_FT:
            return (corner,)
    if math.dist(a[1], b[0]) * ft <= SAME_FT or ux * vx + uy * vy < 0:
        return (a[1],)
    return () if abs(ux * wy - uy * wx) * ft <= SAME_FT else None


def _direction(a: Sequence[Point]) -> Point:
    length = math.dist(a[0], a[1])
    return ((a[1][0] - a[0][0]) / length, (a[1][1] - a[0][1]) / length)


def _open(points: Sequence[Point], ft: float) -> str:
    """Where an outline is open: between the two open ends that lie nearest."""
    pairs = [(math.dist(p, q), p, q) for i, p in enumerate(points) for q in points[i + 1 :]]
    width, p, q = min(pairs)
    return (
        f"the outline is open by {feet_inches(width * ft)} between {place(p)} and {place(q)}; "
        'close it, gaps up to 1/2" are closed by themselves'
    )
