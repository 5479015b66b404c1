"""The house as a small outline: which wall is which, where each tape starts, where north is."""

from __future__ import annotations

import math
from collections.abc import Callable

import shapely
from shapely.geometry import LineString, Polygon

from export.paper.block import Block
from export.paper.lettering import printable, text_width_in
from export.paper.sheet import Align, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Text, along
from framing.run import Run

OFFSETS_IN = (0.09, -0.09, 0.2, -0.2, 0.31, -0.31, 0.42, -0.42)
LEADER_FROM_IN = 0.15
ARROW_IN = 0.1
AROUND_IN = 0.3
CAPTION_IN = 0.16
NORTH_IN = 0.22


def key_plan_block(run: Run, size_in: Point, text_in: float) -> Block:
    """The outline as large as it fits, turned so that its walls run along the page, in a block of that size."""
    frame = run.outline.frame
    turn_deg = -math.remainder(math.degrees(math.atan2(frame.sin, frame.cos)), 90.0)
    place = _placement(run, size_in, turn_deg)
    ring = [place(w.start_ft) for w in run.outline.walls]
    strokes: list[Primitive] = [Polyline(points=tuple(ring), layer=Layer.WALL, pen=Pen.HEAVY, closed=True)]
    lines = [(w.name, place(w.start_ft), place(w.end_ft)) for w in run.outline.walls]
    inside = [(f"S{k}", place(s.start_ft), place(s.end_ft)) for k, s in enumerate(run.plan.supports, start=1)]
    strokes += [Line(start=a, end=b, layer=Layer.BEAM, pen=Pen.MEDIUM, dashed=True) for _, a, b in inside]
    arrows = [_arrow(a, b) for _, a, b in (*lines, *inside)]
    strokes += arrows
    walls = (LineString([a, b]).buffer(0.02) for _, a, b in (*lines, *inside))
    taken = [*walls, *(Polygon(arrow.points) for arrow in arrows)]
    for name, a, b in (*lines, *inside):
        label = _label(name, a, b, text_in, taken)
        taken += [Polygon(s.box).buffer(0.02) for s in label if isinstance(s, Text)]
        strokes += label
    words = "Arrowheads: where each tape starts, and the way it runs"
    strokes.append(Text(at=(0.0, 0.06 - size_in[1]), text=words, height_in=text_in * 0.9, layer=Layer.NOTES))
    strokes += _north(run.plan.project.north_deg + turn_deg, (size_in[0] - 0.3, -0.42), text_in)
    return Block(strokes=tuple(strokes), width_in=size_in[0], height_in=size_in[1])


def _placement(run: Run, size_in: Point, turn_deg: float) -> Callable[[Point], Point]:
    """Plan feet to the block's inches."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    turned = [(x * c - y * s, x * s + y * c) for x, y in (w.start_ft for w in run.outline.walls)]
    x0, x1 = min(x for x, _ in turned), max(x for x, _ in turned)
    y0, y1 = min(y for _, y in turned), max(y for _, y in turned)
    per_ft = min(
        (size_in[0] - 2 * AROUND_IN - NORTH_IN) / (x1 - x0), (size_in[1] - CAPTION_IN - 2 * AROUND_IN) / (y1 - y0)
    )
    left = (size_in[0] - NORTH_IN - per_ft * (x1 - x0)) / 2
    low = CAPTION_IN - size_in[1] + (size_in[1] - CAPTION_IN - per_ft * (y1 - y0)) / 2

    def place(p: Point) -> Point:
        x, y = p[0] * c - p[1] * s, p[0] * s + p[1] * c
        return (left + (x - x0) * per_ft, low + (y - y0) * per_ft)

    return place


def _arrow(a: Point, b: Point) -> Polyline:
    """A full arrowhead beside a line's START, outside it, that points the way the tape runs."""
    deg = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    size = min(ARROW_IN, 0.6 * math.dist(a, b))
    base = along(along(a, deg - 90.0, 0.055), deg, 0.01)
    tip = along(base, deg, size)
    wings = (along(base, deg + 90.0, 0.04), along(base, deg - 90.0, 0.04))
    return Polyline(points=(tip, *wings), layer=Layer.DIMENSIONS, pen=Pen.HAIR, closed=True, fill=Fill.BLACK)


def _label(name: str, a: Point, b: Point, text_in: float, taken: list[shapely.Geometry]) -> list[Primitive]:
    """The name beside its line, farther off until nothing is in its way, then with a line that leads to it."""
    deg = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])) - 90.0
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    words = printable(name)
    half = text_width_in(words, text_in, bold=True) / 2
    tries: list[tuple[Text, float, Point]] = []
    for off in OFFSETS_IN:
        for share in (0.5, 0.65, 0.35, 0.8) if abs(off) < LEADER_FROM_IN else (0.5,):
            foot = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
            x, y = along(foot, deg, off)
            out = math.copysign(1.0, off)
            at = (x + out * c * half, y + (out * s - 1.0) * text_in / 2)
            text = Text(at=at, text=words, height_in=text_in, layer=Layer.MARKS, align=Align.CENTRE, bold=True)
            tries.append((text, off, foot))
    free = (t for t in tries if not shapely.intersects(taken, Polygon(t[0].box)).any())
    text, off, foot = next(free, tries[0])
    ends = (along(foot, deg, math.copysign(0.04, off)), along(foot, deg, off - math.copysign(0.03, off)))
    return [text, *([Line(start=ends[0], end=ends[1], layer=Layer.DIMENSIONS)] if abs(off) > LEADER_FROM_IN else [])]


def _north(deg: float, at: Point, text_in: float) -> list[Primitive]:
    tip, tail = along(at, deg, NORTH_IN), along(at, deg, -NORTH_IN)
    wings = (along(tip, deg + 160.0, 0.16), along(tip, deg - 160.0, 0.16))
    letter = along(at, deg, NORTH_IN + 0.1)
    return [
        Line(start=tail, end=tip, layer=Layer.TITLE, pen=Pen.MEDIUM),
        Polyline(points=(tip, *wings), layer=Layer.TITLE, pen=Pen.FINE, closed=True, fill=Fill.BLACK),
        Text(
            at=(letter[0], letter[1] - text_in / 2),
            text="N",
            height_in=text_in,
            layer=Layer.TITLE,
            align=Align.CENTRE,
            bold=True,
        ),
    ]
