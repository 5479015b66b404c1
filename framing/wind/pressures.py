"""What presses on every patch in one wind, and what it is made of: zone, coefficients, velocity pressure."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter30 import LEAST_NET_PRESSURE_PSF, with_least_net_pressure_psf
from framing.wind.patches import Bools, Floats
from framing.wind.patterns import DirectionalPattern, Pattern

Names = NDArray[np.str_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Coefficients:
    """On n patches: the figure's zone with the load case, the row or the roof form, as its number `of_patch` in the
    list of `names`, because a house may have hundreds of cases; the coefficient outside, on top of the roof (negative
    away from it), and underneath, below windward overhangs and open porches (0 elsewhere). No internal pressure.
    All but `names` (n,).
    """

    names: Names
    of_patch: NDArray[np.int16]
    outside_factor: Floats
    underside_factor: Floats

    @property
    def zone(self) -> Names:
        """The names of the zones, patch by patch. (n,)"""
        out: Names = self.names[self.of_patch]
        return out

    @property
    def net_factor(self) -> Floats:
        """Outside less underneath. (n,)"""
        out: Floats = self.outside_factor - self.underside_factor
        return out


def coefficients(zone: Names, outside_factor: Floats, underside_factor: Floats) -> Coefficients:
    """Coefficients whose zones are named patch by patch."""
    names, of_patch = np.unique(zone, return_inverse=True)
    return Coefficients(
        names=names,
        of_patch=of_patch.astype(np.int16),
        outside_factor=outside_factor,
        underside_factor=underside_factor,
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class RoofPressures:
    """One wind case on n patches: up_psf = -q_K_d_psf (outside - underside - inside), but for the least pressure of
    cladding. `pattern` is the wind of a main-frame case; None for cladding, which takes every direction.
    """

    q_K_d_psf: float
    coefficients: Coefficients
    inside_factor: Floats
    pattern: Pattern | DirectionalPattern | None

    @property
    def internal_factor(self) -> float:
        """The coefficient inside, where the house is enclosed."""
        return float(self.inside_factor[np.abs(self.inside_factor).argmax()])

    @property
    def zone(self) -> Names:
        """The figure's own name with the load case, the row or the roof form. (n,)"""
        return self.coefficients.zone

    @property
    def outside_factor(self) -> Floats:
        """The coefficient outside, negative away from the roof. (n,)"""
        return self.coefficients.outside_factor

    @property
    def underside_factor(self) -> Floats:
        """The coefficient below windward overhangs and open porches, 0 elsewhere. (n,)"""
        return self.coefficients.underside_factor

    @property
    def _net_psf(self) -> Floats:
        out: Floats = self.q_K_d_psf * (self.coefficients.net_factor - self.inside_factor)
        return out

    @property
    def least(self) -> Bools:
        """Where the least net pressure of cladding holds instead. (n,)"""
        out: Bools = (np.abs(self._net_psf) < LEAST_NET_PRESSURE_PSF) & (self.pattern is None)
        return out

    @property
    def up_psf(self) -> Floats:
        """What lifts, positive up. (n,) [psf]"""
        net_psf = self._net_psf
        out: Floats = -(with_least_net_pressure_psf(net_psf) if self.pattern is None else net_psf)
        return out
