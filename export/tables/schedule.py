"""Run -> schedule.csv: a row per anchor mark, for anybody with a spreadsheet."""

from __future__ import annotations

from export.tables.csv_rows import csv_bytes, decimal, safe_text
from framing.anchors.schedule import Mark
from framing.run import Run
from framing.units import feet_inches

COLUMNS = (
    "mark",
    "wall",
    "station_ft",
    "station",
    "strap_station",
    "member",
    "kind",
    "plies",
    "side",
    "x_ft",
    "y_ft",
    "strap_x_ft",
    "strap_y_ft",
    "down_lb",
    "uplift_lb",
    "parallel_lb",
    "perpendicular_lb",
    "basis",
    "case",
    "anchor",
    "count",
    "allowable_uplift_lb",
    "ratio",
    "good_to_mph",
    "skew_deg",
    "bearing_length_in",
    "held_by",
)


def schedule_csv(run: Run) -> bytes:
    """The anchor schedule, in the order of the walls and then along each wall.

    Returns
    -------
    bytes
        UTF-8 with byte-order mark, comma, CRLF; `COLUMNS`, then the fingerprint and the caution. What is
        not known (lateral figures, an unresolved mark's anchor, allowable and ratio) is empty, not 0.
    """
    return csv_bytes(run, COLUMNS, [_row(m) for m in run.schedule.marks])


def _row(m: Mark) -> tuple[str, ...]:
    return (
        safe_text(m.mark),
        safe_text(m.bearing.wall),
        decimal(m.bearing.station_ft, 6),
        safe_text(feet_inches(m.bearing.station_ft)),
        safe_text(feet_inches(m.bearing.strap_station_ft)),
        safe_text(m.bearing.member),
        m.bearing.kind.value,
        str(m.bearing.plies),
        m.side.value,
        decimal(m.bearing.point_ft[0], 6),
        decimal(m.bearing.point_ft[1], 6),
        decimal(m.bearing.strap_ft[0], 6),
        decimal(m.bearing.strap_ft[1], 6),
        decimal(m.down_lb, 2),
        decimal(m.uplift_lb, 2),
        decimal(m.parallel_lb, 2),
        decimal(m.perpendicular_lb, 2),
        safe_text(m.basis),
        safe_text(m.case),
        safe_text(m.anchor.id) if m.anchor else "",
        str(m.count),
        decimal(m.allowable_uplift_lb, 2),
        decimal(m.ratio, 4),
        decimal(m.good_to_mph, 1),
        decimal(m.bearing.skew_deg, 2),
        decimal(12.0 * m.bearing.bearing_length_ft, 3),
        safe_text(m.held_by),
    )
