"""Where a hip end meets another wing's roof at a seam: how far the end's own plane runs on there.

At such a corner no hip is seen. End jacks run square to the end as far as the seam's girder, hip girder and step-downs
keep their flat top as far as the seam (half-hips), wherever the roof that is seen there is the end's own plane or
higher; where it is lower the corner is framed as a hip.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely.geometry import LineString, box

from framing.frame_side import FrameSide
from framing.layout.cell_plan import CellEnd, HalfHip, Slot
from framing.layout.landing import Ground
from framing.layout.records import Cell, cell_point, cell_ring, on_wing_side
from framing.plan import Point
from framing.roof.surface import Floats, Roof
from framing.roof.wings import Wing, side_line
from framing.tolerances import TIE_FT, TIE_FT2, TIE_SINE


def half_hips(ground: Ground, cell: Cell, wing: Wing, end: CellEnd, slots: list[Slot]) -> list[HalfHip]:
    """The half-hips of a cell's hip end: one per corner at a seam past which the end's plane runs on."""
    out = []
    for side in cell.flanks:
        corner = cell_point(cell.ridge_axis, end.line_ft, cell.side_ft(side))
        if not on_wing_side(cell, wing, side) or ground.is_outside_corner(corner):
            continue
        allowed_ft = _jog_ft(ground, wing, end, corner) + TIE_FT
        if _corner_shortfall_ft(ground.roof, cell, wing, end, side) > allowed_ft:
            continue
        to = end.truss_ft
        for slot in sorted(slots, key=lambda s: end.inward * s.at_ft):
            if end.inward * (slot.at_ft - end.truss_ft) < -TIE_FT:
                continue
            if _line_shortfall_ft(ground.roof, cell, wing, slot.at_ft, side) > allowed_ft:
                break
            to = slot.at_ft
        out.append(HalfHip(end_side=end.side, side=side, to_ft=to))
    return out


def _jog_ft(ground: Ground, wing: Wing, end: CellEnd, corner: Point) -> float:
    """By how much the walls in the end's framing line that meet at its corner stand off the wing's own end, over an
    absorbed jog.
    """
    at = corner[end.side.along]
    beside = [
        abs(w.face_ft - wing.side_ft(end.side))
        for w in ground.framed.by_side[end.side]
        if abs(w.line_ft - end.line_ft) <= TIE_FT and w.low_ft - TIE_FT <= at <= w.high_ft + TIE_FT
    ]
    return max(beside, default=0.0)


def _corner_shortfall_ft(roof: Roof, cell: Cell, wing: Wing, end: CellEnd, side: FrameSide) -> float:
    """By how much of run at most the roof that is seen lies under the end's own plane over the corner's square."""
    depth, line = abs(end.truss_ft - end.line_ft), cell.side_ft(side)
    ring = cell_ring(cell.ridge_axis, (end.line_ft, end.truss_ft), (line, line + side.inward * depth))
    square = box(*np.min(ring, axis=0), *np.max(ring, axis=0)).intersection(box(*cell.low_ft, *cell.high_ft))
    own = np.array(side_line(wing, end.side))
    worst = -math.inf
    faces = np.array([f.in_frame for f in roof.faces], dtype=object)
    for i in np.flatnonzero(shapely.intersects(faces, square)).tolist():
        part = faces[i].intersection(square)
        if part.area > TIE_FT2:
            under = own - roof.faces[i].plane
            worst = max(worst, float((shapely.get_coordinates(part) @ under[:2] + under[2]).max()))
    return worst


def _line_shortfall_ft(roof: Roof, cell: Cell, wing: Wing, at_ft: float, side: FrameSide) -> float:
    """By how much of run at most the roof that is seen lies under a truss line that does not fall toward a side."""
    axis = cell.ridge_axis
    ends = [cell_point(axis, at_ft, cell.side_ft(s)) for s in cell.flanks]
    line = LineString(ends)
    slopes = np.array([side_line(wing, s) for s in wing.eave_sides if s != side])
    worst = -math.inf
    faces = np.array([f.in_frame for f in roof.faces], dtype=object)
    for i in np.flatnonzero(shapely.intersects(faces, line)).tolist():
        part = faces[i].intersection(line)
        if part.length > TIE_FT:
            worst = max(worst, _over(shapely.get_coordinates(part), slopes, np.array(roof.faces[i].plane)))
    return worst


def _over(points: Floats, slopes: Floats, plane: Floats) -> float:
    """How far the lowest of some slopes stands at most above a plane along a line's points and where the slopes fold
    between them. [ft of run]
    """
    (a, b), lines = (points[0], points[-1]), slopes[:, :2]
    at = [a, b]
    rise, start = lines @ (b - a), lines @ a + slopes[:, 2]
    for i, j in zip(*np.triu_indices(len(slopes), 1), strict=True):
        if abs(rise[i] - rise[j]) > TIE_SINE and 0.0 < (t := (start[j] - start[i]) / (rise[i] - rise[j])) < 1.0:
            at.append(a + t * (b - a))
    places = np.array(at)
    own = (places @ lines.T + slopes[:, 2]).min(axis=1)
    return float((own - places @ plane[:2] - plane[2]).max())
