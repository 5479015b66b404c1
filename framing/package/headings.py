"""Header of a package table + the plan's `[package] columns` -> which of our columns stands where, and its unit."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass

from framing.errors import PackageError
from framing.table_file import nearest
from framing.units import shown

OUR_LAST = ("fingerprint", "caution")
FORCES = ("down", "uplift", "horizontal", "parallel", "perpendicular")
LENGTHS = ("station", "span", "overhang")
WIND = ("wind_speed", "exposure", "enclosure", "edition")
TEXTS = ("mark", "member", "wall", "joint", "plies", "bearing", "basis", "unit", "rev", "accepted", "note")
COLUMNS = (*TEXTS, *LENGTHS, *FORCES, *WIND)
LB_OF = {"lb": 1.0, "kip": 1000.0, "kN": 1000.0 / 4.4482216152605, "N": 1.0 / 4.4482216152605}
UNIT_NAMES = {"lbs": "lb", "lbf": "lb", "kips": "kip", "k": "kip", "kn": "kN", "n": "N"}
LENGTH_UNITS = ("ft", "in", "m", "mm")
RIGHT_UNIT = "lb, kip, kN or N"
_WITH_UNIT = re.compile(r"(.*?)(?:_| )*[(\[]?(lb|lbs|lbf|kip|kips|k|kn|n|ft|in|m|mm|mph)[)\]]?", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """One of our columns: its place, the header as typed, and the unit that the header says ('' where it says none)."""

    at: int
    typed: str
    unit: str


def force_unit(typed: str) -> str | None:
    """The unit of force that a text names; None where it names none."""
    plain = typed.strip().rstrip(".").lower()
    plain = UNIT_NAMES.get(plain, plain)
    return plain if plain in LB_OF else None


def headings(header: tuple[str, ...], mapped: tuple[tuple[str, str], ...], name: str) -> Mapping[str, Heading]:
    """Our columns by name.

    Raises
    ------
    PackageError
        If a column that the plan maps is not there, one is there twice, or none says which bearing a row is or what
        it reacts; one sentence.
    """
    places = {_plain(typed): i for i, typed in reversed(list(enumerate(header)))}
    found: dict[str, Heading] = {}
    for ours, theirs in mapped:
        known, unit = _ours(ours) or _unknown(f"[package] columns: unknown column {shown(ours)}", ours)
        if _plain(theirs) not in places:
            raise PackageError(
                f"{name} row 1: the column {shown(theirs)}, which [package] columns names for {known}, is not there; "
                f"the nearest there is {shown(nearest(theirs, header))}"
            )
        at = places[_plain(theirs)]
        _put(found, known, Heading(at=at, typed=header[at], unit=_one_unit(name, header[at], unit)), name)
    taken, by_hand = {h.at for h in found.values()}, set(found)
    for i, typed in enumerate(header):
        own = _ours(typed)
        if i in taken or own is None or own[0] in by_hand:
            continue
        one = found.get(own[0])
        if one is None or bool(one.unit) == bool(own[1]):
            _put(found, own[0], Heading(at=i, typed=typed, unit=own[1]), name)
        elif own[1]:  # a length written twice, as text and in feet: the figure is read
            found[own[0]] = Heading(at=i, typed=typed, unit=own[1])
    _check(found, header, name)
    return found


def passed_over(header: tuple[str, ...], found: Mapping[str, Heading]) -> tuple[str, ...]:
    """The columns of the table that are not read."""
    read = {h.at for h in found.values()}
    return tuple(typed for i, typed in enumerate(header) if i not in read and typed and typed not in OUR_LAST)


def _plain(typed: str) -> str:
    return " ".join(typed.lower().split())


def _ours(typed: str) -> tuple[str, str] | None:
    """Our column and the unit that a header says, if it is one of ours."""
    plain = _plain(typed).replace(" ", "_")
    if plain in COLUMNS:
        return plain, ""
    match = _WITH_UNIT.fullmatch(_plain(typed))
    if match is None:
        return None
    base, unit = match[1].strip().replace(" ", "_"), match[2]
    if base in FORCES and (known := force_unit(unit)):
        return base, known
    if (base in LENGTHS and unit in LENGTH_UNITS) or (base == "wind_speed" and unit == "mph"):
        return base, unit
    return None


def _unknown(start: str, ours: str) -> tuple[str, str]:
    raise PackageError(f"{start}; the nearest known is {nearest(ours, COLUMNS)}")


def _one_unit(name: str, typed: str, unit: str) -> str:
    """The unit that the plan's key and their header say together."""
    match = _WITH_UNIT.fullmatch(_plain(typed))
    bracketed = match is not None and any(c in typed for c in "([_")
    theirs = (force_unit(match[2]) or match[2]) if match is not None and bracketed else ""
    if unit and theirs and unit != theirs:
        raise PackageError(
            f"{name} row 1, {typed}: the header says {theirs} and [package] columns says {unit}; write one unit"
        )
    return unit or theirs


def _put(found: dict[str, Heading], ours: str, heading: Heading, name: str) -> None:
    if ours in found:
        raise PackageError(
            f"{name} row 1: {shown(found[ours].typed)} and {shown(heading.typed)} are both the column {ours}; keep one"
        )
    found[ours] = heading


def _check(found: Mapping[str, Heading], header: tuple[str, ...], name: str) -> None:
    if not ({"mark", "member", "span"} & set(found) or {"wall", "station"} <= set(found)):
        raise PackageError(
            f"{name} row 1: no column says which bearing a row is; write mark, member, or wall and station, or name "
            f"theirs in [package] columns (the header has {', '.join(shown(h) for h in header[:6])})"
        )
    if not {"uplift", "down"} & set(found):
        raise PackageError(
            f"{name} row 1: no column holds a reaction; write uplift_lb or down_lb, or name theirs in [package] "
            f"columns (the header has {', '.join(shown(h) for h in header[:6])})"
        )
