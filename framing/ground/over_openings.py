"""The beam over each opening: a span without cells, its jambs, and what the plan does not say for it.

It spans the clear opening and the depth to its bars, but no more than from cell to cell, as a simple beam: what its
running on at the jambs would spare it is left out. Arching does not help where the pull is up, nor do bars below.
Source: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.schedule import AnchorSchedule
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.ground.beam_strength import BeamStrength
from framing.ground.filled_cells import HALF_CELL_FT
from framing.ground.strap_pulls import STRENGTH_UPLIFT
from framing.ground.tie_beam import BeamDemand, Feel, simple_span
from framing.members import MemberKind
from framing.plan_masonry import Opening

GIRDERS = (MemberKind.GIRDER, MemberKind.HIP_GIRDER)


@dataclass(frozen=True, slots=True, kw_only=True)
class OpeningBeam:
    """The beam over one opening (its place in the plan, from 0).

    `jambs_ft` are the stations of the cells beside it, None where there is none; `span_ft` what it spans. `jamb_lb` is
    the pull on the cell at either jamb (ASD), half of the next span's included. `marks` are the places in the schedule
    of what stands over the opening, `girders` the names of the girders' marks among them. `unsaid` are the keys of the
    plan that must be given first.
    """

    index: int
    opening: Opening
    jambs_ft: tuple[float | None, float | None]
    span_ft: float
    asd: Feel
    strength: Feel
    jamb_lb: tuple[float, float]
    ratio: float | None
    marks: tuple[int, ...]
    girders: tuple[str, ...]
    unsaid: tuple[str, ...]


def opening_beams(
    openings: tuple[Opening, ...],
    demands: tuple[BeamDemand, ...],
    schedule: AnchorSchedule,
    beam_plf: float,
    strength: BeamStrength,
    depth_ft: float | None,
) -> tuple[OpeningBeam, ...]:
    """Every opening of the plan that a stretch of tie beam runs over, in the plan's order.

    `depth_ft` is the depth to the top bars, None where the plan does not say them.
    """
    out = []
    for index, opening in enumerate(openings):
        demand = next((d for d in demands if opening in d.cells.openings), None)
        if demand is not None:
            out.append(_opening(index, opening, demand, schedule, beam_plf, strength, depth_ft))
    return tuple(out)


def _opening(
    index: int,
    opening: Opening,
    demand: BeamDemand,
    schedule: AnchorSchedule,
    beam_plf: float,
    strength: BeamStrength,
    depth_ft: float | None,
) -> OpeningBeam:
    jambs = demand.cells.jambs(opening)
    no_cell = ("filled_cell beside it",) if None in jambs else ()
    no_lintel = ("opening.lintel",) if opening.lintel is None else ()
    ends = _span_ends_ft(opening, jambs, depth_ft)
    asd_plf, strength_plf = (c.dead_factor * beam_plf for c in (ASD_UPLIFT, STRENGTH_UPLIFT))
    asd, own_lb = simple_span(demand.pulls, demand.pulls.asd_lb, asd_plf, ends)
    strong, _ = simple_span(demand.pulls, demand.pulls.strength_lb, strength_plf, ends)
    over = [
        i for i, at in zip(demand.pulls.rows, demand.pulls.at_ft, strict=True) if opening.from_ft < at < opening.to_ft
    ]
    kinds = {i: schedule.marks[i].bearing.kind for i in over}
    return OpeningBeam(
        index=index,
        opening=opening,
        jambs_ft=jambs,
        span_ft=ends[1] - ends[0],
        asd=asd,
        strength=strong,
        jamb_lb=_jamb_lb(demand, jambs, own_lb, asd_plf),
        ratio=strength.ratio(strong.top_ft_lb, strong.bottom_ft_lb, strong.shear_lb),
        marks=tuple(over),
        girders=tuple(schedule.marks[i].mark for i in over if kinds[i] in GIRDERS),
        unsaid=(*strength.missing, *no_cell, *no_lintel),
    )


def _span_ends_ft(
    opening: Opening, jambs: tuple[float | None, float | None], depth_ft: float | None
) -> tuple[float, float]:
    """Where the beam over an opening is taken as held: clear and depth about its middle, within the jamb cells."""
    more_ft = HALF_CELL_FT if depth_ft is None else depth_ft / 2.0
    low, high = opening.from_ft - more_ft, opening.to_ft + more_ft
    return (
        max(low, opening.from_ft - HALF_CELL_FT if jambs[0] is None else jambs[0]),
        min(high, opening.to_ft + HALF_CELL_FT if jambs[1] is None else jambs[1]),
    )


def _jamb_lb(
    demand: BeamDemand, jambs: tuple[float | None, float | None], own_lb: tuple[float, float], down_plf: float
) -> tuple[float, float]:
    """The pull on the cell at either jamb: half of what the opening's span and the next one carry, or what the beam
    beyond puts there as it runs on; the larger.
    """
    at = demand.cells.at_ft
    out = []
    for k, jamb in enumerate(jambs):
        pull = own_lb[k]
        if jamb is not None:
            i = at.index(jamb)
            beyond = (at[i - 1], jamb) if k == 0 and i > 0 else (jamb, at[i + 1]) if k and i + 1 < len(at) else None
            if beyond is not None:
                pull += simple_span(demand.pulls, demand.pulls.asd_lb, down_plf, beyond)[1][1 - k]
            pull = max(pull, demand.cell_lb[i])
        out.append(max(pull, 0.0))
    return (out[0], out[1])
