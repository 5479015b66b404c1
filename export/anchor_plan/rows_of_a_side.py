"""The rows of all walls that face one side of the sheet, set out beside the house without touching."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import shapely
from shapely.geometry import Polygon

from export.anchor_plan.rows import (
    COLUMN_GAP_IN,
    UNRESOLVED,
    Row,
    RowKind,
    TextSizes,
    WallLine,
    cell_ratio,
    cell_width_in,
    column_widths,
    spread,
)
from export.paper.sheet import (
    DIMENSION_OFFSET_IN,
    Fill,
    Layer,
    Pen,
    Point,
    Polyline,
    RunningDimension,
    Stroke,
    Text,
    View,
)
from export.wall_marks.tape_marks import Tape
from framing.units import feet_inches

OFF_THE_WALL_IN = 0.06
ARROW_IN = 0.18
FAN_FROM_IN = 0.42
FAN_TO_IN = 0.7
CLEAR_OF_CORNER_FT = 0.02
LEAST_CROSSING_IN2 = 0.01


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing:
    """A side of the sheet: `outward` from the house, `tape` the way the tape runs along it."""

    outward: Point
    tape: Point


BELOW = Facing(outward=(0.0, -1.0), tape=(1.0, 0.0))
RIGHT = Facing(outward=(1.0, 0.0), tape=(0.0, 1.0))
ABOVE = Facing(outward=(0.0, 1.0), tape=(-1.0, 0.0))
LEFT = Facing(outward=(-1.0, 0.0), tape=(0.0, -1.0))
FACINGS = (BELOW, RIGHT, ABOVE, LEFT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A row and where it stands: `wanted_in` on the wall, `at_in` on the sheet, both along the tape."""

    row: Row
    line: WallLine
    wanted_in: float
    at_in: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SideRows:
    """The rows of one side. `edge_in` is how far out the house reaches, `depth_in` what the rows add to it."""

    facing: Facing
    edge_in: float
    rows: tuple[Placed, ...]
    widths_in: tuple[float, ...]

    @property
    def depth_in(self) -> float:
        """From the house's edge to the far end of the longest row; 0 without rows. [in]."""
        if not self.rows:
            return 0.0
        return FAN_TO_IN + sum(w + COLUMN_GAP_IN for w in self.widths_in if w > 0)

    def shifted(self, by: Point) -> SideRows:
        """The same rows elsewhere on the sheet."""
        tape, out = _dot(by, self.facing.tape), _dot(by, self.facing.outward)
        rows = tuple(replace(p, wanted_in=p.wanted_in + tape, at_in=p.at_in + tape) for p in self.rows)
        return replace(self, edge_in=self.edge_in + out, rows=rows)


def facings_of(lines: Sequence[WallLine], n_rows: dict[str, int], view: View, house: Polygon) -> dict[str, Facing]:
    """The side of the sheet to which each wall's rows are led straight out.

    No two walls' leaders cross as a grid: of two that would, the one with more rows is led out.
    """
    facings: dict[str, Facing] = {}
    fields: list[tuple[Facing, Polygon]] = []
    for line in sorted((w for w in lines if w.outside and w.name in n_rows), key=lambda w: (-n_rows[w.name], w.name)):
        facing, field = _field(line, view, house)
        crossed = any(f is not facing and field.intersection(other).area > LEAST_CROSSING_IN2 for f, other in fields)
        if not field.intersects(house) and not crossed:
            facings[line.name] = facing
            fields.append((facing, field))
    return facings


def _field(line: WallLine, view: View, house: Polygon) -> tuple[Facing, Polygon]:
    """The side of the sheet that a wall looks to, and the paper between the wall and there."""
    out = view.turned(line.outward)
    facing = max(FACINGS, key=lambda f: round(f.outward[0] * out[0] + f.outward[1] * out[1], 9))
    far = 10.0 * math.hypot(*(b - a for a, b in zip(house.bounds[:2], house.bounds[2:], strict=True)))
    slack = min(CLEAR_OF_CORNER_FT, 0.25 * line.length_ft)
    a, b = (view.paper(line.point_ft(s, -slack)) for s in (slack, line.length_ft - slack))
    n = facing.outward
    before = Polygon([a, b, (b[0] + n[0] * far, b[1] + n[1] * far), (a[0] + n[0] * far, a[1] + n[1] * far)])
    return facing, before


def rows_of_a_side(
    facing: Facing, lines: list[tuple[WallLine, tuple[Row, ...]]], view: View, house: Polygon, sizes: TextSizes
) -> SideRows:
    """The rows of the walls that face one side, in the order of the tape, spread so that none touch."""
    edge = max(_dot(p, facing.outward) for p in house.exterior.coords)
    lines = sorted(lines, key=lambda pair: _dot(view.paper(pair[0].point_ft(pair[0].length_ft / 2)), facing.tape))
    rows, owners, wanted = [], [], []
    for line, its_rows in lines:
        for row in its_rows:
            rows.append(row)
            owners.append(line)
            wanted.append(_dot(tick_point(row, line, view), facing.tape))
    places = spread(wanted, [r.height_in(sizes) for r in rows])
    placed = tuple(
        Placed(row=r, line=o, wanted_in=w, at_in=p) for r, o, w, p in zip(rows, owners, wanted, places, strict=True)
    )
    return SideRows(facing=facing, edge_in=edge, rows=placed, widths_in=column_widths(tuple(rows), sizes))


def overflow_in(side: SideRows, house: Polygon, sizes: TextSizes) -> tuple[float, float]:
    """How far the rows reach past the house's two ends, first and last along the tape. [in]."""
    if not side.rows:
        return (0.0, 0.0)
    ends = [_dot(p, side.facing.tape) for p in house.exterior.coords]
    first, last = side.rows[0], side.rows[-1]
    before = min(ends) - (first.at_in - first.row.height_in(sizes) / 2)
    after = last.at_in + last.row.height_in(sizes) / 2 - max(ends)
    return (max(before, 0.0), max(after, 0.0))


def face_point(row: Row, line: WallLine, view: View) -> Point:
    """Where a row's dimension meets the wall's outside face; a mark past a corner stands at the corner."""
    return view.paper(line.point_ft(min(max(row.station_ft, 0.0), line.length_ft)))


def tick_point(row: Row, line: WallLine, view: View) -> Point:
    """Where a row's dimension ends on the wall's dimension line."""
    return _move(face_point(row, line, view), view.turned(line.outward), DIMENSION_OFFSET_IN)


def side_strokes(side: SideRows, view: View, sizes: TextSizes) -> tuple[Stroke, ...]:
    """Dimensions, leaders and text of the rows on a side."""
    strokes: list[Stroke] = []
    last = {p.line.name: p for p in side.rows}
    for p in side.rows:
        out = view.turned(p.line.outward)
        start, end = view.paper(p.line.point_ft(0.0)), face_point(p.row, p.line, view)
        if p.row.kind is RowKind.START:
            strokes.append(start_arrow(start, out, Layer.DIMENSIONS))
        elif p.row.kind is not RowKind.HEADING:
            figure, whole = feet_inches(p.row.station_ft), last[p.line.name] is p
            strokes.append(
                RunningDimension(wall=p.line.name, start=start, end=end, outward=out, figure=figure, whole=whole)
            )
        strokes += row_strokes(p, side, view, sizes)
    return tuple(strokes)


def bare_dimensions(line: WallLine, tape: Tape, view: View) -> list[Stroke]:
    """The dimension line of a wall whose rows are drawn apart, with its START and its ticks, where it stands."""
    out, start = view.turned(line.outward), view.paper(line.point_ft(0.0))
    strokes: list[Stroke] = [start_arrow(start, out, Layer.DIMENSIONS)]
    for ft in (*(t.station_ft for t in tape.ticks), line.length_ft):
        end = view.paper(line.point_ft(min(max(ft, 0.0), line.length_ft)))
        whole = ft == line.length_ft
        figure = feet_inches(ft)
        strokes.append(RunningDimension(wall=line.name, start=start, end=end, outward=out, figure=figure, whole=whole))
    return strokes


def start_arrow(start: Point, outward: Point, layer: Layer, off_in: float = DIMENSION_OFFSET_IN) -> Polyline:
    """The full arrowhead, on the dimension line or so far off the wall, whose tip is the tape's zero."""
    tape = (-outward[1], outward[0])
    tip = _move(start, outward, off_in)
    base = _move(tip, tape, ARROW_IN)
    wings = (_move(base, outward, 0.4 * ARROW_IN), _move(base, outward, -0.4 * ARROW_IN))
    return Polyline(points=(tip, *wings), layer=layer, pen=Pen.MEDIUM, closed=True, fill=Fill.BLACK)


def row_strokes(p: Placed, side: SideRows, view: View, sizes: TextSizes) -> list[Stroke]:
    """The line from the wall's face through the tick to the row, and the row's text in its columns."""
    facing, edge_in = side.facing, side.edge_in
    strokes: list[Stroke] = []
    near = _point(facing, p.at_in, edge_in + FAN_TO_IN - 0.04)
    if p.row.kind is not RowKind.HEADING:
        face, tick = face_point(p.row, p.line, view), tick_point(p.row, p.line, view)
        off = _move(face, view.turned(p.line.outward), OFF_THE_WALL_IN)
        knee = _point(facing, p.wanted_in, edge_in + FAN_FROM_IN)
        pen = Pen.MEDIUM if p.row.kind is RowKind.START else Pen.FINE
        strokes.append(Polyline(points=(off, tick, knee, near), layer=Layer.DIMENSIONS, pen=pen))
    flat = facing in (RIGHT, LEFT)
    angle = 0.0 if flat else 90.0
    forward = facing in (RIGHT, ABOVE)  # the text begins at the wall's end of the row
    depths = _column_depths(side.widths_in, forward=forward)
    for i, text in enumerate((*p.row.cells, p.row.call)):
        if not text:
            continue
        height = p.row.cell_height_in(i, sizes)
        bold = p.row.bold(i) or text == UNRESOLVED
        from_in = depths[i][0] if forward else depths[i][1]
        if len(p.row.cells) == 1 and not forward:
            from_in = cell_width_in(p.row, i, text, sizes)
        at = _point(facing, p.at_in, edge_in + FAN_TO_IN + from_in)
        base = (at[0], at[1] - height / 2) if flat else (at[0] + height / 2, at[1])
        strokes.append(
            Text(
                at=base,
                text=text,
                height_in=height,
                layer=Layer.MARKS,
                angle_deg=angle,
                bold=bold,
                width_ratio=cell_ratio(p.row, i, text, sizes),
            )
        )
    return strokes


def _column_depths(widths_in: tuple[float, ...], *, forward: bool) -> list[tuple[float, float]]:
    """From where to where, out from the near end of the rows, each column lies; the called-out names farthest."""
    order = (0, 1, 2, 3, 4) if forward else (3, 2, 1, 0, 4)
    depths, at = [(0.0, 0.0)] * 5, 0.0
    for i in order:
        depths[i] = (at, at + widths_in[i])
        at += widths_in[i] + (COLUMN_GAP_IN if widths_in[i] > 0 else 0.0)
    return depths


def house_on_paper(lines: tuple[WallLine, ...], view: View) -> Polygon:
    """The outside faces of the walls as a polygon of the sheet."""
    return shapely.Polygon([view.paper(w.start_ft) for w in lines if w.outside])


def _point(facing: Facing, along_in: float, out_in: float) -> Point:
    (ux, uy), (nx, ny) = facing.tape, facing.outward
    return (ux * along_in + nx * out_in, uy * along_in + ny * out_in)


def _dot(a: Point, b: Point) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _move(p: Point, direction: Point, distance: float) -> Point:
    return (p[0] + direction[0] * distance, p[1] + direction[1] * distance)
