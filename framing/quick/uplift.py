"""QuickInputs -> QuickResult: both bases at one common truss, step by step."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from types import MappingProxyType

import numpy as np

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter30 import effective_wind_area_ft2
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Edition, Procedure, edition
from framing.asce7.tables import constants
from framing.loads.cases import LoadBasis, LoadCase, cladding_cases, gravity_cases, main_frame_cases
from framing.loads.load_path import Variant
from framing.quick.inputs import QuickInputs, QuickResult, QuickUplift, Step
from framing.quick.lines import RoofLine, roof_lines
from framing.quick.long_gable import LongGable, long_gable

_PRESSURE = {
    LoadBasis.MWFRS: "ASCE 7, eq. 28.3-1 and fig. 28.3-1; overhang sec. 28.3.5 (7-22 number inferred)",
    LoadBasis.CLADDING: "ASCE 7, eq. 30.3-1 and figs. 30.3-2, at least 16 psf, sec. 30.2.2; overhangs sec. 30.7",
}
_MOMENTS = "moments about the other bearing"

# Edge width that puts the whole truss in each place. [ft]
_PLACES = {"end_zone": np.inf, "interior": 0.0}


def quick(inputs: QuickInputs) -> QuickResult:
    """Uplift at the worse bearing of one common truss of a gable roof, main frame and cladding.

    The same layout, pressures and load path as a whole house's, with the whole truss in the zone named, as in the
    published tables. Main frame: every pattern and both internal pressures; the whole windward slope is zone 2 or 2E
    (its limit of 2.5 eave heights is not used: on the safe side). Cladding: every piece by the truss's own effective
    area. Horizontal parts are held at the bearings (variant 'heel'), as the published tables have it.

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
    code = replace(edition(inputs.edition), overhang_underside_factor=inputs.overhang_underside_ratio)
    house = long_gable(inputs)
    dead_lb = -max(_at_bearings(house, gravity_cases(house.plan, house.patches, house.pieces)[0], Variant.DECK))
    steps = _wind_steps(inputs, house, code, dead_lb)
    mwfrs: dict[str, QuickUplift] = {}
    for place, a_ft in _PLACES.items():
        worst = max(_main_frame(house, code, a_ft), key=lambda case: max(_at_bearings(house, case, Variant.HEEL)))
        mwfrs[place] = _answer(inputs, house, worst, dead_lb)
        steps += _case_steps(inputs, house, worst, mwfrs[place], f"main frame, {place.replace('_', ' ')}")
    cladding: dict[str, QuickUplift] = {}
    for zone, case in _cladding(inputs, house, code):
        cladding[zone] = _answer(inputs, house, case, dead_lb)
        steps += _case_steps(inputs, house, case, cladding[zone], f"cladding, zone {zone}")
    return QuickResult(
        inputs=inputs, mwfrs=MappingProxyType(mwfrs), cladding=MappingProxyType(cladding), steps=tuple(steps)
    )


def _main_frame(house: LongGable, code: Edition, a_ft: float) -> tuple[LoadCase, ...]:
    widths = replace(house.widths, a_ft=a_ft)
    return main_frame_cases(house.plan, code, house.outline, house.roof, house.patches, house.pieces, widths)


def _cladding(inputs: QuickInputs, house: LongGable, code: Edition) -> Iterator[tuple[str, LoadCase]]:
    """For each zone of the gable figure the case with the whole truss in it."""
    patches, n = house.patches, len(house.patches.side)
    area_ft2 = np.array([effective_wind_area_ft2(inputs.span_ft, inputs.spacing_ft)])
    for zone in code.roof_zones(RoofForm.GABLE, inputs.theta_deg):
        zoned = ((RoofForm.GABLE, np.full(n, zone), np.arange(n)),)
        yield zone, cladding_cases(house.plan, code, zoned, patches, house.pieces, house.widths, area_ft2)[0]


def _at_bearings(house: LongGable, case: LoadCase, variant: Variant) -> tuple[float, float]:
    """What the truss's two bearings receive, positive up. [lb]"""
    one, other = house.maps[variant].apply(case.force_lb[:, None])[list(house.bearings), 0]
    return float(one), float(other)


def _answer(inputs: QuickInputs, house: LongGable, case: LoadCase, dead_lb: float) -> QuickUplift:
    wind_lb, by_deck_lb = (max(_at_bearings(house, case, variant)) for variant in (Variant.HEEL, Variant.DECK))
    slope = _lines(inputs, house, case)[0]
    return QuickUplift(
        uplift_lb=max(0.0, ASD_UPLIFT.net_uplift(wind_lb, dead_lb)),
        wind_lb=wind_lb,
        dead_lb=dead_lb,
        held_by_deck_uplift_lb=max(0.0, ASD_UPLIFT.net_uplift(by_deck_lb, dead_lb)),
        case=f"zone {slope.zone} at this bearing, GC_pi {slope.inside_factor:+.2f}",
    )


def _lines(inputs: QuickInputs, house: LongGable, case: LoadCase) -> list[RoofLine]:
    """What adds up to the reaction of the worse bearing."""
    at = _at_bearings(house, case, Variant.HEEL)
    return roof_lines(house, case, house.bearings[at.index(max(at))], inputs.span_ft)


def _wind_steps(inputs: QuickInputs, house: LongGable, code: Edition, dead_lb: float) -> list[Step]:
    """What all parts share: slope, K_z and q K_d of both bases, internal pressure, dead load."""
    h_ft, exposure, speed_mph = inputs.mean_roof_height_ft, inputs.exposure, inputs.speed_mph
    alpha, z_g_ft, coefficient = code.exposure_constants(exposure)
    figures = constants("chapter26_constants")
    power = f"{coefficient} x ({max(h_ft, figures['K_z_least_height']):g}/{z_g_ft:g})^(2/{alpha:g})"

    def step(text: str, value: float, unit: str, source: str) -> Step:
        return Step(part="wind and weight", text=text, value=value, unit=unit, source=source)

    steps = [step(f"theta = atan({inputs.rise_per_run:.4f})", inputs.theta_deg, "deg", "geometry")]
    for procedure, words in ((Procedure.ENVELOPE, "main frame"), (Procedure.CLADDING, "cladding")):
        K_z = code.K_z_of(h_ft, exposure, procedure)
        floor = ", not under 0.70 in exposure B" if procedure is Procedure.ENVELOPE and exposure == "B" else ""
        q_psf = code.q_K_d_psf(house.plan.wind, h_ft, procedure)
        product = f"{figures['velocity_pressure']} x {K_z:.4f} x 1.0 x 1.0 x {figures['K_d']} x {speed_mph:g}^2"
        steps += [
            step(f"{words}: K_z = {power}{floor}", K_z, "", f"{code.name}, table 26.10-1 note"),
            step(f"{words}: q K_d = {product} (K_zt = K_e = 1)", q_psf, "psf", f"{code.name}, eq. 26.10-1"),
        ]
    inside = max(code.GC_pi(inputs.enclosure))
    arm = f"({inputs.span_ft:g}/2 + {inputs.overhang_ft:g})"
    return [
        *steps,
        step(f"GC_pi, {inputs.enclosure} building, plus or minus", inside, "", f"{code.name}, table 26.13-1"),
        step(
            f"D = {inputs.dead_psf:g} x {arm} x {inputs.spacing_ft:g}", dead_lb, "lb", "half the span and the overhang"
        ),
    ]


def _case_steps(inputs: QuickInputs, house: LongGable, case: LoadCase, answer: QuickUplift, part: str) -> list[Step]:
    """Pressure and share of each slope and overhang, their sum, the combination."""
    steps = []
    for line in _lines(inputs, house, case):
        into, out = line.inside_factor + line.underside_factor, line.outside_factor
        arm = f"({line.arm_ft:.3f} {line.push_ft:+.3f})/{inputs.span_ft:g}"
        steps += [
            (
                f"{line.where}, zone {line.zone}: p = {line.q_K_d_psf:.3f} x [{into:+.3f} - ({out:+.3f})]",
                line.up_psf,
                "psf",
                _PRESSURE[case.basis],
            ),
            (f"  p x area x arm / span = {line.up_psf:.3f} x {line.area_ft2:.3f} x {arm}", line.lb, "lb", _MOMENTS),
        ]
    steps += [
        (f"W, their sum: {answer.case}", answer.wind_lb, "lb", "worse bearing"),
        (
            "held by the roof deck instead: 0.6 W - 0.6 D, not under 0 (build takes the larger of the two)",
            answer.held_by_deck_uplift_lb,
            "lb",
            "the same without the second number in each arm",
        ),
        (
            f"0.6 W - 0.6 D = 0.6 x {answer.wind_lb:.1f} - 0.6 x {answer.dead_lb:.1f}, not under 0",
            answer.uplift_lb,
            "lb",
            "ASCE 7-22, sec. 2.4.1, combination 7a",
        ),
    ]
    return [Step(part=part, text=text, value=value, unit=unit, source=source) for text, value, unit, source in steps]
