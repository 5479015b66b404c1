"""What is open about the wind stands on every output, figure and all."""

from __future__ import annotations

import csv
import html
import io
import json
import re
from pathlib import Path

import pytest
from ezdxf.filemanagement import read as read_dxf
from pypdf import PdfReader

from export.asbuilt.page import asbuilt_html
from export.asbuilt.sheet import asbuilt_dxf, asbuilt_pdf
from export.asbuilt.words import findings
from export.outputs import OUTPUTS, made
from export.words.check import findings_text
from framing.anchors.catalogue_file import shipped_catalogue
from framing.asbuilt.survey_file import read_surveys
from framing.run import Run, make_run
from invariants.houses import plan_of
from viewer.scene import build_scene

BOX = [(0, 0), (30, 0), (30, 20), (0, 20)]
ELL = [(0, 0), (50, 0), (50, 28), (26, 28), (26, 48), (0, 48)]
FIGURE = re.compile(r"then lifts ([\d,]+) lb, not ([\d,]+)[.;]")


@pytest.fixture(scope="module", params=[BOX, ELL], ids=["a box", "an L"])
def run(request: pytest.FixtureRequest) -> Run:
    return make_run(plan_of(request.param), shipped_catalogue())


def read(name: str, data: bytes) -> str:
    """All that a person or a program reads of an output, its line breaks as spaces."""
    if name.endswith(".pdf"):
        found = " ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)
    elif name.endswith(".csv"):
        rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))
        assert len({row["open_about_the_wind"] for row in rows}) == 1
        found = rows[0]["open_about_the_wind"]
    elif name.endswith(".dxf"):
        drawing = read_dxf(io.StringIO(data.decode()))
        found = " ".join(t.dxf.text for t in drawing.modelspace().query("TEXT"))
    elif name.endswith(".glb"):
        size = int.from_bytes(data[12:16], "little")
        tree = json.loads(data[20 : 20 + size])
        found = " ".join(next(n for n in tree["nodes"] if n.get("name") == "house")["extras"]["notes"])
    elif name.endswith(".json"):
        found = " ".join(json.loads(data)["notes"])
    else:
        found = html.unescape(data.decode())
    return " ".join(found.split())


@pytest.mark.parametrize("name", OUTPUTS)
def test_every_output_tells_that_openings_are_not_declared_and_what_a_broken_one_makes(name: str, run: Run) -> None:
    said = run.wind_doubts[0]
    opened_lb, closed_lb = (float(lb.replace(",", "")) for lb in FIGURE.search(said).groups())  # type: ignore[union-attr]
    assert "debris" in said
    assert opened_lb > closed_lb == pytest.approx(max(m.uplift_lb for m in run.schedule.marks), abs=0.5)
    found = read(name, made(name, run))
    for doubt in run.wind_doubts:
        assert doubt in found


def test_check_and_the_picture_of_the_model_tell_it_too(run: Run) -> None:
    for doubt in run.wind_doubts:
        assert doubt in " ".join(findings_text(run).split())
        assert doubt in build_scene(run).notes


def test_what_is_made_of_the_straps_as_set_tells_it_too(run: Run, tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text("mark,set\nW1-01,yes\n")
    found = findings(run, read_surveys([path], run))
    for name, data in (
        ("asbuilt.html", asbuilt_html(found)),
        ("asbuilt.pdf", asbuilt_pdf(found)),
        ("asbuilt.dxf", asbuilt_dxf(found)),
    ):
        for doubt in run.wind_doubts:
            assert doubt in read(name, data)


def test_a_house_in_no_such_region_has_an_empty_column_and_no_word_of_it() -> None:
    quiet = make_run(plan_of(BOX, speed_mph=110.0), shipped_catalogue())
    assert quiet.wind_doubts == ()
    assert read("schedule.csv", made("schedule.csv", quiet)) == ""
    assert "Open about the wind" not in read("deck.pdf", made("deck.pdf", quiet))
