"""The sign of each tick: how the truss stands to the wall there, and on which of its faces the strap lies.

Seen from above with the outside face below, as somebody sees it who stands outside and faces the wall.
"""

from __future__ import annotations

from export.paper.sheet import Fill, Layer, Pen, Point, Primitive
from export.wall_marks.pen import outline, stroke
from export.wall_marks.tape_marks import FACE_WORDS, Tick
from framing.plan import Side

SIGN_IN = 0.23
CROSS_IN = 0.065


def side_words(tick: Tick) -> str:
    """Which face of the truss the strap lies on."""
    return FACE_WORDS[tick.side]


def crossing_sign(tick: Tick, x: float, top_in: float) -> list[Primitive]:
    """The tick, an X where the truss stands, an arrow towards the side on which the strap lies; of a truss along the
    wall the tick alone.
    """
    y = top_in + 0.015 + SIGN_IN / 2
    strap = -1 if tick.side is Side.START else 1
    line = stroke((x, top_in + 0.03), (x, top_in + SIGN_IN), Layer.DIMENSIONS, Pen.HEAVY)
    if tick.side in (Side.INSIDE, Side.OUTSIDE):
        return [line]
    return [
        line,
        *_cross((x - strap * 0.15, y)),
        *_arrow((x + strap * 0.05, y), (x + strap * 0.33, y)),
    ]


def _cross(at: Point) -> list[Primitive]:
    (x, y), r = at, CROSS_IN
    return [stroke((x - r, y - s * r), (x + r, y + s * r), Layer.TITLE, Pen.MEDIUM) for s in (-1, 1)]


def _arrow(tail: Point, tip: Point) -> list[Primitive]:
    """A level arrow."""
    way = 1 if tip[0] > tail[0] else -1
    back = (tip[0] - way * 0.13, tip[1])
    head = (tip, (back[0], back[1] - 0.06), (back[0], back[1] + 0.06))
    return [
        stroke(tail, back, Layer.ANCHOR, Pen.MEDIUM),
        outline(head, Layer.ANCHOR, fill=Fill.BLACK),
    ]
