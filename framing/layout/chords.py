"""Outline -> chords and cells: every inside corner gets one chord; between them lie rectangles.

Source: own derivation: tests/invariants (every outline is carried, nothing carries itself).
"""

from __future__ import annotations

import itertools
import random
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import Polygon, box

from framing.frame_side import SIDES
from framing.layout.aligned import aligned, too_narrow
from framing.layout.cell_ends import covers_side, hip_at, short_hip_at, touches
from framing.layout.chord_lines import chord_from
from framing.layout.jogs import Framed, absorb_jogs
from framing.layout.narrow_refusals import NothingAheadError, too_narrow_for
from framing.layout.records import (
    JOG_FT,
    LARGEST_JOG_FT,
    SHORTEST_PIECE_FT,
    Cell,
    Chord,
    WallLine,
)
from framing.layout.supports import Supports, chords_on_supports, stop_chords
from framing.plan import Point
from framing.roof.surface import Roof
from framing.roof.wings import Wing, cells_inside
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline, tie_key

InsideCorner = tuple[Point, tuple[int, int]]  # its place, and those of its two lines in the framed outline
N_RANDOM_ORDERS = 24
SHORT_TRUSS_FT = 3.0
LONG_GIRDER_FT = 30.0
LONGEST_GIRDER_FT = 40.0
OVERLAY_RATIO = 0.5


class _Grid:
    """The outline cut by all its own wall lines: the fixed squares that chords join into cells."""

    def __init__(self, framed: Framed, roof: Roof, stops: tuple[Chord, ...]) -> None:
        pts = np.array(framed.corners_ft)
        self.xs, self.ys = (np.unique([*pts[:, k], *(c.line_ft for c in stops if c.axis != k)]) for k in (0, 1))
        self.inside = cells_inside(framed.corners_ft, self.xs, self.ys)
        boxes = [[box(x0, y0, x1, y1) for y0, y1 in _pairs(self.ys)] for x0, x1 in _pairs(self.xs)]
        tree = shapely.STRtree([f.in_frame for f in roof.faces])
        flat = [b for row in boxes for b in row]
        at_box, at_face = tree.query(flat)
        polygons = np.array([f.in_frame for f in roof.faces], dtype=object)
        areas = shapely.area(shapely.intersection(np.array(flat, dtype=object)[at_box], polygons[at_face]))
        wing_of = np.array([int(f.wing.split()[-1]) - 1 for f in roof.faces])
        seen_ft2 = np.zeros((len(flat), len(roof.wings)))
        np.add.at(seen_ft2, (at_box, wing_of[at_face]), areas)
        self.seen_ft2 = seen_ft2.reshape(len(self.xs) - 1, len(self.ys) - 1, -1)


def _pairs(values: np.ndarray) -> list[tuple[float, float]]:
    return [(float(a), float(b)) for a, b in itertools.pairwise(values)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Division:
    """An outline divided into cells: its framing lines, the chords, the cells between them and what they cost."""

    framed: Framed
    chords: tuple[Chord, ...]
    cells: tuple[Cell, ...]
    cost: int


def cheapest_division(
    outline: Outline, roof: Roof, spacing_ft: float, supports: Supports, absorbed_ft: float = JOG_FT
) -> Division:
    """The cheaper of two divisions, jogs under a limit absorbed: with girders at every larger jog, and with longer
    trusses of the wing beside it over jogs under 4 ft; where the house has angled walls, whose bays take jacks, the
    former. Where trusses under 1 ft are left between two framing lines, these are made one if that leaves fewer.

    Cost: girder feet, plus 5 per foot over 30 ft, plus 200 over 40 ft, plus 60 per truss under 3 ft, plus half a foot
    per foot by which trusses are longer than their wing is wide.
    Source: common practice, no source.
    """
    best = _cheaper(outline, absorb_jogs(outline, absorbed_ft), roof, spacing_ft, supports)
    while narrow := too_narrow(best.cells):
        framed = aligned(outline, best.framed, narrow)
        other = None if framed is None else _cheaper(outline, framed, roof, spacing_ft, supports)
        if other is None or len(too_narrow(other.cells)) >= len(narrow):
            break
        best = other
    return best


def _cheaper(outline: Outline, framed: Framed, roof: Roof, spacing_ft: float, supports: Supports) -> Division:
    with_girders = _divided(outline, framed, roof, spacing_ft, supports, JOG_FT)
    if roof.angled_eaves or not any(JOG_FT <= w.high_ft - w.low_ft < LARGEST_JOG_FT for w in framed.lines):
        return with_girders
    longer = _divided(outline, framed, roof, spacing_ft, supports, LARGEST_JOG_FT)
    return min(with_girders, longer, key=lambda d: d.cost)


def _divided(
    outline: Outline, framed: Framed, roof: Roof, spacing_ft: float, supports: Supports, jog_ft: float
) -> Division:
    """The cheapest chords found: along a jog's own wall first, then the shortest, until no inside corner is left; then
    some random orders. Trusses run past their wing by less than `jog_ft`.

    A chord along a support needs no girder, and a girder's spans end at supports.
    """
    walls = framed.lines
    stops = stop_chords(framed, supports)
    grid = _Grid(framed, roof, stops)
    corners = _inside_corners(outline, framed)
    jogs = {k for k, w in enumerate(walls) if jog_ft > JOG_FT and w.high_ft - w.low_ft < jog_ft}
    walls_of_house = Polygon(outline.local_ft)
    best: Division | None = None
    dice = random.Random(len(walls))
    for attempt in range(1 + (N_RANDOM_ORDERS if corners else 0)):
        try:
            chords = _draw_chords(walls, stops, corners, jogs, dice if attempt else None)
        except NothingAheadError as found:
            raise too_narrow_for("girder", outline, found.point_ft) from None
        chords = chords_on_supports(chords, supports)
        cells = _cells(grid, chords, roof.wings, jog_ft)
        chords = _with_girders(chords, cells, roof.wings, roof.overhang_ft)
        longer_ft = sum(_longer_ft(walls_of_house, c, roof.wings[c.wing], spacing_ft) for c in cells)
        cost = tie_key(_cost(chords, cells, spacing_ft) + OVERLAY_RATIO * longer_ft)
        if best is None or cost < best.cost:
            best = Division(framed=framed, chords=chords, cells=cells, cost=cost)
    assert best is not None
    return best


def _longer_ft(walls: Polygon, cell: Cell, wing: Wing, spacing_ft: float) -> float:
    """By how much the trusses of a cell are longer together than its wing is wide, over jogs."""
    if all((cell.side_ft(s) - wing.side_ft(s)) * s.inward >= -TIE_FT for s in SIDES):
        return 0.0
    past = box(*cell.low_ft, *cell.high_ft).difference(box(*wing.low_ft, *wing.high_ft))
    return float(past.intersection(walls).area / spacing_ft)


def _inside_corners(outline: Outline, framed: Framed) -> list[InsideCorner]:
    """Inside corners in the order typed, each with the places of its two lines (typed-earlier first)."""
    n = len(framed.corners_ft)
    clockwise = outline.typed_clockwise
    n_typed = 1 + max(w.typed_order for w in outline.walls)
    out = []
    for k in range(n):
        (ax, ay), (bx, by), (cx, cy) = framed.corners_ft[k - 1], framed.corners_ft[k], framed.corners_ft[(k + 1) % n]
        if (bx - ax) * (cy - by) - (by - ay) * (cx - bx) < 0:
            after, before = framed.first[k], (framed.first[k] - 1) % len(framed.lines)
            at_start = framed.lines[after].index
            order = outline.walls[at_start].typed_order
            typed = ((order + 1) % n_typed, -at_start) if clockwise else (order, at_start)
            out.append((typed, (bx, by), (after, before) if clockwise else (before, after)))
    return [(point, lines) for _, point, lines in sorted(out)]


def _draw_chords(
    walls: tuple[WallLine, ...],
    stops: tuple[Chord, ...],
    corners: list[InsideCorner],
    jogs: set[int],
    dice: random.Random | None,
) -> tuple[Chord, ...]:
    """One chord per inside corner: along jogs' walls first, then the shortest, or with dice in a random order."""
    chords: list[Chord] = []
    left = list(corners)
    while left:
        pool = left if dice is None else [dice.choice(left)]
        options = [
            ((w not in jogs, tie_key(c.high_ft - c.low_ft)), c)
            for p, ws in pool
            for w in ws
            for c in [chord_from(walls, stops, chords, p, w)]
        ]
        lengths = [length for length, _ in options]
        pick = lengths.index(min(lengths))
        if dice is not None and dice.random() < 0.3:
            pick = 1 - pick
        chord = options[pick][1]
        chords.append(chord)
        on = {e.support for e in (chord.low_end, chord.high_end)} - {c.covered for c in chords}
        chords += [replace(c, index=len(chords) + k) for k, c in enumerate(c for c in stops if c.covered in on)]
        left = [(p, ws) for p, ws in left if not _at_end(chord, p)]
    return tuple(chords)


def _at_end(chord: Chord, p: Point) -> bool:
    on_line = abs(p[1 - chord.axis] - chord.line_ft) <= TIE_FT
    return on_line and min(abs(p[chord.axis] - chord.low_ft), abs(p[chord.axis] - chord.high_ft)) <= TIE_FT


def _cells(grid: _Grid, chords: tuple[Chord, ...], wings: tuple[Wing, ...], jog_ft: float) -> tuple[Cell, ...]:
    """The rectangles between walls and chords, each with the wing whose roof covers most of it.

    Only wings that contain the whole cell are asked: a truss must not run out past the roof it is shaped for.
    """
    nx, ny = len(grid.xs) - 1, len(grid.ys) - 1
    cut_x, cut_y = _cuts(grid, chords)
    free = grid.inside.copy()
    out: list[Cell] = []
    for i in range(nx):
        for j in range(ny):
            if not free[i, j]:
                continue
            i1, j1 = i, j
            while i1 + 1 < nx and grid.inside[i1 + 1, j] and not cut_x[i1, j]:
                i1 += 1
            while j1 + 1 < ny and grid.inside[i, j1 + 1] and not cut_y[i, j1]:
                j1 += 1
            free[i : i1 + 1, j : j1 + 1] = False
            low = (float(grid.xs[i]), float(grid.ys[j]))
            high = (float(grid.xs[i1 + 1]), float(grid.ys[j1 + 1]))
            seen = grid.seen_ft2[i : i1 + 1, j : j1 + 1].sum(axis=(0, 1))
            keys = [
                tie_key(float(s)) if _contains(w, low, high, jog_ft) else -1 for s, w in zip(seen, wings, strict=True)
            ]
            wing = keys.index(max(keys))
            out.append(
                Cell(
                    index=len(out),
                    low_ft=low,
                    high_ft=high,
                    wing=wing,
                    ridge_axis=wings[wing].ridge_axis,
                    jog_ft=jog_ft,
                )
            )
    return tuple(out)


def _cuts(grid: _Grid, chords: tuple[Chord, ...]) -> tuple[np.ndarray, np.ndarray]:
    """Which of the grid's squares have a chord on their x-high side, and which on their y-high side."""
    cut_x, cut_y = (np.zeros((len(grid.xs) - 1, len(grid.ys) - 1), dtype=bool) for _ in (0, 1))
    for c in chords:
        if c.axis == 1:
            i = int(np.searchsorted(grid.xs, c.line_ft - TIE_FT)) - 1
            cut_x[i] |= (grid.ys[:-1] > c.low_ft - TIE_FT) & (grid.ys[1:] < c.high_ft + TIE_FT)
        else:
            j = int(np.searchsorted(grid.ys, c.line_ft - TIE_FT)) - 1
            cut_y[:, j] |= (grid.xs[:-1] > c.low_ft - TIE_FT) & (grid.xs[1:] < c.high_ft + TIE_FT)
    return cut_x, cut_y


def _contains(wing: Wing, low: Point, high: Point, jog_ft: float) -> bool:
    """Whether a wing contains a rectangle, absorbed jogs aside."""
    return all(wing.low_ft[k] < low[k] + jog_ft and wing.high_ft[k] > high[k] - jog_ft for k in (0, 1))


def _with_girders(
    chords: tuple[Chord, ...], cells: tuple[Cell, ...], wings: tuple[Wing, ...], overhang_ft: float
) -> tuple[Chord, ...]:
    """The chords, those that carry a truss, a jack or another girder marked as girders."""
    bearing = [
        (cell, side) for cell in cells for side in SIDES if side in cell.flanks or hip_at(cell, wings[cell.wing], side)
    ]
    tops = [
        (cell, side)
        for cell in cells
        for side in SIDES
        if short_hip_at(cell, wings[cell.wing], side.opposite, overhang_ft)
        and any(covers_side(c, cell, side) for c in chords)
    ]
    bearing += tops + [(cell, side.opposite) for cell, side in tops]  # jacks from one chord to the other
    carrying = {chord.index for chord in chords if any(touches(chord, *at) for at in bearing)}
    for chord in reversed(chords):
        if chord.index in carrying and chord.covered is None:
            carrying |= {e.chord for e in (chord.low_end, chord.high_end) if e.chord is not None}
    rests_on = {e.chord for c in chords if c.covered is None for e in (c.low_end, c.high_end) if e.chord is not None}
    built = {c.index for c in chords if c.covered is None and c.high_end.at_ft - c.low_end.at_ft >= SHORTEST_PIECE_FT}
    return tuple(replace(c, girder=c.index in built and c.index in carrying | rests_on) for c in chords)


def _cost(chords: tuple[Chord, ...], cells: tuple[Cell, ...], spacing_ft: float) -> float:
    total = 0.0
    for chord in chords:
        if chord.girder:
            total += chord.high_end.at_ft - chord.low_end.at_ft + 5.0 * max(0.0, chord.span_ft - LONG_GIRDER_FT)
            total += 200.0 if chord.span_ft > LONGEST_GIRDER_FT else 0.0
    for cell in cells:
        if cell.size_ft(1 - cell.ridge_axis) < SHORT_TRUSS_FT:
            total += 60.0 * max(1.0, cell.size_ft(cell.ridge_axis) // spacing_ft)
    return total
