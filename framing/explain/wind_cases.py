"""Run -> what is told of the wind cases: the velocity pressure taken apart, the hardest cases, and whence they blow."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7 import chapter26
from framing.asce7.edition import Procedure, edition
from framing.loads.cases import LoadBasis, LoadCase
from framing.plan import Point
from framing.run import Run
from framing.tolerances import TIE_FT2


@dataclass(frozen=True, slots=True, kw_only=True)
class VelocityPressure:
    """q K_d of one procedure and the numbers in it: constant x K_z x K_zt x K_e x K_d x V^2."""

    procedure: Procedure
    constant_factor: float
    exposure_factor: float
    topographic_factor: float
    elevation_factor: float
    directionality_factor: float
    speed_mph: float
    q_K_d_psf: float


def velocity_pressures(run: Run) -> tuple[VelocityPressure, ...]:
    """The velocity pressure of the main frame and of the cladding, taken apart.

    Source: ASCE 7-22, eq. 26.10-1 with 28.3-1, 27.3-1 and 30.3-1 (solid).
    """
    code, wind, h_ft = edition(run.plan.wind.edition), run.plan.wind, run.loads.widths.h_ft
    return tuple(
        VelocityPressure(
            procedure=procedure,
            constant_factor=chapter26.q_z_psf(1.0, 1.0, 1.0, 1.0),
            exposure_factor=code.K_z_of(h_ft, wind.exposure, procedure),
            topographic_factor=chapter26.K_zt_at(wind, h_ft),
            elevation_factor=float(chapter26.K_e(wind.ground_elevation_ft)),
            directionality_factor=chapter26.K_d(),
            speed_mph=wind.speed_mph,
            q_K_d_psf=code.q_K_d_psf(wind, h_ft, procedure),
        )
        for procedure in (Procedure(wind.mwfrs_procedure), Procedure.CLADDING)
    )


def hardest_cases(run: Run, basis: LoadBasis) -> NDArray[np.int64]:
    """For every bearing the case of a basis that pulls hardest, its place in the reactions; -1 where there is none.

    A cladding case counts only where its effective area is the member's own. (n_bearings,)
    """
    columns = np.array([j for j, c in enumerate(run.reactions.cases) if c.basis is basis], dtype=np.int64)
    if not len(columns):
        return np.full(len(run.framing.bearings), -1)
    row_of = {m.name: i for i, m in enumerate(run.framing.members)}
    own_ft2 = np.array([run.loads.area_of_member_ft2[row_of[b.member]] for b in run.framing.bearings])
    areas = [run.reactions.cases[j].area_ft2 for j in columns]
    own = [np.ones(len(own_ft2), dtype=bool) if a is None else np.abs(own_ft2 - a) < TIE_FT2 for a in areas]
    pull_lb = np.where(np.column_stack(own), run.reactions.by_case_lb[:, columns], -np.inf)
    out: NDArray[np.int64] = columns[pull_lb.argmax(axis=1)]
    return out


def leading_case(run: Run, basis: LoadBasis) -> int | None:
    """The case of a basis that pulls hardest at the most bearings, its place in the reactions, if any."""
    hardest = hardest_cases(run, basis)
    return int(np.bincount(hardest).argmax()) if (hardest >= 0).any() else None


def wind_toward(run: Run, case: LoadCase) -> Point | None:
    """The plan direction in which the wind of a main-frame case blows; None for cladding, which takes every one."""
    pattern = case.wind.pattern if case.wind else None
    return None if pattern is None else run.outline.frame.turn_to_plan(pattern.from_side.opposite.outward)
