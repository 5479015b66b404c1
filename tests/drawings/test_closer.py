"""The cutaway of a mark: the bars and filled cells that the plan gives, the strap as deep as the catalogue says."""

from __future__ import annotations

import csv
import dataclasses
import math
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from framing.members import Crossing
from framing.run import Run, make_run
from viewer.closer import Closer, closers
from viewer.closer_parts import PART_RGB, Part
from viewer.closer_scene import heel_boxes, placed
from viewer.colours import UNRESOLVED_RGB
from viewer.pieces import BOX_QUADS, Boxes, ItemKind, boxes_from
from viewer.scene import Scene, build_scene

SAMPLES = Path(__file__).parents[2] / "sample_plans"


def straps_of(scene: Scene, mark: str) -> np.ndarray:
    wanted = [i for i, t in enumerate(scene.items) if t.kind is ItemKind.ANCHOR and t.mark == mark]
    mine, b = np.isin(scene.boxes.item, wanted), scene.boxes
    return np.stack((b.centre_ft[mine], b.u_ft[mine], b.v_ft[mine], b.w_ft[mine]), axis=1)


def whole(run: Run, closer: Closer) -> tuple[Boxes, tuple[Part, ...]]:
    rows, parts, _ = placed(closer, straps_of(build_scene(run), closer.mark))
    return boxes_from(rows, range(len(rows))), parts


@pytest.mark.parametrize("sample", ["garage_wing", "hip_house", "cottage", "bay_and_corners"])
def test_bars_are_those_of_the_plan_and_none_are_invented(sample_run: Callable[[str], Run], sample: str) -> None:
    # garage_wing's plan: 2 #5 at top, 2 #5 at the bottom, 1 #5 in a filled cell; the others give none.
    run = sample_run(sample)
    given = 4 if sample == "garage_wing" else 0
    for closer in closers(run):
        _, parts = whole(run, closer)
        in_cells = parts.count(Part.FILLED) if given else 0
        assert parts.count(Part.BAR) == (0 if Part.SUPPORT in parts else given) + in_cells
        told = any("no bars" in said for said in closer.words)
        assert told == (not given and Part.SUPPORT not in parts)


def test_cells_are_filled_where_the_plan_says(sample_run: Callable[[str], Run]) -> None:
    # Cells at 4, 12, 20 in. from a wall's START; one is filled where a filled cell of the plan lies within it.
    run = sample_run("garage_wing")
    stations = {b.cells.stretch.name: b.cells.at_ft for b in run.ground.beams}
    seen = {Part.FILLED: 0, Part.HOLLOW: 0}
    for closer, mark in zip(closers(run), run.schedule.marks, strict=True):
        if mark.bearing.crossing is not Crossing.SQUARE:
            continue
        boxes, parts = whole(run, closer)
        wall = run.outline.wall(mark.bearing.wall)
        for centre, part in zip(boxes.centre_ft, parts, strict=True):
            if part not in seen:
                continue
            at = float((centre[:2] - wall.start_ft) @ wall.direction)
            assert (at * 12 - 4) % 8 == pytest.approx(0, abs=0.02) or (at * 12 - 4) % 8 == pytest.approx(8, abs=0.02)
            is_filled = any(math.ceil(s * 12 / 8 - 1e-6) == round(at * 12 / 8 + 0.5) for s in stations[wall.name])
            assert (part is Part.FILLED) == is_filled, (mark.mark, at)
            seen[part] += 1
    assert seen[Part.FILLED] > 20
    assert seen[Part.HOLLOW] > 60


def test_every_strap_stands_before_the_cut_from_its_catalogues_depth_up(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("garage_wing")
    text = (SAMPLES / "garage_wing_anchors.csv").read_text(encoding="utf-8")
    depth_in = {r["id"]: float(r["embedment_in"]) for r in csv.DictReader(text.splitlines()) if r["embedment_in"]}
    scene = build_scene(run)
    for closer, mark in zip(closers(run), run.schedule.marks, strict=True):
        assert mark.anchor is not None
        straps = straps_of(scene, mark.mark)
        foot_ft = (straps[:, 0, 2] - straps[:, 3, 2]).min()
        assert foot_ft == pytest.approx(scene.tie_beam_top_ft - depth_in[mark.anchor.id] / 12)
        boxes, parts = whole(run, closer)
        normal = np.array((*closer.normal, 0.0))
        before = (straps[:, 0] @ normal).max()
        beam = boxes.corners_ft()[[k for k, part in enumerate(parts) if part is Part.BEAM]].reshape(-1, 3)
        assert (beam @ normal).max() < before, mark.mark
        assert parts.count(Part.NAIL) == mark.anchor.n_nails // mark.count


def test_the_cutaway_is_closed_boxes_and_the_truss_ends_beside_its_bearing(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("bay_and_corners")
    scene = build_scene(run)
    for closer, mark in zip(closers(run), run.schedule.marks, strict=True):
        boxes, _ = whole(run, closer)
        heel = heel_boxes(scene, closer, mark.bearing.member)
        assert len(heel) >= 1
        rows = np.concatenate((np.stack((boxes.centre_ft, boxes.u_ft, boxes.v_ft, boxes.w_ft), axis=1), heel))
        assert (np.linalg.det(rows[:, 1:]) > 0).all(), mark.mark
        way = np.array((-closer.normal[1], closer.normal[0]))
        corners = boxes_from(heel, range(len(heel))).corners_ft()[:, BOX_QUADS].reshape(-1, 3)
        assert np.abs((corners[:, :2] - closer.at_ft[:2]) @ way).max() < 2.2


def test_a_mark_without_an_anchor_says_so_and_a_plan_without_a_depth_too(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("long_girder")
    for closer, mark in zip(closers(run), run.schedule.marks, strict=True):
        assert (closer.words[0].startswith("No strap of the list")) == (mark.anchor is None)
    rows = tuple(dataclasses.replace(a, embedment_in=None) for a in run.schedule.catalogue.anchors)
    bare = make_run(run.plan, dataclasses.replace(run.schedule.catalogue, anchors=rows))
    assert {c.words[0] for c in closers(bare)} >= {
        "The list does not say how deep the strap is set; it is drawn 4 in. deep."
    }
    assert max(len(said.split()) for c in (*closers(bare), *closers(run)) for said in c.words) <= 25


def test_the_steel_keeps_apart_from_what_it_lies_against_in_grey_too() -> None:
    def grey(rgb: tuple[int, int, int]) -> float:  # ITU-R BT.601-7, sec. 2.5.1 (from memory)
        return 0.299 * rgb[0] + 0.587 * rgb[1] + 0.114 * rgb[2]

    for light in (Part.WOOD, Part.BEAM, Part.BLOCK, Part.SUPPORT, Part.FILLED, Part.NAIL):
        assert grey(PART_RGB[light]) - grey(PART_RGB[Part.STRAP]) > 80, light
        assert grey(PART_RGB[light]) - grey(PART_RGB[Part.BAR]) > 80, light
    assert PART_RGB[Part.STRAP] != UNRESOLVED_RGB
