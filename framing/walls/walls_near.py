"""A place in the plan -> the walls nearest to it, for sentences that must name them."""

from __future__ import annotations

import shapely

from framing.plan import Point
from framing.walls.outline import Outline, Wall


def walls_near(outline: Outline, point_ft: Point) -> str:
    """The names of the two walls nearest to a plan point, in the order of their numbers: "W4 and W5"."""

    def away_ft(wall: Wall) -> float:
        return float(shapely.LineString([wall.start_ft, wall.end_ft]).distance(shapely.Point(point_ft)))

    nearest = sorted(outline.walls, key=away_ft)
    names = list(dict.fromkeys(w.name for w in nearest))[:2]
    return " and ".join(sorted(names, key=lambda name: int(name[1:])))
