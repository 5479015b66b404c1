"""The shape of each anchor type, and shapes and dimensions taken apart into plain strokes."""

from __future__ import annotations

import math

from export.paper.lettering import narrowing
from export.paper.sheet import (
    DIMENSION_OFFSET_IN,
    SMALLEST_TEXT_IN,
    TICK_IN,
    Align,
    Circle,
    Fill,
    Layer,
    Line,
    Pen,
    Point,
    Polyline,
    Primitive,
    RunningDimension,
    Shape,
    Sign,
    Stroke,
    Symbol,
    Text,
    TitleCells,
    along,
)
from framing.run import Run

RADIUS_IN = 0.065
UNRESOLVED_RADIUS_IN = 0.1
UNRESOLVED = Sign(shape=Shape.UNRESOLVED)
SHAPES = tuple(s for s in Shape if s not in (Shape.NUMBERED, Shape.UNRESOLVED))


def signs_of(run: Run) -> dict[str, Sign]:
    """The sign of each id of the catalogue in its order, used or not: so that a sign means the same on every sheet
    that is made from that catalogue.
    """
    ids = dict.fromkeys(a.id for a in sorted(run.schedule.catalogue.anchors, key=lambda a: a.order))
    return {name: _sign(i) for i, name in enumerate(ids)}


def used_signs(run: Run) -> dict[str, Sign]:
    """The signs of the ids that the run uses, in the catalogue's order."""
    used = {m.anchor.id for m in run.schedule.marks if m.anchor}
    return {name: sign for name, sign in signs_of(run).items() if name in used}


def _sign(place: int) -> Sign:
    return Sign(shape=SHAPES[place]) if place < len(SHAPES) else Sign(shape=Shape.NUMBERED, number=place + 1)


def sign_strokes(sign: Sign, at: Point, angle_deg: float, layer: Layer = Layer.ANCHOR) -> tuple[Primitive, ...]:
    """The sign as strokes, of the same size on every sheet."""
    shape = sign.shape
    fill = Fill.BLACK if "full" in shape.value else Fill.WHITE
    r = RADIUS_IN
    if shape is Shape.NUMBERED:
        return _numbered(sign.number, at, layer)
    if shape is Shape.UNRESOLVED:
        big = UNRESOLVED_RADIUS_IN
        ring = Circle(centre=at, radius_in=big, layer=layer, pen=Pen.MEDIUM, fill=Fill.WHITE)
        return (ring, *_cross(at, angle_deg + 45.0, big, layer, Pen.HEAVY))
    if shape in (Shape.OPEN_CIRCLE, Shape.FULL_CIRCLE, Shape.CROSSED_CIRCLE):
        circle = Circle(centre=at, radius_in=r, layer=layer, pen=Pen.MEDIUM, fill=fill)
        return (circle, *_cross(at, angle_deg, r, layer, Pen.MEDIUM)) if shape is Shape.CROSSED_CIRCLE else (circle,)
    sides, first_deg = {
        Shape.FULL_SQUARE: (4, 45.0),
        Shape.OPEN_SQUARE: (4, 45.0),
        Shape.CROSSED_SQUARE: (4, 45.0),
        Shape.FULL_DIAMOND: (4, 0.0),
        Shape.OPEN_DIAMOND: (4, 0.0),
        Shape.BARRED_DIAMOND: (4, 0.0),
        Shape.FULL_TRIANGLE: (3, 90.0),
        Shape.OPEN_TRIANGLE: (3, 90.0),
    }[shape]
    grown = r * {3: 1.25, 4: 1.15}[sides]
    corners = tuple(along(at, angle_deg + first_deg + 360.0 * k / sides, grown) for k in range(sides))
    outline = Polyline(points=corners, layer=layer, pen=Pen.MEDIUM, closed=True, fill=fill)
    if shape is Shape.CROSSED_SQUARE:
        return (outline, *_cross(at, angle_deg + 45.0, grown, layer, Pen.MEDIUM))
    if shape is Shape.BARRED_DIAMOND:
        return (outline, _bar(at, angle_deg, grown, layer, Pen.MEDIUM))
    return (outline,)


def _numbered(number: int, at: Point, layer: Layer) -> tuple[Primitive, ...]:
    """A ring as large as an unresolved mark's, with the id's place in the catalogue in it, upright."""
    ring = Circle(centre=at, radius_in=UNRESOLVED_RADIUS_IN, layer=layer, pen=Pen.MEDIUM, fill=Fill.WHITE)
    words, height = str(number), SMALLEST_TEXT_IN
    ratio = narrowing(words, 1.5 * UNRESOLVED_RADIUS_IN, height, bold=True)
    low = (at[0], at[1] - height / 2)
    return (
        ring,
        Text(at=low, text=words, height_in=height, layer=layer, align=Align.CENTRE, bold=True, width_ratio=ratio),
    )


def plain_strokes(stroke: Stroke) -> tuple[Primitive, ...]:
    """A symbol or a dimension as plain strokes; a plain stroke as itself."""
    if isinstance(stroke, Symbol):
        return sign_strokes(stroke.sign, stroke.at, stroke.angle_deg)
    if isinstance(stroke, RunningDimension):
        return _dimension(stroke)
    if isinstance(stroke, TitleCells):
        return (*title_frame(stroke), *title_values(stroke))
    return (stroke,)


def title_frame(t: TitleCells) -> tuple[Primitive, ...]:
    """The cells' lines and labels."""
    (x, top), step = t.at, t.width_in / len(t.cells)
    low, right = top - t.height_in, x + t.width_in
    frame = ((x, top), (right, top), (right, low), (x, low))
    strokes: list[Primitive] = [Polyline(points=frame, layer=Layer.TITLE, pen=Pen.FINE, closed=True)]
    strokes += [
        Line(start=(x + k * step, top), end=(x + k * step, low), layer=Layer.TITLE) for k in range(1, len(t.cells))
    ]
    return (
        *strokes,
        *(
            Text(at=(x + k * step + 0.05, top - 1.45 * t.text_in), text=label, height_in=t.text_in, layer=Layer.TITLE)
            for k, (_, label, _) in enumerate(t.cells)
        ),
    )


def title_values(t: TitleCells) -> tuple[Text, ...]:
    """What is filled in, narrow enough for its cell."""
    (x, top), step = t.at, t.width_in / len(t.cells)
    return tuple(
        Text(
            at=(x + k * step + 0.05, top - 3.2 * t.text_in),
            text=value,
            height_in=t.text_in,
            layer=Layer.TITLE,
            bold=True,
            width_ratio=narrowing(value, step - 0.1, t.text_in, bold=True),
        )
        for k, (_, _, value) in enumerate(t.cells)
        if value
    )


def _dimension(d: RunningDimension) -> tuple[Primitive, ...]:
    """A slanted tick on the wall's dimension line, and once the line itself."""
    a, b = (
        (p[0] + d.outward[0] * DIMENSION_OFFSET_IN, p[1] + d.outward[1] * DIMENSION_OFFSET_IN) for p in (d.start, d.end)
    )
    square_deg = math.degrees(math.atan2(d.outward[1], d.outward[0]))
    ends = (along(b, square_deg + 45.0, -TICK_IN), along(b, square_deg + 45.0, TICK_IN))
    tick = Line(start=ends[0], end=ends[1], layer=Layer.DIMENSIONS, pen=Pen.MEDIUM)
    return (tick, Line(start=a, end=b, layer=Layer.DIMENSIONS)) if d.whole else (tick,)


def _cross(at: Point, angle_deg: float, r: float, layer: Layer, pen: Pen) -> tuple[Line, Line]:
    return (_bar(at, angle_deg, r, layer, pen), _bar(at, angle_deg + 90.0, r, layer, pen))


def _bar(at: Point, angle_deg: float, r: float, layer: Layer, pen: Pen) -> Line:
    return Line(start=along(at, angle_deg, -r), end=along(at, angle_deg, r), layer=layer, pen=pen)
