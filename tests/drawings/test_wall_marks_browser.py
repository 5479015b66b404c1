"""wall-marks.html driven in a real Chromium at phone size, from its file, as a crew lead would use it."""

from __future__ import annotations

import csv
import dataclasses
import io
import re
from dataclasses import replace

import pytest
from playwright.sync_api import expect

from drawings import marked_run
from drawings.phone import Phone, as_built, card, downloaded, pick, strap, tick

pytestmark = pytest.mark.browser

HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(2)> Дом"


def test_the_copied_list_is_the_downloaded_one(phone: Phone) -> None:
    phone.context.grant_permissions(["clipboard-read", "clipboard-write"])
    page = phone.open(marked_run.house())
    tick(page, "W1-02")
    page.locator("#copy").tap()
    page.get_by_text("Copied.").wait_for()
    copied = page.evaluate("navigator.clipboard.readText()")
    assert list(csv.DictReader(io.StringIO(copied, newline=""))) == downloaded(page)


def test_the_counter_tells_every_state_and_what_has_no_anchor(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    counter = page.locator("#wall-count")
    expect(counter).to_have_text("W1: 0 of 22 set; 22 to set, 0 missing, 0 wrong, 1 ask (1 NO ANCHOR)")
    tick(page, "W1-01", "W1-02")
    for mark, state in (("W1-03", "missing"), ("W1-04", "wrong"), ("W1-06", "ask")):
        pick(page, mark, state)
    expect(counter).to_have_text("W1: 2 of 22 set; 17 to set, 1 missing, 1 wrong, 2 ask (1 NO ANCHOR)")
    expect(page.locator("#all-count")).to_have_text(
        "All walls: 2 of 67 set; 62 to set, 1 missing, 1 wrong, 3 ask (2 NO ANCHOR)."
    )
    assert strap(page, "W1-08").locator("input").count() == 0
    demand = "NO ANCHOR in the catalogue holds 3830 lb up, 41 lb along the wall and 284 lb square to it"
    expect(card(page, "W1-08")).to_contain_text(demand)


def test_a_pair_has_a_box_for_each_of_its_straps(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    pick(page, "W1-05", "set", 1)
    pick(page, "W1-05", "missing", 2)
    rows = {(r["mark"], r["strap"]): r for r in downloaded(page)}
    first, second = rows["W1-05", "1"], rows["W1-05", "2"]
    assert [first[k] for k in ("set", "state", "side", "tape")] == ["yes", "set", "start", "8'-11 1/4\""]
    assert [second[k] for k in ("set", "state", "side", "tape")] == ["no", "missing", "", "9'-0 3/4\""]


def test_the_bands_of_the_plan_say_what_an_offset_comes_to_by_the_side_of_the_wood(phone: Phone) -> None:
    """Common practice, no source: away from its wood 1/8 in. good, 1/2 in. a filler, over 1-1/2 in. out of reach; into
    its wood the truss shifts, and 1-1/2 in. in one ply is the other face. A strap on the START side goes away from its
    wood toward START.
    """
    page = phone.open(marked_run.house())
    says = {
        offset: as_built(page, "W1-02", offset=offset)
        for offset in ("0", "-1/8", "-0.13", "-1/2", "-0,51", "-1 1/2", "-1.6", "1/8", "3/4", "1", "1 1/2", "3 1/4")
    }
    assert says == {
        "0": "good: gap 0 in.",
        "-1/8": "good: gap 1/8 in.",
        "-0.13": "FILLER: gap 1/8 in.: a filler between strap and truss",
        "-1/2": "FILLER: gap 1/2 in.: a filler between strap and truss",
        "-0,51": "ASK: gap 1/2 in.: over a filler's 1/2 in.",
        "-1 1/2": "ASK: gap 1 1/2 in.: over a filler's 1/2 in.",
        "-1.6": "OUT OF REACH: gap 1 5/8 in.: over 1 1/2 in.",
        "1/8": "good: 1/8 in. into its truss, within what is good",
        "3/4": "SHIFT: 3/4 in. into its wood: the truss would have to shift 3/4 in.",
        "1": "SHIFT: 1 in. into its wood: the truss would have to shift 1/2 in., the strap then on its other face",
        "1 1/2": "WRONG SIDE: at the truss's other face",
        "3 1/4": "OUT OF REACH: past the other face by 1 3/4 in.",
    }
    away = "FILLER: gap 1/4 in.: a filler between strap and truss"
    assert as_built(page, "W1-03", offset="1/4") == away  # on the far side
    assert as_built(page, "W1-02", offset="0", side="far") == (
        "WRONG SIDE: it stands on the far side, the plan has start"
    )
    # At 45 degrees an inch along the wall is 0.707 in. off the truss's face.
    assert as_built(page, "W1-01", offset="-1") == "ASK: gap 11/16 in.: over a filler's 1/2 in."
    for wrong in ("half", "1/0", "1//2", "1e3", "2' 1\""):
        assert as_built(page, "W1-04", offset=wrong) == "not measured"
        assert strap(page, "W1-04").locator(".offset-bad").is_visible()
        assert strap(page, "W1-04").locator(".offset").get_attribute("aria-invalid") == "true"
    strap(page, "W1-06").locator("summary").tap()
    strap(page, "W1-06").locator(".less").tap()
    strap(page, "W1-06").locator(".less").tap()
    expect(strap(page, "W1-06").locator(".verdict")).to_have_text(
        "As built: FILLER: gap 1/4 in.: a filler between strap and truss"
    )


def test_a_wrong_strap_never_counts_as_set(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    tick(page, "W1-02", "W1-03", "W1-04", "W1-06", "W1-07")
    as_built(page, "W1-02", side="far")
    as_built(page, "W1-03", offset="2")
    as_built(page, "W1-04", offset="-1")
    as_built(page, "W1-06", gap="3/4")
    as_built(page, "W1-07", offset="-1/4")
    expect(page.locator("#wall-count")).to_have_text(
        "W1: 1 of 22 set; 17 to set, 0 missing, 2 wrong, 3 ask (1 NO ANCHOR)"
    )
    expect(strap(page, "W1-02").locator(".counted")).to_have_text("WRONG SIDE: counted as WRONG, not as set.")
    rows = {r["mark"]: (r["set"], r["state"]) for r in downloaded(page)}
    assert [rows[f"W1-0{k}"] for k in (2, 3, 4, 6, 7)] == [
        *(("no", "wrong"), ("no", "wrong"), ("no", "ask"), ("no", "ask"), ("yes", "set"))
    ]


def test_a_note_is_seen_while_the_fields_are_folded(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    as_built(page, "W1-02", note="kinked, straightened")
    strap(page, "W1-02").locator("summary").tap()
    assert strap(page, "W1-02").locator("details[open]").count() == 0
    assert strap(page, "W1-02").get_by_text("Note: kinked, straightened").is_visible()


def test_the_list_tells_who_wrote_a_strap_down_and_when(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    page.locator("#by").fill("Ana, crew 2")
    tick(page, "W1-02")
    (row,) = [r for r in downloaded(page) if r["mark"] == "W1-02"]
    assert row["by"] == "Ana, crew 2"
    assert re.fullmatch(r"\d{4}-\d\d-\d\d \d\d:\d\d", row["when"])
    assert (row["wall"], row["anchor"], row["tape"]) == ("W1", marked_run.CATALOGUE.anchors[0].id, "2'-11 1/4\"")
    assert {r["by"] for r in downloaded(page) if r["mark"] != "W1-02"} == {""}


def test_a_plan_without_a_date_says_so_in_large_letters(phone: Phone) -> None:
    run = marked_run.house()
    assert phone.open(run).locator("#undated").is_hidden()
    undated = replace(run, fingerprint="beef", plan=replace(run.plan, project=replace(run.plan.project, date=None)))
    says = phone.open(undated).locator("#undated")
    expect(says).to_contain_text("NO DATE")
    assert float(says.evaluate("e => parseFloat(getComputedStyle(e).fontSize)")) >= 24


def test_the_page_tells_what_the_inspector_comes_for(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    anchor = run.schedule.marks[0].anchor
    assert anchor is not None
    for words in (anchor.approval, f"{anchor.embedment_in:g}", f"{anchor.allowable_uplift_lb:,.0f}", anchor.fasteners):
        expect(page.locator("#anchors")).to_contain_text(words)
    expect(page.locator("#wind")).to_contain_text(f"{run.plan.wind.speed_mph:g} mph")
    for words in ("risk category", "internal pressure", "mean roof height", run.plan.wind.edition.value):
        expect(page.locator("#wind")).to_contain_text(words)
    expect(page.locator("#placing")).to_contain_text('1/2"')
    for words in ("Before the concrete is hard", "After it is hard"):
        expect(page.locator("#wrong-strap")).to_contain_text(words)


def test_a_hostile_project_name_is_text(phone: Phone) -> None:
    page = phone.open(marked_run.house(HOSTILE))
    tick(page, "W1-01")
    expect(page.locator("#project")).to_have_text(HOSTILE)
    assert page.title() == f"Wall marks, {HOSTILE}"
    assert page.locator("img").count() == 0
    phone.open(dataclasses.replace(marked_run.house(HOSTILE), fingerprint="ffff0000"))


def test_the_keyboard_alone_is_enough_and_the_bar_hides_nothing_that_it_reaches(phone: Phone) -> None:
    page = phone.open(marked_run.house())
    page.keyboard.press("ArrowRight")
    expect(page.locator("#wall-name")).to_have_text("W2")
    page.keyboard.press("Tab")
    page.keyboard.press("ArrowUp")  # from `to set` to the state before it
    expect(strap(page, "W2-01").locator('input[value="set"]')).to_be_checked()
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    page.keyboard.type("1/4")
    page.keyboard.press("ArrowLeft")  # in a field the arrow moves the caret, not the wall
    expect(page.locator("#wall-name")).to_have_text("W2")
    seen = """() => {
        const on = document.activeElement, nav = document.querySelector("nav");
        const free = on === document.body || nav.contains(on) || getComputedStyle(nav).position !== "fixed";
        return free || on.getBoundingClientRect().bottom <= nav.getBoundingClientRect().top + 1;
    }"""
    for _ in range(60):
        page.keyboard.press("Tab")
        assert page.evaluate(seen)
    rows = {r["mark"]: r for r in downloaded(page)}
    assert (rows["W2-01"]["offset_in"], rows["W2-01"]["state"]) == ("0.25", "set")


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
    sizes = """[...document.querySelectorAll("button, select, summary, .state label, input[type=text]")]
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
        const line = middle(".across .line"), says = tick.querySelector(".rest").textContent.split(" side")[0];
        return [middle(".across .cross") > line, middle(".across .head") < line, says];
    })""")
    faces = {"start": [True, True, "strap on the START"], "far": [False, False, "strap on the far"]}
    sides = [m.side.value for m in run.schedule.marks if m.bearing.wall == "W1"]
    assert drawn == [faces[face] for side in sides for face in (["start", "far"] if side == "both" else [side])]
