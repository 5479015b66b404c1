"""The columns under a strip's ruler: the figures of each tick, its X and arrow, its boxes, in paper inches."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from export.paper.strip_strokes import POINTS_PER_IN, Drawing, Line, Shape, Text, text_width_in, wrapped
from export.wall_marks.tape_marks import Tick, tick_words
from export.words.demand import demand_lines
from framing.plan import Side
from framing.units import feet_inches, inches

COLUMN_IN = 0.945
TEXT_IN = COLUMN_IN - 0.03
SMALL_PT = 8.0
GLYPH_IN = 0.33
BOX_IN = 0.24
BOXES_IN = 0.33
LEADING_RATIO = 1.14
RULE_ROOM_IN = 0.03
UNRESOLVED_WORDS = "NO ANCHOR"


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One tick under the ruler. `repeated_from` is the strip that already has it, 0 where this is its own."""

    tick: Tick
    x_in: float
    repeated_from: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    label: str
    size_pt: float
    bold: bool
    one_line: bool
    words: Callable[[Column], str]


def _anchor(column: Column) -> str:
    anchor = column.tick.mark.anchor
    return UNRESOLVED_WORDS if anchor is None else anchor.id


def _note(column: Column) -> str:
    mark = column.tick.mark
    demand = () if mark.resolved else demand_lines(mark)
    return "\n".join(filter(None, (*demand, *tick_words(column.tick).split("; "))))


ABOVE_GLYPH = (_Row(label="mark", size_pt=12, bold=True, one_line=True, words=lambda c: c.tick.mark.mark),)
BELOW_GLYPH = (
    _Row(label="from START", size_pt=12, bold=True, one_line=True, words=lambda c: feet_inches(c.tick.station_ft)),
    _Row(label="in inches", size_pt=10.5, bold=False, one_line=True, words=lambda c: inches(c.tick.station_ft)),
    _Row(label="from far end", size_pt=10, bold=False, one_line=True, words=lambda c: feet_inches(c.tick.far_ft)),
    _Row(label="in inches", size_pt=9, bold=False, one_line=True, words=lambda c: inches(c.tick.far_ft)),
    _Row(
        label="truss centre",
        size_pt=9,
        bold=False,
        one_line=True,
        words=lambda c: feet_inches(c.tick.mark.bearing.station_ft),
    ),
    _Row(label="member", size_pt=9, bold=False, one_line=False, words=lambda c: c.tick.mark.bearing.member),
    _Row(label="anchor", size_pt=10, bold=True, one_line=False, words=_anchor),
    _Row(label="strap lies on", size_pt=9, bold=False, one_line=True, words=lambda c: f"{_side_word(c.tick)} side"),
    _Row(label="", size_pt=9, bold=False, one_line=False, words=_note),
)
RULED_ABOVE = ("from START", "from far end", "truss centre", "anchor")


def record_columns(columns: tuple[Column, ...], top_in: float) -> tuple[Drawing, float]:
    """The labels and all columns from `top_in` down, and where they end, in inches."""
    drawing, y = Drawing(), top_in
    for row in ABOVE_GLYPH:
        drawing, y = _add_row(drawing, row, columns, y)
    for column in columns:
        drawing += _glyph(column, y)
    drawing += Drawing(
        texts=(_label("X: truss", y + 0.5 * GLYPH_IN - 0.01), _label("arrow: strap", y + 0.5 * GLYPH_IN + 0.11))
    )
    y += GLYPH_IN
    for row in BELOW_GLYPH:
        drawing, y = _add_row(drawing, row, columns, y)
    drawing += _boxes(columns, y)
    bottom_in = y + BOXES_IN
    frames = tuple(_frame(c, top_in, bottom_in) for c in columns if not c.tick.mark.resolved)
    return drawing + Drawing(shapes=frames), bottom_in


def _side_word(tick: Tick) -> str:
    return "START" if tick.side is Side.START else "far"


def _label(text: str, y_in: float) -> Text:
    return Text(x_in=0.0, y_in=y_in, text=text, size_pt=SMALL_PT)


def _add_row(drawing: Drawing, row: _Row, columns: tuple[Column, ...], top_in: float) -> tuple[Drawing, float]:
    """One row of words, as high as its longest cell; a row without words takes no room."""
    size_pt = _size_pt(row, columns)
    cells = [
        [line for part in row.words(c).split("\n") for line in wrapped(part, size_pt, TEXT_IN, bold=row.bold)]
        for c in columns
    ]
    n_lines = max(len(lines) for lines in cells)
    if not any(map(any, cells)):
        return drawing, top_in
    rule: tuple[Line, ...] = ()
    if row.label in RULED_ABOVE:
        top_in += RULE_ROOM_IN
        rule = _rule(top_in + RULE_ROOM_IN / 2, columns)
    leading_in = size_pt * LEADING_RATIO / POINTS_PER_IN
    first_in = top_in + leading_in
    texts = [_label(row.label, first_in)] if row.label else []
    for column, lines in zip(columns, cells, strict=True):
        texts += [
            _centred(line, column.x_in, first_in + k * leading_in, size_pt, bold=row.bold)
            for k, line in enumerate(lines)
            if line
        ]
    return drawing + Drawing(texts=tuple(texts), lines=rule), top_in + n_lines * leading_in


def _size_pt(row: _Row, columns: tuple[Column, ...]) -> float:
    """The row's type size, smaller where a figure of a very long wall would not stay on one line."""
    widest_in = max(text_width_in(row.words(c), row.size_pt, bold=row.bold) for c in columns)
    if not row.one_line or widest_in <= TEXT_IN:
        return row.size_pt
    return max(SMALL_PT, math.floor(2 * row.size_pt * TEXT_IN / widest_in) / 2)


def _centred(text: str, x_in: float, y_in: float, size_pt: float, *, bold: bool = False) -> Text:
    left_in = x_in - text_width_in(text, size_pt, bold=bold) / 2
    return Text(x_in=left_in, y_in=y_in, text=text, size_pt=size_pt, bold=bold)


def _rule(y_in: float, columns: tuple[Column, ...]) -> tuple[Line, ...]:
    """A hairline that leads the eye from the label to the last column."""
    right_in = max((c.x_in for c in columns), default=0.0) + COLUMN_IN / 2
    return (Line(start_in=(0.0, y_in), end_in=(right_in, y_in), width_pt=0.3),)


def _glyph(column: Column, top_in: float) -> Drawing:
    """The tick, an X where the truss stands, an arrow towards the side on which the strap lies."""
    x, y = column.x_in, top_in + 0.02 + GLYPH_IN / 2
    strap = -1 if column.tick.side is Side.START else 1
    tick = Line(start_in=(x, top_in + 0.05), end_in=(x, top_in + GLYPH_IN), width_pt=2.0)
    cx, half = x - strap * 0.15, 0.075
    cross = tuple(
        Line(start_in=(cx - half, y - s * half), end_in=(cx + half, y + s * half), width_pt=1.6) for s in (-1, 1)
    )
    tip, back = x + strap * 0.33, x + strap * 0.20
    shaft = Line(start_in=(x + strap * 0.05, y), end_in=(back, y), width_pt=1.6)
    head = Shape(corners_in=((tip, y), (back, y - 0.065), (back, y + 0.065)), width_pt=0.5, filled=True)
    return Drawing(lines=(tick, *cross, shaft), shapes=(head,))


def _boxes(columns: tuple[Column, ...], top_in: float) -> Drawing:
    """A box to tick and one for the as-built figure; none where the strap is not this strip's to set."""
    drawing = Drawing(texts=(_label("set | as built, in.", top_in + 0.21),))
    for column in columns:
        left, top = column.x_in - 0.42, top_in + 0.06
        if column.repeated_from:
            text = f"on strip {column.repeated_from}"
            drawing += Drawing(texts=(_centred(text, column.x_in, top_in + 0.21, SMALL_PT),))
        elif not column.tick.mark.resolved:
            drawing += _warning(column.x_in, top)
        else:
            drawing += Drawing(
                shapes=(
                    rectangle(left, top, left + BOX_IN, top + BOX_IN, width_pt=1.4),
                    rectangle(left + BOX_IN + 0.06, top, column.x_in + 0.42, top + BOX_IN, width_pt=0.6),
                )
            )
    return drawing


def _warning(x: float, top: float) -> Drawing:
    """A triangle with a stroke and a dot in it: the shape that says 'not resolved'."""
    corners = ((x, top - 0.02), (x - 0.15, top + BOX_IN), (x + 0.15, top + BOX_IN))
    dot = rectangle(x - 0.012, top + 0.19, x + 0.012, top + 0.21, width_pt=0.5, filled=True)
    stroke = Line(start_in=(x, top + 0.07), end_in=(x, top + 0.16), width_pt=1.8)
    return Drawing(lines=(stroke,), shapes=(Shape(corners_in=corners, width_pt=1.4), dot))


def _frame(column: Column, top_in: float, bottom_in: float) -> Shape:
    """A dashed frame around the column of an unresolved mark."""
    half = COLUMN_IN / 2
    return rectangle(column.x_in - half, top_in, column.x_in + half, bottom_in, width_pt=1.6, dashed=True)


def rectangle(
    x0: float, y0: float, x1: float, y1: float, *, width_pt: float, filled: bool = False, dashed: bool = False
) -> Shape:
    """The shape of an upright rectangle from its left top to its right bottom corner, in inches."""
    return Shape(corners_in=((x0, y0), (x1, y0), (x1, y1), (x0, y1)), width_pt=width_pt, filled=filled, dashed=dashed)
