"""Wind -> pressure coefficients on every patch: main-frame cases and cladding zones.

Each wing's rectangle counts as a building of its own, with a and h of the whole house; where two wings claim
the same patch the larger suction holds (conservative).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter28 import OVERHANG_UNDERSIDE_GC_P, EnvelopeCoefficients
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Edition
from framing.roof.surface import Roof
from framing.roof.wings import OUTWARD, Wing, reach, side_line
from framing.walls.outline import TIE_FT
from framing.wind.patches import FLAT_DEG, MID_LENGTH_DEG, Bools, EdgeWidths, Floats, Patches

SIDES = (0, 1, 2, 3)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One main-frame wind pattern of the whole house.

    `from_side` is the side of the frame that the wind blows onto; `high_corner` says whether the reference
    corner is at the high end of that side's own axis; `reading` 0 is the figure's plain reading, 1 the second
    one where a wing has two (a square wing turned; wind onto a hip end by the commentary; mid-length zones up
    to 10 degrees). Source: ASCE 7-22, fig. 28.3-1 notes (every corner in turn, both load cases); the hip
    reading from memory of fig. C28.3-2.
    """

    from_side: int
    high_corner: bool
    reading: int


def patterns(roof: Roof, theta_deg: float) -> tuple[Pattern, ...]:
    """All patterns: four directions, two reference corners, and the second readings where they differ."""
    hips = any(not w.gable[2 * w.ridge_axis + k] for w in roof.wings for k in (0, 1))
    readings = (0, 1) if hips or theta_deg <= MID_LENGTH_DEG else (0,)
    return tuple(Pattern(from_side=s, high_corner=c, reading=r) for r in readings for s in SIDES for c in (False, True))


def envelope_coefficients(
    roof: Roof, patches: Patches, widths: EdgeWidths, edition: Edition, theta_deg: float, pattern: Pattern
) -> Floats:
    """GC_pf on every patch less that below windward overhangs and open porches; internal pressure not yet in. (n,)

    Source: ASCE 7-22, fig. 28.3-1 (solid) and sec. 28.3.5, number inferred (fair) for overhangs.
    """
    table, flat_table = edition.envelope(theta_deg), edition.envelope(0.0)
    out = np.full(len(patches.side), np.inf)
    for i, wing in enumerate(roof.wings):
        mine = patches.claims[:, i]
        if mine.any():
            values = _on_wing(wing, widths, i, patches, (table, flat_table), pattern)
            out = np.where(mine, np.minimum(out, values), out)
    return out


def _on_wing(
    wing: Wing,
    widths: EdgeWidths,
    index: int,
    patches: Patches,
    tables: tuple[EnvelopeCoefficients, EnvelopeCoefficients],
    pattern: Pattern,
) -> Floats:
    wind_axis = pattern.from_side // 2
    ridge = 1 - wing.ridge_axis if wing.square and pattern.reading else wing.ridge_axis
    if wind_axis != ridge:
        top = _across(wing, widths, index, patches, tables[0], pattern)
    elif pattern.reading and not wing.square and any(not wing.gable[2 * ridge + k] for k in (0, 1)):
        top = _onto_hip_end(wing, widths, patches, tables[0], pattern)
    elif pattern.reading and tables[0].theta_deg <= MID_LENGTH_DEG:
        top = _mid_length(wing, widths, patches, tables[1], pattern)
    else:
        top = _along(wing, widths, patches, tables[0], pattern)
    return top - OVERHANG_UNDERSIDE_GC_P * _loaded_overhang(wing, patches, pattern, along=wind_axis == ridge)


def from_windward_ft(wing: Wing, patches: Patches, from_side: int) -> Floats:
    """Distance in from the wing's wall line on the side that the wind blows onto. (n,) [ft]"""
    a, b, c = side_line(wing, from_side)
    out: Floats = a * patches.point_ft[:, 0] + b * patches.point_ft[:, 1] + c
    return out


def _from_corner(wing: Wing, patches: Patches, pattern: Pattern) -> Floats:
    """Distance, along the windward wall, from the wing's reference corner. (n,) [ft]"""
    axis = 1 - pattern.from_side // 2
    a, b, c = side_line(wing, 2 * axis + int(pattern.high_corner))
    out: Floats = a * patches.point_ft[:, 0] + b * patches.point_ft[:, 1] + c
    return out


def pushed_from_below(wing: Wing, patches: Patches, from_side: int) -> Bools:
    """What the wind pushes up from below: the eaves that face it, the rake past a gable that faces it, and the roof
    over a porch that is open on the side that it blows onto, taken as a deep overhang.

    Source: ASCE 7-22, sec. 28.3.5 and 27.3.3 (numbers inferred), for overhangs (fair); for porches inferred. Elsewhere
    a porch's underside takes 0: the suction there, which would hold its roof down, is left out (own choice, safe side).
    """
    faces_wind = (patches.side == from_side) | _faces(patches, from_side)
    if wing.gable[from_side]:
        faces_wind |= from_windward_ft(wing, patches, from_side) < 0
    out: Bools = (~patches.in_walls & faces_wind) | patches.open_below[:, from_side]
    return out


def _faces(patches: Patches, from_side: int) -> Bools:
    """Whether a slope faces the wind by 60 degrees or less: on right angles those of the windward side."""
    toward = -(patches.gradient @ np.array(OUTWARD[from_side]))
    out: Bools = toward > 0.5 * np.hypot(*patches.gradient.T)
    return out


def _loaded_overhang(wing: Wing, patches: Patches, pattern: Pattern, *, along: bool) -> Bools:
    """The windward overhangs and, in load case 2, the eaves at the reference corner (the published table for 5:12
    and over has it so: tests/published/test_irc_2018_r802_11.py) and the porches open on that corner's side.
    """
    out = pushed_from_below(wing, patches, pattern.from_side)
    if along:
        beside = 2 * (1 - pattern.from_side // 2) + int(pattern.high_corner)
        out |= ~patches.in_walls & (patches.side == beside) & (_from_corner(wing, patches, pattern) < 0)
        out |= patches.open_below[:, beside]
    return out


def _pick(table: EnvelopeCoefficients, load_case: int, in_2: Bools, in_end: Bools) -> Floats:
    """Zones 2, 3, 2E and 3E on the patches."""
    end = np.where(in_2, table.GC_pf(load_case, "2E"), table.GC_pf(load_case, "3E"))
    out: Floats = np.where(in_end, end, np.where(in_2, table.GC_pf(load_case, "2"), table.GC_pf(load_case, "3")))
    return out


def _across(
    wing: Wing, widths: EdgeWidths, index: int, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> Floats:
    """Load case 1: zone 2 on the windward half, 3 on the leeward; a suction of zone 2 reaches no farther in
    than its extent. End strips 2a from the reference corner.
    """
    axis = pattern.from_side // 2
    depth = from_windward_ft(wing, patches, pattern.from_side)
    windward = depth < wing.size_ft[axis] / 2.0
    in_end = _from_corner(wing, patches, pattern) < 2 * widths.a_ft
    near = depth < widths.zone_2_ft[index][axis]
    plain = _pick(table, 1, windward, in_end)
    cut = _pick(table, 1, windward & near, in_end)
    out: Floats = np.where(plain < 0, cut, plain)
    return out


def _along(wing: Wing, widths: EdgeWidths, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern) -> Floats:
    """Load case 2: zones 2 and 3 are the two slopes, 2 at the reference corner; end strip 2a at the windward end."""
    across = 1 - pattern.from_side // 2
    near_slope = _from_corner(wing, patches, pattern) < wing.size_ft[across] / 2.0
    return _pick(table, 2, near_slope, from_windward_ft(wing, patches, pattern.from_side) < 2 * widths.a_ft)


def _mid_length(
    wing: Wing, widths: EdgeWidths, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> Floats:
    """Wind along the ridge up to 10 degrees: theta = 0, zones 2 and 3 meet at mid-length."""
    axis = pattern.from_side // 2
    windward = from_windward_ft(wing, patches, pattern.from_side) < wing.size_ft[axis] / 2.0
    return _pick(table, 1, windward, _from_corner(wing, patches, pattern) < 2 * widths.a_ft)


def _onto_hip_end(
    wing: Wing, widths: EdgeWidths, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> Floats:
    """Wind onto a hip end, from memory of fig. C28.3-2: case 1 coefficients at the hip's pitch; the windward hip
    end is zone 2, the far one 3, the side slopes as in load case 2.
    """
    across = 1 - pattern.from_side // 2
    corner = _from_corner(wing, patches, pattern)
    onto, away = patches.side == pattern.from_side, patches.side == (pattern.from_side ^ 1)
    in_2 = onto | (~away & (corner < wing.size_ft[across] / 2.0))
    at_windward_end = from_windward_ft(wing, patches, pattern.from_side) < 2 * widths.a_ft
    in_end = np.where(onto | away, corner < 2 * widths.a_ft, at_windward_end)
    return _pick(table, 1, in_2, in_end)


def cladding_zones(
    roof: Roof, patches: Patches, widths: EdgeWidths, edition: Edition, theta_deg: float
) -> tuple[tuple[RoofForm, NDArray[np.str_], Bools], ...]:
    """For every wing and roof form that it may count as: the form, each patch's zone, and the patches claimed.

    A wing with one hip and one gable end counts as both; the larger suction holds.
    Source: ASCE 7-22, figs. 30.3-2A to 2G, zone maps (fair); strips measured from the outer edge of the overhang.
    """
    out = []
    over = (roof.overhang_ft, roof.rake_overhang_ft)
    for i, wing in enumerate(roof.wings):
        mine = patches.claims[:, i]
        if not mine.any():
            continue
        ends = [wing.gable[2 * wing.ridge_axis + k] for k in (0, 1)]
        forms = [f for f, there in ((RoofForm.GABLE, any(ends)), (RoofForm.HIP, not all(ends))) if there]
        for form in forms:
            zones = _zones_on(wing, patches, widths, edition, theta_deg, form, over)
            out.append((form, zones, mine))
    return tuple(out)


def _zones_on(
    wing: Wing,
    patches: Patches,
    widths: EdgeWidths,
    edition: Edition,
    theta_deg: float,
    form: RoofForm,
    overhangs: tuple[float, float],
) -> NDArray[np.str_]:
    x, y = patches.point_ft[:, 0], patches.point_ft[:, 1]
    x0, y0, x1, y1 = reach(wing, overhangs)
    edge = np.column_stack([x - x0, x1 - x, y - y0, y1 - y])  # from each outer edge
    if theta_deg <= FLAT_DEG:
        nearest = [edge[:, 2 * k : 2 * k + 2].min(axis=1) for k in (0, 1)]
        first, second = np.minimum(*nearest), np.maximum(*nearest)
        first, second = (np.where(patches.at_angled_eave, 0.0, d) for d in (first, second))
        return np.asarray(edition.flat_zone(first, second, widths.h_ft))
    a = widths.a_ft
    wall = np.array([side_line(wing, k) for k in range(4)])
    depth = wall[:, :1] * x + wall[:, 1:2] * y + wall[:, 2:]  # (4, n) from each wall
    none = np.zeros(len(x), dtype=bool)
    in_eave = reduce(np.logical_or, [edge[:, k] < a for k in wing.eave_sides], patches.at_angled_eave)
    in_rake = reduce(np.logical_or, [edge[:, k] < a for k in range(4) if wing.gable[k]], none)
    across = 2 * (1 - wing.ridge_axis)
    on_side_slope = patches.side // 2 != wing.ridge_axis
    from_eave = np.minimum(depth[across], depth[across + 1])
    in_ridge = on_side_slope & (from_eave > wing.half_width_ft - a - TIE_FT)
    in_hip = patches.at_angled_hip.copy()
    own = depth[patches.side, np.arange(len(x))]
    for k in wing.eave_sides:
        in_hip |= (patches.side // 2 != k // 2) & (depth[k] - own < a * np.sqrt(2.0))
    return np.asarray(
        edition.roof_zone(form, theta_deg, in_eave=in_eave, in_rake=in_rake, in_ridge=in_ridge, in_hip=in_hip)
    )


def cladding_coefficients(
    zoned: tuple[tuple[RoofForm, NDArray[np.str_], Bools], ...],
    patches: Patches,
    edition: Edition,
    theta_deg: float,
    areas_ft2: Floats,
    internal_ratio: float,
    h_over_B_ratio: float,
) -> Floats:
    """Net GC_p of every patch at effective wind areas (k,): suction less `internal_ratio` (GC_pi) where the house is
    enclosed, the overhang's own outside and over open porches. (k, n) negative lifts.

    Source: ASCE 7-22, eq. 30.3-1 and sec. 30.7 (fair; internal pressure on overhangs taken as 0; porches inferred).
    """
    out = np.full((len(areas_ft2), len(patches.side)), np.inf)
    known: dict[tuple[RoofForm, str], tuple[Floats, Floats]] = {}
    enclosed = patches.enclosed
    for form, zones, mine in zoned:
        for zone in set(zones[mine].tolist()):
            if (form, zone) not in known:
                _, suction = edition.roof_GC_p(form, theta_deg, zone, areas_ft2, h_over_B_ratio)
                outside = edition.overhang_GC_p(form, theta_deg, zone, areas_ft2, h_over_B_ratio)
                known[form, zone] = (suction - internal_ratio, outside)
            inside, outside = known[form, zone]
            at = np.flatnonzero(mine & (zones == zone))
            net = np.where(enclosed[at], inside[:, None], outside[:, None])
            out[:, at] = np.minimum(out[:, at], net)
    return out
