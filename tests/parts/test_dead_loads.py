"""The weights that each covering brings, by hand at 9:12, where a square foot of plan has 1.25 of slope.

Weights on the slope, common practice, no source, but for those of ASCE 7, table C3 (asphalt shingles 2 psf, clay tile
10 to 19 by shape), and of plywood decks, which are from memory: shingles 2 to 3, metal panels 1 to 1.5, concrete tile
8.5 to 12, clay tile 8 to 19; under shingles and metal a 15/32 deck with felt, 1.7 to 2, under tile a 19/32 deck, 1.8
to 2.3. Half a truss at 24 in. is 0.75 to 1.5 psf of plan (common practice, no source).
"""

from __future__ import annotations

import pytest

from framing.plan_file.coverings import before_covering_psf, coverings, dead_loads_of


@pytest.mark.parametrize(
    ("covering", "deck", "low", "gravity"),
    [
        ("asphalt shingles", 1.7, 2.0 + 1.7, 3.0 + 2.0),
        ("metal panels", 1.7, 1.0 + 1.7, 1.5 + 2.0),
        ("concrete tile", 1.8, 8.5 + 1.8, 12.0 + 2.3),
        ("clay tile", 1.8, 8.0 + 1.8, 19.0 + 2.3),
    ],
)
def test_a_covering_weighs_what_the_trade_says_and_so_does_its_deck(
    covering: str, deck: float, low: float, gravity: float
) -> None:
    (found,) = (c for c in coverings() if c.name == covering)
    assert (found.deck_low_psf, found.low_psf, found.gravity_psf) == pytest.approx((deck, low, gravity))


@pytest.mark.parametrize(
    ("covering", "uplift", "bare", "gravity"),
    [
        ("asphalt shingles", 3.7 * 1.25 + 0.75, 1.7 * 1.25 + 0.75, 5.0 * 1.25 + 1.5),
        ("metal panels", 2.7 * 1.25 + 0.75, 1.7 * 1.25 + 0.75, 3.5 * 1.25 + 1.5),
        ("concrete tile", 10.0, 1.8 * 1.25 + 0.75, 15.0),  # finished round figures; bare its deck and half a truss
        ("clay tile", 9.8 * 1.25 + 0.75, 1.8 * 1.25 + 0.75, 21.3 * 1.25 + 1.5),
    ],
)
def test_on_plan_area_it_is_the_slope_s_weight_and_half_a_truss_and_without_covering_the_deck_stays(
    covering: str, uplift: float, bare: float, gravity: float
) -> None:
    dead = dead_loads_of(covering, 0.75)
    assert dead.top_for_uplift_psf == pytest.approx(uplift, abs=0.0051)
    assert dead.top_before_covering_psf == pytest.approx(bare, abs=0.0051)
    assert dead.top_for_gravity_psf == pytest.approx(gravity, abs=0.0051)
    assert (dead.bottom_for_uplift_psf, dead.bottom_for_gravity_psf, dead.roof_live_psf) == (5.0, 10.0, 20.0)
    assert dead.without_covering


def test_weights_are_told_to_a_hundredth_of_a_psf() -> None:
    """At 5:12 a slope is 13/12 of its plan: 3.7 x 13/12 + 0.75 = 4.758, bare 1.7 x 13/12 + 0.75 = 2.592."""
    dead = dead_loads_of("asphalt shingles", 5 / 12)
    assert (dead.top_for_uplift_psf, dead.top_before_covering_psf, dead.top_for_gravity_psf) == (4.76, 2.59, 6.92)


@pytest.mark.parametrize("covering", ["concrete tile", "clay tile"])
@pytest.mark.parametrize(("rise", "bare"), [(0.25, 2.61), (5 / 12, 2.70), (0.75, 3.0), (1.0, 3.30)])
def test_a_tile_roof_keeps_its_deck_and_half_truss_at_every_pitch(covering: str, rise: float, bare: float) -> None:
    """1.8 psf of slope: 1.8 x 1.0308, 1.0833, 1.25 and 1.4142, and 0.75."""
    assert before_covering_psf(covering, rise) == pytest.approx(bare, abs=0.0051)
    assert dead_loads_of(covering, rise).top_before_covering_psf == before_covering_psf(covering, rise)
