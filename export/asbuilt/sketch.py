"""One fault -> a small sketch seen from above: the wall's face below, the truss, where the strap should be and is."""

from __future__ import annotations

from collections.abc import Callable

import shapely

from export.paper.block import Block
from export.paper.sheet import Align, Circle, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Text
from framing.asbuilt.judge import PLY_IN, AsBuilt, State, Ways, away_from_wood
from framing.members import Member

WIDTH_IN, HEIGHT_IN = 1.9, 1.15
WORDS_IN = 0.075
DOT_IN = 0.05
LEAST_HALF_IN = 8.0


def sketch(s: AsBuilt, ways: Ways, member: Member, thickness_ft: float) -> Block:
    """The block; START is to the left, the house above."""
    off_in = s.along_in or 0.0
    half_in = max(LEAST_HALF_IN, 1.35 * abs(off_in))
    per_in = WIDTH_IN / 2 / half_in
    depth_in = 12.0 * (s.strap.in_from_face_ft or 0.0)
    base = -HEIGHT_IN + 0.22

    def place(p_ft: Point) -> Point:
        dx, dy = 12.0 * (p_ft[0] - s.strap.point_ft[0]), 12.0 * (p_ft[1] - s.strap.point_ft[1])
        along = dx * ways.tape[0] + dy * ways.tape[1]
        inward = dx * ways.inward[0] + dy * ways.inward[1] + depth_in
        return (WIDTH_IN / 2 + per_in * along, base + per_in * inward)

    window = shapely.box(0.0, base - 0.02, WIDTH_IN, -0.02)
    strokes: list[Primitive] = [*_wall(s, thickness_ft, per_in, base), *_wood(s, member, place, window)]
    planned = place(s.strap.point_ft)
    along, inward = _to_other_face(s, ways, member)
    stands = (planned[0] + per_in * (off_in + along), planned[1] + per_in * ((s.off_face_in or 0.0) + inward))
    strokes += _straps(s, planned, stands)
    strokes += [
        _text("START", (0.0, -HEIGHT_IN + 0.04), Align.LEFT),
        _text("far end", (WIDTH_IN, -HEIGHT_IN + 0.04), Align.RIGHT),
    ]
    strokes.append(Line(start=(0.42, -HEIGHT_IN + 0.075), end=(WIDTH_IN - 0.48, -HEIGHT_IN + 0.075), layer=Layer.NOTES))
    return Block(strokes=tuple(strokes), width_in=WIDTH_IN, height_in=HEIGHT_IN + 0.05)


def _to_other_face(s: AsBuilt, ways: Ways, member: Member) -> Point:
    """Along and inward, from the planned face to the other one, where the list says that it stands on that. [in]."""
    if s.entry is None or s.entry.side is None or s.entry.side is s.strap.side:
        return (0.0, 0.0)
    along, inward = away_from_wood(ways, member, s.strap)
    wood_in = PLY_IN * s.mark.bearing.plies
    return (-wood_in * along, -wood_in * inward)


def _wall(s: AsBuilt, thickness_ft: float, per_in: float, base: float) -> list[Primitive]:
    """The outside face, heavy, and the inside one; a support as one dashed line."""
    if s.strap.in_from_face_ft is None:
        return [Line(start=(0.0, base), end=(WIDTH_IN, base), layer=Layer.BEAM, dashed=True)]
    top = base + per_in * 12.0 * thickness_ft
    lines: list[Primitive] = [Line(start=(0.0, base), end=(WIDTH_IN, base), layer=Layer.WALL, pen=Pen.HEAVY)]
    return [*lines, Line(start=(0.0, top), end=(WIDTH_IN, top), layer=Layer.WALL)]


def _wood(s: AsBuilt, member: Member, place: Callable[[Point], Point], window: shapely.Polygon) -> list[Primitive]:
    """What of the truss lies in the window."""
    ring = member.ground_ft or s.mark.bearing.wood_ft
    if not ring:
        return []
    seen = shapely.Polygon([place(p) for p in ring]).buffer(0).intersection(window)
    return [
        Polyline(points=tuple(part.exterior.coords[:-1]), layer=Layer.DETAIL, pen=Pen.FINE, closed=True)
        for part in shapely.get_parts(seen)
        if isinstance(part, shapely.Polygon) and not part.is_empty
    ]


def _straps(s: AsBuilt, planned: Point, stands: Point) -> list[Primitive]:
    """A ring where it should be, a full dot where it is and a line between; crossed where there is none."""
    ring = Circle(centre=planned, radius_in=DOT_IN * 1.3, layer=Layer.ANCHOR, pen=Pen.MEDIUM, fill=Fill.WHITE)
    if s.state is State.MISSING:
        (x, y), d = planned, DOT_IN * 1.9
        cross = [
            Line(start=(x - d, y - k * d), end=(x + d, y + k * d), layer=Layer.ANCHOR, pen=Pen.HEAVY) for k in (-1, 1)
        ]
        return [ring, *cross]
    dot = Circle(centre=stands, radius_in=DOT_IN, layer=Layer.ANCHOR, fill=Fill.BLACK)
    line = Line(start=planned, end=stands, layer=Layer.ANCHOR, pen=Pen.MEDIUM)
    return [ring, line, dot]


def _text(words: str, at: Point, align: Align) -> Text:
    return Text(at=at, text=words, height_in=WORDS_IN, layer=Layer.NOTES, align=align)
