"""Plain strokes as a picture inside a page (SVG), without a style of its own."""

from __future__ import annotations

import itertools
from xml.sax.saxutils import escape, quoteattr

from export.paper.block import Block
from export.paper.lettering import type_size_in
from export.paper.sheet import PEN_WIDTH_IN, Align, Circle, Fill, Line, Pen, Primitive, Text

UNIT = 100.0
MANY = 8
FILLS = {Fill.NONE: "none", Fill.BLACK: "#000", Fill.WHITE: "#fff", Fill.GREY: "#999"}
ANCHORS = {Align.LEFT: "start", Align.CENTRE: "middle", Align.RIGHT: "end"}


def svg_of(block: Block, label: str) -> str:
    """A block as an SVG element as wide as it is on paper; upright texts only."""
    size = f'viewBox="0 0 {UNIT * block.width_in:.0f} {UNIT * block.height_in:.0f}" width="{96 * block.width_in:.0f}"'
    inside = "".join(_together(list(same)) for _, same in itertools.groupby(block.strokes, _pen_of_line))
    return f'<svg {size} role="img" aria-label={quoteattr(label)}>{inside}</svg>'


def _pen_of_line(s: Primitive) -> Pen | None:
    """The pen of an undashed line, None for all else."""
    return s.pen if isinstance(s, Line) and not s.dashed else None


def _together(strokes: list[Primitive]) -> str:
    """Many lines of one pen as one path, else an element each."""
    lines = [s for s in strokes if isinstance(s, Line)]
    if len(lines) < MANY or len(lines) < len(strokes) or _pen_of_line(strokes[0]) is None:
        return "".join(map(_element, strokes))
    ends = [(UNIT * x, -UNIT * y) for s in lines for x, y in (s.start, s.end)]
    d = "".join(f"{'ML'[k % 2]}{x:.1f} {y:.1f}" for k, (x, y) in enumerate(ends))
    return f'<path d="{d}" stroke="#000" stroke-width="{max(1.0, UNIT * PEN_WIDTH_IN[lines[0].pen]):.2f}"/>'


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
