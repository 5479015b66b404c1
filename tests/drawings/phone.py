"""A phone with wall-marks.html open in a real Chromium, and what a crew lead does with it.

A tap's click comes a moment after the touch, so whatever a tap changes is waited for.
"""

from __future__ import annotations

import csv
import dataclasses
import io
from pathlib import Path
from typing import Any

from playwright.sync_api import BrowserContext, Page, expect

from export.wall_marks.phone_page import wall_marks_html
from framing.run import Run

HEADER = ["mark", "set", "offset_in", "side", "note", "fingerprint", "caution"]


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


def card(page: Page, mark: str) -> Any:
    return page.locator(f'.mark[data-mark="{mark}"]')


def tick(page: Page, *marks: str) -> None:
    """Taps each mark's box and waits until the page shows it changed."""
    for mark in marks:
        box = card(page, mark).locator("input[type=checkbox]")
        was = box.is_checked()
        card(page, mark).locator(".set").tap()
        expect(box).to_be_checked(checked=not was)


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
