"""Straps as set -> the plan by state: a sign for each state, every strap where it stands, faults numbered."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from export.asbuilt.words import Findings
from export.paper.block import Block, placed
from export.paper.sheet import Align, Circle, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Shape, Sign, Text
from export.paper.symbols import sign_strokes
from framing.asbuilt.judge import AsBuilt, State, Ways, wall_ways
from framing.walls.outline import Wall

SIGNS = {
    State.FILLER: Shape.OPEN_CIRCLE,
    State.SHIFT: Shape.OPEN_TRIANGLE,
    State.ASK: Shape.OPEN_DIAMOND,
    State.WRONG_SIDE: Shape.FULL_SQUARE,
    State.WRONG_ANCHOR: Shape.FULL_DIAMOND,
    State.OUT_OF_REACH: Shape.CROSSED_SQUARE,
    State.MISSING: Shape.UNRESOLVED,
}
GOOD_IN = 0.03
AROUND_IN, LEGEND_IN = 0.8, 0.5
WORDS_IN, NAME_IN = 0.08, 0.13


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """Plan feet to the block's inches and back."""

    per_ft: float
    place: Callable[[Point], Point]
    plan_ft: Callable[[Point], Point]


def room_of(found: Findings, size_in: Point) -> Room:
    """The house as large as it fits into a block of that size."""
    corners = [w.start_ft for w in found.run.outline.walls]
    x0, x1 = min(x for x, _ in corners), max(x for x, _ in corners)
    y0, y1 = min(y for _, y in corners), max(y for _, y in corners)
    wide, high = size_in[0] - 2 * AROUND_IN, size_in[1] - 2 * AROUND_IN - LEGEND_IN
    per_ft = min(wide / (x1 - x0), high / (y1 - y0))
    left = (size_in[0] - per_ft * (x1 - x0)) / 2
    low = -size_in[1] + LEGEND_IN + AROUND_IN + (high - per_ft * (y1 - y0)) / 2
    return Room(
        per_ft=per_ft,
        place=lambda p: (left + per_ft * (p[0] - x0), low + per_ft * (p[1] - y0)),
        plan_ft=lambda p: ((p[0] - left) / per_ft + x0, (p[1] - low) / per_ft + y0),
    )


def plan_block(found: Findings, size_in: Point) -> Block:
    """The plan in a block of that size, its legend below."""
    room, ways = room_of(found, size_in), wall_ways(found.run)
    ring = tuple(room.place(w.start_ft) for w in found.run.outline.walls)
    strokes: list[Primitive] = [Polyline(points=ring, layer=Layer.WALL, pen=Pen.HEAVY, closed=True)]
    taken: list[shapely.Geometry] = [shapely.LinearRing(ring).buffer(0.02)]
    for support in found.run.plan.supports:
        ends = (room.place(support.start_ft), room.place(support.end_ft))
        strokes.append(Line(start=ends[0], end=ends[1], layer=Layer.BEAM, dashed=True))
        taken.append(shapely.LineString(ends).buffer(0.02))
    for s in found.straps:
        at_ft = stands_ft(s, ways[s.mark.bearing.wall])
        strokes += state_sign(s.state, room.place(at_ft))
        taken.append(shapely.Point(room.place(at_ft)).buffer(0.05 if s.as_planned else 0.09))
    for s in {s.mark.mark: s for s in found.straps if not s.as_planned}.values():
        strokes.append(_number(s, ways[s.mark.bearing.wall], room, taken))
    for wall in found.run.outline.walls:
        strokes.append(_wall_name(wall, room, taken))
    strokes += placed(legend(size_in[0]), (0.0, LEGEND_IN - size_in[1]))
    return Block(strokes=tuple(strokes), width_in=size_in[0], height_in=size_in[1])


def stands_ft(s: AsBuilt, way: Ways) -> Point:
    """Where a strap stands in plan; a missing one where it should."""
    along, inward = (s.along_in or 0.0) / 12.0, (s.off_face_in or 0.0) / 12.0
    x, y = s.strap.point_ft
    return (x + along * way.tape[0] + inward * way.inward[0], y + along * way.tape[1] + inward * way.inward[1])


def state_sign(state: State, at: Point) -> tuple[Primitive, ...]:
    """The sign of a state; a small full dot where all is as planned."""
    if state in SIGNS:
        return sign_strokes(Sign(shape=SIGNS[state]), at, 0.0)
    return (Circle(centre=at, radius_in=GOOD_IN, layer=Layer.ANCHOR, fill=Fill.BLACK),)


def _wall_name(wall: Wall, room: Room, taken: list[shapely.Geometry]) -> Text:
    """The wall's name beside its middle, else nearer to an end or farther off, where nothing else is."""
    (x0, y0), (x1, y1) = room.place(wall.start_ft), room.place(wall.end_ft)
    places = [(out, share) for out in (0.62, 0.45, 0.8, -0.45, 1.0, -0.7) for share in (0.5, 0.35, 0.65, 0.2, 0.8)]
    tries = [
        Text(
            at=(
                x0 + share * (x1 - x0) + out * wall.outward[0],
                y0 + share * (y1 - y0) + out * wall.outward[1] - NAME_IN / 2,
            ),
            text=wall.name,
            height_in=NAME_IN,
            layer=Layer.MARKS,
            align=Align.CENTRE,
            bold=True,
        )
        for out, share in places
    ]
    return _free(tries, taken)


def _number(s: AsBuilt, way: Ways, room: Room, taken: list[shapely.Geometry]) -> Text:
    """The mark's number beside its strap, outside the wall, as near as there is room."""
    x, y = room.place(stands_ft(s, way))
    words = s.mark.mark.partition("-")[2] or s.mark.mark
    tries = []
    for out, over in itertools.product((0.2, 0.4, -0.2, 0.6, -0.4, -0.6), (0.0, 0.14, -0.14)):
        across = (over * way.tape[0] - out * way.inward[0], over * way.tape[1] - out * way.inward[1])
        at = (x + across[0], y + across[1] - WORDS_IN / 2)
        tries.append(Text(at=at, text=words, height_in=WORDS_IN, layer=Layer.MARKS, align=Align.CENTRE))
    return _free(tries, taken)


def _free(tries: list[Text], taken: list[shapely.Geometry]) -> Text:
    """The first text that covers nothing, which is then taken too."""
    text = next((t for t in tries if not any(Polygon(t.box).intersects(other) for other in taken)), tries[0])
    taken.append(Polygon(text.box).buffer(0.03))
    return text


def legend(width_in: float) -> Block:
    """Each state's sign and word in a row."""
    strokes: list[Primitive] = []
    step = width_in / (len(SIGNS) + 1)
    for k, state in enumerate((State.GOOD, *SIGNS)):
        at = (0.15 + k * step, -0.2)
        strokes += state_sign(state, at)
        words = "as planned" if state is State.GOOD else state.value
        strokes.append(
            Text(at=(at[0] + 0.15, at[1] - WORDS_IN * 0.55), text=words, height_in=WORDS_IN * 1.1, layer=Layer.LEGEND)
        )
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=0.4)
