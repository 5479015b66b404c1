"""Drawings of an invented house, made with ezdxf: in any unit, turned, far away, as a polyline or as lines."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path

import ezdxf
from ezdxf.document import Drawing

Point = tuple[float, float]

# An L, in feet, the first corner at the origin.
HOUSE: tuple[Point, ...] = ((0, 0), (46 + 2 / 3, 0), (46 + 2 / 3, 30), (20, 30), (20, 22.5), (0, 22.5))
ON_WALL = {"layer": "A-WALL"}


def new_drawing(version: str = "R2010", code: int = 1) -> Drawing:
    """An empty drawing with a wall layer; code 1 is inches, 0 none."""
    document = ezdxf.new(version)
    if version != "R12":  # which has no such header
        document.header["$INSUNITS"] = code
    document.layers.add("A-WALL")
    return document


def set_out(corners: Sequence[Point], per_ft: float = 12.0, turn_deg: float = 0.0, away_ft: float = 0.0) -> list[Point]:
    """Corners in feet as a drawing may have them: turned, moved and in its own unit."""
    c, s = math.cos(math.radians(turn_deg)), math.sin(math.radians(turn_deg))
    return [((x * c - y * s + away_ft) * per_ft, (x * s + y * c - away_ft) * per_ft) for x, y in corners]


def draw_ring(document: Drawing, corners: Sequence[Point], layer: str = "A-WALL") -> None:
    """A closed polyline."""
    space = document.modelspace()
    add = space.add_polyline2d if document.dxfversion == "AC1009" else space.add_lwpolyline
    add(corners, close=True, dxfattribs={"layer": layer})


def draw_lines(document: Drawing, corners: Sequence[Point], closed: bool = True) -> None:
    """A line for each side, every other one drawn the other way round."""
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    for i, side in enumerate(sides if closed else sides[:-1]):
        document.modelspace().add_line(*(side if i % 2 == 0 else side[::-1]), dxfattribs=ON_WALL)


def saved(document: Drawing, folder: Path, name: str = "floor.dxf") -> Path:
    """The drawing in a file."""
    path = folder / name
    document.saveas(path)
    return path
