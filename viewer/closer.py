"""Run -> what 'look closer' shows at each mark: wall and beam cut open at the strap's face, strap and truss heel."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from framing.anchors.schedule import Mark
from framing.members import Crossing, Member
from framing.plan import SupportKind
from framing.run import Run
from framing.walls.outline import Wall
from viewer.closer_parts import (
    CELL_HALF_FT,
    CELL_PITCH_FT,
    COURSE_FT,
    SHELL_FT,
    PartSet,
    beam_across,
    beam_along,
    cells_in_front,
    course_in_front,
    nails,
    support_across,
)
from viewer.masonry import tie_beam_top_ft
from viewer.pieces import Floats
from viewer.straps import head_ft
from viewer.timber import PLY_FT

BEHIND_FT, BEFORE_FT, BESIDE_FT = 1.5, 2.0, 1.2
"""How much wall is drawn behind the cut, of its course before the cut, and to either side of a cut along the wall."""
LEAST_FT, STEP_FT = 0.25, 0.25
ALONG_COS = 0.94
"""A truss within about 20 degrees of its wall's direction is cut along the wall."""
EYE_FT, EYE_TILT, EYE_ASIDE = 8.4, 0.36, 0.62
"""Where 'look closer' looks from: distance, height angle [rad], and how far out of the strap's own normal."""
MOST_CELLS = 3
LEAST_SEEN_FT = 0.04
Plan2 = tuple[float, float]
Filled = dict[str, tuple[float, ...]]
Common = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Closer:
    """The frame of one mark's cutaway, and the sets of pieces in it.

    `at_ft` is where the cut meets the middle of the wall, at the top of the beam; `far` and `near` are unit vectors
    along what stands behind the cut and before it, `across` the vector for a y of 1, `normal` out of the strap's face
    towards the eye. `cells_ft` is how far along `near` (or along `across`) the first cell stands. `nails` is in the
    frame of the strap, whose end is `head_ft` over the beam. `words` are what has to be said of what is drawn.
    """

    mark: str
    at_ft: tuple[float, float, float]
    far: Plan2
    near: Plan2
    across: Plan2
    normal: Plan2
    along: bool
    head_ft: float
    cells_ft: float
    behind: PartSet
    before: PartSet
    cells: PartSet
    nails: PartSet
    words: tuple[str, ...]

    @property
    def eye(self) -> Plan2:
        """The direction in plan from which it is looked at."""
        toward = np.array(self.normal) + np.array(self.across) / math.hypot(*self.across) * EYE_ASIDE
        x, y = (toward / np.hypot(*toward)).tolist()
        return (x, y)


@lru_cache(maxsize=1)
def closers(run: Run) -> tuple[Closer, ...]:
    """One for each row of the schedule, in its order."""
    members = {m.name: m for m in run.framing.members}
    filled = {b.cells.stretch.name: b.cells.at_ft for b in run.ground.beams}
    return tuple(_closer(run, m, members[m.bearing.member], filled) for m in run.schedule.marks)


def _closer(run: Run, mark: Mark, member: Member, filled: Filled) -> Closer:
    axis = np.subtract(member.end_ft, member.start_ft) / max(member.span_ft, 1e-9)
    normal = np.array((-axis[1], axis[0]))
    point, foot = np.array(mark.bearing.point_ft), np.array(mark.bearing.straps[0].point_ft)
    if float((foot - member.start_ft) @ normal) < 0:
        normal = -normal
    at = point + normal * (member.plies * PLY_FT / 2)
    common: Common = {
        "mark": mark.mark,
        "normal": _pair(normal),
        "head_ft": round(head_ft(mark, member, axis), 3),
        "nails": nails(mark.anchor.n_nails // max(mark.count, 1) if mark.anchor else 0),
    }
    if mark.bearing.on_support:
        return _on_support(run, mark, axis, normal, at, common)
    wall = run.outline.wall(mark.bearing.wall)
    if abs(float(axis @ wall.direction)) > ALONG_COS:
        return _along(run, mark, wall, normal, common, filled)
    return _across(run, mark, axis, normal, at, common, filled)


def _on_support(run: Run, mark: Mark, axis: Floats, normal: Floats, at: Floats, common: Common) -> Closer:
    """A support inside, or a porch beam, as one piece square to the truss."""
    support = run.plan.supports[int(mark.bearing.wall[1:]) - 1]
    porch = mark.bearing.wall in {b.name for b in run.framing.porch_beams}
    name = "porch beam" if porch else "beam" if support.kind is SupportKind.BEAM else "wall inside"
    return Closer(
        **common,
        at_ft=(*_pair(at), tie_beam_top_ft(run)),
        far=_pair(-normal),
        near=_pair(normal),
        across=_pair(axis * run.plan.wall_thickness_ft / 2),
        along=False,
        cells_ft=0.0,
        behind=support_across(run.plan, BEHIND_FT, name),
        before=PartSet(),
        cells=PartSet(),
        words=_words(run, mark, ("The plan does not say what is inside this support.",)),
    )


def _along(run: Run, mark: Mark, wall: Wall, normal: Floats, common: Common, filled: Filled) -> Closer:
    """A truss that runs along its wall: the wall cut along the strap's face."""
    strap = mark.bearing.straps[0]
    inset = strap.in_from_face_ft if strap.in_from_face_ft is not None else wall.thickness_ft / 2
    outside = float(normal @ wall.outward) > 0
    front = min(max(inset if outside else wall.thickness_ft - inset, LEAST_FT / 4), wall.thickness_ft - LEAST_FT / 4)
    deep = wall.thickness_ft - front
    way = np.array(wall.direction)
    station = float((np.array(strap.point_ft) - wall.start_ft) @ way)
    first, filling = _cells(run, wall, station - BESIDE_FT + 0.1, 1.0, 2 * BESIDE_FT - 0.2, filled)
    at = np.array(strap.point_ft)
    middle = (front - deep) / 2
    half = wall.thickness_ft / 2 - SHELL_FT
    reach = (max(0.0, middle - half), middle + half)
    course = not _opening_at(run, wall, station)
    cells = cells_in_front(run.plan, filling, reach) if course and reach[1] - reach[0] > LEAST_FT / 4 else PartSet()
    return Closer(
        **common,
        at_ft=(*_pair(at), tie_beam_top_ft(run)),
        far=_pair(-normal),
        near=_pair(normal),
        across=_pair(way * BESIDE_FT),
        along=True,
        cells_ft=round(first - BESIDE_FT + 0.1, 3),
        behind=beam_along(run.plan, round(deep, 3), round(front, 3), BESIDE_FT, course=course),
        before=course_in_front(run.plan, round(front, 3)) if course else PartSet(),
        cells=cells,
        words=_words(run, mark, _wall_words(run, course, filled.get(wall.name, ()))),
    )


def _across(run: Run, mark: Mark, axis: Floats, normal: Floats, at: Floats, common: Common, filled: Filled) -> Closer:
    """A truss that crosses its wall: the wall cut along the truss."""
    wall = run.outline.wall(mark.bearing.wall)
    (far_wall, far), (near_wall, near) = _sides(run, mark, wall, normal)
    across = axis * wall.thickness_ft / 2 / float(axis @ wall.outward)
    behind_ft, below = _reach(run, far_wall, far, at, BEHIND_FT)
    before_ft, course = _reach(run, near_wall, near, at, BEFORE_FT)
    station, sign = _station(near_wall, at), math.copysign(1.0, float(near @ near_wall.direction))
    first, filling = _cells(run, near_wall, station, sign, before_ft, filled)
    straight = float(far @ near) < -0.99
    return Closer(
        **common,
        at_ft=(*_pair(at), tie_beam_top_ft(run)),
        far=_pair(far),
        near=_pair(near),
        across=_pair(across),
        along=False,
        cells_ft=first,
        behind=beam_across(run.plan, behind_ft, out=straight, course=below),
        before=course_in_front(run.plan, before_ft) if course else PartSet(),
        cells=cells_in_front(run.plan, filling, None) if course else PartSet(),
        words=_words(run, mark, _wall_words(run, course and below, filled.get(near_wall.name, ()))),
    )


def _sides(run: Run, mark: Mark, wall: Wall, normal: Floats) -> tuple[tuple[Wall, Floats], tuple[Wall, Floats]]:
    """The walls and the directions behind the cut and before it: at an outside corner two walls, else one."""
    way = np.array(wall.direction)
    ends = [(wall, way), (wall, -way)]
    if mark.bearing.crossing is Crossing.DIAGONAL:
        walls = run.outline.walls
        k, at_left = walls.index(wall), mark.bearing.station_ft < wall.length_ft / 2
        other = walls[k - 1] if at_left else walls[(k + 1) % len(walls)]
        ends = [(wall, way if at_left else -way), (other, np.array(other.direction) * (-1.0 if at_left else 1.0))]
    far, near = sorted(ends, key=lambda end: float(end[1] @ normal))
    return far, near


def _station(wall: Wall, at: Floats) -> float:
    return float((at - wall.start_ft) @ wall.direction)


def _reach(run: Run, wall: Wall, way: Floats, at: Floats, most_ft: float) -> tuple[float, bool]:
    """How far a wall is drawn from a point on, in whole steps, and whether a course of block stands there at all."""
    station = _station(wall, at)
    sign = math.copysign(1.0, float(way @ wall.direction))
    ends = [wall.length_ft - station if sign > 0 else station]
    for opening in _openings(run, wall):
        edge = (opening[0] - station) if sign > 0 else (station - opening[1])
        ends += [edge] if edge > LEAST_FT else []
    reach = min(most_ft, *ends)
    return max(LEAST_FT, STEP_FT * math.floor(reach / STEP_FT + 1e-6)), not _opening_at(run, wall, station + sign * 0.1)


def _openings(run: Run, wall: Wall) -> list[tuple[float, float]]:
    """From where to where the openings of a wall reach up into the course under the beam."""
    foot_ft = run.plan.wall_height_ft - run.plan.tie_beam.depth_ft - COURSE_FT
    return [
        (o.from_ft, o.to_ft) for o in run.plan.masonry.openings if o.wall == wall.name and o.head_ft > foot_ft + 0.1
    ]


def _opening_at(run: Run, wall: Wall, station_ft: float) -> bool:
    return any(low < station_ft < high for low, high in _openings(run, wall))


def _cells(
    run: Run, wall: Wall, station_ft: float, sign: float, reach_ft: float, filled: Filled
) -> tuple[float, tuple[bool, ...]]:
    """How far on the first cell stands that is seen at least half, and of each whether the plan fills it.

    Cells count from the wall's START. Source: common practice, no source.
    """
    k = math.ceil((sign * station_ft + LEAST_SEEN_FT - sign * CELL_PITCH_FT / 2) / CELL_PITCH_FT - 1e-9)
    first = k * CELL_PITCH_FT + sign * CELL_PITCH_FT / 2 - sign * station_ft
    n = min(MOST_CELLS, math.floor((reach_ft - CELL_HALF_FT - first) / CELL_PITCH_FT) + 1)
    at = [station_ft + sign * (first + i * CELL_PITCH_FT) for i in range(max(n, 0))]
    stations, half = filled.get(wall.name, ()), CELL_PITCH_FT / 2 + 1e-6
    return first, tuple(any(2e-6 - half < s - a <= half for s in stations) for a in at)


def _wall_words(run: Run, course: bool, filled: Sequence[float]) -> tuple[str, ...]:
    steel = run.plan.masonry.steel
    barred = steel.top_bars or steel.bottom_bars
    return (
        *(() if barred else ("The plan gives no bars for the tie beam, so none are drawn.",)),
        *(() if filled else ("The plan does not say which cells are filled, so all are drawn hollow.",)),
        *(() if course else ("Below the beam is an opening.",)),
    )


def _words(run: Run, mark: Mark, more: tuple[str, ...]) -> tuple[str, ...]:
    """What has to be said of a cutaway, a sentence each."""
    if mark.bearing.by_engineer:
        first = "The engineer gives the connection here, so no strap is drawn."
    elif mark.anchor is None:
        first = "No strap of the list is allowed the pull here, so none is drawn."
    elif mark.anchor.embedment_in:
        first = f"The strap is set {mark.anchor.embedment_in:g} in. deep in the concrete."
    else:
        first = "The list does not say how deep the strap is set; it is drawn 4 in. deep."
    return (first, *more)


def _pair(vector: Floats) -> Plan2:
    x, y = (float(v) for v in vector)
    return (x, y)
