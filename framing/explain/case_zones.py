"""Run + load case -> what the pressure on every patch is made of: zone, coefficients, velocity pressure.

The zones are found by the functions that made the case, wing by wing, and the pressures put together again from
them; what does not give the case's own pressures is not told.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from framing.asce7 import chapter26
from framing.asce7.chapter28 import OVERHANG_UNDERSIDE_GC_P, EnvelopeCoefficients
from framing.asce7.chapter30 import LEAST_NET_PRESSURE_PSF, with_least_net_pressure_psf
from framing.asce7.edition import Edition, Procedure, edition
from framing.loads.cases import LoadBasis, LoadCase
from framing.plan import MwfrsProcedure, Point
from framing.roof.wings import OUTWARD
from framing.run import Run
from framing.wind.directional import directional_coefficients, directional_patterns
from framing.wind.envelope_and_cladding import (
    Pattern,
    cladding_coefficients,
    cladding_zones,
    envelope_coefficients,
    patterns,
)
from framing.wind.patches import Floats

Names = NDArray[np.str_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CaseZones:
    """One wind case on n patches: up_psf = -q_K_d_psf (outside - underside - inside), but for the least pressure.

    `zone` (n,) is the figure's own name with the load case or the roof form; `outside_factor`, `underside_factor`
    and `inside_factor` (n,) are coefficients, negative away from the surface; `up_psf` (n,) lifts where positive;
    `least` (n,) says where the least net pressure of cladding holds instead. `wind_toward` is the plan direction in
    which the wind of a main-frame case blows; None for cladding, which takes every direction.
    """

    q_K_d_psf: float
    zone: Names
    outside_factor: Floats
    underside_factor: Floats
    inside_factor: Floats
    up_psf: Floats
    least: NDArray[np.bool_]
    wind_toward: Point | None


@dataclass(frozen=True, slots=True, kw_only=True)
class VelocityPressure:
    """q K_d of one procedure and the numbers in it: constant x K_z x K_zt x K_e x K_d x V^2."""

    procedure: Procedure
    constant_factor: float
    exposure_factor: float
    topographic_factor: float
    elevation_factor: float
    directionality_factor: float
    speed_mph: float
    q_K_d_psf: float


def velocity_pressures(run: Run) -> tuple[VelocityPressure, ...]:
    """The velocity pressure of the main frame and of the cladding, taken apart.

    Source: ASCE 7-22, eq. 26.10-1 with 28.3-1, 27.3-1 and 30.3-1 (solid).
    """
    code, wind, h_ft = edition(run.plan.wind.edition), run.plan.wind, run.loads.widths.h_ft
    return tuple(
        VelocityPressure(
            procedure=procedure,
            constant_factor=chapter26.q_z_psf(1.0, 1.0, 1.0, 1.0),
            exposure_factor=code.K_z_of(h_ft, wind.exposure, procedure),
            topographic_factor=chapter26.K_zt_at(wind, h_ft),
            elevation_factor=float(chapter26.K_e(wind.ground_elevation_ft)),
            directionality_factor=chapter26.K_d(),
            speed_mph=wind.speed_mph,
            q_K_d_psf=code.q_K_d_psf(wind, h_ft, procedure),
        )
        for procedure in (Procedure(wind.mwfrs_procedure), Procedure.CLADDING)
    )


def case_zones(run: Run, case: LoadCase) -> CaseZones | None:
    """The zones behind a wind case; None where they do not give the case's own pressures again."""
    if not case.basis.is_wind:
        return None
    if case.basis is LoadBasis.CLADDING:
        found = _cladding_zones(run, case)
    elif run.plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL:
        found = _directional_zones(run, case)
    else:
        found = _envelope_zones(run, case)
    if found is None:
        return None
    force_lb = found.up_psf[run.pieces.patch] * run.pieces.area_ft2
    same = bool(np.allclose(force_lb, case.force_lb, rtol=1e-9, atol=1e-9))
    return found if same else None


def hardest_cases(run: Run, basis: LoadBasis) -> NDArray[np.int64]:
    """For every bearing the case of a basis that pulls hardest, its place in the reactions; -1 where there is none.

    A cladding case counts only where its effective area is the member's own. (n_bearings,)
    """
    columns = np.array([j for j, c in enumerate(run.reactions.cases) if c.basis is basis], dtype=np.int64)
    if not len(columns):
        return np.full(len(run.framing.bearings), -1)
    row_of = {m.name: i for i, m in enumerate(run.framing.members)}
    own_ft2 = np.array([run.loads.area_of_member_ft2[row_of[b.member]] for b in run.framing.bearings])
    areas = [run.reactions.cases[j].area_ft2 for j in columns]
    own = [np.ones(len(own_ft2), dtype=bool) if a is None else np.abs(own_ft2 - a) < 1e-6 for a in areas]
    pull_lb = np.where(np.column_stack(own), run.reactions.by_case_lb[:, columns], -np.inf)
    out: NDArray[np.int64] = columns[pull_lb.argmax(axis=1)]
    return out


def leading_case(run: Run, basis: LoadBasis) -> int | None:
    """The case of a basis that pulls hardest at the most bearings, its place in the reactions, if any."""
    hardest = hardest_cases(run, basis)
    return int(np.bincount(hardest).argmax()) if (hardest >= 0).any() else None


def _place(run: Run, case: LoadCase) -> tuple[int, int]:
    """Which pattern a main-frame case is, and which internal pressure."""
    place = [c.name for c in run.loads.cases if c.basis is LoadBasis.MWFRS].index(case.name)
    return divmod(place, len(edition(run.plan.wind.edition).GC_pi(run.plan.wind.enclosure)))


def _directional_zones(run: Run, case: LoadCase) -> CaseZones:
    """The wind and the internal pressure of a case of the directional procedure, then its zones."""
    code, wind, widths = edition(run.plan.wind.edition), run.plan.wind, run.loads.widths
    which, internal = _place(run, case)
    pattern = directional_patterns()[which]
    found = directional_coefficients(run.roof, run.patches, widths, run.plan.roof.theta_deg, pattern)
    inside = np.where(run.patches.enclosed, code.GC_pi(wind.enclosure)[internal], 0.0)
    q = code.q_K_d_psf(wind, widths.h_ft, Procedure.DIRECTIONAL)
    return CaseZones(
        q_K_d_psf=q,
        zone=found.zone,
        outside_factor=found.outside_factor,
        underside_factor=found.underside_factor,
        inside_factor=inside,
        up_psf=-q * (found.outside_factor - found.underside_factor - inside),
        least=np.zeros(len(inside), dtype=bool),
        wind_toward=run.outline.frame.turn_to_plan(OUTWARD[pattern.from_side ^ 1]),
    )


def _envelope_zones(run: Run, case: LoadCase) -> CaseZones:
    """The pattern and the internal pressure of a case of the envelope procedure, then its zones wing by wing."""
    code, wind, theta_deg = edition(run.plan.wind.edition), run.plan.wind, run.plan.roof.theta_deg
    which, internal = _place(run, case)
    pattern = patterns(run.roof, theta_deg)[which]
    marked, names = _marked(code)
    best = np.full(len(run.patches.side), np.inf)
    code_of = np.zeros(len(best))
    for i in range(len(run.roof.wings)):
        value = _one_wing(run, i, code, theta_deg, pattern)
        takes = run.patches.claims[:, i] & (value < best)
        best = np.where(takes, value, best)
        code_of = np.where(takes, _one_wing(run, i, marked, theta_deg, pattern), code_of)
    whole = np.ceil(code_of)  # a code is a whole number, less the coefficient under a windward overhang or porch
    underside = np.where(whole > code_of, OVERHANG_UNDERSIDE_GC_P, 0.0)
    inside = np.where(run.patches.enclosed, code.GC_pi(wind.enclosure)[internal], 0.0)
    q = code.q_K_d_psf(wind, run.loads.widths.h_ft, Procedure.ENVELOPE)
    return CaseZones(
        q_K_d_psf=q,
        zone=np.array([names[int(abs(k))] for k in whole]),
        outside_factor=best + underside,
        underside_factor=underside,
        inside_factor=inside,
        up_psf=-q * (best - inside),
        least=np.zeros(len(best), dtype=bool),
        wind_toward=run.outline.frame.turn_to_plan(OUTWARD[pattern.from_side ^ 1]),
    )


def _one_wing(run: Run, i: int, code: Edition, theta_deg: float, pattern: Pattern) -> Floats:
    """The coefficients of a pattern as if the house had one wing. (n,)"""
    roof = replace(run.roof, wings=(run.roof.wings[i],))
    patches = replace(run.patches, claims=run.patches.claims[:, [i]])
    widths = replace(run.loads.widths, zone_2_ft=(run.loads.widths.zone_2_ft[i],))
    return envelope_coefficients(roof, patches, widths, code, theta_deg, pattern)


def _marked(code: Edition) -> tuple[Edition, list[str]]:
    """The edition with a whole number of the same sign in place of each coefficient of the envelope procedure, and
    the zone that each number stands for.
    """
    names = [""]

    def envelope(theta_deg: float) -> EnvelopeCoefficients:
        table = code.envelope(theta_deg)
        numbers = {}
        for (load_case, zone), value in table.by_case_and_zone.items():
            numbers[load_case, zone] = math.copysign(len(names), value)
            names.append(f"{zone}, load case {load_case}")
        return EnvelopeCoefficients(theta_deg=table.theta_deg, by_case_and_zone=MappingProxyType(numbers))

    return replace(code, envelope=envelope), names


def _cladding_zones(run: Run, case: LoadCase) -> CaseZones | None:
    """The zones of an effective area, each patch by the wing and roof form with the larger suction there."""
    if case.area_ft2 is None:
        return None
    plan, widths, patches = run.plan, run.loads.widths, run.patches
    code, theta_deg = edition(plan.wind.edition), plan.roof.theta_deg
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING)
    internal = max(code.GC_pi(plan.wind.enclosure))
    sides = np.ptp(np.array(run.outline.local_ft), axis=0)
    h_over_b = widths.h_ft / float(sides.min())
    net = np.full(len(patches.side), np.inf)
    zone = np.full(len(net), "", dtype="<U24")
    area = np.array([case.area_ft2])
    for zoned in cladding_zones(run.roof, patches, widths, code, theta_deg):
        (value,) = cladding_coefficients((zoned,), patches, code, theta_deg, area, internal, h_over_b)
        takes = zoned[2] & (value < net)
        net = np.where(takes, value, net)
        zone = np.where(takes, np.char.add(zoned[1], f", {zoned[0].value} roof"), zone)
    inside = np.where(patches.enclosed, internal, 0.0)
    return CaseZones(
        q_K_d_psf=q,
        zone=zone,
        outside_factor=net + inside,
        underside_factor=np.zeros(len(net)),
        inside_factor=inside,
        up_psf=-with_least_net_pressure_psf(q * net),
        least=np.abs(q * net) < LEAST_NET_PRESSURE_PSF,
        wind_toward=None,
    )
