"""Random houses with walls at an angle: clipped corners, bays and slanted ends on the right-angled random outlines."""

from __future__ import annotations

import math
import random
from dataclasses import replace

from framing.plan import Plan, Point, Porch, RoofType, Support, SupportKind
from invariants.houses import Outline, plan_of, random_outline
from invariants.houses import house_plan as right_angled_plan

ANGLED = "angled"
SUPPORTED = "supports and angled walls"
LONG_ENOUGH_FT = 20.0


def angled_outline(dice: random.Random) -> Outline:
    """A right-angled outline with one to three of its corners clipped or walls given a bay."""
    ring: Outline = [(float(x), float(y)) for x, y in random_outline(dice)]
    for _ in range(dice.randint(1, 3)):
        ring = _clipped(ring, dice) if dice.random() < 0.5 else _with_bay(ring, dice)
    return ring


def angled_plan(seed: int) -> Plan:
    """A random house with angled walls, and random roof and layout choices."""
    dice = random.Random(1000 + seed)
    while True:
        outline = angled_outline(dice)
        if any(not _square(outline, i) for i in range(len(outline))):
            break
    plan = plan_of(outline, type=dice.choice(list(RoofType)), overhang_ft=dice.choice([0.0, 1.0, 2.0]))
    return replace(plan, trusses=replace(plan.trusses, start=f"W{dice.randint(1, len(outline))}"))


def supported_angled_plan() -> Plan:
    """A house, invented, with a bay and clipped corners, a wall inside that trusses run on over from one to the other,
    and an open porch behind beams on an angled wall and on the one beside it, the latter tied down.
    """
    outline = [
        *((0.0, 0.0), (14.0, 0.0), (16.5, -2.5), (22.5, -2.5), (25.0, 0.0), (50.0, 0.0)),
        *((50.0, 22.0), (42.0, 30.0), (5.0, 30.0), (0.0, 25.0)),
    ]
    lines = (
        ("bearing wall", (3.0, 13.0), (34.0, 13.0), False),
        ("beam", (50.0, 22.0), (42.0, 30.0), False),
        ("beam", (42.0, 30.0), (34.0, 30.0), True),
    )
    supports = tuple(
        Support(kind=SupportKind(kind), start_ft=start, end_ft=end, holds_down=held) for kind, start, end, held in lines
    )
    floor = Porch(corners_ft=((34.0, 22.0), (50.0, 22.0), (42.0, 30.0), (34.0, 30.0)))
    return plan_of(outline, supports=supports, porches=(floor,))


def house_plan(house: int | str) -> Plan:
    """The plan of a sample, of a right-angled random house by its seed, or of an angled one by `angled` and a seed or
    by its name.
    """
    if house == SUPPORTED:
        return supported_angled_plan()
    if isinstance(house, str) and house.startswith(ANGLED):
        return angled_plan(int(house.split()[1]))
    return right_angled_plan(house)


def _corner(ring: Outline, i: int) -> tuple[Point, Point, Point]:
    return ring[i - 1], ring[i], ring[(i + 1) % len(ring)]


def _square(ring: Outline, i: int) -> bool:
    (ax, ay), (bx, by), (cx, cy) = _corner(ring, i)
    return abs((bx - ax) * (cx - bx) + (by - ay) * (cy - by)) < 1e-9


def _clipped(ring: Outline, dice: random.Random) -> Outline:
    """One outside corner cut off, at 45 degrees or at another angle."""
    outside = []
    for i in range(len(ring)):
        (ax, ay), (bx, by), (cx, cy) = _corner(ring, i)
        turn = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
        if turn > 0 and _square(ring, i) and min(math.dist((ax, ay), (bx, by)), math.dist((bx, by), (cx, cy))) > 12.0:
            outside.append(i)
    if not outside:
        return ring
    i = dice.choice(outside)
    a, b, c = _corner(ring, i)
    first = dice.choice([2.0, 3.0, 4.0, 5.0])
    second = first if dice.random() < 0.7 else dice.choice([2.0, 3.0, 4.0, 5.0])
    return [*ring[:i], _toward(b, a, first), _toward(b, c, second), *ring[i + 1 :]]


def _with_bay(ring: Outline, dice: random.Random) -> Outline:
    """A bay of three walls, its sides at 45 degrees, set out from the middle of a long wall square to the house."""
    long = [
        i
        for i in range(len(ring))
        if math.dist(ring[i], ring[(i + 1) % len(ring)]) > LONG_ENOUGH_FT
        and _square(ring, i)
        and _square(ring, (i + 1) % len(ring))
    ]
    if not long:
        return ring
    i = dice.choice(long)
    a, b = ring[i], ring[(i + 1) % len(ring)]
    length, depth, front = math.dist(a, b), dice.choice([2.0, 2.5, 3.0]), dice.choice([4.0, 6.0])
    ux, uy = (b[0] - a[0]) / length, (b[1] - a[1]) / length
    start = (length - front) / 2.0 - depth

    def at(along: float, out: float) -> Point:
        return (a[0] + ux * along + uy * out, a[1] + uy * along - ux * out)

    bay = [
        at(start, 0.0),
        at(start + depth, depth),
        at(start + depth + front, depth),
        at(start + 2 * depth + front, 0.0),
    ]
    return [*ring[: i + 1], *bay, *ring[i + 1 :]]


def _toward(p: Point, q: Point, by_ft: float) -> Point:
    t = by_ft / math.dist(p, q)
    return (p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]))
