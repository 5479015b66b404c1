"""Members of the squared outline cut back to the walls as they are.

A member that runs past an angled wall ends on it instead: it crosses the wall askew and its anchor turns with it. A
piece of which less than 12 in. is left, a jack shorter than the overhang, and a jack that would cross the wall by less
than 30 degrees are not built; their roof goes to the nearest piece that is.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from framing.errors import LayoutError
from framing.layout.carriers_in_parts import on_their_parts, part_key, strips_of_parts
from framing.layout.records import SHORTEST_PIECE_FT, Draft, Key, Landing, RoofStrip
from framing.members import MemberKind
from framing.plan import Plan, Point
from framing.roof.angled_eaves import ring_beside, wall_plane
from framing.roof.surface import Roof
from framing.tolerances import TIE_FT, TIE_SINE
from framing.walls.outline import Outline
from framing.walls.squared_outline import Squared
from framing.walls.walls_near import walls_near

JACKS = (MemberKind.END_JACK, MemberKind.SIDE_JACK, MemberKind.CORNER_JACK)
LEAST_CROSSING = 0.5
FARTHEST_FT = 4.0
LONG_ANGLED_FT = 12.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _BearingLines:
    """The walls' bearing lines in the outline's frame: one closed line, what lies within it and a hair more, and wall
    by wall.
    """

    around: Polygon
    within: Polygon
    by_wall: NDArray[np.object_]


def _bearing_lines(outline: Outline) -> _BearingLines:
    ring = ring_beside(outline, [-w.thickness_ft / 2.0 for w in outline.walls])
    around = Polygon(ring)
    by_wall = shapely.linestrings([[a, b] for a, b in itertools.pairwise((*ring, ring[0]))])
    return _BearingLines(around=around, within=around.buffer(TIE_FT, join_style="mitre"), by_wall=by_wall)


def cut_to_walls(
    plan: Plan, outline: Outline, roof: Roof, squared: Squared, drafts: list[Draft], strips: list[RoofStrip]
) -> tuple[list[Draft], list[RoofStrip], list[Point]]:
    """The drafts and strips of the squared outline as the house's own walls leave them, and the feet of the jacks that
    have lost what would carry them: their roof, too, goes to the nearest piece that is built.

    Raises
    ------
    LayoutError
        If a member that carries a truss or a girder is cut away; names the place.
    """
    if outline.right_angled:
        return drafts, strips, []
    lines = _bearing_lines(outline)
    carriers = {landing.member for d in drafts for landing in (d.start, d.end)}
    kept: dict[Key, Draft] = {}
    cut: set[Key] = set()
    in_parts: dict[Key, list[Draft]] = {}
    for d in drafts:
        if d.gable_wall is not None:
            built = [_on_own_walls(d, squared)]
        else:
            built = _cut(plan, outline, squared, lines, d)[: None if d.key in carriers else 1]
        for new in built:
            ends = ((new.start.point_ft, d.start.point_ft), (new.end.point_ft, d.end.point_ft))
            if any(math.dist(now, before) > 10 * TIE_FT for now, before in ends):
                cut.add(new.key)
            kept[new.key] = _with_tails(plan, outline, roof, new)
        if len(built) > 1:
            in_parts[d.key] = built
    kept = {d.key: d for d in on_their_parts(list(kept.values()), in_parts)}
    without: list[Point] = []
    while lost := [d for d in kept.values() if d.kind in JACKS and _lost_landing(outline, d, kept) is not None]:
        without += [kept.pop(d.key).start.point_ft for d in lost]
    for d in kept.values():
        _refuse_lost_carrier(outline, d, kept)
    own = [s for s in strips_of_parts(strips, in_parts) if s.owner in kept]
    taken = [replace(s, measure=None if s.owner in cut else s.measure) for s in own]
    return list(kept.values()), taken, without


def angled_notes(outline: Outline, without_ft: list[Point]) -> tuple[str, ...]:
    """What people should hear of angled walls: all by name, the long ones that a framer would turn trusses to, and
    where jacks are not built (`without_ft`: their feet).
    """
    angled = [w for w, axis in zip(outline.walls, outline.axes, strict=True) if axis is None]
    notes = []
    if angled:
        names = ", ".join(w.name for w in angled)
        notes.append(
            f"At an angle to the rest: {names}; trusses cross them askew, and the anchors turn with the trusses."
        )
    long = ", ".join(w.name for w in angled if w.length_ft > LONG_ANGLED_FT)
    if long:
        notes.append(
            f"Over {LONG_ANGLED_FT:.0f} ft at an angle: {long}; a framer would set the trusses of that part square to "
            "it: ask the truss engineer before the anchors are set."
        )
    places = ", ".join(dict.fromkeys("({:.1f}, {:.1f}) ft".format(*outline.frame.to_plan(p)) for p in without_ft))
    if places:
        notes.append(
            f"Jacks near {places} are not built, because an angled wall cuts away what would carry them: what lies "
            "beside them takes their roof; ask the truss engineer how it is framed there."
        )
    return tuple(notes)


def _on_own_walls(draft: Draft, squared: Squared) -> Draft:
    """A gable end, which stands on a wall that is the same in both outlines."""

    def own(landing: Landing) -> Landing:
        return replace(landing, wall=None if landing.wall is None else squared.stands_for[landing.wall])

    return replace(
        draft,
        start=own(draft.start),
        end=own(draft.end),
        gable_wall=None if draft.gable_wall is None else squared.stands_for[draft.gable_wall],
        gable_anchors=tuple(own(a) for a in draft.gable_anchors),
    )


def _cut(plan: Plan, outline: Outline, squared: Squared, lines: _BearingLines, draft: Draft) -> list[Draft]:
    """The parts of a member inside the bearing lines that can be built, the longest first, with its key."""
    within = LineString([draft.start.point_ft, draft.end.point_ft]).intersection(lines.within)
    parts = [g for g in shapely.get_parts(within) if isinstance(g, LineString) and g.length > 10 * TIE_FT]
    new = [_part(outline, squared, lines, draft, g) for g in sorted(parts, key=lambda g: -g.length)]
    built = [d for d in new if _can_be_built(plan, outline, draft, d)]
    return [replace(d, key=part_key(d.key, k)) for k, d in enumerate(built)]


def _part(outline: Outline, squared: Squared, lines: _BearingLines, draft: Draft, part: LineString) -> Draft:
    """The member from end to end of a part of its line."""
    a, b = draft.start.point_ft, draft.end.point_ft
    ends = sorted(((x, y) for x, y in (part.coords[0], part.coords[-1])), key=lambda p: math.dist(p, a))
    landings = []
    for old, point, inner in zip((draft.start, draft.end), ends, ends[::-1], strict=True):
        moved = math.dist(old.point_ft, point) > 10 * TIE_FT
        if not moved and old.wall is None:
            landings.append(old)
            continue
        wanted = None if moved or old.wall is None else squared.stands_for[old.wall]
        at = point if moved else _out_to(lines.around, old.point_ft, inner)
        wall = _wall_at(outline, lines, at, inner, wanted)
        landings.append(Landing(wall=wall, member=None, point_ft=_on_line(lines.by_wall[wall], at, (a, b))))
    return replace(draft, start=landings[0], end=landings[1])


def _can_be_built(plan: Plan, outline: Outline, old: Draft, new: Draft) -> bool:
    """Whether what is left of a member is long enough, and a jack crosses its angled wall by enough."""
    length = math.dist(new.start.point_ft, new.end.point_ft)
    if length > math.dist(old.start.point_ft, old.end.point_ft) - 10 * TIE_FT:
        return True
    if new.kind not in JACKS:
        return length >= SHORTEST_PIECE_FT
    if length < max(plan.roof.overhang_ft, SHORTEST_PIECE_FT):
        return False
    along = (new.end.point_ft[0] - new.start.point_ft[0], new.end.point_ft[1] - new.start.point_ft[1])
    return all(e.wall is None or _crossing(outline, e.wall, along) >= LEAST_CROSSING for e in (new.start, new.end))


def _out_to(lines: Polygon, point: Point, inner: Point) -> Point:
    """A point inside the bearing lines moved out along its member to the first of them."""
    here = shapely.Point(point)
    if lines.exterior.distance(here) <= 10 * TIE_FT:
        return point
    length = math.dist(point, inner)
    (x, y), (u, v) = point, inner
    ray = LineString([point, (x + (x - u) / length * FARTHEST_FT, y + (y - v) / length * FARTHEST_FT)])
    hit = ray.intersection(lines.exterior.buffer(TIE_FT))
    if hit.is_empty:
        return point
    to = shapely.shortest_line(here, hit).coords[-1]
    return (to[0], to[1])


def _on_line(line: LineString, near: Point, axis: tuple[Point, Point]) -> Point:
    """Where a member's axis crosses a wall's bearing line exactly, from a point within a hair of it."""
    (ax, ay), (bx, by) = axis
    (px, py), (qx, qy) = line.coords
    dx, dy, ex, ey = bx - ax, by - ay, qx - px, qy - py
    cross = dx * ey - dy * ex
    if abs(cross) < TIE_SINE * math.hypot(dx, dy) * math.hypot(ex, ey):
        return near
    t = ((px - ax) * ey - (py - ay) * ex) / cross
    at = (ax + t * dx, ay + t * dy)
    return at if math.dist(at, near) <= 100 * TIE_FT else near


def _wall_at(outline: Outline, lines: _BearingLines, point: Point, inner: Point, wanted: int | None) -> int:
    """The wall whose bearing line passes a point: at a corner the one wanted, else the one that the member is more
    nearly square to.
    """
    off = shapely.distance(lines.by_wall, shapely.Point(point))
    near = np.flatnonzero(off <= off.min() + 10 * TIE_FT).tolist()
    along = (point[0] - inner[0], point[1] - inner[1])
    return wanted if wanted in near else max(near, key=lambda i: _crossing(outline, i, along))


def _with_tails(plan: Plan, outline: Outline, roof: Roof, draft: Draft) -> Draft:
    """The member's tails run on to the eave that it really has."""
    tails = []
    edge = roof.eave_in_frame.exterior
    ends = ((draft.start, draft.end, draft.tail_start_ft), (draft.end, draft.start, draft.tail_end_ft))
    for here, there, tail in ends:
        if here.wall is None or not plan.roof.overhang_ft or (tail == 0.0 and draft.gable_wall is not None):
            tails.append(0.0)
            continue
        (x, y), (u, v) = here.point_ft, there.point_ft
        length = math.dist((x, y), (u, v))
        far = 2.0 * (plan.roof.overhang_ft + plan.wall_thickness_ft) + 2.0
        ray = LineString([(x, y), (x + (x - u) / length * far, y + (y - v) / length * far)])
        hit = ray.intersection(edge)
        reach = shapely.Point(x, y).distance(hit) if not hit.is_empty else tail
        square = _crossing(outline, here.wall, (x - u, y - v))
        tails.append(min(reach, (plan.roof.overhang_ft + plan.wall_thickness_ft / 2.0) / max(square, 0.25)))
    return replace(draft, tail_start_ft=tails[0], tail_end_ft=tails[1])


def _crossing(outline: Outline, wall: int, along: Point) -> float:
    """The cosine of the angle between a member and the line square to a wall."""
    a, b, _ = wall_plane(outline, wall)
    return abs(a * along[0] + b * along[1]) / math.hypot(*along)


def _lost_landing(outline: Outline, draft: Draft, kept: dict[Key, Draft]) -> Landing | None:
    """The end of a member whose carrier is cut away there."""
    for landing in (draft.start, draft.end):
        if landing.member is None:
            continue
        carrier = kept.get(landing.member)
        if carrier is None:
            return landing
        line = LineString([carrier.start.point_ft, carrier.end.point_ft])
        if line.distance(shapely.Point(landing.point_ft)) > outline.walls[0].thickness_ft:
            return landing
    return None


def _refuse_lost_carrier(outline: Outline, draft: Draft, kept: dict[Key, Draft]) -> None:
    landing = _lost_landing(outline, draft, kept)
    if landing is not None:
        x, y = outline.frame.to_plan(landing.point_ft)
        raise LayoutError(
            f"walls outline: near ({x:.2f}, {y:.2f}) ft an angled wall cuts away what would carry a {draft.kind}, "
            f"beside {walls_near(outline, (x, y))}; draw the angled one of them square to the house or shorter"
        )
