"""Reactions + catalogue -> AnchorSchedule: the lightest anchor that holds each bearing."""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.house_minimum import check_minimum, least_uplift_lb
from framing.anchors.interaction import Allowable, Demand, speed_ratio, use_ratio
from framing.loads.cases import LoadBasis
from framing.loads.reactions import Reactions
from framing.members import Bearing, Framing, MemberKind, Strap
from framing.plan import Plan, Side
from framing.sideways.pushes import Lateral

FASTEST_MPH = 300.0
BY_ENGINEER = "no tie-beam anchor: connection by the engineer"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One row of the schedule: a bearing, what pulls on it, and the anchor that holds it.

    `side` is the bearing's own, or both faces for a pair. `anchor` is None, `count` 0 and `ratio` None where nothing
    in the catalogue holds, and where the connection is by the engineer: on a support that is not tied down, a porch
    beam for one. `uplift_lb` is the ASD net uplift, 0 where nothing lifts; `down_lb` the largest gravity reaction.
    `parallel_lb` and `perpendicular_lb` push along the wall and square to it (ASD); None on a support, and the latter
    under a gable end, whose wall pressure is told apart. `ratio` and `good_to_mph` count them where the catalogue
    does. `basis` and `case` are the governing wind's. `clear_ft` is from its straps to the nearest of another member,
    middle to middle; None where there is none.
    """

    bearing: Bearing
    side: Side
    down_lb: float
    uplift_lb: float
    parallel_lb: float | None
    perpendicular_lb: float | None
    basis: LoadBasis
    case: str
    anchor: Anchor | None
    count: int
    allowable_uplift_lb: float | None
    ratio: float | None
    good_to_mph: float | None
    clear_ft: float | None

    @property
    def straps(self) -> tuple[Strap, ...]:
        """Where its straps stand; where no anchor holds, where one would; none where the engineer connects."""
        return () if self.bearing.by_engineer else self.bearing.straps[: max(1, self.count)]

    @property
    def mark(self) -> str:
        """The bearing's name: `W3-07`."""
        return self.bearing.mark

    @property
    def resolved(self) -> bool:
        """Whether an anchor of the catalogue holds this bearing, or it asks for none."""
        return self.anchor is not None or self.bearing.by_engineer

    @property
    def held_by(self) -> str:
        """Where the anchor sits; on a porch beam and on a support that is not tied down there is none."""
        if self.bearing.by_engineer:
            return "engineer's connection"
        return "support" if self.bearing.on_support else "tie beam"


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorSchedule:
    """Every mark, in the order of the walls and then along each wall."""

    catalogue: Catalogue
    marks: tuple[Mark, ...]

    @property
    def unresolved(self) -> tuple[Mark, ...]:
        """The marks that no anchor of the catalogue holds."""
        return tuple(m for m in self.marks if not m.resolved)

    @property
    def by_engineer(self) -> tuple[Mark, ...]:
        """The marks on porch beams and on supports that are not tied down: the engineer gives their connection."""
        return tuple(m for m in self.marks if m.bearing.by_engineer)


def assign_anchors(
    plan: Plan, framing: Framing, reactions: Reactions, lateral: tuple[Lateral | None, ...], catalogue: Catalogue
) -> AnchorSchedule:
    """Every bearing with the lightest anchor that holds it and is not under the house minimum.

    Raises
    ------
    PlanError
        If the house minimum is neither pounds nor in the catalogue; names the nearest id.
    """
    check_minimum(plan.anchors.minimum, catalogue)
    in_order = {p: _in_order(catalogue, p, plan.anchors.minimum) for p in {b.plies for b in framing.bearings}}
    marks = []
    for i, bearing in enumerate(framing.bearings):
        demand = _demand(bearing, reactions, lateral[i], i)
        fit = () if bearing.by_engineer else in_order[bearing.plies]
        anchor = next((a for a, most in fit if use_ratio(demand, most) <= 1.0), None)
        marks.append(_mark(plan, bearing, reactions, i, demand, anchor))
    return AnchorSchedule(catalogue=catalogue, marks=tuple(marks))


def _demand(bearing: Bearing, reactions: Reactions, lateral: Lateral | None, i: int) -> Demand:
    gable = bearing.kind is MemberKind.GABLE_END
    return Demand(
        wind_lb=float(reactions.wind_lb[i]),
        dead_lb=float(reactions.dead_for_uplift_lb[i]),
        parallel_lb=lateral.parallel_lb if lateral else None,
        perpendicular_lb=lateral.perpendicular_lb if lateral and not gable else None,
    )


def _in_order(catalogue: Catalogue, plies: int, minimum: str) -> list[tuple[Anchor, Allowable]]:
    """The rows that may stand at that ply count and what each takes, the one to prefer first: the least allowable
    uplift, then the price, then the file's order; every single before any pair, pairs only from their own row; none
    lighter than the house minimum.
    """
    rows = [a for a in catalogue.anchors if a.plies == plies and a.kind is AnchorKind.CAST]
    floor = least_uplift_lb(minimum, catalogue, plies)
    fit = [a for a in rows if a.count > 1 or a.allowable_uplift_lb >= floor or a.id == minimum]
    fit.sort(key=lambda a: (a.count, a.allowable_uplift_lb, a.price, a.order))
    return [(a, a.allowable) for a in fit]


def _mark(plan: Plan, bearing: Bearing, reactions: Reactions, i: int, demand: Demand, anchor: Anchor | None) -> Mark:
    case = reactions.cases[int(reactions.governing[i])]
    count = anchor.count if anchor is not None else 0
    return Mark(
        bearing=bearing,
        side=Side.BOTH if count > 1 else bearing.side,
        down_lb=float(reactions.down_lb[i]),
        uplift_lb=float(reactions.uplift_lb[i]),
        parallel_lb=max(demand.parallel_lb) if demand.parallel_lb else None,
        perpendicular_lb=max(demand.perpendicular_lb) if demand.perpendicular_lb else None,
        basis=case.basis,
        case=case.name,
        anchor=anchor,
        count=count,
        allowable_uplift_lb=anchor.allowable_uplift_lb if anchor is not None else None,
        ratio=use_ratio(demand, anchor.allowable) if anchor is not None else None,
        good_to_mph=_good_to_mph(plan, demand, anchor),
        clear_ft=None,
    )


def _good_to_mph(plan: Plan, demand: Demand, anchor: Anchor | None) -> float | None:
    """The wind speed at which the anchor reaches its allowable load; None where there is no anchor, nothing lifts, or
    it holds beyond 300 mph. Without lateral values: V sqrt((allowable + 0.6 D) / (0.6 W)).

    Source: ASCE 7-22, eq. 26.10-1 (wind force goes with the square of the speed).
    """
    if anchor is None or demand.wind_lb <= 0.0:
        return None
    speed = plan.wind.speed_mph * speed_ratio(demand, anchor.allowable)
    return speed if speed <= FASTEST_MPH else None
