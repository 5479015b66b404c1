"""The strokes of a strip from its upper left corner, by how far down they lie: x to the right, `down` below the top."""

from __future__ import annotations

from export.paper.lettering import cap_in, narrowing, printable
from export.paper.sheet import Align, Fill, Layer, Line, Pen, Point, Polyline, Text

SMALL_PT = 8.0


def write(
    text: str,
    x: float,
    down: float,
    size_pt: float,
    *,
    bold: bool = False,
    align: Align = Align.LEFT,
    within_in: float | None = None,
    white: bool = False,
) -> Text:
    """A line of text on the baseline `down`; its letters narrower where it is wider than `within_in`."""
    words = printable(text)
    height = cap_in(size_pt)
    ratio = 1.0 if within_in is None else narrowing(words, within_in, height, bold=bold)
    return Text(
        at=(x, -down),
        text=words,
        height_in=height,
        layer=Layer.MARKS,
        align=align,
        bold=bold,
        width_ratio=ratio,
        white=white,
    )


def stroke(a: Point, b: Point, layer: Layer, pen: Pen = Pen.FINE, *, dashed: bool = False) -> Line:
    """A straight stroke between two points (x, down)."""
    return Line(start=(a[0], -a[1]), end=(b[0], -b[1]), layer=layer, pen=pen, dashed=dashed)


def outline(
    points: tuple[Point, ...],
    layer: Layer,
    pen: Pen = Pen.FINE,
    *,
    fill: Fill = Fill.NONE,
    closed: bool = True,
    dashed: bool = False,
) -> Polyline:
    """A shape or a bent line through points (x, down)."""
    turned = tuple((x, -down) for x, down in points)
    return Polyline(points=turned, layer=layer, pen=pen, closed=closed, fill=fill, dashed=dashed)


def box(
    left: float,
    top: float,
    right: float,
    bottom: float,
    layer: Layer,
    pen: Pen = Pen.FINE,
    *,
    fill: Fill = Fill.NONE,
    dashed: bool = False,
) -> Polyline:
    """An upright rectangle between two depths."""
    corners = ((left, top), (right, top), (right, bottom), (left, bottom))
    return outline(corners, layer, pen, fill=fill, dashed=dashed)
