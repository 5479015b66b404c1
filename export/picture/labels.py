"""Where names stand in a view: clear of one another and of the lines, with a leader where they stand off."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from export.anchor_plan.names import readable_deg
from export.paper.lettering import printable
from export.paper.sheet import Layer, Line, Point, Primitive, Text, along
from export.picture.pens import LEADER, stroked

LABEL_IN = 0.11
BESIDE_IN = 0.06
STEP_IN = 0.16
NEAR, FAR = range(1), range(1, 8)
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8)
CLEAR_IN = 0.02


class Room:
    """What is taken in one view, and the frame that its names may not leave.

    No name touches a firm line; a soft one may be cut for a name that has no other place.
    """

    def __init__(self, frame: Polygon, firm: Iterable[Line], soft: Iterable[Line]) -> None:
        """Begin with the lines."""
        self.frame = frame
        self.firm, self.soft = (
            shapely.STRtree([LineString([s.start, s.end]) for s in lines]) for lines in (firm, soft)
        )
        self.taken: list[BaseGeometry] = []

    def named(self, tries: Sequence[Text]) -> tuple[Text, ...]:
        """The first text that touches nothing, else the first that touches only soft lines; none if there is none."""
        for cut in (False, True):
            for text in self._free(tries, cut=cut):
                self.taken.append(_ground(text))
                return (text,)
        return ()

    def led(self, tries: Sequence[Text], foot: Point, *, over_firm: bool) -> tuple[Text | Line, ...]:
        """The first text as in `named` to which a leader finds its way from the foot, with the leader.

        The leader crosses no name; a firm line only where it is said that it may.
        """
        for text in (*self._free(tries, cut=False), *self._free(tries, cut=True)):
            tip = shapely.shortest_line(_ground(text), shapely.Point(foot)).coords[0]
            line = LineString([foot, tip])
            if any(line.intersects(t) for t in self.taken):
                continue
            if not over_firm and line.length > CLEAR_IN:
                beyond = LineString([line.interpolate(CLEAR_IN), tip])
                if len(self.firm.query(beyond, predicate="intersects")):
                    continue
            self.taken += [_ground(text), line]
            return (text, *stroked((foot, tip), LEADER))
        return ()

    def _free(self, tries: Sequence[Text], *, cut: bool) -> Iterator[Text]:
        boxes = shapely.buffer(shapely.polygons([t.box for t in tries]), CLEAR_IN, join_style="mitre")
        free = shapely.contains_properly(self.frame, boxes)
        for tree in (self.firm,) if cut else (self.firm, self.soft):
            free[tree.query(boxes, predicate="intersects")[0]] = False
        for text, box, open_ in zip(tries, boxes, free, strict=True):
            if open_ and not shapely.intersects(box, self.taken).any():
                yield text


def beside(
    words: str, a: Point, b: Point, sides: Sequence[int], steps: Iterable[int], *, bold: bool = False
) -> list[Text]:
    """A text along the line from a to b, by steps farther off; a side is 1 to its left, -1 to its right."""
    angle = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    text = Text(
        at=a, text=printable(words), height_in=LABEL_IN, layer=Layer.MARKS, angle_deg=readable_deg(angle), bold=bold
    )
    tries = []
    for k in steps:
        for side in sides:
            for share in PLACES:
                foot = (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)
                middle = along(foot, angle + 90.0 * side, BESIDE_IN + LABEL_IN / 2 + STEP_IN * k)
                tries.append(centred(text, middle))
    return tries


def around(words: str, foot: Point, *, bold: bool = False) -> list[Text]:
    """A level text in a ring about a point, ever wider."""
    text = Text(at=foot, text=printable(words), height_in=LABEL_IN, layer=Layer.MARKS, bold=bold)
    rings = [(r + text.width_in / 2, angle) for r in (0.15, 0.35, 0.55, 0.8, 1.1) for angle in range(0, 360, 15)]
    return [centred(text, along(foot, angle, r)) for r, angle in rings]


def _ground(text: Text) -> Polygon:
    """What a text covers, and a little around it."""
    return Polygon(text.box).buffer(CLEAR_IN, join_style="mitre")


def centred(text: Text, middle: Point) -> Text:
    """The text with its middle there."""
    base = along(middle, text.angle_deg + 90.0, -text.height_in / 2)
    return replace(text, at=along(base, text.angle_deg, -text.width_in / 2))


def within(words: str, ring: Polygon, others: Sequence[Polygon]) -> list[Text]:
    """A level text at places inside a shape, first those that lie in few other shapes and near its middle."""
    x0, y0, x1, y1 = ring.bounds
    text = Text(at=(x0, y0), text=printable(words), height_in=LABEL_IN, layer=Layer.MARKS, bold=True)
    shares = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88)
    spots = [(x0 + (x1 - x0) * u, y0 + (y1 - y0) * v) for u in shares for v in shares]
    here = shapely.points(spots)
    n_in = sum(shapely.contains(other, here).astype(int) for other in others) if others else [0] * len(spots)
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    ranked = sorted(range(len(spots)), key=lambda i: (int(n_in[i]), round(math.dist(spots[i], middle), 6), i))
    return [centred(text, spots[i]) for i in ranked]


def cleared(lines: Sequence[Line], over: Iterable[Primitive]) -> list[Line]:
    """The lines with what runs under a text cut out."""
    boxes = [_ground(t) for t in over if isinstance(t, Text)]
    tree = shapely.STRtree(boxes)
    out: list[Line] = []
    for line in lines:
        stroke: BaseGeometry = LineString([line.start, line.end])
        met = tree.query(stroke, predicate="intersects")
        if not len(met):
            out.append(line)
            continue
        for i in met:
            stroke = stroke.difference(boxes[i])
        for part in shapely.get_parts(stroke):
            if len(part.coords) == 2:
                out.append(replace(line, start=part.coords[0], end=part.coords[1]))
    return out
