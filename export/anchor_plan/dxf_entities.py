"""Strokes as DXF entities: layers, styles, anchor blocks with attributes, dimensions, text fitted to its box."""

from __future__ import annotations

import math

from ezdxf.document import Drawing
from ezdxf.layouts.base import BaseLayout
from ezdxf.layouts.blocklayout import BlockLayout

from export.anchor_plan.dxf_strokes import LINEWEIGHT, Placement, add_strokes
from export.anchor_plan.symbols import RADIUS_IN, shape_strokes
from export.sheet import (
    DIMENSION_OFFSET_IN,
    SMALLEST_TEXT_IN,
    Circle,
    Fill,
    Layer,
    Line,
    Polyline,
    Primitive,
    RunningDimension,
    Shape,
    Text,
)
from framing.anchors import Mark
from framing.units import feet_inches

ATTRIBUTES = ("MARK", "ANCHOR", "COUNT", "SIDE", "UPLIFT", "WALL", "STATION")
GREY_LAYERS = frozenset({Layer.TRUSS, Layer.TRUSS_NAMES})
BLACK, GREY, BY_LAYER = 7, 8, 256
DIMSTYLE = "RUNNING"
FEET_AND_INCHES = 4
SIXTEENTHS = 4


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
        "dimse1": 1,
        "dimse2": 1,
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
        attributes = {"layer": Layer.ANCHOR.value, "lineweight": LINEWEIGHT[s.pen] if not isinstance(s, Text) else -1}
        if isinstance(s, Line):
            block.add_line(here.point(s.start), here.point(s.end), dxfattribs=attributes)
        elif isinstance(s, Circle):
            block.add_circle(here.point(s.centre), s.radius_in * factor, dxfattribs=attributes)
        elif isinstance(s, Polyline):
            block.add_lwpolyline([here.point(p) for p in s.points], close=s.closed, dxfattribs=attributes)
        if isinstance(s, Circle | Polyline) and s.fill is Fill.BLACK:
            _add_solid(block, s, here, Layer.ANCHOR.value)
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
    dimension.dimension.dxf.text_midpoint = here.point((d.end[0] + out[0], d.end[1] + out[1]))


def add_plain(space: BaseLayout, strokes: list[Primitive], here: Placement) -> None:
    """Plain strokes; black fills as hatches, white ones left out: the plan under them is white already."""
    add_strokes(space, strokes, here)
    for s in strokes:
        if isinstance(s, Circle | Polyline) and s.fill is Fill.BLACK:
            _add_solid(space, s, here, s.layer.value)


def _add_solid(space: BaseLayout | BlockLayout, s: Circle | Polyline, here: Placement, layer: str) -> None:
    """A solid fill of a circle, as two half circles, or of a closed polyline."""
    hatch = space.add_hatch(dxfattribs={"layer": layer, "hatch_style": 0})
    hatch.set_solid_fill(color=BY_LAYER)
    if isinstance(s, Circle):
        (x, y), r = here.point(s.centre), s.radius_in * here.factor
        ring = [(x - r, y, 1.0), (x + r, y, 1.0)]
    else:
        ring = [(*here.point(p), 0.0) for p in s.points]
    hatch.paths.add_polyline_path(ring, is_closed=True, flags=1)
