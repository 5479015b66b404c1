"""What stands on the walls: members, what carries them, and the bearings that get anchors."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from typing import Generic, TypeVar

from framing.frame_side import FrameSide
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
class EndPath:
    """Where the load of one end of a member goes: to a bearing by its place in `Framing.bearings`, or onto
    another member by its place in `Framing.members`, `at_ft` along it from its start.
    """

    bearing: int | None
    carrier: int | None
    at_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MidBearing:
    """Where a member stands on a support between its two ends: `at_ft` along it from its start, `bearing` by its
    place in `Framing.bearings` or, past those, in `Framing.rests`.
    """

    bearing: int
    at_ft: float


Truss = TypeVar("Truss")


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlookerLever(Generic[Truss]):
    """Outlookers that stand on the truss `inside`, lie over the gable wall and carry the rake: they run along `axis`,
    the gable at `gable_ft` and the truss at `inside_ft` on it. `nearer_inside` says that the piece lies past midway
    to that truss, which carries it where the rake is a ladder.
    """

    inside: Truss
    axis: int
    gable_ft: float
    inside_ft: float
    nearer_inside: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Tributary:
    """A piece of plan, in the outline's frame, whose roof goes to one member (`owner`, its place in the list).

    `outward` is empty inside the walls; outside it has the sides toward which the eave there may fall. `measure`
    replaces the member's direction when a load's place along it is measured inside the bearings. On a gable end
    `bearing` is the anchor that takes the piece, and `lever` its outlookers over the gable, the truss inside by its
    place in the list. `wing` is the wing that the trusses there are shaped to, without its slopes from
    `open_sides`, at seams; `beyond` marks a piece past the end of its wall, which takes only what no other piece takes.
    """

    ring_ft: tuple[Point, ...]
    owner: int
    outward: tuple[FrameSide, ...]
    measure: Point | None
    bearing: int | None
    lever: OutlookerLever[int] | None
    wing: str
    open_sides: tuple[FrameSide, ...]
    beyond: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """One truss, jack, girder or valley piece.

    `start_ft` and `end_ft` are the plan points of its two bearings; `tail_start_ft` and `tail_end_ft`
    how far it runs on past them. `profile` is the top of the top chord from tail to tail as (distance
    from the start bearing along the member, height above the top of the tie beam). `base_ft` is the
    height of its underside above the tie beam (0 except for valley pieces). `carriers` has one entry
    per end for a spanning member, several for one that stands on a wall or on others along its length.
    `paths` says where the loads of its two ends go (empty for a gable end and a valley piece), `frame_ft`
    are its bearings in the outline's frame, `between` where it runs on over supports, in order, `width_ft` its
    tributary width, `effective_span_ft` the span of its effective wind area (between anchors for a gable end,
    the longest between bearings that hold down for a member that runs on over supports). `ground_ft` is the
    ring, in plan coordinates, that its wood covers at bearing height, cut at the walls' outside faces (empty for a
    valley piece).
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
    paths: tuple[EndPath, ...]
    frame_ft: tuple[Point, Point]
    between: tuple[MidBearing, ...]
    width_ft: float
    effective_span_ft: float
    ground_ft: tuple[Point, ...]

    @property
    def span_ft(self) -> float:
        """Distance between the two bearings in plan. [ft]"""
        return math.dist(self.start_ft, self.end_ft)

    @property
    def longest_span_ft(self) -> float:
        """The longest distance between neighbouring bearings. [ft]"""
        places = [0.0, *(b.at_ft for b in self.between), self.span_ft]
        return max(b - a for a, b in pairwise(places))


class Crossing(StrEnum):
    """How a member stands on its wall or support."""

    SQUARE = "square"
    DIAGONAL = "45 degrees"
    ALONG = "along the wall"
    ASKEW = "askew"
    CORNER_BLOCK = "corner block"


@dataclass(frozen=True, slots=True, kw_only=True)
class Strap:
    """Where one strap stands, against the face `side` of its own member: a plan point.

    `tape_ft` is that point projected on the wall's outside face, from the wall's left end: the crew's mark; on a
    support along its line. `in_from_face_ft` is how far in from that face it stands, `edge_ft` from the nearest face of
    the beam, `end_ft` along the tape from where the concrete ends; None on a support. In the block of an inside corner,
    on no wall's face, `tape_ft` is 0 or the wall's length, `end_ft` None, since the beam runs on both ways, and
    `in_from_next_ft` how far in it stands from the outside face of the wall that meets its own there (else None).
    """

    side: Side
    point_ft: Point
    tape_ft: float
    in_from_face_ft: float | None
    in_from_next_ft: float | None
    edge_ft: float | None
    end_ft: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bearing:
    """One mark on the tie beam (or on a support): where one member is tied down.

    `wall` is the wall's or support's name, `stands_on` says which of the two. `station_ft` is the truss centre along
    the wall's outside face from its left end, on a support along its line from its `from` end. `straps` are the one of
    a single anchor, and the other that a pair has besides. `point_ft` is at mid-thickness of the wall, on the member's
    centre line; `wood_ft` the ring, in plan coordinates, of where its wood lies on the tie beam (empty on a support).
    `skew_deg` is how far the member stands off square to the wall, `bearing_length_ft` how long it lies on it. In the
    block of an inside corner `next_wall` is the wall that meets its own there (else ''). `top_chord_in` is how
    high above the tie beam the underside of a gable end's top chord runs at its strap; None where its chords have not
    parted, and at any other member.
    `by_engineer` marks an end on a support that is not tied down, a porch beam for one: no anchor of the plan stands
    there, the engineer gives its connection.
    """

    mark: str
    wall: str
    stands_on: CarrierKind
    station_ft: float
    member: str
    kind: MemberKind
    plies: int
    crossing: Crossing
    straps: tuple[Strap, Strap]
    point_ft: Point
    wood_ft: tuple[Point, ...]
    skew_deg: float
    bearing_length_ft: float
    next_wall: str
    top_chord_in: float | None
    by_engineer: bool

    @property
    def on_support(self) -> bool:
        """Whether it stands on a support of the plan, not on the tie beam."""
        return self.stands_on is CarrierKind.SUPPORT

    @property
    def side(self) -> Side:
        """The face that a single strap lies against."""
        return self.straps[0].side

    @property
    def strap_station_ft(self) -> float:
        """The tape's figure of a single strap. [ft]"""
        return self.straps[0].tape_ft

    @property
    def strap_ft(self) -> Point:
        """The plan point of a single strap."""
        return self.straps[0].point_ft


@dataclass(frozen=True, slots=True, kw_only=True)
class PorchBeam:
    """A beam of the plan (`support`, its place there) in place of a stretch of outside wall (`wall`, its place in the
    outline; stations). `has_porch` says whether the plan declares the open floor behind all of it.
    """

    support: int
    wall: int
    from_ft: float
    to_ft: float
    has_porch: bool

    @property
    def name(self) -> str:
        """The support's name."""
        return f"S{self.support + 1}"


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenPorch:
    """A floor of the plan that is open to the wind (`porch`, its place there), in the outline's frame.

    `open_walls` are the walls, by their place in the outline, in whose place porch beams stand along it; `open_sides`
    the sides of the frame from which wind comes in under its ceiling.
    """

    porch: int
    ring_ft: tuple[Point, ...]
    open_walls: tuple[int, ...]
    open_sides: tuple[FrameSide, ...]

    @property
    def name(self) -> str:
        """The porch's name."""
        return f"porch {self.porch + 1}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Framing:
    """The layout: members, bearings in the order of their marks, and who takes which piece of plan.

    `rests` are where members run on over supports that only push up: they get marks, but no anchor, and nothing lifts
    there. `porch_beams` are the supports that stand in place of wall, `porches` the open floors behind them.
    `framed_ft` are the corners, in the outline's frame, of the outline with its small jogs absorbed;
    `seams_ft` are the lines, in plan coordinates, where one cell's trusses end and another's begin without a girder.
    `notes` are for people; `flags` are what is doubtful to build, and make the exit code 1.
    """

    members: tuple[Member, ...]
    bearings: tuple[Bearing, ...]
    rests: tuple[Bearing, ...]
    porch_beams: tuple[PorchBeam, ...]
    porches: tuple[OpenPorch, ...]
    tributaries: tuple[Tributary, ...]
    framed_ft: tuple[Point, ...]
    seams_ft: tuple[tuple[Point, Point], ...]
    notes: tuple[str, ...]
    flags: tuple[str, ...]

    def member(self, name: str) -> Member:
        """The member of that name."""
        return next(m for m in self.members if m.name == name)
