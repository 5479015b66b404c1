"""A cell once its truss lines stand: its ends, the lines along its ridge, the half-hips at its seams."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from framing.frame_side import SIDES, FrameSide
from framing.layout.records import Cell, Key
from framing.members import MemberKind
from framing.roof.wings import Wing
from framing.tolerances import TIE_FT


class EndKind(Enum):
    """What a cell has at one end of its ridge."""

    HIP = "hip"
    GABLE = "gable"
    CHORD = "chord"
    WALL = "wall"


@dataclass(frozen=True, slots=True, kw_only=True)
class CellEnd:
    """One end of a cell: its line, the first truss line there and that truss's key (None: none of its own)."""

    side: FrameSide
    kind: EndKind
    line_ft: float
    truss_ft: float
    key: Key

    @property
    def inward(self) -> int:
        """Direction along the ridge into the cell."""
        return self.side.inward


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One truss line of a cell, by its coordinate along the ridge."""

    at_ft: float
    key: Key
    kind: MemberKind
    plies: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfHip:
    """A corner of a hip end, at a seam, where no hip is built: from the end as far as `to_ft` along the ridge nothing
    falls toward the cell's side `side`.
    """

    end_side: FrameSide
    side: FrameSide
    to_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CellPlan:
    """A cell with its ends, its truss lines from low to high and the half-hips at its seams; `merged_ft` is where along
    the ridge a truss line is left out because a bay beside it would be under 3 in.
    """

    cell: Cell
    wing: Wing
    low_end: CellEnd
    high_end: CellEnd
    setback_ft: float
    slots: tuple[Slot, ...]
    half_hips: tuple[HalfHip, ...]
    merged_ft: tuple[float, ...]

    @property
    def jacks_only(self) -> bool:
        """Whether jacks run from a hip end to the chord at the other end and take the whole cell."""
        kinds = {self.low_end.kind, self.high_end.kind}
        return self.low_end.key == self.high_end.key and kinds == {EndKind.HIP, EndKind.CHORD}

    def open_sides(self, at_ft: float) -> tuple[FrameSide, ...]:
        """The sides toward which a truss line at a place along the ridge does not fall as its wing does: at a half-hip,
        and where the cell runs on past its wing over a jog, to the eave of that part.
        """
        past = {s for s in SIDES if (self.wing.side_ft(s) - self.cell.side_ft(s)) * s.inward > TIE_FT}
        reached = {h.side for h in self.half_hips if h.end_side.inward * (h.to_ft - at_ft) >= -TIE_FT}
        return tuple(sorted(past | reached))
