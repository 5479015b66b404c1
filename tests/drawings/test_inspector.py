"""What an inspector looks for, read back from the PDFs by another program, and from the sheets before they are written.

Facts from outside: GCpi of an enclosed building is +0.18 and -0.18 (ASCE 7-22, table 26.13-1, from memory).
"""

from __future__ import annotations

import io
from collections.abc import Callable
from dataclasses import replace

import pypdf
import pytest
from shapely.geometry import LineString

from drawings import marked_run
from drawings.drawn import run_of_outline
from export.anchor_plan.pdf import anchor_plan_pdf
from export.anchor_plan.placing import Column, free_corner, spots_of
from export.anchor_plan.sheets import PAPERS, anchor_plan_sheets
from export.paper.sheet import Layer, Polyline, Text
from export.paper.table import Lettering, table_block
from export.wall_marks.pdf import wall_marks_pdf
from export.wall_marks.tape_marks import wall_tapes
from export.words.supports import start_words
from framing.plan import Support, SupportKind
from framing.run import Run

L_HOUSE = ((0, 0), (58, 0), (58, 32), (22, 32), (22, 54), (0, 54))


def page_texts(data: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in pypdf.PdfReader(io.BytesIO(data)).pages]


@pytest.mark.parametrize("made", [anchor_plan_pdf, wall_marks_pdf], ids=["plan", "strips"])
def test_every_sheet_says_the_wind_and_every_set_says_the_rest_once(
    sample_run: Callable[[str], Run], made: Callable[[Run], bytes]
) -> None:
    run = sample_run("hip_house")
    pages = page_texts(made(run))
    wind = run.plan.wind
    for page in pages:
        assert f"{wind.speed_mph:g} mph" in page
        for wanted in ("risk category II (assumed)", f"exposure {wind.exposure}", "+0.18", "-0.18", wind.edition.value):
            assert wanted in page
    whole = " ".join(pages)
    anchor = next(m.anchor for m in run.schedule.marks if m.anchor)
    for wanted in (f"{anchor.embedment_in:g}", f"{anchor.allowable_uplift_lb:,.0f}", anchor.approval, anchor.fasteners):
        assert wanted in whole
    for wanted in ('up to 1/8" good', '1/2" a filler', "Before the concrete is hard", "After it is hard", "supersedes"):
        assert wanted in whole


@pytest.mark.parametrize("made", [anchor_plan_pdf, wall_marks_pdf], ids=["plan", "strips"])
def test_a_plan_without_a_date_says_so_on_every_sheet(
    sample_run: Callable[[str], Run], made: Callable[[Run], bytes]
) -> None:
    run = sample_run("cottage")
    assert not any("NOT DATED" in page for page in page_texts(made(run)))
    undated = replace(run, plan=replace(run.plan, project=replace(run.plan.project, date=None)))
    assert all("NOT DATED" in page for page in page_texts(made(undated)))


def test_the_words_not_dated_are_set_in_large_letters() -> None:
    run = marked_run.house()
    run = replace(run, plan=replace(run.plan, project=replace(run.plan.project, date=None)))
    for page in pypdf.PdfReader(io.BytesIO(wall_marks_pdf(run))).pages:
        sizes: dict[str, float] = {}

        def see(
            text: str, _cm: object, _tm: object, _font: object, size: float, seen: dict[str, float] = sizes
        ) -> None:
            seen[text.strip()] = max(size, seen.get(text.strip(), 0.0))

        page.extract_text(visitor_text=see)
        assert sizes["NOT DATED"] >= max(sizes.values())


def test_each_wall_has_one_place_to_be_signed_for(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("garage_wing")
    text = " ".join(page_texts(wall_marks_pdf(run)))
    assert text.count("inspector") == len([t for t in wall_tapes(run) if t.ticks])
    for paper in PAPERS:
        words = [t.text for s in anchor_plan_sheets(run, paper) for t in s.strokes if isinstance(t, Text)]
        at = words.index("Sign-off by wall")
        assert {w.name for w in run.outline.walls} <= set(words[at : at + 60])


def test_the_leaders_of_two_walls_never_cross() -> None:
    for paper in PAPERS:
        plan = anchor_plan_sheets(run_of_outline(L_HOUSE), paper)[0]
        leaders = [
            LineString(s.points)
            for s in plan.drawing
            if isinstance(s, Polyline) and s.layer is Layer.DIMENSIONS and not s.closed
        ]
        assert len(leaders) > 50
        assert not [1 for i, a in enumerate(leaders) for b in leaders[:i] if a.crosses(b)]


def test_what_finds_room_beside_the_plan_gets_no_sheet_of_its_own() -> None:
    window = (0.0, 0.0, 10.0, 8.0)
    house = LineString([(0, 0), (6, 0), (6, 8)]).envelope
    column = Column(width_in=3.0, height_in=3.5)
    sizes = [(3.0, 3.0), (3.0, 3.0), (7.0, 3.0), (3.0, 3.0), (3.0, 3.0)]
    spots = spots_of(sizes, window, [house], column)
    assert [s.sheet for s in spots] == [0, 0, 1, 1, 1]
    assert spots[0].corner is not None
    assert spots[0].corner[0] > 6.0
    assert [s.corner is None for s in spots] == [False, False, False, True, False]  # the column holds one
    assert free_corner((5.0, 1.0), window, [house]) is None


def test_a_table_wraps_its_widest_column_and_keeps_within_its_width() -> None:
    rows = [("a", "a fastener with a name that is far too long for its column", "1,128")]
    block = table_block("T", ("id", "nails", "up"), rows, 2.5, Lettering(title_in=0.1, cell_in=0.08), Layer.NOTES)
    texts = [s for s in block.strokes if isinstance(s, Text)]
    assert max(t.start[0] + t.width_in for t in texts) <= 2.5
    assert {"a", "1,128"} <= {t.text for t in texts}
    assert " ".join(t.text for t in texts).count("fastener") == 1


def test_the_start_of_an_inside_wall_is_named_by_the_wall_beside_it_or_the_one_it_faces() -> None:
    run = marked_run.run_of(marked_run.plan_of("Inside (invented)", 46.0, 28.0))
    beside = Support(kind=SupportKind.BEARING_WALL, start_ft=(0.5, 14.0), end_ft=(30.0, 14.0), holds_down=True)
    free = replace(beside, start_ft=(10.0, 14.0))
    assert start_words(run, beside) == "end at W4, 14'-0\" along it"  # W4 runs down the left side
    assert start_words(run, free) == "end toward W4"
