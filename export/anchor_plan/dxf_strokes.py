"""Plain strokes as DXF entities whose colour, line type and weight are their layer's."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.base import BaseLayout

from export.paper.sheet import Circle, Fill, Layer, Line, Point, Polyline, Primitive, Text, along

STYLE, BOLD_STYLE = "PLAN", "PLAN-BOLD"
DASHED = "DASHED"
BULGE_OF_A_HALF_CIRCLE = 1.0
BY_LAYER = 256


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """How paper inches become drawing units: a point map, a turn and a factor."""

    point: Callable[[Point], Point]
    turn_deg: float
    factor: float


def add_strokes(layout: BaseLayout, strokes: Iterable[Primitive], here: Placement) -> None:
    """Plain strokes, then their black fills as hatches; white fills are left out: the paper is white already."""
    fills = []
    for s in strokes:
        _add(layout, s, here)
        if isinstance(s, Circle | Polyline) and s.fill is Fill.BLACK:
            fills.append(s)
    for s in fills:
        _fill(layout, s, here)


def _add(layout: BaseLayout, s: Primitive, here: Placement) -> None:
    if isinstance(s, Text):
        add_text(layout, s, here)
        return
    attributes = {"layer": s.layer.value}
    if isinstance(s, Circle):
        layout.add_circle(here.point(s.centre), s.radius_in * here.factor, attributes)
        return
    if s.dashed:
        attributes["linetype"] = DASHED
    if isinstance(s, Line):
        layout.add_line(here.point(s.start), here.point(s.end), attributes)
    else:
        layout.add_lwpolyline(map(here.point, s.points), close=s.closed, dxfattribs=attributes)


def add_text(layout: BaseLayout, s: Text, here: Placement) -> None:
    """A text fitted between the two ends of its measured baseline, so that no reader's font makes it wider."""
    text = layout.add_text(plain(s.text), dxfattribs=text_attributes(s, here, s.layer))
    text.set_placement(*baseline(s, here), align=TextEntityAlignment.FIT)


def baseline(s: Text, here: Placement) -> tuple[Point, Point]:
    """The two ends of a text's baseline in drawing units."""
    return here.point(s.start), here.point(along(s.start, s.angle_deg, s.width_in))


def text_attributes(s: Text, here: Placement, layer: Layer) -> dict[str, object]:
    """Layer, style, height and turn of a text."""
    return {
        "layer": layer.value,
        "style": BOLD_STYLE if s.bold else STYLE,
        "height": s.height_in * here.factor,
        "rotation": s.angle_deg + here.turn_deg,
    }


def plain(words: str) -> str:
    """Words without the signs that begin codes inside a DXF text."""
    return words.replace("%%", "% %").replace("^", "^ ")


def _fill(layout: BaseLayout, s: Circle | Polyline, here: Placement) -> None:
    """The solid fill of a circle, as two half circles, or of a closed polyline."""
    hatch = layout.add_hatch(color=BY_LAYER, dxfattribs={"layer": s.layer.value})
    if isinstance(s, Circle):
        (x, y), r = here.point(s.centre), s.radius_in * here.factor
        hatch.paths.add_polyline_path([(x - r, y, BULGE_OF_A_HALF_CIRCLE), (x + r, y, BULGE_OF_A_HALF_CIRCLE)])
    else:
        hatch.paths.add_polyline_path([here.point(p) for p in s.points])
