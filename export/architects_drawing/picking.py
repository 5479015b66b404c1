"""What somebody types and gets of a search: a pick, a crop, the corners in feet, the question about the unit."""

from __future__ import annotations

import math
import re
from pathlib import Path

import shapely
from shapely.geometry import Polygon

from export.architects_drawing.loops import place
from export.architects_drawing.search import Candidate, Search
from framing.errors import PlanError
from framing.plan import Point
from framing.units import feet_inches, shown

NEAR_FT = 1.0 / 64.0 / 12.0


def picked(search: Search, pick: str | None, path: Path) -> Candidate:
    """The candidate that somebody chose, by its number or by a point inside it; the first where none is in doubt.

    Raises
    ------
    PlanError
        If there is none, or more than one and none chosen; says how to choose.
    """
    if not search.candidates:
        raise PlanError(
            f"{path}: no house found: no pair of lines 3 to 16 in. apart closes a ring; "
            "draw the outside face as a closed line on a layer of its own"
        )
    if pick is None:
        if search.sure or len(search.candidates) == 1:
            return search.candidates[0]
        what = f"{search.n_plans} plans are" if search.n_plans > 1 else f"{len(search.candidates)} outlines may be"
        more = " on this sheet" if search.n_plans > 1 else " the house"
        raise PlanError(
            f"{path}: {what}{more}; strapline outline {path} --picture outlines.png shows them numbered: "
            "give --pick with the number of the one the trusses stand on, or with a point inside it, as x,y"
        )
    if re.fullmatch(r"\s*\d+\s*", pick):
        number = int(pick)
        if 1 <= number <= len(search.candidates):
            return search.candidates[number - 1]
        last = len(search.candidates)
        raise PlanError(f"--pick: there is no outline {number}; write a number from 1 to {last}")
    x, y = point_of(pick)
    for candidate in search.candidates:
        if shapely.contains_xy(Polygon(candidate.corners), x, y):
            return candidate
    raise PlanError(f"--pick: no outline has {place((x, y))} inside it; the list says a point inside each")


def point_of(text: str) -> Point:
    """The two numbers of a point typed as x,y; raises PlanError."""
    numbers = _numbers(text)
    if len(numbers) != 2:
        raise PlanError(f"--pick: {shown(text)} is neither; write the number of an outline, or a point as x,y")
    return (numbers[0], numbers[1])


def crop_of(text: str) -> tuple[float, float, float, float]:
    """The rectangle typed as two opposite corners x0,y0,x1,y1; raises PlanError."""
    numbers = _numbers(text)
    if len(numbers) != 4 or numbers[0] == numbers[2] or numbers[1] == numbers[3]:
        raise PlanError(
            f"--crop: {shown(text)} is no rectangle; write two opposite corners in the drawing's units, as x0,y0,x1,y1"
        )
    x0, y0, x1, y1 = numbers
    return (min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1))


def _numbers(text: str) -> list[float]:
    try:
        numbers = [float(n) for n in re.split(r"[\s,;]+", text.strip(" ()[]"))]
    except ValueError:
        return []
    return numbers if all(map(math.isfinite, numbers)) else []


def corners_ft(chosen: Candidate, found: Search) -> tuple[Point, ...]:
    """The outline's corners from its first, in feet; on the sixteenth of an inch where its walls lie along x and y."""
    x0, y0 = chosen.corners[0]
    ft = found.unit.ft
    exact = [((x - x0) * ft, (y - y0) * ft) for x, y in chosen.corners]
    sides = [(q[0] - p[0], q[1] - p[1]) for p, q in zip(exact, (*exact[1:], exact[0]), strict=True)]
    if all(min(abs(dx), abs(dy)) < NEAR_FT for dx, dy in sides):
        return tuple((round(x * 192.0) / 192.0 + 0.0, round(y * 192.0) / 192.0 + 0.0) for x, y in exact)
    return tuple((round(x, 4) + 0.0, round(y, 4) + 0.0) for x, y in exact)


def unit_question(search: Search) -> str:
    """What to ask where more than one unit would do; "" where none is in doubt."""
    if search.unit_sure or not search.candidates:
        return ""
    first = search.candidates[0].size_ft
    sizes = [
        f"--unit {v.name} ({feet_inches(first[0] * v.unit.ft / search.unit.ft)} by "
        f"{feet_inches(first[1] * v.unit.ft / search.unit.ft)})"
        for v in search.votes[:2]
    ]
    said = next((v.unit.words for v in search.votes if v.header), "")
    says = f"the header says {said}" if said else "the drawing says no unit"
    return f"the unit is in doubt, {says}; give {' or '.join(sizes)}"
