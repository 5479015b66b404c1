"""Run -> anchor-plan.pdf: the sheets of the anchor placement plan, vector, searchable, to scale."""

from __future__ import annotations

import io
import math

from reportlab.pdfgen.canvas import Canvas

from export.anchor_plan.sheets import PAPERS, anchor_plan_sheets
from export.anchor_plan.symbols import plain_strokes
from export.sheet import (
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
    canvas = Canvas(file, invariant=1, pageCompression=1)
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
    for stroke in (*sheet.surround, *sheet.drawing):
        for plain in plain_strokes(stroke):
            _draw(canvas, plain)
    canvas.showPage()


def _draw(canvas: Canvas, s: Primitive) -> None:
    grey = GREY.get(s.layer, 0.0)
    if isinstance(s, Text):
        _draw_text(canvas, s, grey)
        return
    canvas.setStrokeGray(grey)
    canvas.setLineWidth(PEN_WIDTH_IN[s.pen] * POINTS_PER_IN)
    if isinstance(s, Line):
        canvas.line(*_points(s.start), *_points(s.end))
        return
    canvas.setFillGray(1.0 if s.fill is Fill.WHITE else grey)
    filled = int(s.fill is not Fill.NONE)
    if isinstance(s, Circle):
        canvas.circle(*_points(s.centre), s.radius_in * POINTS_PER_IN, stroke=1, fill=filled)
    elif isinstance(s, Polyline):
        path = canvas.beginPath()
        path.moveTo(*_points(s.points[0]))
        for p in s.points[1:]:
            path.lineTo(*_points(p))
        if s.closed:
            path.close()
        canvas.drawPath(path, stroke=1, fill=filled)


def _draw_text(canvas: Canvas, s: Text, grey: float) -> None:
    text = canvas.beginText()
    size = s.height_in / CAP_HEIGHT_EM * POINTS_PER_IN
    text.setFont("Helvetica-Bold" if s.bold else "Helvetica", size)
    text.setHorizScale(100.0 * s.width_ratio)
    c, si = math.cos(math.radians(s.angle_deg)), math.sin(math.radians(s.angle_deg))
    text.setTextTransform(c, si, -si, c, *_points(s.start))
    text.setFillGray(grey)
    text.textOut(s.text)
    canvas.drawText(text)


def _points(p: tuple[float, float]) -> tuple[float, float]:
    return (p[0] * POINTS_PER_IN, p[1] * POINTS_PER_IN)
