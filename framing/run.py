"""One run: every result together, and the one function that makes it."""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors import AnchorSchedule
from framing.members import Framing
from framing.outline import Outline
from framing.plan import Plan
from framing.reactions import Reactions
from framing.roof import Roof

CAUTION = (
    "Layout and preliminary reactions for planning. The truss engineer's sealed reactions, the anchor's "
    "product approval, the local building code and the engineer of record govern. Do not pour from this "
    "sheet until they have been compared."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class WindFigure:
    """One line of the wind arithmetic: symbol, value, unit and the clause it comes from."""

    symbol: str
    meaning: str
    value: float
    unit: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """Everything that one run found out; every output is made from it and from nothing else.

    `fingerprint` is the short one of plan, catalogue and program version. `notes` are sentences for people:
    what was merged, doubled or flagged. `flags` are the notes that make the exit code 1 besides
    unresolved marks.
    """

    plan: Plan
    outline: Outline
    roof: Roof
    framing: Framing
    wind: tuple[WindFigure, ...]
    reactions: Reactions
    schedule: AnchorSchedule
    fingerprint: str
    version: str
    notes: tuple[str, ...]
    flags: tuple[str, ...]
