"""Roof + wind -> loads: what every case puts on every piece of the roof, and the wind figures behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.asce7.chapter30 import effective_wind_area_ft2
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Edition, Procedure
from framing.frame_side import SIDES, FrameSide
from framing.loads.pieces import Pieces
from framing.members import Framing
from framing.plan import MwfrsProcedure, Plan
from framing.roof.surface import Roof
from framing.walls.outline import Outline
from framing.wind.directional import directional_coefficients
from framing.wind.edge_widths import EdgeWidths
from framing.wind.envelope_and_cladding import cladding_coefficients, cladding_zones, envelope_coefficients
from framing.wind.figures import WindFigure, wind_figures
from framing.wind.patches import Floats, Ints, Patches
from framing.wind.patterns import DirectionalPattern, Pattern, directional_patterns, patterns
from framing.wind.pressures import Coefficients, Names, RoofPressures

AREA_STEP_FT2 = 0.01


class LoadBasis(StrEnum):
    """What a load case comes from; of the two winds the plan's basis says which size an anchor. No case is the
    package's: a mark is, where the truss engineer's reaction governs it.
    """

    DEAD = "dead"
    LIVE = "live"
    MWFRS = "mwfrs"
    CLADDING = "cladding"
    PACKAGE = "truss package"

    @property
    def is_wind(self) -> bool:
        """Whether the wind makes it."""
        return self in (LoadBasis.MWFRS, LoadBasis.CLADDING)


class GravityLoad(StrEnum):
    """The load cases of weight, by their names: dead load that resists uplift, finished and before the covering is on,
    and what presses.
    """

    FINISHED = "dead for uplift"
    BEFORE_COVERING = "dead for uplift, before the covering"
    PRESSING = "dead for gravity"
    ROOF_LIVE = "roof live"

    @property
    def resists(self) -> bool:
        """Whether it is dead load that resists uplift."""
        return self in (GravityLoad.FINISHED, GravityLoad.BEFORE_COVERING)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadCase:
    """One load pattern: `force_lb` (n_pieces,) is the vertical force on each piece, positive up, unfactored.

    `area_ft2` is the effective wind area of a cladding case, `wind` what the wind of a main-frame or cladding case
    presses on every patch, `gravity` which weight a case without wind is.
    """

    name: str
    basis: LoadBasis
    area_ft2: float | None
    wind: RoofPressures | None
    gravity: GravityLoad | None
    force_lb: Floats


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Loads:
    """Every load case of a house. `area_of_member_ft2` (n_members,) are effective wind areas, rounded so that
    equal members share a case.
    """

    cases: tuple[LoadCase, ...]
    area_of_member_ft2: Floats
    widths: EdgeWidths
    figures: tuple[WindFigure, ...]


def build_loads(
    plan: Plan,
    code: Edition,
    outline: Outline,
    roof: Roof,
    framing: Framing,
    patches: Patches,
    pieces: Pieces,
    widths: EdgeWidths,
) -> Loads:
    """Dead, roof live, every main-frame wind pattern with both internal pressures, and a cladding case for
    every effective wind area that a member has; `code` is the plan's edition of the wind standard.
    """
    areas = member_areas_ft2(framing)
    zoned = cladding_zones(roof, patches, widths, code, plan.roof.theta_deg)
    cases = (
        *gravity_cases(plan, patches, pieces),
        *main_frame_cases(plan, code, outline, roof, patches, pieces, widths),
        *cladding_cases(plan, code, zoned, patches, pieces, widths, np.unique(areas)),
    )
    return Loads(cases=cases, area_of_member_ft2=areas, widths=widths, figures=wind_figures(plan, roof, widths))


def member_areas_ft2(framing: Framing) -> Floats:
    """Effective wind area of every member. (n_members,) [ft2]

    Source: ASCE 7-22, sec. 26.2, effective wind area: span times the larger of width and a third of the span.
    """
    span = np.array([m.effective_span_ft for m in framing.members])
    width = np.array([m.width_ft for m in framing.members])
    area = np.asarray(effective_wind_area_ft2(span, width))
    out: Floats = np.round(area / AREA_STEP_FT2 + 0.0137) * AREA_STEP_FT2
    return out


def gravity_cases(plan: Plan, patches: Patches, pieces: Pieces) -> tuple[LoadCase, ...]:
    """Dead load that resists uplift, finished and before the covering, dead load for gravity, and roof live load, on
    plan area.

    The bottom chord's share counts between bearings; the deck covered by a valley set counts for gravity only.
    """
    d, area = plan.dead, pieces.area_ft2
    ceiling = patches.in_bearings[pieces.patch]
    uplift = -(d.top_for_uplift_psf + d.bottom_for_uplift_psf * ceiling) * area
    bare = -(d.top_before_covering_psf + d.bottom_for_uplift_psf * ceiling) * area
    gravity = -(d.top_for_gravity_psf * (1.0 + pieces.on_valley) + d.bottom_for_gravity_psf * ceiling) * area
    live = -d.roof_live_psf * area
    found = (
        (GravityLoad.FINISHED, LoadBasis.DEAD, uplift),
        (GravityLoad.BEFORE_COVERING, LoadBasis.DEAD, bare),
        (GravityLoad.PRESSING, LoadBasis.DEAD, gravity),
        (GravityLoad.ROOF_LIVE, LoadBasis.LIVE, live),
    )
    return tuple(
        LoadCase(name=load.value, basis=basis, area_ft2=None, wind=None, gravity=load, force_lb=force)
        for load, basis, force in found
    )


def side_names(outline: Outline) -> tuple[str, str, str, str]:
    """For each side of the frame the first of the walls that face that way most nearly."""
    outward = np.array([w.outward for w in outline.walls])
    turned = np.array([outline.frame.turn_to_plan(s.outward) for s in SIDES])
    best = np.round(outward @ turned.T, 6).argmax(axis=0)
    return (*(outline.walls[k].name for k in best),)


def _pattern_name(pattern: Pattern | DirectionalPattern, sides: tuple[str, ...]) -> str:
    if isinstance(pattern, DirectionalPattern):
        return f"wind onto {sides[pattern.from_side]}, {'other value' if pattern.other_value else 'suction'}"
    high_is_left = pattern.from_side in (FrameSide.X_LOW, FrameSide.Y_HIGH)  # seen from outside, facing that side
    corner = "left" if pattern.high_corner == high_is_left else "right"
    second = ", second reading" if pattern.reading else ""
    return f"wind onto {sides[pattern.from_side]}, {corner} corner{second}"


def main_frame_cases(
    plan: Plan, code: Edition, outline: Outline, roof: Roof, patches: Patches, pieces: Pieces, widths: EdgeWidths
) -> tuple[LoadCase, ...]:
    """Every pattern of the plan's procedure with both internal pressures.

    Source: ASCE 7-22, eq. 28.3-1 and 27.3-1 (solid), the latter with q_h inside.
    """
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure(plan.wind.mwfrs_procedure))
    sides, out = side_names(outline), []
    for pattern, outside in _patterns(plan, code, roof, patches, widths):
        for internal in code.GC_pi(plan.wind.enclosure):
            wind = RoofPressures(
                q_K_d_psf=q,
                coefficients=outside,
                inside_factor=np.where(patches.enclosed, internal, 0.0),
                pattern=pattern,
            )
            name = f"{_pattern_name(pattern, sides)}, internal {internal:+.2f}"
            out.append(_wind_case(name, LoadBasis.MWFRS, None, wind, pieces))
    return tuple(out)


def _patterns(
    plan: Plan, code: Edition, roof: Roof, patches: Patches, widths: EdgeWidths
) -> Iterator[tuple[Pattern | DirectionalPattern, Coefficients]]:
    """Every pattern of the plan's procedure and its coefficients; the directional figure is both editions'."""
    theta = plan.roof.theta_deg
    if plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL:
        for wind in directional_patterns():
            yield wind, directional_coefficients(roof, patches, widths, theta, wind)
    else:
        for pattern in patterns(roof, theta):
            yield pattern, envelope_coefficients(roof, patches, widths, code, theta, pattern)


def _wind_case(name: str, basis: LoadBasis, area_ft2: float | None, wind: RoofPressures, pieces: Pieces) -> LoadCase:
    force = wind.up_psf[pieces.patch] * pieces.area_ft2
    return LoadCase(name=name, basis=basis, area_ft2=area_ft2, wind=wind, gravity=None, force_lb=force)


def cladding_cases(
    plan: Plan,
    code: Edition,
    zoned: tuple[tuple[RoofForm, Names, Ints], ...],
    patches: Patches,
    pieces: Pieces,
    widths: EdgeWidths,
    areas_ft2: Floats,
) -> tuple[LoadCase, ...]:
    """One case for each of the effective wind areas (k,): every zone of `zoned` (form, each patch's zone, which patches
    it claims) at its suction, internal pressure outward.

    Source: ASCE 7-22, eq. 30.3-1 (solid), sec. 30.2.2 for the least net pressure (good).
    """
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING)
    internal, out, theta = max(code.GC_pi(plan.wind.enclosure)), [], plan.roof.theta_deg
    inside = np.where(patches.enclosed, internal, 0.0)
    found = cladding_coefficients(zoned, patches, code, theta, areas_ft2, internal, widths.h_over_B_ratio)
    for area, outside in zip(areas_ft2, found, strict=True):
        wind = RoofPressures(q_K_d_psf=q, coefficients=outside, inside_factor=inside, pattern=None)
        name = f"cladding, effective area {area:.2f} ft2"
        out.append(_wind_case(name, LoadBasis.CLADDING, float(area), wind, pieces))
    return tuple(out)
