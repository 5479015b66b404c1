"""Loads + load path -> Reactions: every bearing's reaction in every case, and which case governs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from framing.asce7.chapter2 import ASD_GRAVITY, ASD_UPLIFT
from framing.errors import LoadError
from framing.loads.cases import GravityLoad, LoadBasis, LoadCase, Loads
from framing.loads.load_path import LinearMap, Variant, build_map
from framing.loads.pieces import Pieces
from framing.loads.rake_frames import framed_by, rake_frames
from framing.members import Framing
from framing.plan import Basis, Plan, RakeFrame
from framing.tolerances import ROUNDING, TIE_FT2
from framing.wind.patches import Bools, Patches

Floats = NDArray[np.float64]
LIFTED_WORDS, LADDER_WORDS = "lifted off the supports", "rakes as ladders"


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One load pattern by itself: its name, its basis and what it puts on the whole roof; `load` names the load case,
    `gravity` says which weight it is.

    `variant` says where horizontal parts are held (None for gravity), `lifted` that the members are taken as lifted
    off the supports that only push, `rake` what carries the rakes (None where that makes no difference). Both vertical
    figures are positive up: what the roof receives, and what all the bearings and rests together receive from it; they
    are equal.
    """

    name: str
    load: str
    basis: LoadBasis
    gravity: GravityLoad | None
    variant: Variant | None
    lifted: bool
    rake: RakeFrame | None
    area_ft2: float | None
    applied_vertical_lb: float
    reactions_vertical_lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """How the house is taken to stand: lifted off the supports that only push or on them, its rakes carried how."""

    lifted: bool
    rake: RakeFrame | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One linear map's assumptions."""

    variant: Variant
    stand: Stand


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reactions:
    """Every bearing's reaction in every case.

    `by_case_lb` is (n_bearings, n_cases): what the bearing receives, positive up, unfactored, at strength
    level for wind. `uplift_lb` is the governing ASD net uplift (0 where nothing lifts), `down_lb` the
    largest gravity reaction, `down_parts_lb` (n_bearings, 2) its dead and its roof live load, `wind_lb` the
    governing wind uplift, `dead_for_uplift_lb` the dead load that resists (positive down), `governing` the index of
    the governing case. A bearing reads only the cladding cases of its own member's effective wind area.

    `rests_by_case_lb` (n_rests, n_cases) and `rests_down_lb` (n_rests,) are the same for the supports that only push.
    Where there are any, each case that lifts and each dead load that resists is kept twice, on them and lifted off
    them; and where the rakes are reckoned both ways, every case once for each. The worse pair governs each bearing.

    The dead load is the finished roof's (`finished_dead_lb`, `finished_uplift_lb`) or the one before the covering is
    on (`bare_dead_lb`, `bare_uplift_lb`); where `before_covering` that one governs, never if the plan leaves it out.
    """

    cases: tuple[Case, ...]
    by_case_lb: Floats
    uplift_lb: Floats
    down_lb: Floats
    down_parts_lb: Floats
    wind_lb: Floats
    dead_for_uplift_lb: Floats
    finished_dead_lb: Floats
    finished_uplift_lb: Floats
    bare_dead_lb: Floats
    bare_uplift_lb: Floats
    before_covering: Bools
    governing: NDArray[np.int64]
    rests_by_case_lb: Floats
    rests_down_lb: Floats


def build_maps(plan: Plan, framing: Framing, patches: Patches, pieces: Pieces) -> dict[Way, LinearMap]:
    """The linear maps of both variants, for every way in which the house may stand."""
    ways = [Way(variant=v, stand=s) for s in _stands(plan, framing) for v in Variant]
    return {
        way: build_map(plan, framed_by(framing, way.stand.rake), patches, pieces, way.variant, lifted=way.stand.lifted)
        for way in ways
    }


def build_reactions(plan: Plan, framing: Framing, loads: Loads, maps: Mapping[Way, LinearMap]) -> Reactions:
    """Every case through the linear map of both variants, on the supports and lifted off those that only push, with
    the rakes carried in every way that the plan leaves open, and the worse at each bearing.

    Raises
    ------
    LoadError
        If what a case applies is not what the bearings receive (a fault of the program, never of the plan).
    """
    gravity = [c for c in loads.cases if not c.basis.is_wind]
    resisting = [c for c in gravity if c.gravity is not None and c.gravity.resists]
    wind = [c for c in loads.cases if c.basis.is_wind]
    stands = _stands(plan, framing)
    groups: list[tuple[list[LoadCase], bool, Way]] = [
        (resisting if stand.lifted else gravity, False, Way(variant=Variant.DECK, stand=stand)) for stand in stands
    ]
    groups += [(wind, True, way) for way in maps]
    by_case = np.column_stack([maps[way].apply(np.column_stack([c.force_lb for c in each])) for each, _, way in groups])
    total = by_case.sum(axis=0)
    cases = [(c, way.variant if blows else None, way.stand) for each, blows, way in groups for c in each]
    named = tuple(
        Case(
            name=", ".join(filter(None, (c.name, variant, *_words(stand, stands)))),
            load=c.name,
            basis=c.basis,
            gravity=c.gravity,
            variant=variant,
            lifted=stand.lifted,
            rake=stand.rake,
            area_ft2=c.area_ft2,
            applied_vertical_lb=float(c.force_lb.sum()),
            reactions_vertical_lb=float(total[i]),
        )
        for i, (c, variant, stand) in enumerate(cases)
    )
    _check_balance(named, maps, [float(np.abs(c.force_lb).sum()) for c, _, _ in cases])
    return _governed(plan, framing, loads, stands, named, by_case)


def _stands(plan: Plan, framing: Framing) -> tuple[Stand, ...]:
    off = (False, True) if framing.rests else (False,)
    return tuple(Stand(lifted=lifted, rake=rake) for lifted in off for rake in rake_frames(plan, framing))


def _words(stand: Stand, stands: tuple[Stand, ...]) -> tuple[str, ...]:
    """What a case's name says of how the house stands, besides the first way."""
    lifted = (LIFTED_WORDS,) if stand.lifted else ()
    return lifted if stand.rake is stands[0].rake else (*lifted, LADDER_WORDS)


def _check_balance(cases: tuple[Case, ...], maps: Mapping[Way, LinearMap], gross: list[float]) -> None:
    for case, scale in zip(cases, gross, strict=True):
        if abs(case.applied_vertical_lb - case.reactions_vertical_lb) > ROUNDING * max(scale, 1.0):
            raise LoadError(f"case '{case.name}': the reactions do not add up to the load; please report this plan")
    for way, m in maps.items():
        if m.n_pieces and np.abs(m.column_sums() - 1.0).max() > ROUNDING:
            raise LoadError(f"load path ({way.variant}): a piece of roof is not carried whole; please report this plan")


def _governed(
    plan: Plan, framing: Framing, loads: Loads, stands: tuple[Stand, ...], cases: tuple[Case, ...], by_case: Floats
) -> Reactions:
    """The worse of the cases that the plan's basis asks for, and of the roof finished or bare, at each bearing.

    Source: ASCE 7-22, sec. 2.4.1, combinations 7a (0.6 D + 0.6 W) and 3a (D + L_r).
    """
    index = {m.name: i for i, m in enumerate(framing.members)}
    area = np.array([loads.area_of_member_ft2[index[b.member]] for b in framing.bearings])
    n = len(area)
    column = {(c.gravity, c.lifted, c.rake): by_case[:n, j] for j, c in enumerate(cases) if c.gravity}
    best: dict[str, NDArray[Any]] = {}
    for stand in stands:
        considered = np.where(_that_count(plan, cases, area, stand), by_case[:n], -np.inf)
        governing = considered.argmax(axis=1)
        wind = considered[np.arange(n), governing]
        weights = (GravityLoad.FINISHED, GravityLoad.BEFORE_COVERING)
        finished, bare = (-column[weight, stand.lifted, stand.rake] for weight in weights)
        here = _resisted(plan, wind, finished, bare)
        here["governing"] = governing
        worse = here["net"] > best["net"] if best else np.ones(n, dtype=bool)
        best = {k: np.where(worse, here[k], best.get(k, here[k])) for k in here}
    pressing = _gravity(cases, by_case)
    down = pressing.sum(axis=1)
    return Reactions(
        cases=cases,
        by_case_lb=by_case[:n],
        uplift_lb=np.maximum(best["net"], 0.0),
        down_lb=np.maximum(down[:n], 0.0),
        down_parts_lb=pressing[:n],
        wind_lb=best["wind"],
        dead_for_uplift_lb=np.where(best["before"], best["bare_dead"], best["finished_dead"]),
        finished_dead_lb=best["finished_dead"],
        finished_uplift_lb=best["finished"],
        bare_dead_lb=best["bare_dead"],
        bare_uplift_lb=best["bare"],
        before_covering=best["before"],
        governing=best["governing"],
        rests_by_case_lb=by_case[n:],
        rests_down_lb=np.maximum(down[n:], 0.0),
    )


def _that_count(plan: Plan, cases: tuple[Case, ...], area_ft2: Floats, stand: Stand) -> Bools:
    """Which wind cases the plan's basis asks for at each bearing, of one way in which the house stands."""
    out = np.zeros((len(area_ft2), len(cases)), dtype=bool)
    for j, case in enumerate(cases):
        if (case.lifted, case.rake) != (stand.lifted, stand.rake):
            continue
        if case.basis is LoadBasis.MWFRS and plan.wind.basis is not Basis.CLADDING:
            out[:, j] = True
        elif case.basis is LoadBasis.CLADDING and plan.wind.basis is not Basis.MWFRS and case.area_ft2 is not None:
            out[:, j] = np.abs(area_ft2 - case.area_ft2) < TIE_FT2
    return out


def _resisted(plan: Plan, wind: Floats, finished_dead: Floats, bare_dead: Floats) -> dict[str, NDArray[Any]]:
    """The wind less the dead load of the finished and of the bare roof; `net` is what governs, negative too."""
    before = np.full(len(wind), plan.dead.without_covering) & (bare_dead < finished_dead)
    finished, bare = (ASD_UPLIFT.net_uplift(wind, dead) for dead in (finished_dead, bare_dead))
    return {
        "wind": wind,
        "finished_dead": finished_dead,
        "bare_dead": bare_dead,
        "before": before,
        "net": np.where(before, bare, finished),
        "finished": np.maximum(finished, 0.0),
        "bare": np.maximum(bare, 0.0),
    }


def _gravity(cases: tuple[Case, ...], by_case: Floats) -> Floats:
    """Dead and roof live load on every bearing and rest, of the way in which rakes are carried that presses it most,
    factored, positive down. (n, 2) [lb]
    """
    dead, live = (
        [j for j, case in enumerate(cases) if case.gravity is load]
        for load in (GravityLoad.PRESSING, GravityLoad.ROOF_LIVE)
    )
    both = -ASD_GRAVITY.dead_factor * by_case[:, dead], -ASD_GRAVITY.roof_live_factor * by_case[:, live]
    most = (both[0] + both[1]).argmax(axis=1)
    rows = np.arange(len(by_case))
    return np.column_stack([part[rows, most] for part in both])
