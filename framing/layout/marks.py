"""The marks: every bearing on a wall, numbered along it from its left end seen from outside."""

from __future__ import annotations

import math
from dataclasses import replace

from framing.layout.ground import Ground
from framing.layout.parts import PLY_FT, Draft, Key
from framing.members import Bearing, MemberKind
from framing.outline import TIE_FT, Outline, tie_key
from framing.plan import Plan, Point, Side

MarkSpot = tuple[Key, int]  # a member's key and its end (0, 1) or the number of a gable end's anchor
GIRDERS = (MemberKind.GIRDER, MemberKind.HIP_GIRDER)
KIND_ORDER = {kind: n for n, kind in enumerate(MemberKind)}


def numbered_bearings(
    plan: Plan, outline: Outline, ground: Ground, drafts: list[Draft], names: dict[Key, str]
) -> tuple[dict[MarkSpot, int], tuple[Bearing, ...]]:
    """Every wall bearing in the order of its mark, and where each member's end finds its own."""
    found: list[tuple[tuple[int, ...], MarkSpot, Bearing]] = []
    for i, d in enumerate(drafts):
        for spot, wall, point in _spots(d):
            b = _bearing(plan, outline, d, names[d.key], wall, point)
            order = (wall, tie_key(b.station_ft), 0 if d.kind in GIRDERS else 1, KIND_ORDER[d.kind], i)
            found.append((order, spot, b))
    found.sort(key=lambda f: f[0])
    spots: dict[MarkSpot, int] = {}
    bearings: list[Bearing] = []
    n_on_wall: dict[str, int] = {}
    for _, spot, b in found:
        n_on_wall[b.wall] = n_on_wall.get(b.wall, 0) + 1
        spots[spot] = len(bearings)
        bearings.append(replace(b, mark=f"{b.wall}-{n_on_wall[b.wall]:02d}"))
    return spots, tuple(bearings)


def _spots(draft: Draft) -> list[tuple[MarkSpot, int, Point]]:
    if draft.gable_wall is not None:
        return [((draft.key, k), a.wall, a.point_ft) for k, a in enumerate(draft.gable_anchors) if a.wall is not None]
    ends = ((0, draft.start), (1, draft.end))
    return [((draft.key, k), e.wall, e.point_ft) for k, e in ends if e.wall is not None]


def _bearing(plan: Plan, outline: Outline, draft: Draft, name: str, wall_index: int, point: Point) -> Bearing:
    """The bearing of one member on one wall; the strap lies against the truss face that the plan's side names."""
    wall = outline.walls[wall_index]
    origin = outline.local_ft[wall_index]
    end = outline.local_ft[(wall_index + 1) % len(outline.walls)]
    ux, uy = ((end[0] - origin[0]) / wall.length_ft, (end[1] - origin[1]) / wall.length_ft)
    station = (point[0] - origin[0]) * ux + (point[1] - origin[1]) * uy
    half = draft.plies * PLY_FT / 2.0
    skew = _skew_deg(draft, (ux, uy))
    if outline.axes[wall_index] is None:
        half /= math.cos(math.radians(skew))  # where the truss's face crosses an angled wall
    toward = -half if plan.anchors.side is Side.START else half
    shift = (ux * toward, uy * toward)
    if draft.kind is MemberKind.CORNER_JACK and outline.axes[wall_index] is not None:
        if abs(station - wall.thickness_ft / 2.0) <= TIE_FT:
            station = 0.0  # by convention a corner jack's mark is the corner itself
        (ax, ay), (bx, by) = draft.start.point_ft, draft.end.point_ft
        length = math.hypot(bx - ax, by - ay)
        nx, ny = -(by - ay) / length, (bx - ax) / length
        sign = toward if nx * ux + ny * uy > 0 else -toward
        shift = (nx * sign, ny * sign)
    return Bearing(
        mark="",
        wall=wall.name,
        station_ft=station,
        strap_station_ft=station + toward,
        member=name,
        kind=draft.kind,
        plies=draft.plies,
        side=plan.anchors.side,
        point_ft=outline.frame.to_plan(point),
        strap_ft=outline.frame.to_plan((point[0] + shift[0], point[1] + shift[1])),
        skew_deg=skew,
        bearing_length_ft=wall.thickness_ft / math.cos(math.radians(skew)),
    )


def _skew_deg(draft: Draft, along_wall: Point) -> float:
    """How far a member stands off square to the wall it lands on; a gable end, which stands along it, by none."""
    if draft.gable_wall is not None:
        return 0.0
    (ax, ay), (bx, by) = draft.start.point_ft, draft.end.point_ft
    sine = ((bx - ax) * along_wall[0] + (by - ay) * along_wall[1]) / math.dist((ax, ay), (bx, by))
    return math.degrees(math.asin(min(1.0, abs(sine))))
