"""Reactions + sideways pushes -> what every bearing asks of its anchor, case by case.

An anchor's uplift, push square and push along are those of the same main-frame case, in the variant that belongs to
what holds the tops of the walls; the other variant bounds uplift alone. Cladding pressures are checked each alone: the
roof's (uplift) and the wall's (push square). The least horizontal loads are cases of their own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from framing.anchors.interaction import Demand
from framing.anchors.stated import Stated
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.loads.cases import GravityLoad, LoadBasis, Loads
from framing.loads.load_path import Variant
from framing.loads.reactions import Case, Reactions
from framing.members import Framing
from framing.plan import Basis, Plan, RakeFrame
from framing.plan_masonry import TopsHeldBy
from framing.sideways.cladding_walls import CASES, LEAST_CASE
from framing.sideways.pushes import Sideways
from framing.tolerances import TIE_FT2

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class CaseKind(StrEnum):
    """What a case of an anchor's demand is made of."""

    MAIN_FRAME = "main frame"
    OTHER_VARIANT = "main frame, uplift alone"
    CLADDING_ROOF = "cladding on the roof, uplift alone"
    CLADDING_WALL = "cladding on the wall, push alone"
    LEAST = "least horizontal loads"


@dataclass(frozen=True, slots=True, kw_only=True)
class DemandCase:
    """One column of the demand: `names` has one name, or one for each bearing where each has a case of its own;
    `push_case` is the place of its pushes among the sideways cases, None where it has none of those.
    """

    kind: CaseKind
    names: tuple[str, ...]
    push_case: int | None = None

    def name(self, bearing: int) -> str:
        """Its name at a bearing."""
        return self.names[bearing] if len(self.names) > 1 else self.names[0]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Demands:
    """Every bearing's demand in k cases. `counts` (k,) says which the plan's basis asks for, `main_frame` (k,) which
    count by the main frame alone. `along_wall_lb` and `square_lb` (n, k) are the pushes on the wall's own axes.
    `uplift_mwfrs_lb` and `uplift_cladding_lb` (n,) are the net uplifts by either basis. `pushed` (n,) says whether a
    bearing holds any wall. `stated` has, by a bearing's place, the truss engineer's figures that stand for ours.
    """

    demand: Demand
    cases: tuple[DemandCase, ...]
    counts: Bools
    main_frame: Bools
    along_wall_lb: Floats
    square_lb: Floats
    uplift_mwfrs_lb: Floats
    uplift_cladding_lb: Floats
    pushed: Bools
    stated: Mapping[int, Stated] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Column:
    case: DemandCase
    wind_lb: Floats
    dead_lb: Floats
    push_lb: Floats  # (n, 2) in the frame
    grows: bool


def build_demands(plan: Plan, framing: Framing, loads: Loads, reactions: Reactions, sideways: Sideways) -> Demands:
    """Every case of every bearing.

    Source: ASCE 7-22, sec. 2.4.1, combination 7a (0.6 D + 0.6 W).
    """
    columns = [
        *_main_frame(plan, reactions, sideways),
        *_cladding_roof(plan, framing, loads, reactions),
        *_cladding_walls(framing, sideways),
        *_least(framing, sideways),
    ]
    push = np.stack([c.push_lb for c in columns], axis=1)
    truss, wall = truss_units(framing), wall_units(framing, sideways)
    kinds = np.array([c.case.kind for c in columns])
    roof, walls = kinds == CaseKind.CLADDING_ROOF, kinds == CaseKind.CLADDING_WALL
    main = ~roof & ~walls
    wind = np.column_stack([c.wind_lb for c in columns])
    dead = np.column_stack([c.dead_lb for c in columns])
    lift = np.maximum(0.0, ASD_UPLIFT.net_uplift(wind, dead))
    if plan.wind.basis is Basis.CLADDING:
        wind = np.where(main, 0.0, wind)
    held = {h.bearing for h in sideways.held}
    return Demands(
        demand=Demand(
            wind_lb=wind,
            dead_lb=dead,
            across_lb=_across(push, truss),
            along_lb=_along(push, truss),
            grows=np.array([c.grows for c in columns]),
        ),
        cases=tuple(c.case for c in columns),
        counts=main if plan.wind.basis is Basis.MWFRS else np.ones(len(columns), dtype=bool),
        main_frame=main,
        along_wall_lb=_along(push, wall),
        square_lb=_across(push, wall),
        uplift_mwfrs_lb=lift[:, main].max(axis=1, initial=0.0),
        uplift_cladding_lb=lift[:, roof].max(axis=1, initial=0.0),
        pushed=np.array([i in held for i in range(len(framing.bearings))]),
    )


def _along(push_lb: Floats, unit: Floats) -> Floats:
    out: Floats = np.abs(np.einsum("nkd,nd->nk", push_lb, unit))
    return out


def _across(push_lb: Floats, unit: Floats) -> Floats:
    return _along(push_lb, np.column_stack([-unit[:, 1], unit[:, 0]]))


def truss_units(framing: Framing) -> Floats:
    """The direction of each bearing's member, in the frame: a strap's axes are its truss's. (n, 2)"""
    along = {m.name: np.subtract(m.frame_ft[1], m.frame_ft[0]) for m in framing.members}
    each = np.array([along[b.member] for b in framing.bearings])
    out: Floats = each / np.hypot(each[:, 0], each[:, 1])[:, None]
    return out


def wall_units(framing: Framing, sideways: Sideways) -> Floats:
    """The direction of each bearing's wall or support, in the frame; square to its member where it has none. (n, 2)"""
    of = {s.name: s.unit for s in sideways.stretches}
    truss = truss_units(framing)
    return np.array([of.get(b.wall, (-t[1], t[0])) for b, t in zip(framing.bearings, truss, strict=True)])


def _resisting(plan: Plan, reactions: Reactions, like: Case) -> Floats:
    """The least dead load that counts against a wind case, the house standing as in it, positive down. (n,) [lb]"""
    counts = [GravityLoad.FINISHED]
    counts += [GravityLoad.BEFORE_COVERING] if plan.dead.without_covering else []
    found = [
        -reactions.by_case_lb[:, j]
        for j, c in enumerate(reactions.cases)
        if c.gravity in counts and _stand(c) == _stand(like)
    ]
    out: Floats = np.minimum.reduce(found)
    return out


def _stand(case: Case) -> tuple[bool, RakeFrame | None]:
    """How a case has the house stand."""
    return (case.lifted, case.rake)


def _main_frame(plan: Plan, reactions: Reactions, sideways: Sideways) -> list[_Column]:
    """Every main-frame case with its pushes in the variant that goes with them, and the other variant's worst alone."""
    own = Variant.DECK if plan.masonry.tops_held_by is TopsHeldBy.ROOF else Variant.HEEL
    place = {c.load: k for k, c in enumerate(sideways.cases) if not c.least}
    push = sideways.along_lb + sideways.square_lb
    out = []
    for j, c in enumerate(reactions.cases):
        if c.basis is LoadBasis.MWFRS and c.variant is own:
            out.append(
                _Column(
                    case=DemandCase(kind=CaseKind.MAIN_FRAME, names=(c.name,), push_case=place[c.load]),
                    wind_lb=reactions.by_case_lb[:, j],
                    dead_lb=_resisting(plan, reactions, c),
                    push_lb=push[:, place[c.load]],
                    grows=True,
                )
            )
    others = [j for j, c in enumerate(reactions.cases) if c.basis is LoadBasis.MWFRS and c.variant is not own]
    return out + _worst_alone(plan, reactions, others, np.ones((len(push), len(others)), bool), CaseKind.OTHER_VARIANT)


def _cladding_roof(plan: Plan, framing: Framing, loads: Loads, reactions: Reactions) -> list[_Column]:
    """The worst of each bearing's own cladding cases."""
    row_of = {m.name: i for i, m in enumerate(framing.members)}
    own_ft2 = np.array([loads.area_of_member_ft2[row_of[b.member]] for b in framing.bearings])
    cases = [j for j, c in enumerate(reactions.cases) if c.basis is LoadBasis.CLADDING]
    areas = np.array([reactions.cases[j].area_ft2 or 0.0 for j in cases])
    return _worst_alone(plan, reactions, cases, np.abs(own_ft2[:, None] - areas) < TIE_FT2, CaseKind.CLADDING_ROOF)


def _worst_alone(plan: Plan, reactions: Reactions, cases: list[int], own: Bools, kind: CaseKind) -> list[_Column]:
    """Uplift alone: of the cases in each way that the house may stand, each bearing's worst."""
    out = []
    for stand in dict.fromkeys(_stand(reactions.cases[j]) for j in cases):
        here = [k for k, j in enumerate(cases) if _stand(reactions.cases[j]) == stand]
        wind = np.where(own[:, here], reactions.by_case_lb[:, [cases[k] for k in here]], -np.inf)
        worst = wind.argmax(axis=1)
        found: list[Case] = [reactions.cases[cases[here[k]]] for k in worst.tolist()]
        out.append(
            _Column(
                case=DemandCase(kind=kind, names=tuple(c.name for c in found)),
                wind_lb=wind[np.arange(len(wind)), worst],
                dead_lb=_resisting(plan, reactions, found[0]),
                push_lb=np.zeros((len(wind), 2)),
                grows=True,
            )
        )
    return out


def _cladding_walls(framing: Framing, sideways: Sideways) -> list[_Column]:
    """The walls' pushes as components, each with either sign, and by the least net pressure."""
    none, found = np.zeros(len(framing.bearings)), sideways.cladding
    cases = [(name, found.push_lb[:, j], True) for j, name in enumerate(CASES)]
    return [
        _Column(
            case=DemandCase(kind=CaseKind.CLADDING_WALL, names=(name,)),
            wind_lb=none,
            dead_lb=none,
            push_lb=push,
            grows=grows,
        )
        for name, push, grows in (*cases, (LEAST_CASE, found.least_lb, False))
    ]


def _least(framing: Framing, sideways: Sideways) -> list[_Column]:
    none, push = np.zeros(len(framing.bearings)), sideways.along_lb + sideways.square_lb
    return [
        _Column(
            case=DemandCase(kind=CaseKind.LEAST, names=(c.name,), push_case=k),
            wind_lb=none,
            dead_lb=none,
            push_lb=push[:, k],
            grows=False,
        )
        for k, c in enumerate(sideways.cases)
        if c.least
    ]
