"""What a browser keeps of wall-marks.html's ticks: over a reload, in two tabs, for another plan, damaged, never."""

from __future__ import annotations

import dataclasses

import pytest
from playwright.sync_api import expect

from drawings import marked_run
from drawings.phone import Phone, as_built, card, downloaded, tick
from framing.run import CAUTION

pytestmark = pytest.mark.browser


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
    expect(page.locator("#wall-name")).to_have_text("W2")
    expect(card(page, "W2-04").locator("input[type=checkbox]")).to_be_checked()
    page.locator("#before").tap()
    expect(page.locator("#wall-name")).to_have_text("W1")
    checked = [
        m
        for m in run.schedule.marks
        if m.bearing.wall == "W1" and m.resolved and card(page, m.mark).locator("input[type=checkbox]").is_checked()
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


def test_ticks_of_another_plan_are_told_and_not_shown(phone: Phone) -> None:
    first = marked_run.house()
    tick(phone.open(first), "W1-01", "W1-02", "W1-03")
    page = phone.open(dataclasses.replace(first, fingerprint="ffff0000"))
    warning = page.locator("#other-plan")
    # The browser may hand the first tab's ticks on a moment after the page stands.
    expect(warning).to_contain_text("THE PLAN HAS CHANGED. This phone holds 3 ticks for plan 0a1b2c3d")
    expect(warning).to_be_visible()
    expect(page.locator("#wall-count")).to_have_text("W1: 0 of 21 set, 1 NO ANCHOR")
    expect(phone.open(first).locator("#wall-count")).to_have_text("W1: 3 of 21 set, 1 NO ANCHOR")
    other_house = dataclasses.replace(marked_run.house("Pelican Row 3 (invented)"), fingerprint="eeee0000")
    expect(phone.open(other_house).locator("#other-plan")).to_be_hidden()


def test_two_tabs_of_one_plan_keep_each_others_ticks(phone: Phone) -> None:
    one, two = phone.open(marked_run.house()), phone.open(marked_run.house())
    tick(one, "W1-01")
    expect(two.locator("#wall-count")).to_have_text("W1: 1 of 21 set, 1 NO ANCHOR")
    two.locator("#after").tap()
    tick(two, "W2-04")
    expect(one.locator("#all-count")).to_have_text("All walls: 2 of 66 set, 2 NO ANCHOR.")
    tick(one, "W1-02")
    expect(two.locator("#all-count")).to_have_text("All walls: 3 of 66 set, 2 NO ANCHOR.")
    expect(one.locator("#wall-name")).to_have_text("W1")
    assert {r["mark"] for r in downloaded(two) if r["set"] == "yes"} == {"W1-01", "W1-02", "W2-04"}


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
        expect(page.locator("#wall-count")).to_have_text("W1: 0 of 21 set, 1 NO ANCHOR")
        assert {r["set"] for r in downloaded(page)} == {"no"}


def test_a_browser_that_keeps_nothing_is_told(phone: Phone) -> None:
    phone.context.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } })")
    page = phone.open(marked_run.house())
    expect(page.locator("#storage")).to_contain_text("does not keep ticks")
    tick(page, "W1-01")
    assert downloaded(page)[0]["set"] == "yes"
