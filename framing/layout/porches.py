"""The plan's open porches in the outline's frame: their floors, and the sides from which the wind comes in."""

from __future__ import annotations

import math
from dataclasses import replace

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as GroundPoint

from framing.errors import PlanError
from framing.frame_side import SIDES, FrameSide
from framing.members import OpenPorch, PorchBeam
from framing.plan import Plan, Point
from framing.tolerances import TIE_SINE
from framing.walls.outline import Outline, on_grid
from framing.walls.walls_near import walls_near

ON_FACE_FT = 1.0 / 12.0
SHORTEST_OPENING_FT = 1.0
FACING_RATIO = 0.5


def open_porches(
    plan: Plan, outline: Outline, beams: tuple[PorchBeam, ...]
) -> tuple[tuple[OpenPorch, ...], tuple[PorchBeam, ...]]:
    """The plan's porches, and the porch beams with whether an open floor lies behind all of each.

    A corner within an inch of an outside face lies on it. A porch is open where a foot or more of a porch beam stands
    along it, to the sides of the house that the beam faces by 60 degrees or less. Source: common practice, no source.

    Raises
    ------
    PlanError
        If no side of a porch lies along a porch beam; names the porch.
    """
    lines = [_line(outline, beam) for beam in beams]
    out = []
    for i, porch in enumerate(plan.porches):
        ring = tuple(_on_face(outline, outline.frame.to_local(p)) for p in porch.corners_ft)
        edge = Polygon(ring).exterior.buffer(ON_FACE_FT)
        walls = {
            b.wall
            for b, line in zip(beams, lines, strict=True)
            if line.intersection(edge).length >= min(SHORTEST_OPENING_FT, line.length)
        }
        if not walls:
            raise PlanError(
                f"porch {i + 1}: no side of it lies along a porch beam; write its open side on the outline, where "
                f"{walls_near(outline, porch.corners_ft[0])} are the nearest walls, and give that side a [[support]] "
                'with kind = "beam"'
            )
        sides = tuple(s for s in SIDES if any(_faces(outline, wall, s) for wall in walls))
        out.append(OpenPorch(porch=i, ring_ft=ring, open_walls=tuple(sorted(walls)), open_sides=sides))
    floors = shapely.union_all([Polygon(p.ring_ft).buffer(ON_FACE_FT) for p in out])
    backed = tuple(
        replace(beam, has_porch=line.difference(floors).length <= ON_FACE_FT)
        for beam, line in zip(beams, lines, strict=True)
    )
    return tuple(out), backed


def _line(outline: Outline, beam: PorchBeam) -> LineString:
    """A porch beam's stretch of the outside face, in the frame."""
    wall = outline.walls[beam.wall]
    return LineString([outline.frame.to_local(wall.point_ft(at)) for at in (beam.from_ft, beam.to_ft)])


def _on_face(outline: Outline, p: Point) -> Point:
    """A point of the frame, moved onto the corner or the outside face that it lies within an inch of."""
    corner = min(outline.local_ft, key=lambda c: math.dist(c, p))
    if math.dist(corner, p) <= ON_FACE_FT:
        return corner
    face = Polygon(outline.local_ft).exterior
    if face.distance(GroundPoint(p)) <= ON_FACE_FT:
        near = face.interpolate(face.project(GroundPoint(p)))
        p = (near.x, near.y)
    return (on_grid(p[0]), on_grid(p[1]))


def _faces(outline: Outline, wall: int, side: FrameSide) -> bool:
    """Whether a wall faces a side of the frame by 60 degrees or less."""
    (x0, y0), (x1, y1) = outline.local_ft[wall], outline.local_ft[(wall + 1) % len(outline.local_ft)]
    length = math.dist((x0, y0), (x1, y1))
    ox, oy = side.outward
    toward = (y1 - y0) / length * ox - (x1 - x0) / length * oy
    return toward > FACING_RATIO - TIE_SINE
