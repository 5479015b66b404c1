"""The steps of the public hurricane scale against the gusts under the walkthrough's wind slider.

The National Hurricane Center's ranges of the maximum steady (1-minute) wind, mph: 74 to 95, 96 to 110, 111 to 129,
130 to 156, 157 and more (its page 'Saffir-Simpson Hurricane Wind Scale', as quoted in a public table read in November
2026).
The gusts themselves are from memory: what is checked is that they belong to that scale.
"""

from __future__ import annotations

import itertools

from framing.asce7.chapter26 import hurricane_gusts_mph
from framing.asce7.tables import rows

STEADY_MPH = (74, 96, 111, 130, 157)


def test_the_steady_winds_are_the_center_s_and_each_step_s_gust_is_about_a_tenth_more() -> None:
    """A 3-second gust over open land is about 1.1 times the minute's wind over water (ratio from memory)."""
    table = rows("chapter26_hurricane_gusts")
    assert tuple(int(row["steady_over_water_mph"]) for row in table) == STEADY_MPH
    for gust, steady in zip(hurricane_gusts_mph(), STEADY_MPH, strict=True):
        assert 1.08 <= gust / steady <= 1.12
    assert all(a < b for a, b in itertools.pairwise(hurricane_gusts_mph()))
