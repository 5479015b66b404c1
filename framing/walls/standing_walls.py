"""Outline + porch beams -> what stands: the stretches of wall, and the ground of each beam between them.

A beam runs on to the far corner where a beam of the next wall meets it there, else to the inside face of the wall that
stands across its end. Source: common practice, no source.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from framing.members import PorchBeam
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, Wall

Beams = tuple[PorchBeam, ...]


def inner_ring_ft(walls: tuple[Wall, ...], inset_ft: float | None = None) -> NDArray[np.float64]:
    """The inside face of the walls, or a line `inset_ft` in: (n, 2), the point behind the start of each wall. [ft]"""
    ring = []
    for before, wall in zip((walls[-1], *walls[:-1]), walls, strict=True):
        normals = np.array((before.outward, wall.outward))
        corner = np.asarray(wall.start_ft, float)
        insets = (before.thickness_ft, wall.thickness_ft) if inset_ft is None else (inset_ft, inset_ft)
        ring.append(corner - np.linalg.solve(normals, insets))
    return np.array(ring)


def wall_ground(outline: Outline, wall: int, beams: Beams) -> tuple[Polygon, ...]:
    """The plan polygons of what stands of a wall, mitred at its corners."""
    band, taken = _band(outline, wall), [beam_ground(outline, b, beams) for b in beams if b.wall == wall]
    if not taken:
        return (band,)
    left = shapely.get_parts(band.difference(shapely.union_all(taken).buffer(TIE_FT, join_style="mitre")))
    return tuple(p for p in left if p.area > TIE_FT)


def beam_ground(outline: Outline, beam: PorchBeam, beams: Beams) -> Polygon:
    """The plan polygon of a porch beam, as wide as the wall that it stands for."""
    wall = outline.walls[beam.wall]
    low, high = _clear_ft(outline, beam, beams)
    corners = [wall.point_ft(at, inset) for inset in (0.0, wall.thickness_ft) for at in (low, high)]
    return Polygon([corners[k] for k in (0, 1, 3, 2)]).intersection(_band(outline, beam.wall))


def standing_lines(outline: Outline, beams: Beams, inset_ft: float = 0.0) -> tuple[tuple[Point, ...], ...]:
    """The outside face, or a line `inset_ft` in, as polylines where wall stands; one ring, its first point repeated,
    where all of it does.
    """
    walls = outline.walls
    ring = inner_ring_ft(walls, inset_ft)
    lines: list[list[Point]] = []
    for k, wall in enumerate(walls):
        first, last = (_station_ft(wall, ring[i]) for i in (k, (k + 1) % len(walls)))
        for low, high in _left_ft(first, last, [_clear_ft(outline, b, beams) for b in beams if b.wall == k]):
            a, b = wall.point_ft(low, inset_ft), wall.point_ft(high, inset_ft)
            if lines and low == first and math.dist(lines[-1][-1], a) <= TIE_FT:
                lines[-1].append(b)
            else:
                lines.append([a, b])
    if len(lines) > 1 and math.dist(lines[-1][-1], lines[0][0]) <= TIE_FT:  # on round the first corner
        lines[0] = [*lines.pop(), *lines[0][1:]]
    return tuple(tuple(line) for line in lines)


def _band(outline: Outline, wall: int) -> Polygon:
    """A wall's whole ground between its mitred ends."""
    inner, after = inner_ring_ft(outline.walls), (wall + 1) % len(outline.walls)
    return Polygon([outline.walls[wall].start_ft, outline.walls[after].start_ft, inner[after], inner[wall]])


def _clear_ft(outline: Outline, beam: PorchBeam, beams: Beams) -> tuple[float, float]:
    """From where to where along its wall a beam runs between what stands; past an end that two beams share. [ft]"""
    walls, k = outline.walls, beam.wall
    wall, n = walls[k], len(walls)
    inner = inner_ring_ft(walls)
    first, last = (_station_ft(wall, inner[i]) for i in (k, (k + 1) % n))
    low, high = beam.from_ft, beam.to_ft
    if low <= wall.thickness_ft + TIE_FT:
        before = walls[k - 1]
        shared = any(b.wall == (k - 1) % n and b.to_ft >= before.length_ft - before.thickness_ft for b in beams)
        low = -2.0 * wall.thickness_ft if shared else max(low, first)
    if high >= wall.length_ft - wall.thickness_ft - TIE_FT:
        after = walls[(k + 1) % n]
        shared = any(b.wall == (k + 1) % n and b.from_ft <= after.thickness_ft for b in beams)
        high = wall.length_ft + 2.0 * wall.thickness_ft if shared else min(high, last)
    return low, high


def _station_ft(wall: Wall, p: NDArray[np.float64]) -> float:
    return float((p - np.asarray(wall.start_ft)) @ np.asarray(wall.direction))


def _left_ft(low_ft: float, high_ft: float, taken: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """What is left of a stretch, in order. [ft]"""
    out = []
    at = low_ft
    for a, b in sorted(taken):
        if a > at + TIE_FT:
            out.append((at, min(a, high_ft)))
        at = max(at, b)
    return [*out, (at, high_ft)] if at < high_ft - TIE_FT else out
