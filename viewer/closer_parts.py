"""What a cutaway is made of: pieces in a frame of their own, so that a few sets of them serve every mark of a house.

A frame has its origin on the cut, at the middle of the wall's thickness and the top of the beam. x runs in feet away
from the cut, y from -1 to 1 along it through what is cut, z up in feet.
"""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from enum import StrEnum

from framing.plan import Plan
from framing.plan_masonry import Bars, TieBeamSteel
from viewer.straps import STRAP_WIDTH_FT

Triple = tuple[float, float, float]
Rgb = tuple[int, int, int]
COURSE_FT = 7.625 / 12
"""A course of block without its joint. Source: common practice (nominal 8 in.), no source."""
CELL_PITCH_FT = 8.0 / 12
"""Two cells to a block of 16 in. Source: common practice, no source."""
CELL_HALF_FT = 2.5 / 12
SHELL_FT = 1.25 / 12
"""Drawn round a cell. Source: common practice, no source."""
COVER_FT = 1.5 / 12
"""Drawn where the plan gives bars and no cover. Source: common practice, no source."""
NAIL_HALF_FT = 0.0115
"""Half a nail's head. For the eye only."""
OUT_FT = 0.42
"""How far bars are drawn out of the cut."""
CLEAR_FT = 0.006
"""The cut is drawn this much behind the strap, so that the two surfaces do not flicker."""


class Part(StrEnum):
    """What a piece of a cutaway is."""

    BLOCK = "block"
    BEAM = "tie beam"
    HOLLOW = "hollow cell"
    FILLED = "filled cell"
    BAR = "bar"
    STRAP = "strap"
    NAIL = "nail"
    WOOD = "truss"
    SUPPORT = "support"


PART_RGB: dict[Part, Rgb] = {
    Part.BLOCK: (226, 210, 184),
    Part.BEAM: (206, 207, 205),
    Part.HOLLOW: (44, 40, 38),
    Part.FILLED: (160, 163, 166),
    Part.BAR: (104, 58, 28),
    Part.STRAP: (0, 74, 150),
    Part.NAIL: (236, 244, 252),
    Part.WOOD: (222, 184, 122),
    Part.SUPPORT: (206, 207, 205),
}
"""Ours: the steel is dark where wood, concrete and block are light, so that grey and the colour-blind keep it apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One box of a set: its middle and its half sizes along x, y and z of the frame."""

    part: Part
    middle: Triple
    half: Triple


@dataclass(frozen=True, slots=True, kw_only=True)
class PartSet:
    """Pieces in one frame, and what is named in it: a text at a place."""

    pieces: tuple[Piece, ...] = ()
    names: tuple[tuple[str, Triple], ...] = ()


def beam_across(plan: Plan, length_ft: float, *, out: bool, course: bool) -> PartSet:
    """The beam and the course under it behind a cut through the wall, with the bars that the plan gives.

    `out` draws the bars out of the cut; without a `course` there is an opening below.
    """
    depth, steel = plan.tie_beam.depth_ft, plan.masonry.steel
    pieces = [_box(Part.BEAM, (CLEAR_FT, length_ft), (-1.0, 1.0), (-depth, 0.0))]
    pieces += [_box(Part.BLOCK, (CLEAR_FT, length_ft), (-1.0, 1.0), (-depth - COURSE_FT, -depth))] if course else []
    reach = (-OUT_FT if out else 0.0, length_ft - CLEAR_FT)
    names: list[tuple[str, Triple]] = [("tie beam", (0.0, 0.55, -0.3 * depth))]
    for y, z, half_ft in _bar_places(plan):
        wide = half_ft / (plan.wall_thickness_ft / 2)
        pieces.append(_box(Part.BAR, reach, (y - wide, y + wide), (z - half_ft, z + half_ft)))
        names.append((_bar_name(steel), (reach[0], y, z)))
    if steel.stirrups is not None:
        half_ft, inset = steel.stirrups.number / 16 / 12, steel.cover_ft or COVER_FT
        edge, thick = 1 - inset / (plan.wall_thickness_ft / 2), 2 * half_ft / (plan.wall_thickness_ft / 2)
        x, (low, high) = (-2 * half_ft, CLEAR_FT), (inset - depth, -inset)
        pieces += [_box(Part.BAR, x, (s * edge - thick / 2, s * edge + thick / 2), (low, high)) for s in (-1, 1)]
        pieces += [_box(Part.BAR, x, (-edge, edge), (at - half_ft, at + half_ft)) for at in (low, high)]
    return PartSet(pieces=tuple(pieces), names=_once(names))


def beam_along(plan: Plan, deep_ft: float, front_ft: float, half_length_ft: float, *, course: bool) -> PartSet:
    """The same behind a cut along the wall: `deep_ft` of its thickness stands, `front_ft` of the beam is taken away."""
    depth, steel = plan.tie_beam.depth_ft, plan.masonry.steel
    pieces = [_box(Part.BEAM, (CLEAR_FT, deep_ft), (-1.0, 1.0), (-depth, 0.0))]
    pieces += [_box(Part.BLOCK, (CLEAR_FT, deep_ft), (-1.0, 1.0), (-depth - COURSE_FT, -depth))] if course else []
    names: list[tuple[str, Triple]] = [("tie beam", (0.0, 0.6, -0.3 * depth))]
    middle, half_wall, out = (deep_ft - front_ft) / 2, (deep_ft + front_ft) / 2, 1 + OUT_FT / half_length_ft
    for y, z, half_ft in _bar_places(plan):
        x = middle + y * half_wall
        pieces.append(_box(Part.BAR, (x - half_ft, x + half_ft), (-out, out), (z - half_ft, z + half_ft)))
        names.append((_bar_name(steel), (x, out, z)))
    return PartSet(pieces=tuple(pieces), names=_once(names))


def course_in_front(plan: Plan, length_ft: float) -> PartSet:
    """The course of block before the cut, where the beam over it is taken away."""
    z = (-plan.tie_beam.depth_ft - COURSE_FT, -plan.tie_beam.depth_ft)
    piece = _box(Part.BLOCK, (-CLEAR_FT, length_ft), (-1.0, 1.0), z)
    return PartSet(pieces=(piece,), names=(("block", (length_ft / 2, 1.0, z[0] + 0.3)),))


def cells_in_front(plan: Plan, filled: tuple[bool, ...], across: tuple[float, float] | None) -> PartSet:
    """The cells in the top of that course, at their pitch from the frame's origin on; with the plan's cell bar.

    `across` is None where the wall is cut through; where it is cut along, from where to where the cells lie before the
    cut and the frame's y runs along the wall, one foot to its unit.
    """
    z = (-plan.tie_beam.depth_ft - COURSE_FT - 0.01, -plan.tie_beam.depth_ft + 0.012)
    wide = 1 - 2 * SHELL_FT / plan.wall_thickness_ft
    bar = plan.masonry.steel.cell_bar
    pieces, names = [], []
    for k, is_filled in enumerate(filled):
        at = (k * CELL_PITCH_FT - CELL_HALF_FT, k * CELL_PITCH_FT + CELL_HALF_FT)
        x, y = (at, (-wide, wide)) if across is None else (across, at)
        part = Part.FILLED if is_filled else Part.HOLLOW
        pieces.append(_box(part, x, y, z))
        names.append((str(part), (sum(x) / 2, sum(y) / 2, z[1])))
        if is_filled and bar is not None:
            half = bar.number / 16 / 12
            thin = half / (plan.wall_thickness_ft / 2) if across is None else half
            (cx, cy), top = (sum(x) / 2, sum(y) / 2), z[1] + 0.3
            pieces.append(_box(Part.BAR, (cx - half, cx + half), (cy - thin, cy + thin), (z[1] - 0.1, top)))
    return PartSet(pieces=tuple(pieces), names=_once(names))


def support_across(plan: Plan, length_ft: float, name: str) -> PartSet:
    """A support inside or a porch beam as one piece: what it is made of the plan does not say."""
    depth = plan.tie_beam.depth_ft
    piece = _box(Part.SUPPORT, (CLEAR_FT, length_ft), (-1.0, 1.0), (-depth, 0.0))
    return PartSet(pieces=(piece,), names=((name, (0.0, 0.5, -0.5 * depth)),))


def nails(n: int) -> PartSet:
    """The heads of `n` nails in two columns on a strap; x out of its face and y along it in feet, z from the beam (0)
    to the strap's end (1).
    """
    n_rows = (n + 1) // 2
    pitch = 0.84 / max(n_rows, 1)
    half = (0.008, NAIL_HALF_FT, min(2.2 * NAIL_HALF_FT, 0.35 * pitch))
    at = [(row, side) for row in range(n_rows) for side in (-1, 1)][:n]
    middles = [(0.006, side * STRAP_WIDTH_FT * 0.26, 0.12 + (row + 0.4 + 0.2 * side) * pitch) for row, side in at]
    pieces = tuple(Piece(part=Part.NAIL, middle=m, half=half) for m in middles)
    return PartSet(pieces=pieces, names=(("nails", middles[-1]),) if n else ())


def _bar_places(plan: Plan) -> list[Triple]:
    """Across (from -1 to 1), height from the top and half the diameter of each bar that the plan gives."""
    steel, half_wall = plan.masonry.steel, plan.wall_thickness_ft / 2
    tie = 2 * steel.stirrups.number / 16 / 12 if steel.stirrups else 0.0
    inset, places = (steel.cover_ft or COVER_FT) + tie, []
    for bars, sign, edge in ((steel.top_bars, -1.0, 0.0), (steel.bottom_bars, 1.0, -plan.tie_beam.depth_ft)):
        for k in range(bars.count if bars else 0):
            half = _radius_ft(bars)
            side = half_wall - inset - half
            y = 0.0 if bars and bars.count == 1 else side * (2 * k / ((bars.count if bars else 2) - 1) - 1)
            places.append((y / half_wall, edge + sign * (inset + half), half))
    return places


def _radius_ft(bars: Bars | None) -> float:
    return bars.number / 16 / 12 if bars else 0.0


def _bar_name(steel: TieBeamSteel) -> str:
    said = [f"{b.name} {where}" for b, where in ((steel.top_bars, "at top"), (steel.bottom_bars, "below")) if b]
    return f"bars: {', '.join(said)}"


def _box(part: Part, x: tuple[float, float], y: tuple[float, float], z: tuple[float, float]) -> Piece:
    ends = (x, y, z)
    a, b, c = ((high + low) / 2 for low, high in ends)
    u, v, w = ((high - low) / 2 for low, high in ends)
    return Piece(part=part, middle=(a, b, c), half=(u, v, w))


def _once(names: list[tuple[str, Triple]]) -> tuple[tuple[str, Triple], ...]:
    """Each text at its first place."""
    return tuple(next(group) for _, group in itertools.groupby(sorted(names, key=lambda n: n[0]), key=lambda n: n[0]))
