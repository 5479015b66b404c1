"""What changed, and straps as built, in three dimensions: each strap by shape and colour, its state the very one that
the table tells.
"""

from __future__ import annotations

import io
import itertools
from collections import Counter
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image, ImageDraw
from typer.testing import CliRunner

from drawings.graphics import need_graphics
from drawings.seen_colours import SIGHT, lab
from export.asbuilt import in_3d as asbuilt_in_3d
from export.asbuilt.words import Findings, findings
from export.changes import in_3d as changes_in_3d
from export.changes.differences import What, differences
from export.changes.sources import HouseThen, house_of
from export.cli import app
from export.commands.run_of_plan import load_run
from export.tables.run_json import run_json
from framing.asbuilt.judge import State as Judged
from framing.asbuilt.survey_file import read_surveys
from framing.run import Run
from invariants.houses import SAMPLES
from viewer.camera import View, standard_camera
from viewer.colours import NO_ANCHOR_RGB, ColourKey
from viewer.graphics import off_screen
from viewer.look import STATES_LOOK
from viewer.overlay import frame_for, place_labels, sign_boxes
from viewer.picture import HEIGHT_PX, WIDTH_PX, states_picture
from viewer.pieces import ItemKind
from viewer.scene import Scene, build_scene
from viewer.signs import SIGNS, Shape
from viewer.states import States, with_states

PLAN = SAMPLES["garage_wing"]
SURVEY = PLAN.with_name("garage_wing_as_set.csv")
NO_PNG = "--picture: x.gif is no PNG file; write a name that ends in .png"
TABLES = {"as built": asbuilt_in_3d.STATES, "changes": {None: changes_in_3d.AS_IT_WAS, **changes_in_3d.STATES}}


@cache
def run() -> Run:
    return load_run(PLAN)


@cache
def as_set() -> Findings:
    return findings(run(), read_surveys([SURVEY], run()))


@cache
def now() -> HouseThen:
    return house_of(PLAN, lambda _: run_json(run()))


def earlier() -> HouseThen:
    """The garage wing before: one mark elsewhere, one of another anchor, one side, one load; one less and one more."""
    marks = list(now().marks)
    marks[2] = replace(marks[2], tape_ft=marks[2].tape_ft - 1.0, strap_ft=(marks[2].strap_ft[0] - 1.0, 0.3))
    marks[4] = replace(marks[4], anchor="other")
    marks[6] = replace(marks[6], side="far")
    marks[8] = replace(marks[8], uplift_lb=2.0 * marks[8].uplift_lb + 500.0)
    gone = replace(marks[10], mark="W1-99", strap_ft=(29.0, 16.0))
    return replace(now(), marks=(*marks[:11], *marks[12:], gone))


def changed() -> States:
    return changes_in_3d.change_states(earlier(), now(), differences(earlier(), now()))


def tags(scene: Scene) -> dict[str, tuple[int, ...]]:
    rgb = scene.colouring(ColourKey.STATE).rgb
    return {i.mark: tuple(rgb[k].tolist()) for k, i in enumerate(scene.items) if i.kind is ItemKind.TAG}


def test_every_strap_as_set_has_the_state_of_the_judge_and_its_plate_that_colour() -> None:
    found = as_set()
    states = asbuilt_in_3d.asbuilt_states(found)
    assert Counter(t.state.text for t in states.told) == Counter(s.state.value for s in found.straps)
    scene = with_states(build_scene(run()), states)
    shown = tags(scene)
    for s in found.straps:
        if len(s.mark.straps) == 1:
            assert shown[s.mark.mark] == asbuilt_in_3d.STATES[s.state].rgb
    assert [s.mark.mark for s in found.straps if s.state is Judged.MISSING] == ["W1-06", "W6-13"]
    assert {n.text for n in scene.labels_of(ColourKey.STATE, STATES_LOOK.stage) if n.only} == {
        s.name for s in found.straps if not s.as_planned
    }


def test_every_judged_state_and_every_change_has_a_sign_of_its_own() -> None:
    assert set(asbuilt_in_3d.STATES) == set(Judged)
    assert set(changes_in_3d.STATES) == set(What)
    for table in TABLES.values():
        assert len({s.shape for s in table.values()}) >= len(table) - 1
        assert len({(s.shape, s.rgb) for s in table.values()}) == len(table)


@pytest.mark.parametrize("name", TABLES)
@pytest.mark.parametrize("sight", SIGHT)
def test_no_two_states_look_alike_to_any_sight(name: str, sight: str) -> None:
    seen = lab([s.rgb for s in TABLES[name].values()], sight)
    assert min(float(np.linalg.norm(a - b)) for a, b in itertools.combinations(seen, 2)) > 15.0


def test_in_black_and_white_the_shapes_alone_tell_the_states_apart() -> None:
    drawn = {shape: filled(shape) for shape in Shape if shape is not Shape.OPEN_DOT}
    for a, b in itertools.combinations(drawn, 2):
        assert np.mean(drawn[a] != drawn[b]) > 0.03, (a, b)


def filled(shape: Shape) -> np.ndarray:
    """A sign in pure black and white, 64 by 64."""
    sheet = Image.new("1", (64, 64), 1)
    draw, sign = ImageDraw.Draw(sheet), SIGNS[shape]

    def at(ring: Any) -> list[tuple[float, float]]:
        return [(32 + 24 * x, 32 - 24 * y) for x, y in ring]

    draw.polygon(at(sign.body), fill=0)
    if sign.core:
        draw.polygon(at(sign.core), fill=1)
    for stroke in sign.strokes:
        draw.line(at(stroke), fill=1, width=6)
    return np.asarray(sheet)


def test_what_changed_is_shown_by_its_gravest_change_and_nothing_else_is_coloured() -> None:
    states = changed()
    by_mark = {t.mark or "gone": t for t in states.told}
    marks = now().marks
    told = {k: by_mark[marks[k].mark].state.text for k in (0, 2, 4, 6, 8, 11)}
    assert told == {
        0: "as it was",
        2: "moved",
        4: "another anchor",
        6: "on another side",
        8: "another load alone",
        11: "new",
    }
    assert by_mark["gone"].state.text == "gone"
    assert by_mark["gone"].at_ft == (29.0, 16.0)
    assert by_mark[marks[2].mark].from_ft == earlier().marks[2].strap_ft
    scene = with_states(build_scene(run()), states)
    rgb = scene.colouring(ColourKey.STATE).rgb
    members = [k for k, i in enumerate(scene.items) if i.kind is ItemKind.MEMBER]
    walls = [k for k, i in enumerate(scene.items) if i.kind is ItemKind.WALL]
    assert {tuple(c) for c in rgb[members].tolist()} == {NO_ANCHOR_RGB}
    plain = scene.colouring(ColourKey.UPLIFT).rgb
    assert np.array_equal(rgb[walls], plain[walls])
    assert states.headline.startswith("Do not use the old sheet of W1: 1 new, 1 gone, 1 moved")


def test_a_house_as_it_was_has_no_label_and_says_that_the_sheet_holds() -> None:
    states = changes_in_3d.change_states(now(), now(), differences(now(), now()))
    assert {t.state for t in states.told} == {changes_in_3d.AS_IT_WAS}
    scene = with_states(build_scene(run()), states)
    assert not [n for n in scene.labels if n.only is ColourKey.STATE]
    assert states.headline == "Nothing changed on the wall: the old sheet holds."


def test_every_sign_stands_over_its_strap_on_the_beam() -> None:
    scene = with_states(build_scene(run()), asbuilt_in_3d.asbuilt_states(as_set()))
    good = {s.strap.point_ft for s in as_set().straps if s.state is Judged.GOOD and not s.along_in}
    places = {s.point_ft[:2] for s in scene.signs}
    assert len(scene.signs) == len(as_set().straps)
    assert good <= {tuple(p) for p in places}
    assert {round(s.point_ft[2] - scene.tie_beam_top_ft, 6) for s in scene.signs} == {0.8}


def test_no_label_covers_a_sign_of_something_found() -> None:
    scene = with_states(build_scene(run()), asbuilt_in_3d.asbuilt_states(as_set()))
    size = frame_for(scene, WIDTH_PX, HEIGHT_PX).model_px[2:]
    camera = standard_camera(scene, View.CORNER, *size)
    taken = sign_boxes(scene.signs, camera, size)
    assert len(taken) == sum(not s.as_planned for s in as_set().straps)
    labels = scene.labels_of(ColourKey.STATE, STATES_LOOK.stage)
    placed = place_labels(labels, camera, size, 13, taken)
    assert {"W1-06", "W2-08", "W6-13"} <= {n.text for n, _ in placed}
    for _, (x0, y0, x1, y1) in placed:
        assert not any(x0 < d and a < x1 and y0 < e and b < y1 for a, b, d, e in taken)


def test_the_picture_has_each_finding_in_its_colour_where_it_stands(tmp_path: Path) -> None:
    need_graphics()
    states = asbuilt_in_3d.asbuilt_states(as_set())
    states_picture(run(), states, tmp_path / "as_built.png")
    pixels = np.asarray(Image.open(io.BytesIO((tmp_path / "as_built.png").read_bytes())).convert("RGB"))
    scene = with_states(build_scene(run()), states)
    left, top, *size = frame_for(scene, WIDTH_PX, HEIGHT_PX).model_px
    camera = standard_camera(scene, View.CORNER, *size)
    for one in scene.signs:
        if one.shape in (Shape.CROSS, Shape.FULL_SQUARE):
            x, y, _ = camera.project(np.array(one.point_ft), *size)[0]
            assert tuple(pixels[round(top + y), round(left + x)].tolist()) == one.rgb


def test_the_window_shows_the_signs_and_c_leads_to_the_other_colourings_and_back() -> None:
    need_graphics()
    from viewer.sheet_layer import new_window
    from viewer.walk import Walk

    scene = with_states(build_scene(run()), asbuilt_in_3d.asbuilt_states(as_set()))
    with off_screen():
        plotter = new_window((900, 640), "test", off_screen=True)
        walk = Walk(run(), scene, STATES_LOOK, plotter)
        walk.refresh()
        first = np.asarray(plotter.screenshot(return_img=True))
        cyan = np.all(first == asbuilt_in_3d.STATES[Judged.MISSING].rgb, axis=2)
        assert cyan.sum() > 100
        seen = []
        for _ in range(len(scene.colourings)):
            walk.press("c")
            seen.append(walk.colour)
        assert seen == [ColourKey.UPLIFT, ColourKey.SHARE, ColourKey.WIND, ColourKey.KIND, ColourKey.DECK, "state"]
        plotter.close()


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        (
            ["compare", "A", "B", "--picture", "x.gif"],
            "--picture: x.gif is no PNG file; write a name that ends in .png",
        ),
        (
            ["asbuilt", "A", "S", "--picture", "x.gif"],
            "--picture: x.gif is no PNG file; write a name that ends in .png",
        ),
        (["compare", "A", "F", "--picture", "x.png"], "F: a picture or a window needs the roof of B; name its plan"),
        (["compare", "A", "F", "--view"], "F: a picture or a window needs the roof of B; name its plan"),
    ],
)
def test_a_picture_that_cannot_be_made_is_refused_before_anything_is_written(
    tmp_path: Path, typed: list[str], sentence: str
) -> None:
    folder = tmp_path / "made"
    folder.mkdir()
    names = {"A": str(PLAN), "B": str(PLAN), "S": str(SURVEY), "F": str(folder)}
    asked = [names.get(word, word) for word in typed]
    found = CliRunner().invoke(app, [*asked, "--out", str(tmp_path / "out")])
    assert found.exit_code == 2
    assert found.stderr.strip() == f"strapline: {sentence.replace('F:', f'{folder}:')}"
    assert [p.name for p in tmp_path.iterdir()] == ["made"]


def test_asbuilt_writes_the_picture_beside_its_folder_and_still_answers_1(tmp_path: Path) -> None:
    need_graphics()
    target = tmp_path / "as_built.png"
    asked = ["asbuilt", str(PLAN), str(SURVEY), "--out", str(tmp_path / "out"), "--picture", str(target)]
    assert CliRunner().invoke(app, asked).exit_code == 1
    with Image.open(target) as drawn:
        assert drawn.size == (WIDTH_PX, HEIGHT_PX)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["as_built.png", "out"]


def test_a_state_is_no_word_that_a_house_alone_can_be_coloured_by() -> None:
    found = CliRunner().invoke(app, ["view", str(PLAN), "--colour", "state", "--picture", "x.png"])
    assert found.exit_code == 2
    assert "choose one of uplift, share, wind, kind, deck" in found.stderr


def test_the_legend_counts_every_strap_once() -> None:
    colouring = with_states(build_scene(run()), changed()).colouring(ColourKey.STATE)
    counts = [int(s.text.rpartition(": ")[2]) for s in colouring.swatches]
    assert sum(counts) == len(changed().told)
    assert all(isinstance(s.shape, Shape) for s in colouring.swatches)
