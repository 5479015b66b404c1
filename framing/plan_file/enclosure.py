"""How open the building counts as: the one place that says so, from what the plan says of enclosure and openings."""

from __future__ import annotations

from dataclasses import replace

from framing.asce7.chapter26 import in_debris_region
from framing.errors import PlanError
from framing.plan import Enclosure, Openings, WindSpec


def with_enclosure(wind: WindSpec) -> WindSpec:
    """The wind with the enclosure that is reckoned with.

    Doors and windows that are not protected count as openings in the wind-borne debris region: partially enclosed where
    the plan does not say. Where only a distance that is not given could place the house outside, it counts as inside.

    Raises
    ------
    PlanError
        If the plan says both 'enclosed' and 'not protected' of a house in the region.

    Source: ASCE 7-22, sec. 26.12.3 (from memory).
    """
    inside = in_debris_region(wind.speed_mph, wind.coast_distance_ft)
    if wind.openings is not Openings.NOT_PROTECTED or inside is False:
        return wind
    if not wind.enclosure_typed:
        return replace(wind, enclosure=Enclosure.PARTIALLY_ENCLOSED)
    if inside and wind.enclosure is Enclosure.ENCLOSED:
        raise PlanError(
            f'wind enclosure: "enclosed" with openings = "not protected" is no house in the wind-borne debris region, '
            f'which {wind.speed_mph:g} mph makes this; write "partially enclosed", or openings = "protected"'
        )
    return wind
