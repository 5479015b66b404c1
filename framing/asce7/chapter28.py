"""ASCE 7-22 chapter 28: main-frame loads of low-rise buildings, envelope procedure."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from framing.asce7 import chapter26
from framing.asce7.tables import Number, constants, rows
from framing.errors import LoadError
from framing.plan import Exposure

_C = constants("chapter28_constants")

# Pressure coefficient under the windward overhang, toward the surface; under an open porch too (inferred).
# Source: ASCE 7-22, sec. 28.3.5, number inferred; ASCE 7-16, sec. 28.3.3 (fair).
OVERHANG_UNDERSIDE_GC_P = _C["overhang_underside"]

# Least horizontal main-frame load on the vertical projection of walls and of roofs, chapters 27 and 28 alike; none on
# uplift. Source: ASCE 7-22, sec. 28.3.6, number inferred; ASCE 7-16, sec. 28.3.4 and 27.1.5 (good).
LEAST_WALL_PSF = _C["least_wall"]
LEAST_ROOF_PSF = _C["least_roof"]

# GC_pf of walls along the wind in load case 1; the figure gives none. Source: from memory (older editions).
END_WALL_GC_PF = _C["end_wall_load_case_1"]

ZONES = ("1", "2", "3", "4", "5", "6", "1E", "2E", "3E", "4E", "5E", "6E")


@dataclass(frozen=True, slots=True, kw_only=True)
class EnvelopeCoefficients:
    """GC_pf of both load cases at one roof slope.

    Source: ASCE 7-22, fig. 28.3-1 (solid).
    """

    theta_deg: float
    by_case_and_zone: Mapping[tuple[int, str], float]

    def GC_pf(self, load_case: int, zone: str) -> float:
        """The coefficient of a zone: negative away from the surface.

        Parameters
        ----------
        load_case : int
            1, wind across the ridge, or 2, wind along it.
        zone : str
            '1' to '6' and '1E' to '6E'; 5 and 6 exist in load case 2 alone.

        Raises
        ------
        LoadError
            If the figure has no such zone in that load case.

        Source: ASCE 7-22, fig. 28.3-1 (solid).
        """
        value = self.by_case_and_zone.get((load_case, zone))
        if value is None:
            raise LoadError(f"figure 28.3-1 has no zone {zone!r} in load case {load_case!r}.")
        return value


def GC_pf(theta_deg: float) -> EnvelopeCoefficients:
    """Every GC_pf of figure 28.3-1 at a slope, linear in theta between the rows of the figure.

    Parameters
    ----------
    theta_deg : float
        Roof slope, 0 to 90; 0 for wind along the ridge by load case 1. [deg]

    Raises
    ------
    LoadError
        If the slope is outside 0 to 90 degrees.

    Source: ASCE 7-22, sec. 28.3.1, fig. 28.3-1 with its interpolation note (solid).
    """
    if not 0.0 <= theta_deg <= 90.0:
        raise LoadError(f"roof slope {theta_deg} degrees: figure 28.3-1 is given from 0 to 90 degrees.")
    out: dict[tuple[int, str], float] = {}
    for load_case in (1, 2):
        steps = [row for row in rows("chapter28_GC_pf") if row["load_case"] == str(load_case)]
        theta = [float(row[end]) for row in steps for end in ("theta_from_deg", "theta_to_deg")]
        for zone in ZONES:
            if steps[0][zone]:
                values = [float(row[zone]) for row in steps for _ in range(2)]
                out[load_case, zone] = float(np.interp(theta_deg, theta, values))
    return EnvelopeCoefficients(theta_deg=theta_deg, by_case_and_zone=MappingProxyType(out))


def K_z_envelope(height_ft: Number, exposure: Exposure) -> Number:
    """K_z of the envelope procedure: in Exposure B not under 0.70.

    The footnote asks it under 30 ft; it is kept to where the formula itself reaches 0.70 (31.6 ft), so that
    height never lowers the pressure (own choice, at most 1.5 % on the safe side).

    Parameters
    ----------
    height_ft : float or (n,) float
        Height above ground. [ft]
    exposure : Exposure
        Surface roughness upwind.

    Source: ASCE 7-22, sec. 26.10.1, table 26.10-1 footnote for chapter 28 (good).
    """
    return with_floor(chapter26.K_z(height_ft, exposure), exposure)


def with_floor(K_z: Number, exposure: Exposure) -> Number:
    """K_z raised to 0.70 in Exposure B.

    Source: ASCE 7-22, sec. 26.10.1, table 26.10-1 footnote for chapter 28 (good); ASCE 7-16 the same, p. 268.
    """
    out: Number = np.maximum(K_z, _C["K_z_floor_B"] if exposure is Exposure.B else 0.0)
    return out


def edge_width_a_ft(least_dimension_ft: float, mean_roof_height_ft: float) -> float:
    """Width a [ft] of the edge zones: the end zones of figure 28.3-1 are 2a, those of chapter 30 a.

    The cap of 0.8 h that is permitted on buildings wider than 300 ft under 7 degrees is not taken.

    Parameters
    ----------
    least_dimension_ft : float
        Least horizontal dimension of the building. [ft]
    mean_roof_height_ft : float
        h. [ft]

    Source: ASCE 7-22, fig. 28.3-1 notation, and figs. 30.3-2A to 2G (solid).
    """
    smaller_ft = min(_C["a_of_least_dimension"] * least_dimension_ft, _C["a_of_height"] * mean_roof_height_ft)
    return max(smaller_ft, _C["a_least_of_dimension"] * least_dimension_ft, _C["a_least"])


def end_zone_ft(a_ft: float) -> float:
    """Width [ft] of the end zones 1E to 6E.

    Parameters
    ----------
    a_ft : float
        Width of the edge zones. [ft]

    Source: ASCE 7-22, fig. 28.3-1 (solid).
    """
    return _C["end_zone_of_a"] * a_ft


def mid_length_reading(theta_deg: float) -> bool:
    """Whether wind along the ridge is also read with zones 2 and 3 meeting at mid-length, theta then 0.

    Parameters
    ----------
    theta_deg : float
        Roof slope. [deg]

    Source: ASCE 7-22, fig. 28.3-1 notes (weak: one reading of them).
    """
    return theta_deg <= _C["mid_length_theta"]


def zone_2_extent_ft(dimension_parallel_to_wind_ft: float, eave_height_ft: float) -> float:
    """How far [ft] a suction of zone 2 or 2E reaches in from the windward roof edge; zone 3 or 3E beyond.

    Parameters
    ----------
    dimension_parallel_to_wind_ft : float
        Plan dimension of the building along the wind. [ft]
    eave_height_ft : float
        At the windward wall. [ft]

    Source: ASCE 7-22, fig. 28.3-1 note on zones 2 and 3 (good; from wall line or overhang edge not settled).
    """
    return min(_C["zone_2_of_dimension"] * dimension_parallel_to_wind_ft, _C["zone_2_of_eave_height"] * eave_height_ft)
