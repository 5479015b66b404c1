"""anchor-plan.pdf read by pdftotext and pypdf: its text is the schedule, its numbers are to scale.

Outside facts: 72 points are an inch (PDF reference, ISO 32000-1, sec. 8.3.2.3); 10 ft at 1/4 in. = 1 ft are 2.5 in.
"""

from __future__ import annotations

import csv
import io
import math
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pypdf
import pytest
from pypdf.generic import ContentStream

from drawings.drawn import run_of_outline
from export.anchor_plan.pdf import anchor_plan_pdf
from export.anchor_plan.sheets import PAPERS, anchor_plan_sheets
from export.tables.schedule import schedule_csv
from framing.run import CAUTION, Run

SAMPLES = ("cottage", "hip_house", "garage_wing")


def pages(data: bytes) -> list[pypdf.PageObject]:
    return list(pypdf.PdfReader(io.BytesIO(data)).pages)


@pytest.mark.parametrize("name", SAMPLES)
def test_text_taken_out_by_another_program_is_the_schedule(
    sample_run: Callable[[str], Run], name: str, tmp_path: Path
) -> None:
    run = sample_run(name)
    path = tmp_path / "plan.pdf"
    path.write_bytes(anchor_plan_pdf(run))
    n_large = len(anchor_plan_sheets(run, PAPERS[0]))
    for first, last in ((1, n_large), (n_large + 1, len(pages(path.read_bytes())))):
        command = ["pdftotext", "-raw", "-f", str(first), "-l", str(last), path, "-"]
        text = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        words = " ".join(text.split())
        for row in csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig"))):
            figures = (row["strap_station"].lstrip("'"), row["station"].lstrip("'"))
            wanted = " ".join((row["mark"], *figures, row["count"], row["anchor"]))
            assert re.search(rf"(?<!\S){re.escape(wanted)}(?!\S)", words), wanted


def test_every_page_carries_the_caution_and_the_fingerprint(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("garage_wing")
    for page in pages(anchor_plan_pdf(run)):
        words = " ".join(page.extract_text().split())
        assert CAUTION in words
        assert run.fingerprint in words


def test_the_pages_have_the_sizes_of_their_papers(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("garage_wing")
    wanted = [(72 * p.width_in, 72 * p.height_in) for p in PAPERS for _ in anchor_plan_sheets(run, p)]
    assert [(float(p.mediabox.width), float(p.mediabox.height)) for p in pages(anchor_plan_pdf(run))] == wanted


def segments_pt(page: pypdf.PageObject) -> list[float]:
    """The lengths of every straight line that the page draws, by its own numbers."""
    lengths, at, began = [], (0.0, 0.0), (0.0, 0.0)
    stream = ContentStream(page.get_contents(), page.pdf)
    for operands, operator in stream.operations:
        if operator == b"cm":
            assert [float(n) for n in operands] == [1, 0, 0, 1, 0, 0]
        if operator in (b"m", b"l"):
            to = (float(operands[0]), float(operands[1]))
            if operator == b"l":
                lengths.append(math.dist(at, to))
            else:
                began = to
            at = to
        if operator == b"h":
            lengths.append(math.dist(at, began))
    return lengths


def test_a_line_of_ten_feet_measures_two_and_a_half_inches_at_a_quarter_inch() -> None:
    run = run_of_outline(((0, 0), (46, 0), (46, 10), (0, 10)))
    assert anchor_plan_sheets(run, PAPERS[0])[0].view.scale.written == "1/4 in. = 1 ft"
    lengths = segments_pt(pages(anchor_plan_pdf(run))[0])
    assert sum(abs(n - 2.5 * 72) < 0.001 for n in lengths) >= 2  # the two walls of 10 ft
    assert sum(abs(n - 11.5 * 72) < 0.001 for n in lengths) >= 2  # the two of 46 ft


def test_it_is_drawn_as_lines_and_letters_and_holds_no_picture(sample_run: Callable[[str], Run]) -> None:
    for page in pages(anchor_plan_pdf(sample_run("hip_house"))):
        assert list(page.images) == []
        fonts = {f["/BaseFont"] for f in page["/Resources"]["/Font"].values()}
        assert fonts <= {"/Helvetica", "/Helvetica-Bold"}


def test_equal_input_gives_equal_bytes(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    first = anchor_plan_pdf(run)
    anchor_plan_sheets.cache_clear()
    assert anchor_plan_pdf(run) == first
