"""What stands on the walls: members, what carries them, and the bearings that get anchors."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from framing.plan import Point, Side


class MemberKind(StrEnum):
    """The trade's names of the pieces."""

    COMMON = "common"
    GABLE_END = "gable end"
    HIP_GIRDER = "hip girder"
    STEP_DOWN = "step-down"
    END_JACK = "end jack"
    SIDE_JACK = "side jack"
    CORNER_JACK = "corner jack"
    GIRDER = "girder"
    VALLEY = "valley"


class CarrierKind(StrEnum):
    """What a member's end stands on."""

    WALL = "wall"
    SUPPORT = "support"
    MEMBER = "member"


@dataclass(frozen=True, slots=True, kw_only=True)
class Carrier:
    """What carries one end: a wall or support by its name, or a member by its name."""

    kind: CarrierKind
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One truss, jack, girder or valley piece.

    `start_ft` and `end_ft` are the plan points of its two bearings; `tail_start_ft` and `tail_end_ft`
    how far it runs on past them. `profile` is the top of the top chord from tail to tail as (distance
    from the start bearing along the member, height above the top of the tie beam). `base_ft` is the
    height of its underside above the tie beam (0 except for valley pieces). `carriers` has one entry
    per end for a spanning member, several for one that stands on a wall or on others along its length.
    """

    name: str
    kind: MemberKind
    plies: int
    start_ft: Point
    end_ft: Point
    tail_start_ft: float
    tail_end_ft: float
    profile: tuple[Point, ...]
    base_ft: float
    carriers: tuple[Carrier, ...]
    wing: str
    notes: tuple[str, ...] = ()

    @property
    def span_ft(self) -> float:
        """Distance between the two bearings in plan. [ft]"""
        return math.dist(self.start_ft, self.end_ft)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """One mark on the tie beam (or on a support): where one member is tied down.

    `station_ft` is the truss centre along the wall's outside face from its left end; `strap_station_ft`
    the truss face that the strap lies against. Points are at mid-thickness of the wall.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Framing:
    """The layout: members, and bearings in the order of their marks."""

    members: tuple[Member, ...]
    bearings: tuple[Bearing, ...]
    notes: tuple[str, ...]

    def member(self, name: str) -> Member:
        """The member of that name."""
        return next(m for m in self.members if m.name == name)
