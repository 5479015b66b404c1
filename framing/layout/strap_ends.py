"""How far along the tape a strap stands from where the concrete ends: the outside face of the wall that crosses there,
behind an inside corner its inside face, or a porch beam that stands in the wall's place.
"""

from __future__ import annotations

from collections.abc import Sequence

from framing.layout.strap_places import LEAST_CROSSING, NextWall, Place, StandingLine
from framing.members import PorchBeam
from framing.tolerances import TIE_FT


def end_ft(line: StandingLine, place: Place, thickness_ft: float, gaps: Sequence[PorchBeam]) -> float | None:
    """The nearer end of the concrete along the tape at the strap's own depth; None on a support, in the block of an
    inside corner, where the beam runs on both ways, and where no end is.

    Source: own derivation: tests/parts/test_in_the_beam.py.
    """
    if place.in_from_face_ft is None or place.in_from_next_ft is not None:
        return None
    at = place.tape_ft
    ends = [_crossed_ft(line, place.in_from_face_ft, other, thickness_ft) for other in line.beside]
    ends += [b.to_ft for b in gaps if b.to_ft <= at + TIE_FT] + [b.from_ft for b in gaps if b.from_ft >= at - TIE_FT]
    return min((abs(at - end) for end in ends if end is not None), default=None)


def _crossed_ft(line: StandingLine, depth_ft: float, other: NextWall, thickness_ft: float) -> float | None:
    """The station at which a line that deep in the wall leaves the concrete at the other wall; None where that runs on
    almost straight.
    """
    inward = (-other.direction[1], other.direction[0])
    steep = line.direction[0] * inward[0] + line.direction[1] * inward[1]
    if abs(steep) < LEAST_CROSSING:
        return None
    start = tuple(o + depth_ft * i - p for o, i, p in zip(line.origin_ft, line.inward, other.origin_ft, strict=True))
    behind_ft = 0.0 if other.outward else thickness_ft
    return (behind_ft - start[0] * inward[0] - start[1] * inward[1]) / steep
