"""A row's rule on three ratios, and the speed at which its anchor is full: by hand and by halving.

The straight-line sum is engineering usage, from memory; 'each 0.75' is a rule that a row may state. The arithmetic
below is its own.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.anchors.catalogue_file import shipped_catalogue
from framing.anchors.demands import CaseKind
from framing.anchors.interaction import Allowable, Demand, Interaction, ratios, speed_ratios, used
from framing.plan import Exposure, RoofType
from framing.run import make_run
from invariants.houses import plan_of

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
STRAP = Allowable(uplift_lb=1800.0, parallel_lb=800.0, perpendicular_lb=1000.0, rule=Interaction.SUM)
EACH = replace(STRAP, rule=Interaction.EACH)


def asked(wind_lb: float, dead_lb: float, across_lb: float, along_lb: float, *, grows: bool = True) -> Demand:
    one = [np.array([[value]]) for value in (wind_lb, dead_lb, across_lb, along_lb)]
    return Demand(wind_lb=one[0], dead_lb=one[1], across_lb=one[2], along_lb=one[3], grows=np.array([grows]))


def use_ratio(demand: Demand, strap: Allowable) -> float:
    return float(used(ratios(demand, strap), strap.rule).max())


def speed(demand: Demand, strap: Allowable) -> float:
    return float(speed_ratios(demand, strap).min())


PLAIN = asked(2000.0, 500.0, 100.0, 200.0)


def test_the_ratios_add_up() -> None:
    """0.6 x 2000 - 0.6 x 500 = 900: 900/1800 + 100/800 + 200/1000 = 0.825."""
    assert use_ratio(PLAIN, STRAP) == pytest.approx(0.825)


def test_by_the_other_rule_the_largest_counts_over_three_quarters_and_there_is_no_sum() -> None:
    """Of 0.5, 0.125 and 0.2 the largest: 0.5 / 0.75; with 660 lb in the truss's plane 0.66 / 0.75."""
    assert use_ratio(PLAIN, EACH) == pytest.approx(0.5 / 0.75)
    assert use_ratio(asked(2000.0, 500.0, 100.0, 660.0), EACH) == pytest.approx(0.66 / 0.75)


def test_without_lateral_values_the_ratio_is_uplift_alone_and_the_speed_the_closed_form() -> None:
    """sqrt((1800 + 300) / 1200) of the wind speed."""
    strap = replace(STRAP, parallel_lb=None, perpendicular_lb=None)
    assert use_ratio(PLAIN, strap) == 0.5
    assert speed(PLAIN, strap) == pytest.approx(math.sqrt(2100.0 / 1200.0))


def test_with_one_lateral_value_that_one_counts() -> None:
    assert use_ratio(PLAIN, replace(STRAP, parallel_lb=None)) == pytest.approx(0.7)
    assert use_ratio(PLAIN, replace(STRAP, perpendicular_lb=None)) == pytest.approx(0.625)


def test_with_all_three_the_sum_is_solved_for_the_square_of_the_speed() -> None:
    """(1200 s - 300)/1800 + 100 s/800 + 200 s/1000 = 1: s = (1 + 1/6) / (2/3 + 1/8 + 1/5)."""
    assert speed(PLAIN, STRAP) == pytest.approx(math.sqrt((7 / 6) / (2 / 3 + 1 / 8 + 1 / 5)))


def test_by_the_other_rule_the_first_of_the_three_to_reach_three_quarters_gives_the_speed() -> None:
    """Uplift: (0.75 + 1/6) / (2/3) = 1.375; parallel 0.75 x 800 / 500 = 1.2 first."""
    assert speed(PLAIN, EACH) == pytest.approx(math.sqrt(1.375))
    assert speed(asked(2000.0, 500.0, 500.0, 200.0), EACH) == pytest.approx(math.sqrt(1.2))


def test_the_least_loads_do_not_grow_with_the_wind() -> None:
    """They are full or not whatever the speed: 1100 lb of 1000 from the start, 900 never."""
    assert speed(asked(0.0, 0.0, 0.0, 900.0, grows=False), STRAP) == math.inf
    assert speed(asked(0.0, 0.0, 0.0, 1100.0, grows=False), STRAP) == 0.0
    assert speed(asked(0.0, 0.0, 0.0, 760.0, grows=False), EACH) == 0.0


pushes = st.floats(0.0, 900.0)


@pytest.mark.parametrize("strap", [STRAP, EACH], ids=["sum", "each"])
@given(st.floats(1.0, 9000.0), st.floats(0.0, 3000.0), pushes, pushes)
def test_at_the_speed_found_the_anchor_is_full(
    strap: Allowable, wind_lb: float, dead_lb: float, across_lb: float, along_lb: float
) -> None:
    factor = speed(asked(wind_lb, dead_lb, across_lb, along_lb), strap)

    def at(s: float) -> float:
        return use_ratio(asked(wind_lb * s, dead_lb, across_lb * s, along_lb * s), strap)

    assert at(factor**2) == pytest.approx(1.0, abs=1e-6)
    assert at(factor**2 * 1.01) > 1.0
    assert at(factor**2 * 0.99) < 1.0


@pytest.mark.parametrize("rule", list(Interaction))
def test_the_schedule_uses_it_for_the_choice_the_ratio_and_the_speed(rule: Interaction) -> None:
    shipped = shipped_catalogue()
    catalogue = replace(shipped, anchors=tuple(replace(a, interaction=rule) for a in shipped.anchors))
    run = make_run(plan_of([(0, 0), (40, 0), (40, 24), (0, 24)], type=RoofType.GABLE), catalogue)
    for i, m in enumerate(run.schedule.marks):
        assert m.anchor is not None
        assert m.use is not None
        mine = run.demands.demand.of(np.array([i]), run.demands.counts)
        parts = (m.use.uplift_ratio, m.use.parallel_ratio, m.use.perpendicular_ratio)
        whole = sum(p or 0.0 for p in parts) if rule is Interaction.SUM else max(p or 0.0 for p in parts) / 0.75
        assert m.ratio == pytest.approx(whole)
        assert m.ratio == pytest.approx(use_ratio(mine, m.anchor.allowable))
        assert m.ratio <= 1.0
        lighter = [
            a
            for a in catalogue.anchors
            if a.plies == m.bearing.plies
            and a.count == m.count
            and a.allowable_uplift_lb < m.anchor.allowable_uplift_lb
        ]
        assert all(use_ratio(mine, a.allowable) > 1.0 for a in lighter)
        assert m.good_to_mph is None or m.good_to_mph >= run.plan.wind.speed_mph


def test_each_rule_says_itself() -> None:
    assert [rule.words for rule in (Interaction.SUM, Interaction.EACH)] == [
        "the three ratios add",
        "none over 0.75, no sum",
    ]


def test_a_house_at_the_speed_that_a_mark_is_good_to_uses_its_anchor_to_the_full() -> None:
    """Whichever wind governs, main frame or the cladding of roof or wall alone: all grow with V^2 (eq. 26.10-1), but
    the least net pressure of cladding, 16 psf, which fills straps of a calm place most.
    """
    shipped, tried = shipped_catalogue(), {}
    loose, stiff, weak = (4000.0, 9000.0, 9000.0), (90000.0, 9000.0, 900.0), (90000.0, 9000.0, 140.0)
    for speed_mph, exposure, allowed in (
        (160.0, Exposure.C, loose),
        (160.0, Exposure.C, stiff),
        (85.0, Exposure.B, weak),
    ):
        plan = plan_of(BOX, type=RoofType.GABLE, speed_mph=speed_mph, exposure=exposure)
        names = ("allowable_uplift_lb", "allowable_parallel_lb", "allowable_perpendicular_lb")
        anchor = replace(shipped.anchors[0], count=1, **dict(zip(names, allowed, strict=True)))
        only = replace(shipped, anchors=(anchor, replace(anchor, plies=2)))
        for mark in make_run(plan, only).schedule.marks:
            kind = mark.use and (mark.use.kind, "least" in mark.use.case)
            if kind is not None and kind not in tried and mark.good_to_mph is not None:
                faster = replace(plan, wind=replace(plan.wind, speed_mph=0.9995 * mark.good_to_mph))
                [there] = [m for m in make_run(faster, only).schedule.marks if m.mark == mark.mark]
                tried[kind] = there.ratio
    assert {(CaseKind.MAIN_FRAME, False), (CaseKind.CLADDING_ROOF, False)} <= set(tried)
    assert {(CaseKind.CLADDING_WALL, False), (CaseKind.CLADDING_WALL, True)} <= set(tried)
    assert tried == {kind: pytest.approx(0.999, abs=2e-3) for kind in tried}


def test_each_kind_of_case_has_a_name_of_its_own() -> None:
    """Uplift alone is never taken for a case with its pushes: two kinds of one name would be one."""
    run = make_run(plan_of(BOX), shipped_catalogue())
    assert {c.kind for c in run.demands.cases} == set(CaseKind)
    alone = [c for c in run.demands.cases if "uplift alone" in c.kind]
    assert alone
    assert all(c.push_case is None and c.kind is not CaseKind.MAIN_FRAME for c in alone)
    assert all(c.push_case is not None for c in run.demands.cases if c.kind is CaseKind.MAIN_FRAME)
