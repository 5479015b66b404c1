"""Run -> engineer.csv: the figures for the engineer of record, a row each."""

from __future__ import annotations

from export.tables.csv_rows import csv_bytes, decimal, safe_text
from framing.explain.hand_over import HandOver, hand_over
from framing.run import Run

COLUMNS = ("what", "where", "case", "value", "unit", "clause")


def engineer_csv(run: Run) -> bytes:
    """Pressures by zone, shear along each line, and for each wall net uplift, tie beam, openings and base reactions.

    Returns
    -------
    bytes
        UTF-8 with byte-order mark, comma, CRLF; `COLUMNS`, then the fingerprint and the caution. Uplift and pull are
        positive up, pressure toward the surface.
    """
    return csv_bytes(run, COLUMNS, [_row(r) for r in hand_over(run)])


def _row(r: HandOver) -> tuple[str, ...]:
    words = (safe_text(t) for t in (r.what, r.where, r.case))
    return (*words, decimal(r.value, 4), safe_text(r.unit), safe_text(r.clause))
