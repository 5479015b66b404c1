"""What one unit of a drawing is in feet, as it says or by the size of the house, and whether that makes sense."""

from __future__ import annotations

from dataclasses import dataclass

from framing.errors import PlanError
from framing.plan import Point
from framing.units import feet_inches

M_PER_FT = 0.3048
FT_PER_UNIT = {"in": 1 / 12, "ft": 1.0, "mm": 0.001 / M_PER_FT, "cm": 0.01 / M_PER_FT, "m": 1 / M_PER_FT}
WORDS = {"in": "inches", "ft": "feet", "mm": "millimetres", "cm": "centimetres", "m": "metres"}

# $INSUNITS in a DXF header: the word and feet a unit; 0 is none. Source: the open DXF reference, from memory
DRAWING_UNITS = {
    1: ("inches", 1 / 12),
    2: ("feet", 1.0),
    3: ("miles", 5280.0),
    4: ("millimetres", 0.001 / M_PER_FT),
    5: ("centimetres", 0.01 / M_PER_FT),
    6: ("metres", 1 / M_PER_FT),
    7: ("kilometres", 1000 / M_PER_FT),
    10: ("yards", 3.0),
    14: ("decimetres", 0.1 / M_PER_FT),
    15: ("decametres", 10 / M_PER_FT),
    16: ("hectometres", 100 / M_PER_FT),
    21: ("survey feet", 1200 / 3937 / M_PER_FT),
    22: ("survey inches", 100 / 3937 / M_PER_FT),
}

SENSE_FT = (16.0, 250.0)  # longer side of a house; beyond, only on the word of whoever writes the plan
USUAL_FT = (24.0, 120.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit of length: its word, its feet, and how it is known ("" when the drawing says it)."""

    words: str
    ft: float
    known_by: str = ""
    asked: bool = False


def unit_of(code: int, asked: str | None, size: Point) -> Unit:
    """The unit of a drawing.

    Parameters
    ----------
    code : int
        The drawing's $INSUNITS, 0 where it says none.
    asked : str or None
        The plan's own word: in, ft, mm, cm or m.
    size : (2,) tuple
        Longer and shorter side of what may be the house, in the drawing's units.

    Returns
    -------
    Unit
        The asked, else the drawing's, else the only one in which the house has a usual size.

    Raises
    ------
    PlanError
        If there is no unit, or more than one that would do.
    """
    if asked is not None:
        return Unit(words=WORDS[asked], ft=FT_PER_UNIT[asked], asked=True)
    if code in DRAWING_UNITS:
        words, ft = DRAWING_UNITS[code]
        return Unit(words=words, ft=ft)
    if code != 0:
        raise PlanError(f"the drawing's unit (code {code}) is none for houses; give unit = {_any_unit()}")
    fitting = readings(size, but="cm")
    if len(fitting) == 1:
        name = fitting[0]
        return Unit(words=WORDS[name], ft=FT_PER_UNIT[name], known_by="the drawing says none; by the size of the house")
    if fitting:
        raise PlanError(f"the drawing says no unit, and more than one would do; give {_choices(fitting, size)}")
    low, high = SENSE_FT
    raise PlanError(
        f"the drawing says no unit, and in none is the house {low:g} to {high:g} ft long; give unit = {_any_unit()}"
    )


def readings(size: Point, but: str = "") -> tuple[str, ...]:
    """The units in which a house of that size would be usual, else those in which it would make sense."""
    for low, high in (USUAL_FT, SENSE_FT):
        fitting = tuple(n for n, ft in FT_PER_UNIT.items() if n != but and low <= size[0] * ft <= high)
        if fitting:
            return fitting
    return ()


def check_sense(unit: Unit, size: Point) -> None:
    """Refuse a house of a size that no house has, unless the plan's own word says so.

    Raises
    ------
    PlanError
        Names the size, the drawing's unit and the units that would make sense.
    """
    if unit.asked or SENSE_FT[0] <= size[0] * unit.ft <= SENSE_FT[1]:
        return
    fitting = readings(size)
    right = _choices(fitting, size) if fitting else f"unit = {_any_unit()}"
    raise PlanError(
        f"a house of {size_words(size, unit.ft)} is a unit mistake: the drawing says {unit.words}; "
        f"set its unit right, or give {right}"
    )


def size_words(size: Point, ft: float) -> str:
    """A size as the trade writes it, the longer side first."""
    return f"{feet_inches(size[0] * ft)} by {feet_inches(size[1] * ft)}"


def _choices(names: tuple[str, ...], size: Point) -> str:
    return " or ".join(f'unit = "{name}" ({size_words(size, FT_PER_UNIT[name])})' for name in names)


def _any_unit() -> str:
    *most, last = (f'"{name}"' for name in FT_PER_UNIT)
    return f"{', '.join(most)} or {last}"
