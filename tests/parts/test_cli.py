"""The commands as people type them: exit codes, one plain line, nothing half written."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from export.cli import app
from export.commands.run_of_plan import load_run
from export.outputs import OUTPUTS
from framing.run import CAUTION
from parts.plans import SMALL

QUICK = ["quick", "--span", "36ft", "--spacing", "24in", "--pitch", "4:12", "--wind", "160", "--exposure", "C"]


def call(*words: object) -> Result:
    return CliRunner().invoke(app, [str(word) for word in words])


@pytest.fixture
def small(tmp_path: Path) -> Path:
    path = tmp_path / "small.toml"
    path.write_text(SMALL)
    return path


@pytest.fixture
def weak(tmp_path: Path) -> Path:
    """The small house in a storm, with a catalogue that does not hold it."""
    (tmp_path / "weak.csv").write_text("note,id,count,plies,allowable_uplift_lb\ninvented,thread,1,1,60\n")
    path = tmp_path / "weak.toml"
    path.write_text(SMALL.replace("140", "200") + '[anchors]\ncatalogue = "weak.csv"\n')
    return path


# ------------------------------------------------------------------ the commands


@pytest.mark.slow
def test_a_new_plan_checks_and_builds_without_a_change(tmp_path: Path) -> None:
    plan = tmp_path / "house.toml"
    assert (call("new", plan).exit_code, call("check", plan).exit_code) == (0, 0)
    assert call("build", plan).exit_code == 0
    assert {path.name for path in (tmp_path / "house-out").iterdir()} == set(OUTPUTS)


def test_new_points_editors_at_the_schema_that_is_installed(tmp_path: Path) -> None:
    call("new", tmp_path / "house.toml")
    first = (tmp_path / "house.toml").read_text().splitlines()[0]
    assert first.startswith("#:schema file:///")
    schema = json.loads(Path(first.removeprefix("#:schema file://")).read_text())
    assert "walls" in schema["properties"]


def test_new_never_overwrites(small: Path) -> None:
    result = call("new", small)
    assert result.exit_code == 2
    assert result.stderr == f"strapline: {small}: it is there already and is left as it is; name a new file\n"
    assert small.read_text() == SMALL


def test_new_draws_the_starter_s_walls_beside_it_and_says_how_to_draw_one_s_own(tmp_path: Path) -> None:
    plan, picture = tmp_path / "house.toml", tmp_path / "house.png"
    result = call("new", plan)
    assert picture.read_bytes().startswith(b"\x89PNG")
    assert f"strapline check {plan} --picture {picture}" in result.stderr
    kept = tmp_path / "other.png"
    kept.write_text("mine")
    assert call("new", tmp_path / "other.toml").exit_code == 0
    assert kept.read_text() == "mine"


def test_new_writes_an_empty_catalogue_with_a_plan_or_alone_and_nothing_where_one_is_there(tmp_path: Path) -> None:
    catalogue = tmp_path / "anchors.csv"
    assert call("new", "--catalogue", catalogue).exit_code == 0
    assert {path.name for path in tmp_path.iterdir()} == {"anchors.csv"}
    result = call("new", tmp_path / "house.toml", "--catalogue", catalogue)
    assert (result.exit_code, result.stderr) == (
        2,
        f"strapline: {catalogue}: it is there already and is left as it is; name a new file\n",
    )
    assert {path.name for path in tmp_path.iterdir()} == {"anchors.csv"}
    assert call("new", tmp_path / "house.toml", "--catalogue", tmp_path / "mine.csv").exit_code == 0
    assert {path.name for path in tmp_path.iterdir()} == {"anchors.csv", "house.toml", "house.png", "mine.csv"}
    assert call("new").exit_code == 2


def test_check_says_what_it_found_and_assumed_and_writes_nothing(small: Path) -> None:
    result = call("check", small)
    assert result.exit_code == 0
    for line in (
        "  W2         16'-0\"   from (20'-0\", 0'-0\") to (20'-0\", 16'-0\")",
        "  wing 1: 20'-0\" along W1 x 16'-0\", ridge along W1, gabled at both ends",
        "     2  gable end",
        "  V = 140 mph ",
        "  roof.covering = concrete tile",
        CAUTION,
    ):
        assert line in result.stdout
    assert [path.name for path in small.parent.iterdir()] == ["small.toml"]


def test_check_answers_machines_with_the_same_findings(small: Path) -> None:
    found = json.loads(call("check", small, "--json").stdout)
    assert [wall["name"] for wall in found["walls"]] == ["W1", "W2", "W3", "W4"]
    assert found["walls"][1]["start_ft"] == [20.0, 0.0]
    assert found["members"]["gable end"] == 2
    assert "trusses.setback = 7'" in found["assumed"]
    assert (found["unresolved"], found["flags"], found["caution"]) == ([], [], CAUTION)
    uplifts = [mark["uplift_lb"] for mark in found["largest_uplifts"]]
    assert uplifts == sorted(uplifts, reverse=True)


def test_what_no_anchor_holds_is_written_flagged_and_told_by_exit_code_1(weak: Path) -> None:
    built, checked = call("build", weak), call("check", weak, "--json")
    assert (built.exit_code, checked.exit_code) == (1, 1)
    assert {path.name for path in (weak.parent / "weak-out").iterdir()} == set(OUTPUTS)
    unresolved = json.loads(checked.stdout)["unresolved"]
    assert unresolved
    first = unresolved[0]
    told = built.stderr.splitlines()
    assert told[0].startswith(f"{weak.with_name('weak-out')}: ")
    assert told[0].endswith(" unresolved")
    assert (
        f"{first['mark']} ({first['member']}): no anchor in weak.csv holds {first['uplift_lb']:.0f} lb up, "
        f"{first['parallel_lb']:.0f} lb along the wall and {first['perpendicular_lb']:.0f} lb square to it at 1 ply: "
        "with each the ratio by its rule is over 1.0"
    ) in told
    assert call("build", weak, "--quiet").stderr == ""


def test_build_writes_where_it_is_told_and_the_same_bytes_again(small: Path, tmp_path: Path) -> None:
    assert call("build", small, "--out", tmp_path / "a").exit_code == 0
    assert call("build", small, "--out", tmp_path / "b").exit_code == 0
    for name in OUTPUTS:
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes(), name


def test_quick_answers_people_and_machines_alike() -> None:
    text, found = call(*QUICK).stdout, json.loads(call(*QUICK, "--json").stdout)
    for place in ("end_zone", "interior"):
        assert found["mwfrs"][place]["uplift_lb"] > 0
        assert f"main frame, {place.replace('_', ' '):<14}" in text
        assert f"{found['mwfrs'][place]['uplift_lb']:.0f}" in text
    assert set(found["cladding"]) == {"1", "2", "3"}
    assert found["inputs"]["mean_roof_height_ft"] == 33.0
    assert found["steps"][0]["unit"] == "deg"
    assert CAUTION in text


@pytest.mark.parametrize("word", ["new", "check", "build", "view", "quick"])
def test_every_help_ends_with_one_example(word: str) -> None:
    lines = call(word, "--help").stdout.split("Example: ")
    assert len(lines) == 2
    assert lines[1].startswith(f"strapline {word} ")


def test_the_version_is_that_of_the_distribution() -> None:
    assert call("--version").stdout.startswith("strapline 0.")


def test_shell_completion_is_on() -> None:
    env = os.environ | {"_STRAPLINE_COMPLETE": "complete_bash", "COMP_WORDS": "strapline bu", "COMP_CWORD": "1"}
    done = subprocess.run([sys.executable, "-P", "-m", "export"], env=env, capture_output=True, text=True, check=False)
    assert done.stdout.split() == ["build"]


# ------------------------------------------------------------------ the one plain line


@pytest.mark.parametrize(
    ("words", "line"),
    [
        ([], "Missing command; strapline --help shows how"),
        (["buld"], "No such command 'buld'. Did you mean 'build'? strapline --help shows how"),
        (["build"], "Missing argument 'PLAN'; strapline build --help shows how"),
        (["check", "gone.toml"], "gone.toml: there is no such file; check the path of the plan"),
        (["build", "."], ".: this is a folder; name the plan file in it"),
        (
            ["view", "gone.toml", "--picture", "house.jpg"],
            "--picture: house.jpg is no PNG file; write a name that ends in .png",
        ),
        (
            [*QUICK, "--span", "36 feet"],
            '--span: "36 feet" is not a length; write 12\'-4 1/2", 12ft 4in, 24" or plain feet such as 12.375',
        ),
        ([*QUICK, "--pitch", "4/10"], '--pitch: "4/10" is not a pitch; write "5:12" or "22.6 deg"'),
        ([*QUICK, "--spacing", "24"], "--spacing is 24: it must be from 0.5 to 8 ft."),
        ([*QUICK, "--wind", "nan"], "--wind is nan: it must be from 85 to 250 mph."),
        ([*QUICK, "--mean-roof-height", "61'"], "--mean-roof-height is 61: it must be from 5 to 60 ft."),
    ],
)
def test_a_wrong_call_is_exit_code_2_and_one_line(words: list[str], line: str) -> None:
    result = call(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == f"strapline: {line}\n"


def test_a_wrong_plan_is_exit_code_2_and_writes_nothing(small: Path) -> None:
    small.write_text(SMALL.replace("5:12", "0:12"))
    result = call("build", small)
    assert (result.exit_code, result.stdout) == (2, "")
    assert result.stderr == 'strapline: roof pitch: "0:12" is out of range; write "1:12" to "12:12"\n'
    assert [path.name for path in small.parent.iterdir()] == ["small.toml"]


def test_a_word_that_the_viewer_does_not_know_is_exit_code_2_and_no_picture(small: Path) -> None:
    result = call("view", small, "--picture", small.parent / "house.png", "--colour", "red")
    assert result.exit_code == 2
    assert result.stderr == 'strapline: colour "red" is not known; choose one of uplift, share, wind, kind, deck\n'
    assert [path.name for path in small.parent.iterdir()] == ["small.toml"]


def test_a_folder_that_cannot_be_written_is_exit_code_3(small: Path) -> None:
    result = call("build", small, "--out", small / "out")
    assert result.exit_code == 3
    assert result.stderr == (
        f"strapline: {small / 'out'}: it cannot be written (File exists); choose another folder with --out\n"
    )


def test_files_that_are_not_ours_stop_a_build_unless_forced(small: Path) -> None:
    result = call("build", small, "--out", small.parent)
    assert result.exit_code == 2
    assert "it holds small.toml, which is not ours" in result.stderr
    assert call("build", small, "--out", small.parent, "--force").exit_code == 0
    assert small.read_text() == SMALL


def test_a_fault_in_the_program_is_exit_code_3_one_line_and_details_on_demand(
    small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(OUTPUTS, "schedule.csv", "export.tables.schedule:no_such_function")
    result = call("build", small)
    assert result.exit_code == 3
    assert result.stderr.startswith("strapline: a fault in the program (AttributeError: ")
    assert result.stderr.endswith("; --debug shows where\n")
    assert result.stderr.count("\n") == 1
    assert "Traceback" in call("build", small, "--debug").stderr
    assert [path.name for path in small.parent.iterdir()] == ["small.toml"]


def test_debug_and_quiet_may_stand_before_the_command(small: Path) -> None:
    missing = small.with_name("missing.toml")
    assert "Traceback" in call("--debug", "check", missing).stderr
    assert call("--quiet", "--debug", "check", small).stderr == ""
    assert call("--debug", "--version").stdout.startswith("strapline ")
    assert call("--debug", "chek", small).stderr == (
        "strapline: No such command 'chek'. Did you mean 'check'? strapline --help shows how\n"
    )


def test_a_reader_that_leaves_early_gets_no_traceback() -> None:
    process = subprocess.Popen(
        [sys.executable, "-P", "-m", "export", *QUICK], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stdout
    assert process.stderr
    process.stdout.close()
    assert process.stderr.read() == "strapline: the reader of the output left before all of it was written\n"
    assert process.wait() == 3
    process.stderr.close()


def test_a_terminal_that_cannot_show_a_name_still_gets_the_answer(small: Path) -> None:
    small.write_text(SMALL + '[project]\nname = "Cañón ′ 7"\n')
    done = subprocess.run(
        [sys.executable, "-P", "-m", "export", "check", small],
        env=os.environ | {"PYTHONIOENCODING": "latin-1"},
        capture_output=True,
        encoding="latin-1",
        check=False,
    )
    assert (done.returncode, done.stderr) == (0, "")
    assert done.stdout.startswith("Cañón ? 7")


def test_build_says_in_one_line_what_it_did_then_its_notes_at_a_terminal_and_off_one(small: Path) -> None:
    run = load_run(small)
    told = call("build", small).stderr.splitlines()
    folder = small.with_name("small-out")
    assert told[0] == f"{folder}: {len(run.schedule.marks)} marks, {len(run.notes)} notes, 0 unresolved"
    assert told[1:-1] == [f"note: {line}" for line in run.notes]
    assert told[-1] == f"open first: {folder / 'anchor-plan.pdf'}; the notes stand on it too, report.html says why"
    assert call("build", small, "--quiet").stderr == ""
