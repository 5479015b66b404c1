"""What each support of the plan carries, in figures and in a sentence."""

from __future__ import annotations

from dataclasses import dataclass

from framing.plan import Point, Support
from framing.run import Run
from framing.units import feet_inches

NEAR_FT = 0.25


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


def start_words(run: Run, support: Support) -> str:
    """Where on site the tape of a support starts: `end at W4, 14'-0" along it`, by the outside wall beside that end,
    or `end toward W4` where it stands free inside.
    """
    (x0, y0), (x1, y1) = support.start_ft, support.end_ft
    for wall in run.outline.walls:
        dx, dy = x0 - wall.start_ft[0], y0 - wall.start_ft[1]
        inward = -(dx * wall.outward[0] + dy * wall.outward[1])
        along = -dx * wall.outward[1] + dy * wall.outward[0]
        if abs(inward) <= wall.thickness_ft + NEAR_FT and -NEAR_FT <= along <= wall.length_ft + NEAR_FT:
            return f"end at {wall.name}, {feet_inches(along)} along it"
    back = (x0 - x1, y0 - y1)
    faced = max(run.outline.walls, key=lambda w: round(back[0] * w.outward[0] + back[1] * w.outward[1], 6))
    return f"end toward {faced.name}"


def _point(p: Point) -> str:
    return f"({feet_inches(p[0])}, {feet_inches(p[1])})"
