"""Run -> what comes to the walls sideways: the deck's shear on each line of walls, and the wind square to each wall."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from framing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class LineShear:
    """The largest shear that the deck brings to a line of walls (ASD), in the case of that name: along all of it, and
    what of it comes to each of its walls by length, (name, length [ft], shear [lb]).
    """

    case: str
    shear_lb: float
    length_ft: float
    walls: tuple[tuple[str, float, float], ...]

    @property
    def plf(self) -> float:
        """On each foot of the line. [plf]"""
        return self.shear_lb / self.length_ft


@dataclass(frozen=True, slots=True, kw_only=True)
class SquarePush:
    """The largest force of the wind on the upper half of a wall (ASD), outward positive: its top takes that, its base
    the same of the lower half.
    """

    wall: str
    case: str
    push_lb: float


def line_shears(run: Run) -> tuple[LineShear, ...]:
    """Every line of walls that holds the deck, along the frame's x and then its y.

    Source: ASCE 7-22, sec. 2.4.1 (0.6 W); own derivation: tests/statics/test_sideways.py for the lever rule.
    """
    sideways = run.sideways
    out = []
    for axis in (0, 1):
        for line, lb in zip(sideways.deck.lines[axis], sideways.lines_lb[axis], strict=True):
            j = int(np.abs(lb).argmax())
            shear = float(abs(lb[j]))
            of = zip(line.stretches, line.lengths_ft, strict=True)
            walls = tuple((sideways.stretches[k].name, ft, shear * ft / line.length_ft) for k, ft in of)
            name = sideways.cases[j].name
            out.append(LineShear(case=name, shear_lb=shear, length_ft=line.length_ft, walls=walls))
    return tuple(out)


def square_pushes(run: Run) -> tuple[SquarePush, ...]:
    """Every outside wall, in order, the larger of both ways.

    Source: ASCE 7-22, sec. 2.4.1 (0.6 W).
    """
    return tuple(_square_pushes(run))


def _square_pushes(run: Run) -> Iterator[SquarePush]:
    parts, loads = run.sideways.parts, run.sideways.loads
    force = loads.wall_psf * parts.half_ft2[:, None, None]
    outward = np.einsum("nkd,nd->nk", force, parts.outward)
    for k, wall in enumerate(run.outline.walls):
        total = outward[parts.wall == k].sum(axis=0)
        if total.any():
            j = int(np.abs(total).argmax())
            yield SquarePush(wall=wall.name, case=run.sideways.cases[j].name, push_lb=float(total[j]))
