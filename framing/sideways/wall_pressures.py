"""Wind -> main-frame coefficients on the walls, read as the roof over them reads the case.

Each wing's rectangle counts as a building of its own, with a and h of the whole house; where two wings claim a part of
a wall the larger magnitude holds. A wall on no wing's side (at an angle, behind a porch) takes the severest wing's end
zone (own choice, safe side). The walls' q is taken at h, the windward wall's too (own choice, safe side).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter27 import C_P_SIDE_WALL, C_P_WINDWARD_WALL, C_p_leeward_wall, G
from framing.asce7.chapter28 import END_WALL_GC_PF, EnvelopeCoefficients
from framing.asce7.edition import Edition
from framing.frame_side import SIDES, FrameSide, sides_of
from framing.roof.surface import Roof
from framing.roof.wings import Wing
from framing.sideways.wall_parts import WallParts
from framing.wind.edge_widths import EdgeWidths
from framing.wind.patches import Bools, Floats
from framing.wind.patterns import DirectionalPattern, Pattern, Reading, reading_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class WallCoefficients:
    """One wind on n parts of walls: each part's `zone`, and GC_pf or G C_p there (`outside_factor`, toward the wall
    positive). Both (n,); internal pressure not yet in.
    """

    zone: NDArray[np.str_]
    outside_factor: Floats


Tables = tuple[EnvelopeCoefficients, EnvelopeCoefficients]
Zoned = tuple[str, float]
# Where on the parts which zone of a wing's side holds, the later over the first.
OnSide = Callable[[Wing, FrameSide], list[tuple[Bools, Zoned]]]


def wall_tables(code: Edition, theta_deg: float) -> Tables:
    """The figure at the roof's slope, and at 0 degrees.

    Source: ASCE 7-22, fig. 28.3-1 (solid).
    """
    return code.envelope(theta_deg), code.envelope(0.0)


def wall_coefficients(
    roof: Roof,
    parts: WallParts,
    widths: EdgeWidths,
    tables: Tables,
    pattern: Pattern | DirectionalPattern,
) -> WallCoefficients:
    """The coefficients of one wind on the walls.

    Source: ASCE 7-22, fig. 28.3-1 (solid; walls along the wind in load case 1 from memory) and fig. 27.3-1 (solid).
    """

    def on_side(wing: Wing, side: FrameSide) -> list[tuple[Bools, Zoned]]:
        if isinstance(pattern, DirectionalPattern):
            return _directional(parts, wing, side, pattern)
        return _envelope(parts, wing, side, widths, tables, pattern)

    return _largest(roof, parts, on_side)


def _largest(roof: Roof, parts: WallParts, on_side: OnSide) -> WallCoefficients:
    """The larger magnitude of all wings and sides that a part counts for."""
    n = len(parts.wall)
    names, values = [""], [0.0]
    of_part = np.zeros(n, dtype=np.int64)
    for i, wing in enumerate(roof.wings):
        for side in SIDES:
            mine = parts.claims[:, i] & parts.faces[:, side]
            if not mine.any():
                continue
            here = np.zeros(n, dtype=np.int64)
            for where, (zone, value) in on_side(wing, side):
                names.append(zone)
                values.append(value)
                here[where] = len(names) - 1
            size = np.abs(np.array(values))
            of_part = np.where(mine & (size[here] > size[of_part]), here, of_part)
    return WallCoefficients(zone=np.array(names)[of_part], outside_factor=np.array(values)[of_part])


def _envelope(
    parts: WallParts,
    wing: Wing,
    side: FrameSide,
    widths: EdgeWidths,
    tables: Tables,
    pattern: Pattern,
) -> list[tuple[Bools, Zoned]]:
    """The zones of one side of a wing: end strips 2a wide, those of the walls across the wind in load case 2 a."""
    reading = reading_of(wing, pattern, tables[0].theta_deg)
    load_case = 2 if reading is Reading.ALONG else 1
    table = tables[reading is Reading.MID_LENGTH]
    everywhere = np.ones(len(parts.wall), dtype=bool)
    across_wind = side.axis == pattern.from_side.axis
    if load_case == 1 and not across_wind:
        return [(everywhere, (f"wall along the wind, {reading}", END_WALL_GC_PF))]
    if across_wind:
        windward = side == pattern.from_side
        zone = ("1", "4")[not windward] if load_case == 1 else ("5", "6")[not windward]
        end = sides_of(side.along)[pattern.high_corner]
    else:
        beside = sides_of(pattern.from_side.along)[pattern.high_corner]
        zone, end = "1" if side == beside else "4", pattern.from_side
    wide = widths.a_ft if zone in ("5", "6") else widths.end_zone_ft
    from_end = np.abs(parts.middle_ft[:, end.axis] - wing.side_ft(end))
    in_end = (from_end < wide) | ~parts.on_wing
    return [
        (~in_end, (f"{zone}, {reading}", table.GC_pf(load_case, zone))),
        (in_end, (f"{zone}E, {reading}", table.GC_pf(load_case, f"{zone}E"))),
    ]


def _directional(
    parts: WallParts, wing: Wing, side: FrameSide, pattern: DirectionalPattern
) -> list[tuple[Bools, Zoned]]:
    """The windward, leeward and side walls of a wing."""
    everywhere = np.ones(len(parts.wall), dtype=bool)
    if side == pattern.from_side:
        found = ("windward wall", G * C_P_WINDWARD_WALL)
    elif side == pattern.from_side.opposite:
        axis = side.axis
        L_over_B = wing.size_ft[axis] / wing.size_ft[1 - axis]
        found = ("leeward wall", G * float(C_p_leeward_wall(L_over_B)))
    else:
        found = ("side wall", G * C_P_SIDE_WALL)
    return [(everywhere, found)]
