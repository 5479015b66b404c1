"""The marks: every bearing on a wall, numbered along it from its left end seen from outside; on a support from its
`from` end.
"""

from __future__ import annotations

import math
from collections import Counter
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import Polygon

from framing.layout.profiles import member_shape
from framing.layout.records import PLY_FT, Draft, Key, Landing, gable_truss_ft
from framing.layout.strap_ends import end_ft
from framing.layout.strap_places import (
    Place,
    Stand,
    StandingLine,
    along_stand,
    crossing_stand,
    support_line,
    wall_lines_of,
)
from framing.layout.supports import Supports
from framing.layout.wood_places import Ring, beam_ground, in_other_wood, wood_on_beam
from framing.members import Bearing, CarrierKind, MemberKind, PorchBeam, Strap
from framing.plan import Plan, Point
from framing.roof.surface import Roof
from framing.walls.outline import Outline, tie_key

MarkSpot = tuple[Key, int]  # a member's key and its end (0, 1), -1 and down between; or the number of a gable's anchor
GIRDERS = (MemberKind.GIRDER, MemberKind.HIP_GIRDER)
CHORD_FT = 3.5 / 12.0
KIND_ORDER = {kind: n for n, kind in enumerate(MemberKind)}


def numbered_bearings(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    supports: Supports,
    drafts: list[Draft],
    names: dict[Key, str],
    wood_ft: list[Ring],
) -> tuple[dict[MarkSpot, int], tuple[Bearing, ...], tuple[Bearing, ...]]:
    """Every bearing in the order of its mark, those on supports after the walls'; those that only rest there; and
    where each member's bearing finds its own: rests count on after the others. `wood_ft` is the ground of each draft.
    """
    walls, beam = wall_lines_of(outline), beam_ground(outline.local_ft, plan.wall_thickness_ft)
    landed = [(i, spot, landing) for i, d in enumerate(drafts) for spot, landing in _spots(d)]
    on_beam = wood_on_beam(wood_ft, [(i, landing.point_ft) for i, _, landing in landed], beam)
    lines = [_line(plan, outline, supports, walls, landing) for _, _, landing in landed]
    stands = [_stand(plan, drafts[i], at, line) for (i, _, at), line in zip(landed, lines, strict=True)]
    covered = in_other_wood(
        wood_ft, [(i, s.straps[k].point_ft) for (i, _, _), s in zip(landed, stands, strict=True) for k in (0, 1)]
    )
    found: list[tuple[tuple[int, ...], MarkSpot, Bearing]] = []
    for n, ((i, spot, landing), line, wood) in enumerate(zip(landed, lines, on_beam, strict=True)):
        d = drafts[i]
        stand = stands[n].on_other_face if covered[2 * n] and not covered[2 * n + 1] else stands[n]
        gaps = [g for g in supports.porch_beams if g.wall == landing.wall]
        b = _bearing(plan, outline, roof, d, names[d.key], line, landing, stand, wood, beam, gaps)
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


def _line(
    plan: Plan, outline: Outline, supports: Supports, walls: tuple[StandingLine, ...], landing: Landing
) -> StandingLine:
    """The wall, the porch beam in its place, or the support that a member stands on."""
    if landing.wall is None:
        inside = next(s for s in supports.inside if s.index == landing.support)
        return support_line(inside.name, inside.index, inside.start_ft, inside.end_ft)
    line = walls[landing.wall]
    beam = supports.porch_beam_at(landing.wall, line.station_ft(landing.point_ft))
    if beam is None:
        return line
    support = plan.supports[beam.support]
    ends = (outline.frame.to_local(support.start_ft), outline.frame.to_local(support.end_ft))
    return support_line(beam.name, beam.support, *ends)


def _stand(plan: Plan, draft: Draft, landing: Landing, line: StandingLine) -> Stand:
    """How a member stands there: a gable end along its wall, any other across its line."""
    if draft.gable_wall is not None:
        return along_stand(line, landing.point_ft, gable_truss_ft(plan), PLY_FT)
    inner = draft.start if landing is draft.end else draft.end
    plies_ft, corner_ft = draft.plies * PLY_FT, plan.anchors.corner_strap_ft
    return crossing_stand(line, landing.point_ft, inner.point_ft, plies_ft, plan.anchors.side, corner_ft)


def _bearing(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    draft: Draft,
    name: str,
    line: StandingLine,
    landing: Landing,
    stand: Stand,
    wood_ft: Ring,
    beam: Polygon,
    gaps: list[PorchBeam],
) -> Bearing:
    """The bearing of one member on one line, with its straps against the member's faces."""
    on_wall, to_plan = line.kind is CarrierKind.WALL, outline.frame.to_plan
    straps = tuple(_strap(plan, outline, line, p, beam, gaps) for p in stand.straps)
    return Bearing(
        mark="",
        wall=line.name,
        stands_on=line.kind,
        station_ft=stand.station_ft,
        member=name,
        kind=draft.kind,
        plies=draft.plies,
        crossing=stand.crossing,
        straps=(straps[0], straps[1]),
        point_ft=to_plan(landing.point_ft),
        wood_ft=tuple(to_plan(p) for p in wood_ft) if on_wall else (),
        skew_deg=stand.skew_deg,
        bearing_length_ft=plan.wall_thickness_ft / math.cos(math.radians(stand.skew_deg)),
        next_wall=stand.next_wall,
        top_chord_in=_top_chord_in(plan, roof, draft, landing.point_ft) if draft.gable_wall is not None else None,
        by_engineer=not on_wall and not plan.supports[line.index].holds_down,
    )


def _strap(
    plan: Plan, outline: Outline, line: StandingLine, place: Place, beam: Polygon, gaps: list[PorchBeam]
) -> Strap:
    on_wall = line.kind is CarrierKind.WALL
    return Strap(
        side=place.side,
        point_ft=outline.frame.to_plan(place.point_ft),
        tape_ft=place.tape_ft,
        in_from_face_ft=place.in_from_face_ft,
        in_from_next_ft=place.in_from_next_ft,
        edge_ft=beam.boundary.distance(shapely.Point(place.point_ft)) if on_wall else None,
        end_ft=end_ft(line, place, plan.wall_thickness_ft, gaps),
    )


def _top_chord_in(plan: Plan, roof: Roof, draft: Draft, point: Point) -> float | None:
    """How high a gable end's top chord's underside runs over a place along it, if nothing but a stud is left there
    between the chords, 3-1/2 in. deep.

    Source: common practice, no source.
    """
    at, top_ft = np.array(member_shape(plan, roof, draft)).T
    start, end = np.array(draft.start.point_ft), np.array(draft.end.point_ft)
    along_ft = (np.array(point) - start) @ (end - start) / math.dist(start, end)
    under_ft = float(np.interp(along_ft, at, top_ft)) - CHORD_FT / math.cos(math.radians(plan.roof.theta_deg))
    return 12.0 * under_ft if under_ft > CHORD_FT else None
