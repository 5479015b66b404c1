"""How each kind of line looks, told apart in black and white: its pen and its dashes."""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from export.paper.sheet import Layer, Line, Pen, Point
from framing.members import MemberKind
from framing.roof.lines import LineKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """A pen, and the lengths of dash and gap in turn; none for a line without gaps. [in]."""

    pen: Pen
    dashes_in: tuple[float, ...] = ()
    layer: Layer = Layer.TRUSS


WALL = Style(pen=Pen.HEAVY, layer=Layer.WALL)
WALL_FACE = Style(pen=Pen.FINE, layer=Layer.WALL)
WALL_UNDER_ROOF = Style(pen=Pen.FINE, dashes_in=(0.02, 0.06), layer=Layer.WALL)
WING = Style(pen=Pen.FINE, dashes_in=(0.16, 0.07), layer=Layer.DETAIL)
SEAM = Style(pen=Pen.MEDIUM, dashes_in=(0.22, 0.05, 0.03, 0.05), layer=Layer.DETAIL)
SUPPORT = Style(pen=Pen.HEAVY, dashes_in=(0.07, 0.07), layer=Layer.BEAM)
PORCH_BEAM = Style(pen=Pen.HEAVY, dashes_in=(0.03, 0.06), layer=Layer.BEAM)
PORCH = Style(pen=Pen.FINE, dashes_in=(0.04, 0.04), layer=Layer.DETAIL)
LEADER = Style(pen=Pen.FINE, layer=Layer.DIMENSIONS)

MEMBERS = {
    MemberKind.COMMON: Style(pen=Pen.FINE),
    MemberKind.GABLE_END: Style(pen=Pen.MEDIUM),
    MemberKind.HIP_GIRDER: Style(pen=Pen.HEAVY, layer=Layer.GIRDER),
    MemberKind.STEP_DOWN: Style(pen=Pen.FINE, dashes_in=(0.2, 0.06)),
    MemberKind.END_JACK: Style(pen=Pen.FINE, dashes_in=(0.07, 0.05)),
    MemberKind.SIDE_JACK: Style(pen=Pen.FINE, dashes_in=(0.02, 0.04)),
    MemberKind.CORNER_JACK: Style(pen=Pen.MEDIUM, dashes_in=(0.14, 0.05, 0.03, 0.05)),
    MemberKind.GIRDER: Style(pen=Pen.HEAVY, dashes_in=(0.3, 0.06), layer=Layer.GIRDER),
    MemberKind.VALLEY: Style(pen=Pen.FINE, dashes_in=(0.1, 0.04, 0.02, 0.04)),
}
ROOF_LINES = {
    LineKind.RIDGE: Style(pen=Pen.HEAVY),
    LineKind.HIP: Style(pen=Pen.MEDIUM),
    LineKind.VALLEY: Style(pen=Pen.MEDIUM, dashes_in=(0.12, 0.06)),
    LineKind.EAVE: Style(pen=Pen.FINE),
    LineKind.RAKE: Style(pen=Pen.FINE, dashes_in=(0.2, 0.06, 0.03, 0.06)),
    LineKind.STEP: Style(pen=Pen.MEDIUM, dashes_in=(0.03, 0.05)),
}


def stroked(points: Sequence[Point], style: Style) -> tuple[Line, ...]:
    """Straight strokes through points, cut into dashes that run on round the corners."""
    out: list[Line] = []
    left, k = math.inf, 0
    if style.dashes_in:
        left = style.dashes_in[0]
    for a, b in itertools.pairwise(points):
        length, done = math.dist(a, b), 0.0
        while length - done > 1e-9:
            step = min(left, length - done)
            if k % 2 == 0:
                ends = (_between(a, b, done / length), _between(a, b, (done + step) / length))
                out.append(Line(start=ends[0], end=ends[1], layer=style.layer, pen=style.pen))
            done, left = done + step, left - step
            if left <= 1e-12:
                k = (k + 1) % len(style.dashes_in)
                left = style.dashes_in[k]
    return tuple(out)


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
