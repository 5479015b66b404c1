"""Wind -> coefficients of the directional procedure on every patch: zone by zone, one wind at a time.

Each wing's rectangle counts as a building of its own, with h of the whole house; where two wings claim the same
patch the larger suction holds (conservative). On every wing a slope that faces the wind takes the windward row,
the one behind it the leeward row, hip ends included; the slopes along the wind take the row by distance, and so
does every slope under 10 degrees. Source: ASCE 7-22, fig. 27.3-1 (solid); hips from memory.
"""

from __future__ import annotations

import numpy as np

from framing.asce7.chapter27 import (
    OVERHANG_UNDERSIDE_C_P,
    STRIPS_OF_HEIGHT,
    C_p_leeward_roof,
    C_p_parallel_roof,
    C_p_windward_roof,
    G,
    read_by_distance,
)
from framing.roof.surface import Roof
from framing.roof.wings import Wing
from framing.wind.edge_widths import EdgeWidths
from framing.wind.envelope_and_cladding import from_windward_ft, pushed_from_below
from framing.wind.patches import Floats, Patches
from framing.wind.patterns import DirectionalPattern
from framing.wind.pressures import Coefficients, Names, coefficients

STRIPS = ("along the wind, 0 to h/2", "along the wind, h/2 to h", "along the wind, h to 2h", "along the wind, over 2h")
NO_REDUCTION_FT2 = 0.0  # the area on which -1.3 acts is taken small: its reduction by area is left out


def directional_coefficients(
    roof: Roof, patches: Patches, widths: EdgeWidths, theta_deg: float, pattern: DirectionalPattern
) -> Coefficients:
    """The coefficients of one wind, on each patch those of the wing with the larger suction.

    Source: ASCE 7-22, fig. 27.3-1 (solid) and sec. 27.3.3, number inferred (fair) for overhangs.
    """
    n = len(patches.side)
    zone, outside, underside = np.full(n, "", dtype="<U26"), np.full(n, np.inf), np.zeros(n)
    for i, wing in enumerate(roof.wings):
        which, mine = patches.claimed_by(i)
        names, top = _on_wing(wing, widths, mine, theta_deg, pattern)
        under = G * OVERHANG_UNDERSIDE_C_P * pushed_from_below(wing, mine, pattern.from_side)
        takes = top - under < outside[which] - underside[which]
        which = which[takes]
        zone[which], outside[which], underside[which] = names[takes], top[takes], under[takes]
    return coefficients(zone, outside, underside)


def _on_wing(
    wing: Wing, widths: EdgeWidths, patches: Patches, theta_deg: float, pattern: DirectionalPattern
) -> tuple[Names, Floats]:
    """Zone and G C_p on the patches as if all were this wing's.

    Distances run from the wing's windward wall line, so that each strip reaches farther in by the overhang than
    from the roof's edge (own choice, safe side).
    """
    h_over_L = widths.h_ft / wing.size_ft[pattern.from_side.axis]
    distance_ft = np.maximum(from_windward_ft(wing, patches, pattern.from_side), 0.0)
    suction, other = C_p_parallel_roof(distance_ft, widths.h_ft, h_over_L, NO_REDUCTION_FT2)
    C_p: Floats = np.full(len(distance_ft), other) if pattern.other_value else np.asarray(suction)
    zone = np.array(STRIPS)[np.searchsorted(STRIPS_OF_HEIGHT, distance_ft / widths.h_ft, side="right") - 1]
    if not read_by_distance(theta_deg):
        onto, behind = patches.side == pattern.from_side, patches.side == pattern.from_side.opposite
        windward = C_p_windward_roof(theta_deg, h_over_L, NO_REDUCTION_FT2)[int(pattern.other_value)]
        C_p = np.where(onto, windward, np.where(behind, C_p_leeward_roof(theta_deg, h_over_L), C_p))
        zone = np.where(onto, "windward slope", np.where(behind, "leeward slope", zone))
    return zone, G * C_p
