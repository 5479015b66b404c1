"""Run -> Tape: per wall what the crew lead's tape shows, one tick a strap; the paper strip and the phone read it.

A tick stands at the strap point on the wall's outside face. A mark whose side is `both` gives two ticks, one a face.
Stations stay unrounded here; whoever writes one rounds it once, with `framing.units`.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from export.words.ground import cell_words_of
from export.words.supports import start_words
from framing.anchors.schedule import Mark
from framing.members import Bearing, Crossing, PorchBeam, Strap
from framing.plan import Side
from framing.run import Run
from framing.units import feet_inches, inches

HALF_PLY_FT = 0.75 / 12.0  # half of 1-1/2 in. lumber: common practice, no source
LEAST_SKEW_DEG = 1.0
SAMPLE_WORDS = "SAMPLE CATALOGUE: invented anchors, not for building"
FACE_WORDS = {
    Side.START: "START side",
    Side.FAR: "far side",
    Side.INSIDE: "inside face",
    Side.OUTSIDE: "outside face",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """One strap to mark on the tie beam, and for which mark.

    `station_ft` is the tape's figure from START, `far_ft` from the far end. `number` counts the mark's `n_ticks`
    straps from 1, along the tape. `lean_deg` is how the truss stands off square to the tape, positive where it runs
    inward toward the far end; `cell_words` ask for the filled cell that a girder or a pair wants nearby.
    """

    mark: Mark
    strap: Strap
    lean_deg: float
    station_ft: float
    far_ft: float
    number: int
    n_ticks: int
    cell_words: str

    @property
    def side(self) -> Side:
        """The face of the truss that the strap lies against: never `both`."""
        return self.strap.side

    @property
    def in_corner_block(self) -> bool:
        """Whether the strap stands in the beam's block behind an inside corner, on no wall's face."""
        return self.strap.in_from_next_ft is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """One wall, or one support that is tied down: its length, and its ticks from START on.

    `start_end` says in words which end of the wall START is; `open_ft` is where porch beams stand in its place,
    `usual_side` the face that the plan asks for.
    """

    name: str
    description: str
    start_end: str
    length_ft: float
    ticks: tuple[Tick, ...]
    open_ft: tuple[tuple[float, float], ...]
    usual_side: Side

    @property
    def marks(self) -> tuple[Mark, ...]:
        """The wall's marks, each once, however many ticks it has."""
        return tuple(t.mark for t in self.ticks if t.number == 1)


def wall_tapes(run: Run) -> tuple[Tape, ...]:
    """Every wall in order, one without marks too unless a porch beam stands for all of it, then the supports that have
    marks.
    """
    walls = [
        _tape(
            run,
            _Line(w.name, "left end, seen from outside", w.length_ft, w.outward),
            _open_words(run, k),
            _open_ft(run, k),
        )
        for k, w in enumerate(run.outline.walls)
    ]
    standing = [t for k, t in enumerate(walls) if t.ticks or not _all_open(run, k)]
    return (*standing, *(_tape(run, line, kind) for line, kind in _supports(run)))


def n_straps_by_type(marks: Sequence[Mark]) -> tuple[tuple[str, int], ...]:
    """(anchor id, straps) over the marks, in the catalogue's order; a pair is two straps."""
    rows = sorted((m.anchor.order, m.anchor.id, m.count) for m in marks if m.anchor is not None)
    straps: Counter[str] = Counter()
    for _, anchor_id, count in rows:
        straps[anchor_id] += count
    return tuple(straps.items())


def count_words(marks: Sequence[Mark]) -> str:
    """The count in words, such as `25 marks. Straps: 20 x A1, 4 x B1 = 24 in all.`, unresolved marks last."""
    if not marks:
        return "No marks: no strap on this wall."
    words = f"{len(marks)} mark{'s' if len(marks) > 1 else ''}."
    if straps := n_straps_by_type(marks):
        by_type = ", ".join(f"{n} x {anchor_id}" for anchor_id, n in straps)
        words += f" Straps: {by_type} = {sum(n for _, n in straps)} in all."
    if n_unresolved := sum(not m.resolved for m in marks):
        words += f" {n_unresolved} UNRESOLVED: no anchor in the catalogue holds; ask the engineer before the pour."
    return words


def place_words(tick: Tick) -> str:
    """How far in from the outside face a strap stands, where it does not stand at mid-thickness beside a truss that
    crosses its wall square; behind an inside corner from both outside faces.
    """
    strap, bearing = tick.strap, tick.mark.bearing
    if strap.in_from_face_ft is None:
        return ""
    depth = inches(strap.in_from_face_ft)
    if strap.in_from_next_ft is not None:
        other = inches(strap.in_from_next_ft)
        return f"corner: {depth} in from face of {bearing.wall}, {other} in from face of {bearing.next_wall}"
    return "" if bearing.crossing is Crossing.SQUARE else f"{depth} in from face"


def crossing_words(tick: Tick) -> str:
    """How a truss stands that does not cross its wall square: along it, at 45 degrees, askew."""
    bearing = tick.mark.bearing
    words = []
    if bearing.crossing is Crossing.ALONG:
        words.append("truss along wall")
        words += ["only bottom chord or a stud to nail"] if tick.mark.only_bottom_chord else []
    elif bearing.crossing is Crossing.DIAGONAL:
        words.append(f"truss at {bearing.skew_deg:.0f} deg")
    elif bearing.skew_deg >= LEAST_SKEW_DEG:
        words.append(f"truss {bearing.skew_deg:.0f} deg off square")
        words.append(f"bears {inches(bearing.bearing_length_ft)}")
    return "; ".join(words)


def tick_words(tick: Tick) -> str:
    """What is out of the ordinary about a strap: one of two, a truss that stands along the wall, at 45 degrees or
    askew, a second figure in from the face, no filled cell known near a girder or a pair.
    """
    words = [f"strap {tick.number} of {tick.n_ticks}"] if tick.n_ticks > 1 else []
    cell = tick.cell_words if tick.number == 1 else ""
    return "; ".join(filter(None, (*words, crossing_words(tick), place_words(tick), cell)))


def _porch_beams(run: Run, wall: int) -> list[PorchBeam]:
    """The porch beams in place of a wall, along the tape, which runs on past them."""
    return sorted((b for b in run.framing.porch_beams if b.wall == wall), key=lambda b: b.from_ft)


def _open_ft(run: Run, wall: int) -> tuple[tuple[float, float], ...]:
    return tuple((b.from_ft, b.to_ft) for b in _porch_beams(run, wall))


def _open_words(run: Run, wall: int) -> str:
    return " and ".join(
        f"no wall from {feet_inches(b.from_ft)} to {feet_inches(b.to_ft)} (porch beam {b.name})"
        for b in _porch_beams(run, wall)
    )


def _all_open(run: Run, wall: int) -> bool:
    """Whether porch beams stand for a whole wall, its corners aside."""
    w = run.outline.walls[wall]
    return sum(b - a for a, b in _open_ft(run, wall)) >= w.length_ft - 2.0 * w.thickness_ft


class _Line(NamedTuple):
    """A wall's or support's line: its name, which end START is, its length, and the way out from the house."""

    name: str
    start_end: str
    length_ft: float
    outward: tuple[float, float]


def _supports(run: Run) -> list[tuple[_Line, str]]:
    marked = {m.bearing.wall for m in run.schedule.marks if not m.bearing.by_engineer}
    rows = []
    for number, support in enumerate(run.plan.supports, start=1):
        if f"S{number}" in marked:
            (x0, y0), (x1, y1) = support.start_ft, support.end_ft
            length_ft = math.dist(support.start_ft, support.end_ft)
            outward = ((y1 - y0) / length_ft, (x0 - x1) / length_ft)
            rows.append((_Line(f"S{number}", start_words(run, support), length_ft, outward), support.kind.value))
    return rows


def _tape(run: Run, line: _Line, description: str, open_ft: tuple[tuple[float, float], ...] = ()) -> Tape:
    marks = [m for m in run.schedule.marks if m.bearing.wall == line.name and not m.bearing.by_engineer]
    cells = {run.schedule.marks[g.row].mark: cell_words_of(g) for g in run.ground.girders}
    ticks = [t for m in marks for t in _ticks(m, line, cells.get(m.mark, ""))]
    return Tape(
        name=line.name,
        description=description,
        start_end=line.start_end,
        length_ft=line.length_ft,
        ticks=tuple(sorted(ticks, key=lambda t: t.station_ft)),
        open_ft=open_ft,
        usual_side=run.plan.anchors.side,
    )


def _ticks(mark: Mark, line: _Line, cell_words: str) -> list[Tick]:
    """A tick for each of a mark's straps."""
    straps = sorted(mark.straps, key=lambda s: s.tape_ft)
    lean_deg = _lean_deg(mark.bearing, line.outward)
    return [
        Tick(
            mark=mark,
            strap=s,
            lean_deg=lean_deg,
            station_ft=s.tape_ft,
            far_ft=line.length_ft - s.tape_ft,
            number=number,
            n_ticks=len(straps),
            cell_words=cell_words,
        )
        for number, s in enumerate(straps, start=1)
    ]


def _lean_deg(bearing: Bearing, outward: tuple[float, float]) -> float:
    """Off square to the tape, from where the member's wood lies; 0 where that is not known. [deg]"""
    ring = bearing.wood_ft
    if not ring:
        return 0.0
    sides = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise((*ring, ring[0]))]
    x, y = max(sides, key=lambda v: round(math.hypot(*v), 6))
    inward, along = -(x * outward[0] + y * outward[1]), y * outward[0] - x * outward[1]
    return math.degrees(math.atan2(along, inward) if inward > 0.0 else math.atan2(-along, -inward))
