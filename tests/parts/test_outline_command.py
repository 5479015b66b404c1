"""`strapline outline`: what it lists, and the starter plan that it writes."""

from __future__ import annotations

import json
import math
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from export.architects_drawing.outline import outline_of_drawing, outlines_in_drawing
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


def test_the_command_lists_layer_size_and_area(two_layers: Path) -> None:
    result = call("outline", two_layers)
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        str(two_layers),
        "",
        "Closed outlines, the largest first",
        # 46.667 x 30 less the recess of 20 x 7.5 is 1,250 sq ft
        '  "A-WALL": 46\'-8" by 30\'-0", 1250 sq ft, 6 corners, first at (0, 0), in inches',
        '  "A-DOOR": 3\'-0" by 2\'-0", 6 sq ft, 4 corners, first at (200, 200), in inches',
        "",
        "Layers that a plan can take its outline from",
        '  outline_dxf = { file = "floor.dxf", layer = "A-WALL" }',
        "",
        "Layers that it cannot",
        f'  {two_layers} layer "A-DOOR": there is an arc at (136, 100); '
        "walls are straight, so draw it as straight lines",
        f'  {two_layers} layer "C-PROP": the outline is open by 150\'-0" between (-600, -600) and (1200, -600); '
        'close it, gaps up to 1/2" are closed by themselves',
        "",
        CAUTION,
    ]


def test_the_command_answers_machines(two_layers: Path) -> None:
    answer = json.loads(call("outline", two_layers, "--json").stdout)
    assert answer["layers"] == ["A-WALL"]
    assert [o["layer"] for o in answer["outlines"]] == ["A-WALL", "A-DOOR"]
    assert answer["outlines"][0]["area_ft2"] == pytest.approx(1250)
    assert [r["layer"] for r in answer["refused"]] == ["A-DOOR", "C-PROP"]
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


def test_the_command_asks_for_a_layer_where_several_would_do(tmp_path: Path) -> None:
    document = new_drawing()
    draw_ring(document, set_out(HOUSE))
    draw_ring(document, set_out(HOUSE), layer="A-ROOF")
    path, plan = saved(document, tmp_path), tmp_path / "house.toml"
    result = call("outline", path, "--write", plan)
    assert result.exit_code == 2
    assert (
        result.stderr
        == f'strapline: {path}: the layers "A-WALL", "A-ROOF" each hold an outline; name one with --layer\n'
    )
    assert not plan.exists()
    assert call("outline", path, "--layer", "A-ROOF", "--write", plan).exit_code == 0
    assert 'layer = "A-ROOF"' in plan.read_text()


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


def test_long_lists_end_in_a_count(tmp_path: Path) -> None:
    document = new_drawing()
    for i in range(25):
        draw_ring(document, [(x + 600 * i, y) for x, y in set_out(HOUSE)], layer=f"L{i}")
    path = saved(document, tmp_path)
    assert "  and 5 smaller" in call("outline", path).stdout.splitlines()
    assert len(outlines_in_drawing(path, None, None).candidates) == 25


def test_the_command_writes_nothing_where_no_layer_holds_an_outline(tmp_path: Path) -> None:
    document = new_drawing()
    for layer in ("A-WALL", "A-DIMS"):
        document.modelspace().add_line((0, 0), (100, 0), dxfattribs={"layer": layer})
    path, plan = saved(document, tmp_path), tmp_path / "house.toml"
    result = call("outline", path, "--write", plan)
    assert result.exit_code == 2
    assert result.stderr == (
        f"strapline: {path}: no layer holds an outline; strapline outline {path} says why for each\n"
    )
    assert not plan.exists()
