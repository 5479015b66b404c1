"""Verification tests of an open general-purpose finite-element program.

Source: xc (github.com/xcfem/xc, GPL; numbers only), verif/tests/actions/wind/asce7/test_windASCE7.py at commit
63beec69 (ASCE 7-22) and test_windASCE7_16.py at commit 203753cd (ASCE 7-16): gable 36.87 degrees, eave 5 m,
h 6.5 m, L 24 m, B 28 m, V = 52 m/s, Exposure C, 110 m above the sea, GC_pi 0.55. Figures in
data/xc_verification_q.csv and data/xc_verification_p.csv; of the sums with internal pressure two rows are in
those tests, the others added from its external pressures and said so there.

Named assumption: the program works in metric constants (z_g 750 m and 274.32 m, 0.613, 0.000119 per m), which are
rounded from ours (2,460 ft and 900 ft, 0.00256, 0.0000362 per ft): K_z within 0.006 %, q within 0.1 %.
"""

from __future__ import annotations

import pytest

from framing.asce7 import chapter26, chapter27, edition_2016
from framing.plan import Exposure
from published.figures import FT_PER_M, MPH_PER_M_S, PSF_PER_KPA, figures

Q_ROWS = {row["edition"]: row for row in figures("xc_verification_q")}
P_ROWS = [pytest.param(row, id=row["surface"]) for row in figures("xc_verification_p")]
H_OVER_L = 6.5 / 24.0
K_Z = {"7-22": chapter26.K_z, "7-16": edition_2016.K_z}
K_D_OUTSIDE = {"7-22": chapter26.K_d(), "7-16": 1.0}
Q_Z = {"7-22": chapter26.q_z_psf, "7-16": edition_2016.q_z_psf}


def q_K_d_Pa(edition: str, height_m: float) -> float:
    K_z = K_Z[edition](height_m * FT_PER_M, Exposure.C)
    q_psf = Q_Z[edition](K_z, 1.0, chapter26.K_e(110.0 * FT_PER_M), 52.0 * MPH_PER_M_S)
    return q_psf * K_D_OUTSIDE[edition] / PSF_PER_KPA * 1000.0


@pytest.mark.parametrize("edition", Q_ROWS)
def test_W1_K_e_and_K_z_at_eave_and_mean_roof_height_are_met(edition: str) -> None:
    row = Q_ROWS[edition]
    assert chapter26.K_e(110.0 * FT_PER_M) == pytest.approx(float(row["Ke"]), rel=5e-5)
    assert K_Z[edition](5.0 * FT_PER_M, Exposure.C) == pytest.approx(float(row["Kz_eave"]), rel=6e-5)
    assert K_Z[edition](6.5 * FT_PER_M, Exposure.C) == pytest.approx(float(row["Kz_h"]), rel=6e-5)


@pytest.mark.parametrize("edition", Q_ROWS)
def test_W1_velocity_pressures_with_K_d_are_met(edition: str) -> None:
    row = Q_ROWS[edition]
    assert q_K_d_Pa(edition, 5.0) == pytest.approx(float(row["qKd_eave_Pa"]), rel=1e-3)
    assert q_K_d_Pa(edition, 6.5) == pytest.approx(float(row["qhKd_Pa"]), rel=1e-3)


def C_p(surface: str) -> float:
    h_ft = 6.5 * FT_PER_M

    def parallel(distance_over_h: float) -> float:
        return float(chapter27.C_p_parallel_roof(distance_over_h * h_ft, h_ft, 6.5 / 28.0, 0.0)[0])

    return {
        "windward wall": chapter27.C_P_WINDWARD_WALL,
        "leeward wall": chapter27.C_p_leeward_wall(24.0 / 28.0),
        "side wall": chapter27.C_P_SIDE_WALL,
        "windward roof": chapter27.C_p_windward_roof(36.87, H_OVER_L, 0.0)[1],
        "leeward roof": chapter27.C_p_leeward_roof(36.87, H_OVER_L),
        "parallel 0-h": parallel(0.5),
        "parallel h-2h": parallel(1.5),
        "parallel >2h": parallel(2.5),
    }[surface]


@pytest.mark.parametrize("row", P_ROWS)
def test_W1P_external_coefficient_and_pressures_of_the_surface_are_met(row: dict[str, str]) -> None:
    surface = row["surface"]
    assert C_p(surface) == pytest.approx(float(row["Cp"]), abs=1e-6)
    external_Pa = q_K_d_Pa("7-22", 5.0 if surface == "windward wall" else 6.5) * chapter27.G * C_p(surface)
    inside_Pa = 0.55 * q_K_d_Pa("7-22", 6.5)
    assert external_Pa == pytest.approx(float(row["pe_Pa"]), rel=1e-3)
    assert external_Pa - inside_Pa == pytest.approx(float(row["with_plus_GCpi"]), abs=1.7)
    assert external_Pa + inside_Pa == pytest.approx(float(row["with_minus_GCpi"]), abs=1.7)
