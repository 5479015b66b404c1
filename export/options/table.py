"""Figures of variants -> options.csv: a row each, for anybody with a spreadsheet."""

from __future__ import annotations

from export.options.figures import Figures
from export.tables.csv_rows import csv_bytes, safe_text
from framing.run import Run

COLUMNS = (
    *(
        "option",
        "set",
        "anchors",
        "straps",
        "pairs",
        "unresolved",
        "price",
        "more_than_planned",
        "takeoff_price",
        "minutes",
        "nails",
    ),
    *("weakest_mark", "weakest_ratio", "good_to_mph", "largest_uplift_lb", "option_fingerprint"),
)


def options_csv(run: Run, found: tuple[Figures, ...]) -> bytes:
    """The variants, as planned first; then fingerprint and caution of the plan itself."""
    return csv_bytes(run, COLUMNS, [_row(f, found[0]) for f in found])


def _row(f: Figures, planned: Figures) -> tuple[str, ...]:
    more = f.price - planned.price if f.price is not None and planned.price is not None else None
    return (
        safe_text(f.name),
        safe_text("; ".join(f"{key} = {value}" for key, value in f.changes)),
        safe_text("; ".join(f"{n} x {i}" for i, n in f.anchors)),
        *(str(n) for n in (f.n_straps, f.n_pairs, f.n_unresolved)),
        *("" if v is None else f"{v:.2f}" for v in (f.price, more, f.takeoff_price)),
        "" if f.minutes is None else f"{f.minutes:.0f}",
        str(f.nails),
        f.weakest,
        "" if f.weakest_ratio is None else f"{f.weakest_ratio:.3f}",
        "" if f.good_to_mph is None else f"{f.good_to_mph:.0f}",
        f"{f.largest_uplift_lb:.0f}",
        f.fingerprint,
    )
