"""Wind cases -> the horizontal forces of each on the parts of walls and on the roof, and the least horizontal loads.

Every main-frame case of the uplift is one here with the same pressures: all walls are loaded, side-wall suction and
internal pressure included. The least loads are one case for each direction of the wind, without uplift.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter28 import LEAST_ROOF_PSF, LEAST_WALL_PSF
from framing.asce7.edition import edition
from framing.frame_side import SIDES, FrameSide
from framing.loads.cases import LoadCase, Loads, side_names
from framing.plan import Plan
from framing.roof.surface import Roof
from framing.sideways.wall_parts import WallParts
from framing.sideways.wall_pressures import wall_coefficients, wall_tables
from framing.walls.outline import Outline
from framing.wind.patches import Patches

Floats = NDArray[np.float64]
LEAST = "least horizontal loads"


@dataclass(frozen=True, slots=True, kw_only=True)
class SidewaysCase:
    """One wind: its name, the side of the frame that it blows onto and the uplift's load case of the same pressures,
    '' for the least loads.
    """

    name: str
    from_side: FrameSide
    load: str

    @property
    def least(self) -> bool:
        """Whether it is one of the least horizontal loads, which do not grow with the wind and lift nothing."""
        return not self.load


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CaseLoads:
    """ASD (0.6 W) pressures as horizontal vectors on k cases: `wall_psf` (n_parts, k, 2) on the walls, toward where it
    pushes, `roof_psf` (n_patches, k, 2) on the roof's plan area.
    """

    cases: tuple[SidewaysCase, ...]
    wall_psf: Floats
    roof_psf: Floats


def case_loads(plan: Plan, outline: Outline, roof: Roof, patches: Patches, loads: Loads, parts: WallParts) -> CaseLoads:
    """Every main-frame case, then the least loads.

    Source: ASCE 7-22, eq. 28.3-1 and 27.3-1 (solid), sec. 2.4.1 (0.6 W).
    """
    tables = wall_tables(edition(plan.wind.edition), plan.roof.theta_deg)
    cases, walls, slopes = [], [], []
    known: dict[object, Floats] = {}
    for load in loads.cases:
        wind = load.wind
        if wind is None or wind.pattern is None:
            continue
        if wind.pattern not in known:
            found = wall_coefficients(roof, parts, loads.widths, tables, wind.pattern)
            known[wind.pattern] = found.outside_factor
        net_psf = wind.q_K_d_psf * (known[wind.pattern] - wind.internal_factor)
        cases.append(SidewaysCase(name=load.name, from_side=wind.pattern.from_side, load=load.name))
        walls.append(-net_psf[:, None] * parts.outward)
        slope_psf = wind.q_K_d_psf * (wind.outside_factor - wind.inside_factor)
        slopes.append(slope_psf[:, None] * patches.gradient)
    least = _least(outline, patches, parts)
    factor = ASD_UPLIFT.wind_factor
    return CaseLoads(
        cases=(*cases, *(c for c, _, _ in least)),
        wall_psf=factor * np.stack([*walls, *(w for _, w, _ in least)], axis=1),
        roof_psf=factor * np.stack([*slopes, *(r for _, _, r in least)], axis=1),
    )


def _least(outline: Outline, patches: Patches, parts: WallParts) -> list[tuple[SidewaysCase, Floats, Floats]]:
    """16 psf on the vertical projection of every wall that faces the wind, gables' triangles included, and 8 psf on
    that of the slopes that face it, overhangs included.

    Source: ASCE 7-22, sec. 28.3.6 and 27.1.5 (numbers inferred; ASCE 7-16 was read).
    """
    names, out = side_names(outline), []
    for side in SIDES:
        toward = -np.array(side.outward)
        case = SidewaysCase(name=f"{LEAST}, wind onto {names[side]}", from_side=side, load="")
        facing = np.maximum(0.0, -(parts.outward @ toward))
        rising = np.maximum(0.0, patches.gradient @ toward)
        out.append((case, LEAST_WALL_PSF * facing[:, None] * toward, LEAST_ROOF_PSF * rising[:, None] * toward))
    return out


def wind_of(loads: Loads, case: SidewaysCase) -> LoadCase:
    """The uplift's load case of the same pressures."""
    return next(c for c in loads.cases if c.name == case.load)
