"""Every mark's uplift with and without the covering, side by side, and what pushes it sideways."""

from __future__ import annotations

from export.report.markup import esc, num, section, table
from framing.anchors.schedule import Mark
from framing.run import Run

STAGES = (
    "mark",
    "W, lb#",
    "D finished, lb#",
    "uplift finished, lb#",
    "D before, lb#",
    "uplift before, lb#",
    "counts",
    "along the wall, lb#",
    "square to it, lb#",
)
NONE = num(None, 1)
GABLE = "wall under the gable end, lb#"


def stages(run: Run) -> str:
    """The finished roof and the storm before the covering, which of them counts, and the pushes, mark by mark."""
    counted = "the worse counts" if run.plan.dead.without_covering else "the plan counts the finished roof alone"
    said = (
        f"<p>Finished: with its covering; before: the storm that comes before the covering is on; {counted}. W is at "
        "strength level; uplift and the pushes sideways are ASD. The push on the wall under a gable end, "
        "its triangle included, is reported and not given to the anchors there: they get none square to the wall.</p>"
    )
    body = [_stage(run, i, m) for i, m in enumerate(run.schedule.marks)]
    n = len(STAGES) + any(row[-1] != NONE for row in body)
    found = table((*STAGES, GABLE)[:n], [row[:n] for row in body], name="marks")
    return section("stages", "Finished, before the covering, and sideways", said, found)


def _stage(run: Run, i: int, m: Mark) -> tuple[str, ...]:
    r, lateral = run.reactions, run.lateral[i]
    gable_wall = lateral.gable_wall_lb if lateral and lateral.gable_wall_lb else None
    return (
        f'<a href="#worked-{esc(m.mark)}">{esc(m.mark)}</a>',
        num(float(r.wind_lb[i]), 1),
        num(float(r.finished_dead_lb[i]), 1),
        num(float(r.finished_uplift_lb[i]), 1),
        num(float(r.bare_dead_lb[i]), 1),
        num(float(r.bare_uplift_lb[i]), 1),
        "before" if r.before_covering[i] else "finished",
        num(m.parallel_lb, 1),
        num(m.perpendicular_lb, 1),
        num(gable_wall, 1),
    )
