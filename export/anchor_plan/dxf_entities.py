"""Strokes as DXF entities: layers, styles, anchor blocks with attributes, dimensions, text fitted to its box."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.base import BaseLayout
from ezdxf.layouts.blocklayout import BlockLayout

from export.anchor_plan.symbols import RADIUS_IN, shape_strokes
from export.sheet import (
    DIMENSION_OFFSET_IN,
    SMALLEST_TEXT_IN,
    Circle,
    Fill,
    Layer,
    Line,
    Pen,
    Point,
    Polyline,
    Primitive,
    RunningDimension,
    Shape,
    Text,
    along,
)
from framing.anchors import Mark
from framing.units import feet_inches

ATTRIBUTES = ("MARK", "ANCHOR", "COUNT", "SIDE", "UPLIFT", "WALL", "STATION")
LINEWEIGHT = {Pen.FINE: 18, Pen.MEDIUM: 35, Pen.HEAVY: 70}
GREY_LAYERS = frozenset({Layer.TRUSS, Layer.TRUSS_NAMES})
BLACK, GREY = 7, 8
DIMSTYLE = "RUNNING"
FEET_AND_INCHES = 4
SIXTEENTHS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Placement:
    """How paper inches become drawing units: a point map, a turn and a factor."""

    point: Callable[[Point], Point]
    turn_deg: float
    factor: float


def set_up(doc: Drawing, factor: float) -> None:
    """Layers, text styles and the dimension style; header variables too, since some readers look only there.

    `factor` is drawing units per paper inch in model space.
    """
    for name, font in (("PLAN", "arial.ttf"), ("PLAN-BOLD", "arialbd.ttf")):
        doc.styles.add(name, font=font)
    for layer in Layer:
        entry = doc.layers.add(layer.value, color=GREY if layer in GREY_LAYERS else BLACK)
        entry.dxf.plot = 0 if layer is Layer.VIEWPORT else 1
    style = doc.dimstyles.add(DIMSTYLE)
    settings = {
        "dimtxt": SMALLEST_TEXT_IN * factor,
        "dimasz": 0.08 * factor,
        "dimtsz": 0.05 * factor,
        "dimexo": 0.06 * factor,
        "dimexe": 0.03 * factor,
        "dimgap": 0.04 * factor,
        "dimlunit": FEET_AND_INCHES,
        "dimdec": SIXTEENTHS,
        "dimscale": 1.0,
        "dimlfac": 1.0,
        "dimzin": 1,
        "dimfrac": 2,
        "dimtad": 1,
    }
    for name, value in settings.items():
        style.dxf.set(name, value)
        doc.header[f"${name.upper()}"] = value
    style.dxf.dimtxsty = "PLAN"
    for name, number in {"$INSUNITS": 1, "$MEASUREMENT": 0, "$LUNITS": 4, "$LUPREC": 4, "$LTSCALE": factor}.items():
        doc.header[name] = number
    doc.header["$DIMSTYLE"] = DIMSTYLE


def block_name(shape: Shape) -> str:
    """The name of the block that draws a shape."""
    return "ANCHOR-" + shape.value.upper().replace(" ", "-")


def add_anchor_block(doc: Drawing, shape: Shape, factor: float) -> None:
    """The block of one shape, its attributes invisible (the mark stands on the plan as plain text)."""
    block = doc.blocks.new(block_name(shape))
    here = Placement(point=lambda p: (p[0] * factor, p[1] * factor), turn_deg=0.0, factor=factor)
    for s in shape_strokes(shape, (0.0, 0.0), 0.0):
        add_primitive(block, s, here, on_layer_0=True)
    for i, tag in enumerate(ATTRIBUTES):
        attribute = block.add_attdef(tag, (RADIUS_IN * factor, -i * 0.14 * factor), height=SMALLEST_TEXT_IN * factor)
        attribute.is_invisible = True


def add_insert(space: BaseLayout, mark: Mark, shape: Shape, turn_deg: float) -> None:
    """The anchor at its strap point, with its attributes as the schedule has them."""
    at = (mark.strap_ft[0] * 12.0, mark.strap_ft[1] * 12.0)
    attributes = {"layer": Layer.ANCHOR.value, "rotation": turn_deg}
    insert = space.add_blockref(block_name(shape), at, dxfattribs=attributes)
    insert.add_auto_attribs(
        {
            "MARK": mark.mark,
            "ANCHOR": mark.anchor.id if mark.anchor else "",
            "COUNT": str(mark.count),
            "SIDE": mark.side.value,
            "UPLIFT": f"{mark.uplift_lb:.1f}",
            "WALL": mark.wall,
            "STATION": feet_inches(mark.station_ft),
        }
    )


def add_running_dimension(space: BaseLayout, d: RunningDimension, here: Placement) -> None:
    """A real dimension from START; its own text is left blank, since the figure stands as text in its row."""
    out = (d.outward[0] * DIMENSION_OFFSET_IN, d.outward[1] * DIMENSION_OFFSET_IN)
    a, b = here.point(d.start), here.point(d.end)
    base = here.point((d.start[0] + out[0], d.start[1] + out[1]))
    if math.dist(a, b) < 1e-6:
        return
    square_deg = math.degrees(math.atan2(d.outward[1], d.outward[0])) + here.turn_deg
    dimension = space.add_linear_dim(
        base=base,
        p1=a,
        p2=b,
        angle=square_deg + 90.0,
        dimstyle=DIMSTYLE,
        text=" ",
        dxfattribs={"layer": Layer.DIMENSIONS.value},
    )
    dimension.render()


def add_primitive(space: BaseLayout | BlockLayout, s: Primitive, here: Placement, *, on_layer_0: bool = False) -> None:
    """One plain stroke; white fills are left out, the plan under them is white already."""
    attributes: dict[str, object] = {"layer": "0" if on_layer_0 else s.layer.value}
    if isinstance(s, Text):
        _add_text(space, s, here, attributes)
        return
    attributes["lineweight"] = LINEWEIGHT[s.pen]
    if isinstance(s, Line):
        space.add_line(here.point(s.start), here.point(s.end), dxfattribs=attributes)
    elif isinstance(s, Circle):
        centre, radius = here.point(s.centre), s.radius_in * here.factor
        space.add_circle(centre, radius, dxfattribs=attributes)
        if s.fill is Fill.BLACK:
            x, y = centre
            _add_solid(space, [(x - radius, y, 1.0), (x + radius, y, 1.0)], attributes)
    elif isinstance(s, Polyline):
        points = [here.point(p) for p in s.points]
        space.add_lwpolyline(points, close=s.closed, dxfattribs=attributes)
        if s.fill is Fill.BLACK:
            _add_solid(space, [(x, y, 0.0) for x, y in points], attributes)


def _add_solid(
    space: BaseLayout | BlockLayout, ring: list[tuple[float, float, float]], attributes: dict[str, object]
) -> None:
    """A solid fill of a ring of (x, y, bulge)."""
    hatch = space.add_hatch(dxfattribs={"layer": attributes["layer"], "hatch_style": 0})
    hatch.set_solid_fill(color=256)
    hatch.paths.add_polyline_path(ring, is_closed=True, flags=1)


def _add_text(space: BaseLayout | BlockLayout, s: Text, here: Placement, attributes: dict[str, object]) -> None:
    """A text fitted between the two ends of its measured baseline, so that no reader's font makes it wider."""
    start, end = here.point(s.start), here.point(along(s.start, s.angle_deg, s.width_in))
    text = space.add_text(
        s.text.replace("%%", "% %"),
        height=s.height_in * here.factor,
        rotation=s.angle_deg + here.turn_deg,
        dxfattribs={**attributes, "style": "PLAN-BOLD" if s.bold else "PLAN"},
    )
    text.set_placement(start, end, align=TextEntityAlignment.FIT)
