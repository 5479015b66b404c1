"""Framing + wind -> what pushes each bearing sideways, along its wall and square to it.

Square to the wall: the wall's own components-and-cladding pressure, zone 4 or 5 at its place, on half the wall's
height over the bearing's strip; on the wall between a porch and the rooms zone 5 everywhere. Along the wall: the
roof's own share. Wind in each of the two directions of the house puts a main-frame force on the roof, which hands it
to the walls that run with the wind, the same on every foot of them: the velocity pressure at h times the windward and
leeward coefficients together on the roof's silhouette from the tie beam up, the severest zone's values everywhere;
never less than 8 psf of it, 16 psf where a gable faces the wind. The wind on the upper half of the walls is not in
it: the tie beam carries that to the cross walls; where the engineer of record hangs the walls' tops on the roof, the
push along the wall is larger.
Source: own derivation: tests/statics/test_lateral.py.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import Polygon

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter30 import LEAST_NET_PRESSURE_PSF, effective_wind_area_ft2
from framing.asce7.edition import Procedure, edition
from framing.members import Framing, Member, MemberKind
from framing.plan import Plan
from framing.roof.surface import Roof
from framing.roof.wings import Wing
from framing.sideways.roof_push import roof_push
from framing.tolerances import TIE_FT
from framing.walls.held_lengths import WallStrip, wall_strips
from framing.walls.outline import Outline
from framing.walls.porch_walls import porch_wall_ft
from framing.wind.edge_widths import EdgeWidths
from framing.wind.patches import Floats

Pair = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lateral:
    """What pushes one bearing sideways, allowable-stress level, as (by the wind, the least the standard asks): the
    larger counts, and the first grows with the square of the speed. [lb]

    A gable end's anchors are not given the wall's pressure: `perpendicular_lb` is (0, 0) there, and `gable_wall_lb`
    tells it, the gable's triangle of wall over the strip included (0 elsewhere).
    """

    parallel_lb: Pair
    perpendicular_lb: Pair
    gable_wall_lb: float


def build_lateral(
    plan: Plan, outline: Outline, roof: Roof, framing: Framing, widths: EdgeWidths
) -> tuple[Lateral | None, ...]:
    """Every bearing's share, in the order of the bearings; None for one that stands on no wall in the wind.

    On the wall between a porch and the rooms there is no push along it: the outside walls hold all of that.

    Source: ASCE 7-22, sec. 2.4.1 (0.6 W); the rule of this module.
    """
    strips = wall_strips(outline, framing.bearings, framing.porch_beams)
    along_plf = [_along_plf(plan, outline, roof, widths, strips, axis) for axis in (0, 1)]
    square = _square_lb(plan, outline, framing, widths, strips)
    out: list[Lateral | None] = [None] * len(framing.bearings)
    by_name = {m.name: m for m in framing.members}
    for strip, pressed in zip(strips, square, strict=True):
        i, plf = strip.bearing, _along(outline.axes[strip.wall], along_plf)
        bearing = framing.bearings[i]
        gable = bearing.kind is MemberKind.GABLE_END
        triangle_lb = _triangle_ft2(outline, by_name[bearing.member], strip) * pressed[2] if gable else 0.0
        here = Lateral(
            parallel_lb=(plf[0] * strip.length_ft, plf[1] * strip.length_ft),
            perpendicular_lb=(0.0, 0.0) if gable else (pressed[0], pressed[1]),
            gable_wall_lb=max(pressed[:2]) + triangle_lb if gable else 0.0,
        )
        out[i] = _larger(out[i], here)
    for i, pushed in _porch_walls_lb(plan, framing, widths).items():
        out[i] = Lateral(parallel_lb=(0.0, 0.0), perpendicular_lb=pushed, gable_wall_lb=0.0)
    return tuple(out)


def _along(axis: int | None, along_plf: list[Pair]) -> Pair:
    """The push along a wall of that axis; along one at an angle the larger of both directions' (own choice, safe)."""
    return along_plf[axis] if axis is not None else max(along_plf, key=max)


def _larger(one: Lateral | None, other: Lateral) -> Lateral:
    """A corner jack holds two walls: the larger of the two."""
    if one is None:
        return other
    return Lateral(
        parallel_lb=max(one.parallel_lb, other.parallel_lb, key=max),
        perpendicular_lb=max(one.perpendicular_lb, other.perpendicular_lb, key=max),
        gable_wall_lb=0.0,
    )


def _square_lb(
    plan: Plan, outline: Outline, framing: Framing, widths: EdgeWidths, strips: tuple[WallStrip, ...]
) -> list[tuple[float, float, float]]:
    """For every strip the push square to the wall by the wind and at least [lb], and the pressure of the larger [psf].

    Zone 5 is within a of either end of a wall, inside corners too (own choice, safe side); the effective area is the
    wall's height by the larger of the strip and a third of that height.

    Source: ASCE 7-22, eq. 30.3-1, fig. 30.3-1 (good) and sec. 30.2.2.
    """
    length = np.array([s.length_ft for s in strips])
    end = np.array([_end_ratio(s, outline.walls[s.wall].length_ft, widths.a_ft) for s in strips])
    zone_4, zone_5 = (_wall_psf(plan, widths, zone, length) for zone in ("4", "5"))
    mean_psf = zone_4 * (1.0 - end) + zone_5 * end
    loaded = ASD_UPLIFT.wind_factor * length * plan.wall_height_ft / 2.0
    largest_psf = ASD_UPLIFT.wind_factor * np.maximum(mean_psf, LEAST_NET_PRESSURE_PSF)
    rows = zip(loaded * mean_psf, loaded * LEAST_NET_PRESSURE_PSF, largest_psf, strict=True)
    return [(float(w), float(least), float(psf)) for w, least, psf in rows]


def _porch_walls_lb(plan: Plan, framing: Framing, widths: EdgeWidths) -> dict[int, Pair]:
    """The push square to a wall between a porch and the rooms, by bearing: by the wind and at least. [lb]"""
    held = porch_wall_ft(plan, framing)
    if not held:
        return {}
    length = np.array(list(held.values()))
    loaded = ASD_UPLIFT.wind_factor * length * plan.wall_height_ft / 2.0
    pushes = np.c_[loaded * _wall_psf(plan, widths, "5", length), loaded * LEAST_NET_PRESSURE_PSF]
    return {i: (float(wind), float(least)) for i, (wind, least) in zip(held, pushes, strict=True)}


def _wall_psf(plan: Plan, widths: EdgeWidths, zone: str, length_ft: Floats) -> Floats:
    """The larger net pressure on strips of wall in a zone. [psf]"""
    code = edition(plan.wind.edition)
    area = effective_wind_area_ft2(np.full(len(length_ft), plan.wall_height_ft), length_ft)
    toward, away = code.wall_GC_p(zone, area, plan.roof.theta_deg)
    out: Floats = np.maximum(toward, -away) + max(code.GC_pi(plan.wind.enclosure))
    return out * code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING)


def _end_ratio(strip: WallStrip, wall_ft: float, a_ft: float) -> float:
    """The part of a strip within a of either end of its wall."""
    middle = max(0.0, min(strip.to_ft, wall_ft - a_ft) - max(strip.from_ft, a_ft))
    return 1.0 - middle / (strip.to_ft - strip.from_ft) if strip.to_ft > strip.from_ft else 1.0


def _triangle_ft2(outline: Outline, member: Member, strip: WallStrip) -> float:
    """The wall over a strip from the tie beam up to the top of a gable end. [ft2]"""
    wall = outline.walls[strip.wall]
    from_start = [
        np.dot(np.subtract(wall.point_ft(s), member.start_ft), np.subtract(member.end_ft, member.start_ft))
        / member.span_ft
        for s in (strip.from_ft, strip.to_ft)
    ]
    low, high = sorted(from_start)
    at, height = np.array(member.profile).T
    places = np.unique(np.clip(np.r_[low, at, high], low, high))
    return float(np.trapezoid(np.maximum(np.interp(places, at, height), 0.0), places))


def _along_plf(
    plan: Plan, outline: Outline, roof: Roof, widths: EdgeWidths, strips: tuple[WallStrip, ...], axis: int
) -> Pair:
    """The push on every foot of the walls that run along an axis of the frame: by the wind, and at least. Where no wall
    does, the walls at an angle hold it, by their extent along the axis.
    """
    length = sum(s.length_ft for s in strips if outline.axes[s.wall] == axis) or sum(
        s.length_ft * _extent_ratio(outline, s.wall, axis) for s in strips if outline.axes[s.wall] is None
    )
    if not length:
        return (0.0, 0.0)
    force = horizontal_force_lb(plan, roof, widths, axis)
    return (ASD_UPLIFT.wind_factor * force[0] / length, ASD_UPLIFT.wind_factor * force[1] / length)


def _extent_ratio(outline: Outline, wall: int, axis: int) -> float:
    """How far a wall reaches along an axis of the frame on each foot of it."""
    start, end = outline.local_ft[wall], outline.local_ft[(wall + 1) % len(outline.local_ft)]
    return abs(end[axis] - start[axis]) / math.dist(start, end)


def horizontal_force_lb(plan: Plan, roof: Roof, widths: EdgeWidths, axis: int) -> Pair:
    """The wind's force on the roof along an axis of the frame, strength level: by the wind, and at least. [lb]

    Source: ASCE 7-22, eq. 28.3-1 or 27.3-1 (solid) and sec. 28.3.6 (number inferred) for the least load.
    """
    roof_ft2 = silhouette_ft2(roof, axis)
    coefficient, least_psf = roof_push(plan, roof, widths, axis)
    q = edition(plan.wind.edition).q_K_d_psf(plan.wind, widths.h_ft, Procedure(plan.wind.mwfrs_procedure))
    return (q * coefficient * roof_ft2, least_psf * roof_ft2)


def silhouette_ft2(roof: Roof, axis: int) -> float:
    """The roof's vertical projection seen along an axis of the frame, from the tie beam up, between the walls' faces:
    that of all wings together. [ft2]
    """
    outlines = [shapely.make_valid(_outline_of(w, roof, axis)) for w in roof.wings]  # a peak may fold by a rounding
    return float(shapely.area(shapely.union_all(outlines, grid_size=TIE_FT)))


def _outline_of(wing: Wing, roof: Roof, axis: int) -> Polygon:
    """One wing's silhouette: a slope rises from each side that is an eave, a gable stands straight up."""
    low, high = wing.low_ft[1 - axis], wing.high_ft[1 - axis]
    run, top = wing.half_width_ft, roof.heel_ft + roof.rise_per_run * wing.half_width_ft
    left, right = (0.0 if wing.gable[2 * (1 - axis) + k] else run for k in (0, 1))
    ring = [(low, 0.0), (high, 0.0), (high, roof.heel_ft), (high - right, top), (low + left, top), (low, roof.heel_ft)]
    return Polygon(ring)
