"""Ground, floor, walls, tie beam, porch beams on posts and inside supports as closed solids."""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from framing.members import PorchBeam
from framing.plan import Point, Support, SupportKind
from framing.run import Run
from framing.walls.standing_walls import beam_ground, inner_ring_ft, wall_ground
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, prism, solids_from
from viewer.stages import Stage

GROUND_MARGIN_FT = 6.0
GROUND_DEPTH_FT = 0.25
LONGEST_BAY_FT = 12.0
"""Between the posts drawn under a porch beam: a pattern only. Source: common practice, no source."""
Row = tuple[tuple[float, ...], ...]


def tie_beam_top_ft(run: Run) -> float:
    """Height of the top of the tie beam above the ground, where the trusses stand [ft]."""
    return run.plan.ground_to_floor_ft + run.plan.wall_height_ft


def masonry(run: Run) -> Pieces:
    """Ground, floor, walls W1 ... and the tie beam above each where they stand, and supports S1 ... where the plan has
    them: a porch beam in the walls' line, on posts.
    """
    top = tie_beam_top_ft(run)
    floor = run.plan.ground_to_floor_ft
    beam = top - run.plan.tie_beam.depth_ft
    walls, porch_beams = run.outline.walls, run.framing.porch_beams
    items = [
        Item(node="ground", kind=ItemKind.GROUND, stage=Stage.WALLS),
        Item(node="floor", kind=ItemKind.FLOOR, stage=Stage.WALLS),
    ]
    rows, owners = [_ground(run)], [0]
    meshes = [(1, prism([inner_ring_ft(walls)], 0.0, floor))]
    grounds = {b.name: beam_ground(run.outline, b, porch_beams) for b in porch_beams}
    meshes += [(1, prism([ring_ft(g)], 0.0, floor)) for g in grounds.values()]
    for i, wall in enumerate(walls):
        standing = [ring_ft(g) for g in wall_ground(run.outline, i, porch_beams)]
        for word, kind, stage, low, high in (
            ("wall", ItemKind.WALL, Stage.WALLS, 0.0, beam),
            ("tie beam", ItemKind.TIE_BEAM, Stage.TIE_BEAM, beam, top),
        ):
            meshes += [(len(items), prism([ring], low, high)) for ring in standing]
            items += [Item(node=f"{word} {wall.name}", kind=kind, stage=stage)] if standing else []
    for n, pier in enumerate(run.outline.piers_ft, start=1):
        meshes.append((len(items), prism([ring_ft(Polygon(pier))], 0.0, top)))
        items.append(Item(node=f"pier {n}", kind=ItemKind.WALL, stage=Stage.WALLS))
    for porch_beam in porch_beams:
        meshes.append((len(items), prism([ring_ft(grounds[porch_beam.name])], beam, top)))
        items.append(Item(node=f"porch beam {porch_beam.name}", kind=ItemKind.SUPPORT, stage=Stage.TIE_BEAM))
        posts = _posts(run, porch_beam, grounds, (floor, beam))
        rows += posts
        owners += [len(items)] * len(posts)
        items += [Item(node=f"posts {porch_beam.name}", kind=ItemKind.SUPPORT, stage=Stage.WALLS)] if posts else []
    for n, support in enumerate(run.plan.supports, start=1):
        if f"S{n}" in grounds:
            continue
        is_wall = support.kind is SupportKind.BEARING_WALL
        rows.append(_inside_support(run, support, (floor if is_wall else beam, top)))
        owners.append(len(items))
        stage = Stage.WALLS if is_wall else Stage.TIE_BEAM
        items.append(Item(node=f"{support.kind} S{n}", kind=ItemKind.SUPPORT, stage=stage))
    return Pieces(items=tuple(items), boxes=boxes_from(rows, owners), solids=solids_from(meshes))


def ring_ft(ground: Polygon) -> Floats:
    """A polygon's outer ring (n, 2), counter-clockwise, first point not repeated [ft]."""
    return np.array(orient(ground).exterior.coords[:-1])


def _posts(run: Run, beam: PorchBeam, grounds: dict[str, Polygon], heights_ft: tuple[float, float]) -> list[Row]:
    """Boxes for the posts under a porch beam: at a corner that it shares with a beam drawn later, and in even bays."""
    wall = run.outline.walls[beam.wall]
    half, (low_ft, high_ft) = wall.thickness_ft / 2, heights_ft
    ux, uy = wall.direction
    at = (np.array(grounds[beam.name].exterior.coords) - wall.start_ft) @ wall.direction
    first, last = float(at.min()), float(at.max())
    n = math.ceil((last - first) / LONGEST_BAY_FT)
    stations = [first + (last - first) * k / n for k in range(1, n)]
    later = list(grounds)[list(grounds).index(beam.name) + 1 :]
    stations += [
        end
        for end, into in ((first, half), (last, -half))
        if any(grounds[name].distance(shapely.Point(wall.point_ft(end + into, half))) < half for name in later)
    ]
    stations = [min(max(s, first + half), last - half) for s in stations]
    up = (low_ft + high_ft) / 2
    return [
        (
            (*wall.point_ft(s, half), up),
            (ux * half, uy * half, 0.0),
            (-uy * half, ux * half, 0.0),
            (0.0, 0.0, (high_ft - low_ft) / 2),
        )
        for s in sorted(stations)
    ]


def _inside_support(run: Run, support: Support, heights_ft: tuple[float, float]) -> Row:
    """The box of a support inside the house, as thick as the walls."""
    low, high = heights_ft
    a, b = _inside_the_walls(run, support.start_ft, support.end_ft)
    half = (b - a) / 2
    across = np.array((-half[1], half[0])) / max(float(np.hypot(*half)), 1e-9) * run.plan.wall_thickness_ft / 2
    centre = (*((a + b) / 2), (low + high) / 2)
    return (centre, (*half, 0.0), (*across, 0.0), (0.0, 0.0, (high - low) / 2))


def _inside_the_walls(run: Run, start_ft: Point, end_ft: Point) -> tuple[Floats, Floats]:
    """The ends (2,) of a support, one that reaches a wall's outside face drawn back to the wall's middle [ft]."""
    outside, half = shapely.LinearRing(run.outline.corners_ft), run.plan.wall_thickness_ft / 2
    a, b = np.asarray(start_ft, float), np.asarray(end_ft, float)
    back = (b - a) / max(float(np.hypot(*(b - a))), 1e-9) * half
    reaches = [outside.distance(shapely.Point(end)) < half for end in (a, b)]
    return a + back * reaches[0], b - back * reaches[1]


def _ground(run: Run) -> tuple[tuple[float, ...], ...]:
    """A flat box under the house, square to W1, as centre, u, v, w."""
    a, b, c, d = ground_corners_ft(run)
    (x, y), u, v = (a + c) / 2, (b - a) / 2, (d - a) / 2
    return ((x, y, -GROUND_DEPTH_FT / 2), (*u, 0.0), (*v, 0.0), (0.0, 0.0, GROUND_DEPTH_FT / 2))


def ground_corners_ft(run: Run) -> Floats:
    """The corners (4, 2) of the ground that is drawn, counter-clockwise from the one next to the start of W1 [ft]."""
    frame = run.outline.frame
    local = np.array([frame.to_local(p) for p in (*run.outline.corners_ft, *run.roof.eave_ft)])
    (x0, y0), (x1, y1) = local.min(axis=0) - GROUND_MARGIN_FT, local.max(axis=0) + GROUND_MARGIN_FT
    return np.array([frame.to_plan((float(x), float(y))) for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))])
