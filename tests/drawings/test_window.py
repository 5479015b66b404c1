"""The window's behaviour, on an off-screen plotter: what each key does, what a click shows, what the cards say."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest
from PIL import Image

from drawings.graphics import need_graphics
from framing.run import Run
from framing.units import feet_inches
from viewer.camera import View, standard_camera
from viewer.cards import bearing_card, member_card
from viewer.graphics import off_screen
from viewer.help import HELP
from viewer.look import look_from
from viewer.overlay import Frame, frame_for, frame_sheet
from viewer.panels import SCALE_PX, draw_panel, north_tip_px
from viewer.scene import build_scene
from viewer.stages import Stage
from viewer.storm import storm_words
from viewer.suction import deck_suction


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    return sample_run("garage_wing")


@pytest.fixture
def walk(run: Run) -> Iterator[Any]:
    need_graphics()
    from viewer.sheet_layer import new_window
    from viewer.walk import Walk

    with off_screen():
        plotter = new_window((900, 640), "test", off_screen=True)
        walk = Walk(run, build_scene(run), look_from(colour="uplift", view="corner", stage="trusses"), plotter)
        walk.refresh()
        plotter.screenshot(return_img=True)
        yield walk
        plotter.close()


def picture_of(walk: Any) -> np.ndarray:
    return np.asarray(walk.plotter.screenshot(return_img=True))


def test_every_key_of_the_help_changes_what_one_sees(walk: Any) -> None:
    before = picture_of(walk)
    words = "Prior Next Left Right Up Down plus minus"
    for key in [*"12356", *"cvnbkkftrxlhw", *words.split(), "bracketright"]:
        walk.press(key)
        after = picture_of(walk)
        assert np.any(after != before), key
        before = after


def test_the_help_names_every_key_and_the_window_hints_at_it(walk: Any) -> None:
    from viewer.help import HELP, HINT

    named = " ".join(word for word, _ in HELP)
    for word in ("1 to 7", "page up", "page down", "arrows", "plus", "minus", "escape", "comma", "period"):
        assert word in named
    assert {*"cvnbtrpwmxlfshq", "[", "]"} <= set(named.replace(",", "").split())
    assert "h: help" in HINT


def test_an_unknown_key_changes_nothing(walk: Any) -> None:
    before = picture_of(walk)
    walk.press("F7")
    walk.press("3D")
    assert np.array_equal(picture_of(walk), before)


def test_the_keyboard_alone_reaches_every_bearing_and_every_member(walk: Any, run: Run) -> None:
    walk.refresh = lambda **_: None  # the lettering is not looked at here
    seen = []
    for _ in run.schedule.marks:
        walk.press("n")
        seen.append(dict(walk.card())["bearing"])
    assert seen == [m.mark for m in run.schedule.marks]
    seen = []
    for _ in run.framing.members:
        walk.press("t")
        seen.append(dict(walk.card())["member"])
    assert seen == [m.name for m in run.framing.members]
    walk.press("Escape")
    assert walk.card() == ()


def test_a_click_on_a_tag_shows_the_figures_of_the_schedule(walk: Any, run: Run) -> None:
    left, top, width, height = walk._frame().model_px
    mark = next(m for m in run.schedule.marks if m.mark == "W1-09")
    place = next(b for b in walk.scene.bearings if b.mark == mark.mark)
    x, y, _ = walk.camera().project(np.array(place.point_ft), width, height)[0]
    walk.click(left + x, top + y)
    card = dict(walk.card())
    assert card["bearing"] == mark.mark
    assert card["uplift"] == f"{mark.uplift_lb:,.0f} lb"
    assert card["truss centre"] == feet_inches(mark.bearing.station_ft)
    assert card["governing case"] == mark.case


def test_a_click_on_a_truss_shows_its_member_and_a_click_on_the_sky_nothing(walk: Any, run: Run) -> None:
    left, top, width, height = walk._frame().model_px
    walk.press("6")  # seen through deck and covering
    member = next(m for m in run.framing.members if m.kind == "common")
    item = next(i for i, entry in enumerate(walk.scene.items) if entry.node == member.name)
    chords = walk.scene.boxes.centre_ft[walk.scene.boxes.item == item]
    names = []
    for point in chords:
        x, y, _ = walk.camera().project(point, width, height)[0]
        walk.click(left + x, top + y)
        names.append(dict(walk.card()).get("member", ""))
    assert member.name in names
    walk.click(left + 4, top + 4)
    assert walk.card() == ()


def test_the_cut_takes_away_one_side_and_its_labels(walk: Any) -> None:
    walk.press("x")
    kept = [b for b in walk.scene.bearings if walk.cut.keeps(b.point_ft)]
    assert 0 < len(kept) < len(walk.scene.bearings)
    before = len(kept)
    for _ in range(6):
        walk.press("period")
    assert sum(walk.cut.keeps(b.point_ft) for b in walk.scene.bearings) < before
    walk.press("x")
    walk.press("x")
    assert all(walk.cut.keeps(b.point_ft) for b in walk.scene.bearings)


def test_stages_stop_at_the_first_and_the_last(walk: Any) -> None:
    for _ in range(9):
        walk.press("Next")
    assert walk.stage is Stage.FINISHED
    for _ in range(9):
        walk.press("Prior")
    assert walk.stage is Stage.WALLS


def test_a_card_says_what_the_schedule_says(run: Run) -> None:
    for mark in run.schedule.marks:
        card = dict(bearing_card(mark))
        assert card["mark for strap"] == feet_inches(mark.bearing.strap_station_ft)
        assert card["load down"] == f"{mark.down_lb:,.0f} lb"
        assert (mark.anchor.name in card["anchor"]) if mark.anchor else ("none" in card["anchor"])


def test_a_members_card_names_what_carries_it_and_the_uplift_at_each_of_its_marks(run: Run) -> None:
    for member in run.framing.members:
        card = dict(member_card(run, member))
        mine = [m for m in run.schedule.marks if m.bearing.member == member.name]
        for mark in mine:
            assert card[f"uplift at {mark.mark}"].startswith(f"{mark.uplift_lb:,.0f} lb")
        assert mine or "no wall anchor" in card["uplift"]
        assert member.carriers[0].name in card["carried by"]


def test_the_help_lists_every_key_that_does_anything(walk: Any) -> None:
    from viewer.help import HELP

    spelled = {"Next": "page down", "Prior": "page up", "comma": "comma", "period": "period", "Escape": "escape"}
    spelled |= dict.fromkeys(("Left", "Right", "Up", "Down"), "arrows") | dict.fromkeys("1234567", "1 to 7")
    spelled |= dict.fromkeys(("plus", "equal", "KP_Add"), "plus") | dict.fromkeys(("minus", "KP_Subtract"), "minus")
    spelled |= {"bracketleft": "[", "bracketright": "]"}
    said = [word for words, _ in HELP for part in words.split(", ") for word in (part, *part.split(" and "))]
    assert {spelled.get(key, key) for key in walk._actions} <= set(said)


def test_the_highlight_leaves_with_the_stage_that_it_stands_on(walk: Any) -> None:
    walk.press("n")
    assert "highlight" in walk.props.actors
    walk.press("2")
    assert "highlight" not in walk.props.actors
    assert walk.card() == ()
    walk.press("t")
    assert walk.stage is Stage.TRUSSES
    walk.press("3")
    assert walk.card() == ()
    assert "highlight" not in walk.props.actors


def test_the_crosses_of_a_wind_are_the_marks_that_it_takes_past_what_is_allowed(walk: Any, run: Run) -> None:
    walk.press("w")
    for mph in (80.0, run.plan.wind.speed_mph, 200.0, 300.0):
        walk._set_wind(mph)
        past = [m for m in run.schedule.marks if m.anchor and m.good_to_mph is not None and m.good_to_mph < mph]
        crosses = walk.props.actors.get("crosses")
        n_lines = crosses.GetMapper().GetInput().n_cells if crosses else 0
        assert n_lines == 2 * len(past)
        assert f"{len(past)} of" in storm_words(run, mph)
    assert past


@pytest.mark.parametrize("sample", ["garage_wing", "hip_house", "mixed_gable_hip"])
def test_the_arrows_together_lift_what_the_decks_zones_lift(sample_run: Callable[[str], Run], sample: str) -> None:
    run = sample_run(sample)
    arrows = deck_suction(run)
    plan_ft2 = np.array([p.area for p in run.patches.polygon])
    lift_lb = sum(z.suction_psf * plan_ft2[list(z.patches)].sum() for z in run.cover.deck.zones)
    assert arrows.upward_lb == pytest.approx(lift_lb, rel=0.01)
    assert np.all(arrows.normal[:, 2] > 0)


def test_north_points_where_the_plan_says(walk: Any, run: Run) -> None:
    camera = standard_camera(walk.scene, View.PLAN, 600, 400)
    frame = Frame(width_px=900, height_px=600)
    for deg, toward in ((0.0, (1, 0)), (90.0, (0, -1)), (225.0, (-(0.5**0.5), 0.5**0.5))):
        ring, tip = north_tip_px(frame, camera, deg)
        middle = ((ring[0] + ring[2]) / 2, (ring[1] + ring[3]) / 2)
        turn = np.arctan2(walk.scene.w1_direction[1], walk.scene.w1_direction[0])
        x, y = toward[0], -toward[1]
        c, s = np.cos(-turn), np.sin(-turn)
        expected = np.array((c * x - s * y, -(s * x + c * y)))
        assert np.subtract(tip, middle) / 30 == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("sample", ["garage_wing", "long_girder", "mixed_gable_hip"])
def test_at_900_by_600_no_card_nor_the_help_is_cut(sample_run: Callable[[str], Run], sample: str) -> None:
    run = sample_run(sample)
    scene = build_scene(run)
    frame = frame_for(scene, 900, 600)
    left, top, width, height = frame.model_px
    cards = [bearing_card(m) for m in run.schedule.marks] + [member_card(run, m) for m in run.framing.members]
    for rows, middle in [(HELP, True), *((card, False) for card in cards)]:
        sheet = Image.new("RGBA", (900, 600))
        box = draw_panel(sheet, frame, rows, middle=middle)
        assert left <= box[0] < box[2] <= left + width
        assert top <= box[1] < box[3] <= top + height
    for colouring in scene.colourings:
        for stage in Stage:
            page = np.asarray(frame_sheet(scene, colouring, stage, frame, foot_px=SCALE_PX))
            assert np.all(page[-4:] == 255)
            assert np.all(page[:, -6:] == 255)


def test_looking_closer_shows_the_strap_in_steel_and_brings_the_house_back(walk: Any, run: Run) -> None:
    from viewer.closer_parts import PART_RGB, Part

    def steel(picture: np.ndarray) -> int:
        """Pixels in the strap's own hue: far more blue than red, as nothing else in the window is."""
        red, green, blue = (picture[..., k].astype(int) for k in range(3))
        return int(((blue - red > 60) & (green > red) & (blue > green)).sum())

    red, green, blue = PART_RGB[Part.STRAP]
    assert blue - red > 60
    assert red < green < blue
    walk.press("l")
    eye = walk.camera()
    before = picture_of(walk)
    hardest = max(range(len(run.schedule.marks)), key=lambda i: run.schedule.marks[i].uplift_lb)
    walk.point_at(bearing=hardest)
    walk.press("k")
    assert steel(picture_of(walk)) >= steel(before) + 40
    walk.press("n")
    assert walk.close_up.mark == walk.bearing == (hardest + 1) % len(run.schedule.marks)
    walk.press("Escape")
    assert walk.close_up.mark is None
    assert walk.camera().position_ft == pytest.approx(eye.position_ft)
    assert np.array_equal(picture_of(walk), before)


def test_the_finished_house_is_solid_and_names_walls_alone(walk: Any) -> None:
    walk.press("7")
    assert {label.text[0] for label in walk.scene.labels_of(walk.colour, walk.stage)} == {"W"}
    assert not [label for label in walk.scene.labels_of(walk.colour, walk.stage) if "-" in label.text]
    solid = picture_of(walk)
    walk.press("6")
    glass = picture_of(walk)
    assert np.mean(np.any(solid != glass, axis=2)) > 0.05
    walk.press("7")
    assert np.array_equal(picture_of(walk), solid)
