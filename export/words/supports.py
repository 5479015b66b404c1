"""What each support of the plan carries, in figures and in a sentence."""

from __future__ import annotations

from dataclasses import dataclass

from framing.plan import Point, Support
from framing.run import Run
from framing.units import feet_inches


@dataclass(frozen=True, slots=True, kw_only=True)
class Carried:
    """One support: how many marks stand on it and how hard they pull and press, and how many trusses run on over it.

    `n_rests` are trusses that run on over it and only press; nothing lifts there. Pounds, allowable-stress level.
    """

    name: str
    support: Support
    n_marks: int
    largest_uplift_lb: float
    n_rests: int
    largest_down_lb: float


def carried_by_supports(run: Run) -> tuple[Carried, ...]:
    """Every support, in the plan's order."""
    return tuple(_carried(run, f"S{k}", support) for k, support in enumerate(run.plan.supports, start=1))


def _carried(run: Run, name: str, support: Support) -> Carried:
    marks = [m for m in run.schedule.marks if m.bearing.wall == name]
    rests = [
        float(down_lb)
        for b, down_lb in zip(run.framing.rests, run.reactions.rests_down_lb, strict=True)
        if b.wall == name
    ]
    return Carried(
        name=name,
        support=support,
        n_marks=len(marks),
        largest_uplift_lb=max((m.uplift_lb for m in marks), default=0.0),
        n_rests=len(rests),
        largest_down_lb=max([m.down_lb for m in marks] + rests, default=0.0),
    )


def support_words(carried: Carried) -> str:
    """Such as `S1 beam from (0'-0", 14'-0") to (50'-0", 14'-0"), tied down: 24 marks, up to 812 lb up; ...`."""
    s = carried.support
    tied = "tied down" if s.holds_down else "not tied down"
    said = []
    if carried.n_marks:
        said.append(f"{carried.n_marks} marks, up to {carried.largest_uplift_lb:,.0f} lb up")
    if carried.n_rests:
        said.append(f"{carried.n_rests} trusses run on over it and only press on it")
    if said:
        said.append(f"up to {carried.largest_down_lb:,.0f} lb down")
    what = "; ".join(said) or "nothing stands on it"
    return f"{carried.name} {s.kind.value} from {_point(s.start_ft)} to {_point(s.end_ft)}, {tied}: {what}"


def _point(p: Point) -> str:
    return f"({feet_inches(p[0])}, {feet_inches(p[1])})"
