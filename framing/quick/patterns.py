"""The wind patterns on one common truss: pressures from coefficients, each with its formula in numbers."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from framing.asce7.chapter30 import effective_wind_area_ft2, with_least_net_pressure_psf
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Edition, Procedure
from framing.plan import Basis, MwfrsProcedure, WindSpec
from framing.quick.inputs import QuickInputs
from framing.quick.section import SectionPressures, near_uplift_plf

# Slope up to which wind along the ridge may also be read with the zones meeting at mid-length: the whole
# truss in zone 2. Source: common practice, no source (one reading of the notes of ASCE 7-22, fig. 28.3-1).
_MID_LENGTH_THETA_DEG = 10.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One load pattern seen from its worse bearing, near side first; `formulas` says each pressure in numbers."""

    case: str
    wind_plf: float
    pressures: SectionPressures
    formulas: tuple[tuple[str, float, str], ...]


def wind_of(inputs: QuickInputs) -> WindSpec:
    """The wind that the clause functions read."""
    return WindSpec(
        speed_mph=inputs.speed_mph,
        exposure=inputs.exposure,
        enclosure_typed=True,
        openings=None,
        coast_distance_ft=None,
        enclosure=inputs.enclosure,
        edition=inputs.edition,
        basis=Basis.WORSE,
        mwfrs_procedure=MwfrsProcedure.ENVELOPE,
        ground_elevation_ft=0.0,
        topography=None,
    )


def envelope_patterns(inputs: QuickInputs, clauses: Edition, near: str, far: str) -> tuple[Pattern, ...]:
    """Both load cases and both internal pressures, near slope in one zone and far slope in the other.

    Parameters
    ----------
    inputs : QuickInputs
        The truss and its wind.
    clauses : Edition
        The edition's clause functions.
    near, far : str
        Zones of figure 28.3-1, '2' and '3' or '2E' and '3E'.

    Source: ASCE 7-22, sec. 28.3.1, eq. 28.3-1 and fig. 28.3-1; overhang sec. 28.3.5 (number inferred).
    """
    zones = [(1, near, far), (2, near, far)]
    if inputs.theta_deg <= _MID_LENGTH_THETA_DEG:
        zones.append((2, near, near))
    insides = clauses.GC_pi(inputs.enclosure)
    return tuple(_envelope(inputs, clauses, zone, inside) for zone in zones for inside in insides)


def _envelope(inputs: QuickInputs, clauses: Edition, zone: tuple[int, str, str], inside: float) -> Pattern:
    case, near, far = zone
    q_psf = clauses.q_K_d_psf(wind_of(inputs), inputs.mean_roof_height_ft, Procedure.ENVELOPE)
    coefficients = clauses.envelope(inputs.theta_deg)
    top_near, top_far = coefficients.GC_pf(case, near), coefficients.GC_pf(case, far)
    under = inputs.overhang_underside_ratio
    pressures = SectionPressures(
        near_slope_psf=q_psf * (inside - top_near),
        far_slope_psf=q_psf * (inside - top_far),
        near_overhang_psf=q_psf * (under - top_near),
        far_overhang_psf=-q_psf * top_far,
    )
    slope, tail = "ASCE 7, eq. 28.3-1 and fig. 28.3-1", "ASCE 7-22, sec. 28.3.5 (number inferred)"
    formulas = (
        (f"zone {near}: w = {q_psf:.3f} x [({inside:+.2f}) - ({top_near:+.3f})]", pressures.near_slope_psf, slope),
        (f"zone {far}: l = {q_psf:.3f} x [({inside:+.2f}) - ({top_far:+.3f})]", pressures.far_slope_psf, slope),
        (
            f"windward overhang: w_o = {q_psf:.3f} x [{under:.3f} - ({top_near:+.3f})]",
            pressures.near_overhang_psf,
            tail,
        ),
        (f"leeward overhang, top alone: l_o = {q_psf:.3f} x {-top_far:.3f}", pressures.far_overhang_psf, slope),
    )
    return _from_worse_bearing(inputs, f"load case {case}, GC_pi {inside:+.2f}", pressures, formulas)


def cladding_pattern(inputs: QuickInputs, clauses: Edition, zone: str) -> Pattern:
    """The whole truss in one roof zone, internal pressure pushing out, by the truss's own effective area.

    Parameters
    ----------
    inputs : QuickInputs
        The truss and its wind.
    clauses : Edition
        The edition's clause functions.
    zone : str
        A zone of the gable figure of the slope.

    Source: ASCE 7-22, sec. 30.3.2, eq. 30.3-1, sec. 30.7 for overhangs and sec. 30.2.2 for the least pressure.
    """
    q_psf = clauses.q_K_d_psf(wind_of(inputs), inputs.mean_roof_height_ft, Procedure.CLADDING)
    area_ft2 = float(effective_wind_area_ft2(inputs.span_ft, inputs.spacing_ft))
    top = float(clauses.roof_GC_p(RoofForm.GABLE, inputs.theta_deg, zone, area_ft2)[1])
    tail = float(clauses.overhang_GC_p(RoofForm.GABLE, inputs.theta_deg, zone, area_ft2))
    inside = max(clauses.GC_pi(inputs.enclosure))
    net_psf = with_least_net_pressure_psf(q_psf * np.array([inside - top, -tail]))
    slope_psf, overhang_psf = float(net_psf[0]), float(net_psf[1])
    pressures = SectionPressures(
        near_slope_psf=slope_psf,
        far_slope_psf=slope_psf,
        near_overhang_psf=overhang_psf,
        far_overhang_psf=overhang_psf,
    )
    source = "ASCE 7, eq. 30.3-1 and figs. 30.3-2; at least 16 psf, sec. 30.2.2"
    formulas = (
        (f"A = {area_ft2:.1f} ft2: w = l = {q_psf:.3f} x [({inside:+.2f}) - ({top:+.3f})]", slope_psf, source),
        (
            f"overhangs, both faces: w_o = l_o = {q_psf:.3f} x {-tail:.3f}",
            overhang_psf,
            "ASCE 7-22, sec. 30.7; 7-16 figs. 30.3-2",
        ),
    )
    return _from_worse_bearing(inputs, f"zone {zone}, GC_pi {inside:+.2f}", pressures, formulas)


def _from_worse_bearing(
    inputs: QuickInputs, case: str, pressures: SectionPressures, formulas: tuple[tuple[str, float, str], ...]
) -> Pattern:
    def uplift_plf(side: SectionPressures) -> float:
        return near_uplift_plf(side, inputs.span_ft, inputs.overhang_ft, inputs.rise_per_run)

    worse = max((pressures, pressures.turned), key=uplift_plf)
    words = "windward bearing" if worse is pressures else "leeward bearing"
    return Pattern(case=f"{case}, {words}", wind_plf=uplift_plf(worse), pressures=worse, formulas=formulas)
