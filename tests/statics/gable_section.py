"""Closed form of one symmetric gable section on two bearings, pressures normal to its slopes.

Source: statics (sum of moments about the other bearing); common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionPressures:
    """Net pressures on the pieces of the section, away from the roof positive.

    'Near' is the side of the bearing that is asked for. An overhang's pressure is top and underside together.
    """

    near_slope_psf: float
    far_slope_psf: float
    near_overhang_psf: float
    far_overhang_psf: float

    @property
    def turned(self) -> SectionPressures:
        """The same pressures seen from the other bearing."""
        return SectionPressures(
            near_slope_psf=self.far_slope_psf,
            far_slope_psf=self.near_slope_psf,
            near_overhang_psf=self.far_overhang_psf,
            far_overhang_psf=self.near_overhang_psf,
        )


def near_uplift_plf(pressures: SectionPressures, span_ft: float, overhang_ft: float, rise_per_run: float) -> float:
    """Uplift at the near bearing per foot of wall: moments about the far bearing, horizontal parts counted.

    w, l: near and far slope; w_o, l_o: overhangs; L: span; o: overhang. The slopes' horizontal parts act at
    half their rise; those of the overhangs are left out, as the published tables do.

        R = 3 w L/8 + l L/8 - (w - l) L tan^2(theta)/8 + w_o o (L + o/2)/L - l_o o^2/(2 L)

    Pressures in psf, lengths in ft; plf, positive when it lifts.
    """
    w, far = pressures.near_slope_psf, pressures.far_slope_psf
    vertical = (3.0 * w + far) * span_ft / 8.0
    horizontal = (w - far) * span_ft * rise_per_run**2 / 8.0
    near_tail = pressures.near_overhang_psf * overhang_ft * (span_ft + overhang_ft / 2.0) / span_ft
    far_tail = pressures.far_overhang_psf * overhang_ft**2 / (2.0 * span_ft)
    return vertical - horizontal + near_tail - far_tail
