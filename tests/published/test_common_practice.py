"""Facts of the trade that the hip sample must meet. Every one is common practice, no source.

Wind and basis of the comparison: the hip sample's own, 165 mph (ultimate), Exposure C, enclosed, the worse of main
frame and cladding.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.plan import Basis, Exposure
from framing.plan_file import read_plan
from framing.run import Run, make_run

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "hip_house.toml"
JACKS = (MemberKind.CORNER_JACK, MemberKind.SIDE_JACK, MemberKind.END_JACK)


@cache
def run() -> Run:
    return make_run(read_plan(SAMPLE), shipped_catalogue())


def uplifts_lb(*kinds: MemberKind) -> np.ndarray:
    return np.array(
        [u for b, u in zip(run().framing.bearings, run().reactions.uplift_lb, strict=True) if b.kind in kinds]
    )


def test_the_sample_has_the_wind_and_the_basis_that_the_figures_are_for() -> None:
    wind = run().plan.wind
    assert (wind.speed_mph, wind.exposure, wind.basis) == (165.0, Exposure.C, Basis.WORSE)


def test_every_jack_pulls_less_than_every_common() -> None:
    """Common practice, no source: jacks take a lighter anchor than commons."""
    commons = uplifts_lb(MemberKind.COMMON, MemberKind.STEP_DOWN)
    assert uplifts_lb(*JACKS).max() < commons.min()


def test_a_hip_girder_pulls_about_twice_a_common() -> None:
    """Closed form (own statics, no overhang): 1.75 for W 24, S 6; 2.65 for W 48, S 10."""
    girder = uplifts_lb(MemberKind.HIP_GIRDER).max()
    common = np.median(uplifts_lb(MemberKind.COMMON))
    assert 1.75 <= girder / common <= 2.65
