"""The jacks of one hip end: end jacks, side jacks and the 45 degree corner jacks, with their strips.

Along both walls of a corner side jacks stand at the truss spacing from the corner. The line at 45 degrees
from the corner divides the roof between them. A side jack's strip is cut by that line; its load is carried
as that of the square-ended strip of the same area (mean length), so that a uniform load goes half to the
wall and half to the corner jack: own derivation: tests/statics.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from framing.frame_side import FrameSide
from framing.layout.cell_plan import CellEnd, CellPlan
from framing.layout.end_jacks import end_jacks
from framing.layout.hip_corners import (
    Corner,
    corner_direction,
    corner_point,
    corners_of,
    jack,
    side_jack_distances,
    wall_parts_ft,
)
from framing.layout.landing import Ground
from framing.layout.records import SHORTEST_PIECE_FT, SMALLEST_BAY_FT, Draft, Key, KeyKind, Landing, RoofStrip
from framing.members import MemberKind
from framing.plan import Plan, Point
from framing.tolerances import TIE_FT


@dataclass(frozen=True, slots=True, kw_only=True)
class HipEnd:
    """What a hip end adds: members and strips; `left_out_ft` are the feet of side jacks that cannot be built, because
    less than 12 in. of them is left or a girder stands within 3 in. beside them.
    """

    drafts: tuple[Draft, ...]
    strips: tuple[RoofStrip, ...]
    left_out_ft: tuple[Point, ...]


def hip_end(plan: Plan, ground: Ground, cp: CellPlan, end: CellEnd) -> HipEnd:
    """The jacks between a cell's hip end and its hip girder."""
    corners = corners_of(cp, end)
    drafts: list[Draft] = []
    strips: list[RoofStrip] = []
    left_out: list[Point] = []
    distances = side_jack_distances(plan, min((c.square_ft for c in corners), default=cp.setback_ft))
    for corner in corners:
        drafts.append(_corner_jack(plan, ground, cp, corner))
        for on_end_wall in (False, True):
            d, s, none = _side_jacks(plan, ground, cp, corner, distances, on_end_wall=on_end_wall)
            drafts += d
            strips += s
            left_out += none
        strips += _corner_strips(plan, ground, cp, corner, distances)
    corner_jacks = [d for d in drafts if d.kind is MemberKind.CORNER_JACK]
    d, s = end_jacks(plan, ground, cp, end, corners, distances, corner_jacks)
    return HipEnd(drafts=tuple(drafts + d), strips=tuple(strips + s), left_out_ft=tuple(left_out))


def _corner_jack(plan: Plan, ground: Ground, cp: CellPlan, corner: Corner) -> Draft:
    """From the corner at 45 degrees to the hip girder."""
    half = plan.wall_thickness_ft / 2.0
    low = _corner_landing(ground, cp, corner, half)
    to = abs(corner.end.truss_ft - corner.end.line_ft) - (cp.setback_ft - corner.square_ft)
    point = corner_point(cp, corner, to, to, on_end_wall=False)
    top = Landing(wall=None, member=corner.end.key, point_ft=point)
    draft = jack(plan, cp, corner.end, corner.key, MemberKind.CORNER_JACK, low, top, plan.trusses.spacing_ft)
    on_wall = low.wall is not None and bool(ground.walls_at(cp.cell, corner.side))
    return replace(draft, tail_start_ft=draft.tail_start_ft * 2.0**0.5 if on_wall else 0.0)


def _corner_landing(ground: Ground, cp: CellPlan, corner: Corner, half: float) -> Landing:
    """The wall whose left end the corner is; at a seam the heel of a girder; else the end wall, else the side's."""
    at = corner_point(cp, corner, 0.0, 0.0, on_end_wall=False)
    if not ground.is_outside_corner(at):
        crossing = corner_point(cp, corner, half, half, on_end_wall=False)
        heel = ground.girder_heel(cp.cell, (corner.side, corner.end.side), crossing)
        if heel is not None:
            return heel
    k = ground.corner_at(at)
    if k is not None:
        after = ground.walls[ground.framed.first[k]]
        before = ground.walls[ground.framed.first[k] - 1]
        point = (before.bearing_ft, after.bearing_ft) if after.axis == 0 else (after.bearing_ft, before.bearing_ft)
        return Landing(wall=after.index, member=None, point_ft=point)
    ends = ground.walls_at(cp.cell, corner.end.side)
    sides = ground.walls_at(cp.cell, corner.side)
    along, across = corner.along_ft + corner.toward_along * half, corner.across_ft + corner.toward_across * half
    if ends or not sides:
        return ground.land(cp.cell, corner.end.side, across)
    return ground.land(cp.cell, corner.side, along)


def _side_jacks(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    corner: Corner,
    distances: tuple[list[float], list[float]],
    *,
    on_end_wall: bool,
) -> tuple[list[Draft], list[RoofStrip], list[Point]]:
    """The side jacks along one wall of a corner, and the girder's half bay beside them; and the feet of those that
    cannot be built: their strips go to the girder beside them or to the corner jack.
    """
    places, bounds = distances
    side = corner.end.side if on_end_wall else corner.side
    drafts, strips, left_out = [], [], []
    corner_foot = _corner_landing(ground, cp, corner, plan.wall_thickness_ft / 2.0).point_ft
    for i, (p, lo, hi) in enumerate(zip(places, bounds[:-1], bounds[1:], strict=True)):
        foot = corner_point(cp, corner, p, 0.0, on_end_wall=on_end_wall)
        key = Key(KeyKind.SIDE_JACK, (*corner.key.place, int(on_end_wall), i))
        top = Landing(wall=None, member=corner.key, point_ft=corner_point(cp, corner, p, p, on_end_wall=on_end_wall))
        landing = ground.land(cp.cell, side, foot[side.along])
        measure: Point | None = corner_direction(cp, corner, -0.5, 1.0, on_end_wall=on_end_wall)
        beside = ground.girder_beside(landing.point_ft, top.point_ft)
        at_corner = math.dist(landing.point_ft, corner_foot) < SMALLEST_BAY_FT
        if beside is not None or at_corner or math.dist(landing.point_ft, top.point_ft) < SHORTEST_PIECE_FT - TIE_FT:
            key, measure = corner.key if beside is None else beside, None
            left_out.append(landing.point_ft)
        else:
            drafts.append(jack(plan, cp, corner.end, key, MemberKind.SIDE_JACK, landing, top, hi - lo))
        ring = tuple(
            corner_point(cp, corner, *pq, on_end_wall=on_end_wall) for pq in ((lo, 0.0), (hi, 0.0), (hi, hi), (lo, lo))
        )
        strips.append(RoofStrip(ring_ft=ring, owner=key, wing=cp.cell.wing, outward=(), measure=measure))
        strips += _tail_strip(plan, ground, cp, corner, side, (lo, hi), key, on_end_wall=on_end_wall)
    if not on_end_wall:
        lo, hi, to = bounds[-1], cp.setback_ft, corner.square_ft
        corners = dict.fromkeys(((lo, 0.0), (hi, 0.0), (hi, to), (to, to), (lo, lo)))
        ring = tuple(corner_point(cp, corner, *pq, on_end_wall=False) for pq in corners)
        strips.append(RoofStrip(ring_ft=ring, owner=corner.end.key, wing=cp.cell.wing, outward=()))
        strips += _tail_strip(plan, ground, cp, corner, side, (lo, hi), corner.end.key, on_end_wall=False)
    return drafts, strips, left_out


def _tail_strip(
    plan: Plan,
    ground: Ground,
    cp: CellPlan,
    corner: Corner,
    side: FrameSide,
    along: tuple[float, float],
    key: Key,
    *,
    on_end_wall: bool,
) -> list[RoofStrip]:
    """The eave overhang in front of a strip, where a wall stands there."""
    over = plan.roof.overhang_ft
    out = []
    for low, high in wall_parts_ft(ground, cp, corner, side, along, on_end_wall=on_end_wall) if over else []:
        corners = ((low, -over), (high, -over), (high, 0.0), (low, 0.0))
        ring = tuple(corner_point(cp, corner, *pq, on_end_wall=on_end_wall) for pq in corners)
        out.append(RoofStrip(ring_ft=ring, owner=key, wing=cp.cell.wing, outward=(side,)))
    return out


def _corner_strips(
    plan: Plan, ground: Ground, cp: CellPlan, corner: Corner, distances: tuple[list[float], list[float]]
) -> list[RoofStrip]:
    """The square at the corner, and its tail: a half bay on both sides and, where the house has its own corner
    there, the overhang's square.
    """
    to, over = distances[1][0], plan.roof.overhang_ft
    ring = tuple(
        corner_point(cp, corner, *pq, on_end_wall=False) for pq in ((0.0, 0.0), (to, 0.0), (to, to), (0.0, to))
    )
    strips = [RoofStrip(ring_ft=ring, owner=corner.key, wing=cp.cell.wing, outward=())]
    if over:
        own_corner = ground.is_outside_corner(corner_point(cp, corner, 0.0, 0.0, on_end_wall=False))
        for on_end_wall, side in ((False, corner.side), (True, corner.end.side)):
            strips += _tail_strip(plan, ground, cp, corner, side, (0.0, to), corner.key, on_end_wall=on_end_wall)
            if own_corner:
                square = ((-over, -over), (0.0, -over), (0.0, 0.0), (-over, 0.0))
                ring = tuple(corner_point(cp, corner, *pq, on_end_wall=on_end_wall) for pq in square)
                strips.append(
                    RoofStrip(ring_ft=ring, owner=corner.key, wing=cp.cell.wing, outward=(side,), beyond=True)
                )
    return strips
