"""Ground -> sentences: what is given and does not hold (flags, exit code 1), and what is not said or wants a look.

A demand without the data to judge it is a note, but over an opening it is a flag: the beam there hangs on bars, cells
and lintel alone, whoever stands on it.
"""

from __future__ import annotations

from collections.abc import Iterator

from framing.anchors.schedule import AnchorSchedule
from framing.ground.beam_strength import BLOCK_JOINT_IN, TAKEN_BARS, TAKEN_F_C_PSI
from framing.ground.over_openings import OpeningBeam
from framing.ground.stops import CellPull, Ground
from framing.ground.tie_beam import BeamDemand
from framing.plan import Plan
from framing.plan_masonry import LintelKind
from framing.units import feet_inches

MOST_NAMED = 6
SMALLEST_CUT_FT = 0.5 / 12.0
LEAST_LB = 1.0


def ground_flags(plan: Plan, ground: Ground) -> tuple[str, ...]:
    """What is given and too weak, and openings whose beam is not said, one sentence each; they make the exit code 1."""
    return (
        *(f"tie beam: {fault}" for fault in ground.strength.faults),
        *_least_steel(ground),
        *(_span_fails(plan, ground, k, beam) for k, beam in enumerate(ground.beams) if _fails(beam)),
        *_cells_fail(plan, ground.cells),
        *(line for opening in ground.openings for line in _opening_flags(plan, opening)),
    )


def ground_notes(plan: Plan, schedule: AnchorSchedule, ground: Ground) -> tuple[str, ...]:
    """What the plan does not say of where the pull stops, girders far from a filled cell, and missing weight."""
    return (
        *_no_cells(ground),
        *_not_said(plan, ground),
        *_off_the_beam(plan, ground),
        *_precast(ground),
        *_far_girders(schedule, ground),
        *_missing_weight(schedule, ground),
        *_on_supports(schedule, ground),
    )


def _fails(beam: BeamDemand) -> bool:
    return any(s.ratio is not None and s.ratio > 1.0 and s.opening is None for s in beam.spans)


def _span_fails(plan: Plan, ground: Ground, k: int, beam: BeamDemand) -> str:
    spans = [s for s in beam.spans if s.opening is None and s.ratio is not None]
    worst = max(spans, key=lambda s: s.ratio or 0.0)
    needed = ground.needed[k].spacing_ft
    way = "a deeper beam or more steel" if needed is None else f"cells at most {feet_inches(needed)} apart"
    shear = ground.strength.shear_lb
    by_shear = shear is not None and worst.ratio == worst.strength.shear_lb / shear
    stirrups = ", or stirrups" if by_shear and not ground.strength.stirrups_count else ""
    return (
        f"tie beam on {beam.cells.stretch.name} between the cells at {feet_inches(max(worst.from_ft, 0.0))} and "
        f"{feet_inches(worst.to_ft)}: it is pulled up with {worst.ratio:.2f} of what the {plan.tie_beam.name} with its "
        f"bars carries in {'shear' if by_shear else 'bending'}; it wants {way}{stirrups}"
    )


def _least_steel(ground: Ground) -> Iterator[str]:
    feels = [s.strength for b in ground.beams for s in b.spans] + [o.strength for o in ground.openings]
    if feels:
        top, bottom = max(f.top_ft_lb for f in feels), max(f.bottom_ft_lb for f in feels)
        yield from (f"tie beam: {line}" for line in ground.strength.lacks_least_steel(top, bottom))


def _cells_fail(plan: Plan, cells: tuple[CellPull, ...]) -> Iterator[str]:
    over = [c for c in cells if c.bar_ratio is not None and c.bar_ratio > 1.0]
    if over:
        worst = max(over, key=lambda c: c.bar_ratio or 0.0)
        bar = plan.masonry.steel.cell_bar
        yield (
            f"filled cells: {len(over)} pulled harder than the {bar.name if bar else 'bar'} in them takes, the most "
            f"{cell_name(worst)} with {worst.pull_lb:,.0f} lb, {worst.bar_ratio:.2f} of it; it wants a larger bar or a "
            "second cell beside it"
        )


def _opening_flags(plan: Plan, o: OpeningBeam) -> Iterator[str]:
    name = opening_name(o)
    if o.girders:
        yield f"{name}: a girder stands over it ({', '.join(o.girders)}): stop and ask the engineer"
    pulled = f"{o.asd.top_ft_lb:,.0f} ft-lb and {o.asd.shear_lb:,.0f} lb of shear (ASD)"
    if o.unsaid:
        yield (
            f"{name}: the tie beam over it is pulled up with {pulled} and the plan does not say {', '.join(o.unsaid)}; "
            "write them, or ask the engineer"
        )
    if o.ratio is not None and o.ratio > 1.0:
        apart = o.opening.lintel not in (None, LintelKind.TIE_BEAM)
        lintel = f"; the {o.opening.lintel} lintel must carry it" if apart else ""
        yield (
            f"{name}: the tie beam over it is pulled up with {pulled}, {o.ratio:.2f} of what the {plan.tie_beam.name} "
            f"with its bars carries{lintel}: it wants more bars at the top, stirrups or a deeper beam"
        )
    under_ft = plan.wall_height_ft - (plan.tie_beam.nominal_depth_in - BLOCK_JOINT_IN) / 12.0
    if o.opening.head_ft > under_ft + SMALLEST_CUT_FT:
        yield (
            f"{name}: its head at {feet_inches(o.opening.head_ft)} cuts into the tie beam, whose underside is "
            f"{feet_inches(under_ft)} above the floor; lower it or ask the engineer"
        )


def _no_cells(ground: Ground) -> Iterator[str]:
    bare = [(b, n) for b, n in zip(ground.beams, ground.needed, strict=True) if not b.cells.known]
    if not bare:
        return
    by_spacing: dict[float | None, list[str]] = {}
    for beam, needed in bare:
        by_spacing.setdefault(needed.spacing_ft, []).append(beam.cells.stretch.name)
    said = [
        f"at most {feet_inches(ft)} apart on {_named(walls)}"
        if ft is not None
        else f"closer than 16 in. on {_named(walls)}"
        for ft, walls in sorted(by_spacing.items(), key=lambda f: f[0] or 0.0)
    ]
    taken = ""
    if any(needed.taken for _, needed in bare):
        taken = (
            f" (for that figure, where the plan says none, {TAKEN_BARS.name} at top and bottom, {TAKEN_F_C_PSI:,.0f} "
            "psi, 1-1/2 in. of cover and a #5 in each cell are taken)"
        )
    yield (
        "Where the pull stops is not judged: the plan says no filled cells (tie_beam.cell_spacing or [[filled_cell]]). "
        f"They would be needed {'; '.join(said)}{taken}. Doors and windows come on top: say them by [[opening]]."
    )


def _not_said(plan: Plan, ground: Ground) -> Iterator[str]:
    if not any(b.cells.known for b in ground.beams):
        return
    missing = list(ground.strength.missing)
    missing += ["tie_beam.cell_bar"] if plan.masonry.steel.cell_bar is None else []
    missing += ["[footing]"] if plan.masonry.footing is None else []
    if missing:
        yield f"The tie beam's pull is printed but not judged for want of {', '.join(missing)}: ask for them."
    if not plan.masonry.openings:
        yield "The plan says no doors or windows ([[opening]]): the beam over them is not judged."


def _off_the_beam(plan: Plan, ground: Ground) -> Iterator[str]:
    """Openings and cells of the plan with no tie beam over them: a porch beam stands there."""
    seen = {o.index for o in ground.openings}
    masonry = plan.masonry
    off = [f"opening {i + 1} on {o.wall}" for i, o in enumerate(masonry.openings) if i not in seen]
    used = {(b.cells.stretch.name, at) for b in ground.beams for at in b.cells.at_ft}
    off += [
        f"filled_cell {i + 1} on {c.wall}" for i, c in enumerate(masonry.filled_cells) if (c.wall, c.at_ft) not in used
    ]
    if off:
        yield f"No tie beam stands over {_named(off)}: a porch beam is in its place, so nothing is reckoned there."


def _precast(ground: Ground) -> Iterator[str]:
    for o in ground.openings:
        if o.opening.lintel not in (None, LintelKind.TIE_BEAM):
            net = 2.0 * o.asd.shear_lb / o.span_ft
            yield (
                f"{opening_name(o)}: its {o.opening.lintel} lintel is not counted; where it is part of the beam "
                f"its uplift rating from its approval is to be read against {o.asd.top_ft_lb:,.0f} ft-lb, some "
                f"{net:,.0f} plf up (ASD)."
            )


def _far_girders(schedule: AnchorSchedule, ground: Ground) -> Iterator[str]:
    far = [schedule.marks[g.row].mark for g in ground.girders if g.cell_at_ft is not None and not g.near]
    unknown = [schedule.marks[g.row].mark for g in ground.girders if g.cell_at_ft is None]
    if far:
        marks = "1 mark" if len(far) == 1 else f"{len(far)} marks"
        yield (
            f"No filled cell within 24 in. of {marks} with a girder or two straps: {_named(far)}; common "
            "practice, no source, wants one there."
        )
    if unknown:
        yield (
            f"A filled cell belongs within 24 in. of every mark with a girder or two straps (common practice, no "
            f"source): {_named(unknown)}."
        )


def _missing_weight(schedule: AnchorSchedule, ground: Ground) -> Iterator[str]:
    short = [ladder for ladder in ground.ladders if ladder.missing_lb > LEAST_LB]
    if not short or not any(b.cells.known for b in ground.beams):
        return
    worst = max(short, key=lambda ladder: ladder.missing_lb)
    counted = "beam, wall and footing" if worst.dowelled else "the beam and the grouted cells"
    yield (
        f"The weight on its own strip of wall does not hold {len(short)} of {len(ground.ladders)} marks down: most is "
        f"missing at {schedule.marks[worst.row].mark}, {worst.missing_lb:,.0f} of {worst.pull_lb:,.0f} lb, with "
        f"{counted} counted; the wall beside it, the slab's edge or the soil must help: ask the engineer."
    )


def _on_supports(schedule: AnchorSchedule, ground: Ground) -> Iterator[str]:
    """Anchored marks off the walls: nothing under them is followed."""
    followed = {ladder.row for ladder in ground.ladders}
    lifted_lb: dict[str, float] = {}
    for row, mark in enumerate(schedule.marks):
        if mark.held_by == "support" and row not in followed:
            name = mark.bearing.wall
            lifted_lb[name] = lifted_lb.get(name, 0.0) + mark.uplift_lb
    said = [f"{name} ({lb:,.0f} lb up in all)" for name, lb in lifted_lb.items() if lb > LEAST_LB]
    if said:
        yield (
            f"Where the pull stops is not reckoned under {' and '.join(said)}: the beam on a tied-down support, its "
            "cells and its weight are the engineer's."
        )


def opening_name(o: OpeningBeam) -> str:
    """The opening by its place in the plan, its wall and its stations."""
    return (
        f"opening {o.index + 1} on {o.opening.wall}, {feet_inches(o.opening.from_ft)} to {feet_inches(o.opening.to_ft)}"
    )


def cell_name(cell: CellPull) -> str:
    """A filled cell by its wall and station, by both walls at a corner."""
    if len(cell.walls) > 1:
        return f"at the corner of {' and '.join(cell.walls)}"
    return f"on {cell.walls[0]} at {feet_inches(max(cell.at_ft[0], 0.0))}"


def _named(names: list[str]) -> str:
    names = list(dict.fromkeys(names))
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more
