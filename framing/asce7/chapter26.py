"""ASCE 7-22 chapter 26: velocity pressure, topography, enclosure, mean roof height."""

from __future__ import annotations

import math

import numpy as np

from framing.asce7.tables import Number, by_key, constants, rows
from framing.errors import LoadError
from framing.plan import Enclosure, Exposure, Feature, WindSpec

_C = constants("chapter26_constants")


def exposure_constants(exposure: Exposure, table: str = "chapter26_K_z") -> tuple[float, float, float]:
    """Power-law exponent alpha, gradient height z_g [ft] and the coefficient of K_z.

    Source: ASCE 7-22, sec. 26.11, table 26.11-1 and note of table 26.10-1 (solid).
    """
    row = by_key(table, "exposure", exposure)
    return float(row["alpha"]), float(row["z_g_ft"]), float(row["coefficient"])


def K_z(height_ft: Number, exposure: Exposure) -> Number:
    """Velocity pressure exposure coefficient.

    Parameters
    ----------
    height_ft : float or (n,) float
        Height above ground, 0 to 3,280. [ft]
    exposure : Exposure
        Surface roughness upwind.

    Returns
    -------
    float or (n,) float
        coefficient (z / z_g)^(2 / alpha), the height at least 15 ft and at most z_g.

    Raises
    ------
    LoadError
        If a height is outside the limits.

    Source: ASCE 7-22, sec. 26.10.1, table 26.10-1 note (solid).
    """
    limit_ft = _C["K_z_greatest_height"]
    if not np.all((np.asarray(height_ft) >= 0.0) & (np.asarray(height_ft) <= limit_ft)):
        raise LoadError(f"height {height_ft} ft: K_z is given from 0 to {limit_ft:.0f} ft above ground.")
    alpha, z_g_ft, coefficient = exposure_constants(exposure)
    out: Number = coefficient * (np.clip(height_ft, _C["K_z_least_height"], z_g_ft) / z_g_ft) ** (2.0 / alpha)
    return out


def K_e(elevation_ft: Number) -> Number:
    """Ground elevation factor; 1.0 is permitted at every elevation.

    Parameters
    ----------
    elevation_ft : float or (n,) float
        Ground above sea level. [ft]

    Source: ASCE 7-22, sec. 26.9, table 26.9-1 note (solid).
    """
    out: Number = np.exp(-_C["K_e_per_ft"] * elevation_ft)
    return out


def K_zt(
    feature: Feature,
    exposure: Exposure,
    *,
    hill_height_ft: float,
    half_length_ft: float,
    distance_ft: float,
    height_ft: float,
) -> float:
    """Topographic factor (1 + K_1 K_2 K_3)^2; 1.0 on a feature too flat or too low.

    The other conditions of sec. 26.8.1 (an isolated feature, twice as high as those within 2 miles, the site
    in its upper half or near its crest) are the caller's to judge.

    Parameters
    ----------
    feature : Feature
        Ridge, escarpment or axisymmetric hill.
    exposure : Exposure
        Surface roughness upwind.
    hill_height_ft : float
        H, height of the feature over the ground upwind. [ft]
    half_length_ft : float
        L_h, upwind distance from the crest to half of H. [ft]
    distance_ft : float
        x, crest to site: negative upwind, positive downwind. [ft]
    height_ft : float
        z above the ground at the site. [ft]

    Raises
    ------
    LoadError
        If H or z is negative or L_h is not above 0.

    Source: ASCE 7-22, sec. 26.8.2, eq. 26.8-1, fig. 26.8-1 (solid); limits of sec. 26.8.1 (from memory).
    """
    if hill_height_ft < 0.0 or half_length_ft <= 0.0 or height_ft < 0.0:
        raise LoadError(
            f"K_zt: H {hill_height_ft} ft and z {height_ft} ft must be at least 0, L_h {half_length_ft} ft above 0."
        )
    row = by_key("chapter26_K_zt", "feature", feature)
    steepness = hill_height_ft / half_length_ft
    if steepness < _C["K_zt_least_steepness"] or hill_height_ft < _C[f"K_zt_least_height_{exposure}"]:
        return 1.0
    if steepness > _C["K_zt_greatest_steepness"]:
        steepness = _C["K_zt_greatest_steepness"]
        half_length_ft = hill_height_ft / steepness
    mu = float(row["mu_upwind"] if distance_ft < 0.0 else row["mu_downwind"])
    K_1 = float(row[f"K_1_{exposure}"]) * steepness
    K_2 = max(0.0, 1.0 - abs(distance_ft) / (mu * half_length_ft))
    K_3 = math.exp(-float(row["gamma"]) * height_ft / half_length_ft)
    return (1.0 + K_1 * K_2 * K_3) ** 2


def K_zt_at(wind: WindSpec, height_ft: float) -> float:
    """Topographic factor of a plan's wind at a height, the same for every direction (safe side); 1.0 on level ground.

    Parameters
    ----------
    wind : WindSpec
        Exposure and topography are read.
    height_ft : float
        z above the ground at the site. [ft]

    Source: ASCE 7-22, sec. 26.8.2, eq. 26.8-1 (solid).
    """
    at = wind.topography
    if at is None:
        return 1.0
    return K_zt(
        at.feature,
        wind.exposure,
        hill_height_ft=at.height_ft,
        half_length_ft=at.half_length_ft,
        distance_ft=at.distance_ft,
        height_ft=height_ft,
    )


def K_d() -> float:
    """Directionality factor of buildings, main frame and cladding alike.

    Source: ASCE 7-22, sec. 26.6, table 26.6-1 (solid).
    """
    return _C["K_d"]


def q_z_psf(K_z: Number, K_zt: float, K_e: float, speed_mph: float) -> Number:
    """Velocity pressure [psf] without K_d, which stands in the pressure equations of this edition.

    Parameters
    ----------
    K_z, K_zt, K_e : float
        The three factors above; K_z may be (n,).
    speed_mph : float
        Basic (ultimate) 3-second gust. [mph]

    Source: ASCE 7-22, sec. 26.10.2, eq. 26.10-1 (solid).
    """
    out: Number = _C["velocity_pressure"] * K_z * K_zt * K_e * speed_mph**2
    return out


def GC_pi(enclosure: Enclosure) -> tuple[float, float]:
    """Internal pressure coefficient, plus (pushing out) and minus; each is a load case.

    Source: ASCE 7-22, sec. 26.13, table 26.13-1 (solid).
    """
    row = by_key("chapter26_GC_pi", "enclosure", enclosure)
    return float(row["plus"]), float(row["minus"])


def in_debris_region(speed_mph: float, coast_distance_ft: float | None) -> bool | None:
    """Whether a place lies in the wind-borne debris region, where glazing is protected or taken as openings; None where
    that depends on a distance that is not known. That the place is hurricane-prone is taken for granted.

    Parameters
    ----------
    speed_mph : float
        Basic (ultimate) 3-second gust. [mph]
    coast_distance_ft : float or None
        To the coastal mean high water line. [ft]

    Source: ASCE 7-22, sec. 26.12.3.1; ASCE 7-16 the same (from memory).
    """
    if speed_mph >= _C["debris_speed_anywhere"]:
        return True
    if speed_mph < _C["debris_speed_near_coast"]:
        return False
    return None if coast_distance_ft is None else coast_distance_ft <= _C["debris_coast_distance"]


def hurricane_gusts_mph() -> tuple[float, ...]:
    """The 3-second gust over open land at which each of the five steps of the public hurricane scale begins, roughly:
    the scale itself goes by the steady wind of a minute over water. [mph]

    Source: ASCE 7-22, sec. C26.5.1, table C26.5-2; ASCE 7-16 the same (from memory).
    """
    return tuple(float(row["gust_mph"]) for row in rows("chapter26_hurricane_gusts"))


def mean_roof_height_ft(eave_height_ft: float, highest_ft: float, theta_deg: float) -> float:
    """Mean roof height h [ft]: eave height up to 10 degrees, else midway from eave to highest point.

    Parameters
    ----------
    eave_height_ft, highest_ft : float
        Eave and highest point of the roof above ground. [ft]
    theta_deg : float
        Roof slope. [deg]

    Raises
    ------
    LoadError
        If the highest point is under the eave.

    Source: ASCE 7-22, sec. 26.2, 'mean roof height' (good; 'shall' or 'permitted' at 10 degrees not verified).
    """
    if highest_ft < eave_height_ft:
        raise LoadError(f"mean roof height: the highest point {highest_ft} ft is under the eave {eave_height_ft} ft.")
    if theta_deg <= _C["flat_roof_theta"]:
        return eave_height_ft
    return 0.5 * (eave_height_ft + highest_ft)
