"""The tie beam over its filled cells held to handbook statics, to equilibrium and to a frame solver.

Sources: AWC Design Aid No. 6 (2007) for beams of one, two and three equal spans (figure numbers and figures from
memory; they stand in every handbook); PyNiteFEA, a general-purpose solver, for uneven cells.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from Pynite import FEModel3D

from framing.ground.beam_on_cells import beam_forces


def solved(
    cells_ft: list[float], at_ft: list[float], pull_lb: list[float], down_plf: float, ends_ft: tuple[float, float]
) -> tuple[list[float], np.ndarray, np.ndarray]:
    """Pull on each cell; largest moment at the top, and at the bottom, of each stretch, by the frame solver."""
    model = FEModel3D()
    model.add_material("any", E=1e7, G=4e6, nu=0.25, rho=0.0)
    model.add_section("any", A=10.0, Iy=1.0, Iz=1.0, J=1.0)
    places = sorted({*ends_ft, *cells_ft})
    for x in places:
        model.add_node(f"{x}", x, 0, 0)
    for k, x in enumerate(cells_ft):
        model.def_support(f"{x}", support_DX=k == 0, support_DY=True, support_DZ=True, support_RX=k == 0)
    stretches = []
    for low, high in pairwise(places):
        name = model.add_member(f"{low}-{high}", f"{low}", f"{high}", "any", "any")
        model.add_member_dist_load(name, "Fy", -down_plf, -down_plf, None, None, "c")
        for x, lb in zip(at_ft, pull_lb, strict=True):
            if low <= x < high or (x == high == places[-1]):
                model.add_member_pt_load(name, "Fy", lb, x - low, "c")
        stretches.append(name)
    model.add_load_combo("c", {"c": 1.0})
    model.analyze_linear()
    cells = [-model.nodes[f"{x}"].RxnFY["c"] for x in cells_ft]
    low = np.array([model.members[name].min_moment("Mz", "c") for name in stretches])
    high = np.array([model.members[name].max_moment("Mz", "c") for name in stretches])
    return cells, low, high


def test_one_span_with_a_girder_in_the_middle_bends_by_a_quarter_of_P_L() -> None:
    found = beam_forces(np.array([0.0, 8.0]), np.array([4.0]), np.array([[3000.0]]), 0.0, (0.0, 8.0))
    assert found.top_ft_lb[1, 0] == pytest.approx(3000 * 8 / 4)
    assert found.bottom_ft_lb.max() == pytest.approx(0.0, abs=1e-9)
    assert found.shear_lb[1, 0] == pytest.approx(1500)
    np.testing.assert_allclose(found.cell_lb[:, 0], [1500, 1500])


def test_two_spans_with_a_girder_in_each_middle_bend_by_three_sixteenths_of_P_L_at_the_cell() -> None:
    """Handbook statics: 3 P L / 16 over the middle, 5 P L / 32 under the forces; reactions 5/16 and 11/8 P."""
    found = beam_forces(np.array([0.0, 8.0, 16.0]), np.array([4.0, 12.0]), np.full((2, 1), 1000.0), 0.0, (0.0, 16.0))
    np.testing.assert_allclose(found.bottom_ft_lb[:, 0], [0, 1500, 1500, 0], atol=1e-9)
    np.testing.assert_allclose(found.top_ft_lb[:, 0], [0, 1250, 1250, 0], atol=1e-9)
    np.testing.assert_allclose(found.cell_lb[:, 0], [312.5, 1375, 312.5])
    assert found.shear_lb.max() == pytest.approx(11 / 16 * 1000)


def test_the_beams_own_weight_alone_presses_on_its_cells_and_bends_it_by_w_l_squared_eighths() -> None:
    """Two equal spans: w l^2/8 pulls at the top over the middle, 9/128 w l^2 at the bottom; 3/8, 10/8, 3/8 of w l."""
    found = beam_forces(np.array([0.0, 10.0, 20.0]), np.zeros(0), np.zeros((0, 1)), 100.0, (0.0, 20.0))
    np.testing.assert_allclose(found.cell_lb[:, 0], [-375, -1250, -375])
    assert found.top_ft_lb.max() == pytest.approx(1250)
    assert found.bottom_ft_lb[1:3, 0] == pytest.approx(100 * 100 * 9 / 128)
    assert found.shear_lb.max() == pytest.approx(625)


def test_a_strap_past_the_last_cell_hangs_on_a_tail() -> None:
    found = beam_forces(np.array([0.0, 10.0]), np.array([12.0]), np.array([[600.0]]), 30.0, (0.0, 12.0))
    assert found.bottom_ft_lb[2, 0] == pytest.approx(600 * 2 - 30 * 2 * 1)
    assert found.shear_lb[2, 0] == pytest.approx(600)
    assert found.cell_lb[1, 0] == pytest.approx((600 * 12 - 30 * 12 * 6) / 10)


def test_shear_counts_from_the_face_of_a_cell_and_a_strap_on_the_cell_shears_nothing() -> None:
    cells, third = np.array([0.0, 9.0]), 4.0 / 12.0
    near = beam_forces(cells, np.array([0.25]), np.array([[5000.0]]), 0.0, (0.0, 9.0), third)
    assert near.shear_lb[1, 0] == pytest.approx(5000 * 0.25 / 9)
    even = beam_forces(cells, np.zeros(0), np.zeros((0, 1)), 100.0, (0.0, 9.0), third)
    assert even.shear_lb[1, 0] == pytest.approx(100 * (4.5 - third))


def test_pulls_weight_and_cells_balance_in_force_and_moment_in_every_pattern() -> None:
    rng = np.random.default_rng(5)
    for _ in range(40):
        cells = np.sort(rng.uniform(0.4, 39.6, rng.integers(2, 12)))
        at, pull = rng.uniform(0, 40, 20), rng.uniform(-300, 1500, (20, 3))
        found = beam_forces(cells, at, pull, 74.5, (0.0, 40.0))
        np.testing.assert_allclose(found.cell_lb.sum(axis=0), pull.sum(axis=0) - 74.5 * 40, rtol=1e-9, atol=1e-6)
        np.testing.assert_allclose(cells @ found.cell_lb, at @ pull - 74.5 * 40 * 20, rtol=1e-9, atol=1e-4)


def test_a_beam_read_from_its_other_end_feels_the_same() -> None:
    cells, at = np.array([0.5, 3.0, 9.0, 14.0]), np.array([0.1, 2.0, 5.5, 8.0, 13.0, 14.8])
    pull = np.array([[300.0], [700.0], [900.0], [-200.0], [1500.0], [250.0]])
    one = beam_forces(cells, at, pull, 60.0, (0.0, 15.0), 0.3)
    other = beam_forces(15.0 - cells[::-1], 15.0 - at[::-1], pull[::-1], 60.0, (0.0, 15.0), 0.3)
    for field in ("cell_lb", "top_ft_lb", "bottom_ft_lb", "shear_lb"):
        np.testing.assert_allclose(getattr(one, field), getattr(other, field)[::-1], atol=1e-7)


@pytest.mark.parametrize(
    "cells_ft", [[0.5, 4.5, 8.5, 12.5, 15.5], [1.0, 7.0, 9.0, 14.0], [0.5, 15.5], [2.0, 6.0, 6.75, 15.0]]
)
def test_uneven_cells_and_pulls_are_as_the_frame_solver_finds_them(cells_ft: list[float]) -> None:
    at = [0.75, 2.25, 4.0, 6.3, 8.0, 10.0, 11.5, 13.0, 15.75]
    pull = [500.0, 650.0, 700.0, 3000.0, -400.0, 800.0, 760.0, 900.0, 420.0]
    ours = beam_forces(np.array(cells_ft), np.array(at), np.array(pull)[:, None], 74.5, (0.0, 16.0))
    cells, low, high = solved(cells_ft, at, pull, 74.5, (0.0, 16.0))
    np.testing.assert_allclose(ours.cell_lb[:, 0], cells, atol=0.01)
    # the solver samples each stretch at 20 places and at the forces; ours are the true largest
    np.testing.assert_allclose(ours.top_ft_lb[:, 0], np.maximum(high, 0), rtol=0.02, atol=12.0)
    np.testing.assert_allclose(ours.bottom_ft_lb[:, 0], np.maximum(-low, 0), rtol=0.02, atol=12.0)


def test_a_beam_under_small_loads_bends_in_the_same_proportion() -> None:
    """9/128 w l^2 between two cells and the middle one, with shears of less than a pound."""
    found = beam_forces(np.array([0.0, 1.0, 2.0]), np.zeros(0), np.zeros((0, 1)), 0.5, (0.0, 2.0))
    assert found.bottom_ft_lb[1:3, 0] == pytest.approx(0.5 * 9 / 128)


def test_a_beam_feels_the_same_wherever_its_stations_begin() -> None:
    cells, at, pull = np.array([0.5, 4.0, 9.0, 12.0]), np.array([1.0, 5.0, 8.0, 13.0]), np.full((4, 2), 700.0)
    here, there = (
        beam_forces(cells + by, at + by, pull, np.array([75.0, 110.0]), (by, 14.0 + by), 0.33) for by in (0.0, 10.0)
    )
    for name in ("cell_lb", "top_ft_lb", "bottom_ft_lb", "shear_lb"):
        np.testing.assert_allclose(getattr(there, name), getattr(here, name), atol=1e-7)
