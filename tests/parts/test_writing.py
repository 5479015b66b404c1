"""Outputs into a folder: all or none, never over what is not ours."""

import errno
import os
import subprocess
import sys
from pathlib import Path

import pytest

from export.commands.output_folder import write_outputs
from export.outputs import OUTPUTS
from framing.errors import OutputError, StraplineError

OLD = {"schedule.csv": b"old marks", "takeoff.csv": b"old list", "run.json": b"{old}"}
NEW = {"wall-marks.pdf": b"new page", "schedule.csv": b"new marks", "run.json": b"{new}"}


def held_by(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}


def test_a_new_folder_holds_exactly_the_outputs(tmp_path: Path) -> None:
    write_outputs(NEW, tmp_path / "a" / "out", force=False)
    assert held_by(tmp_path / "a" / "out") == NEW
    assert [path.name for path in (tmp_path / "a").iterdir()] == ["out"]


def test_earlier_outputs_of_ours_are_replaced_and_stale_ones_removed(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_outputs(OLD, out, force=False)
    write_outputs(NEW, out, force=False)
    assert held_by(out) == NEW
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_folder_with_files_that_are_not_ours_is_refused_and_left_as_it_is(tmp_path: Path) -> None:
    foreign = {"plans.txt": b"mine", "zebra.txt": b"mine too", "schedule.csv": b"old marks"}
    for name, data in foreign.items():
        (tmp_path / name).write_bytes(data)
    with pytest.raises(StraplineError) as caught:
        write_outputs(NEW, tmp_path, force=False)
    assert str(caught.value) == (
        f"{tmp_path}: it holds plans.txt and 1 more, which is not ours; "
        "choose another folder with --out, or add --force"
    )
    assert not isinstance(caught.value, OutputError)
    assert held_by(tmp_path) == foreign


def test_force_writes_beside_files_that_are_not_ours_and_leaves_them_alone(tmp_path: Path) -> None:
    (tmp_path / "plans.txt").write_bytes(b"mine")
    write_outputs(NEW, tmp_path, force=True)
    assert held_by(tmp_path) == NEW | {"plans.txt": b"mine"}


def test_hidden_files_do_not_make_a_folder_foreign(tmp_path: Path) -> None:
    (tmp_path / ".keep").write_bytes(b"")
    write_outputs(NEW, tmp_path, force=False)
    assert held_by(tmp_path) == NEW | {".keep": b""}


def test_a_failure_while_moving_in_puts_everything_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The last file cannot be moved."""
    out = tmp_path / "out"
    old = {name: data for name, data in OLD.items() if name != "run.json"}
    write_outputs(old, out, force=False)
    moved = Path.replace

    def refuse_the_last(self: Path, target: Path) -> Path:
        if target == out / "run.json":
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        return moved(self, target)

    monkeypatch.setattr(Path, "replace", refuse_the_last)
    with pytest.raises(OutputError) as caught:
        write_outputs(NEW, out, force=True)
    assert str(caught.value).startswith(f"{out}: it cannot be written (")
    assert held_by(out) == old
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_failure_while_writing_touches_nothing(tmp_path: Path) -> None:
    write_outputs(OLD, tmp_path / "out", force=False)
    with pytest.raises(OutputError):
        write_outputs(NEW | {"no/such/folder": b""}, tmp_path / "out", force=False)
    assert held_by(tmp_path / "out") == OLD
    assert [path.name for path in tmp_path.iterdir()] == ["out"]


def test_a_file_in_the_place_of_the_folder_or_of_its_parent_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"mine")
    with pytest.raises(StraplineError) as caught:
        write_outputs(NEW, tmp_path / "file", force=True)
    assert str(caught.value) == f"{tmp_path / 'file'}: this is a file; name a folder with --out"
    with pytest.raises(OutputError) as parent:
        write_outputs(NEW, tmp_path / "file" / "out", force=True)
    assert str(parent.value) == (
        f"{tmp_path / 'file' / 'out'}: it cannot be written (File exists); choose another folder with --out"
    )
    assert held_by(tmp_path) == {"file": b"mine"}


def test_run_json_is_the_last_of_the_outputs() -> None:
    assert list(OUTPUTS)[-1] == "run.json"


@pytest.mark.slow
def test_the_bytes_do_not_hang_on_the_order_in_which_an_interpreter_keeps_its_sets(tmp_path: Path) -> None:
    cottage = Path(__file__).parents[2] / "sample_plans" / "cottage.toml"
    seeds = ["0", "1", "5", "7"]  # among them some by which a bare library differs
    for seed in seeds:
        command = [sys.executable, "-P", "-m", "export", "build", cottage, "--out", tmp_path / seed]
        subprocess.run(command, env=os.environ | {"PYTHONHASHSEED": seed}, check=True, capture_output=True)
    built = [{name: (tmp_path / seed / name).read_bytes() for name in OUTPUTS} for seed in seeds]
    assert [
        (seed, name)
        for seed, files in zip(seeds, built, strict=True)
        for name in OUTPUTS
        if files[name] != built[0][name]
    ] == []


def test_what_a_killed_build_left_beside_the_folder_goes_with_the_next_and_a_living_one_s_stays(tmp_path: Path) -> None:
    gone = subprocess.Popen([sys.executable, "-c", ""])
    gone.wait()
    living = os.getppid()
    for pid in (gone.pid, living):
        (tmp_path / f".out.{pid}.part" / "new").mkdir(parents=True)
    (tmp_path / ".out.mine.part").mkdir()
    write_outputs(NEW, tmp_path / "out", force=False)
    assert sorted(p.name for p in tmp_path.iterdir()) == sorted([f".out.{living}.part", ".out.mine.part", "out"])


def test_a_folder_in_an_output_s_way_is_named_also_with_force(tmp_path: Path) -> None:
    (tmp_path / "schedule.csv").mkdir()
    with pytest.raises(StraplineError) as caught:
        write_outputs(NEW, tmp_path, force=True)
    assert str(caught.value) == (
        f"{tmp_path}: a folder named schedule.csv is in an output's way; move it, or choose another folder with --out"
    )
    assert not isinstance(caught.value, OutputError)
    assert held_by(tmp_path) == {}
