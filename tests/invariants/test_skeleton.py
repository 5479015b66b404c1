"""The roof over walls at any angle against two oracles that know nothing of it.

The plan area of the roof above a height is that of the outline offset inward by height over pitch, corners mitred
(shapely, a general-purpose geometry library). The nodes of the straight skeleton are those of a permissive library
made for nothing else (py-straight-skeleton, BSD-3-Clause, a test dependency).
"""

from __future__ import annotations

import math
import random

import numpy as np
import pytest
import shapely
from py_straight_skeleton import compute_skeleton
from shapely.geometry import Polygon

from framing.plan import Point
from framing.roof.skeleton import skeleton_faces
from invariants.angled_houses import angled_outline
from invariants.houses import random_outline

SHARE, ALL = range(8), range(8, 200)
SEEDS = [*SHARE, *(pytest.param(seed, marks=pytest.mark.full) for seed in ALL)]
NAMES = tuple(f"W{i}" for i in range(1, 100))
SQUARE = [(0.0, 0.0), (20.0, 0.0), (20.0, 20.0), (0.0, 20.0)]
PLUS = [
    (10, 0),
    (20, 0),
    (20, 10),
    (30, 10),
    (30, 20),
    (20, 20),
    (20, 30),
    (10, 30),
    (10, 20),
    (0, 20),
    (0, 10),
    (10, 10),
]
OCTAGON = [(6, 0), (14, 0), (20, 6), (20, 14), (14, 20), (6, 20), (0, 14), (0, 6)]
SLANTED_WING = [(0, 0), (40, 0), (54, -24), (70, -14.66), (56, 9.34), (56, 28), (0, 28)]


def outlines(seed: int) -> list[Point]:
    """An angled outline, turned by a random angle every third time."""
    dice = random.Random(seed)
    ring = np.array(angled_outline(dice))
    turn = dice.uniform(0.0, math.tau) if seed % 3 == 0 else 0.0
    c, s = math.cos(turn), math.sin(turn)
    return [(float(x), float(y)) for x, y in ring @ np.array([[c, s], [-s, c]])]


def lines(ring: list[Point]) -> tuple[np.ndarray, np.ndarray]:
    """Every edge's inward normal (n, 2) and the offset (n,) of its line."""
    p = np.array(ring, dtype=float)
    d = np.roll(p, -1, axis=0) - p
    d /= np.hypot(*d.T)[:, None]
    inward = np.column_stack([-d[:, 1], d[:, 0]])
    return inward, (inward * p).sum(axis=1)


def above(ring: list[Point], run_ft: float) -> float:
    """Plan area of the roof higher than the pitch times a run."""
    inward, offset = lines(ring)
    total = 0.0
    for face in skeleton_faces(tuple(ring), (1.0,) * len(ring), NAMES):
        n = inward[face.edge]
        along = np.array([n[1], -n[0]])
        start = n * (offset[face.edge] + run_ft)
        corners = [
            start - 1e3 * along,
            start + 1e3 * along,
            start + 1e3 * along + 1e3 * n,
            start - 1e3 * along + 1e3 * n,
        ]
        total += face.polygon.intersection(Polygon(corners)).area
    return total


def highest(ring: list[Point]) -> float:
    inward, offset = lines(ring)
    faces = skeleton_faces(tuple(ring), (1.0,) * len(ring), NAMES)
    return max(float((np.array(f.polygon.exterior.coords) @ inward[f.edge] - offset[f.edge]).max()) for f in faces)


def assert_is_the_mitred_offset(ring: list[Point]) -> None:
    top = highest(ring)
    for run in np.linspace(0.0, top, 12)[1:-1]:
        offset = Polygon(ring).buffer(-run, join_style="mitre", mitre_limit=1e6).area
        assert above(ring, float(run)) == pytest.approx(offset, abs=1e-6)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_roof_above_a_height_is_the_mitred_inward_offset(seed: int) -> None:
    """Libs of general purpose: shapely's buffer with mitred corners, at ten heights."""
    assert_is_the_mitred_offset(outlines(seed))


@pytest.mark.parametrize("ring", [SQUARE, PLUS, OCTAGON, SLANTED_WING], ids=["square", "plus", "octagon", "slanted"])
def test_symmetric_outlines_and_a_slanted_wing_are_the_mitred_offset(ring: list[Point]) -> None:
    assert_is_the_mitred_offset([(float(x), float(y)) for x, y in ring])


@pytest.mark.parametrize("seed", SEEDS)
def test_the_nodes_are_those_of_an_independent_skeleton(seed: int) -> None:
    """py-straight-skeleton rounds its heights to 1e-6. It answers all of these; on symmetric outlines it fails."""
    ring = outlines(seed)
    skeleton = compute_skeleton(ring, [])
    theirs = [(n.position.x, n.position.y, n.time) for n in skeleton.nodes if n.time > 1e-6]
    inward, offset = lines(ring)
    faces = skeleton_faces(tuple(ring), (1.0,) * len(ring), NAMES)
    ours = np.array(
        [(*p, float(inward[f.edge] @ p - offset[f.edge])) for f in faces for p in f.polygon.exterior.coords]
    )
    for node in theirs:
        assert np.abs(ours - node).max(axis=1).min() <= 2e-6


@pytest.mark.parametrize("seed", SEEDS)
def test_the_faces_fill_the_outline_once_and_no_edge_is_without_its_own(seed: int) -> None:
    ring = outlines(seed)
    faces = skeleton_faces(tuple(ring), (1.0,) * len(ring), NAMES)
    assert sorted({f.edge for f in faces}) == list(range(len(ring)))
    assert sum(f.polygon.area for f in faces) == pytest.approx(Polygon(ring).area, abs=1e-6)
    assert shapely.union_all([f.polygon for f in faces]).area == pytest.approx(Polygon(ring).area, abs=1e-6)


@pytest.mark.parametrize("seed", range(8))
def test_over_right_angles_it_is_the_square_ball_distance(seed: int) -> None:
    """Over a right-angled outline the run of the hip roof is the L-infinity distance to the outline."""
    ring = [(float(x), float(y)) for x, y in random_outline(random.Random(seed))]
    inward, offset = lines(ring)
    points = np.random.default_rng(seed).uniform(*np.array(Polygon(ring).bounds).reshape(2, 2), (400, 2))
    p = np.array(ring)
    low, high = np.minimum(p, np.roll(p, -1, axis=0)), np.maximum(p, np.roll(p, -1, axis=0))
    gap = np.maximum(np.maximum(low - points[:, None], points[:, None] - high), 0.0).max(axis=2).min(axis=1)
    for face in skeleton_faces(tuple(ring), (1.0,) * len(ring), NAMES):
        inside = shapely.contains_xy(face.polygon, points)
        run = points[inside] @ inward[face.edge] - offset[face.edge]
        np.testing.assert_allclose(run, gap[inside], atol=1e-9)


def test_a_gable_stands_still_and_the_slopes_run_out_to_it() -> None:
    """A 40 by 20 ft house with a gable at one end: hip end triangle 100 sq ft, two slopes of 350 each."""
    ring = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)]
    faces = skeleton_faces(tuple(ring), (1.0, 0.0, 1.0, 1.0), NAMES)
    assert {f.edge: round(f.polygon.area, 9) for f in faces} == {0: 350.0, 2: 350.0, 3: 100.0}
