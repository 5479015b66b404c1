"""Changes -> changes.csv: a row for every mark of either house."""

from __future__ import annotations

from export.changes.differences import Change
from export.changes.sources import HouseThen, MarkThen
from export.changes.words import change_words
from export.tables.csv_rows import csv_rows_bytes, safe_text
from framing.run import CAUTION
from framing.units import feet_inches

HALF = ("mark", "wall", "member", "tape", "anchor", "count", "side", "uplift_lb")
COLUMNS = (
    *("changed", "moved_in", *(f"{c}_before" for c in HALF), *(f"{c}_after" for c in HALF), "words"),
    *("fingerprint_before", "fingerprint_after", "caution"),
)


def changes_csv(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> bytes:
    """UTF-8 with byte-order mark, comma, CRLF; the caution in the last column."""
    rows = [
        (
            " ".join(c.what) or "no",
            f"{12.0 * c.moved_ft:.3f}" if c.before and c.after else "",
            *_half(c.before),
            *_half(c.after),
            safe_text(change_words(c)),
            before.fingerprint,
            after.fingerprint,
            CAUTION,
        )
        for c in changes
    ]
    return csv_rows_bytes(COLUMNS, rows)


def _half(m: MarkThen | None) -> tuple[str, ...]:
    if m is None:
        return ("",) * len(HALF)
    texts = (m.mark, m.wall, m.member, feet_inches(m.tape_ft), m.anchor)
    return (*(safe_text(t) for t in texts), str(m.count), m.side, f"{m.uplift_lb:.1f}")
