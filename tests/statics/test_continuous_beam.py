"""A beam on three or more bearings held to the tables.

Source of the uniform and midspan figures: AWC Design Aid No. 6 (2007), figures 29 and 30 (two equal spans) and 36
(three equal spans), figure numbers and figures from memory; they stand in every steel and timber handbook.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from framing.loads.continuous_beam import bearing_shares
from statics.frame_model import Beam, Load, Seat, seat_forces_lb

NONE = np.zeros(1)


def uniform(bearings_ft: list[float]) -> np.ndarray:
    """What each bearing takes of a uniform unit load on every span: each influence line, cubic by cubic, summed by
    Simpson's rule, which is exact for a cubic.
    """
    total = np.zeros(len(bearings_ft))
    for low, high in pairwise(bearings_ft):
        at = np.array([low, (low + high) / 2, high])
        total += np.array([1, 4, 1]) @ bearing_shares(np.array(bearings_ft), at, np.zeros(3)) * (high - low) / 6
    return total


def test_two_equal_spans_put_0_375_wL_on_the_ends_and_1_25_wL_in_the_middle() -> None:
    np.testing.assert_allclose(uniform([0, 14, 28]), [0.375 * 14, 1.25 * 14, 0.375 * 14], rtol=1e-12)


def test_two_spans_that_the_middle_does_not_hold_put_1_0_wL_on_the_ends() -> None:
    np.testing.assert_allclose(uniform([0, 28]), [1.0 * 14, 1.0 * 14], rtol=1e-12)


def test_three_equal_spans_put_0_4_wL_on_the_ends_and_1_1_wL_inside() -> None:
    np.testing.assert_allclose(uniform([0, 10, 20, 30]), [4, 11, 11, 4], rtol=1e-12)


def test_four_equal_spans_give_the_ratios_of_the_tables() -> None:
    """11/28, 8/7, 13/14 of wL: common to handbooks, from memory."""
    np.testing.assert_allclose(uniform([0, 1, 2, 3, 4]), [11 / 28, 8 / 7, 13 / 14, 8 / 7, 11 / 28], rtol=1e-12)


def test_a_force_in_the_middle_of_one_of_two_spans_gives_13_22_and_minus_3_thirty_seconds() -> None:
    shares = bearing_shares(np.array([0.0, 10.0, 20.0]), np.array([5.0]), NONE)[0]
    np.testing.assert_allclose(shares, [13 / 32, 22 / 32, -3 / 32], rtol=1e-12)


def test_two_bearings_make_a_simple_beam_tails_included() -> None:
    shares = bearing_shares(np.array([0.0, 20.0]), np.array([-2.0, 5.0, 24.0]), np.zeros(3))
    np.testing.assert_allclose(shares, [[1.1, -0.1], [0.75, 0.25], [-0.2, 1.2]], rtol=1e-12)


def test_a_couple_on_one_of_two_spans_balances_and_is_the_same_from_either_side() -> None:
    bearings = np.array([0.0, 9.0, 20.0])
    at = np.linspace(-2, 22, 49)
    turned = bearing_shares(bearings, at, np.full(49, 3.0)) - bearing_shares(bearings, at, np.zeros(49))
    np.testing.assert_allclose(turned.sum(axis=1), 0.0, atol=1e-12)
    np.testing.assert_allclose(turned @ bearings, 3.0, rtol=1e-12)
    mirrored = bearing_shares(20.0 - bearings[::-1], 20.0 - at, np.full(49, -3.0))[:, ::-1]
    np.testing.assert_allclose(mirrored, bearing_shares(bearings, at, np.full(49, 3.0)), atol=1e-12)


@pytest.mark.parametrize("bearings_ft", [(0.0, 8.0, 30.0), (0.0, 6.5, 15.0, 33.0), (0.0, 9.0, 12.0, 20.0, 31.0)])
def test_forces_with_a_push_and_on_tails_come_down_as_the_frame_solver_finds(bearings_ft: tuple[float, ...]) -> None:
    seats = tuple(Seat(at_ft=at) for at in bearings_ft)
    beam = Beam(name="truss", start_ft=(0.0, 0.0), end_ft=(bearings_ft[-1], 0.0), seats=seats)
    places = [(-1.5, 300.0, 40.0, 0.4), (4.0, -120.0, 90.0, 2.5), (14.0, 210.0, -75.0, 6.0), (32.5, 80.0, 55.0, 1.0)]
    loads = [Load(beam="truss", at_ft=a, up_lb=f, along_lb=p, height_ft=h) for a, f, p, h in places]
    theirs = seat_forces_lb([beam], loads)
    force = np.array([f for _, f, _, _ in places])
    couple = np.array([-p * h / f for _, f, p, h in places])
    ours = force @ bearing_shares(np.array(bearings_ft), np.array([a for a, *_ in places]), couple)
    np.testing.assert_allclose(ours, [theirs["truss", k] for k in range(len(seats))], atol=1e-6)
