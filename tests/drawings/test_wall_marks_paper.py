"""wall-marks.html through a whole wall, a revision and a print, in Chromium and in Firefox."""

from __future__ import annotations

import dataclasses
import datetime
import io
import unicodedata
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import expect

from drawings import marked_run
from drawings.firefox import Firefox, firefox
from drawings.phone import Phone, pick, tick
from export.wall_marks.phone_page import wall_marks_html
from framing.run import CAUTION, Run
from framing.units import feet_inches

pytestmark = pytest.mark.browser


def later(run: Run) -> Run:
    """Revision B, a week later: W1-02 stands 2 in. farther."""
    marks = [marked_run.changed(m, station_ft=3.0 + 2 / 12) if m.mark == "W1-02" else m for m in run.schedule.marks]
    project = dataclasses.replace(run.plan.project, revision="B", date=datetime.date(2026, 12, 2))
    plan = dataclasses.replace(run.plan, project=project)
    return dataclasses.replace(marked_run.with_marks(run, marks), plan=plan, fingerprint="ffff0000")


def assert_whole_house_on_paper(data: bytes, run: Run, n_set: int) -> None:
    """Every wall's table with every mark and both tape figures, the states, and the caution on each page."""
    read = [unicodedata.normalize("NFKC", p.extract_text()) for p in pypdf.PdfReader(io.BytesIO(data)).pages]
    pages = [" ".join(words.split()) for words in read]
    text = " ".join(pages)
    flat = text.replace(" ", "")
    for mark in run.schedule.marks:
        assert mark.mark in text
        wall = run.outline.wall(mark.bearing.wall)
        for strap in mark.straps:
            for figure in (feet_inches(strap.tape_ft), feet_inches(wall.length_ft - strap.tape_ft)):
                assert figure.replace(" ", "") in flat
    assert f"Allwalls:{n_set}of67set" in flat
    assert text.count("NO ANCHOR") >= 2
    assert all(CAUTION.replace(" ", "") in page.replace(" ", "") for page in pages)
    assert run.fingerprint in text
    assert "Afteritishard" in flat


def test_a_whole_wall_a_revision_and_a_print_in_chromium(phone: Phone) -> None:
    run = marked_run.house()
    page = phone.open(run)
    marks = [m for m in run.schedule.marks if m.bearing.wall == "W1" and m.resolved]
    tick(page, *(m.mark for m in marks))
    pick(page, "W1-05", "set", 2)
    expect(page.locator("#wall-count")).to_have_text(
        "W1: 22 of 22 set; 0 to set, 0 missing, 0 wrong, 1 ask (1 NO ANCHOR)"
    )
    page = phone.open(later(run))
    expect(page.locator("#wall-count")).to_contain_text("W1: 21 of 22 set; 1 to set")
    tick(page, "W1-02")
    assert_whole_house_on_paper(page.pdf(format="Letter", prefer_css_page_size=True), later(run), 22)


def test_a_whole_wall_a_revision_and_a_print_in_firefox(tmp_path: Path) -> None:
    run = marked_run.house()
    pages = {}
    for plan in (run, later(run)):
        pages[plan.fingerprint] = tmp_path / f"{plan.fingerprint}.html"
        pages[plan.fingerprint].write_bytes(wall_marks_html(plan))
    with firefox(tmp_path, 500, 900) as window:
        opened(window, pages[run.fingerprint])
        boxes = "document.querySelectorAll('.pick-set input')"
        assert window.run(f"return {boxes}.length") == 22
        window.run(f"for (const box of {boxes}) box.click()")
        words = "W1: 22 of 22 set; 0 to set, 0 missing, 0 wrong, 1 ask (1 NO ANCHOR)"
        assert window.run("return document.getElementById('wall-count').textContent") == words
        assert window.run("return document.documentElement.scrollWidth <= innerWidth")
        small = """return [...document.querySelectorAll("button, select, summary, .state label, input[type=text]")]
            .map(e => e.getBoundingClientRect()).map(b => Math.min(b.width, b.height)).filter(s => s > 0 && s < 44)"""
        assert window.run(small) == []
        opened(window, pages["ffff0000"])
        told = window.run("return document.getElementById('other-plan').textContent")
        assert "THE PLAN HAS CHANGED" in told
        assert "tape 2'-11 1/4\" is now 3'-1 1/4\"" in told
        count = window.run("return document.getElementById('wall-count').textContent")
        assert count.startswith("W1: 21 of 22 set; 1 to set")
        window.run("document.querySelector('[data-strap=\"W1-02/1\"] .pick-set input').click()")
        assert_whole_house_on_paper(window.printed(), later(run), 22)


def opened(window: Firefox, path: Path) -> None:
    window.ask("WebDriver:Navigate", url=path.as_uri())
    window.wait_for("return document.getElementById('wall-count').textContent.length > 0")
