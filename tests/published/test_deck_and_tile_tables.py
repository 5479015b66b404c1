"""Suction by zone, nail spacing and tile moments against tables made apart from this code.

Sources: `deck_spacing.csv` and `tile_moment.csv`, arithmetic by ASCE 7-22 figures 30.3-2 and IBC 2018 eq. 16-34 made
apart from this code (they check the arithmetic and the coefficients' transcription, mark calc); `ras128_2017.csv`,
RAS 128 table 1 read in one scanned permit copy (fair): by the 7-10 coefficients it checks q and the 0.6 alone.
"""

from __future__ import annotations

import math

import pytest

from framing.asce7.edition import Procedure, RoofForm, edition
from framing.deck.nailing import TABLE_IN, nailing
from framing.deck.tile import aerodynamic_moment_ft_lb, required_moment_ft_lb
from framing.plan import EditionName, Exposure
from framing.plan_file import plan_from_text
from published.figures import figures

CODE = edition(EditionName.ASCE_7_22)
THETA_DEG = math.degrees(math.atan(4 / 12))
FORMS = {"gable 7-20": RoofForm.GABLE, "hip 7-20": RoofForm.HIP}
SPACINGS, TILES, LOW_SLOPES = figures("deck_spacing"), figures("tile_moment"), figures("ras128_2017")
NAILS_LB = {"a": 114.2, "b": 144.7, "c": 67.2}


def q_K_d_psf(speed: str, exposure: str, height_ft: float) -> float:
    text = f"""
    walls.outline = [[0, 0], [40, 0], [40, 28], [0, 28]]
    roof = {{ type = "hip", pitch = "4:12" }}
    wind = {{ speed = {speed}, exposure = "{exposure}" }}
    """
    return CODE.q_K_d_psf(plan_from_text(text, "house").wind, height_ft, Procedure.CLADDING)


@pytest.mark.parametrize("row", SPACINGS, ids=[f"{r['Vult']} {r['exp']} {r['roof']}" for r in SPACINGS])
def test_suction_and_spacing_of_every_zone(row: dict[str, str]) -> None:
    form, q = FORMS[row["roof"]], q_K_d_psf(row["Vult"], row["exp"], float(row["h_ft"]))
    for zone in "123":
        _, outside = CODE.roof_GC_p(form, THETA_DEG, zone, 10.0)
        suction = 0.6 * q * (0.18 - float(outside))
        assert suction == pytest.approx(-float(row[f"z{zone}_psf"]), abs=0.051)
        for nails, lb in NAILS_LB.items():
            told = row[f"z{zone}{nails}"]
            found = nailing(2.0 * suction, lb, None)
            close = any(abs(found.exact_in - inches) < 0.02 * inches for inches in TABLE_IN)  # rounded on both sides
            assert close or found.table_in == (None if told == "<3" else float(told))
    over = max(-float(CODE.overhang_GC_p(form, THETA_DEG, zone, 10.0)) for zone in "123")
    assert 0.6 * q * over == pytest.approx(-float(row["oh_psf"]), abs=0.051)


@pytest.mark.parametrize("row", TILES, ids=[f"{r['Vult']} {r['exp']} {r['h']} {r['roof']}" for r in TILES])
def test_the_moment_on_a_tile_of_every_zone(row: dict[str, str]) -> None:
    """The tile of the table: 1.00 ft wide, 1.42 ft long; q_h without K_d, as the edition of 2022 defines it."""
    form, q_h = FORMS[row["roof"]], 0.6 * q_K_d_psf(row["Vult"], row["exp"], float(row["h"])) / 0.85
    assert q_h == pytest.approx(float(row["qh_asd_noKd"]), abs=0.06)
    assert 0.85 * q_h == pytest.approx(float(row["qh_asd_Kd"]), abs=0.051)
    for zone in "123":
        _, outside = CODE.roof_GC_p(form, THETA_DEG, zone, 10.0)
        moment = aerodynamic_moment_ft_lb(q_h, 1.00, 1.42, float(outside))
        assert moment == pytest.approx(float(row[f"Ma_z{zone}"]), abs=0.06)


@pytest.mark.parametrize("row", LOW_SLOPES, ids=[f"{r['h_ft']} ft" for r in LOW_SLOPES])
def test_the_velocity_pressure_and_the_0_6_behind_a_table_of_the_high_velocity_zone(row: dict[str, str]) -> None:
    """175 mph, Exposure C; the edition of 2010 had GC_p of -1.0, -1.8 and -2.8 there and its own K_z, within 0.6 %."""
    height_ft = float(row["h_ft"])
    ours = CODE.K_z(height_ft, Exposure.C)
    former = 2.01 * (height_ft / 900.0) ** (2.0 / 9.5)
    q = q_K_d_psf("175", "C", height_ft) * former / ours
    for GC_p, told in ((-1.0, "field_psf"), (-1.8, "perimeter_psf"), (-2.8, "corner_psf")):
        assert -0.6 * q * (0.18 - GC_p) == pytest.approx(float(row[told]), rel=0.006)


def test_the_worked_tile_of_the_reference() -> None:
    """1.0 ft wide, L = 1.42 ft, arm 1.08 ft, q_h = 43.5 psf, GC_p = -1.8: 37.3 ft-lb, by a pocket calculator."""
    assert aerodynamic_moment_ft_lb(43.5, 1.0, 1.42, -1.8) == pytest.approx(37.3, abs=0.1)


def test_a_filed_form_of_the_high_velocity_zone() -> None:
    """B2: 39.1 psf x 0.205 - 6.86 = 1.16 ft-lb, a filed sheet (fair); B3 is the same form with a speed typed as P."""
    assert required_moment_ft_lb(39.1, 0.205, 6.86) == pytest.approx(1.16, abs=0.005)
    assert required_moment_ft_lb(160.0, 0.205, 6.71) == pytest.approx(26.09, abs=0.005)
