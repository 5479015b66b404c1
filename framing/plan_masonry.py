"""What the plan says of the walls under the roof: bars, filled cells, openings, cross walls, footing.

None stands for what the plan does not say: the demand is then printed with the question, and no capacity is assumed.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

Point = tuple[float, float]


class TopsHeldBy(StrEnum):
    """What holds the tops of the walls sideways."""

    ROOF = "roof"
    TIE_BEAM = "tie beam"


class LintelKind(StrEnum):
    """What spans an opening."""

    TIE_BEAM = "tie beam"
    PRECAST = "precast"
    OTHER = "other"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bars:
    """Reinforcing bars side by side, by the number of eighths of an inch of their diameter: `2 #5`."""

    count: int
    number: int

    @property
    def name(self) -> str:
        """As people write it."""
        return f"{self.count} #{self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stirrups:
    """Closed ties around the beam's bars: `#3 at 8"`."""

    number: int
    spacing_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TieBeamSteel:
    """What is inside the tie beam, and the bar in each filled cell under it."""

    top_bars: Bars | None
    bottom_bars: Bars | None
    stirrups: Stirrups | None
    f_c_psi: float | None
    cover_ft: float | None
    cell_bar: Bars | None
    cell_spacing_ft: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class FilledCell:
    """A cell of the block filled with concrete around a bar, at a station of its wall."""

    wall: str
    at_ft: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """A door or window: stations along its wall, heights above the floor; `lintel` None where it is not said."""

    wall: str
    from_ft: float
    to_ft: float
    sill_ft: float
    head_ft: float
    lintel: LintelKind | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossWall:
    """A wall inside the house that holds the tie beam sideways and carries no truss."""

    start_ft: Point
    end_ft: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Footing:
    """The footing under the walls; `dowelled` where the bar of each filled cell is hooked into it."""

    width_ft: float
    depth_ft: float
    dowelled: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Masonry:
    """All of it. Lines of walls nearer than `line_within_ft` hold the deck as one; a stretch of wall shorter than
    `shortest_stretch_ft` takes nothing.
    """

    tops_held_by: TopsHeldBy
    line_within_ft: float
    shortest_stretch_ft: float
    steel: TieBeamSteel
    filled_cells: tuple[FilledCell, ...]
    openings: tuple[Opening, ...]
    cross_walls: tuple[CrossWall, ...]
    footing: Footing | None
