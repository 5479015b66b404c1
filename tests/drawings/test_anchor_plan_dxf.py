"""anchor-plan.dxf opened by other readers: GDAL, ezdxf's own audit, and a desktop CAD program that plots it.

Outside facts: model unit inch is $INSUNITS 1, engineering feet and inches are DIMLUNIT 4 (published DXF reference,
header variables and DIMSTYLE). 1/64 in. is the issue's own tolerance.
"""

from __future__ import annotations

import csv
import io
import math
import os
import shutil
import subprocess
from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import ezdxf
import pyogrio
import pyogrio.raw
import pytest
import shapely
from ezdxf.document import Drawing

from drawings.drawn import run_of_outline
from export.anchor_plan.dxf import anchor_plan_dxf
from export.anchor_plan.sheets import ARCH_D, PAPERS, anchor_plan_sheets
from export.paper.sheet import Layer
from export.tables.schedule import schedule_csv
from framing.run import CAUTION, Run
from framing.units import length_ft

SAMPLES = ("cottage", "hip_house", "garage_wing")
ATTRIBUTES = ("MARK", "ANCHOR", "COUNT", "SIDE", "UPLIFT", "WALL", "STATION", "TAPE", "MEMBER", "RATIO", "IN_FROM_FACE")
A, C = math.cos(math.radians(33)), math.sin(math.radians(33))
TURNED_L = tuple((x * A - y * C, x * C + y * A) for x, y in ((0, 0), (46, 0), (46, 28), (22, 28), (22, 50), (0, 50)))


@pytest.fixture(scope="module", params=[*SAMPLES, "turned"])
def drawn(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> tuple[Run, Path]:
    run = (
        run_of_outline(TURNED_L) if request.param == "turned" else request.getfixturevalue("sample_run")(request.param)
    )
    path = tmp_path_factory.mktemp("dxf") / "anchor-plan.dxf"
    path.write_bytes(anchor_plan_dxf(run))
    return run, path


def schedule(run: Run) -> dict[str, dict[str, str]]:
    rows = csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig")))
    return {row["mark"]: row for row in rows}


def features(path: Path) -> list[dict[str, Any]]:
    """What GDAL finds in model space: one dict a feature, the geometry with it; blocks stay blocks."""
    pyogrio.set_gdal_config_options({"DXF_INLINE_BLOCKS": "FALSE"})
    meta, _, shapes, fields = pyogrio.raw.read(path, layer="entities")
    names = list(meta["fields"])
    found = [dict(zip(names, values, strict=True)) for values in zip(*fields, strict=True)]
    model = [{**f, "shape": shapely.from_wkb(g)} for f, g in zip(found, shapes, strict=True)]
    return [f for f in model if f["PaperSpace"] != 1]


def test_the_audit_finds_nothing_to_report_and_nothing_to_mend(drawn: tuple[Run, Path]) -> None:
    audit = ezdxf.readfile(drawn[1]).audit()
    assert (audit.errors, audit.fixes) == ([], [])


def test_gdal_finds_every_strap_at_its_place_with_its_attributes_on_its_layer(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    rows = schedule(run)
    inserts = [f for f in features(path) if f["BlockName"] and f["BlockName"].startswith("ANCHOR-")]
    wanted = Counter({m.mark: max(1, m.count) for m in run.schedule.marks})
    assert Counter(attributes(f)["MARK"] for f in inserts) == wanted
    straps = {(m.mark, s.side.value): s for m in run.schedule.marks for s in m.straps or m.bearing.straps[:1]}
    assert len(straps) == len(inserts)
    for f in inserts:
        values = attributes(f)
        row, strap = rows[values["MARK"]], straps[values["MARK"], values["SIDE"]]
        assert math.dist((f["shape"].x, f["shape"].y), [12 * v for v in strap.point_ft]) < 1 / 64
        assert f["Layer"] == "S-ANCH"
        assert tuple(values) == ATTRIBUTES
        told = (values["ANCHOR"], values["COUNT"], values["WALL"], values["MEMBER"])
        assert told == (row["anchor"], "1" if row["anchor"] else "0", row["wall"], row["member"])
        assert float(values["UPLIFT"]) == pytest.approx(float(row["uplift_lb"]), abs=0.06)
        assert values["RATIO"] == "" if not row["ratio"] else abs(float(values["RATIO"]) - float(row["ratio"])) < 0.006
        for tag, inches in (("STATION", 12 * float(row["station_ft"])), ("TAPE", 12 * strap.tape_ft)):
            assert length_ft(values[tag]) * 12 == pytest.approx(inches, abs=1 / 32 + 1e-9)
        assert length_ft(values["IN_FROM_FACE"]) * 12 == pytest.approx(12 * strap.in_from_face_ft, abs=1 / 32 + 1e-9)


def attributes(feature: dict[str, Any]) -> dict[str, str]:
    """The attributes of an insert as GDAL tells them, an empty one too."""
    pairs = [pair.partition(" ") for pair in feature["BlockAttributes"]]
    return {tag: value for tag, _, value in pairs}


def test_the_attributes_stand_on_the_anchor_s_layer_and_are_not_shown(drawn: tuple[Run, Path]) -> None:
    for insert in ezdxf.readfile(drawn[1]).modelspace().query("INSERT"):
        assert {a.dxf.layer for a in insert.attribs} == {"S-ANCH"}
        assert all(a.is_invisible for a in insert.attribs)


def test_the_model_holds_the_house_and_the_sheets_hold_frames_notes_and_title_blocks(drawn: tuple[Run, Path]) -> None:
    doc = ezdxf.readfile(drawn[1])
    in_model = {e.dxf.layer for e in doc.modelspace()}
    assert not in_model & {"S-ANNO-TTLB", "S-ANNO-LEGN", "S-ANNO-SCHD", "S-DETL", "S-ANNO-NPLT"}
    assert {"S-WALL", "S-TRUS", "S-ANCH", "S-ANCH-IDEN", "S-ANNO-DIMS"} <= in_model
    for name in (n for n in doc.layouts.names() if n != "Model"):
        (title,) = (i for i in doc.layouts.get(name).query("INSERT") if i.dxf.name.startswith("TITLE-"))
        values = {a.dxf.tag: a.dxf.text for a in title.attribs}
        assert list(values) == ["SHEET", "ISSUE", "DRAWN", "CHECKED"]
        assert name.endswith(f"sheet {values['SHEET']}")
        assert (values["DRAWN"], values["CHECKED"]) == ("", "")


def test_every_property_is_the_layer_s_and_every_layer_says_what_it_is_for(drawn: tuple[Run, Path]) -> None:
    doc = ezdxf.readfile(drawn[1])
    for layout in doc.layouts:
        for e in layout:
            assert (e.dxf.get("color", 256), e.dxf.get("lineweight", -1)) == (256, -1), e
    for layer in Layer:
        entry = doc.layers.get(layer.value)
        assert entry.description
        assert entry.dxf.lineweight > 0


def test_the_extents_hold_everything_that_the_model_draws(drawn: tuple[Run, Path]) -> None:
    doc = ezdxf.readfile(drawn[1])
    (x0, y0, _), (x1, y1, _) = doc.header["$EXTMIN"], doc.header["$EXTMAX"]
    shapes = [f["shape"] for f in features(drawn[1])]
    left, low, right, high = shapely.union_all([s for s in shapes if s is not None]).bounds
    assert x0 <= left < right <= x1
    assert y0 <= low < high <= y1


def test_no_plotter_and_no_paper_file_is_named(drawn: tuple[Run, Path]) -> None:
    doc = ezdxf.readfile(drawn[1])
    for layout in doc.layouts:
        settings = layout.dxf_layout.dxf
        named = (settings.get("plot_configuration_file", ""), settings.get("current_style_sheet", ""))
        assert named == ("", ""), layout.name
        assert settings.get("paper_size", "") == "", layout.name


def test_gdal_finds_every_mark_as_plain_text_too(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    plain = Counter(f["Text"] for f in features(path) if f["Layer"] in ("S-ANCH-IDEN", "S-ANCH-IDEN-MODL"))
    assert {m.mark: max(1, m.count) for m in run.schedule.marks}.items() <= dict(plain).items()  # a pair on both faces


def test_the_walls_stand_in_model_space_at_full_size(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    rings = [f["shape"] for f in features(path) if f["Layer"] == "S-WALL"]
    outline = shapely.Polygon([(12 * x, 12 * y) for x, y in run.outline.corners_ft])
    assert len(rings) == 1
    assert shapely.Polygon(rings[0]).symmetric_difference(outline).area < 1e-3


def test_every_layer_follows_discipline_major_minor(drawn: tuple[Run, Path]) -> None:
    doc = ezdxf.readfile(drawn[1])
    used = {e.dxf.layer for layout in doc.layouts for e in layout}
    used -= {"0", "Defpoints"}  # the format's own
    assert used <= {layer.value for layer in Layer}
    assert all(name[:2] in ("S-", "A-") and all(len(part) == 4 for part in name.split("-")[1:]) for name in used)


def test_every_mark_has_a_real_dimension_from_its_walls_start(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    measured = Counter(round(d.get_measurement(), 4) for d in ezdxf.readfile(path).modelspace().query("DIMENSION"))
    wanted = Counter(round(12 * m.bearing.strap_station_ft, 4) for m in run.schedule.marks)
    del wanted[0.0]  # a strap in a corner block stands at START or at the far end
    assert wanted <= measured


def test_the_header_tells_feet_and_inches_to_readers_that_look_only_there(drawn: tuple[Run, Path]) -> None:
    header = ezdxf.readfile(drawn[1]).header
    assert (header["$INSUNITS"], header["$DIMLUNIT"], header["$DIMLFAC"], header["$DIMSCALE"]) == (1, 4, 1.0, 1.0)
    assert header["$DIMTXT"] > 1.0


def viewports(doc: Drawing, name: str) -> list[Any]:
    return [v for v in doc.layouts.get(name).query("VIEWPORT") if v.dxf.id != 1]


def test_each_size_has_a_sheet_whose_viewport_shows_the_plan_at_its_scale(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    doc = ezdxf.readfile(path)
    for paper in PAPERS:
        sheets = anchor_plan_sheets(run, paper)
        assert [s.name for s in sheets] == [n for n in doc.layouts.names() if n.startswith(paper.name)]
        first, layout = sheets[0], doc.layouts.get(sheets[0].name)
        assert (layout.dxf_layout.dxf.paper_width, layout.dxf_layout.dxf.paper_height) == pytest.approx(
            (25.4 * paper.width_in, 25.4 * paper.height_in)
        )
        (view,) = viewports(doc, first.name)
        assert view.dxf.height / view.dxf.view_height * 12 == pytest.approx(first.view.scale.in_per_ft)
        corner = layout.get_paper_limits()[0]
        seen = view.get_transformation_matrix()
        for wall in run.outline.walls:
            x, y = first.view.paper(wall.start_ft)
            at = seen.transform((12 * wall.start_ft[0], 12 * wall.start_ft[1], 0))
            assert (at.x - corner.x, at.y - corner.y) == pytest.approx((x, y), abs=1e-6)


def test_each_sheet_has_its_title_its_caution_and_no_text_under_three_thirty_seconds(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    doc = ezdxf.readfile(path)
    for layout in doc.layouts:
        found = list(layout.query("TEXT"))
        words = " ".join(t.dxf.text for t in found)
        assert CAUTION in words, layout.name
        assert run.fingerprint in words
        factor = 12 / anchor_plan_sheets(run, ARCH_D)[0].view.scale.in_per_ft if layout.is_modelspace else 1.0
        assert min(t.dxf.height for t in found) >= 3 / 32 * factor - 1e-9


def test_a_smaller_sheet_hides_the_texts_that_were_written_for_the_larger_one(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    doc = ezdxf.readfile(path)
    (view,) = viewports(doc, anchor_plan_sheets(run, PAPERS[1])[0].name)
    assert {"S-ANCH-IDEN", "S-ANNO-DIMS", "S-TRUS-IDEN", "S-ANCH"} <= set(view.frozen_layers)
    assert not {"S-WALL", "S-BEAM", "S-TRUS", "S-TRUS-GIRD"} & set(view.frozen_layers)


def test_equal_input_gives_equal_bytes(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    first = anchor_plan_dxf(run)
    anchor_plan_sheets.cache_clear()
    assert anchor_plan_dxf(run) == first


def test_codes_of_the_format_in_a_project_name_stay_words() -> None:
    run = run_of_outline(TURNED_L)
    run = replace(run, plan=replace(run.plan, project=replace(run.plan.project, name="Plot %%u 5 ^J\n 0\nEOF")))
    doc = ezdxf.read(io.StringIO(anchor_plan_dxf(run).decode()))
    assert not doc.audit().errors
    for layout in (n for n in doc.layouts if not n.is_modelspace):
        assert any("Plot" in t.plain_text() and "EOF" in t.plain_text() for t in layout.query("TEXT"))


def test_a_desktop_cad_program_plots_it(drawn: tuple[Run, Path], tmp_path: Path) -> None:
    program = shutil.which("librecad")
    assert program, "the drawing is plotted by LibreCAD: install librecad"
    shutil.copy(drawn[1], tmp_path / "plan.dxf")
    quiet = {**os.environ, "QT_QPA_PLATFORM": "offscreen", "HOME": str(tmp_path)}
    command = [program, "dxf2pdf", "-a", "-p", "914x609", "plan.dxf"]
    subprocess.run(command, cwd=tmp_path, env=quiet, check=True, capture_output=True, timeout=120)
    subprocess.run(["pdftoppm", "-r", "20", "-gray", "plan.pdf", "plan"], cwd=tmp_path, check=True, timeout=60)
    picture = next(tmp_path.glob("plan*.pgm")).read_bytes()
    _, size, _, pixels = picture.split(b"\n", 3)
    wide, tall = (int(n) for n in size.split())
    inked = [i for i, value in enumerate(pixels) if value < 160]
    assert 0.01 < len(inked) / (wide * tall) < 0.30
    assert max(i % wide for i in inked) - min(i % wide for i in inked) > 0.4 * wide


def test_the_deck_s_zones_lie_on_a_layer_that_is_off_and_cover_the_roof(drawn: tuple[Run, Path]) -> None:
    run, path = drawn
    doc = ezdxf.readfile(path)
    assert doc.layers.get(Layer.DECK.value).is_off()
    edges = [e for e in doc.modelspace().query("LWPOLYLINE") if e.dxf.layer == Layer.DECK.value]
    rings = [shapely.Polygon([(x / 12, y / 12) for x, y in e.get_points("xy")]) for e in edges]  # inches to feet
    roof = sum(p.area for p in run.patches.polygon)
    assert shapely.union_all(rings).area == pytest.approx(roof, rel=1e-3)
    texts = " ".join(e.dxf.text for e in doc.modelspace().query("TEXT") if e.dxf.layer == Layer.DECK.value)
    for zone in run.cover.deck.zones:
        assert f"{zone.name}, {zone.suction_psf:.0f} psf" in texts
