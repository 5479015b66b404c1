"""ASCE 7-22 chapter 2: the load combinations that size anchors."""

from __future__ import annotations

from dataclasses import dataclass

from framing.asce7.tables import Number, by_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Combination:
    """Factors on dead, roof live and wind loads; wind W from the basic (ultimate) speed.

    Source: ASCE 7-22, sec. 2.3.1 and 2.4.1.
    """

    name: str
    dead_factor: float
    roof_live_factor: float
    wind_factor: float

    def net_uplift(self, wind_uplift: Number, dead: Number) -> Number:
        """Factored wind uplift less factored dead load, in the unit of both; negative where nothing lifts.

        Parameters
        ----------
        wind_uplift : float or (n,) float
            At strength level, positive when it lifts.
        dead : float or (n,) float
            Positive down.

        Source: ASCE 7-22, sec. 2.4.1 and 2.3.1.
        """
        return self.wind_factor * wind_uplift - self.dead_factor * dead


def combination(name: str) -> Combination:
    """The combination of that name in data/chapter2_combinations.csv.

    Source: ASCE 7-22, sec. 2.3.1 and 2.4.1 (good; those without wind from memory).
    """
    row = by_key("chapter2_combinations", "name", name)
    return Combination(
        name=name,
        dead_factor=float(row["D"]),
        roof_live_factor=float(row["L_r"]),
        wind_factor=float(row["W"]),
    )


# Allowable-stress uplift: 0.6 W less 0.6 D. Source: ASCE 7-22, sec. 2.4.1, combination 7a (good).
ASD_UPLIFT = combination("ASD 0.6D + 0.6W")

# Allowable-stress gravity: D + L_r. Source: ASCE 7-22, sec. 2.4.1, combination 3a (from memory).
ASD_GRAVITY = combination("ASD D + Lr")
