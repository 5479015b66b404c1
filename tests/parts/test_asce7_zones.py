"""Which zone the strips along a roof's edges make, as the figures draw it: every strip alone and where two cross.

ASCE 7-22, figs. 30.3-2B to 2G (fair; the rest of the rake strips of 2D and the overlap on hips inferred); ASCE 7-16,
figs. 30.3-2B to 2I (names fair; the corner of the hip from memory). A rake on a hip roof: own choice, safe side.
"""

from __future__ import annotations

import numpy as np
import pytest

from framing.asce7 import chapter30
from framing.asce7.curves import RoofForm
from framing.asce7.edition import edition
from framing.plan import EditionName

STRIPS = ("in_eave", "in_rake", "in_ridge", "in_hip")
MAPS = {  # the strips that a piece lies in: its zone on each of the five ROOFS
    "": ("1", "1", "1", "1", "1"),
    "eave": ("1", "1", "2e", "3", "2e"),
    "rake": ("2", "2", "2n", "3", "3"),
    "ridge": ("2", "1", "2r", "2", "2r"),
    "hip": ("1", "1", "1", "2", "2r"),  # a gable roof has none
    "eave rake": ("2", "3", "3e", "3", "3"),
    "rake ridge": ("3", "2", "3r", "3", "3"),
    "eave hip": ("1", "1", "2e", "3", "3"),
    "ridge hip": ("2", "1", "2r", "2", "2r"),
    "eave ridge": ("2", "1", "2r", "3", "2e"),  # a house as narrow as that
}
ROOFS = (
    (EditionName.ASCE_7_22, RoofForm.GABLE, (7.1, 20.0, 27.0)),
    (EditionName.ASCE_7_22, RoofForm.GABLE, (27.1, 45.0)),
    (EditionName.ASCE_7_16, RoofForm.GABLE, (7.1, 20.0, 27.1, 45.0)),
    (EditionName.ASCE_7_22, RoofForm.HIP, (7.1, 27.0, 45.0)),
    (EditionName.ASCE_7_16, RoofForm.HIP, (7.1, 27.0, 45.0)),
)


@pytest.mark.parametrize("strips", MAPS)
@pytest.mark.parametrize("roof", range(len(ROOFS)))
def test_a_piece_of_roof_lies_in_the_zone_that_its_strips_make(strips: str, roof: int) -> None:
    name, form, slopes_deg = ROOFS[roof]
    inside = {strip: np.array([strip.removeprefix("in_") in strips.split()]) for strip in STRIPS}
    for theta_deg in slopes_deg:
        assert edition(name).roof_zone(form, theta_deg, **inside).tolist() == [MAPS[strips][roof]], theta_deg


@pytest.mark.parametrize(
    ("name", "form", "theta_deg", "zones"),
    [
        (EditionName.ASCE_7_22, RoofForm.GABLE, 7.0, {"1", "1'", "2", "3"}),
        (EditionName.ASCE_7_22, RoofForm.GABLE, 22.0, {"1", "2", "3"}),
        (EditionName.ASCE_7_22, RoofForm.HIP, 45.0, {"1", "2", "3"}),
        (EditionName.ASCE_7_16, RoofForm.HIP, 7.0, {"1", "1'", "2", "3"}),
        (EditionName.ASCE_7_16, RoofForm.GABLE, 22.0, {"1", "2e", "2n", "2r", "3e", "3r"}),
        (EditionName.ASCE_7_16, RoofForm.HIP, 22.0, {"1", "2e", "2r", "3"}),
        (EditionName.ASCE_7_16, RoofForm.HIP, 45.0, {"1", "2e", "2r", "3"}),
    ],
)
def test_a_roof_has_the_zones_of_its_figure(
    name: EditionName, form: RoofForm, theta_deg: float, zones: set[str]
) -> None:
    found = edition(name).roof_zones(form, theta_deg)
    assert set(found) == zones
    assert len(found) == len(zones)


def test_a_gable_s_hard_corners_move_from_the_ridge_to_the_eaves_over_27_degrees() -> None:
    """Figures 30.3-2B and 2C against 2D, zone maps (fair)."""
    assert [chapter30.eave_corners(theta_deg) for theta_deg in (7.5, 20.0, 27.0, 27.1, 45.0)] == [False] * 3 + [
        True
    ] * 2
