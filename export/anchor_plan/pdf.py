"""Run -> anchor-plan.pdf: the sheets of the anchor placement plan, vector, searchable, to scale."""

from __future__ import annotations

import io
import math
from collections.abc import Iterator

from reportlab.pdfgen.canvas import Canvas

from export.anchor_plan.sheets import PAPERS, anchor_plan_sheets
from export.anchor_plan.symbols import plain_strokes
from export.paper.pdf_operators import Point, add_operators, circle, font_name, line, new_canvas, path, text
from export.paper.sheet import (
    CAP_HEIGHT_EM,
    PEN_WIDTH_IN,
    Circle,
    Fill,
    Layer,
    Line,
    Polyline,
    Primitive,
    Sheet,
    Text,
)
from framing.run import Run

POINTS_PER_IN = 72.0
GREY = {Layer.TRUSS: 0.55, Layer.TRUSS_NAMES: 0.25}


def anchor_plan_pdf(run: Run) -> bytes:
    """The anchor placement plan on ARCH D, then on tabloid; equal input gives equal bytes."""
    file = io.BytesIO()
    canvas = new_canvas(file)
    canvas.setTitle(f"Tie-beam anchor placement plan, {run.fingerprint}")
    canvas.setAuthor("strapline")
    for paper in PAPERS:
        for sheet in anchor_plan_sheets(run, paper):
            _draw_sheet(canvas, sheet)
    canvas.save()
    return file.getvalue()


def _draw_sheet(canvas: Canvas, sheet: Sheet) -> None:
    canvas.setPageSize((sheet.width_in * POINTS_PER_IN, sheet.height_in * POINTS_PER_IN))
    canvas.bookmarkPage(sheet.name)
    canvas.addOutlineEntry(sheet.name, sheet.name)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    fonts = {bold: font_name(canvas, bold=bold) for bold in (False, True)}
    strokes = (plain for stroke in (*sheet.surround, *sheet.drawing) for plain in plain_strokes(stroke))
    add_operators(canvas, (operators for s in strokes for operators in _operators(s, fonts)))
    canvas.showPage()


def _operators(s: Primitive, fonts: dict[bool, str]) -> Iterator[str]:
    grey = GREY.get(s.layer, 0.0)
    if isinstance(s, Text):
        size = s.height_in / CAP_HEIGHT_EM * POINTS_PER_IN
        angle = math.radians(s.angle_deg)
        yield f"{grey} g {100.0 * s.width_ratio:g} Tz"
        yield text(s.text, _point(s.start), fonts[s.bold], size, (math.cos(angle), math.sin(angle)))
        return
    yield f"{grey} G {PEN_WIDTH_IN[s.pen] * POINTS_PER_IN:g} w"
    if isinstance(s, Line):
        yield line(_point(s.start), _point(s.end))
        return
    filled = s.fill is not Fill.NONE
    if filled:
        yield f"{1.0 if s.fill is Fill.WHITE else grey} g"
    if isinstance(s, Circle):
        yield circle(_point(s.centre), s.radius_in * POINTS_PER_IN, filled=filled)
    elif isinstance(s, Polyline):
        yield path(map(_point, s.points), closed=s.closed, filled=filled)


def _point(p_in: Point) -> Point:
    return (p_in[0] * POINTS_PER_IN, p_in[1] * POINTS_PER_IN)
