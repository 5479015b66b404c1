"""Survey files -> Survey: the only reader of lists of straps as set, the phone page's or one written by hand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

from framing.anchors.schedule import Mark
from framing.asbuilt.entries import Entry, Survey, Written
from framing.errors import SurveyError
from framing.package.ours import wall_lengths
from framing.plan import Side
from framing.run import Run
from framing.table_file import Row, nearest, read_table
from framing.text_file import read_text
from framing.units import feet_inches, length_ft, shown

COLUMNS = (
    *("mark", "set", "offset_in", "side", "note", "strap", "wall", "anchor", "tape", "state", "gap_in", "holes_above"),
    *("by", "when", "fingerprint", "caution", "measured", "in_from_face_in"),
)
TELLING = ("set", "state", "offset_in", "measured", "gap_in", "in_from_face_in")
MOST_ROWS, LONGEST_NOTE = 20_000, 1_000
BOUNDS_IN = {"offset_in": (-600.0, 600.0), "gap_in": (0.0, 60.0), "in_from_face_in": (0.0, 60.0)}
BEYOND_FT = 0.25  # a tape hooked over a corner's plaster or form: no strap is told from such a slip
SIDES = {"start": Side.START, "far": Side.FAR, "inside": Side.INSIDE, "outside": Side.OUTSIDE}
YES, NO = ("yes", "y", "x", "1"), ("no", "n", "0")
_INCHES = re.compile(
    r"([+-]?)\s*(?:(\d{1,3}(?:\.\d{0,4})?|\.\d{1,4})|(?:(\d{1,3})[ -]+)?(\d{1,2})/(\d{1,2}))\s*(?:\"|in\.?)?", re.ASCII
)
_TIME = re.compile(r"\d{4}-\d\d-\d\d[ T]\d\d:\d\d(:\d\d)?", re.ASCII)
INCHES_RIGHT = "write inches such as 1/4, -3/8, 1 1/2 or 0.25"


def read_surveys(paths: Sequence[Path], run: Run) -> Survey:
    """The straps of one or more lists against the marks of a run.

    A strap that several lists have is told by the one that says anything of it; where more do, they must agree or bear
    times, of which the last holds.

    Raises
    ------
    SurveyError
        If a file cannot be read, a cell is wrong or two lists disagree: one sentence with the row (the header is
        row 1) and the column.
    """
    marks = {m.mark: m for m in run.schedule.marks}
    lengths_ft, thickness_in = wall_lengths(run.plan, run.outline), 12.0 * run.plan.wall_thickness_ft
    found: dict[tuple[str, int], Entry] = {}
    plans: dict[str, None] = {}
    for path in paths:
        seen: dict[tuple[str, int], str] = {}
        for row in _rows(read_text(path, "survey", SurveyError), path.name):
            entry = _entry(row, marks, lengths_ft, thickness_in)
            key = (entry.mark, entry.strap)
            if key in seen:
                raise row.wrong("mark", f"{entry.mark} strap {entry.strap} is in row {seen[key]} too; write it once")
            seen[key] = str(row.number)
            if plan := row.text("fingerprint"):
                plans[plan] = None
            found[key] = _merged(found[key], entry, row) if key in found else entry
    return Survey(entries=tuple(found.values()), plans=tuple(plans), names=tuple(p.name for p in paths))


def _merged(one: Entry, other: Entry, row: Row) -> Entry:
    """What two lists say of one strap."""
    if not other.touched:
        return one
    if not one.touched or _said(one) == _said(other):
        return other
    right = "write the time of each in the column when, or leave one out"
    if one.when and other.when and one.when != other.when:
        if _TIME.fullmatch(one.when) and _TIME.fullmatch(other.when):
            return max(one, other, key=lambda e: e.when.replace("T", " "))
        right = f"write both times such as 2026-12-03 09:30, not {shown(one.when)} and {shown(other.when)}"
    raise row.wrong("mark", f"{other.mark} strap {other.strap} is told otherwise at {one.where}; {right}")


def _said(e: Entry) -> tuple[object, ...]:
    return (e.written, e.offset_in, e.gap_in, e.face_in, e.side, e.anchor)


def _rows(text: str, name: str) -> Iterator[Row]:
    """The rows below the header that hold anything."""
    table = read_table(text, name, SurveyError, most_rows=MOST_ROWS, joined=True)
    rows = list(table.rows(COLUMNS, ("mark",), "the plan's marks in it"))
    if not set(TELLING) & {column.lower() for column in table.header}:
        right = "write set (yes or no), state, offset_in, measured, gap_in or in_from_face_in"
        raise table.wrong(table.header_row, f"no column says whether a strap is there; {right}")
    if not rows:
        raise SurveyError(f"{name}: there is no strap in it; write a row for each strap below the header")
    return iter(rows)


def _entry(row: Row, marks: Mapping[str, Mark], lengths_ft: Mapping[str, float], thickness_in: float) -> Entry:
    """The strap of this row."""
    mark = _mark(row, marks)
    strap = _strap(row, mark)
    offset_in = _offset(row, mark, strap, lengths_ft[mark.bearing.wall])
    gap_in, face_in = _inches(row, "gap_in"), _inches(row, "in_from_face_in")
    if face_in is not None and face_in > thickness_in:
        what = f"{shown(row.text('in_from_face_in'))} is beyond the wall, which is {thickness_in:g} in. thick"
        raise row.wrong("in_from_face_in", f"{what}; measure from its outside face to the middle of the strap")
    side = _side(row, mark, strap)
    return Entry(
        mark=mark.mark,
        strap=strap,
        written=_written(row, measured=any(v is not None for v in (offset_in, gap_in, face_in))),
        offset_in=offset_in,
        gap_in=gap_in,
        face_in=face_in,
        side=side,
        anchor=row.text("anchor"),
        note=row.text("note", LONGEST_NOTE),
        by=row.text("by"),
        when=row.text("when"),
        where=f"{row.table.name} row {row.number}",
    )


def _mark(row: Row, marks: Mapping[str, Mark]) -> Mark:
    name = row.text("mark").upper()
    if not name:
        raise row.wrong("mark", "the cell is empty; write the plan's mark")
    if name not in marks:
        raise row.wrong("mark", f"{shown(name)} is not in the plan; the nearest known is {nearest(name, marks)}")
    wall = row.text("wall").upper()
    if wall and wall != marks[name].bearing.wall:
        raise row.wrong("wall", f"{shown(wall)} is not where {name} is; write {marks[name].bearing.wall}")
    return marks[name]


def _strap(row: Row, mark: Mark) -> int:
    cell, most = row.text("strap"), len(mark.straps)
    if not most:
        raise row.wrong("mark", f"{mark.mark} has the engineer's connection and no strap; leave the row out")
    if not cell and most > 1:
        raise row.wrong("strap", f"the cell is empty and {mark.mark} has {most} straps; write 1 to {most}")
    if not cell:
        return 1
    if not re.fullmatch(r"\d{1,2}", cell, re.ASCII) or not 1 <= int(cell) <= most:
        right = f"write 1 to {most}" if most > 1 else "write 1"
        raise row.wrong("strap", f"{shown(cell)} is no strap of {mark.mark}; {right}")
    return int(cell)


def _inches(row: Row, column: str) -> float | None:
    cell = row.text(column)
    if not cell:
        return None
    parts = _INCHES.fullmatch(cell.replace(",", "."))
    if not parts or parts[5] in ("0", "00"):
        raise row.wrong(column, f"{shown(cell)} is not inches; {INCHES_RIGHT}")
    size = float(parts[2]) if parts[2] else float(parts[3] or 0) + float(parts[4]) / float(parts[5])
    value = -size if parts[1] == "-" else size
    low, high = BOUNDS_IN[column]
    if not low <= value <= high:
        raise row.wrong(column, f"{shown(cell)} is out of range; write {low:g} to {high:g} in.")
    return value


def _offset(row: Row, mark: Mark, strap: int, length_of_wall_ft: float) -> float | None:
    """How far off its mark; from the tape's figure as set where that was written. No strap stands beyond its wall."""
    offset_in, cell = _inches(row, "offset_in"), row.text("measured")
    planned_ft, column = tape_order(mark)[strap - 1], "measured" if cell else "offset_in"
    if offset_in is not None and cell:
        raise row.wrong("measured", "offset_in is written too; write one of them")
    try:
        offset_in = 12.0 * (length_ft(cell) - planned_ft) if cell else offset_in
    except ValueError as problem:
        raise row.wrong("measured", str(problem)) from None
    if offset_in is None:
        return None
    stands_ft = planned_ft + offset_in / 12.0
    if not -BEYOND_FT <= stands_ft <= length_of_wall_ft + BEYOND_FT:
        where = f"{feet_inches(stands_ft)} on {mark.bearing.wall}, which is {feet_inches(length_of_wall_ft)} long"
        right = "the tape's figure from START" if cell else "inches, positive away from START"
        raise row.wrong(column, f"{shown(row.text(column))} puts {mark.mark} at {where}; write {right}")
    return offset_in


def _side(row: Row, mark: Mark, strap: int) -> Side | None:
    cell = row.text("side").lower().removesuffix(" side").removesuffix(" face")
    if not cell:
        return None
    own = strap_in_order(mark, strap)
    right = (Side.START, Side.FAR) if own in (Side.START, Side.FAR) else (Side.INSIDE, Side.OUTSIDE)
    if SIDES.get(cell) not in right:
        raise row.wrong("side", f"{shown(cell)} is no face at {mark.mark}; write {right[0]} or {right[1]}")
    return SIDES[cell]


def _written(row: Row, *, measured: bool) -> Written:
    told, state = row.text("set").lower(), row.text("state").lower()
    if told and told not in (*YES, *NO):
        raise row.wrong("set", f"{shown(told)} is not known; write yes or no")
    if state and state not in set(Written):
        raise row.wrong("state", f"{shown(state)} is not known; write {', '.join(Written)}")
    if state and told and (told in YES) is not (state == Written.SET):
        raise row.wrong("state", f'"{state}" does not go with set "{told}"; write yes only with set')
    if state:
        return Written(state)
    if told in NO and measured:
        right = "write yes, or what it is in the column state (missing, wrong or ask)"
        raise row.wrong("set", f"{shown(told)} and yet the strap is measured; {right}")
    if told:
        return Written.SET if told in YES else Written.MISSING
    return Written.SET if measured else Written.TO_SET


def tape_order(mark: Mark) -> tuple[float, ...]:
    """The tape's figures of a mark's straps as they are numbered: along the tape. [ft]"""
    return tuple(sorted(s.tape_ft for s in mark.straps))


def strap_in_order(mark: Mark, strap: int) -> Side:
    """The face that a mark's strap of that number lies against."""
    return sorted(mark.straps, key=lambda s: s.tape_ft)[strap - 1].side
