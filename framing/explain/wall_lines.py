"""Run -> what comes to the walls sideways: the deck's shear on each line of walls, and the wind square to each wall."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from framing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class WallShear:
    """One wall's share, by length, of the largest shear that the deck brings to its line (ASD), in that case."""

    wall: str
    length_ft: float
    shear_lb: float
    plf: float
    case: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SquarePush:
    """The largest force of the wind on the upper half of a wall (ASD), outward positive: its top takes that, its base
    the same of the lower half.
    """

    wall: str
    case: str
    push_lb: float


def wall_shears(run: Run) -> tuple[WallShear, ...]:
    """Every wall that holds the deck, line by line.

    Source: ASCE 7-22, sec. 2.4.1 (0.6 W); own derivation: tests/statics/test_sideways.py for the lever rule.
    """
    out = []
    for shear in run.tops.shears:
        line = run.sideways.deck.lines[shear.axis][shear.line]
        for k, ft in zip(line.stretches, line.lengths_ft, strict=True):
            name = run.sideways.stretches[k].name
            out.append(WallShear(wall=name, length_ft=ft, shear_lb=shear.plf * ft, plf=shear.plf, case=shear.case))
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
