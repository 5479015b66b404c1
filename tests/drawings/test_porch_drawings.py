"""Where a porch beam stands there is no block wall: on the picture, the sheets, the DXF, the strips and in the scene.

The house, invented: 46 ft by 34 ft, 8 in. walls; beam S1 on W3 from 12 to 34 ft of its tape; S2 on W1 from 34 ft to its
far end, S3 from there 10 ft up W2, tied down; an open porch behind S1 and one at the corner. S4 stands for all of W4.
"""

from __future__ import annotations

import csv
import io
import math
from functools import cache
from pathlib import Path

import ezdxf
import numpy as np
import pytest
import shapely
import trimesh

from drawings.drawn import overlaps
from drawings.page_text import data_of
from export.anchor_plan.dxf import anchor_plan_dxf
from export.anchor_plan.sheets import ARCH_D, TABLOID, anchor_plan_sheets
from export.paper.sheet import Layer, Line, Text
from export.picture.check_picture import picture_strokes
from export.picture.pens import PORCH_BEAM, WALL
from export.takeoff.table import takeoff_csv
from export.walkthrough.page import walkthrough_html
from export.wall_marks.pdf import wall_mark_pages
from export.wall_marks.tape_marks import count_words, wall_tapes
from export.wall_marks.wall_drawing import paper_strips
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan import Point, Porch, Support, SupportKind
from framing.run import Run, make_run
from framing.walls.standing_walls import beam_ground, standing_lines, wall_ground
from invariants.houses import plan_of
from viewer.cards import bearing_card
from viewer.pieces import ItemKind
from viewer.scene import POST_NOTE, Scene, build_scene

BOX = [(0, 0), (46, 0), (46, 34), (0, 34)]
T = 8 / 12


def beam(start: Point, end: Point, *, holds_down: bool = False) -> Support:
    return Support(kind=SupportKind.BEAM, start_ft=start, end_ft=end, holds_down=holds_down)


@cache
def run() -> Run:
    supports = (
        beam((12.0, 34.0), (34.0, 34.0)),
        beam((34.0, 0.0), (46.0, 0.0)),
        beam((46.0, 0.0), (46.0, 10.0), holds_down=True),
        beam((0.0, 0.0), (0.0, 34.0)),
    )
    floors = (
        Porch(corners_ft=((12.0, 24.0), (34.0, 24.0), (34.0, 34.0), (12.0, 34.0))),
        Porch(corners_ft=((34.0, 0.0), (46.0, 0.0), (46.0, 10.0), (34.0, 10.0))),
        Porch(corners_ft=((0.0, 0.0), (8.0, 0.0), (8.0, 34.0), (0.0, 34.0))),
    )
    return make_run(plan_of(BOX, supports=supports, porches=floors), shipped_catalogue())


@cache
def scene() -> Scene:
    return build_scene(run())


def length(lines: tuple[tuple[Point, ...], ...]) -> float:
    return sum(shapely.LineString(line).length for line in lines)


def test_what_stands_is_the_outline_less_the_beams() -> None:
    """By hand. S2 and S3 meet at a corner and run to it; S4 ends at the inside faces of W1 and W3, which stand there,
    so that 8 in. of W4's outside face are left at either end; S1 lies between.
    """
    beams = run().framing.porch_beams
    assert [b.name for b in beams] == ["S1", "S2", "S3", "S4"]
    outside = 2 * (46 + 34) - 22 - 12 - 10 - (34 - 2 * T)
    assert length(standing_lines(run().outline, beams)) == pytest.approx(outside)
    middle = 2 * (46 + 34 - 2 * T) - 22 - (12 - T / 2) - (10 - T / 2) - (34 - 2 * T)
    assert length(standing_lines(run().outline, beams, T / 2)) == pytest.approx(middle)
    grounds = [beam_ground(run().outline, b, beams) for b in beams]
    assert [g.area for g in grounds[:3]] == pytest.approx([22 * T, 12 * T - T * T / 2, 10 * T - T * T / 2])
    assert grounds[3].area == pytest.approx((34 - 2 * T) * T)
    stands = [p for k in range(4) for p in wall_ground(run().outline, k, beams)]
    whole = shapely.Polygon(BOX).difference(shapely.Polygon(BOX).buffer(-T, join_style="mitre"))
    assert sum(g.area for g in (*stands, *grounds)) == pytest.approx(whole.area, abs=1e-3)
    assert shapely.union_all([*stands, *grounds]).symmetric_difference(whole).area < 1e-3


def test_without_porch_beams_the_walls_are_one_closed_line() -> None:
    (line,) = standing_lines(run().outline, ())
    assert line[0] == pytest.approx(line[-1])
    assert len(line) == 5


def test_the_picture_draws_the_beams_and_no_wall_in_their_place() -> None:
    strokes, _ = picture_strokes(run())
    lines = [s for s in strokes if isinstance(s, Line)]
    wall_in = sum(math.dist(s.start, s.end) for s in lines if (s.layer, s.pen) == (WALL.layer, WALL.pen))
    beam_in = sum(math.dist(s.start, s.end) for s in lines if (s.layer, s.pen) == (PORCH_BEAM.layer, PORCH_BEAM.pen))
    scale = (wall_in - 0.8) / (2 * (46 + 34) - 22 - 12 - 10 - (34 - 2 * T))  # 0.8 in. in the key
    texts = [s.text for s in strokes if isinstance(s, Text)]
    assert {f"S{n} porch beam" for n in (1, 2, 3, 4)} | {"porch 1", "porch 2", "porch 3"} <= set(texts)
    assert {"porch beam in place of wall (4)", "open porch (3)"} <= set(texts)
    assert beam_in == pytest.approx((2 * 78 * scale + 0.8) / 3, rel=0.05)  # dots of 0.03 in. and gaps of 0.06, twice


@pytest.mark.parametrize("paper", [ARCH_D, TABLOID], ids=lambda p: p.name)
def test_nothing_overlaps_on_the_sheets_and_the_beams_are_named(paper: object) -> None:
    sheets = anchor_plan_sheets(run(), paper)  # type: ignore[arg-type]
    assert [o for sheet in sheets for o in overlaps(sheet)] == []
    texts = {s.text for sheet in sheets for s in sheet.strokes if isinstance(s, Text)}
    assert not any(t.startswith("START W4") for t in texts)
    if paper is ARCH_D:
        assert {"S1 porch beam, no tie beam", "S2 porch beam, no tie beam", "S3 porch beam apart"} <= texts


def test_the_dxf_s_walls_end_at_the_beams(tmp_path: Path) -> None:
    path = tmp_path / "porch.dxf"
    path.write_bytes(anchor_plan_dxf(run()))
    doc = ezdxf.readfile(path)
    assert doc.audit().errors == []
    found = {
        layer: [
            shapely.LineString([*e.get_points("xy"), *e.get_points("xy")[: e.closed]])
            for e in doc.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
        ]
        for layer in (Layer.WALL.value, Layer.BEAM.value)
    }
    outside_ft = 2 * (46 + 34) - 22 - 12 - 10 - (34 - 2 * T)
    assert sum(line.length for line in found["S-WALL"]) == pytest.approx(12 * outside_ft, abs=1e-3)
    for x, y in ((23.0, 34.0), (40.0, 0.0), (46.0, 5.0), (0.0, 17.0)):
        assert shapely.union_all(found["S-WALL"]).distance(shapely.Point(12 * x, 12 * y)) > 40.0
        assert shapely.union_all(found["S-BEAM"]).distance(shapely.Point(12 * x, 12 * y)) < 1e-3


def items(kind: ItemKind) -> dict[str, int]:
    return {item.node: i for i, item in enumerate(scene().items) if item.kind is kind}


def heights(item: int) -> tuple[float, float]:
    boxes = scene().boxes.corners_ft()[scene().boxes.item == item].reshape(-1, 3)
    solid = scene().solids.points_ft[np.unique(scene().solids.triangles[scene().solids.item == item])]
    z = np.concatenate((boxes, solid))[:, 2]
    return float(z.min()), float(z.max())


def test_the_scene_has_beams_on_posts_and_neither_wall_nor_tie_beam_there() -> None:
    """A beam lies where the tie beam would; posts reach from the floor to it. 34 ft less the corners makes three bays
    of at most 12 ft, 22 ft and 12 ft two and one (a pattern only); S2 and S3 share the post at their corner.
    """
    floor, top = run().plan.ground_to_floor_ft, scene().tie_beam_top_ft
    under = top - run().plan.tie_beam.depth_ft
    supports = items(ItemKind.SUPPORT)
    assert [n for n in supports if n.startswith("porch")] == [f"porch beam S{n}" for n in (1, 2, 3, 4)]
    for node, item in supports.items():
        assert heights(item) == pytest.approx((floor, under) if node.startswith("posts") else (under, top)), node
    posts = {node: int((scene().boxes.item == i).sum()) for node, i in supports.items() if node.startswith("posts")}
    assert posts == {"posts S1": 1, "posts S2": 1, "posts S4": 2}
    assert POST_NOTE in scene().notes
    grounds = [beam_ground(run().outline, b, run().framing.porch_beams) for b in run().framing.porch_beams]
    for item in (*items(ItemKind.WALL).values(), *items(ItemKind.TIE_BEAM).values()):
        triangles = scene().solids.points_ft[scene().solids.triangles[scene().solids.item == item]]
        plan = shapely.union_all([p for p in shapely.polygons(triangles[:, :, :2]) if p.area > 1e-9])
        assert max(plan.intersection(g).area for g in grounds) < 1e-3


@pytest.mark.parametrize("kind", [ItemKind.FLOOR, ItemKind.WALL, ItemKind.TIE_BEAM, ItemKind.SUPPORT])
def test_every_solid_round_a_porch_is_closed_and_faces_outward(kind: ItemKind) -> None:
    solids = scene().solids
    for node, item in items(kind).items():
        faces = solids.triangles[solids.item == item]
        mesh = trimesh.Trimesh(vertices=solids.points_ft, faces=faces, process=False)
        assert node.startswith("posts") or (mesh.is_watertight and mesh.is_winding_consistent and mesh.volume > 0), node


def test_a_bearing_s_card_on_a_porch_beam_says_who_holds_it() -> None:
    mark = next(m for m in run().schedule.marks if m.bearing.by_engineer)
    assert ("held by", "engineer's connection") in bearing_card(mark)
    assert "anchor" not in dict(bearing_card(mark))


def test_the_walkthrough_tells_whose_connection_the_other_bearings_have() -> None:
    page = walkthrough_html(run()).decode()
    others = run().schedule.by_engineer
    words = f"but for {len(others)} on S1 and S2 and S4 with the engineer&#x27;s connection."
    assert words in page
    assert data_of(page.encode())["apart"] == f"Not counted: {len(others)} by the engineer."


def test_a_wall_that_is_all_porch_beam_has_no_tape_and_the_others_run_on_past_theirs() -> None:
    tapes = {t.name: t for t in wall_tapes(run())}
    assert list(tapes) == ["W1", "W2", "W3", "S3"]
    assert (tapes["W3"].length_ft, tapes["W3"].open_ft) == (46.0, ((12.0, 34.0),))
    assert tapes["W3"].description == "no wall from 12'-0\" to 34'-0\" (porch beam S1)"
    assert not [t for t in tapes["W3"].ticks if 12.0 < t.station_ft < 34.0]
    assert [t.far_ft for t in tapes["W3"].ticks] == pytest.approx([46.0 - t.station_ft for t in tapes["W3"].ticks])
    band = [
        line
        for strip in paper_strips(tapes["W3"])
        for line in strip.block.strokes
        if isinstance(line, Line) and line.dashed
    ]
    assert band


def test_the_straps_in_all_are_those_of_the_walls_and_of_the_beam_that_holds_down() -> None:
    held = [m for m in run().schedule.marks if not m.bearing.by_engineer]
    others = [m for m in run().schedule.marks if m.bearing.by_engineer]
    assert {m.bearing.wall for m in others} == {"S1", "S2", "S4"}
    assert {m.bearing.wall for m in held} == {"W1", "W2", "W3", "S3"}
    n_straps = sum(m.count for m in held)
    said = " ".join(t.text for page in wall_mark_pages(run()) for t in page if isinstance(t, Text))
    assert f"All walls: {count_words(held)}" in said
    assert f"= {n_straps} in all." in count_words(held)
    assert f"{len(others)} more marks on S1 and S2 and S4 have the engineer's connection." in said
    rows = list(csv.DictReader(io.StringIO(takeoff_csv(run()).decode("utf-8-sig"))))
    anchors = [r for r in rows if r["item"].startswith("anchor ")]
    assert sum(int(r["note"].split(" on the plan")[0]) for r in anchors) == n_straps


def test_the_tie_beam_s_concrete_runs_on_along_the_beam_that_holds_down_alone() -> None:
    """By hand, 7-5/8 in. wide and 15-5/8 in. deep: the middle line, 3-13/16 in. in. S3 is tie beam, so that S2 ends at
    its inside face, 8 in. from the corner.
    """
    half = 7.625 / 24
    middle_ft = 2 * (46 + 34) - 8 * half - 22 - (12 - T) - (34 - 2 * T)
    rows = list(csv.DictReader(io.StringIO(takeoff_csv(run()).decode("utf-8-sig"))))
    (row,) = [r for r in rows if r["item"] == "concrete of the tie beam"]
    assert float(row["quantity"]) == pytest.approx(middle_ft * 7.625 / 12 * 15.625 / 12 / 27, abs=0.005)
    assert f"{middle_ft:.1f} ft along the middle of the walls; none along porch beam S1 and S2 and S4" in row["note"]
