"""Invariants 3 and 4 with the main frame's wind by the directional procedure, on random houses."""

from __future__ import annotations

import pytest

from framing.plan import Basis, MwfrsProcedure, Plan
from invariants.houses import changed_plan, moved_plan, random_plan
from invariants.test_houses import SAME_LB, run_of, worst_difference_lb

SEEDS = [*range(5), *(pytest.param(seed, marks=pytest.mark.full) for seed in range(5, 60))]


def plan_of_seed(seed: int) -> Plan:
    return changed_plan(random_plan(seed), mwfrs_procedure=MwfrsProcedure.DIRECTIONAL, basis=Basis.MWFRS)


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_turning_and_shifting_changes_no_reaction_of_the_directional_procedure(seed: int) -> None:
    plan, shift = plan_of_seed(seed), (1234.5, -678.9)
    for turn_deg in (90.0, 180.0, 33.0):
        assert worst_difference_lb(plan, moved_plan(plan, turn_deg, shift=shift), turn_deg, False, shift) <= SAME_LB


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_mirroring_changes_no_reaction_of_the_directional_procedure(seed: int) -> None:
    plan = plan_of_seed(seed)
    assert worst_difference_lb(plan, moved_plan(plan, 0.0, mirror=True), 0.0, True, (0.0, 0.0)) <= SAME_LB


@pytest.mark.parametrize("seed", SEEDS, scope="module")
def test_every_directional_case_comes_down_at_the_bearings(seed: int) -> None:
    for case in run_of(plan_of_seed(seed)).reactions.cases:
        assert case.reactions_vertical_lb == pytest.approx(case.applied_vertical_lb, rel=1e-9, abs=1e-6)
