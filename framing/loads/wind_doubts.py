"""What the plan leaves open about the wind, with the figure that the other reading makes of the hardest mark.

These sentences stand on every output, beside the wind that was reckoned with.
"""

from __future__ import annotations

from collections.abc import Iterator

from framing.asce7.chapter26 import in_debris_region
from framing.loads.other_readings import House, directional_uplift_lb, main_frame_uplift_lb, uplift_if_lb
from framing.plan import Basis, Enclosure, MwfrsProcedure, Openings, Plan

N_CORNERS_OF_A_RECTANGLE = 4
LEAST_LB = 1.0  # what one mark lifts over another before it is named too


def wind_doubts(house: House) -> tuple[str, ...]:
    """Of openings against debris, and of an outline under the envelope procedure; none where nothing is open.

    Source: ASCE 7-22, sec. 26.12.3.1 and 28.1.2 (from memory).
    """
    if not len(house.reactions.uplift_lb):
        return ()
    hardest = int(house.reactions.uplift_lb.argmax())
    return (*_of_openings(house, hardest), *_of_the_outline(house, hardest))


def _of_openings(house: House, hardest: int) -> Iterator[str]:
    plan, closed_lb = house.plan, house.reactions.uplift_lb
    if _openings_open(plan):
        opened_lb = uplift_if_lb(house, Enclosure.PARTIALLY_ENCLOSED)
        then = int(opened_lb.argmax())
        if opened_lb[then] < opened_lb[hardest] + LEAST_LB:
            then = hardest
        told = [f"{opened_lb[i]:,.0f} lb, not {closed_lb[i]:,.0f}" for i in (hardest, then)]
        mark, other = (house.framing.bearings[i].mark for i in (hardest, then))
        yield (
            f"{_region(plan)}: protected doors and windows are not declared (wind.openings). One that breaks makes the "
            f"house partially enclosed: {mark} then lifts {told[0]}"
            + ("." if then == hardest else f"; hardest is then {other}, {told[1]}.")
        )
    elif _reckoned_open(plan):
        yield (
            f"{_region(plan)}: doors and windows are not protected, so the house is reckoned partially enclosed "
            "[ASCE 7, sec. 26.12.3]."
        )


def _of_the_outline(house: House, hardest: int) -> Iterator[str]:
    irregular = len(house.framing.framed_ft) != N_CORNERS_OF_A_RECTANGLE or not house.outline.right_angled
    wind = house.plan.wind
    if irregular and wind.mwfrs_procedure is MwfrsProcedure.ENVELOPE and wind.basis is not Basis.CLADDING:
        yield (
            "The envelope procedure is for buildings of regular shape [ASCE 7, sec. 28.1.2]; whether this outline, no "
            f"rectangle, is one, the engineer says. Main frame alone at {house.framing.bearings[hardest].mark}: "
            f"{main_frame_uplift_lb(house, hardest):,.0f} lb by it, {directional_uplift_lb(house, hardest):,.0f} lb by "
            "the directional procedure; its pushes sideways may be larger: try the plan with wind.mwfrs_procedure = "
            '"directional" too.'
        )


def _openings_open(plan: Plan) -> bool:
    """Whether nothing is said of openings that the region asks about, where a broken one would change the figures."""
    wind = plan.wind
    if in_debris_region(wind.speed_mph, wind.coast_distance_ft) is False:
        return False
    if wind.enclosure in (Enclosure.PARTIALLY_ENCLOSED, Enclosure.OPEN):
        return False
    return wind.openings is not Openings.PROTECTED


def _reckoned_open(plan: Plan) -> bool:
    wind = plan.wind
    return (
        wind.openings is Openings.NOT_PROTECTED
        and not wind.enclosure_typed
        and (wind.enclosure is Enclosure.PARTIALLY_ENCLOSED)
    )


def _region(plan: Plan) -> str:
    """Where the plan's speed and distance place the house."""
    speed_mph = plan.wind.speed_mph
    if in_debris_region(speed_mph, plan.wind.coast_distance_ft) is None:
        return (
            f"At {speed_mph:g} mph the wind-borne debris region reaches a mile inland, and how far the house stands "
            "from the coast line is not said (wind.coast_distance)"
        )
    return f"Wind-borne debris region, {speed_mph:g} mph"
