"""What one value in the plan file may be, continued: sizes and bars as the trade writes them, and tables of values."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

from framing.plan import TieBeam
from framing.plan_file.fields import FieldError, Kind, Length, Words
from framing.plan_masonry import Bars, Stirrups
from framing.plan_trades import PlanValue
from framing.units import shown


@dataclass(frozen=True, slots=True)
class BarsOf(Kind):
    """Reinforcing bars: how many and which number."""

    def read(self, value: object) -> Bars:
        """The bars, 1 to 8 of #3 to #11."""
        match = re.fullmatch(r"(?:(\d)\s+)?#(\d{1,2})", value.strip(), re.ASCII) if isinstance(value, str) else None
        if match is None or not (1 <= int(match[1] or 1) <= 8 and 3 <= int(match[2]) <= 11):
            raise FieldError(f'{shown(value)} names no bars; write 1 to 8 of #3 to #11, such as "2 #5"')
        return Bars(count=int(match[1] or 1), number=int(match[2]))

    def schema(self) -> dict[str, Any]:
        """Text such as 2 #5."""
        return {"type": "string", "pattern": r"^\s*(\d\s+)?#\d{1,2}\s*$"}


@dataclass(frozen=True, slots=True)
class StirrupsOf(Kind):
    """Closed ties: their number and their spacing."""

    def read(self, value: object) -> Stirrups:
        """The stirrups, #3 to #5 at 2 to 24 in."""
        match = re.fullmatch(r"\s*#([345])\s+at\s+(.+)", value, re.ASCII) if isinstance(value, str) else None
        if match is None:
            raise FieldError(f'{shown(value)} names no stirrups; write number and spacing, #3 to #5: "#3 at 8 in"')
        return Stirrups(number=int(match[1]), spacing_ft=Length('2"', '24"').read(match[2]))

    def schema(self) -> dict[str, Any]:
        """Text such as #3 at 8 in."""
        return {"type": "string", "pattern": r"^\s*#[345]\s+at\s+.+$"}


@dataclass(frozen=True, slots=True)
class Table(Kind):
    """Names and a value of one kind each, in the order typed."""

    of: Kind

    def read(self, value: object) -> tuple[tuple[str, object], ...]:
        """The pairs."""
        if not isinstance(value, dict):
            raise FieldError(f"{shown(value)} is not a table; write {{ name = value }}")
        return tuple((Words().read(name), self._cell(name, cell)) for name, cell in value.items())

    def _cell(self, name: str, cell: object) -> object:
        try:
            return self.of.read(cell)
        except ValueError as problem:
            raise FieldError(f"{shown(name)}: {problem}") from None

    def schema(self) -> dict[str, Any]:
        """An object."""
        return {"type": "object", "additionalProperties": self.of.schema()}


@dataclass(frozen=True, slots=True)
class Scalar(Kind):
    """Text, a number, or true or false."""

    def read(self, value: object) -> PlanValue:
        """The value as typed."""
        if not isinstance(value, str | int | float):
            raise FieldError(f"{shown(value)} is not one value; write text, a number, true or false")
        return value

    def schema(self) -> dict[str, Any]:
        """One value."""
        return {"type": ["string", "number", "boolean"]}


@dataclass(frozen=True, slots=True)
class BeamSize(Kind):
    """A tie beam's nominal width and depth in inches."""

    def read(self, value: object) -> TieBeam:
        """The tie beam, 4 to 16 in. wide and 4 to 48 in. deep."""
        match = re.fullmatch(r"(\d{1,3})x(\d{1,3})", value, re.ASCII) if isinstance(value, str) else None
        if match is None:
            raise FieldError(f'{shown(value)} is not a size; write nominal inches, width first, such as "8x16"')
        width, depth = int(match[1]), int(match[2])
        if not (4 <= width <= 16 and 4 <= depth <= 48):
            raise FieldError(f'{shown(value)} is out of range; write "4x4" to "16x48"')
        return TieBeam(nominal_width_in=width, nominal_depth_in=depth)

    def schema(self) -> dict[str, Any]:
        """Text such as 8x16."""
        return {"type": "string", "pattern": r"^\d{1,3}x\d{1,3}$"}
