"""The window's behaviour, on an off-screen plotter: what each key does, what a click shows, what the cards say."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

import numpy as np
import pytest

from drawings.graphics import need_graphics
from framing.run import Run
from framing.units import feet_inches
from viewer.cards import bearing_card, member_card
from viewer.graphics import off_screen
from viewer.look import look_from
from viewer.scene import build_scene
from viewer.stages import Stage


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    return sample_run("garage_wing")


@pytest.fixture
def walk(run: Run) -> Iterator[Any]:
    need_graphics()
    from viewer.walk import Walk, new_window

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
    for key in [*"12356", *"cvnbmkxlh", *words.split()]:
        walk.press(key)
        after = picture_of(walk)
        assert np.any(after != before), key
        before = after


def test_the_help_names_every_key_and_the_window_hints_at_it(walk: Any) -> None:
    from viewer.walk import HELP, HINT

    named = " ".join(word for word, _ in HELP)
    for word in ("1 to 6", "page up", "page down", "arrows", "plus", "minus", "escape", "comma", "period"):
        assert word in named
    assert {"c", "v", "n", "b", "m", "k", "x", "l", "h", "q"} <= set(named.replace(",", "").split())
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
        walk.press("m")
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
    kept = [b for b in walk.scene.bearings if walk._is_kept(b.point_ft)]
    assert 0 < len(kept) < len(walk.scene.bearings)
    before = len(kept)
    for _ in range(6):
        walk.press("period")
    assert sum(walk._is_kept(b.point_ft) for b in walk.scene.bearings) < before
    walk.press("x")
    walk.press("x")
    assert all(walk._is_kept(b.point_ft) for b in walk.scene.bearings)


def test_stages_stop_at_the_first_and_the_last(walk: Any) -> None:
    for _ in range(9):
        walk.press("Next")
    assert walk.stage is Stage.COVERING
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
