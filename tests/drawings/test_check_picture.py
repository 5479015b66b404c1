"""The picture of what was understood: all of it is there, nothing overlaps, both forms show the same."""

from __future__ import annotations

import io
import math
import re
from collections.abc import Callable
from functools import cache
from pathlib import Path
from xml.etree import ElementTree

import pytest
import shapely
from PIL import Image
from shapely.geometry import LineString, Polygon
from typer.testing import CliRunner

from drawings.marked_run import sample
from export.cli import app
from export.paper.sheet import Layer, Line, Pen, Text
from export.picture.check_picture import Form, check_picture, picture_strokes
from export.picture.pens import MEMBERS, ROOF_LINES, WALL, Style, stroked
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import CAUTION, Run, make_run
from framing.units import feet_inches

CUT_UP = """# invented: jogs of 6 in. to 10 ft, a bearing wall inside, {turn} degrees
[project]
name = "Cut-up (invented)"
north = "57 deg"
[walls]
outline = {outline}
[[support]]
kind = "bearing wall"
from = {start}
to = {end}
[roof]
type = "hip"
pitch = "5:12"
[wind]
speed = 150
exposure = "C"
"""
CORNERS = (
    *((0, 0), (30, 0), (30, -8), (44, -8), (44, 0), (62, 0), (62, 18), (70, 18), (70, 40), (58, 40), (58, 40.5)),
    *((50, 40.5), (50, 36), (34, 36), (34, 46), (12, 46), (12, 36), (10.75, 36), (10.75, 34), (0, 34)),
)
CROWDED = (
    *((31, 12), (31, 16), (26, 16), (26, 20), (23, 20), (23, 36), (19, 36), (19, 0), (2, 0), (2, 38), (12, 38)),
    *((12, 54), (38, 54), (38, 52), (40, 52), (40, 30), (62, 30), (62, 29), (75, 29), (75, 5), (36, 5), (36, 12)),
)
SAMPLES = ("cottage", "hip_house", "garage_wing", "mixed_gable_hip", "from_drawing")
NAMES = (*SAMPLES, "cut up", "cut up, turned")


@cache
def run_named(name: str) -> Run:
    if name in SAMPLES:
        return sample(name)
    corners = CROWDED if name == "crowded" else CORNERS
    turn_deg = 24.0 if "turned" in name else 0.0
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))

    def at(p: tuple[float, float]) -> list[float]:
        return [round(p[0] * c - p[1] * s, 9), round(p[0] * s + p[1] * c, 9)]

    text = CUT_UP.format(turn=turn_deg, outline=[at(p) for p in corners], start=at((3, 18)), end=at((19, 18)))
    return make_run(plan_from_text(text, "cut.toml"), shipped_catalogue())


def texts_of(run: Run) -> list[Text]:
    return [s for s in picture_strokes(run)[0] if isinstance(s, Text)]


@pytest.mark.parametrize("name", [*NAMES, "crowded"])
def test_no_text_meets_another_text_or_a_line_or_leaves_the_picture(name: str) -> None:
    strokes, (width, height) = picture_strokes(run_named(name))
    texts = [s for s in strokes if isinstance(s, Text)]
    boxes = [Polygon(t.box) for t in texts]
    tree = shapely.STRtree(boxes)
    met = [(texts[i].text, texts[j].text) for i, j in zip(*tree.query(boxes, "intersects"), strict=True) if i < j]
    assert met == []
    lines = [LineString([s.start, s.end]) for s in strokes if isinstance(s, Line)]
    assert [texts[i].text for i in tree.query(lines, "intersects")[1]] == []
    assert shapely.box(0, 0, width, height).contains(shapely.union_all(boxes))


@pytest.mark.parametrize("name", NAMES)
def test_every_wall_is_named_with_its_length_and_every_wing_girder_and_support_is_named(name: str) -> None:
    run = run_named(name)
    words = [" ".join(t.text.split()) for t in texts_of(run)]  # in the plan, or beside it where no room is left
    for wall in run.outline.walls:
        assert words.count(f"{wall.name} {feet_inches(wall.length_ft)}") == 1
    for wing in run.roof.wings:
        assert words.count(wing.name) == 1
    for member in run.framing.members:
        if member.kind == "girder":
            assert member.name in words
    for i, support in enumerate(run.plan.supports, 1):
        assert f"S{i} {support.kind}" in words
    assert "START" in words


@pytest.mark.parametrize("name", NAMES)
def test_the_caution_the_notes_and_the_counts_stand_beside_the_views(name: str) -> None:
    run = run_named(name)
    said = " ".join(t.text for t in texts_of(run))
    assert CAUTION in said
    assert run.fingerprint in said
    for sentence in (*run.notes, *run.flags):
        assert sentence in said
    for kind in {m.kind for m in run.framing.members}:
        assert f"{kind} ({sum(m.kind == kind for m in run.framing.members)})" in said
    for kind in {line.kind for line in run.roof.lines}:
        assert f" {kind} " in f" {said} "


def test_the_walls_are_drawn_to_one_scale_and_where_their_names_are() -> None:
    run = run_named("garage_wing")
    strokes, _ = picture_strokes(run)
    heavy = [s for s in strokes if isinstance(s, Line) and s.layer is Layer.WALL and s.pen is Pen.HEAVY]
    lengths_in = sorted(math.dist(s.start, s.end) for s in heavy)
    lengths_ft = sorted(w.length_ft for w in run.outline.walls)
    scales = [a / b for a, b in zip(lengths_in[-6:], lengths_ft, strict=True)]  # the key has one stroke more
    assert max(scales) / min(scales) == pytest.approx(1.0)
    names = {t.text.split()[0]: t for t in texts_of(run) if re.fullmatch(r"W\d+ .*", t.text)}
    for wall in run.outline.walls:
        text = names[wall.name]
        nearest = min(heavy, key=lambda s: LineString([s.start, s.end]).distance(Polygon(text.box)))
        assert math.dist(nearest.start, nearest.end) == pytest.approx(wall.length_ft * scales[0])


def test_kinds_of_line_differ_in_pen_or_dashes_so_that_no_colour_is_needed() -> None:
    for kinds in (MEMBERS.values(), ROOF_LINES.values()):
        looks = [(style.pen, style.dashes_in) for style in kinds]
        assert len(set(looks)) == len(looks)


def test_dashes_cover_what_they_should_and_run_on_round_corners() -> None:
    style = Style(pen=Pen.FINE, dashes_in=(0.3, 0.1))
    lines = stroked(((0, 0), (1, 0), (1, 1)), style)
    assert sum(math.dist(s.start, s.end) for s in lines) == pytest.approx(5 * 0.3)
    assert (lines[2].start, lines[2].end) == (pytest.approx((0.8, 0)), pytest.approx((1, 0)))
    assert (lines[3].start, lines[3].end) == (pytest.approx((1, 0)), pytest.approx((1, 0.1)))
    assert len(stroked(((0, 0), (1, 0), (1, 1)), WALL)) == 2


def test_what_finds_no_room_for_its_name_is_listed_beside_the_views() -> None:
    run = run_named("crowded")
    strokes, _ = picture_strokes(run)
    texts = [s for s in strokes if isinstance(s, Text)]
    heading = next(t for t in texts if t.text == "Without room for a name")
    listed = [t.text for t in texts if t.start[0] >= heading.start[0] - 1e-9 and t.start[1] < heading.start[1]]
    assert listed
    named = [t.text for t in texts if t.start[0] < heading.start[0] - 1e-9]
    for wall in run.outline.walls:
        length = feet_inches(wall.length_ft)
        assert (f"{wall.name}  {length}" in named) != (f"{wall.name} {length}" in listed)
    for wing in run.roof.wings:
        assert (wing.name in named) != (wing.name in listed)


def test_a_chord_without_a_girder_is_drawn_as_a_seam_inside_the_house() -> None:
    found = {name: run_named(name).framing.seams_ft for name in NAMES}
    assert found["cottage"] == ()
    for name, seams in found.items():
        house = Polygon(run_named(name).outline.corners_ft).buffer(1e-6)
        assert all(house.covers(LineString(seam)) for seam in seams)
        said = " ".join(t.text for t in texts_of(run_named(name)))
        assert (f"where trusses of two cells meet ({len(seams)})" in said) == bool(seams)


@pytest.mark.parametrize("form", Form)
def test_equal_input_gives_equal_bytes(form: Form) -> None:
    run = run_named("cottage")
    assert check_picture(run, form) == check_picture(run, form)


def test_the_svg_is_well_formed_fetches_nothing_and_holds_every_text() -> None:
    run = run_named("from_drawing")
    root = ElementTree.fromstring(check_picture(run))
    assert root.get("width") == "24in"
    assert [e for e in root.iter() if any(key.endswith(("href", "src")) for key in e.attrib)] == []
    name = "{http://www.w3.org/2000/svg}text"
    assert [e.text for e in root.iter(name)] == [t.text for t in texts_of(run)]


def test_a_name_with_signs_of_markup_does_no_harm() -> None:
    text = CUT_UP.format(
        turn=0, outline=[list(p) for p in CORNERS[:1]] + [[40, 0], [40, 28], [0, 28]], start=[0, 9], end=[40, 9]
    )
    plan = plan_from_text(text.replace("Cut-up (invented)", "<b>A & B's \u8bd5"), "cut.toml")
    root = ElementTree.fromstring(check_picture(make_run(plan, shipped_catalogue())))
    assert "<b>A & B's <U+8BD5>" in [e.text for e in root.iter("{http://www.w3.org/2000/svg}text")]


@pytest.mark.parametrize("name", ["cottage", "cut up, turned"])
def test_the_png_has_ink_where_the_strokes_are_and_none_elsewhere(name: str) -> None:
    strokes, (width, height) = picture_strokes(run_named(name))
    image = Image.open(io.BytesIO(check_picture(run_named(name), Form.PNG))).convert("L")
    per_in = image.width / width
    assert image.size == (round(width * per_in), round(height * per_in))

    def darkest(box: tuple[float, float, float, float]) -> int:
        x0, y0, x1, y1 = box
        area = (math.floor(x0 * per_in), math.floor((height - y1) * per_in))
        area += (math.ceil(x1 * per_in), math.ceil((height - y0) * per_in))
        return int(image.crop(area).getextrema()[0])

    for s in strokes:
        if isinstance(s, Text) and s.text.strip():
            assert darkest(Polygon(s.box).bounds) < 60, s.text
        elif isinstance(s, Line):
            x, y = (s.start[0] + s.end[0]) / 2, (s.start[1] + s.end[1]) / 2
            assert darkest((x - 0.01, y - 0.01, x + 0.01, y + 0.01)) < 200
    drawn = shapely.union_all(
        [
            Polygon(s.box) if isinstance(s, Text) else LineString([s.start, s.end])
            for s in strokes
            if isinstance(s, Line | Text)
        ]
    )
    for k in range(40):  # along a diagonal, away from all strokes
        x, y = width * (k + 0.5) / 40, height * (k + 0.5) / 40
        if shapely.Point(x, y).distance(drawn) > 0.35:
            assert darkest((x - 0.02, y - 0.02, x + 0.02, y + 0.02)) == 255


def test_check_draws_either_form_and_nothing_else(tmp_path: Path, sample_run: Callable[[str], Run]) -> None:
    plan = Path(__file__).parents[2] / "sample_plans" / "cottage.toml"
    for ending, form in ((".svg", Form.SVG), (".PNG", Form.PNG)):
        picture = tmp_path / f"house{ending}"
        result = CliRunner().invoke(app, ["check", str(plan), "--picture", str(picture)])
        assert result.exit_code == 0
        assert CAUTION in result.stdout
        assert picture.read_bytes() == check_picture(sample_run("cottage"), form)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["house.PNG", "house.svg"]


def test_check_refuses_other_endings_and_folders_that_are_not_there(tmp_path: Path) -> None:
    plan = str(Path(__file__).parents[2] / "sample_plans" / "cottage.toml")
    for path, code, sentence in (
        (tmp_path / "a.jpg", 2, f"--picture: {tmp_path / 'a.jpg'} is neither; write a name that ends in .png or .svg"),
        (
            tmp_path / "no" / "a.svg",
            3,
            f"{tmp_path / 'no' / 'a.svg'}: it cannot be written (No such file or directory); "
            "name a file in a folder that can",
        ),
    ):
        result = CliRunner().invoke(app, ["check", plan, "--picture", str(path)])
        assert (result.exit_code, result.stderr) == (code, f"strapline: {sentence}\n")
        assert result.stdout == ""


def test_a_plan_that_cannot_be_read_leaves_no_picture(tmp_path: Path) -> None:
    plan, picture = tmp_path / "house.toml", tmp_path / "house.svg"
    plan.write_text(CUT_UP.format(turn=0, outline=[[0, 0], [40, 0], [0, 28], [40, 28]], start=[0, 9], end=[20, 9]))
    result = CliRunner().invoke(app, ["check", str(plan), "--picture", str(picture)])
    assert result.exit_code == 2
    assert not picture.exists()
