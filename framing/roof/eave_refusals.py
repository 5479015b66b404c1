"""Eaves that cannot be roofed, for a sentence: by which walls, and what cures it."""

from __future__ import annotations

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


def eaves_meet(outline: Outline, overhangs_ft: Point, can_be_roofed: Callable[[Point], bool]) -> LayoutError:
    """What to say of eaves that close a recess so that what is left of them cannot be roofed.

    Parameters
    ----------
    outline : Outline
        The walls.
    overhangs_ft : (2,) float
        Past eaves and past gables. [ft]
    can_be_roofed : callable
        Whether the house can be roofed with two overhangs: what the cure is tried by.
    """
    names = _walls_around(outline, max(overhangs_ft))
    where = f"over the recess by {_listed(names)}" if names else "over a recess"
    least = _widest_that_can(overhangs_ft, can_be_roofed)
    return LayoutError(
        f"roof overhang: {where} the eaves meet or leave a hole, which is not roofed in a plan with angled walls; make "
        f"the overhang {feet_inches(least)} or less{_and_the_rake(overhangs_ft, least)}, widen the recess to more than "
        "twice the overhang, or draw it closed"
    )


def _and_the_rake(overhangs_ft: Point, least_ft: float) -> str:
    return " and the rake overhang too" if overhangs_ft[1] > least_ft + TIE_FT else ""


def _widest_that_can(overhangs_ft: Point, can_be_roofed: Callable[[Point], bool]) -> float:
    """The largest overhang, in whole inches, with which the house can be roofed."""
    inches = int(max(overhangs_ft) / STEP_FT + TIE_FT)
    tried = (k * STEP_FT for k in range(inches, 0, -1))
    return next((at for at in tried if can_be_roofed((min(overhangs_ft[0], at), min(overhangs_ft[1], at)))), 0.0)


def _walls_around(outline: Outline, overhang_ft: float) -> tuple[str, ...]:
    """The walls along the largest recess that eaves of one overhang close or leave open as a hole, in their order."""
    house = Polygon(outline.local_ft)
    grown = house.buffer(overhang_ft, join_style="mitre", mitre_limit=CORNERS_RUN_ON_FT)
    filled = shapely.union_all([Polygon(p.exterior) for p in shapely.get_parts(grown)])
    closed = filled.buffer(-overhang_ft, join_style="mitre", mitre_limit=CORNERS_RUN_ON_FT).difference(house)
    recess = max(shapely.get_parts(closed), key=lambda p: p.area, default=Polygon())
    edge = recess.buffer(10 * TIE_FT)
    n = len(outline.walls)
    sides = [LineString([outline.local_ft[i], outline.local_ft[(i + 1) % n]]) for i in range(n)]
    along = [edge.intersection(side).length > STEP_FT for side in sides]
    return tuple(w.name for w, beside in zip(outline.walls, along, strict=True) if beside)


def _listed(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def refuse_small_holes(eave: Polygon, outline: Outline) -> None:
    """Refuse a hole that eaves leave, under 1 ft across. Raises LayoutError, which names two walls by it."""
    for ring in eave.interiors:
        x0, y0, x1, y1 = ring.bounds
        if min(x1 - x0, y1 - y0) < SMALLEST_EAVE_HOLE_FT:
            raise LayoutError(
                f"roof overhang: the eaves leave a hole of {x1 - x0:.2f} x {y1 - y0:.2f} ft over a recess by "
                f"{walls_near(outline, outline.frame.to_plan((x0, y0)))}; widen it to close that or cut it to open 1 ft"
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
