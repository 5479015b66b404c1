"""Walls as components -> what each bearing's strip of wall pushes square to it, checked by itself.

Zone 5 is within a of either end of a wall, inside corners too (own choice, safe side), and everywhere on a wall behind
a porch. A strap at a corner takes the end strips of both its walls, as vectors, each with either sign.
Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter30 import LEAST_NET_PRESSURE_PSF, effective_wind_area_ft2
from framing.asce7.edition import Procedure, edition
from framing.members import Framing, MemberKind
from framing.plan import Plan
from framing.plan_masonry import TopsHeldBy
from framing.sideways.held import Held, Stretch
from framing.sideways.wall_parts import WallParts, parts_of
from framing.walls.outline import Outline
from framing.wind.edge_widths import EdgeWidths

Floats = NDArray[np.float64]

# On a bearing's own wall, and on the other wall of its corner: +1 suction, -1 pressure.
SIGNS = ((1.0, 1.0), (-1.0, 1.0), (1.0, -1.0), (-1.0, -1.0))
CASES = tuple(
    f"cladding, {('pressure', 'suction')[own > 0]} on its wall"
    + ("" if own == other else f", {('pressure', 'suction')[other > 0]} round the corner")
    for own, other in SIGNS
)
LEAST_CASE = f"cladding, least net pressure of {LEAST_NET_PRESSURE_PSF:.0f} psf on its wall"


@dataclass(frozen=True, slots=True, kw_only=True)
class WallStripPressure:
    """The component pressures on one bearing's strip of wall, strength level, net with those inside: the effective
    area, the part of the strip in zone 5, the pressures away from and toward the wall in zones 4 and 5, and the area of
    wall whose push comes to the bearing.
    """

    held: int
    area_ft2: float
    end_ratio: float
    away_psf: tuple[float, float]
    toward_psf: tuple[float, float]
    pushing_ft2: float

    def mean_psf(self, *, suction: bool) -> float:
        """Over the whole strip. [psf]"""
        zone_4, zone_5 = self.away_psf if suction else self.toward_psf
        return zone_4 * (1.0 - self.end_ratio) + zone_5 * self.end_ratio


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CladdingWalls:
    """`strips` by bearing, one for each length it holds; `push_lb` (n_bearings, 4, 2) their pushes together (ASD) with
    the signs of `SIGNS`, `least_lb` (n_bearings, 2) by the least net pressure.
    """

    strips: tuple[tuple[WallStripPressure, ...], ...]
    push_lb: Floats
    least_lb: Floats


def cladding_walls(
    plan: Plan,
    outline: Outline,
    framing: Framing,
    widths: EdgeWidths,
    parts: WallParts,
    stretches: tuple[Stretch, ...],
    held: tuple[Held, ...],
) -> CladdingWalls:
    """Every bearing's strip of wall, its effective area the wall's height by the larger of the spacing and a third of
    that height.

    Source: ASCE 7-22, eq. 30.3-1, fig. 30.3-1 (good), sec. 26.2 and 30.2.2.
    """
    found: list[list[WallStripPressure]] = [[] for _ in framing.bearings]
    push, least = np.zeros((len(framing.bearings), 4, 2)), np.zeros((len(framing.bearings), 2))
    for strip, outward in _strips(plan, outline, framing, widths, parts, stretches, held):
        h = held[strip.held]
        found[h.bearing].append(strip)
        own = h.wall is None or outline.walls[h.wall].name == framing.bearings[h.bearing].wall
        area = ASD_UPLIFT.wind_factor * strip.pushing_ft2 * outward
        push[h.bearing] += [s * strip.mean_psf(suction=s > 0) * area for s in (signs[not own] for signs in SIGNS)]
        least[h.bearing] += LEAST_NET_PRESSURE_PSF * area
    return CladdingWalls(strips=tuple(tuple(s) for s in found), push_lb=push, least_lb=least)


def _strips(
    plan: Plan,
    outline: Outline,
    framing: Framing,
    widths: EdgeWidths,
    parts: WallParts,
    stretches: tuple[Stretch, ...],
    held: tuple[Held, ...],
) -> Iterator[tuple[WallStripPressure, Floats]]:
    """Each strip whose wall pushes on its bearing, and the way its wall faces."""
    by_roof = plan.masonry.tops_held_by is TopsHeldBy.ROOF
    pushing = parts.half_ft2 if by_roof else np.where(parts.gable, parts.above_ft2 / 2.0, 0.0)
    known: dict[float, tuple[tuple[float, float], tuple[float, float]]] = {}
    for k, (h, own) in enumerate(zip(held, parts_of(parts, held, stretches), strict=True)):
        area_ft2 = float(pushing[own].sum()) * h.share_ratio
        if area_ft2 <= 0.0:
            continue
        gable = framing.bearings[h.bearing].kind is MemberKind.GABLE_END
        spacing = plan.trusses.gable_anchor_spacing_ft if gable else plan.trusses.spacing_ft
        effective = float(effective_wind_area_ft2(plan.wall_height_ft, spacing))
        if effective not in known:
            known[effective] = _pressures(plan, widths, effective)
        away, toward = known[effective]
        length = outline.walls[h.wall].length_ft if h.wall is not None else 0.0
        strip = WallStripPressure(
            held=k,
            area_ft2=effective,
            end_ratio=_end_ratio(h, length, widths.a_ft),
            away_psf=away,
            toward_psf=toward,
            pushing_ft2=area_ft2,
        )
        yield strip, parts.outward[own.start]


def _pressures(plan: Plan, widths: EdgeWidths, area_ft2: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """Away from the wall and toward it, in zones 4 and 5. [psf]"""
    code = edition(plan.wind.edition)
    q = code.q_K_d_psf(plan.wind, widths.h_ft, Procedure.CLADDING)
    inside = max(code.GC_pi(plan.wind.enclosure))
    found = [code.wall_GC_p(zone, area_ft2, plan.roof.theta_deg) for zone in ("4", "5")]
    away = [q * (inside - float(suction)) for _, suction in found]
    toward = [q * (inside + float(pressure)) for pressure, _ in found]
    return (away[0], away[1]), (toward[0], toward[1])


def _end_ratio(held: Held, wall_ft: float, a_ft: float) -> float:
    """The part of a strip within a of either end of its wall; all of it behind a porch."""
    if held.wall is None or held.to_ft <= held.from_ft:
        return 1.0
    middle = max(0.0, min(held.to_ft, wall_ft - a_ft) - max(held.from_ft, a_ft))
    return 1.0 - middle / (held.to_ft - held.from_ft)
