"""A place in the plan -> the walls nearest to it, for sentences that must name them."""

from __future__ import annotations

import math

import shapely

from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, Wall


def walls_near(outline: Outline, point_ft: Point) -> str:
    """The names of the two walls nearest to a plan point, in the order of their numbers: "W4 and W5"."""
    nearest = sorted(outline.walls, key=lambda w: _away_ft(w, point_ft))
    return _both(list(dict.fromkeys(w.name for w in nearest))[:2])


def angled_walls_near(outline: Outline, point_ft: Point) -> str:
    """The names of the two nearest walls at an angle to the rest; of the one, where there are no two."""
    angled = [w for w, axis in zip(outline.walls, outline.axes, strict=True) if axis is None]
    nearest = sorted(angled, key=lambda w: _away_ft(w, point_ft))
    return _both([w.name for w in nearest][:2])


def walls_facing(outline: Outline, point_ft: Point) -> str:
    """The names of the two walls between which a plan point in a narrow part lies: of the nearest the one more nearly
    parallel to the next that it does not lie on, and that one.
    """
    first, *more = sorted(outline.walls, key=lambda w: _away_ft(w, point_ft))
    on = [first, *(w for w in more if _away_ft(w, point_ft) <= _away_ft(first, point_ft) + 10 * TIE_FT)]
    across = next((w for w in more if w not in on), first)
    return _both([max(on, key=lambda w: _alike(w, across)).name, across.name])


def _away_ft(wall: Wall, point_ft: Point) -> float:
    return float(shapely.LineString([wall.start_ft, wall.end_ft]).distance(shapely.Point(point_ft)))


def _alike(wall: Wall, other: Wall) -> float:
    """The cosine between two walls, without its sign."""
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = wall.start_ft, wall.end_ft, other.start_ft, other.end_ft
    dot = (bx - ax) * (dx - cx) + (by - ay) * (dy - cy)
    return abs(dot) / math.hypot(bx - ax, by - ay) / math.hypot(dx - cx, dy - cy)


def _both(names: list[str]) -> str:
    return " and ".join(sorted(names, key=lambda name: int(name[1:])))
