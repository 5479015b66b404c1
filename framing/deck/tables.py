"""The nails, woods and panels that the plan may name, read from the tables beside this file."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from framing.errors import PlanError
from framing.table_file import nearest
from framing.units import shown

OSB_G, STRUCTURAL_I_G, OTHER_PLYWOOD_G = 0.50, 0.50, 0.42


@dataclass(frozen=True, slots=True, kw_only=True)
class Nail:
    """A nail by its standard size; `thread_in` is None for a smooth shank.

    Source: framing/deck/data/nails.csv, where each row carries its own mark.
    """

    name: str
    length_in: float
    diameter_in: float
    head_in: float
    thread_in: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """A species of the top chords and its specific gravity G, oven dry (`gravity_ratio`).

    Source: framing/deck/data/woods.csv, where each row carries its own mark.
    """

    name: str
    gravity_ratio: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """A deck panel: thickness, span rating, the gravity that holds a nail's head, and its strengths across the trusses
    per foot of width, None where they are not in hand.

    Source: framing/deck/data/panels.csv, where each row carries its own mark.
    """

    name: str
    rating: str
    thickness_in: float
    gravity_ratio: float
    bending_lb_in: float | None
    shear_lb: float | None
    stiffness_lb_in2: float | None


def nail_of(words: str) -> Nail:
    """The nail that a plan names. Raises PlanError, which names those that are known."""
    row = _named("deck nail", words, _rows("nails"))
    return Nail(
        name=row["name"],
        length_in=float(row["length_in"]),
        diameter_in=float(row["diameter_in"]),
        head_in=float(row["head_in"]),
        thread_in=float(row["thread_in"]) if row["thread_in"] else None,
    )


def wood_of(words: str) -> Wood:
    """The wood that a plan names. Raises PlanError, which names those that are known."""
    row = _named("deck chord_species", words, _rows("woods"))
    return Wood(name=row["name"], gravity_ratio=float(row["G"]))


def panel_of(words: str, rating: str) -> Panel:
    """The panel that a plan names: a thickness, then what it is made of (`15/32 plywood`, `7/16 OSB`), and its rating,
    the usual one of that thickness where none is given.

    Raises
    ------
    PlanError
        If the thickness is not known; names those that are.
    """
    thickness, _, kind = words.strip().partition(" ")
    rows = _rows("panels")
    row = next((r for r in rows if r["thickness"] == thickness.removesuffix('"')), None)
    if row is None:
        known = ", ".join(r["thickness"] for r in rows)
        raise PlanError(f"deck panel: {shown(words)} begins with no thickness known here; write one of {known}")
    rated = not rating or rating == row["rating"]
    gravity = _panel_gravity_ratio(kind)
    return Panel(
        name=f"{row['thickness']} {kind or 'plywood'}",
        rating=rating or row["rating"],
        thickness_in=float(row["inches"]),
        gravity_ratio=gravity,
        bending_lb_in=_number(row["F_bS_lb_in_per_ft"]) if rated else None,
        shear_lb=_number(row["F_sIb_over_Q_lb_per_ft"]) if rated else None,
        stiffness_lb_in2=_number(row["EI_lb_in2_per_ft"]) if rated else None,
    )


def _panel_gravity_ratio(kind: str) -> float:
    """Source: NDS 2018, sec. 12.2.5 and its table of panel gravities (from memory)."""
    words = kind.lower()
    if "osb" in words:
        return OSB_G
    return STRUCTURAL_I_G if "structural i" in words else OTHER_PLYWOOD_G


def _named(where: str, words: str, rows: tuple[dict[str, str], ...]) -> dict[str, str]:
    plain = " ".join(words.lower().replace("×", "x").split())
    for row in rows:
        if plain in (row["name"].lower(), row["also"].lower()):
            return row
    names = [row["name"] for row in rows]
    near = shown(nearest(plain, names))
    raise PlanError(f"{where}: {shown(words)} is not known here; the nearest is {near} of {', '.join(names)}")


def _number(cell: str) -> float | None:
    return float(cell) if cell else None


@cache
def _rows(table: str) -> tuple[dict[str, str], ...]:
    text = (files("framing.deck.data") / f"{table}.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))
