"""Reactions + catalogue -> AnchorSchedule: the lightest anchor that holds each bearing."""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.errors import CatalogueError
from framing.members import Bearing, Framing, MemberKind
from framing.plan import Plan, Point, Side
from framing.reactions import Reactions

FASTEST_MPH = 300.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """One row of the catalogue: an anchor, or a pair of them, at one number of plies.

    `count` is 1 or 2 (a pair has its own row). Lateral values are None where the catalogue gives none.
    """

    id: str
    name: str
    count: int
    plies: int
    allowable_uplift_lb: float
    allowable_parallel_lb: float | None
    allowable_perpendicular_lb: float | None
    embedment_in: float | None
    length_in: float | None
    fasteners: str
    n_nails: int
    approval: str
    price: float
    order: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """The user's anchors, in file order. `invented` is True for a sample that must say so everywhere."""

    name: str
    anchors: tuple[Anchor, ...]
    invented: bool
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One row of the schedule: a bearing, what pulls on it, and the anchor that holds it.

    `anchor` is None, `count` 0 and `ratio` None where nothing in the catalogue holds. `uplift_lb` is the
    ASD net uplift, 0 where nothing lifts; `down_lb` the largest gravity reaction. Lateral figures are
    None until they are computed.
    """

    mark: str
    wall: str
    station_ft: float
    strap_station_ft: float
    member: str
    kind: MemberKind
    plies: int
    side: Side
    point_ft: Point
    strap_ft: Point
    down_lb: float
    uplift_lb: float
    parallel_lb: float | None
    perpendicular_lb: float | None
    basis: str
    case: str
    anchor: Anchor | None
    count: int
    allowable_uplift_lb: float | None
    ratio: float | None
    good_to_mph: float | None

    @property
    def resolved(self) -> bool:
        """Whether an anchor of the catalogue holds this bearing."""
        return self.anchor is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorSchedule:
    """Every mark, in the order of the walls and then along each wall."""

    catalogue: Catalogue
    marks: tuple[Mark, ...]

    @property
    def unresolved(self) -> tuple[Mark, ...]:
        """The marks that no anchor of the catalogue holds."""
        return tuple(m for m in self.marks if not m.resolved)


def assign_anchors(plan: Plan, framing: Framing, reactions: Reactions, catalogue: Catalogue) -> AnchorSchedule:
    """Every bearing with the lightest anchor that holds it and is not under the house minimum.

    Raises
    ------
    CatalogueError
        If the house minimum is not in the catalogue; names the anchors that are.
    """
    minimum = _minimum(plan, catalogue)
    marks = []
    for i, bearing in enumerate(framing.bearings):
        uplift = float(reactions.uplift_lb[i])
        anchor = _lightest(catalogue, bearing.plies, uplift, minimum)
        marks.append(_mark(plan, bearing, reactions, i, anchor))
    return AnchorSchedule(catalogue=catalogue, marks=tuple(marks))


def _minimum(plan: Plan, catalogue: Catalogue) -> str:
    ids = list(dict.fromkeys(a.id for a in catalogue.anchors))
    if plan.anchors.minimum and plan.anchors.minimum not in ids:
        raise CatalogueError(
            f"anchors minimum: '{plan.anchors.minimum}' is not in the catalogue {catalogue.name}; "
            f"it has {', '.join(ids)}"
        )
    return plan.anchors.minimum


def _lightest(catalogue: Catalogue, plies: int, uplift_lb: float, minimum: str) -> Anchor | None:
    """The least allowable uplift at that ply count, then the price, then the file's order; every single before
    any pair, pairs only from their own row; none lighter than the house minimum.
    """
    rows = [a for a in catalogue.anchors if a.plies == plies]
    floor = max((a.allowable_uplift_lb for a in rows if a.id == minimum and a.count == 1), default=0.0)
    fit = [
        a
        for a in rows
        if a.allowable_uplift_lb >= uplift_lb and (a.count > 1 or a.allowable_uplift_lb >= floor or a.id == minimum)
    ]
    return min(fit, key=lambda a: (a.count, a.allowable_uplift_lb, a.price, a.order), default=None)


def _mark(plan: Plan, bearing: Bearing, reactions: Reactions, i: int, anchor: Anchor | None) -> Mark:
    case = reactions.cases[int(reactions.governing[i])]
    uplift = float(reactions.uplift_lb[i])
    allowable = anchor.allowable_uplift_lb if anchor is not None else None
    count = anchor.count if anchor is not None else 0
    return Mark(
        mark=bearing.mark,
        wall=bearing.wall,
        station_ft=bearing.station_ft,
        strap_station_ft=bearing.strap_station_ft,
        member=bearing.member,
        kind=bearing.kind,
        plies=bearing.plies,
        side=Side.BOTH if count > 1 else bearing.side,
        point_ft=bearing.point_ft,
        strap_ft=bearing.strap_ft,
        down_lb=float(reactions.down_lb[i]),
        uplift_lb=uplift,
        parallel_lb=None,
        perpendicular_lb=None,
        basis=case.basis,
        case=case.name,
        anchor=anchor,
        count=count,
        allowable_uplift_lb=allowable,
        ratio=uplift / allowable if allowable is not None else None,
        good_to_mph=_good_to_mph(plan, reactions, i, allowable),
    )


def _good_to_mph(plan: Plan, reactions: Reactions, i: int, allowable_lb: float | None) -> float | None:
    """The wind speed at which the anchor reaches its allowable: V sqrt((allowable + 0.6 D) / (0.6 W)), without
    lateral load; None where there is no anchor or nothing lifts by 300 mph.

    Source: ASCE 7-22, eq. 26.10-1 (wind force goes with the square of the speed).
    """
    wind = float(reactions.wind_lb[i])
    if allowable_lb is None or wind <= 0.0:
        return None
    resisting = allowable_lb + ASD_UPLIFT.dead_factor * float(reactions.dead_for_uplift_lb[i])
    speed = plan.wind.speed_mph * (resisting / (ASD_UPLIFT.wind_factor * wind)) ** 0.5
    return speed if speed <= FASTEST_MPH else None
