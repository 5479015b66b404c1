"""One outline that may be the house's: how it was found, what was closed for it and cut off, how it looks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from export.architects_drawing.boundary import offset, polygons
from export.architects_drawing.bridges import Bridges
from export.architects_drawing.ranking import Evidence, Looks, looks_of
from framing.plan import Point

LEAST_CUT_IN2 = 3.0 * 144.0
NARROWEST_CLOSED_IN = 6.0
EDGE_IN = 3.0
CUT_EACH_FT, MOST_CUT = 0.02, 1.0
"""What each foot of wall that runs on outside takes from the score."""
WIDE_EACH, MOST_WIDE = 0.2, 3
WIDEST_USUAL_IN = 10 * 12.0
"""Of doors and windows; what closes wider needs better evidence."""


class How(StrEnum):
    """How a boundary was found; the words that people read."""

    DRAWN = "a closed line"
    WALLS = "double walls"
    MAIN_WALLS = "double walls of the main thicknesses"
    LINES = "walls and lines"
    CLOSED = "walls and lines, gaps closed"
    MOUTH = "double walls, an open front closed"
    WITHOUT = "double walls, a porch, garage or wing left out"


PENALTY = {How.MOUTH: 0.35, How.CLOSED: 0.15, How.MAIN_WALLS: 0.02, How.LINES: 0.05}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Origin:
    """What a boundary was made of: how, from which layers (by number), how likely these are, walls and bridges."""

    how: How
    layers: tuple[int, ...]
    bonus: float
    walls: tuple[Polygon, ...] = ()
    bridges: tuple[Bridges, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Boundary:
    """One outline that may be the house's: its shape, what was closed for it and what was cut off. [in].

    `closed` are openings, each (width, middle), `bridges` their shapes, `cut` free walls, each (length, a point);
    `place` is the number of the plan on the sheet (0 the first).
    """

    shape: Polygon
    origin: Origin
    closed: tuple[tuple[float, Point], ...]
    bridges: tuple[Polygon, ...]
    cut: tuple[tuple[float, Point], ...]
    looks: Looks
    score: float
    place: int = 0


def boundary_of(shape: Polygon, origin: Origin, whole: BaseGeometry | None, evidence: Evidence) -> Boundary:
    """The boundary with its rank.

    Parameters
    ----------
    shape : Polygon
        Clean. [in]
    origin : Origin
        What it was made of.
    whole : BaseGeometry or None
        What it was cut out of, to say what was left out.
    evidence : Evidence
        What is drawn.

    Returns
    -------
    Boundary
        Of place 0.
    """
    edge = shape.exterior.buffer(EDGE_IN)
    closing = [
        (float(wide), (float(x), float(y)), bridge)
        for group in origin.bridges
        for bridge, wide, (x, y) in zip(group.shapes, group.wide_in, group.middle, strict=True)
        if wide > NARROWEST_CLOSED_IN and _on_edge(bridge, wide, edge)
    ]
    once = _each_once(closing)
    usual = [b for wide, _, b in closing if wide <= WIDEST_USUAL_IN]
    looks = looks_of(shape, evidence, [b for _, _, b in closing], usual)
    cut = () if whole is None else _cut_off(whole, shape)
    less = _too_open([wide for wide, _, _ in once]) + min(MOST_CUT, CUT_EACH_FT * sum(long for long, _ in cut) / 12.0)
    return Boundary(
        shape=shape,
        origin=origin,
        closed=tuple((wide, at) for wide, at, _ in once),
        bridges=tuple(b for _, _, b in once),
        cut=cut,
        looks=looks,
        score=looks.score + origin.bonus - PENALTY.get(origin.how, 0.0) - less,
    )


def _too_open(wide: Sequence[float]) -> float:
    """What openings wider than doors and windows take from the score: one may be the garage's, more are unlikely."""
    n_wide = sum(w > WIDEST_USUAL_IN for w in wide)
    return WIDE_EACH * min(max(0, n_wide - 1), MOST_WIDE)


def _on_edge(bridge: Polygon, wide: float, edge: Polygon) -> bool:
    shared = bridge.intersection(edge).area if bridge.intersects(edge) else 0.0
    return float(shared) > 0.3 * min(float(bridge.area), wide * EDGE_IN)


def _each_once(closing: Sequence[tuple[float, Point, Polygon]]) -> list[tuple[float, Point, Polygon]]:
    """The openings without those found from either side, or twice: the widest of each place."""
    kept: list[tuple[float, Point, Polygon]] = []
    for each in sorted(closing, key=lambda c: -c[0]):
        if not any(k[2].intersection(each[2]).area > 0.5 * each[2].area for k in kept):
            kept.append(each)
    return kept


def _cut_off(shape: BaseGeometry, house: Polygon) -> tuple[tuple[float, Point], ...]:
    """Free walls that hang on a house and were left out: their length and a point of each. [in]."""
    parts = np.array(polygons(shape), object)
    shapely.prepare(house)
    near = parts[shapely.intersects(house, parts)]
    grown = offset(house, 0.5)
    loose = [q for p in near for q in polygons(p.difference(grown)) if q.area > LEAST_CUT_IN2]
    places = [q.representative_point() for q in loose]
    return tuple((_long(q), (p.x, p.y)) for q, p in zip(loose, places, strict=True))


def _long(shape: Polygon) -> float:
    """The longer side of the rectangle around a shape."""
    ring = shapely.get_coordinates(shape.minimum_rotated_rectangle)
    return float(np.hypot(*np.diff(ring, axis=0).T).max())
