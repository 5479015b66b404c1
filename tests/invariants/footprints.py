"""Footprints of real buildings: a quarter of Prague as the wheel of momepy (BSD-3-Clause, a test dependency) ships it,
as they are and with walls under 2 ft removed. The file is read by itself; nothing of momepy is run.
"""

from __future__ import annotations

import math
from functools import cache
from importlib.metadata import files

import numpy as np
import shapely
from pyogrio.raw import read
from shapely.geometry import Polygon

from framing.plan import Point

SHORTEST_WALL_FT = 2.0
M_PER_FT = 0.3048
EARTH_RADIUS_M = 6378137.0  # of the web Mercator map, EPSG:3857, which shows a length too long by cosh(y / radius)
SLANT = math.sin(math.radians(20.0))


@cache
def raw_footprints_ft() -> tuple[tuple[Point, ...], ...]:
    """The outside ring of every building as it is in the file, from its first corner. [ft]"""
    path = next(f for f in files("momepy") or () if f.name == "bubenec.gpkg").locate()
    return tuple(tuple(_ring_ft(b)) for b in shapely.from_wkb(read(path, layer="buildings")[2]))


@cache
def footprints_ft() -> tuple[tuple[Point, ...], ...]:
    """The same without walls under 2 ft. [ft]"""
    return tuple(_without_short_walls(list(ring)) for ring in raw_footprints_ft())


def _ring_ft(building: Polygon) -> list[Point]:
    metres = np.array(building.exterior.coords)[:-1]
    true = (metres - metres[0]) / math.cosh(metres[0, 1] / EARTH_RADIUS_M)
    return [(float(x), float(y)) for x, y in true / M_PER_FT]


def _without_short_walls(ring: list[Point]) -> tuple[Point, ...]:
    """The ring without its shortest wall, and again, until none is under 2 ft: the walls beside it meet in its place
    if they do so near it, else its ends move to its middle.
    """
    corners = [np.array(p) for p in ring]
    while len(corners) > 3:
        lengths = [math.dist(p, q) for p, q in zip(corners, corners[1:] + corners[:1], strict=True)]
        i = lengths.index(min(lengths))
        if lengths[i] >= SHORTEST_WALL_FT:
            break
        n = len(corners)
        a, b, c, d = (corners[(i + k) % n] for k in (-1, 0, 1, 2))
        corners[i] = _meeting(a, b, c, d)
        del corners[(i + 1) % n]
    return tuple((float(x), float(y)) for x, y in corners)


def _meeting(a: np.ndarray, b: np.ndarray, c: np.ndarray, d: np.ndarray) -> np.ndarray:
    """Where the walls from a to b and from c to d meet, or the middle between b and c."""
    middle, (ux, uy), (vx, vy), (wx, wy) = (b + c) / 2.0, b - a, c - d, d - a
    cross = ux * vy - uy * vx
    if abs(cross) > SLANT * math.hypot(ux, uy) * math.hypot(vx, vy):
        met = a + (wx * vy - wy * vx) / cross * np.array((ux, uy))
        if math.dist(met, middle) < 2.0 * SHORTEST_WALL_FT:
            return met
    return middle
