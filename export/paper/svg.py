"""Plain strokes as a picture inside a page (SVG), without a style of its own."""

from __future__ import annotations

from xml.sax.saxutils import escape, quoteattr

from export.paper.block import Block
from export.paper.lettering import type_size_in
from export.paper.sheet import PEN_WIDTH_IN, Align, Circle, Fill, Line, Primitive, Text

UNIT = 100.0
FILLS = {Fill.NONE: "none", Fill.BLACK: "#000", Fill.WHITE: "#fff", Fill.GREY: "#999"}
ANCHORS = {Align.LEFT: "start", Align.CENTRE: "middle", Align.RIGHT: "end"}


def svg_of(block: Block, label: str) -> str:
    """A block as an SVG element as wide as it is on paper; upright texts only."""
    size = f'viewBox="0 0 {UNIT * block.width_in:.0f} {UNIT * block.height_in:.0f}" width="{96 * block.width_in:.0f}"'
    return f'<svg {size} role="img" aria-label={quoteattr(label)}>{"".join(map(_element, block.strokes))}</svg>'


def _element(s: Primitive) -> str:
    if isinstance(s, Text):
        x, y = s.at
        bold = ' font-weight="bold"' if s.bold else ""
        font = f'font-family="Helvetica, Arial, sans-serif" font-size="{UNIT * type_size_in(s.text, s.height_in):.1f}"'
        place = f'x="{UNIT * x:.1f}" y="{-UNIT * y:.1f}" text-anchor="{ANCHORS[s.align]}"'
        return f'<text {place} {font}{bold} fill="{"#fff" if s.white else "#000"}">{escape(s.text)}</text>'
    pen = f'stroke="#000" stroke-width="{max(1.0, UNIT * PEN_WIDTH_IN[s.pen]):.2f}"'
    if isinstance(s, Circle):
        x, y = s.centre
        place = f'cx="{UNIT * x:.1f}" cy="{-UNIT * y:.1f}" r="{UNIT * s.radius_in:.1f}"'
        return f'<circle {place} fill="{FILLS[s.fill]}" {pen}/>'
    dashes = ' stroke-dasharray="6 4"' if s.dashed else ""
    if isinstance(s, Line):
        (x0, y0), (x1, y1) = s.start, s.end
        start, end = f'x1="{UNIT * x0:.1f}" y1="{-UNIT * y0:.1f}"', f'x2="{UNIT * x1:.1f}" y2="{-UNIT * y1:.1f}"'
        return f"<line {start} {end} {pen}{dashes}/>"
    points = " ".join(f"{UNIT * x:.1f},{-UNIT * y:.1f}" for x, y in s.points)
    kind = "polygon" if s.closed else "polyline"
    return f'<{kind} points="{points}" fill="{FILLS[s.fill]}" {pen}{dashes}/>'
