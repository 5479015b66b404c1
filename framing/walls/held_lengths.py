"""Bearings -> strips of wall: which length along its wall each bearing holds."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby, pairwise

from framing.members import Bearing, MemberKind, PorchBeam
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, tie_key


@dataclass(frozen=True, slots=True, kw_only=True)
class WallStrip:
    """From where to where along a wall (its place in the outline, stations) a bearing holds it; where several stand
    at one station each takes `share_ratio` of the strip.
    """

    bearing: int
    wall: int
    from_ft: float
    to_ft: float
    share_ratio: float

    @property
    def length_ft(self) -> float:
        """The length of wall that is the bearing's own. [ft]"""
        return (self.to_ft - self.from_ft) * self.share_ratio


def wall_strips(
    outline: Outline, bearings: tuple[Bearing, ...], porch_beams: tuple[PorchBeam, ...] = ()
) -> tuple[WallStrip, ...]:
    """Each wall with bearings cut midway between them, whole from end to end but for porch beams in its place.

    A corner jack stands at the end of both walls of its corner and takes a strip of each.
    """
    at: dict[int, list[tuple[int, float, int]]] = {}
    place = {wall.name: k for k, wall in enumerate(outline.walls)}
    for i, b in enumerate(bearings):
        if b.wall not in place:
            continue  # on a support inside the house
        wall = place[b.wall]
        at.setdefault(wall, []).append((tie_key(b.station_ft), b.station_ft, i))
        if b.kind is MemberKind.CORNER_JACK and b.station_ft <= TIE_FT:
            before = (wall - 1) % len(outline.walls)
            length = outline.walls[before].length_ft
            at.setdefault(before, []).append((tie_key(length), length, i))
    out = []
    for wall, found in sorted(at.items()):
        groups = [list(g) for _, g in groupby(sorted(found), key=lambda f: f[0])]
        stations = [g[0][1] for g in groups]
        ends = [0.0, *((a + b) / 2.0 for a, b in pairwise(stations)), outline.walls[wall].length_ft]
        for group, (low, high) in zip(groups, pairwise(ends), strict=True):
            from_ft, to_ft = _standing_wall(low, high, group[0][1], [b for b in porch_beams if b.wall == wall])
            out += [
                WallStrip(bearing=i, wall=wall, from_ft=from_ft, to_ft=to_ft, share_ratio=1.0 / len(group))
                for _, _, i in group
            ]
    return tuple(out)


def _standing_wall(low_ft: float, high_ft: float, at_ft: float, beams: list[PorchBeam]) -> tuple[float, float]:
    """The part of a stretch about a station that is wall, not porch beam. [ft]"""
    for beam in beams:
        if beam.from_ft >= at_ft:
            high_ft = min(high_ft, beam.from_ft)
        elif beam.to_ft <= at_ft:
            low_ft = max(low_ft, beam.to_ft)
    return low_ft, high_ft
