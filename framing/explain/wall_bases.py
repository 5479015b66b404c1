"""Run -> what each wall takes along itself at its base: the deck's share, and the tie beam's where it holds the tops.

Each span of the tie beam brings half of its load to either of the walls square to it, as its moment is reckoned. A held
thrust is on both beams of its truss, for either may hold it all: on the safe side.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.explain.wall_lines import wall_shears
from framing.plan_masonry import TopsHeldBy
from framing.run import Run
from framing.sideways.at_the_tops import beam_load_lb, cross_walls_ft

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallBase:
    """The largest force along a wall (ASD) in its case: what the deck brings, and what the tie beam brings with it; one
    of them negative where they go against one another.
    """

    wall: str
    deck_lb: float
    beam_lb: float
    case: str

    @property
    def shear_lb(self) -> float:
        """Both together. [lb]"""
        return self.deck_lb + self.beam_lb


def wall_bases(run: Run) -> tuple[WallBase, ...]:
    """Every wall that holds the deck or the tie beam, cross walls after the others.

    Source: ASCE 7-22, sec. 2.4.1 (0.6 W); own derivation: tests/parts/test_wall_bases.py.
    """
    if run.plan.masonry.tops_held_by is TopsHeldBy.ROOF:
        shares = wall_shears(run)
        whole_lb = {name: sum(s.shear_lb for s in shares if s.wall == name) for name in (s.wall for s in shares)}
        cases = {s.wall: s.case for s in shares}
        return tuple(WallBase(wall=w, deck_lb=lb, beam_lb=0.0, case=cases[w]) for w, lb in whole_lb.items())
    deck_lb, beam_lb = _from_the_deck(run), _from_the_beam(run)
    none = np.zeros((len(run.sideways.cases), 2))
    out = []
    for name in dict.fromkeys((*deck_lb, *beam_lb)):
        deck, beam = deck_lb.get(name, none), beam_lb.get(name, none)
        along = _along(run, name)
        each = [of @ along for of in (deck, beam)] if along is not None else [of.sum(axis=1) for of in (deck, beam)]
        total = each[0] + each[1]
        j = int(np.abs(total).argmax())
        sign = -1.0 if total[j] < 0.0 else 1.0
        out.append(
            WallBase(
                wall=name,
                deck_lb=sign * float(each[0][j]),
                beam_lb=sign * float(each[1][j]),
                case=run.sideways.cases[j].name,
            )
        )
    return tuple(out)


def _from_the_deck(run: Run) -> dict[str, Floats]:
    """Each wall's share of its line, by length, in the frame's axes. name -> (k, 2)"""
    found, out = run.sideways, dict[str, Floats]()
    for axis in (0, 1):
        for line, force_lb in zip(found.deck.lines[axis], found.lines_lb[axis], strict=True):
            for k, ft in zip(line.stretches, line.lengths_ft, strict=True):
                share = np.zeros((len(found.cases), 2))
                share[:, axis] = force_lb * ft / line.length_ft
                name = found.stretches[k].name
                out[name] = out.get(name, 0.0) + share
    return out


def _from_the_beam(run: Run) -> dict[str, Floats]:
    """Half of every span's load to the walls at its two ends, in the frame's axes. name -> (k, 2)"""
    walls, out = run.outline.walls, dict[str, Floats]()
    for k, wall in enumerate(walls):
        outward = _outward(run, k)
        if outward is None:
            continue
        crossing = cross_walls_ft(run.plan, wall)
        after = walls[(k + 1) % len(walls)].name
        holders = [walls[k - 1].name, *(f"cross wall {i + 1}" for _, i in crossing), after]
        ends_ft = [0.0, *(at for at, _ in crossing), wall.length_ft]
        for i in range(len(holders) - 1):
            half = beam_load_lb(run.sideways, k, ends_ft[i], ends_ft[i + 1])[:, None] * outward / 2.0
            for name in holders[i : i + 2]:
                out[name] = out.get(name, 0.0) + half
    return out


def _outward(run: Run, wall: int) -> Floats | None:
    parts = run.sideways.parts
    mine = np.flatnonzero(parts.wall == wall)
    return parts.outward[mine[0]] if len(mine) else None


def _along(run: Run, name: str) -> Floats | None:
    """The direction of an outside wall in the frame's axes; None of another, which takes what comes to it."""
    for k, wall in enumerate(run.outline.walls):
        outward = _outward(run, k)
        if wall.name == name and outward is not None:
            return np.array([-outward[1], outward[0]])
    return None
