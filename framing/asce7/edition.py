"""An edition of ASCE 7 as one value: its clause functions side by side, so that no caller switches on a name."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import Protocol

from framing.asce7 import chapter26, chapter28, chapter30, edition_2016
from framing.asce7.chapter28 import EnvelopeCoefficients
from framing.asce7.chapter30 import Booleans, Names
from framing.asce7.curves import Area, RoofForm, Zone
from framing.asce7.tables import Floats
from framing.plan import EditionName, Enclosure, Exposure, WindSpec

# h/B where the severer hip curves of 7-16 begin; asked for when a caller does not say. Source: ASCE 7-16, fig. 30.3-2E.
SEVERER_H_OVER_B = 0.8


class Procedure(StrEnum):
    """Which chapter's velocity pressure: the envelope procedure alone has the 0.70 floor of Exposure B."""

    ENVELOPE = "envelope"
    DIRECTIONAL = "directional"
    CLADDING = "cladding"


class _RoofZone(Protocol):
    def __call__(
        self,
        form: RoofForm,
        theta_deg: float,
        *,
        in_eave: Booleans,
        in_rake: Booleans,
        in_ridge: Booleans,
        in_hip: Booleans,
    ) -> Names: ...


class _RoofCoefficients(Protocol):
    def __call__(
        self, form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float = SEVERER_H_OVER_B
    ) -> tuple[Floats, Floats]: ...


class _OverhangCoefficients(Protocol):
    def __call__(
        self, form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float = SEVERER_H_OVER_B
    ) -> Floats: ...


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """One edition's clauses under common names; each field is the clause function itself.

    `K_z` is by chapters 27 and 30, `K_z_envelope` by chapter 28; `q_z_psf` is as the edition prints it, times
    `K_d_outside_factor` it is the product q K_d, which both editions share. `overhang_underside_factor` is chapter 28's
    coefficient under the windward overhang and under open porches.
    """

    name: EditionName
    exposure_constants: Callable[[Exposure], tuple[float, float, float]]
    K_z: Callable[[float, Exposure], float]
    K_z_envelope: Callable[[float, Exposure], float]
    q_z_psf: Callable[[float, float, float, float], float]
    K_d_outside_factor: float
    GC_pi: Callable[[Enclosure], tuple[float, float]]
    envelope: Callable[[float], EnvelopeCoefficients]
    overhang_underside_factor: float
    flat_zone: Callable[[Area, Area, float], Names]
    roof_zone: _RoofZone
    roof_zones: Callable[[RoofForm, float], tuple[str, ...]]
    roof_GC_p: _RoofCoefficients
    overhang_GC_p: _OverhangCoefficients
    wall_GC_p: Callable[[str, Area, float], tuple[Floats, Floats]]

    def K_z_of(self, height_ft: float, exposure: Exposure, procedure: str) -> float:
        """K_z by the chapter that a procedure stands in.

        Source: ASCE 7-22, sec. 26.10.1, table 26.10-1 and its footnote (good).
        """
        envelope = Procedure(procedure) is Procedure.ENVELOPE
        return float((self.K_z_envelope if envelope else self.K_z)(height_ft, exposure))

    def q_K_d_psf(self, wind: WindSpec, height_ft: float, procedure: str) -> float:
        """Velocity pressure times directionality factor [psf]: the same product in both editions.

        Parameters
        ----------
        wind : WindSpec
            Speed, exposure, ground elevation and topography are read.
        height_ft : float
            Height above ground. [ft]
        procedure : str
            'envelope', 'directional' or 'cladding'.

        Raises
        ------
        LoadError
            If the height is outside the limits of K_z.

        Source: ASCE 7-22, sec. 26.10.2, eq. 26.10-1 and eq. 28.3-1, 27.3-1, 30.3-1 (solid); ASCE 7-16, eq. 26.10-1.
        """
        K_z = self.K_z_of(height_ft, wind.exposure, procedure)
        K_zt, K_e = chapter26.K_zt_at(wind, height_ft), chapter26.K_e(wind.ground_elevation_ft)
        return float(self.q_z_psf(K_z, K_zt, K_e, wind.speed_mph)) * self.K_d_outside_factor


def _roof_GC_p_2022(
    form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float = SEVERER_H_OVER_B
) -> tuple[Floats, Floats]:
    """7-22 has no h/B: the argument is taken and not read."""
    del h_over_B_ratio
    return chapter30.roof_GC_p(form, theta_deg, zone, area_ft2)


def _overhang_GC_p_2022(
    form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float = SEVERER_H_OVER_B
) -> Floats:
    """7-22 has no h/B: the argument is taken and not read."""
    del h_over_B_ratio
    return chapter30.overhang_GC_p(form, theta_deg, zone, area_ft2)


def _roof_GC_p_2016(
    form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float = SEVERER_H_OVER_B
) -> tuple[Floats, Floats]:
    return edition_2016.roof_GC_p(form, theta_deg, zone, area_ft2, h_over_B_ratio)


def _overhang_GC_p_2016(
    form: RoofForm, theta_deg: float, zone: Zone, area_ft2: Area, h_over_B_ratio: float = SEVERER_H_OVER_B
) -> Floats:
    return edition_2016.overhang_GC_p(form, theta_deg, zone, area_ft2, h_over_B_ratio)


_ASCE_7_22 = Edition(
    name=EditionName.ASCE_7_22,
    exposure_constants=chapter26.exposure_constants,
    K_z=chapter26.K_z,
    K_z_envelope=chapter28.K_z_envelope,
    q_z_psf=chapter26.q_z_psf,
    K_d_outside_factor=chapter26.K_d(),
    GC_pi=chapter26.GC_pi,
    envelope=chapter28.GC_pf,
    overhang_underside_factor=chapter28.OVERHANG_UNDERSIDE_GC_P,
    flat_zone=chapter30.flat_zone,
    roof_zone=chapter30.roof_zone,
    roof_zones=chapter30.roof_zones,
    roof_GC_p=_roof_GC_p_2022,
    overhang_GC_p=_overhang_GC_p_2022,
    wall_GC_p=chapter30.wall_GC_p,
)
_ASCE_7_16 = Edition(
    name=EditionName.ASCE_7_16,
    exposure_constants=edition_2016.exposure_constants,
    K_z=edition_2016.K_z,
    K_z_envelope=edition_2016.K_z_envelope,
    q_z_psf=edition_2016.q_z_psf,
    K_d_outside_factor=1.0,
    GC_pi=chapter26.GC_pi,
    envelope=chapter28.GC_pf,
    overhang_underside_factor=chapter28.OVERHANG_UNDERSIDE_GC_P,
    flat_zone=chapter30.flat_zone,
    roof_zone=edition_2016.roof_zone,
    roof_zones=edition_2016.roof_zones,
    roof_GC_p=_roof_GC_p_2016,
    overhang_GC_p=_overhang_GC_p_2016,
    wall_GC_p=chapter30.wall_GC_p,
)
_EDITIONS = {edition.name: edition for edition in (_ASCE_7_22, _ASCE_7_16)}


def edition(name: EditionName) -> Edition:
    """The edition of that name.

    Source: own derivation: tests/published/.
    """
    return _EDITIONS[name]
