"""What a browser keeps of wall-marks.html's ticks: over a reload, in two tabs, for another plan, damaged, never."""

from __future__ import annotations

import dataclasses
import datetime

import pytest
from playwright.sync_api import expect

from drawings import marked_run
from drawings.phone import Phone, as_built, downloaded, pick, strap, tick
from framing.plan import Side
from framing.run import CAUTION, Run

pytestmark = pytest.mark.browser


def test_ticks_survive_a_reload_and_the_list_equals_what_was_ticked(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    tick(page, "W1-01", "W1-03", "W1-05", "W1-06")
    pick(page, "W1-06", "to set")  # a tick taken back
    as_built(page, "W1-03", offset="3/8", note='=SUM(A1), "bent"')
    as_built(page, "W1-02", side="far", offset="1 1/4")
    page.locator("#after").tap()
    tick(page, "W2-04")
    page.reload()
    expect(page.locator("#wall-name")).to_have_text("W2")
    expect(strap(page, "W2-04").locator('input[value="set"]')).to_be_checked()
    page.locator("#before").tap()
    expect(page.locator("#wall-name")).to_have_text("W1")
    checked = page.locator('.tick:has(input[value="set"]:checked)').evaluate_all("all => all.map(t => t.dataset.strap)")
    assert checked == ["W1-01/1", "W1-03/1", "W1-05/1"]
    assert strap(page, "W1-03").locator(".offset").input_value() == "0.375"
    rows = downloaded(page)
    assert [(r["mark"], r["strap"]) for r in rows] == [
        (m.mark, str(k + 1)) for m in run.schedule.marks for k in range(max(1, m.count))
    ]
    entered = {f"{r['mark']}/{r['strap']}": (r["state"], r["offset_in"], r["side"], r["note"]) for r in rows}
    expected = dict.fromkeys(entered, ("to set", "", "", "")) | {
        "W1-01/1": ("set", "", "start", ""),
        "W1-02/1": ("to set", "1.25", "far", ""),
        "W1-03/1": ("set", "0.375", "far", '\'=SUM(A1), "bent"'),
        "W1-05/1": ("set", "", "start", ""),
        "W1-08/1": ("ask", "", "", ""),
        "W2-04/1": ("set", "", "start", ""),
        "W3-02/1": ("ask", "", "", ""),
    }
    assert entered == expected
    assert {r["mark"] for r in rows if r["set"] == "yes"} == {"W1-01", "W1-03", "W1-05", "W2-04"}
    assert {(r["fingerprint"], r["caution"]) for r in rows} == {(run.fingerprint, CAUTION)}


def revised(run: Run, *, date: datetime.date | None, revision: str = "B", fingerprint: str = "ffff0000") -> Run:
    """The same house later: W1-02 2 in. farther, W1-03 with another anchor, W1-04 on the other side, W1-22 gone."""
    other = next(a for a in marked_run.CATALOGUE.anchors if a.count == 1 and a.id != marked_run.CATALOGUE.anchors[0].id)
    changes: dict[str, dict[str, object]] = {
        "W1-02": {"station_ft": 3.0 + 2 / 12},
        "W1-03": {"anchor": other, "side": Side.FAR},
        "W1-04": {"side": Side.FAR},
    }
    marks = [marked_run.changed(m, **changes[m.mark]) if m.mark in changes else m for m in run.schedule.marks]
    changed = marked_run.with_marks(run, [m for m in marks if m.mark != "W1-22"])
    project = dataclasses.replace(run.plan.project, revision=revision, date=date)
    return dataclasses.replace(changed, fingerprint=fingerprint, plan=dataclasses.replace(run.plan, project=project))


def test_a_later_plan_tells_what_changed_carries_the_rest_and_still_gives_out_the_old_list(phone: Phone) -> None:
    first = marked_run.house()
    page = phone.open(first)
    tick(page, "W1-01", "W1-02", "W1-03", "W1-04", "W1-06", "W1-22")
    as_built(page, "W1-06", note="plumb")
    page = phone.open(revised(first, date=datetime.date(2026, 12, 3)))
    told = page.locator("#other-plan")
    expect(told).to_contain_text("THE PLAN HAS CHANGED.")
    expect(told).to_contain_text("This phone also holds plan 0a1b2c3d, revision A of 2026-11-25: 6 of 67 set")
    rows = [row.split("\t") for row in told.locator("tbody tr").all_inner_texts()]
    old_id = marked_run.CATALOGUE.anchors[0].id
    new_id = next(a.id for a in marked_run.CATALOGUE.anchors if a.count == 1 and a.id != old_id)
    assert rows == [
        ["W1-02", "tape 2'-11 1/4\" is now 3'-1 1/4\"", "set"],
        ["W1-03", f"anchor {old_id} is now {new_id}", "set"],
        ["W1-04", "tape 6'-10 1/2\" is now 7'-1 1/2\"; strap on START side is now far side", "set"],
        ["W1-22", f"GONE: was at 43'-7 1/4\", {old_id}", "set"],
    ]
    carried = {r["mark"]: r for r in downloaded(page) if r["state"] == "set"}
    assert set(carried) == {"W1-01", "W1-06"}
    assert carried["W1-06"]["note"] == "plumb"
    old = downloaded(page, ".old-list")
    assert {r["mark"] for r in old if r["set"] == "yes"} == {"W1-01", "W1-02", "W1-03", "W1-04", "W1-06", "W1-22"}
    assert {r["fingerprint"] for r in old} == {"0a1b2c3d"}
    pick(page, "W1-01", "to set")  # what was carried can be taken back, and is not carried again
    page.reload()
    assert {r["mark"] for r in downloaded(page) if r["state"] == "set"} == {"W1-06"}


def test_the_older_plan_opened_late_says_so_and_takes_nothing_over(phone: Phone) -> None:
    first = marked_run.house()
    later = revised(first, date=datetime.date(2026, 12, 3))
    tick(phone.open(later), "W1-01", "W1-05")
    page = phone.open(first)
    expect(page.locator("#other-plan")).to_contain_text("THIS PAGE IS THE OLDER PLAN: do not set from it")
    expect(page.locator("#wall-count")).to_contain_text("W1: 0 of 22 set")
    other_house = dataclasses.replace(marked_run.house("Pelican Row 3 (invented)"), fingerprint="eeee0000")
    expect(phone.open(other_house).locator("#other-plan")).to_be_hidden()


@pytest.mark.parametrize(
    ("date", "revision", "words"),
    [
        (None, "B", "THE PLAN HAS CHANGED"),
        (None, "", "neither date nor revision tells which is newer"),
        (datetime.date(2026, 11, 25), "A", "neither date nor revision tells which is newer"),
        (datetime.date(2026, 11, 24), "B", "THIS PAGE IS THE OLDER PLAN"),
    ],
)
def test_which_plan_is_newer_goes_by_the_date_then_by_the_revision(
    phone: Phone, date: datetime.date | None, revision: str, words: str
) -> None:
    first = marked_run.house()
    tick(phone.open(first), "W1-01")
    page = phone.open(revised(first, date=date, revision=revision))
    expect(page.locator("#other-plan")).to_contain_text(words)


def test_two_tabs_of_one_plan_keep_each_others_ticks(phone: Phone) -> None:
    one, two = phone.open(marked_run.house()), phone.open(marked_run.house())
    tick(one, "W1-01")
    expect(two.locator("#wall-count")).to_contain_text("W1: 1 of 22 set")
    two.locator("#after").tap()
    tick(two, "W2-04")
    expect(one.locator("#all-count")).to_contain_text("All walls: 2 of 67 set")
    tick(one, "W1-02")
    expect(two.locator("#all-count")).to_contain_text("All walls: 3 of 67 set")
    expect(one.locator("#wall-name")).to_have_text("W1")
    assert {r["mark"] for r in downloaded(two) if r["set"] == "yes"} == {"W1-01", "W1-02", "W2-04"}


def test_damaged_ticks_in_the_store_do_no_harm(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    house = f'"project": "{run.plan.project.name}"'
    rows = '"rows": {"W1-01/1": 7, "W1-02/1": {"state": "SET", "side": "toString", "offset": "1", "gap": 1e999}}'
    for kept in (
        "{",
        "[]",
        "null",
        '{"rows": null}',
        f"{{{house}, {rows}}}",
        f'{{{house}, {rows}, "entries": [3, {{}}]}}',
    ):
        for key in (run.fingerprint, "eeee1111"):
            page.evaluate("([key, kept]) => localStorage.setItem(key, kept)", [f"strapline wall marks {key}", kept])
        page.reload()
        expect(page.locator("#wall-count")).to_contain_text("W1: 0 of 22 set; 22 to set")
        assert {r["set"] for r in downloaded(page)} == {"no"}


def test_a_browser_that_keeps_nothing_is_told(phone: Phone) -> None:
    phone.context.add_init_script("Object.defineProperty(window, 'localStorage', { get() { throw new Error('no'); } })")
    page = phone.open(marked_run.house())
    expect(page.locator("#storage")).to_contain_text("does not keep ticks")
    tick(page, "W1-01")
    assert downloaded(page)[0]["set"] == "yes"
