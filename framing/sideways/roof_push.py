"""Wind -> the main frame's horizontal push on a roof, windward and leeward together."""

from __future__ import annotations

from framing.asce7.chapter27 import (
    C_P_WINDWARD_WALL,
    C_p_leeward_roof,
    C_p_leeward_wall,
    C_p_windward_roof,
    G,
    read_by_distance,
)
from framing.asce7.chapter28 import LEAST_ROOF_PSF, LEAST_WALL_PSF
from framing.asce7.edition import edition
from framing.plan import MwfrsProcedure, Plan
from framing.roof.surface import Roof
from framing.wind.edge_widths import EdgeWidths


def roof_push(plan: Plan, roof: Roof, widths: EdgeWidths, axis: int) -> tuple[float, float]:
    """The greatest net push on the roof's vertical projection for wind along an axis of the frame, never under 0, as a
    coefficient of q K_d; and the least [psf]. Where a gable faces the wind the whole roof counts as wall.

    Source: ASCE 7-22, fig. 28.3-1 and 27.3-1 (solid), every foot at the severest of interior and end zone; sec. 28.3.6
    (number inferred).
    """
    directional = plan.wind.mwfrs_procedure is MwfrsProcedure.DIRECTIONAL
    slope, wall = (_directional if directional else _envelope)(plan, roof, widths, axis)
    sides = (2 * axis, 2 * axis + 1)
    gable = any(w.gable[k] for w in roof.wings for k in sides)
    slopes = any(not w.gable[k] for w in roof.wings for k in sides)
    if gable:
        return max(wall, slope if slopes else 0.0), LEAST_WALL_PSF
    return max(slope, 0.0), LEAST_ROOF_PSF


def _envelope(plan: Plan, roof: Roof, widths: EdgeWidths, axis: int) -> tuple[float, float]:
    """Slope and wall by the envelope procedure: zone 2 less 3; zone 1 less 4, or 5 less 6."""
    del roof, widths, axis
    at = edition(plan.wind.edition).envelope(plan.roof.theta_deg)

    def net(load_case: int, onto: str, behind: str) -> float:
        return max(at.GC_pf(load_case, onto + e) - at.GC_pf(load_case, behind + e) for e in ("", "E"))

    return net(1, "2", "3"), max(net(1, "1", "4"), net(2, "5", "6"))


def _directional(plan: Plan, roof: Roof, widths: EdgeWidths, axis: int) -> tuple[float, float]:
    """Slope and wall by the directional procedure, the greatest of all wings; the walls' q taken at h as well."""
    slope, wall = 0.0, 0.0
    for wing in roof.wings:
        along, across = wing.size_ft[axis], wing.size_ft[1 - axis]
        wall = max(wall, G * (C_P_WINDWARD_WALL - C_p_leeward_wall(along / across)))
        if not read_by_distance(plan.roof.theta_deg):
            h_over_L = widths.h_ft / along
            onto = C_p_windward_roof(plan.roof.theta_deg, h_over_L, 0.0)[1]
            slope = max(slope, G * (onto - C_p_leeward_roof(plan.roof.theta_deg, h_over_L)))
    return slope, wall
