"""Plan -> Outline: the walls, named, counter-clockwise, and the frame they are square to."""

from __future__ import annotations

import math
from dataclasses import dataclass

from framing.errors import PlanError
from framing.plan import Plan, Point

SQUARE_TOLERANCE_DEG = 0.05
TIE_FT = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Wall:
    """One straight outside wall. Seen from outside it runs left (start) to right (end).

    `typed_order` is its place in the order the outline was typed: ties are decided by it.
    """

    name: str
    start_ft: Point
    end_ft: Point
    thickness_ft: float
    typed_order: int

    @property
    def length_ft(self) -> float:
        """Length along the outside face. [ft]"""
        return math.dist(self.start_ft, self.end_ft)

    @property
    def direction(self) -> Point:
        """Unit vector from start to end."""
        d = self.length_ft
        return ((self.end_ft[0] - self.start_ft[0]) / d, (self.end_ft[1] - self.start_ft[1]) / d)

    @property
    def outward(self) -> Point:
        """Unit vector square to the wall, away from the house."""
        ux, uy = self.direction
        return (uy, -ux)

    def point_ft(self, station_ft: float, inset_ft: float = 0.0) -> Point:
        """The plan point at a station along the outside face, moved `inset_ft` into the house."""
        (ux, uy), (nx, ny) = self.direction, self.outward
        x0, y0 = self.start_ft
        return (x0 + ux * station_ft - nx * inset_ft, y0 + uy * station_ft - ny * inset_ft)


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """The turned frame in which W1 runs along +x from the origin. Lengths are unchanged."""

    origin_ft: Point
    cos: float
    sin: float

    def to_local(self, p: Point) -> Point:
        """Plan coordinates to frame coordinates. [ft]"""
        dx, dy = p[0] - self.origin_ft[0], p[1] - self.origin_ft[1]
        return (dx * self.cos + dy * self.sin, -dx * self.sin + dy * self.cos)

    def to_plan(self, p: Point) -> Point:
        """Frame coordinates to plan coordinates. [ft]"""
        x, y = p
        return (self.origin_ft[0] + x * self.cos - y * self.sin, self.origin_ft[1] + x * self.sin + y * self.cos)

    def turn_to_plan(self, v: Point) -> Point:
        """A direction in the frame, in plan coordinates."""
        return (v[0] * self.cos - v[1] * self.sin, v[0] * self.sin + v[1] * self.cos)


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """The outside walls. `corners_ft` (plan) and `local_ft` (frame) are counter-clockwise from W1's start."""

    walls: tuple[Wall, ...]
    frame: Frame
    local_ft: tuple[Point, ...]
    notes: tuple[str, ...] = ()

    @property
    def corners_ft(self) -> tuple[Point, ...]:
        """Corners in plan coordinates, the start of each wall in turn. [ft]"""
        return tuple(w.start_ft for w in self.walls)

    def wall(self, name: str) -> Wall:
        """The wall of that name."""
        return self.walls[int(name[1:]) - 1]


def build_outline(plan: Plan) -> Outline:
    """The plan's walls, named and counter-clockwise from the first listed corner.

    Raises
    ------
    PlanError
        If a wall meets its neighbour at another angle than a right angle.
    """
    raise PlanError("walls outline: not built yet")
