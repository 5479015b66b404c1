"""The client's page with what was seen of each strap: a date where the list has one, and nothing unless asked for."""

from __future__ import annotations

import re
from dataclasses import replace
from html.parser import HTMLParser
from pathlib import Path

import textstat
from typer.testing import CliRunner

from export.asbuilt.seen import seen_in_all, seen_on_site
from export.asbuilt.words import findings
from export.cli import app
from export.commands.run_of_plan import load_run
from export.walkthrough.page import walkthrough_html
from framing.asbuilt.entries import Written
from invariants.houses import SAMPLES
from parts.asbuilt_surveys import perfect, survey

HOUSE = "garage_wing"


class Rows(HTMLParser):
    """The sentence of each mark's card, by mark."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.plain: dict[str, str] = {}
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        said = dict(attrs)
        if tag == "tr" and said.get("data-plain"):
            self.plain[said["id"] or ""] = said["data-plain"] or ""


def test_each_card_says_when_its_strap_was_seen() -> None:
    run = load_run(SAMPLES[HOUSE])
    entries = [replace(e, when="2026-12-03 09:40") for e in perfect(run)]
    first, second, third = (m.mark for m in run.schedule.marks[:3])
    how = {
        first: {"when": "noon"},
        second: {"written": Written.MISSING, "offset_in": None},
        third: {"written": Written.TO_SET, "offset_in": None},
    }
    found = findings(run, survey([replace(e, **how.get(e.mark, {})) for e in entries]))
    said = seen_on_site(found)
    assert said[first] == "The strap was seen in place."
    assert said[second] == "The strap was found missing on 3 December 2026: the engineer decides."
    assert said[third] == "The strap was not yet seen."
    pair = next(m.mark for m in run.schedule.marks if m.count == 2 and m.mark not in how)
    assert said[pair] == "The 2 straps were seen in place on 3 December 2026."
    n = sum(m.count for m in run.schedule.marks)
    assert seen_in_all(found).startswith(f"{n - 2} of {n} straps were seen in place, as planned;")

    page = walkthrough_html(run, said, seen_in_all(found)).decode()
    cards = Rows(page).plain
    assert set(cards) == {m.mark for m in run.schedule.marks}
    assert all(cards[mark].endswith(words) for mark, words in said.items())
    assert max(textstat.flesch_kincaid_grade(words) for words in (*said.values(), seen_in_all(found))) <= 9.0


def test_a_page_that_was_not_asked_for_it_says_nothing_of_what_was_seen() -> None:
    page = walkthrough_html(load_run(SAMPLES[HOUSE])).decode()
    assert "seen in place" not in page
    assert "As built" not in page


def test_the_command_writes_the_page_only_when_asked(tmp_path: Path) -> None:
    plan = str(SAMPLES[HOUSE])
    listed = str(SAMPLES[HOUSE].with_name("garage_wing_as_set.csv"))
    for extra, there in (([], False), (["--walkthrough"], True)):
        folder = tmp_path / str(there)
        told = CliRunner().invoke(app, ["asbuilt", plan, listed, "--out", str(folder), *extra])
        assert told.exit_code == 1  # the sample's straps are not all as planned
        assert (folder / "walkthrough.html").exists() is there
    page = (tmp_path / "True" / "walkthrough.html").read_text("utf-8")
    assert len(re.findall(r"seen in place on 3 December 2026", page)) > 100
