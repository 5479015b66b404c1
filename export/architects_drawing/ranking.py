"""How much a boundary looks like the outside of a house: what stands inside its edge, what lies in it, its size."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon

from export.architects_drawing.pairs import Flags, Floats

STEP_IN, INSIDE_IN, ON_LINE_IN = 4.0, 2.0, 0.7
NEAR_IN, ATTACHED_IN, APART = 72.0, 6.0, 0.3
USUAL_FT2 = (500.0, 9000.0)
DOOR_SWEEP_DEG, DOOR_IN = (60.0, 100.0), (22.0, 49.0)
ROOMS = re.compile(
    r"bed|bath|kitch|living|dining|garage|closet|hall|entry|foyer|laund|pantry|office|study|porch|lanai|family|great"
    r"|master|suite|utility|w\.?c\.?\b|toilet|camera|cucina|bagno|soggiorno|salon|chambre|cuisine|bain|dormitor|cocina"
    r"|ba[nñ]o|sala|estar|quarto|cozinha|zimmer|k[uü]che|\bbad\b|flur|wohn|schlaf|кухня|спальня",
    re.IGNORECASE,
)
OPEN_AIR = re.compile(
    r"porch|lanai|carport|patio|verand|deck|terra[cszß]|balc|pergola|portal|terrazz|крыльцо|веранда|терраса",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evidence:
    """What is drawn, for every boundary alike: where wall is and how much, trees of walls and of lines. [in].

    `indoors` are those of the rooms that have walls: no porch.
    """

    strip_places: Floats
    strip_lengths: Floats
    walls: shapely.STRtree
    lines: shapely.STRtree
    doors: Floats
    rooms: Floats
    indoors: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Looks:
    """The shares, each 0 to 1, and the sum that ranks a boundary."""

    double: float
    on_lines: float
    nearby: float
    n_rooms: int
    area_ft2: float
    score: float


def door_places(arcs: Floats) -> Floats:
    """The centres of the arcs that a door's swing may be, (n, 2). [in]."""
    radius, sweep = arcs[:, 2], arcs[:, 3]
    doors = (radius >= DOOR_IN[0]) & (radius <= DOOR_IN[1])
    doors &= (sweep >= DOOR_SWEEP_DEG[0]) & (sweep <= DOOR_SWEEP_DEG[1])
    return arcs[doors, :2]


def is_room(text: str) -> bool:
    """Whether a text names a room, in some languages."""
    return ROOMS.search(text) is not None


def is_indoors(text: str) -> bool:
    """Whether a text names a room within walls."""
    return is_room(text) and OPEN_AIR.search(text) is None


def looks_of(house: Polygon, evidence: Evidence, bridged: Sequence[Polygon], usual: Sequence[Polygon] = ()) -> Looks:
    """How much a boundary looks like the outside of a house.

    Parameters
    ----------
    house : Polygon
        The boundary. [in]
    evidence : Evidence
        What is drawn.
    bridged : sequence of Polygon
        What was closed for it: no wall is expected there.
    usual : sequence of Polygon
        What of it is as wide as doors and windows are: no line is expected there either.

    Returns
    -------
    Looks
        With the score.
    """
    edge, inside = _edge_points(house)
    covered = _within(evidence.walls, inside)
    open_ = _within(shapely.STRtree(list(bridged)), inside) & ~covered if len(bridged) else np.zeros(len(edge), bool)
    double = float(covered.sum() / max(1, (~open_).sum())) * (1.0 if open_.mean() < 0.5 else 0.5)
    asked = ~_within(shapely.STRtree(list(usual)), inside) | covered if len(usual) else np.ones(len(edge), bool)
    on_lines = float((_close(evidence.lines, edge) & asked).sum() / max(1, asked.sum()))
    nearby = _nearby(house, evidence)
    area_ft2 = house.area / 144.0
    low, high = USUAL_FT2
    size = max(0.0, 1.0 - abs(math.log(area_ft2 / min(max(area_ft2, low), high))))
    places = shapely.points(evidence.rooms) if len(evidence.rooms) else np.zeros(0, object)
    n_rooms = int(shapely.contains(house, places).sum()) if len(places) else 0
    doors = shapely.points(evidence.doors) if len(evidence.doors) else np.zeros(0, object)
    n_doors = int(shapely.contains(house, doors).sum()) if len(doors) else 0
    compact = min(1.0, 16.0 * house.area / house.length**2)
    score = (
        2.2 * double
        + 2.0 * on_lines
        + 5.0 * nearby
        + 1.3 * size
        + 0.6 * min(1.0, n_doors / 4.0)
        + 0.6 * min(1.0, n_rooms / 4.0)
        + 0.8 * compact
    )
    return Looks(double=double, on_lines=on_lines, nearby=nearby, n_rooms=n_rooms, area_ft2=area_ft2, score=score)


def _edge_points(house: Polygon) -> tuple[Floats, Floats]:
    """Points along the edge, and each 2 in. inside it."""
    ring = np.array(shapely.normalize(house).exterior.coords)
    if not shapely.is_ccw(shapely.LinearRing(ring)):
        ring = ring[::-1]
    way = np.diff(ring, axis=0)
    long = np.hypot(*way.T)
    n = np.maximum(1, np.ceil(long / STEP_IN).astype(int))
    side = np.repeat(np.arange(len(n)), n)
    k = np.arange(n.sum()) - np.repeat(np.cumsum(n) - n, n)
    at = ring[:-1][side] + way[side] * ((k + 0.5) / n[side])[:, None]
    u = way[side] / long[side][:, None]
    return at, at + np.column_stack([-u[:, 1], u[:, 0]]) * INSIDE_IN


def _within(tree: shapely.STRtree, points: Floats) -> Flags:
    out = np.zeros(len(points), bool)
    out[tree.query(shapely.points(points), predicate="intersects")[0]] = True
    return out


def _close(tree: shapely.STRtree, points: Floats) -> Flags:
    out = np.zeros(len(points), bool)
    out[tree.query(shapely.points(points), predicate="dwithin", distance=ON_LINE_IN)[0]] = True
    return out


def _nearby(house: Polygon, evidence: Evidence) -> float:
    """Of the wall in and near the boundary, the share inside it, by length; of the lines where no wall is double.

    A wall outside that does not touch the boundary, a garden's or a neighbour's, counts less.
    """
    if len(evidence.strip_places):
        spots = shapely.points(evidence.strip_places)
        inside = shapely.covers(house, spots)
        outside = shapely.dwithin(house, spots, NEAR_IN) & ~inside
        apart = ~shapely.dwithin(house, evidence.walls.geometries[: len(spots)], ATTACHED_IN)
        length = evidence.strip_lengths * np.where(apart, APART, 1.0)
        total = float(length[inside | outside].sum())
        if total:
            return float(length[inside].sum()) / total
    lines = evidence.lines.geometries
    total, inside = (float(shapely.length(shapely.intersection(lines, house.buffer(d))).sum()) for d in (NEAR_IN, 1.0))
    return inside / total if total else 0.0
