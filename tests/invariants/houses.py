"""Plans made in memory: random rectangles, L, T, U and Z on a 4 in. grid, and the motions that must change nothing."""

from __future__ import annotations

import math
import random
from dataclasses import replace
from pathlib import Path

import shapely
from shapely.geometry import LineString, Polygon

from export.commands.run_of_plan import load_run
from framing.plan import (
    HipOrigin,
    Plan,
    Point,
    Porch,
    RoofType,
    Support,
    SupportKind,
)
from framing.plan_file import plan_from_text
from framing.walls.outline import build_outline

Outline = list[Point]
WITH_SUPPORTS = "with supports "
SAMPLES = {path.stem: path for path in sorted((Path(__file__).parents[2] / "sample_plans").glob("*.toml"))}


DEFAULT = replace(
    plan_from_text(
        """
        walls.outline = [["0'", "0'"], ["40'", "0'"], ["40'", "28'"], ["0'", "28'"]]
        roof = { type = "hip", pitch = "5:12" }
        wind = { speed = 160, exposure = "C" }
        """,
        "invented",
    ),
    outline_ft=(),
    assumed=(),
)


def _support(kind: str, start: Point, end: Point, *, holds_down: bool = False) -> Support:
    return Support(kind=SupportKind(kind), start_ft=start, end_ft=end, holds_down=holds_down)


def supported_plan(name: str) -> Plan:
    """A house with supports inside, invented."""
    if name == "a spine wall":  # not tied down, across half the commons, the jacks of one hip end and a beam across
        wall = _support("bearing wall", (0.7, 13.0), (30.0, 13.0))
        post = _support("beam", (36.0, 12.0), (44.0, 12.0), holds_down=True)
        return plan_of([(0, 0), (50, 0), (50, 28), (0, 28)], supports=(wall, post))
    if name == "a wall under the seam":  # and a post that halves the girder of the other wing
        ell = [(0, 0), (24, 0), (24, -18), (50, -18), (50, 30), (0, 30)]
        supports = (
            _support("bearing wall", (24.0, 0.3), (40.0, 0.3), holds_down=True),
            _support("bearing wall", (10.0, 15.0), (48.0, 15.0)),
        )
        return plan_of(ell, supports=supports, spacing_ft=2.0)
    if name == "a chord on a wall":  # tied down from wall to wall: the chord ends there, its trusses from both sides
        tee = [(0, 0), (20, 0), (20, -12), (44, -12), (44, 0), (70, 0), (70, 40), (0, 40)]
        return plan_of(tee, supports=(_support("bearing wall", (0.3, 22.0), (69.7, 22.0), holds_down=True),))
    if name == "a porch":
        house = [(0, 0), (46, 0), (46, 34), (0, 34)]
        supports = (
            _support("beam", (12.0, 34.0), (40.0, 34.0)),
            _support("bearing wall", (12.0, 24.0), (40.0, 24.0), holds_down=True),
        )
        floor = Porch(corners_ft=((12.0, 24.0), (40.0, 24.0), (40.0, 34.0), (12.0, 34.0)))
        return plan_of(house, supports=supports, porches=(floor,), type=RoofType.HIP)
    gabled = [(0, 0), (40, 0), (40, 26), (0, 26)]  # "a corner porch": beams on two walls, one under the gable
    supports = (
        _support("beam", (30.0, 0.3), (40.0, 0.3)),
        _support("beam", (39.7, 0.0), (39.7, 10.0), holds_down=True),
        _support("bearing wall", (30.0, 10.0), (39.7, 10.0), holds_down=True),
    )
    floor = Porch(corners_ft=((30.0, 0.0), (40.0, 0.0), (40.0, 10.0), (30.0, 10.0)))
    return plan_of(gabled, supports=supports, porches=(floor,), type=RoofType.GABLE)


SUPPORTED = ("a spine wall", "a wall under the seam", "a chord on a wall", "a porch", "a corner porch")


def plan_of(outline: Outline, **changed: object) -> Plan:
    """A plan with the program's defaults; `changed` names any field of the plan or of its parts."""
    return changed_plan(replace(DEFAULT, outline_ft=tuple(outline)), **changed)


def changed_plan(plan: Plan, **changed: object) -> Plan:
    """The plan with fields of its own or of its roof, trusses and wind replaced by name."""
    for name, value in changed.items():
        parts = [p for p in ("roof", "trusses", "wind") if name in type(getattr(plan, p)).__dataclass_fields__]
        if parts:
            plan = replace(plan, **{parts[0]: replace(getattr(plan, parts[0]), **{name: value})})
        else:
            plan = replace(plan, **{name: value})
    return plan


def random_outline(dice: random.Random) -> Outline:
    """A rectangle, L, T, U or Z with wings of different widths."""

    def feet(low: float, high: float) -> float:
        return dice.randint(math.ceil(low * 3), int(high * 3)) / 3.0

    kind = dice.choice("RLTUZ")
    width, depth = feet(24, 80), feet(16, 44)
    if kind == "R":
        return [(0, 0), (width, 0), (width, depth), (0, depth)]
    if kind == "L":
        at, out = feet(8, width - 6), feet(4, 30)
        return [(0, 0), (at, 0), (at, -out), (width, -out), (width, depth), (0, depth)]
    if kind == "T":
        at, to, out = feet(5, width / 2 - 2), feet(width / 2 + 2, width - 5), feet(4, 30)
        return [(0, 0), (at, 0), (at, -out), (to, -out), (to, 0), (width, 0), (width, depth), (0, depth)]
    if kind == "U":
        width = max(width, 40.0)
        at, to = feet(10, width / 2 - 6), feet(width / 2 + 6, width - 10)
        up, upper = depth + feet(5, 30), depth + feet(5, 30)
        return [(0, 0), (width, 0), (width, up), (to, up), (to, depth), (at, depth), (at, upper), (0, upper)]
    at, shift, beyond = feet(6, width - 8), feet(3, depth - 8), feet(6, 40)
    far, top = width + beyond, shift + depth
    return [(0, 0), (width, 0), (width, shift), (far, shift), (far, top), (at, top), (at, depth), (0, depth)]


def with_random_supports(seed: int) -> Plan:
    """The random house of a seed with one to three supports inside: walls and beams, tied down or not, some of them
    from wall to wall.
    """
    dice, plan = random.Random(f"supports {seed}"), random_plan(seed)
    room = Polygon(plan.outline_ft).buffer(-plan.wall_thickness_ft, join_style="mitre")
    supports: list[Support] = []
    while not supports or (len(supports) < 3 and dice.random() < 0.5):
        axis = dice.randrange(2)
        (a, b), across = ((room.bounds[k], room.bounds[k + 2]) for k in (axis, 1 - axis))
        at, ends = dice.uniform(*across), (a, b) if dice.random() < 0.4 else (dice.uniform(a, b), dice.uniform(a, b))
        line = LineString([(e, at) if axis == 0 else (at, e) for e in ends]).intersection(room)
        longest = max(shapely.get_parts(line), key=lambda part: part.length, default=line)
        if longest.length > 3.0:
            kind = dice.choice(list(SupportKind))
            supports.append(_support(kind, *longest.coords, holds_down=dice.random() < 0.5))
    return replace(plan, supports=tuple(supports))


def house_plan(house: int | str) -> Plan:
    """A sample plan by its file's name, with the shipped catalogue, or the random plan of a seed, with supports by
    `with supports` and a seed.
    """
    if isinstance(house, int):
        return random_plan(house)
    if house.startswith(WITH_SUPPORTS):
        return with_random_supports(int(house.removeprefix(WITH_SUPPORTS)))
    if house in SUPPORTED:
        return supported_plan(house)
    plan = load_run(SAMPLES[house]).plan
    return replace(plan, anchors=replace(plan.anchors, catalogue="", minimum=""))


def random_plan(seed: int) -> Plan:
    """A random house with random roof and layout choices."""
    dice = random.Random(seed)
    outline = random_outline(dice)
    return plan_of(
        outline,
        type=dice.choice(list(RoofType)),
        overhang_ft=dice.choice([0.0, 1.0, 1.5, 2.0, 2.5]),
        rake_overhang_ft=dice.choice([0.0, 1.0, 1.5]),
        rise_per_run=dice.choice([2, 4, 5, 6, 8]) / 12.0,
        spacing_ft=dice.choice([2.0, 4.0 / 3.0]),
        setback_ft=dice.choice([6.0, 7.0, 8.0, 10.0]),
        hip_origin=dice.choice(list(HipOrigin)),
        start=f"W{dice.randint(1, len(outline))}",
    )


def moved(point: Point, turn_deg: float, *, mirror: bool, shift: Point) -> Point:
    """A point mirrored in the y axis, then turned about the origin, then shifted."""
    x, y = (-point[0] if mirror else point[0]), point[1]
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return (x * c - y * s + shift[0], x * s + y * c + shift[1])


def moved_plan(plan: Plan, turn_deg: float, *, mirror: bool = False, shift: Point = (0.0, 0.0)) -> Plan:
    """The same house moved. Mirrored, the outline runs the other way round: the layout still starts at the image
    of its corner, whose wall has another name, and so do the walls of roof edges set by hand.
    """
    outline = tuple(moved(p, turn_deg, mirror=mirror, shift=shift) for p in plan.outline_ft)
    supports = tuple(
        replace(s, **{k: moved(getattr(s, k), turn_deg, mirror=mirror, shift=shift) for k in ("start_ft", "end_ft")})
        for s in plan.supports
    )
    porches = tuple(
        Porch(corners_ft=tuple(moved(p, turn_deg, mirror=mirror, shift=shift) for p in porch.corners_ft))
        for porch in plan.porches
    )
    image = replace(plan, outline_ft=outline, supports=supports, porches=porches)
    if not mirror:
        return image
    here, there = build_outline(plan), build_outline(image).walls

    def wall_starting_at(corner: Point) -> str:
        spot = moved(corner, turn_deg, mirror=True, shift=shift)
        return min(there, key=lambda w: math.dist(w.start_ft, spot)).name

    edges = []
    for edge in plan.roof.edges:
        wall = here.wall(edge.wall)
        low, high = edge.from_ft or 0.0, wall.length_ft if edge.to_ft is None else edge.to_ft
        far = wall.length_ft - high, wall.length_ft - low
        edges.append(replace(edge, wall=wall_starting_at(wall.end_ft), from_ft=far[0], to_ft=far[1]))
    start = wall_starting_at(here.wall(plan.trusses.start).start_ft)
    return changed_plan(image, start=start, edges=tuple(edges))
