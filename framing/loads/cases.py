"""Roof + wind -> loads: what every case puts on every piece of the roof, and the wind figures behind it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.asce7.chapter26 import mean_roof_height_ft
from framing.asce7.chapter27 import STRIPS_OF_HEIGHT
from framing.asce7.chapter28 import edge_width_a_ft, zone_2_extent_ft
from framing.asce7.chapter30 import effective_wind_area_ft2, with_least_net_pressure_psf
from framing.asce7.edition import Edition, Procedure, edition
from framing.loads.pieces import Pieces
from framing.members import Framing
from framing.plan import MwfrsProcedure, Plan
from framing.roof.surface import Roof
from framing.roof.wings import OUTWARD
from framing.walls.outline import Outline
from framing.wind.directional import directional_coefficients, directional_patterns
from framing.wind.envelope_and_cladding import (
    Pattern,
    cladding_coefficients,
    cladding_zones,
    envelope_coefficients,
    patterns,
)
from framing.wind.figures import WindFigure, wind_figures
from framing.wind.patches import EdgeWidths, Floats, Patches

AREA_STEP_FT2 = 0.01
FINISHED, BEFORE_COVERING = "dead for uplift", "dead for uplift, before the covering"
GRAVITY, ROOF_LIVE = "dead for gravity", "roof live"


class LoadBasis(StrEnum):
    """What a load case comes from; of the two winds the plan's basis says which size an anchor."""

    DEAD = "dead"
    LIVE = "live"
    MWFRS = "mwfrs"
    CLADDING = "cladding"

    @property
    def is_wind(self) -> bool:
        """Whether the wind makes it."""
        return self in (LoadBasis.MWFRS, LoadBasis.CLADDING)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadCase:
    """One load pattern: `force_lb` (n_pieces,) is the vertical force on each piece, positive up, unfactored.

    `area_ft2` is the effective wind area of a cladding case.
    """

    name: str
    basis: LoadBasis
    area_ft2: float | None
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


def edge_widths(plan: Plan, outline: Outline, roof: Roof) -> EdgeWidths:
    """Edge width a, mean roof height h, the reach of zone 2 and the strips along the wind, of the whole house.

    Source: ASCE 7-22, sec. 26.2 (h), fig. 28.3-1 (a, zone 2) and fig. 27.3-1 (strips).
    """
    xs, ys = [p[0] for p in outline.local_ft], [p[1] for p in outline.local_ft]
    least = min(max(xs) - min(xs), max(ys) - min(ys))
    h = mean_roof_height_ft(roof.eave_height_ft, roof.highest_ft, plan.roof.theta_deg)
    reach = tuple(
        (zone_2_extent_ft(w.size_ft[0], roof.eave_height_ft), zone_2_extent_ft(w.size_ft[1], roof.eave_height_ft))
        for w in roof.wings
    )
    directional = plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL
    return EdgeWidths(
        a_ft=edge_width_a_ft(least, h),
        h_ft=h,
        eave_height_ft=roof.eave_height_ft,
        zone_2_ft=reach,
        strips_ft=tuple(s * h for s in STRIPS_OF_HEIGHT if s) if directional else (),
    )


def build_loads(
    plan: Plan, outline: Outline, roof: Roof, framing: Framing, patches: Patches, pieces: Pieces, widths: EdgeWidths
) -> Loads:
    """Dead, roof live, every main-frame wind pattern with both internal pressures, and a cladding case for
    every effective wind area that a member has.
    """
    code = edition(plan.wind.edition)
    areas = member_areas_ft2(framing)
    cases = (
        *_gravity_cases(plan, patches, pieces),
        *_main_frame_cases(plan, outline, roof, patches, pieces, widths, code),
        *_cladding_cases(plan, outline, roof, patches, pieces, widths, code, areas),
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


def _gravity_cases(plan: Plan, patches: Patches, pieces: Pieces) -> tuple[LoadCase, ...]:
    """Dead load that resists uplift, finished and before the covering, dead load for gravity, and roof live load, on
    plan area.

    The bottom chord's share counts between bearings; the deck covered by a valley set counts for gravity only.
    """
    d, area = plan.dead, pieces.area_ft2
    ceiling = patches.in_bearings[pieces.patch]
    uplift = -(d.top_for_uplift_psf + d.bottom_for_uplift_psf * ceiling) * area
    bare = -(d.top_before_covering_psf + d.bottom_for_uplift_psf * ceiling) * area
    gravity = -(d.top_for_gravity_psf * (1.0 + pieces.on_valley) + d.bottom_for_gravity_psf * ceiling) * area
    return (
        LoadCase(name=FINISHED, basis=LoadBasis.DEAD, area_ft2=None, force_lb=uplift),
        LoadCase(name=BEFORE_COVERING, basis=LoadBasis.DEAD, area_ft2=None, force_lb=bare),
        LoadCase(name=GRAVITY, basis=LoadBasis.DEAD, area_ft2=None, force_lb=gravity),
        LoadCase(name=ROOF_LIVE, basis=LoadBasis.LIVE, area_ft2=None, force_lb=-d.roof_live_psf * area),
    )


def _side_names(outline: Outline) -> tuple[str, str, str, str]:
    """For each side of the frame the first of the walls that face that way most nearly."""
    outward = np.array([w.outward for w in outline.walls])
    turned = np.array([outline.frame.turn_to_plan(v) for v in OUTWARD])
    best = np.round(outward @ turned.T, 6).argmax(axis=0)
    return (*(outline.walls[k].name for k in best),)


def _pattern_name(pattern: Pattern, sides: tuple[str, ...]) -> str:
    high_is_left = pattern.from_side in (0, 3)  # seen from outside, facing that side
    corner = "left" if pattern.high_corner == high_is_left else "right"
    second = ", second reading" if pattern.reading else ""
    return f"wind onto {sides[pattern.from_side]}, {corner} corner{second}"


def _main_frame_cases(
    plan: Plan, outline: Outline, roof: Roof, patches: Patches, pieces: Pieces, widths: EdgeWidths, code: Edition
) -> tuple[LoadCase, ...]:
    """Every pattern of the plan's procedure with both internal pressures.

    Source: ASCE 7-22, eq. 28.3-1 and 27.3-1 (solid), the latter with q_h inside.
    """
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure(plan.wind.mwfrs_procedure))
    theta, sides, out = plan.roof.theta_deg, _side_names(outline), []
    if plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL:
        found = _directional(roof, patches, widths, theta, sides)
    else:
        found = _envelope(roof, patches, widths, theta, sides, code)
    for pattern, outside in found:
        for internal in code.GC_pi(plan.wind.enclosure):
            net = outside - internal * patches.enclosed
            force = -q * net[pieces.patch] * pieces.area_ft2
            name = f"{pattern}, internal {internal:+.2f}"
            out.append(LoadCase(name=name, basis=LoadBasis.MWFRS, area_ft2=None, force_lb=force))
    return tuple(out)


def _envelope(
    roof: Roof, patches: Patches, widths: EdgeWidths, theta: float, sides: tuple[str, ...], code: Edition
) -> Iterator[tuple[str, Floats]]:
    """Every pattern of the envelope procedure: its name and its coefficients outside."""
    for pattern in patterns(roof, theta):
        yield _pattern_name(pattern, sides), envelope_coefficients(roof, patches, widths, code, theta, pattern)


def _directional(
    roof: Roof, patches: Patches, widths: EdgeWidths, theta: float, sides: tuple[str, ...]
) -> Iterator[tuple[str, Floats]]:
    """Every pattern of the directional procedure, whose figure both editions share."""
    for pattern in directional_patterns():
        found = directional_coefficients(roof, patches, widths, theta, pattern)
        value = "other value" if pattern.other_value else "suction"
        yield f"wind onto {sides[pattern.from_side]}, {value}", found.outside_factor - found.underside_factor


def _cladding_cases(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    patches: Patches,
    pieces: Pieces,
    widths: EdgeWidths,
    code: Edition,
    areas: Floats,
) -> tuple[LoadCase, ...]:
    """One case per effective wind area: every zone at its suction, internal pressure outward.

    Source: ASCE 7-22, eq. 30.3-1 (solid), sec. 30.2.2 for the least net pressure (good).
    """
    theta = plan.roof.theta_deg
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING)
    zoned = cladding_zones(roof, patches, widths, code, theta)
    internal = max(code.GC_pi(plan.wind.enclosure))
    xs, ys = [p[0] for p in outline.local_ft], [p[1] for p in outline.local_ft]
    h_over_b = widths.h_ft / min(max(xs) - min(xs), max(ys) - min(ys))
    out, each = [], np.unique(areas)
    net = cladding_coefficients(zoned, patches, code, theta, each, internal, h_over_b)
    for area, pressure in zip(each, with_least_net_pressure_psf(q * net), strict=True):
        force = -pressure[pieces.patch] * pieces.area_ft2
        name = f"cladding, effective area {area:.2f} ft2"
        out.append(LoadCase(name=name, basis=LoadBasis.CLADDING, area_ft2=float(area), force_lb=force))
    return tuple(out)
