"""Zones of the deck as hatched areas, told apart in black and white: lines by the zone's number, more over open air."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from export.paper.sheet import Layer, Line, Pen, Point, Polyline, Primitive
from framing.deck.zones import DeckZone, Part
from framing.run import Run

HATCHES: dict[str, tuple[tuple[float, float], ...]] = {  # by number: angle [deg] and distance [in] of each family
    "1'": (),
    "1": (),
    "2": ((45.0, 0.14),),
    "3": ((45.0, 0.1), (135.0, 0.1)),
}
OVER_AIR = (90.0, 0.1)
LEAST_IN = 0.03
JOIN = 1e-6


def families(zone: DeckZone) -> tuple[tuple[float, float], ...]:
    """The families of lines of a zone: upright ones besides where it stands over open air."""
    own = HATCHES.get(zone.number, HATCHES["3"])
    return own if zone.part is Part.ROOMS else (*own, OVER_AIR)


def zone_shape(run: Run, patches: tuple[int, ...], place: Callable[[Point], Point]) -> BaseGeometry:
    """Patches of a zone on paper, joined. [in]"""
    whole = shapely.union_all(run.patches.polygon[list(patches)], grid_size=JOIN)
    to_plan = run.outline.frame.to_plan

    def moved(points: np.ndarray) -> np.ndarray:
        return np.array([place(to_plan((float(x), float(y)))) for x, y in points])

    return shapely.transform(whole, moved)


def hatched(shape: BaseGeometry, lines: tuple[tuple[float, float], ...], layer: Layer) -> Iterator[Primitive]:
    """The edge of a shape and its families of lines."""
    for part in shapely.get_parts(shape):
        for ring in (part.exterior, *part.interiors):
            points = tuple((float(x), float(y)) for x, y in ring.coords[:-1])
            yield Polyline(points=points, layer=layer, pen=Pen.FINE, closed=True)
    for angle_deg, apart_in in lines:
        yield from _family(shape, angle_deg, apart_in, layer)


def _family(shape: BaseGeometry, angle_deg: float, apart_in: float, layer: Layer) -> Iterator[Line]:
    """Even lines across a shape, on one grid for the whole sheet, so that neighbours meet."""
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    corners = np.array(shapely.box(*shape.bounds).exterior.coords)
    across, along = corners @ (-s, c), corners @ (c, s)
    steps = np.arange(math.ceil(across.min() / apart_in), math.floor(across.max() / apart_in) + 1) * apart_in
    ends = (along.min() - 1.0, along.max() + 1.0)
    rows = [[(t * c - d * s, t * s + d * c) for t in ends] for d in steps]
    if not rows:
        return
    for cut in shapely.get_parts(shapely.intersection(shapely.linestrings(rows), shape)):
        for piece in shapely.get_parts(cut):
            if piece.geom_type == "LineString" and piece.length > LEAST_IN:
                (x0, y0), (x1, y1) = piece.coords[0], piece.coords[-1]
                yield Line(start=(float(x0), float(y0)), end=(float(x1), float(y1)), layer=layer, pen=Pen.HAIR)
