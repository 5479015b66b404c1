"""The directional procedure's coefficients: monotone, continuous, and the entries of figure 27.3-1.

Source of the entries: ASCE 7-22, figure 27.3-1, as read in a machine-read copy and five other public texts that
agree, one of them checked against the printed 7-16, p. 275 and 276.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.asce7 import chapter27

AREAS_FT2 = st.floats(1.0, 2000.0)


@given(st.floats(10.0, 89.0), st.floats(0.05, 2.0), AREAS_FT2)
def test_directional_roof_coefficients_are_continuous_in_slope_and_height(
    theta_deg: float, h_over_L_ratio: float, area_ft2: float
) -> None:
    here = chapter27.C_p_windward_roof(theta_deg, h_over_L_ratio, area_ft2)
    assert chapter27.C_p_windward_roof(theta_deg + 1e-7, h_over_L_ratio, area_ft2) == pytest.approx(here, abs=1e-6)
    assert chapter27.C_p_windward_roof(theta_deg, h_over_L_ratio + 1e-7, area_ft2) == pytest.approx(here, abs=1e-6)
    assert here[0] <= 0.0
    assert here[0] <= here[1]
    assert -0.7 <= chapter27.C_p_leeward_roof(theta_deg, h_over_L_ratio) <= -0.3


@given(st.floats(10.0, 89.0), st.floats(0.05, 2.0), AREAS_FT2, st.floats(0.01, 1.0))
def test_a_taller_house_never_has_less_windward_suction_nor_a_larger_area_more(
    theta_deg: float, h_over_L_ratio: float, area_ft2: float, more: float
) -> None:
    suction = chapter27.C_p_windward_roof(theta_deg, h_over_L_ratio, 0.0)[0]
    assert chapter27.C_p_windward_roof(theta_deg, h_over_L_ratio + more, 0.0)[0] <= suction + 1e-12
    assert chapter27.C_p_windward_roof(theta_deg, h_over_L_ratio, area_ft2)[0] >= suction - 1e-12


@pytest.mark.parametrize(
    ("theta_deg", "h_over_L_ratio", "printed"),
    [
        (10.0, 0.25, (-0.7, -0.18)),
        (10.0, 1.0, (-1.3, -0.18)),
        (20.0, 0.5, (-0.4, 0.0)),
        (25.0, 1.0, (-0.5, 0.0)),
        (30.0, 0.25, (-0.2, 0.3)),
        (45.0, 1.0, (0.0, 0.3)),
        (52.5, 0.25, (0.0, 0.5)),  # midway between 0.4 at 45 and 0.01 x 60
        (60.0, 0.5, (0.0, 0.6)),
        (80.0, 0.5, (0.0, 0.8)),
        (90.0, 0.5, (0.0, 0.8)),
    ],
)
def test_windward_roof_entry_of_figure_27_3_1(
    theta_deg: float, h_over_L_ratio: float, printed: tuple[float, float]
) -> None:
    assert chapter27.C_p_windward_roof(theta_deg, h_over_L_ratio, 0.0) == pytest.approx(printed, abs=1e-12)


def test_the_minus_1_3_of_figure_27_3_1_falls_with_the_area_as_its_table_prints() -> None:
    areas_ft2 = np.array([50.0, 100.0, 250.0, 1000.0, 4000.0])
    assert chapter27.area_reduction(areas_ft2) == pytest.approx(np.array([1.0, 1.0, 0.9, 0.8, 0.8]))
    assert chapter27.C_p_windward_roof(10.0, 1.0, 1000.0)[0] == pytest.approx(-1.04)
    assert chapter27.C_p_parallel_roof(0.0, 20.0, 1.0, 1000.0)[0] == pytest.approx(-1.04)


@given(st.floats(0.0, 100.0), st.floats(0.05, 2.0))
def test_roof_suction_along_the_wind_never_grows_with_distance(distance_ft: float, h_over_L_ratio: float) -> None:
    near, far = chapter27.C_p_parallel_roof(np.array([distance_ft, distance_ft + 5.0]), 12.0, h_over_L_ratio, 0.0)[0]
    assert near <= far <= -0.3


@given(st.floats(0.0, 8.0), st.floats(0.0, 8.0))
def test_leeward_wall_suction_never_grows_with_the_length_of_the_house(one: float, other: float) -> None:
    short, long = sorted((one, other))
    assert chapter27.C_p_leeward_wall(short) <= chapter27.C_p_leeward_wall(long) <= -0.2
