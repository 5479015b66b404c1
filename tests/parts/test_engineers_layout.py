"""An engineer's layout: marks and lines of the package's table, an anchor for each, and no arithmetic of ours.

The places are held against our own layout's, which come by another way: from the roof, not from a table. Which anchor
is the lightest is read off the sample catalogue by eye.
"""

from __future__ import annotations

import csv
import io
import json
import shutil
from pathlib import Path

import pypdf
import pytest
from typer.testing import CliRunner, Result

from export.cli import app
from export.commands.run_of_plan import load_run
from export.outputs import OF_A_LAYOUT, OUTPUTS
from export.tables.schedule import schedule_csv
from framing.engineers_layout import run_of_layout
from framing.errors import PackageError
from framing.members import Crossing
from framing.package.package_file import package_from_text
from framing.plan import Side
from framing.run import CAUTION, Run
from invariants.houses import SAMPLES

HIP = SAMPLES["hip_house"]
WORDS = "its marks, lines and uplift; no arithmetic of ours"
HEAD = "mark,member,wall,station,plies,span,uplift_lb\n"


def laid(text: str, plan: Path = HIP) -> Run:
    ours = load_run(plan)
    return run_of_layout(ours.plan, ours.schedule.catalogue, package_from_text(text, "t.csv"))


def plan_beside(folder: Path, table: str = "hip_house_layout.csv") -> Path:
    for name in ("hip_house_anchors.csv", "hip_house_approvals.csv", "hip_house_layout.csv"):
        shutil.copy(HIP.parent / name, folder)
    plan = folder / "hip.toml"
    plan.write_text(HIP.read_text() + f'\n[package]\nfile = "{table}"\nlayout = "package"\n')
    return plan


def call(*words: object) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words])


@pytest.mark.parametrize("name", ["cottage", "hip_house", "garage_wing", "mixed_gable_hip", "from_drawing"])
def test_every_strap_of_our_own_schedule_read_as_a_layout_stands_where_the_roof_put_it(name: str) -> None:
    ours = load_run(SAMPLES[name])
    theirs = laid(schedule_csv(ours).decode("utf-8-sig"), SAMPLES[name])
    assert [m.mark for m in theirs.schedule.marks] == [m.mark for m in ours.schedule.marks]
    for a, b in zip(ours.framing.bearings, theirs.framing.bearings, strict=True):
        assert (b.member, b.crossing, b.plies, b.side) == (a.member, a.crossing, a.plies, a.side), a.mark
        for one, other in zip(a.straps, b.straps, strict=True):
            assert other.tape_ft == pytest.approx(one.tape_ft, abs=1e-4), a.mark
            assert other.point_ft == pytest.approx(one.point_ft, abs=1e-4), a.mark


def test_a_row_alone_crosses_its_wall_square_and_at_an_outside_corner_at_45_degrees() -> None:
    run = laid(HEAD + "J1,,W1,10',1,6',500\nC1,,W1,0',1,9',400\nC2,,W3,0',1,9',400\n")
    crossing = {m.bearing.member: (m.mark, m.bearing.crossing) for m in run.schedule.marks}
    assert crossing["J1"] == ("W1-02", Crossing.SQUARE)
    assert crossing["C1"] == ("W1-01", Crossing.DIAGONAL)
    assert crossing["C2"] == ("W3-01", Crossing.DIAGONAL)
    ends = {m.name: m.span_ft for m in run.framing.members}
    assert ends["J1"] == pytest.approx(6.0)


def test_rows_that_face_each_other_are_one_truss_only_where_span_or_joints_say_so() -> None:
    facing = "T,,W1,20',1,{span},900\nT,,W3,40',1,{span},900\n"
    assert len(laid(HEAD + facing.format(span="35'-4")).framing.members) == 1
    assert len(laid(HEAD + facing.format(span="7'")).framing.members) == 2
    assert len(laid(HEAD + facing.format(span="")).framing.members) == 2
    joints = "mark,joint,wall,station,uplift_lb\nT,1,W1,20',900\nT,2,W3,40',900\n"
    assert len(laid(joints).framing.members) == 1


def test_rows_of_one_member_that_stand_at_one_place_or_on_one_wall_are_trusses_of_their_own() -> None:
    """Found by random tables: two ends of one member in one corner block."""
    rows = (
        "x,common 3,W5,10.95,1,,900\ny,common 3,W6,0',1,,300\n"
        "z,hip girder 1,W1,4',1,,300\nw,hip girder 1,W1,9',1,,300\n"
    )
    run = laid(HEAD + rows, SAMPLES["bay_and_corners"])
    assert len(run.framing.members) == 4
    assert min(m.span_ft for m in run.framing.members) > 0.4


def test_a_gable_end_lies_along_its_wall_with_its_straps_on_the_inside_face() -> None:
    run = laid(HEAD + "Gable,,W2,2',1,,300\nGable,,W2,10',1,,300\nT,,W1,30',1,,900\n")
    gable = [m for m in run.schedule.marks if m.bearing.wall == "W2"]
    assert [m.bearing.crossing for m in gable] == [Crossing.ALONG] * 2
    assert {m.bearing.side for m in gable} == {Side.INSIDE}


def test_marks_written_as_ours_are_kept_and_others_are_numbered_along_the_wall() -> None:
    kept = laid(HEAD + "W1-07,,W1,10',1,,500\nW1-09,,W1,20',1,,500\n")
    assert [m.mark for m in kept.schedule.marks] == ["W1-07", "W1-09"]
    numbered = laid(HEAD + "B,,W1,20',1,,500\nA,,W1,10',1,,500\n")
    assert [(m.mark, m.stated.mark) for m in numbered.schedule.marks if m.stated] == [("W1-01", "A"), ("W1-02", "B")]


@pytest.mark.parametrize(
    ("uplift", "basis", "anchor"),
    [("750", "ASD", "slim"), ("753", "ASD", "plain"), ("1590", "ASD", "plain"), ("1253", "strength", "slim")],
)
def test_each_mark_gets_the_lightest_anchor_for_the_package_s_own_uplift(uplift: str, basis: str, anchor: str) -> None:
    """The sample catalogue at one ply: slim 752 lb, plain 1,598 lb; 1,253 lb of strength are 752 lb allowable."""
    run = laid(f"mark,wall,station,plies,uplift_lb,basis\nT,W1,20',1,{uplift},{basis}\n")
    (mark,) = run.schedule.marks
    assert mark.anchor is not None
    assert (mark.anchor.id, mark.count) == (anchor, 1)


def test_pushes_of_the_table_count_and_without_them_that_is_said() -> None:
    """Plain takes 1,598 up, 575 along, 463 square: 800 / 1,598 + 260 / 575 + 20 / 463 = 0.996."""
    run = laid("mark,wall,station,plies,uplift,parallel,perpendicular\nT,W1,20',1,800,260,20\nU,W1,30',1,800,270,20\n")
    first, second = run.schedule.marks
    assert first.anchor is not None
    assert (first.anchor.id, first.ratio) == ("plain", pytest.approx(0.996, abs=0.001))
    assert second.anchor is not None
    assert second.anchor.id != "plain" or second.count == 2
    assert any("taken to act at once" in note for note in run.notes)
    without = laid(HEAD + "T,,W1,20',1,,800\n")
    assert any("1 of 1 rows give no push" in note for note in without.notes)


def test_what_would_need_arithmetic_of_ours_is_empty_in_the_schedule() -> None:
    run = laid("mark,wall,station,plies,uplift,down\nT,W1,20',1,800,\nU,W1,30',1,800,1200\n")
    first, second = csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig")))
    for column in ("uplift_mwfrs_lb", "uplift_cladding_lb", "storm", "good_to_mph", "parallel_lb", "ratio_parallel"):
        assert first[column] == "", column
    assert (first["down_lb"], second["down_lb"], second["package_down_lb"]) == ("", "1200.00", "1200.00")
    assert (first["basis"], first["truss_package"]) == ("truss package", f"not named (t.csv): {WORDS}")


def test_asking_for_what_is_not_there_is_one_sentence_and_no_figure() -> None:
    run = laid(HEAD + "T,,W1,20',1,,800\n")
    for part in (run.sideways, run.loads, run.cover, run.pieces, run.patches):
        with pytest.raises(PackageError, match="no arithmetic of ours to show"):
            _ = part.anything


def test_another_wind_than_the_plan_s_is_flagged() -> None:
    run = laid("mark,wall,station,uplift,exposure\nT,W1,20',800,B\n")
    assert any("made for exposure B, the plan has C" in flag for flag in run.flags)


@pytest.mark.slow
def test_build_makes_what_needs_no_arithmetic_of_ours_and_each_output_says_so(tmp_path: Path) -> None:
    plan, out = plan_beside(tmp_path), tmp_path / "out"
    assert call("build", HIP, "--out", out).exit_code == 0
    told = call("build", plan, "--out", out)
    assert told.exit_code == 0, told.stderr
    assert "no arithmetic of ours: loads, pushes sideways, tie beam, deck, report" in told.stderr
    assert {p.name for p in out.iterdir()} == set(OF_A_LAYOUT) < set(OUTPUTS)
    for name in OF_A_LAYOUT:
        if name.endswith(".pdf"):
            text = "\n".join(page.extract_text() for page in pypdf.PdfReader(out / name).pages)
        else:
            text = (out / name).read_text(encoding="utf-8", errors="replace")
        plain = " ".join(text.replace("\\P", " ").split())
        assert "no arithmetic of ours" in plain, name
        assert name.endswith(".dxf") or CAUTION in plain, name
    bearings = json.loads((out / "run.json").read_text())["bearings"]
    assert [len([b for b in bearings if b["wall"] == f"W{k}"]) for k in (1, 2, 3, 4)] == [30, 18, 30, 18]


def test_the_crew_s_set_the_list_of_straps_and_the_comparison_are_made_of_a_layout(tmp_path: Path) -> None:
    plan = plan_beside(tmp_path)
    assert call("pour", plan, "--out", tmp_path / "pour").exit_code == 0
    (tmp_path / "set.csv").write_text("mark,set,offset_in\nW1-05,yes,0\n")
    told = call("asbuilt", plan, tmp_path / "set.csv", "--out", tmp_path / "asbuilt")
    assert told.stdout.startswith("95 of 96 straps are not as planned")
    assert call("compare", plan, plan, "--out", tmp_path / "same").exit_code == 0
    assert call("check", plan, "--picture", tmp_path / "check.svg").exit_code == 0


@pytest.mark.parametrize(
    "words",
    [
        ["options"],
        ["view", "--picture", "a.png"],
        ["reconcile"],
        ["build", "--full-report"],
        ["asbuilt", "set.csv", "--picture", "a.png"],
        ["compare", "hip.toml", "--picture", "a.png"],
    ],
    ids=lambda w: w[0],
)
def test_a_command_that_needs_our_arithmetic_refuses_a_layout_in_one_sentence(tmp_path: Path, words: list[str]) -> None:
    plan = plan_beside(tmp_path)
    (tmp_path / "set.csv").write_text("mark,set\nW1-05,yes\n")
    before = sorted(tmp_path.iterdir())
    told = call(words[0], plan, *(tmp_path / w if w in ("set.csv", "hip.toml", "a.png") else w for w in words[1:]))
    assert told.exit_code == 2
    assert told.stderr.count("\n") == 1
    assert 'with "package" there is no arithmetic of ours for' in told.stderr
    assert sorted(tmp_path.iterdir()) == before


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("mark,uplift\nT,900\n", 'row 2, wall: the cell is empty, and layout = "package" takes the marks from this '
         'table; write the wall and the station, or write layout = "ours" in the plan'),
        ("mark,wall,station,uplift\nT,W1,,900\n", "row 2, station: the cell is empty, and layout"),
        ("mark,wall,station,uplift\nT,W1,4',900\nT,W1,6',\n", "row 3, uplift: the cell is empty, and layout"),
        ("mark,wall,station,uplift\nT,W9,4',900\n", "row 2, station: it lies on no wall of the plan"),
        ("mark,wall,station,uplift\nT,W1,90',900\n", "row 2, station: it lies on no wall of the plan"),
        ("mark,bearing,uplift\nT,hung,900\n", "every row hangs on a member; write those that stand on the walls"),
    ],
)  # fmt: skip
def test_a_table_without_places_is_refused_in_one_sentence(tmp_path: Path, text: str, sentence: str) -> None:
    plan = plan_beside(tmp_path, "mine.csv")
    (tmp_path / "mine.csv").write_text(text)
    told = call("build", plan, "--out", tmp_path / "out")
    assert told.exit_code == 2
    assert told.stderr.count("\n") == 1
    assert sentence in told.stderr
    assert not (tmp_path / "out").exists()


def test_a_layout_without_a_table_is_refused(tmp_path: Path) -> None:
    told = call("build", plan_beside(tmp_path, ""), "--out", tmp_path / "out")
    assert told.exit_code == 2
    assert "takes the marks from the table that [package] file names; write it there" in told.stderr
