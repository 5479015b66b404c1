"""Corners as meant -> corners that are framed: a part too narrow for a room is a pier, drawn and passed by.

A wall stub, a pilaster, a fin or a chimney breast is masonry that no truss spans. It is cut off where it leaves the
house, so that roof, trusses and marks run past it; what was cut off stays to be drawn.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from framing.plan import Point
from framing.tolerances import ROUNDING, SQUARE_DEG, TIE_FT
from framing.units import feet_inches

CLEAR_FT = 1.0
SQUARE_WITHIN_DEG = 5.0  # the sides of a part are its walls where they run back along one another within this
FEWEST = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Passed:
    """The corners that are left, the number of each as typed (None: a new one, where a pier was cut off), the piers
    that were cut off and what is to be said of each.
    """

    corners_ft: tuple[Point, ...]
    numbers: tuple[int | None, ...]
    piers_ft: tuple[tuple[Point, ...], ...]
    notes: tuple[str, ...]


def pass_piers(corners_ft: tuple[Point, ...], numbers: Sequence[int], thickness_ft: float, same_ft: float) -> Passed:
    """An outline without the parts that are under 1 ft clear between their walls, the narrowest cut off first.

    A part is what stands out past an end wall's two sides as far as the nearer of the corners where they leave the
    house; what is left may be a part again. Of four corners none is cut off.

    Parameters
    ----------
    corners_ft : (n, 2) tuple
        Corners in the order typed, either way round. [ft]
    numbers : (n,)
        The number of each corner as typed.
    thickness_ft, same_ft : float
        Of the walls; and what two sides may differ in length and still leave the house on one line. [ft]
    """
    kept: list[tuple[Point, int | None]] = list(zip(corners_ft, numbers, strict=True))
    outward = 1.0 if shapely.LinearRing(corners_ft).is_ccw else -1.0
    cut: list[Polygon] = []
    told: list[str] = []
    while True:
        _drop_straight(kept)
        found = _narrowest(kept, 2.0 * thickness_ft + CLEAR_FT, outward) if len(kept) > FEWEST else None
        if found is None:
            break
        width_ft, k = found
        told.append(_note(kept, k, width_ft, thickness_ft))
        cut.append(_cut_off(kept, k, same_ft))
    joined = shapely.get_parts(shapely.union_all(cut, grid_size=TIE_FT)) if cut else ()
    piers = tuple(tuple((float(x), float(y)) for x, y in p.exterior.coords[:-1]) for p in joined)
    return Passed(
        corners_ft=tuple(p for p, _ in kept), numbers=tuple(n for _, n in kept), piers_ft=piers, notes=tuple(told)
    )


def _drop_straight(kept: list[tuple[Point, int | None]]) -> None:
    """Take out the corners at which the outline does not turn."""
    k = 0
    while k < len(kept) and len(kept) > FEWEST:
        if abs(_turn_deg(kept[k - 1][0], kept[k][0], kept[(k + 1) % len(kept)][0])) < SQUARE_DEG:
            del kept[k]
            k = max(k - 1, 0)
        else:
            k += 1


def _narrowest(kept: list[tuple[Point, int | None]], under_ft: float, outward: float) -> tuple[float, int] | None:
    """(width, place of the end wall's start) of the narrowest part under a width."""
    n = len(kept)
    found = []
    for k in range(n):
        before, a, b, after = (kept[(k + j) % n][0] for j in (-1, 0, 1, 2))
        width_ft = math.dist(a, b)
        turns = (outward * _turn_deg(before, a, b), outward * _turn_deg(a, b, after))
        back = abs(sum(turns) - 180.0) <= SQUARE_WITHIN_DEG
        if width_ft < under_ft - ROUNDING and back and min(turns) > 45.0 and _leaves_the_house(kept, k, outward):
            found.append((width_ft, k))
    return min(found, default=None)


def _leaves_the_house(kept: list[tuple[Point, int | None]], k: int, outward: float) -> bool:
    """Whether the shorter side of a part ends at an inside corner."""
    n = len(kept)
    before, a, b, after = (kept[(k + j) % n][0] for j in (-1, 0, 1, 2))
    inside = []
    if math.dist(before, a) <= math.dist(b, after) + TIE_FT:
        inside.append(outward * _turn_deg(kept[(k - 2) % n][0], before, a) < 0.0)
    if math.dist(b, after) <= math.dist(before, a) + TIE_FT:
        inside.append(outward * _turn_deg(b, after, kept[(k + 3) % n][0]) < 0.0)
    return all(inside)


def _cut_off(kept: list[tuple[Point, int | None]], k: int, same_ft: float) -> Polygon:
    """Cut the part whose end wall begins at k off the corners; its ground."""
    n = len(kept)
    before, a, b, after = (kept[(k + j) % n][0] for j in (-1, 0, 1, 2))
    first, last = math.dist(before, a), math.dist(b, after)
    new: list[tuple[Point, int | None]] = []
    ground = Polygon([before, a, b, after])
    if last > first + same_ft:
        foot = _toward(b, after, first)
        new, ground = [(foot, None)], Polygon([before, a, b, foot])
    elif first > last + same_ft:
        foot = _toward(a, before, last)
        new, ground = [(foot, None)], Polygon([foot, a, b, after])
    rest = [kept[(k + 2 + j) % n] for j in range(n - 2)]  # from the corner after the part round to the one before
    begins = next((j for j, c in enumerate(rest) if c[1] == min(m for _, m in rest if m is not None)), 0)
    ring = [*rest, *new]
    kept[:] = [*ring[begins:], *ring[:begins]]
    return ground


def _note(kept: list[tuple[Point, int | None]], k: int, width_ft: float, thickness_ft: float) -> str:
    n = len(kept)
    ends = [m for _, m in (kept[k], kept[(k + 1) % n]) if m is not None]
    (ax, ay), (bx, by) = kept[k][0], kept[(k + 1) % n][0]
    x, y = feet_inches((ax + bx) / 2.0), feet_inches((ay + by) / 2.0)
    where = (
        f"at {'corners' if len(ends) > 1 else 'corner'} {' and '.join(str(m) for m in sorted(ends))} " if ends else ""
    )
    clear = feet_inches(max(width_ft - 2.0 * thickness_ft, 0.0))
    least = feet_inches(2.0 * thickness_ft + CLEAR_FT)
    return (
        f"walls outline: the part {where}near ({x}, {y}) is {feet_inches(width_ft)} wide, {clear} clear between its "
        f"walls, and taken for a pier: it is drawn, but roof, trusses and marks pass it by and the walls are numbered "
        f"without it; to have it framed make it {least} wide"
    )


def _toward(start: Point, end: Point, by_ft: float) -> Point:
    d = math.dist(start, end)
    return (start[0] + (end[0] - start[0]) * by_ft / d, start[1] + (end[1] - start[1]) * by_ft / d)


def _turn_deg(a: Point, b: Point, c: Point) -> float:
    """The turn at b on the way from a to c, left positive. [deg]"""
    out = math.atan2(c[1] - b[1], c[0] - b[0]) - math.atan2(b[1] - a[1], b[0] - a[0])
    return math.degrees(math.remainder(out, math.tau))
