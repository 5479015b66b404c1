"""The topographic factor: greatest at the crest, fading away from it, continuous where its steepness is cut off."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.asce7 import chapter26
from framing.asce7.edition import Procedure, edition
from framing.plan import (
    Basis,
    EditionName,
    Enclosure,
    Exposure,
    Feature,
    MwfrsProcedure,
    Topography,
    WindSpec,
)


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


def test_a_feature_counts_from_a_slope_of_0_2_and_from_15_ft_or_in_exposure_b_60_ft_on() -> None:
    """Sec. 26.8.1 (from memory): H / L_h of at least 0.2, H of at least 15 ft in C and D and 60 ft in B. At the crest
    on the ground K_zt = (1 + K_1)^2: ridge 1.45 x 0.2, hill 1.05 and 0.95 x 0.5.
    """
    crest = {"distance_ft": 0.0, "height_ft": 0.0}
    least = {"hill_height_ft": 100.0, "half_length_ft": 500.0, **crest}
    assert chapter26.K_zt(Feature.RIDGE, Exposure.C, **least) == pytest.approx(1.29**2)
    for exposure, H_ft, K_1 in ((Exposure.C, 15.0, 1.05), (Exposure.D, 15.0, 1.15), (Exposure.B, 60.0, 0.95)):
        steep = {"hill_height_ft": H_ft, "half_length_ft": 2.0 * H_ft, **crest}
        assert chapter26.K_zt(Feature.HILL, exposure, **steep) == pytest.approx((1.0 + 0.5 * K_1) ** 2)
        lower = {"hill_height_ft": H_ft - 0.01, "half_length_ft": 2.0 * H_ft, **crest}
        assert chapter26.K_zt(Feature.HILL, exposure, **lower) == 1.0


def wind(topography: Topography | None, elevation_ft: float, edition_name: EditionName) -> WindSpec:
    return WindSpec(
        speed_mph=150.0,
        exposure=Exposure.C,
        enclosure=Enclosure.ENCLOSED,
        enclosure_typed=True,
        openings=None,
        coast_distance_ft=None,
        edition=edition_name,
        basis=Basis.WORSE,
        mwfrs_procedure=MwfrsProcedure.ENVELOPE,
        ground_elevation_ft=elevation_ft,
        topography=topography,
    )


@pytest.mark.parametrize("name", list(EditionName))
@pytest.mark.parametrize("procedure", list(Procedure))
def test_a_plan_s_topography_and_elevation_enter_the_velocity_pressure_of_every_procedure(
    name: EditionName, procedure: Procedure
) -> None:
    """By hand at the crest of a hill, H 100 ft, L_h 200 ft, z 20 ft, Exposure C: K_1 = 1.05 x 0.5, K_2 = 1, K_3 =
    exp(-4 x 20 / 200) = 0.67032; K_zt = (1 + 0.351918)^2 = 1.827683. K_e at 1,000 ft: 0.9644 (table in wind figures).
    """
    crest = Topography(feature=Feature.HILL, height_ft=100.0, half_length_ft=200.0, distance_ft=0.0)
    code = edition(name)
    level = code.q_K_d_psf(wind(None, 0.0, name), 20.0, procedure)
    assert code.q_K_d_psf(wind(crest, 0.0, name), 20.0, procedure) == pytest.approx(1.827683 * level, rel=1e-6)
    assert code.q_K_d_psf(wind(None, 1000.0, name), 20.0, procedure) == pytest.approx(0.9644 * level, abs=5e-5 * level)
    assert chapter26.K_zt_at(wind(crest, 0.0, name), 20.0) == pytest.approx(1.827683, abs=1e-6)
    assert chapter26.K_zt_at(wind(None, 500.0, name), 20.0) == 1.0
