"""How long a frame of walkthrough.html takes while the house turns, at 1400 x 900 under software rendering.

    python tests/benchmarks/walkthrough_frames.py [--bearings 130 560] [--page other.html ...]

Each page turns a little at every frame; what is told is the median time from frame to frame, at the trusses and at the
last stage, and the page's size. Pages named with `--page` (of another version, say) are measured in the same run. Wants
an idle machine. Ends with code 1 over a limit.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from playwright.sync_api import Browser, sync_playwright

from benchmarks.speed import comb_house, hip_house
from drawings.conftest import SOFTWARE_3D, start_chromium
from drawings.visit import visit
from export.walkthrough.page import walkthrough_html
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import make_run

LIMITS_MS = {130: 60.0, 560: 120.0}
LIMIT_KB = 250
N_FRAMES = 24
TURN = """async (n) => {
  const canvas = document.getElementById("picture");
  const next = () => new Promise((done) => requestAnimationFrame(done));
  const key = (name) => canvas.dispatchEvent(new KeyboardEvent("keydown", { key: name, bubbles: true }));
  const pixel = new Uint8Array(4);
  const times = [];
  let began = performance.now();
  for (let i = 0; i < n; i++) {
    key("ArrowLeft");
    await next();
    const gl = canvas.getContext("webgl2");
    gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
    times.push(performance.now() - began);
    began = performance.now();
  }
  return times.slice(2).sort((a, b) => a - b)[Math.floor((n - 2) / 2)];
}"""


def page_of(n_bearings: int) -> tuple[bytes, int]:
    """The page of a house with about so many bearings, and how many it has: one wing, or a long one with wings."""
    wing = hip_house(((0.0, 0.0), (84.0, 0.0), (84.0, 46.0), (0.0, 46.0)), 24)
    text = wing if n_bearings < 200 else comb_house(round(n_bearings / 66), 24)
    run = make_run(plan_from_text(text, "house.toml"), shipped_catalogue())
    return walkthrough_html(run), len(run.schedule.marks)


def frame_ms(browser: Browser, path: Path) -> dict[str, float]:
    """The median frame at the trusses and at the last stage [ms]."""
    there = visit(browser, path, viewport={"width": 1400, "height": 900})
    there.settle()
    found = {}
    for name, step in (("trusses", 3), ("last", there.page.locator("#steps .step").count() - 1)):
        there.to_stage(step)
        found[name] = float(there.page.evaluate(TURN, N_FRAMES))
    there.page.context.close()
    return found


def main() -> int:
    """Measures and tells."""
    parser = argparse.ArgumentParser()
    parser.add_argument("--bearings", type=int, nargs="*", default=[*LIMITS_MS])
    parser.add_argument("--page", type=Path, nargs="*", default=[])
    parser.add_argument("--keep", type=Path)
    options = parser.parse_args()
    over = False
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        pages = []
        for n in options.bearings:
            data, counted = page_of(n)
            path = (options.keep or Path(folder)) / f"bearings-{n}.html"
            path.write_bytes(data)
            pages.append((f"{counted} bearings", path, LIMITS_MS.get(n)))
            over |= n == min(LIMITS_MS) and len(data) > LIMIT_KB * 1000
        pages += [(str(path), path.resolve(), None) for path in options.page]
        browser = start_chromium(playwright, *SOFTWARE_3D)
        for name, path, limit in pages:
            found = frame_ms(browser, path)
            told = ", ".join(f"{stage} {ms:.0f} ms" for stage, ms in found.items())
            print(f"{name}: {path.stat().st_size / 1000:.0f} KB, {told}", flush=True)
            over |= limit is not None and max(found.values()) > limit
    return int(over)


if __name__ == "__main__":
    sys.exit(main())
