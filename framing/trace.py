"""Run -> trace: the reaction of one mark taken apart into lines that a pocket calculator adds up again.

A reaction is a sum of two kinds of lines, at the bearing and again at every member end behind it: a piece of roof
(pressure x area x arm / span), and the end of another member that stands on this one (its reaction x arm / span).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from framing.load_path import Variant
from framing.members import EndPath
from framing.reactions import Case
from framing.run import Run
from framing.trace_parts import (
    Lever,
    Pressures,
    RoofPart,
    Shares,
    bearing_span_ft,
    pressures_of,
    roof_parts_at,
    shares_of,
)


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
    shares = {v: shares_of(run, v) for v in Variant}
    loads = {c.name: c for c in run.loads.cases}
    known: dict[str, Pressures] = {}
    for i, bearing in enumerate(run.framing.bearings):
        if marks is not None and bearing.mark not in marks:
            continue
        case = run.reactions.cases[int(run.reactions.governing[i])]
        dead = _resisting(run, i)
        load, resisting = loads[case.name.removesuffix(f", {case.variant}")], loads[dead.name]
        for each in (load, resisting):
            if each.name not in known:
                known[each.name] = pressures_of(run, each)
        yield MarkTrace(
            mark=bearing.mark,
            case=case,
            dead_case=dead,
            wind=_ends(run, shares[Variant(case.variant)], known[load.name], i),
            dead=_ends(run, shares[Variant.DECK], known[resisting.name], i),
        )


def _resisting(run: Run, bearing: int) -> Case:
    """The dead load case that the reactions took against uplift at a bearing."""
    taken_lb = -float(run.reactions.dead_for_uplift_lb[bearing])
    dead = [j for j, c in enumerate(run.reactions.cases) if c.basis == "dead"]
    at = min(dead, key=lambda j: abs(float(run.reactions.by_case_lb[bearing, j]) - taken_lb))
    return run.reactions.cases[at]


def _ends(run: Run, shares: Shares, pressures: Pressures, bearing: int) -> tuple[EndTrace, ...]:
    """Every end that the bearing's reaction comes from, the one at the bearing first."""
    nodes = [_node_at(run, bearing)]
    for n in nodes:  # grows while it is walked
        nodes += [c for c in shares.standing.get(n // 2, []) if c not in nodes]
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


def _node_at(run: Run, bearing: int) -> int:
    """The node that ends at a bearing: a member's end, or the anchor of a gable end."""
    for i, member in enumerate(run.framing.members):
        for k, path in enumerate(member.paths):
            if path.bearing == bearing:
                return 2 * i + k
    return 2 * len(run.framing.members) + bearing


def _path(run: Run, node: int) -> EndPath | None:
    paths = run.framing.members[node // 2].paths if node < 2 * len(run.framing.members) else ()
    return paths[node % 2] if paths else None


def _depth(shares: Shares, node: int) -> int:
    """How many members stand above one another on this end's member; who carries whom has no loop."""
    return 1 + max((_depth(shares, n) for n in shares.standing.get(node // 2, [])), default=0)


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
    span_ft = bearing_span_ft(run, node // 2) if node < 2 * len(run.framing.members) else 0.0
    standing = [(path.at_ft, n) for n in shares.standing.get(node // 2, []) if (path := _path(run, n)) is not None]
    for at_ft, n in sorted(standing):
        arm_ft = at_ft if node % 2 else span_ft - at_ft
        lever = Lever(on=_member_of(run, node), arm_ft=arm_ft, push_ft=0.0, span_ft=span_ft)
        force_lb = done[n].lb
        yield CarriedPart(end=nodes.index(n), force_lb=force_lb, lever=lever, lb=force_lb * lever.share_ratio)
