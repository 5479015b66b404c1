"""Straps as set -> the mistakes behind several faults at once: a run shifted alike, a wall mirrored, walls or anchors
swapped, a run on the wrong side. Each wall gets the explanation that leaves least unexplained.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from scipy.optimize import linear_sum_assignment

from framing.asbuilt.judge import AsBuilt, State
from framing.asbuilt.runs import LEAST_STRAPS, STRANGE, Fit, Floats, misfit, shifted_stretches
from framing.members import Crossing
from framing.run import Run
from framing.units import inches

OTHER_SHEET = 6.0
SAME_SHEET_IN = 1.0
LEAST_SHARE = 0.8


class Mistake(StrEnum):
    """What happened, in one word."""

    SHIFTED = "shifted"
    MIRRORED = "mirrored"
    OTHER_WALL = "other wall's sheet"
    WRONG_SIDE = "all on the wrong side"
    SWAPPED = "anchors swapped"


QUESTION = {
    Mistake.SHIFTED: "May these trusses be set off their lines by this much, all alike, instead of a repair at each?",
    Mistake.MIRRORED: "May the trusses of this wall be laid out to the straps that stand, instead of a repair at each?",
    Mistake.OTHER_WALL: "May the trusses of this wall be laid out to the straps that stand, or is each repaired?",
    Mistake.WRONG_SIDE: "May these trusses be set over by their thickness, all alike, instead of a repair at each?",
    Mistake.SWAPPED: "Does each anchor carry what the other mark asks, or what is added to the lighter one?",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One mistake and the straps that it explains, by their names. `shift_in` is positive away from START."""

    mistake: Mistake
    wall: str
    straps: tuple[str, ...]
    shift_in: float
    words: str

    @property
    def question(self) -> str:
        """What to ask the engineer before each strap by itself."""
        return QUESTION[self.mistake]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Wall:
    """One wall: its straps along the tape, those of them that are measured, and every strap's planned place. [in]"""

    name: str
    length_in: float
    straps: tuple[AsBuilt, ...]
    planned_in: Floats

    @property
    def measured(self) -> tuple[AsBuilt, ...]:
        return tuple(s for s in self.straps if s.along_in is not None)


def patterns(run: Run, straps: Sequence[AsBuilt]) -> tuple[Pattern, ...]:
    """The mistakes of all walls, in the order of the walls."""
    lengths = {w.name: 12.0 * w.length_ft for w in run.outline.walls}
    walls = []
    for name in dict.fromkeys(s.mark.bearing.wall for s in straps):
        own = sorted((s for s in straps if s.mark.bearing.wall == name), key=lambda s: s.strap.tape_ft)
        planned = np.array([12.0 * s.strap.tape_ft for s in own])
        walls.append(_Wall(name=name, length_in=lengths.get(name, 0.0), straps=tuple(own), planned_in=planned))
    return tuple(p for wall in walls for p in _of_wall(wall, walls))


def _of_wall(wall: _Wall, walls: Sequence[_Wall]) -> Iterator[Pattern]:
    """The whole wall by another sheet where that explains it best, else its stretches; then sides and anchors."""
    measured = wall.measured
    fit = shifted_stretches(np.array([s.along_in or 0.0 for s in measured]))
    other = _by_other_sheet(wall, walls, fit)
    if other is not None:
        yield other
        return
    for stretch in fit.stretches:
        yield _shifted(wall, measured[stretch.first : stretch.last + 1], stretch.shift_in)
    yield from _sides(wall, {s for stretch in fit.stretches for s in range(stretch.first, stretch.last + 1)})
    yield from _swapped(wall)


def _by_other_sheet(wall: _Wall, walls: Sequence[_Wall], own: Fit) -> Pattern | None:
    """The wall mirrored, or set by another wall's sheet, where that leaves less unexplained than its own sheet does.

    A sheet that puts every strap where the wall's own does cannot be told from it.
    """
    stand = np.array([12.0 * s.strap.tape_ft + (s.along_in or 0.0) for s in wall.measured])
    if len(stand) < LEAST_STRAPS:
        return None
    sheets = [(Mistake.MIRRORED, wall.name, np.sort(wall.length_in - wall.planned_in))] if wall.length_in else []
    sheets += [(Mistake.OTHER_WALL, w.name, w.planned_in) for w in walls if w.name != wall.name]
    best, least = None, own.misfit_ratio
    for mistake, name, sheet in sheets:
        if len(sheet) == len(wall.planned_in) and np.abs(sheet - wall.planned_in).max() < SAME_SHEET_IN:
            continue
        cost, share = _cost(stand, sheet)
        if share >= LEAST_SHARE and cost < least:
            best, least = (mistake, name), cost
    if best is None:
        return None
    mistake, name = best
    words = (
        f"{wall.name}: all {len(stand)} straps stand as on the mirrored sheet: it was laid out from the wrong end"
        if mistake is Mistake.MIRRORED
        else f"{wall.name}: its {len(stand)} straps stand as on the sheet of {name}: the walls' sheets were swapped"
    )
    return Pattern(mistake=mistake, wall=wall.name, straps=_names(wall.measured), shift_in=0.0, words=words)


def _cost(stand_in: Floats, sheet_in: Floats) -> tuple[float, float]:
    """What a sheet leaves unexplained of where straps stand, each at one of its marks at most, and the share that it
    explains; a sheet of another count costs for the difference.
    """
    apart = misfit(stand_in[:, None] - sheet_in[None, :])
    rows, columns = linear_sum_assignment(apart)
    found = apart[rows, columns]
    left = max(0, len(stand_in) - len(sheet_in))
    return OTHER_SHEET + float(found.sum()) + STRANGE * left, float((found < STRANGE).sum()) / len(stand_in)


def _shifted(wall: _Wall, straps: Sequence[AsBuilt], shift_in: float) -> Pattern:
    way = "the far end" if shift_in > 0.0 else "START"
    by = inches(abs(shift_in) / 12.0).replace('"', " in.").removeprefix("0 ")
    first, last = straps[0].name, straps[-1].name
    measured = wall.measured
    whole = straps[0] is measured[0] and straps[-1] is measured[-1]
    to_end = straps[-1] is measured[-1]
    cause = "the tape was hooked wrong" if whole else "the layout moved there"
    cause += " and everything after it with it" if to_end and not whole else ""
    words = f"{first} to {last} all {by} toward {way}: {cause}, one mistake and not {len(straps)}"
    return Pattern(mistake=Mistake.SHIFTED, wall=wall.name, straps=_names(straps), shift_in=shift_in, words=words)


def _sides(wall: _Wall, explained: set[int]) -> Iterator[Pattern]:
    """Neighbours that all stand on the wrong face, but for those that a shift explains."""
    shifted = {s.name for k, s in enumerate(wall.measured) if k in explained}
    run: list[AsBuilt] = []
    crossing = [s for s in wall.straps if s.mark.bearing.crossing is not Crossing.ALONG]
    for s in (*crossing, None):
        if s is not None and s.state is State.WRONG_SIDE and s.name not in shifted:
            run.append(s)
            continue
        if len(run) >= LEAST_STRAPS:
            words = f"{run[0].name} to {run[-1].name} all on the wrong side of their trusses: the side was misread"
            yield Pattern(mistake=Mistake.WRONG_SIDE, wall=wall.name, straps=_names(run), shift_in=0.0, words=words)
        run = []


def _swapped(wall: _Wall) -> Iterator[Pattern]:
    """Two marks of a wall, each with the anchor that the other should have; the nearest such pairs."""
    wrong = [s for s in wall.straps if s.state is State.WRONG_ANCHOR and s.entry and s.mark.anchor]
    taken: set[str] = set()
    for k, a in enumerate(wrong):
        for b in wrong[k + 1 :]:
            if a.name in taken or b.name in taken or a.mark is b.mark or not _crossed(a, b):
                continue
            taken |= {a.name, b.name}
            words = f"{a.name} and {b.name} have each other's anchor: they were swapped"
            yield Pattern(mistake=Mistake.SWAPPED, wall=wall.name, straps=(a.name, b.name), shift_in=0.0, words=words)


def _crossed(a: AsBuilt, b: AsBuilt) -> bool:
    if not (a.entry and b.entry and a.mark.anchor and b.mark.anchor):
        return False
    ours, theirs = a.mark.anchor.id.lower(), b.mark.anchor.id.lower()
    return ours != theirs and a.entry.anchor.lower() == theirs and b.entry.anchor.lower() == ours


def _names(straps: Sequence[AsBuilt]) -> tuple[str, ...]:
    return tuple(s.name for s in straps)
