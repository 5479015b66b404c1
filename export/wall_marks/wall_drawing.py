"""Tape -> Strips: one wall drawn once in paper inches, as a ruler to scale with a column of figures per tick.

A strip is measured from its own top left corner, x to the right and y down, so that left is START and right is
the far end as one sees them from outside. What is recorded here can be measured, and the PDF only replays it.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from export.paper.strip_strokes import Drawing, Line, Shape, Text, text_width_in, wrapped
from export.wall_marks.mark_columns import COLUMN_IN, Column, record_columns, rectangle
from export.wall_marks.tape_marks import HALF_PLY_FT, Tape, Tick, count_words
from framing.members import MemberKind
from framing.units import feet_inches

WIDTH_IN = 10.3  # letter, landscape, less the margins
LABELS_IN = 0.82
N_COLUMNS = 10
SCALES_IN_PER_FT = (3 / 8, 1 / 4, 3 / 16, 1 / 8, 3 / 32, 1 / 16, 3 / 64, 1 / 32, 1 / 64)
SCALE_NAMES = ("3/8", "1/4", "3/16", "1/8", "3/32", "1/16", "3/64", "1/32", "1/64")
PAST_BREAK_FT = 0.5  # how far a strip runs on past the mark where the wall is broken
SUBHEAD_IN, NUMBERS_IN, BAND_IN, LEADERS_IN = 0.20, 0.15, 0.19, 0.15
RULER_LEFT_IN, RULER_RIGHT_IN = LABELS_IN + COLUMN_IN / 2, WIDTH_IN - COLUMN_IN / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One drawn piece of one wall. `ticks` are those in its columns, `n_repeated` of them from the strip before."""

    wall: str
    number: int
    n_strips: int
    ticks: tuple[Tick, ...]
    n_repeated: int
    width_in: float
    height_in: float
    drawing: Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class _Piece:
    """A stretch of the wall that fits one strip; its first tick is the last of the piece before."""

    ticks: tuple[Tick, ...]
    from_ft: float
    to_ft: float


def wall_strips(tape: Tape) -> tuple[Strip, ...]:
    """The wall's strips from START on: one, or several that overlap by one mark."""
    scale, pieces = _pieces(tape)
    return tuple(_record(tape, scale, pieces, k) for k in range(len(pieces)))


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


def _pieces(tape: Tape) -> tuple[int, list[_Piece]]:
    """The largest scale whose ruler spans every gap, and the wall cut into as few, evenly filled pieces as can be."""
    for scale, per_ft in enumerate(SCALES_IN_PER_FT):
        reach_ft = (RULER_RIGHT_IN - RULER_LEFT_IN) / per_ft
        fullest = _cut(tape, reach_ft, N_COLUMNS)
        if fullest is None:
            continue
        for n_columns in range(2, N_COLUMNS):
            even = _cut(tape, reach_ft, n_columns)
            if even is not None and len(even) == len(fullest):
                return scale, even
        return scale, fullest
    raise ValueError(f"{tape.name} is too long for a strip; walls are at most 500 ft")


def _cut(tape: Tape, reach_ft: float, n_columns: int) -> list[_Piece] | None:
    """Pieces filled in order, or None where a gap between two ticks is longer than the ruler."""
    stations_ft = [t.station_ft for t in tape.ticks]
    from_ft, end_ft = min([0.0, *stations_ft]), max([tape.length_ft, *stations_ft])
    pieces: list[_Piece] = []
    ticks = list(tape.ticks)
    while len(ticks) > n_columns or end_ft > from_ft + reach_ft:
        n = sum(t.station_ft + PAST_BREAK_FT <= from_ft + reach_ft for t in ticks[:n_columns])
        if n < 2:
            return None
        last_ft = ticks[n - 1].station_ft
        pieces.append(_Piece(ticks=tuple(ticks[:n]), from_ft=from_ft, to_ft=last_ft + PAST_BREAK_FT))
        ticks, from_ft = ticks[n - 1 :], last_ft - PAST_BREAK_FT
    return [*pieces, _Piece(ticks=tuple(ticks), from_ft=from_ft, to_ft=end_ft)]


def _record(tape: Tape, scale: int, pieces: list[_Piece], k: int) -> Strip:
    piece, per_ft = pieces[k], SCALES_IN_PER_FT[scale]
    n_repeated = 1 if k else 0
    wanted = [RULER_LEFT_IN + (t.station_ft - piece.from_ft) * per_ft for t in piece.ticks]
    places = fan_out(wanted, COLUMN_IN, RULER_LEFT_IN, RULER_RIGHT_IN)
    columns = tuple(
        Column(tick=t, x_in=x, repeated_from=k if i < n_repeated else 0)
        for i, (t, x) in enumerate(zip(piece.ticks, places, strict=True))
    )
    head, y = _head(tape, scale, len(pieces), k, piece)
    ruler = _ruler(tape, piece, per_ft, y)
    band_bottom_in = y + NUMBERS_IN + BAND_IN
    drawing = head + ruler + _start(k, y) + _leaders(columns, wanted, band_bottom_in)
    bottom_in = band_bottom_in + LEADERS_IN
    if columns:
        below, bottom_in = record_columns(columns, bottom_in)
        drawing += below
    return Strip(
        wall=tape.name,
        number=k + 1,
        n_strips=len(pieces),
        ticks=piece.ticks,
        n_repeated=n_repeated,
        width_in=WIDTH_IN,
        height_in=bottom_in,
        drawing=drawing,
    )


def _head(tape: Tape, scale: int, n_strips: int, k: int, piece: _Piece) -> tuple[Drawing, float]:
    """The words above the ruler, and where they end, in inches."""
    place = f"strip {k + 1} of {n_strips}, {SCALE_NAMES[scale]} in. = 1 ft"
    right = Text(x_in=WIDTH_IN - text_width_in(place, 8), y_in=0.12, text=place, size_pt=8)
    if k:
        mark = piece.ticks[0].mark.mark
        words = f"continued; the tape stays at START. Overlap: {mark} is on strip {k} too, set it once."
        name = Text(x_in=0.0, y_in=0.14, text=tape.name, size_pt=13, bold=True)
        rest = Text(x_in=name.width_in + 0.1, y_in=0.14, text=words, size_pt=8)
        return Drawing(texts=(name, rest, right)), SUBHEAD_IN
    name = Text(x_in=0.0, y_in=0.22, text=tape.name, size_pt=20, bold=True)
    kind = f"{tape.description}, " if tape.description else ""
    length = f"{kind}{feet_inches(tape.length_ft)} long. START is its {tape.start_end}."
    left_in = max(LABELS_IN, name.width_in + 0.1)
    says = [Text(x_in=left_in, y_in=0.12, text=length, size_pt=8.5)]
    for line in wrapped(count_words(tape.marks), 9, WIDTH_IN - left_in, bold=True):
        says.append(Text(x_in=left_in, y_in=says[-1].y_in + 0.145, text=line, size_pt=9, bold=True))
    return Drawing(texts=(name, *says, right)), says[-1].y_in + 0.075


def _start(k: int, top_in: float) -> Drawing:
    """The big START at the tape's end, or the word that it is on the first strip."""
    if k:
        words = ("START is on", "strip 1")
        return Drawing(
            texts=tuple(Text(x_in=0.0, y_in=top_in + 0.12 + 0.13 * i, text=w, size_pt=8) for i, w in enumerate(words))
        )
    y = top_in + NUMBERS_IN + BAND_IN / 2
    text = Text(x_in=0.0, y_in=y + 0.085, text="START", size_pt=17, bold=True)
    tip, back = RULER_LEFT_IN - 0.06, text.width_in + 0.08
    arrow = Shape(corners_in=((tip, y), (back, y - 0.085), (back, y + 0.085)), width_pt=0.5, filled=True)
    return Drawing(texts=(text,), shapes=(arrow,))


def _ruler(tape: Tape, piece: _Piece, per_ft: float, top_in: float) -> Drawing:
    """The band to scale, dashed where no wall stands: every foot, figures, ends or breaks, each truss's thickness."""
    y0, y1 = top_in + NUMBERS_IN, top_in + NUMBERS_IN + BAND_IN

    def x(ft: float) -> float:
        return RULER_LEFT_IN + (ft - piece.from_ft) * per_ft

    low_ft, high_ft = max(piece.from_ft, 0.0), min(piece.to_ft, tape.length_ft)
    ends = sorted({low_ft, high_ft, *(min(max(ft, low_ft), high_ft) for pair in tape.open_ft for ft in pair)})
    lines = [
        Line(start_in=(x(a), y), end_in=(x(b), y), width_pt=0.8, dashed=any(p <= a and b <= q for p, q in tape.open_ft))
        for a, b in itertools.pairwise(ends)
        for y in (y0, y1)
    ]
    for ft, broken in ((low_ft, low_ft > 0.0), (high_ft, high_ft < tape.length_ft)):
        lines += (
            _break(x(ft), y0, y1) if broken else [Line(start_in=(x(ft), y0 - 0.09), end_in=(x(ft), y1), width_pt=2.5)]
        )
    step_ft = next(s for s in (1, 2, 5, 10, 20, 50, 100) if s * per_ft > 0.42)
    texts = []
    for ft in range(math.ceil(low_ft), math.floor(high_ft) + 1):
        numbered = ft % step_ft == 0
        if numbered or per_ft > 0.1:
            lines.append(Line(start_in=(x(ft), y0), end_in=(x(ft), y0 + (0.07 if numbered else 0.04)), width_pt=0.5))
        if numbered and 0.0 < ft < tape.length_ft - 0.5 / per_ft:
            left_in = x(ft) - text_width_in(f"{ft}'", 8) / 2
            texts.append(Text(x_in=left_in, y_in=y0 - 0.04, text=f"{ft}'", size_pt=8))
    if high_ft >= tape.length_ft:
        texts.append(Text(x_in=x(high_ft) + 0.05, y_in=y0 - 0.04, text="far end", size_pt=9, bold=True))
    trusses = tuple(
        rectangle(
            x(m.bearing.station_ft - m.bearing.plies * HALF_PLY_FT),
            y0 + 0.09,
            x(m.bearing.station_ft + m.bearing.plies * HALF_PLY_FT),
            y1,
            width_pt=0.4,
        )
        for m in dict.fromkeys(t.mark for t in piece.ticks)
        if m.bearing.kind is not MemberKind.GABLE_END
    )
    return Drawing(lines=tuple(lines), shapes=trusses, texts=tuple(texts))


def _break(x: float, y0: float, y1: float) -> list[Line]:
    """The zigzag where the wall goes on, on another strip."""
    step = (y1 - y0) / 4
    points = [(x, y0), (x + 0.04, y0 + step), (x - 0.04, y1 - step), (x, y1), (x, y1 + step)]
    return [Line(start_in=a, end_in=b, width_pt=0.8) for a, b in itertools.pairwise(points)]


def _leaders(columns: tuple[Column, ...], wanted: Sequence[float], band_bottom_in: float) -> Drawing:
    """Each tick through the band, and the line from it to the head of its column."""
    lines = []
    for column, x in zip(columns, wanted, strict=True):
        foot = (x, band_bottom_in + 0.03)
        lines.append(Line(start_in=(x, band_bottom_in - BAND_IN), end_in=foot, width_pt=1.6))
        lines.append(Line(start_in=foot, end_in=(column.x_in, band_bottom_in + LEADERS_IN), width_pt=0.6))
    return Drawing(lines=tuple(lines))
