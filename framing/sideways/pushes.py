"""Framing + wind -> what pushes each bearing sideways, case by case: along its wall and square to it.

`walls.tops_held_by` says where the wind on the upper half of the walls goes. 'roof': through the anchors of that wall,
square to it, into the deck, which carries it with the roof's own horizontal part and all that is wall over the beam to
the lines of walls along the wind; their anchors take it along the wall, evenly by length. 'tie beam': the beam spans
between walls square to it; the anchors get the roof's own thrust, held at the bearing, half a gable's triangle, and
along the walls only what the deck holds. Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from framing.loads.cases import Loads
from framing.loads.pieces import Pieces
from framing.members import Framing
from framing.plan import Plan
from framing.plan_masonry import TopsHeldBy
from framing.roof.surface import Roof
from framing.sideways.case_loads import CaseLoads, SidewaysCase, case_loads
from framing.sideways.cladding_walls import CladdingWalls, cladding_walls
from framing.sideways.deck import Deck, OnDeck, areas_on_deck, line_forces_lb, points_on_deck
from framing.sideways.held import Held, Stretch, held_stretches
from framing.sideways.lines import lines_along
from framing.sideways.thrust import held_at_bearings
from framing.sideways.wall_parts import WallParts, build_wall_parts, parts_of
from framing.walls.outline import Outline
from framing.wind.patches import Patches

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sideways:
    """What the wind does sideways, ASD, in k cases; vectors are in the outline's frame.

    `lines_lb` are the forces on the deck's lines along x (n_x, k) and along y (n_y, k): of the two readings of a case,
    with and without the roof's own horizontal part (`readings[0]`, `readings[1]`), the larger at each line. What the
    truss puts onto the beam at each bearing is `along_lb` (n_bearings, k, 2) from the lines and `square_lb`
    (n_bearings, k, 2) against the wall's push or by the member's thrust. `cladding` is the walls' push as components.
    """

    tops_held_by: TopsHeldBy
    cases: tuple[SidewaysCase, ...]
    stretches: tuple[Stretch, ...]
    held: tuple[Held, ...]
    parts: WallParts
    loads: CaseLoads
    deck: Deck
    readings: tuple[OnDeck, OnDeck]
    lines_lb: tuple[Floats, Floats]
    along_lb: Floats
    square_lb: Floats
    cladding: CladdingWalls


def build_sideways(
    plan: Plan, outline: Outline, roof: Roof, framing: Framing, patches: Patches, pieces: Pieces, loads: Loads
) -> Sideways:
    """Every case through the deck to the bearings."""
    stretches, held = held_stretches(plan, outline, framing)
    limits_ft = (plan.masonry.line_within_ft, plan.masonry.shortest_stretch_ft)
    along_x, along_y = (lines_along(stretches, axis, *limits_ft) for axis in (0, 1))
    deck = Deck(lines=(along_x, along_y))
    parts = build_wall_parts(
        plan, outline, roof, framing, loads.widths, held, stretches, (deck.line_ft(0), deck.line_ft(1))
    )
    each = case_loads(plan, outline, roof, patches, loads, parts)
    by_roof = plan.masonry.tops_held_by is TopsHeldBy.ROOF
    walls = _walls_on_deck(deck, parts, each, by_roof=by_roof)
    square = -_top_of_wall_lb(framing, parts, held, stretches, each, by_roof=by_roof)
    if by_roof:
        own = areas_on_deck(deck, patches.polygon, each.roof_psf * shapely.area(patches.polygon)[:, None, None])
    else:
        push = each.roof_psf[pieces.patch] * pieces.area_ft2[:, None, None]
        thrust = held_at_bearings(framing, pieces, push)
        own = points_on_deck(deck, pieces.centre_ft, thrust.deck_lb)
        square = _with_thrust(framing, square, thrust.member_lb)
    readings = (walls + own, walls)
    forces = [line_forces_lb(deck, r) for r in readings]
    larger = [np.where(np.abs(a) >= np.abs(b), a, b) for a, b in zip(*forces, strict=True)]
    return Sideways(
        tops_held_by=plan.masonry.tops_held_by,
        cases=each.cases,
        stretches=stretches,
        held=held,
        parts=parts,
        loads=each,
        deck=deck,
        readings=readings,
        lines_lb=(larger[0], larger[1]),
        along_lb=_along_lb(framing, deck, held, (larger[0], larger[1])),
        square_lb=square,
        cladding=cladding_walls(plan, outline, framing, loads.widths, parts, stretches, held),
    )


def _walls_on_deck(deck: Deck, parts: WallParts, each: CaseLoads, *, by_roof: bool) -> OnDeck:
    """What the walls bring to the deck: their upper halves where it holds them, and what stands over the beam, of a
    gable's triangle all of it or the upper half.
    """
    to_deck = parts.above_ft2 * (1.0 if by_roof else np.where(parts.gable, 0.5, 1.0))
    above = points_on_deck(deck, parts.above_middle_ft, each.wall_psf * to_deck[:, None, None])
    if not by_roof:
        return above
    return above + points_on_deck(deck, parts.middle_ft, each.wall_psf * parts.half_ft2[:, None, None])


def _top_of_wall_lb(
    framing: Framing,
    parts: WallParts,
    held: tuple[Held, ...],
    stretches: tuple[Stretch, ...],
    each: CaseLoads,
    *,
    by_roof: bool,
) -> Floats:
    """What each bearing's wall brings to it: its upper half, or where the beam holds that the lower half of a gable's
    triangle. (n_bearings, k, 2)
    """
    area = parts.half_ft2 if by_roof else np.where(parts.gable, parts.above_ft2 / 2.0, 0.0)
    force = each.wall_psf * area[:, None, None]
    sign = 1.0 if by_roof else -1.0
    out = np.zeros((len(framing.bearings), len(each.cases), 2))
    for h, own in zip(held, parts_of(parts, held, stretches), strict=True):
        out[h.bearing] += sign * h.share_ratio * force[own].sum(axis=0)
    return out


def _with_thrust(framing: Framing, square: Floats, member_lb: Floats) -> Floats:
    """The thrust of each bearing's member, which any of its bearings may hold all of."""
    index = {m.name: i for i, m in enumerate(framing.members)}
    member = [index[b.member] for b in framing.bearings]
    takes = np.array([not b.by_engineer for b in framing.bearings])
    out: Floats = square + np.where(takes[:, None, None], member_lb[member], 0.0)
    return out


def _along_lb(framing: Framing, deck: Deck, held: tuple[Held, ...], lines_lb: tuple[Floats, Floats]) -> Floats:
    """Each line's force on its stretches by their lengths, on their anchors by what each holds. (n_bearings, k, 2)"""
    whole: dict[int, float] = {}
    for h in held:
        whole[h.stretch] = whole.get(h.stretch, 0.0) + h.length_ft
    out = np.zeros((len(framing.bearings), lines_lb[0].shape[1], 2))
    for axis in (0, 1):
        of_stretch: dict[int, tuple[int, float]] = {}
        for i, line in enumerate(deck.lines[axis]):
            for k, length in zip(line.stretches, line.lengths_ft, strict=True):
                of_stretch[k] = (i, length / line.length_ft)
        for h in held:
            if h.stretch in of_stretch and whole[h.stretch] > 0.0:
                i, ratio = of_stretch[h.stretch]
                out[h.bearing, :, axis] += lines_lb[axis][i] * (ratio * h.length_ft / whole[h.stretch])
    return out
