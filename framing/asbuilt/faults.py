"""A strap not as planned -> its demand, what its neighbours could still take, what it must precede, what to ask.

Nothing here is a design: a neighbour's spare and a catalogue's retrofit row are figures for the engineer's letter.
Source: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.interaction import used
from framing.anchors.schedule import Mark
from framing.asbuilt.judge import AsBuilt, State


@dataclass(frozen=True, slots=True, kw_only=True)
class Spare:
    """What a neighbour's anchor is not asked for in uplift; None where it has a fault itself. [lb]"""

    mark: str
    spare_lb: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One strap with a finding. `retrofit` are the catalogue's rows that carry its mark's demand, the least first."""

    strap: AsBuilt
    spares: tuple[Spare, ...]
    before: str
    question: str
    retrofit: tuple[Anchor, ...]


BEFORE = {
    State.FILLER: "before its nails are driven",
    State.SHIFT: "before the trusses of this wall are set",
    State.ASK: "before the trusses of this wall are set",
    State.WRONG_SIDE: "before the trusses of this wall are set",
    State.WRONG_ANCHOR: "before the trusses are lifted",
    State.OUT_OF_REACH: "before the trusses are lifted",
    State.MISSING: "before the trusses are lifted",
}
QUESTION = {
    State.FILLER: "May a wood filler as thick as the gap be nailed between strap and truss, and with which nails?",
    State.SHIFT: "May the truss be set off its line by this much, or does it get a second anchor?",
    State.ASK: "May it stay as it stands, and what closes or holds it?",
    State.WRONG_SIDE: "May the truss be moved to the strap's other side, or does it get a filler or a second anchor?",
    State.WRONG_ANCHOR: "Does the anchor that is set carry this demand, or what is added to it?",
    State.OUT_OF_REACH: "Which retrofit anchor holds this truss, and where?",
    State.MISSING: "Which retrofit anchor holds this truss, and where?",
}
NEEDS_ANCHOR = frozenset({State.MISSING, State.OUT_OF_REACH, State.WRONG_ANCHOR, State.WRONG_SIDE, State.ASK})


def faults(straps: Sequence[AsBuilt], catalogue: Catalogue) -> tuple[Fault, ...]:
    """Every strap that is not as planned, in the plan's order."""
    bad = {s.mark.mark for s in straps if not s.as_planned}
    return tuple(_fault(s, straps, bad, catalogue) for s in straps if not s.as_planned)


def _fault(strap: AsBuilt, straps: Sequence[AsBuilt], bad: set[str], catalogue: Catalogue) -> Fault:
    wall = list({s.mark.mark: s.mark for s in straps if s.mark.bearing.wall == strap.mark.bearing.wall}.values())
    wall.sort(key=lambda m: m.bearing.station_ft)
    at = wall.index(strap.mark)
    near = [wall[k] for k in (at - 1, at + 1) if 0 <= k < len(wall)]
    return Fault(
        strap=strap,
        spares=tuple(Spare(mark=m.mark, spare_lb=None if m.mark in bad else _spare_lb(m)) for m in near),
        before=BEFORE[strap.state],
        question=QUESTION[strap.state],
        retrofit=retrofit_rows(strap.mark, catalogue) if strap.state in NEEDS_ANCHOR else (),
    )


def _spare_lb(mark: Mark) -> float:
    return max(0.0, (mark.allowable_uplift_lb or 0.0) - mark.uplift_lb)


def retrofit_rows(mark: Mark, catalogue: Catalogue) -> tuple[Anchor, ...]:
    """The user's retrofit rows at the mark's plies that carry its largest uplift and pushes together, the least first.

    Source: from memory (engineering usage).
    """
    rows = [a for a in catalogue.anchors if a.kind is AnchorKind.RETROFIT and a.plies == mark.bearing.plies]
    asked = (mark.uplift_lb, mark.parallel_lb or 0.0, mark.perpendicular_lb or 0.0)
    held = [a for a in rows if used(_parts(asked, a), a.interaction) <= 1.0]
    return tuple(sorted(held, key=lambda a: (a.count, a.allowable_uplift_lb, a.price, a.order)))


def _parts(asked_lb: tuple[float, float, float], a: Anchor) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    most = (a.allowable_uplift_lb, a.allowable_parallel_lb, a.allowable_perpendicular_lb)
    return np.array([0.0 if m is None else lb / m for lb, m in zip(asked_lb, most, strict=True)])
