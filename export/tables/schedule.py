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
    "second_station",
    "in_from_face_in",
    "uplift_mwfrs_lb",
    "uplift_cladding_lb",
    "storm",
    "ratio_uplift",
    "ratio_parallel",
    "ratio_perpendicular",
    "ratio_case",
    "embedment_in",
    "clear_in",
    "end_in",
    "edge_in",
    "package_mark",
    "package_uplift_lb",
    "crossing",
    "in_from_next_face_in",
    "next_wall",
    "second_x_ft",
    "second_y_ft",
    "second_in_from_face_in",
    "second_in_from_next_face_in",
    "only_bottom_chord",
    "rule",
    "package_down_lb",
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
        decimal(m.known_down_lb, 2),
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
        *_place(m)[:2],
        *_bases(m),
        *_use(m),
        *_place(m)[2:6],
        *_stated(m),
        *_place(m)[6:],
        safe_text(m.use.rule if m.use else ""),
        decimal(m.stated.down_lb if m.stated else None, 2),
    )


def _use(m: Mark) -> tuple[str, ...]:
    """The three ratios of the anchor's hardest case, and that case."""
    if m.use is None:
        return ("", "", "", "")
    pushed = not m.alone or m.parallel_lb is not None
    sideways = (m.use.parallel_ratio, m.use.perpendicular_ratio) if pushed else (None, None)
    return (*(decimal(ratio, 4) for ratio in (m.use.uplift_ratio, *sideways)), safe_text(m.use.case))


def _bases(m: Mark) -> tuple[str, str, str]:
    """The uplift by either basis and the storm; empty where there is no arithmetic of ours."""
    if m.alone:
        return ("", "", "")
    return (decimal(m.uplift_mwfrs_lb, 2), decimal(m.uplift_cladding_lb, 2), safe_text(m.storm))


def _stated(m: Mark) -> tuple[str, str]:
    """The package's mark and its uplift."""
    return (safe_text(m.stated.mark), decimal(m.stated.theirs_lb, 2)) if m.stated else ("", "")


def _place(m: Mark) -> tuple[str, ...]:
    """Where the straps stand besides the tape's figure: the second of a pair, distances in from faces and to others."""
    first, second = m.bearing.straps[0], m.straps[1] if m.count > 1 else None
    return (
        safe_text(feet_inches(second.tape_ft)) if second else "",
        decimal(_in(first.in_from_face_ft), 3),
        decimal(m.anchor.embedment_in if m.anchor else None, 3),
        decimal(_in(m.clear_ft), 3),
        decimal(_in(first.end_ft), 3),
        decimal(_in(first.edge_ft), 3),
        m.bearing.crossing.value,
        decimal(_in(first.in_from_next_ft), 3),
        safe_text(m.bearing.next_wall),
        decimal(second.point_ft[0] if second else None, 6),
        decimal(second.point_ft[1] if second else None, 6),
        decimal(_in(second.in_from_face_ft) if second else None, 3),
        decimal(_in(second.in_from_next_ft) if second else None, 3),
        str(m.only_bottom_chord),
    )


def _in(length_ft: float | None) -> float | None:
    return None if length_ft is None else 12.0 * length_ft
