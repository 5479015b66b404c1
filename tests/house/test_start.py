"""The program starts light, in its own home, and not in somebody else's."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

HEAVY = {
    "numpy", "shapely", "pydantic", "ezdxf", "pyvista", "vtkmodules", "trimesh", "reportlab", "matplotlib", "PIL",
}  # fmt: skip


def run(*arguments: str, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, *arguments], cwd=cwd, capture_output=True, text=True, check=False)


def test_the_command_line_loads_no_heavy_library() -> None:
    result = run("-P", "-c", f"import sys, export.cli; print(*sorted({HEAVY!r} & set(sys.modules)))")
    assert result.returncode == 0, result.stderr
    assert result.stdout.strip() == ""


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_help_and_version_answer_within_three_tenths_of_a_second(option: str) -> None:
    """Processor time as the program itself has it on leaving, the least of five, so that a busy machine does not fail
    it.
    """
    code = (
        "import atexit, sys, time; atexit.register(lambda: sys.stderr.write(str(time.process_time())));"
        f"from export.__main__ import main; sys.argv = ['strapline', {option!r}]; main()"
    )
    spent_s = []
    for _ in range(5):
        result = run("-P", "-c", code)
        assert result.returncode == 0, result.stderr
        assert result.stdout
        spent_s.append(float(result.stderr))
    assert min(spent_s) < 0.3


def test_a_foreign_package_of_the_same_name_is_named_and_nothing_runs(tmp_path: Path) -> None:
    (tmp_path / "viewer").mkdir()
    (tmp_path / "viewer" / "__init__.py").write_text("")
    plan = tmp_path / "house.toml"
    result = run("-m", "export", "new", str(plan), cwd=tmp_path)
    assert result.returncode == 2
    assert "viewer" in result.stderr
    assert result.stderr.count("\n") == 1
    assert not plan.exists()


def test_a_stray_folder_of_drawings_does_not_stop_the_command(tmp_path: Path) -> None:
    (tmp_path / "export").mkdir()
    strapline = Path(sys.executable).with_name("strapline")
    result = subprocess.run([strapline, "--version"], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert result.returncode == 0, result.stderr
    assert result.stdout.strip()


def test_a_command_stopped_while_it_still_loads_says_so_in_one_line(tmp_path: Path) -> None:
    """The library of the command line is replaced by one that is stopped by Ctrl-C as soon as it is loaded."""
    (tmp_path / "typer.py").write_text("raise KeyboardInterrupt\n")
    result = subprocess.run(
        [sys.executable, "-P", "-m", "export", "--version"],
        capture_output=True,
        text=True,
        check=False,
        env={**os.environ, "PYTHONPATH": str(tmp_path)},
    )
    assert (result.returncode, result.stdout, result.stderr) == (130, "", "strapline: stopped\n")
