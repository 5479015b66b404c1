"""'Look closer' on the client's page: the strap is in sight at every mark, the bars are the schedule's figures."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, expect

from drawings.marked_run import A_FEW
from drawings.visit import DESK, Visit, visit
from export.walkthrough.page import walkthrough_html
from framing.run import Run
from viewer.closer import closers

pytestmark = pytest.mark.browser
TALL: dict[str, Any] = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}
LEAST_PIXELS = 40
"""What the issue asks for at each mark."""


def opened(browser: Browser, run: Run, folder: Path, **size: Any) -> Visit:
    path = folder / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    made = visit(browser, path, **size, reduced_motion="reduce")
    made.settle()
    return made


@pytest.mark.parametrize("sample", A_FEW)
def test_every_marks_strap_is_in_sight_on_a_phone(
    chromium: Browser, sample_run: Callable[[str], Run], tmp_path: Path, sample: str
) -> None:
    run = sample_run(sample)
    made = opened(chromium, run, tmp_path, **TALL)
    pixels = made.page.evaluate("walkthrough.marks.map((mark) => walkthrough.strapPixels(mark))")
    anchored = [m.anchor is not None for m in run.schedule.marks]
    assert [n > 0 for n in pixels] == anchored
    assert min(n for n, there in zip(pixels, anchored, strict=True) if there) >= LEAST_PIXELS
    assert made.said == []
    made.page.context.close()


@pytest.fixture(scope="module")
def house(chromium: Browser, sample_run: Callable[[str], Run], tmp_path_factory: pytest.TempPathFactory) -> Visit:
    return opened(chromium, sample_run("garage_wing"), tmp_path_factory.mktemp("closer"), **DESK)


def test_pull_and_allowed_stand_side_by_side_as_long_as_their_pounds(
    house: Visit, sample_run: Callable[[str], Run]
) -> None:
    page, run = house.page, sample_run("garage_wing")
    page.locator("#picture").focus()
    for mark in run.schedule.marks[:4]:
        page.keyboard.press("n")
        assert house.settle()["chosen"] == mark.mark
        assert mark.allowable_uplift_lb is not None
        told = page.locator("#card .pulls b").all_text_contents()
        assert told == [f"{mark.uplift_lb:,.0f} lb", f"{mark.allowable_uplift_lb:,.0f} lb"]
        wide = [box["width"] for bar in page.locator("#card .pulls i").all() if (box := bar.bounding_box())]
        edges = 4
        assert (wide[0] - edges) / (wide[1] - edges) == pytest.approx(
            mark.uplift_lb / mark.allowable_uplift_lb, abs=0.02
        )
    page.keyboard.press("Escape")


def test_looking_closer_ends_where_it_began_and_its_names_never_touch(
    house: Visit, sample_run: Callable[[str], Run]
) -> None:
    page = house.page
    page.locator("#picture").focus()
    page.keyboard.press("n")
    before = house.settle()
    page.locator("#card .nearer").click()
    shown = house.settle()
    assert house.ask("closer()") == before["chosen"]
    assert {label["text"] for label in shown["labels"]} >= {"strap", "nails", "truss", "tie beam", "block"}
    assert any(label["text"].startswith("bars: 2 #5") for label in shown["labels"])
    for i, a in enumerate(shown["labels"]):
        for b in shown["labels"][:i]:
            apart = a["left"] + a["width"] <= b["left"] or b["left"] + b["width"] <= a["left"]
            assert apart or abs(a["top"] - b["top"]) >= 18, (a["text"], b["text"])
    said = closers(sample_run("garage_wing"))[0].words
    expect(page.locator("#card .drawn")).to_have_text(" ".join(said))
    expect(page.locator("#card .nearer")).to_have_text("Back to the house")
    page.locator("#card .nearer").click()
    after = house.settle()
    assert after["distance"] == pytest.approx(before["distance"])
    assert after["target"] == pytest.approx(before["target"])
    page.keyboard.press("Escape")


def test_a_stage_or_a_view_brings_the_house_back(house: Visit) -> None:
    for press in ("#steps .step >> nth=3", "[data-view=front]"):
        house.page.locator("#picture").focus()
        house.page.keyboard.press("n")
        house.page.keyboard.press("Enter")
        house.settle()
        assert house.ask("closer()")
        house.page.locator(press).click()
        house.settle()
        assert house.ask("closer()") == ""
    house.page.keyboard.press("Escape")
