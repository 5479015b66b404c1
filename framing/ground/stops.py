"""Everything from the straps down to the ground -> Ground: where the pull stops, and where it does not.

A demand is always there; what the plan does not say is a note, never a pass. What is given and too weak is a flag.
"""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.schedule import AnchorSchedule
from framing.ground.beam_strength import BeamStrength, beam_strength, beam_weight_plf, effective_depth_ft
from framing.ground.beam_stretches import Stretch, beam_stretches
from framing.ground.cell_spacing import SpacingNeeded, spacing_needed
from framing.ground.filled_cells import Cells, filled_cells
from framing.ground.near_girders import GirderCell, girder_cells
from framing.ground.over_openings import OpeningBeam, opening_beams
from framing.ground.reinforced_concrete import cell_bar_tension_lb
from framing.ground.strap_pulls import strap_pulls
from framing.ground.tie_beam import BeamDemand, beam_demand
from framing.ground.weights import Ladder, cell_holds_lb, ladders
from framing.loads.reactions import Reactions
from framing.members import Framing
from framing.plan import Plan
from framing.plan_masonry import Bars
from framing.walls.held_lengths import wall_strips
from framing.walls.outline import Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class CellPull:
    """One filled cell: `walls` and stations on each (two at a corner that two walls share), the pull on it and what
    hangs on it below the beam (both ASD). `bar_ratio` is the pull over what its bar takes, None where the plan names
    no bar; `jamb` whether it stands beside an opening.
    """

    walls: tuple[str, ...]
    at_ft: tuple[float, ...]
    pull_lb: float
    holds_lb: float
    bar_ratio: float | None
    jamb: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Where the pull stops. `beams` has one entry for each stretch of tie beam, in the order of the walls; `needed`
    the spacing of cells that would do, beside each.
    """

    beam_plf: float
    strength: BeamStrength
    beams: tuple[BeamDemand, ...]
    needed: tuple[SpacingNeeded, ...]
    cells: tuple[CellPull, ...]
    openings: tuple[OpeningBeam, ...]
    ladders: tuple[Ladder, ...]
    girders: tuple[GirderCell, ...]


def build_ground(
    plan: Plan, outline: Outline, framing: Framing, reactions: Reactions, schedule: AnchorSchedule
) -> Ground:
    """The whole way from the straps to the footing.

    Raises
    ------
    PlanError
        If a filled cell stands in an opening, or the cover leaves no room for the bars.
    """
    stretches = beam_stretches(outline, framing.porch_beams)
    cells = filled_cells(plan, stretches)
    pulls = strap_pulls(plan, outline, schedule, reactions, stretches)
    strength, plf = beam_strength(plan), beam_weight_plf(plan)
    beams = tuple(beam_demand(c, p, plf, strength) for c, p in zip(cells, pulls, strict=True))
    openings = opening_beams(plan.masonry.openings, beams, schedule, plf, strength, effective_depth_ft(plan))
    return Ground(
        beam_plf=plf,
        strength=strength,
        beams=beams,
        needed=tuple(spacing_needed(plan, s, p) for s, p in zip(stretches, pulls, strict=True)),
        cells=_cell_pulls(plan, beams, openings),
        openings=openings,
        ladders=ladders(plan, beams, wall_strips(outline, framing.bearings, framing.porch_beams)),
        girders=girder_cells(schedule, beams),
    )


def _cell_pulls(plan: Plan, beams: tuple[BeamDemand, ...], openings: tuple[OpeningBeam, ...]) -> tuple[CellPull, ...]:
    """Every cell once: at a corner the pulls of both walls' beams together."""
    jamb_lb: dict[tuple[str, float], float] = {}
    for o in openings:
        for at, lb in zip(o.jambs_ft, o.jamb_lb, strict=True):
            if at is not None:
                key = (o.opening.wall, at)
                jamb_lb[key] = max(jamb_lb.get(key, 0.0), lb)
    found: dict[object, list[tuple[str, float, float, float, bool]]] = {}
    for demand in beams:
        stretch, holds = demand.cells.stretch, cell_holds_lb(plan, demand)
        for i, (at, lb) in enumerate(zip(demand.cells.at_ft, demand.cell_lb, strict=False)):
            jamb = jamb_lb.get((stretch.name, at))
            row = (stretch.name, at, max(lb, jamb or 0.0), holds[i], jamb is not None)
            found.setdefault(_corner(demand.cells, at) or (stretch.name, at), []).append(row)
    return tuple(_cell(plan.masonry.steel.cell_bar, rows) for rows in found.values())


def _corner(cells: Cells, at_ft: float) -> int | str | None:
    """A name for the corner that a cell stands in; None for any other."""
    stretch: Stretch = cells.stretch
    for corner, end_ft in zip(stretch.corners, (stretch.from_ft, stretch.to_ft), strict=True):
        if corner is not None and abs(at_ft - end_ft) <= CORNER_FT:
            return f"corner {corner}"
    return None


CORNER_FT = 0.5  # a cell up to here from the crossing of the walls is the corner's


def _cell(bar: Bars | None, rows: list[tuple[str, float, float, float, bool]]) -> CellPull:
    pull = sum(row[2] for row in rows)
    return CellPull(
        walls=tuple(row[0] for row in rows),
        at_ft=tuple(row[1] for row in rows),
        pull_lb=pull,
        holds_lb=sum(row[3] for row in rows),
        bar_ratio=pull / (bar.count * cell_bar_tension_lb(bar.number)) if bar else None,
        jamb=any(row[4] for row in rows),
    )
