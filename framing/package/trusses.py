"""Rows of an engineer's layout -> the trusses that they are the bearings of, in the outline's frame.

A row alone is a truss that crosses its wall square, or stands in an outside corner at 45 degrees. Two rows are one
truss only where the table says so: nothing is guessed from how our own framing would lie.
Source: common practice, no source.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from framing.errors import PackageError
from framing.layout.records import PLY_FT
from framing.layout.supports import Supports
from framing.members import MemberKind
from framing.package.ours import place_ft
from framing.package.rows import Package, PackageRow, like_ours
from framing.plan import Plan, Point
from framing.units import shown
from framing.walls.outline import Outline
from framing.walls.standing_walls import inner_ring_ft

FACING_FT, SPAN_WITHIN_FT, SHORTEST_FT = 2.0 / 12.0, 0.75, 1.0
UNNAMED = "truss"
KINDS = "|".join(kind.value for kind in MemberKind)
_OUR_NAME = re.compile(rf"(?:{KINDS}) \d+", re.ASCII | re.IGNORECASE)
NOT_ENOUGH = 'layout = "package" takes the marks from this table'
RIGHT = 'or write layout = "ours" in the plan'


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """One bearing of the table in the outline's frame: the wall or the support that it stands on, by its place there,
    and the way in, square to it or from an outside corner at 45 degrees.
    """

    row: PackageRow
    wall: int | None
    support: int | None
    point_ft: Point
    inward: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Truss:
    """Its seats from end to end; one that stands along its wall has all of them on it."""

    name: str
    kind: MemberKind
    plies: int
    seats: tuple[Seat, ...]
    along: bool


def trusses_of(plan: Plan, outline: Outline, supports: Supports, package: Package) -> tuple[Truss, ...]:
    """The trusses, in the table's order.

    Raises
    ------
    PackageError
        If a row that does not hang has no wall, station or uplift; one sentence with the row.
    """
    groups: dict[str, list[Seat]] = {}
    for row in package.rows:
        if not row.hung:
            name = row.member or (row.mark if not like_ours(row.mark) else "") or UNNAMED
            groups.setdefault(name, []).append(_seat(plan, outline, supports, package, row))
    if not groups:
        raise PackageError(f"{package.name}: every row hangs on a member; write those that stand on the walls, {RIGHT}")
    order = {row.number: k for k, row in enumerate(package.rows)}
    found = [truss for name, seats in groups.items() for truss in _of_name(name, seats)]
    return tuple(sorted(found, key=lambda t: min(order[s.row.number] for s in t.seats)))


def _seat(plan: Plan, outline: Outline, supports: Supports, package: Package, row: PackageRow) -> Seat:
    where = f"{package.name} row {row.number}"
    for column, value in (("wall", row.wall), ("station", row.station_ft), ("uplift", row.uplift_lb)):
        if value in ("", None):
            right = "write 0 where nothing lifts" if column == "uplift" else "write the wall and the station"
            raise PackageError(f"{where}, {column}: the cell is empty, and {NOT_ENOUGH}; {right}, {RIGHT}")
    name, station_ft = row.wall.upper(), row.station_ft or 0.0
    point = place_ft(plan, outline, name, station_ft)
    if point is None:
        raise PackageError(f"{where}, station: it lies on no wall of the plan; write a wall and a station on it")
    local = outline.frame.to_local(point)
    wall = next((k for k, w in enumerate(outline.walls) if w.name == name), None)
    if wall is not None:
        corner = _corner(outline, wall, station_ft, (row.plies or 1) * PLY_FT / 2.0)
        seat = Seat(row=row, wall=wall, support=None, point_ft=local, inward=_inward(outline, wall))
        return seat if corner is None else replace(seat, point_ft=corner[0], inward=corner[1])
    beam = next((b for b in supports.porch_beams if b.name == name), None)
    if beam is not None:
        return Seat(row=row, wall=beam.wall, support=None, point_ft=local, inward=_inward(outline, beam.wall))
    line = next((s for s in supports.inside if s.name == name), None)
    if line is None:
        raise PackageError(f"{where}, wall: {shown(row.wall)} carries no truss in this plan; {RIGHT}")
    (x0, y0), (x1, y1) = line.start_ft, line.end_ft
    length = math.dist(line.start_ft, line.end_ft)
    return Seat(
        row=row, wall=None, support=line.index, point_ft=local, inward=(-(y1 - y0) / length, (x1 - x0) / length)
    )


def _inward(outline: Outline, wall: int) -> Point:
    (x0, y0), (x1, y1) = outline.local_ft[wall], outline.local_ft[(wall + 1) % len(outline.walls)]
    length = math.dist((x0, y0), (x1, y1))
    return (-(y1 - y0) / length, (x1 - x0) / length)


def _corner(outline: Outline, wall: int, station_ft: float, half_ft: float) -> tuple[Point, Point] | None:
    """Where a truss square to its wall would stand past the wall's end: the crossing of the walls' centre lines and the
    way in, at 45 degrees in an outside corner, on along the other wall's beam in the block of an inside one. None
    elsewhere.
    """
    n, own = len(outline.walls), outline.walls[wall]
    for other, corner, off_ft in (((wall - 1) % n, wall, station_ft), ((wall + 1) % n, (wall + 1) % n, None)):
        if (own.length_ft - station_ft if off_ft is None else off_ft) >= half_ft:
            continue
        a, b = _inward(outline, wall), _inward(outline, other)
        first, second = (b, a) if corner == wall else (a, b)
        x, y = inner_ring_ft(outline.walls, own.thickness_ft / 2.0).tolist()[corner]
        point, size = outline.frame.to_local((x, y)), math.hypot(a[0] + b[0], a[1] + b[1])
        outside = first[0] * second[1] - first[1] * second[0] > 0.0
        return point, ((a[0] + b[0]) / size, (a[1] + b[1]) / size) if outside else a
    return None


def _of_name(name: str, seats: list[Seat]) -> Iterator[Truss]:
    """The trusses of one name: of many alike there are as many as the table has ends for."""
    if name.lower().startswith("gable"):
        walls = dict.fromkeys((s.wall, s.support) for s in seats)
        sets = [tuple(s for s in seats if (s.wall, s.support) == w) for w in walls]
        along = [group[0].wall is not None and len(group) > 1 for group in sets]
    else:
        sets = _joined(seats, ours=bool(_OUR_NAME.fullmatch(name)))
        along = [False] * len(sets)
    for k, (group, lies) in enumerate(zip(sets, along, strict=True), start=1):
        own = name if len(sets) == 1 and name != UNNAMED else f"{name} no. {k}"
        plies = max(s.row.plies or 1 for s in group)
        yield Truss(name=own, kind=_kind(name, group, plies, along=lies), plies=plies, seats=group, along=lies)


def _kind(name: str, seats: tuple[Seat, ...], plies: int, *, along: bool) -> MemberKind:
    """By its name where that begins with a kind; else what several plies and a corner say."""
    if along:
        return MemberKind.GABLE_END
    named = next((k for k in MemberKind if name.lower().startswith(k.value)), None)
    if named is not None and named is not MemberKind.GABLE_END:
        return named
    if any(abs(x * y) > 0.25 for x, y in (s.inward for s in seats)) and len(seats) == 1:
        return MemberKind.CORNER_JACK
    return MemberKind.GIRDER if plies > 1 else MemberKind.COMMON


def _joined(seats: list[Seat], *, ours: bool) -> list[tuple[Seat, ...]]:
    """Seats that are one truss together, each truss from end to end."""
    if ours and 2 <= len(seats) <= 3:
        ordered = _in_order(tuple(seats))
        a, b = ordered[0], ordered[-1]
        apart = math.dist(a.point_ft, b.point_ft) >= SHORTEST_FT and (a.wall, a.support) != (b.wall, b.support)
        if apart and all(s.support is not None for s in ordered[1:-1]):
            return [ordered]
    left = list(seats)
    out: list[tuple[Seat, ...]] = []
    while left:
        first = left.pop(0)
        mate = next(
            (s for s in sorted(left, key=lambda s: math.dist(first.point_ft, s.point_ft)) if _one(first, s)), None
        )
        if mate is not None:
            left.remove(mate)
        out.append((first,) if mate is None else (first, mate))
    return out


def _in_order(seats: tuple[Seat, ...]) -> tuple[Seat, ...]:
    """Two or three seats from one end to the other."""
    a, b = max(combinations(seats, 2), key=lambda pair: math.dist(pair[0].point_ft, pair[1].point_ft))
    return (a, *(s for s in seats if s is not a and s is not b), b)


def _one(a: Seat, b: Seat) -> bool:
    """Whether two seats of one name are the two ends of one truss: they face each other square, and a span or two
    joints of the table say so.
    """
    dx, dy = b.point_ft[0] - a.point_ft[0], b.point_ft[1] - a.point_ft[1]
    apart = math.hypot(dx, dy)
    for seat, sign in ((a, 1.0), (b, -1.0)):
        x, y = seat.inward
        into, past = sign * (dx * x + dy * y), abs(dx * y - dy * x)
        if past > FACING_FT or (into if seat.wall is not None else abs(into)) < FACING_FT:
            return False
    spans = [s for s in (a.row.span_ft, b.row.span_ft) if s is not None]
    if spans:
        return all(abs(span - apart) <= SPAN_WITHIN_FT for span in spans)
    return bool(a.row.joint and b.row.joint and a.row.joint != b.row.joint)
