"""`strapline compare`: marks paired by place and member, what changed in words, and the files that say so."""

from __future__ import annotations

import csv
import io
import json
import random
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from export.changes.differences import What, differences, sheet_is_stale
from export.changes.sheet import changes_dxf, changes_pdf
from export.changes.sources import HouseThen, house_of
from export.changes.table import changes_csv
from export.changes.words import change_words, verdict
from export.cli import app
from export.commands.run_of_plan import load_run
from export.tables.run_json import run_json
from framing.errors import PlanError
from framing.run import CAUTION, make_run
from invariants.houses import SAMPLES


def house(name: str) -> HouseThen:
    return house_of(SAMPLES[name], lambda plan: run_json(load_run(plan)))


def renumbered(h: HouseThen) -> HouseThen:
    """The same house, its marks named otherwise and in another order."""
    marks = [replace(m, mark=f"W9-{k:02d}") for k, m in enumerate(h.marks)]
    random.Random(4).shuffle(marks)
    return replace(h, marks=tuple(marks))


@pytest.mark.parametrize("name", ["cottage", "garage_wing", "bay_and_corners"])
def test_a_house_compared_with_itself_has_not_changed_however_its_marks_are_named(name: str) -> None:
    h = house(name)
    for other in (h, renumbered(h)):
        found = differences(h, other)
        assert all(c.what == () for c in found)
        assert verdict(found) == ("Nothing changed on the wall: the old sheet holds.",)


def test_the_sample_s_revision_b_is_told_wall_by_wall_with_what_moved_alike(tmp_path: Path) -> None:
    """Its garage wing grew 2 ft at the end where W6 begins: on W6 every tape figure grows, W1 to W3 stand."""
    before = SAMPLES["garage_wing"].parent / "revisions" / "garage_wing_a.toml"
    told = CliRunner().invoke(app, ["compare", str(before), str(SAMPLES["garage_wing"]), "--out", str(tmp_path / "c")])
    assert told.exit_code == 1
    assert told.stdout.splitlines() == [
        "W4: 4 marks with another number of straps, 3 marks moved, 1 mark with another anchor: "
        "do not use the old sheet.",
        "W5: 1 mark new, 2 marks with another anchor: do not use the old sheet.",
        "W6: 1 mark new, 26 marks moved (24 of them 2'-0\" away from START), 4 marks with another anchor: "
        "do not use the old sheet.",
        "W1, W2, W3: nothing changed.",
    ]
    rows = list(csv.DictReader((tmp_path / "c" / "changes.csv").read_text(encoding="utf-8-sig").splitlines()))
    assert {r["wall_after"] for r in rows if r["changed"] != "no"} == {"W4", "W5", "W6"}
    assert [r["mark_after"] for r in rows if "new" in r["changed"]] == ["W5-01", "W6-01"]


def test_each_mark_of_either_house_stands_in_one_change() -> None:
    a, b = house("hip_house"), house("garage_wing")
    found = differences(a, b)
    assert sorted(c.before.mark for c in found if c.before) == sorted(m.mark for m in a.marks)
    assert sorted(c.after.mark for c in found if c.after) == sorted(m.mark for m in b.marks)


def test_marks_moved_gone_new_and_of_another_anchor_side_and_load_are_told_apart() -> None:
    h = house("hip_house")
    marks = list(h.marks)
    marks[3] = replace(
        marks[3], tape_ft=marks[3].tape_ft + 0.25, strap_ft=(marks[3].strap_ft[0] + 0.25, marks[3].strap_ft[1])
    )
    marks[4] = replace(marks[4], anchor="great")
    marks[5] = replace(marks[5], side="far")
    marks[6] = replace(marks[6], count=2)
    marks[7] = replace(marks[7], uplift_lb=marks[7].uplift_lb * 1.5)
    gone = marks.pop(10)
    new = replace(gone, mark="W1-99", strap_ft=(-40.0, -40.0))
    found = differences(h, replace(h, marks=(*marks, new)))
    told = {c.one.mark: c.what for c in found if c.what}
    assert told[marks[3].mark] == (What.MOVED,)
    assert told[marks[4].mark] == (What.ANCHOR,)
    assert told[marks[5].mark] == (What.SIDE,)
    assert told[marks[6].mark] == (What.COUNT,)
    assert told[marks[7].mark] == (What.LOAD,)
    assert (told[gone.mark], told["W1-99"]) == ((What.GONE,), (What.NEW,))
    assert sheet_is_stale(found)
    moved = next(c for c in found if c.what == (What.MOVED,))
    assert change_words(moved).startswith("moved 0'-3\" away from START: tape ")
    line = next(v for v in verdict(found) if v.startswith(f"{marks[3].wall}: "))
    assert "1 mark moved" in line
    assert line.endswith("do not use the old sheet.")


def test_a_load_alone_leaves_the_old_sheet_good() -> None:
    h = house("hip_house")
    heavier = replace(h, marks=tuple(replace(m, uplift_lb=m.uplift_lb * 1.2) for m in h.marks))
    found = differences(h, heavier)
    assert not sheet_is_stale(found)
    assert verdict(found)[0].startswith("Nothing changed on the wall: the old sheet holds; ")


def test_a_stronger_minimum_changes_anchors_and_moves_nothing() -> None:
    run = load_run(SAMPLES["hip_house"])
    strong = make_run(replace(run.plan, anchors=replace(run.plan.anchors, minimum="great")), run.schedule.catalogue)
    before, after = (house_of(Path("x.toml"), lambda _, r=r: run_json(r)) for r in (run, strong))
    whats = {w for c in differences(before, after) for w in c.what}
    assert What.MOVED not in whats
    assert What.ANCHOR in whats or What.COUNT in whats


def test_table_sheet_and_drawing_bear_the_caution_and_the_changes() -> None:
    a, b = house("hip_house"), house("garage_wing")
    found = differences(a, b)
    rows = list(csv.DictReader(changes_csv(a, b, found).decode("utf-8-sig").splitlines()))
    assert len(rows) == len(found)
    assert {r["caution"] for r in rows} == {CAUTION}
    pages = PdfReader(io.BytesIO(changes_pdf(a, b, found))).pages
    for page in pages:
        assert CAUTION in " ".join(page.extract_text().split())
    doc = ezdxf.read(io.StringIO(changes_dxf(a, b, found).decode()))  # type: ignore[attr-defined]
    assert not doc.audit().errors
    clouds = [e for e in doc.modelspace() if e.dxf.layer == "S-ANNO-NOTE" and e.dxftype() == "LWPOLYLINE"]
    assert clouds
    texts = " ".join(e.dxf.text for e in doc.modelspace().query("TEXT"))
    assert "do not use the old sheet" in texts


def test_plan_run_json_and_output_folder_are_the_same_house(tmp_path: Path) -> None:
    run = load_run(SAMPLES["cottage"])
    (tmp_path / "run.json").write_bytes(run_json(run))
    ways = [house_of(p, lambda _: run_json(run)) for p in (SAMPLES["cottage"], tmp_path / "run.json", tmp_path)]
    assert ways[0] == ways[1] == ways[2]


@pytest.mark.parametrize(("text", "sentence"), [("{}", "this is no run.json"), ("no json", "this is no run.json")])
def test_what_is_no_run_is_named(tmp_path: Path, text: str, sentence: str) -> None:
    path = tmp_path / "run.json"
    path.write_text(text)
    with pytest.raises(PlanError, match=sentence):
        house_of(path, lambda _: b"")
    empty = tmp_path / "empty"
    empty.mkdir()
    with pytest.raises(PlanError, match=r"there is no run\.json in it"):
        house_of(empty, lambda _: b"")


def test_the_command_ends_with_1_where_the_sheet_is_stale_and_0_where_nothing_changed(tmp_path: Path) -> None:
    plan = SAMPLES["cottage"]
    same = CliRunner().invoke(app, ["compare", str(plan), str(plan), "--out", str(tmp_path / "same")])
    assert (same.exit_code, same.stdout) == (0, "Nothing changed on the wall: the old sheet holds.\n")
    other = ["compare", str(plan), str(SAMPLES["hip_house"]), "--out", str(tmp_path / "other"), "--json"]
    told = CliRunner().invoke(app, other)
    assert told.exit_code == 1
    answer = json.loads(told.stdout)
    assert answer["stale"] is True
    written = sorted(p.name for p in (tmp_path / "other").iterdir())
    assert written == ["changes.csv", "changes.dxf", "changes.html", "changes.pdf"]
