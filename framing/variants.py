"""Plans that differ in a few values -> a run of each, what they share made once.

A house whose geometry is another's is not framed again, and pulls that are another's are not reckoned again: what
decides either is compared value by value, nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from framing.anchors.catalogue import Catalogue
from framing.anchors.schedule import AnchorSchedule
from framing.deck.approvals import Approvals
from framing.ground.stops import Ground, build_ground
from framing.loads.reactions import Reactions
from framing.members import Framing
from framing.package.rows import Package
from framing.plan import Plan
from framing.run import Geometry, Pulls, Run, build_geometry, build_pulls, finish_run
from framing.walls.outline import Outline

Variant = tuple[Plan, Catalogue, Approvals]


def make_runs(variants: Iterable[Variant], package: Package | None = None) -> tuple[Run, ...]:
    """A run for each, as `make_run` makes it. Raises as `make_run`.

    `package` is the truss engineer's for the first: it governs those whose wind, weights and geometry are the first's;
    for another house it says nothing, and ours stands.
    """
    first: Plan | None = None
    houses: dict[Plan, Geometry] = {}
    pulls: dict[Plan, Pulls] = {}
    grounds: dict[tuple[object, ...], Ground] = {}
    runs = []
    for plan, catalogue, approvals in variants:
        first = first or plan
        shape, blown = _shape(plan, first), _blown(plan, first)
        if shape not in houses:
            houses[shape] = build_geometry(plan)
        if blown not in pulls:
            pulls[blown] = build_pulls(plan, houses[shape])
        ground_of = _remembered(grounds, blown)
        of_package = package if blown == _blown(first, first) else None
        runs.append(finish_run(plan, catalogue, approvals, houses[shape], pulls[blown], ground_of, of_package))
    return tuple(runs)


def _remembered(
    grounds: dict[tuple[object, ...], Ground], blown: Plan
) -> Callable[[Plan, Outline, Framing, Reactions, AnchorSchedule], Ground]:
    """A `build_ground` that gives the same again where pulls, masonry and pairs of straps are the same."""

    def ground_of(
        plan: Plan, outline: Outline, framing: Framing, reactions: Reactions, schedule: AnchorSchedule
    ) -> Ground:
        straps = tuple((m.count, m.uplift_lb) for m in schedule.marks)
        key = (blown, plan.masonry, plan.tie_beam, plan.assumed, straps)
        if key not in grounds:
            grounds[key] = build_ground(plan, outline, framing, reactions, schedule)
        return grounds[key]

    return ground_of


def _blown(plan: Plan, like: Plan) -> Plan:
    """The plan with what wind and weight do not feel as in another: names, catalogue, steel, cells, trades."""
    own = plan.masonry
    masonry = replace(
        like.masonry,
        tops_held_by=own.tops_held_by,
        line_within_ft=own.line_within_ft,
        shortest_stretch_ft=own.shortest_stretch_ft,
        cross_walls=own.cross_walls,
    )
    anchors = replace(like.anchors, side=plan.anchors.side, corner_strap_ft=plan.anchors.corner_strap_ft)
    return replace(
        plan, project=like.project, anchors=anchors, masonry=masonry, trades=like.trades, assumed=like.assumed
    )


def _shape(plan: Plan, like: Plan) -> Plan:
    """The plan with what its geometry does not feel as in another: wind but for its procedure, weights, masonry too."""
    wind = replace(like.wind, mwfrs_procedure=plan.wind.mwfrs_procedure)
    return replace(_blown(plan, like), wind=wind, dead=like.dead, masonry=like.masonry, tie_beam=like.tie_beam)
