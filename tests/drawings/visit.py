"""A page opened in a real browser from its file, with everything that it asked for and said."""

from __future__ import annotations

import io
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from PIL import Image, ImageChops
from playwright.sync_api import Browser, Page

DESK = {"viewport": {"width": 1280, "height": 800}}
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True, "device_scale_factor": 2}


@dataclass
class Visit:
    """A page opened from its file, with everything that it asked for and said."""

    page: Page
    requests: list[str] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def ask(self, what: str) -> Any:
        return self.page.evaluate(f"walkthrough.{what}")

    def settle(self) -> dict[str, Any]:
        """Waits until the picture rests, then what the page says of itself."""
        for _ in range(800):
            if self.page.evaluate("!!window.walkthrough && walkthrough.state().settled"):
                state: dict[str, Any] = self.ask("state()")
                return state
            self.page.wait_for_timeout(25)
        raise AssertionError(f"the picture never came to rest: {self.said}")

    def picture(self) -> Image.Image:
        self.settle()
        return Image.open(io.BytesIO(self.page.locator("#model").screenshot())).convert("RGB")

    def to_stage(self, i: int) -> None:
        self.page.locator("#steps .step").nth(i).click()
        self.settle()

    def at(self, mark: str) -> tuple[float, float]:
        box = self.page.locator("#picture").bounding_box()
        place = self.ask(f"project({mark!r})")
        assert box
        return box["x"] + place["x"], box["y"] + place["y"]

    def card(self) -> dict[str, str]:
        texts = self.page.locator("#card dt, #card dd").all_text_contents()
        return dict(zip(texts[::2], texts[1::2], strict=True))


def visit(browser: Browser, path: Path, **size: Any) -> Visit:
    made = Visit(browser.new_context(**size).new_page())
    made.page.on("request", lambda request: made.requests.append(request.url))
    made.page.on("console", lambda message: made.said.append(message.text))
    made.page.on("pageerror", lambda error: made.said.append(str(error)))
    made.page.on("dialog", lambda dialog: made.said.append(f"dialog {dialog.message}"))
    made.page.goto(path.as_uri())
    return made


def changed(a: Image.Image, b: Image.Image) -> float:
    """The share of the pixels that differ."""
    grey = ImageChops.difference(a, b).convert("L").point(lambda v: 255 if v > 8 else 0)
    return grey.histogram()[255] / (a.width * a.height)
