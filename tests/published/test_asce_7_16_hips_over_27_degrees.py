"""Hip roofs over 27 to 45 degrees by ASCE 7-16, worked out by hand at 36 and 45 degrees.

Source: ASCE/SEI 7-16, figs. 30.3-2H and 2I by the equations of its commentary tables C30.3, in one open transcription
(low confidence; the areas of zone 2r were not recorded, its suction is held for every area). Values at the small and
the large area, linear in log A between: toward the roof 1.0063 - 0.3532 log A from 2 to 100 sq ft; zone 1 -0.6175 -
0.02 theta at 10 sq ft, -0.095 - 0.0135 theta at 200; zone 2e 0.2 - 0.067 theta at 2, -0.8 at 280 - 5 theta; zone 2r 1 -
0.082 theta; zone 3 1.25 - 0.108 theta at 9 - 0.135 theta, -1.0 at 50. Overhangs, both faces, 0.8 lower.
"""

from __future__ import annotations

import math

import pytest

from framing.asce7.curves import RoofForm
from framing.asce7.edition_2016 import overhang_GC_p, roof_GC_p

WORKED = {  # slope, zone: area and suction at the small end, then at the large one
    (36.0, "1"): (10.0, -1.3375, 200.0, -0.581),
    (45.0, "1"): (10.0, -1.5175, 200.0, -0.7025),
    (36.0, "2e"): (2.0, -2.212, 100.0, -0.8),
    (45.0, "2e"): (2.0, -2.815, 55.0, -0.8),
    (36.0, "2r"): (10.0, -1.952, 100.0, -1.952),
    (45.0, "2r"): (10.0, -2.69, 100.0, -2.69),
    (36.0, "3"): (4.14, -2.638, 50.0, -1.0),
    (45.0, "3"): (2.925, -3.61, 50.0, -1.0),
}


@pytest.mark.parametrize(("theta_deg", "zone"), WORKED)
def test_a_zone_s_suction_reaches_both_ends_is_flat_beyond_and_straight_in_log_a(theta_deg: float, zone: str) -> None:
    low_ft2, small, high_ft2, large = WORKED[theta_deg, zone]
    middle_ft2 = math.sqrt(low_ft2 * high_ft2)
    at = {low_ft2: small, low_ft2 / 2: small, middle_ft2: (small + large) / 2, high_ft2: large, 2 * high_ft2: large}
    for area_ft2, by_hand in at.items():
        assert roof_GC_p(RoofForm.HIP, theta_deg, zone, area_ft2, 0.8)[1] == pytest.approx(by_hand, abs=1e-9)
        lower = overhang_GC_p(RoofForm.HIP, theta_deg, zone, area_ft2, 0.8)
        assert lower == pytest.approx(by_hand - 0.8, abs=1e-9)


@pytest.mark.parametrize("zone", ["1", "2e", "2r", "3"])
@pytest.mark.parametrize("theta_deg", [27.1, 36.0, 45.0])
def test_every_zone_shares_one_pressure_toward_the_roof(theta_deg: float, zone: str) -> None:
    """To the equation's four digits."""
    for area_ft2, held_ft2 in ((1.0, 2.0), (2.0, 2.0), (17.0, 17.0), (100.0, 100.0), (300.0, 100.0)):
        plus = roof_GC_p(RoofForm.HIP, theta_deg, zone, area_ft2, 0.8)[0]
        assert plus == pytest.approx(1.0063 - 0.3532 * math.log10(held_ft2), abs=3e-4)
