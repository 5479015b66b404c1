"""Runs of variants: each is what its plan alone would give, and what is shared is made once."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

import framing.variants
from export.commands.run_of_plan import load_run
from framing.plan import MwfrsProcedure, Plan
from framing.plan_masonry import TopsHeldBy
from framing.run import build_geometry, build_pulls, make_run
from framing.variants import make_runs
from invariants.houses import SAMPLES


def variants(plan: Plan) -> dict[str, Plan]:
    return {
        "as planned": plan,
        "stronger": replace(plan, anchors=replace(plan.anchors, minimum="1500 lb")),
        "faster": replace(plan, wind=replace(plan.wind, speed_mph=plan.wind.speed_mph + 10.0)),
        "directional": replace(plan, wind=replace(plan.wind, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)),
        "held by the beam": replace(plan, masonry=replace(plan.masonry, tops_held_by=TopsHeldBy.TIE_BEAM)),
        "finished roof": replace(plan, dead=replace(plan.dead, without_covering=False)),
        "steeper": replace(plan, roof=replace(plan.roof, rise_per_run=0.6)),
    }


@pytest.mark.slow
@pytest.mark.parametrize("name", ["cottage", "garage_wing"])
def test_a_variant_is_what_its_plan_alone_gives(name: str) -> None:
    first = load_run(SAMPLES[name])
    catalogue, approvals = first.schedule.catalogue, first.cover.approvals
    plans = variants(first.plan)
    for (words, plan), run in zip(
        plans.items(), make_runs((p, catalogue, approvals) for p in plans.values()), strict=True
    ):
        alone = make_run(plan, catalogue, approvals)
        assert run.fingerprint == alone.fingerprint, words
        assert run.plan == plan
        assert np.array_equal(run.reactions.by_case_lb, alone.reactions.by_case_lb), words
        told = [(m.bearing.mark, m.anchor, m.count, m.ratio, m.uplift_lb) for m in run.schedule.marks]
        assert told == [(m.bearing.mark, m.anchor, m.count, m.ratio, m.uplift_lb) for m in alone.schedule.marks], words


def test_what_does_not_change_is_made_once(monkeypatch: pytest.MonkeyPatch) -> None:
    first = load_run(SAMPLES["cottage"])
    made: list[str] = []

    def counted(name: str, build: object) -> object:
        def counting(*given: object) -> object:
            made.append(name)
            return build(*given)  # type: ignore[operator]

        return counting

    monkeypatch.setattr(framing.variants, "build_geometry", counted("house", build_geometry))
    monkeypatch.setattr(framing.variants, "build_pulls", counted("pulls", build_pulls))
    plans = variants(first.plan)
    make_runs((plan, first.schedule.catalogue, first.cover.approvals) for plan in plans.values())
    assert made.count("house") == 3  # as planned, by the directional procedure, steeper
    assert made.count("pulls") == 6  # each but the stronger anchors
