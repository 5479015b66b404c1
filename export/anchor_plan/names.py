"""The names of the members, written along them where there is room and nowhere else."""

from __future__ import annotations

import math
from dataclasses import replace

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from export.anchor_plan.rows import TextSizes, WallLine
from export.anchor_plan.symbols import RADIUS_IN
from export.sheet import Layer, Point, Text, View, along, printable
from framing.members import Member, MemberKind
from framing.run import Run

GAP_IN = 0.03
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
GIRDERS = frozenset({MemberKind.HIP_GIRDER, MemberKind.GIRDER})


def name_texts(
    run: Run, view: View, lines: tuple[WallLine, ...], sizes: TextSizes
) -> tuple[tuple[Text, ...], frozenset[str]]:
    """The names that find room beside their member, and the members that find none.

    A name touches no other name, no anchor, no wall and no line of a member.
    """
    room = _Room(run, view, lines, sizes)
    texts, homeless = [], set()
    for m in sorted(run.framing.members, key=lambda m: (m.kind not in GIRDERS, -m.span_ft)):
        text = room.place(m, view)
        if text is None:
            homeless.add(m.name)
        else:
            texts.append(text)
    return tuple(texts), frozenset(homeless)


def member_name(m: Member) -> str:
    """What the plan calls it: its name, with the plies where there are several."""
    return printable(f"{m.name}, {m.plies} ply" if m.plies > 1 else m.name)


class _Room:
    """What is taken already; grows by each text placed (used inside one call only)."""

    def __init__(self, run: Run, view: View, lines: tuple[WallLine, ...], sizes: TextSizes) -> None:
        self.sizes = sizes
        house = shapely.Polygon([view.paper(w.start_ft) for w in lines if w.outside])
        thickness = max((w.thickness_ft for w in lines), default=0.0) * view.scale.in_per_ft
        self.inside: BaseGeometry = house.buffer(-thickness - GAP_IN, join_style="mitre")
        shapely.prepare(self.inside)
        strokes: list[BaseGeometry] = [
            LineString([view.paper(m.start_ft), view.paper(m.end_ft)]) for m in run.framing.members
        ]
        strokes += [shapely.Point(view.paper(m.strap_ft)).buffer(RADIUS_IN + GAP_IN) for m in run.schedule.marks]
        strokes += [LineString([view.paper(s.start_ft), view.paper(s.end_ft)]) for s in run.plan.supports]
        self.taken = shapely.STRtree(strokes)
        self.cell_in = 12.0 * sizes.label_in
        self.texts: dict[tuple[int, int], list[Polygon]] = {}

    def place(self, m: Member, view: View) -> Text | None:
        a, b = view.paper(m.start_ft), view.paper(m.end_ft)
        angle = readable_deg(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])))
        bold = m.kind in GIRDERS
        words = member_name(m)
        for above in (True, False):
            for place in PLACES:
                middle = (a[0] + (b[0] - a[0]) * place, a[1] + (b[1] - a[1]) * place)
                text = _beside(words, middle, angle, self.sizes, above=above, bold=bold)
                if self._free(text):
                    self._take(text)
                    return text
        return None

    def _free(self, text: Text) -> bool:
        box = Polygon(text.box)
        if not self.inside.contains(box) or len(self.taken.query(box, predicate="intersects")):
            return False
        return not any(box.intersects(other) for cell in self._cells(box) for other in self.texts.get(cell, ()))

    def _take(self, text: Text) -> None:
        box = Polygon(text.box).buffer(GAP_IN, join_style="mitre")
        for cell in self._cells(box):
            self.texts.setdefault(cell, []).append(box)

    def _cells(self, box: Polygon) -> list[tuple[int, int]]:
        x0, y0, x1, y1 = (math.floor(v / self.cell_in) for v in box.bounds)
        return [(x, y) for x in range(x0, x1 + 1) for y in range(y0, y1 + 1)]


def _beside(words: str, middle: Point, angle_deg: float, sizes: TextSizes, *, above: bool, bold: bool) -> Text:
    """A text centred beside a line, its descenders or its capitals a gap away from it."""
    text = Text(
        at=middle,
        text=words,
        height_in=sizes.label_in,
        layer=Layer.TRUSS_NAMES,
        angle_deg=angle_deg,
        bold=bold,
        width_ratio=sizes.width_ratio,
    )
    rise = 0.29 * sizes.label_in + GAP_IN if above else -sizes.label_in - GAP_IN
    base = along(along(middle, angle_deg + 90.0, rise), angle_deg, -text.width_in / 2)
    return replace(text, at=base)


def readable_deg(angle_deg: float) -> float:
    """The direction of a text along a line so that it is read from below or from the right."""
    angle = math.remainder(angle_deg, 360.0)
    if angle <= -89.0:
        angle += 180.0
    elif angle > 91.0:
        angle -= 180.0
    return angle
