"""A house's framing as beams and forces for the frame solver, built from the layout and the faces alone.

Nothing of the program's own statics is used: the roof over each piece of plan is cut out by its faces, its
pressure resolved into a vertical part and a horizontal part downhill, and both set on the member that takes the
piece, at the piece's middle and at its height.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

import numpy as np
from shapely.geometry import Polygon

from framing.members import Framing, Member
from framing.outline import Outline
from framing.roof import Face, Roof, own_height_ft
from statics.frame_model import Beam, Load, Seat

DOWNHILL = ((-1.0, 0.0), (1.0, 0.0), (0.0, -1.0), (0.0, 1.0))
Pressure = Callable[[Face], float]


def beams_of(framing: Framing) -> list[Beam]:
    """Every spanning member as a beam between its two bearings, hung on the members that carry it."""
    return [
        Beam(
            name=member.name,
            start_ft=member.frame_ft[0],
            end_ft=member.frame_ft[1],
            seats=tuple(
                Seat(at_ft=at, on=None if path.carrier is None else framing.members[path.carrier].name)
                for at, path in zip((0.0, member.span_ft), member.paths, strict=True)
            ),
        )
        for member in framing.members
        if member.paths
    ]


def loads_of(roof: Roof, framing: Framing, outline: Outline, pressure_psf: Pressure, *, heel: bool) -> list[Load]:
    """Outward pressures, by face, as forces on the members.

    With `heel` the part in the member's plane pushes at its height above the roof plane over the bearing line
    (the height of the heel itself is left out, as in the closed forms of practice); without, the deck holds it
    where it acts. A valley piece, inside the walls and above the member's own wing, drops its vertical part only.
    """
    loads = []
    thickness_ft = outline.walls[0].thickness_ft
    for member, face, piece, measure in _pieces(roof, framing, outline):
        centre = (piece.centroid.x, piece.centroid.y)
        force_lb = pressure_psf(face) * piece.area
        (x0, y0), (x1, y1) = member.frame_ft
        along = ((x1 - x0) / member.span_ft, (y1 - y0) / member.span_ft)
        down = DOWNHILL[face.side]
        push = force_lb * roof.rise_per_run * (down[0] * along[0] + down[1] * along[1])
        height = _height_ft(face, outline, centre) - roof.heel_ft
        own = own_height_ft(
            roof.wing(member.wing), (roof.overhang_ft, roof.rake_overhang_ft), roof.rise_per_run, np.array([centre])
        )
        inside = Polygon(outline.local_ft).contains(piece.centroid)
        valley = inside and -np.inf < float(own[0]) < height - 1e-6
        at = (centre[0] - x0) * (measure or along)[0] + (centre[1] - y0) * (measure or along)[1]
        loads.append(
            Load(
                beam=member.name,
                at_ft=at,
                up_lb=force_lb,
                along_lb=push if heel and not valley else 0.0,
                height_ft=height - roof.rise_per_run * thickness_ft / 2,
            )
        )
    return loads


def _pieces(
    roof: Roof, framing: Framing, outline: Outline
) -> Iterator[tuple[Member, Face, Polygon, tuple[float, float] | None]]:
    """Each piece of plan under one face, cut at the bearing line, with the direction that replaces the member's."""
    walls = Polygon(outline.local_ft)
    between_bearings = walls.buffer(-outline.walls[0].thickness_ft / 2, join_style="mitre")
    for tributary in framing.tributaries:
        ring = Polygon(tributary.ring_ft)
        ring = ring.intersection(walls) if tributary.outward is None else ring.difference(walls)
        for face in roof.faces:
            if tributary.outward is not None and tributary.outward not in {-1, face.side}:
                continue
            piece, member = ring.intersection(face.in_frame), framing.members[tributary.owner]
            for part, measure in (
                (piece.intersection(between_bearings), tributary.measure),
                (piece.difference(between_bearings), None),
            ):
                if part.area > 1e-9:
                    yield member, face, part, measure


def _height_ft(face: Face, outline: Outline, centre_ft: tuple[float, float]) -> float:
    """Height of a face's plane above the top of the tie beam at a point of the frame."""
    corners = np.array([(*outline.frame.to_local((x, y)), 1.0) for x, y, _ in face.ring_ft])
    heights = np.array([z for _, _, z in face.ring_ft])
    a, b, c = np.linalg.lstsq(corners, heights, rcond=None)[0]
    return float(a * centre_ft[0] + b * centre_ft[1] + c)
