"""The lines that a push or a deck line's force is made of add up to what the run has, whatever holds the walls."""

from __future__ import annotations

import numpy as np
import pytest

from framing.explain.sideways import line_pushes, mark_pushes
from framing.members import MemberKind
from framing.plan import MwfrsProcedure, RoofEdge, RoofType
from framing.plan_masonry import TopsHeldBy
from framing.run import Run
from invariants.houses import changed_plan, plan_of
from statics.test_sideways import BOX, ELL, open_front, run_of

HOUSES = {
    "an L with hips": plan_of(ELL),
    "gables, by the directional procedure": plan_of(
        BOX, type=RoofType.GABLE, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL
    ),
    "an L with gables": changed_plan(plan_of(ELL), type=RoofType.GABLE),
    "an open front": open_front(),
}


@pytest.mark.parametrize("held_by", list(TopsHeldBy))
@pytest.mark.parametrize("house", HOUSES)
def test_the_lines_add_up_to_every_push(house: str, held_by: TopsHeldBy) -> None:
    run = run_of(HOUSES[house], held_by)
    cases = range(0, len(run.sideways.cases), 5)
    for axis in (0, 1):
        for line in range(len(run.sideways.deck.lines[axis])):
            for case in cases:
                found = line_pushes(run, axis, line, case)
                total = sum(p.lb for p in found.pushes) + found.turning_lb
                assert total == pytest.approx(run.sideways.lines_lb[axis][line, case], abs=1e-6)
                assert found.turning_lb == 0.0 or house == "an open front"
    for i in range(0, len(run.framing.bearings), 5):
        for case in cases:
            adds_up(run, i, case)


def adds_up(run: Run, bearing: int, case: int) -> None:
    found = mark_pushes(run, bearing, case)
    along = run.sideways.along_lb[bearing, case]
    assert sum(a.lb for a in found.along) == pytest.approx(along.sum(), abs=1e-6)
    if run.framing.bearings[bearing].kind is not MemberKind.CORNER_JACK:  # whose two walls push at a right angle
        square = np.hypot(*run.sideways.square_lb[bearing, case])
        assert abs(sum(p.lb for p in found.square)) == pytest.approx(square, abs=1e-6)


def test_a_line_that_is_larger_without_the_roof_s_part_leaves_it_out() -> None:
    run = run_of(plan_of(BOX, type=RoofType.GABLE))
    (across,) = [k for k, c in enumerate(run.sideways.cases) if "onto W1, left corner, internal +0.18" in c.name]
    found = line_pushes(run, 1, 0, across)
    assert not found.with_roof
    assert {p.what.split()[0] for p in found.pushes} == {"upper", "heel"}


def test_by_the_directional_procedure_each_wall_is_named_for_how_it_stands_to_the_wind() -> None:
    """Fig. 27.3-1 with G = 0.85: windward 0.8, leeward -0.5 where L/B is up to 1, -0.3 at 2, between them at 40/24,
    walls along the wind -0.7.
    """
    run = run_of(HOUSES["gables, by the directional procedure"])
    for onto, leeward in (("W1", -0.5), ("W4", -0.5 + 0.2 * (5 / 3 - 1))):
        (k, *_) = [k for k, c in enumerate(run.sideways.cases) if f"wind onto {onto}" in c.name]
        found = [(p.what[-2:], p) for a in (0, 1) for p in line_pushes(run, a, 0, k).pushes if p.zone.endswith("wall")]
        opposite = {"W1": "W3", "W4": "W2"}[onto]
        want = dict.fromkeys(("W1", "W2", "W3", "W4"), ("side wall", -0.7))
        want |= {onto: ("windward wall", 0.8), opposite: ("leeward wall", leeward)}
        assert {wall for wall, _ in found} == set(want)
        for wall, push in found:
            zone, C_p = want[wall]
            assert push.zone == zone
            assert push.outside_factor == pytest.approx(0.85 * C_p, abs=1e-3)


@pytest.mark.parametrize(("rise_per_run", "read"), [(5 / 12, "load case 2"), (1.5 / 12, "load case 1 at 0 degrees")])
def test_walls_under_a_gable_are_read_at_0_degrees_only_where_its_roof_is_low(rise_per_run: float, read: str) -> None:
    """Fig. 28.3-1's second reading of wind along a ridge goes up to 10 degrees (weak: one reading of its notes): for
    1.5:12, 7.1 degrees, and not for 5:12. Two bars side by side, one gabled, one hipped, that has second readings.
    """
    bars = [(0, 0), (60, 0), (60, 24), (40, 24), (40, 46), (60, 46), (60, 70), (0, 70), (0, 46), (20, 46), (20, 24)]
    gables = tuple(RoofEdge(wall=w, type=RoofType.GABLE, from_ft=None, to_ft=None) for w in ("W2", "W12"))
    run = run_of(plan_of([*bars, (0, 24)], type=RoofType.HIP, edges=gables, rise_per_run=rise_per_run))
    [k, *_] = [k for k, c in enumerate(run.sideways.cases) if "wind onto W2" in c.name and "second" in c.name]
    lines = range(len(run.sideways.deck.lines[0]))
    onto = [p for n in lines for p in line_pushes(run, 0, n, k).pushes if p.what == "upper half of W2"]
    assert {p.zone.split(", ", 1)[1] for p in onto} == {read}
