"""Chile's wind standard, whose tables and chapter 7 follow ASCE 7-22.

Source: Instituto Nacional de Normalizacion, NCh 432:2025: table 5, p. 25 (velocity pressure exposure coefficient),
and a worked warehouse by the envelope procedure in public notes on the standard, whose author states agreement
with a general frame-analysis program: 24 m span, 24 m long, gable 10 degrees, eave and h 8 m, K_d 0.85, enclosed,
q_h = 0.6495449 kPa without K_d. Table in data/nch_432_2025_table_5.csv.
"""

from __future__ import annotations

import math

import pytest

from framing.asce7.chapter26 import GC_pi, K_d, K_z, mean_roof_height_ft
from framing.asce7.chapter28 import GC_pf, edge_width_a_ft
from framing.plan import Enclosure, Exposure
from published.figures import FT_PER_M, figures

TABLE_5 = [
    pytest.param(row, id=f"table 5, exposure {row['exposure']}, {row['z_m']} m")
    for row in figures("nch_432_2025_table_5")
]
SPAN_M = LENGTH_M = 24.0
EAVE_M, THETA_DEG, Q_KPA = 8.0, 10.0, 0.6495449
RISE_M = SPAN_M / 2.0 * math.tan(math.radians(THETA_DEG))
END_WALL_SHARE = 0.0906561


@pytest.mark.parametrize("row", TABLE_5)
def test_K_z_is_that_of_the_row_as_rounded_there(row: dict[str, str]) -> None:
    assert K_z(float(row["z_m"]) * FT_PER_M, Exposure(row["exposure"])) == pytest.approx(float(row["K_z"]), abs=0.00501)


def a_m() -> float:
    h_ft = mean_roof_height_ft(EAVE_M * FT_PER_M, (EAVE_M + RISE_M) * FT_PER_M, THETA_DEG)
    return edge_width_a_ft(SPAN_M * FT_PER_M, h_ft) / FT_PER_M


def mean_GC_pf(load_case: int, zone: str) -> float:
    """Interior and end zone by their share of the length; end walls by the share that the author worked out."""
    end = END_WALL_SHARE if zone in "56" else 2.0 * a_m() / LENGTH_M
    at = GC_pf(THETA_DEG)
    return (1.0 - end) * at.GC_pf(load_case, zone) + end * at.GC_pf(load_case, zone + "E")


def test_warehouse_edge_width_is_2_4_m_and_the_end_strips_a_fifth_of_the_length() -> None:
    assert a_m() == pytest.approx(2.4, rel=1e-12)
    assert 2.0 * a_m() / LENGTH_M == pytest.approx(0.2, rel=1e-12)


@pytest.mark.parametrize(
    ("load_case", "zone", "printed"),
    [
        pytest.param(load_case, zone, value, id=f"load case {load_case}, zone {zone}")
        for load_case, values in (
            (1, (0.4893333, -0.766, -0.442, -0.3693333)),
            (2, (-0.456, -0.766, -0.402, -0.456, 0.4190378, -0.3026918)),
        )
        for zone, value in zip("123456", values, strict=False)
    ],
)
def test_warehouse_mean_coefficient_is_met(load_case: int, zone: str, printed: float) -> None:
    assert mean_GC_pf(load_case, zone) == pytest.approx(printed, abs=1e-6)


@pytest.mark.parametrize(
    ("zone", "printed_kPa"),
    [
        pytest.param(zone, value, id=f"zone {zone}")
        for zone, value in zip("1234", (0.2701674, -0.4229187, -0.244034, -0.2039138), strict=True)
    ],
)
def test_warehouse_pressure_of_load_case_1_is_met(zone: str, printed_kPa: float) -> None:
    assert Q_KPA * K_d() * mean_GC_pf(1, zone) == pytest.approx(printed_kPa, abs=1e-6)


def resultants_kN() -> dict[str, float]:
    p = {(case, zone): Q_KPA * K_d() * mean_GC_pf(case, zone) for case in (1, 2) for zone in "1234"}
    p |= {(2, zone): Q_KPA * K_d() * mean_GC_pf(2, zone) for zone in "56"}
    half_plan_m2 = SPAN_M / 2.0 * LENGTH_M
    end_wall_m2 = SPAN_M * EAVE_M + SPAN_M / 2.0 * RISE_M
    return {
        "transverse Fx": (p[1, "1"] - p[1, "4"]) * EAVE_M * LENGTH_M + (p[1, "2"] - p[1, "3"]) * RISE_M * LENGTH_M,
        "transverse Fz": -(p[1, "2"] + p[1, "3"]) * half_plan_m2,
        "longitudinal Fy": (p[2, "5"] - p[2, "6"]) * end_wall_m2,
        "longitudinal Fz": -(p[2, "2"] + p[2, "3"]) * half_plan_m2,
        "internal Fz": Q_KPA * K_d() * GC_pi(Enclosure.ENCLOSED)[0] * SPAN_M * LENGTH_M,
    }


@pytest.mark.parametrize(
    ("what", "printed_kN"),
    [
        ("transverse Fx", 81.939439),
        ("transverse Fz", 192.082392),
        ("longitudinal Fy", 86.625229),
        ("longitudinal Fz", 185.722047),
        ("internal Fz", 57.243097),
    ],
)
def test_warehouse_resultant_is_met(what: str, printed_kN: float) -> None:
    assert resultants_kN()[what] == pytest.approx(printed_kN, abs=1e-3)
