"""The sheets of the anchor plan, measured before any file is written: nothing overlaps, nothing is too small.

Outside facts: lettering of at least 3/32 in. on plotted sheets and the scales 1/4, 3/16, 1/8 ... in. = 1 ft are
common practice, no source; ARCH D is 36 x 24 in. and tabloid 17 x 11 in. (ANSI/ASME Y14.1 and the architectural
series, from memory).
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable
from dataclasses import replace

import pytest

from drawings.drawn import overlaps, rambling_outline, run_of_outline, supported_house, texts
from export.anchor_plan.names import readable_deg
from export.anchor_plan.rows import spread
from export.anchor_plan.sheets import ARCH_D, PAPERS, TABLOID, Paper, anchor_plan_sheets
from export.paper.sheet import Layer, RunningDimension, Sheet, Symbol
from framing.members import CarrierKind
from framing.plan import Support, SupportKind
from framing.run import CAUTION, Run
from framing.units import feet_inches

SAMPLES = ("cottage", "hip_house", "garage_wing")
U_HOUSE = ((0, 0), (60, 0), (60, 50), (40, 50), (40, 28), (22, 28), (22, 50), (0, 50))
HIP = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (0.0, 28.0))


def all_sheets(run: Run) -> list[Sheet]:
    return [sheet for paper in PAPERS for sheet in anchor_plan_sheets(run, paper)]


def said(sheet: Sheet) -> str:
    return " ".join(t.text for t in texts(sheet))


def check_sheets(run: Run) -> None:
    for sheet in all_sheets(run):
        assert overlaps(sheet) == [], sheet.name
        assert min(t.height_in for t in texts(sheet)) >= 3 / 32


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_overlaps_on_any_sheet_of_the_sample_plans(sample_run: Callable[[str], Run], name: str) -> None:
    check_sheets(sample_run(name))


@pytest.mark.parametrize("seed", range(6))
def test_nothing_overlaps_on_the_sheets_of_a_rambling_house(seed: int) -> None:
    check_sheets(run_of_outline(rambling_outline(seed), "gable" if seed % 3 == 2 else "hip"))


@pytest.mark.full
@pytest.mark.parametrize("seed", range(6, 50))
def test_nothing_overlaps_on_the_sheets_of_fifty_rambling_houses(seed: int) -> None:
    check_sheets(run_of_outline(rambling_outline(seed), "gable" if seed % 3 == 2 else "hip"))


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("paper", PAPERS, ids=lambda p: p.name)
def test_every_mark_stands_on_the_sheets_with_tape_centre_anchor_and_count(
    sample_run: Callable[[str], Run], name: str, paper: Paper
) -> None:
    run = sample_run(name)
    cells = [t.text for sheet in anchor_plan_sheets(run, paper) for t in texts(sheet) if t.layer is Layer.MARKS]
    rows = {tuple(cells[i : i + 4]) for i in range(len(cells) - 3)}
    wanted = {
        (m.mark, feet_inches(m.bearing.strap_station_ft), feet_inches(m.bearing.station_ft), f"{m.count} {m.anchor.id}")
        for m in run.schedule.marks
        if m.anchor
    }
    assert wanted - rows == set()


@pytest.mark.parametrize("name", SAMPLES)
def test_every_anchor_has_one_symbol_and_every_wall_one_start(sample_run: Callable[[str], Run], name: str) -> None:
    run = sample_run(name)
    plan = anchor_plan_sheets(run, ARCH_D)[0]
    symbols = Counter(s.mark for s in plan.drawing if isinstance(s, Symbol) and s.mark)
    assert symbols == Counter({m.mark: max(1, m.count) for m in run.schedule.marks})
    starts = Counter(t.text for t in texts(plan) if t.layer is Layer.MARKS and t.text[:6] == "START ")
    assert starts == Counter(f"START {w.name}" for w in run.outline.walls)


def test_the_sheets_carry_what_an_office_and_an_inspector_look_for(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("garage_wing")
    for paper in PAPERS:
        sheets = anchor_plan_sheets(run, paper)
        for sheet in sheets:
            words = said(sheet)
            for wanted in (
                CAUTION,
                "Stamp and signature",
                "Use with truss package revision",
                run.fingerprint,
                "Revision B",
            ):
                assert wanted in words, (sheet.name, wanted)
            assert (sheet.width_in, sheet.height_in) == ((36, 24) if paper is ARCH_D else (17, 11))
        everything = " ".join(said(s) for s in sheets)
        for wanted in ("invented anchors, not for building", "Straps by wall", "Notes", "Assumed"):
            assert wanted in everything


def test_the_scale_is_a_quarter_inch_where_it_fits_and_smaller_where_it_does_not() -> None:
    scales = [
        anchor_plan_sheets(run_of_outline(o), ARCH_D)[0].view.scale.written
        for o in (HIP, ((0, 0), (200, 0), (200, 40), (0, 40)))
    ]
    assert scales == ["1/4 in. = 1 ft", "3/32 in. = 1 ft"]


def test_a_wall_that_looks_into_a_court_is_drawn_apart_and_named_on_the_plan() -> None:
    sheets = anchor_plan_sheets(run_of_outline(U_HOUSE), ARCH_D)
    plan = [t.text for t in texts(sheets[0])]
    assert "W4 apart" in plan
    assert "W6 apart" in plan
    assert any(t.text == "START W4" for sheet in sheets for t in texts(sheet))


def test_a_mark_that_no_anchor_holds_is_flagged_by_shape_and_word_with_its_demand() -> None:
    run = run_of_outline(HIP)
    first = replace(run.schedule.marks[0], anchor=None, count=0, ratio=None, allowable_uplift_lb=None)
    first = replace(first, uplift_lb=3829.6, parallel_lb=41.2, perpendicular_lb=283.7)
    run = replace(run, schedule=replace(run.schedule, marks=(first, *run.schedule.marks[1:])))
    for paper in PAPERS:
        sheets = anchor_plan_sheets(run, paper)
        assert [s.sign.shape.value for s in sheets[0].drawing if isinstance(s, Symbol) and s.mark == first.mark] == [
            "ringed cross"
        ]
        assert any(t.text == "UNRESOLVED" for sheet in sheets for t in texts(sheet))
        demand = "W1-01 (corner jack 1, 1 ply): up 3,830 lb, along 41 lb, across 284 lb"
        assert sum(said(sheet).count(demand) for sheet in sheets) == 1
        assert [overlaps(sheet) for sheet in sheets] == [[] for _ in sheets]


def test_a_pair_of_straps_shows_both_faces_of_the_truss() -> None:
    run = run_of_outline(HIP)
    i, mark = next((i, m) for i, m in enumerate(run.schedule.marks) if m.bearing.plies == 2)
    pair = next(a for a in run.schedule.catalogue.anchors if a.count == 2 and a.plies == 2)
    both = replace(mark, side=type(mark.side).BOTH, anchor=pair, count=2)
    run = replace(
        run, schedule=replace(run.schedule, marks=(*run.schedule.marks[:i], both, *run.schedule.marks[i + 1 :]))
    )
    for paper in PAPERS:
        sheets = anchor_plan_sheets(run, paper)
        cells = [t.text for sheet in sheets for t in texts(sheet)]
        near, far = (feet_inches(mark.bearing.station_ft + side * 1.5 / 12) for side in (-1, 1))
        at = [cells[k + 1 : k + 3] for k, text in enumerate(cells) if text == mark.mark]
        assert [near, feet_inches(mark.bearing.station_ft)] in at
        assert [far, "far face"] in at
        assert [overlaps(sheet) for sheet in sheets] == [[] for _ in sheets]


def test_a_support_that_holds_down_has_its_own_drawing() -> None:
    run = run_of_outline(HIP)
    support = Support(kind=SupportKind.BEARING_WALL, start_ft=(10.0, 14.0), end_ft=(40.0, 14.0), holds_down=True)
    there = {"mark": "S1-01", "wall": "S1", "stands_on": CarrierKind.SUPPORT, "station_ft": 6.0}
    mark = run.schedule.marks[3]
    straps = [
        replace(s, tape_ft=6.0 + off, point_ft=(16.0 + off, 14.0), in_from_face_ft=None)
        for s, off in zip(mark.bearing.straps, (-0.0625, 0.0625), strict=True)
    ]
    there |= {"straps": tuple(straps), "point_ft": (16.0, 14.0)}
    mark = replace(mark, bearing=replace(mark.bearing, **there))
    run = replace(
        run,
        plan=replace(run.plan, supports=(support,)),
        schedule=replace(run.schedule, marks=(*run.schedule.marks, mark)),
    )
    for paper in PAPERS:
        sheets = anchor_plan_sheets(run, paper)
        assert any(t.text == "S1-01" for sheet in sheets for t in texts(sheet))
        assert [overlaps(sheet) for sheet in sheets] == [[] for _ in sheets]


def test_a_support_without_anchors_is_named_on_the_plan() -> None:
    run = supported_house()
    for paper in PAPERS:
        sheets = anchor_plan_sheets(run, paper)
        assert [overlaps(sheet) for sheet in sheets] == [[] for _ in sheets]
        named = {t.text for t in texts(sheets[0]) if t.layer is Layer.MARKS}
        assert {"S2", "S3", "S4"} <= {words.removesuffix(", no anchors") for words in named}
        assert "S4, no anchors" in named  # the others where there is room for more than the name


@pytest.mark.parametrize("turn_deg", [33, 90, 180, 211, 315])
def test_a_turned_house_lies_along_its_sheet_and_north_turns_with_it(turn_deg: int) -> None:
    a = math.radians(turn_deg)
    turned = tuple((x * math.cos(a) - y * math.sin(a), x * math.sin(a) + y * math.cos(a)) for x, y in HIP)
    run = run_of_outline(turned)
    sheet = anchor_plan_sheets(run, ARCH_D)[0]
    assert abs(sheet.view.angle_deg) <= 45.0 + 1e-9
    for wall in run.outline.walls:
        (x0, y0), (x1, y1) = sheet.view.paper(wall.start_ft), sheet.view.paper(wall.end_ft)
        assert min(abs(x1 - x0), abs(y1 - y0)) < 1e-9
    assert overlaps(sheet) == []


def test_no_running_figure_is_added_up_from_rounded_pieces(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    figures = {
        (d.wall, d.figure) for d in anchor_plan_sheets(run, ARCH_D)[0].drawing if isinstance(d, RunningDimension)
    }
    assert {(m.bearing.wall, feet_inches(m.bearing.strap_station_ft)) for m in run.schedule.marks} <= figures


def test_rows_keep_their_order_and_their_distance_and_move_no_more_than_they_must() -> None:
    places = spread([0.0, 0.1, 0.2, 5.0], [1.0, 1.0, 1.0, 1.0])
    assert places == pytest.approx([-0.9, 0.1, 1.1, 5.0])  # the first three, centred on their own mean


@pytest.mark.parametrize(
    ("line_deg", "text_deg"), [(0, 0), (45, 45), (90, 90), (180, 0), (225, 45), (270, 90), (-90, 90)]
)
def test_text_is_read_from_below_or_from_the_right(line_deg: float, text_deg: float) -> None:
    assert readable_deg(line_deg) == pytest.approx(text_deg)


def test_letters_that_the_fonts_lack_and_formulas_of_a_drawing_do_no_harm() -> None:
    run = run_of_outline(HIP)
    odd = replace(run.plan.project, name="Дом %%c ^J \n" + "x" * 400)
    run = replace(run, plan=replace(run.plan, project=odd))
    for sheet in all_sheets(run):
        assert overlaps(sheet) == []
    assert TABLOID in PAPERS
