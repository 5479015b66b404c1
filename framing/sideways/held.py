"""Bearings -> what each holds of the walls: its length of an outside wall or of a support that is tied down, and the
stretch of wall that this length is part of.

A stretch is a straight piece of standing wall with anchors. Those along the wind take the deck's forces; the others
push on their anchors square.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from framing.members import Framing
from framing.plan import Plan, Point
from framing.tolerances import SQUARE_DEG, TIE_FT
from framing.walls.held_lengths import WallStrip, wall_strips
from framing.walls.outline import Outline, tie_key

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A straight piece of standing wall, in the outline's frame, named for its wall or support.

    `axis` is 0 where it runs along the frame's x, 1 along y, None at an angle; `start_ft` to `end_ft` its outside face.
    """

    name: str
    axis: int | None
    start_ft: Point
    end_ft: Point

    @property
    def length_ft(self) -> float:
        """Along the outside face. [ft]"""
        return float(np.hypot(*np.subtract(self.end_ft, self.start_ft)))

    @property
    def unit(self) -> Point:
        """From start to end."""
        dx, dy = np.subtract(self.end_ft, self.start_ft) / self.length_ft
        return (float(dx), float(dy))

    def extent_ft(self, axis: int) -> float:
        """How far it reaches along an axis of the frame. [ft]"""
        return abs(self.end_ft[axis] - self.start_ft[axis])

    def middle_ft(self, axis: int) -> float:
        """The coordinate of its middle along an axis. [ft]"""
        return (self.start_ft[axis] + self.end_ft[axis]) / 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """What a bearing holds of a stretch, by its place in the list: stations along the wall or support, and the share of
    them that is its own where several stand at one station. `wall` is the wall's place in the outline, None for a
    support.
    """

    bearing: int
    stretch: int
    wall: int | None
    from_ft: float
    to_ft: float
    share_ratio: float

    @property
    def length_ft(self) -> float:
        """The bearing's own length. [ft]"""
        return (self.to_ft - self.from_ft) * self.share_ratio


def held_stretches(plan: Plan, outline: Outline, framing: Framing) -> tuple[tuple[Stretch, ...], tuple[Held, ...]]:
    """Every stretch of wall and tied-down support with anchors, and what each bearing holds of it."""
    stretches: list[Stretch] = []
    held: list[Held] = []
    last: tuple[int, float] | None = None
    strips = wall_strips(outline, framing.bearings, framing.porch_beams)
    for s in sorted(strips, key=lambda s: (s.wall, tie_key(s.from_ft))):
        if s.to_ft - s.from_ft <= TIE_FT:
            continue  # a corner's end of a wall that is all porch beam
        if last is None or last[0] != s.wall or s.from_ft > last[1] + TIE_FT:
            to_ft = _run_on(strips, s.wall, s.from_ft)
            stretches.append(_of_wall(outline, s.wall, s.from_ft, to_ft))
            last = (s.wall, to_ft)
        held.append(
            Held(
                bearing=s.bearing,
                stretch=len(stretches) - 1,
                wall=s.wall,
                from_ft=s.from_ft,
                to_ft=s.to_ft,
                share_ratio=s.share_ratio,
            )
        )
    for name, at in _on_supports(framing).items():
        stretches.append(_of_support(plan, outline, name))
        held += _along_support(at, len(stretches) - 1, stretches[-1].length_ft)
    return tuple(stretches), tuple(held)


def _run_on(strips: tuple[WallStrip, ...], wall: int, from_ft: float) -> float:
    """How far a wall runs on from a station without a gap. [ft]"""
    to_ft = from_ft
    for s in sorted((s for s in strips if s.wall == wall), key=lambda s: s.from_ft):
        if from_ft - TIE_FT <= s.from_ft <= to_ft + TIE_FT:
            to_ft = max(to_ft, s.to_ft)
    return to_ft


def _of_wall(outline: Outline, wall: int, from_ft: float, to_ft: float) -> Stretch:
    start, end = (np.array(outline.local_ft[(wall + k) % len(outline.local_ft)]) for k in (0, 1))
    unit = (end - start) / outline.walls[wall].length_ft
    a, b = start + unit * from_ft, start + unit * to_ft
    return Stretch(
        name=outline.walls[wall].name,
        axis=outline.axes[wall],
        start_ft=(float(a[0]), float(a[1])),
        end_ft=(float(b[0]), float(b[1])),
    )


def _on_supports(framing: Framing) -> dict[str, dict[int, list[int]]]:
    """The anchored bearings on each support, by their places along it in steps of a tie."""
    out: dict[str, dict[int, list[int]]] = {}
    for i, b in enumerate(framing.bearings):
        if b.on_support and not b.by_engineer:
            out.setdefault(b.wall, {}).setdefault(tie_key(b.station_ft), []).append(i)
    return {name: dict(sorted(at.items())) for name, at in sorted(out.items())}


def _of_support(plan: Plan, outline: Outline, name: str) -> Stretch:
    support = plan.supports[int(name[1:]) - 1]
    start, end = (outline.frame.to_local(p) for p in (support.start_ft, support.end_ft))
    dx, dy = np.abs(np.subtract(end, start)) / np.hypot(*np.subtract(end, start))
    least = np.sin(np.radians(SQUARE_DEG))
    return Stretch(name=name, axis=0 if dy <= least else 1 if dx <= least else None, start_ft=start, end_ft=end)


def _along_support(at: dict[int, list[int]], stretch: int, length_ft: float) -> list[Held]:
    """Midway to the neighbours, to the support's own ends at the last ones."""
    stations = [key * TIE_FT for key in at]
    ends = [0.0, *((a + b) / 2.0 for a, b in pairwise(stations)), length_ft]
    return [
        Held(bearing=i, stretch=stretch, wall=None, from_ft=low, to_ft=high, share_ratio=1.0 / len(group))
        for group, (low, high) in zip(at.values(), pairwise(ends), strict=True)
        for i in group
    ]
