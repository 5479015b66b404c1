"""The worked lintel and jamb of a public design manual, as arithmetic checks of the statics.

Source: UFC 3-310-05A / TM 5-809-3, Masonry Structural Design for Buildings (US Government, public), worked examples of
pages 0048, 0078 and 0083 as read from the page images; rows U3, U6, U7 of tests/published/data/ufc_lintel.csv.
Its old working stresses are no allowables of today and are not compared.
"""

from __future__ import annotations

import numpy as np
import pytest

from framing.ground.beam_on_cells import beam_forces
from framing.ground.reinforced_concrete import Section, largest_stirrup_spacing_in
from framing.ground.strap_pulls import Pulls
from framing.ground.tie_beam import simple_span
from published.figures import figures

RESULT = {row["id"]: row["result"] for row in figures("ufc_lintel")}


def line_pulls(plf: float, from_ft: float, to_ft: float) -> Pulls:
    """A line load as close straps."""
    n = 2000
    at = from_ft + (np.arange(n) + 0.5) * (to_ft - from_ft) / n
    pull = np.full((n, 1), plf * (to_ft - from_ft) / n)
    return Pulls(rows=tuple(range(n)), at_ft=at, asd_lb=pull, strength_lb=pull, patterns=("line",))


def test_U3_the_shear_of_a_continuous_lintel_is_near_1_15_w_l_halves_and_w_l_halves() -> None:
    """V1 = 1.15 x 934 x 12/2 = 6445 lb by coefficient, four spans exactly 6 % more; V2 = 5604 lb on one span alone."""
    assert RESULT["U3"] == "V1 = 1.15 x 934 x 12/2 = 6445 lb; V2 = 5604 lb"
    pulls = line_pulls(934.0, 0.0, 48.0)
    four = beam_forces(np.arange(5) * 12.0, pulls.at_ft, pulls.asd_lb, 0.0, (0.0, 48.0))
    assert four.shear_lb.max() == pytest.approx(6445, rel=0.06)
    feel, (start_lb, end_lb) = simple_span(
        line_pulls(934.0, 0.0, 12.0), line_pulls(934.0, 0.0, 12.0).asd_lb, 0.0, (0, 12)
    )
    assert feel.shear_lb == pytest.approx(5604, abs=5.0)
    assert (start_lb, end_lb) == (pytest.approx(5604, abs=0.5), pytest.approx(5604, abs=0.5))


def test_U6_stirrups_stand_at_most_half_the_depth_apart() -> None:
    """At most d/2 = 10.31 in. at d = 20.62 in."""
    assert "s max d/2 = 10.31" in RESULT["U6"]
    section = Section(width_in=7.62, effective_depth_in=20.62, depth_in=23.62, steel_in2=0.4, f_c_psi=2500.0)
    assert largest_stirrup_spacing_in(section) == pytest.approx(10.31, abs=0.005)


def test_U7_a_jamb_takes_half_of_the_opening_and_half_of_the_next_span() -> None:
    """300 plf on 7.33 ft (12 ft over the opening, 2 ft 8 in. to the next cell) and 92 psf x 2 ft of lintel: 3303 lb."""
    assert RESULT["U7"].endswith("= 3303 lb")
    wall = line_pulls(300.0, 0.0, 12.0 + 8.0 / 3.0)
    lintel = line_pulls(92.0 * 2.0, 0.0, 12.0)
    over = (
        simple_span(wall, wall.asd_lb, 0.0, (0.0, 12.0))[1][1]
        + simple_span(lintel, lintel.asd_lb, 0.0, (0.0, 12.0))[1][1]
    )
    beyond = simple_span(wall, wall.asd_lb, 0.0, (12.0, 12.0 + 8.0 / 3.0))[1][0]
    assert over + beyond == pytest.approx(3303, abs=1.5)
