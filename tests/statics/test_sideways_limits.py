"""Which walls count as one line that holds the deck, and which are too short, are the plan's to say."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.run import Run, make_run
from invariants.houses import plan_of

STEPPED = [(0, 0), (40, 0), (40, 24), (20, 24), (20, 27), (0, 27)]  # a step of 3 ft in the far long wall


def lines(run: Run, axis: int) -> list[tuple[float, float]]:
    """Where each line lies and the length of wall in it, by the outside faces. [ft]"""
    return [(round(line.at_ft, 3), round(sum(line.lengths_ft))) for line in run.sideways.deck.lines[axis]]


def test_a_step_of_3_ft_is_one_line_or_two_and_its_wall_holds_or_not_and_the_push_is_the_same() -> None:
    """Common practice, no source. Lines lie on the walls' outside faces; two of 20 ft, 3 ft apart, halfway as one."""
    plan = plan_of(STEPPED)
    assert (plan.masonry.line_within_ft, plan.masonry.shortest_stretch_ft) == (4.0, 4.0)
    as_given = make_run(plan, shipped_catalogue())
    fine = replace(plan.masonry, line_within_ft=2.0, shortest_stretch_ft=2.0)
    finer = make_run(replace(plan, masonry=fine), shipped_catalogue())
    assert [at for at, _ in lines(as_given, 0)] == pytest.approx([0, 25.5])
    assert [at for at, _ in lines(as_given, 1)] == pytest.approx([0, 40])
    assert [at for at, _ in lines(finer, 0)] == pytest.approx([0, 24, 27])
    assert [at for at, _ in lines(finer, 1)] == pytest.approx([0, 20, 40])
    for axis in (0, 1):
        given, parted = (run.sideways.lines_lb[axis].sum(axis=0) for run in (as_given, finer))
        assert np.abs(given).max() > 1000.0
        assert parted == pytest.approx(given, rel=1e-9, abs=1e-6)
