"""Run -> the rows of text that belong to each wall: START, headings, every mark, the wall's end."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import accumulate

from export.paper.lettering import narrowing, printable, text_width_in
from export.paper.sheet import Point
from export.wall_marks.tape_marks import FACE_WORDS, LEAST_SKEW_DEG, Tape, Tick, place_words
from framing.anchors.schedule import Mark
from framing.members import Crossing, MemberKind
from framing.plan import Side, Support
from framing.run import Run
from framing.units import feet_inches, inches

UNRESOLVED = "UNRESOLVED"
HEADINGS = ("mark", "tape", "truss centre", "anchor")
CALLED_OUT = frozenset({MemberKind.HIP_GIRDER, MemberKind.GIRDER, MemberKind.CORNER_JACK})
COLUMN_GAP_IN = 0.08


FEWEST_MARKS_WITH_HEADING = 4
LONGEST_ID_IN = 2.5


class Detail(StrEnum):
    """How much a wall's rows say on the plan: all, or mark and anchor only where the rest is drawn apart."""

    FULL = "full"
    SHORT = "short"


class RowKind(StrEnum):
    """What a row says."""

    START = "start"
    HEADING = "heading"
    MARK = "mark"
    FAR_FACE = "far face"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class TextSizes:
    """Heights of capitals on one size of sheet, how narrow letters are, and whether rows name their members."""

    label_in: float
    figure_in: float
    start_in: float
    width_ratio: float
    names_in_rows: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row: where on the wall it belongs, its columns, and what is called out behind them."""

    wall: str
    kind: RowKind
    station_ft: float
    cells: tuple[str, ...]
    call: str = ""
    mark: Mark | None = None
    tick: Tick | None = None

    def height_in(self, sizes: TextSizes) -> float:
        """How much of the wall's direction the row needs. [in]."""
        if self.kind is RowKind.START:
            return 1.6 * sizes.start_in
        return 1.5 * (sizes.label_in if self.kind is RowKind.HEADING else sizes.figure_in)

    def cell_height_in(self, column: int, sizes: TextSizes) -> float:
        """Height of the text of one column; the tape's figure is the one to be read first. [in]."""
        if self.kind is RowKind.START:
            return sizes.start_in
        return sizes.figure_in if column == 1 and self.kind is not RowKind.HEADING else sizes.label_in

    def bold(self, column: int) -> bool:
        """Whether a column's text is heavy."""
        return self.kind is RowKind.START or (column == 1 and self.kind is not RowKind.HEADING) or column > 3


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLine:
    """A wall, or a support that holds down, as the tape is laid along it: left to right from outside."""

    name: str
    start_ft: Point
    end_ft: Point
    length_ft: float
    outward: Point
    thickness_ft: float
    outside: bool

    def point_ft(self, station_ft: float, inset_ft: float = 0.0) -> Point:
        """The plan point at a station, moved inward."""
        ux, uy = -self.outward[1], self.outward[0]
        return (
            self.start_ft[0] + ux * station_ft - self.outward[0] * inset_ft,
            self.start_ft[1] + uy * station_ft - self.outward[1] * inset_ft,
        )


def wall_lines(run: Run) -> tuple[WallLine, ...]:
    """The outside walls, then the supports that carry marks. A support's own line is its middle."""
    walls = [
        WallLine(
            name=w.name,
            start_ft=w.start_ft,
            end_ft=w.end_ft,
            length_ft=w.length_ft,
            outward=w.outward,
            thickness_ft=w.thickness_ft,
            outside=True,
        )
        for w in run.outline.walls
    ]
    marked = {m.bearing.wall for m in run.schedule.marks if not m.bearing.by_engineer}
    named = ((f"S{k}", support) for k, support in enumerate(run.plan.supports, start=1))
    return (*walls, *(support_line(name, support) for name, support in named if name in marked))


def support_line(name: str, support: Support) -> WallLine:
    """A support as a line for the tape, from its 'from' end."""
    (x0, y0), (x1, y1) = support.start_ft, support.end_ft
    length_ft = math.dist(support.start_ft, support.end_ft)
    return WallLine(
        name=name,
        start_ft=support.start_ft,
        end_ft=support.end_ft,
        length_ft=length_ft,
        outward=((y1 - y0) / length_ft, -(x1 - x0) / length_ft),
        thickness_ft=0.0,
        outside=False,
    )


def rows_of(tape: Tape, also_named: frozenset[str], sizes: TextSizes, detail: Detail = Detail.FULL) -> tuple[Row, ...]:
    """The rows of one wall in the order of the tape.

    `also_named` are the members that found no room for their name on the plan: it stands in their row.
    """
    name = tape.name
    start = Row(wall=name, kind=RowKind.START, station_ft=0.0, cells=(f"START {name}",))
    if not tape.ticks:
        none = Row(wall=name, kind=RowKind.HEADING, station_ft=0.0, cells=("no anchors on this wall",))
        return (start, none)
    rows = tuple(_tick_row(t, tape.usual_side, also_named, sizes) for t in tape.ticks)
    if detail is Detail.SHORT:
        own = [r for r in rows if r.kind is RowKind.MARK]
        return (start, *(replace(r, cells=(r.cells[0], "", "", r.cells[3]), call="") for r in own))
    heading = Row(wall=name, kind=RowKind.HEADING, station_ft=0.0, cells=HEADINGS)
    length = feet_inches(tape.length_ft)
    end = Row(wall=name, kind=RowKind.END, station_ft=tape.length_ft, cells=(f"end {name}", length, "", ""))
    return (start, *([heading] if len(rows) >= FEWEST_MARKS_WITH_HEADING else []), *rows, end)


def _tick_row(t: Tick, usual: Side, also_named: frozenset[str], sizes: TextSizes) -> Row:
    m, wall = t.mark, t.mark.bearing.wall
    tape = feet_inches(t.station_ft)
    if t.number > 1:
        cells = (m.mark, tape, "far face" if t.side is Side.FAR else FACE_WORDS[t.side], "")
        call = _place(t)
        return Row(wall=wall, kind=RowKind.FAR_FACE, tick=t, station_ft=t.station_ft, cells=cells, call=call, mark=m)
    anchor = printable(f"{m.count} {m.anchor.id}") if m.anchor else UNRESOLVED
    cells = (m.mark, tape, feet_inches(m.bearing.station_ft), anchor)
    side = "" if t.side is usual or m.count > 1 else FACE_WORDS[t.side]
    call = ", ".join(filter(None, (_call(m, also_named, sizes), side, _crossing(m), _place(t))))
    return Row(wall=wall, kind=RowKind.MARK, tick=t, station_ft=t.station_ft, cells=cells, call=call, mark=m)


def _place(t: Tick) -> str:
    """How far in from the outside face, or faces, where that is not the middle of the wall beside a square truss."""
    strap, b = t.strap, t.mark.bearing
    if strap.in_from_face_ft is None or not place_words(t):
        return ""
    if strap.in_from_next_ft is None:
        return f"{inches(strap.in_from_face_ft)} in"
    return f"corner {inches(strap.in_from_face_ft)} {b.wall}, {inches(strap.in_from_next_ft)} {b.next_wall}"


def _crossing(m: Mark) -> str:
    """The angle of a truss that crosses its wall off square."""
    off = m.bearing.skew_deg >= LEAST_SKEW_DEG
    return f"{m.bearing.skew_deg:.0f} deg" if off and m.bearing.crossing is not Crossing.ALONG else ""


def _call(m: Mark, also_named: frozenset[str], sizes: TextSizes) -> str:
    """What is called out behind a row: girders and corners always, others where the plan had no room."""
    b = m.bearing
    if not sizes.names_in_rows:
        return "" if b.kind not in CALLED_OUT else "corner" if b.kind is MemberKind.CORNER_JACK else "girder"
    plies = f", {b.plies} ply" if b.plies > 1 else ""
    return f"{printable(b.member)}{plies}" if b.kind in CALLED_OUT or b.member in also_named else ""


def cell_width_in(row: Row, column: int, text: str, sizes: TextSizes) -> float:
    """How wide the text of one column is. [in]."""
    height, bold = row.cell_height_in(column, sizes), row.bold(column) or text == UNRESOLVED
    return cell_ratio(row, column, text, sizes) * text_width_in(text, height, bold=bold)


def cell_ratio(row: Row, column: int, text: str, sizes: TextSizes) -> float:
    """How narrow the letters of a column are: a long id's narrower, so that all of it stands there."""
    height, bold = row.cell_height_in(column, sizes), row.bold(column) or text == UNRESOLVED
    return (
        narrowing(text, LONGEST_ID_IN, height, bold=bold, at_most=sizes.width_ratio)
        if column > 2
        else sizes.width_ratio
    )


def column_widths(rows: tuple[Row, ...], sizes: TextSizes) -> tuple[float, ...]:
    """How wide each column of a strip must be, the called-out names last. [in]."""
    widths = [0.0] * 5
    for row in (r for r in rows if len(r.cells) > 1):
        for i, text in enumerate((*row.cells, row.call)):
            widths[i] = max(widths[i], cell_width_in(row, i, text, sizes))
    lone = max((cell_width_in(r, 0, r.cells[0], sizes) for r in rows if len(r.cells) == 1), default=0.0)
    widths[3] += max(0.0, lone - sum(w + COLUMN_GAP_IN for w in widths[:4] if w > 0) + COLUMN_GAP_IN)
    return tuple(widths)


def spread(wanted: list[float], heights: list[float]) -> list[float]:
    """Places in the given order, as near as possible to those wanted, none nearer than their heights allow.

    The least sum of squared moves: isotonic regression by pooling neighbours.
    Source: Ayer and others, Annals of Mathematical Statistics 26 (1955), 641 (pool adjacent violators; from memory).
    """
    offsets = [below - 0.5 * h for below, h in zip(accumulate(heights), heights, strict=True)]
    pools: list[tuple[float, int]] = []
    for want, offset in zip(wanted, offsets, strict=True):
        total, n = want - offset, 1
        while pools and pools[-1][0] / pools[-1][1] > total / n:
            before = pools.pop()
            total, n = total + before[0], n + before[1]
        pools.append((total, n))
    free = [total / n for total, n in pools for _ in range(n)]
    return [f + o for f, o in zip(free, offsets, strict=True)]
