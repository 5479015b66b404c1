"""A house's framing as beams and forces for the frame solver, built from the layout and the faces alone.

Nothing of the program's own statics is used: the roof over each piece of plan is cut out by its faces, its
pressure resolved into a vertical part and a horizontal part downhill, and both set on the member that takes the
piece, at the piece's middle and at its height.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from shapely import get_parts
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as GroundPoint

from framing.members import Framing, Member, MidBearing, Tributary
from framing.plan import Point
from framing.roof.surface import Face, Roof, own_height_ft
from framing.run import Run
from framing.walls.outline import Outline
from statics.frame_model import Beam, Load, Seat, seat_forces_of_cases_lb

Pressure = Callable[[Face], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """What the model is built from."""

    outline: Outline
    roof: Roof
    framing: Framing

    def plane(self, face: Face) -> np.ndarray:
        """a, b, c of a face's height a x + b y + c above the roof plane over the walls' outside faces, in the frame."""
        corners = np.array([(*self.outline.frame.to_local((x, y)), 1.0) for x, y, _ in face.ring_ft])
        heights = np.array([z for _, _, z in face.ring_ft]) - self.roof.heel_ft
        return np.linalg.lstsq(corners, heights, rcond=None)[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """The roof over a piece of plan that one member takes, under one face.

    `ways` is the direction along which its place on the member is measured where that is not the member's own.
    """

    tributary: Tributary
    face: Face
    centre_ft: Point
    area_ft2: float
    ways: Point | None
    polygon: Polygon | None = None


def bearing_forces_lb(house: House, pressure_psf: Pressure, *, heel: bool, lifted: bool = False) -> np.ndarray:
    """What every bearing, and after them every rest, receives from outward pressures by face, positive up, by the
    frame solver; `lifted` leaves out the supports that only push.

    With `heel` the part in a member's plane pushes at its height above the roof plane over the bearing line (the
    height of the heel itself is left out, as in the closed forms of practice); without, the deck holds it where it
    acts. A valley piece drops its vertical part only. What lies on a gable end's strip is carried by an outlooker
    over the wall to the first truss inside.
    """
    pieces = list(_pieces(house))
    force_lb = np.array([pressure_psf(piece.face) * piece.area_ft2 for piece in pieces])
    return of_cases_lb(house, pieces, [(force_lb, heel)], lifted=lifted)[:, 0]


def of_cases_lb(
    house: House, pieces: Sequence[Piece], cases: Sequence[tuple[np.ndarray, bool]], *, lifted: bool = False
) -> np.ndarray:
    """What every bearing receives in every case, each a vertical force on every piece [lb] and whether its horizontal
    part pushes at its height. (n_bearings, n_cases)
    """
    framing = house.framing
    beams = [_beam(framing, member, lifted=lifted) for member in framing.members if member.paths]
    stands = {(m.name, n): path.bearing for m in framing.members for n, path in enumerate(m.paths)}
    for m in framing.members:
        for n, mid in enumerate(_standing_on(framing, m, lifted=lifted), start=2):
            stands[m.name, n] = mid.bearing
    loads: list[list[Load]] = [[] for _ in cases]
    found = np.zeros((len(framing.bearings) + len(framing.rests), len(cases)))
    for n, piece in enumerate(pieces):
        member = framing.members[piece.tributary.owner]
        valley = _is_valley(house, piece)
        if member.paths:
            spots = [
                [_load(house, member, piece, at, share, push=heel and not valley) for heel in (False, True)]
                for at, share in _spread(member, piece)
            ]
        elif piece.tributary.lever is None:  # over the gable wall itself, or where no outlooker reaches
            found[piece.tributary.bearing] += [force_lb[n] for force_lb, _ in cases]
            continue
        else:
            spots = []
            for k, (at, share) in enumerate(_spread(framing.members[piece.tributary.lever.inside], piece)):
                beam = _outlooker(f"outlooker {n}.{k}", framing, piece, at)
                beams.append(beam)
                spots.append([Load(beam=beam.name, at_ft=beam.distance_ft(at), up_lb=share)] * 2)
                stands[beam.name, 0] = piece.tributary.bearing
        for case, (force_lb, heel) in zip(loads, cases, strict=True):
            lb = float(force_lb[n])
            case += [replace(u[heel], up_lb=lb * u[heel].up_lb, along_lb=lb * u[heel].along_lb) for u in spots]
    for seat, received_lb in seat_forces_of_cases_lb(beams, loads).items():
        if stands.get(seat) is not None:
            found[stands[seat]] += received_lb
    return found


def _beam(framing: Framing, member: Member, *, lifted: bool) -> Beam:
    """A spanning member on its bearings, its two ends first, hung on the members that carry it."""
    ends = [
        Seat(at_ft=at, on=None if path.carrier is None else framing.members[path.carrier].name)
        for at, path in zip((0.0, member.span_ft), member.paths, strict=True)
    ]
    between = [Seat(at_ft=mid.at_ft) for mid in _standing_on(framing, member, lifted=lifted)]
    seats = (*ends, *between)
    return Beam(name=member.name, start_ft=member.frame_ft[0], end_ft=member.frame_ft[1], seats=seats)


def _standing_on(framing: Framing, member: Member, *, lifted: bool) -> list[MidBearing]:
    """The supports that a member runs on over; lifted, only those that hold it down."""
    return [mid for mid in member.between if not lifted or mid.bearing < len(framing.bearings)]


def _outlooker(name: str, framing: Framing, piece: Piece, at_ft: Point) -> Beam:
    """A beam across the gable wall to the truss inside, at a place along the wall."""
    lever = piece.tributary.lever
    inside, axis, gable_ft, inside_ft = lever.inside, lever.axis, lever.gable_ft, lever.inside_ft
    across = at_ft[1 - axis]
    ends = [(at, across) if axis == 0 else (across, at) for at in (gable_ft, inside_ft)]
    seats = (Seat(at_ft=0.0), Seat(at_ft=abs(inside_ft - gable_ft), on=framing.members[inside].name))
    return Beam(name=name, start_ft=ends[0], end_ft=ends[1], seats=seats)


def _spread(member: Member, piece: Piece) -> list[tuple[Point, float]]:
    """Where a piece's force stands on its member and the parts of it. On two bearings: all at the piece's middle. On
    more: slice by slice between the piece's own corners and the bearings, at Gauss points along the member, each at
    the middle of the piece's breadth there (exact for a breadth that varies evenly times a cubic).
    """
    if not member.between:
        return [(piece.centre_ft, 1.0)]
    (x0, y0), (x1, y1) = member.frame_ft
    ways = np.array(piece.ways or ((x1 - x0) / member.span_ft, (y1 - y0) / member.span_ft))
    size = float(np.hypot(*ways))
    along, out = ways / size, []
    aside = np.array([-along[1], along[0]]) * 1e3
    corners = np.array([p for part in get_parts(piece.polygon) for p in part.exterior.coords])
    places = (corners - (x0, y0)) @ along
    stops = {*places.round(9), *(mid.at_ft / size for mid in member.between)}
    stops = sorted(s for s in stops if places.min() - 1e-9 <= s <= places.max() + 1e-9)
    nodes, weights = np.polynomial.legendre.leggauss(3)
    for low, high in pairwise(stops):
        for node, weight in zip(nodes, weights, strict=True):
            at = np.array((x0, y0)) + along * ((low + high) / 2 + node * (high - low) / 2)
            breadth = piece.polygon.intersection(LineString([at - aside, at + aside]))
            if breadth.length > 0:
                share = breadth.length * weight * (high - low) / 2 / piece.polygon.area
                out.append(((breadth.centroid.x, breadth.centroid.y), share))
    return out


def _load(house: House, member: Member, piece: Piece, at_ft: Point, force_lb: float, *, push: bool) -> Load:
    """A part of a piece's force on its member; the horizontal part points downhill."""
    (x0, y0), (x1, y1) = member.frame_ft
    along = ((x1 - x0) / member.span_ft, (y1 - y0) / member.span_ft)
    ways, (x, y) = piece.ways or along, at_ft
    a, b, c = house.plane(piece.face)
    over_bearing_ft = house.roof.rise_per_run * house.outline.walls[0].thickness_ft / 2
    return Load(
        beam=member.name,
        at_ft=(x - x0) * ways[0] + (y - y0) * ways[1],
        up_lb=force_lb,
        along_lb=-force_lb * (a * along[0] + b * along[1]) if push else 0.0,
        height_ft=a * x + b * y + c - over_bearing_ft,
    )


def _pieces(house: House) -> Iterator[Piece]:
    """Each piece of plan under one face, cut at the bearing line where it matters on which side a piece lies."""
    walls = Polygon(house.outline.local_ft)
    between_bearings = walls.buffer(-house.outline.walls[0].thickness_ft / 2, join_style="mitre")
    for tributary in house.framing.tributaries:
        ring = Polygon(tributary.ring_ft)
        ring = ring.intersection(walls) if not tributary.outward else ring.difference(walls)
        for face in house.roof.faces:
            if tributary.outward and face.side not in tributary.outward:
                continue
            polygon = ring.intersection(face.in_frame)
            parts = [(polygon, None)]
            if tributary.measure is not None:
                inside, outside = polygon.intersection(between_bearings), polygon.difference(between_bearings)
                parts = [(inside, tributary.measure), (outside, None)]
            for part, ways in parts:
                if part.area > 1e-9:
                    centre = (part.centroid.x, part.centroid.y)
                    yield Piece(
                        tributary=tributary,
                        face=face,
                        centre_ft=centre,
                        area_ft2=part.area,
                        ways=ways,
                        polygon=part,
                    )


def pieces_of_run(run: Run) -> tuple[House, list[Piece]]:
    """The run's own pieces, by their places alone: the face over each and its plane are found afresh."""
    house = House(outline=run.outline, roof=run.roof, framing=run.framing)
    walls = Polygon(run.outline.local_ft)
    between_bearings = walls.buffer(-run.outline.walls[0].thickness_ft / 2, join_style="mitre")
    out = []
    for patch, tributary, area_ft2, (x, y) in zip(
        run.pieces.patch, run.pieces.tributary, run.pieces.area_ft2, run.pieces.centre_ft, strict=True
    ):
        inside = GroundPoint(run.patches.point_ft[patch])
        face = min(run.roof.faces, key=lambda f: f.in_frame.distance(inside))
        taken = run.framing.tributaries[tributary]
        ways = taken.measure if between_bearings.contains(inside) else None
        centre = (float(x), float(y))
        out.append(Piece(tributary=taken, face=face, centre_ft=centre, area_ft2=float(area_ft2), ways=ways))
    return house, out


def _is_valley(house: House, piece: Piece) -> bool:
    """Whether a piece lies inside the walls, above the roof of the wing that the trusses there are shaped to."""
    roof, (x, y) = house.roof, piece.centre_ft
    overhangs = (roof.overhang_ft, roof.rake_overhang_ft)
    wing, at = roof.wing(piece.tributary.wing), np.array([(x, y)])
    own = own_height_ft(wing, overhangs, roof.rise_per_run, at, piece.tributary.open_sides)
    a, b, c = house.plane(piece.face)
    inside = Polygon(house.outline.local_ft).contains(GroundPoint(piece.centre_ft))
    return inside and -np.inf < float(own[0]) < a * x + b * y + c - 1e-6
