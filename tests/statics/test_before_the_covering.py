"""The storm before the covering is on: by hand on one common truss, and what the plan says of it.

Weights, common practice, no source: under concrete tile a deck of 1.8 psf on the slope (from memory), at 5:12
1.8 x 13/12 = 1.95 psf of plan, and half a truss, 0.75: 2.70 of the finished roof's 10.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.plan import Plan, RoofType
from framing.run import Run, make_run
from invariants.houses import plan_of, random_plan

BARE_PSF = 2.70
GABLE = plan_of([(0, 0), (40, 0), (40, 24), (0, 24)], type=RoofType.GABLE, overhang_ft=2.0)


def run_of(plan: Plan) -> Run:
    return make_run(plan, shipped_catalogue())


def with_dead(plan: Plan, **changed: object) -> Plan:
    return replace(plan, dead=replace(plan.dead, **changed))


def test_a_common_truss_keeps_deck_and_half_its_weight_over_its_strip_and_its_own_eave() -> None:
    """2 ft on centre, 24 ft between faces and 2 ft eaves: 28 ft of roof, half at each wall: 7.30 psf less, 204.4 lb."""
    run = run_of(GABLE)
    r = run.reactions
    for i, bearing in enumerate(run.framing.bearings):
        if bearing.kind is MemberKind.COMMON and 6.0 < bearing.station_ft < 34.0:
            assert r.finished_dead_lb[i] - r.bare_dead_lb[i] == pytest.approx(2.0 * 14.0 * 7.30, rel=1e-9)
            bare_lb = 2.0 * (14.0 * BARE_PSF + 5.0 * (24.0 - 8 / 12) / 2.0)
            assert r.bare_dead_lb[i] == pytest.approx(bare_lb, rel=1e-9)
            assert r.bare_uplift_lb[i] - r.finished_uplift_lb[i] == pytest.approx(0.6 * 204.4, rel=1e-9)


@pytest.mark.parametrize("seed", range(4))
def test_the_worse_of_the_two_governs_and_both_are_kept(seed: int) -> None:
    run = run_of(random_plan(seed))
    r = run.reactions
    np.testing.assert_array_equal(r.uplift_lb, np.maximum(r.finished_uplift_lb, r.bare_uplift_lb))
    np.testing.assert_array_equal(r.dead_for_uplift_lb, np.minimum(r.finished_dead_lb, r.bare_dead_lb))
    assert r.before_covering.any()
    assert [m.uplift_lb for m in run.schedule.marks] == r.uplift_lb.tolist()


def test_a_plan_without_that_storm_keeps_the_finished_roof_and_still_shows_the_other() -> None:
    worse, finished = run_of(GABLE), run_of(with_dead(GABLE, without_covering=False))
    np.testing.assert_array_equal(finished.reactions.uplift_lb, worse.reactions.finished_uplift_lb)
    np.testing.assert_array_equal(finished.reactions.bare_uplift_lb, worse.reactions.bare_uplift_lb)
    assert not finished.reactions.before_covering.any()


def test_both_dead_loads_are_cases_of_their_own_and_come_down_whole() -> None:
    """Plan area: 42 x 28 ft of roof (1 ft rakes), ceiling between the bearing lines 39 1/3 x 23 1/3 ft."""
    run = run_of(GABLE)
    by_name = {c.name: c for c in run.reactions.cases}
    ceiling = 5.0 * (40 - 8 / 12) * (24 - 8 / 12)
    for name, top_psf in (("dead for uplift", 10.0), ("dead for uplift, before the covering", BARE_PSF)):
        case = by_name[name]
        assert case.applied_vertical_lb == pytest.approx(-(42 * 28 * top_psf + ceiling), rel=1e-9)
        assert case.reactions_vertical_lb == pytest.approx(case.applied_vertical_lb, rel=1e-9)
