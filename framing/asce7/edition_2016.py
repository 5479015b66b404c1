"""ASCE 7-16: only the clauses that differ from 7-22."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from framing.asce7 import chapter26, chapter28, chapter30
from framing.asce7.chapter30 import Booleans, Names
from framing.asce7.curves import Area, Curve, RoofForm, Zone, by_zone, chain, figure, zones
from framing.asce7.tables import Floats, Number, by_key, constants, rows
from framing.errors import LoadError
from framing.plan import Exposure

_C = constants("edition_2016_constants")
_FIGURES = "edition_2016_figures"
_CURVES = "edition_2016_GC_p"
_HIP_45 = "30.3-2H/2I"


def exposure_constants(exposure: Exposure) -> tuple[float, float, float]:
    """Power-law exponent alpha, gradient height z_g [ft] and the coefficient of K_z.

    Source: ASCE 7-16, sec. 26.11, table 26.11-1 and note of table 26.10-1 (solid).
    """
    return chapter26.exposure_constants(exposure, "edition_2016_K_z")


def K_z(height_ft: Number, exposure: Exposure) -> Number:
    """Velocity pressure exposure coefficient.

    Parameters
    ----------
    height_ft : float or (n,) float
        Height above ground, 0 to the gradient height. [ft]
    exposure : Exposure
        Surface roughness upwind.

    Returns
    -------
    float or (n,) float
        2.01 (z / z_g)^(2 / alpha), the height at least 15 ft.

    Raises
    ------
    LoadError
        If a height is outside the limits.

    Source: ASCE 7-16, sec. 26.10.1, table 26.10-1 note (solid).
    """
    alpha, z_g_ft, coefficient = exposure_constants(exposure)
    if not np.all((np.asarray(height_ft) >= 0.0) & (np.asarray(height_ft) <= z_g_ft)):
        raise LoadError(f"height {height_ft} ft: K_z of exposure {exposure} is given from 0 to {z_g_ft:.0f} ft.")
    least_ft = constants("chapter26_constants")["K_z_least_height"]
    out: Number = coefficient * (np.maximum(height_ft, least_ft) / z_g_ft) ** (2.0 / alpha)
    return out


def K_z_envelope(height_ft: Number, exposure: Exposure) -> Number:
    """K_z of the envelope procedure: in Exposure B not under 0.70.

    Source: ASCE 7-16, sec. 26.10.1, table 26.10-1 footnote for chapter 28, p. 268 (good).
    """
    return chapter28.with_floor(K_z(height_ft, exposure), exposure)


def q_z_psf(K_z: Number, K_zt: float, K_e: float, speed_mph: float) -> Number:
    """Velocity pressure [psf] with K_d inside, as this edition has it.

    Source: ASCE 7-16, sec. 26.10.2, eq. 26.10-1 (solid).
    """
    out: Number = chapter26.K_d() * chapter26.q_z_psf(K_z, K_zt, K_e, speed_mph)
    return out


def roof_zone(
    form: RoofForm, theta_deg: float, *, in_eave: Booleans, in_rake: Booleans, in_ridge: Booleans, in_hip: Booleans
) -> Names:
    """Zone of each piece of a roof over 7 degrees: '1', eave '2e', rake '2n', ridge and hip '2r', corners '3...'.

    Parameters
    ----------
    form : RoofForm
        Gable or hip.
    theta_deg : float
        Roof slope, over 7 to 45. [deg]
    in_eave, in_rake, in_ridge, in_hip : (n,) bool
        Whether a piece lies in the strips of width a along eaves, gable ends, ridge and hips.

    Returns
    -------
    (n,) str
        Gable: '3r' where ridge and rake cross, '3e' where eave and rake cross, then '2n', '2r', '2e', '1'.
        Hip: '3' where eave and hip cross (and along a rake: own choice), then '2e', '2r', '1'.

    Raises
    ------
    LoadError
        If the slope is up to 7 or over 45 degrees.

    Source: ASCE 7-16, figs. 30.3-2B to 2I (names fair; corner zone of the hip from memory).
    """
    if chapter30.is_flat(theta_deg):
        raise LoadError(f"roof slope {theta_deg} degrees: up to 7 degrees figure 30.3-2A holds, see flat_zone.")
    figure(_FIGURES, form, theta_deg)
    if form is RoofForm.HIP:
        corner = (in_eave & in_hip) | in_rake
        return np.where(corner, "3", np.where(in_eave, "2e", np.where(in_ridge | in_hip, "2r", "1")))
    edge = np.where(in_rake, "2n", np.where(in_ridge, "2r", np.where(in_eave, "2e", "1")))
    return np.where(in_rake & in_ridge, "3r", np.where(in_rake & in_eave, "3e", edge))


def roof_zones(form: RoofForm, theta_deg: float) -> tuple[str, ...]:
    """The zones that a roof of that form and slope has.

    Source: ASCE 7-16, figs. 30.3-2A to 2I (fair).
    """
    if chapter30.is_flat(theta_deg):
        return chapter30.roof_zones(form, theta_deg)
    here = figure(_FIGURES, form, theta_deg)
    return (
        tuple(row["zone"] for row in rows("edition_2016_hip_45") if row["sign"] == "-")
        if here == _HIP_45
        else zones(_CURVES, here)
    )


def roof_GC_p(
    form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float
) -> tuple[Floats, Floats]:
    """External pressure coefficients of a roof zone: toward the surface (plus) and away from it (minus).

    Parameters
    ----------
    form : RoofForm
        Gable or hip.
    theta_deg : float
        Roof slope, 0 to 45. [deg]
    zone : str or (n,) str
        As given by `roof_zone`, or by chapter 30's `flat_zone` up to 7 degrees.
    area_ft2 : float or (n,) float
        Effective wind area. [ft2]
    h_over_B_ratio : float
        Mean roof height over least plan dimension: hips to 20 degrees have one curve to 0.5, a severer one
        from 0.8, linear between.

    Raises
    ------
    LoadError
        If the slope, the area or a zone is outside the figures.

    Source: ASCE 7-16, sec. 30.3.2, figs. 30.3-2A to 2I (fair; hips over 27 degrees low confidence).
    """
    if chapter30.is_flat(theta_deg):
        return chapter30.roof_GC_p(form, theta_deg, zone, area_ft2)
    plus = by_zone(_curves(form, theta_deg, "roof", "+", h_over_B_ratio), zone, area_ft2)
    minus = by_zone(_curves(form, theta_deg, "roof", "-", h_over_B_ratio), zone, area_ft2)
    return plus, minus


def overhang_GC_p(form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float) -> Floats:
    """Net uplift coefficient of an overhang, top and soffit together, without internal pressure.

    Parameters
    ----------
    form : RoofForm
        Gable or hip.
    theta_deg : float
        Roof slope, 0 to 45. [deg]
    zone : str or (n,) str
        Roof zone of the overhang.
    area_ft2 : float or (n,) float
        Effective wind area. [ft2]
    h_over_B_ratio : float
        Mean roof height over least plan dimension.

    Raises
    ------
    LoadError
        If the slope, the area or a zone is outside the figures.

    Source: ASCE 7-16, sec. 30.3.2, figs. 30.3-2A to 2I, overhang curves (fair; one transcription).
    """
    if chapter30.is_flat(theta_deg):
        return chapter30.overhang_GC_p(form, theta_deg, zone, area_ft2)
    return by_zone(_curves(form, theta_deg, "overhang", "-", h_over_B_ratio), zone, area_ft2)


def _curves(form: RoofForm, theta_deg: float, part: str, sign: str, h_over_B_ratio: float) -> Callable[[str], Curve]:
    """From a zone to its curve, between the two curves of h/B where the figure has two."""
    here = figure(_FIGURES, form, theta_deg)
    low, high = _C["hip_h_over_B_low"], _C["hip_h_over_B_high"]
    share = float(np.interp(h_over_B_ratio, (low, high), (0.0, 1.0)))

    def curve_of(zone: str) -> Curve:
        if here == _HIP_45:
            return _hip_45_curve(theta_deg, part, zone, sign)
        flat = chain(_CURVES, here, part, zone, sign, h_over_B=f"{low}")
        tall = chain(_CURVES, here, part, zone, sign, h_over_B=f"{high}")
        return lambda area_ft2: (1.0 - share) * flat(area_ft2) + share * tall(area_ft2)

    return curve_of


def _hip_45_curve(theta_deg: float, part: str, zone: str, sign: str) -> Curve:
    """Hips over 27 degrees: GC_p on log10(A) between two points that move with the slope."""
    try:
        row = by_key("edition_2016_hip_45", "zone", "*" if sign == "+" else zone)
    except StopIteration:
        raise LoadError(f"figure {_HIP_45} has no {part} zone {zone!r}; it has 1, 2e, 2r, 3.") from None
    step = _C["hip_45_overhang_step"] if part == "overhang" else 0.0

    def point(end: str) -> tuple[float, float]:
        value = float(row[f"{end}_a"]) + float(row[f"{end}_b"]) * theta_deg
        area_ft2 = float(row[f"{end}_area_a_ft2"]) + float(row[f"{end}_area_b_ft2"]) * theta_deg
        return float(np.log10(area_ft2)), value + step

    (x_small, small), (x_large, large) = point("small"), point("large")
    return lambda area_ft2: np.asarray(np.interp(np.log10(area_ft2), (x_small, x_large), (small, large)))
