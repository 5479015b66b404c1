"""What a deck panel holds between trusses: bending, shear and stiffness of three spans or more."""

from __future__ import annotations

from dataclasses import dataclass

from framing.deck.nails import WIND_DURATION_FACTOR
from framing.deck.tables import Panel

TRUSS_IN, SUPPORT_PAD_IN = 1.5, 0.25
SHARE_OF_SPAN = 240.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PanelStrength:
    """The even load that a panel holds, either way, by strength (C_D in it) and at a sag of a 240th of the span; None
    where its strengths are not in hand. [psf]
    """

    bending_psf: float | None
    shear_psf: float | None
    stiffness_psf: float | None

    @property
    def allowable_psf(self) -> float | None:
        """The lesser by strength. [psf]"""
        known = [psf for psf in (self.bending_psf, self.shear_psf) if psf is not None]
        return min(known) if known else None


def bending_psf(bending_lb_in: float, spacing_in: float, duration_factor: float) -> float:
    """The even load at which three spans or more reach their bending strength. [psf]

    Parameters
    ----------
    bending_lb_in : float
        F_b S per foot of width. [lb-in]
    spacing_in : float
        Trusses, centre to centre. [in]
    duration_factor : float
        C_D: 1.6 for wind.

    Source: own derivation: tests/published/test_panel_strengths.py (w l^2 / 10 with l in inches: 120 F_b S / l^2).
    """
    return 120.0 * bending_lb_in * duration_factor / spacing_in**2


def shear_psf(shear_lb: float, spacing_in: float, duration_factor: float) -> float:
    """The even load at which three spans or more reach their shear strength in the plane of the plies. [psf]

    Source: own derivation: tests/published/test_panel_strengths.py (0.6 w l on the clear span: 20 F_s Ib/Q / l).
    """
    return 20.0 * shear_lb * duration_factor / (spacing_in - TRUSS_IN)


def stiffness_psf(stiffness_lb_in2: float, spacing_in: float) -> float:
    """The even load at which three spans or more sag by a 240th of the spacing. [psf]

    Source: own derivation: tests/published/test_panel_strengths.py (w l^4 / 1743 EI, l the clear span and 1/4 in.).
    """
    span_in = spacing_in - TRUSS_IN + SUPPORT_PAD_IN
    return 1743.0 * stiffness_lb_in2 * (spacing_in / SHARE_OF_SPAN) / span_in**4


def panel_strength(panel: Panel, spacing_in: float) -> PanelStrength:
    """What a panel laid across trusses at a spacing holds against wind. [in]"""
    bending, shear, stiffness = panel.bending_lb_in, panel.shear_lb, panel.stiffness_lb_in2
    return PanelStrength(
        bending_psf=None if bending is None else bending_psf(bending, spacing_in, WIND_DURATION_FACTOR),
        shear_psf=None if shear is None else shear_psf(shear, spacing_in, WIND_DURATION_FACTOR),
        stiffness_psf=None if stiffness is None else stiffness_psf(stiffness, spacing_in),
    )
