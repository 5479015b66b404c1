"""The one rule of width and line breaks, and letters that a face lacks; seen by another reader of the PDF."""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace

import pypdf
import pytest

from export.anchor_plan.pdf import anchor_plan_pdf
from export.paper.lettering import face_of, narrowing, printable, text_width_in, wrapped
from export.wall_marks.pdf import wall_marks_pdf
from framing.run import Run

NAMES = ("O’Hara – Lot 7", "Дом № 7 – Łódź", "Αυλή 7")


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("made", [anchor_plan_pdf, wall_marks_pdf], ids=["plan", "strips"])
def test_a_project_s_name_prints_alike_on_sheets_and_strips(
    sample_run: Callable[[str], Run], made: Callable[[Run], bytes], name: str
) -> None:
    run = sample_run("hip_house")
    run = replace(run, plan=replace(run.plan, project=replace(run.plan.project, name=name)))
    for page in pypdf.PdfReader(io.BytesIO(made(run))).pages:
        assert name in " ".join(page.extract_text().split())


def test_a_letter_without_a_face_or_in_need_of_more_than_one_stands_as_its_number() -> None:
    assert printable("A試B") == "A<U+8A66>B"
    assert printable("שלום") == "<U+05E9><U+05DC><U+05D5><U+05DD>"  # set from right to left
    assert printable("e\u0301") == "é"  # a letter and its accent are one letter
    assert printable("x\u0331") == "x<U+0331>"
    assert printable("a\nb\tc\x00") == "a b c "


def test_the_standard_face_is_used_where_it_has_every_letter() -> None:
    assert [face_of(t) for t in ("O’Hara – 7", "Łódź")] == ["Helvetica", "DejaVuSans"]
    assert face_of("Łódź", bold=True) == "DejaVuSans-Bold"


def test_a_long_word_breaks_after_its_hyphens_and_only_else_within() -> None:
    lines = wrapped("strap-of-the-long-kind", text_width_in("strap-of-the-", 0.1) + 0.001, 0.1)
    assert lines == ("strap-of-the-", "long-kind")
    assert "".join(wrapped("m" * 40, 1.0, 0.1)) == "m" * 40
    assert all(text_width_in(line, 0.1) <= 1.0 for line in wrapped("m" * 40 + " two words", 1.0, 0.1))
    assert wrapped("  ", 1.0, 0.1) == ()


def test_a_narrowed_text_is_exactly_as_long_as_its_room() -> None:
    wide = text_width_in("a long name", 0.2)
    assert narrowing("a long name", wide / 2, 0.2) == pytest.approx(0.5)
    assert narrowing("a long name", 2 * wide, 0.2) == 1.0
