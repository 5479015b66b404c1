"""Run -> an empty table of reactions: every mark of ours, the figures left for the truss engineer."""

from __future__ import annotations

from export.tables.csv_rows import csv_rows_bytes, safe_text
from framing.members import Bearing
from framing.run import CAUTION, Run
from framing.units import feet_inches

COLUMNS = (
    *("mark", "member", "wall", "station", "plies", "bearing", "uplift_lb", "down_lb", "horizontal_lb"),
    *("parallel_lb", "perpendicular_lb", "basis", "wind_speed_mph", "exposure", "enclosure", "edition", "rev"),
    *("accepted", "note", "fingerprint", "caution"),
)


def blank_csv(run: Run) -> bytes:
    """UTF-8 with byte-order mark, comma, CRLF; what ours is stands in the note, so that nothing of ours is taken for
    the engineer's.
    """
    rows = [_row(b, run) for b in (*run.framing.bearings, *run.framing.rests)]
    return csv_rows_bytes(COLUMNS, rows)


def _row(b: Bearing, run: Run) -> tuple[str, ...]:
    plies = f"{b.plies} {'ply' if b.plies == 1 else 'plies'}"
    note = f"ours: centre at {feet_inches(b.station_ft)} on {b.wall}, {plies}"
    empty = {"station", "plies", "bearing"} | set(COLUMNS[6:18])
    said = {"mark": b.mark, "member": b.member, "wall": b.wall, "note": note}
    last = {"fingerprint": run.fingerprint, "caution": CAUTION}
    return tuple("" if c in empty else safe_text((said | last)[c]) for c in COLUMNS)
