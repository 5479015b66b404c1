"""Wind -> pressure coefficients on every patch: main-frame cases and cladding zones.

Each wing's rectangle counts as a building of its own, with a and h of the whole house; where two wings claim
the same patch the larger suction holds (conservative).
"""

from __future__ import annotations

from functools import reduce

import numpy as np

from framing.asce7.chapter28 import EnvelopeCoefficients
from framing.asce7.chapter30 import is_flat
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Edition
from framing.frame_side import SIDES, FrameSide, sides_of
from framing.roof.surface import Roof
from framing.roof.wings import Wing, reach, side_line
from framing.tolerances import TIE_FT
from framing.wind.edge_widths import EdgeWidths
from framing.wind.patches import Bools, Floats, Ints, Patches
from framing.wind.patterns import Pattern, Reading, reading_of
from framing.wind.pressures import Coefficients, Names, coefficients

ZONE_NAME = "<U24"


def envelope_coefficients(
    roof: Roof, patches: Patches, widths: EdgeWidths, edition: Edition, theta_deg: float, pattern: Pattern
) -> Coefficients:
    """Zone, GC_pf and the coefficient below windward overhangs and open porches, on each patch those of the wing with
    the larger suction; internal pressure not yet in.

    Source: ASCE 7-22, fig. 28.3-1 (solid) and sec. 28.3.5, number inferred (fair) for overhangs.
    """
    n = len(patches.side)
    zone, outside, underside = np.full(n, "", dtype=ZONE_NAME), np.full(n, np.inf), np.zeros(n)
    for i, wing in enumerate(roof.wings):
        which, mine = patches.claimed_by(i)
        names, top, below = _on_wing(wing, widths, i, mine, edition, theta_deg, pattern)
        under = edition.overhang_underside_factor * below
        takes = top - under < outside[which] - underside[which]
        which = which[takes]
        zone[which], outside[which], underside[which] = names[takes], top[takes], under[takes]
    return coefficients(zone, outside, underside)


def _on_wing(
    wing: Wing,
    widths: EdgeWidths,
    index: int,
    patches: Patches,
    edition: Edition,
    theta_deg: float,
    pattern: Pattern,
) -> tuple[Names, Floats, Bools]:
    """Zone, GC_pf and what is pushed from below on the patches as if all were this wing's."""
    table, reading = edition.envelope(theta_deg), reading_of(wing, pattern, theta_deg)
    if reading is Reading.ACROSS:
        zone, top = _across(wing, widths, index, patches, table, pattern)
    elif reading is Reading.ONTO_HIP_END:
        zone, top = _onto_hip_end(wing, widths, patches, table, pattern)
    elif reading is Reading.MID_LENGTH:
        zone, top = _mid_length(wing, widths, patches, edition.envelope(0.0), pattern)
    else:
        zone, top = _along(wing, widths, patches, table, pattern)
    return zone, top, _loaded_overhang(wing, patches, pattern, along=reading is not Reading.ACROSS)


def _beside(pattern: Pattern) -> FrameSide:
    """The side along the wind that the reference corner lies on."""
    return sides_of(pattern.from_side.along)[pattern.high_corner]


def from_windward_ft(wing: Wing, patches: Patches, from_side: FrameSide) -> Floats:
    """Distance in from the wing's wall line on the side that the wind blows onto. (n,) [ft]"""
    a, b, c = side_line(wing, from_side)
    out: Floats = a * patches.point_ft[:, 0] + b * patches.point_ft[:, 1] + c
    return out


def _from_corner(wing: Wing, patches: Patches, pattern: Pattern) -> Floats:
    """Distance, along the windward wall, from the wing's reference corner. (n,) [ft]"""
    a, b, c = side_line(wing, _beside(pattern))
    out: Floats = a * patches.point_ft[:, 0] + b * patches.point_ft[:, 1] + c
    return out


def pushed_from_below(wing: Wing, patches: Patches, from_side: FrameSide) -> Bools:
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


def _faces(patches: Patches, from_side: FrameSide) -> Bools:
    """Whether a slope faces the wind by 60 degrees or less: on right angles those of the windward side."""
    toward = -(patches.gradient @ np.array(from_side.outward))
    out: Bools = toward > 0.5 * np.hypot(*patches.gradient.T)
    return out


def _loaded_overhang(wing: Wing, patches: Patches, pattern: Pattern, *, along: bool) -> Bools:
    """The windward overhangs and, in load case 2, the eaves at the reference corner (the published table for 5:12
    and over has it so: tests/published/test_irc_2018_r802_11.py) and the porches open on that corner's side.
    """
    out = pushed_from_below(wing, patches, pattern.from_side)
    if along:
        beside = _beside(pattern)
        out |= ~patches.in_walls & (patches.side == beside) & (_from_corner(wing, patches, pattern) < 0)
        out |= patches.open_below[:, beside]
    return out


def _pick(table: EnvelopeCoefficients, load_case: int, in_2: Bools, in_end: Bools) -> tuple[Names, Floats]:
    """Zones 2, 3, 2E and 3E on the patches, and their coefficients."""
    which = 2 * in_end + ~in_2
    zones = ("2", "3", "2E", "3E")
    names = np.array([f"{z}, load case {load_case}" for z in zones], dtype=ZONE_NAME)
    return names[which], np.array([table.GC_pf(load_case, z) for z in zones])[which]


def _across(
    wing: Wing, widths: EdgeWidths, index: int, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> tuple[Names, Floats]:
    """Load case 1: zone 2 on the windward half, 3 on the leeward; a suction of zone 2 reaches no farther in
    than its extent. End strips 2a from the reference corner.
    """
    axis = pattern.from_side.axis
    depth = from_windward_ft(wing, patches, pattern.from_side)
    windward = depth < wing.size_ft[axis] / 2.0
    in_end = _from_corner(wing, patches, pattern) < widths.end_zone_ft
    near = depth < widths.zone_2_ft[index][axis]
    zone, plain = _pick(table, 1, windward, in_end)
    cut_zone, cut = _pick(table, 1, windward & near, in_end)
    return np.where(plain < 0, cut_zone, zone), np.where(plain < 0, cut, plain)


def _along(
    wing: Wing, widths: EdgeWidths, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> tuple[Names, Floats]:
    """Load case 2: zones 2 and 3 are the two slopes, 2 at the reference corner; end strip 2a at the windward end."""
    across = pattern.from_side.along
    near_slope = _from_corner(wing, patches, pattern) < wing.size_ft[across] / 2.0
    return _pick(table, 2, near_slope, from_windward_ft(wing, patches, pattern.from_side) < widths.end_zone_ft)


def _mid_length(
    wing: Wing, widths: EdgeWidths, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> tuple[Names, Floats]:
    """Wind along the ridge up to 10 degrees: theta = 0, zones 2 and 3 meet at mid-length."""
    axis = pattern.from_side.axis
    windward = from_windward_ft(wing, patches, pattern.from_side) < wing.size_ft[axis] / 2.0
    return _pick(table, 1, windward, _from_corner(wing, patches, pattern) < widths.end_zone_ft)


def _onto_hip_end(
    wing: Wing, widths: EdgeWidths, patches: Patches, table: EnvelopeCoefficients, pattern: Pattern
) -> tuple[Names, Floats]:
    """Wind onto a hip end, from memory of fig. C28.3-2: case 1 coefficients at the hip's pitch; the windward hip
    end is zone 2, the far one 3, the side slopes as in load case 2.
    """
    across = pattern.from_side.along
    corner = _from_corner(wing, patches, pattern)
    onto, away = patches.side == pattern.from_side, patches.side == pattern.from_side.opposite
    in_2 = onto | (~away & (corner < wing.size_ft[across] / 2.0))
    at_windward_end = from_windward_ft(wing, patches, pattern.from_side) < widths.end_zone_ft
    in_end = np.where(onto | away, corner < widths.end_zone_ft, at_windward_end)
    return _pick(table, 1, in_2, in_end)


def cladding_zones(
    roof: Roof, patches: Patches, widths: EdgeWidths, edition: Edition, theta_deg: float
) -> tuple[tuple[RoofForm, Names, Ints], ...]:
    """For every wing and roof form that it may count as: the form, the zones of the patches that it claims, and which
    those are.

    A wing with one hip and one gable end counts as both; the larger suction holds.
    Source: ASCE 7-22, figs. 30.3-2A to 2G, zone maps (fair); strips measured from the outer edge of the overhang.
    """
    out = []
    over = (roof.overhang_ft, roof.rake_overhang_ft)
    for i, wing in enumerate(roof.wings):
        which, mine = patches.claimed_by(i)
        ends = [wing.gable[s] for s in wing.ends]
        forms = [f for f, there in ((RoofForm.GABLE, any(ends)), (RoofForm.HIP, not all(ends))) if there]
        for form in forms:
            zones = _zones_on(wing, mine, widths, edition, theta_deg, form, over)
            out.append((form, zones, which))
    return tuple(out)


def _zones_on(
    wing: Wing,
    patches: Patches,
    widths: EdgeWidths,
    edition: Edition,
    theta_deg: float,
    form: RoofForm,
    overhangs: tuple[float, float],
) -> Names:
    x, y = patches.point_ft[:, 0], patches.point_ft[:, 1]
    x0, y0, x1, y1 = reach(wing, overhangs)
    edge = np.column_stack([x - x0, x1 - x, y - y0, y1 - y])  # from each outer edge
    if is_flat(theta_deg):
        nearest = [edge[:, 2 * k : 2 * k + 2].min(axis=1) for k in (0, 1)]
        first, second = np.minimum(*nearest), np.maximum(*nearest)
        first, second = (np.where(patches.at_angled_eave, 0.0, d) for d in (first, second))
        return np.asarray(edition.flat_zone(first, second, widths.h_ft))
    a = widths.a_ft
    wall = np.array([side_line(wing, s) for s in SIDES])
    depth = wall[:, :1] * x + wall[:, 1:2] * y + wall[:, 2:]  # (4, n) from each wall
    none = np.zeros(len(x), dtype=bool)
    in_eave = reduce(np.logical_or, [edge[:, k] < a for k in wing.eave_sides], patches.at_angled_eave)
    in_rake = reduce(np.logical_or, [edge[:, s] < a for s in SIDES if wing.gable[s]], none)
    low, high = sides_of(1 - wing.ridge_axis)
    on_side_slope = patches.side // 2 != wing.ridge_axis
    from_eave = np.minimum(depth[low], depth[high])
    in_ridge = on_side_slope & (from_eave > wing.half_width_ft - a - TIE_FT)
    in_hip = patches.at_angled_hip.copy()
    own = depth[patches.side, np.arange(len(x))]
    for k in wing.eave_sides:
        in_hip |= (patches.side // 2 != k.axis) & (depth[k] - own < a * np.sqrt(2.0))
    return np.asarray(
        edition.roof_zone(form, theta_deg, in_eave=in_eave, in_rake=in_rake, in_ridge=in_ridge, in_hip=in_hip)
    )


def cladding_coefficients(
    zoned: tuple[tuple[RoofForm, Names, Ints], ...],
    patches: Patches,
    edition: Edition,
    theta_deg: float,
    areas_ft2: Floats,
    internal_ratio: float,
    h_over_B_ratio: float,
) -> tuple[Coefficients, ...]:
    """Zone and GC_p of every patch at effective wind areas (k,), of the wing and roof form with the larger suction net
    of `internal_ratio` (GC_pi): the roof's where the house is enclosed, the overhang's own, roof and soffit together,
    outside and over open porches. One for each area.

    Source: ASCE 7-22, eq. 30.3-1 and sec. 30.7 (fair; internal pressure on overhangs taken as 0; porches inferred).
    """
    n, enclosed = len(patches.side), patches.enclosed
    inside = np.where(enclosed, internal_ratio, 0.0)
    outside, which = np.full((len(areas_ft2), n), np.inf), np.zeros((len(areas_ft2), n), dtype=np.int16)
    known: dict[tuple[RoofForm, str], tuple[Floats, Floats]] = {}
    names: list[str] = []
    for form, zones, mine in zoned:
        for zone in set(zones.tolist()):
            if (form, zone) not in known:
                _, suction = edition.roof_GC_p(form, theta_deg, zone, areas_ft2, h_over_B_ratio)
                overhang = edition.overhang_GC_p(form, theta_deg, zone, areas_ft2, h_over_B_ratio)
                known[form, zone] = (suction, overhang)
            suction, overhang = known[form, zone]
            at = mine[zones == zone]
            here = np.where(enclosed[at], suction[:, None], overhang[:, None])
            takes = here - inside[at] < outside[:, at] - inside[at]
            outside[:, at] = np.where(takes, here, outside[:, at])
            which[:, at] = np.where(takes, len(names), which[:, at])
            names.append(f"{zone}, {form.value} roof")
    none, named = np.zeros(n), np.array(names)
    return tuple(
        Coefficients(names=named, of_patch=which[k], outside_factor=outside[k], underside_factor=none)
        for k in range(len(areas_ft2))
    )
