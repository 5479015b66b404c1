"""The tour of the client's page: plain sentences, from the finished house down to the strap pulled hardest; a solid
house hides what is behind it; no two labels touch in any frame.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from drawings.visit import DESK, Visit, visit
from export.walkthrough.page import walkthrough_html
from framing.run import Run
from viewer.pieces import ItemKind
from viewer.scene import build_scene
from viewer.stages import Stage
from viewer.tour import MOST_WORDS, tour

SAMPLES = sorted(p.stem for p in (Path(__file__).parents[2] / "sample_plans").glob("*.toml"))
PHONE: dict[str, Any] = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}
PROMISES = ("cannot", "never", "safe", "guarantee", "will not", "lift off", "secure")


@pytest.mark.parametrize("sample", SAMPLES)
def test_every_sentence_is_short_and_promises_nothing(sample_run: Callable[[str], Run], sample: str) -> None:
    run = sample_run(sample)
    steps = tour(run)
    for step in steps:
        assert len(step.sentence.split()) <= MOST_WORDS, step.sentence
        assert step.sentence.endswith(".")
        assert step.sentence.count(". ") == 0
        assert not [word for word in PROMISES if word in step.sentence.lower()]
    assert (steps[0].stage, steps[-1].stage) == (Stage.FINISHED, Stage.FINISHED)
    anchored = [m for m in run.schedule.marks if not m.bearing.by_engineer]
    (hardest,) = [step.mark for step in steps if step.mark]
    assert max(anchored, key=lambda m: m.uplift_lb).mark == hardest
    held = next(m for m in anchored if m.mark == hardest).anchor is not None
    told = next(step.sentence for step in steps if step.mark)
    assert ("against the design wind" in told) == held
    assert ("the engineer decides" in told) != held


def test_a_house_that_nothing_lifts_has_no_hardest_strap(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    still = tuple(dataclasses.replace(m, uplift_lb=0.0) for m in run.schedule.marks)
    steps = tour(dataclasses.replace(run, schedule=dataclasses.replace(run.schedule, marks=still)))
    assert [step.mark for step in steps if step.mark] == []


def opened(browser: Browser, run: Run, folder: Path, **size: Any) -> Visit:
    path = folder / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    made = visit(browser, path, **size)
    made.settle()
    return made


@pytest.fixture(scope="module", params=[DESK, PHONE], ids=["desk", "phone"])
def house(
    request: pytest.FixtureRequest,
    chromium: Browser,
    sample_run: Callable[[str], Run],
    tmp_path_factory: pytest.TempPathFactory,
) -> Iterator[Visit]:
    made = opened(chromium, sample_run("garage_wing"), tmp_path_factory.mktemp("tour"), **request.param)
    yield made
    made.page.context.close()


def apart(labels: list[dict[str, Any]]) -> bool:
    return all(
        a["left"] + a["width"] <= b["left"]
        or b["left"] + b["width"] <= a["left"]
        or abs(a["top"] - b["top"]) >= a["height"]
        for i, a in enumerate(labels)
        for b in labels[:i]
    )


@pytest.mark.browser
def test_the_tour_walks_from_the_finished_house_to_the_hardest_strap_and_back(
    house: Visit, sample_run: Callable[[str], Run]
) -> None:
    page, steps = house.page, tour(sample_run("garage_wing"))
    expect(page.locator("#back")).to_be_disabled()
    for k, step in enumerate(steps):
        state = house.settle()
        expect(page.locator("#step-count")).to_have_text(f"Tour: {k + 1} of {len(steps)}")
        expect(page.locator("#stage-sentence")).to_have_text(step.sentence)
        assert state["stage"] == step.stage
        assert house.ask("closer()") == step.mark
        if k + 1 < len(steps):
            page.locator("#next").click()
    expect(page.locator("#next")).to_be_disabled()
    page.locator("#back").click()
    house.settle()
    assert house.ask("closer()") == steps[-2].mark
    for _ in steps[2:]:
        page.locator("#back").click()
    assert house.settle()["stage"] == Stage.FINISHED


@pytest.mark.browser
def test_no_two_labels_touch_in_any_frame_of_the_tour(house: Visit, sample_run: Callable[[str], Run]) -> None:
    frames = house.page.evaluate(
        """async (n) => {
          const frames = [];
          for (let k = 1; k < n; k++) {
            document.getElementById("next").click();
            for (let done = false; !done; ) {
              await new Promise(requestAnimationFrame);
              const { labels, moving, settled } = walkthrough.state();
              frames.push([moving, labels]);
              done = settled;
            }
          }
          return frames;
        }""",
        len(tour(sample_run("garage_wing"))),
    )
    assert sum(moving for moving, _ in frames) > 5
    assert all(apart(labels) for _, labels in frames)
    assert max(len(labels) for moving, labels in frames if moving) <= 1
    assert house.said == []
    for _ in range(7):
        house.page.locator("#back").click(force=True)
    house.settle()


@pytest.mark.browser
def test_a_solid_house_hides_its_deck_and_trusses(house: Visit, sample_run: Callable[[str], Run]) -> None:
    items = build_scene(sample_run("garage_wing")).items
    house.page.locator("#steps .step").nth(Stage.FINISHED).click()
    for view in ("corner", "front", "above"):
        house.page.locator(f"[data-view={view}]").click()
        house.settle()
        seen = {items[i].kind for i in house.ask("items()")}
        assert not seen & {ItemKind.DECK, ItemKind.MEMBER, ItemKind.FLOOR, ItemKind.ANCHOR}, view
        assert ItemKind.COVERING in seen
    assert ItemKind.NORTH in seen
    house.page.locator("#see-through").check()
    house.settle()
    assert ItemKind.MEMBER in {items[i].kind for i in house.ask("items()")}
    house.page.locator("#see-through").uncheck()


@pytest.mark.browser
def test_play_goes_on_by_itself_and_stops_when_anything_is_pressed(house: Visit) -> None:
    page = house.page
    page.locator("#play").click()
    expect(page.locator("#play")).to_have_text("Stop")
    first = page.locator("#step-count").text_content()
    page.wait_for_function("(was) => document.getElementById('step-count').textContent !== was", arg=first)
    page.locator("#picture").click()
    expect(page.locator("#play")).to_have_text("Play")


@pytest.mark.browser
def test_less_motion_shows_stills(chromium: Browser, sample_run: Callable[[str], Run], tmp_path: Path) -> None:
    run = sample_run("hip_house")
    made = opened(chromium, run, tmp_path, **DESK, reduced_motion="reduce")
    for step in tour(run)[1:]:
        state = made.page.evaluate("(document.getElementById('next').click(), walkthrough.state())")
        assert not state["moving"]
        assert state["stage"] == step.stage
    made.page.context.close()
