"""What ends hand to the members that they hang on: the closed forms of a hip end, and balance."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.loads.hung_ends import HungEnd, build_hung_ends
from framing.plan import RoofType
from framing.run import Run, make_run
from invariants.houses import plan_of

SETBACK_FT, WIDTH_FT = 7.0, 30.0
PRESS_PSF = 40.0  # dead and live of the default plan on every square foot of plan inside the walls


def hip() -> Run:
    """No overhang, thin walls: the closed forms count areas from wall to girder."""
    plan = plan_of([(0, 0), (60, 0), (60, WIDTH_FT), (0, WIDTH_FT)], type=RoofType.HIP, overhang_ft=0.0)
    dead = replace(plan.dead, top_for_gravity_psf=15.0, bottom_for_gravity_psf=0.0, roof_live_psf=25.0)
    return make_run(replace(plan, wall_thickness_ft=0.01, dead=dead), shipped_catalogue())


def ends(run: Run) -> dict[str, list[HungEnd]]:
    found: dict[str, list[HungEnd]] = {}
    for e in build_hung_ends(run.plan, run.framing, run.patches, run.pieces, run.loads):
        kind = str(run.framing.member(e.member).kind)
        found.setdefault(kind, []).append(e)
    return found


def test_end_jacks_and_corner_jacks_hand_the_girder_what_statics_says() -> None:
    """End jack s S / 2 = 7.0 sq ft. Corner jack S^2 / 3 = 16.33 sq ft in the limit of close jacks, less the half of the
    last half bay that the girder takes itself: from both sides 0.5 ft of strips 6.75 ft long, half of each: 3.38.
    """
    found = ends(hip())
    middle = sorted(e.down_lb for e in found["end jack"])[len(found["end jack"]) // 2]
    assert middle == pytest.approx(PRESS_PSF * 2.0 * SETBACK_FT / 2.0, rel=0.01)
    for e in found["corner jack"]:
        assert e.carrier.startswith("hip girder")
        assert e.carrier_plies == 2
        assert e.down_lb == pytest.approx(PRESS_PSF * (SETBACK_FT**2 / 3.0 - 3.38), rel=0.05)


def test_what_hangs_on_a_girder_and_its_own_strip_are_its_reactions_down() -> None:
    """Both ends of a hip girder carry the jacks on it and half a bay beyond it: (S (W - 2 S) / 2 ... ) as areas by
    hand: 2 x (S (W - 2 S) / 4 + S^2 / 3 + s W / 4) = 2 x 59.33 = 118.7 sq ft for S 7, W 30, s 2.
    """
    run = hip()
    found = ends(run)
    girder = "hip girder 1"
    hung = sum(e.down_lb for kind in found.values() for e in kind if e.carrier == girder)
    own = sum(m.down_lb for m in run.schedule.marks if m.bearing.member == girder)
    assert own == pytest.approx(PRESS_PSF * 2.0 * 59.33, rel=0.04)
    assert hung == pytest.approx(PRESS_PSF * (2.0 * 59.33 - WIDTH_FT * 2.0 / 2.0), rel=0.05)


def test_a_suction_that_lifts_the_jacks_lifts_their_hung_ends_too() -> None:
    found = ends(hip())
    assert all(e.uplift_lb > 100.0 for e in found["end jack"])
    assert np.isfinite([e.uplift_lb for kind in found.values() for e in kind]).all()


def test_a_gable_house_hangs_nothing() -> None:
    run = make_run(plan_of([(0, 0), (40, 0), (40, 28), (0, 28)], type=RoofType.GABLE), shipped_catalogue())
    assert build_hung_ends(run.plan, run.framing, run.patches, run.pieces, run.loads) == ()
