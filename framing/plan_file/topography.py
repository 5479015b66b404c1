"""What a rise of ground must be before it counts."""

from __future__ import annotations

from framing.asce7.chapter26 import K_zt_at
from framing.asce7.tables import constants
from framing.errors import PlanError
from framing.plan import WindSpec

_RIGHT = "leave [wind.topography] out"


def check_topography(wind: WindSpec) -> None:
    """Refuse a rise of ground that would count for nothing, as the plan would say more than the figures hold.

    Of the conditions of the standard those that a plan can tell are checked: steepness, height, and whether the
    house stands within the feature's reach. That the feature is isolated and twice as high as others within 2
    miles, and the house in its upper half or near its crest, is for whoever writes it down to judge.

    Raises
    ------
    PlanError
        Names the condition that does not hold.

    Source: ASCE 7-22, sec. 26.8.1 (from memory).
    """
    rise = wind.topography
    if rise is None:
        return
    limits = constants("chapter26_constants")
    least_ft, least_ratio = limits[f"K_zt_least_height_{wind.exposure}"], limits["K_zt_least_steepness"]
    if rise.height_ft < least_ft:
        raise PlanError(
            f"wind topography height: under {least_ft:g} ft a rise counts for nothing in Exposure {wind.exposure}; "
            f"{_RIGHT}"
        )
    if rise.height_ft < least_ratio * rise.half_length_ft:
        raise PlanError(
            f"wind topography half_length: {rise.height_ft:g} ft in {rise.half_length_ft:g} ft is flatter than "
            f"{least_ratio:g} and counts for nothing; {_RIGHT}"
        )
    if K_zt_at(wind, 0.0) <= 1.0:
        raise PlanError(
            f"wind topography distance: {rise.distance_ft:g} ft from the crest this {rise.feature} counts for nothing; "
            f"{_RIGHT}"
        )
