"""schedule.csv: the columns that scripts rely on, and texts that a spreadsheet cannot take for formulas.

Outside facts: the columns and their order are the project's own published list of outputs; a text that begins with
= + - @ is run as a formula by spreadsheets (OWASP, CSV injection); half of 1-1/2 in. lumber is 3/4 in.
"""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest

from drawings.drawn import run_of_outline
from export.tables.csv_rows import decimal, safe_text
from export.tables.schedule import schedule_csv
from framing.run import CAUTION, Run

HIP = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (0.0, 28.0))
COLUMNS = (
    "mark,wall,station_ft,station,strap_station,member,kind,plies,side,x_ft,y_ft,strap_x_ft,strap_y_ft,down_lb,"
    "uplift_lb,parallel_lb,perpendicular_lb,basis,case,anchor,count,allowable_uplift_lb,ratio,good_to_mph,"
    "skew_deg,bearing_length_in,held_by,second_station,in_from_face_in,uplift_mwfrs_lb,uplift_cladding_lb,storm,"
    "ratio_uplift,ratio_parallel,ratio_perpendicular,ratio_case,embedment_in,clear_in,end_in,edge_in,"
    "package_mark,package_uplift_lb,crossing,in_from_next_face_in,next_wall,second_x_ft,second_y_ft,second_in_from_face_in,second_in_from_next_face_in,"
    "only_bottom_chord,rule,package_down_lb,open_about_the_wind,fingerprint,caution"
)


@pytest.fixture(scope="module")
def run() -> Run:
    return run_of_outline(HIP)


def rows(run: Run) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig"))))


def test_it_begins_with_the_byte_order_mark_and_the_columns_and_ends_every_line_with_crlf(run: Run) -> None:
    data = schedule_csv(run)
    assert data.startswith(b"\xef\xbb\xbf" + COLUMNS.encode() + b"\r\n")
    assert data.count(b"\n") == data.count(b"\r\n") == 1 + len(run.schedule.marks)


def test_every_row_carries_the_fingerprint_and_the_caution(run: Run) -> None:
    assert {(row["fingerprint"], row["caution"]) for row in rows(run)} == {(run.fingerprint, CAUTION)}


def test_the_figures_are_those_of_the_run(run: Run) -> None:
    for row, m in zip(rows(run), run.schedule.marks, strict=True):
        b = m.bearing
        assert (row["mark"], row["wall"], row["member"], row["kind"]) == (b.mark, b.wall, b.member, b.kind.value)
        assert float(row["strap_x_ft"]) == pytest.approx(m.bearing.strap_ft[0], abs=1e-6)
        assert float(row["uplift_lb"]) == pytest.approx(m.uplift_lb, abs=0.005)
        assert (row["anchor"], row["count"]) == (m.anchor.id if m.anchor else "", str(m.count))


def test_the_corner_jack_of_a_wall_has_its_strap_2_in_inboard_of_the_wall_centres_on_its_start_side(run: Run) -> None:
    """The wall centres cross 4 in. in from both faces; 2 in. on along 45 degrees are 1.414 each way; the START side's
    face of 1-1/2 in. lumber is 0.530 back along the wall and 0.530 farther in.
    """
    first = rows(run)[0]
    assert (first["kind"], first["station"], first["crossing"]) == ("corner jack", "0'-0\"", "45 degrees")
    assert first["strap_station"] == "0'-4 7/8\""
    assert float(first["in_from_face_in"]) == pytest.approx(4 + 1.4142 + 0.5303, abs=0.001)
    along_in = 12 * float(first["strap_x_ft"])
    assert along_in == pytest.approx(4 + 1.4142 - 0.5303, abs=0.001)


def test_what_no_anchor_holds_is_empty_and_not_zero(run: Run) -> None:
    lost = replace(run.schedule.marks[0], anchor=None, count=0, allowable_uplift_lb=None, ratio=None, good_to_mph=None)
    changed = replace(run, schedule=replace(run.schedule, marks=(lost,)))
    (row,) = rows(changed)
    assert [row[c] for c in ("anchor", "count", "allowable_uplift_lb", "ratio", "good_to_mph")] == ["", "0", "", "", ""]


def test_figures_that_are_not_computed_yet_are_empty(run: Run) -> None:
    changed = replace(run.schedule.marks[0], parallel_lb=None, perpendicular_lb=None)
    (row,) = rows(replace(run, schedule=replace(run.schedule, marks=(changed,))))
    assert (row["parallel_lb"], row["perpendicular_lb"]) == ("", "")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-0'-1\"", "@SUM(A1)", "\t=1", "\r=1"])
def test_a_text_that_a_spreadsheet_would_run_gets_an_apostrophe(text: str) -> None:
    assert safe_text(text) == "'" + text


def test_any_other_text_stays_as_it_is() -> None:
    assert safe_text("W1-03") == "W1-03"
    assert safe_text("") == ""


@pytest.mark.parametrize(
    ("value", "text"), [(None, ""), (-0.0001, "0.00"), (-1.005, "-1.00"), (1234567.891, "1234567.89"), (0.0, "0.00")]
)
def test_numbers_have_a_point_no_grouping_and_no_minus_before_zero(value: float | None, text: str) -> None:
    assert decimal(value, 2) == text
