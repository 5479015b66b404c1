"""Two processes make the same bytes as one, and a fault in the second one is told by the first."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from export.commands.run_of_plan import load_run
from export.outputs import OUTPUTS, render
from export.second_core import SHARE, SecondCore, second_core

COTTAGE = Path(__file__).parents[2] / "sample_plans" / "cottage.toml"


@pytest.fixture
def other() -> SecondCore:
    core = second_core()
    if core is None:
        pytest.skip("one core, or a system on which a process is not forked")
    return core


def test_two_processes_make_the_same_bytes_as_one(other: SecondCore) -> None:
    run = load_run(COTTAGE)
    try:
        by_two = other.render(run)
    finally:
        other.stop()
    assert list(by_two) == list(OUTPUTS)
    assert by_two == render(run)
    assert 0 < len(SHARE) < len(OUTPUTS)


def test_the_bytes_do_not_hang_on_the_order_in_which_an_interpreter_keeps_its_sets(tmp_path: Path) -> None:
    built = []
    for seed in ("1", "5", "7"):  # among them some by which the bare library differs
        command = [sys.executable, "-P", "-m", "export", "build", COTTAGE, "--out", tmp_path / seed]
        subprocess.run(command, env=os.environ | {"PYTHONHASHSEED": seed}, check=True, capture_output=True)
        built.append({path.name: path.read_bytes() for path in (tmp_path / seed).iterdir()})
    assert set(built[0]) == set(OUTPUTS)
    assert [name for name in OUTPUTS for other in built[1:] if other[name] != built[0][name]] == []


def test_what_goes_wrong_in_the_second_process_is_raised_in_the_first(other: SecondCore) -> None:
    run = load_run(COTTAGE)
    broken = replace(run, outline=None, version="7")
    try:
        with pytest.raises(AttributeError):
            other.render(broken)
    finally:
        other.stop()


def test_a_process_that_is_never_asked_ends(other: SecondCore) -> None:
    other.stop()
    assert not other._process.is_alive()


def test_the_second_process_leaves_it_to_the_first_to_answer_the_keyboard(
    other: SecondCore, capfd: pytest.CaptureFixture[str]
) -> None:
    assert other._process.pid is not None
    os.kill(other._process.pid, signal.SIGINT)
    run = load_run(COTTAGE)
    try:
        assert other.render(run) == render(run)
        assert other._process.is_alive() or other._process.exitcode == 0
    finally:
        other.stop()
    assert capfd.readouterr().err == ""


def test_a_second_process_that_is_killed_costs_no_file(other: SecondCore) -> None:
    run = load_run(COTTAGE)
    other._process.kill()
    other._process.join()
    try:
        assert other.render(run) == render(run)
    finally:
        other.stop()


def test_the_second_process_ends_when_the_first_is_killed() -> None:
    code = "import os; from export.second_core import second_core; core = second_core(); os.kill(os.getpid(), 9)"
    first = subprocess.run([sys.executable, "-P", "-c", code], stdout=subprocess.PIPE, timeout=60, check=False)
    assert first.returncode == -signal.SIGKILL  # the pipe to both has closed, so both are gone
