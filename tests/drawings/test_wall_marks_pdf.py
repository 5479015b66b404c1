"""wall-marks.pdf, read back by two other programs (poppler's pdftotext, pypdf) and measured."""

from __future__ import annotations

import io
import itertools
import re
import time
from collections import Counter
from functools import cache

import pypdf
import pytest
from pypdf.generic import ContentStream
from shapely import STRtree, unary_union
from shapely.geometry import LineString, Point, Polygon, box
from shapely.geometry.base import BaseGeometry

from drawings import marked_run
from drawings.strip_reader import POINTS, columns_of, in_inches, row, words_of
from export.paper.sheet import PEN_WIDTH_IN, Circle, Fill, Layer, Line, Pen, Polyline, Text
from export.wall_marks.mark_columns import BOX_IN
from export.wall_marks.pdf import wall_mark_pages, wall_marks_pdf
from export.wall_marks.tape_marks import wall_tapes
from export.wall_marks.wall_drawing import fan_out, paper_strips
from framing.members import MemberKind
from framing.run import CAUTION, Run

RUNS = {
    "house": marked_run.house(),
    "crowded": marked_run.crowded(),
    "supported": marked_run.supported(),
    "random": marked_run.at_random(11),
    **{name: marked_run.sample(name) for name in marked_run.SAMPLES},
}


@cache
def pdf_of(name: str) -> bytes:
    """The PDF of one of the runs above."""
    return wall_marks_pdf(RUNS[name])


def expected_columns(run: Run) -> list[tuple[str, float, str]]:
    """(mark, station of the tick in feet, side) of every strap in the schedule; porch beams have none."""
    return [(m.mark, s.tape_ft, s.side.value) for m in run.schedule.marks for s in m.straps]


def length_ft(run: Run, name: str) -> float:
    if name[0] == "W":
        return run.outline.wall(name).length_ft
    support = run.plan.supports[int(name[1:]) - 1]
    return abs(support.end_ft[0] - support.start_ft[0])


@pytest.mark.parametrize("name", RUNS)
def test_every_mark_station_anchor_and_side_reads_back_as_the_schedule_says(name: str) -> None:
    run = RUNS[name]
    columns = [c for c in columns_of(pdf_of(name)) if "on strip" not in row(c, "set")]
    expected = expected_columns(run)
    by_mark = {m.mark: m for m in run.schedule.marks}
    assert Counter(c["mark"] for c in columns) == Counter(mark for mark, _, _ in expected)
    for column in columns:
        mark = by_mark[column["mark"]]
        side = row(column, "strap").split("lies on ")[-1].split()[0].lower()
        station_ft = next(ft for m, ft, s in expected if (m, s) == (mark.mark, side))
        far_ft = length_ft(run, mark.bearing.wall) - station_ft
        for figure, inside_ft in (("from", station_ft), ("in", station_ft), ("from#1", far_ft)):
            assert abs(float(in_inches(row(column, figure))) - 12 * inside_ft) <= 1 / 32 + 1e-6
        assert in_inches(row(column, "from")) == in_inches(row(column, "in"))
        assert abs(float(in_inches(row(column, "truss"))) - 12 * mark.bearing.station_ft) <= 1 / 32 + 1e-6
        plies = f", {mark.bearing.plies} ply" if mark.bearing.plies > 1 else ""
        assert row(column, "member") == f"{mark.bearing.member}{plies}"
        assert row(column, "anchor") == (mark.anchor.id if mark.anchor else "NO ANCHOR")


def test_stations_worked_by_hand_are_printed_in_feet_and_in_inches() -> None:
    columns = {c["mark"]: c for c in columns_of(pdf_of("house"))}
    read = {m: [row(columns[m], f) for f in ("from", "in", "from#1", "truss")] for m in columns}
    assert read["W1-01"] == ["0'-4 7/8\"", '4 7/8"', "46'-3 1/8\"", "0'-0\""]
    assert read["W1-03"] == ["5'-0 3/4\"", '60 3/4"', "41'-7 1/4\"", "5'-0\""]
    assert read["W1-04"] == ["6'-10 1/2\"", '82 1/2"', "39'-9 1/2\"", "7'-0\""]
    assert read["W4-12"] == ["28'-0\"", '336"', "0'-0\"", "28'-0\""]
    assert row(columns["W1-01"], "in#1") == '5 7/8"'
    assert row(columns["W4-12"], "in#1") == 'W4: 4" W1: 5 1/2"'
    assert "up 3,830 lb along 41 lb across 284 lb" in " ".join(columns["W1-08"].values())


def test_a_truss_that_runs_along_its_wall_is_said_to() -> None:
    along = [c["mark"] for c in columns_of(pdf_of("cottage")) if "inside face" in row(c, "strap")]
    gables = [m.mark for m in RUNS["cottage"].schedule.marks if m.bearing.kind is MemberKind.GABLE_END]
    assert along == gables != []


@pytest.mark.parametrize("name", RUNS)
def test_the_count_by_type_stands_at_each_wall_and_over_all_walls(name: str) -> None:
    run = RUNS[name]
    text = " ".join(w.text for w in words_of(pdf_of(name)))
    walls = [w.name for w in run.outline.walls] + [f"S{k + 1}" for k in range(len(run.plan.supports))]
    found = re.findall(r"(\d+) marks?\.(?: Straps: ([^=]+) = (\d+) in all\.)?(?: (\d+) UNRESOLVED)?", text)
    held = [m for m in run.schedule.marks if not m.bearing.by_engineer]  # on a porch beam no strap is set
    groups = [[m for m in held if m.bearing.wall == w] for w in walls]
    groups = [held] + [g for g in groups if g]  # the house on the first page
    assert len(found) == len(groups)
    for (n_marks, by_type, n_straps, n_unresolved), marks in zip(found, groups, strict=True):
        straps: Counter[str] = Counter()
        for m in marks:
            straps.update({m.anchor.id: m.count} if m.anchor else {})
        read = {part.split(" x ")[1]: int(part.split(" x ")[0]) for part in by_type.split(", ")} if by_type else {}
        assert (int(n_marks), read) == (len(marks), dict(straps))
        assert int(n_straps or 0) == straps.total()
        assert int(n_unresolved or 0) == sum(m.anchor is None for m in marks)
    assert text.count("No marks: no strap on this wall.") == sum(
        not any(m.bearing.wall == w.name for m in run.schedule.marks) for w in run.outline.walls
    )


@pytest.mark.parametrize("name", RUNS)
def test_a_box_to_tick_stands_for_every_strap_once_and_for_nothing_else(name: str) -> None:
    shapes = [s for page in wall_mark_pages(RUNS[name]) for s in page if isinstance(s, Polyline)]
    sizes = [box(*min(s.points), *max(s.points)) for s in shapes if len(s.points) == 4]
    squares = [b for b in sizes if abs(b.area - BOX_IN**2) < 1e-6 and abs(b.length - 4 * BOX_IN) < 1e-6]
    assert len(squares) == sum(m.count for m in RUNS[name].schedule.marks)


def test_every_page_says_project_revision_date_fingerprint_page_and_the_caution() -> None:
    run = marked_run.house("Söhne & <script>alert(1)</script> (invented)")
    pages = pypdf.PdfReader(io.BytesIO(wall_marks_pdf(run))).pages
    for number, page in enumerate(pages, start=1):
        text = " ".join(page.extract_text().split())
        assert CAUTION in text
        for said in (
            "Söhne & <script>alert(1)</script> (invented)",
            "Revision A Date 2026-11-25",
            "Use with truss package revision ______",
            f"plan {run.fingerprint}",
            f"page {number} of {len(pages)}",
            "SAMPLE CATALOGUE: invented anchors",
        ):
            assert said in text
        assert (float(page.mediabox.width), float(page.mediabox.height)) == (11 * POINTS, 8.5 * POINTS)


def test_a_broken_wall_says_its_overlap_and_keeps_every_strip_on_the_one_start() -> None:
    columns = columns_of(pdf_of("crowded"))
    text = " ".join(w.text for w in words_of(pdf_of("crowded")))
    repeated = [c["mark"] for c in columns if "on strip" in row(c, "set")]
    assert len(repeated) >= 6
    assert re.findall(r"Overlap: (W1-\d+) is on strip \d+ too", text) == repeated
    assert text.count("the tape stays at START") == len(repeated)
    assert text.count("START is its left end, seen from outside") == 4


def test_the_ruler_is_to_scale_in_the_numbers_of_the_strip() -> None:
    run = RUNS["house"]
    first = paper_strips(wall_tapes(run)[0])[0].block.strokes
    feet = {s.text: s.at[0] for s in first if isinstance(s, Text) and re.fullmatch(r"\d+'", s.text)}
    figures = sorted((int(text[:-1]), x) for text, x in feet.items())
    per_ft = (figures[-1][1] - figures[0][1]) / (figures[-1][0] - figures[0][0])
    zero = figures[0][1] - figures[0][0] * per_ft
    ticks = sorted(
        s.start[0]
        for s in first
        if isinstance(s, Line) and s.layer is Layer.DIMENSIONS and s.pen is Pen.MEDIUM and s.start[0] == s.end[0]
    )
    on_strip = [ft for mark, ft, _ in expected_columns(run) if mark.startswith("W1-")][: len(ticks)]
    assert len(ticks) > 5
    assert [(x - zero) / per_ft for x in ticks] == pytest.approx(on_strip, abs=1e-6)


@pytest.mark.parametrize("name", RUNS)
def test_the_x_stands_on_the_side_of_the_truss_and_the_arrow_on_the_strap_s(name: str) -> None:
    drawn = []
    for tape in wall_tapes(RUNS[name]):
        for strip in paper_strips(tape):
            lines = [s for s in strip.block.strokes if isinstance(s, Line)]
            ticks = sorted(s.start for s in lines if s.layer is Layer.DIMENSIONS and s.pen is Pen.HEAVY)
            crosses = [s for s in lines if s.layer is Layer.TITLE and s.pen is Pen.MEDIUM]
            shafts = [s for s in lines if s.layer is Layer.ANCHOR]
            for x, _ in ticks:
                cross, shaft = (min(of, key=lambda s, x=x: abs(s.start[0] - x)) for of in (crosses, shafts))
                drawn.append(face_shown(x, cross, shaft))
    said = [" ".join(row(c, "strap").replace(",", "").split()[:2]) for c in columns_of(pdf_of(name))]
    assert drawn == said


def face_shown(x: float, cross: Line, shaft: Line) -> str:
    """The face that a sign at x shows: its arrow points away from the X, or up to the inside along a wall."""
    if shaft.start[0] == shaft.end[0]:
        return "inside face" if shaft.end[1] > shaft.start[1] else "outside face"
    middle = (cross.start[0] + cross.end[0]) / 2
    assert (middle - x) * (shaft.end[0] - shaft.start[0]) < 0
    assert 0.1 < abs(middle - x) < 0.2
    return "START side" if shaft.end[0] < shaft.start[0] else "far side"


@pytest.mark.parametrize("seed", range(50))
def test_no_text_meets_a_text_or_a_stroke_and_nothing_leaves_the_page(seed: int) -> None:
    for page in wall_mark_pages(marked_run.at_random(seed)):
        texts = [s for s in page if isinstance(s, Text)]
        boxes = [Polygon(t.box) for t in texts]
        lines = [
            inked(s) for s in page if not isinstance(s, Text) and not (isinstance(s, Polyline) and s.fill is Fill.BLACK)
        ]
        tree = STRtree(boxes + lines)
        clashes = [
            (texts[i].text, texts[j].text if j < len(texts) else "a stroke")
            for i, b in enumerate(boxes)
            for j in tree.query(b)
            if j > i and b.intersection(tree.geometries[j]).area > 1e-9
        ]
        assert clashes == []
        left, low, right, high = unary_union(boxes + lines).bounds
        assert left >= 0.2
        assert right <= 11.0 - 0.2
        assert high <= 8.5 - 0.64  # the rule under the page's head lies at 0.64 in.
        assert low >= 8.5 - 7.97  # and the one over its foot


def inked(s: Line | Polyline | Circle) -> BaseGeometry:
    """What a stroke covers with its own pen."""
    if isinstance(s, Circle):
        return Point(s.centre).buffer(s.radius_in)
    points = [s.start, s.end] if isinstance(s, Line) else [*s.points, *s.points[: int(s.closed)]]
    return LineString(points).buffer(PEN_WIDTH_IN[s.pen] / 2, cap_style="flat")


@pytest.mark.parametrize("name", RUNS)
def test_no_two_words_overlap_where_another_reader_finds_them(name: str) -> None:
    words = words_of(pdf_of(name))
    # pdftotext's boxes reach from the font's ascent to its descent; the letters themselves stay a fifth inside.
    for _, group in itertools.groupby(words, key=lambda w: w.page):
        page = list(group)
        trimmed = [box(w.x0, w.y0 + 0.2 * (w.y1 - w.y0), w.x1, w.y1 - 0.15 * (w.y1 - w.y0)) for w in page]
        tree = STRtree(trimmed)
        met = [
            (page[i].text, page[j].text)
            for i, b in enumerate(trimmed)
            for j in tree.query(b)
            if j > i and b.intersection(trimmed[j]).area > 0.05
        ]
        assert met == []


@pytest.mark.parametrize("name", RUNS)
def test_the_smallest_text_is_8_points(name: str) -> None:
    sizes: list[float] = []

    def see(text: str, _cm: list[float], tm: list[float], _font: dict[str, str], size: float) -> None:
        if text.strip():
            sizes.append(size * abs(tm[3]))

    for page in pypdf.PdfReader(io.BytesIO(pdf_of(name))).pages:
        page.extract_text(visitor_text=see)
    assert len(sizes) > 60
    assert min(sizes) >= 8.0


def test_only_black_and_the_white_of_the_paper_are_used() -> None:
    for page in pypdf.PdfReader(io.BytesIO(pdf_of("house"))).pages:
        colours = {
            tuple(map(float, operands))
            for operands, operator in ContentStream(page.get_contents(), page.pdf).operations
            if operator in (b"rg", b"RG", b"g", b"G", b"k", b"K")
        }
        assert colours <= {(0.0, 0.0, 0.0), (0.0,), (1.0,)}  # a girder's name is white on black


def test_equal_runs_give_equal_bytes() -> None:
    assert wall_marks_pdf(marked_run.house()) == wall_marks_pdf(marked_run.house())


def test_letters_beyond_the_standard_font_are_printed_and_those_of_no_font_stand_as_numbers() -> None:
    text = pypdf.PdfReader(io.BytesIO(wall_marks_pdf(marked_run.house("試 Дом\n7")))).pages[0].extract_text()
    assert "<U+8A66> Дом 7" in text


def test_a_thousand_anchors_take_under_three_seconds_of_one_core() -> None:
    run = marked_run.run_of(marked_run.plan_of("Row (invented)", 500.0, 28.0))
    wall = run.outline.walls[0]
    many = [marked_run.mark(wall, k + 1, k / 2, marked_run.MemberKind.COMMON) for k in range(1000)]
    begun = time.process_time()
    pdf = wall_marks_pdf(marked_run.with_marks(run, many))
    assert time.process_time() - begun < 3.0
    assert len(pypdf.PdfReader(io.BytesIO(pdf)).pages) > 30


def test_fanned_out_places_keep_their_order_and_move_as_little_as_they_can() -> None:
    # Two that want one place part evenly: 5 becomes 4.5 and 5.5; one far off stays; an end holds.
    assert fan_out([5.0, 5.0, 9.0], 1.0, 0.0, 10.0) == pytest.approx([4.5, 5.5, 9.0])
    assert fan_out([0.0, 0.1], 1.0, 0.0, 10.0) == pytest.approx([0.0, 1.0])
    assert fan_out([9.8, 9.9, 10.0], 1.0, 0.0, 10.0) == pytest.approx([8.0, 9.0, 10.0])
    assert fan_out([], 1.0, 0.0, 10.0) == []
