"""Ground, floor, walls, tie beam and inside supports as closed solids."""

from __future__ import annotations

import numpy as np
import shapely

from framing.outline import Wall
from framing.plan import Point, SupportKind
from framing.run import Run
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, prism, solids_from
from viewer.stages import Stage

GROUND_MARGIN_FT = 4.0
GROUND_DEPTH_FT = 0.25


def tie_beam_top_ft(run: Run) -> float:
    """Height of the top of the tie beam above the ground, where the trusses stand [ft]."""
    return run.plan.ground_to_floor_ft + run.plan.wall_height_ft


def inner_ring_ft(walls: tuple[Wall, ...]) -> Floats:
    """The inside face of the walls: (n, 2), the point behind the start of each wall in turn [ft]."""
    ring = []
    for before, wall in zip((walls[-1], *walls[:-1]), walls, strict=True):
        normals = np.array((before.outward, wall.outward))
        corner = np.asarray(wall.start_ft, float)
        ring.append(corner - np.linalg.solve(normals, (before.thickness_ft, wall.thickness_ft)))
    return np.array(ring)


def masonry(run: Run) -> Pieces:
    """Ground, floor, walls W1 ..., the tie beam above each, and supports S1 ... where the plan has them."""
    top = tie_beam_top_ft(run)
    floor = run.plan.ground_to_floor_ft
    beam = top - run.plan.tie_beam.depth_ft
    walls = run.outline.walls
    outer, inner = np.array(run.outline.corners_ft), inner_ring_ft(walls)
    items = [
        Item(node="ground", kind=ItemKind.GROUND, stage=Stage.WALLS),
        Item(node="floor", kind=ItemKind.FLOOR, stage=Stage.WALLS),
    ]
    rows, owners = [_ground(run)], [0]
    meshes = [(1, prism([inner], 0.0, floor))]
    for i, wall in enumerate(walls):
        j = (i + 1) % len(walls)
        plan = np.array((outer[i], outer[j], inner[j], inner[i]))
        meshes.append((len(items), prism([plan], 0.0, beam)))
        items.append(Item(node=f"wall {wall.name}", kind=ItemKind.WALL, stage=Stage.WALLS))
        meshes.append((len(items), prism([plan], beam, top)))
        items.append(Item(node=f"tie beam {wall.name}", kind=ItemKind.TIE_BEAM, stage=Stage.TIE_BEAM))
    for n, support in enumerate(run.plan.supports, start=1):
        is_wall = support.kind is SupportKind.BEARING_WALL
        a, b = _inside_the_walls(run, support.start_ft, support.end_ft)
        low = floor if is_wall else beam
        half = (b - a) / 2
        across = np.array((-half[1], half[0])) / max(float(np.hypot(*half)), 1e-9) * run.plan.wall_thickness_ft / 2
        centre = (*((a + b) / 2), (low + top) / 2)
        rows.append((centre, (*half, 0.0), (*across, 0.0), (0.0, 0.0, (top - low) / 2)))
        owners.append(len(items))
        stage = Stage.WALLS if is_wall else Stage.TIE_BEAM
        items.append(Item(node=f"{support.kind} S{n}", kind=ItemKind.SUPPORT, stage=stage))
    return Pieces(items=tuple(items), boxes=boxes_from(rows, owners), solids=solids_from(meshes))


def _inside_the_walls(run: Run, start_ft: Point, end_ft: Point) -> tuple[Floats, Floats]:
    """The ends (2,) of a support, one that reaches a wall's outside face drawn back to the wall's middle [ft]."""
    outside, half = shapely.LinearRing(run.outline.corners_ft), run.plan.wall_thickness_ft / 2
    a, b = np.asarray(start_ft, float), np.asarray(end_ft, float)
    back = (b - a) / max(float(np.hypot(*(b - a))), 1e-9) * half
    reaches = [outside.distance(shapely.Point(end)) < half for end in (a, b)]
    return a + back * reaches[0], b - back * reaches[1]


def _ground(run: Run) -> tuple[tuple[float, ...], ...]:
    """A flat box under the house, square to W1, as centre, u, v, w."""
    frame = run.outline.frame
    local = np.array([frame.to_local(p) for p in (*run.outline.corners_ft, *run.roof.eave_ft)])
    low, high = local.min(axis=0) - GROUND_MARGIN_FT, local.max(axis=0) + GROUND_MARGIN_FT
    x, y = frame.to_plan(tuple((low + high) / 2))
    half = (high - low) / 2
    u, v = frame.turn_to_plan((float(half[0]), 0.0)), frame.turn_to_plan((0.0, float(half[1])))
    return ((x, y, -GROUND_DEPTH_FT / 2), (*u, 0.0), (*v, 0.0), (0.0, 0.0, GROUND_DEPTH_FT / 2))
