"""The variants that are laid beside a plan which names none: stronger minimums, other winds, the other load path."""

from __future__ import annotations

from dataclasses import replace

from framing.anchors.catalogue import AnchorKind
from framing.plan import Plan
from framing.plan_masonry import TopsHeldBy
from framing.run import Run

STEP_MPH = 10.0
FASTEST_MPH = 250.0

Variant = tuple[str, tuple[tuple[str, object], ...], Plan]


def usual_variants(run: Run) -> tuple[Variant, ...]:
    """Each id of the catalogue as the house minimum, two winds more, the other way to hold the walls' tops, the roof
    finished before any storm.
    """
    plan = run.plan
    ids = dict.fromkeys(
        a.id for a in run.schedule.catalogue.anchors if a.count == 1 and a.plies == 1 and a.kind is AnchorKind.CAST
    )
    out: list[Variant] = [
        (f"at least {i}", (("anchors.minimum", i),), replace(plan, anchors=replace(plan.anchors, minimum=i)))
        for i in ids
        if i != plan.anchors.minimum
    ]
    for step in (STEP_MPH, 2.0 * STEP_MPH):
        speed = plan.wind.speed_mph + step
        if speed <= FASTEST_MPH:
            wind = replace(plan.wind, speed_mph=speed)
            out.append((f"{speed:g} mph", (("wind.speed", speed),), replace(plan, wind=wind)))
    other = TopsHeldBy.TIE_BEAM if plan.masonry.tops_held_by is TopsHeldBy.ROOF else TopsHeldBy.ROOF
    masonry = replace(plan.masonry, tops_held_by=other)
    held = (("walls.tops_held_by", other.value),)
    out.append((f"walls' tops held by the {other.value}", held, replace(plan, masonry=masonry)))
    if plan.dead.without_covering:
        dead = replace(plan.dead, without_covering=False)
        out.append(("roof finished before a storm", (("dead.without_covering", False),), replace(plan, dead=dead)))
    return tuple(out)
