"""The DXF's tables and header: layers with what they are for, text and dimension styles, units, blocks."""

from __future__ import annotations

from ezdxf.document import Drawing
from ezdxf.render.arrows import ARROWS

from export.anchor_plan.dxf_strokes import BOLD_STYLE, DASHED, STYLE
from export.paper.sheet import SMALLEST_TEXT_IN, Layer

BLACK, GREY = 7, 8
INCH = 1
FEET_AND_INCHES = 4
SIXTEENTHS = 4
DIMSTYLE = "RUNNING"
DIM_TICK_IN = 0.05
LAYERS = {
    Layer.WALL: (BLACK, 70, "Outside faces of the walls"),
    Layer.BEAM: (BLACK, 35, "Tie beam, supports inside, porch beams"),
    Layer.TRUSS: (GREY, 18, "Trusses and jacks"),
    Layer.GIRDER: (BLACK, 70, "Girder trusses"),
    Layer.TRUSS_NAMES: (GREY, 18, "Names of the members"),
    Layer.ANCHOR: (BLACK, 35, "Anchors: an insert for each strap, with attributes"),
    Layer.MARKS: (BLACK, 18, "Marks and their rows as plain text"),
    Layer.MODEL_MARKS: (BLACK, 18, "Marks in the model of walls whose rows stand on the sheets"),
    Layer.DIMENSIONS: (BLACK, 18, "Running dimensions from each wall's START"),
    Layer.DETAIL: (BLACK, 35, "Walls drawn apart"),
    Layer.TITLE: (BLACK, 35, "Border and title block"),
    Layer.LEGEND: (BLACK, 25, "Legend of the anchors"),
    Layer.SCHEDULE: (BLACK, 25, "Straps and anchors by wall"),
    Layer.NOTES: (BLACK, 25, "Notes and the caution"),
    Layer.VIEWPORT: (BLACK, 18, "Viewports, not plotted"),
    Layer.DECK: (GREY, 18, "Wind zones of the roof deck, as on deck.pdf; off until turned on"),
}
"""Colour number, line weight in hundredths of a millimetre, description."""


def set_up(doc: Drawing, factor: float) -> None:
    """Layers, text styles and the dimension style; header variables too, since some readers look only there.

    `factor` is drawing units per paper inch in model space.
    """
    for name, font in ((STYLE, "arial.ttf"), (BOLD_STYLE, "arialbd.ttf")):
        doc.styles.add(name, font=font)
    doc.linetypes.add(DASHED, pattern=[0.09, 0.055, -0.035], description="Dashed")
    for layer, (colour, weight, words) in LAYERS.items():
        entry = doc.layers.add(layer.value, color=colour, lineweight=weight, plot=layer is not Layer.VIEWPORT)
        entry.description = words
        if layer is Layer.DECK:
            entry.off()
    _dimension_style(doc, factor)
    units = {"$INSUNITS": INCH, "$MEASUREMENT": 0, "$LUNITS": FEET_AND_INCHES, "$LUPREC": SIXTEENTHS}
    for name, number in {**units, "$LTSCALE": factor, "$LWDISPLAY": 1}.items():
        doc.header[name] = number


def _dimension_style(doc: Drawing, factor: float) -> None:
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
    style.dxf.dimtxsty = STYLE
    doc.header["$DIMSTYLE"] = DIMSTYLE
    ARROWS.create_block(doc.blocks, ARROWS.oblique)
