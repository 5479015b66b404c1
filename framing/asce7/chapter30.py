"""ASCE 7-22 chapter 30: components and cladding, h up to 60 ft."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from framing.asce7.curves import Area, Curve, RoofForm, Zone, by_zone, chain, figure, zones
from framing.asce7.tables import Floats, Number, constants
from framing.errors import LoadError

__all__ = [
    "LEAST_NET_PRESSURE_PSF",
    "RoofForm",
    "eave_corners",
    "edge_strip_ft",
    "effective_wind_area_ft2",
    "flat_zone",
    "is_flat",
    "overhang_GC_p",
    "roof_GC_p",
    "roof_zone",
    "roof_zones",
    "wall_GC_p",
    "with_least_net_pressure_psf",
    "zone_lines_ft",
]

_C = constants("chapter30_constants")
_FIGURES = "chapter30_figures"
_CURVES = "chapter30_GC_p"
Booleans = NDArray[np.bool_]
Names = NDArray[np.str_]

# Least net pressure on a component, either way. Source: ASCE 7-22, sec. 30.2.2 (good).
LEAST_NET_PRESSURE_PSF = _C["least_net_pressure"]


def effective_wind_area_ft2(span_ft: Number, width_ft: Number) -> Number:
    """Span times the width [ft2], which need not be less than a third of the span.

    The pressure read with it acts on the area that is really tributary.

    Parameters
    ----------
    span_ft : float or (n,) float
        Span of the member. [ft]
    width_ft : float or (n,) float
        Tributary width. [ft]

    Source: ASCE 7-22, sec. 26.2, 'effective wind area' (good).
    """
    out: Number = span_ft * np.maximum(width_ft, _C["least_width_of_span"] * span_ft)
    return out


def is_flat(theta_deg: float) -> bool:
    """Whether figure 30.3-2A holds, whose zones go by h: up to 7 degrees.

    Parameters
    ----------
    theta_deg : float
        Roof slope. [deg]

    Source: ASCE 7-22, fig. 30.3-2A (good).
    """
    return theta_deg <= _C["flat_theta"]


def eave_corners(theta_deg: float) -> bool:
    """Whether a gable roof's zones lie along rakes and at the eaves' corners, not along the ridge: over 27 degrees.

    Parameters
    ----------
    theta_deg : float
        Roof slope. [deg]

    Source: ASCE 7-22, figs. 30.3-2B to 2D (fair).
    """
    return theta_deg > _C["gable_steep_theta"]


def zone_lines_ft(theta_deg: float, a_ft: float, h_ft: float) -> tuple[float, ...]:
    """Distances in from the roof's edge [ft] at which a zone may end.

    Parameters
    ----------
    theta_deg : float
        Roof slope. [deg]
    a_ft : float
        Width of the edge zones over 7 degrees. [ft]
    h_ft : float
        Mean roof height. [ft]

    Source: ASCE 7-22, figs. 30.3-2A to 2G (fair).
    """
    if not is_flat(theta_deg):
        return (a_ft,)
    return tuple(_C[of] * h_ft for of in ("flat_corner_width_of_height", "flat_edge_of_height", "flat_inner_of_height"))


def edge_strip_ft(theta_deg: float, a_ft: float, h_ft: float) -> float:
    """Width of the strip along the roof's edge that has zones of its own [ft].

    Parameters
    ----------
    theta_deg : float
        Roof slope. [deg]
    a_ft : float
        Width of the edge zones over 7 degrees. [ft]
    h_ft : float
        Mean roof height. [ft]

    Source: ASCE 7-22, figs. 30.3-2A to 2G (fair).
    """
    return _C["flat_edge_of_height"] * h_ft if is_flat(theta_deg) else a_ft


def roof_zone(
    form: RoofForm, theta_deg: float, *, in_eave: Booleans, in_rake: Booleans, in_ridge: Booleans, in_hip: Booleans
) -> Names:
    """Zone of each piece of a gable or hip roof over 7 degrees: '1', '2' or '3'.

    Parameters
    ----------
    form : RoofForm
        Gable or hip.
    theta_deg : float
        Roof slope, over 7 to 45. [deg]
    in_eave, in_rake, in_ridge, in_hip : (n,) bool
        Whether a piece lies in the strips of width a along eaves, gable ends, ridge (either side) and hips
        (either side); eave and rake strips are measured from the outer edge of the overhang.

    Returns
    -------
    (n,) str
        Gable to 27 degrees: 3 where ridge and rake strips cross, 2 on the rest of both, eaves 1. Gable over
        27: 3 at the eave corners, 2 on the rest of the rakes. Hip: 3 along the eaves (and along a rake, where
        a hip roof has one: own choice), 2 along ridge and hips; where they cross, 3.

    Raises
    ------
    LoadError
        If the slope is up to 7 or over 45 degrees.

    Source: ASCE 7-22, figs. 30.3-2B to 2G (fair; rest of the rake strips in 2D and hip overlap inferred).
    """
    if is_flat(theta_deg):
        raise LoadError(f"roof slope {theta_deg} degrees: up to 7 degrees figure 30.3-2A holds, see flat_zone.")
    figure(_FIGURES, form, theta_deg)
    if form is RoofForm.HIP:
        return np.where(in_eave | in_rake, "3", np.where(in_ridge | in_hip, "2", "1"))
    if eave_corners(theta_deg):
        return np.where(in_eave & in_rake, "3", np.where(in_rake, "2", "1"))
    return np.where(in_ridge & in_rake, "3", np.where(in_ridge | in_rake, "2", "1"))


def roof_zones(form: RoofForm, theta_deg: float) -> tuple[str, ...]:
    """The zones that a roof of that form and slope has.

    Source: ASCE 7-22, figs. 30.3-2A to 2G (good).
    """
    return zones(_CURVES, figure(_FIGURES, form, theta_deg))


def flat_zone(edge_distance_ft: Area, second_edge_distance_ft: Area, h_ft: float) -> Names:
    """Zone of each piece of a roof up to 7 degrees: 1', 1, 2 or 3.

    Parameters
    ----------
    edge_distance_ft, second_edge_distance_ft : float or (n,) float
        Distance to the nearest roof edge and to the nearest edge square to it, in either order. [ft]
    h_ft : float
        Mean roof height, here the eave height. [ft]

    Returns
    -------
    (n,) str
        3: L at the corners, legs 0.6 h long and 0.2 h wide; 2: rest of the edge strip 0.6 h; 1: from 0.6 to
        1.2 h; 1': inside.

    Source: ASCE 7-22, fig. 30.3-2A (fair).
    """
    near = np.minimum(edge_distance_ft, second_edge_distance_ft) / h_ft
    far = np.maximum(edge_distance_ft, second_edge_distance_ft) / h_ft
    edge = _C["flat_edge_of_height"]
    corner = (near < _C["flat_corner_width_of_height"]) & (far < edge)
    return np.where(corner, "3", np.where(near < edge, "2", np.where(near < _C["flat_inner_of_height"], "1", "1'")))


def roof_GC_p(form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area) -> tuple[Floats, Floats]:
    """External pressure coefficients of a roof zone: toward the surface (plus) and away from it (minus).

    Parameters
    ----------
    form : RoofForm
        Gable or hip.
    theta_deg : float
        Roof slope, 0 to 45; a hip over 27 degrees is linear in theta between figures 2F and 2G. [deg]
    zone : str or (n,) str
        As given by `roof_zone`, or by `flat_zone` up to 7 degrees.
    area_ft2 : float or (n,) float
        Effective wind area. [ft2]

    Raises
    ------
    LoadError
        If the slope, the area or a zone is outside the figures.

    Source: ASCE 7-22, sec. 30.3.2, figs. 30.3-2A to 2G (good; area where 2F and 2G turn flat in doubt).
    """
    plus = by_zone(lambda name: _roof_curve(form, theta_deg, name, "+"), zone, area_ft2)
    minus = by_zone(lambda name: _roof_curve(form, theta_deg, name, "-"), zone, area_ft2)
    return plus, minus


def _roof_curve(form: RoofForm, theta_deg: float, zone: str, sign: str) -> Curve:
    """The curve of one zone; a hip over 27 degrees lies between two figures."""
    here = figure(_FIGURES, form, theta_deg)
    curve = chain(_CURVES, here, "roof", zone, sign)
    low, high = _C["hip_interpolation_from"], _C["hip_interpolation_to"]
    if form is RoofForm.GABLE or theta_deg <= low:
        return curve
    below = chain(_CURVES, figure(_FIGURES, form, low), "roof", zone, sign)
    share = (theta_deg - low) / (high - low)
    return lambda area_ft2: (1.0 - share) * below(area_ft2) + share * curve(area_ft2)


def wall_GC_p(zone: str, area_ft2: Area, theta_deg: float) -> tuple[Floats, Floats]:
    """External pressure coefficients of a wall: toward the surface (plus) and away from it (minus).

    Parameters
    ----------
    zone : str
        '4' or, within a of a corner, '5'.
    area_ft2 : float or (n,) float
        Effective wind area. [ft2]
    theta_deg : float
        Roof slope; 0.9 of the figure up to 10 degrees. [deg]

    Raises
    ------
    LoadError
        If the area or the zone is outside the figure.

    Source: ASCE 7-22, sec. 30.3.2, fig. 30.3-1 (good).
    """
    ratio = _C["wall_reduction"] if theta_deg <= _C["wall_reduction_theta"] else 1.0
    plus = by_zone(lambda name: chain(_CURVES, "30.3-1", "wall", name, "+"), zone, area_ft2)
    minus = by_zone(lambda name: chain(_CURVES, "30.3-1", "wall", name, "-"), zone, area_ft2)
    return ratio * plus, ratio * minus


def overhang_GC_p(form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area) -> Floats:
    """Net uplift coefficient of an overhang, top and soffit together, without internal pressure.

    Over 7 degrees the roof zone's suction less the wall's positive GC_p on the soffit (zones 4 and 5 agree);
    up to 7 degrees the figure's own curves.

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

    Raises
    ------
    LoadError
        If the slope, the area or a zone is outside the figures.

    Source: ASCE 7-22, sec. 30.7, and fig. 30.3-2A to 7 degrees (fair; no internal pressure: own choice).
    """
    if is_flat(theta_deg):
        flat = figure(_FIGURES, form, theta_deg)
        return by_zone(lambda name: chain(_CURVES, flat, "overhang", name, "-"), zone, area_ft2)
    _, roof_minus = roof_GC_p(form, theta_deg, zone, area_ft2)
    wall_plus, _ = wall_GC_p("4", area_ft2, theta_deg)
    return np.asarray(roof_minus - wall_plus)


def with_least_net_pressure_psf(net_psf: Floats) -> Floats:
    """Net pressures [psf] of components raised to 16 psf in their own direction, at strength level.

    Source: ASCE 7-22, sec. 30.2.2 (good).
    """
    return np.asarray(np.where(net_psf < 0.0, -1.0, 1.0) * np.maximum(np.abs(net_psf), LEAST_NET_PRESSURE_PSF))
