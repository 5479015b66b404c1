"""The winds that a house is tried in: one pattern of pressures each, as either procedure has them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from framing.asce7.chapter28 import mid_length_reading
from framing.frame_side import SIDES, FrameSide, sides_of
from framing.roof.surface import Roof
from framing.roof.wings import Wing


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One main-frame wind pattern of the whole house by the envelope procedure.

    `from_side` is the side of the frame that the wind blows onto; `high_corner` says whether the reference
    corner is at the high end of that side's own axis; `reading` 0 is the figure's plain reading, 1 the second
    one where a wing has two (a square wing turned; wind onto a hip end by the commentary; mid-length zones up
    to 10 degrees). Source: ASCE 7-22, fig. 28.3-1 notes (every corner in turn, both load cases); the hip
    reading from memory of fig. C28.3-2.
    """

    from_side: FrameSide
    high_corner: bool
    reading: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DirectionalPattern:
    """One wind of the whole house by the directional procedure: the side of the frame it blows onto, and which of the
    two values of the figure holds on the windward and parallel slopes: the suction, or the other one.
    """

    from_side: FrameSide
    other_value: bool


class Reading(StrEnum):
    """How a wing reads a pattern: by which load case of the figure, at the roof's slope unless said."""

    ACROSS = "load case 1"
    ALONG = "load case 2"
    ONTO_HIP_END = "load case 1, onto a hip end"
    MID_LENGTH = "load case 1 at 0 degrees"


def reading_of(wing: Wing, pattern: Pattern, theta_deg: float) -> Reading:
    """How a wing reads a pattern.

    Source: ASCE 7-22, fig. 28.3-1 notes (good); onto a hip end from memory of fig. C28.3-2.
    """
    ridge = 1 - wing.ridge_axis if wing.square and pattern.reading else wing.ridge_axis
    if pattern.from_side.axis != ridge:
        return Reading.ACROSS
    if pattern.reading and not wing.square and any(not wing.gable[s] for s in sides_of(ridge)):
        return Reading.ONTO_HIP_END
    return Reading.MID_LENGTH if pattern.reading and mid_length_reading(theta_deg) else Reading.ALONG


def patterns(roof: Roof, theta_deg: float) -> tuple[Pattern, ...]:
    """All patterns: four directions, two reference corners, and the second reading of each that a wing reads otherwise
    than the first.
    """
    first, second = (
        [Pattern(from_side=s, high_corner=c, reading=r) for s in SIDES for c in (False, True)] for r in (0, 1)
    )
    others = (
        b
        for a, b in zip(first, second, strict=True)
        if any(reading_of(w, a, theta_deg) is not reading_of(w, b, theta_deg) for w in roof.wings)
    )
    return (*first, *others)


def directional_patterns() -> tuple[DirectionalPattern, ...]:
    """Four winds, each with both values of the figure.

    Source: ASCE 7-22, fig. 27.3-1, note that both values are designed for (solid).
    """
    return tuple(DirectionalPattern(from_side=s, other_value=o) for o in (False, True) for s in SIDES)
