"""The corners of a hip end: where side jacks stand along their walls, and points measured from a corner."""

from __future__ import annotations

import itertools
from dataclasses import dataclass

from framing.frame_side import FrameSide
from framing.layout.cell_plan import CellEnd, CellPlan
from framing.layout.landing import Ground
from framing.layout.records import (
    SHORTEST_PIECE_FT,
    SMALLEST_BAY_FT,
    Draft,
    Key,
    KeyKind,
    Landing,
    cell_point,
    on_wing_side,
)
from framing.members import MemberKind
from framing.plan import Plan, Point
from framing.tolerances import TIE_FT


@dataclass(frozen=True, slots=True, kw_only=True)
class Corner:
    """A hip corner: the wing's corner along and across the ridge, and the directions into the cell. `square_ft` is the
    side of the square whose diagonal its corner jack is: the setback, and never past the middle between two corners,
    which a hip girder set midway between two hips of a nearly square wing may stand behind by as much as 1-1/2 in.
    """

    end: CellEnd
    side: FrameSide  # the cell's side across the ridge that the corner lies on
    along_ft: float
    across_ft: float
    toward_along: int
    toward_across: int
    square_ft: float
    key: Key


def corners_of(cp: CellPlan, end: CellEnd) -> list[Corner]:
    """The cell's corners at this end that are also its wing's corners, but for those where the end's plane runs on."""
    runs_on = {h.side for h in cp.half_hips if h.end_side is end.side}
    hips = [s for s in cp.cell.flanks if on_wing_side(cp.cell, cp.wing, s) and s not in runs_on]
    return [
        Corner(
            end=end,
            side=side,
            along_ft=end.line_ft,
            across_ft=cp.cell.side_ft(side),
            toward_along=end.inward,
            toward_across=side.inward,
            square_ft=min(cp.setback_ft, cp.cell.size_ft(1 - cp.cell.ridge_axis) / len(hips)),
            key=Key(KeyKind.CORNER_JACK, (cp.cell.index, end.side, cp.cell.flanks.index(side))),
        )
        for side in hips
    ]


def side_jack_distances(plan: Plan, square_ft: float) -> tuple[list[float], list[float]]:
    """Distances from the corner at which side jacks are built, and the bounds of their strips.

    The bounds have one more entry: from the corner jack's strip to the half bay next to the girder.
    A jack shorter than the larger of the overhang and 12 in. is not built; its strip goes to the corner jack.
    """
    spacing = plan.trusses.spacing_ft
    shortest = max(plan.roof.overhang_ft, SHORTEST_PIECE_FT)
    all_places, k = [0.0], 1
    while k * spacing < square_ft - SMALLEST_BAY_FT + TIE_FT:
        all_places.append(k * spacing)
        k += 1
    all_places.append(square_ft)
    mids = [(a + b) / 2.0 for a, b in itertools.pairwise(all_places)]
    built = [(p, m) for p, m in zip(all_places[1:-1], mids, strict=False) if p >= shortest - TIE_FT]
    if not built:
        return [], [mids[-1]]
    return [p for p, _ in built], [m for _, m in built] + [mids[-1]]


def corner_point(cp: CellPlan, corner: Corner, along_ft: float, in_ft: float, *, on_end_wall: bool) -> Point:
    """The frame point at a distance along a corner's wall from the corner and square to it into the house."""
    da, dc = (in_ft, along_ft) if on_end_wall else (along_ft, in_ft)
    return cell_point(
        cp.cell.ridge_axis, corner.along_ft + corner.toward_along * da, corner.across_ft + corner.toward_across * dc
    )


def corner_direction(cp: CellPlan, corner: Corner, along_ft: float, in_ft: float, *, on_end_wall: bool) -> Point:
    """The direction in the frame of so much along a corner's wall and so much square to it."""
    da, dc = (in_ft, along_ft) if on_end_wall else (along_ft, in_ft)
    return cell_point(cp.cell.ridge_axis, corner.toward_along * da, corner.toward_across * dc)


def jack(
    plan: Plan, cp: CellPlan, end: CellEnd, key: Key, kind: MemberKind, foot: Landing, top: Landing, width_ft: float
) -> Draft:
    """A jack of a hip end from its foot to its top; over a wall it runs on to the eave."""
    return Draft(
        key=key,
        kind=kind,
        plies=1,
        start=foot,
        end=top,
        tail_start_ft=plan.roof.overhang_ft + plan.wall_thickness_ft / 2.0 if foot.wall is not None else 0.0,
        tail_end_ft=0.0,
        wing=cp.cell.wing,
        width_ft=width_ft,
        open_sides=cp.open_sides(end.truss_ft),
    )


def wall_parts_ft(
    ground: Ground, cp: CellPlan, corner: Corner, side: FrameSide, along: tuple[float, float], *, on_end_wall: bool
) -> list[tuple[float, float]]:
    """The parts of an interval, by distance from a corner along its wall, behind which an outside wall stands."""
    axis = side.along
    ends = sorted(corner_point(cp, corner, p, 0.0, on_end_wall=on_end_wall)[axis] for p in along)
    from_ft = corner_point(cp, corner, 0.0, 0.0, on_end_wall=on_end_wall)[axis]
    parts = ground.wall_parts(cp.cell, side, *ends)
    return [(min(abs(a - from_ft), abs(b - from_ft)), max(abs(a - from_ft), abs(b - from_ft))) for a, b in parts]
