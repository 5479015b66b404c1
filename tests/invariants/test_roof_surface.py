"""The roof as a surface, over random right-angled outlines: its height against the square-ball distance to the eave,
its faces against the eave outline, and with walls and an underside as a closed mesh.
"""

from __future__ import annotations

import itertools

import numpy as np
import pytest
import shapely
import trimesh

from framing.plan import Plan, RoofType
from framing.roof.surface import Face, Point3, Roof, build_roof
from framing.walls.outline import Outline, build_outline
from invariants.houses import changed_plan
from invariants.outlines import random_house

SEEDS = [*range(16), *(pytest.param(seed, marks=pytest.mark.full) for seed in range(16, 200))]
BASE_FT = -10.0


def hip_house(seed: int) -> Plan:
    """The random house under hips, without an overhang where its eaves would meet over a recess."""
    plan = changed_plan(random_house(seed), type=RoofType.HIP)
    closed = any("over a recess" in note for note in build_roof(plan, build_outline(plan)).notes)
    return changed_plan(plan, overhang_ft=0.0) if closed else plan


def plane_of(face: Face, outline: Outline) -> tuple[np.ndarray, np.ndarray]:
    """A face's corner and its height per foot along both axes of the outline's frame."""
    ring = np.array([(*outline.frame.to_local(p[:2]), p[2]) for p in face.ring_ft])
    slope, *_ = np.linalg.lstsq(ring[:, :2] - ring[0, :2], ring[:, 2] - ring[0, 2], rcond=None)
    return ring[0], slope


@pytest.mark.parametrize("seed", SEEDS)
def test_a_hip_roof_rises_with_the_square_ball_distance_to_the_eave(seed: int) -> None:
    """Height above the eave = pitch x L-infinity distance to the eave outline, at 1,000 random points, to 1e-9 ft.

    Source: the straight skeleton of a right-angled outline is its L-infinity medial axis (common geometry).
    """
    plan = hip_house(seed)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    eave = roof.eave_in_frame
    x0, y0, x1, y1 = eave.bounds
    points = np.random.default_rng(seed).uniform((x0, y0), (x1, y1), (4000, 2))
    points = points[shapely.contains_xy(eave, points)][:1000]
    rings = [np.array(r.coords) for r in (eave.exterior, *eave.interiors)]
    edges = np.vstack([np.hstack([r[:-1], r[1:]]) for r in rings])
    low, high = np.minimum(edges[:, :2], edges[:, 2:]), np.maximum(edges[:, :2], edges[:, 2:])
    gap = np.maximum(np.maximum(low - points[:, None], points[:, None] - high), 0.0)
    expected = plan.roof.rise_per_run * (gap.max(axis=2).min(axis=1) - plan.roof.overhang_ft) + roof.heel_ft
    planes = [plane_of(f, outline) for f in roof.faces]
    at_point, at_face = shapely.STRtree([f.in_frame for f in roof.faces]).query(shapely.points(points), "within")
    assert len(set(at_point.tolist())) >= len(points) - 2  # a point may lie on a line between two faces
    heights = [
        planes[k][0][2] + (points[i] - planes[k][0][:2]) @ planes[k][1] for i, k in zip(at_point, at_face, strict=True)
    ]
    np.testing.assert_allclose(heights, expected[at_point], rtol=0.0, atol=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_every_face_is_plane_and_all_cover_the_eave_outline_once(seed: int) -> None:
    """Hips and gables: planes by trimesh, the cover by areas."""
    plan = random_house(seed)
    roof = build_roof(plan, build_outline(plan))
    for face in roof.faces:
        corners = np.array([p for ring in (face.ring_ft, *face.holes_ft) for p in ring])
        middle, normal = trimesh.points.plane_fit(corners)
        assert abs((corners - middle) @ normal).max() < 1e-9
    faces = [f.in_frame for f in roof.faces]
    assert sum(f.area for f in faces) == pytest.approx(roof.eave_in_frame.area, rel=1e-9)
    assert shapely.union_all(faces, grid_size=1e-9).area == pytest.approx(roof.eave_in_frame.area, rel=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_hip_roof_with_walls_and_an_underside_is_a_closed_mesh(seed: int) -> None:
    """Closed and wound one way round (trimesh); its volume is that of the prisms under its faces."""
    plan = hip_house(seed)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    mesh = closed_mesh(roof, outline)
    assert mesh.is_watertight
    assert mesh.is_winding_consistent
    prisms = 0.0
    for face in roof.faces:
        corner, slope = plane_of(face, outline)
        middle = np.array(face.in_frame.centroid.coords[0])
        prisms += face.in_frame.area * (corner[2] + (middle - corner[:2]) @ slope - BASE_FT)
    assert mesh.volume == pytest.approx(prisms, rel=1e-6)


def closed_mesh(roof: Roof, outline: Outline) -> trimesh.Trimesh:
    """Every face and its shadow on the ground as triangles about its middle, and a wall under each side that is no
    other face's. A corner that lies on another face's side divides it.
    """
    spots = np.unique(np.vstack([shapely.get_coordinates(f.in_frame) for f in roof.faces]), axis=0)
    triangles: list[tuple[Point3, Point3, Point3]] = []
    sides: dict[tuple[Point3, Point3], None] = {}
    for face in roof.faces:
        corner, slope = plane_of(face, outline)
        rings = [divided(np.array(r.coords), spots) for r in (face.in_frame.exterior, *face.in_frame.interiors)]
        tops = [[(x, y, float(corner[2] + ((x, y) - corner[:2]) @ slope)) for x, y in ring] for ring in rings]
        middle = np.array(face.in_frame.centroid.coords[0])
        apex = (*middle.tolist(), float(corner[2] + (middle - corner[:2]) @ slope))
        for ring in tops:
            for a, b in itertools.pairwise(ring):
                triangles += [(apex, a, b), (low(apex), low(b), low(a))]
                sides[a, b] = None
    at = {(a[:2], b[:2]) for a, b in sides}
    for a, b in sides:
        if (b[:2], a[:2]) not in at:
            triangles += [(a, low(a), b), (b, low(a), low(b))]
    points = np.array(triangles).reshape(-1, 3)
    spot_of = {p: i for i, p in enumerate(dict.fromkeys((x, y, z == BASE_FT) for x, y, z in points.tolist()))}
    corner_of = np.array([spot_of[x, y, z == BASE_FT] for x, y, z in points.tolist()])
    merged = np.zeros((len(spot_of), 3))
    merged[corner_of] = points
    assert abs(points - merged[corner_of]).max() < 1e-9  # the faces that share a corner have it at one height
    return trimesh.Trimesh(merged, corner_of.reshape(-1, 3), process=False)


def low(p: Point3) -> Point3:
    return (p[0], p[1], BASE_FT)


def divided(ring: np.ndarray, spots: np.ndarray) -> list[tuple[float, float]]:
    """A ring, first corner repeated at the end, with every spot that lies on its sides."""
    out: list[tuple[float, float]] = []
    for a, b in itertools.pairwise(ring):
        length = float(np.hypot(*(b - a)))
        along, off = (b - a) / length, spots - a
        on = (abs(off @ (-along[1], along[0])) < 1e-9) & (off @ along > -1e-9) & (off @ along < length - 1e-9)
        found = spots[on][np.argsort((off @ along)[on])]
        out += [(float(x), float(y)) for x, y in found]
    return [*out, out[0]]
