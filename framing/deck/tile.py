"""Roof tiles: the moment that the wind turns each with, and the checklist of what the equation asks of it."""

from __future__ import annotations

from dataclasses import dataclass

from framing.tolerances import ROUNDING

LIFT_FACTOR = 0.2
ARM_OF_LENGTH = 0.76
LENGTH_FT, WIDTH_FT = (1.0, 1.75), (0.67, 1.25)
LEAST_LAP_IN, MOST_NOSE_IN, LEAST_FREE_RATIO = 2.0, 1.3, 2.0 / 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """One condition of the equation: in words, what is said of it, and whether it holds (None: not said)."""

    words: str
    said: str
    holds: bool | None


def aerodynamic_moment_ft_lb(q_h_psf: float, width_ft: float, length_ft: float, GC_p: float) -> float:
    """The moment that the wind turns one tile with, M_a = q_h C_L b L L_a (1 - GC_p). [ft-lb]

    Parameters
    ----------
    q_h_psf : float
        Velocity pressure at the mean roof height, as the edition defines it; times 0.6 for allowable stress. [psf]
    width_ft, length_ft : float
        Exposed width b and length L of the tile; the arm is 0.76 L, nailed or screwed to the deck. [ft]
    GC_p : float
        External coefficient of the zone, negative for suction.

    Source: IBC 2018, sec. 1609.5.3, eq. 16-34 (solid).
    """
    return q_h_psf * LIFT_FACTOR * width_ft * length_ft * ARM_OF_LENGTH * length_ft * (1.0 - GC_p)


def required_moment_ft_lb(pressure_psf: float, lambda_ft3: float, restoring_ft_lb: float) -> float:
    """The moment asked of an attachment by the form of the high-velocity hurricane zone, M_r = P lambda - M_g. [ft-lb]

    Parameters
    ----------
    pressure_psf : float
        P, allowable-stress level, over 0. [psf]
    lambda_ft3, restoring_ft_lb : float
        From the tile's approval. [ft3, ft-lb]

    Source: RAS 127, form (fair): pressures outside its own tables need a seal there.
    """
    return pressure_psf * lambda_ft3 - restoring_ft_lb


def limits(
    length_ft: float | None,
    width_ft: float | None,
    lap_in: float | None,
    nose_in: float | None,
    free_ratio: float | None,
) -> tuple[Limit, ...]:
    """The eight conditions of the equation, each with what is said of it.

    Source: IBC 2018, sec. 1609.5.3, items 1 to 8 (good).
    """
    return (
        _between("length 1.0 to 1.75 ft", length_ft, LENGTH_FT, "ft"),
        _between("exposed width 0.67 to 1.25 ft", width_ft, WIDTH_FT, "ft"),
        _between("head lap at least 2 in.", lap_in, (LEAST_LAP_IN, float("inf")), "in."),
        _between("nose no thicker than 1.3 in.", nose_in, (0.0, MOST_NOSE_IN), "in."),
        _between(
            "at least two thirds of the tile free of mortar or adhesive", free_ratio, (LEAST_FREE_RATIO, 1.0), "of it"
        ),
        Limit(words="laid over solid sheathing", said="for you to judge", holds=None),
        Limit(words="laid over the underlayment of the code", said="for you to judge", holds=None),
        Limit(words="attached by a method that the code lists", said="for you to judge", holds=None),
    )


def _between(words: str, value: float | None, bounds: tuple[float, float], unit: str) -> Limit:
    if value is None:
        return Limit(words=words, said="not given", holds=None)
    return Limit(words=words, said=f"{value:g} {unit}", holds=bounds[0] - ROUNDING <= value <= bounds[1] + ROUNDING)
