"""Which walls count as one line that holds the deck, and which are too short, are the plan's to say."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from framing.anchors.catalogue_file import shipped_catalogue
from framing.run import Run, make_run
from invariants.houses import plan_of

STEPPED = [(0, 0), (40, 0), (40, 24), (20, 24), (20, 30), (0, 30)]


def lines(run: Run, axis: int) -> list[tuple[float, float]]:
    """Where each line lies and the length of wall in it, by the outside faces. [ft]"""
    return [(round(line.at_ft, 3), round(sum(line.lengths_ft))) for line in run.sideways.deck.lines[axis]]


def test_a_step_of_6_ft_is_two_lines_or_one_and_its_wall_holds_or_not() -> None:
    """Common practice, no source. Lines lie on the walls' outside faces; two of 20 ft, 6 ft apart, halfway as one."""
    plan = plan_of(STEPPED)
    assert (plan.masonry.line_within_ft, plan.masonry.shortest_stretch_ft) == (4.0, 4.0)
    as_given = make_run(plan, shipped_catalogue())
    coarse = replace(plan.masonry, line_within_ft=6.5, shortest_stretch_ft=6.5)
    coarser = make_run(replace(plan, masonry=coarse), shipped_catalogue())
    assert lines(as_given, 0) == [(0.0, 40), (24.0, 20), (30.0, 20)]
    assert lines(as_given, 1) == [(0.0, 30), (20.0, 6), (40.0, 24)]
    assert lines(coarser, 0) == [(0.0, 40), (27.0, 40)]
    assert lines(coarser, 1) == [(0.0, 30), (40.0, 24)]
    short = [k for k, b in enumerate(as_given.framing.bearings) if b.wall == "W4"]
    taken, none = (np.abs(run.sideways.along_lb[short]).max() for run in (as_given, coarser))
    assert taken > 100.0
    assert none == 0.0
