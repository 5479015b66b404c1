"""QuickInputs -> QuickResult: both bases at one common truss, step by step."""

from __future__ import annotations

from types import MappingProxyType

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Edition, Procedure, edition
from framing.asce7.tables import constants
from framing.quick.inputs import QuickInputs, QuickResult, QuickUplift, Step
from framing.quick.patterns import Pattern, cladding_pattern, envelope_patterns, wind_of
from framing.quick.section import dead_plf

# Near and far slope of each place. Source: ASCE 7-22, fig. 28.3-1.
_PLACES = {"end_zone": ("2E", "3E"), "interior": ("2", "3")}


def quick(inputs: QuickInputs) -> QuickResult:
    """Uplift at the worse bearing of one common truss of a gable roof, main frame and cladding.

    The whole truss stands in the zone named, as in the published tables. Main frame: both load cases, each
    bearing as the windward one, both internal pressures; the whole near slope is zone 2 or 2E (its limit of
    2.5 eave heights is not used: on the safe side), and the underside of the near overhang is loaded in
    both load cases, as the published tables have it. Cladding: every piece by the truss's own effective area.

    Parameters
    ----------
    inputs : QuickInputs
        The truss and its wind.

    Returns
    -------
    QuickResult
        Uplifts in pounds at ASD level, and the arithmetic.

    Raises
    ------
    LoadError
        If the slope or the height is outside the clauses.
    """
    clauses = edition(inputs.edition)
    dead_lb = inputs.spacing_ft * dead_plf(inputs.dead_psf, inputs.span_ft, inputs.overhang_ft)
    steps = _wind_steps(inputs, clauses, dead_lb)
    mwfrs: dict[str, QuickUplift] = {}
    for place, zones in _PLACES.items():
        worst = max(envelope_patterns(inputs, clauses, *zones), key=lambda pattern: pattern.wind_plf)
        mwfrs[place] = _answer(inputs, worst, dead_lb)
        steps += _pattern_steps(inputs, worst, mwfrs[place], f"main frame, {place.replace('_', ' ')}")
    cladding: dict[str, QuickUplift] = {}
    for zone in clauses.roof_zones(RoofForm.GABLE, inputs.theta_deg):
        pattern = cladding_pattern(inputs, clauses, zone)
        cladding[zone] = _answer(inputs, pattern, dead_lb)
        steps += _pattern_steps(inputs, pattern, cladding[zone], f"cladding, zone {zone}")
    return QuickResult(
        inputs=inputs, mwfrs=MappingProxyType(mwfrs), cladding=MappingProxyType(cladding), steps=tuple(steps)
    )


def _answer(inputs: QuickInputs, pattern: Pattern, dead_lb: float) -> QuickUplift:
    wind_lb = pattern.wind_plf * inputs.spacing_ft
    net_lb = ASD_UPLIFT.net_uplift(wind_lb, dead_lb)
    return QuickUplift(uplift_lb=max(0.0, net_lb), wind_lb=wind_lb, dead_lb=dead_lb, case=pattern.case)


def _wind_steps(inputs: QuickInputs, clauses: Edition, dead_lb: float) -> list[Step]:
    """What all parts share: slope, K_z and q K_d of both bases, internal pressure, dead load."""
    h_ft, exposure, speed_mph = inputs.mean_roof_height_ft, inputs.exposure, inputs.speed_mph
    alpha, z_g_ft, coefficient = clauses.exposure_constants(exposure)
    figures = constants("chapter26_constants")
    power = f"{coefficient} x ({max(h_ft, figures['K_z_least_height']):g}/{z_g_ft:g})^(2/{alpha:g})"

    def step(text: str, value: float, unit: str, source: str) -> Step:
        return Step(part="wind and weight", text=text, value=value, unit=unit, source=source)

    steps = [step(f"theta = atan({inputs.rise_per_run:.4f})", inputs.theta_deg, "deg", "geometry")]
    for procedure, words in ((Procedure.ENVELOPE, "main frame"), (Procedure.CLADDING, "cladding")):
        K_z = clauses.K_z_of(h_ft, exposure, procedure)
        floor = ", not under 0.70 in exposure B" if procedure is Procedure.ENVELOPE and exposure == "B" else ""
        q_psf = clauses.q_K_d_psf(wind_of(inputs), h_ft, procedure)
        product = f"{figures['velocity_pressure']} x {K_z:.4f} x 1.0 x 1.0 x {figures['K_d']} x {speed_mph:g}^2"
        steps += [
            step(f"{words}: K_z = {power}{floor}", K_z, "", f"{clauses.name}, table 26.10-1 note"),
            step(f"{words}: q K_d = {product} (K_zt = K_e = 1)", q_psf, "psf", f"{clauses.name}, eq. 26.10-1"),
        ]
    inside = max(clauses.GC_pi(inputs.enclosure))
    arm = f"({inputs.span_ft:g}/2 + {inputs.overhang_ft:g})"
    return [
        *steps,
        step(f"GC_pi, {inputs.enclosure} building, plus or minus", inside, "", f"{clauses.name}, table 26.13-1"),
        step(
            f"D = {inputs.dead_psf:g} x {arm} x {inputs.spacing_ft:g}", dead_lb, "lb", "half the span and the overhang"
        ),
    ]


def _pattern_steps(inputs: QuickInputs, pattern: Pattern, answer: QuickUplift, part: str) -> list[Step]:
    """The pressures, the moment about the far bearing, the combination."""
    p, L, o = pattern.pressures, inputs.span_ft, inputs.overhang_ft
    w, far, w_o, far_o = p.near_slope_psf, p.far_slope_psf, p.near_overhang_psf, p.far_overhang_psf
    moments = (
        f"R = 3 x {w:.2f} x {L:g}/8 + {far:.2f} x {L:g}/8"
        f" - ({w:.2f} - {far:.2f}) x {L:g} x {inputs.rise_per_run:.4f}^2/8"
        f" + {w_o:.2f} x {o:g} x ({L:g} + {o:g}/2)/{L:g} - {far_o:.2f} x {o:g}^2/(2 x {L:g})"
    )
    per_truss = f"W = {pattern.wind_plf:.2f} x {inputs.spacing_ft:g}, {pattern.case}"
    net = f"0.6 W - 0.6 D = 0.6 x {answer.wind_lb:.1f} - 0.6 x {answer.dead_lb:.1f}, not under 0"
    return [
        *(
            Step(part=part, text=text, value=value, unit="psf", source=source)
            for text, value, source in pattern.formulas
        ),
        Step(part=part, text=moments, value=pattern.wind_plf, unit="plf", source="moments about the other bearing"),
        Step(part=part, text=per_truss, value=answer.wind_lb, unit="lb", source="tributary width = spacing"),
        Step(part=part, text=net, value=answer.uplift_lb, unit="lb", source="ASCE 7-22, sec. 2.4.1, combination 7a"),
    ]
