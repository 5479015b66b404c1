"""Reconciled run -> reconcile.csv: a row for every mark of ours and every row of the package, in full."""

from __future__ import annotations

from export.reconcile.rows import Line, anchor_words, lines
from export.tables.csv_rows import csv_bytes, decimal, safe_text
from framing.package.comparison import Reaction
from framing.run import Run
from framing.units import feet_inches

COLUMNS = (
    *("mark", "wall", "member", "station", "package_row", "package_mark", "matched", "governs"),
    *("package_uplift_lb", "our_uplift_lb", "our_uplift_mwfrs_lb", "our_uplift_cladding_lb", "uplift_ratio"),
    *("uplift_band", "uplift_usually", "package_down_lb", "our_down_lb", "down_ratio", "down_band"),
    *("package_plies", "plies", "package_hung", "package_station", "differs", "told"),
    *("anchor", "ratio", "anchor_by_ours", "ratio_by_ours"),
)


def reconcile_csv(run: Run) -> bytes:
    """UTF-8 with byte-order mark, comma, CRLF; the package, the fingerprint and the caution in the last columns."""
    return csv_bytes(run, COLUMNS, [_row(line) for line in lines(run)])


def _row(line: Line) -> tuple[str, ...]:
    c, row, o = line.compared, line.compared.pair.row, line.compared.pair.ours
    station = row.station_ft if row is not None else None
    return (
        safe_text(line.mark),
        safe_text(o.bearing.wall) if o else "",
        safe_text(o.bearing.member) if o else "",
        safe_text(feet_inches(o.bearing.station_ft)) if o else "",
        str(row.number) if row else "",
        safe_text(row.mark or row.member) if row else "",
        c.pair.how.value if c.pair.how else "no partner",
        line.governs,
        decimal(row.uplift_lb if row else None, 2),
        decimal(o.uplift_lb if o else None, 2),
        decimal(o.mwfrs_uplift_lb if o else None, 2),
        decimal(o.cladding_uplift_lb if o else None, 2),
        *_reaction(c.uplift),
        safe_text(c.uplift.usually) if c.uplift else "",
        decimal(row.down_lb if row else None, 2),
        decimal(o.down_lb if o else None, 2),
        *_reaction(c.down),
        str(row.plies or "") if row else "",
        str(o.bearing.plies) if o else "",
        {True: "yes", False: "no", None: ""}[row.hung] if row else "",
        safe_text(feet_inches(station)) if station is not None else "",
        safe_text("; ".join(said for _, said in c.differs)),
        safe_text("; ".join(c.told)),
        safe_text(anchor_words(line.now)),
        decimal(line.now.ratio if line.now else None, 4),
        safe_text(anchor_words(line.by_ours)),
        decimal(line.by_ours.ratio if line.by_ours else None, 4),
    )


def _reaction(r: Reaction | None) -> tuple[str, str]:
    return (decimal(r.ratio, 4), r.band.value) if r else ("", "")
