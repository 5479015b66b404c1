"""The colours of the model tell figures and kinds apart: evenly, in grey, and to the colour-blind."""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Callable

import numpy as np
import pytest

from drawings.seen_colours import SIGHT, lab
from framing.run import Run
from viewer.colours import KIND_RGB, NO_ANCHOR_RGB, UNRESOLVED_RGB, ColourKey, nice_ticks
from viewer.pieces import ItemKind
from viewer.ramp import oklab_to_rgb, ramp
from viewer.scene import Scene, build_scene

TELLS_APART = 15.0
"""CIELAB distance that large patches need at the least; about 2.3 is just noticeable side by side.
Source of the 2.3: M. Mahy et al., 'Evaluation of uniform color differences', 1994 (from memory)."""


def test_white_and_mid_grey_have_the_lightness_that_the_standard_gives() -> None:
    assert lab((255, 255, 255))[0] == pytest.approx((100.0, 0.0, 0.0), abs=0.02)
    assert lab((119, 119, 119))[0, 0] == pytest.approx(50.0, abs=0.1)


def test_oklab_of_white_and_of_its_own_published_sample_come_back_as_screen_colours() -> None:
    # B. Ottosson, 'A perceptual color space for image processing', 2020: white is (1, 0, 0); the screen's red is
    # (0.6279, 0.2249, 0.1258) in the published conversions (from memory).
    screen = oklab_to_rgb(np.array(((1.0, 0.0, 0.0), (0.6279554, 0.2248631, 0.1258463))))
    assert screen == pytest.approx(np.array(((1.0, 1.0, 1.0), (1.0, 0.0, 0.0))), abs=2e-3)


@pytest.mark.parametrize("sight", SIGHT)
def test_a_higher_figure_is_always_darker_so_that_grey_tells_the_same(sight: str) -> None:
    lightness = lab(ramp(), sight)[:, 0]
    assert np.all(np.diff(lightness[::4]) < 0)
    assert lightness[0] - lightness[-1] > 75


@pytest.mark.parametrize("sight", SIGHT)
def test_ten_levels_of_the_ramp_are_told_apart_by_every_sight(sight: str) -> None:
    levels = lab(ramp()[np.linspace(0, 255, 10).round().astype(int)], sight)
    apart = np.linalg.norm(levels[:, None] - levels[None], axis=2) + 1e9 * np.eye(10)
    assert apart.min() > 8.0


def test_equal_steps_of_a_figure_look_alike_along_the_whole_ramp() -> None:
    steps = np.linalg.norm(np.diff(lab(ramp()[::15]), axis=0), axis=1)
    assert steps.max() / steps.min() < 2.0


@pytest.mark.parametrize("sight", SIGHT)
def test_kinds_of_member_are_told_apart_by_every_sight(sight: str) -> None:
    seen = lab([*KIND_RGB.values(), UNRESOLVED_RGB], sight)
    pairs = itertools.combinations(range(len(seen)), 2)
    assert min(float(np.linalg.norm(seen[a] - seen[b])) for a, b in pairs) > TELLS_APART


def test_kinds_of_member_have_each_a_lightness_of_its_own() -> None:
    lightness = np.sort(lab(list(KIND_RGB.values()))[:, 0])
    assert np.diff(lightness).min() > 4.0


@pytest.mark.parametrize("sight", SIGHT)
def test_what_has_no_figure_is_far_from_every_colour_of_the_ramp(sight: str) -> None:
    seen, levels = lab([NO_ANCHOR_RGB, UNRESOLVED_RGB], sight), lab(ramp(), sight)
    assert np.linalg.norm(seen[:, None] - levels[None], axis=2).min() > TELLS_APART


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    """The garage wing with its strongest bearing left without an anchor."""
    run = sample_run("garage_wing")
    worst = max(run.schedule.marks, key=lambda m: m.uplift_lb)
    bare = dataclasses.replace(worst, anchor=None, count=0, allowable_uplift_lb=None, ratio=None, good_to_mph=None)
    marks = tuple(bare if m is worst else m for m in run.schedule.marks)
    return dataclasses.replace(run, schedule=dataclasses.replace(run.schedule, marks=marks))


@pytest.fixture(scope="module")
def scene(run: Run) -> Scene:
    return build_scene(run)


def tag_rgb(scene: Scene, key: ColourKey) -> dict[str, np.ndarray]:
    rgb = scene.colouring(key).rgb
    return {item.mark: rgb[i] for i, item in enumerate(scene.items) if item.kind is ItemKind.TAG}


def test_a_tag_has_the_colour_that_the_legend_shows_at_its_uplift(run: Run, scene: Scene) -> None:
    colouring, tags = scene.colouring(ColourKey.UPLIFT), tag_rgb(scene, ColourKey.UPLIFT)
    assert colouring.unit == "lb"
    (low_place, low_text), (high_place, high_text) = colouring.ticks[0], colouring.ticks[-1]
    assert (low_place, low_text, high_place) == (0.0, "0", 1.0)
    full_lb = float(high_text.replace(",", ""))
    for mark in run.schedule.marks:
        level = int(np.flatnonzero((colouring.ramp_rgb == tags[mark.mark]).all(axis=1)).mean())
        assert level / 255 * full_lb == pytest.approx(mark.uplift_lb, abs=full_lb / 100)


def test_the_anchor_nearest_its_limit_is_the_darkest_by_share_and_by_wind(run: Run, scene: Scene) -> None:
    held = [m for m in run.schedule.marks if m.resolved]
    fullest = max(held, key=lambda m: m.ratio or 0.0)
    first_to_go = min(held, key=lambda m: m.good_to_mph or 300.0)
    for key, mark in ((ColourKey.SHARE, fullest), (ColourKey.WIND, first_to_go)):
        lightness = {m: lab(rgb)[0, 0] for m, rgb in tag_rgb(scene, key).items()}
        assert lightness[mark.mark] == pytest.approx(min(lightness[m.mark] for m in held), abs=0.5)


def test_the_unresolved_mark_is_told_by_shape_and_by_a_colour_that_the_legend_names(run: Run, scene: Scene) -> None:
    (bare,) = run.schedule.unresolved
    crosses = [i for i, item in enumerate(scene.items) if item.kind is ItemKind.CROSS]
    assert [scene.items[i].mark for i in crosses] == [bare.mark]
    for colouring in scene.colourings:
        assert tuple(colouring.rgb[crosses[0]]) == UNRESOLVED_RGB
        assert [s.text for s in colouring.swatches if s.cross] == ["no anchor holds it"]


def test_every_colour_of_a_member_stands_in_the_legend_of_kinds(run: Run, scene: Scene) -> None:
    colouring = scene.colouring(ColourKey.KIND)
    named = {s.text: s.rgb for s in colouring.swatches}
    kinds = {m.name: m.kind for m in run.framing.members}
    for i, item in enumerate(scene.items):
        if item.kind is ItemKind.MEMBER:
            assert tuple(colouring.rgb[i]) == named[kinds[item.member]]


@pytest.mark.parametrize(
    ("low", "high", "ticks"),
    [
        (0.0, 1432.0, (0.0, 500.0, 1000.0, 1500.0)),
        (0.0, 86.0, (0.0, 20.0, 40.0, 60.0, 80.0, 100.0)),
        (163.0, 300.0, (150.0, 200.0, 250.0, 300.0)),
        (0.0, 0.0, None),
    ],
)
def test_ticks_are_round_figures_that_hold_the_range(low: float, high: float, ticks: tuple[float, ...] | None) -> None:
    found = nice_ticks(low, high)
    assert found[0] <= low <= high <= found[-1]
    assert ticks is None or found == ticks
