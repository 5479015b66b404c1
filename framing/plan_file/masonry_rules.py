"""What openings, filled cells and cross walls must be before anything rests on them."""

from __future__ import annotations

import math

from shapely import LineString, Polygon

from framing.errors import PlanError
from framing.plan import Plan
from framing.plan_masonry import Opening
from framing.units import feet_inches, shown
from framing.walls.outline import build_outline

SLACK_FT = 1 / 192
LEAST_OPENING_FT = 0.5


def check_masonry(plan: Plan) -> None:
    """Refuse an opening, a filled cell or a cross wall that the house cannot have. Raises PlanError, which names it."""
    masonry = plan.masonry
    if not (masonry.openings or masonry.filled_cells or masonry.cross_walls):
        return
    lengths_ft = {wall.name: wall.length_ft for wall in build_outline(plan).walls}
    for i, cell in enumerate(masonry.filled_cells, 1):
        _check_place(f"filled_cell {i}", cell.wall, cell.at_ft, lengths_ft)
    taken: list[tuple[int, Opening]] = []
    for i, opening in enumerate(masonry.openings, 1):
        _check_opening(f"opening {i}", opening, plan.wall_height_ft, lengths_ft)
        for j, other in taken:
            if other.wall == opening.wall and opening.from_ft < other.to_ft and other.from_ft < opening.to_ft:
                raise PlanError(f"opening {i}: it overlaps opening {j} on {other.wall}; write each opening once")
        taken.append((i, opening))
    house = Polygon(plan.outline_ft).buffer(SLACK_FT, join_style="mitre")
    for i, cross in enumerate(masonry.cross_walls, 1):
        if math.dist(cross.start_ft, cross.end_ft) < 1.0:
            raise PlanError(f"cross_wall {i}: it is shorter than a foot; write from and to at least 1'-0\" apart")
        if not house.covers(LineString([cross.start_ft, cross.end_ft])):
            raise PlanError(f"cross_wall {i}: it leaves the house; write from and to so that all of it lies inside")


def _check_opening(where: str, opening: Opening, wall_height_ft: float, lengths_ft: dict[str, float]) -> None:
    _check_place(where, opening.wall, opening.to_ft, lengths_ft)
    if opening.to_ft - opening.from_ft < LEAST_OPENING_FT:
        raise PlanError(f'{where}: it is under 6" wide; write a to that is larger than its from')
    if opening.head_ft <= opening.sill_ft:
        raise PlanError(f"{where}: its head is not over its sill; write heights above the floor, the head the larger")
    if opening.head_ft > wall_height_ft:
        raise PlanError(
            f"{where}: its head stands over the top of the wall; write a head up to {feet_inches(wall_height_ft)}"
        )


def _check_place(where: str, wall: str, at_ft: float, lengths_ft: dict[str, float]) -> None:
    if wall not in lengths_ft:
        raise PlanError(f"{where} wall: {shown(wall)} is no wall of this house; write W1 to W{len(lengths_ft)}")
    if at_ft > lengths_ft[wall] + SLACK_FT:
        raise PlanError(
            f"{where}: it runs past the end of {wall}; write stations up to {feet_inches(lengths_ft[wall])}"
        )
