"""Outline -> Roof: the wings, the visible faces and the lines where they meet."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]
Point3 = tuple[float, float, float]


class LineKind(StrEnum):
    """What a line of the roof is called."""

    RIDGE = "ridge"
    HIP = "hip"
    VALLEY = "valley"
    EAVE = "eave"
    RAKE = "rake"
    STEP = "step"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wing:
    """A largest rectangle inside the walls, in the outline's frame; its own roof stands over it.

    `low` and `high` are the outside faces of its walls. `ridge_axis` is 0 when the ridge runs along
    the frame's x, 1 along y. `gable` says for the sides (x low, x high, y low, y high) which are gables.
    """

    name: str
    low_ft: Point
    high_ft: Point
    ridge_axis: int
    gable: tuple[bool, bool, bool, bool]
    square: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One visible plane of the roof, overhang included, in plan coordinates.

    `ring_ft` is the outer ring (x, y, z), counter-clockwise from above, z above the top of the tie beam;
    `holes_ft` likewise. `wing` names the wing whose roof it is; `downhill` is the plan direction in
    which water runs off.
    """

    ring_ft: tuple[Point3, ...]
    holes_ft: tuple[tuple[Point3, ...], ...]
    wing: str
    downhill: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofLine:
    """A ridge, hip, valley, eave or rake, in plan coordinates with z above the top of the tie beam. [ft]"""

    kind: LineKind
    start_ft: Point3
    end_ft: Point3


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """The roof as seen. `eave_ft` is the outer edge in plan coordinates, one ring, counter-clockwise,
    `eave_holes_ft` any holes in it."""

    wings: tuple[Wing, ...]
    faces: tuple[Face, ...]
    lines: tuple[RoofLine, ...]
    eave_ft: tuple[Point, ...]
    eave_holes_ft: tuple[tuple[Point, ...], ...]
    plan_area_ft2: float
    rise_per_run: float
    heel_ft: float
    eave_height_ft: float
    highest_ft: float
    mean_roof_height_ft: float
    notes: tuple[str, ...] = ()
