"""Package rows + our bearings -> pairs, one to one: by mark, by member, then the best over the whole house."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from framing.errors import PackageError
from framing.members import MemberKind
from framing.package.ours import Ours, place_ft, wall_lengths
from framing.package.rows import Package, PackageRow
from framing.plan import Plan
from framing.tolerances import OUT_OF_ORDER_FT
from framing.units import feet_inches, shown
from framing.walls.outline import Outline

FARTHEST_FT = 4.0
OTHER_WALL_FT, OTHER_SPAN_RATIO, OTHER_PLIES_FT = 1.5, 0.25, 0.5
SPAN_WITHIN_FT = 0.5


class How(StrEnum):
    """How a row found its partner."""

    MARK = "by mark"
    MEMBER = "by member"
    PLACE = "by place"
    SPAN = "by span and overhang"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """A row of the package and one of our bearings; either is None where there is no partner. `how` is None then."""

    row: PackageRow | None
    ours: Ours | None
    how: How | None


def match(plan: Plan, outline: Outline, package: Package, ours: tuple[Ours, ...]) -> tuple[Pair, ...]:
    """Every row and every bearing once: our bearings in their order, then the rows without partner.

    A row whose mark is one of ours has that partner. Of the rest, a row that names one of our members and its wall or
    joint has that; the others are paired so that all in all they lie nearest: by the place, where the row has one, by
    span and overhang where not, which a gable end's anchors do not have. An end that hangs on a member is matched by
    mark or place alone.

    Raises
    ------
    PackageError
        If a row's station lies beyond its wall, or there is no such wall.
    """
    _refuse_places(plan, outline, package)
    found: dict[int, tuple[int, How]] = {}
    by_mark = {o.bearing.mark: k for k, o in enumerate(ours)}
    for r, row in enumerate(package.rows):
        if row.mark.upper() in by_mark:
            found[r] = (by_mark[row.mark.upper()], How.MARK)
    _by_member(package, ours, found)
    left = [r for r in range(len(package.rows)) if r not in found]
    free = sorted(set(range(len(ours))) - {k for k, _ in found.values()})
    if left and free:
        from scipy.optimize import linear_sum_assignment

        cost = np.array([[_apart_ft(plan, outline, package.rows[r], ours[k]) for k in free] for r in left])
        order = _out_of_order(len(left), len(free))
        rows, columns = linear_sum_assignment(np.minimum(cost, FARTHEST_FT) + order)
        for i, j in zip(rows.tolist(), columns.tolist(), strict=True):
            if cost[i, j] < FARTHEST_FT:
                placed = package.rows[left[i]].station_ft is not None
                found[left[i]] = (free[j], How.PLACE if placed else How.SPAN)
    partner = {k: (r, how) for r, (k, how) in found.items()}
    pairs = [_pair(package, o, partner.get(k)) for k, o in enumerate(ours)]
    alone = [row for r, row in enumerate(package.rows) if r not in found]
    return (*pairs, *(Pair(row=row, ours=None, how=None) for row in alone))


def _pair(package: Package, o: Ours, partner: tuple[int, How] | None) -> Pair:
    if partner is None:
        return Pair(row=None, ours=o, how=None)
    return Pair(row=package.rows[partner[0]], ours=o, how=partner[1])


def _refuse_places(plan: Plan, outline: Outline, package: Package) -> None:
    lengths = wall_lengths(plan, outline)
    for row in package.rows:
        if row.wall and row.wall.upper() not in lengths:
            known = ", ".join(lengths)
            raise PackageError(
                f"{package.name} row {row.number}, wall: {shown(row.wall)} is no wall of the plan; write one of {known}"
            )
        if row.station_ft is not None and place_ft(plan, outline, row.wall.upper(), row.station_ft) is None:
            raise PackageError(
                f"{package.name} row {row.number}, station: {feet_inches(row.station_ft)} lies beyond {row.wall}, "
                f"which is {feet_inches(lengths[row.wall.upper()])} long; write it from the left end seen from outside"
            )


def _by_member(package: Package, ours: tuple[Ours, ...], found: dict[int, tuple[int, How]]) -> None:
    taken = {k for k, _ in found.values()}
    for r, row in enumerate(package.rows):
        if r in found or not row.member or row.station_ft is not None:
            continue
        mine = [
            k
            for k, o in enumerate(ours)
            if k not in taken
            and o.bearing.member.lower() == row.member.lower()
            and (not row.wall or o.bearing.wall == row.wall.upper())
            and (not row.joint or str(o.end) == row.joint)
        ]
        if len(mine) == 1:
            found[r] = (mine[0], How.MEMBER)
            taken.add(mine[0])


def _apart_ft(plan: Plan, outline: Outline, row: PackageRow, o: Ours) -> float:
    """How far a row and a bearing are from being the same, in feet; far where they cannot be."""
    if row.station_ft is not None:
        at = place_ft(plan, outline, row.wall.upper(), row.station_ft)
        if at is None:
            return FARTHEST_FT
        cost = math.dist(at, o.bearing.point_ft) + OTHER_WALL_FT * (row.wall.upper() != o.bearing.wall)
        cost += OTHER_SPAN_RATIO * min(2.0, span_off_ft(row, o) + overhang_off_ft(row, o))
    elif (
        row.span_ft is None
        or row.hung
        or o.bearing.kind is MemberKind.GABLE_END
        or (row.wall and row.wall.upper() != o.bearing.wall)
    ):
        return FARTHEST_FT
    else:
        cost = span_off_ft(row, o) + overhang_off_ft(row, o)
        if cost > SPAN_WITHIN_FT:
            return FARTHEST_FT
    return cost + OTHER_PLIES_FT * (row.plies is not None and row.plies != o.bearing.plies)


def _may_span(row: PackageRow, o: Ours) -> bool:
    """Whether a bearing is the end of a span, on the row's wall where it names one."""
    return o.bearing.kind is not MemberKind.GABLE_END and row.wall.upper() in ("", o.bearing.wall)


def span_off_ft(row: PackageRow, o: Ours) -> float:
    """How far the spans differ, taking the row's between middles or outside faces, whichever is nearer; 0 where it has
    none. [ft]
    """
    if row.span_ft is None:
        return 0.0
    return min(abs(row.span_ft - o.span_ft - faces * o.thickness_ft) for faces in (0.0, 0.5, 1.0))


def overhang_off_ft(row: PackageRow, o: Ours) -> float:
    """How far the overhangs differ; 0 where the row has none. [ft]"""
    return 0.0 if row.overhang_ft is None else abs(row.overhang_ft - o.overhang_ft)


def _out_of_order(n: int, m: int) -> np.ndarray:
    """A small cost for leaving the table's order, so that rows alike in everything keep it. (n, m)"""
    rows, columns = np.arange(n)[:, None] / max(n - 1, 1), np.arange(m)[None, :] / max(m - 1, 1)
    return OUT_OF_ORDER_FT * (rows - columns) ** 2
