"""What the plan says for the trades beside the framing: the engineer's package, deck, covering, takeoff, options.

None and '' stand for what the plan does not say.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

PlanValue = str | int | float | bool
TAKEOFF_ITEMS = (
    *("truss", "hanger", "barrier", "fascia", "drip edge", "soffit", "outlooker", "deck panel", "deck nail"),
    *("underlayment", "strip", "cap nail", "concrete", "bar", "stirrup", "nail"),
)
"""The names by which prices and wastes of the takeoff go; anchors have theirs in the catalogue."""


class PackageLayout(StrEnum):
    """Whose marks and places the outputs show."""

    OURS = "ours"
    PACKAGE = "package"


@dataclass(frozen=True, slots=True, kw_only=True)
class PackageSpec:
    """The truss engineer's reactions: `file` as typed, relative to the plan; `columns` our column to theirs."""

    file: str
    columns: tuple[tuple[str, str], ...]
    layout: PackageLayout


@dataclass(frozen=True, slots=True, kw_only=True)
class DeckSpec:
    """The roof deck and its nails in the trade's terms; the last three by the user's own code schedule. [in]"""

    panel: str
    rating: str
    nail: str
    chord_species: str
    edge_in: float | None
    field_in: float | None
    zone_3_in: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class TakeoffSpec:
    """Prices by item and the waste in percent by item, as typed."""

    prices: tuple[tuple[str, float], ...]
    waste_percent: tuple[tuple[str, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A variant of the house: dotted keys of the plan file and what they are set to."""

    name: str
    set: tuple[tuple[str, PlanValue], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trades:
    """All of it. `approvals` is the user's table of resistances for the covering, relative to the plan."""

    package: PackageSpec
    deck: DeckSpec
    approvals: str
    takeoff: TakeoffSpec
    options: tuple[Option, ...]
