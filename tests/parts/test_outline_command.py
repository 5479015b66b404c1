"""`strapline outline`: what it lists, and the starter plan that it writes."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from export.architects_drawing.outline import outline_of_drawing
from export.cli import app
from framing.plan_file import read_plan
from framing.run import CAUTION
from parts.drawn_houses import HOUSE, draw_ring, new_drawing, saved, set_out


def call(*words: object) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words])


@pytest.fixture
def two_layers(tmp_path: Path) -> Path:
    """Walls on one layer, a door swing and a box on another, the lot's open line on a third."""
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    space = document.modelspace()
    space.add_arc((100, 100), 36, 0, 90, dxfattribs={"layer": "A-DOOR"})
    draw_ring(document, [(200, 200), (224, 200), (224, 236), (200, 236)], layer="A-DOOR")
    space.add_line((-600, -600), (1200, -600), dxfattribs={"layer": "C-PROP"})
    return saved(document, tmp_path)


def test_the_command_lists_size_area_place_and_layer(two_layers: Path) -> None:
    result = call("outline", two_layers)
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        str(two_layers),
        "in inches",
        "",
        "Outlines that may be the outside face of the walls, the likeliest first",
        # 46.667 x 30 less the recess of 20 x 7.5 is 1,250 sq ft; the box of 3 ft by 2 ft is no house
        '  1  46\'-8" by 30\'-0", 1250 sq ft, 6 corners, around (280, 135): a closed line on "A-WALL"',
        "",
        "To see them over the drawing, then to take one",
        f"  strapline outline {two_layers} --picture outlines.png",
        f"  strapline outline {two_layers} --pick 1 --write PLAN.toml",
        "",
        CAUTION,
    ]


def test_the_command_answers_machines(two_layers: Path) -> None:
    answer = json.loads(call("outline", two_layers, "--json").stdout)
    (only,) = answer["outlines"]
    assert (only["number"], only["layers"], only["n_corners"]) == (1, ["A-WALL"], 6)
    assert only["area_ft2"] == pytest.approx(1250)
    assert only["corners_ft"][1] == pytest.approx(HOUSE[1])
    assert answer["unit"] == {"words": "inches", "feet": pytest.approx(1 / 12), "sure": True}
    assert answer["pick"] is None
    assert answer["caution"] == CAUTION


def test_the_command_writes_a_starter_plan_that_reads_and_never_overwrites(two_layers: Path, tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    plan = tmp_path / "jobs" / "house.toml"
    assert call("outline", two_layers, "--write", plan).exit_code == 0
    read = read_plan(plan, outline_of_drawing)
    assert max(map(math.dist, read.outline_ft, HOUSE)) < 1e-9
    assert read.project.name == "floor"
    text = plan.read_text()
    assert 'outline_dxf = { file = "../floor.dxf", layer = "A-WALL" }' in text
    assert "Heron Court" not in text
    again = call("outline", two_layers, "--write", plan)
    assert again.exit_code == 2
    assert again.stderr == f"strapline: {plan}: it is there already and is left as it is; name a new file\n"
    assert again.stdout == ""
    assert plan.read_text() == text


def test_the_same_outline_on_two_layers_is_one(tmp_path: Path) -> None:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    draw_ring(document, set_out(HOUSE), layer="A-ROOF")
    path, plan = saved(document, tmp_path), tmp_path / "house.toml"
    assert call("outline", path, "--write", plan).exit_code == 0
    assert 'layer = "A-WALL"' in plan.read_text()


def two_houses(tmp_path: Path) -> Path:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    draw_ring(document, [(x + 1200, y) for x, y in set_out(HOUSE)])
    return saved(document, tmp_path)


def test_several_outlines_and_none_picked_write_nothing_and_say_how_to_pick(tmp_path: Path) -> None:
    path, plan = two_houses(tmp_path), tmp_path / "house.toml"
    result = call("outline", path, "--write", plan)
    assert result.exit_code == 2
    assert result.stderr == (
        f"strapline: {path}: 2 plans are on this sheet; strapline outline {path} --picture outlines.png shows them "
        "numbered: give --pick with the number of the one the trusses stand on, or with a point inside it, as x,y\n"
    )
    assert not plan.exists()
    assert result.stdout == ""


@pytest.mark.parametrize(("pick", "first"), [("1", 0.0), ("1500,200", 1200.0), ("200, 300", None), ("400 200", 0.0)])
def test_an_outline_is_picked_by_its_number_or_by_a_point_inside_it(
    tmp_path: Path, pick: str, first: float | None
) -> None:
    path, plan = two_houses(tmp_path), tmp_path / "house.toml"
    result = call("outline", path, "--pick", pick, "--write", plan, "--json")
    if first is None:  # in the recess
        assert result.exit_code == 2
        assert result.stderr == (
            "strapline: --pick: no outline has (200, 300) inside it; the list says a point inside each\n"
        )
        return
    assert result.exit_code == 0
    answer = json.loads(result.stdout)
    assert answer["outlines"][answer["pick"] - 1]["corners"][0] == [first, 0.0]
    assert max(map(math.dist, read_plan(plan).outline_ft, HOUSE)) < 1e-9


WRONG = {
    "a number that is none": (
        ["--pick", "3"],
        "--pick: there is no outline 3; write a number from 1 to 2",
    ),
    "a pick that is nothing": (
        ["--pick", "left"],
        '--pick: "left" is neither; write the number of an outline, or a point as x,y',
    ),
    "a crop of three": (
        ["--crop", "1,2,3"],
        '--crop: "1,2,3" is no rectangle; write two opposite corners in the drawing\'s units, as x0,y0,x1,y1',
    ),
    "a crop beside it all": (
        ["--crop", "5000,0,6000,100"],
        "{path}: --crop: nothing is drawn between (5000, 0) and (6000, 100); the drawing reaches from (0, 0) to "
        "(1760, 360)",
    ),
    "a layer that is none": (
        ["--layers", "B-*"],
        '{path}: nothing is seen on a layer like "B-*"; what is drawn is on "A-WALL"',
    ),
    "a code page that is none": (
        ["--encoding", "cp99999"],
        '--encoding: "cp99999" is no code page; write one like cp1252, cp1251 or cp932',
    ),
    "a picture in words": (
        ["--picture", "house.txt"],
        "--picture: house.txt is neither; write a name that ends in .png or .svg",
    ),
}


@pytest.mark.parametrize("name", WRONG)
def test_a_wrong_option_gets_its_one_sentence(name: str, tmp_path: Path) -> None:
    words, sentence = WRONG[name]
    path = two_houses(tmp_path)
    result = call("outline", path, *words)
    assert result.exit_code == 2
    assert result.stderr == f"strapline: {sentence.replace('{path}', str(path))}\n"
    assert result.stdout == ""


def test_a_crop_leaves_one_house_of_two(tmp_path: Path) -> None:
    path, plan = two_houses(tmp_path), tmp_path / "house.toml"
    assert call("outline", path, "--crop", "1900,-10,1100,400", "--write", plan).exit_code == 0
    assert max(map(math.dist, read_plan(plan).outline_ft, HOUSE)) < 1e-9


def test_layers_are_named_by_patterns(tmp_path: Path) -> None:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE), layer="E-Wall-1")
    draw_ring(document, [(x + 1200, y) for x, y in set_out(HOUSE)], layer="N-WALL-1")
    path = saved(document, tmp_path)
    for words, n in ((["--layers", "e-*"], 1), (["--layers", "?-wall*"], 2), (["--layer", "E-*, N-*"], 2)):
        assert len(json.loads(call("outline", path, *words, "--json").stdout)["outlines"]) == n


def test_the_names_of_layers_are_read_in_the_code_page_that_is_asked_for(tmp_path: Path) -> None:
    """As an old drawing has them: the bytes of cp1251 in a file that says cp1252."""
    document = new_drawing("R2000")
    draw_ring(document, set_out(HOUSE), layer="WALLS_HERE")
    path = saved(document, tmp_path)
    path.write_bytes(path.read_bytes().replace(b"WALLS_HERE", "СТЕНЫ".encode("cp1251")))
    names = [
        json.loads(call("outline", path, *words, "--json").stdout)["outlines"][0]["layers"]
        for words in ([], ["--encoding", "cp1251"])
    ]
    assert names == [["ÑÒÅÍÛ"], ["СТЕНЫ"]]
    assert call("outline", path, "--encoding", "cp1251", "--layers", "стен*").exit_code == 0


def test_the_command_says_why_a_named_layer_gives_no_outline(two_layers: Path, tmp_path: Path) -> None:
    result = call("outline", two_layers, "--layer", "A-DOOR")
    assert result.exit_code == 2
    assert result.stderr == (
        f'strapline: {two_layers} layer "A-DOOR": there is an arc at (136, 100); '
        "walls are straight, so draw it as straight lines\n"
    )


def test_the_command_hands_the_unit_on(tmp_path: Path) -> None:
    document = new_drawing(code=4)
    draw_ring(document, set_out(HOUSE, per_ft=1.0))
    plan = tmp_path / "house.toml"
    assert call("outline", saved(document, tmp_path), "--unit", "ft", "--write", plan).exit_code == 0
    assert 'layer = "A-WALL", unit = "ft" }' in plan.read_text()
    assert read_plan(plan, outline_of_drawing).outline_ft[1] == pytest.approx(HOUSE[1])


def test_the_command_writes_nothing_where_no_layer_holds_an_outline(tmp_path: Path) -> None:
    document = new_drawing()
    for layer in ("A-WALL", "A-DIMS"):
        document.modelspace().add_line((0, 0), (100, 0), dxfattribs={"layer": layer})
    path, plan = saved(document, tmp_path), tmp_path / "house.toml"
    result = call("outline", path, "--write", plan)
    assert result.exit_code == 2
    assert result.stderr == (
        f"strapline: {path}: no house found: no pair of lines 3 to 16 in. apart closes a ring; draw the outside face "
        "as a closed line on a layer of its own\n"
    )
    assert not plan.exists()
