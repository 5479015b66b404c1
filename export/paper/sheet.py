"""A sheet recorded once, as strokes and text in paper inches, to be replayed to DXF and to PDF alike.

The origin is the sheet's lower left corner, y up. What a text covers is measured as `lettering` says, the same on
every machine.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from export.paper.lettering import CAP_HEIGHT_EM, DESCENT_EM, text_width_in

Point = tuple[float, float]

SMALLEST_TEXT_IN = 3.0 / 32.0
DIMENSION_OFFSET_IN = 0.26
TICK_IN = 0.07


class Layer(StrEnum):
    """Drawing layers: discipline, major and minor group. Source: US National CAD Standard (open scheme)."""

    WALL = "S-WALL"
    BEAM = "S-BEAM"
    TRUSS = "S-TRUS"
    GIRDER = "S-TRUS-GIRD"
    TRUSS_NAMES = "S-TRUS-IDEN"
    ANCHOR = "S-ANCH"
    MARKS = "S-ANCH-IDEN"
    MODEL_MARKS = "S-ANCH-IDEN-MODL"
    DIMENSIONS = "S-ANNO-DIMS"
    DETAIL = "S-DETL"
    TITLE = "S-ANNO-TTLB"
    LEGEND = "S-ANNO-LEGN"
    SCHEDULE = "S-ANNO-SCHD"
    NOTES = "S-ANNO-NOTE"
    VIEWPORT = "S-ANNO-NPLT"
    DECK = "A-ROOF-DECK"


PLAN_LAYERS = frozenset({Layer.WALL, Layer.BEAM, Layer.TRUSS, Layer.GIRDER})


class Pen(StrEnum):
    """How heavy a line is."""

    HAIR = "hair"
    FINE = "fine"
    MEDIUM = "medium"
    HEAVY = "heavy"


PEN_WIDTH_IN = {Pen.HAIR: 0.004, Pen.FINE: 0.007, Pen.MEDIUM: 0.014, Pen.HEAVY: 0.028}


class Fill(StrEnum):
    """What a closed shape is filled with."""

    NONE = "none"
    BLACK = "black"
    WHITE = "white"
    GREY = "grey"  # in pictures only


class Align(StrEnum):
    """Which end of the baseline a text is placed by."""

    LEFT = "left"
    CENTRE = "centre"
    RIGHT = "right"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight stroke."""

    start: Point
    end: Point
    layer: Layer
    pen: Pen = Pen.FINE
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Polyline:
    """Strokes joined end to end."""

    points: tuple[Point, ...]
    layer: Layer
    pen: Pen = Pen.FINE
    closed: bool = False
    fill: Fill = Fill.NONE
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A full circle."""

    centre: Point
    radius_in: float
    layer: Layer
    pen: Pen = Pen.FINE
    fill: Fill = Fill.NONE


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text; `height_in` is the height of its capitals, `at` a point of its baseline.

    `width_ratio` under 1 sets the letters narrower at the same height; `white` letters stand on black.
    """

    at: Point
    text: str
    height_in: float
    layer: Layer
    angle_deg: float = 0.0
    align: Align = Align.LEFT
    bold: bool = False
    width_ratio: float = 1.0
    white: bool = False

    @property
    def width_in(self) -> float:
        """Length of the baseline. [in]."""
        return self.width_ratio * text_width_in(self.text, self.height_in, bold=self.bold)

    @property
    def start(self) -> Point:
        """The left end of the baseline."""
        back = {Align.LEFT: 0.0, Align.CENTRE: 0.5, Align.RIGHT: 1.0}[self.align] * self.width_in
        return along(self.at, self.angle_deg, -back)

    @property
    def box(self) -> tuple[Point, Point, Point, Point]:
        """The corners of what it covers, descenders included, counter-clockwise from the lower left."""
        below = along(self.start, self.angle_deg + 90.0, -DESCENT_EM * self.height_in / CAP_HEIGHT_EM)
        right = along(below, self.angle_deg, self.width_in)
        tall = self.height_in * (1.0 + DESCENT_EM / CAP_HEIGHT_EM)
        return (
            below,
            right,
            along(right, self.angle_deg + 90.0, tall),
            along(below, self.angle_deg + 90.0, tall),
        )


class Shape(StrEnum):
    """Shapes that stay apart on paper without colour and at the size of a strap."""

    OPEN_CIRCLE = "open circle"
    FULL_SQUARE = "full square"
    OPEN_TRIANGLE = "open triangle"
    FULL_DIAMOND = "full diamond"
    CROSSED_SQUARE = "crossed square"
    FULL_CIRCLE = "full circle"
    OPEN_DIAMOND = "open diamond"
    FULL_TRIANGLE = "full triangle"
    CROSSED_CIRCLE = "crossed circle"
    OPEN_SQUARE = "open square"
    BARRED_DIAMOND = "barred diamond"
    NUMBERED = "ring with a number"
    UNRESOLVED = "ringed cross"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """What an anchor type looks like: a shape of its own, or past those a ring with its `number` in it (else 0)."""

    shape: Shape
    number: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Symbol:
    """An anchor at its place on the plan: the strap of that mark, the `strap`-th where it has two."""

    at: Point
    angle_deg: float
    sign: Sign
    mark: str
    strap: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class RunningDimension:
    """A dimension from the wall's START to a point of its outside face, on the wall's one dimension line.

    `whole` is True for the one that reaches the wall's far end.
    """

    wall: str
    start: Point
    end: Point
    outward: Point
    figure: str
    whole: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class TitleCells:
    """The cells of a title block that an office fills in or reads out: (name, label, value) from left to right."""

    at: Point
    width_in: float
    height_in: float
    text_in: float
    cells: tuple[tuple[str, str, str], ...]


Primitive = Line | Polyline | Circle | Text
Stroke = Primitive | Symbol | RunningDimension | TitleCells


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A drawing scale: how many inches of paper are a foot of house, and how it is written."""

    in_per_ft: float
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """Plan feet to paper inches: turned, scaled and shifted."""

    scale: Scale
    angle_deg: float
    shift: Point

    def paper(self, p_ft: Point) -> Point:
        """Where a plan point lies on the sheet. [in]."""
        x, y = self.turned(p_ft)
        return (x * self.scale.in_per_ft + self.shift[0], y * self.scale.in_per_ft + self.shift[1])

    def turned(self, v: Point) -> Point:
        """A plan direction as it lies on the sheet."""
        c, s = direction(self.angle_deg)
        return (v[0] * c - v[1] * s, v[0] * s + v[1] * c)

    def plan_ft(self, p: Point) -> Point:
        """The plan point under a point of the sheet. [ft]."""
        c, s = direction(self.angle_deg)
        x, y = ((p[i] - self.shift[i]) / self.scale.in_per_ft for i in (0, 1))
        return (x * c + y * s, -x * s + y * c)


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of paper.

    `window` (left, bottom, right, top) is the part that shows the house, by the strokes of `drawing`, and what is
    drawn or said beside it, `apart`; `surround` are border, title block and tables in the column.
    """

    name: str
    width_in: float
    height_in: float
    view: View
    window: tuple[float, float, float, float]
    drawing: tuple[Stroke, ...]
    apart: tuple[Stroke, ...]
    surround: tuple[Stroke, ...]

    @property
    def strokes(self) -> tuple[Stroke, ...]:
        """All that is on it."""
        return (*self.surround, *self.drawing, *self.apart)


def along(p: Point, angle_deg: float, distance: float) -> Point:
    """The point a distance away in a direction."""
    c, s = direction(angle_deg)
    return (p[0] + c * distance, p[1] + s * distance)


@lru_cache(maxsize=1024)
def direction(angle_deg: float) -> Point:
    """The unit vector of a direction."""
    return (math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg)))
