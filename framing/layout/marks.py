"""The marks: every bearing on a wall, numbered along it from its left end seen from outside; on a support from its
`from` end.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import dataclass, replace

from framing.layout.landing import Ground
from framing.layout.records import PLY_FT, Draft, Key, Landing
from framing.members import Bearing, CarrierKind, MemberKind
from framing.plan import Plan, Point, Side
from framing.walls.outline import TIE_FT, Outline, tie_key

MarkSpot = tuple[Key, int]  # a member's key and its end (0, 1), -1 and down between; or the number of a gable's anchor
GIRDERS = (MemberKind.GIRDER, MemberKind.HIP_GIRDER)
KIND_ORDER = {kind: n for n, kind in enumerate(MemberKind)}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Line:
    """What a mark stands on, by its kind, its name and its place among those of its kind, and the frame point and
    direction of its stations.
    """

    kind: CarrierKind
    name: str
    index: int
    origin_ft: Point
    direction: Point
    thickness_ft: float
    angled: bool


def numbered_bearings(
    plan: Plan, outline: Outline, ground: Ground, drafts: list[Draft], names: dict[Key, str]
) -> tuple[dict[MarkSpot, int], tuple[Bearing, ...], tuple[Bearing, ...]]:
    """Every bearing in the order of its mark, those on supports after the walls'; those that only rest there; and
    where each member's bearing finds its own: rests count on after the others.
    """
    found: list[tuple[tuple[int, ...], MarkSpot, Bearing]] = []
    for i, d in enumerate(drafts):
        for spot, landing in _spots(d):
            line = _line(plan, outline, ground, landing)
            b = _bearing(plan, outline, d, names[d.key], line, landing)
            place = (tie_key(b.station_ft), 0 if d.kind in GIRDERS else 1, KIND_ORDER[d.kind], i)
            found.append(((int(b.on_support), line.index, *place), spot, b))
    found.sort(key=lambda f: f[0])
    marked: list[tuple[MarkSpot, Bearing]] = []
    n_on_line: Counter[str] = Counter()
    for _, spot, b in found:
        n_on_line[b.wall] += 1
        marked.append((spot, replace(b, mark=f"{b.wall}-{n_on_line[b.wall]:02d}")))
    held = [(spot, b) for spot, b in marked if spot[1] >= 0 or not b.by_engineer]
    rests = [(spot, b) for spot, b in marked if spot[1] < 0 and b.by_engineer]
    spots = {spot: i for i, (spot, _) in enumerate(held + rests)}
    return spots, tuple(b for _, b in held), tuple(b for _, b in rests)


def _spots(draft: Draft) -> list[tuple[MarkSpot, Landing]]:
    """The bearings of a draft that get marks."""
    if draft.gable_wall is not None:
        return [((draft.key, k), a) for k, a in enumerate(draft.gable_anchors) if a.wall is not None]
    ends = [((draft.key, k), e) for k, e in enumerate((draft.start, draft.end)) if e.member is None]
    (ax, ay), (bx, by) = draft.start.point_ft, draft.end.point_ft
    length = math.hypot(bx - ax, by - ay)
    for k, (at, support) in enumerate(draft.between):
        point = (ax + (bx - ax) * at / length, ay + (by - ay) * at / length)
        ends.append(((draft.key, -1 - k), Landing(wall=None, member=None, support=support, point_ft=point)))
    return ends


def _line(plan: Plan, outline: Outline, ground: Ground, landing: Landing) -> _Line:
    """The wall, the porch beam in its place, or the support that a member stands on."""
    if landing.wall is None:
        inside = next(s for s in ground.supports.inside if s.index == landing.support)
        return _support_line(inside.name, inside.index, inside.start_ft, inside.end_ft)
    wall = outline.walls[landing.wall]
    origin, end = outline.local_ft[landing.wall], outline.local_ft[(landing.wall + 1) % len(outline.walls)]
    direction = ((end[0] - origin[0]) / wall.length_ft, (end[1] - origin[1]) / wall.length_ft)
    line = _Line(
        kind=CarrierKind.WALL,
        name=wall.name,
        index=landing.wall,
        origin_ft=origin,
        direction=direction,
        thickness_ft=wall.thickness_ft,
        angled=outline.axes[landing.wall] is None,
    )
    beam = ground.supports.porch_beam_at(landing.wall, _station_ft(line, landing.point_ft))
    if beam is None:
        return line
    support = plan.supports[beam.support]
    ends = (outline.frame.to_local(support.start_ft), outline.frame.to_local(support.end_ft))
    return _support_line(beam.name, beam.support, *ends)


def _support_line(name: str, index: int, start: Point, end: Point) -> _Line:
    length = math.dist(start, end)
    direction = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    return _Line(
        kind=CarrierKind.SUPPORT,
        name=name,
        index=index,
        origin_ft=start,
        direction=direction,
        thickness_ft=0.0,
        angled=False,
    )


def _station_ft(line: _Line, point: Point) -> float:
    dx, dy = point[0] - line.origin_ft[0], point[1] - line.origin_ft[1]
    return dx * line.direction[0] + dy * line.direction[1]


def _bearing(plan: Plan, outline: Outline, draft: Draft, name: str, line: _Line, landing: Landing) -> Bearing:
    """The bearing of one member on one line; the strap lies against the truss face that the plan's side names."""
    (ux, uy), point = line.direction, landing.point_ft
    station = _station_ft(line, point)
    half = draft.plies * PLY_FT / 2.0
    skew = _skew_deg(draft, (ux, uy))
    if line.angled:
        half /= math.cos(math.radians(skew))  # where the truss's face crosses an angled wall
    toward = -half if plan.anchors.side is Side.START else half
    shift = (ux * toward, uy * toward)
    if draft.kind is MemberKind.CORNER_JACK and not line.angled:
        if abs(station - line.thickness_ft / 2.0) <= TIE_FT:
            station = 0.0  # by convention a corner jack's mark is the corner itself
        (ax, ay), (bx, by) = draft.start.point_ft, draft.end.point_ft
        length = math.hypot(bx - ax, by - ay)
        nx, ny = -(by - ay) / length, (bx - ax) / length
        sign = toward if nx * ux + ny * uy > 0 else -toward
        shift = (nx * sign, ny * sign)
    on_support = line.kind is CarrierKind.SUPPORT
    return Bearing(
        mark="",
        wall=line.name,
        stands_on=line.kind,
        station_ft=station,
        strap_station_ft=station + toward,
        member=name,
        kind=draft.kind,
        plies=draft.plies,
        side=plan.anchors.side,
        point_ft=outline.frame.to_plan(point),
        strap_ft=outline.frame.to_plan((point[0] + shift[0], point[1] + shift[1])),
        skew_deg=skew,
        bearing_length_ft=plan.wall_thickness_ft / math.cos(math.radians(skew)),
        by_engineer=on_support and not plan.supports[line.index].holds_down,
    )


def _skew_deg(draft: Draft, along_wall: Point) -> float:
    """How far a member stands off square to the wall it lands on; a gable end, which stands along it, by none."""
    if draft.gable_wall is not None:
        return 0.0
    (ax, ay), (bx, by) = draft.start.point_ft, draft.end.point_ft
    sine = ((bx - ax) * along_wall[0] + (by - ay) * along_wall[1]) / math.dist((ax, ay), (bx, by))
    return math.degrees(math.asin(min(1.0, abs(sine))))
