"""The sideways wind on a rectangle, hip or gable, worked out by hand.

Written from the design's text and the standard's coefficients alone, with
nothing of the program's: no import from `framing`, and the load path's code was
read only after these figures stood. What was read off the program afterwards,
where the text leaves it open: lines stand at walls' outside faces; wind onto a
hip end takes its zones face by face. Walls are stretches of a
constant pressure, roof faces are polygons cut along the zones' limits; each
piece is a force at a point. ASD forces in pounds: 0.6 of the strength wind.

Sources: ASCE 7-22 fig. 28.3-1 for GCpf (two public files agree), table
26.10-1 with its footnote for Kz, table 26.13-1 for GCpi, eq. 26.10-1 and
28.3-1; end walls in load case 1 -0.45 from memory of older editions. The
least loads, 16 psf on walls and 8 psf on the roof's projection, from 28.3.6
(number in doubt). The path (who carries what) is the project's own design.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import pairwise, product

import numpy as np
from numpy.typing import NDArray

from statics.polygons_by_hand import area_and_middle, cells

Floats = NDArray[np.float64]
Vector = tuple[float, float]

# ASCE 7-22 fig. 28.3-1: load case 1 at 20 and at 30 degrees, load case 2. The
# walls along the wind in load case 1 are from memory of older editions.
CASE_1 = {
    "end": (-0.45, -0.45),
    **{"1": (0.53, 0.56), "2": (-0.69, 0.21), "3": (-0.48, -0.43), "4": (-0.43, -0.37)},
    **{"1E": (0.80, 0.69), "2E": (-1.07, 0.27), "3E": (-0.69, -0.53), "4E": (-0.64, -0.48)},
}
CASE_2 = {
    **{"1": -0.45, "2": -0.69, "3": -0.37, "4": -0.45, "5": 0.40, "6": -0.29},
    **{"1E": -0.48, "2E": -1.07, "3E": -0.53, "4E": -0.48, "5E": 0.61, "6E": -0.43},
}
GCPI = 0.18  # enclosed, table 26.13-1
ASD = 0.6
KD = 0.85
WALL_PSF, ROOF_PSF = 16.0, 8.0  # the least horizontal loads
SETBACK_FT = 7.0  # the hip girder's
OUTLOOKER_FT = 2.0  # the outlookers' backspan
MIDDLE_STRIP_FT = {False: (22.0, 24.0), True: (21.0, 23.0)}  # of a common truss at mid-length; True: gables


def velocity_psf(speed_mph: float, exposure: str) -> float:
    """The velocity pressure times K_d at or below 15 ft: C by the formula, B by footnote a's 0.70."""
    kz = {"B": 0.70, "C": 2.41 * (15.0 / 2460.0) ** (2.0 / 9.8)}[exposure]
    return 0.00256 * kz * speed_mph**2 * KD


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """A rectangle with its ridge along x; gables at its short ends where it has any."""

    length_ft: float = 46.0
    width_ft: float = 28.0
    gable: bool = False
    slope: float = 5.0 / 12.0
    overhang_ft: float = 2.0
    rake_ft: float = 1.0
    height_ft: float = 9.0 + 4.0 / 12.0
    heel_ft: float = 0.5
    speed_mph: float = 160.0
    exposure: str = "C"

    @property
    def a_ft(self) -> float:
        """Fig. 28.3-1 note: the least side is 28 ft, h is about 14 ft."""
        return max(min(0.1 * self.width_ft, 0.4 * 14.0), 0.04 * self.width_ft, 3.0)

    @property
    def q_psf(self) -> float:
        return ASD * velocity_psf(self.speed_mph, self.exposure)

    def gcpf_1(self, zone: str) -> float:
        """Load case 1, straight between 20 and 30 degrees."""
        at_20, at_30 = CASE_1[zone]
        theta_deg = np.degrees(np.arctan(self.slope))
        return float(at_20 + (at_30 - at_20) * (theta_deg - 20.0) / 10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A force at a place: `kind` wall (its upper half), heel, triangle or roof; `wall` the one it is on, or ''."""

    kind: str
    wall: str
    x_ft: float
    y_ft: float
    fx_lb: float
    fy_lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """`wind` is where it blows to; `reference` the low or high side across it."""

    wind: str
    reference: str
    gcpi: float
    reading: int  # 1, 2; 3 is the hip end by the commentary's rule


def cases(house: House) -> Iterator[Case]:
    for wind, reference, gcpi in product(("+x", "-x", "+y", "-y"), ("low", "high"), (GCPI, -GCPI)):
        readings = (1,) if wind[1] == "y" else (2,) if house.gable else (2, 3)
        for reading in readings:
            yield Case(wind=wind, reference=reference, gcpi=gcpi, reading=reading)


def near(value_ft: float, low: bool, limit_ft: float, span_ft: float) -> bool:
    """Is a place within `limit_ft` of the low (or high) end of a span?"""
    return value_ft < limit_ft if low else value_ft > span_ft - limit_ft


def wall_gcpf(house: House, case: Case, wall: str, along_ft: float) -> float:
    """External coefficient of W1..W4 (south, east, north, west)."""
    along_x = wall in ("W1", "W3")
    from_low = case.wind[0] == "+"
    blown_across = (case.wind[1] == "y") == along_x  # wind square to this wall
    windward = {"+y": "W1", "-y": "W3", "+x": "W4", "-x": "W2"}[case.wind]
    span_ft = house.length_ft if along_x else house.width_ft
    a_ft = house.a_ft
    if case.reading in (1, 3):
        if not blown_across:
            return house.gcpf_1("end")
        edge = near(along_ft, case.reference == "low", 2 * a_ft, span_ft)
        return house.gcpf_1(("1" if wall == windward else "4") + ("E" if edge else ""))
    if blown_across:
        edge = near(along_ft, case.reference == "low", a_ft, span_ft)
        return CASE_2[("5" if wall == windward else "6") + ("E" if edge else "")]
    edge = near(along_ft, from_low, 2 * a_ft, span_ft)
    return CASE_2["1E" if edge else "1"]  # zones 1 and 4 have the same figures


def roof_gcpf(house: House, case: Case, x_ft: float, y_ft: float, uphill: Vector) -> float:
    """External coefficient of the roof over a point, the gable's plan map.

    Reading 3, wind onto a hip end (commentary fig. C28.3-2, from memory): load
    case 1's figures; that hip end is zone 2, the far one 3, the side slopes
    as in load case 2.
    """
    edge_ft = 2 * house.a_ft
    from_low = case.wind[0] == "+"
    low_reference = case.reference == "low"
    if case.reading == 1:
        first = (y_ft < house.width_ft / 2) == from_low
        edge = near(x_ft, low_reference, edge_ft, house.length_ft)
        return house.gcpf_1(("2" if first else "3") + ("E" if edge else ""))
    if case.reading == 3:
        if uphill[0]:
            first = (uphill[0] > 0) == from_low
            edge = near(y_ft, low_reference, edge_ft, house.width_ft)
        else:
            first = (uphill[1] > 0) == low_reference
            edge = near(x_ft, from_low, edge_ft, house.length_ft)
        return house.gcpf_1(("2" if first else "3") + ("E" if edge else ""))
    first = (y_ft < house.width_ft / 2) == low_reference
    edge = near(x_ft, from_low, edge_ft, house.length_ft)
    return CASE_2[("2" if first else "3") + ("E" if edge else "")]


def stretches(house: House, span_ft: float) -> list[Vector]:
    """A wall's length cut at every limit of a zone, and at the ridge."""
    a = house.a_ft
    cuts = {0.0, a, 2 * a, span_ft / 2, span_ft - 2 * a, span_ft - a, span_ft}
    return list(pairwise(sorted(cuts)))


INWARD = {"W1": (0.0, 1.0), "W2": (-1.0, 0.0), "W3": (0.0, -1.0), "W4": (1.0, 0.0)}


def on_wall(house: House, wall: str, along_ft: float) -> Vector:
    length, width = house.length_ft, house.width_ft
    at = {"W1": (along_ft, 0.0), "W2": (length, along_ft), "W3": (along_ft, width), "W4": (0.0, along_ft)}
    return at[wall]


def wall_span(house: House, wall: str) -> float:
    return house.length_ft if wall in ("W1", "W3") else house.width_ft


def piece(kind: str, house: House, wall: str, middle_ft: float, force_lb: float) -> Piece:
    x, y = on_wall(house, wall, middle_ft)
    nx, ny = INWARD[wall]
    return Piece(kind=kind, wall=wall, x_ft=x, y_ft=y, fx_lb=force_lb * nx, fy_lb=force_lb * ny)


def wall_pieces(house: House, psf: Callable[[str, float], float]) -> Iterator[Piece]:
    """Upper half, heel strip and gable triangle of each wall, per stretch.

    `psf(wall, along_ft)`: the net pressure inward there.
    """
    for wall in INWARD:
        span = wall_span(house, wall)
        for low, high in stretches(house, span):
            p = psf(wall, (low + high) / 2)
            run, middle = high - low, (low + high) / 2
            yield piece("wall", house, wall, middle, p * run * house.height_ft / 2)
            yield piece("heel", house, wall, middle, p * run * house.heel_ft)
            if house.gable and wall in ("W2", "W4"):
                h0, h1 = (house.slope * min(s, span - s) for s in (low, high))
                area = run * (h0 + h1) / 2
                # The middle of a trapezium of heights h0 and h1.
                place = low + run * (h0 + 2 * h1) / (3 * (h0 + h1))
                yield piece("triangle", house, wall, place, p * area)


def faces(house: House) -> list[tuple[Floats, Vector]]:
    """Roof faces in plan, each with its horizontal uphill direction."""
    length, width, out = house.length_ft, house.width_ft, house.overhang_ft
    half = width / 2
    if house.gable:
        r = house.rake_ft
        south = [(-r, -out), (length + r, -out), (length + r, half), (-r, half)]
        north = [(-r, half), (length + r, half), (length + r, width + out), (-r, width + out)]
        return [(np.array(south), (0.0, 1.0)), (np.array(north), (0.0, -1.0))]
    corners = [(-out, -out), (length + out, -out), (length + out, width + out), (-out, width + out)]
    sw, se, ne, nw = corners
    west, east = (half, half), (length - half, half)
    return [
        (np.array([sw, se, east, west]), (0.0, 1.0)),
        (np.array([se, ne, east]), (-1.0, 0.0)),
        (np.array([ne, nw, west, east]), (0.0, -1.0)),
        (np.array([nw, sw, west]), (1.0, 0.0)),
    ]


@cache
def roof_parts(house: House) -> list[tuple[float, float, float, Vector]]:
    """(plan area, x, y, uphill) of the roof, cut wherever a pressure or a holder changes."""
    length, width, a = house.length_ft, house.width_ft, house.a_ft
    ends = (0.0, 1.0, OUTLOOKER_FT, 2 * a, SETBACK_FT)
    x_cuts = (*ends, 21.0, 22.0, length / 2, 24.0, *(length - e for e in ends))
    y_cuts = (*ends, width / 2, *(width - e for e in ends))
    return [
        (*area_and_middle(part), uphill) for polygon, uphill in faces(house) for part in cells(polygon, x_cuts, y_cuts)
    ]


def roof_piece(house: House, psf: float, area: float, x: float, y: float, uphill: Vector) -> Piece:
    push = psf * house.slope * area
    return Piece(kind="roof", wall="", x_ft=x, y_ft=y, fx_lb=push * uphill[0], fy_lb=push * uphill[1])


def roof_pieces(house: House, case: Case) -> Iterator[Piece]:
    """The roof's own horizontal part: pressure times slope times plan area.

    Inside the walls GCpf - GCpi; over an overhang the top's GCpf alone, the
    underside acts vertically.
    """
    for area, x, y, uphill in roof_parts(house):
        inside = 0 < x < house.length_ft and 0 < y < house.width_ft
        gcp = roof_gcpf(house, case, x, y, uphill) - (case.gcpi if inside else 0.0)
        yield roof_piece(house, gcp * house.q_psf, area, x, y, uphill)


@cache
def wind_pieces(house: House, case: Case) -> list[Piece]:
    def psf(wall: str, along_ft: float) -> float:
        return house.q_psf * (wall_gcpf(house, case, wall, along_ft) - case.gcpi)

    return [*wall_pieces(house, psf), *roof_pieces(house, case)]


@cache
def least_pieces(house: House, wind: str) -> list[Piece]:
    """0.6 x 16 psf on the windward wall, 0.6 x 8 psf on the roof's projection."""
    windward = {"+y": "W1", "-y": "W3", "+x": "W4", "-x": "W2"}[wind]
    pieces = [*wall_pieces(house, lambda wall, _: ASD * WALL_PSF if wall == windward else 0.0)]
    parts = [part for part in roof_parts(house) if part[3] == INWARD[windward]]
    pieces += [roof_piece(house, ASD * ROOF_PSF, *part) for part in parts]
    return pieces
