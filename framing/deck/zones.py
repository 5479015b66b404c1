"""Roof + wind -> what lifts the deck, zone by zone: components and cladding at 10 ft2, where the curves begin."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter30 import LEAST_NET_PRESSURE_PSF, eave_corners, is_flat, zone_lines_ft
from framing.asce7.edition import Edition, Procedure
from framing.plan import Plan
from framing.roof.surface import Roof
from framing.wind.edge_widths import EdgeWidths
from framing.wind.envelope_and_cladding import cladding_coefficients, cladding_zones
from framing.wind.patches import Floats, Patches

DECK_AREA_FT2 = 10.0


class Part(StrEnum):
    """Over rooms, where pressure from inside pushes too, or over open air, where the wind pushes from below."""

    ROOMS = "over rooms"
    OVERHANG = "overhang"
    PORCH = "over an open porch"


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckZone:
    """All of the roof that one pressure lifts.

    `zone` is the figure's number and the roof form it was read for, such as `3, hip roof`. `outside_factor` is GC_p, on
    overhangs roof and soffit together, `inside_factor` GC_pi (0 over open air). `suction_psf` is ASD, square to the
    slope, over 0. `area_ft2` is on the slope. `patches` are their places in `Patches`.
    """

    zone: str
    part: Part
    outside_factor: float
    inside_factor: float
    suction_psf: float
    area_ft2: float
    patches: tuple[int, ...]

    @property
    def number(self) -> str:
        """The figure's zone alone: 1, 2 or 3, on low slopes 1' too."""
        return self.zone.partition(",")[0]

    @property
    def name(self) -> str:
        """As people say it: `zone 3`, `overhang, zone 3`."""
        return f"zone {self.number}" if self.part is Part.ROOMS else f"{self.part}, zone {self.number}"


def deck_zones(
    plan: Plan, edition: Edition, roof: Roof, patches: Patches, widths: EdgeWidths
) -> tuple[tuple[DeckZone, ...], float]:
    """The zones of a roof, those over rooms first, each part's hardest last; and q K_d at the mean roof height. [psf]

    The net suction is never taken under 16 psf before the factor 0.6.

    Source: ASCE 7-22, eq. 30.3-1, sec. 30.2.2 (good), figs. 30.3-2A to 2G; effective area sec. 26.2 (curves are level
    up to 10 ft2).
    """
    theta = plan.roof.theta_deg
    q_psf = edition.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING)
    internal = max(edition.GC_pi(plan.wind.enclosure))
    zoned = cladding_zones(roof, patches, widths, edition, theta)
    areas = np.array([DECK_AREA_FT2])
    (found,) = cladding_coefficients(zoned, patches, edition, theta, areas, internal, widths.h_over_B_ratio)
    part = np.where(patches.enclosed, Part.ROOMS, np.where(patches.over_porch, Part.PORCH, Part.OVERHANG))
    sloped_ft2 = sloped_areas_ft2(patches)
    out = []
    for zone, where in sorted({*zip(found.zone.tolist(), part.tolist(), strict=True)}):
        at = np.flatnonzero((found.zone == zone) & (part == where))
        outside = float(found.outside_factor[at].min())
        inside = internal if where == Part.ROOMS else 0.0
        net_psf = max(q_psf * (inside - outside), LEAST_NET_PRESSURE_PSF)
        out.append(
            DeckZone(
                zone=zone,
                part=Part(where),
                outside_factor=outside,
                inside_factor=inside,
                suction_psf=ASD_UPLIFT.wind_factor * net_psf,
                area_ft2=float(sloped_ft2[at].sum()),
                patches=tuple(int(k) for k in at),
            )
        )
    order = list(Part)
    out.sort(key=lambda z: (order.index(z.part), z.suction_psf))
    return tuple(out), q_psf


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """How far a strip of another zone reaches, as a roofer can measure it. [ft]"""

    words: str
    length_ft: float


def zone_measures(plan: Plan, roof: Roof, widths: EdgeWidths) -> tuple[Measure, ...]:
    """Where zones change: up the slope from eaves, down it from ridges, level from rakes and hips.

    Source: ASCE 7-22, figs. 30.3-2A to 2G, zone maps (fair); lengths on the slope by own geometry.
    """
    up = math.hypot(1.0, roof.rise_per_run)
    theta = plan.roof.theta_deg
    if is_flat(theta):
        return tuple(
            Measure(words="in from every edge of the roof, on the slope", length_ft=length * up)
            for length in zone_lines_ft(theta, widths.a_ft, widths.h_ft)
        )
    a = widths.a_ft
    hips = any(not w.gable[s] for w in roof.wings for s in w.ends)
    gables = any(w.gable[s] for w in roof.wings for s in w.ends)
    out = []
    if hips or eave_corners(theta):
        out.append(Measure(words="up the slope from the eave's outer edge", length_ft=a * up))
    if hips or not eave_corners(theta):
        out.append(Measure(words="down the slope from the ridge, either side", length_ft=a * up))
    if hips:
        out.append(Measure(words="level from a hip, along the course, either side", length_ft=a * math.sqrt(2.0)))
    if gables:
        out.append(Measure(words="level from the rake's outer edge", length_ft=a))
    return tuple(out)


def sloped_areas_ft2(patches: Patches) -> Floats:
    """The true area of each patch. (n,) [ft2]"""
    plan_ft2 = np.array([p.area for p in patches.polygon])
    out: Floats = plan_ft2 * np.hypot(1.0, np.hypot(*patches.gradient.T))
    return out
