"""`strapline pour`: the set to print holds every strap, every list has its sources, and the phone page is beside it."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

from pypdf import PdfReader
from typer.testing import CliRunner

from export.cli import app
from export.commands.run_of_plan import load_run
from export.pour.checklist import PRACTICE, STAGES
from export.pour.sheet import pour_pdf
from export.wall_marks.pdf import wall_mark_pages
from framing.run import CAUTION
from invariants.houses import SAMPLES

RUN = load_run(SAMPLES["garage_wing"])


def test_the_set_holds_the_counts_the_lists_and_every_strip_and_bears_the_caution() -> None:
    pages = [" ".join(p.extract_text().split()) for p in PdfReader(BytesIO(pour_pdf(RUN))).pages]
    assert all(CAUTION in page and RUN.fingerprint in page for page in pages)
    n_strips = len(wall_mark_pages(RUN))
    own, strips = " ".join(pages[:-n_strips]), " ".join(pages[-n_strips:])
    assert f"= {RUN.schedule.totals.n_anchors} in all." in own
    assert all(m.mark in strips for m in RUN.schedule.marks)
    for stage in STAGES:
        assert stage.name in own


def test_every_line_of_the_lists_says_where_it_comes_from_or_that_it_has_no_source() -> None:
    sources = [line.source for stage in STAGES for line in stage.lines]
    assert all(sources)
    assert 0 < sources.count(PRACTICE) < len(sources)


def test_the_command_writes_the_set_and_the_phone_page(tmp_path: Path) -> None:
    out = tmp_path / "out"
    told = CliRunner().invoke(app, ["pour", str(SAMPLES["cottage"]), "--out", str(out)])
    assert told.exit_code == 0, told.stderr
    assert sorted(p.name for p in out.iterdir()) == ["pour.pdf", "wall-marks.html"]
    again = CliRunner().invoke(app, ["pour", str(SAMPLES["cottage"]), "--out", str(out)])
    assert again.exit_code == 0
