"""How far apart filled cells may stand under one stretch of tie beam: a figure to ask for, never a pass."""

from __future__ import annotations

from dataclasses import dataclass, replace

from framing.ground.beam_strength import beam_weight_plf, taken_strength
from framing.ground.beam_stretches import Stretch
from framing.ground.filled_cells import cells_of
from framing.ground.reinforced_concrete import cell_bar_tension_lb
from framing.ground.strap_pulls import Pulls
from framing.ground.tie_beam import beam_demand
from framing.plan import Plan

TAKEN_CELL_BAR = 5
BLOCKS_FT = tuple(k * 8.0 / 12.0 for k in range(2, 13))  # 16 in. to 8'-0", by the block's module


@dataclass(frozen=True, slots=True, kw_only=True)
class SpacingNeeded:
    """The widest spacing of cells, up to 8 ft in steps of 8 in., at which beam and cell bars hold, as at every closer
    one (a wider one may hold by the luck of where a girder falls); None where none does, over the openings aside.
    `taken` says whether bars, concrete or cover were taken and not the plan's.
    """

    spacing_ft: float | None
    taken: bool


def spacing_needed(plan: Plan, stretch: Stretch, pulls: Pulls) -> SpacingNeeded:
    """For one stretch; the openings' own beams are judged apart.

    Source: own derivation: tests/parts/test_filled_cells.py.
    """
    steel, plf, strength = plan.masonry.steel, beam_weight_plf(plan), taken_strength(plan)
    bar = steel.cell_bar
    bar_lb = bar.count * cell_bar_tension_lb(bar.number) if bar else cell_bar_tension_lb(TAKEN_CELL_BAR)
    without = replace(plan, masonry=replace(plan.masonry, filled_cells=()))
    given = (steel.top_bars, steel.bottom_bars, steel.f_c_psi, steel.cover_ft, steel.cell_bar)
    taken = any(value is None for value in given)
    widest_ft, before = None, None
    for spacing_ft in BLOCKS_FT:
        cells = cells_of(without, stretch, spacing_ft)
        if cells == before:  # on a short wall
            widest_ft = spacing_ft
            continue
        demand, before = beam_demand(cells, pulls, plf, strength), cells
        spans = [s for s in demand.spans if s.opening is None]
        over = [s.ratio for s in spans if s.ratio is not None and s.ratio > 1.0]
        if over or max(demand.cell_lb, default=0.0) > bar_lb:
            break
        widest_ft = spacing_ft
    return SpacingNeeded(spacing_ft=widest_ft, taken=taken)
