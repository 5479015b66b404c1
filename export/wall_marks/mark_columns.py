"""The columns under a strip's ruler: the figures of each tick, its sign, its boxes, in paper inches.

A girder's mark stands white on black, the two columns of a pair share a frame, what no anchor holds has a dashed one.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from dataclasses import dataclass

from export.paper.lettering import POINTS_PER_IN, cap_in, narrowing, printable, wrapped
from export.paper.sheet import Align, Fill, Layer, Pen, Primitive, Text
from export.wall_marks.crossing_signs import SIGN_IN, crossing_sign, side_words
from export.wall_marks.pen import SMALL_PT, box, outline, stroke, write
from export.wall_marks.tape_marks import Tick, crossing_words, place_words
from export.words.demand import demand_lines
from framing.members import MemberKind
from framing.units import feet_inches, inches

COLUMN_IN = 0.885
TEXT_IN = COLUMN_IN - 0.04
BOX_IN = 0.205
BOXES_IN = 0.26
LEADING_RATIO = 1.07
RULE_DOWN_IN = 0.036  # clear of what reaches below the line above
RULE_ROOM_IN = 0.02
UNRESOLVED_WORDS = "NO ANCHOR"
GIRDERS = frozenset({MemberKind.HIP_GIRDER, MemberKind.GIRDER})


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One tick under the ruler. `repeated_from` is the strip that already has it, 0 where this is its own."""

    tick: Tick
    x_in: float
    repeated_from: int


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One row of words. One that is `whole` stays on one line, its letters narrower where they must be."""

    label: str
    size_pt: float
    bold: bool
    whole: bool
    words: Callable[[Column], str]
    ruled: bool = False


def _anchor(column: Column) -> str:
    anchor = column.tick.mark.anchor
    return UNRESOLVED_WORDS if anchor is None else anchor.id


def _note(column: Column) -> str:
    """What no row and no sign says: an unresolved mark's demand, a bearing's length askew, a filled cell to ask for."""
    mark = column.tick.mark
    demand = () if mark.resolved else demand_lines(mark)
    said = [words for words in crossing_words(column.tick).split("; ") if not words.startswith(SIGNED)]
    cell = column.tick.cell_words if column.tick.number == 1 else ""
    return "\n".join((*demand, *said, cell))


def _in_from_face(column: Column) -> str:
    """The second figure of a strap that stands elsewhere than at mid-thickness beside a truss square to its wall."""
    strap, bearing = column.tick.strap, column.tick.mark.bearing
    if strap.in_from_face_ft is None or not place_words(column.tick):
        return ""
    if strap.in_from_next_ft is None:
        return inches(strap.in_from_face_ft)
    pairs = ((bearing.wall, strap.in_from_face_ft), (bearing.next_wall, strap.in_from_next_ft))
    return "\n".join(f"{wall}: {inches(ft)}" for wall, ft in pairs)


def _side(column: Column) -> str:
    tick = column.tick
    return side_words(tick) + (f", {tick.number} of {tick.n_ticks}" if tick.n_ticks > 1 else "")


def _member(column: Column) -> str:
    mark = column.tick.mark
    return f"{mark.bearing.member}, {mark.bearing.plies} ply" if mark.bearing.plies > 1 else mark.bearing.member


def _row(
    label: str,
    size_pt: float,
    words: Callable[[Column], str],
    *,
    bold: bool = False,
    whole: bool = True,
    ruled: bool = False,
) -> _Row:
    return _Row(label=label, size_pt=size_pt, bold=bold, whole=whole, words=words, ruled=ruled)


ROWS = (
    _row("strap lies on", SMALL_PT, _side),
    _row("from START", 12.0, lambda c: feet_inches(c.tick.station_ft), bold=True, ruled=True),
    _row("in inches", 10.0, lambda c: inches(c.tick.station_ft)),
    _row("in from face", 9.5, _in_from_face, bold=True, whole=False),
    _row("from far end", 8.5, lambda c: feet_inches(c.tick.far_ft), ruled=True),
    _row("truss centre", SMALL_PT, lambda c: feet_inches(c.tick.mark.bearing.station_ft)),
    _row("member", 8.5, _member, whole=False),
    _row("anchor", 10.0, _anchor, bold=True, whole=False, ruled=True),
    _row("note", SMALL_PT, _note, whole=False),
)
MARK_PT = 11.0
MARK_IN = 0.165
NARROWEST = 0.66
SIGNED = ("truss along wall", "truss at")  # the sign and the member's row say it


def record_columns(columns: tuple[Column, ...], top_in: float) -> tuple[list[Primitive], float]:
    """The labels and all columns from `top_in` down, and where they end, in inches."""
    strokes: list[Primitive] = [_label("mark", top_in + 0.14)]
    for column in columns:
        strokes += _mark(column, top_in)
    y = top_in + MARK_IN
    strokes.append(_label("X: truss", y + 0.5 * SIGN_IN - 0.02))
    strokes.append(_label("arrow: strap", y + 0.5 * SIGN_IN + 0.10))
    for column in columns:
        strokes += crossing_sign(column.tick, column.x_in, y)
    y += SIGN_IN
    for row in ROWS:
        drawn, y = _words(row, columns, y)
        strokes += drawn
    strokes += _boxes(columns, y)
    bottom_in = y + BOXES_IN
    return [*strokes, *_frames(columns, top_in, bottom_in)], bottom_in


def _label(text: str, down: float) -> Text:
    return write(text, 0.0, down, SMALL_PT)


def _mark(column: Column, top_in: float) -> list[Primitive]:
    """The mark's name; a girder's on a black band."""
    girder = column.tick.mark.bearing.kind in GIRDERS
    half = COLUMN_IN / 2 - 0.035
    band = box(column.x_in - half, top_in + 0.015, column.x_in + half, top_in + MARK_IN, Layer.DETAIL, fill=Fill.BLACK)
    name = write(
        column.tick.mark.mark,
        column.x_in,
        top_in + 0.148,
        MARK_PT,
        bold=True,
        align=Align.CENTRE,
        within_in=TEXT_IN - 0.1,
        white=girder,
    )
    return [band, name] if girder else [name]


def _words(row: _Row, columns: tuple[Column, ...], top_in: float) -> tuple[list[Primitive], float]:
    """One row of words, as high as its longest cell; a row without words takes no room."""
    cells = [_lines(row, c) for c in columns]
    if not any(cells):
        return [], top_in
    strokes: list[Primitive] = []
    if row.ruled:
        strokes.append(_rule(top_in + RULE_DOWN_IN, columns))
        top_in += RULE_ROOM_IN
    leading_in = row.size_pt * LEADING_RATIO / POINTS_PER_IN
    first_in = top_in + leading_in
    strokes += [_label(row.label, first_in)] if row.label else []
    for column, lines in zip(columns, cells, strict=True):
        bold = row.bold or (row.label == "member" and column.tick.mark.bearing.kind in GIRDERS)
        strokes += [
            write(
                line,
                column.x_in,
                first_in + k * leading_in,
                row.size_pt,
                bold=bold,
                align=Align.CENTRE,
                within_in=TEXT_IN,
            )
            for k, line in enumerate(lines)
        ]
    return strokes, top_in + max(map(len, cells)) * leading_in


def _lines(row: _Row, column: Column) -> list[str]:
    words = row.words(column)
    if row.whole:
        return [words] if words else []
    bold = row.bold or column.tick.mark.bearing.kind in GIRDERS
    height = cap_in(row.size_pt)
    lines: list[str] = []
    for part in filter(None, map(printable, words.split("\n"))):
        fits = narrowing(part, TEXT_IN, height, bold=bold) > NARROWEST
        lines += [part] if fits else wrapped(part, TEXT_IN, height, bold=bold)
    return lines


def _rule(down: float, columns: tuple[Column, ...]) -> Primitive:
    """A hairline that leads the eye from the label to the last column."""
    right_in = max((c.x_in for c in columns), default=0.0) + COLUMN_IN / 2
    return stroke((0.0, down), (right_in, down), Layer.SCHEDULE, Pen.HAIR)


def _boxes(columns: tuple[Column, ...], top_in: float) -> list[Primitive]:
    """A box to tick and one for the as-built figure; none where the strap is not this strip's to set."""
    strokes: list[Primitive] = [_label("set | as built", top_in + 0.175)]
    for column in columns:
        left, top = column.x_in - 0.40, top_in + 0.04
        if column.repeated_from:
            words = f"on strip {column.repeated_from}"
            strokes.append(write(words, column.x_in, top_in + 0.175, SMALL_PT, align=Align.CENTRE))
        elif not column.tick.mark.resolved:
            strokes += _warning(column.x_in, top)
        else:
            strokes.append(box(left, top, left + BOX_IN, top + BOX_IN, Layer.SCHEDULE, Pen.MEDIUM))
            strokes.append(box(left + BOX_IN + 0.06, top, column.x_in + 0.40, top + BOX_IN, Layer.SCHEDULE))
    return strokes


def _warning(x: float, top: float) -> list[Primitive]:
    """A triangle with a stroke and a dot in it: the shape that says 'not resolved'."""
    corners = ((x, top - 0.01), (x - 0.14, top + BOX_IN), (x + 0.14, top + BOX_IN))
    return [
        outline(corners, Layer.DETAIL, Pen.MEDIUM),
        stroke((x, top + 0.065), (x, top + 0.135), Layer.DETAIL, Pen.HEAVY),
        box(x - 0.012, top + 0.16, x + 0.012, top + 0.18, Layer.DETAIL, fill=Fill.BLACK),
    ]


def _frames(columns: tuple[Column, ...], top_in: float, bottom_in: float) -> list[Primitive]:
    """A frame around both straps of a pair, and a dashed one around what no anchor holds."""
    frames: list[Primitive] = []
    half = COLUMN_IN / 2 - 0.008
    for _, group in itertools.groupby(columns, key=lambda c: c.tick.mark.mark):
        own = list(group)
        mark = own[0].tick.mark
        if len(own) > 1 or not mark.resolved:
            left, right = own[0].x_in - half, own[-1].x_in + half
            frames.append(box(left, top_in, right, bottom_in, Layer.DETAIL, Pen.MEDIUM, dashed=not mark.resolved))
    return frames
