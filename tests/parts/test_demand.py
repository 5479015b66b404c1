"""What is said of a mark that no anchor holds: the whole demand, and why."""

from __future__ import annotations

import re
from dataclasses import replace

from export.commands.run_of_plan import unresolved_lines
from export.words.check import findings_text
from export.words.demand import demand_words, unresolved_words
from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.run import Run, make_run
from invariants.houses import plan_of

HOUSE = plan_of([(0, 0), (40, 0), (40, 28), (0, 28)])


def run_with(uplift_lb: float, parallel_lb: float | None, perpendicular_lb: float | None) -> Run:
    """One anchor for one ply, invented."""
    shipped = shipped_catalogue()
    one = replace(
        next(a for a in shipped.anchors if (a.count, a.plies) == (1, 1)),
        allowable_uplift_lb=uplift_lb,
        allowable_parallel_lb=parallel_lb,
        allowable_perpendicular_lb=perpendicular_lb,
    )
    return make_run(HOUSE, replace(shipped, name="mine.csv", anchors=(one,)))


def test_where_the_pushes_sideways_are_the_cause_the_sentence_gives_them_too() -> None:
    run = run_with(3000.0, 150.0, 250.0)
    mark = next(m for m in run.schedule.unresolved if m.bearing.kind is MemberKind.COMMON)
    assert mark.parallel_lb is not None
    assert mark.perpendicular_lb is not None
    assert mark.uplift_lb / 3000.0 < 0.5
    said = next(line for line in unresolved_lines(run) if line.startswith(f"{mark.mark} ({mark.bearing.member})"))
    assert said.endswith(" at 1 ply: with each the ratio by its rule is over 1.0")
    numbers = [float(n) for n in re.findall(r"(\d+) lb", said)]
    assert numbers == [round(mark.uplift_lb), round(mark.parallel_lb), round(mark.perpendicular_lb)]
    assert unresolved_words(mark, run.schedule.catalogue) in findings_text(run)


def test_where_the_catalogue_has_nothing_for_the_plies_the_sentence_says_that() -> None:
    run = run_with(30000.0, None, None)
    (mark, *_) = run.schedule.unresolved
    assert mark.bearing.plies == 2
    assert unresolved_words(mark, run.schedule.catalogue).endswith(" at 2 plies: none is listed at 2 plies")


def test_a_mark_that_no_wall_pushes_asks_for_uplift_alone() -> None:
    mark = replace(run_with(3000.0, None, None).schedule.marks[0], uplift_lb=812.4)
    assert demand_words(replace(mark, parallel_lb=None, perpendicular_lb=None)) == "812 lb up"
    said = demand_words(replace(mark, parallel_lb=20.4, perpendicular_lb=None))
    assert said == "812 lb up and 20 lb along the wall"
