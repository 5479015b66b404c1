"""Run -> the wind's pressures on deck, overhang, soffit and wall by zone, on 10 square feet: for who designs those."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from framing.asce7.chapter30 import with_least_net_pressure_psf
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Procedure, edition
from framing.plan import EditionName
from framing.run import Run

AREA_FT2 = 10.0
WALL_ZONES = ("4", "5")
OVERHANG_CLAUSE = {EditionName.ASCE_7_22: "sec. 30.7", EditionName.ASCE_7_16: "sec. 30.10"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ComponentPressure:
    """The pressures of one zone at strength level, toward the surface positive: `toward_psf` is None where there is
    only suction, on a whole overhang. `what` is 'roof deck', 'overhang, roof and soffit together', 'soffit' or 'wall'.
    """

    what: str
    zone: str
    toward_psf: float | None
    away_psf: float
    clause: str


def component_pressures(run: Run) -> tuple[ComponentPressure, ...]:
    """Deck and overhang by the roof's zones, of each form that a wing of this house has, then soffit and wall.

    Internal pressure counts on deck and wall, none on overhang and soffit, which takes the pressure of the wall below
    it; never under 16 psf.

    Source: ASCE 7-22, eq. 30.3-1, figs. 30.3-1 and 30.3-2A to 2G, sec. 30.7 (from memory for the soffit) and 30.2.2.
    """
    plan = run.plan
    code, widths = edition(plan.wind.edition), run.loads.widths
    theta, over_B = plan.roof.theta_deg, widths.h_over_B_ratio
    q, inside = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING), code.GC_pi(plan.wind.enclosure)
    name, overhang = plan.wind.edition.value, OVERHANG_CLAUSE[plan.wind.edition]
    out = []
    for form in roof_forms(run):
        for zone in code.roof_zones(form, theta):
            plus, minus = code.roof_GC_p(form, theta, zone, AREA_FT2, over_B)
            named = f"{zone}, {form.value} roof"
            out.append(_pressure("roof deck", named, q, (plus, minus), inside, f"{name}, eq. 30.3-1, figs. 30.3-2"))
            if max(plan.roof.overhang_ft, plan.roof.rake_overhang_ft) > 0.0:
                net = code.overhang_GC_p(form, theta, zone, AREA_FT2, over_B)
                both = "overhang, roof and soffit together"
                out.append(_pressure(both, named, q, (None, net), (0.0, 0.0), f"{name}, {overhang}"))
    for what, pi, clause in (("soffit", (0.0, 0.0), overhang), ("wall", inside, "eq. 30.3-1, fig. 30.3-1")):
        for zone in WALL_ZONES:
            coefficients = code.wall_GC_p(zone, AREA_FT2, theta)
            out.append(_pressure(what, zone, q, coefficients, pi, f"{name}, {clause}"))
    return tuple(out)


def roof_forms(run: Run) -> tuple[RoofForm, ...]:
    """The forms that the wings count as: a wing with one hip and one gable end counts as both."""
    ends = [wing.gable[s] for wing in run.roof.wings for s in wing.ends]
    return tuple(f for f, there in ((RoofForm.GABLE, any(ends)), (RoofForm.HIP, not all(ends))) if there)


def _pressure(
    what: str,
    zone: str,
    q_psf: float,
    coefficients: tuple[object, object],
    inside: tuple[float, float],
    clause: str,
) -> ComponentPressure:
    plus, minus = coefficients
    away = with_least_net_pressure_psf(np.asarray(q_psf * (np.asarray(minus, float) - max(inside))))
    toward = None
    if plus is not None:
        toward = float(with_least_net_pressure_psf(np.asarray(q_psf * (np.asarray(plus, float) - min(inside)))))
    return ComponentPressure(what=what, zone=zone, toward_psf=toward, away_psf=float(away), clause=clause)
