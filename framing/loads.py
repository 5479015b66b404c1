"""Roof + wind -> loads: what every case puts on every piece of the roof, and the wind figures behind it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from framing.asce7.chapter26 import mean_roof_height_ft
from framing.asce7.chapter28 import edge_width_a_ft, zone_2_extent_ft
from framing.asce7.chapter30 import effective_wind_area_ft2, with_least_net_pressure_psf
from framing.asce7.edition import Edition, Procedure, edition
from framing.members import Framing
from framing.outline import Outline
from framing.patches import EdgeWidths, Floats, Patches
from framing.pieces import Pieces
from framing.plan import Plan
from framing.roof import Roof
from framing.wind_patterns import (
    Pattern,
    cladding_coefficients,
    cladding_zones,
    envelope_coefficients,
    patterns,
)
from framing.wings import OUTWARD

AREA_STEP_FT2 = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class WindFigure:
    """One line of the wind arithmetic: symbol, value, unit and the clause it comes from."""

    symbol: str
    meaning: str
    value: float
    unit: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LoadCase:
    """One load pattern: `force_lb` (n_pieces,) is the vertical force on each piece, positive up, unfactored.

    `basis` is 'dead', 'live', 'mwfrs' or 'cladding'. `area_ft2` is the effective wind area of a cladding case.
    """

    name: str
    basis: str
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
    """Edge width a, mean roof height h and the reach of zone 2, of the whole house.

    Source: ASCE 7-22, sec. 26.2 (h) and fig. 28.3-1 (a, zone 2).
    """
    xs, ys = [p[0] for p in outline.local_ft], [p[1] for p in outline.local_ft]
    least = min(max(xs) - min(xs), max(ys) - min(ys))
    h = mean_roof_height_ft(roof.eave_height_ft, roof.highest_ft, plan.roof.theta_deg)
    reach = tuple(
        (zone_2_extent_ft(w.size_ft[0], roof.eave_height_ft), zone_2_extent_ft(w.size_ft[1], roof.eave_height_ft))
        for w in roof.wings
    )
    return EdgeWidths(a_ft=edge_width_a_ft(least, h), h_ft=h, eave_height_ft=roof.eave_height_ft, zone_2_ft=reach)


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
        *_envelope_cases(plan, outline, roof, patches, pieces, widths, code),
        *_cladding_cases(plan, outline, roof, patches, pieces, widths, code, areas),
    )
    return Loads(cases=cases, area_of_member_ft2=areas, widths=widths, figures=_figures(plan, roof, widths, code))


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
    """Dead load that resists uplift, dead load for gravity, and roof live load, on plan area.

    The bottom chord's share counts between bearings; the deck covered by a valley set counts for gravity only.
    """
    d, area = plan.dead, pieces.area_ft2
    ceiling = patches.in_bearings[pieces.patch]
    uplift = -(d.top_for_uplift_psf + d.bottom_for_uplift_psf * ceiling) * area
    gravity = -(d.top_for_gravity_psf * (1.0 + pieces.on_valley) + d.bottom_for_gravity_psf * ceiling) * area
    return (
        LoadCase(name="dead for uplift", basis="dead", area_ft2=None, force_lb=uplift),
        LoadCase(name="dead for gravity", basis="dead", area_ft2=None, force_lb=gravity),
        LoadCase(name="roof live", basis="live", area_ft2=None, force_lb=-d.roof_live_psf * area),
    )


def _side_names(outline: Outline) -> tuple[str, str, str, str]:
    """For each side of the frame the first wall that faces that way."""
    out = ["", "", "", ""]
    for wall in reversed(outline.walls):
        nx, ny = wall.outward
        fx, fy = outline.frame.cos * nx + outline.frame.sin * ny, outline.frame.cos * ny - outline.frame.sin * nx
        for k, (ox, oy) in enumerate(OUTWARD):
            if ox * fx + oy * fy > 0.5:
                out[k] = wall.name
    return (out[0], out[1], out[2], out[3])


def _pattern_name(pattern: Pattern, sides: tuple[str, str, str, str]) -> str:
    high_is_left = pattern.from_side in (0, 3)  # seen from outside, facing that side
    corner = "left" if pattern.high_corner == high_is_left else "right"
    second = ", second reading" if pattern.reading else ""
    return f"wind onto {sides[pattern.from_side]}, {corner} corner{second}"


def _envelope_cases(
    plan: Plan, outline: Outline, roof: Roof, patches: Patches, pieces: Pieces, widths: EdgeWidths, code: Edition
) -> tuple[LoadCase, ...]:
    """Every pattern with both internal pressures. Source: ASCE 7-22, eq. 28.3-1 (solid)."""
    theta = plan.roof.theta_deg
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.ENVELOPE)
    sides = _side_names(outline)
    out = []
    for pattern in patterns(roof, theta):
        outside = envelope_coefficients(roof, patches, widths, code, theta, pattern)
        for internal in code.GC_pi(plan.wind.enclosure):
            net = outside - internal * patches.in_walls
            force = -q * net[pieces.patch] * pieces.area_ft2
            name = f"{_pattern_name(pattern, sides)}, internal {internal:+.2f}"
            out.append(LoadCase(name=name, basis="mwfrs", area_ft2=None, force_lb=force))
    return tuple(out)


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
    out = []
    for area in np.unique(areas):
        net = cladding_coefficients(zoned, patches, code, theta, float(area), internal, h_over_b)
        pressure = with_least_net_pressure_psf(q * net)
        force = -pressure[pieces.patch] * pieces.area_ft2
        name = f"cladding, effective area {area:.2f} ft2"
        out.append(LoadCase(name=name, basis="cladding", area_ft2=float(area), force_lb=force))
    return tuple(out)


def _figures(plan: Plan, roof: Roof, widths: EdgeWidths, code: Edition) -> tuple[WindFigure, ...]:
    """The governing wind figures, each with its clause."""
    ed, wind, h = plan.wind.edition.value, plan.wind, widths.h_ft
    plus, minus = code.GC_pi(wind.enclosure)

    def figure(symbol: str, meaning: str, value: float, unit: str, source: str) -> WindFigure:
        return WindFigure(symbol=symbol, meaning=meaning, value=value, unit=unit, source=f"{ed}, {source}")

    by_procedure = []
    for procedure, what, equation in (
        (Procedure.ENVELOPE, "main frame", "eq. 26.10-1 and 28.3-1"),
        (Procedure.CLADDING, "cladding", "eq. 26.10-1 and 30.3-1"),
    ):
        k_z, q = code.K_z_of(h, wind.exposure, procedure), code.q_K_d_psf(wind, h, procedure)
        table = "table 26.10-1" + (" with the footnote for chapter 28" if procedure is Procedure.ENVELOPE else "")
        by_procedure += [
            figure(f"K_z {procedure}", f"exposure coefficient at h, {what}", k_z, "", table),
            figure(f"q K_d {procedure}", f"velocity pressure times K_d 0.85, {what}", q, "psf", equation),
        ]
    return (
        figure("V", "basic wind speed, ultimate 3-second gust", wind.speed_mph, "mph", "sec. 26.5 (input)"),
        figure("theta", "roof slope", plan.roof.theta_deg, "deg", "fig. 28.3-1 notation"),
        figure("eave height", "ground to the roof plane over the wall face", roof.eave_height_ft, "ft", "sec. 26.2"),
        figure("h", "mean roof height (eave height up to 10 degrees)", h, "ft", "sec. 26.2"),
        figure("a", "edge width of the pressure zones", widths.a_ft, "ft", "fig. 28.3-1 and 30.3-2 notation"),
        *by_procedure,
        figure("GC_pi +", "internal pressure coefficient, outward", plus, "", "table 26.13-1"),
        figure("GC_pi -", "internal pressure coefficient, inward", minus, "", "table 26.13-1"),
    )
