"""Any mark's arithmetic on paper: by the page's own link, or all of them by `build --full-report`; a real browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from drawings.marked_run import sample
from drawings.strip_reader import words_of
from export.report.page import report_html


def printed(chromium: Browser, page: bytes, folder: Path, place: str = "") -> str:
    """What stands on the printed pages, seen at a place of the page."""
    path, out = folder / "report.html", folder / "report.pdf"
    path.write_bytes(page)
    there = chromium.new_page()
    there.goto(path.as_uri() + place)
    there.pdf(path=out, prefer_css_page_size=True)
    there.close()
    return " ".join(w.text for w in words_of(out.read_bytes()))


@pytest.mark.browser
def test_a_printed_page_holds_one_of_each_kind_the_mark_that_a_link_led_to_or_all(
    chromium: Browser, tmp_path: Path
) -> None:
    run = sample("cottage")
    other = next(m for m in run.schedule.marks if f"{m.mark}: " not in printed(chromium, report_html(run), tmp_path))
    heading = f"{other.mark}: {other.bearing.member}"
    assert heading in printed(chromium, report_html(run), tmp_path, f"#worked-{other.mark}")
    for page, place in ((report_html(run), "#others"), (report_html(run, full=True), "")):
        whole = printed(chromium, page, tmp_path, place)
        assert all(f"{m.mark}: {m.bearing.member}" in whole for m in run.schedule.marks)
