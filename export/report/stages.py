"""Every mark's uplift with and without the covering and by both bases, side by side, and what pushes it sideways."""

from __future__ import annotations

from export.report.markup import esc, num, section, table
from framing.anchors.schedule import Mark
from framing.loads.cases import LoadBasis
from framing.run import Run

STAGES = (
    "mark",
    "W, lb#",
    "D finished, lb#",
    "uplift finished, lb#",
    "D before, lb#",
    "uplift before, lb#",
    "counts",
    "uplift, main frame, lb#",
    "uplift, cladding, lb#",
    "along the wall, lb#",
    "square to it, lb#",
    "ratio: uplift#",
    "parallel#",
    "perpendicular#",
    "by the rule#",
    "rule",
)


def stages(run: Run) -> str:
    """The finished roof and the storm before the covering, both bases, pushes and ratios of every mark."""
    counted = "the worse counts" if run.plan.dead.without_covering else "the plan counts the finished roof alone"
    said = (
        f"<p>Finished: with its covering; before: the storm that comes before the covering is on; {counted}. W is at "
        "strength level, of the governing case; uplift and pushes are ASD. The governing basis is printed bold. Each "
        "push is the largest of all cases; the three ratios are those of the anchor's hardest case, and the row's rule "
        "makes one of them.</p>"
    )
    body = [_stage(run, i, m) for i, m in enumerate(run.schedule.marks)]
    found = table(STAGES, body, name="marks")
    return section("stages", "Finished, before the covering, both bases, and sideways", said, found)


def _stage(run: Run, i: int, m: Mark) -> tuple[str, ...]:
    r, use = run.reactions, m.use
    main, cladding = num(m.uplift_mwfrs_lb, 1), num(m.uplift_cladding_lb, 1)
    if m.basis is LoadBasis.MWFRS:
        main = f"<strong>{main}</strong>"
    elif m.basis is LoadBasis.CLADDING:
        cladding = f"<strong>{cladding}</strong>"
    return (
        f'<a href="#worked-{esc(m.mark)}">{esc(m.mark)}</a>',
        num(float(r.wind_lb[i]), 1),
        num(float(r.finished_dead_lb[i]), 1),
        num(float(r.finished_uplift_lb[i]), 1),
        num(float(r.bare_dead_lb[i]), 1),
        num(float(r.bare_uplift_lb[i]), 1),
        "before" if r.before_covering[i] else "finished",
        main,
        cladding,
        num(m.parallel_lb, 1),
        num(m.perpendicular_lb, 1),
        num(use.uplift_ratio if use else None, 3),
        num(use.parallel_ratio if use else None, 3),
        num(use.perpendicular_ratio if use else None, 3),
        num(m.ratio, 3),
        esc(use.rule) if use else "",
    )
