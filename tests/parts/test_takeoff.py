"""takeoff.csv against arithmetic worked out by hand and the trade's tie-beam table.

Outside facts: tie beam 8x16, 15-5/8 x 7-5/8 in. actual, 3.06 cubic yards per 100 ft, and 8x8, 7-5/8 in., 1.50
(calculated from the actual sizes); hip and valley length per foot of run sqrt(2 + slope^2), slope factor
sqrt(1 + slope^2) (general framing texts); anchors plus 5 % and at least 5, nails plus 10 %, deck waste 8, 15 and
20 %: common practice, no source.
"""

from __future__ import annotations

import csv
import io
import math
from dataclasses import replace

import pytest

from drawings.drawn import run_of_outline
from export.tables.takeoff import takeoff_csv
from framing.plan import TieBeam
from framing.run import CAUTION, Run

HIP = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (0.0, 28.0))
ELL = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (22.0, 28.0), (22.0, 50.0), (0.0, 50.0))
SLOPE = 5 / 12


@pytest.fixture(scope="module")
def run() -> Run:
    return run_of_outline(HIP)


def rows(run: Run) -> dict[str, dict[str, str]]:
    found = list(csv.DictReader(io.StringIO(takeoff_csv(run).decode("utf-8-sig"))))
    assert len({row["item"] for row in found}) == len(found)
    return {row["item"]: row for row in found}


def quantity(run: Run, item: str) -> float:
    return float(rows(run)[item]["quantity"])


def with_marks(run: Run, n: int) -> Run:
    """The run with n marks that all hold by one single strap."""
    mark = next(m for m in run.schedule.marks if m.anchor and m.anchor.count == 1)
    schedule = replace(run.schedule, marks=(mark,) * n)
    return replace(run, schedule=schedule)


def test_it_has_the_promised_columns_and_every_row_the_caution(run: Run) -> None:
    assert takeoff_csv(run).startswith(b"\xef\xbb\xbfitem,quantity,unit,note,fingerprint,caution\r\n")
    assert {(r["fingerprint"], r["caution"]) for r in rows(run).values()} == {(run.fingerprint, CAUTION)}


@pytest.mark.parametrize(("n", "order"), [(20, 25), (100, 105), (101, 107), (200, 210)])
def test_anchors_are_ordered_with_five_percent_and_at_least_five_spare(run: Run, n: int, order: int) -> None:
    found = [r for item, r in rows(with_marks(run, n)).items() if item.startswith("anchor ")]
    assert [r["quantity"] for r in found] == [str(order)]
    assert "common practice, no source" in found[0]["note"]
    assert "invented anchors" in found[0]["note"]


def test_nails_are_those_of_the_straps_and_ten_percent(run: Run) -> None:
    some = with_marks(run, 20)
    each = some.schedule.marks[0].anchor
    assert each is not None
    assert quantity(some, f"nail {each.fasteners}") == math.ceil(20 * each.n_nails * 1.1 - 1e-9)


def test_roof_lengths_and_area_of_a_plain_hip_are_the_framing_tables(run: Run) -> None:
    wide, long = 28.0 + 4.0, 46.0 + 4.0  # eaves of 2 ft
    assert quantity(run, "hip") == pytest.approx(4 * wide / 2 * math.sqrt(2 + SLOPE**2), abs=0.051)
    assert quantity(run, "ridge") == pytest.approx(long - wide, abs=0.051)
    assert quantity(run, "eave") == pytest.approx(2 * (wide + long), abs=0.051)
    assert quantity(run, "valley") == 0.0
    area_ft2 = wide * long * math.sqrt(1 + SLOPE**2)
    assert quantity(run, "roof area on the slope") == pytest.approx(area_ft2, abs=0.051)
    assert quantity(run, "deck sheet 4 x 8 ft") == math.ceil(area_ft2 * 1.15 / 32)


def test_a_gable_has_rakes_and_less_waste() -> None:
    run = run_of_outline(HIP, "gable")
    wide, long = 28.0 + 4.0, 46.0 + 2.0  # eaves of 2 ft, rakes of 1 ft
    assert quantity(run, "rake") == pytest.approx(4 * wide / 2 * math.sqrt(1 + SLOPE**2), abs=0.051)
    assert quantity(run, "deck sheet 4 x 8 ft") == math.ceil(wide * long * math.sqrt(1 + SLOPE**2) * 1.08 / 32)


def test_a_cut_up_roof_has_valleys_and_most_waste() -> None:
    deck = rows(run_of_outline(ELL))["deck sheet 4 x 8 ft"]
    assert quantity(run_of_outline(ELL), "valley") > 10.0
    assert "20 % waste for a cut-up roof (common practice, no source)" in deck["note"]


@pytest.mark.parametrize(("depth_in", "yards_per_100_ft"), [(8, 1.50), (12, 2.28), (16, 3.06), (24, 4.63)])
def test_tie_beam_concrete_is_that_of_the_trades_table(run: Run, depth_in: int, yards_per_100_ft: float) -> None:
    beam = TieBeam(nominal_width_in=8, nominal_depth_in=depth_in)
    changed = replace(run, plan=replace(run.plan, tie_beam=beam))
    length_ft = 2 * (46 + 28) - 4 * 7.625 / 12  # along the middle of the walls
    wanted = yards_per_100_ft * length_ft / 100
    assert quantity(changed, "concrete of the tie beam") == pytest.approx(wanted, abs=0.005 * length_ft / 100 + 0.006)


def test_every_member_is_in_the_trusses_by_kind_span_and_ply(run: Run) -> None:
    kinds = {m.kind.value for m in run.framing.members}
    found = {item: r for item, r in rows(run).items() if ", span " in item}
    assert {item.split(",")[0] for item in found} == kinds
    assert sum(int(r["quantity"]) for r in found.values()) == len(run.framing.members)
    assert quantity(run, "plies of all members") == sum(m.plies for m in run.framing.members)
    # 28 ft over all between bearings at the middle of 8 in. walls
    assert any(item.startswith("common, span 27'-4\", 1 ply") for item in found)


def test_marks_that_no_anchor_holds_are_told_and_not_ordered(run: Run) -> None:
    lost = replace(run.schedule.marks[0], anchor=None, count=0)
    found = rows(replace(run, schedule=replace(run.schedule, marks=(lost,))))
    assert found["anchor not chosen"]["quantity"] == "1"
    assert lost.mark in found["anchor not chosen"]["note"]
