"""What a truss engineer's table of reactions says, as values: its rows, the wind that it is for, how it was read."""

from __future__ import annotations

from dataclasses import dataclass

from framing.plan import EditionName, Enclosure, Exposure


@dataclass(frozen=True, slots=True, kw_only=True)
class PackageRow:
    """One bearing of the package. `number` is its line in the file, the header being 1. None and '' are what the table
    does not say.

    Forces are in lb, allowable-stress level, `uplift_lb` positive up, `down_lb` positive down. `horizontal_lb` is the
    truss's own reaction, told and never the wall's; `parallel_lb` and `perpendicular_lb` are the engineer of record's
    pushes along the wall and square to it. `hung` says that the end hangs on another member. `accepted` is the table's
    yes to a partner that was not found by mark.
    """

    number: int
    mark: str
    member: str
    wall: str
    station_ft: float | None
    joint: str
    plies: int | None
    hung: bool | None
    down_lb: float | None
    uplift_lb: float | None
    horizontal_lb: float | None
    parallel_lb: float | None
    perpendicular_lb: float | None
    span_ft: float | None
    overhang_ft: float | None
    accepted: bool

    @property
    def name(self) -> str:
        """What people find it by."""
        said = self.mark or self.member or (f"{self.wall} at {self.station_ft:.2f} ft" if self.wall else "")
        return f"row {self.number} ({said})" if said else f"row {self.number}"


@dataclass(frozen=True, slots=True, kw_only=True)
class PackageWind:
    """The wind that the package was made for, as far as its table says."""

    speed_mph: float | None
    exposure: Exposure | None
    enclosure: Enclosure | None
    edition: EditionName | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Package:
    """The whole table. `said` are sentences about how it was read: signs, levels, units, what was passed over.
    `accept_all` is the caller's yes to every partner not found by mark. `sha256` is of the file's text and that yes.
    """

    name: str
    revision: str
    rows: tuple[PackageRow, ...]
    wind: PackageWind
    said: tuple[str, ...]
    accept_all: bool
    sha256: str

    @property
    def words(self) -> str:
        """What every output made from it is headed by."""
        return f"{self.revision or 'not named'} ({self.name})"


def like_ours(mark: str) -> bool:
    """Whether a mark is written as ours are."""
    head, _, tail = mark.upper().partition("-")
    return head[:1] in ("W", "S") and head[1:].isdecimal() and tail.isdecimal()
