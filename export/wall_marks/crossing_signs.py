"""The sign of each tick: how the truss stands to the wall there, and on which of its faces the strap lies.

Seen from above with the outside face below, as somebody sees it who stands outside and faces the wall.
"""

from __future__ import annotations

import math

from export.paper.sheet import Fill, Layer, Pen, Point, Primitive
from export.wall_marks.pen import box, outline, stroke
from export.wall_marks.tape_marks import FACE_WORDS, LEAST_SKEW_DEG, Tick
from framing.plan import Side

SIGN_IN = 0.22
CROSS_IN = 0.065
BLOCK_IN = 0.075


def side_words(tick: Tick) -> str:
    """Which face of the truss the strap lies on."""
    return FACE_WORDS[tick.side]


def crossing_sign(tick: Tick, x: float, top_in: float) -> list[Primitive]:
    """The tick, an X where the truss stands, an arrow towards the side on which the strap lies.

    A truss off square is drawn under its X as it leans, one along the wall as it runs; a strap in the block behind an
    inside corner has that block around its tick.
    """
    line = stroke((x, top_in + 0.03), (x, top_in + SIGN_IN), Layer.DIMENSIONS, Pen.HEAVY)
    if tick.side in (Side.INSIDE, Side.OUTSIDE):
        return [line, *_along(x, top_in, inside=tick.side is Side.INSIDE)]
    y = top_in + 0.015 + SIGN_IN / 2
    strap = -1 if tick.side is Side.START else 1
    at = (x - strap * 0.15, y)
    block = box(x - BLOCK_IN, top_in + 0.02, x + BLOCK_IN, top_in + SIGN_IN + 0.01, Layer.DETAIL)
    return [
        line,
        *([block] if tick.in_corner_block else []),
        *(_leaning(at, tick.lean_deg) if abs(tick.lean_deg) >= LEAST_SKEW_DEG else []),
        *_cross(at),
        *_arrow((x + strap * 0.05, y), (x + strap * 0.33, y)),
    ]


def _along(x: float, top_in: float, *, inside: bool) -> list[Primitive]:
    """A truss that runs along the wall, its X left of the tick, an arrow from it to the face that has the strap."""
    y = top_in + (0.175 if inside else 0.085)
    way = -1 if inside else 1
    edges = [stroke((x - 0.36, y + d), (x + 0.36, y + d), Layer.DETAIL) for d in (-0.025, 0.025)]
    tip = (x + 0.2, top_in + (0.015 if inside else SIGN_IN + 0.015))
    back = tip[1] - way * 0.085
    head = (tip, (tip[0] - 0.06, back), (tip[0] + 0.06, back))
    return [
        *edges,
        *_cross((x - 0.2, y)),
        stroke((tip[0], y + way * 0.025), (tip[0], back), Layer.ANCHOR, Pen.MEDIUM),
        outline(head, Layer.ANCHOR, fill=Fill.BLACK),
    ]


def _leaning(at: Point, lean_deg: float) -> list[Primitive]:
    """The two edges of a truss that runs inward, up on the sheet, off square."""
    s, c = math.sin(math.radians(lean_deg)), math.cos(math.radians(lean_deg))
    half = min(0.1 / max(c, 1e-9), 0.14)
    ends = [
        ((at[0] + n * c - half * s, at[1] + n * s + half * c), (at[0] + n * c + half * s, at[1] + n * s - half * c))
        for n in (-0.03, 0.03)
    ]
    return [stroke(a, b, Layer.DETAIL) for a, b in ends]


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
