"""Figures worked out from the standard's formulas outside this program: calculated, NOT published.

Source: [calc] tables of the project's wind reference, recheckable by hand: K_z, K_e, q_h (data/calc_*.csv), the
comparison of main frame and cladding for one common truss (data/calc_compare.csv), q_h for the inputs of an open
program's test, and the topographic factor at a crest. They guard against slips, they confirm no coefficient.
"""

from __future__ import annotations

import numpy as np
import pytest

from framing.asce7 import chapter26, chapter28, chapter30, edition_2016
from framing.asce7.chapter30 import RoofForm
from framing.plan import Exposure, Feature
from published.figures import figures
from statics.gable_section import SectionPressures, near_uplift_plf

K_Z = {"7-22": chapter26.K_z, "7-16": edition_2016.K_z}
COMPARE = [pytest.param(row, id=f"COMPARE {row['pitch']}") for row in figures("calc_compare")]


@pytest.mark.parametrize("row", [pytest.param(r, id=f"KZ {r['edition']} {r['z_ft']} ft") for r in figures("calc_K_z")])
def test_calculated_K_z(row: dict[str, str]) -> None:
    ours = [K_Z[row["edition"]](float(row["z_ft"]), exposure) for exposure in Exposure]
    assert ours == pytest.approx([float(row[exposure]) for exposure in Exposure], abs=6e-5)


@pytest.mark.parametrize("row", [pytest.param(r, id=f"KE {r['ze_ft']} ft") for r in figures("calc_K_e")])
def test_calculated_K_e(row: dict[str, str]) -> None:
    assert chapter26.K_e(float(row["ze_ft"])) == pytest.approx(float(row["Ke"]), abs=6e-5)


@pytest.mark.parametrize(
    "row", [pytest.param(r, id=f"QH {r['V_mph']} {r['exposure']} {r['h_ft']} ft") for r in figures("calc_q_h")]
)
def test_calculated_q_h(row: dict[str, str]) -> None:
    speed_mph, exposure, h_ft = float(row["V_mph"]), Exposure(row["exposure"]), float(row["h_ft"])
    q_22_psf = chapter26.q_z_psf(chapter26.K_z(h_ft, exposure), 1.0, 1.0, speed_mph)
    q_16_psf = edition_2016.q_z_psf(edition_2016.K_z(h_ft, exposure), 1.0, 1.0, speed_mph)
    assert q_22_psf == pytest.approx(float(row["qh_7-22_psf_no_Kd"]), abs=6e-3)
    assert q_22_psf * chapter26.K_d() == pytest.approx(float(row["qh_Kd_7-22_psf"]), abs=6e-3)
    assert q_16_psf == pytest.approx(float(row["qh_7-16_psf_with_Kd"]), abs=6e-3)


def test_calculated_W9_velocity_pressure_of_an_open_programs_inputs() -> None:
    assert chapter26.q_z_psf(0.90, 1.0, 1.0, 107.0) == pytest.approx(26.38, abs=5e-3)


@pytest.mark.parametrize(
    ("feature", "exposure", "K_1"),
    [
        (Feature.RIDGE, Exposure.B, 1.30 * 0.5),
        (Feature.RIDGE, Exposure.C, 1.45 * 0.5),
        (Feature.RIDGE, Exposure.D, 1.55 * 0.5),
        (Feature.ESCARPMENT, Exposure.B, 0.75 * 0.5),
        (Feature.ESCARPMENT, Exposure.C, 0.85 * 0.5),
        (Feature.ESCARPMENT, Exposure.D, 0.95 * 0.5),
        (Feature.HILL, Exposure.B, 0.95 * 0.5),
        (Feature.HILL, Exposure.C, 1.05 * 0.5),
        (Feature.HILL, Exposure.D, 1.15 * 0.5),
    ],
)
def test_calculated_KZT_at_the_crest_of_a_feature_steeper_than_one_in_two(
    feature: Feature, exposure: Exposure, K_1: float
) -> None:
    K_zt = chapter26.K_zt(feature, exposure, hill_height_ft=100.0, half_length_ft=50.0, distance_ft=0.0, height_ft=0.0)
    assert K_zt == pytest.approx((1.0 + K_1) ** 2, rel=1e-12)


def main_frame_C(theta_deg: float, near: str, far: str) -> float:
    at = chapter28.GC_pf(theta_deg)

    def C(load_case: int) -> float:
        pressures = SectionPressures(
            near_slope_psf=0.18 - at.GC_pf(load_case, near),
            far_slope_psf=0.18 - at.GC_pf(load_case, far),
            near_overhang_psf=0.0,
            far_overhang_psf=0.0,
        )
        return near_uplift_plf(pressures, 36.0, 0.0, np.tan(np.radians(theta_deg))) / 18.0

    return max(C(1), C(2))


def cladding_C(form: RoofForm, theta_deg: float, a_ft: float, *, in_rake: bool) -> float:
    """Mean net suction over half the span: strips of width a at eave and ridge, both halves alike."""
    from_eave_ft = np.arange(0.005, 18.0, 0.01)
    everywhere = np.full(from_eave_ft.shape, in_rake)
    zone = chapter30.roof_zone(
        form,
        theta_deg,
        in_eave=from_eave_ft < a_ft,
        in_rake=everywhere,
        in_ridge=from_eave_ft > 18.0 - a_ft,
        in_hip=np.zeros_like(everywhere),
    )
    area_ft2 = chapter30.effective_wind_area_ft2(36.0, 2.0)
    return float(np.mean(0.18 - chapter30.roof_GC_p(form, theta_deg, zone, area_ft2)[1]))


@pytest.mark.parametrize("row", COMPARE)
def test_calculated_comparison_of_main_frame_and_cladding(row: dict[str, str]) -> None:
    theta_deg, a_ft = float(row["theta"]), float(row["a_ft"])
    rise_ft = 18.0 * np.tan(np.radians(theta_deg))
    h_ft = chapter26.mean_roof_height_ft(10.0, 10.0 + rise_ft, theta_deg)
    assert h_ft == pytest.approx(float(row["h_ft"]), abs=5e-3)
    assert chapter28.edge_width_a_ft(36.0, h_ft) == pytest.approx(a_ft, abs=5e-3)
    ours = [
        main_frame_C(theta_deg, "2", "3"),
        main_frame_C(theta_deg, "2E", "3E"),
        cladding_C(RoofForm.GABLE, theta_deg, a_ft, in_rake=False),
        cladding_C(RoofForm.GABLE, theta_deg, a_ft, in_rake=True),
        cladding_C(RoofForm.HIP, theta_deg, a_ft, in_rake=False),
    ]
    assert ours == pytest.approx([float(value) for value in list(row.values())[4:]], abs=6e-3)
