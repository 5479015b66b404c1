"""Every rule of the reader of drawings has a wrong or odd file here, and its whole sentence is compared."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from ezdxf.document import Drawing
from typer.testing import CliRunner

from export.architects_drawing.outline import outline_of_drawing
from export.cli import app
from framing.errors import PlanError
from parts.drawn_houses import HOUSE, ON_WALL, draw_lines, draw_ring, new_drawing, saved, set_out

INCHES = set_out(HOUSE)
STRAIGHT = "walls are straight, so draw it as straight lines"
BY_ITSELF = 'close it, gaps up to 1/2" are closed by themselves'
Maker = Callable[[Drawing], None]


def ring(corners: list[tuple[float, float]]) -> Maker:
    return lambda document: draw_ring(document, corners)


def in_block(document: Drawing) -> None:
    block = document.blocks.new("HOUSE")
    block.add_lwpolyline(INCHES, close=True)  # on layer 0: it lies where the insert does
    outer = document.blocks.new("SHEET")
    outer.add_blockref("HOUSE", (0, 0), dxfattribs=ON_WALL)
    document.modelspace().add_blockref("SHEET", (0, 0))


def frozen(document: Drawing) -> None:
    draw_ring(document, INCHES)
    document.layers.get("A-WALL").freeze()


def turned_off(document: Drawing) -> None:
    draw_ring(document, INCHES)
    document.layers.get("A-WALL").off()


def with_arc(document: Drawing) -> None:
    draw_ring(document, INCHES)
    document.modelspace().add_arc((100, 50), 30, 0, 90, dxfattribs=ON_WALL)


def with_circle(document: Drawing) -> None:
    document.modelspace().add_circle((100, 50), 30, dxfattribs=ON_WALL)
    document.modelspace().add_circle((300, 50), 30, dxfattribs=ON_WALL)


def with_ellipse(document: Drawing) -> None:
    document.modelspace().add_ellipse((100, 50), (30, 0), 0.5, dxfattribs=ON_WALL)


def with_spline(document: Drawing) -> None:
    document.modelspace().add_spline([(5, 6), (10, 12), (20, 0)], dxfattribs=ON_WALL)


def bulged(document: Drawing) -> None:
    points = [(x, y, 0.5 if i == 2 else 0.0) for i, (x, y) in enumerate(INCHES)]
    document.modelspace().add_lwpolyline(points, format="xyb", close=True, dxfattribs=ON_WALL)


def bulged_old(document: Drawing) -> None:
    points = [(x, y, 0.5 if i == 1 else 0.0) for i, (x, y) in enumerate(INCHES)]
    document.modelspace().add_polyline2d(points, format="xyb", close=True, dxfattribs=ON_WALL)


def fitted(document: Drawing) -> None:
    polyline = document.modelspace().add_polyline2d(INCHES, close=True, dxfattribs=ON_WALL)
    polyline.dxf.flags |= polyline.SPLINE_FIT_VERTICES_ADDED


def only_others(document: Drawing) -> None:
    space = document.modelspace()
    space.add_text("KITCHEN", dxfattribs=ON_WALL)
    space.add_text("BATH", dxfattribs=ON_WALL)
    space.add_point((0, 0), dxfattribs=ON_WALL)


def on_a_sheet(document: Drawing) -> None:
    document.layout("Layout1").add_lwpolyline(INCHES, close=True, dxfattribs=ON_WALL)


def one_side_missing(document: Drawing) -> None:
    draw_lines(document, INCHES, closed=False)


def just_too_open(document: Drawing) -> None:
    draw_lines(document, [*INCHES, (0, 0.5625)], closed=False)


def branching(document: Drawing) -> None:
    draw_lines(document, INCHES)
    document.modelspace().add_line((240, 270), (240, 0), dxfattribs=ON_WALL)


def two_beside(document: Drawing) -> None:
    draw_ring(document, INCHES)
    draw_ring(document, [(x + 1200, y) for x, y in INCHES])


def six_houses(document: Drawing) -> None:
    for i in range(6):
        draw_ring(document, [(x + 1200 * i, y) for x, y in INCHES])


def six_blocks(document: Drawing) -> None:
    for i in range(6):
        document.blocks.new(f"SIDE{i}").add_line((0, 0), (100, 0))
        document.modelspace().add_blockref(f"SIDE{i}", (0, 0), dxfattribs=ON_WALL)


def small_in_large(document: Drawing) -> None:
    draw_ring(document, INCHES)
    draw_ring(document, [(300, 60), (540, 60), (540, 240), (300, 240)])


def line_outside(document: Drawing) -> None:
    draw_ring(document, INCHES)
    document.modelspace().add_line((300, 360), (300, 480), dxfattribs=ON_WALL)


def side_by_side(document: Drawing) -> None:
    (a, b, *rest), space = INCHES, document.modelspace()
    draw_lines(document, [b, *rest, a], closed=False)
    space.add_line(a, (240, 0), dxfattribs=ON_WALL)
    space.add_line((240, 0.25), (560, 0.25), dxfattribs=ON_WALL)


def specks(document: Drawing) -> None:
    document.modelspace().add_line((0, 0), (0.25, 0), dxfattribs=ON_WALL)


def unit_code(code: int, corners: list[tuple[float, float]]) -> Maker:
    def make(document: Drawing) -> None:
        document.header["$INSUNITS"] = code
        draw_ring(document, corners)

    return make


ODD: dict[str, tuple[Maker, str]] = {
    "in a block in a block": (
        in_block,
        'its lines are inside the block "SHEET"; explode what holds the outside walls and save again',
    ),
    "in six blocks": (
        six_blocks,
        'its lines are inside the blocks "SIDE0", "SIDE1", "SIDE2", "SIDE3" and 2 more; '
        "explode what holds the outside walls and save again",
    ),
    "frozen": (frozen, "the layer is frozen, so what is on it may be out of date; thaw it and save again"),
    "off": (turned_off, "the layer is off, so what is on it may be out of date; turn it on and save again"),
    "arc": (with_arc, f"there is an arc at (130, 50); {STRAIGHT}"),
    "circles": (with_circle, f"there is a circle at (100, 50) and 1 more; {STRAIGHT}"),
    "ellipse": (with_ellipse, f"there is an ellipse at (130, 50); {STRAIGHT}"),
    "spline": (with_spline, f"there is a spline at (5, 6); {STRAIGHT}"),
    "bulge": (bulged, f"there is a curved side at (560, 360); {STRAIGHT}"),
    "bulge of an old polyline": (bulged_old, f"there is a curved side at (560, 0); {STRAIGHT}"),
    "fitted curve": (fitted, f"there is a curved polyline at (0, 0); {STRAIGHT}"),
    "only texts": (
        only_others,
        "there are no lines or polylines on it, only 1 POINT, 2 TEXT; draw the outside walls as a polyline",
    ),
    "empty": (lambda _: None, "nothing is drawn on it in the model; name the layer of the outside walls"),
    "on a sheet": (on_a_sheet, "nothing is drawn on it in the model; name the layer of the outside walls"),
    "a side missing": (one_side_missing, f"the outline is open by 22'-6\" between (0, 0) and (0, 270); {BY_ITSELF}"),
    "a gap of 9/16 in.": (
        just_too_open,
        f"the outline is open by 0'-0 9/16\" between (0, 0) and (0, 0.5625); {BY_ITSELF}",
    ),
    "branching": (branching, "3 line ends meet at (240, 270); leave only the outside walls on it"),
    "two beside each other": (
        two_beside,
        "there are 2 closed outlines that may be the house: 46'-8\" by 30'-0\" at (0, 0); 46'-8\" by 30'-0\" at "
        "(1200, 0); leave one of them on the layer",
    ),
    "six beside each other": (
        six_houses,
        "there are 6 closed outlines that may be the house: 46'-8\" by 30'-0\" at (0, 0); 46'-8\" by 30'-0\" at "
        "(1200, 0); 46'-8\" by 30'-0\" at (2400, 0); 46'-8\" by 30'-0\" at (3600, 0) and 2 more; "
        "leave one of them on the layer",
    ),
    "a house in a lot": (
        small_in_large,
        "there are 2 closed outlines that may be the house: 46'-8\" by 30'-0\" at (0, 0); 20'-0\" by 15'-0\" at "
        "(300, 60); leave one of them on the layer",
    ),
    "a line outside": (
        line_outside,
        "a line reaches outside the closed outline at (300, 480); leave only the outside walls on it",
    ),
    "a wall in two lines beside each other": (
        side_by_side,
        "two lines of one wall run beside each other at (240, 0.25); draw the wall as one line",
    ),
    "specks": (specks, "its lines are all shorter than a wall; name the layer of the outside walls"),
    "crossing": (
        ring([(0, 0), (480, 0), (480, 360), (240, 360), (240, -120), (0, -120)]),
        "the outline crosses or touches itself at (240, 0); draw it once around the house",
    ),
    "touching": (
        ring([(0, 0), (480, 0), (480, 360), (240, 360), (240, 0), (120, 0), (120, 360), (0, 360)]),
        "the outline crosses or touches itself at (240, 0); draw it once around the house",
    ),
    "feet said to be inches": (
        unit_code(1, [(0, 0), (40, 0), (40, 28), (0, 28)]),
        "a house of 3'-4\" by 2'-4\" is a unit mistake: the drawing says inches; set its unit right, or give "
        'unit = "ft" (40\'-0" by 28\'-0")',
    ),
    "inches said to be feet": (
        unit_code(2, INCHES),
        "a house of 560'-0\" by 360'-0\" is a unit mistake: the drawing says feet; set its unit right, or give "
        'unit = "in" (46\'-8" by 30\'-0")',
    ),
    "a town said to be inches": (
        unit_code(1, [(0, 0), (1e6, 0), (1e6, 1e6), (0, 1e6)]),
        "a house of 83333'-4\" by 83333'-4\" is a unit mistake: the drawing says inches; set its unit right, or give "
        'unit = "in", "ft", "mm", "cm" or "m"',
    ),
    "a unit of the very small": (
        unit_code(11, INCHES),
        'the drawing\'s unit (code 11) is none for houses; give unit = "in", "ft", "mm", "cm" or "m"',
    ),
    "no unit, feet or metres": (
        unit_code(0, [(0, 0), (30, 0), (30, 24), (0, 24)]),
        'the drawing says no unit, and more than one would do; give unit = "ft" (30\'-0" by 24\'-0") or '
        'unit = "m" (98\'-5 1/8" by 78\'-8 7/8")',
    ),
    "no unit, no size of a house": (
        unit_code(0, [(0, 0), (1e6, 0), (1e6, 1e6), (0, 1e6)]),
        "the drawing says no unit, and in none is the house 16 to 250 ft long; "
        'give unit = "in", "ft", "mm", "cm" or "m"',
    ),
}


@pytest.mark.parametrize("name", ODD)
def test_an_odd_layer_gets_its_one_sentence(name: str, tmp_path: Path) -> None:
    make, sentence = ODD[name]
    document = new_drawing()
    make(document)
    path = saved(document, tmp_path)
    with pytest.raises(PlanError) as problem:
        outline_of_drawing(path, "A-WALL", None)
    assert str(problem.value) == f'{path} layer "A-WALL": {sentence}'


def test_a_missing_layer_names_the_nearest(tmp_path: Path) -> None:
    document = new_drawing()
    document.layers.add("A-WALL-FULL")
    document.layers.add("C-PROP")
    path = saved(document, tmp_path)
    with pytest.raises(PlanError) as problem:
        outline_of_drawing(path, "A-WALLS", None)
    assert str(problem.value) == f'{path}: there is no layer "A-WALLS"; the nearest is "A-WALL"'


def test_a_wrong_drawing_in_a_plan_ends_a_command_with_code_2_and_one_line(tmp_path: Path) -> None:
    document = new_drawing()
    with_arc(document)
    path, plan = saved(document, tmp_path), tmp_path / "house.toml"
    plan.write_text(
        '[walls]\noutline_dxf = { file = "floor.dxf", layer = "A-WALL" }\n[roof]\ntype = "hip"\npitch = "5:12"\n'
        '[wind]\nspeed = 160\nexposure = "C"\n'
    )
    result = CliRunner().invoke(app, ["check", str(plan)])
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr == (
        f'strapline: walls outline_dxf: {path} layer "A-WALL": there is an arc at (130, 50); {STRAIGHT}\n'
    )
