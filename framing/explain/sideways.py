"""Run -> why a mark is pushed sideways: the lines that add up to it, and those that add up to a line of the deck.

Every figure is ASD: 0.6 of a pressure with its zone and coefficients, on an area, times the share that comes here.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter28 import LEAST_ROOF_PSF
from framing.asce7.edition import edition
from framing.plan_masonry import TopsHeldBy
from framing.run import Run
from framing.sideways.case_loads import LEAST, wind_of
from framing.sideways.deck import ends_of_areas, ends_of_points, line_forces_lb, on_line
from framing.sideways.thrust import held_at_bearings
from framing.sideways.wall_parts import parts_of
from framing.sideways.wall_pressures import wall_coefficients, wall_tables
from framing.tolerances import ROUNDING
from framing.wind.patches import Floats
from framing.wind.pressures import Names

SAME_SLOPE_DECIMALS = 6
Rows = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """One line of the arithmetic: lb = psf x area_ft2 x slope x share. `psf` is 0.6 q K_d (outside - inside), toward
    the surface positive, or 0.6 of the least load, for which the coefficients are None; `slope_ratio` what of it is
    horizontal this way, `share_ratio` the part that comes here.
    """

    what: str
    zone: str
    q_K_d_psf: float | None
    outside_factor: float | None
    inside_factor: float | None
    psf: float
    area_ft2: float
    slope_ratio: float
    share_ratio: float

    @property
    def lb(self) -> float:
        """What comes here. [lb]"""
        return self.psf * self.area_ft2 * self.slope_ratio * self.share_ratio


@dataclass(frozen=True, slots=True, kw_only=True)
class AlongPart:
    """A bearing's part of a line's force: the stretch's length of the line's, the bearing's own of the stretch's."""

    axis: int
    line: int
    wall: str
    line_lb: float
    stretch_ft: float
    line_ft: float
    own_ft: float
    whole_ft: float

    @property
    def lb(self) -> float:
        """What comes to the bearing. [lb]"""
        return self.line_lb * self.stretch_ft / self.line_ft * self.own_ft / self.whole_ft


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkPushes:
    """What pushes one mark in one case: square to its wall or in its member's plane, and from the deck's lines."""

    case: int
    square: tuple[Push, ...]
    along: tuple[AlongPart, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinePushes:
    """What comes to one line of the deck in one case; `with_roof` False where the roof's own part is left out, which
    makes the larger force. `turning_lb` is what the forces along the other axis bring, where a single line holds those.
    """

    axis: int
    line: int
    case: int
    with_roof: bool
    pushes: tuple[Push, ...]
    turning_lb: float
    lb: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Made:
    """What the pressures of a case are made of, on n parts of walls or patches: all (n,)."""

    zone: Names
    factors: tuple[Floats, Floats] | None  # outside and inside; None for the least loads
    q_psf: float | None
    psf: Floats


def mark_pushes(run: Run, bearing: int, case: int) -> MarkPushes:
    """The pushes on a bearing in a case, its place among the sideways cases.

    Source: own derivation: tests/parts/test_trace_sideways.py.
    """
    square = (*_wall_pushes(run, bearing, case), *_thrust(run, bearing, case))
    return MarkPushes(case=case, square=square, along=tuple(_along(run, bearing, case)))


def line_pushes(run: Run, axis: int, line: int, case: int) -> LinePushes:
    """What adds up to the force on a line of the deck in a case.

    Source: own derivation: tests/parts/test_trace_sideways.py.
    """
    found = run.sideways
    with_roof, without = (line_forces_lb(found.deck, r)[axis][line, case] for r in found.readings)
    counts = bool(abs(with_roof) >= abs(without))
    pushes = [*_walls_to_line(run, axis, line, case), *(_roof_to_line(run, axis, line, case) if counts else ())]
    lb = float(found.lines_lb[axis][line, case])
    alone = len(found.deck.lines[1 - axis]) == 1
    return LinePushes(
        axis=axis,
        line=line,
        case=case,
        with_roof=counts,
        pushes=tuple(pushes),
        turning_lb=lb - sum(p.lb for p in pushes) if alone else 0.0,
        lb=lb,
    )


@lru_cache(maxsize=128)
def _wall_psf(run: Run, k: int) -> _Made:
    """The pressures of a case on the parts of walls."""
    found, parts, case = run.sideways, run.sideways.parts, run.sideways.cases[k]
    psf = -np.einsum("pd,pd->p", found.loads.wall_psf[:, k], parts.outward)
    if case.least:
        return _Made(zone=np.full(len(psf), LEAST), factors=None, q_psf=None, psf=psf)
    wind = wind_of(run.loads, case).wind
    if wind is None or wind.pattern is None:
        raise ValueError(case.name)
    tables = wall_tables(edition(run.plan.wind.edition), run.plan.roof.theta_deg)
    made = wall_coefficients(run.roof, parts, run.loads.widths, tables, wind.pattern)
    inside = np.full(len(psf), wind.internal_factor)
    return _Made(zone=made.zone, factors=(made.outside_factor, inside), q_psf=wind.q_K_d_psf, psf=psf)


@lru_cache(maxsize=128)
def _roof_psf(run: Run, k: int) -> _Made:
    """The pressures of a case on the patches, an overhang's underside left out."""
    n, case = len(run.patches.side), run.sideways.cases[k]
    if case.least:
        psf = np.full(n, ASD_UPLIFT.wind_factor * LEAST_ROOF_PSF)
        return _Made(zone=np.full(n, LEAST), factors=None, q_psf=None, psf=psf)
    wind = wind_of(run.loads, case).wind
    if wind is None:
        raise ValueError(case.name)
    psf = ASD_UPLIFT.wind_factor * wind.q_K_d_psf * (wind.outside_factor - wind.inside_factor)
    return _Made(
        zone=wind.zone,
        factors=(wind.outside_factor, wind.inside_factor),
        q_psf=wind.q_K_d_psf,
        psf=psf,
    )


@lru_cache(maxsize=2)
def _parts(run: Run) -> tuple[slice, ...]:
    """The parts of wall of each held length."""
    found = run.sideways
    return tuple(parts_of(found.parts, found.held, found.stretches))


def _grouped(
    made: _Made, row: np.ndarray, area: Floats, slope: Floats, share: Floats, what: list[str]
) -> Iterator[Push]:
    """The rows of one pressure, slope and name together, their shares by their areas."""
    groups: dict[tuple[object, ...], list[int]] = {}
    for i, r in enumerate(row.tolist()):
        if abs(made.psf[r] * area[i] * slope[i] * share[i]) > ROUNDING:
            made_of = tuple(f[r] for f in made.factors or ())
            groups.setdefault((what[i], made.zone[r], made_of, round(slope[i], SAME_SLOPE_DECIMALS)), []).append(i)
    for (name, zone, *_), mine in groups.items():
        r, whole = int(row[mine[0]]), float(area[mine].sum())
        yield Push(
            what=str(name),
            zone=str(zone),
            q_K_d_psf=made.q_psf,
            outside_factor=float(made.factors[0][r]) if made.factors else None,
            inside_factor=float(made.factors[1][r]) if made.factors else None,
            psf=float(made.psf[r]),
            area_ft2=whole,
            slope_ratio=float(slope[mine[0]]),
            share_ratio=float(area[mine] @ share[mine]) / whole,
        )


def _wall_pushes(run: Run, bearing: int, case: int) -> Iterator[Push]:
    """The walls' push on a bearing; inward positive, so that the slope is 1."""
    found, parts = run.sideways, run.sideways.parts
    by_roof = found.tops_held_by is TopsHeldBy.ROOF
    area = parts.half_ft2 if by_roof else np.where(parts.gable, parts.above_ft2 / 2.0, 0.0)
    what = "upper half of" if by_roof else "lower half of the gable's triangle over"
    made = _wall_psf(run, case)
    for h, own in zip(found.held, _parts(run), strict=True):
        if h.bearing == bearing:
            row = np.arange(own.start, own.stop)
            names = [f"{what} {n}" for n in parts.name[row].tolist()]
            ones = np.ones(len(row))
            yield from _grouped(made, row, area[row] * h.share_ratio, ones, ones, names)


def _thrust(run: Run, bearing: int, case: int) -> Iterator[Push]:
    """The thrust of a bearing's member in its own plane, where its bearing holds it."""
    found, pieces = run.sideways, run.pieces
    if found.tops_held_by is TopsHeldBy.ROOF or run.framing.bearings[bearing].by_engineer:
        return
    member = [m.name for m in run.framing.members].index(run.framing.bearings[bearing].member)
    push = found.loads.roof_psf[pieces.patch, case] * pieces.area_ft2[:, None]
    own = push - held_at_bearings(run.framing, pieces, push[:, None, :]).deck_lb[:, 0]
    mine = np.flatnonzero(pieces.way.member == member)
    along = np.einsum("pd,pd->p", own[mine], pieces.way.unit[mine])
    yield from _roof_rows(run, case, mine, along, np.ones(len(mine)), f"roof on {run.framing.bearings[bearing].member}")


def _roof_rows(run: Run, case: int, pieces_row: Rows, lb: Floats, share: Floats, what: str) -> Iterator[Push]:
    """Forces on pieces, each as its pressure x area x what of it is horizontal this way."""
    made = _roof_psf(run, case)
    patch, area = run.pieces.patch[pieces_row], run.pieces.area_ft2[pieces_row]
    full = made.psf[patch] * area
    slope = np.divide(lb, full, out=np.zeros(len(lb)), where=np.abs(full) > ROUNDING)
    yield from _grouped(made, patch, area, slope, share, [what] * len(patch))


def _along(run: Run, bearing: int, case: int) -> Iterator[AlongPart]:
    found = run.sideways
    for h in found.held:
        if h.bearing != bearing:
            continue
        whole = sum(o.length_ft for o in found.held if o.stretch == h.stretch)
        for axis in (0, 1):
            for i, line in enumerate(found.deck.lines[axis]):
                if h.stretch in line.stretches:
                    yield AlongPart(
                        axis=axis,
                        line=i,
                        wall=found.stretches[h.stretch].name,
                        line_lb=float(found.lines_lb[axis][i, case]),
                        stretch_ft=line.lengths_ft[line.stretches.index(h.stretch)],
                        line_ft=line.length_ft,
                        own_ft=h.length_ft,
                        whole_ft=whole,
                    )


def _walls_to_line(run: Run, axis: int, line: int, case: int) -> Iterator[Push]:
    """Upper halves and what stands over the beam, wall by wall."""
    found, parts = run.sideways, run.sideways.parts
    by_roof = found.tops_held_by is TopsHeldBy.ROOF
    made, row = _wall_psf(run, case), np.arange(len(parts.wall))
    slope = -parts.outward[:, axis]
    if found.cases[case].least:  # the wind pushes its own way, not square to a wall at an angle
        square = np.abs(np.einsum("pd,pd->p", found.loads.wall_psf[:, case], parts.outward))
        slope = np.divide(found.loads.wall_psf[:, case, axis], square, out=np.zeros(len(row)), where=square > ROUNDING)
    over = ["gable over" if g else "heel over" for g in parts.gable.tolist()]
    kinds = [
        ([f"{o} {n}" for o, n in zip(over, parts.name.tolist(), strict=True)], parts.above_middle_ft, parts.above_ft2)
    ]
    if by_roof:
        kinds.insert(0, ([f"upper half of {n}" for n in parts.name.tolist()], parts.middle_ft, parts.half_ft2))
    for names, middle, area in kinds:
        whole = area if by_roof else area * np.where(parts.gable, 0.5, 1.0)
        share = on_line(found.deck, ends_of_points(found.deck, middle, axis), axis, line)
        yield from _grouped(made, row, whole, slope, share, names)


def _roof_to_line(run: Run, axis: int, line: int, case: int) -> Iterator[Push]:
    """The roof's own horizontal part: all of it, or what the bearings leave to the deck."""
    found, pieces, deck = run.sideways, run.pieces, run.sideways.deck
    if found.tops_held_by is TopsHeldBy.ROOF:
        made, patches = _roof_psf(run, case), run.patches
        area, full = np.asarray(shapely.area(patches.polygon)), found.loads.roof_psf[:, case, axis]
        slope = np.divide(full, made.psf, out=np.zeros(len(area)), where=np.abs(made.psf) > ROUNDING)
        share = on_line(deck, ends_of_areas(deck, patches.polygon, axis), axis, line)
        yield from _grouped(made, np.arange(len(area)), area, slope, share, ["roof"] * len(area))
        return
    push = found.loads.roof_psf[pieces.patch, case] * pieces.area_ft2[:, None]
    left = held_at_bearings(run.framing, pieces, push[:, None, :]).deck_lb[:, 0, axis]
    share = on_line(deck, ends_of_points(deck, pieces.centre_ft, axis), axis, line)
    yield from _roof_rows(run, case, np.arange(len(left)), left, share, "roof left to the deck")
