"""Where the pull stops, on random houses and on samples: nothing is lost on the way, and turning changes nothing.

All pulls of a stretch of tie beam less what counts of its weight come down at its cells; a house turned on its plot has
the same beams, cells and weights.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.ground.beam_strength import beam_strength
from framing.ground.tie_beam import beam_demand
from framing.plan import Plan
from framing.run import Run, make_run
from invariants.houses import house_plan, moved_plan
from parts.masonry_houses import Footing, steel

HOUSES = (3, 11, 24, "bay_and_corners", "with supports 5", "mixed_gable_hip")
DOWELLED = Footing(width_ft=20.0 / 12.0, depth_ft=10.0 / 12.0, dowelled=True)


def said(plan: Plan) -> Plan:
    """The plan with cells at 4 ft, bars and a footing."""
    masonry = replace(plan.masonry, steel=steel(), footing=DOWELLED, openings=(), filled_cells=())
    return replace(plan, masonry=masonry)


def run_of(plan: Plan) -> Run:
    return make_run(said(plan), shipped_catalogue())


@pytest.mark.parametrize("house", HOUSES)
def test_what_pulls_on_a_beam_comes_down_at_its_cells(house: int | str) -> None:
    run = run_of(house_plan(house))
    rows = sorted(i for b in run.ground.beams for i in b.pulls.rows)
    on_walls = [i for i, m in enumerate(run.schedule.marks) if not m.bearing.on_support]
    assert rows == on_walls
    for beam in run.ground.beams:
        down = -10_000.0 * np.ones((len(beam.pulls.rows), 1))  # all of it lifts, so that no cell's own is cut at 0
        one = replace(beam.pulls, asd_lb=-down, strength_lb=-down, patterns=("one",))
        found = beam_demand(beam.cells, one, run.ground.beam_plf, beam_strength(run.plan))
        forces = found.cell_lb
        reach = (
            min(beam.cells.stretch.from_ft, *beam.pulls.at_ft, beam.cells.at_ft[0]),
            max(beam.cells.stretch.to_ft, *beam.pulls.at_ft, beam.cells.at_ft[-1]),
        )
        if min(forces) > 0.0:
            weight = 0.6 * run.ground.beam_plf * (reach[1] - reach[0])
            assert sum(forces) == pytest.approx(-down.sum() - weight, rel=1e-9)


@pytest.mark.parametrize("house", HOUSES[:4])
def test_turning_the_house_changes_no_beam_no_cell_and_no_weight(house: int | str) -> None:
    plan = house_plan(house)
    one, other = run_of(plan), run_of(moved_plan(plan, 37.0, shift=(120.0, -40.0)))
    for a, b in zip(one.ground.beams, other.ground.beams, strict=True):
        assert a.cells.at_ft == pytest.approx(b.cells.at_ft, abs=1e-6)
        assert a.pull_lb == pytest.approx(b.pull_lb, rel=1e-6)
        assert a.cell_lb == pytest.approx(b.cell_lb, rel=1e-5, abs=0.05)
    for a, b in zip(one.ground.cells, other.ground.cells, strict=True):
        assert (a.walls, a.jamb) == (b.walls, b.jamb)
        assert a.holds_lb == pytest.approx(b.holds_lb, rel=1e-6)
    assert [w.held_lb for w in one.ground.ladders] == pytest.approx([w.held_lb for w in other.ground.ladders], rel=1e-6)
