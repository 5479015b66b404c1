"""Drawings as they arrive: found at the first answer, or, where a part may or may not be the house's, asked about with
the right outline among those that are offered. The outline that a sheet was drawn from is the truth.
"""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path

import pytest

from export.architects_drawing.search import Request, Search, search_drawing
from parts.drawn_houses import saved
from parts.drawn_sheets import HOUSES, Sheet
from parts.messy_hands import (
    beside,
    chopped,
    hatched_by_lines,
    lanai,
    paved,
    porch,
    rows_of_dimensions,
    tiled,
    with_sills,
)
from parts.test_other_hands import WITHIN_IN, off_in


def read(sheet: Sheet, folder: Path) -> tuple[Search, list[bool]]:
    """What was found, and which of the outlines are the true one."""
    found = search_drawing(saved(sheet.document, folder), Request())
    return found, [off <= WITHIN_IN for off in off_in(found, sheet)]


@pytest.mark.parametrize("hand", [chopped, hatched_by_lines, tiled, paved, with_sills], ids=lambda h: h.__name__)
def test_a_house_among_such_lines_is_the_first_outline(hand: Callable[[], Sheet], tmp_path: Path) -> None:
    assert read(hand(), tmp_path)[1][0]


ROWS = ((10, 18, 30), (12, 24), (18, 36, 54), (24, 42, 60), (15,), (20, 32, 44))


def all_rows(step: int) -> list[tuple[int, tuple[float, ...], bool, bool]]:
    every = itertools.product(range(4), ROWS, (True, False), (True, False))
    return list(itertools.islice(every, 0, None, step))


@pytest.mark.parametrize("step", [7, pytest.param(1, marks=pytest.mark.full)])
def test_rows_of_dimensions_close_to_the_walls_are_passed_by(step: int, tmp_path: Path) -> None:
    for number, offs_in, chained, extended in all_rows(step):
        sheet = rows_of_dimensions(number, offs_in, chained=chained, extended=extended)
        assert read(sheet, tmp_path)[1][0], (number, offs_in, chained, extended)


@pytest.mark.parametrize("offs_in", ROWS)
def test_rows_of_dimensions_before_a_wall_without_openings_are_passed_by(
    offs_in: tuple[float, ...], tmp_path: Path
) -> None:
    for extended in (True, False):
        assert read(rows_of_dimensions(1, offs_in, chained=False, extended=extended, blank=True), tmp_path)[1][0]


def assert_asked(sheet: Sheet, folder: Path) -> None:
    found, right = read(sheet, folder)
    assert not found.sure
    assert any(right)


@pytest.mark.parametrize("step", [23, pytest.param(1, marks=pytest.mark.full)])
def test_a_porch_of_double_lines_is_asked_about(step: int, tmp_path: Path) -> None:
    every = itertools.product(
        range(len(HOUSES)), (48.0, 72.0, 120.0), (3.5, 6.0, 8.0, 12.0), ((0.0, 0.5), (0.2, 0.8), (0.1, 0.3), (0.0, 1.0))
    )
    for number, deep_in, beam_in, share in itertools.islice(every, 0, None, step):
        assert_asked(porch(number, deep_in, beam_in, *share), tmp_path)


@pytest.mark.parametrize("sheet", [lanai(6.0), lanai(8.0), lanai(12.0), lanai(8.0, "COVERED PORCH")])
def test_beams_that_close_an_inside_corner_are_asked_about(sheet: Sheet, tmp_path: Path) -> None:
    assert_asked(sheet, tmp_path)


def test_a_wing_to_be_taken_down_is_asked_about(tmp_path: Path) -> None:
    assert_asked(beside(0, gate=False, taken_down=True), tmp_path)


def test_a_garage_whose_name_is_written_into_it_is_not_asked_about_and_a_nameless_one_is(tmp_path: Path) -> None:
    found, right = read(beside(1, gate=True, words="GARAGE"), tmp_path)
    assert found.sure
    assert right[0]
    assert_asked(beside(1, gate=True), tmp_path)
