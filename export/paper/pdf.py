"""Strokes of sheets to a PDF file: vector, searchable, to scale, nothing in it that is not on the sheet."""

from __future__ import annotations

import io
from collections.abc import Iterable
from dataclasses import dataclass

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

from export.paper.lettering import POINTS_PER_IN, face_of, type_size_in
from export.paper.sheet import PEN_WIDTH_IN, Circle, Fill, Layer, Line, Point, Primitive, Text, direction

GREY = {Layer.TRUSS: 0.55, Layer.TRUSS_NAMES: 0.25}
DASHES_PT = (4.0, 2.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One page: its strokes in inches from the lower left corner, in the order in which they are drawn.

    `outline` is its entry in the reader's list of pages, '' for none.
    """

    width_in: float
    height_in: float
    strokes: tuple[Primitive, ...]
    outline: str = ""


def pdf_of(pages: Iterable[Page], title: str, subject: str = "") -> bytes:
    """The pages as one document; equal input gives equal bytes: there is no clock in it."""
    rl_config.useA85 = 0
    file = io.BytesIO()
    canvas = Canvas(file, invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setAuthor("strapline")
    if subject:
        canvas.setSubject(subject)
    for page in pages:
        _draw(canvas, page)
    canvas.save()
    return file.getvalue()


def _draw(canvas: Canvas, page: Page) -> None:
    canvas.setPageSize((page.width_in * POINTS_PER_IN, page.height_in * POINTS_PER_IN))
    if page.outline:
        canvas.bookmarkPage(page.outline)
        canvas.addOutlineEntry(page.outline, page.outline)
    canvas.setLineCap(1)
    canvas.setLineJoin(1)
    for stroke in page.strokes:
        if isinstance(stroke, Text):
            _write(canvas, stroke)
        else:
            _stroke(canvas, stroke)
    canvas.showPage()


def _stroke(canvas: Canvas, s: Primitive) -> None:
    grey = GREY.get(s.layer, 0.0)
    if isinstance(s, Text):
        return
    canvas.setStrokeGray(grey)
    canvas.setLineWidth(PEN_WIDTH_IN[s.pen] * POINTS_PER_IN)
    if isinstance(s, Circle):
        x, y = _point(s.centre)
        canvas.setFillGray(1.0 if s.fill is Fill.WHITE else grey)
        canvas.circle(x, y, s.radius_in * POINTS_PER_IN, fill=s.fill is not Fill.NONE)
        return
    canvas.setDash(DASHES_PT if s.dashed else ())
    if isinstance(s, Line):
        canvas.line(*_point(s.start), *_point(s.end))
        return
    canvas.setFillGray(1.0 if s.fill is Fill.WHITE else grey)
    path = canvas.beginPath()
    path.moveTo(*_point(s.points[0]))
    for p in s.points[1:]:
        path.lineTo(*_point(p))
    if s.closed:
        path.close()
    canvas.drawPath(path, fill=s.fill is not Fill.NONE)


def _write(canvas: Canvas, s: Text) -> None:
    """A line of letters from the left end of its baseline."""
    c, sine = direction(s.angle_deg)
    x, y = _point(s.start)
    words = canvas.beginText()
    words.setFont(face_of(s.text, bold=s.bold), type_size_in(s.text, s.height_in) * POINTS_PER_IN)
    words.setHorizScale(100.0 * s.width_ratio)
    words.setTextTransform(c, sine, -sine, c, x, y)
    words.setFillGray(1.0 if s.white else GREY.get(s.layer, 0.0))
    words.textOut(s.text)
    canvas.drawText(words)


def _point(p_in: Point) -> Point:
    return (p_in[0] * POINTS_PER_IN, p_in[1] * POINTS_PER_IN)
