"""Lines of the deck -> what each takes a foot, and the force that is dragged along it to a wall at an inside corner.

Along a line the deck on either side brings its share evenly over its own depth there; the walls of the line take theirs
evenly by length. At an inside corner what the deck brings over the depth inside, where no wall stands under the line,
has come together. Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.members import Framing
from framing.plan import Plan
from framing.sideways.deck import OnDeck
from framing.sideways.pushes import Sideways
from framing.tolerances import PROBE_FT, TIE_FT
from framing.walls.outline import Outline

Floats = NDArray[np.float64]
Interval = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class LineShear:
    """A line of the deck (`axis` 0 along x, `line` its place): its largest force, ASD, in which case, and how much that
    is on every foot of its `walls`.
    """

    axis: int
    line: int
    walls: tuple[str, ...]
    at_ft: float
    length_ft: float
    force_lb: float
    plf: float
    case: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Drag:
    """The largest force, ASD, at an inside corner (`point_ft`, plan coordinates) along the line of `wall`, `inside_ft`
    long without a wall under it; `low_plf` and `high_plf` are the deck's unit shears on either side in that case.
    `member` runs along the line there, or a tied-down support of the line; '' where neither does.
    """

    wall: str
    axis: int
    line: int
    point_ft: tuple[float, float]
    inside_ft: float
    low_plf: float
    high_plf: float
    force_lb: float
    case: str
    member: str


def line_shears(found: Sideways) -> tuple[LineShear, ...]:
    """What each line takes at most."""
    out = []
    for axis in (0, 1):
        for i, line in enumerate(found.deck.lines[axis]):
            force = np.abs(found.lines_lb[axis][i])
            k = int(force.argmax())
            out.append(
                LineShear(
                    axis=axis,
                    line=i,
                    walls=tuple(dict.fromkeys(found.stretches[s].name for s in line.stretches)),
                    at_ft=line.at_ft,
                    length_ft=line.length_ft,
                    force_lb=float(force[k]),
                    plf=float(force[k]) / line.length_ft,
                    case=found.cases[k].name,
                )
            )
    return tuple(out)


def drags(plan: Plan, outline: Outline, framing: Framing, found: Sideways) -> tuple[Drag, ...]:
    """The force at every inside corner that ends a wall of a line."""
    out = []
    corners = _inside_corners(outline)
    for axis in (0, 1):
        for i, line in enumerate(found.deck.lines[axis]):
            for s in line.stretches:
                stretch = found.stretches[s]
                for at, other in ((stretch.start_ft, stretch.end_ft), (stretch.end_ft, stretch.start_ft)):
                    if stretch.axis != axis or not any(math.dist(at, c) <= TIE_FT for c in corners):
                        continue
                    toward = 1 if at[axis] > other[axis] else -1
                    on = _runs_on(found, axis, i, s, at, toward)
                    one = _drag(plan, outline, framing, found, axis, i, s, at, toward)
                    if one is not None and (on is None or on > s):
                        out.append(one if on is None else replace(one, member=found.stretches[on].name))
    return tuple(out)


def _runs_on(found: Sideways, axis: int, i: int, s: int, at: tuple[float, float], toward: int) -> int | None:
    """The other stretch of a line that begins at a stretch's end and runs on; what passes there is said once."""
    for k in found.deck.lines[axis][i].stretches:
        ends = found.stretches[k].start_ft, found.stretches[k].end_ft
        near, far = sorted(ends, key=lambda end: math.dist(end, at))
        if k != s and math.dist(near, at) <= TIE_FT and (far[axis] - near[axis]) * toward > 0.0:
            return k
    return None


def _inside_corners(outline: Outline) -> list[tuple[float, float]]:
    """The corners at which the outline turns right."""
    points, out = outline.local_ft, []
    for k, p in enumerate(points):
        before, after = np.subtract(p, points[k - 1]), np.subtract(points[(k + 1) % len(points)], p)
        if before[0] * after[1] - before[1] * after[0] < 0.0:
            out.append(p)
    return out


def _drag(
    plan: Plan,
    outline: Outline,
    framing: Framing,
    found: Sideways,
    axis: int,
    i: int,
    s: int,
    at: tuple[float, float],
    toward: int,
) -> Drag | None:
    """All that the deck brings past a corner, less what other walls of the line take there; the larger reading."""
    inside = _inside(outline, axis, at, toward)
    if inside <= TIE_FT:
        return None
    beyond = (at[axis], math.inf) if toward > 0 else (-math.inf, at[axis])
    each = [_brought(outline, found, reading, axis, i, s, beyond) for reading in found.readings]
    force, units = max(each, key=lambda one: float(np.abs(one[0]).max()))
    k = int(np.abs(force).argmax())
    return Drag(
        wall=found.stretches[s].name,
        axis=axis,
        line=i,
        point_ft=outline.frame.to_plan(at),
        inside_ft=inside,
        low_plf=abs(float(units[0][k])),
        high_plf=abs(float(units[1][k])),
        force_lb=abs(float(force[k])),
        case=found.cases[k].name,
        member=_along(plan, framing, axis, at, toward),
    )


def _brought(
    outline: Outline, found: Sideways, reading: OnDeck, axis: int, i: int, s: int, beyond: Interval
) -> tuple[Floats, tuple[Floats, Floats]]:
    """What comes together along a line beyond a corner, and the deck's unit shears on its low and high side; (k,)."""
    line = found.deck.lines[axis][i]
    across = [found.stretches[k].middle_ft(1 - axis) for k in line.stretches]
    low, high = (_depths(outline, axis, c) for c in (min(across) - PROBE_FT, max(across) + PROBE_FT))
    sides = _either_side_lb(found, reading, axis, i)
    units = (sides[0] / _whole_ft(low), sides[1] / _whole_ft(high))
    brought = units[0] * _within(low, beyond) + units[1] * _within(high, beyond)
    whole = (sides[0] + sides[1]) / line.length_ft
    for k, length in zip(line.stretches, line.lengths_ft, strict=True):
        if k != s and beyond[0] < found.stretches[k].middle_ft(axis) < beyond[1]:
            brought = brought - whole * length
    return brought, units


def _either_side_lb(found: Sideways, reading: OnDeck, axis: int, i: int) -> tuple[Floats, Floats]:
    """What the spans below and above a line bring to it. (k,)"""
    ends, n = reading.ends_lb[axis], len(found.deck.lines[axis])
    none = np.zeros(ends.shape[1])
    if n == 1:
        return ends[0], none
    return (ends[2 * i - 1] if i else none, ends[2 * i] if i < n - 1 else none)


def _depths(outline: Outline, axis: int, across_ft: float) -> list[Interval]:
    """The house's extents along an axis at a coordinate of the other."""
    low, high = (f(p[axis] for p in outline.local_ft) for f in (min, max))
    ends = [(low - 1.0, across_ft), (high + 1.0, across_ft)]
    cut = shapely.Polygon(outline.local_ft).intersection(
        shapely.LineString(ends if axis == 0 else [(y, x) for x, y in ends])
    )
    parts = [p for p in shapely.get_parts(cut) if p.length > TIE_FT]
    return [(p.bounds[axis], p.bounds[axis + 2]) for p in parts]


def _inside(outline: Outline, axis: int, at: tuple[float, float], toward: int) -> float:
    """How far the line of a wall runs on inside the house from its corner. [ft]"""
    for low, high in _depths(outline, axis, at[1 - axis]):
        if toward > 0 and low - TIE_FT <= at[axis] < high - TIE_FT:
            return high - at[axis]
        if toward < 0 and low + TIE_FT < at[axis] <= high + TIE_FT:
            return at[axis] - low
    return 0.0


def _whole_ft(depths: list[Interval]) -> float:
    return max(sum(b - a for a, b in depths), TIE_FT)


def _within(depths: list[Interval], beyond: Interval) -> float:
    return sum(max(0.0, min(b, beyond[1]) - max(a, beyond[0])) for a, b in depths)


def _along(plan: Plan, framing: Framing, axis: int, at: tuple[float, float], toward: int) -> str:
    """The member that runs on along a wall's line from its corner, within the wall's thickness of it."""
    for m in framing.members:
        (a, b), across = m.frame_ft, 1 - axis
        runs = abs(a[across] - b[across]) <= TIE_FT and abs(a[across] - at[across]) <= plan.wall_thickness_ft
        low, high = sorted((a[axis], b[axis]))
        probe = at[axis] + toward * (plan.wall_thickness_ft + PROBE_FT)
        if runs and low <= probe <= high:
            return m.name
    return ""
