"""What an outline must be before anything is built on it, and what lies on it and inside it."""

from __future__ import annotations

import itertools
import math
from collections.abc import Mapping, Sequence

from shapely import LineString, Polygon

from framing.errors import PlanError
from framing.plan import Plan, Point, Porch, Support
from framing.tolerances import TIE_FT
from framing.units import feet_inches, shown
from framing.walls.outline import build_outline
from framing.walls.straighten import straighten

SAME_POINT_FT = 1 / 192
SHORTEST_JOG_FT = 1 / 12
SHORTEST_SIDE_FT = 4.0
LONGEST_SIDE_FT = 500.0
FEWEST_CORNERS = 4
MOST_CORNERS = 200
LEAST_PORCH_FT2 = 1.0
STRAIGHT_RATIO = math.sin(math.radians(0.05))
Corners = tuple[Point, ...]


def check_outline(typed_ft: tuple[Point, ...], straighten_ft: float) -> None:
    """Refuse an outline that is no outline once it is straightened.

    Parameters
    ----------
    typed_ft : (n, 2) tuple
        Corners in the order typed. [ft]
    straighten_ft : float
        As `framing.walls.straighten.straighten`. [ft]

    Raises
    ------
    PlanError
        If there are too few or too many corners, one is repeated, a side is too short, the sides cross or
        touch, or the rectangle around the house is too small or too large; names the corners.
    """
    if not FEWEST_CORNERS <= len(typed_ft) <= MOST_CORNERS:
        raise PlanError(
            f"walls outline: {len(typed_ft)} corners make no house; "
            f"write {FEWEST_CORNERS} to {MOST_CORNERS} corners in order"
        )
    _check_repeats(typed_ft, range(1, len(typed_ft) + 1), TIE_FT)
    meant = straighten(typed_ft, straighten_ft)
    corners_ft, numbers = meant.corners_ft, meant.numbers
    _check_repeats(corners_ft, numbers, SAME_POINT_FT)
    for k, (a, b) in enumerate(_sides(corners_ft)):
        if math.dist(a, b) < SHORTEST_JOG_FT - TIE_FT:
            raise PlanError(
                f"walls outline {_side(k, numbers)}: {feet_inches(math.dist(a, b))} is too short for a side; "
                'make it 1" or more, or write walls straighten larger than it'
            )
    _check_crossings(corners_ft, numbers)
    _check_extent(corners_ft)


def _check_repeats(corners_ft: Corners, numbers: Sequence[int], same_ft: float) -> None:
    for (i, a), (j, b) in itertools.combinations(zip(numbers, corners_ft, strict=True), 2):
        if math.dist(a, b) <= same_ft:
            close = i == numbers[0] and j == numbers[-1]
            right = "leave it out, the outline closes by itself" if close else "write each corner once"
            raise PlanError(f"walls outline corner {j}: repeats corner {i}; {right}")


def check_supports(supports: tuple[Support, ...], corners_ft: tuple[Point, ...]) -> None:
    """Refuse a support that has no length or leaves the house. Raises PlanError, which names the support."""
    house = Polygon(corners_ft).buffer(SAME_POINT_FT, join_style="mitre")
    for i, support in enumerate(supports, 1):
        if math.dist(support.start_ft, support.end_ft) < 1.0:
            raise PlanError(f"support {i}: it is shorter than a foot; write from and to at least 1'-0\" apart")
        if not house.covers(LineString([support.start_ft, support.end_ft])):
            raise PlanError(
                f"support {i}: it leaves the house; write from and to so that all of it lies inside the walls"
            )


def check_porches(porches: tuple[Porch, ...], corners_ft: tuple[Point, ...]) -> None:
    """Refuse a porch that is no floor, leaves the house or lies on another. Raises PlanError, which names the porch."""
    house = Polygon(corners_ft).buffer(SAME_POINT_FT, join_style="mitre")
    floors: list[Polygon] = []
    for i, porch in enumerate(porches, 1):
        n = len(porch.corners_ft)
        if not 3 <= n <= MOST_CORNERS:
            raise PlanError(f"porch {i}: {n} corners make no floor; write 3 to {MOST_CORNERS} corners in order")
        floor = Polygon(porch.corners_ft)
        if floor.area < LEAST_PORCH_FT2:
            raise PlanError(
                f"porch {i}: it covers {floor.area:.1f} sq ft; write the corners of at least 1 sq ft of floor"
            )
        if not floor.is_valid:
            raise PlanError(f"porch {i}: its sides cross or touch; list the corners in order around the porch")
        if not house.covers(floor):
            raise PlanError(f"porch {i}: it leaves the house; write corners so that all of it lies inside the outline")
        for j, other in enumerate(floors, 1):
            if floor.intersection(other).area > LEAST_PORCH_FT2:
                raise PlanError(f"porch {i}: it overlaps porch {j}; write each open floor once")
        floors.append(floor)


def check_walls(plan: Plan) -> None:
    """Refuse a wall that the house has not, in `trusses.start` and in the roof edges, and edges off their wall.

    Raises
    ------
    PlanError
        Names the field; or, as `build_outline`, the corner that is too sharp.
    """
    outline = build_outline(plan)
    lengths_ft = {wall.name: wall.length_ft for wall in outline.walls}
    _check_name("trusses start", plan.trusses.start, lengths_ft)
    taken: list[tuple[int, str, float, float]] = []
    for i, edge in enumerate(plan.roof.edges, 1):
        _check_name(f"roof edge {i} wall", edge.wall, lengths_ft)
        length_ft = lengths_ft[edge.wall]
        start_ft = 0.0 if edge.from_ft is None else edge.from_ft
        end_ft = length_ft if edge.to_ft is None else edge.to_ft
        if max(start_ft, end_ft) > length_ft + SAME_POINT_FT:
            raise PlanError(
                f"roof edge {i}: it runs past the end of {edge.wall}; write stations up to {feet_inches(length_ft)}"
            )
        if end_ft - start_ft < SHORTEST_JOG_FT:
            raise PlanError(f"roof edge {i}: it has no length; write a to that is larger than its from")
        for j, wall, low_ft, high_ft in taken:
            if wall == edge.wall and start_ft < high_ft and end_ft > low_ft:
                raise PlanError(f"roof edge {i}: it overlaps roof edge {j} on {wall}; write each part of a wall once")
        taken.append((i, edge.wall, start_ft, end_ft))


def _check_name(where: str, name: str, walls: Mapping[str, float]) -> None:
    if name not in walls:
        raise PlanError(f"{where}: {shown(name)} is no wall of this house; write W1 to W{len(walls)}")


def _check_crossings(corners_ft: Corners, numbers: Sequence[int]) -> None:
    n = len(corners_ft)
    for i, here, (before, after) in zip(numbers, corners_ft, _neighbours(corners_ft), strict=True):
        if _turns_back(before, here, after):
            raise PlanError(
                f"walls outline corner {i}: the outline runs back over itself; "
                "list the corners in order around the house"
            )
    for (i, a), (j, b) in itertools.combinations(enumerate(_sides(corners_ft)), 2):
        if j - i in (1, n - 1):
            continue
        if LineString(a).distance(LineString(b)) <= SAME_POINT_FT:
            raise PlanError(
                f"walls outline {_side(i, numbers)}: it crosses or touches the {_side(j, numbers)}; "
                f"{_right_order(corners_ft, numbers)}"
            )


def _right_order(corners_ft: Corners, numbers: Sequence[int]) -> str:
    """How to put right an outline that crosses itself: which two neighbouring corners are exchanged, if two are."""
    n = len(corners_ft)
    for k in range(n):
        tried = list(corners_ft)
        tried[k], tried[(k + 1) % n] = tried[(k + 1) % n], tried[k]
        if Polygon(tried).is_valid:
            return (
                f"exchange corners {numbers[k]} and {numbers[(k + 1) % n]}, which closes the outline without crossing"
            )
    return "list the corners in order around the house"


def _check_extent(corners_ft: tuple[Point, ...]) -> None:
    """The rectangle around the house, along its first side, has sides that a house can have."""
    (x0, y0), (x1, y1) = corners_ft[0], corners_ft[1]
    length_ft = math.dist(corners_ft[0], corners_ft[1])
    along = ((x1 - x0) / length_ft, (y1 - y0) / length_ft)
    for ux, uy in (along, (-along[1], along[0])):
        reach = [x * ux + y * uy for x, y in corners_ft]
        extent_ft = max(reach) - min(reach)
        if not SHORTEST_SIDE_FT - SAME_POINT_FT <= extent_ft <= LONGEST_SIDE_FT + SAME_POINT_FT:
            units = (("in", "inches", 12.0), ("mm", "millimetres", 304.8))
            fits = (u for u in units if extent_ft > LONGEST_SIDE_FT and extent_ft / u[2] <= LONGEST_SIDE_FT)
            short, words, _ = next(fits, ("", "", 0.0))
            raise PlanError(
                f"walls outline: {feet_inches(extent_ft)} is out of range for a side of the house; "
                "write 4'-0\" to 500'-0\""
                + f'; a number without quotes is feet, and {words} are written "{extent_ft:g}{short}"'
                * bool(short)
            )


def _sides(corners_ft: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(zip(corners_ft, (*corners_ft[1:], corners_ft[0]), strict=True))


def _neighbours(corners_ft: tuple[Point, ...]) -> list[tuple[Point, Point]]:
    return list(zip((corners_ft[-1], *corners_ft[:-1]), (*corners_ft[1:], corners_ft[0]), strict=True))


def _side(k: int, numbers: Sequence[int]) -> str:
    return f"side from corner {numbers[k]} to corner {numbers[(k + 1) % len(numbers)]}"


def _turns_back(before: Point, here: Point, after: Point) -> bool:
    (ax, ay), (bx, by) = _step(before, here), _step(here, after)
    return ax * bx + ay * by < 0 and abs(_cross_ratio(before, here, after)) <= STRAIGHT_RATIO


def _cross_ratio(before: Point, here: Point, after: Point) -> float:
    """Sine of the turn at a corner."""
    (ax, ay), (bx, by) = _step(before, here), _step(here, after)
    return (ax * by - ay * bx) / (math.hypot(ax, ay) * math.hypot(bx, by))


def _step(a: Point, b: Point) -> Point:
    return (b[0] - a[0], b[1] - a[1])
