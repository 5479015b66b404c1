"""Demands + catalogue -> AnchorSchedule: the lightest anchor that holds each bearing."""

from __future__ import annotations

from typing import TypedDict

import numpy as np
from numpy.typing import NDArray

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.demands import CaseKind, Demands
from framing.anchors.house_minimum import check_minimum, least_uplift_lb
from framing.anchors.in_the_beam import beam_faults
from framing.anchors.interaction import Allowable, Demand, ratios, speed_ratios, used
from framing.anchors.schedule import (
    BEFORE,
    FASTEST_MPH,
    FINISHED_ROOF,
    AnchorSchedule,
    Full,
    Mark,
    Totals,
    Use,
)
from framing.anchors.stated import Stated
from framing.loads.cases import LoadBasis
from framing.loads.reactions import Reactions
from framing.members import Framing
from framing.plan import Plan, Side


def assign_anchors(
    plan: Plan, framing: Framing, reactions: Reactions, demands: Demands, catalogue: Catalogue
) -> AnchorSchedule:
    """Every bearing with the lightest anchor that holds it and is not under the house minimum.

    Raises
    ------
    PlanError
        If the house minimum is neither pounds nor in the catalogue; names the nearest id.
    """
    check_minimum(plan.anchors.minimum, catalogue)
    in_order = {p: _in_order(catalogue, p, plan.anchors.minimum) for p in {b.plies for b in framing.bearings}}
    anchors, refused = _lightest(plan, framing, demands, in_order, demands.counts)
    marks = _marks(plan, framing, reactions, demands, anchors, refused)
    alone, _ = _lightest(plan, framing, demands, in_order, demands.main_frame)
    return AnchorSchedule(
        catalogue=catalogue,
        marks=marks,
        totals=_totals(framing, anchors),
        main_frame_alone=_totals(framing, alone),
    )


def _lightest(
    plan: Plan, framing: Framing, demands: Demands, in_order: dict[int, list[Anchor]], counts: NDArray[np.bool_]
) -> tuple[list[Anchor | None], dict[int, str]]:
    """The first row that holds each bearing in the cases that count and that the beam can hold; by the bearing's place
    why the beam cannot hold the first that would carry it.
    """
    out: list[Anchor | None] = [None] * len(framing.bearings)
    refused: dict[int, str] = {}
    plies = np.array([b.plies for b in framing.bearings])
    asks = np.array([not b.by_engineer for b in framing.bearings])
    for n, rows in in_order.items():
        left = np.flatnonzero((plies == n) & asks)
        for anchor in rows:
            if not len(left):
                break
            most = anchor.allowable
            held = used(ratios(demands.demand.of(left, counts), most), most.rule).max(axis=1) <= 1.0
            for k in np.flatnonzero(held).tolist():
                i = int(left[k])
                if faults := beam_faults(plan, framing.bearings[i], anchor):
                    refused.setdefault(i, f"{anchor.id}{' (pair)' if anchor.count > 1 else ''}: {'; '.join(faults)}")
                    held[k] = False
                else:
                    out[i] = anchor
            left = left[~held]
    return out, refused


def _totals(framing: Framing, anchors: list[Anchor | None]) -> Totals:
    return Totals(
        n_anchors=sum(a.count for a in anchors if a),
        price=sum(a.price for a in anchors if a),
        n_unresolved=sum(a is None and not b.by_engineer for a, b in zip(anchors, framing.bearings, strict=True)),
    )


def _in_order(catalogue: Catalogue, plies: int, minimum: str) -> list[Anchor]:
    """The rows that may stand at that ply count, the one to prefer first: the least allowable uplift, then the price,
    then the file's order; every single before any pair, pairs only from their own row; none lighter than the house
    minimum.
    """
    rows = [a for a in catalogue.anchors if a.plies == plies and a.kind is AnchorKind.CAST]
    floor = least_uplift_lb(minimum, catalogue, plies)
    fit = [a for a in rows if a.count > 1 or a.allowable_uplift_lb >= floor or a.id == minimum]
    return sorted(fit, key=lambda a: (a.count, a.allowable_uplift_lb, a.price, a.order))


def _marks(
    plan: Plan,
    framing: Framing,
    reactions: Reactions,
    demands: Demands,
    anchors: list[Anchor | None],
    refused: dict[int, str],
) -> tuple[Mark, ...]:
    uses = _uses(plan, demands, anchors)
    counts = demands.counts
    along, square = (push[:, counts].max(axis=1) for push in (demands.along_wall_lb, demands.square_lb))
    out = []
    for i, (bearing, anchor) in enumerate(zip(framing.bearings, anchors, strict=True)):
        use = uses.get(i)
        count = anchor.count if anchor is not None else 0
        pushed = bool(demands.pushed[i])
        out.append(
            Mark(
                bearing=bearing,
                side=Side.BOTH if count > 1 else bearing.side,
                down_lb=_down_lb(reactions, demands.stated.get(i), i),
                parallel_lb=float(along[i]) if pushed else None,
                perpendicular_lb=float(square[i]) if pushed else None,
                **_uplift(reactions, demands.stated.get(i), i),
                storm=BEFORE if reactions.before_covering[i] else FINISHED_ROOF,
                uplift_mwfrs_lb=float(demands.uplift_mwfrs_lb[i]),
                uplift_cladding_lb=float(demands.uplift_cladding_lb[i]),
                anchor=anchor,
                count=count,
                allowable_uplift_lb=anchor.allowable_uplift_lb if anchor is not None else None,
                ratio=_ratio(use),
                good_to_mph=use.full.mph if use and use.full else None,
                use=use,
                clear_ft=None,
                beam_refuses=refused.get(i, ""),
                stated=demands.stated.get(i),
            )
        )
    return tuple(out)


class _Uplift(TypedDict):
    uplift_lb: float
    basis: LoadBasis
    case: str


def _uplift(reactions: Reactions, stated: Stated | None, i: int) -> _Uplift:
    """The uplift that governs a bearing and what makes it: the package's where it is not ours."""
    if stated is not None and stated.replaces:
        return _Uplift(uplift_lb=stated.uplift_lb, basis=LoadBasis.PACKAGE, case=stated.source)
    case = reactions.cases[int(reactions.governing[i])]
    return _Uplift(uplift_lb=float(reactions.uplift_lb[i]), basis=case.basis, case=case.name)


def _down_lb(reactions: Reactions, stated: Stated | None, i: int) -> float:
    ours_lb = float(reactions.down_lb[i])
    return ours_lb if stated is None else stated.governing_down_lb(ours_lb)


def _ratio(use: Use | None) -> float | None:
    if use is None:
        return None
    parts = np.array([use.uplift_ratio, use.parallel_ratio or 0.0, use.perpendicular_ratio or 0.0])
    return float(used(parts, use.rule))


def _uses(plan: Plan, demands: Demands, anchors: list[Anchor | None]) -> dict[int, Use]:
    """Each anchor's hardest case, by the bearing's place; those of one row are worked together."""
    rows: dict[int, tuple[Anchor, list[int]]] = {}
    for i, anchor in enumerate(anchors):
        if anchor is not None:
            rows.setdefault(anchor.order, (anchor, []))[1].append(i)
    uses: dict[int, Use] = {}
    columns = np.flatnonzero(demands.counts)
    for anchor, found in rows.values():
        most, at = anchor.allowable, np.array(found)
        asked = demands.demand.of(at, demands.counts)
        parts, lift = ratios(asked, most), asked.uplift_lb
        hardest = used(parts, most.rule).argmax(axis=1)
        doubled = _cladding_with_sideways(demands, at, most)
        full = _full(plan, demands, asked, most, found)
        for k, (i, j) in enumerate(zip(found, hardest.tolist(), strict=True)):
            case = demands.cases[columns[j]]
            up, parallel, perpendicular = parts[k, j].tolist()
            uses[i] = Use(
                case=case.name(i),
                kind=case.kind,
                push_case=case.push_case,
                rule=most.rule,
                wind_lb=float(asked.wind_lb[k, j]),
                dead_lb=float(asked.dead_lb[k, j]),
                uplift_lb=float(lift[k, j]),
                parallel_lb=float(asked.across_lb[k, j]),
                perpendicular_lb=float(asked.along_lb[k, j]),
                uplift_ratio=up,
                parallel_ratio=parallel if most.parallel_lb is not None else None,
                perpendicular_ratio=perpendicular if most.perpendicular_lb is not None else None,
                cladding_with_sideways_ratio=float(doubled[k]),
                full=full[k],
            )
    return uses


def _full(plan: Plan, demands: Demands, asked: Demand, most: Allowable, found: list[int]) -> list[Full | None]:
    """Where each anchor is full first.

    Source: ASCE 7-22, eq. 26.10-1 (wind force goes with the square of the speed).
    """
    mph = plan.wind.speed_mph * speed_ratios(asked, most)
    columns, out = np.flatnonzero(demands.counts), []
    for k, (i, j) in enumerate(zip(found, mph.argmin(axis=1).tolist(), strict=True)):
        full = Full(
            case=demands.cases[columns[j]].name(i),
            mph=float(mph[k, j]),
            wind_lb=float(asked.wind_lb[k, j]),
            dead_lb=float(asked.dead_lb[k, j]),
            parallel_lb=float(asked.across_lb[k, j]),
            perpendicular_lb=float(asked.along_lb[k, j]),
            grows=bool(asked.grows[j]),
        )
        out.append(full if full.mph <= FASTEST_MPH else None)
    return out


def _cladding_with_sideways(demands: Demands, at: NDArray[np.int64], most: Allowable) -> NDArray[np.float64]:
    """The cladding's uplift with the main frame's pushes: the largest ratio. (n,)"""
    main = np.array([c.kind is CaseKind.MAIN_FRAME for c in demands.cases])
    parts = ratios(demands.demand.of(at, main), most)
    parts[:, :, 0] = (demands.uplift_cladding_lb[at] / most.uplift_lb)[:, None]
    out: NDArray[np.float64] = used(parts, most.rule).max(axis=1)
    return out
