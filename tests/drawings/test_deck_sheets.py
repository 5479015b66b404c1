"""deck.pdf as a roofer and an inspector read it."""

from __future__ import annotations

import io
import re
from functools import cache
from pathlib import Path

import pytest
import shapely
from pypdf import PdfReader
from shapely.geometry import Polygon

from export.commands.run_of_plan import load_run
from export.deck_plan.sheets import PAGE_IN, deck_pdf, deck_sheets
from export.paper.pdf import Page
from export.paper.sheet import Layer, Line, Text
from export.paper.zone_hatches import families, hatched
from framing.deck.zones import zone_measures
from framing.run import CAUTION, Run
from framing.units import feet_inches
from invariants.houses import SAMPLES


@cache
def run(name: str) -> Run:
    return load_run(SAMPLES[name])


@cache
def pages(name: str) -> tuple[Page, ...]:
    return deck_sheets(run(name))


def texts(page: Page) -> list[Text]:
    return [s for s in page.strokes if isinstance(s, Text)]


def said(page: Page) -> str:
    return " ".join(t.text for t in texts(page))


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_nothing_leaves_the_sheet_and_no_two_texts_overlap(name: str) -> None:
    for page in pages(name):
        paper = shapely.box(0.2, 0.2, PAGE_IN[0] - 0.2, PAGE_IN[1] - 0.2)
        boxes = [Polygon(t.box) for t in texts(page)]
        assert all(paper.covers(b) for b in boxes)
        tree = shapely.STRtree(boxes)
        pairs = tree.query(boxes, predicate="overlaps").T
        met = [
            (texts(page)[i].text, texts(page)[j].text) for i, j in pairs if boxes[i].intersection(boxes[j]).area > 1e-3
        ]
        assert met == []


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_both_sheets_bear_the_caution_and_neither_promises_anything(name: str) -> None:
    reader = PdfReader(io.BytesIO(deck_pdf(run(name))))
    assert len(reader.pages) == 2
    for page in reader.pages:
        words = " ".join(page.extract_text().split())
        assert CAUTION in words
        assert not re.search(r"\b(meets|complies|compliant)\b", words, re.IGNORECASE)


@pytest.mark.parametrize("name", ["hip_house", "cottage"])
def test_every_zone_has_its_suction_its_nails_and_its_area_as_the_run_says(name: str) -> None:
    words = said(pages(name)[0])
    for n in run(name).cover.deck.nailings:
        assert n.truss.spacing_in is not None
        assert re.search(
            rf'{n.zone.name} {n.zone.suction_psf:.0f} {n.truss.spacing_in:g}" [^a-z]*{n.zone.area_ft2:.0f}', words
        )
    for z in run(name).cover.deck.zones:
        assert z.name in words
    for m in zone_measures(run(name).plan, run(name).roof, run(name).loads.widths):
        assert words.count(feet_inches(m.length_ft)) >= 2  # in the list and on the plan


def test_the_sheet_says_what_a_tile_s_moment_was_reckoned_with_and_what_of_the_code_was_not_read() -> None:
    """165 mph, Exposure C, 14'-11": q = 0.00256 x 0.849 x 165^2 = 59.2 psf, 0.6 of it 35.5; the sample's file gives
    four of the eight conditions, three are for people and one it leaves out.
    """
    words = said(pages("hip_house")[1])
    assert "q_h = 35.5" in words
    assert "0.6 times the velocity pressure as ASCE 7-22 defines it (without K_d)" in words
    assert "Of that equation's eight conditions 4 hold by your file, 0 do not, 4 are open" in words
    assert "R905.1.1" in words


def test_what_has_no_room_stands_on_a_sheet_more_and_nothing_is_cut_off(tmp_path: Path) -> None:
    values = "metal_cover_in,16\nclip_spacing_in,24\nclip_fasteners,2\nclip_lb,400\nfastener_lb,150\n"
    (tmp_path / "mine.csv").write_text(f"item,value\n{values}")
    plan = SAMPLES["cottage"].read_text()
    (tmp_path / "cottage_anchors.csv").write_bytes(SAMPLES["cottage"].with_name("cottage_anchors.csv").read_bytes())
    (tmp_path / "house.toml").write_text(f'{plan}\n[covering]\napprovals = "mine.csv"\n')
    sheets = deck_sheets(load_run(tmp_path / "house.toml"))
    assert len(sheets) == 3
    for k, page in enumerate(sheets, start=1):
        assert f"sheet {k} of 3" in said(page)
        assert CAUTION in said(page)
        assert all(0.2 < y < PAGE_IN[1] - 0.2 for t in texts(page) for _, y in t.box)
    words = " ".join(said(page) for page in sheets)
    assert words.count("pull on a clip") == words.count("pull on a fastener") == 6


def test_zones_are_told_apart_without_colour() -> None:
    for name in SAMPLES:
        zones = run(name).cover.deck.zones
        looks = {(families(z)) for z in zones}
        assert len(looks) == len({(z.number, z.part.value == "over rooms") for z in zones})


def test_a_hatch_stays_in_its_shape_and_leaves_its_holes_white() -> None:
    """A square of 2 in. with a hole of 1 in.: lines 0.1 in. apart at 45 degrees, 3 sq in. of them: 30 in. in all."""
    shape = shapely.box(0, 0, 2, 2).difference(shapely.box(0.5, 0.5, 1.5, 1.5))
    lines = [s for s in hatched(shape, ((45.0, 0.1),), Layer.DETAIL) if isinstance(s, Line)]
    drawn = [shapely.LineString([s.start, s.end]) for s in lines]
    assert all(shape.buffer(1e-6).covers(d) for d in drawn)
    assert sum(d.length for d in drawn) == pytest.approx(30.0, rel=0.03)


def test_a_plan_that_says_no_nail_gets_the_question_and_no_spacing() -> None:
    words = " ".join(said(page) for page in pages("garage_wing"))
    assert "No nail spacing is given: the plan does not say panel nor nail nor wood of the top chords." in words
    assert "not given" in words


def test_the_covering_s_demand_stands_beside_what_the_file_says() -> None:
    words = said(pages("hip_house")[1])
    for d in run("hip_house").cover.covering.demands:
        assert f"{d.value:.1f} {d.unit}" in words
    assert "resistance: not given" in words  # hips and ridges: the sample's file says nothing of them
