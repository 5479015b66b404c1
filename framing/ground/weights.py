"""What lies on a mark's own strip of wall and holds it down: the ladder of beam, wall and footing.

The wall between cells and the footing count only where the plan says that each cell's bar is hooked into the footing:
nothing here counts on the bond of a mortar joint. Without that, the beam and the grouted cells alone.
Weights: framing/ground/cmu_wall_weights.csv; 150 pcf for concrete. Source: common practice, no source.
"""

from __future__ import annotations

import csv
import math
from collections import defaultdict
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import pairwise

import numpy as np

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.ground.beam_strength import CONCRETE_PCF, beam_weight_plf
from framing.ground.filled_cells import CELL_FT, Cells
from framing.ground.tie_beam import BeamDemand
from framing.plan import Plan
from framing.walls.held_lengths import WallStrip

TABLE_THICKNESS_FT = 8.0 / 12.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """What holds one mark (its place in the schedule) down, allowable-stress level: 0.6 of each weight over its strip.

    `wall_lb` is the wall and its grout where it counts, else the grouted cells alone (`dowelled` False) or nothing
    where the plan says no cells. `missing_lb` is what the pull is over all of them.
    """

    row: int
    strip_ft: float
    pull_lb: float
    beam_lb: float
    wall_lb: float
    footing_lb: float
    dowelled: bool

    @property
    def held_lb(self) -> float:
        """All the rungs together. [lb]"""
        return self.beam_lb + self.wall_lb + self.footing_lb

    @property
    def missing_lb(self) -> float:
        """What the pull is over them; 0 where they hold it. [lb]"""
        return max(self.pull_lb - self.held_lb, 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bay:
    """A length of wall and what every foot of it weighs below the beam. [plf]"""

    from_ft: float
    to_ft: float
    wall_plf: float
    cells_plf: float
    footing_plf: float


@cache
def _table() -> tuple[tuple[float, float], ...]:
    """(cells per foot, weight [psf]) of an 8 in. wall of normal-weight block, by how often a cell is grouted."""
    text = files("framing.ground").joinpath("cmu_wall_weights.csv").read_text(encoding="utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return tuple(sorted((float(r["cells_per_ft"]), float(r["normal_psf"])) for r in rows))


def wall_weight_psf(cell_spacing_ft: float) -> float:
    """Weight of an 8 in. block wall with a grouted cell every so often, between the table's rows by cells per foot;
    infinity for none. [psf]

    Source: framing/ground/cmu_wall_weights.csv.
    """
    cells, psf = zip(*_table(), strict=True)
    return float(np.interp(1.0 / cell_spacing_ft, cells, psf))


def ladders(plan: Plan, demands: tuple[BeamDemand, ...], strips: tuple[WallStrip, ...]) -> tuple[Ladder, ...]:
    """The ladder of every mark that pulls on a tie beam, in the schedule's order.

    Source: own derivation: tests/parts/test_weights.py.
    """
    pulls = {i: float(lb) for d in demands for i, lb in zip(d.pulls.rows, d.pulls.asd_lb[:, 0], strict=True)}
    bays: defaultdict[int, list[_Bay]] = defaultdict(list)
    own: defaultdict[int, list[WallStrip]] = defaultdict(list)
    for d in demands:
        bays[d.cells.stretch.wall] += _bays(plan, d.cells)
    for strip in strips:
        own[strip.bearing].append(strip)
    footing = plan.masonry.footing
    factor, beam_plf = ASD_UPLIFT.dead_factor, beam_weight_plf(plan)
    out = []
    for row in sorted(pulls):
        mine = own[row]
        under = [
            (s.share_ratio * max(min(s.to_ft, b.to_ft) - max(s.from_ft, b.from_ft), 0.0), b)
            for s in mine
            for b in bays[s.wall]
        ]
        strip_ft = sum(s.length_ft for s in mine)
        dowelled = footing is not None and footing.dowelled
        out.append(
            Ladder(
                row=row,
                strip_ft=strip_ft,
                pull_lb=pulls[row],
                beam_lb=factor * beam_plf * strip_ft,
                wall_lb=factor * sum(ft * (b.wall_plf if dowelled else b.cells_plf) for ft, b in under),
                footing_lb=factor * sum(ft * b.footing_plf for ft, b in under) if dowelled else 0.0,
                dowelled=dowelled,
            )
        )
    return tuple(out)


def cell_holds_lb(plan: Plan, demand: BeamDemand) -> tuple[float, ...]:
    """What hangs on each cell of a stretch below the beam, half way to its neighbours (0.6 of it): what must hold the
    cell's own pull, from which the beam is already taken off. [lb]
    """
    at, bays = demand.cells.at_ft, _bays(plan, demand.cells)
    footing = plan.masonry.footing
    dowelled = footing is not None and footing.dowelled
    edges = [-math.inf, *((a + b) / 2.0 for a, b in pairwise(at)), math.inf]
    out = []
    for low, high in pairwise(edges):
        over = [(max(min(high, b.to_ft) - max(low, b.from_ft), 0.0), b) for b in bays]
        hangs = sum(ft * (b.wall_plf + b.footing_plf if dowelled else b.cells_plf) for ft, b in over)
        out.append(ASD_UPLIFT.dead_factor * hangs)
    return tuple(out)


def _bays(plan: Plan, cells: Cells) -> list[_Bay]:
    """The wall of a stretch from cell to cell, nothing over the openings; one bay without cells where none is known."""
    height_ft = max(plan.wall_height_ft - plan.tie_beam.depth_ft, 0.0)
    thick = plan.wall_thickness_ft / TABLE_THICKNESS_FT
    footing = plan.masonry.footing
    footing_plf = CONCRETE_PCF * footing.width_ft * footing.depth_ft if footing and cells.known else 0.0
    stretch, at = cells.stretch, cells.at_ft
    edges = [stretch.from_ft, *[c for c in at if stretch.from_ft < c < stretch.to_ft], stretch.to_ft]
    out = []
    for low, high in pairwise(edges):
        spacing = high - low if cells.known else math.inf
        grouted = wall_weight_psf(CELL_FT) * thick * CELL_FT / spacing * height_ft
        wall = wall_weight_psf(spacing) * thick * height_ft if cells.known else 0.0
        for a, b in _beside_openings(low, high, cells):
            out.append(_Bay(from_ft=a, to_ft=b, wall_plf=wall, cells_plf=grouted, footing_plf=footing_plf))
    return out


def _beside_openings(low_ft: float, high_ft: float, cells: Cells) -> list[tuple[float, float]]:
    out, at = [], low_ft
    for o in cells.openings:
        if o.from_ft < high_ft and o.to_ft > at:
            if o.from_ft > at:
                out.append((at, o.from_ft))
            at = o.to_ft
    return [*out, (at, high_ft)] if at < high_ft else out
