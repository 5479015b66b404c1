"""walkthrough.html in a real browser: what people see and do, at desk and phone size, with and without 3D."""

from __future__ import annotations

import csv
import io
import itertools
import math
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from drawings.visit import DESK, PHONE, Visit, changed, visit
from export.tables.schedule import schedule_csv
from export.walkthrough.page import walkthrough_html
from framing.run import CAUTION, Run
from framing.stronger import stronger_roof
from viewer.colours import colourings
from viewer.scene import build_scene
from viewer.stages import STAGES
from viewer.suction import deck_suction

pytestmark = pytest.mark.browser

LEAST_CONTRAST = (Path(__file__).parent / "least_contrast.js").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    return sample_run("garage_wing")


@pytest.fixture(scope="module")
def path(run: Run, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("walkthrough") / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    return path


@pytest.fixture(scope="module", params=[DESK, PHONE], ids=["desk", "phone"])
def opened(request: pytest.FixtureRequest, chromium: Browser, path: Path) -> Iterator[Visit]:
    """One visit for the tests of a size; each test starts from the trusses, looked at from the corner."""
    made = visit(chromium, path, **request.param)
    made.settle()
    yield made
    made.page.context.close()


@pytest.fixture
def house(opened: Visit) -> Visit:
    opened.page.keyboard.press("Escape")
    opened.to_stage(3)
    opened.page.locator("[data-view=corner]").click()
    opened.settle()
    return opened


def test_the_house_is_painted_and_every_stage_changes_the_picture(house: Visit) -> None:
    house.page.locator("#show-labels").uncheck()
    house.page.add_style_tag(content=".bare canvas { visibility: hidden }")
    toggle = "document.documentElement.classList.toggle('bare')"
    pictures = []
    for i, stage in enumerate(STAGES):
        house.to_stage(i)
        expect(house.page.locator("#stage-name")).to_have_text(stage.title)
        expect(house.page.locator("#stage-sentence")).to_have_text(stage.sentence)
        pictures.append(house.picture())
    house.page.evaluate(toggle)
    empty = house.picture()
    house.page.evaluate(toggle)
    house.page.locator("#show-labels").check()
    assert changed(empty, pictures[0]) > 0.2
    assert min(changed(a, b) for a, b in itertools.pairwise(pictures)) > 0.005


def test_page_down_walks_through_all_stages_and_stops_at_the_last(house: Visit) -> None:
    house.to_stage(0)
    house.page.locator("#picture").focus()
    for _ in (*STAGES, None):
        house.page.keyboard.press("PageDown")
    expect(house.page.locator("#step-count")).to_have_text(f"Stage {len(STAGES)} of {len(STAGES)}")
    assert house.settle()["stage"] == len(STAGES) - 1


def test_a_tapped_bearing_shows_the_figures_of_the_schedule(house: Visit, run: Run) -> None:
    rows = {r["mark"]: r for r in csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig")))}
    touch = house.page.evaluate("matchMedia('(pointer: coarse)').matches")
    seen = house.ask("seen()")
    assert len(seen) > 30
    for mark in seen[:: len(seen) // 8]:
        (house.page.touchscreen.tap if touch else house.page.mouse.click)(*house.at(mark))
        chosen = house.settle()["chosen"]
        assert math.dist(house.at(chosen), house.at(mark)) < 6
        card, row = house.card(), rows[chosen]
        expect(house.page.locator("#card h2")).to_have_text(f"Bearing {chosen}")
        assert card["Member"] == row["member"]
        assert float(card["Uplift, lb"].replace(",", "")) == pytest.approx(float(row["uplift_lb"]), abs=0.51)
        assert f"({row['anchor']})" in card["Anchor"]
        assert float(card["Share used"]) == pytest.approx(float(row["ratio"]), abs=0.0051)


def test_a_bearing_under_the_mouse_names_its_pull_and_its_anchor(chromium: Browser, path: Path, run: Run) -> None:
    made = visit(chromium, path, **DESK)
    made.settle()
    made.to_stage(3)
    mark = made.ask("seen()")[3]
    made.page.mouse.move(*made.at(mark))
    found = next(m for m in run.schedule.marks if m.mark == mark)
    expect(made.page.locator("#tip")).to_contain_text(f"{mark}: {found.uplift_lb:,.0f} lb up")
    made.page.context.close()


def test_labels_never_touch_and_can_be_turned_off(house: Visit) -> None:
    for view in ("corner", "front", "above"):
        house.page.locator(f"[data-view={view}]").click()
        labels = house.settle()["labels"]
        assert len(labels) >= 4
        for i, a in enumerate(labels):
            for b in labels[:i]:
                apart = (
                    a["left"] + a["width"] <= b["left"]
                    or b["left"] + b["width"] <= a["left"]
                    or abs(a["top"] - b["top"]) >= 18
                )
                assert apart, (view, a["text"], b["text"])
    house.page.locator("#show-labels").uncheck()
    assert house.settle()["labels"] == []
    house.page.locator("#show-labels").check()


def test_each_colouring_has_its_own_legend_and_changes_the_picture(house: Visit, run: Run) -> None:
    pictures = []
    stronger = stronger_roof(run)
    assert stronger
    for i, colouring in enumerate(colourings(run, build_scene(run).items, (stronger.schedule,))):
        house.page.locator("#colourings input").nth(i).check()
        title, *others = house.page.locator("#panel .legend:visible p").all_text_contents()
        said = [colouring.sentence] if colouring.sentence else []
        assert (title, others) == (f"{colouring.title}, {colouring.unit}".removesuffix(", "), said)
        assert house.page.locator("#panel .legend:visible .ticks span").count() == len(colouring.ticks)
        assert house.page.locator("#panel .legend:visible li").count() == len(colouring.swatches)
        pictures.append(house.picture())
    house.page.locator("#colourings input").nth(0).check()
    assert min(changed(a, b) for i, a in enumerate(pictures) for b in pictures[:i]) > 0.005


def test_a_keyboard_alone_is_enough(house: Visit, run: Run) -> None:
    house.page.locator("#picture").focus()
    before = house.settle()
    for key in ("ArrowLeft", "ArrowUp", "+", "Shift+ArrowRight"):
        house.page.keyboard.press(key)
    after = house.settle()
    assert all(before[name] != after[name] for name in ("turn", "tilt", "distance", "target"))
    house.page.keyboard.press("n")
    house.page.keyboard.press("n")
    house.page.keyboard.press("p")
    assert house.settle()["chosen"] == run.schedule.marks[0].mark
    expect(house.page.locator("#card")).to_be_visible()
    house.page.keyboard.press("Enter")
    assert house.settle()["distance"] < 15
    assert house.ask("closer()") == run.schedule.marks[0].mark
    house.page.keyboard.press("Enter")
    house.settle()
    assert house.ask("closer()") == ""
    house.page.keyboard.press("PageDown")
    house.page.keyboard.press("c")
    state = house.settle()
    assert (state["stage"], state["colouring"]) == (4, 1)
    house.page.keyboard.press("Escape")
    assert house.settle()["chosen"] == ""
    house.page.locator("#colourings input").nth(0).check()


def test_another_wind_counts_the_anchors_that_it_would_overcome(house: Visit, run: Run) -> None:
    good_to = [m.good_to_mph or 999.0 for m in run.schedule.marks if m.anchor is not None]
    for mph in (80, 120, 250, 300):
        house.page.locator("#gale-mph").fill(str(mph))
        n = sum(v < mph for v in good_to)
        expect(house.page.locator("#gale-count")).to_have_text(re.compile(f"^{n} of {len(good_to)} anchors"))
    house.page.locator("#gale-mph").fill(str(int(run.plan.wind.speed_mph)))


def test_a_solid_roof_hides_its_trusses_and_arrows_stand_on_it(house: Visit, run: Run) -> None:
    house.to_stage(len(STAGES) - 1)
    house.page.locator("#see-through").check()
    house.settle()
    glass = house.picture()
    house.page.locator("#see-through").uncheck()
    house.settle()
    assert changed(glass, house.picture()) > 0.05
    assert house.ask("state()")["arrows"] == 0
    house.page.locator("#show-arrows").check()
    house.page.locator("[data-view=above]").click()
    assert house.settle()["arrows"] == len(deck_suction(run).psf)
    house.page.locator("#show-arrows").uncheck()
    house.page.locator("[data-view=corner]").click()
    house.settle()


def test_the_caution_is_in_sight_from_top_to_bottom_of_the_page(house: Visit) -> None:
    for share in (0, 0.5, 1):
        house.page.evaluate(f"scrollTo(0, document.body.scrollHeight * {share})")
        box = house.page.locator("#caution").bounding_box()
        size = house.page.viewport_size
        assert box
        assert size
        assert box["y"] >= 0
        assert box["y"] + box["height"] <= size["height"] + 1
    assert house.page.locator("#caution").text_content() == f"Caution. {CAUTION}"
    house.page.evaluate("scrollTo(0, 0)")


def test_all_text_stands_out_from_what_is_behind_it(house: Visit) -> None:
    ratio, where = house.page.evaluate(LEAST_CONTRAST)
    assert ratio >= 4.5, where  # WCAG 2.1, 1.4.3 (from memory)


def test_nothing_is_wider_than_the_screen(house: Visit) -> None:
    assert house.page.evaluate("document.documentElement.scrollWidth <= innerWidth")


def test_the_console_stays_clean_and_no_request_leaves_the_file(house: Visit, path: Path) -> None:
    assert house.said == []
    assert [url for url in house.requests if not url.startswith(("data:", "blob:"))] == [path.as_uri()]


def test_two_fingers_zoom(chromium: Browser, path: Path) -> None:
    made = visit(chromium, path, **PHONE)
    before = made.settle()["distance"]
    touch = made.page.context.new_cdp_session(made.page)
    for kind, apart in (("touchStart", 40), ("touchMove", 70), ("touchMove", 120)):
        points = [{"x": 195 + way * apart, "y": 250, "id": i} for i, way in enumerate((-1, 1))]
        touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    touch.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    state = made.settle()
    assert state["distance"] == pytest.approx(before * 40 / 120, rel=0.2)
    assert state["chosen"] == ""
    made.page.context.close()


def test_less_motion_turns_at_once(chromium: Browser, path: Path) -> None:
    tilts = {}
    for motion in ("reduce", "no-preference"):
        made = visit(chromium, path, **DESK, reduced_motion=motion)
        made.settle()
        tilts[motion] = made.page.evaluate(
            "(document.querySelector('[data-view=above]').click(), walkthrough.state().tilt)"
        )
        assert made.settle()["tilt"] == pytest.approx(1.55)
        made.page.context.close()
    assert tilts["reduce"] == pytest.approx(1.55)
    assert tilts["no-preference"] < 1.0
