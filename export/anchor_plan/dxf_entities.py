"""Strokes as DXF entities: layers, styles, anchor blocks with attributes, dimensions, text fitted to its box."""

from __future__ import annotations

import math

from ezdxf.document import Drawing
from ezdxf.render.arrows import ARROWS
from ezdxf.sections.blocks import BlocksSection

from export.anchor_plan.dxf_strokes import Pencil, Placement, add_strokes, xyz
from export.paper.sheet import (
    DIMENSION_OFFSET_IN,
    SMALLEST_TEXT_IN,
    Layer,
    Point,
    RunningDimension,
    Sign,
)
from export.paper.symbols import RADIUS_IN, sign_strokes
from framing.anchors.schedule import Mark
from framing.units import feet_inches

ATTRIBUTES = ("MARK", "ANCHOR", "COUNT", "SIDE", "UPLIFT", "WALL", "STATION")
GREY_LAYERS = frozenset({Layer.TRUSS, Layer.TRUSS_NAMES})
BLACK, GREY = 7, 8
TICK_BLOCK = "_OBLIQUE"
DIM_TICK_IN = 0.05
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
        "dimtsz": DIM_TICK_IN * factor,
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
    ARROWS.create_block(doc.blocks, ARROWS.oblique)
    for name, number in {"$INSUNITS": 1, "$MEASUREMENT": 0, "$LUNITS": 4, "$LUPREC": 4, "$LTSCALE": factor}.items():
        doc.header[name] = number
    doc.header["$DIMSTYLE"] = DIMSTYLE


def block_name(sign: Sign) -> str:
    """The name of the block that draws a sign."""
    return "ANCHOR-" + f"{sign.shape.value} {sign.number or ''}".strip().upper().replace(" ", "-")


def add_anchor_block(doc: Drawing, sign: Sign, factor: float) -> None:
    """The block of one sign, its attributes invisible (the mark stands on the plan as plain text)."""
    block = doc.blocks.new(block_name(sign))
    here = Placement(point=lambda p: (p[0] * factor, p[1] * factor), turn_deg=0.0, factor=factor)
    add_strokes(block, sign_strokes(sign, (0.0, 0.0), 0.0), here)
    for i, tag in enumerate(ATTRIBUTES):
        attribute = block.add_attdef(tag, _attribute_at(i, factor), height=SMALLEST_TEXT_IN * factor)
        attribute.is_invisible = True


def _attribute_at(i: int, factor: float) -> Point:
    return (RADIUS_IN * factor, -i * 0.14 * factor)


def add_insert(pencil: Pencil, mark: Mark, sign: Sign, here: Placement) -> None:
    """The anchor at its strap point, with its attributes as the schedule has them."""
    x, y = mark.bearing.strap_ft[0] * 12.0, mark.bearing.strap_ft[1] * 12.0
    turn = f"50\n{here.turn_deg:.10g}\n"
    layer = Layer.ANCHOR.value
    pencil.write("INSERT", layer, f"100\nAcDbBlockReference\n66\n1\n2\n{block_name(sign)}\n{xyz(10, (x, y))}{turn}")
    said = (
        mark.mark,
        mark.anchor.id if mark.anchor else "",
        str(mark.count),
        mark.side.value,
        f"{mark.uplift_lb:.1f}",
        mark.bearing.wall,
        feet_inches(mark.bearing.station_ft),
    )
    a = math.radians(here.turn_deg)
    for i, (tag, words) in enumerate(zip(ATTRIBUTES, said, strict=True)):
        u, v = _attribute_at(i, here.factor)
        at = (x + u * math.cos(a) - v * math.sin(a), y + u * math.sin(a) + v * math.cos(a))
        height = f"{SMALLEST_TEXT_IN * here.factor:.10g}"
        text = f"100\nAcDbText\n{xyz(10, at)}40\n{height}\n1\n{words}\n{turn}"
        pencil.write("ATTRIB", "0", f"{text}100\nAcDbAttribute\n2\n{tag}\n70\n1\n")
    pencil.write("SEQEND", layer, "")


def add_running_dimension(pencil: Pencil, blocks: BlocksSection, d: RunningDimension, here: Placement) -> None:
    """A real dimension from START; its own text is left blank, since the figure stands as text in its row."""
    out = (d.outward[0] * DIMENSION_OFFSET_IN, d.outward[1] * DIMENSION_OFFSET_IN)
    a, b = here.point(d.start), here.point(d.end)
    c, e = (here.point((p[0] + out[0], p[1] + out[1])) for p in (d.start, d.end))
    if math.dist(a, b) < 1e-6:
        return
    along_deg = f"{math.degrees(math.atan2(d.outward[1], d.outward[0])) + here.turn_deg + 90.0:.10g}"
    block = blocks.new_anonymous_block("D")
    drawn = Pencil(block)
    size = f"{2.0 * DIM_TICK_IN * here.factor:.10g}"
    for p in (c, e):
        tick = f"2\n{TICK_BLOCK}\n{xyz(10, p)}41\n{size}\n42\n{size}\n50\n{along_deg}\n"
        drawn.write("INSERT", Layer.DIMENSIONS.value, f"100\nAcDbBlockReference\n{tick}")
    drawn.write("LINE", "0", f"100\nAcDbLine\n{xyz(10, c)}{xyz(11, e)}")
    for p in (c, a, b):
        drawn.write("POINT", "Defpoints", f"100\nAcDbPoint\n{xyz(10, p)}")
    drawn.done()
    pencil.write(
        "DIMENSION",
        Layer.DIMENSIONS.value,
        f"100\nAcDbDimension\n280\n0\n2\n{block.name}\n3\n{DIMSTYLE}\n{xyz(10, c)}{xyz(11, e)}70\n32\n71\n5\n1\n \n"
        f"100\nAcDbAlignedDimension\n{xyz(13, a)}{xyz(14, b)}50\n{along_deg}\n100\nAcDbRotatedDimension\n",
    )
