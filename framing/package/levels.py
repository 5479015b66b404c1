"""Which load level and which sign a package's forces have -> allowable-stress forces without sign, and said."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from framing.errors import StraplineError
from framing.package.headings import LB_OF
from framing.units import shown

STRENGTH_TO_ASD = 0.6
_LEVEL_WORDS = {
    "asd": "ASD",
    "allowable": "ASD",
    "allowable stress": "ASD",
    "service": "ASD",
    "lrfd": "strength",
    "strength": "strength",
    "factored": "strength",
    "ultimate": "strength",
}
_WITHOUT_DEAD = re.compile(r"\s*[,;+]?\s*(?:without|no|not) (?:0\.6 ?d|dead(?: load)?)(?: inside)?", re.IGNORECASE)
_WITH_DEAD = re.compile(r"\s*[,;+]?\s*(?:with )?(?:0\.6 ?d|dead(?: load)?)(?: inside)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """`factor` brings a force of the table to allowable stress; `dead_inside` says whether the dead load is already
    taken off its uplift.
    """

    factor: float
    dead_inside: bool


def level_of(cell: str, wrong: Callable[[str], StraplineError]) -> tuple[Level, bool]:
    """The level that a table's basis says, and whether it says one: allowable stress with the dead load off where it
    does not.

    Source: ASCE 7-22, secs. 2.3.1 and 2.4.1 (1.0 W against 0.6 W).
    """
    without = _WITHOUT_DEAD.search(cell)
    words = _WITHOUT_DEAD.sub("", cell) if without else _WITH_DEAD.sub("", cell)
    name = _LEVEL_WORDS.get(words.strip().lower())
    if cell and name is None:
        raise wrong(f'{shown(cell)} is no level of loads; write "ASD" or "strength", and "without 0.6D" where so')
    return Level(factor=STRENGTH_TO_ASD if name == "strength" else 1.0, dead_inside=without is None), bool(cell)


def signed(lb: list[float | None], wrong: Callable[[int, str], StraplineError]) -> list[float | None]:
    """A column of one sign as positive numbers.

    Raises
    ------
    StraplineError
        If it has both signs: which of them lifts cannot be told.
    """
    up = next((i for i, v in enumerate(lb) if v and v > 0.0), None)
    down = next((i for i, v in enumerate(lb) if v and v < 0.0), None)
    if up is not None and down is not None:
        raise wrong(
            max(up, down), "plus and minus stand in one column; write one sign, and 0 where the other way governs"
        )
    return [None if v is None else abs(v) for v in lb]


def sentences(
    level: Level,
    stated: bool,
    typed: Mapping[str, tuple[float, ...]],
    units: Mapping[str, str],
    has: Callable[[str], bool],
) -> tuple[str, ...]:
    """How the forces were read."""
    said = []
    if any(v < 0.0 for v in typed.get("uplift", ())):
        said.append("uplift stands with a minus sign: minus is read as up")
    elif typed.get("uplift"):
        said.append("uplift stands without sign: read as up")
    if level.factor != 1.0:
        said.append(
            f"the forces are strength level: times {STRENGTH_TO_ASD:g} for allowable stress (1.0 W is 0.6 W there; "
            "what that leaves of 0.9 D against 0.6 D is under 0.06 D, on the safe side); loads down are not compared"
        )
    elif stated:
        said.append("the forces are allowable stress, as the table says")
    else:
        said.append("the table does not say its level of loads: read as allowable stress, the dead load taken off; ask")
    if not level.dead_inside:
        said.append("the table's uplift has no dead load taken off: it governs as it stands, on the safe side")
    for unit in dict.fromkeys(u for u in units.values() if u != "lb"):
        said.append(f"forces in {unit} are times {LB_OF[unit]:,.4g} for lb")
    if has("horizontal"):
        said.append("its horizontal reactions are the trusses' own: told, never taken for the wall's push")
    if has("parallel") or has("perpendicular"):
        said.append("pushes along and square to the wall are the engineer of record's: they stand in place of ours")
    return tuple(said)
