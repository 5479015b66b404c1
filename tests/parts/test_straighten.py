"""Corners as surveyed: what is taken out, what stays, and what is said of it."""

from __future__ import annotations

import numpy as np
import pytest

from framing.walls.straighten import straighten

HALF_INCH_FT = 1 / 24
INCH_FT = 1 / 12
BOX = ((0.0, 0.0), (40.0, 0.0), (40.0, 28.0), (0.0, 28.0))


def with_corners(*more: tuple[float, float]) -> tuple[tuple[float, float], ...]:
    """The box with corners typed after its first."""
    return (BOX[0], *more, *BOX[1:])


def test_a_corner_an_eighth_of_an_inch_off_its_wall_is_taken_out_and_said_once_with_size_and_place() -> None:
    found = straighten(with_corners((15.0, INCH_FT / 8)), HALF_INCH_FT)
    assert found.corners_ft == BOX
    assert found.numbers == (1, 3, 4, 5)
    assert found.notes == (
        'walls outline: corner 2 near (15\'-0", 0\'-0 1/8") stands 1/8" off the line of its wall and is taken out',
    )


def test_a_corner_exactly_on_its_wall_goes_without_a_word() -> None:
    found = straighten(with_corners((15.0, 0.0)), HALF_INCH_FT)
    assert (found.corners_ft, found.notes) == (BOX, ())


def test_a_corner_half_an_inch_off_and_more_stays() -> None:
    typed = with_corners((15.0, -HALF_INCH_FT))
    assert straighten(typed, HALF_INCH_FT).corners_ft == typed


def test_nothing_is_taken_out_where_the_plan_says_so() -> None:
    typed = with_corners((15.0, INCH_FT / 8))
    assert straighten(typed, 0.0).corners_ft == typed


def test_a_step_of_a_quarter_inch_moves_the_shorter_wall_into_the_line_of_the_longer() -> None:
    step_ft = INCH_FT / 4
    typed = ((0.0, 0.0), (25.0, 0.0), (25.0, -step_ft), (40.0, -step_ft), (40.0, 28.0), (0.0, 28.0))
    found = straighten(typed, HALF_INCH_FT)
    assert found.corners_ft == BOX
    assert found.notes == ('walls outline: the step at corner 2 near (25\'-0", 0\'-0") is 1/4" high and is taken out',)


@pytest.mark.parametrize("kink_ft", [0.0, INCH_FT / 4, -INCH_FT / 4])
def test_a_step_moves_the_shorter_wall_with_its_kinks_up_to_the_corner_at_which_it_turns(kink_ft: float) -> None:
    step_ft = INCH_FT / 4
    kinked = (37.0, -step_ft + kink_ft)
    typed = ((0.0, 0.0), (25.0, 0.0), (25.0, -step_ft), kinked, (40.0, -step_ft), (40.0, 28.0), (0.0, 28.0))
    found = straighten(typed, HALF_INCH_FT)
    assert found.corners_ft == BOX
    told = ['the step at corner 2 near (25\'-0", 0\'-0") is 1/4" high and is taken out']
    if kink_ft:
        place = "0'-0" if kink_ft > 0 else "-0'-0 1/2"
        told.append(f'corner 4 near (37\'-0", {place}") stands 1/4" off the line of its wall and is taken out')
    assert list(found.notes) == [f"walls outline: {words}" for words in told]


def test_a_corner_cut_off_by_a_sliver_is_where_its_walls_meet() -> None:
    cut_ft = INCH_FT / 4
    typed = ((0.0, 0.0), (40.0 - cut_ft, 0.0), (40.0, cut_ft), (40.0, 28.0), (0.0, 28.0))
    found = straighten(typed, HALF_INCH_FT)
    assert np.array(found.corners_ft) == pytest.approx(np.array(BOX))
    assert found.notes == (
        'walls outline: the side from corner 2 to 3 near (39\'-11 3/4", 0\'-0") is 3/8" long and is taken out',
    )


def test_two_kinks_of_one_wall_are_both_taken_out_the_smaller_first() -> None:
    found = straighten(with_corners((10.0, 0.02), (30.0, -0.01)), HALF_INCH_FT)
    assert found.corners_ft == BOX
    assert ["corner 3" in note for note in found.notes] == [True, False]


def test_four_corners_are_left_whatever_they_are() -> None:
    tiny = ((0.0, 0.0), (0.01, 0.0), (0.01, 0.01), (0.0, 0.01))
    assert straighten(tiny, HALF_INCH_FT).corners_ft == tiny


def test_a_slot_narrower_than_the_tolerance_is_closed() -> None:
    slot = ((0.0, 0.0), (20.0, 0.0), (20.0, 9.0), (20.03, 9.0), (20.03, 0.0), (40.0, 0.0), (40.0, 28.0), (0.0, 28.0))
    assert straighten(slot, HALF_INCH_FT).corners_ft == BOX


def test_the_way_round_and_the_first_corner_change_nothing() -> None:
    typed = with_corners((10.0, 0.02), (30.0, -0.01))
    for turned in (typed[::-1], typed[3:] + typed[:3]):
        assert set(straighten(turned, HALF_INCH_FT).corners_ft) == set(BOX)
