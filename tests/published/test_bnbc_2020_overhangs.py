"""Net pressures on overhangs.

Source: Housing and Building Research Institute, Bangladesh National Building Code 2020, table of net overhang
pressures after ASCE 7-05: V = 90 mph, Exposure B, h = 30 ft, I = 1, both faces, no internal pressure. Its GCp are
those of 7-05 and stand beside each row: the check is of q and the units. Figures in data/bnbc_2020_overhangs.csv.
"""

from __future__ import annotations

import pytest

from framing.asce7.edition_2016 import K_z, q_z_psf
from framing.plan import Exposure
from published.figures import PSF_PER_KPA, figures

ROWS = [
    pytest.param(row, id=f"{row['theta']} degrees, zone {row['zone']}, {row['area_sf']} sf")
    for row in figures("bnbc_2020_overhangs")
]


@pytest.mark.parametrize("row", ROWS)
def test_the_net_overhang_pressure_of_the_row_is_met(row: dict[str, str]) -> None:
    p_kPa = q_z_psf(K_z(30.0, Exposure.B), 1.0, 1.0, 90.0) * float(row["GCp"]) / PSF_PER_KPA
    assert p_kPa == pytest.approx(float(row["p_kPa"]), abs=0.0015)
