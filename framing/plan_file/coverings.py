"""The weights that a roof covering brings, on plan area, where the plan does not give them."""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from framing.plan import DeadLoads

STANDARD_COVERING = "concrete tile"
STANDARD_TOP_PSF = (10.0, 15.0)  # for uplift, for gravity
BOTTOM_PSF = (5.0, 10.0)
ROOF_LIVE_PSF = 20.0
HALF_TRUSS_LOW_PSF = 0.75
HALF_TRUSS_GRAVITY_PSF = 1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Covering:
    """A covering with the deck under it: least and greatest weight on the slope; `deck_low_psf` the deck alone.

    `mark` says where each figure comes from.
    """

    name: str
    deck_low_psf: float
    low_psf: float
    gravity_psf: float
    mark: str


@cache
def coverings() -> tuple[Covering, ...]:
    """The coverings that the program knows, in the order of its table.

    Source: framing/plan_file/coverings.csv, where each row carries its own mark.
    """
    with (files("framing.plan_file") / "coverings.csv").open(encoding="utf-8") as table:
        return tuple(
            Covering(
                name=row["covering"],
                deck_low_psf=float(row["deck_low_psf"]),
                low_psf=float(row["low_psf"]) + float(row["deck_low_psf"]),
                gravity_psf=float(row["gravity_psf"]) + float(row["deck_gravity_psf"]),
                mark=row["mark"],
            )
            for row in csv.DictReader(table)
        )


def dead_loads_of(covering: str, rise_per_run: float) -> DeadLoads:
    """The dead and live loads on plan area that a covering stands for at a pitch.

    The standard covering gives round figures at every pitch. Any other: its weight and its deck's on the
    slope, divided by the cosine of the pitch, and half the truss's own weight (at 24 in. spacing). The
    bottom chord's share and the roof live load do not depend on the covering. Rounded to 0.01 psf, so that
    what is printed is what is used.

    Parameters
    ----------
    covering : str
        A name of `coverings()`.
    rise_per_run : float
        The slope of the roof; 5:12 is 0.41667.

    Returns
    -------
    DeadLoads
        Weights on plan area. [psf]

    Source: common practice, no source (the standard figures and half the truss weight); the covering's mark.
    """
    low_psf, gravity_psf = STANDARD_TOP_PSF
    if covering != STANDARD_COVERING:
        row = _covering(covering)
        slope_to_plan_ratio = math.hypot(1.0, rise_per_run)
        low_psf = round(row.low_psf * slope_to_plan_ratio + HALF_TRUSS_LOW_PSF, 2)
        gravity_psf = round(row.gravity_psf * slope_to_plan_ratio + HALF_TRUSS_GRAVITY_PSF, 2)
    return DeadLoads(
        top_for_uplift_psf=low_psf,
        top_before_covering_psf=min(low_psf, before_covering_psf(covering, rise_per_run)),
        bottom_for_uplift_psf=BOTTOM_PSF[0],
        top_for_gravity_psf=gravity_psf,
        bottom_for_gravity_psf=BOTTOM_PSF[1],
        roof_live_psf=ROOF_LIVE_PSF,
        without_covering=True,
    )


def before_covering_psf(covering: str, rise_per_run: float) -> float:
    """What there is of the top chord's dead load on plan area before the covering is on, or once it is blown off. [psf]

    The deck that the table has under the covering, its least weight divided by the cosine of the pitch, and half the
    truss; the ceiling's share on the bottom chord stays besides. Rounded to 0.01 psf.

    Parameters
    ----------
    covering : str
        A name of `coverings()`.
    rise_per_run : float
        The slope of the roof.

    Source: common practice, no source (the storm before the covering); the deck's mark.
    """
    return round(_covering(covering).deck_low_psf * math.hypot(1.0, rise_per_run) + HALF_TRUSS_LOW_PSF, 2)


def _covering(name: str) -> Covering:
    return next(c for c in coverings() if c.name == name)
