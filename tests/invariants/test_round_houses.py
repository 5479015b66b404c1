"""Houses with corners on a circle: two of their many inside lines always nearly meet, and no truss is left between."""

from __future__ import annotations

import math

import pytest

from framing.layout.assembly import build_framing
from framing.layout.doubtful_members import too_short
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of
from invariants.test_outlines import House, assert_carried, assert_covered_once_and_in_balance, assert_on_masonry

RADIUS_FT = 40.0


@pytest.mark.parametrize("n_corners", [36, 44, 50])
def test_a_round_house_is_framed_without_a_truss_under_1_ft(n_corners: int) -> None:
    """Refused before framing lines under 1 ft apart were made one: two girders stood 1/2 in. from one another."""
    turns = [2 * math.pi * k / n_corners for k in range(n_corners)]
    ring = [(round(RADIUS_FT * (1 + math.cos(t)), 3), round(RADIUS_FT * (1 + math.sin(t)), 3)) for t in turns]
    plan = plan_of(ring)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    house = House(plan=plan, outline=outline, roof=roof, framing=framing, took_s=0.0)
    assert_carried(framing)
    assert_on_masonry(house)
    assert_covered_once_and_in_balance(house)
    assert not too_short(list(framing.members))
