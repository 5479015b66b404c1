"""The unit of a drawing by what is drawn in it: doors, walls, dimensions and its size beside its header's word."""

from __future__ import annotations

import re
from dataclasses import dataclass

import numpy as np

from export.architects_drawing.pairs import Floats, lengths_of, pairs_of
from export.architects_drawing.strokes import Strokes
from export.architects_drawing.units import DRAWING_UNITS, FT_PER_UNIT, USUAL_FT, WORDS, Unit

SURE_LEAD = 0.5
SAYS, DOORS, SIZE, WALLS, TEXTS = 1.1, 1.6, 1.0, 1.0, 3.0
POSSIBLE_FT = (12.0, 1500.0)
WALL_IN = (3.4, 13.0)
DOOR_IN, DOOR_DEG = (22.0, 49.0), (60.0, 100.0)
MOST_ASKED = 3000
FEET_INCHES = re.compile(r"^\s*(?:(\d+)\s*['’′]\s*-?\s*)?(\d+(?:\.\d+)?)?(?:\s+(\d+)/(\d+))?\s*(?:\"|''|”|″)?\s*$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Vote:
    """A unit and what speaks for it; `header` when it is the drawing's own word."""

    name: str
    unit: Unit
    points: float
    size_ft: float
    header: bool


def votes_of(strokes: Strokes, code: int) -> tuple[Vote, ...]:
    """The units that a drawing may be in, the likeliest first.

    Parameters
    ----------
    strokes : Strokes
        What is drawn.
    code : int
        The header's $INSUNITS, 0 where it says none.

    Returns
    -------
    tuple of Vote
        Inches, feet, millimetres, centimetres, metres, and the header's own if it is none of these.
    """
    units = {name: (WORDS[name], ft) for name, ft in FT_PER_UNIT.items()}
    said = DRAWING_UNITS.get(code)
    own = "" if said is None else next((n for n, (w, _) in units.items() if w == said[0]), said[0])
    if said is not None:
        units.setdefault(own, said)
    span = _span(strokes.segments)
    votes = []
    for name, (words, ft) in units.items():
        size_ft = span * ft
        points = SAYS * (name == own) + SIZE * _usual(size_ft) + DOORS * _doors(strokes.arcs, ft)
        points += TEXTS * _texts(strokes, ft)
        if POSSIBLE_FT[0] <= size_ft <= POSSIBLE_FT[1]:
            points += WALLS * _walls(strokes.segments, ft)
        known = "" if name == own else "by its doors, walls, dimensions and size"
        unit = Unit(words=words, ft=ft, known_by=known)
        votes.append(Vote(name=name, unit=unit, points=points, size_ft=size_ft, header=name == own))
    return tuple(sorted(votes, key=lambda v: -v.points))


def is_sure(votes: tuple[Vote, ...]) -> bool:
    """Whether the first unit leads by enough to be taken without asking."""
    return votes[0].points - votes[1].points >= SURE_LEAD


def _span(segments: Floats) -> float:
    """The longer side of what 98 % of the drawn length lies in."""
    if not len(segments):
        return 0.0
    length = lengths_of(segments)
    sides = []
    for k in (0, 1):
        middle = (segments[:, k] + segments[:, k + 2]) / 2.0
        order = np.argsort(middle)
        share = np.cumsum(length[order]) / max(float(length.sum()), 1e-300)
        low, high = np.searchsorted(share, (0.01, 0.99))
        kept = order[low : high + 1]
        both = segments[kept][:, [k, k + 2]]
        sides.append(float(np.ptp(both)))
    return max(sides)


def _usual(size_ft: float) -> float:
    low, high = USUAL_FT
    if low <= size_ft <= high:
        return 1.0
    return 0.5 if low * 0.67 <= size_ft <= 2.5 * high else 0.0


def _doors(arcs: Floats, ft: float) -> float:
    """The share of the quarter circles that have a door's radius."""
    swings = arcs[(arcs[:, 3] >= DOOR_DEG[0]) & (arcs[:, 3] <= DOOR_DEG[1])]
    if not len(swings):
        return 0.0
    radius_in = swings[:, 2] * ft * 12.0
    share = float(((radius_in >= DOOR_IN[0]) & (radius_in <= DOOR_IN[1])).mean())
    return share * min(1.0, len(swings) / 3.0)


def _walls(segments: Floats, ft: float) -> float:
    """The share of the drawn length with a parallel line at a wall's thickness."""
    inches = (segments - np.tile(segments.reshape(-1, 2).mean(axis=0), 2)) * ft * 12.0
    length = lengths_of(inches)
    if len(inches) > MOST_ASKED:
        inches = inches[np.argsort(-length)[:MOST_ASKED]]
        length = lengths_of(inches)
    inches, length = inches[length > 0.5], length[length > 0.5]
    if not len(inches):
        return 0.0
    pairs = pairs_of(inches, *WALL_IN)
    paired = np.zeros(len(inches), bool)
    paired[pairs.i] = True
    return float(length[paired].sum() / length.sum())


def _texts(strokes: Strokes, ft: float) -> float:
    """Whether dimensions that say feet and inches measure as much in this unit: the larger part of them."""
    said = [(length, inches) for length, text in strokes.measured if (inches := _inches(text)) is not None]
    if not said:
        return 0.0
    good = [abs(length * ft * 12.0 / inches - 1.0) < 0.02 for length, inches in said if inches > 0]
    return 1.0 if good and sum(good) > 0.5 * len(good) else 0.0


def _inches(text: str) -> float | None:
    """The inches in a text like 12'-4 1/2"; None where it says no feet or inches."""
    bare = re.sub(r"\\[A-Za-z][^;]*;|[{}]", "", text).strip()
    if not any(mark in bare for mark in "'’′\"”″"):
        return None
    found = FEET_INCHES.match(bare)
    if not found or not any(found.groups()):
        return None
    feet, whole, top, under = found.groups()
    return float(feet or 0) * 12.0 + float(whole or 0) + (float(top) / float(under) if top and float(under) else 0.0)
