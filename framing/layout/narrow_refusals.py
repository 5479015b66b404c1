"""A part of the house too narrow to frame, for a sentence: where, between which walls, and what cures it."""

from __future__ import annotations

from framing.errors import LayoutError
from framing.plan import Point
from framing.walls.outline import Outline
from framing.walls.walls_near import walls_facing


class NothingAheadError(Exception):
    """A framing line at `point_ft` in the frame, drawn in a part as narrow as the walls, that nothing can carry."""

    def __init__(self, point_ft: Point) -> None:
        super().__init__(point_ft)
        self.point_ft = point_ft


def too_narrow_for(what: str, outline: Outline, point_ft: Point) -> LayoutError:
    """What to say of a part, at a point of the frame, that leaves a member no length."""
    x, y = outline.frame.to_plan(point_ft)
    return LayoutError(
        f"walls outline: near ({x:.2f}, {y:.2f}) ft, between {walls_facing(outline, (x, y))}, a part about as narrow "
        f"as the walls leaves a {what} no length; move one of the two so that it is 2'-0\" or more, or draw them as "
        "one straight wall"
    )
