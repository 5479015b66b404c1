"""Random house-like outlines: unions of 2 to 8 rectangles set against one another, with jogs of inches to feet,
recesses, steps narrower than a truss spacing and courtyards open on one side, up to 40 corners, turned by any angle.
"""

from __future__ import annotations

import math
import random

import shapely
from shapely.geometry import Polygon, box

from framing.plan import HipOrigin, Plan, Point, RoofType
from invariants.houses import moved, plan_of

FEWEST_CORNERS, MOST_CORNERS = 6, 40
MANY_CORNERS, EVERY_SO_MANY = 33, 20
LEAST_FT = 8.0 / 12.0  # nothing stands or gapes narrower than a wall is thick
UNITS_FT = (1.0 / 3.0, 1.0 / 12.0, 0.0013717)  # block modules, inches, and no grid at all
KINDS, MANY_KINDS = ("wing", "wing", "wing", "bump", "step", "cross"), ("wing", "bump", "step", "cross", "cross")
Interval = tuple[float, float]
WIDTHS_FT = {"wing": (8.0, 30.0), "bump": (4.0, 12.0), "step": (8.0, 24.0), "cross": (8.0, 24.0)}
DEPTHS_FT = {"wing": (4.0, 30.0), "bump": (2.0, 6.0), "step": (1.0 / 3.0, 3.0), "cross": (2.0, 16.0)}


def random_house(seed: int) -> Plan:
    """A random outline under a random roof, turned by any angle, typed from any corner and either way round; every
    twentieth has 33 to 40 corners.
    """
    dice = random.Random(f"house {seed}")
    corners = _union(dice, many=seed % EVERY_SO_MANY == EVERY_SO_MANY - 1)
    first = dice.randrange(len(corners))
    corners = corners[first:] + corners[:first]
    if dice.random() < 0.5:
        corners = corners[::-1]
    turn = dice.choice([0.0, 0.0, 90.0, dice.uniform(0.0, 360.0)])
    shift = (dice.uniform(-500.0, 500.0), dice.uniform(-500.0, 500.0)) if turn else (0.0, 0.0)
    outline = [moved(p, turn, mirror=False, shift=shift) for p in corners]
    return plan_of(
        outline,
        type=dice.choice(list(RoofType)),
        overhang_ft=dice.choice([0.0, 1.0, 4.0 / 3.0, 1.5, 2.0, 2.5, 3.0]),
        rake_overhang_ft=dice.choice([0.0, 1.0, 1.5]),
        rise_per_run=dice.choice([3, 4, 5, 6, 8, 10]) / 12.0,
        spacing_ft=dice.choice([2.0, 2.0, 4.0 / 3.0]),
        setback_ft=dice.choice([6.0, 7.0, 8.0, 10.0]),
        hip_origin=dice.choice(list(HipOrigin)),
        start=f"W{dice.randint(1, len(outline))}",
    )


def _union(dice: random.Random, *, many: bool) -> list[Point]:
    """The corners of a union that is one ring of walls without a place narrower than a wall is thick; `many` of them,
    by eight rectangles on a larger house. [ft]

    It is made of whole numbers of a unit, so that walls meant to be in line are.
    """
    least, larger = (MANY_CORNERS, 1.6) if many else (FEWEST_CORNERS, 1.0)
    while True:
        unit_ft = dice.choice(UNITS_FT)
        n = 8 if many else dice.randint(2, 8)
        wide, deep = (
            _units(dice, unit_ft, (low * larger, high * larger)) for low, high in ((26.0, 64.0), (20.0, 38.0))
        )
        parts = [box(0, 0, wide, deep)]
        while len(parts) < n:
            parts.append(_attached(dice, unit_ft, dice.choice(parts), MANY_KINDS if many else KINDS))
        union = shapely.union_all(parts)
        if not isinstance(union, Polygon) or union.interiors:
            continue
        corners = [(x * unit_ft, y * unit_ft) for x, y in _turning(list(union.exterior.coords)[:-1])]
        if least <= len(corners) <= MOST_CORNERS and _thick(Polygon(corners)):
            return corners


def _units(dice: random.Random, unit_ft: float, feet: Interval) -> int:
    low, high = math.ceil(feet[0] / unit_ft - 1e-9), math.floor(feet[1] / unit_ft)
    return dice.randint(low, max(low, high))


def _attached(dice: random.Random, unit_ft: float, to: Polygon, kinds: tuple[str, ...]) -> Polygon:
    """A rectangle set against a side of another: a wing, a bump, a step of a few inches, or a wing across it that
    stands out on both sides; now and then flush with a corner, off it by a jog, or running past it.
    """
    x0, y0, x1, y1 = to.bounds
    side = dice.randrange(4)
    low, high, across = (x0, x1, y1 - y0) if side < 2 else (y0, y1, x1 - x0)
    kind = dice.choice(kinds)
    width, out = _units(dice, unit_ft, WIDTHS_FT[kind]), _units(dice, unit_ft, DEPTHS_FT[kind])
    jog = dice.choice([0, 0, _units(dice, unit_ft, (1.0 / 3.0, 4.0))])
    anywhere = low + _units(dice, unit_ft, (-6.0, max((high - low) * unit_ft - 2.0, 0.0)))
    a = dice.choice([low + jog, high - width - jog, low - jog, anywhere])
    b = a + width
    into = across + _units(dice, unit_ft, DEPTHS_FT[kind]) if kind == "cross" else across // 2
    return [
        box(a, y1 - into, b, y1 + out),
        box(a, y0 - out, b, y0 + into),
        box(x1 - into, a, x1 + out, b),
        box(x0 - out, a, x0 + into, b),
    ][side]


def _turning(corners: list[Point]) -> list[Point]:
    """The corners at which the ring turns."""
    kept = []
    for i, (bx, by) in enumerate(corners):
        (ax, ay), (cx, cy) = corners[i - 1], corners[(i + 1) % len(corners)]
        if (bx - ax) * (cy - by) != (by - ay) * (cx - bx):
            kept.append(corners[i])
    return kept


def _thick(shape: Polygon) -> bool:
    """Whether no part and no recess is narrower than a wall is thick: rounded off inside and out it stays the same."""
    half = LEAST_FT / 2.0 * 0.999
    for first in (-half, half):
        moved_out = shape.buffer(first, join_style="mitre", mitre_limit=10.0)
        if not isinstance(moved_out, Polygon) or moved_out.interiors:
            return False
        back = moved_out.buffer(-first, join_style="mitre", mitre_limit=10.0)
        if back.symmetric_difference(shape).area > 1e-6:
            return False
    return True
