"""The gable section's closed form against plain moments of the forces on many small pieces.

Source: statics (sum of moments about the other bearing); common practice, no source.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from framing.plan import Exposure
from framing.quick import QuickInputs, quick
from statics.gable_section import SectionPressures, near_uplift_plf

PRESSURES_PSF = st.floats(-80.0, 120.0)
SECTIONS = st.builds(
    SectionPressures,
    near_slope_psf=PRESSURES_PSF,
    far_slope_psf=PRESSURES_PSF,
    near_overhang_psf=PRESSURES_PSF,
    far_overhang_psf=PRESSURES_PSF,
)


def uplift_by_pieces_plf(p: SectionPressures, span_ft: float, overhang_ft: float, rise_per_run: float) -> float:
    """Moments about the far bearing (at x = span) of the forces on 2,000 pieces a slope; tails by their middle."""
    half_ft = span_ft / 2.0
    run_ft = half_ft / 2000.0
    x_ft = (np.arange(4000) + 0.5) * run_ft
    height_ft = rise_per_run * np.minimum(x_ft, span_ft - x_ft)
    near = x_ft < half_ft
    psf = np.where(near, p.near_slope_psf, p.far_slope_psf)
    up_plf = psf * run_ft
    toward_far_plf = np.where(near, -1.0, 1.0) * psf * run_ft * rise_per_run
    about_far = np.sum(up_plf * (span_ft - x_ft) + toward_far_plf * height_ft)
    about_far += p.near_overhang_psf * overhang_ft * (span_ft + overhang_ft / 2.0)
    about_far -= p.far_overhang_psf * overhang_ft * overhang_ft / 2.0
    return float(about_far / span_ft)


@given(SECTIONS, st.floats(6.0, 60.0), st.floats(0.0, 4.0), st.floats(0.0, 1.0))
def test_the_closed_form_is_the_moment_of_the_pieces(
    pressures: SectionPressures, span_ft: float, overhang_ft: float, rise_per_run: float
) -> None:
    ours = near_uplift_plf(pressures, span_ft, overhang_ft, rise_per_run)
    assert ours == pytest.approx(
        uplift_by_pieces_plf(pressures, span_ft, overhang_ft, rise_per_run), rel=1e-6, abs=1e-3
    )


@given(SECTIONS, st.floats(6.0, 60.0), st.floats(0.0, 4.0), st.floats(0.0, 1.0))
def test_both_bearings_together_carry_the_whole_load(
    p: SectionPressures, span_ft: float, overhang_ft: float, rise_per_run: float
) -> None:
    both = sum(near_uplift_plf(side, span_ft, overhang_ft, rise_per_run) for side in (p, p.turned))
    slopes = (p.near_slope_psf + p.far_slope_psf) * span_ft / 2.0
    tails = (p.near_overhang_psf + p.far_overhang_psf) * overhang_ft
    assert both == pytest.approx(slopes + tails, rel=1e-9, abs=1e-9)


def test_the_published_coefficient_of_the_corner_zone_at_20_degrees_is_1_1424() -> None:
    # GCpf 1.07 and 0.69, GCpi 0.18: the fit behind IRC table R802.11 and FBC Existing Building table 708.8.1.
    unit = SectionPressures(near_slope_psf=1.25, far_slope_psf=0.87, near_overhang_psf=0.0, far_overhang_psf=0.0)
    C = near_uplift_plf(unit, 36.0, 0.0, float(np.tan(np.radians(20.0)))) / 18.0
    assert pytest.approx(1.1424, abs=5e-5) == C


@settings(max_examples=12)
@example(21.384736502370814, 4.0, 1.0, 0.25)  # rounding leaves a sliver of the other slope's zone at the ridge
@given(st.floats(8.0, 60.0), st.floats(0.5, 4.0), st.floats(0.0, 4.0), st.floats(0.0, 1.0))
def test_the_load_path_of_a_house_gives_the_closed_form_but_for_the_overhangs_horizontal_parts(
    span_ft: float, spacing_ft: float, overhang_ft: float, rise_per_run: float
) -> None:
    """An overhang stands half its rise under the bearing: that lengthens both arms by o tan^2(theta)/2."""
    inputs = QuickInputs(
        span_ft=span_ft,
        spacing_ft=spacing_ft,
        rise_per_run=rise_per_run,
        speed_mph=150.0,
        exposure=Exposure.C,
        overhang_ft=overhang_ft,
    )
    result = quick(inputs)
    for place, answer in result.mwfrs.items():
        part = f"main frame, {place.replace('_', ' ')}"
        psf = [s.value for s in result.steps if s.part == part and s.unit == "psf"] + [0.0, 0.0]
        pressures = SectionPressures(
            near_slope_psf=psf[0], far_slope_psf=psf[1], near_overhang_psf=psf[2], far_overhang_psf=psf[3]
        )
        tails = (psf[2] - psf[3]) * overhang_ft**2 * rise_per_run**2 / (2.0 * span_ft)
        closed = near_uplift_plf(pressures, span_ft, overhang_ft, rise_per_run) + tails
        assert answer.wind_lb == pytest.approx(closed * spacing_ft, rel=1e-6, abs=1e-6)
        assert answer.dead_lb == pytest.approx(15.0 * (span_ft / 2.0 + overhang_ft) * spacing_ft, rel=1e-9)
