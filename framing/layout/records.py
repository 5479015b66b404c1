"""The records that the steps of the layout hand to one another, all in the outline's frame.

An axis is 0 for x and 1 for y.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from typing import NamedTuple

from framing.frame_side import FrameSide, sides_of
from framing.members import MemberKind, OutlookerLever
from framing.plan import Plan, Point
from framing.roof.wings import Wing
from framing.tolerances import TIE_FT

SMALLEST_BAY_FT = 0.25
NARROW_WING_FT = 6.0
SHORTEST_HIP_CELL_FT = 3.0
JOG_FT = 2.0
LARGEST_JOG_FT = 4.0  # as far as longer trusses are tried in place of girders
SHORTEST_PIECE_FT = 1.0
ON_MASONRY_FT = 1.5 / 12.0  # from a wall's end to a truss's centre: common practice, no source
PLY_FT = 1.5 / 12.0


class KeyKind(StrEnum):
    """What a member's key stands for while it has no name; a seam is the plain truss on a chord without a girder."""

    GIRDER = "girder"
    SEAM = "seam"
    TRUSS = "truss"
    END_TRUSS = "end truss"
    GABLE_END = "gable end"
    HIP_GIRDER = "hip girder"
    END_JACK = "end jack"
    SIDE_JACK = "side jack"
    CORNER_JACK = "corner jack"


class Key(NamedTuple):
    """A member before it has a name: its kind and its place, which is the chord's number for a girder and a seam, else
    the cell's and where in the cell.
    """

    kind: KeyKind
    place: tuple[int, ...]


def girder_key(chord: int) -> Key:
    """The key of the girder on a chord, by the chord's number."""
    return Key(KeyKind.GIRDER, (chord,))


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLine:
    """An outside wall, or the part of a framing line that stands for it: along `axis` at coordinate `line_ft` from
    `low_ft` to `high_ft`; the house lies toward `inward` (+1 or -1) on the other axis. `face_ft` is where the
    wall's outside face really is and `own_ft` from where to where it really runs (elsewhere only over absorbed jogs).
    """

    index: int
    axis: int
    line_ft: float
    face_ft: float
    own_ft: tuple[float, float]
    low_ft: float
    high_ft: float
    inward: int
    thickness_ft: float

    @property
    def bearing_ft(self) -> float:
        """Coordinate of mid-thickness. [ft]"""
        return self.face_ft + self.inward * self.thickness_ft / 2.0

    def on_masonry_ft(self, at_ft: float) -> float:
        """The place along the line; where an absorbed jog leaves no wall there, or too little for a truss, the middle
        of the wall's corner.
        """
        (low, high), half = self.own_ft, self.thickness_ft / 2.0
        if at_ft < low + ON_MASONRY_FT and self.low_ft < low - TIE_FT:
            return low + half
        return high - half if at_ft > high - ON_MASONRY_FT and self.high_ft > high + TIE_FT else at_ft


@dataclass(frozen=True, slots=True, kw_only=True)
class ChordEnd:
    """Where a chord ends: on wall `wall`, on the earlier chord `chord` or on the support `support` inside the house,
    at `at_ft` along the chord.
    """

    wall: int | None
    chord: int | None
    at_ft: float
    support: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Chord:
    """A framing line from an inside corner along `axis` at `line_ft`, from `low_ft` to `high_ft`.

    A girder on it stands at `bearing_ft`, on the bearing line of the wall that it continues. Where the
    support `covered` runs along all of it, it needs no girder; `over` are the places where its girder runs on over a
    support: (place along the axis, support).
    """

    index: int
    axis: int
    line_ft: float
    low_ft: float
    high_ft: float
    bearing_ft: float
    low_end: ChordEnd
    high_end: ChordEnd
    girder: bool = False
    covered: int | None = None
    over: tuple[tuple[float, int], ...] = ()

    @property
    def span_ft(self) -> float:
        """The longest between neighbouring bearings. [ft]"""
        places = [self.low_end.at_ft, *(at for at, _ in self.over), self.high_end.at_ft]
        return max(b - a for a, b in pairwise(places))

    @property
    def girder_ft(self) -> tuple[float, float]:
        """From where to where a girder on it takes the roof: all of it, or as far as a support along it."""
        low, high = self.low_end, self.high_end
        return (
            self.low_ft if low.support is None else low.at_ft,
            self.high_ft if high.support is None else high.at_ft,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """A rectangle of the outline between walls and chords; its trusses run across the ridge of `wing`, past which it
    lies by less than `jog_ft`, over absorbed jogs.
    """

    index: int
    low_ft: Point
    high_ft: Point
    wing: int
    ridge_axis: int
    jog_ft: float

    @property
    def ends(self) -> tuple[FrameSide, FrameSide]:
        """The sides at the low and the high end of its ridge."""
        return sides_of(self.ridge_axis)

    @property
    def flanks(self) -> tuple[FrameSide, FrameSide]:
        """The low and the high one of the sides that its trusses run between."""
        return sides_of(1 - self.ridge_axis)

    def side_ft(self, side: FrameSide) -> float:
        """The coordinate of a side. [ft]"""
        return (self.high_ft if side.is_high else self.low_ft)[side.axis]

    def size_ft(self, axis: int) -> float:
        """Extent along an axis. [ft]"""
        return self.high_ft[axis] - self.low_ft[axis]


@dataclass(frozen=True, slots=True, kw_only=True)
class Landing:
    """What one end of a member stands on: a wall, a member by its key or a support; `point_ft` is the bearing."""

    wall: int | None
    member: Key | None
    point_ft: Point
    support: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A member before it has a name.

    `gable_anchors` are the anchors of a gable end (it has no landings). `width_ft` is the tributary width. `between`
    are the places where it runs on over supports: (distance from the start bearing, support). `open_sides` are the
    sides of its wing, at seams, toward which its top does not fall.
    """

    key: Key
    kind: MemberKind
    plies: int
    start: Landing
    end: Landing
    tail_start_ft: float
    tail_end_ft: float
    wing: int
    width_ft: float
    gable_wall: int | None = None
    gable_anchors: tuple[Landing, ...] = ()
    between: tuple[tuple[float, int], ...] = ()
    open_sides: tuple[FrameSide, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofStrip:
    """A piece of plan whose roof goes to one member.

    `ring_ft` is convex. `outward` is empty inside the walls; outside it has the sides toward which the eave over
    the strip may fall, and only faces that fall that way belong to it.
    `measure` replaces the member's direction when a load's place along the member is measured inside the
    bearings (a strip cut at 45 degrees is carried as if square: see hip_ends). For a gable end, `anchor` is
    the number of the anchor that takes the strip and `lever` its outlookers over the gable. `wing` is the cell's
    own, `open_sides` its sides, at seams, toward which the trusses there do not fall. `beyond` says that the strip lies
    past the end of its wall: it takes only what no other strip takes.
    """

    ring_ft: tuple[Point, ...]
    owner: Key
    wing: int
    outward: tuple[FrameSide, ...]
    measure: Point | None = None
    anchor: int | None = None
    lever: OutlookerLever[Key] | None = None
    open_sides: tuple[FrameSide, ...] = ()
    beyond: bool = False


def gable_truss_ft(plan: Plan) -> float:
    """How far a gable-end truss's outer face stands in from the block's; where the plan does not say, so that a strap
    at mid-thickness lies against its inside face, but not past the block's. [ft]
    """
    given = plan.roof.gable_truss_ft
    return given if given is not None else max(0.0, plan.wall_thickness_ft / 2.0 - PLY_FT)


def on_wing_side(cell: Cell, wing: Wing, side: FrameSide) -> bool:
    """Whether a cell's side is its wing's side too, or lies past it over an absorbed jog."""
    past_ft = (wing.side_ft(side) - cell.side_ft(side)) * side.inward
    return -TIE_FT <= past_ft < cell.jog_ft - TIE_FT


def cell_point(ridge_axis: int, along_ft: float, across_ft: float) -> Point:
    """The frame point at a distance along and across the ridge."""
    return (along_ft, across_ft) if ridge_axis == 0 else (across_ft, along_ft)


def cell_ring(ridge_axis: int, along: tuple[float, float], across: tuple[float, float]) -> tuple[Point, ...]:
    """The rectangle between two coordinates along and two across the ridge, either way round."""
    (a0, a1), (c0, c1) = sorted(along), sorted(across)
    return tuple(cell_point(ridge_axis, a, c) for a, c in ((a0, c0), (a1, c0), (a1, c1), (a0, c1)))


def lever_on(lever: OutlookerLever[Key], inside: int) -> OutlookerLever[int]:
    """The outlookers' lever with the truss inside by its place in the list of members."""
    return OutlookerLever(
        inside=inside,
        axis=lever.axis,
        gable_ft=lever.gable_ft,
        inside_ft=lever.inside_ft,
        nearer_inside=lever.nearer_inside,
    )
