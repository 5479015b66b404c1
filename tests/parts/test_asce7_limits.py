"""A clause asked for something outside its limits answers with one sentence that names them."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from framing.asce7 import chapter26, chapter27, chapter28, chapter30, edition_2016
from framing.asce7.curves import RoofForm
from framing.errors import LoadError
from framing.plan import Exposure, Feature

NONE = np.array([False])
STRIPS = {"in_eave": NONE, "in_rake": NONE, "in_ridge": NONE, "in_hip": NONE}
HILL = {"half_length_ft": 0.0, "distance_ft": 0.0, "height_ft": 10.0}

CASES: dict[str, tuple[Callable[[], object], str]] = {
    "height under ground": (
        lambda: chapter26.K_z(-1.0, Exposure.B),
        "height -1.0 ft: K_z is given from 0 to 3280 ft above ground.",
    ),
    "height not a number": (
        lambda: chapter26.K_z(float("nan"), Exposure.B),
        "height nan ft: K_z is given from 0 to 3280 ft above ground.",
    ),
    "height over the gradient of 7-16": (
        lambda: edition_2016.K_z(701.0, Exposure.D),
        "height 701.0 ft: K_z of exposure D is given from 0 to 700 ft.",
    ),
    "one of several heights under ground": (
        lambda: chapter26.K_z(np.array([20.0, -1.0]), Exposure.B),
        "height [20. -1.] ft: K_z is given from 0 to 3280 ft above ground.",
    ),
    "one of several heights over the gradient of 7-16": (
        lambda: edition_2016.K_z(np.array([20.0, 701.0]), Exposure.D),
        "height [ 20. 701.] ft: K_z of exposure D is given from 0 to 700 ft.",
    ),
    "one of several areas": (
        lambda: chapter30.roof_GC_p(RoofForm.GABLE, 22.0, "1", np.array([10.0, 0.0])),
        "effective wind area [10.  0.] ft2: it must be above 0.",
    ),
    "one of several distances": (
        lambda: chapter27.C_p_parallel_roof(np.array([1.0, -1.0]), 10.0, 0.5, 0.0),
        "distance [ 1. -1.] ft from the windward edge: it must be at least 0.",
    ),
    "slope past a wall": (
        lambda: chapter27.C_p_windward_roof(90.1, 0.5, 0.0),
        "roof slope 90.1 degrees: the values square to the ridge are given from 10 to 90 degrees; "
        "below, those along the ridge hold.",
    ),
    "hill without length": (
        lambda: chapter26.K_zt(Feature.HILL, Exposure.C, hill_height_ft=50.0, **HILL),
        "K_zt: H 50.0 ft and z 10.0 ft must be at least 0, L_h 0.0 ft above 0.",
    ),
    "ridge under eave": (
        lambda: chapter26.mean_roof_height_ft(12.0, 11.0, 20.0),
        "mean roof height: the highest point 11.0 ft is under the eave 12.0 ft.",
    ),
    "envelope slope": (
        lambda: chapter28.GC_pf(91.0),
        "roof slope 91.0 degrees: figure 28.3-1 is given from 0 to 90 degrees.",
    ),
    "envelope zone": (
        lambda: chapter28.GC_pf(20.0).GC_pf(1, "5"),
        "figure 28.3-1 has no zone '5' in load case 1.",
    ),
    "directional slope": (
        lambda: chapter27.C_p_leeward_roof(9.0, 0.5),
        "roof slope 9.0 degrees: the values square to the ridge are given from 10 to 90 degrees; "
        "below, those along the ridge hold.",
    ),
    "directional distance": (
        lambda: chapter27.C_p_parallel_roof(-1.0, 10.0, 0.5, 0.0),
        "distance -1.0 ft from the windward edge: it must be at least 0.",
    ),
    "cladding slope": (
        lambda: chapter30.roof_GC_p(RoofForm.GABLE, 46.0, "1", 10.0),
        "roof slope 46.0 degrees: figures 30.3-2A to 2G are given from 0 to 45 degrees.",
    ),
    "cladding zone": (
        lambda: chapter30.roof_GC_p(RoofForm.GABLE, 22.0, "2e", 10.0)[1],
        "figure 30.3-2C has no roof zone '2e'; it has 1, 2, 3.",
    ),
    "cladding area": (
        lambda: chapter30.roof_GC_p(RoofForm.GABLE, 22.0, "1", 0.0),
        "effective wind area 0.0 ft2: it must be above 0.",
    ),
    "flat roof by strips": (
        lambda: chapter30.roof_zone(RoofForm.HIP, 7.0, **STRIPS),
        "roof slope 7.0 degrees: up to 7 degrees figure 30.3-2A holds, see flat_zone.",
    ),
    "flat roof by strips, 7-16": (
        lambda: edition_2016.roof_zone(RoofForm.HIP, 5.0, **STRIPS),
        "roof slope 5.0 degrees: up to 7 degrees figure 30.3-2A holds, see flat_zone.",
    ),
    "steep hip zone, 7-16": (
        lambda: edition_2016.roof_GC_p(RoofForm.HIP, 30.0, "2n", 10.0, 0.8),
        "figure 30.3-2H/2I has no roof zone '2n'; it has 1, 2e, 2r, 3.",
    ),
}


@pytest.mark.parametrize("name", CASES)
def test_the_sentence_names_the_limit(name: str) -> None:
    ask, sentence = CASES[name]
    with pytest.raises(LoadError) as caught:
        ask()
    assert str(caught.value) == sentence
