"""What pulls on the tie beam in each pattern: the wind less the roof's weight, by statics on a whole house."""

from __future__ import annotations

import pytest

from parts.masonry_houses import run_of


def test_at_both_levels_the_pulls_of_all_straps_differ_by_a_tenth_of_the_roof_s_weight() -> None:
    """0.6 W - 0.6 D and W - 0.9 D: the second less the first over 0.6 is D / 10, wind by wind.

    A house of 40 ft by 28 ft before its covering (dead loads of the default tile roof): 2.7 psf on 44 by 32 ft of roof,
    overhangs of 2 ft counted, and 5 psf of ceiling between the centre lines of the 8 in. walls.
    """
    run = run_of()
    weight_lb = 2.7 * 44.0 * 32.0 + 5.0 * (40.0 - 2.0 / 3.0) * (28.0 - 2.0 / 3.0)
    asd_lb = sum(b.pulls.asd_lb.sum(axis=0) for b in run.ground.beams)
    strength_lb = sum(b.pulls.strength_lb.sum(axis=0) for b in run.ground.beams)
    assert len(asd_lb) > 9
    assert strength_lb - asd_lb / 0.6 == pytest.approx(weight_lb / 10.0, rel=1e-6)
