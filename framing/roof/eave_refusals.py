"""Eaves that meet over a recess, for a sentence: by which walls, and what is done about it or cures it."""

from __future__ import annotations

import math
from collections.abc import Callable

import shapely
from shapely.geometry import LineString, Polygon

from framing.errors import LayoutError
from framing.plan import Point
from framing.tolerances import TIE_FT
from framing.units import feet_inches
from framing.walls.outline import Outline
from framing.walls.walls_near import walls_near

CORNERS_RUN_ON_FT = 100.0
STEP_FT = 1.0 / 12.0
SMALLEST_EAVE_HOLE_FT = 1.0


def eaves_meet(
    outline: Outline, beside: list[int], overhangs_ft: Point, can_be_roofed: Callable[[Point], bool]
) -> LayoutError:
    """What to say of eaves that close a recess, or run past one another, so that what is left cannot be roofed.

    Parameters
    ----------
    outline : Outline
        The walls.
    beside : (n,) list
        The walls past which eaves run.
    overhangs_ft : (2,) float
        Past eaves and past gables. [ft]
    can_be_roofed : callable
        Whether the house can be roofed with two overhangs: what the cure is tried by.
    """
    recesses = recesses_along(outline, max(overhangs_ft))
    walls = recesses[0] if recesses else beside
    where = f"{'over the recess by' if recesses else 'past'} {_listed(outline, walls)}" if walls else "over a recess"
    least = _widest_that_can(overhangs_ft, can_be_roofed)
    return LayoutError(
        f"roof overhang: {where} the eaves meet or leave a hole, which is not roofed in a plan with angled walls; make "
        f"the overhang {f'{feet_inches(least)} or less' if least else '0'}{_and_the_rake(overhangs_ft, least)}, widen "
        "the recess to more than twice the overhang, or draw it closed"
    )


def eaves_shortened(outline: Outline, walls: list[int], over_ft: float, less_ft: float) -> tuple[str, ...]:
    """What to say of the walls whose eaves are shortened from one depth to another. [ft]"""
    return (
        f"Eaves of {feet_inches(over_ft)} would meet or run past one another: they are made {feet_inches(less_ft)} "
        f"along {_listed(outline, walls)}.",
    )


def _and_the_rake(overhangs_ft: Point, least_ft: float) -> str:
    return " and the rake overhang too" if overhangs_ft[1] > least_ft + TIE_FT else ""


def _widest_that_can(overhangs_ft: Point, can_be_roofed: Callable[[Point], bool]) -> float:
    """The largest overhang, in whole inches, with which the house can be roofed."""
    tried = whole_inches_under(max(overhangs_ft))
    return next((at for at in tried if can_be_roofed((min(overhangs_ft[0], at), min(overhangs_ft[1], at)))), 0.0)


def whole_inches_under(overhang_ft: float) -> list[float]:
    """The overhangs in whole inches up to one, the largest first, without 0. [ft]"""
    return [k * STEP_FT for k in range(int(overhang_ft / STEP_FT + TIE_FT), 0, -1)]


def recesses_along(outline: Outline, overhang_ft: float) -> list[list[int]]:
    """The recesses that eaves of one overhang close or leave open as a hole, the largest first: of each the walls along
    it, in their order.
    """
    house = Polygon(outline.local_ft)
    grown = house.buffer(overhang_ft, join_style="mitre", mitre_limit=CORNERS_RUN_ON_FT)
    filled = shapely.union_all([Polygon(p.exterior) for p in shapely.get_parts(grown)])
    closed = filled.buffer(-overhang_ft, join_style="mitre", mitre_limit=CORNERS_RUN_ON_FT).difference(house)
    n = len(outline.walls)
    sides = [LineString([outline.local_ft[i], outline.local_ft[(i + 1) % n]]) for i in range(n)]
    out = []
    for recess in sorted(shapely.get_parts(closed), key=lambda p: -p.area):
        edge = recess.buffer(10 * TIE_FT)
        along = [i for i, side in enumerate(sides) if edge.intersection(side).length > STEP_FT]
        out += [along] if along else []
    return out


def _listed(outline: Outline, walls: list[int]) -> str:
    names = [outline.walls[i].name for i in walls]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def refuse_small_holes(eave: Polygon, outline: Outline, overhang_ft: float) -> None:
    """Refuse a hole that eaves leave, under 1 ft across. Raises LayoutError, which names two walls by it."""
    for ring in eave.interiors:
        x0, y0, x1, y1 = ring.bounds
        if min(x1 - x0, y1 - y0) < SMALLEST_EAVE_HOLE_FT:
            gap_ft = min(x1 - x0, y1 - y0)
            closed = math.ceil((overhang_ft + gap_ft / 2.0) / STEP_FT - TIE_FT) * STEP_FT
            opened = math.floor((overhang_ft - (SMALLEST_EAVE_HOLE_FT - gap_ft) / 2.0) / STEP_FT + TIE_FT) * STEP_FT
            raise LayoutError(
                f"roof overhang: the eaves leave a hole of {x1 - x0:.2f} x {y1 - y0:.2f} ft over a recess by "
                f"{walls_near(outline, outline.frame.to_plan((x0, y0)))}; make the overhang {feet_inches(closed)} to "
                f"close it{f', or {feet_inches(opened)} to leave it 1 ft wide' * (opened > 0.0)}"
            )


def in_parts(eave: shapely.Geometry, outline: Outline) -> LayoutError:
    """What to say of a roof in parts: by which walls the smallest stands."""
    small = min(shapely.get_parts(eave), key=lambda p: p.area)
    x, y = shapely.point_on_surface(small).coords[0]
    near = walls_near(outline, outline.frame.to_plan((x, y)))
    return LayoutError(
        f"walls outline: the roof over {near} stands apart from the rest; join the two parts by a neck of 2'-0\" or "
        "more, or give each a plan of its own"
    )
