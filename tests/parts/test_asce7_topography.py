"""The topographic factor: greatest at the crest, fading away from it, continuous where its steepness is cut off."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.asce7 import chapter26
from framing.asce7.chapter26 import Feature
from framing.plan import Exposure


@given(
    st.sampled_from(Feature),
    st.sampled_from(Exposure),
    st.floats(60.0, 600.0),
    st.floats(60.0, 3000.0),
    st.tuples(st.floats(-9000.0, 9000.0), st.floats(0.0, 100.0)),
)
def test_the_topographic_factor_is_greatest_at_the_crest_and_fades_away_from_it_and_upward(
    feature: Feature, exposure: Exposure, hill_ft: float, half_ft: float, at_ft: tuple[float, float]
) -> None:
    x_ft, z_ft = at_ft

    def K_zt(distance_ft: float, height_ft: float) -> float:
        return chapter26.K_zt(
            feature,
            exposure,
            hill_height_ft=hill_ft,
            half_length_ft=half_ft,
            distance_ft=distance_ft,
            height_ft=height_ft,
        )

    assert 1.0 <= K_zt(2.0 * x_ft, z_ft) <= K_zt(x_ft, z_ft) <= K_zt(0.0, z_ft) <= K_zt(0.0, 0.0)
    assert K_zt(x_ft, z_ft + 10.0) <= K_zt(x_ft, z_ft)


def test_the_topographic_factor_meets_itself_where_its_steepness_is_cut_off() -> None:
    def K_zt(half_length_ft: float) -> float:
        return chapter26.K_zt(
            Feature.HILL,
            Exposure.C,
            hill_height_ft=100.0,
            half_length_ft=half_length_ft,
            distance_ft=-80.0,
            height_ft=20.0,
        )

    assert K_zt(200.0 - 1e-7) == pytest.approx(K_zt(200.0 + 1e-7), abs=1e-8)


def test_a_feature_too_flat_or_too_low_counts_for_nothing() -> None:
    flat = {"hill_height_ft": 100.0, "half_length_ft": 501.0, "distance_ft": 0.0, "height_ft": 0.0}
    low = {"hill_height_ft": 59.0, "half_length_ft": 100.0, "distance_ft": 0.0, "height_ft": 0.0}
    assert chapter26.K_zt(Feature.RIDGE, Exposure.B, **flat) == 1.0
    assert chapter26.K_zt(Feature.RIDGE, Exposure.B, **low) == 1.0
    assert chapter26.K_zt(Feature.RIDGE, Exposure.C, **low) > 1.0
