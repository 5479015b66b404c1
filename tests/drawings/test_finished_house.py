"""The finished house of the scene: gables closed to the roof, soffit under the overhangs, openings where the plan has
them, north on the ground beside the house.
"""

from __future__ import annotations

import dataclasses
import math
import tomllib
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import shapely

from framing.run import Run
from framing.units import length_ft
from viewer.pieces import ItemKind
from viewer.scene import Scene, build_scene

SAMPLES = Path(__file__).parents[2] / "sample_plans"
FASCIA_FT = 1.5 / 12


def points_of(scene: Scene, kind: ItemKind, name: str = "") -> np.ndarray:
    """Every corner of the items of a kind, (n, 3) [ft]."""
    wanted = [i for i, item in enumerate(scene.items) if item.kind is kind and name in item.node]
    boxed = scene.boxes.corners_ft()[np.isin(scene.boxes.item, wanted)].reshape(-1, 3)
    used = np.unique(scene.solids.triangles[np.isin(scene.solids.item, wanted)])
    return np.concatenate((boxed, scene.solids.points_ft[used]))


def test_openings_stand_where_the_plan_says_and_none_is_invented(sample_run: Callable[[str], Run]) -> None:
    # The plan's own words, read here by the standard library alone; garage_wing's walls run along x and y.
    rows = tomllib.loads((SAMPLES / "garage_wing.toml").read_text(encoding="utf-8"))["opening"]
    run = sample_run("garage_wing")
    scene = build_scene(run)
    assert sum(item.kind is ItemKind.OPENING for item in scene.items) == len(rows) == 5
    corners = [(0, 0), (58, 0), (58, 32), (22, 32), (22, 54), (0, 54)]
    for n, row in enumerate(rows, start=1):
        points = points_of(scene, ItemKind.OPENING, f"opening {n} ")
        start, end = (np.array(corners[(int(row["wall"][1:]) + k) % 6], float) for k in (-1, 0))
        along = (points[:, :2] - start) @ (end - start) / math.dist(start, end)
        assert (along.min(), along.max()) == pytest.approx((length_ft(row["from"]), length_ft(row["to"])))
        sill, head = (length_ft(row.get(key, "0'")) for key in ("sill", "head"))
        assert (points[:, 2].min(), points[:, 2].max()) == pytest.approx(
            (run.plan.ground_to_floor_ft + sill, run.plan.ground_to_floor_ft + head)
        )
    assert not any(item.kind is ItemKind.OPENING for item in build_scene(sample_run("hip_house")).items)


def test_a_gable_is_closed_from_the_beam_to_the_ridge(sample_run: Callable[[str], Run]) -> None:
    # A rectangle under a plain gable roof: half the width times the pitch over the heel, by hand.
    run = sample_run("cottage")
    scene = build_scene(run)
    closed = {item.node for item in scene.items if item.kind is ItemKind.CLOSING}
    assert closed == {"closing W2", "closing W4"}
    wide_ft = next(w.length_ft for w in run.outline.walls if w.name == "W2")
    for node in closed:
        points = points_of(scene, ItemKind.CLOSING, node)
        assert points[:, 2].min() == pytest.approx(scene.tie_beam_top_ft)
        rise_ft = run.roof.heel_ft + run.plan.roof.rise_per_run * wide_ft / 2
        assert points[:, 2].max() == pytest.approx(scene.tie_beam_top_ft + rise_ft)


@pytest.mark.parametrize("sample", ["cottage", "garage_wing", "mixed_gable_hip", "bay_and_corners"])
def test_soffit_covers_the_overhang_and_fascia_runs_round_it(sample_run: Callable[[str], Run], sample: str) -> None:
    run = sample_run(sample)
    scene = build_scene(run)
    roof = shapely.Polygon(run.roof.eave_ft, run.roof.eave_holes_ft)
    overhang_ft2 = roof.difference(shapely.Polygon(run.outline.corners_ft)).area
    soffit = np.isin(scene.solids.item, [i for i, t in enumerate(scene.items) if t.kind is ItemKind.SOFFIT])
    a, b, c = (scene.solids.points_ft[scene.solids.triangles[soffit][:, k], :2] for k in range(3))
    twice = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    assert np.clip(twice, 0, None).sum() / 2 == pytest.approx(overhang_ft2, rel=1e-6)
    fascia = shapely.MultiPoint(points_of(scene, ItemKind.FASCIA)[:, :2])
    assert shapely.distance(roof.boundary, shapely.get_parts(fascia)).max() < 1.5 * FASCIA_FT
    assert roof.boundary.difference(fascia.convex_hull.buffer(FASCIA_FT)).is_empty


def test_the_arrow_points_to_the_plans_north_and_lies_beside_the_house(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    for deg in (0.0, 75.0, 120.0, 225.0):
        project = dataclasses.replace(run.plan.project, north_deg=deg)
        turned = dataclasses.replace(run, plan=dataclasses.replace(run.plan, project=project))
        points = points_of(build_scene(turned), ItemKind.NORTH)
        assert shapely.Polygon(run.roof.eave_ft).disjoint(shapely.MultiPoint(points[:, :2]))
        ahead = np.array((math.cos(math.radians(deg)), math.sin(math.radians(deg))))
        arrow = points[:14, :2]
        tip = arrow[np.argmax(arrow @ ahead)]
        along = (tip - arrow.mean(axis=0)) @ ahead
        assert along == pytest.approx(float(np.linalg.norm(tip - arrow.mean(axis=0))), rel=1e-6)
