"""The wind on an L, sideways, worked out by hand: every case of the envelope procedure, its lines of walls, its drag.

The house of sideways_of_an_l_by_hand.py, 160 mph in Exposure C. Written from the design's text and the coefficients
alone; nothing of the program's is imported. Each of the two wings' rectangles counts as a building of its own, with a
and h of the whole house, and reads a wind by its own ridge. Where both claim a piece of the roof (their own hip roofs
are both the one that is seen there) the larger suction holds, with what pushes from below (read off the program
afterwards: the design does not say), where both claim a piece of wall the larger magnitude.

Sources: those of sideways_by_hand.py, whose coefficients these are.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from itertools import pairwise, product

import numpy as np
from numpy.typing import NDArray

from statics.polygons_by_hand import area_and_middle, clip
from statics.sideways_by_hand import CASE_2, GCPI, House
from statics.sideways_of_an_l_by_hand import (
    DEPTHS_FT,
    EAST,
    EAST_OF_WING,
    HIGH_FT,
    INSIDE_FT,
    LINES_FT,
    NORTH,
    NORTH_OF_WING,
    SLOPE,
    SOUTH,
    WEST,
)

Floats = NDArray[np.float64]
PLAIN = House(speed_mph=160.0, exposure="C")  # for q and load case 1 at the slope; h is under 15 ft here too
A_FT = 4.8  # a tenth of 48 ft, the least side of the rectangle around; 0.4 h is 5.63 ft
UPHILL = {"S": (0.0, 1.0), "E": (-1.0, 0.0), "N": (0.0, -1.0), "W": (1.0, 0.0)}
FACES = ((SOUTH, "S"), (NORTH, "N"), (NORTH_OF_WING, "N"), (WEST, "W"), (EAST, "E"), (EAST_OF_WING, "E"))
HEEL_FT, HALF_FT = 0.5, HIGH_FT - 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Wing:
    """A rectangle: corners and the axis of its ridge."""

    low: tuple[float, float]
    high: tuple[float, float]
    ridge: int

    def rise_ft(self, p: tuple[float, float]) -> float:
        """How far in from its nearest eave line a point is; the roof is as high as that, times the slope."""
        return min(min(p[k] - self.low[k], self.high[k] - p[k]) for k in (0, 1))


MAIN = Wing(low=(0, 0), high=(50, 28), ridge=0)
SIDE = Wing(low=(0, 0), high=(26, 48), ridge=1)
WINGS = (MAIN, SIDE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """Where the wind blows to, the low or high end across it, and whether a hip end is read by the commentary."""

    wind: str
    reference: str
    gcpi: float
    second: bool

    @property
    def axis(self) -> int:
        return "xy".index(self.wind[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Force:
    """A force at a place: `kind` wall (its upper half), heel or roof, the last with its face."""

    kind: str
    face: str
    x_ft: float
    y_ft: float
    fx_lb: float
    fy_lb: float


def cases() -> Iterator[Case]:
    """Every wind has both readings, since it blows along the ridge of one of the wings."""
    for wind, reference, gcpi, second in product(
        ("+x", "-x", "+y", "-y"), ("low", "high"), (GCPI, -GCPI), (False, True)
    ):
        yield Case(wind=wind, reference=reference, gcpi=gcpi, second=second)


def reading(wing: Wing, case: Case) -> int:
    """Load case 1 across the wing's ridge, 2 along it, 3 onto its hip end."""
    return 1 if case.axis != wing.ridge else 3 if case.second else 2


def _from(wing: Wing, p: float, axis: int, low: bool) -> float:
    return p - wing.low[axis] if low else wing.high[axis] - p


def roof_gcpf(wing: Wing, case: Case, p: tuple[float, float], face: str) -> float:
    w, o = case.axis, 1 - case.axis
    from_low, low_reference = case.wind[0] == "+", case.reference == "low"
    in_ft, aside_ft = _from(wing, p[w], w, from_low), _from(wing, p[o], o, low_reference)
    read, up = reading(wing, case), UPHILL[face]
    if read == 1:
        return _case_1(first=in_ft < (wing.high[w] - wing.low[w]) / 2, edge=aside_ft < 2 * A_FT)
    if read == 3 and up[w]:
        return _case_1(first=(up[w] > 0) == from_low, edge=aside_ft < 2 * A_FT)
    if read == 3:
        return _case_1(first=(up[o] > 0) == low_reference, edge=in_ft < 2 * A_FT)
    first = aside_ft < (wing.high[o] - wing.low[o]) / 2
    return CASE_2[("2" if first else "3") + ("E" if in_ft < 2 * A_FT else "")]


def pushed_from_below(wing: Wing, case: Case, p: tuple[float, float], face: str) -> float:
    """0.7 under the windward eave (sec. 28.3.5, fair) and, wind along the ridge, under that of the reference corner.

    It acts vertically; it is part of the suction by which one of two wings holds.
    """
    w, o, low_reference = case.axis, 1 - case.axis, case.reference == "low"
    windward = UPHILL[face][w] == (1.0 if case.wind[0] == "+" else -1.0)
    beside = UPHILL[face][o] == (1.0 if low_reference else -1.0) and _from(wing, p[o], o, low_reference) < 0
    return 0.7 if windward or (beside and reading(wing, case) != 1) else 0.0


def _case_1(*, first: bool, edge: bool) -> float:
    return PLAIN.gcpf_1(("2" if first else "3") + ("E" if edge else ""))


def wall_gcpf(wing: Wing, case: Case, face: str, along_ft: float) -> float:
    """Coefficient of the wall on that side of the wing, outside, at a place along it."""
    normal, w = (1 if face in "SN" else 0), case.axis
    from_low = case.wind[0] == "+"
    windward = UPHILL[face][w] > 0 if from_low else UPHILL[face][w] < 0
    if reading(wing, case) != 2:
        if normal != w:
            return PLAIN.gcpf_1("end")
        edge = _from(wing, along_ft, 1 - w, case.reference == "low") < 2 * A_FT
        return PLAIN.gcpf_1(("1" if windward else "4") + ("E" if edge else ""))
    if normal == w:
        edge = _from(wing, along_ft, 1 - w, case.reference == "low") < A_FT
        return CASE_2[("5" if windward else "6") + ("E" if edge else "")]
    return CASE_2["1E" if _from(wing, along_ft, w, from_low) < 2 * A_FT else "1"]


# Side of the house, its coordinate, from where to where along it, and the wings whose side it is there.
WALLS = (
    ("S", 0.0, 0.0, 26.0, WINGS),
    ("S", 0.0, 26.0, 50.0, (MAIN,)),
    ("E", 50.0, 0.0, 28.0, (MAIN,)),
    ("N", 28.0, 26.0, 50.0, (MAIN,)),
    ("E", 26.0, 28.0, 48.0, (SIDE,)),
    ("N", 48.0, 0.0, 26.0, (SIDE,)),
    ("W", 0.0, 0.0, 28.0, WINGS),
    ("W", 0.0, 28.0, 48.0, (SIDE,)),
)


def wall_forces(case: Case) -> Iterator[Force]:
    """The upper half and the heel of each wall, cut where any wing's strips end."""
    for face, at, low, high, wings in WALLS:
        axis = 0 if face in "SN" else 1
        ends = {end for w in wings for e in (A_FT, 2 * A_FT) for end in (w.low[axis] + e, w.high[axis] - e)}
        cuts = [low, *sorted(c for c in ends if low < c < high), high]
        for a, b in pairwise(cuts):
            middle = (a + b) / 2
            gcpf = max((wall_gcpf(w, case, face, middle) for w in wings), key=abs)
            psf = PLAIN.q_psf * (gcpf - case.gcpi)
            (ux, uy), (x, y) = UPHILL[face], ((middle, at) if axis == 0 else (at, middle))
            for kind, feet in (("wall", HALF_FT), ("heel", HEEL_FT)):
                lb = psf * (b - a) * feet
                yield Force(kind=kind, face=face, x_ft=x, y_ft=y, fx_lb=lb * ux, fy_lb=lb * uy)


def _lines() -> Iterator[tuple[float, float, float]]:
    """The lines nx x + ny y = limit along which a coefficient, a claim, a holder or the lever rule changes."""
    for wing in WINGS:
        for k, n in ((0, (1.0, 0.0)), (1, (0.0, 1.0))):
            low, high = wing.low[k], wing.high[k]
            for at in (low, low + 1, low + 7, low + 2 * A_FT, (low + high) / 2):
                yield (*n, at)
                yield (*n, low + high - at)
    for limit in (0.0, 22.0, -22.0):
        yield (1.0, -1.0, limit)
    for limit in (26.0, 28.0):
        yield (1.0, 1.0, limit)


@cache
def roof_parts() -> list[tuple[float, float, float, str]]:
    """(plan area, x, y, face) of the roof with its overhangs."""
    out = []
    for polygon, face in FACES:
        parts = [np.array(polygon, dtype=float)]
        for nx, ny, limit in _lines():
            halves = [clip(p, s * nx, s * ny, s * limit) for p in parts for s in (1.0, -1.0)]
            parts = [h for h in halves if len(h) > 2 and area_and_middle(h)[0] > 1e-9]
        out += [(*area_and_middle(p), face) for p in parts]
    return out


def roof_forces(case: Case) -> Iterator[Force]:
    """The roof's own horizontal part; over an overhang the top alone, for the underside acts vertically."""
    for area, x, y, face in roof_parts():
        high_ft = max(w.rise_ft((x, y)) for w in WINGS)
        claim = [w for w in WINGS if w.rise_ft((x, y)) > high_ft - 1e-9]
        inside = high_ft > 0
        found = [
            (roof_gcpf(w, case, (x, y), face), 0.0 if inside else pushed_from_below(w, case, (x, y), face))
            for w in claim
        ]
        gcpf, _ = min(found, key=lambda f: f[0] - f[1])
        lb = PLAIN.q_psf * (gcpf - (case.gcpi if inside else 0.0)) * SLOPE * area
        yield Force(kind="roof", face=face, x_ft=x, y_ft=y, fx_lb=lb * UPHILL[face][0], fy_lb=lb * UPHILL[face][1])


@cache
def forces(case: Case) -> list[Force]:
    return [*wall_forces(case), *roof_forces(case)]


def lines_and_drag_lb(pieces: list[Force], axis: str) -> tuple[tuple[float, float, float], float]:
    """The forces along an axis on its three lines, and the drag force at the inside corner, signed. [lb]"""
    at = LINES_FT[axis]
    low = mid_low = mid_high = high = 0.0
    for p in pieces:
        place, lb = (p.x_ft, p.fy_lb) if axis == "y" else (p.y_ft, p.fx_lb)
        k = 0 if place < at[1] else 1
        share = (place - at[k]) / (at[k + 1] - at[k])
        if k == 0:
            low, mid_low = low + lb * (1 - share), mid_low + lb * share
        else:
            mid_high, high = mid_high + lb * (1 - share), high + lb * share
    depth = DEPTHS_FT[axis]
    return (low, mid_low + mid_high, high), INSIDE_FT[axis] * (mid_low / depth[0] + mid_high / depth[1])


# Outside corners, each with the way in along x and along y.
OUTSIDE_CORNERS = ((0, 0, 1, 1), (50, 0, -1, 1), (50, 28, -1, -1), (26, 48, -1, -1), (0, 48, 1, -1))
HIP_GIRDERS_FT = {"E": 43.0, "W": 7.0, "N": 41.0}
CHORD_FT = 28.0  # along y = 28 ft, the shortest from the inside corner: trusses across the main wing end on it


def held_by_deck(p: Force) -> tuple[float, float]:
    """What of a force on the roof no member holds in its own plane at a wall.

    South of the chord the trusses run along y, from W1 to W3 or the chord; north of it along x. Jacks run up the hip
    ends as far as the hip girders, 7 ft in. The side wing's slope south of the chord is a valley set, whose push goes
    to the deck. A corner jack's square, to half a spacing in, keeps what is along its 45 degrees.
    """
    for x, y, sx, sy in OUTSIDE_CORNERS:
        if (p.x_ft - x) * sx < 1.0 and (p.y_ft - y) * sy < 1.0:
            along = (p.fx_lb * sx + p.fy_lb * sy) / 2
            return p.fx_lb - along * sx, p.fy_lb - along * sy
    if p.y_ft > CHORD_FT and p.x_ft < 26.0 + 2.0 and p.face != "N":
        return 0.0, 0.0
    if p.face == "N" and p.x_ft < 26.0 and p.y_ft > CHORD_FT:
        return (0.0, p.fy_lb) if p.y_ft < HIP_GIRDERS_FT["N"] else (0.0, 0.0)
    jack = (p.face == "W" and p.x_ft < HIP_GIRDERS_FT["W"]) or (p.face == "E" and p.x_ft > HIP_GIRDERS_FT["E"])
    return (0.0, 0.0) if jack or p.face in "SN" else (p.fx_lb, 0.0)


def under_tie_beam(pieces: list[Force]) -> list[Force]:
    """What the deck holds where the beam holds the walls: the heel's strip, and of the roof what no bearing holds."""
    out = []
    for p in pieces:
        if p.kind != "wall":
            fx, fy = held_by_deck(p) if p.kind == "roof" else (p.fx_lb, p.fy_lb)
            out.append(replace(p, fx_lb=fx, fy_lb=fy))
    return out
