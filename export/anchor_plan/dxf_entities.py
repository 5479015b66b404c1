"""What is more than a stroke in the DXF: anchors and title blocks with attributes, and dimensions that measure."""

from __future__ import annotations

import math

from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.base import BaseLayout

from export.anchor_plan.dxf_document import DIM_TICK_IN, DIMSTYLE
from export.anchor_plan.dxf_strokes import Placement, add_strokes, baseline, plain, text_attributes
from export.paper.sheet import DIMENSION_OFFSET_IN, SMALLEST_TEXT_IN, Layer, Point, RunningDimension, Sign, TitleCells
from export.paper.symbols import RADIUS_IN, sign_strokes, title_frame, title_values
from framing.anchors.schedule import Mark
from framing.members import Strap
from framing.units import feet_inches, inches

ATTRIBUTES = (
    "MARK",
    "ANCHOR",
    "COUNT",
    "SIDE",
    "UPLIFT",
    "WALL",
    "STATION",
    "TAPE",
    "MEMBER",
    "RATIO",
    "IN_FROM_FACE",
)
TICK_BLOCK = "_OBLIQUE"


def block_name(sign: Sign) -> str:
    """The name of the block that draws a sign."""
    return "ANCHOR-" + f"{sign.shape.value} {sign.number or ''}".strip().upper().replace(" ", "-")


def add_anchor_block(doc: Drawing, sign: Sign, factor: float) -> None:
    """The block of one sign, its attributes invisible (the mark stands on the plan as plain text)."""
    block = doc.blocks.new(block_name(sign))
    here = Placement(point=lambda p: (p[0] * factor, p[1] * factor), turn_deg=0.0, factor=factor)
    add_strokes(block, sign_strokes(sign, (0.0, 0.0), 0.0), here)
    for i, tag in enumerate(ATTRIBUTES):
        attributes = {"layer": Layer.ANCHOR.value, "height": SMALLEST_TEXT_IN * factor}
        block.add_attdef(tag, _attribute_at(i, factor), dxfattribs=attributes).is_invisible = True


def _attribute_at(i: int, factor: float) -> Point:
    return (RADIUS_IN * factor, -i * 0.14 * factor)


def add_anchor(layout: BaseLayout, mark: Mark, strap: Strap, sign: Sign, here: Placement) -> None:
    """One strap at its point, with its attributes; a pair is two of them, each of count 1."""
    layer = Layer.ANCHOR.value
    at = (strap.point_ft[0] * 12.0, strap.point_ft[1] * 12.0)
    insert = layout.add_blockref(block_name(sign), at, {"layer": layer, "rotation": here.turn_deg})
    a = math.radians(here.turn_deg)
    for i, (tag, words) in enumerate(zip(ATTRIBUTES, _said(mark, strap), strict=True)):
        u, v = _attribute_at(i, here.factor)
        spot = (at[0] + u * math.cos(a) - v * math.sin(a), at[1] + u * math.sin(a) + v * math.cos(a))
        attributes = {"layer": layer, "height": SMALLEST_TEXT_IN * here.factor, "rotation": here.turn_deg}
        insert.add_attrib(tag, plain(words), spot, attributes).is_invisible = True


def _said(mark: Mark, strap: Strap) -> tuple[str, ...]:
    """The values of `ATTRIBUTES`."""
    b = mark.bearing
    return (
        mark.mark,
        mark.anchor.id if mark.anchor else "",
        "1" if mark.anchor else "0",
        strap.side.value,
        f"{mark.uplift_lb:.1f}",
        b.wall,
        feet_inches(b.station_ft),
        feet_inches(strap.tape_ft),
        b.member,
        "" if mark.ratio is None else f"{mark.ratio:.2f}",
        "" if strap.in_from_face_ft is None else inches(strap.in_from_face_ft),
    )


def add_title_cells(doc: Drawing, layout: BaseLayout, t: TitleCells, here: Placement) -> None:
    """The title block's cells as a block, what is filled in as its attributes."""
    name = f"TITLE-{t.width_in:g}"
    own = Placement(point=lambda p: (p[0] - t.at[0], p[1] - t.at[1]), turn_deg=0.0, factor=1.0)
    if name not in doc.blocks:
        block = doc.blocks.new(name)
        add_strokes(block, title_frame(t), own)
        step = t.width_in / len(t.cells)
        for k, (tag, label, _) in enumerate(t.cells):
            spot = (k * step + 0.05, -3.2 * t.text_in)
            block.add_attdef(tag, spot, dxfattribs={"layer": Layer.TITLE.value, "height": t.text_in, "prompt": label})
    insert = layout.add_blockref(name, here.point(t.at), {"layer": Layer.TITLE.value})
    texts = {s.text: s for s in title_values(t)}
    step = t.width_in / len(t.cells)
    for k, (tag, _, value) in enumerate(t.cells):
        text = texts.get(value)
        spot = here.point((t.at[0] + k * step + 0.05, t.at[1] - 3.2 * t.text_in))
        attributes: dict[str, object] = {"layer": Layer.TITLE.value, "height": t.text_in}
        if text is not None:
            attributes = text_attributes(text, here, Layer.TITLE)
        attribute = insert.add_attrib(tag, plain(value), spot, attributes)
        if text is not None:
            attribute.set_placement(*baseline(text, here), align=TextEntityAlignment.FIT)


def add_running_dimension(doc: Drawing, layout: BaseLayout, d: RunningDimension, here: Placement) -> None:
    """A real dimension from START; its own text is left blank, since the figure stands as text in its row."""
    out = (d.outward[0] * DIMENSION_OFFSET_IN, d.outward[1] * DIMENSION_OFFSET_IN)
    a, b = here.point(d.start), here.point(d.end)
    c, e = (here.point((p[0] + out[0], p[1] + out[1])) for p in (d.start, d.end))
    if math.dist(a, b) < 1e-6:
        return
    along_deg = math.degrees(math.atan2(d.outward[1], d.outward[0])) + here.turn_deg + 90.0
    block = doc.blocks.new_anonymous_block("D")
    size = 2.0 * DIM_TICK_IN * here.factor
    layer = Layer.DIMENSIONS.value
    for p in (c, e):
        block.add_blockref(TICK_BLOCK, p, {"layer": layer, "xscale": size, "yscale": size, "rotation": along_deg})
    block.add_line(c, e)
    for p in (c, a, b):
        block.add_point(p, {"layer": "Defpoints"})
    attributes = {"layer": layer, "dimstyle": DIMSTYLE, "geometry": block.name, "text": " ", "dimtype": 32}
    points = {"defpoint": c, "text_midpoint": e, "defpoint2": a, "defpoint3": b, "angle": along_deg}
    layout.new_entity("DIMENSION", {**attributes, **points})
