"""wall-marks.html driven in a real Chromium at phone size, from its file, as a crew lead would use it."""

from __future__ import annotations

import csv
import dataclasses
import io
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from drawings import marked_run
from export.wall_marks_page import wall_marks_html
from framing.run import CAUTION, Run

pytestmark = pytest.mark.browser

PHONE: dict[str, Any] = {"viewport": {"width": 375, "height": 740}, "has_touch": True, "is_mobile": True}
HEADER = ["mark", "set", "offset_in", "side", "note", "fingerprint", "caution"]
HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(2)> Дом"


@dataclasses.dataclass
class Phone:
    """A phone with one browser: pages opened one after the other share what is kept, and all requests are heard."""

    context: BrowserContext
    folder: Path
    requests: list[str] = dataclasses.field(default_factory=list)
    said: list[str] = dataclasses.field(default_factory=list)

    def open(self, run: Run) -> Page:
        path = self.folder / f"{run.fingerprint}.html"
        path.write_bytes(wall_marks_html(run))
        page = self.context.new_page()
        page.set_default_timeout(10_000)
        page.on("console", lambda message: self.said.append(message.text))
        page.on("pageerror", lambda error: self.said.append(str(error)))
        page.on("dialog", lambda dialog: (self.said.append(dialog.message), dialog.dismiss()))
        page.goto(path.as_uri())
        return page


@pytest.fixture
def phone(chromium: Browser, tmp_path: Path) -> Iterator[Phone]:
    context = chromium.new_context(**PHONE)
    made = Phone(context, tmp_path)
    context.on("request", lambda request: made.requests.append(request.url))
    yield made
    context.close()
    assert made.said == []
    assert all(url.startswith((tmp_path.as_uri(), "blob:")) for url in made.requests), made.requests


def card(page: Page, mark: str) -> Any:
    return page.locator(f'.mark[data-mark="{mark}"]')


def tick(page: Page, *marks: str) -> None:
    for mark in marks:
        card(page, mark).locator(".set").tap()


def as_built(page: Page, mark: str, *, offset: str = "", side: str = "", note: str = "") -> str:
    """Enters what is given and returns the page's word on it."""
    place = card(page, mark)
    if place.locator("details:not([open])").count():
        place.locator("summary").tap()
    if offset:
        place.locator(".offset").fill(offset)
    if side:
        place.locator(".side").select_option(side)
    if note:
        place.locator(".note").fill(note)
    return str(place.locator(".verdict").text_content())


def downloaded(page: Page) -> list[dict[str, str]]:
    with page.expect_download() as waiting:
        page.locator("#download").tap()
    data = Path(waiting.value.path()).read_bytes()
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\n") == data.count(b"\r\n")
    text = data.decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert list(rows[0]) == HEADER
    return rows


def test_ticks_survive_a_reload_and_the_list_equals_what_was_ticked(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    tick(page, "W1-01", "W1-03", "W1-05", "W1-06")
    tick(page, "W1-06")  # a tick taken back
    as_built(page, "W1-03", offset="-3/8", note='=SUM(A1), "bent"')
    as_built(page, "W1-02", side="far", offset="1 1/4")
    page.locator("#after").tap()
    tick(page, "W2-04")
    page.reload()
    assert page.locator("#wall-name").text_content() == "W2"
    assert card(page, "W2-04").locator("input[type=checkbox]").is_checked()
    page.locator("#before").tap()
    checked = [
        m
        for m in run.schedule.marks
        if m.wall == "W1" and m.resolved and card(page, m.mark).locator("input[type=checkbox]").is_checked()
    ]
    assert [m.mark for m in checked] == ["W1-01", "W1-03", "W1-05"]
    assert card(page, "W1-03").locator(".offset").input_value() == "-0.375"
    rows = downloaded(page)
    assert [r["mark"] for r in rows] == [m.mark for m in run.schedule.marks]
    entered = {r["mark"]: (r["set"], r["offset_in"], r["side"], r["note"]) for r in rows}
    expected = {m.mark: ("no", "", "", "") for m in run.schedule.marks} | {
        "W1-01": ("yes", "", "start", ""),
        "W1-02": ("no", "1.25", "far", ""),
        "W1-03": ("yes", "-0.375", "far", '\'=SUM(A1), "bent"'),
        "W1-05": ("yes", "", "both", ""),
        "W2-04": ("yes", "", "start", ""),
    }
    assert entered == expected
    assert {(r["fingerprint"], r["caution"]) for r in rows} == {(run.fingerprint, CAUTION)}


def test_the_copied_list_is_the_downloaded_one(phone: Phone) -> None:
    phone.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = phone.open(marked_run.house())
    tick(page, "W1-02")
    page.locator("#copy").tap()
    page.get_by_text("Copied.").wait_for()
    copied = page.evaluate("navigator.clipboard.readText()")
    assert list(csv.DictReader(io.StringIO(copied, newline=""))) == downloaded(page)


def test_the_counter_tells_what_is_set_and_what_has_no_anchor(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    counter = page.locator("#wall-count")
    assert counter.text_content() == "W1: 0 of 21 set, 1 NO ANCHOR"
    tick(page, "W1-01", "W1-02")
    assert counter.text_content() == "W1: 2 of 21 set, 1 NO ANCHOR"
    assert page.locator("#all-count").text_content() == "All walls: 2 of 66 set, 2 NO ANCHOR."
    open_mark = card(page, "W1-08")
    assert open_mark.locator("input").count() == 0
    said = " ".join(open_mark.inner_text().split())
    assert "NO ANCHOR in the catalogue holds 3830 lb up, 41 lb along the wall and 284 lb square to it" in said


def test_the_bands_are_an_eighth_and_a_half_inch_and_the_right_side(phone: Phone) -> None:
    # Common practice, no source: 1/8 in. good, up to 1/2 in. a filler, beyond that or the wrong side the engineer.
    page = phone.open(marked_run.house())
    says = {offset: as_built(page, "W1-02", offset=offset) for offset in ("0", "1/8", "-0.13", "1/2", "0,51", "-1 1/2")}
    assert says == {
        "0": "0 in., good",
        "1/8": "0.125 in., good",
        "-0.13": "-0.13 in., NEEDS A FILLER",
        "1/2": "0.5 in., NEEDS A FILLER",
        "0,51": "0.51 in., TOO FAR: not acceptable without the engineer",
        "-1 1/2": "-1.5 in., TOO FAR: not acceptable without the engineer",
    }
    assert as_built(page, "W1-02", offset="0", side="far") == "WRONG SIDE: not acceptable without the engineer"
    for wrong in ("half", "1/0", "1//2", "1e3", "2' 1\""):
        assert as_built(page, "W1-04", offset=wrong) == "not measured"
        assert card(page, "W1-04").locator(".wrong").is_visible()
        assert card(page, "W1-04").locator(".offset").get_attribute("aria-invalid") == "true"
    card(page, "W1-05").locator("summary").tap()
    card(page, "W1-05").locator(".more").tap()
    card(page, "W1-05").locator(".more").tap()
    assert card(page, "W1-05").locator(".verdict").text_content() == "0.25 in., NEEDS A FILLER"


def test_ticks_of_another_plan_are_told_and_not_shown(phone: Phone) -> None:
    first = marked_run.house()
    tick(phone.open(first), "W1-01", "W1-02", "W1-03")
    page = phone.open(dataclasses.replace(first, fingerprint="ffff0000"))
    warning = page.locator("#other-plan")
    expect(warning).to_be_visible()  # the browser may hand the first tab's ticks on a moment after the page stands
    assert "THE PLAN HAS CHANGED. This phone holds 3 ticks for plan 0a1b2c3d" in str(warning.text_content())
    assert page.locator("#wall-count").text_content() == "W1: 0 of 21 set, 1 NO ANCHOR"
    expect(phone.open(first).locator("#wall-count")).to_have_text("W1: 3 of 21 set, 1 NO ANCHOR")
    other_house = dataclasses.replace(marked_run.house("Pelican Row 3 (invented)"), fingerprint="eeee0000")
    assert phone.open(other_house).locator("#other-plan").is_hidden()


def test_two_tabs_of_one_plan_keep_each_others_ticks(phone: Phone) -> None:
    one, two = phone.open(marked_run.house()), phone.open(marked_run.house())
    tick(one, "W1-01")
    expect(two.locator("#wall-count")).to_have_text("W1: 1 of 21 set, 1 NO ANCHOR")
    two.locator("#after").tap()
    tick(two, "W2-04")
    expect(one.locator("#all-count")).to_have_text("All walls: 2 of 66 set, 2 NO ANCHOR.")
    tick(one, "W1-02")
    expect(two.locator("#all-count")).to_have_text("All walls: 3 of 66 set, 2 NO ANCHOR.")
    assert one.locator("#wall-name").text_content() == "W1"
    assert {r["mark"] for r in downloaded(two) if r["set"] == "yes"} == {"W1-01", "W1-02", "W2-04"}


def test_a_hostile_project_name_is_text(phone: Phone) -> None:
    page = phone.open(marked_run.house(HOSTILE))
    tick(page, "W1-01")
    assert page.locator("#project").text_content() == HOSTILE
    assert page.title() == f"Wall marks, {HOSTILE}"
    assert page.locator("img").count() == 0
    phone.open(dataclasses.replace(marked_run.house(HOSTILE), fingerprint="ffff0000"))


def test_damaged_ticks_in_the_store_do_no_harm(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    for kept in (
        "{",
        "[]",
        "null",
        '{"marks": null}',
        '{"marks": {"W1-01": 7, "W1-02": {"set": "yes", "side": "toString"}}}',
    ):
        page.evaluate(
            "([key, kept]) => localStorage.setItem(key, kept)", [f"strapline wall marks {run.fingerprint}", kept]
        )
        page.reload()
        assert page.locator("#wall-count").text_content() == "W1: 0 of 21 set, 1 NO ANCHOR"
        assert {r["set"] for r in downloaded(page)} == {"no"}


def test_a_browser_that_keeps_nothing_is_told(phone: Phone) -> None:
    phone.context.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } })")
    page = phone.open(marked_run.house())
    assert "does not keep ticks" in str(page.locator("#storage").text_content())
    tick(page, "W1-01")
    assert downloaded(page)[0]["set"] == "yes"


def test_the_keyboard_alone_is_enough(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    page.keyboard.press("ArrowRight")
    assert page.locator("#wall-name").text_content() == "W2"
    page.keyboard.press("Tab")
    page.keyboard.press("Space")
    assert card(page, "W2-01").locator("input[type=checkbox]").is_checked()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.type("1/4")
    page.keyboard.press("ArrowLeft")  # in a field the arrow moves the caret, not the wall
    assert page.locator("#wall-name").text_content() == "W2"
    assert downloaded(page)[22]["offset_in"] == "0.25"


def test_a_swipe_shows_the_next_wall(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    swipe = """([from, to]) => {
        const area = document.getElementById("wall");
        const touch = x => new Touch({ identifier: 1, target: area, clientX: x, clientY: 300 });
        area.dispatchEvent(new TouchEvent("touchstart", { touches: [touch(from)], changedTouches: [touch(from)] }));
        area.dispatchEvent(new TouchEvent("touchend", { touches: [], changedTouches: [touch(to)] }));
    }"""
    seen = []
    for ends in ([300, 100], [300, 260], [100, 300], [100, 300]):
        page.evaluate(swipe, ends)
        seen.append(page.locator("#wall-name").text_content())
    assert seen == ["W2", "W2", "W1", "W1"]


@pytest.mark.parametrize("width", [320, 375, 430])
def test_nothing_is_cut_off_and_every_control_is_large_enough_for_a_glove(phone: Phone, width: int) -> None:
    page = phone.open(marked_run.crowded())
    page.set_viewport_size({"width": width, "height": 700})
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true; })")
    assert page.evaluate("document.documentElement.scrollWidth") == width
    cut = """[...document.querySelectorAll("body *")]
        .filter(e => e.clientWidth > 1 && e.scrollWidth > e.clientWidth + 1 && getComputedStyle(e).display !== "inline")
        .map(e => e.className || e.tagName)"""
    assert page.evaluate(cut) == []
    # 44 px: the larger of the two target sizes of WCAG 2.2, 2.5.5 (from memory).
    sizes = """[...document.querySelectorAll("button, select, summary, .set, input[type=text]")]
        .map(e => e.getBoundingClientRect()).map(b => Math.min(b.width, b.height)).filter(s => s > 0)"""
    assert min(page.evaluate(sizes)) >= 44


def test_the_page_reads_black_on_white_in_large_type(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    assert page.evaluate("getComputedStyle(document.body).color + getComputedStyle(document.body).backgroundColor") == (
        "rgb(0, 0, 0)rgb(255, 255, 255)"
    )
    size = page.evaluate("parseFloat(getComputedStyle(document.querySelector('.start')).fontSize)")
    assert size >= 32
    smallest = """Math.min(...[...document.querySelectorAll("header p, main *, section *, nav *")]
        .filter(e => e.tagName !== "OPTION" && e.textContent.trim() !== "")
        .map(e => parseFloat(getComputedStyle(e).fontSize)))"""
    assert page.evaluate(smallest) >= 14


def test_the_x_stands_on_the_side_of_the_truss_and_the_arrow_on_the_strap_s(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    drawn = page.evaluate("""[...document.querySelectorAll(".tick")].map(tick => {
        const box = name => tick.querySelector(name).getBoundingClientRect();
        const middle = name => box(name).left + box(name).width / 2;
        const line = middle(".line"), says = tick.querySelector(".rest").textContent.split(" side")[0];
        return [middle(".cross") > line, middle(".head") < line, says];
    })""")
    faces = {"start": [True, True, "strap on the START"], "far": [False, False, "strap on the far"]}
    sides = [m.side.value for m in run.schedule.marks if m.wall == "W1"]
    assert drawn == [faces[face] for side in sides for face in (["start", "far"] if side == "both" else [side])]
