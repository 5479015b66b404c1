"""Girders and pairs of straps against the filled cell nearest to each, within 24 in.

Source: common practice, no source.
"""

from __future__ import annotations

from dataclasses import dataclass

from framing.anchors.schedule import AnchorSchedule
from framing.ground.over_openings import GIRDERS
from framing.ground.tie_beam import BeamDemand
from framing.tolerances import ROUNDING

NEAR_FT = 2.0


@dataclass(frozen=True, slots=True, kw_only=True)
class GirderCell:
    """A mark (its place in the schedule) under a girder or with two straps, and the station of the nearest filled
    cell of its beam; None where the plan says no cells.
    """

    row: int
    strap_at_ft: float
    cell_at_ft: float | None

    @property
    def away_ft(self) -> float | None:
        """From the strap to that cell. [ft]"""
        return None if self.cell_at_ft is None else abs(self.cell_at_ft - self.strap_at_ft)

    @property
    def near(self) -> bool:
        """Whether a cell is known to stand within 24 in. Source: common practice, no source."""
        return self.away_ft is not None and self.away_ft <= NEAR_FT + ROUNDING


def girder_cells(schedule: AnchorSchedule, demands: tuple[BeamDemand, ...]) -> tuple[GirderCell, ...]:
    """Every girder's mark and every pair on the tie beam that lifts, in the schedule's order."""
    out = []
    for demand in demands:
        for row, at in zip(demand.pulls.rows, demand.pulls.at_ft.tolist(), strict=True):
            mark = schedule.marks[row]
            if mark.uplift_lb > 0.0 and (mark.bearing.kind in GIRDERS or mark.count > 1):
                cell = min(demand.cells.at_ft, key=lambda c: abs(c - at), default=None)
                out.append(GirderCell(row=row, strap_at_ft=at, cell_at_ft=cell))
    return tuple(sorted(out, key=lambda g: g.row))
