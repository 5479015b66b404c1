"""Run -> trace: the reaction of one mark taken apart into lines that a pocket calculator adds up again.

A reaction is a sum of two kinds of lines, at the bearing and again at every member end behind it: a piece of roof
(pressure x area x arm / span), and the end of another member that stands on this one (its reaction x arm / span).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from framing.explain.trace_pieces import (
    Lever,
    Pressures,
    RoofPart,
    Shares,
    bearings_ft,
    pressures_of,
    roof_parts_at,
    shares_of,
)
from framing.loads.continuous_beam import bearing_shares
from framing.loads.load_path import Variant
from framing.loads.reactions import Case
from framing.members import EndPath
from framing.plan import RakeFrame
from framing.run import Run


@dataclass(frozen=True, slots=True, kw_only=True)
class CarriedPart:
    """The end of another member that stands on this one: lb = force_lb x the lever's share. `end` is its place in
    the trace's list.
    """

    end: int
    force_lb: float
    lever: Lever
    lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EndTrace:
    """One end of a member: what it stands on, and the lines that add up to its reaction `lb`, positive up."""

    member: str
    stands_on: str
    roof: tuple[RoofPart, ...]
    carried: tuple[CarriedPart, ...]
    lb: float


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkTrace:
    """A mark's wind reaction in its governing case and its dead load against uplift, taken apart.

    The first end of either list is the one at the mark; the others are those that it takes load from, in turn.
    """

    mark: str
    case: Case
    dead_case: Case
    wind: tuple[EndTrace, ...]
    dead: tuple[EndTrace, ...]


def trace(run: Run, mark: str) -> MarkTrace:
    """The trace of one mark.

    Raises
    ------
    StopIteration
        If the schedule has no such mark.

    Source: own derivation: tests/parts/test_trace.py.
    """
    return next(t for t in traces(run, (mark,)) if t.mark == mark)


def traces(run: Run, marks: tuple[str, ...] | None = None) -> Iterator[MarkTrace]:
    """The traces of these marks, or of all, in the order of the schedule; what they share is worked out once."""
    ways = {(c.variant, c.lifted, c.rake) for c in run.reactions.cases if c.variant is not None}
    shares: dict[tuple[Variant | None, bool, RakeFrame | None], Shares] = {
        (variant, lifted, rake): shares_of(run, variant, rake, lifted=lifted) for variant, lifted, rake in ways
    }
    loads = {c.name: c for c in run.loads.cases}
    known: dict[str, Pressures] = {}
    for i, bearing in enumerate(run.framing.bearings):
        if marks is not None and bearing.mark not in marks:
            continue
        case = run.reactions.cases[int(run.reactions.governing[i])]
        dead = _resisting(run, i, case)
        load, resisting = loads[case.load], loads[dead.load]
        for each in (load, resisting):
            if each.name not in known:
                known[each.name] = pressures_of(run, each)
        yield MarkTrace(
            mark=bearing.mark,
            case=case,
            dead_case=dead,
            wind=_ends(run, shares[case.variant, case.lifted, case.rake], known[load.name], i),
            dead=_ends(run, shares[Variant.DECK, case.lifted, case.rake], known[resisting.name], i),
        )


def _resisting(run: Run, bearing: int, wind: Case) -> Case:
    """The dead load case that the reactions took against a wind case's uplift at a bearing."""
    taken_lb = -float(run.reactions.dead_for_uplift_lb[bearing])
    stand = (wind.lifted, wind.rake)
    resisting = [j for j, c in enumerate(run.reactions.cases) if c.gravity is not None and c.gravity.resists]
    dead = [j for j in resisting if (run.reactions.cases[j].lifted, run.reactions.cases[j].rake) == stand]
    at = min(dead, key=lambda j: abs(float(run.reactions.by_case_lb[bearing, j]) - taken_lb))
    return run.reactions.cases[at]


def _ends(run: Run, shares: Shares, pressures: Pressures, bearing: int) -> tuple[EndTrace, ...]:
    """Every end that the bearing's reaction comes from, the one at the bearing first."""
    nodes = [shares.node_at.get(bearing, 2 * len(run.framing.members) + bearing)]  # a member's end, or a gable's anchor
    for n in nodes:  # grows while it is walked
        nodes += [c for c in _standing(shares, n) if c not in nodes]
    done: dict[int, EndTrace] = {}
    for n in sorted(nodes, key=lambda n: _depth(shares, n)):
        roof = tuple(roof_parts_at(run, shares, pressures, n))
        carried = tuple(_carried_parts(run, shares, done, nodes, n))
        done[n] = EndTrace(
            member=_member_of(run, n),
            stands_on=_stands_on(run, n),
            roof=roof,
            carried=carried,
            lb=sum(line.lb for line in roof) + sum(line.lb for line in carried),
        )
    return tuple(done[n] for n in nodes)


def _path(run: Run, node: int) -> EndPath | None:
    paths = run.framing.members[node // 2].paths if node < 2 * len(run.framing.members) else ()
    return paths[node % 2] if paths else None


def _depth(shares: Shares, node: int) -> int:
    """How many members stand above one another on this end's member; who carries whom has no loop."""
    return 1 + max((_depth(shares, n) for n in _standing(shares, node)), default=0)


def _standing(shares: Shares, node: int) -> list[int]:
    """The ends that stand on the member whose bearing a node is."""
    return shares.standing.get(shares.member_of.get(node, -1), [])


def _member_of(run: Run, node: int) -> str:
    n_ends = 2 * len(run.framing.members)
    return run.framing.members[node // 2].name if node < n_ends else run.framing.bearings[node - n_ends].member


def _stands_on(run: Run, node: int) -> str:
    path = _path(run, node)
    if path is not None and path.carrier is not None:
        return run.framing.members[path.carrier].name
    bearing = path.bearing if path is not None else node - 2 * len(run.framing.members)
    return run.framing.bearings[bearing].mark if bearing is not None else ""


def _carried_parts(
    run: Run, shares: Shares, done: dict[int, EndTrace], nodes: list[int], node: int
) -> Iterator[CarriedPart]:
    """What the ends that stand on this end's member bring to it, in their order along it."""
    places = shares.seats[shares.member_of[node]] if node in shares.member_of else ()
    standing = [(path.at_ft, n) for n in _standing(shares, node) if (path := _path(run, n)) is not None]
    for at_ft, n in sorted(standing):
        own = [seat for _, seat in places].index(node)
        span_ft = places[-1][0]
        arm_ft = at_ft if own else span_ft - at_ft
        if len(places) > 2:
            shares_at = bearing_shares(np.array([at for at, _ in places]), np.array([at_ft]), np.zeros(1))
            arm_ft = float(shares_at[0, own]) * span_ft
        lever = Lever(
            on=_member_of(run, node),
            outlookers=False,
            arm_ft=arm_ft,
            push_ft=0.0,
            span_ft=span_ft,
            bearings_ft=bearings_ft(places),
        )
        force_lb = done[n].lb
        yield CarriedPart(end=nodes.index(n), force_lb=force_lb, lever=lever, lb=force_lb * lever.share_ratio)
