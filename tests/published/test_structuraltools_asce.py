"""Tests of an open Python package with the ASCE 7-22 tables.

Source: StructuralTools (github.com/StructuralTools/StructuralTools, Apache-2.0, commit 1a38a68b), tests/asce: inputs
and expected figures; ASCE 7-22, K_d 0.85, G 0.85, enclosed. The directional figures are for a building 30 ft by
30 ft, h 30 ft, theta 15 degrees, V 150 mph, Exposure B.
"""

from __future__ import annotations

import pytest

from framing.asce7 import chapter26, chapter27, chapter30
from framing.plan import Enclosure, Exposure, Feature


def q_psf(height_ft: float, speed_mph: float = 150.0, elevation_ft: float = 0.0) -> float:
    K_z = chapter26.K_z(height_ft, Exposure.B)
    return chapter26.q_z_psf(K_z, 1.0, chapter26.K_e(elevation_ft), speed_mph)


def net_psf(q_outside_psf: float, C_p: float, inside: float) -> float:
    K_d = chapter26.K_d()
    return q_outside_psf * K_d * chapter27.G * C_p - q_psf(30.0) * K_d * inside


PLUS, MINUS = chapter26.GC_pi(Enclosure.ENCLOSED)


def test_W2_velocity_pressure_at_30_ft() -> None:
    assert q_psf(30.0) == pytest.approx(39.69832, abs=1e-5)


def test_W2_velocity_pressure_at_51_25_ft_and_520_ft_above_the_sea() -> None:
    assert chapter26.K_e(520.0) == pytest.approx(0.981352, abs=1e-6)
    assert q_psf(51.25, speed_mph=110.0, elevation_ft=520.0) == pytest.approx(24.16680, abs=1e-5)


def test_W2_windward_wall_at_25_ft() -> None:
    assert net_psf(q_psf(25.0), chapter27.C_P_WINDWARD_WALL, MINUS) == pytest.approx(27.93056, abs=1e-5)


def test_W2_leeward_wall() -> None:
    assert net_psf(q_psf(30.0), chapter27.C_p_leeward_wall(1.0), PLUS) == pytest.approx(-20.41486, abs=1e-5)


def test_W2_roof_along_the_ridge_25_ft_from_the_edge() -> None:
    suction, other = chapter27.C_p_parallel_roof(25.0, 30.0, 1.0, 0.0)
    assert net_psf(q_psf(30.0), suction, PLUS) == pytest.approx(-26.15127, abs=1e-5)
    assert net_psf(q_psf(30.0), other, PLUS) == pytest.approx(-11.23661, abs=1e-5)


def test_W2_windward_roof_square_to_the_ridge() -> None:
    suction, other = chapter27.C_p_windward_roof(15.0, 1.0, 0.0)
    assert net_psf(q_psf(30.0), suction, PLUS) == pytest.approx(-34.75588, abs=1e-5)
    assert net_psf(q_psf(30.0), other, PLUS) == pytest.approx(-11.23661, abs=1e-5)


@pytest.mark.parametrize(
    ("area_ft2", "sign", "printed_psf"),
    [(9.0, "+", 27.8834), (50.0, "+", 24.96656), (50.0, "-", -27.32956)],
    ids=["W2 wall 4 toward, 9 sf", "W2 wall 4 toward, 50 sf", "W2 wall 4 away, 50 sf"],
)
def test_W2_components_of_wall_zone_4_at_27_8_psf(area_ft2: float, sign: str, printed_psf: float) -> None:
    toward, away = chapter30.wall_GC_p("4", area_ft2, 15.0)
    net = float(toward) - MINUS if sign == "+" else float(away) - PLUS
    assert 27.8 * chapter26.K_d() * net == pytest.approx(printed_psf, abs=2e-5)


def test_W2_topographic_factor_behind_an_escarpment() -> None:
    K_zt = chapter26.K_zt(
        Feature.ESCARPMENT,
        Exposure.B,
        hill_height_ft=500.0,
        half_length_ft=1500.0,
        distance_ft=300.0,
        height_ft=50.0,
    )
    assert K_zt == pytest.approx(1.484768, abs=1e-6)
