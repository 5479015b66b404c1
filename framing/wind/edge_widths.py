"""Plan + roof -> the lengths that lay out the pressure zones of the whole house."""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.chapter26 import mean_roof_height_ft
from framing.asce7.chapter27 import STRIPS_OF_HEIGHT
from framing.asce7.chapter28 import edge_width_a_ft, end_zone_ft, zone_2_extent_ft
from framing.plan import MwfrsProcedure, Plan
from framing.roof.surface import Roof
from framing.walls.outline import Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeWidths:
    """The lengths that lay out pressure zones, of the whole house. [ft]

    `a_ft` is the edge width, `least_side_ft` the least horizontal dimension B, `zone_2_ft` how far a suction of zone 2
    reaches in across (x, y) of each wing, `h_ft` the mean roof height, `strips_ft` the distances from a windward wall
    at which the directional procedure's coefficient of a slope along the wind changes (none in the envelope procedure).
    """

    a_ft: float
    least_side_ft: float
    h_ft: float
    eave_height_ft: float
    zone_2_ft: tuple[tuple[float, float], ...]
    strips_ft: tuple[float, ...]

    @property
    def end_zone_ft(self) -> float:
        """Width of the main frame's end zones. [ft]"""
        return end_zone_ft(self.a_ft)

    @property
    def h_over_B_ratio(self) -> float:
        """Mean roof height over the least horizontal dimension."""
        return self.h_ft / self.least_side_ft


def edge_widths(plan: Plan, outline: Outline, roof: Roof) -> EdgeWidths:
    """Edge width, least dimension, mean roof height, reach of zone 2 and strips along the wind, of the whole house.

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
        least_side_ft=least,
        h_ft=h,
        eave_height_ft=roof.eave_height_ft,
        zone_2_ft=reach,
        strips_ft=tuple(s * h for s in STRIPS_OF_HEIGHT if s) if directional else (),
    )
