"""Outline -> the right-angled outline that it is framed by: each angled wall squared off outward.

Chords, cells and trusses are laid out on the squared outline and then cut back to the walls as they are
(layout/angled). An angled wall becomes two legs along the frame's axes that meet outside the house, or, where those
would run into another wall, the legs of its halves, quarters or eighths; a wall that a leg runs on from becomes one
line with it. Where all walls meet at right angles nothing changes.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass, replace

import shapely
from shapely.geometry import LineString, Polygon

from framing.errors import PlanError
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.walls.legs import Side, between_legs
from framing.walls.outline import Outline, Wall

MOST_STEPS, SHORTEST_PART_FT = 8, 2.0
TOUCHES_FT = 1.0 / 12.0
"""The tip of a wall so far within the legs of another is no wall that they run into."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Squared:
    """A right-angled outline that holds the house's own, `house`.

    For each of its walls `stands_for` is the house's wall that lies on it and `from_ft` the station on it at which
    that wall begins; for the leg of an angled wall that wall, and None. `whole` says that the two are the same.
    """

    house: Outline
    outline: Outline
    stands_for: tuple[int, ...]
    from_ft: tuple[float | None, ...]
    whole: tuple[bool, ...]

    def line_of(self, wall: int) -> int | None:
        """The wall of this outline on which a wall of the house lies; None for an angled one."""
        rows = zip(self.stands_for, self.from_ft, strict=True)
        return next((k for k, (w, from_ft) in enumerate(rows) if w == wall and from_ft is not None), None)


def square_off(outline: Outline) -> Squared:
    """The squared outline of a house.

    Raises
    ------
    PlanError
        If the squared walls would run into one another; names the angled wall.
    """
    if outline.right_angled:
        n = len(outline.walls)
        return Squared(
            house=outline, outline=outline, stands_for=tuple(range(n)), from_ft=(0.0,) * n, whole=(True,) * n
        )
    parts = _sides_apart(outline)
    ring = _around(parts)
    n = len(ring)
    sides = [(ring[k], ring[(k + 1) % n]) for k in range(n)]
    on = [_wall_on(parts, a, b) for a, b in sides]
    begins = min((k for k in range(n) if _level(*sides[k])), key=lambda k: (on[k][1] is None, on[k][0]))
    order = [*range(begins, n), *range(begins)]
    walls, local = [], []
    for k in order:
        a, b = sides[k]
        wall = outline.walls[on[k][0]]
        local.append(a)
        walls.append(replace(wall, start_ft=outline.frame.to_plan(a), end_ft=outline.frame.to_plan(b)))
    whole = [_same(outline, on[k], walls[i]) for i, k in enumerate(order)]
    return Squared(
        house=outline,
        outline=Outline(
            walls=tuple(walls), frame=outline.frame, local_ft=tuple(local), axes=tuple(k % 2 for k in range(n))
        ),
        stands_for=tuple(on[k][0] for k in order),
        from_ft=tuple(on[k][1] for k in order),
        whole=tuple(whole),
    )


def _sides_apart(outline: Outline) -> list[Side]:
    """The house's sides, an angled wall in so many parts that their legs run into no other wall: first it shares its
    legs with those that it makes a curve with (0), then it has its own, then those of its parts.

    Raises
    ------
    PlanError
        If a part of an angled wall, an eighth or under 4 ft long, runs into one; names both.
    """
    steps = {i: 0 for i, axis in enumerate(outline.axes) if axis is None}
    while True:
        parts = _sides(outline, steps)
        fold = _fold(outline, parts)
        if fold is None:
            return parts
        wall, met = fold
        most = {i: min(MOST_STEPS, outline.walls[i].length_ft / SHORTEST_PART_FT) for i in steps}
        finer = [i for i, n in steps.items() if (n == 0 or 2 * n <= most[i]) and (met is None or i == wall)]
        if not finer:
            raise _refusal(outline, wall, met)
        steps |= {i: max(1, 2 * steps[i]) for i in finer}


def _sides(outline: Outline, steps: dict[int, int]) -> list[Side]:
    out = []
    for i, axis in enumerate(outline.axes):
        (px, py), (qx, qy) = outline.local_ft[i], outline.local_ft[(i + 1) % len(outline.walls)]
        m, joins = max(1, steps.get(i, 1)), steps.get(i) == 0
        at = [(px, py), *((px + (qx - px) * k / m, py + (qy - py) * k / m) for k in range(1, m)), (qx, qy)]
        out += [Side(start_ft=a, end_ft=b, wall=i, axis=axis, joins=joins) for a, b in itertools.pairwise(at)]
    return out


def _around(sides: list[Side]) -> list[Point]:
    """The ring around the house and what lies between its angled walls and their legs: beside an inside corner the
    legs of one may end on those of the other.
    """
    ends = [s.start_ft for s in sides]
    squared = shapely.union_all([Polygon(ends), *(between for _, between in between_legs(sides))])
    xs, ys = (sorted({p[k] for p in ends}) for k in (0, 1))
    ring = shapely.geometry.polygon.orient(squared).exterior.coords[:-1]
    return _without_straight([(_nearest(xs, x), _nearest(ys, y)) for x, y in ring])


def _nearest(values: list[float], to: float) -> float:
    return min(values, key=lambda v: abs(v - to))


def _without_straight(ring: list[Point]) -> list[Point]:
    """The corners at which a right-angled ring turns; where it runs back over itself it is cut short."""
    kept = list(ring)
    i = 0
    while i < len(kept):
        (ax, ay), (bx, by), (cx, cy) = kept[i - 1], kept[i], kept[(i + 1) % len(kept)]
        level = abs(by - ay) <= TIE_FT and abs(cy - by) <= TIE_FT
        upright = abs(bx - ax) <= TIE_FT and abs(cx - bx) <= TIE_FT
        if level or upright:
            del kept[i]
            i = max(i - 2, 0)
        else:
            i += 1
    return kept


def _fold(outline: Outline, sides: list[Side]) -> tuple[int, int | None] | None:
    """An angled wall whose legs run into another wall, and that one; where the legs leave no one closed line around
    the house the longest angled wall beside the hole, and None.
    """
    n, steps = len(outline.walls), between_legs(sides)
    for step, between in steps:
        outside = between.buffer(-TOUCHES_FT, join_style="mitre")
        own = [s.wall for s in step]
        others = (s for s in sides if s.wall not in ((own[0] - 1) % n, *own, (own[-1] + 1) % n))
        met = next((s.wall for s in others if LineString([s.start_ft, s.end_ft]).intersects(outside)), None)
        if met is not None:
            return max(own, key=lambda i: (outline.walls[i].length_ft, -i)), met
    squared = shapely.union_all([Polygon([s.start_ft for s in sides]), *(between for _, between in steps)])
    if isinstance(squared, Polygon) and not squared.interiors:
        return None
    hole = shapely.MultiPolygon([Polygon(r) for part in shapely.get_parts(squared) for r in part.interiors])
    beside = [
        (between.distance(hole), -outline.walls[s.wall].length_ft, s.wall) for step, between in steps for s in step
    ]
    return min(beside)[2], None


def _refusal(outline: Outline, wall: int, met: int | None) -> PlanError:
    own, other = outline.walls[wall], None if met is None else outline.walls[met].name
    return PlanError(
        f"walls outline: {own.name}, {own.length_ft:.1f} ft long and at an angle to the rest, cannot be squared off "
        f"without running into {other or 'another wall'}; draw {own.name} square to the house, or draw the part "
        f"{f'between it and {other}' if other else 'beside it'} closed"
    )


def _level(a: Point, b: Point) -> bool:
    return abs(a[1] - b[1]) <= abs(a[0] - b[0])


def _wall_on(sides: list[Side], a: Point, b: Point) -> tuple[int, float | None]:
    """The house's wall that lies on a side of the squared ring, the longest if several, and where it begins."""
    axis = 0 if _level(a, b) else 1
    toward = 1.0 if b[axis] > a[axis] else -1.0
    found: list[tuple[float, int, float]] = []
    legs: list[tuple[float, int]] = []
    for side in sides:
        i, along, p, q = side.wall, side.axis, side.start_ft, side.end_ft
        start, end = toward * (p[axis] - a[axis]), toward * (q[axis] - a[axis])
        shared = min(abs(b[axis] - a[axis]), max(start, end)) - max(0.0, min(start, end))
        if along == axis and end > start and abs(p[1 - axis] - a[1 - axis]) <= TIE_FT and shared > TIE_FT:
            found.append((-shared, i, start))
        elif along is None and min(abs(p[1 - axis] - a[1 - axis]), abs(q[1 - axis] - a[1 - axis])) <= TIE_FT:
            legs.append((-shared, i))
    if found:
        _, i, start = min(found)
        return i, start + 0.0
    return min(legs)[1], None


def _same(outline: Outline, on: tuple[int, float | None], wall: Wall) -> bool:
    return on[1] is not None and abs(on[1]) <= TIE_FT and abs(outline.walls[on[0]].length_ft - wall.length_ft) <= TIE_FT
