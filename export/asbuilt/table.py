"""Findings -> asbuilt.csv: a row for every strap of the plan, as planned and as set."""

from __future__ import annotations

from export.asbuilt.words import Findings, retrofit_words, spare_words
from export.tables.csv_rows import csv_bytes, safe_text
from framing.asbuilt.judge import AsBuilt
from framing.units import feet_inches

COLUMNS = (
    *("mark", "strap", "wall", "member", "planned", "side", "anchor", "state", "words", "mistake", "off_in", "gap_in"),
    *("off_face_in", "truss_shift_in", "uplift_lb", "parallel_lb", "perpendicular_lb", "neighbours_spare", "before"),
    *("question", "retrofit", "note", "by", "when"),
)


def asbuilt_csv(found: Findings) -> bytes:
    """UTF-8 with byte-order mark, comma, CRLF; the caution in the last column."""
    faults = {f.strap.name: f for f in found.faults}
    mistakes = {name: p.words for p in found.patterns for name in p.straps}
    rows = []
    for s in found.straps:
        fault = faults.get(s.name)
        said = (
            (spare_words(fault), fault.before, fault.question, retrofit_words(fault) if fault.retrofit else "")
            if fault
            else ("",) * 4
        )
        rows.append((*_strap(s, mistakes.get(s.name, "")), *map(safe_text, said), *_written(s)))
    return csv_bytes(found.run, COLUMNS, rows)


def _strap(s: AsBuilt, mistake: str) -> tuple[str, ...]:
    bearing = s.mark.bearing
    anchor = s.mark.anchor.id if s.mark.anchor else ""
    return (
        safe_text(s.mark.mark),
        str(s.number),
        safe_text(bearing.wall),
        safe_text(bearing.member),
        safe_text(feet_inches(s.strap.tape_ft)),
        s.strap.side.value,
        safe_text(anchor),
        s.state.value,
        safe_text(s.words),
        safe_text(mistake),
        *(_number(v, 3) for v in (s.along_in, s.away_in, s.off_face_in, s.shift_in)),
        *(_number(v, 1) for v in (s.mark.uplift_lb, s.mark.parallel_lb, s.mark.perpendicular_lb)),
    )


def _written(s: AsBuilt) -> tuple[str, ...]:
    e = s.entry
    return tuple(map(safe_text, (e.note, e.by, e.when))) if e else ("", "", "")


def _number(value: float | None, places: int) -> str:
    return "" if value is None else f"{value:.{places}f}"
