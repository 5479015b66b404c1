"""`strapline asbuilt`: the one signed rule, what a fault is told with, and the invented scenario in full."""

from __future__ import annotations

import csv
import html
import io
import shutil
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from pypdf import PdfReader
from typer.testing import CliRunner

from export.cli import app
from export.commands.run_of_plan import load_run
from export.wall_marks.phone_page import wall_marks_data
from framing.anchors.catalogue import AnchorKind
from framing.asbuilt.entries import Entry, Written
from framing.asbuilt.faults import faults, retrofit_rows
from framing.asbuilt.judge import State, away_from_wood, judged, wall_ways
from framing.members import Crossing
from framing.plan import Side
from framing.run import CAUTION
from invariants.houses import SAMPLES
from parts.asbuilt_surveys import changed, missing, perfect, survey, tape_of

RUN = load_run(SAMPLES["garage_wing"])
SQUARE = next(m for m in RUN.schedule.marks if m.bearing.crossing is Crossing.SQUARE and m.bearing.plies == 1)
SCENARIO = SAMPLES["garage_wing"].with_name("garage_wing_as_set.csv")


def state_of(change: dict[str, object], mark: str = SQUARE.mark, plan: str = "garage_wing") -> tuple[State, str]:
    """How one strap is judged that was set otherwise than on its mark; every other strap must be good."""
    run = RUN if plan == "garage_wing" else load_run(SAMPLES[plan])
    entries = changed(perfect(run), {(mark, 1)}, lambda e: replace(e, **change))  # type: ignore[arg-type]
    found = judged(run, survey(entries))
    assert all(s.as_planned for s in found if s.mark.mark != mark)
    return next((s.state, s.words) for s in found if s.mark.mark == mark and s.number == 1)


@pytest.mark.parametrize("name", ["cottage", "garage_wing", "bay_and_corners", "mixed_gable_hip"])
def test_the_survey_of_a_perfect_pour_has_no_finding(name: str) -> None:
    run = load_run(SAMPLES[name])
    straps = judged(run, survey(perfect(run)))
    held = [s for s in straps if s.mark.anchor is not None]
    assert all(s.as_planned for s in held)
    assert {f.strap.mark.anchor for f in faults(straps, run.schedule.catalogue)} <= {None}


@pytest.mark.parametrize(  # a single ply whose strap lies on the START side: less is away from its wood
    ("offset_in", "state"),
    [
        (0.0, State.GOOD),
        (-0.125, State.GOOD),
        (-0.25, State.FILLER),
        (-0.5, State.FILLER),
        (-0.75, State.ASK),
        (-1.5, State.ASK),
        (-1.75, State.OUT_OF_REACH),
        (0.125, State.GOOD),
        (0.25, State.SHIFT),
        (0.75, State.SHIFT),
        (1.25, State.SHIFT),
        (1.375, State.WRONG_SIDE),
        (1.5, State.WRONG_SIDE),
        (2.0, State.WRONG_SIDE),
        (3.0, State.WRONG_SIDE),
        (3.25, State.OUT_OF_REACH),
    ],
)
def test_one_signed_rule_judges_a_strap(offset_in: float, state: State) -> None:
    assert SQUARE.bearing.side is Side.START
    assert state_of({"offset_in": offset_in})[0] is state


def test_three_quarters_into_a_single_ply_is_the_worst_shift() -> None:
    shifts = []
    for sixteenth in range(3, 22):
        found = judged(
            RUN, survey(changed(perfect(RUN), {(SQUARE.mark, 1)}, lambda e, k=sixteenth: replace(e, offset_in=k / 16)))
        )  # type: ignore[misc]
        shifts.append((next(s.shift_in for s in found if s.mark is SQUARE) or 0.0, sixteenth / 16))
    assert max(shifts) == (0.75, 0.75)


@pytest.mark.parametrize(
    ("change", "state", "words"),
    [
        ({"written": Written.MISSING, "offset_in": None}, State.MISSING, "no strap is there"),
        ({"written": Written.TO_SET, "offset_in": None}, State.MISSING, "until somebody has looked"),
        ({"side": Side.FAR}, State.WRONG_SIDE, "stands on the far side"),
        ({"anchor": "slight"}, State.WRONG_ANCHOR, "slight is set"),
        ({"gap_in": 0.375, "offset_in": None}, State.FILLER, "gap 3/8 in."),
        ({"gap_in": 2.0, "offset_in": 0.0}, State.OUT_OF_REACH, "gap 2 in."),
        ({"face_in": 5.0}, State.ASK, "farther in from the outside face"),
        ({"face_in": 4.0}, State.GOOD, ""),
        ({"offset_in": None}, State.NOT_MEASURED, "not measured"),
        ({"written": Written.WRONG, "offset_in": None}, State.ASK, "written down as wrong"),
    ],
)
def test_what_was_written_down_decides_before_what_was_measured(
    change: dict[str, object], state: State, words: str
) -> None:
    got, said = state_of(change)
    assert got is state
    assert words in said


def test_a_strap_beside_a_truss_along_the_wall_is_judged_by_its_depth() -> None:
    run = load_run(SAMPLES["cottage"])
    mark = next(m for m in run.schedule.marks if m.bearing.crossing is Crossing.ALONG)
    assert mark.bearing.side is Side.INSIDE
    depth_in = 12.0 * (mark.straps[0].in_from_face_ft or 0.0)
    assert state_of({"offset_in": 3.0}, mark.mark, "cottage")[0] is State.GOOD
    assert state_of({"face_in": depth_in + 0.4, "offset_in": None}, mark.mark, "cottage")[0] is State.FILLER
    assert state_of({"face_in": depth_in - 0.75, "offset_in": None}, mark.mark, "cottage")[0] is State.SHIFT


def test_a_strap_that_no_list_has_is_missing() -> None:
    entries = [e for e in perfect(RUN) if e.mark != SQUARE.mark]
    found = judged(RUN, survey(entries))
    assert [s.state for s in found if s.mark is SQUARE] == [State.MISSING]


@pytest.mark.parametrize("name", ["bay_and_corners", "mixed_gable_hip"])
def test_page_and_command_agree_which_way_is_away_from_the_wood(name: str) -> None:
    run = load_run(SAMPLES[name])
    ways, members = wall_ways(run), {m.name: m for m in run.framing.members}
    page = {
        (m["mark"], t["number"]): (t["away"], t["inward"])
        for w in wall_marks_data(run)["walls"]
        for m in w["marks"]
        for t in m["ticks"]
    }
    for mark in run.schedule.marks:
        for n, strap in enumerate(sorted(mark.straps, key=lambda s: s.tape_ft), start=1):
            off = away_from_wood(ways[mark.bearing.wall], members[mark.bearing.member], strap)
            assert off == pytest.approx(page[mark.mark, n], abs=1e-5)


def test_a_fault_names_its_sound_neighbours_spare_and_the_retrofit_rows_that_carry_its_demand() -> None:
    tape = [m for m, _, _ in tape_of(RUN, "W1")]
    lost = {(tape[5], 1), (tape[6], 1)}
    marks = {m.mark: m for m in RUN.schedule.marks}
    weak = replace(RUN.schedule.catalogue.anchors[0], id="late", kind=AnchorKind.RETROFIT, allowable_uplift_lb=10.0)
    strong = replace(
        weak, id="bolted", allowable_uplift_lb=9000.0, allowable_parallel_lb=None, allowable_perpendicular_lb=None
    )
    cast = [a for a in RUN.schedule.catalogue.anchors if a.kind is AnchorKind.CAST]
    catalogue = replace(RUN.schedule.catalogue, anchors=(*cast, weak, strong))
    first, second = faults(judged(RUN, survey(missing(perfect(RUN), lost))), catalogue)
    assert [x.mark for x in first.spares] == [tape[4], tape[6]]
    left = marks[tape[4]]
    assert first.spares[0].spare_lb == pytest.approx((left.allowable_uplift_lb or 0) - left.uplift_lb)
    assert first.spares[1].spare_lb is None
    assert second.spares[0].spare_lb is None
    assert [a.id for a in first.retrofit] == ["bolted"]
    assert first.before == "before the trusses are lifted"
    assert retrofit_rows(marks[tape[5]], replace(catalogue, anchors=tuple(cast))) == ()


@pytest.fixture(scope="module")
def scenario(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, int, list[str]]:
    """The invented survey of the sample house: folder, exit code, what is said."""
    out = tmp_path_factory.mktemp("asbuilt") / "out"
    told = CliRunner().invoke(app, ["asbuilt", str(SAMPLES["garage_wing"]), str(SCENARIO), "--out", str(out)])
    return out, told.exit_code, told.stdout.splitlines()


def test_the_scenario_is_told_as_the_mistakes_that_made_it(scenario: tuple[Path, int, list[str]]) -> None:
    _, code, said = scenario
    assert code == 1
    assert said == [
        "29 of 125 straps are not as planned; 96 are.",
        "W3-09 to W3-13 all 2 in. toward the far end: the layout moved there, one mistake and not 5.",
        "W4: all 21 straps stand as on the mirrored sheet: it was laid out from the wrong end.",
        "W1: 1 missing, of 29.",
        "W2: 1 wrong side, of 16.",
        "W3: 5 wrong side, of 20.",
        "W4: 21 out of reach, of 21.",
        "W6: 1 missing, of 28.",
        "W5: as planned.",
    ]


def test_table_page_letter_and_drawing_tell_the_same_and_bear_the_caution(
    scenario: tuple[Path, int, list[str]],
) -> None:
    out, _, said = scenario
    rows = list(csv.DictReader((out / "asbuilt.csv").read_text(encoding="utf-8-sig").splitlines()))
    bad = [r for r in rows if r["state"] not in ("good", "set, not measured")]
    assert (len(rows), len(bad)) == (125, 29)
    assert {r["caution"] for r in rows} == {CAUTION}
    assert {r["mark"] for r in rows if r["state"] == "missing"} == {"W1-06", "W6-13"}
    assert all(r["question"] and r["before"] for r in bad)
    assert sum(bool(r["mistake"]) for r in rows) == 26
    pages = [" ".join(p.extract_text().split()) for p in PdfReader(out / "asbuilt.pdf").pages]
    assert all(CAUTION in page for page in pages)
    titles = {f"{r['mark']}{' strap ' + r['strap'] if r['wall'] == 'W4' else ''}" for r in bad}
    letter = " ".join(pages)
    assert all(f"{name.split(' strap')[0]}" in letter for name in titles)
    assert letter.count("Question:") == 29 + 2  # one for each strap, one for each mistake
    page = html.unescape((out / "asbuilt.html").read_text(encoding="utf-8"))
    assert all(line in page for line in said)
    assert page.count("<svg") == 30
    assert CAUTION in page
    assert "http" not in page.replace("http-equiv", "")
    doc = ezdxf.readfile(out / "asbuilt.dxf")
    assert not doc.audit().errors
    texts = " ".join(e.dxf.text for e in doc.modelspace().query("TEXT"))
    assert "all 21 straps stand as on the mirrored sheet" in texts


def test_the_scenario_names_the_retrofit_rows_that_carry_each_demand_and_never_chooses(
    scenario: tuple[Path, int, list[str]],
) -> None:
    """The sample's rows of kind retrofit, at one ply 2,068 and 3,384 lb up, 744 and 1,218 along, 600 and 981 square:
    at W2-08 633 / 2,068 + 169 / 744 + 280 / 600 = 1.00 of the lesser one.
    """
    rows = {
        (r["mark"], r["strap"]): r
        for r in csv.DictReader((scenario[0] / "asbuilt.csv").read_text(encoding="utf-8-sig").splitlines())
    }
    found = rows["W2-08", "1"]
    asked = [float(found[c]) for c in ("uplift_lb", "parallel_lb", "perpendicular_lb")]
    assert sum(lb / most for lb, most in zip(asked, (2068.0, 744.0, 600.0), strict=True)) <= 1.0
    both = "added (2,068 lb up), added wide (3,384 lb up); the engineer chooses, not this list"
    assert found["retrofit"] == both
    lost = rows["W1-06", "1"]
    asked = [float(lost[c]) for c in ("uplift_lb", "parallel_lb", "perpendicular_lb")]
    assert sum(lb / most for lb, most in zip(asked, (2068.0, 744.0, 600.0), strict=True)) > 1.0
    assert lost["retrofit"] == "added wide (3,384 lb up); the engineer chooses, not this list"
    assert rows["W4-01", "1"]["retrofit"] == ""  # 4,710 lb are more than either carries
    assert rows["W3-04", "1"]["retrofit"] == ""
    letter = " ".join(" ".join(p.extract_text().split()) for p in PdfReader(scenario[0] / "asbuilt.pdf").pages)
    assert f"Retrofit rows of the catalogue that carry it: {both}." in letter
    assert "carry it: none of your catalogue's" in letter


def test_where_a_package_governs_the_demand_of_a_fault_is_the_package_s_and_says_so(tmp_path: Path) -> None:
    """The invented package has W1-16 at 1,551 lb up where ours has 1,108."""
    hip = SAMPLES["hip_house"]
    for name in ("hip_house_anchors.csv", "hip_house_approvals.csv", "hip_house_package.csv"):
        shutil.copy(hip.parent / name, tmp_path)
    plan = tmp_path / "hip.toml"
    plan.write_text(hip.read_text() + '\n[package]\nfile = "hip_house_package.csv"\n')
    entries = [e for e in perfect(load_run(plan)) if e.mark != "W1-16"]
    (tmp_path / "list.csv").write_text(phone_list(entries), encoding="utf-8-sig")
    out = tmp_path / "out"
    told = CliRunner().invoke(app, ["asbuilt", str(plan), str(tmp_path / "list.csv"), "--out", str(out)])
    assert told.stdout.splitlines()[0] == "2 of 101 straps are not as planned; 99 are."
    rows = {r["mark"]: r for r in csv.DictReader((out / "asbuilt.csv").read_text(encoding="utf-8-sig").splitlines())}
    assert (rows["W1-16"]["state"], rows["W1-16"]["uplift_lb"]) == ("missing", "1551.0")
    words = "B (hip_house_package.csv): its uplift governs 98 of 100 marks"
    assert {r["truss_package"] for r in rows.values()} == {words}
    letter = " ".join(" ".join(p.extract_text().split()) for p in PdfReader(out / "asbuilt.pdf").pages)
    page = html.unescape((out / "asbuilt.html").read_text(encoding="utf-8"))
    demand = "by the truss package B (hip_house_package.csv), ours 1,108 lb up (2 x"
    for text in (letter, page):
        assert f"Demands by the truss package {words}." in text
        assert "Demand of the mark: 1551 lb up" in text
        assert demand in text
    doc = ezdxf.readfile(out / "asbuilt.dxf")
    assert "Demands by the truss package B" in " ".join(e.dxf.text for e in doc.modelspace().query("TEXT"))


def test_a_perfect_list_of_the_phone_ends_with_0(tmp_path: Path) -> None:
    path = tmp_path / "list.csv"
    path.write_text(phone_list(perfect(RUN)), encoding="utf-8-sig")
    told = CliRunner().invoke(app, ["asbuilt", str(SAMPLES["garage_wing"]), str(path), "--out", str(tmp_path / "out")])
    assert (told.exit_code, told.stdout) == (0, "All 125 straps are as planned.\n")
    assert sorted(p.name for p in (tmp_path / "out").iterdir()) == [
        f"asbuilt.{k}" for k in ("csv", "dxf", "html", "pdf")
    ]


def phone_list(entries: list[Entry]) -> str:
    """The list as the phone page writes it."""
    out = io.StringIO(newline="")
    table = csv.writer(out)
    table.writerow(("mark", "set", "offset_in", "side", "strap", "wall", "anchor", "state", "gap_in", "by", "when"))
    for e in entries:
        wall = e.mark.split("-", maxsplit=1)[0]
        table.writerow((e.mark, "yes", f"{e.offset_in:g}", e.side, e.strap, wall, e.anchor, "set", "", "", ""))
    return out.getvalue()
