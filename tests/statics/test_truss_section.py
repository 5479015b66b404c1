"""The gable section's closed form against plain moments of the forces on many small pieces.

Source: statics (sum of moments about the other bearing); common practice, no source.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.quick.section import SectionPressures, dead_plf, near_uplift_plf

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


def test_the_dead_load_of_a_bearing_is_half_the_span_and_its_overhang() -> None:
    assert dead_plf(15.0, 36.0, 2.0) == 300.0
