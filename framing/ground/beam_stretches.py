"""Outline + porch beams -> the tie beam in stretches: one on each wall, cut where a porch beam stands in its place.

A stretch runs from corner to corner between the crossings of the walls' centre lines, by stations of its wall: behind
an inside corner it begins before station 0 and ends past the wall's length.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from framing.members import PorchBeam
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """One stretch of tie beam on a wall (its place in the outline), by stations.

    `corners` are the corners of the outline (by the wall that starts there) at its two ends; None where it ends at a
    porch beam.
    """

    wall: int
    name: str
    from_ft: float
    to_ft: float
    corners: tuple[int | None, int | None]

    @property
    def length_ft(self) -> float:
        """From end to end. [ft]"""
        return self.to_ft - self.from_ft


def beam_stretches(outline: Outline, porch_beams: tuple[PorchBeam, ...]) -> tuple[Stretch, ...]:
    """The tie beam's stretches in the order of the walls, and along each; those shorter than a wall is thick are left
    out.

    Source: own derivation: tests/parts/test_filled_cells.py.
    """
    out = []
    n = len(outline.walls)
    for k, wall in enumerate(outline.walls):
        ends = (_corner_ft(outline, k), wall.length_ft - _corner_ft(outline, (k + 1) % n))
        gaps = sorted((b.from_ft, b.to_ft) for b in porch_beams if b.wall == k)
        pieces: list[tuple[float, float, int | None, int | None]] = []
        at, half = ends[0], wall.thickness_ft / 2.0
        start: int | None = k
        for low, high in gaps:
            if low > wall.thickness_ft + TIE_FT:
                pieces.append((at, low - half, start, None))
            at, start = high + half, None
        if at < wall.length_ft - wall.thickness_ft:
            pieces.append((at, ends[1], start, (k + 1) % n))
        for low, high, first, last in pieces:
            if high - low > wall.thickness_ft:
                out.append(Stretch(wall=k, name=wall.name, from_ft=low, to_ft=high, corners=(first, last)))
    return tuple(out)


def _corner_ft(outline: Outline, corner: int) -> float:
    """How far inside the outline the walls' centre lines cross, along either wall from its corner; negative behind an
    inside corner. [ft]
    """
    before, after = outline.walls[corner - 1], outline.walls[corner]
    (ax, ay), (bx, by) = before.direction, after.direction
    turn = math.atan2(ax * by - ay * bx, ax * bx + ay * by)
    return after.thickness_ft / 2.0 * math.tan(turn / 2.0)
