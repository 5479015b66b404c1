"""ASCE 7-22 chapter 27: main-frame loads, directional procedure, enclosed and partially enclosed buildings."""

from __future__ import annotations

from functools import cache

import numpy as np

from framing.asce7.tables import Floats, Number, constants, rows
from framing.errors import LoadError

_C = constants("chapter27_constants")

# Gust-effect factor of a rigid building; low-rise buildings may be taken as rigid (from memory, sec. 26.11.2).
# Source: ASCE 7-22, sec. 26.11.1 (good).
G = _C["G"]

# External pressure coefficient under a windward overhang, toward the surface; G applies. Under an open porch too
# (inferred).
# Source: ASCE 7-16, sec. 27.3.3; the number in 7-22 is inferred (fair).
OVERHANG_UNDERSIDE_C_P = _C["overhang_underside"]

# External pressure coefficients of the windward wall, with q at height z, and of the side walls, with q_h.
# Source: ASCE 7-22, fig. 27.3-1 (solid).
C_P_WINDWARD_WALL = _C["windward_wall"]
C_P_SIDE_WALL = _C["side_wall"]

# Slope from which the values square to the ridge hold, below it those along the ridge; and where the strips along the
# wind begin, by distance over h. Source: ASCE 7-22, fig. 27.3-1 (solid).
LEAST_SQUARE_THETA_DEG = _C["least_theta"]
STRIPS_OF_HEIGHT = tuple(sorted({float(row["from_distance_over_h"]) for row in rows("chapter27_C_p_parallel_roof")}))


def read_by_distance(theta_deg: float) -> bool:
    """Whether the slopes square to the wind too take the values along the ridge, by distance.

    Parameters
    ----------
    theta_deg : float
        Roof slope. [deg]

    Source: ASCE 7-22, fig. 27.3-1 (solid).
    """
    return theta_deg < LEAST_SQUARE_THETA_DEG


def area_reduction(area_ft2: Number) -> Number:
    """Factor on the roof suction of -1.3 by the area that it acts on.

    Parameters
    ----------
    area_ft2 : float or (n,) float
        Area on which the -1.3 acts. [ft2]

    Source: ASCE 7-22, fig. 27.3-1, table of reductions (solid).
    """
    table = rows("chapter27_area_reduction")
    known_ft2 = [float(row["area_ft2"]) for row in table]
    out: Number = np.interp(area_ft2, known_ft2, [float(row["factor"]) for row in table])
    return out


def C_p_leeward_wall(L_over_B_ratio: Number) -> Number:
    """External pressure coefficient of the leeward wall, with q_h.

    Parameters
    ----------
    L_over_B_ratio : float or (n,) float
        Plan dimension along the wind over the one across it.

    Source: ASCE 7-22, fig. 27.3-1 (solid).
    """
    table = rows("chapter27_C_p_leeward_wall")
    known = [float(row["L_over_B"]) for row in table]
    out: Number = np.interp(L_over_B_ratio, known, [float(row["C_p"]) for row in table])
    return out


@cache
def _grid(table: str, column: str) -> tuple[list[float], list[float], Floats, Floats]:
    """h/L, the second axis, the values of one column and which of them an area reduces, as (n_h_over_L, n_second)."""
    found = rows(table)
    second = next(name for name in ("theta_deg", "from_distance_over_h") if name in found[0])
    h_over_L = sorted({float(row["h_over_L"]) for row in found})
    along = sorted({float(row[second]) for row in found})
    shape = (len(h_over_L), len(along))
    values = np.array([float(row[column]) for row in found]).reshape(shape)
    reduced = np.array([float(row["reduced_by_area"] == "yes") for row in found]).reshape(shape)
    for array in (values, reduced):
        array.setflags(write=False)
    return h_over_L, along, values, reduced


def _between(table: str, column: str, theta_deg: float, h_over_L_ratio: float, area_ft2: float = 0.0) -> float:
    """Linear in h/L and theta, each held at the ends of the table."""
    h_over_L, theta, values, reduced = _grid(table, column)
    values = values * np.where(reduced, area_reduction(area_ft2), 1.0)
    at_theta = [float(np.interp(theta_deg, theta, line)) for line in values]
    return float(np.interp(h_over_L_ratio, h_over_L, at_theta))


def _check_slope(theta_deg: float) -> None:
    if not LEAST_SQUARE_THETA_DEG <= theta_deg <= 90.0:
        raise LoadError(
            f"roof slope {theta_deg} degrees: the values square to the ridge are given from 10 to 90 degrees; "
            "below, those along the ridge hold."
        )


def C_p_windward_roof(theta_deg: float, h_over_L_ratio: float, area_ft2: float) -> tuple[float, float]:
    """Both external pressure coefficients of the windward roof, suction first; each is to be designed for.

    Each is linear in theta and h/L among the values of its own row; the 0.0 that the figure gives for
    interpolation stands where it has no value of that sign.

    Parameters
    ----------
    theta_deg : float
        Roof slope, 10 to 90. [deg]
    h_over_L_ratio : float
        Mean roof height over the plan dimension along the wind.
    area_ft2 : float
        Area that the suction acts on; it reduces the -1.3 alone. [ft2]

    Raises
    ------
    LoadError
        If the slope is outside 10 to 90 degrees.

    Source: ASCE 7-22, fig. 27.3-1 and its notes (solid).
    """
    _check_slope(theta_deg)
    table = "chapter27_C_p_windward_roof"
    end_deg, steep_deg, per_deg = _C["table_end_theta"], _C["steep_theta"], _C["steep_per_deg"]
    suction = _between(table, "suction", theta_deg, h_over_L_ratio, area_ft2)
    other = _between(table, "other", theta_deg, h_over_L_ratio)
    if theta_deg >= steep_deg:
        other = min(per_deg * theta_deg, _C["steep_greatest"])
    elif theta_deg > end_deg:
        other = float(np.interp(theta_deg, (end_deg, steep_deg), (other, per_deg * steep_deg)))
    return suction, other


def C_p_leeward_roof(theta_deg: float, h_over_L_ratio: float) -> float:
    """External pressure coefficient of the leeward roof, with q_h.

    Parameters
    ----------
    theta_deg : float
        Roof slope, 10 to 90. [deg]
    h_over_L_ratio : float
        Mean roof height over the plan dimension along the wind.

    Raises
    ------
    LoadError
        If the slope is outside 10 to 90 degrees.

    Source: ASCE 7-22, fig. 27.3-1 (solid).
    """
    _check_slope(theta_deg)
    return _between("chapter27_C_p_leeward_roof", "C_p", theta_deg, h_over_L_ratio)


def C_p_parallel_roof(
    distance_ft: Number, mean_roof_height_ft: float, h_over_L_ratio: float, area_ft2: float
) -> tuple[Number, float]:
    """Roof suction by distance from the windward edge, and the other value of the whole roof.

    Holds for wind along the ridge at any slope, and square to it under 10 degrees.

    Parameters
    ----------
    distance_ft : float or (n,) float
        From the windward edge, at least 0. [ft]
    mean_roof_height_ft : float
        h. [ft]
    h_over_L_ratio : float
        h over the plan dimension along the wind.
    area_ft2 : float
        Area that the first strip's suction acts on; it reduces the -1.3 alone. [ft2]

    Raises
    ------
    LoadError
        If a distance is negative.

    Source: ASCE 7-22, fig. 27.3-1 and its notes (solid).
    """
    if not np.all(np.asarray(distance_ft) >= 0.0):
        raise LoadError(f"distance {distance_ft} ft from the windward edge: it must be at least 0.")
    h_over_L, edges, values, reduced = _grid("chapter27_C_p_parallel_roof", "C_p")
    values = values * np.where(reduced, area_reduction(area_ft2), 1.0)
    strip = np.searchsorted(edges, np.asarray(distance_ft) / mean_roof_height_ft, side="right") - 1
    share = np.interp(h_over_L_ratio, h_over_L, (0.0, 1.0))
    out: Number = (1.0 - share) * values[0][strip] + share * values[1][strip]
    return out, _C["parallel_other_value"]
