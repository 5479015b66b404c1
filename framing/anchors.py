"""Reactions + catalogue -> AnchorSchedule: the lightest anchor that holds each bearing."""

from __future__ import annotations

from dataclasses import dataclass

from framing.members import MemberKind
from framing.plan import Point, Side


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
