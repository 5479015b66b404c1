"""walkthrough.html where there is no 3D, no script or only paper; a hostile name; the time to the first picture."""

from __future__ import annotations

import dataclasses
import io
import os
from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser, expect

from drawings.visit import DESK, PHONE, Visit, changed, visit
from export.walkthrough.page import walkthrough_html
from framing.run import CAUTION, Run

pytestmark = pytest.mark.browser
FIRST_PICTURE_S = 2.0
"""On a machine with nothing else to do; other work that waits for its processors lengthens it in proportion."""
HOSTILE = "</script><script>alert(1)</script><img src=x onerror=alert(2)>"


@pytest.fixture(scope="module")
def run(sample_run: Callable[[str], Run]) -> Run:
    return sample_run("hip_house")


@pytest.fixture(scope="module")
def path(run: Run, tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("plain") / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    return path


def shows_plan_and_table(made: Visit, run: Run) -> None:
    n = len(run.schedule.marks)
    page = made.page
    expect(page.locator("#plan svg")).to_be_visible()
    box = page.locator("#plan svg").bounding_box()
    assert box
    assert min(box["width"], box["height"]) > 200
    assert page.locator("#plan svg circle").count() + page.locator("#plan svg path").count() // 2 == n
    assert page.locator("#figures tbody tr").count() == n
    expect(page.locator("#figures tbody tr").first).to_be_visible()
    expect(page.locator("#panel")).to_be_hidden()
    expect(page.locator("#picture")).to_be_hidden()
    expect(page.locator("#caution")).to_be_visible()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_a_browser_without_3d_shows_the_plan_and_the_table(
    chromium_without_3d: Browser, path: Path, run: Run, size: dict[str, object]
) -> None:
    made = visit(chromium_without_3d, path, **size)
    shows_plan_and_table(made, run)
    expect(made.page.locator("#no-3d")).to_be_visible()
    assert made.said == []
    made.page.context.close()


def test_a_browser_without_scripts_shows_the_plan_and_the_table(chromium: Browser, path: Path, run: Run) -> None:
    made = visit(chromium, path, **DESK, java_script_enabled=False)
    shows_plan_and_table(made, run)
    assert "runs no scripts" in (made.page.locator("noscript").text_content() or "")
    made.page.context.close()


def test_the_page_falls_back_when_the_graphics_are_lost(chromium: Browser, path: Path, run: Run) -> None:
    made = visit(chromium, path, **DESK)
    made.settle()
    made.page.evaluate(
        "document.getElementById('picture').getContext('webgl2').getExtension('WEBGL_lose_context').loseContext()"
    )
    expect(made.page.locator("#no-3d")).to_be_visible()
    shows_plan_and_table(made, run)
    made.page.context.close()


def test_every_printed_page_carries_the_caution_and_every_mark_is_printed(
    chromium: Browser, path: Path, run: Run
) -> None:
    made = visit(chromium, path, **DESK)
    made.settle()
    sheets = pypdf.PdfReader(io.BytesIO(made.page.pdf(prefer_css_page_size=True))).pages
    texts = [" ".join(sheet.extract_text().split()) for sheet in sheets]
    assert [i for i, text in enumerate(texts) if CAUTION not in text] == []
    assert len(sheets[0].images) == 1
    table = " ".join(texts[2:])
    assert [m.mark for m in run.schedule.marks if m.mark not in table] == []
    made.page.context.close()


def test_a_hostile_project_name_stays_text_in_the_browser(chromium: Browser, run: Run, tmp_path: Path) -> None:
    project = dataclasses.replace(run.plan.project, name=HOSTILE)
    path = tmp_path / "hostile.html"
    path.write_bytes(walkthrough_html(dataclasses.replace(run, plan=dataclasses.replace(run.plan, project=project))))
    made = visit(chromium, path, **PHONE)
    made.settle()
    assert HOSTILE in (made.page.locator("h1").text_content() or "")
    assert made.said == []
    assert made.page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    made.page.context.close()


@pytest.mark.parametrize("size", [DESK, PHONE], ids=["desk", "phone"])
def test_the_first_picture_comes_within_two_seconds_in_software(
    chromium: Browser, path: Path, size: dict[str, object], capsys: pytest.CaptureFixture[str]
) -> None:
    made = visit(chromium, path, **size)
    seconds = []
    for _ in range(3):
        made.page.reload(wait_until="commit")
        first = made.picture()
        seconds.append(made.settle()["first_rest_ms"] / 1000)
    with capsys.disabled():
        print(f"\n  first picture with its labels after {', '.join(f'{s:.2f}' for s in seconds)} s")  # noqa: T201 - measured
    made.to_stage(0)
    assert changed(first, made.picture()) > 0.05
    busy = max(1.0, os.getloadavg()[0] / (os.cpu_count() or 1))
    assert min(seconds) < FIRST_PICTURE_S * busy
    made.page.context.close()
