"""Roof + covering -> the water barrier under it: the systems that public text allows, rolls, laps, cap nails, and how
often the covering's fasteners go through it.
"""

from __future__ import annotations

import csv
import math
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

from framing.deck.approvals import Approvals
from framing.deck.covering import Kind
from framing.tolerances import ROUNDING

SHEET_WIDTH_IN = 36.0
END_LAP_FT, SHEET_LENGTH_FT = 0.5, 72.0
GRID_IN, LAP_GRID_IN = 12.0, 6.0
FAST_MPH = 120.0
NOT_READ = "stands in the code's own tables by covering and slope (R905.1.1), which were not read here: read them"


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """One way to keep the water out, in the words of its source.

    `exposure_in` is how much of a 36 in. sheet each course covers. `material_ft2` has the laps in it; `cap_nails` stand
    12 in. apart over the roof and 6 in. along the laps (0 where it sticks by itself). `rolls` is None where the file of
    approvals says no roll.

    Source: framing/deck/data/underlayments.csv, where each row carries its own mark.
    """

    words: str
    layers: int
    exposure_in: float
    joint_strips_ft: float
    material_ft2: float
    cap_nails: int
    rolls: int | None
    source: str
    mark: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Penetrations:
    """How often one way to hold the covering goes through the barrier; None where the file says too little."""

    way: str
    count: int | None
    why: str


def systems(kind: Kind, area_ft2: float, panel_joints_ft: float, approvals: Approvals) -> tuple[System, ...]:
    """The systems for a covering, counted over a roof.

    Parameters
    ----------
    kind : Kind
        What the covering is made of.
    area_ft2 : float
        Of the roof, on the slope. [ft2]
    panel_joints_ft : float
        Length of the joints between deck panels. [ft]
    approvals : Approvals
        May say what one roll holds.

    Source: IRC 2021, sec. R905.1.1 (good, second-hand); cap nails on a 12 in. grid, 6 in. at laps (IBC 2018, sec.
    1507.18.4.1, solid).
    """
    roll_ft2 = approvals.value("underlayment_roll_ft2")
    out = []
    for row in _rows():
        if kind.value not in row["coverings"].split():
            continue
        exposure_in = float(row["exposure_in"])
        material = area_ft2 * SHEET_WIDTH_IN / exposure_in * (1.0 + END_LAP_FT / SHEET_LENGTH_FT)
        sticks = row["system"].startswith("self-adhering")
        laps_ft = area_ft2 * 12.0 / exposure_in
        nails = 0 if sticks else _up(area_ft2 * (12.0 / GRID_IN) ** 2 + laps_ft * 12.0 / LAP_GRID_IN)
        out.append(
            System(
                words=row["system"],
                layers=int(row["layers"]),
                exposure_in=exposure_in,
                joint_strips_ft=panel_joints_ft if row["strips"] == "yes" else 0.0,
                material_ft2=material,
                cap_nails=nails,
                rolls=_up(material / roll_ft2) if roll_ft2 else None,
                source=row["source"],
                mark=row["mark"],
            )
        )
    return tuple(out)


def ways_note(speed_mph: float) -> str:
    """What the text says of the ways at a design wind, and what of it was not read.

    Source: IRC 2021, sec. R905.1.1 (good, second-hand): the ways are those of 120 mph and more.
    """
    if speed_mph < FAST_MPH:
        lighter = f"which lighter one does at {speed_mph:g} mph"
        return f"The ways are those of {FAST_MPH:.0f} mph and more; {lighter} {NOT_READ}."
    return f"Which underlayment lies over strips, and what a low slope asks besides, {NOT_READ}."


def penetrations(
    kind: Kind, area_ft2: float, eaves_ft: float, ridges_and_hips_ft: float, approvals: Approvals
) -> tuple[Penetrations, ...]:
    """Holes through the barrier by the ways that a covering is held: a count, and no claim.

    Parameters
    ----------
    area_ft2, eaves_ft, ridges_and_hips_ft : float
        Of the roof, on the slope. [ft2, ft]

    Source: own derivation: tests/statics/test_covering.py (pieces x fasteners each).
    """
    value = approvals.value
    if kind is Kind.TILE:
        return _through_tiles(area_ft2, eaves_ft, ridges_and_hips_ft, approvals)
    if kind is Kind.SHINGLES:
        per = value("shingle_fasteners_per_100_ft2")
        count = None if per is None else _up(area_ft2 / 100.0 * per)
        return (Penetrations(way="nailed shingles", count=count, why="shingle_fasteners_per_100_ft2 of your file"),)
    cover, spacing, each = value("metal_cover_in"), value("clip_spacing_in"), value("clip_fasteners")
    count = None if not (cover and spacing and each) else _up(area_ft2 * 144.0 / (cover * spacing) * each)
    return (Penetrations(way="clips", count=count, why="metal_cover_in, clip_spacing_in, clip_fasteners of your file"),)


def _through_tiles(
    area_ft2: float, eaves_ft: float, ridges_and_hips_ft: float, approvals: Approvals
) -> tuple[Penetrations, ...]:
    length, width = approvals.value("tile_length_ft"), approvals.value("tile_width_ft")
    lap_in, each = approvals.value("tile_lap_in"), approvals.value("tile_fasteners")
    needed = "tile_length_ft, tile_width_ft, tile_lap_in, tile_fasteners of your file"
    if length is None or width is None or lap_in is None or each is None:
        return tuple(Penetrations(way=w, count=None, why=needed) for w in ("fastened field", "field set in adhesive"))
    first_course = _up(eaves_ft / width)
    caps = _up(ridges_and_hips_ft / (length - lap_in / 12.0))
    field = _up(area_ft2 / (width * (length - lap_in / 12.0)))
    at_edges = round((first_course + caps) * max(each, 1.0))
    return (
        Penetrations(way="fastened field", count=round(field * each) + round(caps * max(each, 1.0)), why=needed),
        Penetrations(way="field set in adhesive", count=at_edges, why="first course, hips and ridges fastened"),
    )


def _up(quantity: float) -> int:
    """The next whole number, forgiving the last bit of a float."""
    return math.ceil(quantity - ROUNDING)


@cache
def _rows() -> tuple[dict[str, str], ...]:
    text = (files("framing.deck.data") / "underlayments.csv").read_text(encoding="utf-8")
    return tuple(csv.DictReader(text.splitlines()))
