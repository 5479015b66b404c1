"""`view --picture`: the same size and content every time, colours as the legend says, or one plain sentence."""

from __future__ import annotations

import dataclasses
import itertools
import re
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from drawings.graphics import need_graphics
from framing.errors import OutputError, StraplineError
from framing.run import CAUTION, Run
from viewer import graphics
from viewer.camera import View, standard_camera
from viewer.colours import TYPED_KEYS, ColourKey
from viewer.look import look_from
from viewer.overlay import LEGEND_PX, PAD_PX, Frame, frame_for, frame_sheet, letters, place_labels, spoken, wrapped
from viewer.pieces import ItemKind
from viewer.scene import build_scene
from viewer.stages import Stage
from viewer.window import picture, show

SIZE_PX = (1600, 1000)
DIES = "import os, signal; os.kill(os.getpid(), signal.SIGSEGV)  # %d"
LONG_NAME = "An uncommonly long name of a house for which somebody has written a whole sentence in the plan " * 3


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    return sample_run("hip_house")


@pytest.fixture(scope="module")
def bare(run: Run) -> Run:
    """The same house with three marks that no anchor holds."""
    marks = tuple(
        dataclasses.replace(m, anchor=None, count=0, allowable_uplift_lb=None, ratio=None, good_to_mph=None)
        if m.mark in ("W1-05", "W1-06", "W3-05")
        else m
        for m in run.schedule.marks
    )
    return dataclasses.replace(run, schedule=dataclasses.replace(run.schedule, marks=marks))


def frame_of(run: Run) -> Frame:
    return frame_for(build_scene(run), *SIZE_PX)


def drawn(run: Run, folder: Path, **look: str) -> np.ndarray:
    need_graphics()
    picture(run, folder / "roof.png", **look)
    return np.asarray(Image.open(folder / "roof.png").convert("RGB"))


def test_two_pictures_of_one_run_are_the_same_file_and_1600_by_1000(run: Run, tmp_path: Path) -> None:
    pixels = drawn(run, tmp_path)
    first = (tmp_path / "roof.png").read_bytes()
    assert first.startswith(b"\x89PNG\r\n\x1a\n")
    drawn(run, tmp_path)
    assert (tmp_path / "roof.png").read_bytes() == first
    assert pixels.shape == (SIZE_PX[1], SIZE_PX[0], 3)
    assert [path.name for path in tmp_path.iterdir()] == ["roof.png"]


def test_every_tag_of_the_wall_in_front_has_its_legend_colour_in_the_picture(run: Run, tmp_path: Path) -> None:
    scene = build_scene(run)
    left, top, width, height = frame_of(run).model_px
    camera = standard_camera(scene, View.FRONT, width, height)
    tags = {item.mark: i for i, item in enumerate(scene.items) if item.kind is ItemKind.TAG}
    for key in TYPED_KEYS:
        pixels = drawn(run, tmp_path, colour=key, view="front", stage="anchors")
        for bearing in scene.bearings:
            if bearing.mark.startswith("W1-") and abs(bearing.outward[0]) < 0.1:
                # Half a foot lower than the middle, clear of the label.
                point = np.array(bearing.point_ft) - (0.0, 0.0, 0.45)
                x, y, _ = camera.project(point, width, height)[0]
                found = pixels[round(top + y), round(left + x)].astype(int)
                assert abs(found - scene.colouring(key).rgb[tags[bearing.mark]]).max() <= 3, bearing.mark


def test_each_stage_adds_something_that_one_sees(run: Run, tmp_path: Path) -> None:
    left, top, width, height = frame_of(run).model_px
    shown = [drawn(run, tmp_path, stage=stage.key)[top : top + height, left : left + width] for stage in Stage]
    for before, after in itertools.pairwise(shown):
        assert np.mean(np.any(before != after, axis=2)) > 0.005


def test_each_view_shows_another_side_and_the_house_whole(run: Run, tmp_path: Path) -> None:
    left, top, width, height = frame_of(run).model_px
    seen = {}
    for view in View:
        model = drawn(run, tmp_path, view=view)[top + 2 : top + height - 2, left + 2 : left + width - 2]
        sky = model[0, 0]
        rim = np.concatenate((model[:4].reshape(-1, 3), model[-4:].reshape(-1, 3), model[:, :4].reshape(-1, 3)))
        assert np.all(rim == sky), view
        assert np.mean(np.any(model != sky, axis=2)) > 0.15, view
        seen[view] = model.tobytes()
    assert len(set(seen.values())) == len(View)


def test_the_unresolved_bearing_is_marked_by_its_cross_and_by_words(bare: Run, tmp_path: Path) -> None:
    scene = build_scene(bare)
    left, top, width, height = frame_of(bare).model_px
    pixels = drawn(bare, tmp_path, view="front").astype(int)
    camera = standard_camera(scene, View.FRONT, width, height)
    cross = next(i for i, item in enumerate(scene.items) if item.kind is ItemKind.CROSS)
    x, y, _ = camera.project(scene.boxes.centre_ft[scene.boxes.item == cross], width, height)[0]
    patch = pixels[round(top + y) - 3 : round(top + y) + 4, round(left + x) - 3 : round(left + x) + 4]
    assert np.mean(patch[:, :, 2] - patch[:, :, 0] > 60) > 0.5  # blue, as the legend says
    placed = place_labels(scene.labels, camera, (width, height), 13)
    assert sorted(spoken(label) for label, _ in placed if label.unresolved) == ["W1-05: no anchor"]


@pytest.mark.parametrize("sample", ["cottage", "hip_house", "garage_wing"])
@pytest.mark.parametrize("view", View)
def test_labels_never_overlap_and_stay_in_the_picture(
    sample: str, view: View, sample_run: Callable[[str], Run]
) -> None:
    scene = build_scene(sample_run(sample))
    _, _, width, height = frame_for(scene, *SIZE_PX).model_px
    placed = place_labels(scene.labels, standard_camera(scene, view, width, height), (width, height), 13)
    boxes = [box for _, box in placed]
    assert len(boxes) >= 3
    for k, (x0, y0, x1, y1) in enumerate(boxes):
        assert 0 <= x0 < x1 <= width
        assert 0 <= y0 < y1 <= height
        assert not any(x0 < b[2] and b[0] < x1 and y0 < b[3] and b[1] < y1 for b in boxes[:k])
    for (label, _), (later, _) in itertools.pairwise(placed):
        assert label.rank < later.rank


@pytest.mark.parametrize("view", View)
def test_the_camera_puts_points_where_the_graphics_library_does(run: Run, view: View) -> None:
    need_graphics()
    import pyvista as pv

    from viewer.meshes import set_camera

    scene = build_scene(run)
    width, height = 640, 400
    camera = standard_camera(scene, view, width, height)
    points = np.array([b.point_ft for b in scene.bearings])
    with graphics.off_screen():
        plotter = pv.Plotter(off_screen=True, window_size=[width, height])
        plotter.add_mesh(pv.Box())
        set_camera(plotter, scene, camera)
        plotter.screenshot(return_img=True)
        for point, (x, y, _) in zip(points, camera.project(points, width, height), strict=True):
            plotter.renderer.SetWorldPoint(*point, 1.0)
            plotter.renderer.WorldToDisplay()
            theirs_x, theirs_y, _ = plotter.renderer.GetDisplayPoint()
            assert (x, height - y) == pytest.approx((theirs_x, theirs_y), abs=0.6)
        plotter.close()


@pytest.mark.parametrize("key", TYPED_KEYS)
@pytest.mark.parametrize("size", [SIZE_PX, (1000, 700)])
def test_nothing_of_the_lettering_is_cut_off(bare: Run, key: ColourKey, size: tuple[int, int]) -> None:
    project = dataclasses.replace(bare.plan.project, name=LONG_NAME)
    scene = build_scene(dataclasses.replace(bare, plan=dataclasses.replace(bare.plan, project=project)))
    frame = frame_for(scene, *size)
    sheet = np.asarray(frame_sheet(scene, scene.colouring(key), Stage.TRUSSES, frame))
    assert np.all(sheet[:, -6:] == 255)
    assert np.all(sheet[-4:] == 255)
    left, top, width, height = frame.model_px
    assert np.all(sheet[top + 2 : top + height - 2, left + 2 : left + width - 2, 3] == 0)
    assert np.all(sheet[top + height + 1 : top + height + 5] == 255)  # free between model and caution


def test_the_caution_is_lettered_word_for_word_within_the_picture(run: Run) -> None:
    scene = build_scene(run)
    lines = wrapped(scene.caution, 16, SIZE_PX[0] - 2 * PAD_PX)
    assert " ".join(lines) == CAUTION
    assert max(letters(16).getlength(line) for line in lines) <= SIZE_PX[0] - 2 * PAD_PX
    sheet = np.asarray(frame_sheet(scene, scene.colouring("uplift"), Stage.WALLS, frame_of(run)))
    strip = sheet[-96:, : SIZE_PX[0] - LEGEND_PX]
    assert np.mean(strip[:, :, 0] < 128) > 0.02


def test_without_a_graphics_driver_one_sentence_names_the_packages_and_no_file_is_left(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(graphics, "PROBE", DIES)
    with pytest.raises(OutputError) as caught:
        picture(run, tmp_path / "roof.png")
    assert str(caught.value) == (
        "the picture cannot be drawn because this machine has no working graphics driver; install the two Debian "
        "packages libegl1 and libgl1-mesa-dri, or run the command on a machine that has one"
    )
    assert list(tmp_path.iterdir()) == []


def test_an_unwritable_place_is_named_and_nothing_is_left_beside_it(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("viewer.picture.picture_png", lambda *_, **__: b"a picture")
    target = tmp_path / "missing" / "roof.png"
    with pytest.raises(OutputError, match=re.escape(f"{target}: the picture cannot be written: No such file")):
        picture(run, target)
    folder = tmp_path / "roof.png"
    folder.mkdir()
    with pytest.raises(OutputError, match="the picture cannot be written"):
        picture(run, folder)
    assert list(tmp_path.rglob("*")) == [folder]


def test_without_a_display_the_window_says_so_and_names_the_way_to_a_picture(
    run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    need_graphics()
    for name in ("DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    with pytest.raises(StraplineError) as caught:
        show(run)
    assert str(caught.value) == (
        "the window cannot open because there is no display; run the command on a desktop, "
        "or write a picture with --picture FILE.png"
    )


@pytest.mark.parametrize(
    ("words", "sentence"),
    [
        ({"colour": "upflit"}, 'colour "upflit" is not known; choose one of uplift, share, wind, kind, deck'),
        (
            {"view": "north"},
            'view "north" is not known; choose one of corner, opposite corner, front, right, back, left, plan',
        ),
        (
            {"stage": "roof"},
            'stage "roof" is not known; choose one of walls, tie beam, anchors, trusses, deck, covering, finished',
        ),
    ],
)
def test_an_unknown_word_is_answered_with_those_that_are_known(words: dict[str, str], sentence: str) -> None:
    with pytest.raises(StraplineError) as caught:
        look_from(**{"colour": "uplift", "view": "corner", "stage": "covering", **words})
    assert str(caught.value) == sentence


def test_capitals_and_spaces_in_a_word_do_not_matter() -> None:
    look = look_from(colour=" Uplift", view="Opposite  corner", stage="TIE BEAM")
    assert (look.colour, look.view, look.stage) == (ColourKey.UPLIFT, View.OPPOSITE_CORNER, Stage.TIE_BEAM)
