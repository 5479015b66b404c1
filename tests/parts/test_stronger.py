"""The roof one size up is a run of its own: the same anchors, cost and winds as the plan with that minimum typed."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from framing.anchors.catalogue import Catalogue
from framing.anchors.catalogue_file import read_catalogue, shipped_catalogue
from framing.plan import Plan
from framing.plan_file import read_plan
from framing.run import make_run
from framing.stronger import first_full, price, stronger_roof
from viewer.two_roofs import two_roofs_words

SAMPLES = Path(__file__).parents[2] / "sample_plans"


def house(sample: str, minimum: str) -> tuple[Plan, Catalogue]:
    path = SAMPLES / f"{sample}.toml"
    plan = read_plan(path)
    named = plan.anchors.catalogue
    catalogue = read_catalogue(SAMPLES / named) if named else shipped_catalogue()
    return replace(plan, anchors=replace(plan.anchors, minimum=minimum)), catalogue


@pytest.mark.parametrize(
    ("sample", "minimum", "next_up"),
    [
        ("garage_wing", "plain", "stout"),
        ("garage_wing", "700 lb", "stout"),  # 'plain' (1,128 lb) is the first over 700 lb and changes no mark
        ("cottage", "", "fair"),
        ("hip_house", "", "wide"),
    ],
)
def test_the_stronger_roof_is_the_run_of_the_plan_with_the_next_row_as_its_minimum(
    sample: str, minimum: str, next_up: str
) -> None:
    plan, catalogue = house(sample, minimum)
    run = make_run(plan, catalogue)
    found = stronger_roof(run)
    assert found
    assert found.least.id == next_up
    alone = make_run(replace(plan, anchors=replace(plan.anchors, minimum=next_up)), catalogue)
    assert found.schedule.marks == alone.schedule.marks
    assert found.schedule.totals == alone.schedule.totals
    assert price(found.schedule) == pytest.approx(sum(m.anchor.price for m in alone.schedule.marks if m.anchor))
    assert price(run.schedule) == pytest.approx(run.schedule.totals.price)
    speeds = [m.good_to_mph for m in alone.schedule.marks if m.good_to_mph is not None]
    assert (first_full(found.schedule) or ("", 0.0))[1] == min(speeds)
    changed = [i for i, (a, b) in enumerate(zip(run.schedule.marks, alone.schedule.marks, strict=True)) if a != b]
    assert [i for i in changed if run.schedule.marks[i].anchor != alone.schedule.marks[i].anchor] == [*found.changed]


def test_every_row_between_the_minimum_and_the_stronger_one_would_change_nothing() -> None:
    plan, catalogue = house("garage_wing", "700 lb")
    run = make_run(plan, catalogue)
    between = make_run(replace(plan, anchors=replace(plan.anchors, minimum="plain")), catalogue)
    assert [m.anchor for m in between.schedule.marks] == [m.anchor for m in run.schedule.marks]


def test_with_the_largest_row_as_the_minimum_there_is_no_stronger_roof() -> None:
    plan, catalogue = house("garage_wing", "stout")  # 'great' has no row for one ply
    assert stronger_roof(make_run(plan, catalogue)) is None


def test_without_a_price_for_every_strap_no_cost_is_told() -> None:
    plan, catalogue = house("garage_wing", "plain")
    free = replace(catalogue, anchors=tuple(replace(a, price=0.0) for a in catalogue.anchors))
    run = make_run(plan, free)
    found = stronger_roof(run)
    assert found
    words = " ".join(two_roofs_words(run, found))
    assert "gives no price for every strap" in words
    assert f"{len(found.changed)} of {len(run.schedule.marks)} marks" in words


def test_the_words_tell_the_difference_of_two_runs() -> None:
    plan, catalogue = house("hip_house", "")
    run = make_run(plan, catalogue)
    alone = make_run(replace(plan, anchors=replace(plan.anchors, minimum="wide")), catalogue)
    found = stronger_roof(run)
    assert found
    words = " ".join(two_roofs_words(run, found))
    more = alone.schedule.totals.price - run.schedule.totals.price
    assert f"cost {more:,.2f} more" in words
    for one in (run, alone):
        mark = min(one.schedule.marks, key=lambda m: m.good_to_mph or 999.0)
        assert f"{mark.good_to_mph:.0f} mph, at {mark.mark}" in words
