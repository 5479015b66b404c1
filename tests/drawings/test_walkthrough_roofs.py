"""Two roofs on the page: their counts are those of two runs, one camera turns both, and each shows its own straps."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from drawings.visit import DESK, PHONE, Visit, changed, visit
from export.tables.run_json import run_json
from export.walkthrough.page import walkthrough_html
from framing.run import Run, make_run
from framing.stronger import stronger_roof
from viewer.two_roofs import NO_LARGER

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    return sample_run("garage_wing")


@pytest.fixture(scope="module")
def larger(run: Run) -> Run:
    plan = replace(run.plan, anchors=replace(run.plan.anchors, minimum="stout"))
    return make_run(plan, run.schedule.catalogue)


@pytest.fixture(scope="module", params=[DESK, pytest.param(PHONE, marks=pytest.mark.full)], ids=["desk", "phone"])
def opened(
    request: pytest.FixtureRequest, chromium: Browser, run: Run, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Visit]:
    path = tmp_path_factory.mktemp("roofs") / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    made = visit(chromium, path, **request.param)
    made.settle()
    made.page.locator("#two-roofs").click()
    made.settle()
    yield made
    assert made.said == []
    made.page.context.close()


def past(run: Run, mph: float) -> str:
    """The count that run.json gives."""
    marks = json.loads(run_json(run))["bearings"]
    held = [m["good_to_mph"] or 999.0 for m in marks if m["anchor"]]
    return f"{sum(v < mph for v in held)} of {len(held)}"


def test_the_counts_at_every_step_of_the_wind_are_those_of_two_runs(opened: Visit, run: Run, larger: Run) -> None:
    for mph in range(80, 301, 5):
        opened.page.locator("#gale-mph").fill(str(mph))
        said = opened.page.locator("#gale-count").text_content() or ""
        assert f"As planned {past(run, mph)} anchors, one size up {past(larger, mph)} would" in said, mph
        if mph % 50 == 0:
            opened.settle()
            expect(opened.page.locator("#pane-planned")).to_have_text(f"As planned {past(run, mph)} past")
            expect(opened.page.locator("#pane-larger")).to_have_text(f"One size up {past(larger, mph)} past")
    opened.page.locator("#gale-mph").fill(str(int(run.plan.wind.speed_mph)))


def test_one_camera_turns_both_and_each_pane_is_half_of_the_picture(opened: Visit) -> None:
    opened.page.locator("[data-view=above]").click()
    opened.settle()
    above = opened.picture()
    opened.page.locator("[data-view=corner]").click()
    opened.settle()
    corner = opened.picture()
    beside = above.width > 1.35 * above.height
    size = (above.width // 2, above.height) if beside else (above.width, above.height // 2)
    for k in (0, 1):
        box = (k * size[0], 0, (k + 1) * size[0], size[1]) if beside else (0, k * size[1], size[0], (k + 1) * size[1])
        assert changed(above.crop(box), corner.crop(box)) > 0.05


def test_the_card_of_a_mark_says_what_holds_it_one_size_up(opened: Visit, run: Run) -> None:
    found = stronger_roof(run)
    assert found
    i = found.changed[0]
    opened.page.locator("#picture").focus()
    opened.page.keyboard.press("Escape")
    for _ in range(i + 1):
        opened.page.keyboard.press("n")
    assert opened.settle()["chosen"] == run.schedule.marks[i].mark
    said = opened.page.locator("#card > p").text_content() or ""
    assert f"allowed {found.schedule.marks[i].allowable_uplift_lb:,.0f} lb upward ({found.least.name})" in said
    opened.page.keyboard.press("Escape")


def test_labels_of_the_two_panes_never_touch(opened: Visit) -> None:
    labels = opened.settle()["labels"]
    assert len({label["text"] for label in labels}) < len(labels)
    for i, a in enumerate(labels):
        for b in labels[:i]:
            beside = a["left"] + a["width"] <= b["left"] or b["left"] + b["width"] <= a["left"]
            assert beside or abs(a["top"] - b["top"]) >= 18, (a["text"], b["text"])


def test_one_roof_comes_back(opened: Visit) -> None:
    opened.page.locator("#two-roofs").click()
    opened.settle()
    expect(opened.page.locator("#pane-larger")).to_be_hidden()
    expect(opened.page.locator("#two-roofs")).to_have_attribute("aria-pressed", "false")
    opened.page.locator("#two-roofs").click()
    opened.settle()


def test_a_roof_of_the_largest_straps_offers_no_second_one(chromium: Browser, larger: Run, tmp_path: Path) -> None:
    path = tmp_path / "largest.html"
    path.write_bytes(walkthrough_html(larger))
    made = visit(chromium, path, **DESK)
    made.settle()
    expect(made.page.locator("#two")).to_have_text(NO_LARGER)
    assert made.page.locator("#two-roofs").count() == 0
    assert made.said == []
    made.page.context.close()
