"""Strokes -> SVG: vector, searchable, nothing fetched."""

from __future__ import annotations

import html
from collections.abc import Sequence

from export.paper.lettering import type_size_in
from export.paper.sheet import PEN_WIDTH_IN, Circle, Fill, Line, Point, Polyline, Primitive, Text

FILLS = {Fill.NONE: "", Fill.BLACK: ' fill="#000"', Fill.WHITE: ' fill="#fff"', Fill.GREY: ' fill="#c8c8c8"'}
FONTS = "Helvetica, Arial, 'Liberation Sans', 'DejaVu Sans', sans-serif"


def svg(strokes: Sequence[Primitive], size_in: Point, title: str) -> bytes:
    """The strokes in inches of paper, y up, as one SVG file; equal input gives equal bytes."""
    width, height = size_in
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}in" height="{height:g}in" '
        f'viewBox="0 0 {width:g} {height:g}" role="img">',
        f"<title>{html.escape(title)}</title>",
        f'<rect width="{width:g}" height="{height:g}" fill="#fff"/>',
        f'<g stroke="#000" fill="none" stroke-linecap="round" stroke-linejoin="round" font-family="{FONTS}">',
        *(_element(s, height) for s in strokes),
        "</g></svg>",
    ]
    return ("\n".join(lines) + "\n").encode()


def _element(s: Primitive, height: float) -> str:
    if isinstance(s, Text):
        return _text(s, height)
    dashes = ' stroke-dasharray="0.055 0.035"' if not isinstance(s, Circle) and s.dashed else ""
    pen = f'stroke-width="{PEN_WIDTH_IN[s.pen]:g}"{dashes}'
    if isinstance(s, Line):
        (x0, y0), (x1, y1) = _down(s.start, height), _down(s.end, height)
        return f'<path d="M{x0:.4f} {y0:.4f}L{x1:.4f} {y1:.4f}" {pen}/>'
    fill = FILLS[s.fill]
    if isinstance(s, Circle):
        x, y = _down(s.centre, height)
        return f'<circle cx="{x:.4f}" cy="{y:.4f}" r="{s.radius_in:.4f}" {pen}{fill}/>'
    points = " ".join(f"{x:.4f},{y:.4f}" for x, y in (_down(p, height) for p in s.points))
    name = "polygon" if isinstance(s, Polyline) and s.closed else "polyline"
    return f'<{name} points="{points}" {pen}{fill}/>'


def _text(s: Text, height: float) -> str:
    """A text that is as long as measured, whichever font the reader has."""
    x, y = _down(s.start, height)
    turn = f' transform="rotate({-s.angle_deg:.4f} {x:.4f} {y:.4f})"' if s.angle_deg else ""
    weight = ' font-weight="bold"' if s.bold else ""
    size, colour = type_size_in(s.text, s.height_in), "#fff" if s.white else "#000"
    return (
        f'<text x="{x:.4f}" y="{y:.4f}" font-size="{size:.4f}" textLength="{s.width_in:.4f}" '
        f'lengthAdjust="spacingAndGlyphs" xml:space="preserve" fill="{colour}" stroke="none"{weight}{turn}>'
        f"{html.escape(s.text)}</text>"
    )


def _down(p: Point, height: float) -> Point:
    return (p[0], height - p[1])
