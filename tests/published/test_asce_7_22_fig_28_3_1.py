"""The envelope procedure's coefficients.

Source: American Society of Civil Engineers, ASCE/SEI 7-22, figure 28.3-1, as read in two public files that agree
(a machine-read copy of chapter 28 and a foreign code that follows it); no printed page was read. The figure's
note asks for linear interpolation between its rows. Figures in data/asce7_22_fig_28_3_1_gcpf.csv.
"""

from __future__ import annotations

import pytest

from framing.asce7.chapter28 import GC_pf
from published.figures import figures

ENTRIES = [
    pytest.param(
        int(row["case"]), float(theta), zone[1:], float(row[zone]), id=f"case {row['case']}, {theta}, {zone[1:]}"
    )
    for row in figures("asce7_22_fig_28_3_1_gcpf")
    for theta in row["theta_deg"].split("-")
    for zone in row
    if zone.startswith("z")
]
END_WALLS = {"5": 0.40, "6": -0.29, "5E": 0.61, "6E": -0.43}


@pytest.mark.parametrize(("load_case", "theta_deg", "zone", "printed"), ENTRIES)
def test_the_entry_of_the_figure_is_given_at_its_own_slope(
    load_case: int, theta_deg: float, zone: str, printed: float
) -> None:
    assert GC_pf(theta_deg).GC_pf(load_case, zone) == printed


@pytest.mark.parametrize("zone", END_WALLS)
def test_the_end_walls_stand_in_load_case_2_at_every_slope(zone: str) -> None:
    assert {GC_pf(theta_deg).GC_pf(2, zone) for theta_deg in (0.0, 20.0, 45.0)} == {END_WALLS[zone]}


def test_halfway_between_two_rows_stands_the_mean_of_them() -> None:
    assert GC_pf(12.5).GC_pf(1, "3E") == pytest.approx((-0.53 - 0.69) / 2.0)
    assert GC_pf(25.0).GC_pf(1, "2E") == pytest.approx((-1.07 + 0.27) / 2.0)
    assert GC_pf(67.5).GC_pf(1, "2") == pytest.approx((0.21 + 0.56) / 2.0)
