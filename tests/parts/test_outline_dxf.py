"""The outline from a drawing: the same house however it is drawn, what is healed and left out."""

from __future__ import annotations

import math
from pathlib import Path

import pytest

from export.architects_drawing.outline import outline_of_drawing
from framing.errors import PlanError
from framing.plan_file import plan_from_text, read_plan
from parts.drawn_houses import HOUSE, ON_WALL, Point, draw_lines, draw_ring, new_drawing, saved, set_out
from parts.plans import SHORT

SIXTY_FOURTH_FT = 1 / 64 / 12
# Drawing units to a foot, and the code of the unit in the header: an inch is 25.4 mm (international yard and
# pound agreement, 1959); codes as the header of the open DXF format has them, 0 for none.
UNITS = {
    "in": (12.0, 1),
    "ft": (1.0, 2),
    "mm": (304.8, 4),
    "cm": (30.48, 5),
    "m": (0.3048, 6),
    "in, not said": (12.0, 0),
    "ft, not said": (1.0, 0),
    "mm, not said": (304.8, 0),
    "m, not said": (0.3048, 0),
}
PLACES = {"at home": (0.0, 0.0), "turned, ten miles away": (33.0, 52_800.0)}


def turned_back(corners: tuple[Point, ...], turn_deg: float) -> list[Point]:
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return [(x * c + y * s, -x * s + y * c) for x, y in corners]


@pytest.mark.parametrize("as_lines", [False, True], ids=["polyline", "lines"])
@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("unit", UNITS)
def test_the_same_house_reads_the_same_however_it_is_drawn(
    tmp_path: Path, unit: str, place: str, version: str, as_lines: bool
) -> None:
    per_ft, code = UNITS[unit]
    turn_deg, away_ft = PLACES[place]
    document = new_drawing(version, code)
    (draw_lines if as_lines else draw_ring)(document, set_out(HOUSE, per_ft, turn_deg, away_ft))
    said_unit = "cm" if (version, unit) == ("R12", "cm") else None  # R12 says no unit, and nobody draws in cm
    corners, _ = outline_of_drawing(saved(document, tmp_path), "A-WALL", said_unit)
    assert corners[0] == (0.0, 0.0)
    assert len(corners) == len(HOUSE)
    back = turned_back(corners, turn_deg)
    assert max(map(math.dist, back, HOUSE)) < SIXTY_FOURTH_FT


def test_a_house_drawn_from_below_is_seen_from_above(tmp_path: Path) -> None:
    document = new_drawing()
    mirrored = [(-x, y) for x, y in set_out(HOUSE)]
    document.modelspace().add_lwpolyline(mirrored, close=True, dxfattribs={**ON_WALL, "extrusion": (0, 0, -1)})
    corners, _ = outline_of_drawing(saved(document, tmp_path), "A-WALL", None)
    assert max(map(math.dist, corners, HOUSE)) < SIXTY_FOURTH_FT


def test_the_layer_may_be_written_in_small_letters(tmp_path: Path) -> None:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    assert len(outline_of_drawing(saved(document, tmp_path), "a-wall", None)[0]) == 6


def test_an_open_polyline_that_ends_where_it_begins_is_an_outline(tmp_path: Path) -> None:
    document = new_drawing()
    points = set_out(HOUSE)
    document.modelspace().add_lwpolyline([*points, points[0]], dxfattribs=ON_WALL)
    corners, said = outline_of_drawing(saved(document, tmp_path), "A-WALL", None)
    assert max(map(math.dist, corners, HOUSE)) < SIXTY_FOURTH_FT
    assert len(said) == 1


def test_a_gap_at_a_corner_is_closed_where_the_walls_meet_and_reported(tmp_path: Path) -> None:
    document = new_drawing()
    a, b, c, *rest = set_out(HOUSE)
    draw_lines(document, [b, c, *rest, a], closed=False)
    document.modelspace().add_line(a, (b[0] - 0.375, b[1]), dxfattribs=ON_WALL)
    corners, said = outline_of_drawing(saved(document, tmp_path), "A-WALL", None)
    assert corners[0] == (0.0, 0.0)
    expected = [(x - HOUSE[1][0], y - HOUSE[1][1]) for x, y in (*HOUSE[1:], HOUSE[0])]
    assert max(map(math.dist, corners, expected)) < 1e-9
    assert said[1:] == ("walls.outline_dxf = a gap of 0.38 in. at (560, 0) is closed",)


def test_a_gap_in_a_straight_wall_is_closed_and_reported(tmp_path: Path) -> None:
    document = new_drawing()
    a, b, *rest = set_out(HOUSE)
    draw_lines(document, [b, *rest, a], closed=False)
    space = document.modelspace()
    space.add_line(a, (240, 0), dxfattribs=ON_WALL)
    space.add_line((240.5, 0), b, dxfattribs=ON_WALL)
    corners, said = outline_of_drawing(saved(document, tmp_path), "A-WALL", None)
    assert len(corners) == 6
    assert said[1:] == ("walls.outline_dxf = a gap of 0.50 in. at (240.5, 0) is closed",)


def test_lines_drawn_twice_count_once(tmp_path: Path) -> None:
    document = new_drawing()
    draw_lines(document, set_out(HOUSE))
    draw_lines(document, set_out(HOUSE))
    assert len(outline_of_drawing(saved(document, tmp_path), "A-WALL", None)[0]) == 6


def test_what_lies_inside_the_outside_face_is_left_out_and_said(tmp_path: Path) -> None:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    inside = ((8, 8), (552, 8), (552, 352), (248, 352), (248, 262), (8, 262))
    draw_ring(document, inside)
    space = document.modelspace()
    space.add_line((8, 100), (200, 100), dxfattribs=ON_WALL)
    block = document.blocks.new("DOOR")
    block.add_line((0, 0), (36, 0))
    space.add_blockref("DOOR", (100, 0), dxfattribs=ON_WALL)
    corners, said = outline_of_drawing(saved(document, tmp_path), "A-WALL", None)
    assert max(map(math.dist, corners, HOUSE)) < SIXTY_FOURTH_FT
    assert said == (
        'walls.outline_dxf = floor.dxf layer "A-WALL", 46\'-8" by 30\'-0"; its first corner, drawn at (0, 0), '
        "is (0, 0) here",
        "walls.outline_dxf = 1 closed outline inside it left out",
        "walls.outline_dxf = 1 open line inside it left out",
        "walls.outline_dxf = 1 block with lines of the layer left out",
    )


def test_a_unit_taken_by_size_is_said(tmp_path: Path) -> None:
    document = new_drawing(code=0)
    draw_ring(document, set_out(HOUSE, per_ft=1.0))
    _, said = outline_of_drawing(saved(document, tmp_path), "A-WALL", None)
    assert said[1] == "walls.outline_dxf = in feet (the drawing says none; by the size of the house)"


def test_the_plan_s_unit_goes_before_the_drawing_s_and_before_sense(tmp_path: Path) -> None:
    document = new_drawing(code=1)
    draw_ring(document, set_out(((0, 0), (14, 0), (14, 12), (0, 12)), per_ft=1.0))
    corners, _ = outline_of_drawing(saved(document, tmp_path), "A-WALL", "ft")
    assert corners == ((0.0, 0.0), (14.0, 0.0), (14.0, 12.0), (0.0, 12.0))


def from_drawing(inside: str) -> str:
    return SHORT.replace(SHORT.splitlines()[2], f"outline_dxf = {inside}")


def test_a_plan_finds_its_drawing_beside_itself_and_says_what_was_assumed(tmp_path: Path) -> None:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE, away_ft=100))
    saved(document, tmp_path)
    path = tmp_path / "house.toml"
    path.write_text(from_drawing('{ file = "floor.dxf", layer = "A-WALL" }'))
    plan = read_plan(path, outline_of_drawing)
    assert max(map(math.dist, plan.outline_ft, HOUSE)) < 1e-9
    assert plan.assumed[0] == (
        'walls.outline_dxf = floor.dxf layer "A-WALL", 46\'-8" by 30\'-0"; its first corner, drawn at (1200, -1200), '
        "is (0, 0) here"
    )


PLANS = {
    "both": (
        SHORT.replace("[roof]", 'outline_dxf = { file = "floor.dxf", layer = "A-WALL" }\n[roof]', 1),
        "walls outline_dxf: outline gives the corners too; keep one of the two",
    ),
    "no layer": (from_drawing('{ file = "floor.dxf" }'), 'walls outline_dxf layer: missing; write layer = "A-WALL"'),
    "no file": (from_drawing('{ layer = "A-WALL" }'), 'walls outline_dxf file: missing; write file = "floor.dxf"'),
    "unknown key": (
        from_drawing('{ file = "floor.dxf", layer = "A-WALL", scale = 12 }'),
        "walls outline_dxf scale: unknown key; the nearest known key is walls.outline_dxf.file",
    ),
    "unit": (
        from_drawing('{ file = "floor.dxf", layer = "A-WALL", unit = "yd" }'),
        'walls outline_dxf unit: "yd" is not known; write "in", "ft", "mm", "cm" or "m"',
    ),
    "text": (
        from_drawing('"floor.dxf"'),
        'walls outline_dxf: "floor.dxf" is not a section; write [walls.outline_dxf]',
    ),
    "no drawing": (
        from_drawing('{ file = "floor.dxf", layer = "A-WALL" }'),
        "walls outline_dxf: floor.dxf: there is no such file; check the path of the drawing",
    ),
}


@pytest.mark.parametrize("name", PLANS)
def test_a_wrong_outline_dxf_gets_its_one_sentence(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    text, sentence = PLANS[name]
    with pytest.raises(PlanError) as problem:
        plan_from_text(text, "house.toml", read_outline=outline_of_drawing)
    assert str(problem.value) == sentence
