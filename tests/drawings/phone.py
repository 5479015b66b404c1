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

HEADER = (
    "mark,set,offset_in,side,note,strap,wall,anchor,tape,state,gap_in,holes_above,by,when,in_from_face_in,"
    "fingerprint,caution"
)


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


def strap(page: Page, mark: str, number: int = 1) -> Any:
    return page.locator(f'.tick[data-strap="{mark}/{number}"]')


def tick(page: Page, *marks: str) -> None:
    """Taps the box of each mark's first strap and waits until the page shows it set."""
    for mark in marks:
        pick(page, mark, "set")


def pick(page: Page, mark: str, state: str, number: int = 1) -> None:
    """Taps one state of a strap and waits until the page shows it chosen."""
    box = strap(page, mark, number).locator(f'input[value="{state}"]')
    box.locator("xpath=..").tap()
    expect(box).to_be_checked()


def as_built(
    page: Page,
    mark: str,
    *,
    number: int = 1,
    offset: str = "",
    side: str = "",
    gap: str = "",
    face: str = "",
    note: str = "",
) -> str:
    """Enters what is given and returns the page's word on it."""
    place = strap(page, mark, number)
    if place.locator("details:not([open])").count():
        place.locator("summary").tap()
    for name, words in (("offset", offset), ("gap", gap), ("face", face), ("note", note)):
        if words:
            place.locator(f".{name}").fill(words)
    if side:
        place.locator("select.side").select_option(side)
    return str(place.locator(".verdict").text_content()).removeprefix("As built: ")


def downloaded(page: Page, button: str = "#download") -> list[dict[str, str]]:
    with page.expect_download() as waiting:
        page.locator(button).tap()
    data = Path(waiting.value.path()).read_bytes()
    assert data.startswith(b"\xef\xbb\xbf")
    assert data.count(b"\n") == data.count(b"\r\n")
    text = data.decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(text, newline="")))
    assert ",".join(rows[0]) == HEADER
    return rows
