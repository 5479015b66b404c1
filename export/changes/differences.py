"""Two houses -> what became of every mark: matched by place and member, never by number."""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum

import numpy as np

from export.changes.sources import HouseThen, MarkThen
from framing.units import sixteenths

FARTHEST_FT = 4.0
OTHER_KIND_FT, OTHER_WALL_FT = 0.75, 1.5
LOAD_RATIO, LOAD_LB = 0.10, 50.0


class What(StrEnum):
    """What may change at a mark; the first six make the old sheet useless, a load alone does not."""

    NEW = "new"
    GONE = "gone"
    MOVED = "moved"
    ANCHOR = "anchor"
    SIDE = "side"
    COUNT = "count"
    MEMBER = "member"
    LOAD = "load"


SHEET = frozenset({What.NEW, What.GONE, What.MOVED, What.ANCHOR, What.SIDE, What.COUNT})


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A mark before and after (None where it is new or gone) and what changed; `moved_ft` along the tape, positive away
    from START, `shifted_ft` in plan.
    """

    before: MarkThen | None
    after: MarkThen | None
    what: tuple[What, ...]
    moved_ft: float
    shifted_ft: float

    @property
    def one(self) -> MarkThen:
        """The mark as it is now, or was."""
        found = self.after or self.before
        if found is None:
            raise ValueError("a change has a mark before or after")
        return found


def differences(before: HouseThen, after: HouseThen) -> tuple[Change, ...]:
    """Every mark of both houses once, in the order of the new sheet, those that are gone after them.

    Marks are paired one to one so that all in all they lie nearest to one another, within 4 ft; another kind of member
    or another wall counts as distance too.
    """
    pairs = _paired(before.marks, after.marks)
    of_after = {j: i for i, j in pairs}
    out = []
    for j, now in enumerate(after.marks):
        i = of_after.get(j)
        out.append(_change(None if i is None else before.marks[i], now))
    taken = {i for i, _ in pairs}
    out += [_change(was, None) for i, was in enumerate(before.marks) if i not in taken]
    return tuple(out)


def _paired(before: tuple[MarkThen, ...], after: tuple[MarkThen, ...]) -> list[tuple[int, int]]:
    if not before or not after:
        return []
    from scipy.optimize import linear_sum_assignment

    was, now = (np.array([m.strap_ft for m in marks]) for marks in (before, after))
    apart = np.hypot(*(was[:, None, :] - now[None, :, :]).transpose(2, 0, 1))
    kinds = np.array([[a.kind != b.kind for b in after] for a in before])
    walls = np.array([[a.wall[0] != b.wall[0] for b in after] for a in before])
    cost = apart + OTHER_KIND_FT * kinds + OTHER_WALL_FT * walls
    rows, columns = linear_sum_assignment(np.minimum(cost, FARTHEST_FT))
    return [(int(i), int(j)) for i, j in zip(rows, columns, strict=True) if cost[i, j] < FARTHEST_FT]


def _change(was: MarkThen | None, now: MarkThen | None) -> Change:
    if was is None or now is None:
        return Change(
            before=was, after=now, what=(What.NEW if was is None else What.GONE,), moved_ft=0.0, shifted_ft=0.0
        )
    what = []
    if sixteenths(was.tape_ft) != sixteenths(now.tape_ft) or was.wall != now.wall:
        what.append(What.MOVED)
    if was.anchor != now.anchor:
        what.append(What.ANCHOR)
    if was.count != now.count:  # a pair takes both faces: its side is no change of its own
        what.append(What.COUNT)
    elif was.side != now.side:
        what.append(What.SIDE)
    if (was.kind, was.plies) != (now.kind, now.plies):
        what.append(What.MEMBER)
    more = abs(now.uplift_lb - was.uplift_lb)
    if more > LOAD_LB and more > LOAD_RATIO * max(was.uplift_lb, 1.0):
        what.append(What.LOAD)
    return Change(
        before=was,
        after=now,
        what=tuple(what),
        moved_ft=now.tape_ft - was.tape_ft,
        shifted_ft=math.dist(was.strap_ft, now.strap_ft),
    )


def sheet_is_stale(changes: tuple[Change, ...]) -> bool:
    """Whether place, anchor, side or count differ anywhere."""
    return any(SHEET & set(c.what) for c in changes)
