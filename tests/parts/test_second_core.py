"""Two processes make the same bytes as one, and a fault in the second one is told by the first."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from export.loading import load_run
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
