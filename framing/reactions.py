"""Loads + load path -> Reactions: every bearing's reaction in every case, and which case governs."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_GRAVITY, ASD_UPLIFT
from framing.errors import LoadError
from framing.load_path import LinearMap, Variant, build_map
from framing.loads import BEFORE_COVERING, FINISHED, GRAVITY, ROOF_LIVE, Loads
from framing.members import Framing
from framing.patches import Bools, Patches
from framing.pieces import Pieces
from framing.plan import Basis, Plan

Floats = NDArray[np.float64]
BALANCE_RATIO = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One load pattern by itself: its name, its basis and what it puts on the whole roof.

    `basis` is 'dead', 'live', 'mwfrs' or 'cladding'; `variant` says where horizontal parts are held ('heel' or
    'deck'; '' for gravity). Both vertical figures are positive up: what the roof receives, and what all the
    bearings together receive from it; they are equal.
    """

    name: str
    basis: str
    variant: str
    area_ft2: float | None
    applied_vertical_lb: float
    reactions_vertical_lb: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reactions:
    """Every bearing's reaction in every case.

    `by_case_lb` is (n_bearings, n_cases): what the bearing receives, positive up, unfactored, at strength
    level for wind. `uplift_lb` is the governing ASD net uplift (0 where nothing lifts), `down_lb` the
    largest gravity reaction, `wind_lb` the governing wind uplift, `dead_for_uplift_lb` the dead load that
    resists (positive down), `governing` the index of the governing case. A bearing reads only the cladding
    cases of its own member's effective wind area.

    The dead load is the finished roof's (`finished_dead_lb`, `finished_uplift_lb`) or the one before the covering is
    on (`bare_dead_lb`, `bare_uplift_lb`); where `before_covering` that one governs, never if the plan leaves it out.
    """

    cases: tuple[Case, ...]
    by_case_lb: Floats
    uplift_lb: Floats
    down_lb: Floats
    wind_lb: Floats
    dead_for_uplift_lb: Floats
    finished_dead_lb: Floats
    finished_uplift_lb: Floats
    bare_dead_lb: Floats
    bare_uplift_lb: Floats
    before_covering: Bools
    governing: NDArray[np.int64]


def build_reactions(plan: Plan, framing: Framing, patches: Patches, pieces: Pieces, loads: Loads) -> Reactions:
    """Every case through the linear map of both variants, and the worse at each bearing.

    Raises
    ------
    LoadError
        If what a case applies is not what the bearings receive (a fault of the program, never of the plan).
    """
    gravity = [c for c in loads.cases if c.basis in ("dead", "live")]
    wind = [c for c in loads.cases if c.basis in ("mwfrs", "cladding")]
    maps = {v: build_map(framing, patches, pieces, plan.roof.rise_per_run, plan.wall_thickness_ft, v) for v in Variant}
    columns = [maps[Variant.DECK].apply(np.column_stack([c.force_lb for c in gravity]))]
    cases = [(c, "") for c in gravity]
    force = np.column_stack([c.force_lb for c in wind])
    for variant in Variant:
        columns.append(maps[variant].apply(force))
        cases += [(c, variant.value) for c in wind]
    by_case = np.column_stack(columns)
    total = by_case.sum(axis=0)
    named = tuple(
        Case(
            name=f"{c.name}, {v}" if v else c.name,
            basis=c.basis,
            variant=v,
            area_ft2=c.area_ft2,
            applied_vertical_lb=float(c.force_lb.sum()),
            reactions_vertical_lb=float(total[i]),
        )
        for i, (c, v) in enumerate(cases)
    )
    _check_balance(named, maps, [float(np.abs(c.force_lb).sum()) for c, _ in cases])
    return _governed(plan, framing, loads, named, by_case)


def _check_balance(cases: tuple[Case, ...], maps: dict[Variant, LinearMap], gross: list[float]) -> None:
    for case, scale in zip(cases, gross, strict=True):
        if abs(case.applied_vertical_lb - case.reactions_vertical_lb) > BALANCE_RATIO * max(scale, 1.0):
            raise LoadError(f"case '{case.name}': the reactions do not add up to the load; please report this plan")
    for variant, m in maps.items():
        if m.n_pieces and np.abs(m.column_sums() - 1.0).max() > BALANCE_RATIO:
            raise LoadError(f"load path ({variant}): a piece of roof is not carried whole; please report this plan")


def _governed(plan: Plan, framing: Framing, loads: Loads, cases: tuple[Case, ...], by_case: Floats) -> Reactions:
    """The worse of the cases that the plan's basis asks for, and of the roof finished or bare, at each bearing.

    Source: ASCE 7-22, sec. 2.4.1, combinations 7a (0.6 D + 0.6 W) and 3a (D + L_r).
    """
    index = {m.name: i for i, m in enumerate(framing.members)}
    area = np.array([loads.area_of_member_ft2[index[b.member]] for b in framing.bearings])
    applies = np.zeros((len(framing.bearings), len(cases)), dtype=bool)
    for j, case in enumerate(cases):
        if case.basis == "mwfrs" and plan.wind.basis is not Basis.CLADDING:
            applies[:, j] = True
        elif case.basis == "cladding" and plan.wind.basis is not Basis.MWFRS and case.area_ft2 is not None:
            applies[:, j] = np.abs(area - case.area_ft2) < 1e-6
    column = {case.name: by_case[:, j] for j, case in enumerate(cases) if not case.variant}
    considered = np.where(applies, by_case, -np.inf)
    governing = considered.argmax(axis=1)
    wind = considered[np.arange(len(area)), governing]
    finished_dead, bare_dead = -column[FINISHED], -column[BEFORE_COVERING]
    finished, bare = (np.maximum(ASD_UPLIFT.net_uplift(wind, dead), 0.0) for dead in (finished_dead, bare_dead))
    before = np.full(len(area), plan.dead.without_covering) & (bare_dead < finished_dead)
    down = -(ASD_GRAVITY.dead_factor * column[GRAVITY] + ASD_GRAVITY.roof_live_factor * column[ROOF_LIVE])
    return Reactions(
        cases=cases,
        by_case_lb=by_case,
        uplift_lb=np.where(before, bare, finished),
        down_lb=np.maximum(down, 0.0),
        wind_lb=wind,
        dead_for_uplift_lb=np.where(before, bare_dead, finished_dead),
        finished_dead_lb=finished_dead,
        finished_uplift_lb=finished,
        bare_dead_lb=bare_dead,
        bare_uplift_lb=bare,
        before_covering=before,
        governing=governing,
    )
