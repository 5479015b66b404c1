"""Corners as surveyed -> corners as meant: those a rounding of the tape off a straight wall are taken out.

A survey or a drawing leaves corners that nobody built: one an eighth of an inch off the line of its neighbours, a step
of a quarter inch, a corner cut off by a sliver. Each is taken out before anything else, and said with size and place.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

from framing.plan import Point
from framing.tolerances import ROUNDING
from framing.units import feet_inches, inches

STRAIGHT_DEG = 10.0  # two sides that turn by less are meant as one wall
FEWEST = 4
KINK_DEG = 45.0  # a corner that turns by more is no kink, however short its sides
LEAST_SINE = math.sin(math.radians(STRAIGHT_DEG))


@dataclass(frozen=True, slots=True, kw_only=True)
class Straightened:
    """The corners that are left, the number of each as typed from 1, and what is to be said."""

    corners_ft: tuple[Point, ...]
    numbers: tuple[int, ...]
    notes: tuple[str, ...]


@dataclass(slots=True)
class _Corner:
    """A corner on the way: where it is now and its number as typed."""

    at_ft: Point
    number: int


def straighten(corners_ft: tuple[Point, ...], less_than_ft: float) -> Straightened:
    """An outline without the corners that stand less than a length off the walls as they were meant.

    A side shorter than that length is taken out: the sides beside it run on until they meet; where those are one wall,
    the shorter is moved into the line of the longer; where they run back, both go. Then each corner goes that stands
    less than that length off the line between its neighbours. The smallest comes first; four corners are kept.

    Parameters
    ----------
    corners_ft : (n, 2) tuple
        Corners in the order typed, either way round. [ft]
    less_than_ft : float
        0: nothing is taken out. [ft]

    Returns
    -------
    Straightened
        A sentence for each corner or side that was taken out; corners exactly in line go without one.
    """
    kept = [_Corner(at_ft=p, number=i) for i, p in enumerate(corners_ft, 1)]
    notes: list[str] = []
    while len(kept) > FEWEST:
        size_ft, k = min((math.dist(kept[k].at_ft, kept[(k + 1) % len(kept)].at_ft), k) for k in range(len(kept)))
        if not ROUNDING < size_ft < less_than_ft or not _drop_side(kept, k, less_than_ft, notes):
            break
    while len(kept) > FEWEST:
        around = [c.at_ft for c in (kept[-1], *kept, kept[0])]
        size_ft, k = min((_off_ft(*around[k : k + 3]), k) for k in range(len(kept)))
        if not size_ft < less_than_ft:
            break
        notes += _of_kink(kept[k], size_ft)
        del kept[k]
    return Straightened(
        corners_ft=tuple(c.at_ft for c in kept), numbers=tuple(c.number for c in kept), notes=tuple(notes)
    )


def _drop_side(kept: list[_Corner], k: int, less_than_ft: float, notes: list[str]) -> bool:
    """Take out the short side from corner k, as its neighbours lie; False where too few corners would be left."""
    n = len(kept)
    before, a, b, after = (kept[(k + j) % n] for j in (-1, 0, 1, 2))
    turn_deg = abs(_turn_deg(before.at_ft, a.at_ft, b.at_ft, after.at_ft))
    size = _size(_length(a, b))
    if n < FEWEST + 2 and not STRAIGHT_DEG <= turn_deg <= 180.0 - STRAIGHT_DEG:
        return False
    if turn_deg > 180.0 - STRAIGHT_DEG:  # a slot or a fin: its two sides run back beside one another
        notes.append(_note(f"the slot or fin at corner {a.number}", a.at_ft, f"is {size} wide"))
    elif turn_deg >= STRAIGHT_DEG:
        notes.append(_note(f"the side from corner {a.number} to {b.number}", a.at_ft, f"is {size} long"))
        a.at_ft = _meeting(before.at_ft, a.at_ft, b.at_ft, after.at_ft)
        kept.remove(b)
        return True
    else:
        notes.append(_note(f"the step at corner {a.number}", a.at_ft, f"is {size} high"))
        _move_into_line(kept, k, less_than_ft, notes)
    kept.remove(a)
    kept.remove(b)
    return True


def _move_into_line(kept: list[_Corner], k: int, less_than_ft: float, notes: list[str]) -> None:
    """Beside the step from corner k, move the shorter wall into the line of the longer one, with its kinks up to the
    corner at which it turns; a wall that leads away from the end of the step by the length or more stays.
    """
    n = len(kept)
    before, a, b, after = (kept[(k + j) % n] for j in (-1, 0, 1, 2))
    longer_before = _length(before, a) >= _length(b, after)
    one, other, step_end = (before, a, b) if longer_before else (after, b, a)
    wall = [kept[(k + (2 + j if longer_before else -1 - j)) % n] for j in range(n - 3)]
    along = _step(one.at_ft, other.at_ft)
    kinks: list[tuple[_Corner, float]] = []
    for corner, beyond in itertools.pairwise(wall):
        past = _step(corner.at_ft, beyond.at_ft)
        if abs(_cross(along, past)) >= LEAST_SINE * math.hypot(*along) * math.hypot(*past):
            corner.at_ft = _meeting(one.at_ft, other.at_ft, corner.at_ft, beyond.at_ft)
            for kink, size_ft in kinks:
                notes += _of_kink(kink, size_ft)
                kink.at_ft = _onto(one.at_ft, along, kink.at_ft)
            return
        off_ft = abs(_cross(along, _step(step_end.at_ft, corner.at_ft))) / math.hypot(*along)
        if off_ft >= less_than_ft:
            return
        kinks.append((corner, off_ft))


def _onto(a: Point, along: Point, p: Point) -> Point:
    """The foot of a point on the line from a point along a way."""
    ap = _step(a, p)
    share = (ap[0] * along[0] + ap[1] * along[1]) / (along[0] ** 2 + along[1] ** 2)
    return (a[0] + share * along[0], a[1] + share * along[1])


def _of_kink(corner: _Corner, size_ft: float) -> list[str]:
    """What to say of a corner so far off its wall; nothing of one on it."""
    how = f"stands {_size(size_ft)} off the line of its wall"
    return [_note(f"corner {corner.number}", corner.at_ft, how)] if size_ft > ROUNDING else []


def _note(what: str, at_ft: Point, how: str) -> str:
    x, y = (feet_inches(v) for v in at_ft)
    return f"walls outline: {what} near ({x}, {y}) {how} and is taken out"


def _size(length_ft: float) -> str:
    """To 1/16 in., and under that to say that it is less."""
    return inches(length_ft).removeprefix("0 ") if length_ft >= 1 / 192 else 'under 1/16"'


def _length(a: _Corner, b: _Corner) -> float:
    return math.dist(a.at_ft, b.at_ft)


def _off_ft(a: Point, b: Point, c: Point) -> float:
    """How far a corner stands off the line between its neighbours; far where the outline turns there. [ft]"""
    if abs(_turn_deg(a, b, b, c)) > KINK_DEG:
        return math.inf
    ac = _step(a, c)
    return abs(_cross(ac, _step(a, b))) / math.hypot(*ac)


def _turn_deg(a: Point, b: Point, c: Point, d: Point) -> float:
    """The turn from the side a-b to the side c-d. [deg]"""
    (ax, ay), (cx, cy) = _step(a, b), _step(c, d)
    return math.degrees(math.atan2(ax * cy - ay * cx, ax * cx + ay * cy))


def _meeting(a: Point, b: Point, c: Point, d: Point) -> Point:
    """Where the lines a-b and c-d meet."""
    ab, cd = _step(a, b), _step(c, d)
    along = _cross(_step(a, c), cd) / _cross(ab, cd)
    return (a[0] + along * ab[0], a[1] + along * ab[1])


def _step(a: Point, b: Point) -> Point:
    return (b[0] - a[0], b[1] - a[1])


def _cross(u: Point, v: Point) -> float:
    return u[0] * v[1] - u[1] * v[0]
