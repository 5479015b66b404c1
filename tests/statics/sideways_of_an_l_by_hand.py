"""The least horizontal loads on an L, worked out by hand: lines of walls, and the drag force at the inside corner.

50 ft by 28 ft with a wing 26 ft wide that reaches 20 ft farther; a hip roof at 5:12 with 2 ft of overhang; 9 ft 4 in.
of wall and 6 in. of heel. Written from the design's text alone, nothing of the program's is imported: the roof's faces
are the upper envelope of the two wings' hip roofs, drawn by hand; the deck spans from line to line (lever rule); a line
that stands on part of the depth only gathers along the rest of it the unit shears of the deck on both its sides.

Source: ASCE 7-22, sec. 28.3.6 (number inferred): 16 psf on walls with 8 psf on the roof's projection; 0.6 W by ASD.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from statics.polygons_by_hand import area_and_middle, clip

Floats = NDArray[np.float64]
CORNERS = ((0, 0), (50, 0), (50, 28), (26, 28), (26, 48), (0, 48))
WALL_PSF, ROOF_PSF, SLOPE = 0.6 * 16.0, 0.6 * 8.0, 5.0 / 12.0
HIGH_FT = (9.0 + 4.0 / 12.0) / 2.0 + 0.5  # upper half and heel
# Lines along y: at x = 0, 26, 50 ft; along x: at y = 0, 28, 48 ft. Then the deck's depth on either side of the middle
# line, and how much of that line is inside the house, without a wall.
LINES_FT = {"y": (0.0, 26.0, 50.0), "x": (0.0, 28.0, 48.0)}
DEPTHS_FT = {"y": (48.0, 28.0), "x": (50.0, 26.0)}
INSIDE_FT = {"y": 28.0, "x": 26.0}
# Walls that the wind blows onto, as stretches along the wall; the roof's faces that rise with it.
WALLS_FT = {"+y": ((0, 50),), "-y": ((26, 50), (0, 26)), "+x": ((0, 48),), "-x": ((0, 28), (28, 48))}
SOUTH = ((-2, -2), (52, -2), (36, 14), (14, 14))
NORTH = ((52, 30), (28, 30), (13, 15), (14, 14), (36, 14))
NORTH_OF_WING = ((28, 50), (-2, 50), (13, 35))
WEST = ((-2, 50), (-2, -2), (14, 14), (13, 15), (13, 35))
EAST = ((52, -2), (52, 30), (36, 14))
EAST_OF_WING = ((28, 30), (28, 50), (13, 35), (13, 15))
FACES = {"+y": (SOUTH,), "-y": (NORTH, NORTH_OF_WING), "+x": (WEST,), "-x": (EAST, EAST_OF_WING)}


def forces(wind: str) -> list[tuple[float, float]]:
    """(place on the other axis, force) of every piece between two lines. [ft, lb]"""
    along = wind[1]
    k = 0 if along == "y" else 1  # the coordinate that the lever rule reads
    middle_ft = LINES_FT[along][1]
    out = []
    for low, high in WALLS_FT[wind]:
        cuts = [low, middle_ft, high] if low < middle_ft < high else [low, high]
        out += [((a + b) / 2, WALL_PSF * HIGH_FT * (b - a)) for a, b in pairwise(cuts)]
    for face in FACES[wind]:
        for sign in (1.0, -1.0):
            n = (sign, 0.0) if k == 0 else (0.0, sign)
            part = clip(np.array(face, dtype=float), *n, sign * middle_ft)
            if len(part) > 2:
                area, *place = area_and_middle(part)
                out.append((place[k], ROOF_PSF * SLOPE * area))
    return out


def lines_and_drag_lb(wind: str) -> tuple[tuple[float, float, float], float]:
    """The force on each of the three lines along the wind, and the drag force at the inside corner. [lb]"""
    along = wind[1]
    at = LINES_FT[along]
    low = mid_low = mid_high = high = 0.0
    for place, force in forces(wind):
        if place < at[1]:
            share = (place - at[0]) / (at[1] - at[0])
            low, mid_low = low + force * (1 - share), mid_low + force * share
        else:
            share = (place - at[1]) / (at[2] - at[1])
            mid_high, high = mid_high + force * (1 - share), high + force * share
    depth = DEPTHS_FT[along]
    drag = INSIDE_FT[along] * (mid_low / depth[0] + mid_high / depth[1])
    return (low, mid_low + mid_high, high), drag
