"""Houses with corners on curves: many inside lines that nearly meet, with no truss left between."""

from __future__ import annotations

import math

import pytest

from framing.layout.assembly import build_framing
from framing.layout.doubtful_members import too_short
from framing.plan import Plan
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.curved_houses import KINDS, curved_plan
from invariants.houses import plan_of
from invariants.test_outlines import House, assert_carried, assert_covered_once_and_in_balance, assert_on_masonry

LARGE = pytest.mark.full


def assert_framed(plan: Plan) -> None:
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    house = House(plan=plan, outline=outline, roof=roof, framing=framing, took_s=0.0)
    assert_carried(framing)
    assert_on_masonry(house)
    assert_covered_once_and_in_balance(house)
    assert not too_short(list(framing.members))


@pytest.mark.parametrize(
    ("n_corners", "radius_ft"),
    [(36, 40), (44, 40), (50, 40), *(pytest.param(n, 60, marks=LARGE) for n in (70, 72, 100, 140, 200))],
)
def test_a_round_house_is_framed_without_a_truss_under_1_ft(n_corners: int, radius_ft: float) -> None:
    """Refused before framing lines under 1 ft apart were made one: two girders stood 1/2 in. from one another."""
    turns = [2 * math.pi * k / n_corners for k in range(n_corners)]
    assert_framed(
        plan_of([(round(radius_ft * (1 + math.cos(t)), 3), round(radius_ft * (1 + math.sin(t)), 3)) for t in turns])
    )


@pytest.mark.parametrize("seed", [*range(len(KINDS)), *(pytest.param(s, marks=LARGE) for s in range(6, 240))])
def test_a_house_with_curves_is_framed_without_a_truss_under_1_ft(seed: int) -> None:
    """Round, oval, with rounded corners, an apse, a bow or a hollow corner."""
    assert_framed(curved_plan(seed))
