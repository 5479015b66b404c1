"""Uplift on a hip roof's overhang.

Source: STRUCTURE magazine, article 21612 of structuremag.org, as quoted by a calculator's notes: ASCE 7 components
and cladding, hip roof of 20 to 27 degrees, zone 2, overhang of up to 10 sf: -2.0 - 1.0 = -3.0.
"""

from __future__ import annotations

import pytest

from framing.asce7.chapter30 import RoofForm, overhang_GC_p


@pytest.mark.parametrize("area_ft2", [1.0, 10.0])
def test_W11_overhang_of_zone_2_on_a_hip(area_ft2: float) -> None:
    assert overhang_GC_p(RoofForm.HIP, 22.62, "2", area_ft2) == pytest.approx(-3.0, abs=5e-3)
