"""Framing -> each of our bearings as a package would state it: where it stands, its truss's span and overhang."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from framing.anchors.demands import Demands
from framing.loads.reactions import Reactions
from framing.members import Bearing, Framing, Member
from framing.plan import Plan, Point
from framing.walls.outline import Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Ours:
    """One bearing: `at` its place in the framing. `span_ft` is between the middles of the bearings, `thickness_ft` what
    a span between outside faces has more; `overhang_ft` from the outside face along the member. `on_support` bearings
    that only push have `at` past the last that is held down, and no uplift.
    """

    at: int
    bearing: Bearing
    span_ft: float
    thickness_ft: float
    overhang_ft: float
    end: int
    uplift_lb: float
    mwfrs_uplift_lb: float
    cladding_uplift_lb: float
    down_lb: float


def our_bearings(plan: Plan, framing: Framing, reactions: Reactions, demands: Demands) -> tuple[Ours, ...]:
    """Every bearing with a mark, those that only push after the others."""
    members = {m.name: m for m in framing.members}
    held = len(framing.bearings)
    down = np.concatenate([reactions.down_lb, reactions.rests_down_lb])
    out = []
    for i, b in enumerate((*framing.bearings, *framing.rests)):
        member = members[b.member]
        end = _end(member, b.point_ft)
        tail = (member.tail_start_ft, member.tail_end_ft)[end]
        lifts = i < held
        out.append(
            Ours(
                at=i,
                bearing=b,
                span_ft=member.span_ft,
                thickness_ft=plan.wall_thickness_ft,
                overhang_ft=max(0.0, tail - plan.wall_thickness_ft / 2.0),
                end=end + 1,
                uplift_lb=float(reactions.uplift_lb[i]) if lifts else 0.0,
                mwfrs_uplift_lb=float(demands.uplift_mwfrs_lb[i]) if lifts else 0.0,
                cladding_uplift_lb=float(demands.uplift_cladding_lb[i]) if lifts else 0.0,
                down_lb=float(down[i]),
            )
        )
    return tuple(out)


def _end(member: Member, point_ft: Point) -> int:
    return 0 if math.dist(member.start_ft, point_ft) <= math.dist(member.end_ft, point_ft) else 1


def place_ft(plan: Plan, outline: Outline, wall: str, station_ft: float) -> Point | None:
    """The plan point at mid-thickness at a station of a wall, or on a support; None where there is no such wall, or it
    is shorter.
    """
    for w in outline.walls:
        if w.name == wall:
            within = station_ft <= w.length_ft + STATION_SLACK_FT
            return w.point_ft(station_ft, w.thickness_ft / 2.0) if within else None
    for k, s in enumerate(plan.supports):
        length = math.dist(s.start_ft, s.end_ft)
        if f"S{k + 1}" == wall and station_ft <= length + STATION_SLACK_FT:
            (x0, y0), (x1, y1) = s.start_ft, s.end_ft
            return (x0 + (x1 - x0) * station_ft / length, y0 + (y1 - y0) * station_ft / length)
    return None


def wall_lengths(plan: Plan, outline: Outline) -> dict[str, float]:
    """Every wall and support with its length. [ft]"""
    supports = {f"S{k + 1}": math.dist(s.start_ft, s.end_ft) for k, s in enumerate(plan.supports)}
    return {w.name: w.length_ft for w in outline.walls} | supports


STATION_SLACK_FT = 1.0 / 96.0  # an eighth of an inch: stations are typed to the sixteenth
