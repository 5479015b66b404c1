"""Signs that tell states apart by shape alone, for a legend, a picture and a page: outlines in units of their reach."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

Outline = tuple[tuple[float, float], ...]


class Shape(StrEnum):
    """What a sign looks like; an open one has a white core."""

    DOT = "dot"
    OPEN_DOT = "open dot"
    OPEN_CIRCLE = "open circle"
    OPEN_TRIANGLE = "open triangle"
    OPEN_DIAMOND = "open diamond"
    FULL_TRIANGLE = "full triangle"
    FULL_SQUARE = "full square"
    FULL_DIAMOND = "full diamond"
    CROSSED_SQUARE = "crossed square"
    CROSS = "cross"
    PLUS = "plus"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """A coloured ring with a dark edge, x to the right and y up, a white `core` in it and dark `strokes` on it."""

    body: Outline
    core: Outline = ()
    strokes: tuple[Outline, ...] = ()


def _round(reach: float) -> Outline:
    turns = [2 * math.pi * k / 20 for k in range(20)]
    return tuple((reach * math.cos(t), reach * math.sin(t)) for t in turns)


def _scaled(ring: Outline, by: float) -> Outline:
    return tuple((x * by, y * by) for x, y in ring)


def _turned(ring: Outline) -> Outline:
    c = math.sqrt(0.5)
    return tuple((c * (x - y), c * (x + y)) for x, y in ring)


TRIANGLE: Outline = ((-1.0, -0.8), (1.0, -0.8), (0.0, 1.0))
SQUARE: Outline = ((-0.85, -0.85), (0.85, -0.85), (0.85, 0.85), (-0.85, 0.85))
DIAMOND: Outline = ((0.0, -1.15), (1.15, 0.0), (0.0, 1.15), (-1.15, 0.0))
_IN, _OUT = 0.32, 1.1
BARS: Outline = (
    (-_IN, -_OUT),
    (_IN, -_OUT),
    (_IN, -_IN),
    (_OUT, -_IN),
    (_OUT, _IN),
    (_IN, _IN),
    (_IN, _OUT),
    (-_IN, _OUT),
    (-_IN, _IN),
    (-_OUT, _IN),
    (-_OUT, -_IN),
    (-_IN, -_IN),
)
ACROSS: tuple[Outline, ...] = (((-0.85, -0.85), (0.85, 0.85)), ((-0.85, 0.85), (0.85, -0.85)))
SIGNS: dict[Shape, Sign] = {
    Shape.DOT: Sign(body=_round(0.5)),
    Shape.OPEN_DOT: Sign(body=_round(0.5), core=_round(0.22)),
    Shape.OPEN_CIRCLE: Sign(body=_round(1.0), core=_round(0.5)),
    Shape.OPEN_TRIANGLE: Sign(body=TRIANGLE, core=tuple((x, y - 0.15) for x, y in _scaled(TRIANGLE, 0.42))),
    Shape.OPEN_DIAMOND: Sign(body=DIAMOND, core=_scaled(DIAMOND, 0.45)),
    Shape.FULL_TRIANGLE: Sign(body=TRIANGLE),
    Shape.FULL_SQUARE: Sign(body=SQUARE),
    Shape.FULL_DIAMOND: Sign(body=DIAMOND),
    Shape.CROSSED_SQUARE: Sign(body=SQUARE, strokes=ACROSS),
    Shape.CROSS: Sign(body=_turned(BARS)),
    Shape.PLUS: Sign(body=BARS),
}
