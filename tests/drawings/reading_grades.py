"""Every sentence that a client reads on walkthrough.html, with its reading grade: all but the caution, the figures of
table and card, and what is folded away for the engineer.

`python tests/drawings/reading_grades.py garage_wing` prints them for a sample plan, the hardest first. The grade is
Flesch and Kincaid's, by textstat, a library that counts syllables without a network (J. P. Kincaid et al., 'Derivation
of new readability formulas', Naval Technical Training Command Research Branch Report 8-75, 1975; from memory).
"""

from __future__ import annotations

import re
import sys
import tempfile
from pathlib import Path

import textstat
from playwright.sync_api import Page, sync_playwright

READ = "p, h2, li, label, legend, summary, button, dt, dd, figcaption, #gale-count"
LEFT_OUT = (
    "#figures, #caution, .on-paper, #card details dl, .ticks, #doubts, p.choices, #gale > p:first-child, #gale label"
)
SAID = f"""() => [...document.querySelectorAll("{READ}")]
  .filter((e) => e.id === "gale-count" || !e.closest("{LEFT_OUT}"))
  .map((e) => e.textContent.trim()).filter(Boolean)"""
MARKS = """() => [...document.querySelectorAll("#figures tbody tr")].map((row) => row.dataset.plain)"""
PACKED = """() => unpackData(document.getElementById("data").textContent).then((d) => [
  ...d.closer.words, ...d.tour.map(([said]) => said), ...Object.values(d.stronger ? d.stronger.said : {})])"""
LEAST_WORDS = 4
"""Fewer words make no sentence: names of choices and of keys."""


def graded(page: Page) -> dict[str, float]:
    """The sentences of a page that has settled, at every stage, in several winds, on every card, with both roofs."""
    texts = list(page.evaluate(MARKS))
    for step in range(page.locator("#steps .step").count()):
        page.locator("#steps .step").nth(step).evaluate("e => e.click()")
        texts += page.evaluate(SAID)
    texts += page.evaluate(PACKED)
    for mph in ("80", "150", "200", "300"):
        page.locator("#gale-mph").fill(mph)
        texts += page.evaluate(SAID)
    if page.locator("#two-roofs").count():
        page.locator("#two-roofs").evaluate("e => e.click()")
        texts += page.evaluate(SAID)
    found = dict.fromkeys(s for text in texts for s in sentences(text))
    return {s: float(textstat.flesch_kincaid_grade(s)) for s in found}


def sentences(text: str) -> list[str]:
    """The sentences of a text; a full stop inside a figure or a name ends none."""
    parts = re.split(r"(?<=[.!?])\s+(?=[A-Z0-9\"'])", " ".join(text.split()))
    return [part for part in parts if len(re.findall(r"[A-Za-z]{2,}", part)) >= LEAST_WORDS]


def main(sample: str) -> None:
    """Prints the list for a sample plan."""
    from drawings.conftest import SOFTWARE_3D, run_of, start_chromium
    from drawings.visit import visit
    from export.walkthrough.page import walkthrough_html

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        path = Path(folder) / "walkthrough.html"
        path.write_bytes(walkthrough_html(run_of(sample)))
        made = visit(start_chromium(playwright, *SOFTWARE_3D), path, viewport={"width": 1400, "height": 900})
        made.settle()
        for sentence, grade in sorted(graded(made.page).items(), key=lambda pair: -pair[1]):
            print(f"{grade:5.1f}  {sentence}")  # noqa: T201 - what it is for


if __name__ == "__main__":
    sys.path.insert(0, str(Path(__file__).parents[1]))
    main(sys.argv[1] if len(sys.argv) > 1 else "garage_wing")
