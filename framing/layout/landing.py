"""What a member's end stands on: the wall or the girder that lies at a cell's side."""

from __future__ import annotations

import math
from dataclasses import dataclass

from framing.errors import LayoutError
from framing.frame_side import FrameSide, sides_of
from framing.layout.cell_ends import covers_side, hip_at, short_hip_at, touches
from framing.layout.jogs import Framed
from framing.layout.records import (
    JOG_FT,
    PLY_FT,
    SHORTEST_PIECE_FT,
    SMALLEST_BAY_FT,
    Cell,
    Chord,
    Key,
    KeyKind,
    Landing,
    WallLine,
    cell_point,
    girder_key,
)
from framing.layout.supports import Supports
from framing.plan import Point
from framing.roof.surface import Roof
from framing.roof.wings import Wing
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, tie_key
from framing.walls.walls_near import angled_walls_near, walls_near


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """All walls, chords, cells and supports of a house, its roof, and the corner that the layout starts from.

    `house` are the walls as they are, `outline` those that they are framed by.
    """

    house: Outline
    outline: Outline
    roof: Roof
    framed: Framed
    chords: tuple[Chord, ...]
    cells: tuple[Cell, ...]
    supports: Supports
    origin_ft: Point

    @property
    def walls(self) -> tuple[WallLine, ...]:
        """The framing lines, each standing for its wall."""
        return self.framed.lines

    def chord_key(self, chord: Chord) -> Key:
        """The key of the member on a chord: a girder, or the truss that stands on a plain truss line; within 3 in. of
        a girder or of a longer truss line along all of it, that one's.
        """
        if chord.girder:
            return girder_key(chord.index)
        over = [
            c
            for c in self.chords
            if c.axis == chord.axis
            and abs(c.bearing_ft - chord.bearing_ft) < SMALLEST_BAY_FT - TIE_FT
            and c.low_ft <= chord.low_ft + TIE_FT
            and c.high_ft >= chord.high_ft - TIE_FT
        ]
        best = max(over, key=lambda c: (c.girder, tie_key(c.high_ft - c.low_ft), -c.index))
        return Key(KeyKind.GIRDER if best.girder else KeyKind.SEAM, (best.index,))

    def is_outside_corner(self, point_ft: Point) -> bool:
        """Whether a frame point is a corner of the outline at which the house turns outward."""
        k = self.corner_at(point_ft)
        corners = self.framed.corners_ft
        if k is None:
            return False
        (ax, ay), (x, y), (cx, cy) = corners[k - 1], corners[k], corners[(k + 1) % len(corners)]
        return (x - ax) * (cy - y) - (y - ay) * (cx - x) > 0

    def corner_at(self, point_ft: Point) -> int | None:
        """The number of the framed outline's corner at a frame point."""
        near = (
            k
            for k, (x, y) in enumerate(self.framed.corners_ft)
            if abs(x - point_ft[0]) <= TIE_FT and abs(y - point_ft[1]) <= TIE_FT
        )
        return next(near, None)

    def chord_at(self, cell: Cell, side: FrameSide) -> Chord | None:
        """The chord along a cell's side, the longest if there are several."""
        axis = side.along
        found = [
            c
            for c in self.chords
            if c.axis == axis
            and abs(c.line_ft - cell.side_ft(side)) <= TIE_FT
            and min(c.high_ft, cell.high_ft[axis]) - max(c.low_ft, cell.low_ft[axis]) > TIE_FT
        ]
        return max(found, key=lambda c: c.high_ft - c.low_ft) if found else None

    def short_hip_chord(self, cell: Cell, wing: Wing, side: FrameSide, overhang_ft: float) -> Chord | None:
        """The girder to which a short cell's jacks run from its hip end at a side."""
        chord = self.chord_at(cell, side.opposite)
        if chord is None or not chord.girder or not covers_side(chord, cell, side.opposite):
            return None
        along = [c.bearing_ft for c in self.chords if touches(c, cell, side)]
        feet = along + [w.bearing_ft for w in self.walls_at(cell, side)]
        too_short = min((abs(chord.bearing_ft - at) for at in feet), default=0.0) < SHORTEST_PIECE_FT - TIE_FT
        return None if too_short or not short_hip_at(cell, wing, side, overhang_ft) else chord

    def beside_support_ft(self, cell: Cell, side: FrameSide, chord: Chord) -> float | None:
        """Where a cell's end truss stands at a chord along a support on which trusses or jacks from the other side end:
        beside the support, taken as thick as the walls, so that it lies neither in them nor in their straps.
        """
        if chord.covered is None or not any(self._ends_on(c, side.opposite, chord, cell) for c in self.cells):
            return None
        under = next(s for s in self.supports.inside if s.index == chord.covered)
        face_ft = side.inward * under.line_ft(chord.axis) + self.walls[0].thickness_ft / 2.0
        return side.inward * (max(face_ft, side.inward * cell.side_ft(side)) + PLY_FT / 2.0)

    def _ends_on(self, cell: Cell, side: FrameSide, chord: Chord, facing: Cell) -> bool:
        """Whether a cell's trusses or jacks end on a chord, across which another cell faces it."""
        axis = side.along
        shared_ft = min(cell.high_ft[axis], facing.high_ft[axis]) - max(cell.low_ft[axis], facing.low_ft[axis])
        ends = side in cell.flanks or hip_at(cell, self.roof.wings[cell.wing], side)
        return ends and shared_ft > TIE_FT and touches(chord, cell, side)

    def girder_beside(self, start: Point, end: Point) -> Key | None:
        """The girder along a member from one point to another that stands within 3 in. of it."""
        axis = 0 if abs(start[0] - end[0]) > abs(start[1] - end[1]) else 1
        low, high = sorted((start[axis], end[axis]))
        for c in self.chords:
            shared = min(high, c.high_end.at_ft) - max(low, c.low_end.at_ft)
            near = abs(c.bearing_ft - start[1 - axis]) < SMALLEST_BAY_FT - TIE_FT
            if c.girder and c.axis == axis and near and shared > TIE_FT:
                return self.chord_key(c)
        return None

    def girder_heel(self, cell: Cell, sides: tuple[FrameSide, ...], point_ft: Point) -> Landing | None:
        """The heel of a girder along one of a cell's sides, at a corner of the cell, of several the first drawn;
        `point_ft` is where the bearing lines of walls there would cross.
        """
        found: list[tuple[int, int, Point, Chord]] = []
        for side in sides:
            for c in self.chords:
                if c.girder and touches(c, cell, side):
                    along = point_ft[side.along]
                    at = min(max(along, c.low_end.at_ft), c.high_end.at_ft)
                    found.append((tie_key(abs(at - along)), c.index, cell_point(side.along, at, c.bearing_ft), c))
        if not found or min(found)[0] > tie_key(self.walls[0].thickness_ft + JOG_FT):
            return None
        *_, heel_ft, chord = min(found, key=lambda f: f[:2])
        return Landing(wall=None, member=self.chord_key(chord), point_ft=heel_ft)

    def walls_at(self, cell: Cell, side: FrameSide) -> tuple[WallLine, ...]:
        """The outside walls along a cell's side."""
        axis = side.along
        line = cell.side_ft(side)
        return tuple(
            w
            for w in self.framed.by_side[side]
            if abs(w.line_ft - line) <= TIE_FT
            and min(w.high_ft, cell.high_ft[axis]) - max(w.low_ft, cell.low_ft[axis]) > TIE_FT
        )

    def starts_low(self, cell: Cell, axis: int, low_ft: float, high_ft: float) -> bool:
        """Whether the layout's start lies nearer the low end of an interval along an axis of a cell; ties go by the
        order the outline was typed: of the walls at the cell's ends, then of all that lie to one side of its middle.
        """
        origin = self.origin_ft[axis]
        none = len(self.outline.walls)
        typed = [
            min((self.outline.walls[w.index].typed_order for w in self.walls_at(cell, side)), default=none)
            for side in sides_of(axis)
        ]
        low, high = (tie_key(abs(origin - low_ft)), typed[0]), (tie_key(abs(origin - high_ft)), typed[1])
        return low < high if low != high else self._typed_low((low_ft + high_ft) / 2.0, axis)

    def _typed_low(self, middle_ft: float, axis: int) -> bool:
        """Whether the first wall typed that lies to one side of a coordinate lies on the low side."""
        corners = self.outline.local_ft
        off = [
            (wall.typed_order, tie_key((a[axis] + b[axis]) / 2.0 - middle_ft))
            for wall, a, b in zip(self.outline.walls, corners, corners[1:] + corners[:1], strict=True)
        ]
        return min((order, away) for order, away in off if away)[1] < 0

    def wall_parts(self, cell: Cell, side: FrameSide, low_ft: float, high_ft: float) -> list[tuple[float, float]]:
        """The parts of an interval along a cell's side behind which an outside wall stands."""
        parts = [(max(low_ft, w.low_ft), min(high_ft, w.high_ft)) for w in self.walls_at(cell, side)]
        return [(a, b) for a, b in parts if b - a > TIE_FT]

    def land(self, cell: Cell, side: FrameSide, at_ft: float) -> Landing:
        """What a member square to a cell's side stands on, `at_ft` along that side.

        Raises
        ------
        LayoutError
            If nothing is there; names the side's place.
        """
        axis, across = side.along, side.axis
        chord = next(
            (
                c
                for c in self.chords
                if c.girder
                and c.axis == axis
                and abs(c.line_ft - cell.side_ft(side)) <= TIE_FT
                and c.low_end.at_ft + TIE_FT < at_ft < c.high_end.at_ft - TIE_FT
            ),
            None,
        )
        if chord is not None:
            return Landing(
                wall=None, member=self.chord_key(chord), point_ft=cell_point(across, chord.bearing_ft, at_ft)
            )
        if (landing := self._land_on_support(cell, side, at_ft)) is not None:
            return landing
        line = cell.side_ft(side)
        for off in (
            TIE_FT,
            self.walls[0].thickness_ft / 2.0,
        ):  # on a wall in line, else on one beside the line by a hair
            near = [
                (tie_key(max(w.low_ft - at_ft, at_ft - w.high_ft, 0.0)), self.outline.walls[w.index].typed_order, k)
                for k, w in enumerate(self.framed.by_side[side])
                if abs(w.line_ft - line) <= off
            ]
            if near and min(near)[0] <= tie_key(self.walls[0].thickness_ft):
                wall = self.framed.by_side[side][min(near)[2]]
                point = cell_point(across, wall.bearing_ft, wall.on_masonry_ft(at_ft))
                return Landing(wall=wall.index, member=None, point_ft=point)
        return self._land_at_chord_end(cell, side, at_ft)

    def _land_on_support(self, cell: Cell, side: FrameSide, at_ft: float) -> Landing | None:
        """The support inside the house that runs along the chord at a cell's side."""
        axis, across = side.along, side.axis
        for c in self.chords:
            if c.axis != axis or abs(c.line_ft - cell.side_ft(side)) > TIE_FT:
                continue
            under = self.supports.along(axis, c.bearing_ft, at_ft)
            if under is not None and c.low_ft - TIE_FT <= at_ft <= c.high_ft + TIE_FT:
                point = cell_point(across, under.line_ft(axis), at_ft)
                return Landing(wall=None, member=None, support=under.index, point_ft=point)
        return None

    def _land_at_chord_end(self, cell: Cell, side: FrameSide, at_ft: float) -> Landing:
        """Past a chord's last bearing, within a wall and an absorbed jog, stands what carries that end of the chord."""
        axis, across = side.along, side.axis
        line = cell.side_ft(side)
        ends = [
            (abs(end.at_ft - at_ft), c, end)
            for c in self.chords
            if c.axis == axis and abs(c.line_ft - line) <= TIE_FT
            for end in (c.low_end, c.high_end)
        ]
        away_ft, c, end = min(ends, key=lambda e: e[0], default=(math.inf, None, None))
        if c is not None and end is not None and away_ft <= self.walls[0].thickness_ft + JOG_FT:
            point = cell_point(across, c.bearing_ft, end.at_ft)
            carrier = self.chord_key(self.chords[end.chord]) if end.chord is not None else None
            return Landing(wall=end.wall, member=carrier, support=end.support, point_ft=point)
        raise self.nothing_carries(cell_point(across, line, at_ft))

    def nothing_carries(self, point_ft: Point) -> LayoutError:
        """What to say of a truss end at a point of the frame that has nothing to stand on."""
        x, y = self.outline.frame.to_plan(point_ft)
        here = f"walls outline: no wall or girder carries the truss end near ({x:.2f}, {y:.2f}) ft"
        if self.house.right_angled:
            return LayoutError(
                f"{here}, beside {walls_near(self.house, (x, y))}; move one of them so that the two lie in one line or "
                "at least 2 ft apart"
            )
        return LayoutError(f"{here}; draw {angled_walls_near(self.house, (x, y))} square to the rest of the house")
