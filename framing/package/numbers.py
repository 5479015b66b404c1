"""Cells of a package table -> numbers: decimal point or comma, grouped thousands, units of force and length."""

from __future__ import annotations

import re
from dataclasses import dataclass

from framing.package.headings import LB_OF, RIGHT_UNIT, Heading, force_unit
from framing.units import length_ft, shown

LARGEST_LB, LONGEST_FT = 200_000.0, 500.0
_POINT = re.compile(r"[+-]?(?:\d{1,3}(?:,\d{3})+|\d+)?(?:\.\d+)?", re.ASCII)
_COMMA = re.compile(r"[+-]?(?:\d{1,3}(?:\.\d{3})+|\d+)?(?:,\d+)?", re.ASCII)
_EITHER = re.compile(r"[+-]?[1-9]\d{0,2}[.,]\d{3}", re.ASCII)
_AMOUNT = re.compile(r"([+-]?[\d.,]+)\s*([A-Za-z]*\.?)", re.ASCII)


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How the table writes numbers: with a decimal comma or a point."""

    comma: bool
    semicolons: bool

    def number(self, cell: str) -> float:
        """A plain number.

        Raises
        ------
        ValueError
            If it is none; says what would be right.
        """
        if not any(c.isdigit() for c in cell) or not (_COMMA if self.comma else _POINT).fullmatch(cell):
            right = "1234,5" if self.comma else "1234.5"
            raise ValueError(f"{shown(cell)} is not a number; write digits such as {right}")
        return float(cell.replace(".", "").replace(",", ".") if self.comma else cell.replace(",", ""))


def style_of(cells: list[str], delimiter: str) -> Style:
    """Decimal commas are read only where semicolons part the columns and no number needs its point as a decimal one."""
    amounts = [match[1] for cell in cells if (match := _AMOUNT.fullmatch(cell))]
    return Style(comma=delimiter == ";" and any("," in amount for amount in amounts), semicolons=delimiter == ";")


def force(cell: str, heading: Heading, unit: str, style: Style) -> tuple[float, str]:
    """A force in lb and the unit that it was typed in: the cell's own, the header's, or the table's (lb if '').

    Raises
    ------
    ValueError
        If the cell is no force or names another unit than its column; says what would be right.
    """
    match = _AMOUNT.fullmatch(cell)
    if match is None:
        raise ValueError(f"{shown(cell)} is not a force; write a number, or leave the cell empty")
    typed = force_unit(match[2]) if match[2] else ""
    if typed is None:
        raise ValueError(f"{shown(match[2])} is no unit of force; write {RIGHT_UNIT}")
    column = heading.unit or unit
    if typed and column and typed != column:
        raise ValueError(f"{shown(cell)} is in {typed} and the column in {column}; write one unit")
    used = typed or column or "lb"
    if style.semicolons and used in ("lb", "N") and _EITHER.fullmatch(match[1]):
        plain = match[1].replace(",", "").replace(".", "")
        raise ValueError(
            f"{shown(cell)} may be {plain} or a thousandth of it; write it without a mark at the thousands"
        )
    lb = style.number(match[1]) * LB_OF[used]
    if abs(lb) > LARGEST_LB:
        raise ValueError(f"{shown(cell)} is {lb:,.0f} lb, too much for a bearing; check the unit, which is {used}")
    return lb, used


def length(cell: str, heading: Heading, style: Style) -> float:
    """A length in feet, from feet and inches or a plain number in the header's unit (ft if it says none).

    Raises
    ------
    ValueError
        If it is none or is out of range; says what would be right.
    """
    try:
        plain = style.number(cell)
    except ValueError:
        ft = length_ft(cell)
    else:
        ft = length_ft(f"{plain:f}" if heading.unit in ("", "ft") else f"{plain:f}{heading.unit}")
    if not 0.0 <= ft <= LONGEST_FT:
        raise ValueError(f"{shown(cell)} is out of range; write 0 to {LONGEST_FT:.0f} ft")
    return ft
