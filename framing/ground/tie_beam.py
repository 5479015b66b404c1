"""Stretches, cells and pulls -> what the tie beam feels between its filled cells, and what pulls at each cell."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.ground.beam_on_cells import BeamForces, beam_forces
from framing.ground.beam_strength import BeamStrength
from framing.ground.filled_cells import Cells
from framing.ground.strap_pulls import STRENGTH_UPLIFT, Pulls
from framing.plan_masonry import Opening
from framing.walls.outline import TIE_FT


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel:
    """The largest moment that pulls at the top bars, at the bottom bars, and the largest shear, each over all
    patterns, at one level.
    """

    top_ft_lb: float
    bottom_ft_lb: float
    shear_lb: float

    def worse(self, other: Feel) -> Feel:
        """The larger of each."""
        return Feel(
            top_ft_lb=max(self.top_ft_lb, other.top_ft_lb),
            bottom_ft_lb=max(self.bottom_ft_lb, other.bottom_ft_lb),
            shear_lb=max(self.shear_lb, other.shear_lb),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """The beam from one filled cell to the next, or its tail past the first or last one, allowable-stress level and
    strength level. `opening` is the one under it. `ratio` is strength-level demand over the plan's own bars; None
    where the plan does not say them.
    """

    from_ft: float
    to_ft: float
    opening: Opening | None
    asd: Feel
    strength: Feel
    ratio: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BeamDemand:
    """One stretch of tie beam.

    `pull_lb` is the sum of its marks' uplifts, `net_plf` that over its length less 0.6 of the beam (ASD). `cell_lb` is
    the largest pull on each cell (ASD, 0 where none lifts); empty, like `spans`, where the plan says no cells.
    """

    cells: Cells
    pulls: Pulls
    pull_lb: float
    net_plf: float
    spans: tuple[Span, ...]
    cell_lb: tuple[float, ...]

    @property
    def largest_ratio(self) -> float | None:
        """The largest of its spans; None where none is known."""
        known = [s.ratio for s in self.spans if s.ratio is not None]
        return max(known, default=None)


def beam_demand(cells: Cells, pulls: Pulls, beam_plf: float, strength: BeamStrength) -> BeamDemand:
    """The demand of one stretch, the beam running on over all its cells.

    Source: own derivation: tests/statics/test_tie_beam.py.
    """
    stretch = cells.stretch
    pull_lb = float(pulls.asd_lb[:, 0].sum())
    net_plf = pull_lb / stretch.length_ft - ASD_UPLIFT.dead_factor * beam_plf
    if not cells.known:
        return BeamDemand(cells=cells, pulls=pulls, pull_lb=pull_lb, net_plf=net_plf, spans=(), cell_lb=())
    asd = forces_on(cells, pulls, pulls.asd_lb, ASD_UPLIFT.dead_factor * beam_plf)
    strong = forces_on(cells, pulls, pulls.strength_lb, STRENGTH_UPLIFT.dead_factor * beam_plf)
    reach = (stretch.from_ft, stretch.to_ft, *pulls.at_ft.tolist(), *cells.at_ft)
    edges = (min(reach), *cells.at_ft, max(reach))
    spans = []
    for k in range(len(edges) - 1):
        if edges[k + 1] - edges[k] <= TIE_FT:
            continue  # no tail past the end's own cell
        over = next((o for o in cells.openings if o.from_ft < edges[k + 1] and o.to_ft > edges[k]), None)
        felt = _felt(strong, k)
        spans.append(
            Span(
                from_ft=edges[k],
                to_ft=edges[k + 1],
                opening=over,
                asd=_felt(asd, k),
                strength=felt,
                ratio=strength.ratio(felt.top_ft_lb, felt.bottom_ft_lb, felt.shear_lb),
            )
        )
    return BeamDemand(
        cells=cells,
        pulls=pulls,
        pull_lb=pull_lb,
        net_plf=net_plf,
        spans=tuple(spans),
        cell_lb=tuple(float(lb) for lb in asd.cell_lb.max(axis=1).clip(min=0.0)),
    )


def forces_on(cells: Cells, pulls: Pulls, pull_lb: np.ndarray, down_plf: float) -> BeamForces:
    """The beam of one stretch under these pulls, over all its cells."""
    at, stretch = cells.at_ft, cells.stretch
    extent = (min(stretch.from_ft, at[0]), max(stretch.to_ft, at[-1]))
    return beam_forces(np.array(at), pulls.at_ft, pull_lb, down_plf, extent)


def simple_span(
    pulls: Pulls, pull_lb: np.ndarray, down_plf: float, ends_ft: tuple[float, float]
) -> tuple[Feel, tuple[float, float]]:
    """A beam cut off at both ends of one span: what it feels, and the largest pull at either end. [lb]"""
    inside = (pulls.at_ft > ends_ft[0]) & (pulls.at_ft < ends_ft[1])
    forces = beam_forces(np.array(ends_ft), pulls.at_ft[inside], pull_lb[inside], down_plf, ends_ft)
    start_lb, end_lb = forces.cell_lb.max(axis=1)
    return _felt(forces, 1), (float(start_lb), float(end_lb))


def _felt(forces: BeamForces, k: int) -> Feel:
    return Feel(
        top_ft_lb=float(forces.top_ft_lb[k].max()),
        bottom_ft_lb=float(forces.bottom_ft_lb[k].max()),
        shear_lb=float(forces.shear_lb[k].max()),
    )
