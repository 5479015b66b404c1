"""Where the members' wood lies on the tie beam, in the outline's frame.

A member that stands on a wall is cut off at its heel where the wall's outside face is, both faces at a corner; a
gable-end truss runs along its wall from face to face. Source: common practice, no source.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import Polygon

from framing.layout.records import PLY_FT, Draft, Landing
from framing.plan import Point
from framing.walls.outline import Outline

Ring = tuple[Point, ...]
LEAST_CROSSING = 0.2
GIRDER_HALF_FT = 2.0 * PLY_FT
MITRE_LIMIT = 10.0
HAIR_FT = 1.0 / 32.0 / 12.0  # overlaps under twice this are no overlaps: wood is no truer (common practice, no source)


def beam_ground(corners_ft: tuple[Point, ...], thickness_ft: float) -> Polygon:
    """The ground of the whole tie beam: what lies between the outside face and the inside face of the walls."""
    house = Polygon(corners_ft)
    return house.difference(house.buffer(-thickness_ft, join_style="mitre", mitre_limit=MITRE_LIMIT))


def wood_grounds(outline: Outline, drafts: list[Draft]) -> list[Ring]:
    """The ground that each member's wood covers at bearing height, cut at the outside faces."""
    strips = shapely.polygons([_strip(outline, d) for d in drafts])
    cut = shapely.intersection(strips, Polygon(outline.local_ft))
    return [_nearest_ring(c, d.start.point_ft) for c, d in zip(cut, drafts, strict=True)]


def wood_on_beam(grounds: list[Ring], at: list[tuple[int, Point]], beam: Polygon) -> list[Ring]:
    """For each (member, bearing point): the ring of that part of its wood on the beam which reaches the point."""
    on_beam = shapely.intersection(np.array([Polygon(g) for g in grounds], dtype=object), beam)
    return [_nearest_ring(on_beam[k], point) for k, point in at]


def in_other_wood(grounds: list[Ring], at: list[tuple[int, Point]]) -> list[bool]:
    """For each (member, strap point): whether the strap stands inside the wood of a member that is not its own."""
    shrunk = shapely.buffer(np.array([Polygon(g) for g in grounds], dtype=object), -HAIR_FT, join_style="mitre")
    points = shapely.points([p for _, p in at])
    hits = shapely.STRtree(shrunk).query(points, predicate="within").T.tolist()
    covered = {i for i, j in hits if at[i][0] != j}
    return [i in covered for i in range(len(at))]


def _strip(outline: Outline, draft: Draft) -> Ring:
    """As wide as the plies, its ends on a wall run on to the outside face or past it."""
    ends = ((draft.start, draft.tail_start_ft), (draft.end, draft.tail_end_ft))
    (ax, ay), (bx, by) = draft.start.point_ft, draft.end.point_ft
    length, half = math.hypot(bx - ax, by - ay), draft.plies * PLY_FT / 2.0
    dx, dy = (bx - ax) / length, (by - ay) / length
    before, after = (_past_ft(outline, draft, end, tail, (dx, dy), half) for end, tail in ends)
    a, b = (ax - dx * before, ay - dy * before), (bx + dx * after, by + dy * after)
    corners = ((a, 1.0), (b, 1.0), (b, -1.0), (a, -1.0))
    return tuple((x + dy * half * s, y - dx * half * s) for (x, y), s in corners)


def _past_ft(outline: Outline, draft: Draft, end: Landing, tail_ft: float, along: Point, half_ft: float) -> float:
    """How far past its bearing point a member's wood reaches the outside face with both its sides; a gable end's where
    it has a tail, else it stops in front of the girder there. [ft]
    """
    thickness = outline.walls[0].thickness_ft
    if draft.gable_wall is not None:
        return thickness / 2.0 if tail_ft > 0.0 else -GIRDER_HALF_FT
    if end.wall is None:
        return 0.0
    a, b = outline.local_ft[end.wall], outline.local_ft[(end.wall + 1) % len(outline.walls)]
    sine = ((b[0] - a[0]) * along[0] + (b[1] - a[1]) * along[1]) / math.dist(a, b)
    square = max(LEAST_CROSSING, math.sqrt(max(0.0, 1.0 - sine * sine)))
    return (thickness / 2.0 + half_ft * abs(sine)) / square


def _nearest_ring(ground: shapely.Geometry, point: Point) -> Ring:
    parts = shapely.get_parts(ground)
    parts = parts[shapely.area(parts) > 0.0]
    if not len(parts):
        return ()
    nearest = parts[int(np.argmin(shapely.distance(parts, shapely.Point(point))))]
    ring = shapely.get_coordinates(shapely.normalize(nearest).exterior)[:-1]
    return tuple((float(x), float(y)) for x, y in ring)
