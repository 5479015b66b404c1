"""Plan + stretches -> the filled cells under the tie beam: as typed one by one, or by the plan's spacing.

By spacing they run from each wall's START, with one at every end, beside every opening on both sides; one that would
stand under 8 in. from such a one is that one. A wall with any typed one by one has no others.
Source: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from framing.errors import PlanError
from framing.ground.beam_stretches import Stretch
from framing.plan import Plan
from framing.plan_masonry import Opening
from framing.tolerances import TIE_FT
from framing.units import feet_inches

HALF_CELL_FT = 4.0 / 12.0  # of a block two cells long
CELL_FT = 2.0 * HALF_CELL_FT
BESIDE_OPENING_FT = 1.0  # a cell up to here from an opening's edge is its jamb's


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """The filled cells of one stretch of tie beam, by stations, in order; none where the plan does not say."""

    stretch: Stretch
    at_ft: tuple[float, ...]
    openings: tuple[Opening, ...]
    typed: bool

    @property
    def known(self) -> bool:
        """Whether there are enough for a beam to stand on."""
        return len(self.at_ft) > 1

    def jambs(self, opening: Opening) -> tuple[float | None, float | None]:
        """The cells beside an opening at its START side and beyond it; None where there is none. [ft]"""
        near = [c for c in self.at_ft if opening.from_ft - BESIDE_OPENING_FT - TIE_FT <= c <= opening.from_ft]
        far = [c for c in self.at_ft if opening.to_ft <= c <= opening.to_ft + BESIDE_OPENING_FT + TIE_FT]
        return (near[-1] if near else None, far[0] if far else None)


def filled_cells(plan: Plan, stretches: tuple[Stretch, ...]) -> tuple[Cells, ...]:
    """The cells of every stretch.

    Raises
    ------
    PlanError
        If a cell typed one by one stands inside an opening; names both.
    """
    return tuple(cells_of(plan, stretch, plan.masonry.steel.cell_spacing_ft) for stretch in stretches)


def cells_of(plan: Plan, stretch: Stretch, spacing_ft: float | None) -> Cells:
    """The cells of one stretch with this spacing, or as typed one by one.

    Raises
    ------
    PlanError
        As `filled_cells`.
    """
    openings = tuple(
        sorted(
            (o for o in plan.masonry.openings if o.wall == stretch.name and _within(o, stretch)),
            key=lambda o: o.from_ft,
        )
    )
    typed = sorted(c.at_ft for c in plan.masonry.filled_cells if c.wall == stretch.name)
    if typed:
        _refuse_in_openings(stretch, typed, openings)
        reach_ft = HALF_CELL_FT + TIE_FT
        at = tuple(c for c in typed if stretch.from_ft - reach_ft <= c <= stretch.to_ft + reach_ft)
        return Cells(stretch=stretch, at_ft=at, openings=openings, typed=True)
    at = _spaced(stretch, openings, spacing_ft) if spacing_ft is not None else ()
    return Cells(stretch=stretch, at_ft=at, openings=openings, typed=False)


def _within(opening: Opening, stretch: Stretch) -> bool:
    return opening.from_ft < stretch.to_ft and opening.to_ft > stretch.from_ft


def _refuse_in_openings(stretch: Stretch, typed: list[float], openings: tuple[Opening, ...]) -> None:
    for at in typed:
        for o in openings:
            if o.from_ft + TIE_FT < at < o.to_ft - TIE_FT:
                raise PlanError(
                    f"filled_cell on {stretch.name} at {feet_inches(at)}: it stands in the opening from "
                    f"{feet_inches(o.from_ft)} to {feet_inches(o.to_ft)}; write its station in the wall beside it"
                )


def _spaced(stretch: Stretch, openings: tuple[Opening, ...], spacing_ft: float) -> tuple[float, ...]:
    """One at each end and jamb, and from START on by the spacing wherever no such one stands and no opening is."""
    fixed = [stretch.from_ft, stretch.to_ft]
    for o in openings:
        fixed += [max(o.from_ft - HALF_CELL_FT, stretch.from_ft), min(o.to_ft + HALF_CELL_FT, stretch.to_ft)]
    n = int((stretch.length_ft + TIE_FT) / spacing_ft)
    run = [stretch.from_ft + k * spacing_ft for k in range(1, n + 1)]
    free = [
        at
        for at in run
        if all(abs(at - f) > CELL_FT - TIE_FT for f in fixed)
        and not any(o.from_ft - HALF_CELL_FT < at < o.to_ft + HALF_CELL_FT for o in openings)
    ]
    out: list[float] = []
    for at in sorted(fixed + free):
        if not out or at - out[-1] > HALF_CELL_FT - TIE_FT:
            out.append(at)
    return tuple(out)
