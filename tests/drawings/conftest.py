"""What the tests of drawings and pages share: runs of the sample plans, and a real browser."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Playwright, sync_playwright

from drawings.phone import Phone
from export.architects_drawing.outline import outline_of_drawing
from framing.anchors.catalogue_file import read_catalogue, shipped_catalogue
from framing.plan_file import read_plan
from framing.run import Run, make_run

SAMPLES = Path(__file__).parents[2] / "sample_plans"
SOFTWARE_3D = ("--use-angle=swiftshader", "--enable-unsafe-swiftshader")
PHONE: dict[str, Any] = {"viewport": {"width": 375, "height": 740}, "has_touch": True, "is_mobile": True}
NO_3D = ("--disable-3d-apis",)
QUIET = ("--no-sandbox", "--disable-background-networking", "--disable-component-update", "--disable-sync")


@cache
def run_of(sample: str) -> Run:
    """The run of one sample plan, by the name of its file without the ending."""
    path = SAMPLES / f"{sample}.toml"
    plan = read_plan(path, outline_of_drawing)
    named = plan.anchors.catalogue
    return make_run(plan, read_catalogue(path.parent / named) if named else shipped_catalogue())


@pytest.fixture(scope="session")
def sample_run() -> Callable[[str], Run]:
    return run_of


@pytest.fixture(scope="session")
def playwright() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


def start_chromium(playwright: Playwright, *more: str) -> Browser:
    """The system's Chromium; the browser that the package would fetch by itself is never used."""
    found = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if found is None:
        pytest.skip("the page is tested in a real browser, and there is no chromium here")
    return playwright.chromium.launch(executable_path=found, args=[*QUIET, *more])


@pytest.fixture(scope="session")
def chromium(playwright: Playwright) -> Iterator[Browser]:
    browser = start_chromium(playwright, *SOFTWARE_3D)
    yield browser
    browser.close()


@pytest.fixture(scope="session")
def chromium_without_3d(playwright: Playwright) -> Iterator[Browser]:
    browser = start_chromium(playwright, *NO_3D)
    yield browser
    browser.close()


@pytest.fixture
def phone(chromium: Browser, tmp_path: Path) -> Iterator[Phone]:
    """A phone of its own for a test; afterwards its pages must have said nothing and asked for nothing."""
    context = chromium.new_context(**PHONE)
    made = Phone(context, tmp_path)
    context.on("request", lambda request: made.requests.append(request.url))
    yield made
    context.close()
    assert made.said == []
    assert all(url.startswith((tmp_path.as_uri(), "blob:")) for url in made.requests), made.requests
