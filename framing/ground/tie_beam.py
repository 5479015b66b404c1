"""Stretches, cells and pulls -> what the tie beam feels between its filled cells, and what pulls at each cell."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.ground.beam_on_cells import BeamForces, Floats, beam_forces
from framing.ground.beam_strength import BeamStrength
from framing.ground.filled_cells import HALF_CELL_FT, Cells
from framing.ground.strap_pulls import STRENGTH_UPLIFT, Pulls
from framing.plan_masonry import Opening
from framing.tolerances import TIE_FT


@dataclass(frozen=True, slots=True, kw_only=True)
class Feel:
    """The largest moment that pulls at the top bars, at the bottom bars, and the largest shear, each over all
    patterns, at one level.
    """

    top_ft_lb: float
    bottom_ft_lb: float
    shear_lb: float


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


Felt = dict[tuple[float, float], tuple[Feel, Feel]]  # a span's ends: what it feels, ASD and at strength level


def beam_demand(cells: Cells, pulls: Pulls, beam_plf: float, strength: BeamStrength) -> BeamDemand:
    """The demand of one stretch: the beam runs on over its cells from opening to opening and is taken as cut at the
    cells on both sides of each, over which it is a simple beam.

    Source: own derivation: tests/statics/test_tie_beam.py.
    """
    stretch = cells.stretch
    pull_lb = float(pulls.asd_lb[:, 0].sum())
    net_plf = pull_lb / stretch.length_ft - ASD_UPLIFT.dead_factor * beam_plf
    spans: list[Span] = []
    cell_lb: tuple[float, ...] = ()
    if cells.known:
        felt, cell_lb = _pieces(cells, pulls, beam_plf)
        for (low, high), (asd, most) in felt.items():
            over = next((o for o in cells.openings if o.from_ft < high and o.to_ft > low), None)
            ratio = strength.ratio(most.top_ft_lb, most.bottom_ft_lb, most.shear_lb)
            spans.append(Span(from_ft=low, to_ft=high, opening=over, asd=asd, strength=most, ratio=ratio))
    return BeamDemand(cells=cells, pulls=pulls, pull_lb=pull_lb, net_plf=net_plf, spans=tuple(spans), cell_lb=cell_lb)


def _pieces(cells: Cells, pulls: Pulls, beam_plf: float) -> tuple[Felt, tuple[float, ...]]:
    """What each span feels at either level, in order, and the largest pull on each cell (ASD, 0 where none lifts)."""
    at, n = np.array(cells.at_ft), pulls.asd_lb.shape[1]
    pull_lb = np.concatenate([pulls.asd_lb, pulls.strength_lb], axis=1)  # both levels at once
    down_plf = beam_plf * np.repeat([ASD_UPLIFT.dead_factor, STRENGTH_UPLIFT.dead_factor], n)
    reach = (min(cells.stretch.from_ft, *at, *pulls.at_ft), max(cells.stretch.to_ft, *at, *pulls.at_ft))
    felt: Felt = {}
    total = np.zeros((len(at), pull_lb.shape[1]))
    cuts = [k for k in range(len(at) - 1) if any(at[k] <= o.from_ft and o.to_ft <= at[k + 1] for o in cells.openings)]
    first = 0
    for last in (*cuts, len(at) - 1):
        ends = (reach[0] if first == 0 else at[first], reach[1] if last == len(at) - 1 else at[last])
        mine = (pulls.at_ft >= ends[0]) & (pulls.at_ft <= ends[1])
        _piece(at[first : last + 1], pulls.at_ft[mine], pull_lb[mine], down_plf, ends, felt, total[first : last + 1])
        if last < len(at) - 1:  # then the span over an opening
            pair = at[last : last + 2]
            inside = (pulls.at_ft > pair[0]) & (pulls.at_ft < pair[1])
            span = (float(pair[0]), float(pair[1]))
            _piece(pair, pulls.at_ft[inside], pull_lb[inside], down_plf, span, felt, total[last : last + 2])
        first = last + 1
    return felt, tuple(float(lb) for lb in total[:, :n].max(axis=1).clip(min=0.0))


def _piece(
    at: Floats,
    straps_ft: Floats,
    pull_lb: Floats,
    down_plf: Floats,
    ends_ft: tuple[float, float],
    felt: Felt,
    total: Floats,
) -> None:
    """Adds the spans of one piece of beam to `felt`, and what it puts on its cells to `total`."""
    if len(at) == 1:  # between two openings, or a corner beside one: all of it stands on that cell
        total += pull_lb.sum(axis=0) - down_plf * (ends_ft[1] - ends_ft[0])
        return
    forces = beam_forces(at, straps_ft, pull_lb, down_plf, ends_ft, HALF_CELL_FT)
    total += forces.cell_lb
    edges = [ends_ft[0], *at.tolist(), ends_ft[1]]
    levels = [_felt(forces, half) for half in np.split(np.arange(pull_lb.shape[1]), 2)]
    for k, (asd, strong) in enumerate(zip(*levels, strict=True)):
        tail = k in (0, len(edges) - 2)
        if edges[k + 1] - edges[k] > (HALF_CELL_FT if tail else 0.0) + TIE_FT:  # a tail on the end's own cell is none
            felt[edges[k], edges[k + 1]] = (asd, strong)


def simple_span(
    pulls: Pulls, pull_lb: Floats, down_plf: float, ends_ft: tuple[float, float]
) -> tuple[Feel, tuple[float, float]]:
    """A beam cut off at both ends of one span: what it feels, and the largest pull at either end. [lb]"""
    inside = (pulls.at_ft > ends_ft[0]) & (pulls.at_ft < ends_ft[1])
    forces = beam_forces(np.array(ends_ft), pulls.at_ft[inside], pull_lb[inside], down_plf, ends_ft)
    start_lb, end_lb = forces.cell_lb.max(axis=1)
    return _felt(forces, np.arange(pull_lb.shape[1]))[1], (float(start_lb), float(end_lb))


def _felt(forces: BeamForces, patterns: NDArray[np.intp]) -> list[Feel]:
    """The most over some patterns, stretch by stretch."""
    most = [part[:, patterns].max(axis=1).tolist() for part in (forces.top_ft_lb, forces.bottom_ft_lb, forces.shear_lb)]
    return [Feel(top_ft_lb=top, bottom_ft_lb=low, shear_lb=shear) for top, low, shear in zip(*most, strict=True)]
