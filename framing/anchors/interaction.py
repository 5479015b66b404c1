"""How far an anchor is used: the row's rule on three ratios within one case, and the wind speed at which it is full.

A lateral ratio counts where the catalogue gives the allowable. A row's parallel and perpendicular are those of a truss
that crosses the wall square: across the truss's plane, and in it. Source: from memory (engineering usage).
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.tolerances import ROUNDING

Floats = NDArray[np.float64]
MOST_EACH_RATIO = 0.75


class Interaction(StrEnum):
    """How a row's three ratios make one: they add, or none may be over 0.75 and they do not."""

    SUM = "sum"
    EACH = "each 0.75"

    @property
    def words(self) -> str:
        """The rule as people read it."""
        return "the three ratios add" if self is Interaction.SUM else "none over 0.75, no sum"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Demand:
    """What bearings ask of their anchors in every case, arrays (n, k): `wind_lb` up at strength level and `dead_lb`
    down, unfactored, 0 where the case lifts nothing; `across_lb` and `along_lb` (ASD) push across the truss's plane and
    in it. `grows` (k,) says whether the pushes go with the square of the speed; the least ones do not.
    """

    wind_lb: Floats
    dead_lb: Floats
    across_lb: Floats
    along_lb: Floats
    grows: NDArray[np.bool_]

    @property
    def uplift_lb(self) -> Floats:
        """ASD net uplift, 0 where nothing lifts. (n, k) Source: ASCE 7-22, sec. 2.4.1, combination 7a."""
        out: Floats = np.maximum(0.0, ASD_UPLIFT.net_uplift(self.wind_lb, self.dead_lb))
        return out

    def of(self, rows: NDArray[np.int64], columns: NDArray[np.bool_]) -> Demand:
        """That of some bearings in some cases."""
        at = np.ix_(rows, columns)
        return Demand(
            wind_lb=self.wind_lb[at],
            dead_lb=self.dead_lb[at],
            across_lb=self.across_lb[at],
            along_lb=self.along_lb[at],
            grows=self.grows[columns],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowable:
    """What an anchor takes, ASD; None where the catalogue does not say. [lb]"""

    uplift_lb: float
    parallel_lb: float | None
    perpendicular_lb: float | None
    rule: Interaction


def ratios(demand: Demand, allowable: Allowable) -> Floats:
    """Each case's three ratios, uplift, parallel and perpendicular; 0 where the catalogue does not say. (n, k, 3)"""
    parts = [demand.uplift_lb / allowable.uplift_lb]
    for push, most in _sideways(demand, allowable):
        parts.append(push / most if most is not None else np.zeros_like(push))
    return np.stack(parts, axis=-1)


def used(parts_ratio: Floats, rule: Interaction) -> Floats:
    """The one ratio of three: at or under 1 the anchor holds. (..., 3) -> (...)

    Source: own derivation: tests/statics/test_interaction.py.
    """
    out: Floats = parts_ratio.sum(axis=-1) if rule is Interaction.SUM else parts_ratio.max(axis=-1) / MOST_EACH_RATIO
    return out


def speed_ratios(demand: Demand, allowable: Allowable) -> Floats:
    """The factor on the wind speed at which an anchor is full in each case; infinite where no speed brings it there, 0
    where the least loads alone are too much. (n, k)

    Source: own derivation: tests/statics/test_interaction.py; ASCE 7-22, eq. 26.10-1 (force goes with V^2).
    """
    up = ASD_UPLIFT.wind_factor * demand.wind_lb / allowable.uplift_lb
    down = ASD_UPLIFT.dead_factor * demand.dead_lb / allowable.uplift_lb
    sides = [push / most for push, most in _sideways(demand, allowable) if most is not None]
    if allowable.rule is Interaction.SUM:
        reached: Floats = _sum_full(up, down, np.add.reduce([np.zeros_like(up), *sides]), demand.grows)
    else:
        each = [_over(MOST_EACH_RATIO + down, up)]
        for side in sides:
            fixed = np.where(side > MOST_EACH_RATIO, 0.0, np.inf)
            each.append(np.where(demand.grows, _over(np.full_like(side, MOST_EACH_RATIO), side), fixed))
        reached = np.minimum.reduce(each)
    out: Floats = np.sqrt(np.maximum(reached, 0.0))
    return out


def _sum_full(up: Floats, down: Floats, side: Floats, grows: NDArray[np.bool_]) -> Floats:
    """The factor on V^2 at which max(0, up - down) and the sideways ratio together are 1."""
    growing = np.minimum(_over(np.ones_like(side), side), _over(1.0 + down, up + side))
    fixed = np.where(side > 1.0, 0.0, _over(1.0 - side + down, up))
    out: Floats = np.where(grows, growing, fixed)
    return out


def _over(value: Floats, slope: Floats) -> Floats:
    """Where a line of that slope through 0 reaches a value; infinite where it does not rise."""
    out: Floats = np.divide(value, slope, out=np.full(slope.shape, np.inf), where=slope > ROUNDING)
    return out


def _sideways(demand: Demand, allowable: Allowable) -> list[tuple[Floats, float | None]]:
    return [(demand.across_lb, allowable.parallel_lb), (demand.along_lb, allowable.perpendicular_lb)]
