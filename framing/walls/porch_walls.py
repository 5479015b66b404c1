"""Supports inside + porches -> the walls between an open porch and the rooms, and the length that a bearing holds."""

from __future__ import annotations

from itertools import pairwise

import shapely
import shapely.ops
from shapely.geometry import LineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from framing.members import Framing
from framing.plan import Plan, SupportKind
from framing.tolerances import TIE_FT

LEAST_FT = 1.0


def porch_walls(plan: Plan) -> dict[str, BaseGeometry]:
    """By support, the stretch of each tied-down inside wall that stands within a wall's thickness of a porch's edge.

    The wind comes through the porch onto it as onto an outside wall. Source: common practice, no source.
    """
    edges = shapely.union_all([Polygon(p.corners_ft).exterior for p in plan.porches]).buffer(plan.wall_thickness_ft)
    out = {}
    for i, s in enumerate(plan.supports):
        along = LineString([s.start_ft, s.end_ft]).intersection(edges)
        if s.kind is SupportKind.BEARING_WALL and s.holds_down and along.length > plan.wall_thickness_ft + LEAST_FT:
            out[f"S{i + 1}"] = along
    return out


def porch_wall_ft(plan: Plan, framing: Framing) -> dict[int, float]:
    """The length of porch wall that each bearing on one holds, by its place: midway to its neighbours, to the wall's
    own ends at the last ones; where several stand at one station each takes its share. [ft]
    """
    out: dict[int, float] = {}
    for name, stretch in porch_walls(plan).items():
        support = plan.supports[int(name[1:]) - 1]
        line = LineString([support.start_ft, support.end_ft])
        at: dict[float, list[int]] = {}
        for i, b in enumerate(framing.bearings):
            if b.wall == name:
                at.setdefault(round(line.project(Point(b.point_ft)), 6), []).append(i)
        stations = sorted(at)
        if not stations:  # every truss passes it by
            continue
        ends = [0.0, *((a + b) / 2.0 for a, b in pairwise(stations)), line.length]
        for station, (low, high) in zip(stations, pairwise(ends), strict=True):
            held = shapely.ops.substring(line, low, high).intersection(stretch.buffer(TIE_FT)).length
            out |= {i: held / len(at[station]) for i in at[station] if held > 0.0}
    return out
