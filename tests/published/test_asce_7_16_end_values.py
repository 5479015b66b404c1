"""The ends of the curves of ASCE 7-16's gable and hip figures as a caller meets them: slope, zone, area, h/B.

Source: ASCE/SEI 7-16, figs. 30.3-2B to 2G, values at the small and the large area in an open transcription of its
commentary tables C30.3, agreeing with one reading of the charts (fair). A hip of 7 to 20 degrees has one set of curves
for h/B up to 0.5 and another from 0.8, linear between.
"""

from __future__ import annotations

import pytest

from framing.asce7.curves import RoofForm
from framing.asce7.edition_2016 import overhang_GC_p, roof_GC_p

SUCTION = [  # form, slope, zone, area: roof and overhang
    (RoofForm.GABLE, 15.0, "1", 20.0, -2.0, -2.5),
    (RoofForm.GABLE, 15.0, "2r", 250.0, -1.0, -2.0),
    (RoofForm.GABLE, 20.0, "3r", 10.0, -3.6, -4.7),
    (RoofForm.GABLE, 20.1, "3r", 4.0, -3.6, -4.7),
    (RoofForm.GABLE, 22.0, "1", 300.0, -0.8, -1.8),
    (RoofForm.GABLE, 27.0, "3e", 150.0, -1.2, -1.7),
    (RoofForm.GABLE, 27.1, "3e", 300.0, -1.0, -1.8),
    (RoofForm.GABLE, 45.0, "2n", 10.0, -2.0, -2.8),
    (RoofForm.HIP, 20.1, "1", 100.0, -0.8, -1.8),
    (RoofForm.HIP, 22.0, "2e", 10.0, -2.0, -2.5),
    (RoofForm.HIP, 27.0, "3", 200.0, -1.0, -1.5),
]
BY_HEIGHT = [  # zone, area: roof and overhang up to 0.5, then from 0.8
    ("1", 20.0, (-1.3, -1.8), (-1.8, -2.3)),
    ("1", 100.0, (-1.0, -2.0), (-1.0, -2.0)),
    ("2e", 10.0, (-1.8, -2.3), (-2.6, -3.1)),
    ("2e", 200.0, (-1.1, -2.1), (-1.4, -2.4)),
    ("2r", 10.0, (-2.4, -2.9), (-2.4, -2.9)),
    ("2r", 200.0, (-1.3, -2.3), (-1.3, -2.3)),
    ("3", 10.0, (-1.8, -2.9), (-2.6, -3.7)),
    ("3", 200.0, (-1.1, -1.6), (-1.4, -1.9)),
]


def both(form: RoofForm, theta_deg: float, zone: str, area_ft2: float, h_over_B: float) -> list[float]:
    """Suction on the roof and net on the overhang."""
    roof = roof_GC_p(form, theta_deg, zone, area_ft2, h_over_B)[1]
    return [float(roof), float(overhang_GC_p(form, theta_deg, zone, area_ft2, h_over_B))]


@pytest.mark.parametrize(("form", "theta_deg", "zone", "area_ft2", "roof", "overhang"), SUCTION)
def test_a_curve_reaches_its_ends_whatever_the_height(
    form: RoofForm, theta_deg: float, zone: str, area_ft2: float, roof: float, overhang: float
) -> None:
    for h_over_B in (0.3, 0.65, 1.2):
        assert both(form, theta_deg, zone, area_ft2, h_over_B) == pytest.approx([roof, overhang], abs=5e-4)


@pytest.mark.parametrize(("zone", "area_ft2", "low", "tall"), BY_HEIGHT)
@pytest.mark.parametrize("theta_deg", [7.1, 20.0])
def test_a_hip_of_7_to_20_degrees_is_milder_on_a_low_wide_house(
    theta_deg: float, zone: str, area_ft2: float, low: tuple[float, float], tall: tuple[float, float]
) -> None:
    for h_over_B, share in ((0.2, 0.0), (0.5, 0.0), (0.575, 0.25), (0.65, 0.5), (0.8, 1.0), (2.0, 1.0)):
        expected = [a + (b - a) * share for a, b in zip(low, tall, strict=True)]
        assert both(RoofForm.HIP, theta_deg, zone, area_ft2, h_over_B) == pytest.approx(expected, abs=5e-4)


@pytest.mark.parametrize(
    ("form", "theta_deg", "area_ft2", "plus"),
    [
        (RoofForm.GABLE, 15.0, 2.0, 0.7),
        (RoofForm.GABLE, 20.0, 100.0, 0.3),
        (RoofForm.GABLE, 30.0, 10.0, 0.9),
        (RoofForm.GABLE, 45.0, 100.0, 0.5),
        (RoofForm.HIP, 15.0, 10.0, 0.7),
        (RoofForm.HIP, 20.0, 100.0, 0.3),
    ],
)
def test_the_pressure_toward_the_roof_reaches_its_ends(
    form: RoofForm, theta_deg: float, area_ft2: float, plus: float
) -> None:
    for h_over_B in (0.3, 0.65, 1.2):
        assert roof_GC_p(form, theta_deg, "1", area_ft2, h_over_B)[0] == pytest.approx(plus, abs=5e-4)
