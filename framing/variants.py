"""Plans that differ in a few values -> a run of each, what they share made once.

A house whose geometry is another's is not framed again, and pulls that are another's are not reckoned again: what
decides either is compared value by value, nothing is guessed.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from framing.anchors.catalogue import Catalogue
from framing.deck.approvals import Approvals
from framing.plan import Plan
from framing.run import Geometry, Pulls, Run, build_geometry, build_pulls, finish_run

Variant = tuple[Plan, Catalogue, Approvals]


def make_runs(variants: Iterable[Variant]) -> tuple[Run, ...]:
    """A run for each, as `make_run` makes it. Raises as `make_run`."""
    first: Plan | None = None
    houses: dict[Plan, Geometry] = {}
    pulls: dict[Plan, Pulls] = {}
    runs = []
    for plan, catalogue, approvals in variants:
        first = first or plan
        shape, blown = _shape(plan, first), _blown(plan, first)
        if shape not in houses:
            houses[shape] = build_geometry(plan)
        if blown not in pulls:
            pulls[blown] = build_pulls(plan, houses[shape])
        runs.append(finish_run(plan, catalogue, approvals, houses[shape], pulls[blown]))
    return tuple(runs)


def _blown(plan: Plan, like: Plan) -> Plan:
    """The plan with what wind and weight do not feel as in another: names, catalogue, steel, cells, trades."""
    masonry = replace(like.masonry, tops_held_by=plan.masonry.tops_held_by, cross_walls=plan.masonry.cross_walls)
    anchors = replace(like.anchors, side=plan.anchors.side, corner_strap_ft=plan.anchors.corner_strap_ft)
    return replace(
        plan, project=like.project, anchors=anchors, masonry=masonry, trades=like.trades, assumed=like.assumed
    )


def _shape(plan: Plan, like: Plan) -> Plan:
    """The plan with what its geometry does not feel as in another: wind but for its procedure, weights, masonry too."""
    wind = replace(like.wind, mwfrs_procedure=plan.wind.mwfrs_procedure)
    return replace(_blown(plan, like), wind=wind, dead=like.dead, masonry=like.masonry, tie_beam=like.tie_beam)
