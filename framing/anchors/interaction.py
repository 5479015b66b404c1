"""How far an anchor is used: the straight-line sum of uplift and lateral ratios, and the wind speed at which it is 1.

A lateral ratio counts where the catalogue gives the allowable. Source: from memory (engineering usage).
"""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.chapter2 import ASD_UPLIFT

Line = tuple[float, float]  # part that grows with the square of the speed, and part that does not, both ratios


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """What one bearing asks of its anchor: `wind_lb` up at strength level and `dead_lb` down, unfactored; the lateral
    pushes at allowable-stress level as (by the wind, at least), None where there are none. [lb]
    """

    wind_lb: float
    dead_lb: float
    parallel_lb: Line | None
    perpendicular_lb: Line | None

    @property
    def uplift_lb(self) -> float:
        """ASD net uplift, 0 where nothing lifts. Source: ASCE 7-22, sec. 2.4.1, combination 7a."""
        return max(0.0, ASD_UPLIFT.net_uplift(self.wind_lb, self.dead_lb))


@dataclass(frozen=True, slots=True, kw_only=True)
class Allowable:
    """What an anchor takes, ASD; None where the catalogue does not say. [lb]"""

    uplift_lb: float
    parallel_lb: float | None
    perpendicular_lb: float | None


def use_ratio(demand: Demand, allowable: Allowable) -> float:
    """The sum of the ratios: at or under 1 the anchor holds.

    Source: own derivation: tests/statics/test_interaction.py.
    """
    total = demand.uplift_lb / allowable.uplift_lb
    return total + sum(max(lines) for lines in _lateral(demand, allowable))


def speed_ratio(demand: Demand, allowable: Allowable) -> float:
    """The factor on the wind speed at which the sum of the ratios is 1; infinite where no speed brings it there, 0
    where the least loads alone are too much.

    Every ratio is the larger of straight lines in V^2, so their sum is the largest of the sums of one line each, and
    it reaches 1 where the first of those does.

    Source: own derivation: tests/statics/test_interaction.py; ASCE 7-22, eq. 26.10-1 (force goes with V^2).
    """
    lift = (ASD_UPLIFT.wind_factor * demand.wind_lb, -ASD_UPLIFT.dead_factor * demand.dead_lb)
    terms = [((lift[0] / allowable.uplift_lb, lift[1] / allowable.uplift_lb), (0.0, 0.0))]
    terms += [((by_wind, 0.0), (0.0, least)) for by_wind, least in _lateral(demand, allowable)]
    reached, sums = [], [(0.0, 0.0)]
    for term in terms:
        sums = [(slope + line[0], constant + line[1]) for slope, constant in sums for line in term]
    for slope, constant in sums:
        if slope > 0.0:
            reached.append(max(0.0, 1.0 - constant) / slope)
        elif constant > 1.0:
            reached.append(0.0)
    return float(min(reached, default=float("inf")) ** 0.5)


def _lateral(demand: Demand, allowable: Allowable) -> list[Line]:
    """The lateral ratios that count, by the wind and at least."""
    pairs = ((demand.parallel_lb, allowable.parallel_lb), (demand.perpendicular_lb, allowable.perpendicular_lb))
    return [(push[0] / most, push[1] / most) for push, most in pairs if push is not None and most is not None]
