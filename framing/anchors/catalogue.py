"""The user's anchors as values."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from framing.anchors.interaction import Allowable, Interaction


class AnchorKind(StrEnum):
    """Set into the wet concrete, or put on afterwards."""

    CAST = "cast"
    RETROFIT = "retrofit"


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """One row of the catalogue: an anchor, or a pair of them, at one number of plies.

    `count` is 1 or 2 (a pair has its own row). Values are None where the catalogue gives none: the least clear distance
    between anchors, from a wall's end and from its face, the least strength of the concrete, the minutes it takes.
    """

    id: str
    name: str
    count: int
    plies: int
    allowable_uplift_lb: float
    allowable_parallel_lb: float | None
    allowable_perpendicular_lb: float | None
    embedment_in: float | None
    length_in: float | None
    fasteners: str
    n_nails: int
    approval: str
    price: float
    interaction: Interaction
    spacing_in: float | None
    end_in: float | None
    edge_in: float | None
    f_c_psi: float | None
    minutes: float | None
    kind: AnchorKind
    order: int

    @property
    def allowable(self) -> Allowable:
        """What it takes, up and sideways."""
        return Allowable(
            uplift_lb=self.allowable_uplift_lb,
            parallel_lb=self.allowable_parallel_lb,
            perpendicular_lb=self.allowable_perpendicular_lb,
            rule=self.interaction,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """The user's anchors, in file order. `invented` is True for a sample that must say so everywhere."""

    name: str
    anchors: tuple[Anchor, ...]
    invented: bool
    sha256: str
