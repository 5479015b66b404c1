"""Sides of an outline -> the legs that angled ones become: along the frame's axes, meeting outside the house.

The short walls of a curve share their legs: together they stand for a step of some 8 ft, because a leg to every wall
would make of a round house a hundred wings an inch apart.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon

from framing.plan import Point

STEP_FT = 8.0  # of a curve, along either axis
IN_LINE_FT = 1.0
Leg = tuple[int, bool, float]  # the axis that it is square to, whether it faces that axis's high side, where it lies


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """A square wall, an angled one or a part of it, in the outline's frame; `axis` is None for the latter two, `joins`
    whether an angled one may share its legs with its neighbours.
    """

    start_ft: Point
    end_ft: Point
    wall: int
    axis: int | None
    joins: bool

    @property
    def heading(self) -> tuple[bool, bool] | None:
        """The quarter of the compass toward which an angled side runs; None for a square one."""
        (x0, y0), (x1, y1) = self.start_ft, self.end_ft
        return None if self.axis is not None else (x1 > x0, y1 > y0)


def between_legs(sides: list[Side]) -> list[tuple[list[Side], Polygon]]:
    """The angled sides, those of a step of a curve together, and what lies between them and their legs."""
    steps = [(step, len(run) > 1) for run in _runs(sides) for step in _steps(run)]
    lines = _in_line([leg for step, curved in steps if curved for leg in _legs(step)])
    return [
        (step, _between(step, [lines.get(leg, leg) if curved else leg for leg in _legs(step)]))
        for step, curved in steps
    ]


def _runs(sides: list[Side]) -> list[list[Side]]:
    """Angled sides in a row that run toward one quarter and may share legs; each of the others alone."""

    def key(side: Side) -> tuple[tuple[bool, bool] | None, Point | None]:
        return (side.heading, None if side.joins else side.start_ft)

    first = next((i for i in range(len(sides)) if key(sides[i]) != key(sides[i - 1])), 0)
    runs = itertools.groupby(sides[first:] + sides[:first], key)
    return [list(run) for (heading, _), run in runs if heading is not None]


def _steps(run: list[Side]) -> list[list[Side]]:
    """The sides of a run, parted at the corners nearest to equal parts of its length."""
    corners = np.array([run[0].start_ft, *(s.end_ft for s in run)])
    n_parts = math.ceil(float(np.abs(corners[-1] - corners[0]).max()) / STEP_FT)
    if n_parts >= len(run):
        return [[side] for side in run]
    at = np.r_[0.0, np.cumsum(np.hypot(*np.diff(corners, axis=0).T))]
    cuts = sorted({int(np.abs(at - at[-1] * k / n_parts).round(6).argmin()) for k in range(n_parts + 1)})
    return [run[a:b] for a, b in itertools.pairwise(cuts)]


def _legs(step: list[Side]) -> tuple[Leg, Leg]:
    """The legs of a step, from its first corner and to its last."""
    (px, py), (qx, qy) = step[0].start_ft, step[-1].end_ft
    level, upright = (1, qx < px), (0, qy > py)
    return ((*level, py), (*upright, qx)) if (qx > px) == (qy > py) else ((*upright, px), (*level, qy))


def _in_line(legs: list[Leg]) -> dict[Leg, Leg]:
    """Legs that face one way less than 1 ft apart, in one line with the outermost of them."""
    out: dict[Leg, Leg] = {}
    for leg in sorted(legs, key=lambda leg: -leg[2] if leg[1] else leg[2]):
        out[leg] = next((t for t in out.values() if t[:2] == leg[:2] and abs(t[2] - leg[2]) < IN_LINE_FT), leg)
    return out


def _between(step: list[Side], legs: list[Leg]) -> Polygon:
    """What lies between the sides of a step and its legs."""
    p, *between, q = (step[0].start_ft, *(s.end_ft for s in step))
    (square_to, _, at), (_, _, to) = legs
    ring = ((p[0], at), (to, at), (to, q[1])) if square_to else ((at, p[1]), (at, to), (q[0], to))
    return Polygon([p, *ring, q, *reversed(between)])
