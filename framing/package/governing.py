"""Demands + package -> the demands that govern: the package's uplift in place of ours, the pushes sideways kept.

Where the package is made for another wind than the plan's, the larger of theirs and ours stands until it is asked
again. The package's uplift stands with the main frame's pushes of every wind case. The dead load behind it is ours: it
only says how the uplift grows with the wind.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

import numpy as np

from framing.anchors.demands import CaseKind, DemandCase, Demands, Floats, truss_units, wall_units
from framing.anchors.stated import SAME_LB, Stated
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.loads.reactions import Reactions
from framing.members import Framing
from framing.package.comparison import Compared, Comparison, compare
from framing.package.matching import How, match
from framing.package.ours import our_bearings
from framing.package.rows import Package
from framing.plan import Plan
from framing.sideways.pushes import Sideways
from framing.walls.outline import Outline

MOST_NAMED = 6
WAITING = (
    " and may not govern yet; look at reconcile.html, then write yes in a column accepted, or call reconcile with "
    "--accept"
)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reconciled:
    """A package beside a house: what was compared, the demands that govern, sentences, and what a person has to decide.
    `n_governed` marks have their uplift from the package, `n_ours` have ours. `lays_out` says that marks and lines are
    the package's too, and that there is no arithmetic of ours to compare.
    """

    package: Package
    comparison: Comparison
    demands: Demands
    n_governed: int
    n_ours: int
    notes: tuple[str, ...]
    flags: tuple[str, ...]
    lays_out: bool = False

    @property
    def words(self) -> str:
        """What every output made from it says."""
        if self.lays_out:
            return f"{self.package.words}: its marks, lines and uplift; no arithmetic of ours"
        return f"{self.package.words}: its uplift governs {self.n_governed} of {self.n_governed + self.n_ours} marks"


def reconcile(
    plan: Plan,
    outline: Outline,
    framing: Framing,
    reactions: Reactions,
    sideways: Sideways,
    demands: Demands,
    package: Package,
) -> Reconciled:
    """The package beside ours, and in its place where it may.

    A row governs its partner where it was found by mark or has a yes, stands on the wall, and gives an uplift.

    Raises
    ------
    PackageError
        If a row names a place that the plan does not have.
    """
    ours = our_bearings(plan, framing, reactions, demands)
    found = compare(plan, package, match(plan, outline, package, ours))
    stated = {
        p.pair.ours.at: _stated(package, p, larger=bool(found.wind))
        for p in found.pairs
        if p.pair.ours is not None and p.pair.ours.at < len(framing.bearings) and _governs(package, p)
    }
    given = sum(s.by_package for s in stated.values())
    return Reconciled(
        package=package,
        comparison=found,
        demands=_governed(framing, sideways, demands, stated),
        n_governed=given,
        n_ours=len(framing.bearings) - given,
        notes=_notes(package, found, given, len(framing.bearings)),
        flags=_flags(package, found, len(framing.bearings)),
    )


def accepted(package: Package, compared: Compared) -> bool:
    """Whether a pair was found by mark or has a yes."""
    pair = compared.pair
    return pair.row is not None and (pair.how is How.MARK or pair.row.accepted or package.accept_all)


def _governs(package: Package, c: Compared) -> bool:
    return c.pair.row is not None and c.pair.ours is not None and not c.pair.row.hung and accepted(package, c)


def _stated(package: Package, c: Compared, *, larger: bool) -> Stated:
    row, o = c.pair.row, c.pair.ours
    if row is None or o is None:
        raise ValueError("a pair that governs has both sides")
    lb = o.uplift_lb if row.uplift_lb is None else max(row.uplift_lb, o.uplift_lb if larger else 0.0)
    return Stated(
        mark=row.mark or row.member,
        source=f"truss package {package.words}",
        theirs_lb=row.uplift_lb,
        ours_lb=o.uplift_lb,
        uplift_lb=lb,
        replaces=abs(lb - o.uplift_lb) > SAME_LB,
        along_wall_lb=row.parallel_lb,
        square_lb=row.perpendicular_lb,
        down_lb=row.down_lb,
        ours_down_lb=o.down_lb,
    )


def _governed(framing: Framing, sideways: Sideways, demands: Demands, stated: dict[int, Stated]) -> Demands:
    """The demands with the package's figures in them; those that are ours to the pound are not touched."""
    kinds = np.array([c.kind for c in demands.cases])
    main = kinds == CaseKind.MAIN_FRAME
    alone = (kinds == CaseKind.OTHER_VARIANT) | (kinds == CaseKind.CLADDING_ROOF)
    walls = (kinds == CaseKind.CLADDING_WALL) | (kinds == CaseKind.LEAST)
    asked = demands.demand
    wind, dead, across, along = (a.copy() for a in (asked.wind_lb, asked.dead_lb, asked.across_lb, asked.along_lb))
    along_wall, square = demands.along_wall_lb.copy(), demands.square_lb.copy()
    for i, s in stated.items():
        if s.replaces:
            wind[i, main] = (s.uplift_lb + ASD_UPLIFT.dead_factor * dead[i, main]) / ASD_UPLIFT.wind_factor
            wind[i, alone] = dead[i, alone] = 0.0
        for theirs, of_wall in ((s.along_wall_lb, along_wall), (s.square_lb, square)):
            if theirs is not None and abs(theirs - float(of_wall[i, demands.counts].max())) > SAME_LB:
                of_wall[i, main] = theirs
                of_wall[i, walls] = 0.0
    pushed = demands.pushed.copy()
    pushed[[i for i, s in stated.items() if s.along_wall_lb is not None or s.square_lb is not None]] = True
    turned = _on_strap(framing, sideways, along_wall, square)
    rows = [
        i
        for i in stated
        if (along_wall[i] != demands.along_wall_lb[i]).any() or (square[i] != demands.square_lb[i]).any()
    ]
    across[rows], along[rows] = turned[0][rows], turned[1][rows]
    return replace(
        demands,
        demand=replace(asked, wind_lb=wind, dead_lb=dead, across_lb=across, along_lb=along),
        cases=tuple(_named(c, stated, len(framing.bearings)) for c in demands.cases),
        along_wall_lb=along_wall,
        square_lb=square,
        pushed=pushed,
        stated=stated,
    )


def _on_strap(framing: Framing, sideways: Sideways, along_wall: Floats, square: Floats) -> tuple[Floats, Floats]:
    """Pushes on the wall's axes, of unknown sign, on the strap's: at most across the truss's plane and in it. (n, k)"""
    truss, wall = truss_units(framing), wall_units(framing, sideways)
    cos = np.abs(np.einsum("nd,nd->n", truss, wall))[:, None]
    sin = np.sqrt(np.maximum(0.0, 1.0 - cos**2))
    return along_wall * sin + square * cos, along_wall * cos + square * sin


def _named(case: DemandCase, stated: dict[int, Stated], n: int) -> DemandCase:
    """A main-frame case with the package's words where its uplift is the package's."""
    other = {i: s for i, s in stated.items() if s.replaces}
    if case.kind is not CaseKind.MAIN_FRAME or not other:
        return case
    names = [case.name(i) + (f", uplift of the {other[i].source}" if i in other else "") for i in range(n)]
    return replace(case, names=tuple(names))


def _notes(package: Package, found: Comparison, given: int, n: int) -> tuple[str, ...]:
    how = Counter(p.pair.how for p in found.pairs if p.pair.how is not None)
    matched = ", ".join(f"{how[h]} {h.value}" for h in How if how[h]) or "none"
    out = [
        f"Truss package {package.words}: its uplift governs at {given} of {n} marks, ours at {n - given}; matched: "
        f"{matched}. The pushes sideways are ours unless the table has the engineer of record's."
    ]
    out += [f"Truss package {package.name}: {said}." for said in package.said]
    if found.unsaid:
        out.append(f"Truss package {package.name}: it does not state {_listed(found.unsaid)}; ask the truss engineer.")
    asks = [p for p in found.pairs if p.asks]
    if asks:
        marks = [p.pair.ours.bearing.mark for p in asks if p.pair.ours is not None]
        out.append(
            f"Truss package {package.name}: {_counted(len(asks), 'reaction is', 'reactions are')} under 0.75 or over "
            f"1.33 times ours ({_listed(marks)}): ask the truss engineer."
        )
    return tuple(out)


def _flags(package: Package, found: Comparison, n: int) -> tuple[str, ...]:
    """What a person has to decide, a sentence each; these make the exit code 1."""
    out = [f"truss package {package.name}: {w}" for w in found.wind]
    out += [f"truss package {package.name}: {said}" for p in found.pairs for _, said in p.differs]
    rows = [
        p.pair.row.name for p in found.pairs if p.pair.row is not None and p.pair.ours is None and not p.pair.row.hung
    ]
    both = [(p.pair.ours, p.pair.row, p) for p in found.pairs if p.pair.ours is not None]
    marks = [o.bearing.mark for o, row, _ in both if row is None and o.at < n]
    waiting = [o.bearing.mark for o, row, p in both if row is not None and not accepted(package, p)]
    for names, one, many, then in (
        (rows, "row has no mark of ours", "rows have no mark of ours", ""),
        (marks, "mark of ours has no row", "marks of ours have no row", "; ours stands"),
        (waiting, "row was matched otherwise than by mark", "rows were matched otherwise than by mark", WAITING),
    ):
        if names:
            out.append(f"truss package {package.name}: {_counted(len(names), one, many)} ({_listed(names)}){then}")
    return tuple(out)


def _listed(names: list[str] | tuple[str, ...]) -> str:
    more = f" and {len(names) - MOST_NAMED} more" if len(names) > MOST_NAMED else ""
    return ", ".join(names[:MOST_NAMED]) + more


def _counted(n: int, one: str, many: str) -> str:
    return f"{n} {one if n == 1 else many}"
