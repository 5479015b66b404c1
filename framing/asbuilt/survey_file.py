"""Survey files -> Survey: the only reader of lists of straps as set, the phone page's or one written by hand."""

from __future__ import annotations

import csv
import difflib
import io
import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from framing.anchors.schedule import AnchorSchedule, Mark
from framing.asbuilt.entries import Entry, Survey, Written
from framing.errors import SurveyError
from framing.plan import Side
from framing.text_file import read_text
from framing.units import length_ft, shown

COLUMNS = (
    *("mark", "set", "offset_in", "side", "note", "strap", "wall", "anchor", "tape", "state", "gap_in", "holes_above"),
    *("by", "when", "fingerprint", "caution", "measured", "in_from_face_in"),
)
MOST_ROWS, LONGEST_CELL = 20_000, 400
BOUNDS_IN = {"offset_in": (-600.0, 600.0), "gap_in": (0.0, 60.0), "in_from_face_in": (0.0, 60.0)}
SIDES = {"start": Side.START, "far": Side.FAR, "inside": Side.INSIDE, "outside": Side.OUTSIDE}
YES, NO = ("yes", "y", "x", "1"), ("no", "n", "0")
_INCHES = re.compile(
    r"([+-]?)\s*(?:(\d{1,3}(?:\.\d{0,4})?|\.\d{1,4})|(?:(\d{1,3})[ -]+)?(\d{1,2})/(\d{1,2}))\s*(?:\"|in\.?)?", re.ASCII
)
INCHES_RIGHT = "write inches such as 1/4, -3/8, 1 1/2 or 0.25"


def read_surveys(paths: Sequence[Path], schedule: AnchorSchedule) -> Survey:
    """The straps of one or more lists against the marks of a plan.

    A strap that several lists have is told by the one that says anything of it; where more do, they must agree or bear
    times, of which the last holds.

    Raises
    ------
    SurveyError
        If a file cannot be read, a cell is wrong or two lists disagree: one sentence with the row (the header is
        row 1) and the column.
    """
    marks = {m.mark: m for m in schedule.marks}
    found: dict[tuple[str, int], Entry] = {}
    plans: dict[str, None] = {}
    for path in paths:
        seen: dict[tuple[str, int], str] = {}
        for row in _rows(read_text(path, "survey", SurveyError), path.name):
            entry = row.entry(marks)
            key = (entry.mark, entry.strap)
            if key in seen:
                raise row.wrong("mark", f"{entry.mark} strap {entry.strap} is in row {seen[key]} too; write it once")
            seen[key] = str(row.number)
            if plan := row.text("fingerprint"):
                plans[plan] = None
            found[key] = _merged(found[key], entry, row) if key in found else entry
        if not seen:
            raise SurveyError(f"{path.name}: there is no strap in it; write a row for each strap below the header")
    return Survey(entries=tuple(found.values()), plans=tuple(plans), names=tuple(p.name for p in paths))


def _merged(one: Entry, other: Entry, row: _Row) -> Entry:
    """What two lists say of one strap."""
    if not other.touched:
        return one
    if not one.touched or _said(one) == _said(other):
        return other
    if one.when and other.when and one.when != other.when:
        return max(one, other, key=lambda e: e.when)
    right = "write the time of each in the column when, or leave one out"
    raise row.wrong("mark", f"{other.mark} strap {other.strap} is told otherwise at {one.where}; {right}")


def _said(e: Entry) -> tuple[object, ...]:
    return (e.written, e.offset_in, e.gap_in, e.face_in, e.side, e.anchor)


def _rows(text: str, name: str) -> Iterator[_Row]:
    """The rows below the header that hold anything."""
    first = text.partition("\n")[0]
    delimiter = max((",", "\t", ";"), key=first.count)
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True))
    except csv.Error as problem:
        right = "save the table as text with commas, tabs or semicolons"
        raise SurveyError(f"{name}: this is not CSV ({problem}); {right}") from None
    header = tuple(cell.strip().lower() for cell in lines[0]) if lines else ()
    _check_header(header, name)
    if len(lines) > MOST_ROWS:
        raise SurveyError(f"{name}: {len(lines)} rows are too many; write at most {MOST_ROWS}")
    for number, line in enumerate(lines[1:], 2):
        cells = [cell.strip() for cell in line]
        if not any(cells):
            continue
        if any(cells[len(header) :]) or len(cells) < len(header):
            raise SurveyError(
                f"{name} row {number}: it has {len(cells)} cells and the header {len(header)}; "
                "write one cell for each column, and text with separators in double quotes"
            )
        yield _Row(name, number, dict(zip(header, cells, strict=False)))


def _check_header(header: tuple[str, ...], name: str) -> None:
    for column in header:
        if column not in COLUMNS:
            nearest = max(COLUMNS, key=lambda known: difflib.SequenceMatcher(None, column, known).ratio())
            raise SurveyError(f"{name} row 1: unknown column {shown(column)}; the nearest known is {nearest}")
        if header.count(column) > 1:
            raise SurveyError(f"{name} row 1: the column {column} is there twice; write each column once")
    if "mark" not in header:
        raise SurveyError(f"{name} row 1: the column mark is missing; write the plan's marks in it")
    if not {"set", "state", "offset_in", "gap_in", "measured"} & set(header):
        right = "write set (yes or no), state, offset_in, gap_in or measured"
        raise SurveyError(f"{name} row 1: no column says whether a strap is there; {right}")


class _Row:
    """One row's cells by column, each read or refused with its place."""

    def __init__(self, file: str, number: int, cells: dict[str, str]) -> None:
        self.file, self.number, self.cells = file, number, cells

    def wrong(self, column: str, what: str) -> SurveyError:
        """The error for a cell."""
        return SurveyError(f"{self.file} row {self.number}, {column}: {what}")

    def text(self, column: str) -> str:
        """A cell of text without the mark that keeps spreadsheets from reckoning; '' where the column is not there."""
        cell = self.cells.get(column, "").replace("\r", " ").replace("\n", " ")
        if len(cell) > LONGEST_CELL and column != "caution":
            raise self.wrong(column, f"the text is too long; write at most {LONGEST_CELL} characters")
        return cell[1:] if re.match(r"'[=+\-@\t]", cell) else cell

    def entry(self, marks: dict[str, Mark]) -> Entry:
        """The strap of this row."""
        mark = self._mark(marks)
        strap = self._strap(mark)
        offset_in = self._offset(mark, strap)
        gap_in, face_in = self._inches("gap_in"), self._inches("in_from_face_in")
        side = self._side(mark, strap)
        return Entry(
            mark=mark.mark,
            strap=strap,
            written=self._written(measured=any(v is not None for v in (offset_in, gap_in, face_in))),
            offset_in=offset_in,
            gap_in=gap_in,
            face_in=face_in,
            side=side,
            anchor=self.text("anchor"),
            note=self.text("note"),
            by=self.text("by"),
            when=self.text("when"),
            where=f"{self.file} row {self.number}",
        )

    def _mark(self, marks: dict[str, Mark]) -> Mark:
        name = self.text("mark").upper()
        if not name:
            raise self.wrong("mark", "the cell is empty; write the plan's mark")
        if name not in marks:
            nearest = max(marks, key=lambda known: difflib.SequenceMatcher(None, name, known).ratio(), default="none")
            raise self.wrong("mark", f"{shown(name)} is not in the plan; the nearest known is {nearest}")
        wall = self.text("wall").upper()
        if wall and wall != marks[name].bearing.wall:
            raise self.wrong("wall", f"{shown(wall)} is not where {name} is; write {marks[name].bearing.wall}")
        return marks[name]

    def _strap(self, mark: Mark) -> int:
        cell, most = self.text("strap"), len(mark.straps)
        if not most:
            raise self.wrong("mark", f"{mark.mark} has the engineer's connection and no strap; leave the row out")
        if not cell and most > 1:
            raise self.wrong("strap", f"the cell is empty and {mark.mark} has {most} straps; write 1 to {most}")
        if not cell:
            return 1
        if not re.fullmatch(r"\d{1,2}", cell, re.ASCII) or not 1 <= int(cell) <= most:
            right = f"write 1 to {most}" if most > 1 else "write 1"
            raise self.wrong("strap", f"{shown(cell)} is no strap of {mark.mark}; {right}")
        return int(cell)

    def _inches(self, column: str) -> float | None:
        cell = self.text(column).replace("\N{MINUS SIGN}", "-").replace(",", ".")
        if not cell:
            return None
        parts = _INCHES.fullmatch(cell)
        if not parts or parts[5] in ("0", "00"):
            raise self.wrong(column, f"{shown(cell)} is not inches; {INCHES_RIGHT}")
        size = float(parts[2]) if parts[2] else float(parts[3] or 0) + float(parts[4]) / float(parts[5])
        value = -size if parts[1] == "-" else size
        low, high = BOUNDS_IN[column]
        if not low <= value <= high:
            raise self.wrong(column, f"{shown(cell)} is out of range; write {low:g} to {high:g} in.")
        return value

    def _offset(self, mark: Mark, strap: int) -> float | None:
        """How far off its mark; from the tape's figure as set where that was written."""
        offset_in, cell = self._inches("offset_in"), self.text("measured")
        if not cell:
            return offset_in
        if offset_in is not None:
            raise self.wrong("measured", "offset_in is written too; write one of them")
        try:
            off = 12.0 * (length_ft(cell) - tape_order(mark)[strap - 1])
        except ValueError as problem:
            raise self.wrong("measured", f"{problem}; write the tape's figure such as 12'-7 1/4\"") from None
        low, high = BOUNDS_IN["offset_in"]
        if not low <= off <= high:
            raise self.wrong("measured", f"{shown(cell)} is {abs(off) / 12:.0f} ft off {mark.mark}; write feet first")
        return off

    def _side(self, mark: Mark, strap: int) -> Side | None:
        cell = self.text("side").lower().removesuffix(" side").removesuffix(" face")
        if not cell:
            return None
        own = strap_in_order(mark, strap)
        right = (Side.START, Side.FAR) if own in (Side.START, Side.FAR) else (Side.INSIDE, Side.OUTSIDE)
        if SIDES.get(cell) not in right:
            raise self.wrong("side", f"{shown(cell)} is no face at {mark.mark}; write {right[0]} or {right[1]}")
        return SIDES[cell]

    def _written(self, *, measured: bool) -> Written:
        told, state = self.text("set").lower(), self.text("state").lower()
        if told and told not in (*YES, *NO):
            raise self.wrong("set", f"{shown(told)} is not known; write yes or no")
        if state and state not in set(Written):
            raise self.wrong("state", f"{shown(state)} is not known; write {', '.join(Written)}")
        if state and told and (told in YES) is not (state == Written.SET):
            raise self.wrong("state", f'"{state}" does not go with set "{told}"; write yes only with set')
        if state:
            return Written(state)
        if told:
            return Written.SET if told in YES else Written.MISSING
        return Written.SET if measured else Written.TO_SET


def tape_order(mark: Mark) -> tuple[float, ...]:
    """The tape's figures of a mark's straps as they are numbered: along the tape. [ft]"""
    return tuple(sorted(s.tape_ft for s in mark.straps))


def strap_in_order(mark: Mark, strap: int) -> Side:
    """The face that a mark's strap of that number lies against."""
    return sorted(mark.straps, key=lambda s: s.tape_ft)[strap - 1].side
