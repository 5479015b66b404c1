"""`strapline reconcile` as it is called: invented packages, and what page, table, sheets and files say of them."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pytest
from typer.testing import CliRunner

from export.cli import app
from export.commands.run_of_plan import load_run, load_variants
from export.outputs import render
from export.reconcile.blank import blank_csv
from export.tables.run_json import run_json
from export.tables.schedule import schedule_csv
from framing.package.package_file import package_from_text
from framing.run import CAUTION
from parts.packages import COTTAGE, FOLDER, HIP, rows_of, text_of, under, without_package
from parts.plans import SHORT


def call(*words: str | Path) -> tuple[int, str, str]:
    result = CliRunner().invoke(app, [str(w) for w in words])
    return result.exit_code, result.stdout, result.stderr


@pytest.mark.slow
def test_the_sample_package_is_told_in_full_by_page_table_and_every_output(tmp_path: Path) -> None:
    out = tmp_path / "out"
    code, said, warned = call("reconcile", HIP, FOLDER / "hip_house_package.csv", "--out", out)
    assert code == 1
    assert said.splitlines()[0] == "Before the pour: 5 to decide and 1 reaction to ask about."
    for words in (
        "W1-12: the package has it at 21'-6\", ours at 21'-0\": 0'-6\" away from START",
        "W1-13: the package has it at 23'-6\"",
        "W3-08: the package has it at 12'-0\", ours at 13'-0\": 1'-0\" toward START",
        "W1-28: the package hangs this end on another member",
        "1 mark of ours has no row (W3-20)",
    ):
        assert words in warned
    rows = {row["mark"]: row for row in rows_of((out / "reconcile.csv").read_bytes())}
    assert len(rows) == 100
    assert {r["caution"] for r in rows.values()} == {CAUTION}
    assert (rows["W1-16"]["uplift_ratio"], rows["W1-16"]["uplift_band"]) == ("1.3998", "ask")
    assert [m for m, r in rows.items() if r["uplift_band"] == "ask"] == ["W1-16"]
    assert [m for m, r in rows.items() if r["governs"] != "package"] == ["W1-28", "W3-20"]
    page = (out / "reconcile.html").read_text(encoding="utf-8")
    assert page.count(CAUTION.replace("'", "&#x27;")) == 2
    words = "B (hip_house_package.csv): its uplift governs 98 of 100 marks"
    for name in ("report.html", "walkthrough.html", "wall-marks.html", "run.json", "schedule.csv", "takeoff.csv"):
        assert words in (out / name).read_text(encoding="utf-8-sig"), name
    assert words in (out / "engineer.csv").read_text(encoding="utf-8-sig")
    assert words.encode() in (out / "roof.glb").read_bytes()
    data = json.loads((out / "run.json").read_text(encoding="utf-8"))
    assert (data["truss_package"]["revision"], data["truss_package"]["marks_by_package"]) == ("B", 98)
    one = next(b for b in data["bearings"] if b["mark"] == "W1-16")
    assert (one["uplift_lb"], one["package_uplift_lb"]) == (1551.0, 1551.0)
    assert one["our_uplift_lb"] == pytest.approx(1108.0, abs=0.1)


def test_the_package_s_load_down_stands_in_the_schedule_and_an_empty_cell_keeps_ours() -> None:
    ours = load_run(COTTAGE)
    text = "mark,uplift,down\nW1-03,900,2400\nW1-04,900,\n"
    run = under(ours, package_from_text(text, "t.csv"))
    rows = {r["mark"]: r for r in rows_of(schedule_csv(run))}
    before = {r["mark"]: r for r in rows_of(schedule_csv(ours))}
    assert (rows["W1-03"]["down_lb"], rows["W1-03"]["package_down_lb"]) == ("2400.00", "2400.00")
    assert (rows["W1-04"]["down_lb"], rows["W1-04"]["package_down_lb"]) == (before["W1-04"]["down_lb"], "")
    told = {b["mark"]: b for b in json.loads(run_json(run))["bearings"]}
    assert told["W1-03"]["our_down_lb"] == pytest.approx(float(before["W1-03"]["down_lb"]), abs=0.01)
    assert told["W1-04"]["package_down_lb"] is None


@pytest.mark.slow
def test_the_sheets_say_whose_uplift_it_is(tmp_path: Path) -> None:
    from pypdf import PdfReader

    run = load_run(HIP, FOLDER / "hip_house_package.csv")
    outputs = render(run)
    for name in ("anchor-plan.pdf", "wall-marks.pdf"):
        text = " ".join(" ".join(p.extract_text().split()) for p in PdfReader(io.BytesIO(outputs[name])).pages)
        assert "B (hip_house_package.csv): its uplift governs 98 of 100 marks" in text, name
    assert b"its uplift governs" in outputs["anchor-plan.dxf"]


@pytest.mark.slow
def test_factored_loads_with_semicolons_and_decimal_commas_govern_once_accepted(tmp_path: Path) -> None:
    table = FOLDER / "cottage_package_factored.csv"
    code, said, warned = call("reconcile", COTTAGE, table, "--out", tmp_path / "a")
    assert code == 1
    assert "its uplift governs 0 of 44 marks" in said
    assert "44 rows were matched otherwise than by mark" in warned
    code, said, _ = call("reconcile", COTTAGE, table, "--accept", "--out", tmp_path / "b")
    assert (code, said.splitlines()[0]) == (0, "Nothing stands in the way of the package.")
    ratios = [float(r["uplift_ratio"]) for r in rows_of((tmp_path / "b" / "reconcile.csv").read_bytes())]
    assert ratios == pytest.approx([1.0 if abs(r - 1.0) < 0.02 else 1.05 for r in ratios], abs=0.02)


def test_a_package_that_the_plan_names_governs_build_view_and_compare(tmp_path: Path) -> None:
    plan, table = tmp_path / "h.toml", tmp_path / "p.csv"
    plan.write_text(SHORT + '[package]\nfile = "p.csv"\ncolumns = { mark = "Truss", uplift = "Up" }\n')
    table.write_text("Truss,Up\nW1-03,2345\n")
    run = load_run(plan)
    assert next(m for m in run.schedule.marks if m.mark == "W1-03").uplift_lb == 2345.0
    assert any("marks of ours have no row" in flag for flag in run.flags)
    before = run.fingerprint
    table.write_text("Truss,Up\nW1-03,2346\n")
    assert load_run(plan).fingerprint != before
    code, said, _ = call("check", plan, "--json")
    assert code == 1
    assert json.loads(said)["largest_uplifts"][0]["uplift_lb"] == 2346.0


def test_options_stand_under_the_package_only_where_wind_and_house_are_the_plans(tmp_path: Path) -> None:
    plan = tmp_path / "h.toml"
    plan.write_text(
        SHORT + '[package]\nfile = "p.csv"\n[[option]]\nname = "minimum"\nset = { "anchors.minimum" = "2000 lb" }\n'
        '[[option]]\nname = "faster"\nset = { "wind.speed" = 180 }\n'
    )
    (tmp_path / "p.csv").write_text("mark,uplift\nW1-03,2345\n")
    names, runs = load_variants(plan)
    governed = [next(m for m in r.schedule.marks if m.mark == "W1-03").uplift_lb == 2345.0 for r in runs]
    assert governed == [True, True, False]
    assert [n for n, _ in names] == ["as planned", "minimum", "faster, by our own reactions"]


def test_the_empty_table_has_every_mark_and_nothing_of_ours_where_the_engineer_writes(tmp_path: Path) -> None:
    run, path = load_run(HIP), tmp_path / "blank.csv"
    code, _, _ = call("reconcile", HIP, "--blank", path)
    assert code == 0
    assert path.read_bytes() == blank_csv(run)
    rows = rows_of(path.read_bytes())
    assert [r["mark"] for r in rows] == [b.mark for b in (*run.framing.bearings, *run.framing.rests)]
    for r in rows:
        assert not any(r[c] for c in ("station", "plies", "uplift_lb", "down_lb", "basis", "exposure", "accepted"))
        assert r["caution"] == CAUTION
    assert call("reconcile", HIP, "--blank", path)[0] == 2
    for r, o in zip(rows, run.schedule.marks, strict=True):
        r["uplift_lb"] = f"{o.uplift_lb:.0f}"
    filled = under(run, package_from_text(text_of(rows), "blank.csv"))
    assert without_package(schedule_csv(filled)) == without_package(schedule_csv(run))


def test_without_a_table_the_call_says_what_to_name() -> None:
    code, _, said = call("reconcile", COTTAGE)
    assert code == 2
    assert "there is no table to reconcile; name one" in said
