"""Plan -> Outline: the walls, named, counter-clockwise, and the frame they are square to."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from framing.errors import PlanError
from framing.plan import Plan, Point
from framing.tolerances import GRID_FT, SQUARE_DEG, TIE_FT
from framing.walls.piers import pass_piers
from framing.walls.straighten import straighten

SHARPEST_CORNER_DEG = 30.0


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
    """The outside walls. `corners_ft` (plan) and `local_ft` (frame) are counter-clockwise from W1's start.

    `axes` says for each wall whether it runs along the frame's x (0), its y (1) or at an angle to both (None).
    The frame is that of the walls which are square to one another and longest in all; where all are, W1 runs along x.
    `piers_ft` are the grounds of what stands outside these walls and is only drawn, in the plan.
    """

    walls: tuple[Wall, ...]
    frame: Frame
    local_ft: tuple[Point, ...]
    axes: tuple[int | None, ...]
    notes: tuple[str, ...] = ()
    piers_ft: tuple[tuple[Point, ...], ...] = ()

    @property
    def right_angled(self) -> bool:
        """Whether all walls meet at right angles."""
        return None not in self.axes

    @property
    def typed_clockwise(self) -> bool:
        """Whether the outline was typed the other way round than its walls are numbered."""
        typed = [w.typed_order for w in self.walls]
        return sum(b < a for a, b in itertools.pairwise(typed)) > sum(b > a for a, b in itertools.pairwise(typed))

    @property
    def corners_ft(self) -> tuple[Point, ...]:
        """Corners in plan coordinates, the start of each wall in turn. [ft]"""
        return tuple(w.start_ft for w in self.walls)

    def wall(self, name: str) -> Wall:
        """The wall of that name."""
        return self.walls[int(name[1:]) - 1]


def on_grid(value_ft: float) -> float:
    """A coordinate on a grid of binary fractions of a foot: sums and halves of such ones are exact, so that lines at 45
    degrees which should meet or lie on one another do. [ft]
    """
    return round(value_ft / GRID_FT) * GRID_FT


def tie_key(value_ft: float) -> int:
    """A whole number that is equal for lengths equal within `TIE_FT`, for sorting.

    The odd offset keeps the steps away from the lengths that people type (sixteenths of an inch and halves of them).
    """
    return math.floor(value_ft / TIE_FT + 0.3137)


def build_outline(plan: Plan) -> Outline:
    """The plan's walls, named and counter-clockwise from the first listed corner.

    Raises
    ------
    PlanError
        If two walls meet at a sharper corner than 30 degrees; names the corner.
    """
    meant = straighten(plan.outline_ft, plan.straighten_ft)
    passed = pass_piers(meant.corners_ft, meant.numbers, plan.wall_thickness_ft, plan.straighten_ft)
    left = straighten(passed.corners_ft, plan.straighten_ft).corners_ft if passed.piers_ft else passed.corners_ft
    typed = _without_collinear(left)
    n = len(typed)
    clockwise = _signed_area_ft2(typed) < 0
    corners = (typed[0], *reversed(typed[1:])) if clockwise else typed
    _refuse_sharp_corners(corners, dict(zip(meant.corners_ft, meant.numbers, strict=True)))
    headings = [_heading_deg(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)]
    family = _square_family(corners, headings)
    first = family[0]
    length = math.dist(corners[first], corners[(first + 1) % n])
    (x0, y0), (x1, y1) = corners[first], corners[(first + 1) % n]
    frame = Frame(origin_ft=corners[first], cos=(x1 - x0) / length, sin=(y1 - y0) / length)
    axes = tuple(_axis(headings[i] - headings[first]) if i in family else None for i in range(n))
    local = _squared(tuple(frame.to_local(c) for c in corners), axes, first)
    squared = tuple(frame.to_plan(c) for c in local)
    walls = tuple(
        Wall(
            name=f"W{i + 1}",
            start_ft=squared[i],
            end_ft=squared[(i + 1) % n],
            thickness_ft=plan.wall_thickness_ft,
            typed_order=n - 1 - i if clockwise else i,
        )
        for i in range(n)
    )
    return Outline(
        walls=walls, frame=frame, local_ft=local, axes=axes, notes=meant.notes + passed.notes, piers_ft=passed.piers_ft
    )


def _heading_deg(a: Point, b: Point) -> float:
    return math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))


def _axis(turned_deg: float) -> int:
    return round(turned_deg / 90.0) % 2


def _square_family(corners: tuple[Point, ...], headings: list[float]) -> list[int]:
    """The walls that are square or parallel to one another and longest in all; of equals the first."""
    n, best, longest = len(corners), [0], -1
    for i in range(n):
        alike = [j for j in range(n) if abs(math.remainder(headings[j] - headings[i], 90.0)) <= SQUARE_DEG]
        total = tie_key(sum(math.dist(corners[j], corners[(j + 1) % n]) for j in alike))
        if total > longest:
            best, longest = alike, total
    return best


def _refuse_sharp_corners(corners: tuple[Point, ...], number_of: dict[Point, int]) -> None:
    for i, corner in enumerate(corners):
        turn = _turn_deg(corners[i - 1], corner, corners[(i + 1) % len(corners)])
        if abs(turn) > 180.0 - SHARPEST_CORNER_DEG:
            raise PlanError(
                f"walls outline corner {number_of.get(corner, i + 1)}: W{(i - 1) % len(corners) + 1} and W{i + 1} meet "
                f"at {180.0 - abs(turn):.1f} degrees; a corner of at least {SHARPEST_CORNER_DEG:.0f} degrees can be "
                "framed; cut its tip off by a wall of 2'-0\" or more"
            )


def _signed_area_ft2(corners: tuple[Point, ...]) -> float:
    return 0.5 * sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(corners, corners[1:] + corners[:1], strict=True))


def _turn_deg(a: Point, b: Point, c: Point) -> float:
    """The turn at b on the way from a to c, left positive. [deg]"""
    return math.degrees(
        math.remainder(math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0]), math.tau)
    )


def _without_collinear(corners: tuple[Point, ...]) -> tuple[Point, ...]:
    """The corners at which the outline turns."""
    kept = list(corners)
    i = 0
    while i < len(kept) and len(kept) > 3:
        if abs(_turn_deg(kept[i - 1], kept[i], kept[(i + 1) % len(kept)])) < SQUARE_DEG:
            del kept[i]
            i = max(i - 1, 0)
        else:
            i += 1
    return tuple(kept)


def _squared(local: tuple[Point, ...], axes: tuple[int | None, ...], first: int) -> tuple[Point, ...]:
    """The corners with every wall of the frame's own exactly along its axes; wall `first` starts at the origin."""
    n = len(local)
    xs, ys = [p[0] for p in local], [p[1] for p in local]
    for i, axis in enumerate(axes):
        j = (i + 1) % n
        if axis == 0:
            ys[i] = ys[j] = 0.5 * (local[i][1] + local[j][1])
        elif axis == 1:
            xs[i] = xs[j] = 0.5 * (local[i][0] + local[j][0])
    xs, ys = _merged(xs), _merged(ys)
    return tuple((x - xs[first], y - ys[first]) for x, y in zip(xs, ys, strict=True))


def _merged(values: list[float]) -> list[float]:
    """The values with those within `TIE_FT` of one another made equal."""
    out = list(values)
    last = None
    for i in sorted(range(len(values)), key=values.__getitem__):
        if last is not None and values[i] - last <= TIE_FT:
            out[i] = last
        else:
            last = out[i] = on_grid(values[i])
    return out
