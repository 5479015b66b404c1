"""Run -> the same roof with its house minimum one size up: the anchors that it would take, and what they cost."""

from __future__ import annotations

from dataclasses import dataclass, replace

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.choice import assign_anchors
from framing.anchors.house_minimum import least_uplift_lb
from framing.anchors.schedule import AnchorSchedule
from framing.anchors.strap_room import with_clear_distances
from framing.plan import Plan
from framing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class Stronger:
    """A roof with another house minimum: the plan that asks for it, the catalogue's row, and every mark's anchor.

    `changed` are the places in the schedule of the marks whose anchor is another one.
    """

    plan: Plan
    least: Anchor
    schedule: AnchorSchedule
    changed: tuple[int, ...]


def stronger_roof(run: Run) -> Stronger | None:
    """The roof with the next row of the catalogue above the plan's house minimum as its minimum, None where no row is
    larger, or where the truss engineer lays the roof out. Rows that would change no mark are passed over.
    """
    if run.by_engineer:
        return None
    for row in _rows_above(run.schedule.catalogue, run.plan.anchors.minimum):
        plan = replace(run.plan, anchors=replace(run.plan.anchors, minimum=row.id))
        found = assign_anchors(plan, run.framing, run.reactions, run.demands, run.schedule.catalogue)
        pairs = enumerate(zip(run.schedule.marks, found.marks, strict=True))
        changed = tuple(i for i, (a, b) in pairs if a.anchor != b.anchor)
        if changed:
            return Stronger(plan=plan, least=row, schedule=with_clear_distances(found), changed=changed)
    return None


def _rows_above(catalogue: Catalogue, minimum: str) -> list[Anchor]:
    """Single anchors for one ply with a larger allowable uplift than the minimum's, the smallest first; without a
    minimum the smallest row of all is the least that the house takes.
    """
    rows = [a for a in catalogue.anchors if a.plies == 1 and a.count == 1 and a.kind is AnchorKind.CAST]
    floor = least_uplift_lb(minimum, catalogue, 1) or min((a.allowable_uplift_lb for a in rows), default=0.0)
    return sorted((a for a in rows if a.allowable_uplift_lb > floor), key=lambda a: (a.allowable_uplift_lb, a.order))


def price(schedule: AnchorSchedule) -> float | None:
    """What the anchors cost by the catalogue's prices, None where one of them has none."""
    held = [m.anchor for m in schedule.marks if m.anchor is not None]
    return sum(a.price for a in held) if held and all(a.price for a in held) else None


def first_full(schedule: AnchorSchedule) -> tuple[str, float] | None:
    """The mark whose anchor is the first to reach what it is allowed as the wind grows, and that wind [mph]; None where
    no wind fills any.
    """
    speeds = [(m.good_to_mph, m.mark) for m in schedule.marks if m.anchor is not None and m.good_to_mph is not None]
    mph, mark = min(speeds, default=(0.0, ""))
    return (mark, mph) if mark else None
