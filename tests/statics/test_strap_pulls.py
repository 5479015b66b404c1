"""What pulls on the tie beam in each pattern: the wind less the roof's weight, by statics on a whole house."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.ground.beam_stretches import beam_stretches
from framing.ground.strap_pulls import strap_pulls
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


def test_the_first_pattern_is_every_mark_at_its_own_uplift_and_the_others_are_winds() -> None:
    run = run_of()
    for beam in run.ground.beams:
        own_lb = [run.schedule.marks[i].uplift_lb for i in beam.pulls.rows]
        assert beam.pulls.asd_lb[:, 0] == pytest.approx(own_lb)
        first, *others = beam.pulls.patterns
        assert first == "every mark at its uplift"
        assert all("wind onto W" in name for name in others)


def test_a_mark_without_beam_of_its_own_wall_under_it_pulls_at_the_nearest_of_another() -> None:
    """The beam of W1 taken away up to 12 ft of its tape: the corner's strap stands on the end of W4's, the one at some
    18 ft still on W1's; W4 runs toward the corner, so that its own station there is near its whole length.
    """
    run = run_of()
    whole = beam_stretches(run.outline, ())
    cut = tuple(replace(s, from_ft=12.0) if s.name == "W1" else s for s in whole)
    pulls = strap_pulls(run.plan, run.outline, run.schedule, run.reactions, cut)
    on = {i: (s.name, at) for s, p in zip(cut, pulls, strict=True) for i, at in zip(p.rows, p.at_ft, strict=True)}
    of_w1 = {m.bearing.strap_station_ft: i for i, m in enumerate(run.schedule.marks) if m.bearing.wall == "W1"}
    corner, far = of_w1[min(of_w1)], of_w1[min(s for s in of_w1 if s > 18.0)]
    assert min(of_w1) < 1.0
    assert on[corner] == ("W4", pytest.approx(28.0 - 0.5, abs=0.2))
    assert on[far] == ("W1", pytest.approx(run.schedule.marks[far].bearing.strap_station_ft))
    assert sorted(on) == list(range(len(run.schedule.marks)))
