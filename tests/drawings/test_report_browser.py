"""report.html in a real browser: two clicks to a mark, nothing cut off on a desk or a phone, printed whole."""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, expect

from drawings.marked_run import A_FEW, sample
from drawings.visit import DESK, PHONE, visit
from export.report.page import report_html
from framing.run import CAUTION, Run


def written(tmp_path: Path, run: Run) -> Path:
    path = tmp_path / "report.html"
    path.write_bytes(report_html(run))
    return path


@pytest.mark.browser
def test_a_mark_opens_in_two_clicks_and_the_page_asks_for_nothing(chromium: Browser, tmp_path: Path) -> None:
    run = sample("hip_house")
    path = written(tmp_path, run)
    there = visit(chromium, path, **DESK)
    there.page.locator('.index a[href="#mark-W2-05"]').click()
    there.page.locator("#mark-W2-05").click()
    heading = there.page.locator("#worked-W2-05 h3")
    expect(heading).to_have_text(re.compile("^W2-05: end jack"))
    expect(heading).to_be_in_viewport()
    expect(there.page.locator("#worked-W2-05 h4").last).to_be_visible()
    assert there.requests == [path.as_uri()]
    assert there.said == []


@pytest.mark.browser
@pytest.mark.parametrize("name", A_FEW)
def test_nothing_is_cut_off_on_a_desk_screen(chromium: Browser, tmp_path: Path, name: str) -> None:
    there = visit(chromium, written(tmp_path, sample(name)), **DESK)
    wide = there.page.evaluate(
        "[...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).length"
    )
    assert wide == 0


@pytest.mark.browser
def test_a_phone_shows_the_whole_width_of_the_text(chromium: Browser, tmp_path: Path) -> None:
    there = visit(chromium, written(tmp_path, sample("garage_wing")), **PHONE)
    assert there.page.evaluate("document.documentElement.scrollWidth <= innerWidth + 1")


@pytest.mark.browser
@pytest.mark.parametrize("name", A_FEW)
def test_in_the_picture_of_the_roof_no_letters_touch_other_letters(
    chromium: Browser, tmp_path: Path, name: str
) -> None:
    there = visit(chromium, written(tmp_path, sample(name)), **DESK)
    pictures = there.page.evaluate(
        """[...document.querySelectorAll('figure:not(.truss) svg')].map(s => [...s.querySelectorAll('text')].map(t => {
            const b = t.getBBox(); return [b.x, b.y, b.x + b.width, b.y + b.height, t.textContent] }))"""
    )
    assert len(pictures) == 2
    for texts in pictures:
        assert len(texts) > 6
        for i, a in enumerate(texts):
            assert a[0] >= 0
            assert a[2] <= 720
            for b in texts[:i]:
                apart = a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] + 3 or b[3] <= a[1] + 3
                assert apart, (a[4], b[4])


@pytest.mark.browser
@pytest.mark.parametrize("name", A_FEW)
def test_every_printed_page_bears_the_caution_the_fingerprint_and_its_number(
    chromium: Browser, tmp_path: Path, name: str
) -> None:
    run = sample(name)
    there = visit(chromium, written(tmp_path, run), **DESK)
    there.page.pdf(path=tmp_path / "report.pdf", prefer_css_page_size=True)
    printed = pypdf.PdfReader(tmp_path / "report.pdf").pages
    # the typeface may draw "ff" as one sign, also in a fingerprint
    texts = [" ".join(unicodedata.normalize("NFKC", p.extract_text()).split()) for p in printed]
    assert [n for n, text in enumerate(texts, start=1) if CAUTION not in text] == []
    for n, text in enumerate(texts, start=1):
        assert f"{run.fingerprint} page {n} of {len(texts)}" in text
    whole = " ".join(texts)
    marks = re.findall(r"\b[WS]\d+-\d\d\b", whole)
    assert {m.mark for m in run.schedule.marks} <= set(marks)
    assert "Every other mark, worked out" not in whole
    sizes = {(float(p.mediabox.width), float(p.mediabox.height)) for p in printed}
    assert sizes == {(612.0, 792.0)}
