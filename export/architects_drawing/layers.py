"""A DXF document -> what stands on each of its layers: straight strokes, curves, blocks and the rest."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.insert import Insert
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.polyline import Polyline

from framing.errors import PlanError
from framing.plan import Point

if TYPE_CHECKING:
    from ezdxf.document import Drawing

CURVES = {"ARC": "an arc", "CIRCLE": "a circle", "ELLIPSE": "an ellipse", "SPLINE": "a spline"}
DEEPEST_BLOCK = 8


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """A line, or the straight sides of a polyline, in the drawing's own coordinates."""

    points: tuple[Point, ...]
    closed: bool


@dataclass(slots=True, kw_only=True)
class Layer:
    """What is drawn on one layer of the model; filled while the drawing is read, not changed afterwards.

    `curves` are what bends, each with its place, `blocks` the names of the blocks that hold strokes of the
    layer, `others` counts what is no stroke.
    """

    name: str
    hidden: str = ""
    chains: list[Chain] = field(default_factory=list)
    curves: list[tuple[str, Point]] = field(default_factory=list)
    blocks: dict[str, None] = field(default_factory=dict)
    others: Counter[str] = field(default_factory=Counter)


def layers_of(document: Drawing) -> dict[str, Layer]:
    """Every layer by its name in lower case, as DXF compares them.

    Raises
    ------
    PlanError
        If a coordinate is no number.
    """
    layers: dict[str, Layer] = {}
    for entry in document.layers:
        hidden = "frozen" if entry.is_frozen() else "off" if entry.is_off() else ""
        layers[entry.dxf.name.lower()] = Layer(name=entry.dxf.name, hidden=hidden)
    for entity in document.modelspace():
        if isinstance(entity, DXFGraphic):
            _sort_in(entity, layers)
    return layers


def _sort_in(entity: DXFGraphic, layers: dict[str, Layer]) -> None:
    layer = _layer(entity.dxf.layer, layers)
    kind = entity.dxftype()
    if isinstance(entity, Insert):
        for name in sorted(_layers_inside(entity, entity.dxf.layer, DEEPEST_BLOCK)):
            _layer(name, layers).blocks[entity.dxf.name] = None
    elif kind in CURVES:
        layer.curves.append((CURVES[kind], _curve_place(entity)))
    elif kind == "LINE":
        _add(layer, (entity.dxf.start, entity.dxf.end), closed=False)
    elif isinstance(entity, LWPolyline):
        _add_polyline(layer, list(entity.vertices_in_wcs()), [b for (b,) in entity.get_points("b")], entity.closed)
    elif isinstance(entity, Polyline) and (entity.is_2d_polyline or entity.is_3d_polyline):
        points = list(entity.points_in_wcs())
        if entity.dxf.flags & (entity.CURVE_FIT_VERTICES_ADDED | entity.SPLINE_FIT_VERTICES_ADDED) and points:
            layer.curves.append(("a curved polyline", _flat(points[0])))
        else:
            _add_polyline(layer, points, [v.dxf.get("bulge", 0.0) for v in entity.vertices], entity.is_closed)
    else:
        layer.others[kind] += 1


def _layer(name: str, layers: dict[str, Layer]) -> Layer:
    return layers.setdefault(name.lower(), Layer(name=name))


def _add_polyline(layer: Layer, points: list[Iterable[float]], bulges: list[float], closed: bool) -> None:
    sides = bulges if closed else bulges[:-1]
    bent = next((i for i, bulge in enumerate(sides) if abs(bulge) > 1e-9), None)
    if bent is not None:
        layer.curves.append(("a curved side", _flat(points[bent])))
    else:
        _add(layer, points, closed=closed)


def _add(layer: Layer, points: Iterable[Iterable[float]], *, closed: bool) -> None:
    """Keep a chain that has a length in plan, each point once."""
    kept: list[Point] = []
    for p in map(_flat, points):
        if not kept or p != kept[-1]:
            kept.append(p)
    if closed and len(kept) > 1 and kept[0] == kept[-1]:
        kept.pop()
    if len(kept) > 1:
        layer.chains.append(Chain(points=tuple(kept), closed=closed and len(kept) > 2))


def _flat(p: Iterable[float]) -> Point:
    x, y, *_ = p
    if not (math.isfinite(x) and math.isfinite(y)):
        raise PlanError("a coordinate in the drawing is not a number; save the drawing again")
    return (float(x), float(y))


def _curve_place(entity: DXFGraphic) -> Point:
    """Where a curve begins, or its middle if it has no beginning."""
    if entity.dxftype() == "SPLINE":
        points = [*entity.control_points, *entity.fit_points]  # type: ignore[attr-defined]
        return _flat(points[0]) if points else (0.0, 0.0)
    if entity.dxftype() in ("ARC", "ELLIPSE"):
        return _flat(entity.start_point)  # type: ignore[attr-defined]
    return _flat(entity.ocs().to_wcs(entity.dxf.center))


def _layers_inside(insert: Insert, outer: str, deepest: int) -> set[str]:
    """The layers on which the strokes of a block come to lie."""
    block = insert.block()
    found: set[str] = set()
    for entity in block or ():
        if not isinstance(entity, DXFGraphic):
            continue
        name = outer if entity.dxf.layer == "0" else entity.dxf.layer
        if isinstance(entity, Insert):
            found |= _layers_inside(entity, name, deepest - 1) if deepest else set()
        elif entity.dxftype() in {"LINE", "LWPOLYLINE", "POLYLINE", *CURVES}:
            found.add(name)
    return found


def strokes_of(layers: dict[str, Layer]) -> Iterator[Layer]:
    """The layers on which a wall could be, in the drawing's order."""
    return (layer for layer in layers.values() if layer.chains or layer.curves or layer.blocks)
