"""Tape -> Strips: one wall drawn once in paper inches, as a ruler with a column of figures per tick.

Left is START and right is the far end as one sees them from outside. A strip is as long as its marks need: the whole
page, or half of it where there are few, so that short walls share a row of the page. Its ruler is drawn to scale over
all of that length, each mark as near above its column as can be.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from export.paper.block import Block
from export.paper.lettering import cap_in, wrapped
from export.paper.sheet import Align, Fill, Layer, Pen, Primitive
from export.wall_marks.mark_columns import COLUMN_IN, Column, record_columns
from export.wall_marks.pen import SMALL_PT, box, outline, stroke, write
from export.wall_marks.tape_marks import HALF_PLY_FT, Tape, Tick, count_words
from framing.members import MemberKind
from framing.units import feet_inches

WIDTH_IN = 10.5  # letter, landscape, less the margins
BETWEEN_IN = 0.2
HALF_WIDTH_IN = (WIDTH_IN - BETWEEN_IN) / 2
LABELS_IN = 0.72
MOST_COLUMNS = int((WIDTH_IN - LABELS_IN) / COLUMN_IN)
HALF_COLUMNS = int((HALF_WIDTH_IN - LABELS_IN) / COLUMN_IN)
MOST_IN_PER_FT = 1.25
PAST_BREAK_FT = 0.5  # how far a strip runs on past the mark where the wall is broken
NUMBERS_IN, BAND_IN, LEADERS_IN = 0.12, 0.14, 0.1
SIGN_OFF = (("marks checked", 1.0), ("straps set", 0.8), ("inspector", 0.95), ("date", 0.7))
SIGN_OFF_IN = 0.27
Ticks = tuple[Tick, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperStrip:
    """One drawn piece of one wall. `ticks` are those in its columns, `n_repeated` of them from the strip before."""

    wall: str
    number: int
    n_strips: int
    ticks: Ticks
    n_repeated: int
    block: Block


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """A stretch of the wall that fits one strip; its first mark is the last of the piece before."""

    ticks: Ticks
    n_repeated: int
    from_ft: float
    to_ft: float

    @property
    def width_in(self) -> float:
        """The whole page, or half of it where the columns fit there. [in]."""
        return HALF_WIDTH_IN if len(self.ticks) <= HALF_COLUMNS else WIDTH_IN

    @property
    def per_ft(self) -> float:
        """The ruler's scale: it fills its strip. [in of paper per ft]."""
        room = self.width_in - LABELS_IN - COLUMN_IN
        return min(MOST_IN_PER_FT, room / max(self.to_ft - self.from_ft, 1e-9))


def paper_strips(tape: Tape) -> tuple[PaperStrip, ...]:
    """The wall's strips from START on: one, or several that overlap by one mark."""
    pieces = _pieces(tape)
    return tuple(_record(tape, pieces, k) for k in range(len(pieces)))


def fan_out(wanted: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Places in the same order, at least `apart` from each other, as near to the wanted ones as can be.

    Neighbours that would touch are merged into a block that sits at the mean of what its members want
    (pool-adjacent-violators, the least-squares answer), each block kept between `low` and `high`.
    """
    blocks: list[tuple[float, int]] = []  # (sum of wanted less rank in the block, members)
    for want in wanted:
        total, n = want, 1
        while blocks and _first(blocks[-1], apart, low, high) + blocks[-1][1] * apart > _first(
            (total, n), apart, low, high
        ):
            before, m = blocks.pop()
            total, n = before + total - n * m * apart, m + n
        blocks.append((total, n))
    return [_first(block, apart, low, high) + k * apart for block in blocks for k in range(block[1])]


def _first(block: tuple[float, int], apart: float, low: float, high: float) -> float:
    total, n = block
    return max(low, min(total / n, high - (n - 1) * apart))


def _pieces(tape: Tape) -> list[_Piece]:
    """The wall in as few strips as can be; a short last one takes half a page, a longer one shares with the others."""
    fullest = _cut(tape, MOST_COLUMNS)
    if len(fullest) > 1 and len(fullest[-1].ticks) > HALF_COLUMNS:
        for n_columns in range(HALF_COLUMNS, MOST_COLUMNS):
            even = _cut(tape, n_columns)
            if len(even) == len(fullest):
                return even
    return fullest


def _cut(tape: Tape, n_columns: int) -> list[_Piece]:
    """Pieces filled in order; the ticks of one mark stay together."""
    stations_ft = [t.station_ft for t in tape.ticks]
    from_ft, end_ft = min([0.0, *stations_ft]), max([tape.length_ft, *stations_ft])
    groups = [tuple(g) for _, g in itertools.groupby(tape.ticks, key=lambda t: t.mark.mark)]
    pieces: list[_Piece] = []
    held, n_repeated = list[Ticks](), 0
    for group in groups:
        if sum(map(len, held)) + len(group) > n_columns and len(held) > (1 if n_repeated else 0):
            last = held[-1]
            to_ft = last[-1].station_ft + PAST_BREAK_FT
            pieces.append(_Piece(ticks=sum(held, ()), n_repeated=n_repeated, from_ft=from_ft, to_ft=to_ft))
            held, n_repeated, from_ft = [last], len(last), last[0].station_ft - PAST_BREAK_FT
        held.append(group)
    return [*pieces, _Piece(ticks=sum(held, ()), n_repeated=n_repeated, from_ft=from_ft, to_ft=end_ft)]


def _record(tape: Tape, pieces: list[_Piece], k: int) -> PaperStrip:
    piece = pieces[k]
    left, right = LABELS_IN + COLUMN_IN / 2, piece.width_in - COLUMN_IN / 2
    wanted = [left + (t.station_ft - piece.from_ft) * piece.per_ft for t in piece.ticks]
    places = fan_out(wanted, COLUMN_IN, left, right)
    columns = tuple(
        Column(tick=t, x_in=x, repeated_from=k if i < piece.n_repeated else 0)
        for i, (t, x) in enumerate(zip(piece.ticks, places, strict=True))
    )
    strokes, y = _head(tape, len(pieces), k, piece)
    strokes += [*_ruler(tape, piece, y), *_start(k, y)]
    bottom_in = y + NUMBERS_IN + BAND_IN
    if columns:
        shift = max(abs(x - w) for x, w in zip(places, wanted, strict=True))
        leaders_in = LEADERS_IN + min(0.15, 0.06 * shift)
        strokes += _leaders(columns, wanted, bottom_in, leaders_in)
        below, bottom_in = record_columns(columns, bottom_in + leaders_in)
        strokes += below
    return PaperStrip(
        wall=tape.name,
        number=k + 1,
        n_strips=len(pieces),
        ticks=piece.ticks,
        n_repeated=piece.n_repeated,
        block=Block(strokes=tuple(strokes), width_in=piece.width_in, height_in=bottom_in),
    )


def _head(tape: Tape, n_strips: int, k: int, piece: _Piece) -> tuple[list[Primitive], float]:
    """The words above the ruler, the sign-off box on the wall's first strip, and where they end, in inches."""
    place = f"strip {k + 1} of {n_strips}"
    if k:
        mark = piece.ticks[0].mark.mark
        words = f"{place}; the tape stays at START. Overlap: {mark} is on strip {k} too, set it once."
        name = write(tape.name, 0.0, 0.14, 12.0, bold=True)
        return [name, write(words, name.width_in + 0.1, 0.14, SMALL_PT)], 0.18
    name = write(tape.name, 0.0, 0.21, 16.0, bold=True)
    left_in = name.width_in + 0.12
    half = piece.width_in < WIDTH_IN
    sign_off_in = sum(width for _, width in SIGN_OFF)
    room_in = piece.width_in - left_in - (0.0 if half or not tape.ticks else sign_off_in + 0.1)
    kind = f"{tape.description}, " if tape.description else ""
    length = f"{kind}{feet_inches(tape.length_ft)} long. START is its {tape.start_end}."
    said = [(t, 8.5, False) for t in wrapped(f"{length} {place[0].upper()}{place[1:]}.", room_in, cap_in(8.5))]
    said += [(t, 9.0, True) for t in wrapped(count_words(tape.marks), room_in, cap_in(9.0), bold=True)]
    strokes: list[Primitive] = [name]
    strokes += [write(t, left_in, 0.115 + 0.135 * i, size, bold=bold) for i, (t, size, bold) in enumerate(said)]
    y = max(0.24, 0.115 + 0.135 * (len(said) - 1) + 0.045)
    if tape.ticks and half:
        return [*strokes, *_sign_off(piece.width_in - sign_off_in, y)], y + SIGN_OFF_IN + 0.03
    if tape.ticks:
        strokes += _sign_off(piece.width_in - sign_off_in, 0.01)
        y = max(y, SIGN_OFF_IN + 0.01)
    return strokes, y


def _sign_off(left_in: float, top_in: float) -> list[Primitive]:
    """Who stands for this wall: its cells empty, to be written in."""
    strokes: list[Primitive] = []
    for words, width in SIGN_OFF:
        strokes.append(box(left_in, top_in, left_in + width, top_in + SIGN_OFF_IN, Layer.TITLE))
        strokes.append(write(words, left_in + 0.04, top_in + 0.105, SMALL_PT))
        left_in += width
    return strokes


def _start(k: int, top_in: float) -> list[Primitive]:
    """The big START at the tape's end, or the word that it is on the first strip."""
    if k:
        words = ("START is on", "strip 1")
        return [write(w, 0.0, top_in + 0.12 + 0.12 * i, SMALL_PT) for i, w in enumerate(words)]
    y = top_in + NUMBERS_IN + BAND_IN / 2
    text = write("START", 0.0, y + 0.07, 14.0, bold=True)
    tip, back = LABELS_IN + COLUMN_IN / 2 - 0.06, text.width_in + 0.08
    arrow = outline(((tip, y), (back, y - 0.085), (back, y + 0.085)), Layer.DETAIL, fill=Fill.BLACK)
    return [text, arrow]


def _ruler(tape: Tape, piece: _Piece, top_in: float) -> list[Primitive]:
    """The band to scale, dashed where no wall stands: every foot, figures, ends or breaks, each truss's thickness."""
    y0, y1, per_ft = top_in + NUMBERS_IN, top_in + NUMBERS_IN + BAND_IN, piece.per_ft
    zero_in = LABELS_IN + COLUMN_IN / 2

    def x(ft: float) -> float:
        return zero_in + (ft - piece.from_ft) * per_ft

    low_ft, high_ft = max(piece.from_ft, 0.0), min(piece.to_ft, tape.length_ft)
    ends = sorted({low_ft, high_ft, *(min(max(ft, low_ft), high_ft) for pair in tape.open_ft for ft in pair)})
    strokes: list[Primitive] = [
        stroke((x(a), y), (x(b), y), Layer.WALL, dashed=any(p <= a and b <= q for p, q in tape.open_ft))
        for a, b in itertools.pairwise(ends)
        for y in (y0, y1)
    ]
    for ft, broken in ((low_ft, low_ft > 0.0), (high_ft, high_ft < tape.length_ft)):
        strokes.append(_break(x(ft), y0, y1) if broken else _end(x(ft), y0 - 0.08, y1))
    step_ft = next(s for s in (1, 2, 5, 10, 20, 50, 100, 200) if s * per_ft > 0.42)
    for ft in range(math.ceil(low_ft), math.floor(high_ft) + 1):
        numbered = ft % step_ft == 0
        if numbered or per_ft > 0.1:
            strokes.append(stroke((x(ft), y0), (x(ft), y0 + (0.07 if numbered else 0.04)), Layer.WALL))
        if numbered and 0.0 < ft < tape.length_ft - 0.5 / per_ft:
            strokes.append(write(f"{ft}'", x(ft), y0 - 0.03, SMALL_PT, align=Align.CENTRE))
    if high_ft >= tape.length_ft:
        room = piece.width_in - x(high_ft) - 0.05
        strokes.append(write("far end", x(high_ft) + 0.05, y0 - 0.03, SMALL_PT, bold=True, within_in=room))
    return [*strokes, *_trusses(piece, x, y0 + 0.075, y1)]


def _trusses(piece: _Piece, x: Callable[[float], float], y0: float, y1: float) -> list[Primitive]:
    """The thickness of each truss that crosses the wall, where it stands on the ruler."""
    marks = dict.fromkeys(t.mark for t in piece.ticks if t.mark.bearing.kind is not MemberKind.GABLE_END)
    spans = [(m.bearing.station_ft, m.bearing.plies * HALF_PLY_FT) for m in marks]
    ends = [(max(ft - half_ft, piece.from_ft), min(ft + half_ft, piece.to_ft)) for ft, half_ft in spans]
    return [box(x(a), y0, x(b), y1, Layer.DETAIL, Pen.HAIR) for a, b in ends if b > a]


def _end(x: float, y0: float, y1: float) -> Primitive:
    return stroke((x, y0), (x, y1), Layer.BEAM, Pen.HEAVY)


def _break(x: float, y0: float, y1: float) -> Primitive:
    """The zigzag where the wall goes on, on another strip."""
    step = (y1 - y0) / 4
    points = ((x, y0), (x + 0.04, y0 + step), (x - 0.04, y1 - step), (x, y1), (x, y1 + step))
    return outline(points, Layer.WALL, closed=False)


def _leaders(
    columns: tuple[Column, ...], wanted: Sequence[float], band_bottom_in: float, leaders_in: float
) -> list[Primitive]:
    """Each tick through the band, and the line from it to the head of its column."""
    strokes: list[Primitive] = []
    for column, x in zip(columns, wanted, strict=True):
        foot, knee = (x, band_bottom_in + 0.03), (column.x_in, band_bottom_in + leaders_in - 0.02)
        strokes.append(stroke((x, band_bottom_in - BAND_IN), foot, Layer.DIMENSIONS, Pen.MEDIUM))
        strokes.append(stroke(foot, knee, Layer.DIMENSIONS))
    return strokes
