"""The real footprints with their walls turned to the two main directions of each."""

from __future__ import annotations

import itertools
import math

import numpy as np
from shapely.geometry import Polygon

from framing.plan import Point
from invariants.footprints import SHORTEST_WALL_FT

LEAST_SHARE = 0.7


def squared(ring: tuple[Point, ...]) -> tuple[Point, ...] | None:
    """The ring with every wall along one of two directions; None where that leaves no house with walls of 2 ft."""
    corners = np.array(ring)
    walls = np.roll(corners, -1, axis=0) - corners
    lengths = np.hypot(*walls.T)
    main = np.angle((lengths * np.exp(4j * np.arctan2(walls[:, 1], walls[:, 0]))).sum()) / 4.0
    c, s = math.cos(-main), math.sin(-main)
    corners = corners @ np.array([[c, -s], [s, c]]).T
    walls = np.roll(corners, -1, axis=0) - corners
    middles = (corners + np.roll(corners, -1, axis=0)) / 2.0
    level = np.abs(walls[:, 0]) >= np.abs(walls[:, 1])
    n = len(corners)
    first = next((k for k in range(n) if level[k] != level[k - 1]), 0)
    runs = [
        (bool(is_level), [k % n for k in group])
        for is_level, group in itertools.groupby(range(first, first + n), key=lambda k: level[k % n])
    ]
    if len(runs) < 4 or len(runs) % 2:
        return None
    lines = [(a, float(np.average(middles[ks, 1 if a else 0], weights=lengths[ks]))) for a, ks in runs]
    made = [(y, x) if a else (x, y) for (a, x), (_, y) in zip(lines, lines[1:] + lines[:1], strict=True)]
    shape = Polygon(made)
    sides = [math.dist(p, q) for p, q in zip(made, made[1:] + made[:1], strict=True)]
    good = shape.is_valid and shape.area > LEAST_SHARE * Polygon(ring).area and min(sides) >= SHORTEST_WALL_FT
    return tuple(made) if good else None
