"""A package's reactions matched, compared, and in the place of ours; our own exported change nothing."""

from __future__ import annotations

import html
import random
from dataclasses import replace

import numpy as np
import pytest

from export.commands.run_of_plan import load_run
from export.reconcile.page import reconcile_html
from export.reconcile.table import reconcile_csv
from export.tables.schedule import schedule_csv
from framing.anchors.demands import CaseKind
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.package.comparison import Band, reaction, usual_meaning
from framing.package.matching import How
from framing.package.ours import our_bearings
from framing.package.package_file import package_from_text
from framing.run import make_run
from framing.units import feet_inches
from invariants.houses import SAMPLES
from parts.packages import COTTAGE, FOLDER, HIP, exported, rows_of, text_of, under, without_package


@pytest.mark.parametrize("name", ["cottage", "hip_house", "garage_wing", "bay_and_corners", "long_girder"])
def test_a_plan_reconciled_with_its_own_schedule_changes_nothing(name: str) -> None:
    run = load_run(SAMPLES[name])
    mine = schedule_csv(run)
    again = under(run, package_from_text(mine.decode("utf-8-sig"), "schedule.csv"))
    assert without_package(schedule_csv(again)) == without_package(mine)
    assert again.reconciled is not None
    assert (again.reconciled.flags, again.reconciled.n_ours) == ((), 0)
    assert again.flags == run.flags


@pytest.mark.parametrize("name", ["cottage", "hip_house", "bay_and_corners"])
def test_so_does_one_with_its_marks_renamed_and_its_rows_shuffled(name: str) -> None:
    run = load_run(SAMPLES[name])
    rows = exported(run)
    random.Random(name).shuffle(rows)
    again = under(run, package_from_text(text_of(rows), "p.csv", accept_all=True))
    assert without_package(schedule_csv(again)) == without_package(schedule_csv(run))
    found = again.reconciled
    assert found is not None
    assert found.flags == ()
    for c in found.comparison.pairs:
        if c.pair.row is not None and c.pair.ours is not None:
            assert c.pair.row.mark.endswith(f" at {c.pair.ours.bearing.mark}")
            assert c.pair.how is How.PLACE


def test_marks_matched_by_place_wait_for_a_yes_in_the_call_or_in_a_column() -> None:
    run = load_run(COTTAGE)
    rows = [{**row, "uplift_lb": "-999", "accepted": "yes" if k < 3 else ""} for k, row in enumerate(exported(run))]
    again = under(run, package_from_text(text_of(rows), "p.csv"))
    found = again.reconciled
    assert found is not None
    assert [m.uplift_lb == 999.0 for m in again.schedule.marks] == [k < 3 for k in range(len(rows))]
    assert len(found.flags) == 1
    assert f"{len(rows) - 3} rows were matched otherwise than by mark" in found.flags[0]


def test_a_moved_house_of_rows_is_still_matched_each_to_its_nearest() -> None:
    run = load_run(HIP)
    rows = exported(run)
    walls = {w.name: w.length_ft for w in run.outline.walls}
    for row, o in zip(rows, our_bearings(run.plan, run.framing, run.reactions, run.demands), strict=False):
        moved = min(o.bearing.station_ft + 0.75, walls[o.bearing.wall])
        row["station"] = feet_inches(moved)
    random.Random(3).shuffle(rows)
    found = under(run, package_from_text(text_of(rows), "p.csv", accept_all=True)).reconciled
    assert found is not None
    pairs = [c.pair for c in found.comparison.pairs]
    assert all(p.row and p.ours and p.row.mark.endswith(f" at {p.ours.bearing.mark}") for p in pairs)


def test_rows_without_a_place_are_matched_by_span_and_overhang_in_the_tables_order() -> None:
    run = load_run(COTTAGE)
    commons = [r for r in exported(run) if "common" in r["mark"]]
    rows = [{k: r[k] for k in ("mark", "span", "overhang", "uplift_lb")} for r in commons]
    found = under(run, package_from_text(text_of(rows), "p.csv", accept_all=True)).reconciled
    assert found is not None
    pairs = [c.pair for c in found.comparison.pairs if c.pair.row is not None]
    assert {p.how for p in pairs} == {How.SPAN}
    assert all(p.ours is not None and "common" in p.ours.bearing.member for p in pairs)
    assert "14 marks of ours have no row" in " ".join(found.flags)


def test_a_member_with_its_wall_is_a_partner_that_still_wants_a_yes() -> None:
    run = load_run(COTTAGE)
    found = under(run, package_from_text("member,wall,uplift\nCommon 4,W1,700\n", "p.csv")).reconciled
    assert found is not None
    assert [(c.pair.how, c.pair.ours.bearing.mark) for c in found.comparison.pairs if c.pair.row and c.pair.ours] == [
        (How.MEMBER, "W1-04")
    ]
    assert "1 row was matched otherwise than by mark (W1-04)" in found.flags[1]


def test_the_packages_uplift_stands_with_the_main_frames_pushes_and_chooses_the_anchor() -> None:
    run = load_run(HIP)
    again = under(run, package_from_text("mark,uplift,rev\nW1-16,1551,B\n", "p.csv"))
    assert again.reconciled is not None
    i = next(k for k, b in enumerate(run.framing.bearings) if b.mark == "W1-16")
    kinds = np.array([c.kind for c in run.demands.cases])
    main = kinds == CaseKind.MAIN_FRAME
    now, then = again.reconciled.demands.demand, run.demands.demand
    lifts = ASD_UPLIFT.net_uplift(now.wind_lb, now.dead_lb)
    assert lifts[i, main] == pytest.approx(1551.0)
    assert np.all(lifts[i, ~main] <= 0.0)
    assert np.array_equal(now.across_lb, then.across_lb)
    assert np.array_equal(now.along_lb, then.along_lb)
    mark = again.schedule.marks[i]
    assert (mark.uplift_lb, mark.basis, mark.case) == (1551.0, "truss package", "truss package B (p.csv)")
    assert mark.ratio is not None
    assert mark.ratio <= 1.0
    assert mark.anchor is not None
    most = mark.anchor.allowable
    pushes = [
        1551.0 / most.uplift_lb
        + then.across_lb[i, j] / (most.parallel_lb or np.inf)
        + then.along_lb[i, j] / (most.perpendicular_lb or np.inf)
        for j in np.flatnonzero(main)
    ]
    assert mark.ratio == pytest.approx(max(pushes))
    assert mark.stated is not None
    assert mark.stated.ours_lb == pytest.approx(run.schedule.marks[i].uplift_lb)
    others = [k for k in range(len(run.framing.bearings)) if k != i]
    assert np.array_equal(now.wind_lb[others], then.wind_lb[others])


def test_the_engineer_of_records_pushes_stand_in_place_of_ours() -> None:
    run = load_run(COTTAGE)
    i = next(k for k, b in enumerate(run.framing.bearings) if b.mark == "W1-05")
    again = under(run, package_from_text("mark,uplift,parallel_lb,perpendicular_lb\nW1-05,500,111,222\n", "p.csv"))
    mark = again.schedule.marks[i]
    assert (mark.parallel_lb, mark.perpendicular_lb) == (111.0, 222.0)
    assert mark.use is not None
    assert (mark.use.parallel_lb, mark.use.perpendicular_lb) == pytest.approx((111.0, 222.0), abs=1e-6)


def test_a_packages_own_horizontal_is_told_and_never_a_push() -> None:
    run = load_run(COTTAGE)
    plain = under(run, package_from_text("mark,uplift\nW1-05,500\n", "p.csv"))
    pushed = under(run, package_from_text("mark,uplift,horizontal\nW1-05,500,900\n", "p.csv"))
    assert without_package(schedule_csv(plain)) == without_package(schedule_csv(pushed))
    page = reconcile_html(pushed).decode()
    assert "900 lb, not the wall&#x27;s push" in page
    assert "debris" in pushed.wind_doubts[0]
    assert html.escape(pushed.wind_doubts[0]) in page


def test_the_house_minimum_still_holds_under_a_small_uplift() -> None:
    run = load_run(HIP)
    plan = replace(run.plan, anchors=replace(run.plan.anchors, minimum="wide"))
    again = make_run(
        plan, run.schedule.catalogue, run.cover.approvals, package_from_text("mark,uplift\nW1-16,5\n", "p")
    )
    mark = next(m for m in again.schedule.marks if m.mark == "W1-16")
    assert mark.anchor is not None
    assert (mark.anchor.id, mark.uplift_lb) == ("wide", 5.0)


def test_a_column_left_empty_keeps_ours_and_says_so() -> None:
    run = load_run(COTTAGE)
    again = under(run, package_from_text("mark,uplift,down\nW1-05,,700\nW1-06,900,\n", "p.csv"))
    row = {r["mark"]: r for r in rows_of(reconcile_csv(again))}
    assert (row["W1-05"]["governs"], row["W1-06"]["governs"]) == ("ours: left empty", "package")
    now = {m.mark: m for m in again.schedule.marks}
    assert now["W1-05"].uplift_lb == next(m for m in run.schedule.marks if m.mark == "W1-05").uplift_lb


def test_a_package_for_another_wind_never_makes_an_uplift_smaller() -> None:
    run = load_run(HIP)
    text = (FOLDER / "hip_house_package_exposure.csv").read_text()
    again = under(run, package_from_text(text, "p.csv"))
    assert again.reconciled is not None
    assert "made for exposure B and the plan has C" in again.flags[0]
    for now, then in zip(again.schedule.marks, run.schedule.marks, strict=True):
        assert now.uplift_lb == then.uplift_lb
    larger = under(run, package_from_text("mark,uplift,exposure\nW1-16,3000,B\n", "p.csv"))
    assert max(m.uplift_lb for m in larger.schedule.marks) == 3000.0


# common practice, no source: what a ratio of theirs to ours usually means, and the bands 0.75 and 1.33
@pytest.mark.parametrize(
    ("theirs", "band", "words"),
    [
        (1000.0, Band.NEAR, ""),
        (1090.0, Band.NEAR, ""),
        (1180.0, Band.DIFFERS, "directionality factor left out"),
        (1320.0, Band.DIFFERS, "components and cladding"),
        (1400.0, Band.ASK, "components and cladding"),
        (1667.0, Band.ASK, "strength level"),
        (2000.0, Band.ASK, "a girder"),
        (600.0, Band.ASK, "0.6 W taken twice"),
        (700.0, Band.ASK, "interior zone"),
        (5000.0, Band.ASK, "more roof"),
        (100.0, Band.ASK, "less roof"),
    ],
)
def test_a_ratio_falls_in_its_band_with_what_it_usually_means(theirs: float, band: Band, words: str) -> None:
    found = reaction(theirs, 1000.0)
    assert found.band is band
    assert words in found.usually
    assert bool(words) == bool(found.usually)


def test_where_ours_lifts_nothing_there_is_no_ratio_but_a_question() -> None:
    found = reaction(400.0, 0.0)
    assert (found.ratio, found.band) == (None, Band.ASK)
    assert "nothing lifts here by ours" in usual_meaning(None)
