"""Run -> Tape: per wall what the crew lead's tape shows, one tick a strap; the paper strip and the phone read it.

A tick is the truss face that the strap lies against. A mark whose side is `both` gives two ticks, one a face.
Stations stay unrounded here; whoever writes one rounds it once, with `framing.units`.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from framing.anchors import Mark
from framing.plan import Side
from framing.run import Run

HALF_PLY_FT = 0.75 / 12.0  # half of 1-1/2 in. lumber: common practice, no source
STRAP_SIDES = {Side.START: (Side.START,), Side.FAR: (Side.FAR,), Side.BOTH: (Side.START, Side.FAR)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """One line to draw on the tie beam: where, for which mark, and on which side of it the strap lies.

    `side` is `start` or `far`, never `both`. `station_ft` is measured from START, `far_ft` from the far end;
    either is negative where the tick lies beyond that end. `number` counts the mark's `n_ticks` ticks from 1.
    """

    mark: Mark
    side: Side
    station_ft: float
    far_ft: float
    number: int
    n_ticks: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """One wall, or one support that is tied down: its length, its ticks from START on, its straps by type.

    `straps` holds (anchor id, number of straps) in the catalogue's order.
    """

    name: str
    description: str
    start_end: str
    length_ft: float
    ticks: tuple[Tick, ...]
    straps: tuple[tuple[str, int], ...]

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The wall's marks, each once. A tick more does not make a mark more."""
        return tuple(t.mark for t in self.ticks if t.number == 1)

    @property
    def n_unresolved(self) -> int:
        """Marks that no anchor of the catalogue holds."""
        return sum(not m.resolved for m in self.marks)


def wall_tapes(run: Run) -> tuple[Tape, ...]:
    """Every wall in order, one without marks too, then the supports that have marks."""
    walls = [(w.name, "", "left end, seen from outside", w.length_ft) for w in run.outline.walls]
    return tuple(_tape(run, *row) for row in walls + _supports(run))


def n_straps_by_type(marks: Iterable[Mark]) -> tuple[tuple[str, int], ...]:
    """(anchor id, straps) over the marks, in the catalogue's order; a pair is two straps."""
    rows = sorted((m.anchor.order, m.anchor.id, m.count) for m in marks if m.anchor is not None)
    straps: Counter[str] = Counter()
    for _, anchor_id, count in rows:
        straps[anchor_id] += count
    return tuple(straps.items())


def _supports(run: Run) -> list[tuple[str, str, str, float]]:
    marked = {m.wall for m in run.schedule.marks}
    rows = []
    for number, support in enumerate(run.plan.supports, start=1):
        if f"S{number}" in marked:
            length_ft = math.dist(support.start_ft, support.end_ft)
            rows.append((f"S{number}", support.kind.value, "'from' end in the plan file", length_ft))
    return rows


def _tape(run: Run, name: str, description: str, start_end: str, length_ft: float) -> Tape:
    marks = [m for m in run.schedule.marks if m.wall == name]
    ticks = [t for m in marks for t in _ticks(m, length_ft)]
    return Tape(
        name=name,
        description=description,
        start_end=start_end,
        length_ft=length_ft,
        ticks=tuple(sorted(ticks, key=lambda t: t.station_ft)),
        straps=n_straps_by_type(marks),
    )


def _ticks(mark: Mark, length_ft: float) -> list[Tick]:
    """One tick, or for `both` the truss's two faces."""
    sides = STRAP_SIDES[mark.side]
    half_ft = mark.plies * HALF_PLY_FT
    ticks = []
    for number, side in enumerate(sides, start=1):
        on_face_ft = mark.station_ft + (half_ft if side is Side.FAR else -half_ft)
        station_ft = mark.strap_station_ft if len(sides) == 1 else on_face_ft
        ticks.append(
            Tick(
                mark=mark,
                side=side,
                station_ft=station_ft,
                far_ft=length_ft - station_ft,
                number=number,
                n_ticks=len(sides),
            )
        )
    return ticks
