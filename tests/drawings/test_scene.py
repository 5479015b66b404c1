"""The scene holds every anchor and member of the run, in its place, as a closed solid."""

from __future__ import annotations

import dataclasses
import subprocess
import sys
import time
from collections.abc import Callable

import numpy as np
import pytest
import shapely
import trimesh

from framing.members import MemberKind
from framing.plan import Side, Support, SupportKind
from framing.run import CAUTION, Run, make_run
from viewer.camera import View, nearer, standard_camera, turned
from viewer.pieces import BOX_QUADS, Item, ItemKind, prism
from viewer.scene import INVENTED_NOTE, Scene, build_scene
from viewer.stages import STAGES, Stage

PLY_FT = 1.5 / 12
SAMPLES = ("cottage", "hip_house", "garage_wing")


@pytest.fixture(scope="module", params=SAMPLES)
def run(request: pytest.FixtureRequest, sample_run: Callable[[str], Run]) -> Run:
    return sample_run(request.param)


@pytest.fixture(scope="module")
def scene(run: Run) -> Scene:
    return build_scene(run)


def items_of(scene: Scene, kind: ItemKind) -> list[tuple[int, Item]]:
    return [(i, item) for i, item in enumerate(scene.items) if item.kind is kind]


def corners_of(scene: Scene, item: int) -> np.ndarray:
    """(n, 8, 3) corners of the boxes of one item."""
    return scene.boxes.corners_ft()[scene.boxes.item == item]


def mesh_of(scene: Scene, item: int) -> trimesh.Trimesh:
    """One item as a mesh of the reference library, vertices that coincide left apart."""
    corners = corners_of(scene, item)
    faces = (np.arange(len(corners))[:, None, None] * 8 + BOX_QUADS).reshape(-1, 4)
    triangles = scene.solids.triangles[scene.solids.item == item] + 8 * len(corners)
    points = np.concatenate((corners.reshape(-1, 3), scene.solids.points_ft))
    both = np.concatenate((faces[:, (0, 1, 2)], faces[:, (0, 2, 3)], triangles))
    mesh = trimesh.Trimesh(vertices=points, faces=both, process=False)
    mesh.remove_unreferenced_vertices()
    return mesh


def test_every_solid_is_closed_and_faces_outward(scene: Scene) -> None:
    for i, item in enumerate(scene.items):
        mesh = mesh_of(scene, i)
        assert mesh.is_watertight, item.node
        assert mesh.is_winding_consistent, item.node
        assert mesh.volume > 0, item.node


def test_every_strap_of_the_schedule_is_drawn_once(run: Run, scene: Scene) -> None:
    straps = {item.mark: len(corners_of(scene, i)) for i, item in items_of(scene, ItemKind.ANCHOR)}
    assert straps == {m.mark: m.count for m in run.schedule.marks if m.resolved}
    assert [item.mark for _, item in items_of(scene, ItemKind.TAG)] == [m.mark for m in run.schedule.marks]
    assert [b.mark for b in scene.bearings] == [m.mark for m in run.schedule.marks]


def test_every_strap_lies_flat_against_its_trusss_side_at_the_strap_point(run: Run, scene: Scene) -> None:
    members = {m.name: m for m in run.framing.members}
    marks = {m.mark: m for m in run.schedule.marks}
    for i, item in items_of(scene, ItemKind.ANCHOR):
        mark, member = marks[item.mark], members[item.member]
        along = np.subtract(member.end_ft, member.start_ft) / member.span_ft
        across = np.array((-along[1], along[0]))
        for strap in corners_of(scene, i):
            off = (strap[:, :2] - member.start_ft) @ across
            assert min(abs(off)) == pytest.approx(mark.bearing.plies * PLY_FT / 2, abs=1e-9)
            if mark.side is not Side.BOTH:
                assert strap[:, :2].mean(axis=0) == pytest.approx(mark.bearing.strap_ft, abs=0.05 / 12)


def test_two_straps_stand_on_the_two_faces_of_their_truss(run: Run) -> None:
    mark = next(m for m in run.schedule.marks if m.bearing.kind is MemberKind.COMMON)
    pair = dataclasses.replace(mark, count=2, side=Side.BOTH)
    marks = tuple(pair if m is mark else m for m in run.schedule.marks)
    scene = build_scene(dataclasses.replace(run, schedule=dataclasses.replace(run.schedule, marks=marks)))
    (found,) = (i for i, item in items_of(scene, ItemKind.ANCHOR) if item.mark == mark.mark)
    first, second = corners_of(scene, found)[:, :, :2].mean(axis=1)
    assert (first + second) / 2 == pytest.approx(mark.bearing.point_ft, abs=1e-9)
    assert np.linalg.norm(first - second) == pytest.approx(mark.bearing.plies * PLY_FT, abs=0.07 / 12)


def test_every_strap_starts_in_the_beam_and_ends_under_the_deck(run: Run, scene: Scene) -> None:
    beam_bottom = scene.tie_beam_top_ft - run.plan.tie_beam.depth_ft
    covering = np.concatenate([corners_of(scene, i).reshape(-1, 3) for i, _ in items_of(scene, ItemKind.MEMBER)])
    for i, _ in items_of(scene, ItemKind.ANCHOR):
        heights = corners_of(scene, i)[:, :, 2]
        assert beam_bottom < heights.min() < scene.tie_beam_top_ft < heights.max() < covering[:, 2].max()


def test_every_member_is_drawn_once_from_tail_to_tail_under_its_profile(run: Run, scene: Scene) -> None:
    drawn = items_of(scene, ItemKind.MEMBER)
    assert [item.member for _, item in drawn] == [m.name for m in run.framing.members]
    for (i, _), member in zip(drawn, run.framing.members, strict=True):
        along = np.subtract(member.end_ft, member.start_ft) / member.span_ft
        corners = corners_of(scene, i).reshape(-1, 3)
        d = (corners[:, :2] - member.start_ft) @ along
        off = (corners[:, :2] - member.start_ft) @ np.array((-along[1], along[0]))
        profile_d, profile_z = np.array(member.profile).T
        assert (d.min(), d.max()) == pytest.approx((profile_d[0], profile_d[-1]), abs=1e-6)
        assert abs(off).max() == pytest.approx(member.plies * PLY_FT / 2, abs=1e-9)
        top = np.interp(d, profile_d, profile_z) + scene.tie_beam_top_ft
        assert np.all(corners[:, 2] <= top + 1e-6), member.name
        assert corners[:, 2].max() == pytest.approx(profile_z.max() + scene.tie_beam_top_ft, abs=1e-6)


def test_walls_and_beam_hold_as_much_as_the_ring_between_their_faces(run: Run, scene: Scene) -> None:
    # The ring by shapely's mitred offset, an independent way to the inside face.
    outline = shapely.Polygon(run.outline.corners_ft)
    ring_ft2 = outline.area - outline.buffer(-run.plan.wall_thickness_ft, join_style="mitre", mitre_limit=50).area
    height_ft = run.plan.ground_to_floor_ft + run.plan.wall_height_ft
    kinds = (ItemKind.WALL, ItemKind.TIE_BEAM)
    volume = sum(mesh_of(scene, i).volume for kind in kinds for i, _ in items_of(scene, kind))
    assert volume == pytest.approx(ring_ft2 * height_ft, rel=1e-9)


@pytest.mark.parametrize("kind", [ItemKind.DECK, ItemKind.COVERING])
def test_deck_and_covering_cover_the_roof_once(run: Run, scene: Scene, kind: ItemKind) -> None:
    meshes = [mesh_of(scene, i) for i, _ in items_of(scene, kind)]
    up = sum(float(np.sum(m.area_faces * np.clip(m.face_normals[:, 2], 0, None))) for m in meshes)
    assert up == pytest.approx(run.roof.plan_area_ft2, rel=1e-6)


def test_names_are_unique_and_stages_follow_the_build(scene: Scene) -> None:
    assert len({item.node for item in scene.items}) == len(scene.items)
    order = {ItemKind.WALL: 0, ItemKind.TIE_BEAM: 1, ItemKind.ANCHOR: 2, ItemKind.MEMBER: 3, ItemKind.DECK: 4}
    for kind, stage in order.items():
        assert {item.stage for _, item in items_of(scene, kind)} <= {Stage(stage)}
    assert [text.stage for text in STAGES] == list(Stage)
    assert all(text.sentence.endswith(".") for text in STAGES)
    assert max(len(one.split()) for text in STAGES for one in text.sentence.split(". ")) <= 25


def test_the_scene_says_the_caution_and_that_its_catalogue_is_invented(run: Run, scene: Scene) -> None:
    assert scene.caution == CAUTION
    assert (INVENTED_NOTE in scene.notes) == run.schedule.catalogue.invented


def test_equal_runs_give_equal_scenes_that_cannot_be_written_to(run: Run, scene: Scene) -> None:
    build_scene.cache_clear()
    again = build_scene(run)
    assert again is not scene
    for field in ("centre_ft", "u_ft", "v_ft", "w_ft", "item"):
        assert np.array_equal(getattr(again.boxes, field), getattr(scene.boxes, field))
        assert not getattr(scene.boxes, field).flags.writeable
    assert np.array_equal(again.solids.points_ft, scene.solids.points_ft)
    assert not scene.solids.points_ft.flags.writeable
    assert not any(c.rgb.flags.writeable for c in scene.colourings)


def test_a_prism_with_a_hole_is_closed_and_holds_what_it_should() -> None:
    outer = np.array(((0, 0), (4, 0), (4, 3), (0, 3)), float)
    hole = np.array(((1, 1), (1, 2), (3, 2), (3, 1)), float)
    points, triangles = prism([outer, hole], 0.0, 2.0)
    mesh = trimesh.Trimesh(vertices=points, faces=triangles, process=False)
    assert mesh.is_watertight
    assert mesh.volume == pytest.approx((12 - 2) * 2)


def test_a_scene_needs_no_graphics_library() -> None:
    code = "import viewer.window, viewer.scene, sys; print({'vtkmodules', 'pyvista', 'matplotlib'} & set(sys.modules))"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "set()"


def test_the_scene_of_a_house_with_300_bearings_takes_under_half_a_second(sample_run: Callable[[str], Run]) -> None:
    # A wide bar of an L with hips everywhere, invented; the plan's other values are the hip sample's.
    sample = sample_run("hip_house")
    outline = ((0.0, 0.0), (190.0, 0.0), (190.0, 34.0), (60.0, 34.0), (60.0, 120.0), (0.0, 120.0))
    run = make_run(dataclasses.replace(sample.plan, outline_ft=outline), sample.schedule.catalogue)
    assert len(run.schedule.marks) >= 300
    build_scene(run)
    build_scene.cache_clear()
    start = time.process_time()
    build_scene(run)
    assert time.process_time() - start < 0.5


def test_turning_the_eye_keeps_its_distance_and_never_goes_over_the_top(scene: Scene) -> None:
    camera = standard_camera(scene, View.CORNER, 800, 600)
    reach = np.linalg.norm(np.subtract(camera.position_ft, camera.focus_ft))
    for _ in range(30):
        camera = turned(camera, 7.5, 7.5)
        assert np.linalg.norm(np.subtract(camera.position_ft, camera.focus_ft)) == pytest.approx(reach)
        assert camera.axes()[1, 2] > 0  # what is up in the house stays up on the screen
    assert np.linalg.norm(np.subtract(nearer(camera, 0.5).position_ft, camera.focus_ft)) == pytest.approx(reach / 2)


def test_the_house_keeps_its_bearing_when_the_eye_leaves_the_plan_view(scene: Scene) -> None:
    above = standard_camera(scene, View.PLAN, 800, 600)
    tilted = turned(above, 0.0, -7.5)
    assert tilted.axes()[0] == pytest.approx(above.axes()[0], abs=1e-9)


def test_an_inside_wall_is_drawn_where_the_plan_has_it_and_not_through_the_outside_wall(
    sample_run: Callable[[str], Run],
) -> None:
    sample = sample_run("hip_house")
    corners = np.array(sample.outline.corners_ft)
    low, high = corners.min(axis=0), corners.max(axis=0)
    middle = float(low[1] + high[1]) / 2
    ends = ((float(low[0]), middle), (float(low[0] + high[0]) / 2, middle))
    support = Support(kind=SupportKind.BEARING_WALL, start_ft=ends[0], end_ft=ends[1], holds_down=False)
    scene = build_scene(dataclasses.replace(sample, plan=dataclasses.replace(sample.plan, supports=(support,))))
    (item,) = items_of(scene, ItemKind.SUPPORT)
    points = corners_of(scene, item[0]).reshape(-1, 3)
    thickness = sample.plan.wall_thickness_ft
    assert item[1].node == "bearing wall S1"
    assert (points[:, 0].min(), points[:, 0].max()) == pytest.approx((ends[0][0] + thickness / 2, ends[1][0]))
    assert (points[:, 1].min(), points[:, 1].max()) == pytest.approx((middle - thickness / 2, middle + thickness / 2))
    assert points[:, 2].max() == pytest.approx(scene.tie_beam_top_ft)
