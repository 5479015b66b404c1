"""What one value in the plan file may be: each kind reads a typed value or says what would be right.

Each is the metadata of an `Annotated` type of the form; pydantic calls `read`, and `schema` is its part
of the JSON Schema. The sentences leave out where the value stands: the reader puts that before them.
"""

from __future__ import annotations

import datetime
import math
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, core_schema

from framing import units
from framing.plan import Point
from framing.units import shown

LONGEST_WORDS = 120
FARTHEST_FT = 10_000.0
MOST_INCHES = 1000  # a larger plain number is no size of a part in inches
MM_PER_FT = Fraction(3048, 10)
FAR_OVER = Fraction(6, 5)  # times the largest in feet: a plain number up to there is no slip of the unit


class FieldError(ValueError):
    """A value of the plan file that is wrong; the reader puts the field before the sentence."""


class Kind:
    """A kind of value; the concrete ones define `read` and `schema`."""

    __slots__ = ()

    def read(self, value: object) -> object:
        """The value as the program uses it; raises ValueError with what is wrong and what would be right."""
        raise NotImplementedError

    def schema(self) -> dict[str, Any]:
        """What the JSON Schema says of a value of this kind."""
        raise NotImplementedError

    def __get_pydantic_core_schema__(self, source: object, handler: GetCoreSchemaHandler) -> CoreSchema:
        """Let pydantic read a value of this kind by `read` alone."""
        reader: Callable[[Any], Any] = self.read
        return core_schema.no_info_plain_validator_function(reader)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """Let pydantic describe a value of this kind by `schema` alone."""
        return self.schema()


@dataclass(frozen=True, slots=True)
class Number(Kind):
    """A plain number from `low` to `high` of a unit."""

    low: float
    high: float
    unit: str

    def read(self, value: object) -> float:
        """The number, within its bounds."""
        right = f"write {self.low:g} to {self.high:g} {self.unit}".rstrip()
        if isinstance(value, str):
            raise FieldError(f"{shown(value)} is text; write a number without quotes, {self.low:g} to {self.high:g}")
        number = _finite(value, right)
        if not self.low <= number <= self.high:
            raise FieldError(f"{shown(value)} is out of range; {right}")
        return float(number)

    def schema(self) -> dict[str, Any]:
        """A number within the bounds."""
        return {"type": "number", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class Count(Kind):
    """A whole number from `low` to `high`."""

    low: int
    high: int

    def read(self, value: object) -> int:
        """The whole number, within its bounds."""
        right = f"write {self.low}" if self.low == self.high else f"write {self.low} to {self.high}"
        if isinstance(value, bool) or not isinstance(value, int):
            raise FieldError(f"{shown(value)} is not a whole number; {right}")
        if not self.low <= value <= self.high:
            raise FieldError(f"{shown(value)} is out of range; {right}")
        return value

    def schema(self) -> dict[str, Any]:
        """A whole number within the bounds."""
        return {"type": "integer", "minimum": self.low, "maximum": self.high}


@dataclass(frozen=True, slots=True)
class Length(Kind):
    """A length in feet and inches, or a plain number in feet, from `low` to `high` (written as lengths)."""

    low: str
    high: str

    def read(self, value: object) -> float:
        """The length in feet, within its bounds."""
        right = f"write {self.low} to {self.high}"
        if not isinstance(value, str):
            right += " (a plain number is in feet)"
        length = units.parse_length(value) if isinstance(value, str) else _finite(value, right)
        low, high = units.parse_length(self.low), units.parse_length(self.high)
        if not low <= length <= high:
            plain = not isinstance(value, str)
            as_inches = plain and length <= MOST_INCHES and low <= length / 12 <= high
            as_mm = plain and length > FAR_OVER * high and low <= length / MM_PER_FT <= high
            other = ("in", "inches") if as_inches else ("mm", "millimetres") if as_mm else None
            meant = f', or "{value}{other[0]}" if it is {other[1]}' if other else ""
            raise FieldError(f"{shown(value)} is out of range; {right}{meant}")
        return float(length)

    def schema(self) -> dict[str, Any]:
        """Text in feet and inches, or a number of feet within the bounds."""
        low, high = units.length_ft(self.low), units.length_ft(self.high)
        return {"type": ["string", "number"], "minimum": low, "maximum": high}


@dataclass(frozen=True, slots=True)
class PlanPoint(Kind):
    """A point of the plan: two lengths."""

    def read(self, value: object) -> Point:
        """The point, in feet."""
        if not isinstance(value, list) or len(value) != 2:
            raise FieldError('a point is two lengths; write it like ["0\'", "28\'"]')
        coordinate = Length(f"-{FARTHEST_FT:g}'", f"{FARTHEST_FT:g}'")
        return (coordinate.read(value[0]), coordinate.read(value[1]))

    def schema(self) -> dict[str, Any]:
        """Two lengths."""
        return {"type": "array", "items": {"type": ["string", "number"]}, "minItems": 2, "maxItems": 2}


@dataclass(frozen=True, slots=True)
class Pitch(Kind):
    """A roof pitch up to 12:12, as its rise per run."""

    def read(self, value: object) -> float:
        """The rise per run, from 1:12 to 12:12."""
        if not isinstance(value, str):
            raise FieldError(f'{shown(value)} is not a pitch; write "5:12" or "22.6 deg"')
        rise_per_run = units.rise_per_run(value)
        if not 1 / 12 <= rise_per_run <= 1:
            raise FieldError(f'{shown(value)} is out of range; write "1:12" to "12:12"')
        return rise_per_run

    def schema(self) -> dict[str, Any]:
        """Text such as 5:12 or 22.6 deg."""
        return {"type": "string", "pattern": r"^\s*\d+(\.\d+)?\s*([:/]\s*12|deg|°)\s*$"}


@dataclass(frozen=True, slots=True)
class Direction(Kind):
    """A direction in the plan, counter-clockwise from +x."""

    def read(self, value: object) -> float:
        """The direction in degrees, from -360 to 360."""
        right = 'write "-360 deg" to "360 deg"'
        angle = units.angle_deg(value) if isinstance(value, str) else float(_finite(value, right))
        if not -360 <= angle <= 360:
            raise FieldError(f"{shown(value)} is out of range; {right}")
        return angle

    def schema(self) -> dict[str, Any]:
        """Text such as 90 deg, or a number of degrees."""
        return {"type": ["string", "number"], "minimum": -360, "maximum": 360}


@dataclass(frozen=True, slots=True)
class Choice(Kind):
    """One word out of a few, in capitals or not."""

    words: tuple[StrEnum | str, ...]

    def read(self, value: object) -> StrEnum | str:
        """The word, as the enumeration's own member where there is one."""
        for word in self.words:
            if isinstance(value, str) and " ".join(value.split()).lower() == word.lower():
                return word
        quoted = [f'"{word}"' for word in self.words]
        raise FieldError(f"{shown(value)} is not known; write {', '.join(quoted[:-1])} or {quoted[-1]}")

    def schema(self) -> dict[str, Any]:
        """The words."""
        return {"enum": [str(word) for word in self.words]}


@dataclass(frozen=True, slots=True)
class Words(Kind):
    """A line of text."""

    def read(self, value: object) -> str:
        """The text, on one line."""
        if not isinstance(value, str):
            raise FieldError(f"{shown(value)} is not text; write it in double quotes")
        if len(value) > LONGEST_WORDS or not value.isprintable():
            raise FieldError(f"{shown(value)} is not one short line; write at most {LONGEST_WORDS} plain characters")
        return value

    def schema(self) -> dict[str, Any]:
        """Text."""
        return {"type": "string", "maxLength": LONGEST_WORDS}


@dataclass(frozen=True, slots=True)
class YesNo(Kind):
    """True or false."""

    def read(self, value: object) -> bool:
        """The answer."""
        if not isinstance(value, bool):
            raise FieldError(f"{shown(value)} is neither; write true or false without quotes")
        return value

    def schema(self) -> dict[str, Any]:
        """True or false."""
        return {"type": "boolean"}


@dataclass(frozen=True, slots=True)
class Day(Kind):
    """A date."""

    def read(self, value: object) -> datetime.date:
        """The date."""
        if not isinstance(value, datetime.date) or isinstance(value, datetime.datetime):
            raise FieldError(f"{shown(value)} is not a date; write it without quotes, such as 2026-11-25")
        return value

    def schema(self) -> dict[str, Any]:
        """A TOML date, which editors hand on as text."""
        return {"type": "string", "format": "date"}


@dataclass(frozen=True, slots=True)
class Unknown(Kind):
    """A value of another kind, or "" for what is not known yet: None."""

    known: Kind

    def read(self, value: object) -> object:
        """The value, or None."""
        return None if value == "" else self.known.read(value)

    def schema(self) -> dict[str, Any]:
        """As the kind, or empty text."""
        return {"anyOf": [{"const": ""}, self.known.schema()]}


def _finite(value: object, right: str) -> int | float:
    """The value if it is a number that has a size."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise FieldError(f"{shown(value)} is not a number; {right}")
    if isinstance(value, float) and not math.isfinite(value):
        raise FieldError(f"{value} is not a number that can be measured; {right}")
    return value
