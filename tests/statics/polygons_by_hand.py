"""Polygons in plan for figures by hand: cut by lines, their areas and middles (shoelace formula)."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def clip(polygon: Floats, nx: float, ny: float, limit: float) -> Floats:
    """The part of a polygon, shape (n, 2), where nx x + ny y <= limit."""
    kept = []
    for here, there in zip(polygon, np.roll(polygon, -1, axis=0), strict=True):
        d0 = nx * here[0] + ny * here[1] - limit
        d1 = nx * there[0] + ny * there[1] - limit
        if d0 <= 0:
            kept.append(here)
        if d0 * d1 < 0:
            kept.append(here + (there - here) * d0 / (d0 - d1))
    return np.array(kept)


def area_and_middle(polygon: Floats) -> tuple[float, float, float]:
    x, y = polygon.T
    x1, y1 = np.roll(x, -1), np.roll(y, -1)
    cross = x * y1 - x1 * y
    area = cross.sum() / 2
    if abs(area) < 1e-12:
        return 0.0, 0.0, 0.0
    return (
        abs(area),
        ((x + x1) * cross).sum() / (6 * area),
        ((y + y1) * cross).sum() / (6 * area),
    )


def cells(polygon: Floats, x_cuts: tuple[float, ...], y_cuts: tuple[float, ...]) -> list[Floats]:
    """A polygon cut by lines along y and along x."""
    parts = [polygon]
    for nx, ny, cuts in ((1.0, 0.0, x_cuts), (0.0, 1.0, y_cuts)):
        for cut in cuts:
            halves = [clip(p, s * nx, s * ny, s * cut) for p in parts for s in (1.0, -1.0)]
            parts = [h for h in halves if len(h) > 2 and area_and_middle(h)[0] > 1e-9]
    return parts
