"""What one nail of the deck holds against suction: pulled out of the chord, or through the panel.

Allowable-stress level, wind: C_D = 1.6 is in it, wet service is not (wood that dries around a nail loses much of it).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

from framing.deck.tables import Nail, Panel, Wood

WIND_DURATION_FACTOR = 1.6
SMOOTH, RINGED = 1380.0, 1800.0
HEAD_THIN, HEAD_THICK, THICK_HEADS = 690.0, 1725.0, 2.5


class Mode(StrEnum):
    """How a nail lets go."""

    WITHDRAWAL = "pulled out of the chord"
    HEAD = "pulled through the panel"


@dataclass(frozen=True, slots=True, kw_only=True)
class NailStrength:
    """What a nail holds either way, C_D 1.6 in it; the lesser governs. [lb]"""

    withdrawal_lb: float
    head_lb: float
    penetration_in: float

    @property
    def allowable_lb(self) -> float:
        """The lesser of the two. [lb]"""
        return min(self.withdrawal_lb, self.head_lb)

    @property
    def mode(self) -> Mode:
        """The one that governs."""
        return Mode.WITHDRAWAL if self.withdrawal_lb < self.head_lb else Mode.HEAD


def withdrawal_lb_per_in(diameter_in: float, gravity_ratio: float, *, ringed: bool) -> float:
    """Reference withdrawal value of one nail in side grain, per inch in the wood (of thread, where ringed). [lb/in]

    Parameters
    ----------
    diameter_in : float
        Of the shank. [in]
    gravity_ratio : float
        G of the chord.
    ringed : bool
        Roof sheathing ring shank.

    Source: NDS 2018, sec. 12.2.3, eq. 12.2-3 (good), and eq. 12.2-5 for ring shanks (constant from memory).
    """
    if ringed:
        return RINGED * gravity_ratio**2 * diameter_in
    return float(SMOOTH * gravity_ratio**2.5 * diameter_in)


def head_pull_through_lb(head_in: float, thickness_in: float, gravity_ratio: float) -> float:
    """Reference value of one round head through a panel. [lb]

    Parameters
    ----------
    head_in : float
        Diameter of the head. [in]
    thickness_in : float
        Of the panel. [in]
    gravity_ratio : float
        G of the panel.

    Source: NDS 2018, sec. 12.2.5, eq. 12.2-6 (from memory).
    """
    if thickness_in <= THICK_HEADS * head_in:
        return HEAD_THIN * math.pi * head_in * gravity_ratio**2 * thickness_in
    return HEAD_THICK * math.pi * head_in**2 * gravity_ratio**2


def nail_strength(nail: Nail, panel: Panel, wood: Wood) -> NailStrength:
    """What one nail through a panel into a chord holds against suction.

    Source: NDS 2018, sec. 12.2 and table 2.3.2 (C_D 1.6 for wind).
    """
    penetration_in = nail.length_in - panel.thickness_in
    held_in = penetration_in if nail.thread_in is None else min(nail.thread_in, penetration_in)
    per_in = withdrawal_lb_per_in(nail.diameter_in, wood.gravity_ratio, ringed=nail.thread_in is not None)
    return NailStrength(
        withdrawal_lb=WIND_DURATION_FACTOR * per_in * held_in,
        head_lb=WIND_DURATION_FACTOR * head_pull_through_lb(nail.head_in, panel.thickness_in, panel.gravity_ratio),
        penetration_in=penetration_in,
    )
