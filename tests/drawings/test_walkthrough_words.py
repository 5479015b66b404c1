"""The words of the client's page: easy to read, without promises, without names of cases and fingerprints."""

from __future__ import annotations

import io
import unicodedata
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pypdf
import pytest
from playwright.sync_api import Browser

from drawings.reading_grades import graded, sentences
from drawings.visit import DESK, visit
from export.report.page import report_html
from export.walkthrough.page import walkthrough_html
from framing.anchors.interaction import Interaction
from framing.run import CAUTION, Run
from viewer.plain import mark_words, roof_words

HARDEST_GRADE = 9.0
"""Asked of the page by the project's own issue 15; about the age of 14."""
PROMISES = ("safe", "guarantee", "cannot lift", "will hold", "never fail", "hurricane-proof", "withstand")


@pytest.mark.browser
@pytest.mark.parametrize("sample", ["garage_wing", "long_girder", "cottage"])
def test_no_sentence_is_harder_than_grade_nine_or_promises_or_names_a_case(
    chromium: Browser, sample_run: Callable[[str], Run], tmp_path: Path, sample: str
) -> None:
    run = sample_run(sample)
    path = tmp_path / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    made = visit(chromium, path, **DESK)
    made.settle()
    found = graded(made.page)
    made.page.context.close()
    assert len(found) > 60
    assert {s: grade for s, grade in found.items() if grade > HARDEST_GRADE} == {}
    names = {m.case for m in run.schedule.marks} - {""} | {run.fingerprint}
    assert [s for s in found for name in names if name in s] == []
    assert [s for s in found for word in PROMISES if word in s.lower()] == []


def test_grades_grow_with_long_words_and_long_sentences() -> None:
    """The formula is 0.39 words a sentence + 11.8 syllables a word - 15.59 (Kincaid 1975, from memory)."""
    from textstat import flesch_kincaid_grade

    ten_short = "The cat sat on the mat and the dog ran."
    assert flesch_kincaid_grade(ten_short) == pytest.approx(0.39 * 10 + 11.8 * 1.0 - 15.59, abs=0.1)
    assert flesch_kincaid_grade("Preliminary determination of the component interaction equations.") > 15


def test_a_figure_or_a_clause_ends_no_sentence() -> None:
    assert sentences("It pulls 4.5 lb here at W1-02. The strap is allowed more than that.") == [
        "It pulls 4.5 lb here at W1-02.",
        "The strap is allowed more than that.",
    ]


@pytest.mark.browser
def test_the_printed_walkthrough_begins_with_its_summary(
    chromium: Browser, sample_run: Callable[[str], Run], tmp_path: Path
) -> None:
    run = sample_run("garage_wing")
    path = tmp_path / "walkthrough.html"
    path.write_bytes(walkthrough_html(run))
    made = visit(chromium, path, **DESK)
    made.settle()
    first = pypdf.PdfReader(io.BytesIO(made.page.pdf(prefer_css_page_size=True))).pages[0]
    made.page.context.close()
    said = " ".join(unicodedata.normalize("NFKC", first.extract_text()).split())
    places = [said.index(words) for words in (*roof_words(run), "Tour: 1 of 7")]
    assert places == sorted(places)
    assert CAUTION in said


@pytest.mark.browser
@pytest.mark.parametrize("sample", ["garage_wing", "long_girder"])
def test_the_printed_report_begins_with_three_plain_sentences_before_any_list_of_marks(
    chromium: Browser, sample_run: Callable[[str], Run], tmp_path: Path, sample: str
) -> None:
    run = sample_run(sample)
    path = tmp_path / "report.html"
    path.write_bytes(report_html(run))
    made = visit(chromium, path, **DESK)
    sheet = pypdf.PdfReader(io.BytesIO(made.page.pdf(prefer_css_page_size=True))).pages[0]
    made.page.context.close()
    said = " ".join(unicodedata.normalize("NFKC", sheet.extract_text()).split())
    ends = said.index(roof_words(run)[-1])
    places = [said.index(words) for words in roof_words(run)]
    assert places == sorted(places)
    assert ends < said.index("In short")
    if run.schedule.unresolved:
        assert ends < said.index("UNRESOLVED, no anchor holds")


def test_a_card_says_that_pull_and_push_are_added_only_where_the_row_s_rule_adds_them(
    sample_run: Callable[[str], Run],
) -> None:
    mark = next(m for m in sample_run("hip_house").schedule.marks if m.use and m.use.parallel_ratio is not None)
    assert mark.use
    apart = replace(mark, use=replace(mark.use, rule=Interaction.EACH))
    alone = replace(mark, use=replace(mark.use, parallel_ratio=None, perpendicular_ratio=None))
    assert "Pull and side push added use" in mark_words(mark)
    assert "The hardest of pull and side push uses" in mark_words(apart)
    assert "The pull alone uses" in mark_words(alone)
