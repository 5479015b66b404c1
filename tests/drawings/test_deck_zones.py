"""The deck in three dimensions, cut by the wind's zones and coloured by what lifts each."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest
import shapely
from PIL import Image
from playwright.sync_api import Browser

from drawings.graphics import need_graphics
from drawings.seen_colours import SIGHT, lab
from drawings.visit import DESK, PHONE, visit
from export.deck_plan.words import zone_rows
from export.walkthrough.page import walkthrough_html
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import Run, make_run
from viewer.camera import View, standard_camera
from viewer.colours import ColourKey
from viewer.deck_zones import zone_letters, zone_pieces
from viewer.graphics import off_screen
from viewer.look import look_from
from viewer.overlay import frame_for
from viewer.picture import HEIGHT_PX, WIDTH_PX, picture_png
from viewer.pieces import ItemKind
from viewer.scene import Scene, build_scene
from viewer.stages import Stage
from viewer.suction import deck_suction

SAMPLES = ("cottage", "hip_house", "garage_wing", "bay_and_corners")
DECK_CHOICE = 4


@pytest.fixture(scope="module", params=SAMPLES)
def run(request: pytest.FixtureRequest, sample_run: Callable[[str], Run]) -> Run:
    return sample_run(request.param)


@pytest.fixture(scope="module")
def scene(run: Run) -> Scene:
    return build_scene(run)


def turned_house(deg: float) -> Run:
    """A gabled house whose W1 starts away from the origin, turned."""
    c, s = math.cos(math.radians(deg)), math.sin(math.radians(deg))
    corners = [[x * c - y * s + 100.0, x * s + y * c + 50.0] for x, y in ((0, 0), (46, 0), (46, 28), (0, 28))]
    text = (
        f'[walls]\noutline = {corners}\n[roof]\ntype = "gable"\npitch = "5:12"\n[wind]\nspeed = 150\nexposure = "C"\n'
    )
    return make_run(plan_from_text(text, "turned.toml"), shipped_catalogue())


def test_the_zones_cover_the_roof_once_and_each_has_its_own_area(run: Run) -> None:
    pieces = zone_pieces(run)
    plan_ft2 = sum(p.shape.area for p in pieces)
    assert plan_ft2 == pytest.approx(run.roof.plan_area_ft2, rel=1e-5)
    assert shapely.union_all([p.shape for p in pieces]).area == pytest.approx(plan_ft2, rel=1e-5)
    for zone in run.cover.deck.zones:
        sloped = sum(p.shape.area * math.hypot(1.0, *p.plane[:2]) for p in pieces if p.zone is zone)
        assert sloped == pytest.approx(zone.area_ft2, rel=1e-4)


@pytest.mark.parametrize("deg", [0.0, 30.0, 200.0])
def test_a_turned_house_has_its_zones_and_its_arrows_on_its_own_roof(deg: float) -> None:
    run = turned_house(deg)
    eave = shapely.Polygon(run.roof.eave_ft)
    assert shapely.union_all([p.shape for p in zone_pieces(run)]).symmetric_difference(eave).area < 1e-2
    arrows = deck_suction(run)
    assert all(eave.buffer(1e-6).covers(shapely.Point(p)) for p in arrows.foot_ft[:, :2])
    for face in run.roof.faces:
        a, b, c = (np.array(p) for p in face.ring_ft[:3])
        normal = np.cross(b - a, c - a) / np.linalg.norm(np.cross(b - a, c - a))
        inside = [k for k, p in enumerate(arrows.foot_ft) if shapely.Polygon(face.ring_ft).contains(shapely.Point(p))]
        assert inside
        assert arrows.normal[inside] == pytest.approx(np.tile(normal, (len(inside), 1)), abs=1e-4)


def test_every_letter_stands_in_its_own_zone_and_says_that_zones_suction(run: Run) -> None:
    pieces = {p.node: p for p in zone_pieces(run)}
    letters = list(zone_letters(run))
    assert {pieces[n.node].zone.name for n in letters} == {z.name for z in run.cover.deck.zones}
    for one in letters:
        piece = pieces[one.node]
        assert piece.shape.contains(shapely.Point(one.point_ft[:2]))
        assert one.text.endswith(f"{piece.zone.number}: {piece.zone.suction_psf:.0f} psf")


def test_a_zone_has_the_colour_that_the_legend_shows_at_its_suction(run: Run, scene: Scene) -> None:
    colouring = scene.colouring(ColourKey.DECK)
    low, high = float(colouring.ticks[0][1]), float(colouring.ticks[-1][1])
    zone_of = {p.node: p.zone for p in zone_pieces(run)}
    named = {s.text.partition(":")[0]: s.rgb for s in colouring.swatches}
    for i, item in enumerate(scene.items):
        if item.kind is ItemKind.ZONE:
            level = int(np.flatnonzero((colouring.ramp_rgb == colouring.rgb[i]).all(axis=1)).mean())
            assert low + level / 255 * (high - low) == pytest.approx(zone_of[item.node].suction_psf, abs=high / 100)
            assert tuple(colouring.rgb[i]) == named[zone_of[item.node].name]


@pytest.mark.parametrize("sight", SIGHT)
def test_a_harder_pull_is_darker_and_every_zone_darker_than_its_white_edge(scene: Scene, run: Run, sight: str) -> None:
    colouring = scene.colouring(ColourKey.DECK)
    psf = [z.suction_psf for z in run.cover.deck.zones]
    light = lab([s.rgb for s in colouring.swatches[: len(psf)]], sight)[:, 0]
    order = np.argsort(psf)
    assert np.all(np.diff(light[order]) <= 0.01)
    assert light.max() < 85.0


def test_the_legend_says_the_nails_that_the_sheet_says(run: Run, scene: Scene) -> None:
    for row, swatch in zip(zone_rows(run), scene.colouring(ColourKey.DECK).swatches, strict=False):
        name, psf, truss, gable, _ = row
        assert swatch.text.startswith(f"{name}: {psf} psf")
        assert (f"nails {truss}" in swatch.text) == (run.cover.deck.choice is not None)
        assert not gable or swatch.text.endswith(f"gable end {gable}")


def test_by_zone_the_labels_are_of_zones_and_walls_and_otherwise_of_no_zone(scene: Scene) -> None:
    zoned = scene.labels_of(ColourKey.DECK, Stage.DECK)
    assert any(n.zone for n in zoned)
    assert all(n.zone or n.stage is Stage.WALLS for n in zoned)
    assert not any(n.zone for n in scene.labels_of(ColourKey.UPLIFT, Stage.COVERING))


def test_nothing_is_drawn_over_the_deck_when_it_is_asked_for() -> None:
    assert look_from(colour="deck", view="corner", stage="covering").stage is Stage.DECK
    assert look_from(colour="uplift", view="corner", stage="covering").stage is Stage.COVERING


def test_in_the_picture_each_zone_in_sight_has_its_legend_colour(sample_run: Callable[[str], Run]) -> None:
    need_graphics()
    run = sample_run("cottage")
    scene = build_scene(run)
    left, top, width, height = frame_for(scene, WIDTH_PX, HEIGHT_PX).model_px
    camera = standard_camera(scene, View.PLAN, width, height)
    drawn = picture_png(run, colour="deck", view="plan", labels=False)
    pixels = np.asarray(Image.open(io.BytesIO(drawn)).convert("RGB")).astype(int)
    colouring = scene.colouring(ColourKey.DECK)
    item = {n.node: i for i, n in enumerate(scene.items)}
    for one in zone_letters(run):
        x, y, _ = camera.project(np.array(one.point_ft), width, height)[0]
        found = pixels[round(top + y), round(left + x)]
        assert abs(found - colouring.rgb[item[one.node]]).max() <= 3, one.node


def test_in_the_window_the_zones_stand_in_for_the_deck_until_the_covering_lies_on_it(
    sample_run: Callable[[str], Run],
) -> None:
    need_graphics()
    from viewer.sheet_layer import new_window
    from viewer.walk import Walk

    run = sample_run("hip_house")
    with off_screen():
        plotter = new_window((900, 640), "test", off_screen=True)
        walk = Walk(run, build_scene(run), look_from(colour="uplift", view="corner", stage="walls"), plotter)

        def decks() -> set[ItemKind]:
            drawn = [layer for layer in walk.layers if layer.actor.GetVisibility() and layer.kind is not None]
            return {layer.kind for layer in drawn}

        while walk.colour is not ColourKey.DECK:
            walk.press("c")
        assert (walk.stage, decks()) == (Stage.DECK, {ItemKind.ZONE})
        walk.press("6")
        assert (walk.stage, decks()) == (Stage.COVERING, {ItemKind.DECK})
        walk.press("5")
        assert decks() == {ItemKind.ZONE}
        walk.press("c")
        assert decks() == {ItemKind.DECK}
        plotter.close()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_on_the_page_the_deck_by_zone_is_lettered_and_goes_away_again(
    chromium: Browser, tmp_path: Path, sample_run: Callable[[str], Run], size: dict[str, object]
) -> None:
    run = sample_run("hip_house")
    path = tmp_path / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    house = visit(chromium, path, **size)
    house.settle()
    house.page.locator("#colourings input").nth(DECK_CHOICE).check()
    state = house.settle()
    assert state["stage"] == Stage.DECK
    texts = {label["text"] for label in state["labels"]}
    assert {"1: 48 psf", "2: 66 psf", "W1"} <= texts
    assert not any("-" in text for text in texts)
    legend = house.page.locator("#panel .legend").nth(DECK_CHOICE)
    assert legend.is_visible()
    assert 'overhang, zone 3: 91 psf, nails 4"' in legend.locator("li").all_text_contents()
    house.to_stage(int(Stage.COVERING))
    assert not any("psf" in label["text"] for label in house.settle()["labels"])
    house.to_stage(int(Stage.DECK))
    assert "1: 48 psf" in {label["text"] for label in house.settle()["labels"]}
    house.page.locator("#colourings input").nth(0).check()
    assert not any("psf" in label["text"] for label in house.settle()["labels"])
