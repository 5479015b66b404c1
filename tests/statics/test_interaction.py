"""The straight-line sum of uplift and lateral ratios, and the speed at which it is one: by hand and by halving.

The rule is engineering usage, from memory; the arithmetic below is its own.
"""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.anchors.catalogue_file import shipped_catalogue
from framing.anchors.interaction import Allowable, Demand, speed_ratio, use_ratio
from framing.members import MemberKind
from framing.plan import RoofType
from framing.run import make_run
from invariants.houses import plan_of

PLAIN = Demand(wind_lb=2000.0, dead_lb=500.0, parallel_lb=(100.0, 30.0), perpendicular_lb=(200.0, 60.0))
STRAP = Allowable(uplift_lb=1800.0, parallel_lb=800.0, perpendicular_lb=1000.0)


def test_the_ratios_add_up() -> None:
    """0.6 x 2000 - 0.6 x 500 = 900: 900/1800 + 100/800 + 200/1000 = 0.825."""
    assert use_ratio(PLAIN, STRAP) == pytest.approx(0.825)


def test_without_lateral_values_the_ratio_is_uplift_alone_and_the_speed_the_closed_form() -> None:
    """sqrt((1800 + 300) / 1200) of the wind speed."""
    strap = replace(STRAP, parallel_lb=None, perpendicular_lb=None)
    assert use_ratio(PLAIN, strap) == 0.5
    assert speed_ratio(PLAIN, strap) == pytest.approx(math.sqrt(2100.0 / 1200.0))


def test_with_one_lateral_value_that_one_counts() -> None:
    assert use_ratio(PLAIN, replace(STRAP, parallel_lb=None)) == pytest.approx(0.7)
    assert use_ratio(PLAIN, replace(STRAP, perpendicular_lb=None)) == pytest.approx(0.625)


def test_with_all_three_the_sum_is_solved_for_the_square_of_the_speed() -> None:
    """(1200 s - 300)/1800 + 100 s/800 + 200 s/1000 = 1: s = (1 + 1/6) / (2/3 + 1/8 + 1/5)."""
    assert speed_ratio(PLAIN, STRAP) == pytest.approx(math.sqrt((7 / 6) / (2 / 3 + 1 / 8 + 1 / 5)))


def test_the_least_loads_hold_the_speed_down_where_they_count() -> None:
    """Lateral by the least alone: 900/1000 of it used up, whatever the wind: 1200 s - 300 = 0.1 x 1800."""
    demand = replace(PLAIN, parallel_lb=None, perpendicular_lb=(1.0, 900.0))
    assert speed_ratio(demand, STRAP) == pytest.approx(math.sqrt(480.0 / 1200.0))
    assert speed_ratio(replace(demand, perpendicular_lb=(1.0, 1100.0)), STRAP) == 0.0
    assert speed_ratio(replace(PLAIN, wind_lb=0.0, parallel_lb=None, perpendicular_lb=None), STRAP) == math.inf


pushes = st.none() | st.tuples(st.floats(0.0, 900.0), st.floats(0.0, 200.0))


@given(st.floats(1.0, 9000.0), st.floats(0.0, 3000.0), pushes, pushes)
def test_at_the_speed_found_the_sum_of_the_ratios_is_one(
    wind_lb: float, dead_lb: float, parallel: tuple[float, float] | None, square: tuple[float, float] | None
) -> None:
    demand = Demand(wind_lb=wind_lb, dead_lb=dead_lb, parallel_lb=parallel, perpendicular_lb=square)
    factor = speed_ratio(demand, STRAP)
    if factor == 0.0:
        return

    def at(s: float) -> float:
        pushed = [p and (p[0] * s, p[1]) for p in (parallel, square)]
        return use_ratio(replace(demand, wind_lb=wind_lb * s, parallel_lb=pushed[0], perpendicular_lb=pushed[1]), STRAP)

    assert at(factor**2) == pytest.approx(1.0, abs=1e-6)
    assert at(factor**2 * 1.01) > 1.0


def test_the_schedule_uses_it_for_the_choice_the_ratio_and_the_speed() -> None:
    run = make_run(plan_of([(0, 0), (40, 0), (40, 24), (0, 24)], type=RoofType.GABLE), shipped_catalogue())
    for m in run.schedule.marks:
        if m.anchor is None or m.parallel_lb is None:
            continue
        parallel, square = m.anchor.allowable_parallel_lb, m.anchor.allowable_perpendicular_lb
        assert parallel is not None
        assert square is not None
        total = m.uplift_lb / m.anchor.allowable_uplift_lb + m.parallel_lb / parallel
        total += 0.0 if m.bearing.kind is MemberKind.GABLE_END else (m.perpendicular_lb or 0.0) / square
        assert m.ratio == pytest.approx(total, rel=1e-12)
        assert m.ratio <= 1.0
        lighter = [
            a
            for a in run.schedule.catalogue.anchors
            if a.plies == m.bearing.plies
            and a.count == m.count
            and a.allowable_uplift_lb < m.anchor.allowable_uplift_lb
        ]
        for a in lighter:
            assert a.allowable_parallel_lb is not None
            assert a.allowable_perpendicular_lb is not None
            used = m.uplift_lb / a.allowable_uplift_lb + m.parallel_lb / a.allowable_parallel_lb
            assert used + (m.perpendicular_lb or 0.0) / a.allowable_perpendicular_lb > 1.0
        if m.good_to_mph is not None:
            assert m.good_to_mph >= run.plan.wind.speed_mph
