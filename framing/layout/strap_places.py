"""Where straps stand on a wall, in the outline's frame: each against a face of its own member.

A member that crosses its wall has its strap at mid-thickness; at 45 degrees in an outside corner so far inboard of the
crossing of the two walls' centre lines that it clears the bar in the corner cell; a gable-end truss, along its wall, on
its inside face. Source: common practice, no source.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from framing.members import CarrierKind, Crossing
from framing.plan import Point, Side
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline
from framing.walls.standing_walls import inner_ring_ft

LEAST_SKEW_DEG = 1.0
LEAST_DIAGONAL_DEG = 15.0
LEAST_CROSSING = 0.1
AT_A_CORNER_FT = 10 * TIE_FT


@dataclass(frozen=True, slots=True, kw_only=True)
class NextWall:
    """The wall that meets another at one end of it: its name, a point of its outside face, its direction, the crossing
    of the two walls' centre lines, and whether the house turns outward there.
    """

    name: str
    origin_ft: Point
    direction: Point
    centres_ft: Point
    outward: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingLine:
    """What a mark stands on, by its kind, its name and its place among those of its kind, and the frame point and
    direction of its stations. `beside` are the walls that it meets at its left and its right end; a support has none.
    """

    kind: CarrierKind
    name: str
    index: int
    origin_ft: Point
    direction: Point
    length_ft: float
    beside: tuple[NextWall, ...]

    @property
    def inward(self) -> Point:
        """Unit vector square to it; on a wall into the house."""
        return (-self.direction[1], self.direction[0])

    def station_ft(self, point: Point) -> float:
        """The place of a point along it. [ft]"""
        return _along(self.origin_ft, self.direction, point)

    def on_it_ft(self, station_ft: float) -> float:
        """A station brought to the nearest on it. [ft]"""
        return min(max(station_ft, 0.0), self.length_ft)


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One strap in the frame: the face of its member that it lies against, its point, the tape's figure on its wall,
    how far it stands in from the wall's outside face (None on a support), and in the block of an inside corner from
    that of the other wall (None elsewhere).
    """

    side: Side
    point_ft: Point
    tape_ft: float
    in_from_face_ft: float | None
    in_from_next_ft: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How a member stands on its line: its straps are the one that a single anchor is, and the other of a pair.
    `member_crossing` is how the member does, whether or not the strap comes to stand in a corner block.
    """

    member_crossing: Crossing
    crossing: Crossing
    skew_deg: float
    station_ft: float
    straps: tuple[Place, Place]
    next_wall: str

    @property
    def on_other_face(self) -> Stand:
        """The same with the single strap on the member's other face."""
        first, second = self.straps
        in_block = second.in_from_next_ft is not None
        return replace(
            self, straps=(second, first), crossing=Crossing.CORNER_BLOCK if in_block else self.member_crossing
        )


def wall_lines_of(outline: Outline) -> tuple[StandingLine, ...]:
    """The walls of an outline, each with those that it meets."""
    n, corners = len(outline.walls), outline.local_ft
    middles = inner_ring_ft(outline.walls, outline.walls[0].thickness_ft / 2.0)
    centres = [outline.frame.to_local((x, y)) for x, y in middles.tolist()]
    ways = [_way(corners[k], corners[(k + 1) % n]) for k in range(n)]
    out = []
    for k, wall in enumerate(outline.walls):
        beside = []
        for other, corner in (((k - 1) % n, k), ((k + 1) % n, (k + 1) % n)):
            before, after = ways[corner - 1], ways[corner]
            beside.append(
                NextWall(
                    name=outline.walls[other].name,
                    origin_ft=corners[other],
                    direction=ways[other],
                    centres_ft=centres[corner],
                    outward=before[0] * after[1] - before[1] * after[0] > 0.0,
                )
            )
        out.append(
            StandingLine(
                kind=CarrierKind.WALL,
                name=wall.name,
                index=k,
                origin_ft=corners[k],
                direction=ways[k],
                length_ft=wall.length_ft,
                beside=tuple(beside),
            )
        )
    return tuple(out)


def support_line(name: str, index: int, start: Point, end: Point) -> StandingLine:
    """A support, by its place in the plan, from its `from` end."""
    return StandingLine(
        kind=CarrierKind.SUPPORT,
        name=name,
        index=index,
        origin_ft=start,
        direction=_way(start, end),
        length_ft=math.dist(start, end),
        beside=(),
    )


def crossing_stand(
    line: StandingLine, here: Point, inner: Point, plies_ft: float, side: Side, corner_strap_ft: float
) -> Stand:
    """A member from its bearing `here` toward `inner`, `plies_ft` thick, on a wall or support; one that hardly crosses
    it, as a girder that ends where a support along it begins, stands along it (its START side is then the left one).
    """
    length = math.dist(here, inner)
    dx, dy = (inner[0] - here[0]) / length, (inner[1] - here[1]) / length
    across = dx * line.direction[1] - dy * line.direction[0]
    sign = 1.0 if across > 0.0 else -1.0
    far = (-dy * sign, dx * sign)  # square to the member, toward the far end of the tape
    cosine = abs(across)
    skew = math.degrees(math.asin(min(1.0, abs(dx * line.direction[0] + dy * line.direction[1]))))
    half = plies_ft / 2.0
    corner = next((n for n in line.beside if n.outward and math.dist(n.centres_ft, here) <= AT_A_CORNER_FT), None)
    diagonal = corner is not None and LEAST_DIAGONAL_DEG <= skew <= 90.0 - LEAST_DIAGONAL_DEG
    along = cosine < LEAST_CROSSING
    order = (Side.START, Side.FAR) if side is Side.START else (Side.FAR, Side.START)
    places = []
    for face in order:
        off = -half if face is Side.START else half
        if diagonal:
            at = (here[0] + dx * corner_strap_ft + far[0] * off, here[1] + dy * corner_strap_ft + far[1] * off)
        elif along:
            at = (here[0] + far[0] * off, here[1] + far[1] * off)
        else:
            run = off / cosine
            at = (here[0] + line.direction[0] * run, here[1] + line.direction[1] * run)
        places.append(_place(line, face, at))
    if along:
        return _stand(line, Crossing.ALONG, 0.0, here, (places[0], places[1]))
    crossing = Crossing.DIAGONAL if diagonal else Crossing.ASKEW if skew >= LEAST_SKEW_DEG else Crossing.SQUARE
    return _stand(line, crossing, skew, here, (places[0], places[1]))


def along_stand(line: StandingLine, here: Point, outer_face_ft: float, plies_ft: float) -> Stand:
    """A strap of a truss that stands along its wall, its outer face so far in from the block's."""
    (ix, iy), (ux, uy), station = line.inward, line.direction, line.station_ft(here)
    foot = (line.origin_ft[0] + ux * station, line.origin_ft[1] + uy * station)
    places = []
    for face, depth in ((Side.INSIDE, outer_face_ft + plies_ft), (Side.OUTSIDE, outer_face_ft)):
        places.append(_place(line, face, (foot[0] + ix * depth, foot[1] + iy * depth)))
    return _stand(line, Crossing.ALONG, 0.0, here, (places[0], places[1]))


def _stand(line: StandingLine, crossing: Crossing, skew: float, here: Point, straps: tuple[Place, Place]) -> Stand:
    raw = line.station_ft(here)
    past = next((n for p in straps if (n := _past(line, line.station_ft(p.point_ft))) is not None), None)
    return Stand(
        member_crossing=crossing,
        crossing=Crossing.CORNER_BLOCK if straps[0].in_from_next_ft is not None else crossing,
        skew_deg=skew,
        station_ft=_corner_ft(line, raw) if crossing is Crossing.DIAGONAL else line.on_it_ft(raw),
        straps=straps,
        next_wall="" if past is None else past.name,
    )


def _corner_ft(line: StandingLine, station_ft: float) -> float:
    """The corner itself, by convention the station of what stands in it at 45 degrees. [ft]"""
    return 0.0 if station_ft < line.length_ft / 2.0 else line.length_ft


def _place(line: StandingLine, side: Side, point: Point) -> Place:
    raw = line.station_ft(point)
    beside = _past(line, raw)
    next_in = None if beside is None else -_along(beside.origin_ft, (beside.direction[1], -beside.direction[0]), point)
    on_wall = line.kind is CarrierKind.WALL
    return Place(
        side=side,
        point_ft=point,
        tape_ft=line.on_it_ft(raw),
        in_from_face_ft=_along(line.origin_ft, line.inward, point) if on_wall else None,
        in_from_next_ft=next_in,
    )


def _past(line: StandingLine, station_ft: float) -> NextWall | None:
    """The wall that meets a line at the end past which a station lies."""
    if not line.beside:
        return None
    if station_ft < -TIE_FT:
        return line.beside[0]
    return line.beside[1] if station_ft > line.length_ft + TIE_FT else None


def _way(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _along(origin: Point, direction: Point, point: Point) -> float:
    return (point[0] - origin[0]) * direction[0] + (point[1] - origin[1]) * direction[1]
