"""Where zones change, drawn once for each kind of edge, as a roofer measures it from eave, ridge, hip and rake."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import shapely

from export.paper.lettering import text_width_in
from export.paper.sheet import Align, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Text, along
from framing.deck.zones import zone_measures
from framing.roof.lines import LineKind, RoofLine
from framing.run import Run
from framing.units import feet_inches

PLACES = {
    "eave": (LineKind.EAVE, 0.3),
    "ridge": (LineKind.RIDGE, 0.4),
    "hip": (LineKind.HIP, 0.55),
    "rake": (LineKind.RAKE, 0.3),
}
TICK_IN, PROBE_IN = 0.06, 0.05


def measure_strokes(run: Run, place: Callable[[Point], Point], text_in: float) -> Iterator[Primitive]:
    """A dimension for each measure on the longest edge of its kind; what is measured on the slope is drawn in plan."""
    roof = shapely.union_all(
        [shapely.Polygon([place(run.outline.frame.to_plan(p)) for p in q.exterior.coords]) for q in run.patches.polygon]
    )
    for m in zone_measures(run.plan, run.roof, run.loads.widths):
        kind, share = next((v for word, v in PLACES.items() if word in m.words), (LineKind.EAVE, 0.3))
        lines = [line for line in run.roof.lines if line.kind is kind]
        if not lines:
            continue
        start = _on(max(lines, key=lambda line: line.length_ft), share, place)
        level = "level" in m.words
        plan_ft = m.length_ft if level else m.length_ft / math.hypot(1.0, run.roof.rise_per_run)
        per_ft = math.dist(place((0.0, 0.0)), place((1.0, 0.0)))
        for angle_deg in _ways(
            run, max(lines, key=lambda line: line.length_ft), place, level=level and kind is LineKind.HIP
        ):
            end = along(start, angle_deg, plan_ft * per_ft)
            if roof.buffer(0.01).covers(shapely.LineString([start, end])):
                yield from _dimension(start, end, angle_deg, feet_inches(m.length_ft), text_in)
                break


def _on(line: RoofLine, share: float, place: Callable[[Point], Point]) -> Point:
    (ax, ay), (bx, by) = place(line.start_ft[:2]), place(line.end_ft[:2])
    return (ax + share * (bx - ax), ay + share * (by - ay))


def _ways(run: Run, line: RoofLine, place: Callable[[Point], Point], *, level: bool) -> list[float]:
    """The directions to try: square to an edge, either way; from a hip along the courses."""
    (ax, ay), (bx, by) = place(line.start_ft[:2]), place(line.end_ft[:2])
    deg = math.degrees(math.atan2(by - ay, bx - ax))
    if not level:
        return [deg + 90.0, deg - 90.0]
    return [deg + turn for turn in (45.0, -45.0, 135.0, -135.0)]


def _dimension(a: Point, b: Point, angle_deg: float, words: str, text_in: float) -> Iterator[Primitive]:
    """A line between two ticks, its figure on white beside its middle."""
    yield Line(start=a, end=b, layer=Layer.DIMENSIONS, pen=Pen.MEDIUM)
    for p in (a, b):
        yield Line(
            start=along(p, angle_deg + 90.0, TICK_IN),
            end=along(p, angle_deg - 90.0, TICK_IN),
            layer=Layer.DIMENSIONS,
            pen=Pen.MEDIUM,
        )
    half = text_width_in(words, text_in, bold=True) / 2
    steep = abs(math.sin(math.radians(angle_deg))) > 0.5
    x = (a[0] + b[0]) / 2 + (half + 0.12 if steep else 0.0)
    y = (a[1] + b[1]) / 2 + (0.0 if steep else 0.75 * text_in + 0.06)
    ring = (
        (x - half - 0.04, y - 0.8 * text_in),
        (x + half + 0.04, y - 0.8 * text_in),
        (x + half + 0.04, y + 0.8 * text_in),
        (x - half - 0.04, y + 0.8 * text_in),
    )
    yield Polyline(points=ring, layer=Layer.DIMENSIONS, pen=Pen.HAIR, closed=True, fill=Fill.WHITE)
    yield Text(
        at=(x, y - text_in / 2), text=words, height_in=text_in, layer=Layer.DIMENSIONS, align=Align.CENTRE, bold=True
    )
