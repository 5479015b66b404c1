"""The shape of each anchor type, and shapes and dimensions taken apart into plain strokes."""

from __future__ import annotations

import math

from export.paper.sheet import (
    DIMENSION_OFFSET_IN,
    TICK_IN,
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
    Stroke,
    Symbol,
    along,
)
from framing.run import Run

RADIUS_IN = 0.065
UNRESOLVED_RADIUS_IN = 0.1


def shapes_of(run: Run) -> dict[str, Shape]:
    """The shape of each anchor id, in the catalogue's order; past twelve types the shapes come again."""
    shapes = [s for s in Shape if s is not Shape.UNRESOLVED]
    ids = dict.fromkeys(a.id for a in sorted(run.schedule.catalogue.anchors, key=lambda a: a.order))
    used = {m.anchor.id for m in run.schedule.marks if m.anchor}
    return {name: shapes[i % len(shapes)] for i, name in enumerate(n for n in ids if n in used)}


def shape_strokes(shape: Shape, at: Point, angle_deg: float, layer: Layer = Layer.ANCHOR) -> tuple[Primitive, ...]:
    """The shape as strokes, of the same size on every sheet."""
    fill = Fill.BLACK if "full" in shape.value else Fill.WHITE
    r = RADIUS_IN
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
        Shape.HEXAGON: (6, 0.0),
    }[shape]
    grown = r * {3: 1.25, 4: 1.15, 6: 1.05}[sides]
    corners = tuple(along(at, angle_deg + first_deg + 360.0 * k / sides, grown) for k in range(sides))
    outline = Polyline(points=corners, layer=layer, pen=Pen.MEDIUM, closed=True, fill=fill)
    if shape is Shape.CROSSED_SQUARE:
        return (outline, *_cross(at, angle_deg + 45.0, grown, layer, Pen.MEDIUM))
    if shape is Shape.BARRED_DIAMOND:
        return (outline, _bar(at, angle_deg, grown, layer, Pen.MEDIUM))
    return (outline,)


def plain_strokes(stroke: Stroke) -> tuple[Primitive, ...]:
    """A symbol or a dimension as plain strokes; a plain stroke as itself."""
    if isinstance(stroke, Symbol):
        return shape_strokes(stroke.shape, stroke.at, stroke.angle_deg)
    if isinstance(stroke, RunningDimension):
        return _dimension(stroke)
    return (stroke,)


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
