"""What a list says of one strap as set, before anything is judged."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from framing.plan import Side


class Written(StrEnum):
    """How the crew counted a strap: the phone page's own words."""

    TO_SET = "to set"
    SET = "set"
    MISSING = "missing"
    WRONG = "wrong"
    ASK = "ask"


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One strap of one mark as a list has it; None and '' where nothing was written.

    `offset_in` is how far along the tape it stands off its mark, positive away from START; `gap_in` the clear distance
    from strap to truss; `face_in` how far in from the outside face it was measured; `where` the file and row.
    """

    mark: str
    strap: int
    written: Written
    offset_in: float | None
    gap_in: float | None
    face_in: float | None
    side: Side | None
    anchor: str
    note: str
    by: str
    when: str
    where: str

    @property
    def touched(self) -> bool:
        """Whether anybody wrote anything down of it."""
        measured = (self.offset_in, self.gap_in, self.face_in)
        return self.written is not Written.TO_SET or any(v is not None for v in measured)

    @property
    def stands(self) -> bool:
        """Whether a strap is there: set, or found wrong or doubtful and measured."""
        if self.written is Written.SET:
            return True
        measured = (self.offset_in, self.gap_in, self.face_in)
        return self.written in (Written.WRONG, Written.ASK) and any(v is not None for v in measured)


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """The straps of all lists together, by mark and strap number; `plans` are the plans that the lists name."""

    entries: tuple[Entry, ...]
    plans: tuple[str, ...]
    names: tuple[str, ...]
