"""Walls drawn apart, straight and to a scale of their own, where the plan has no room for their rows."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import shapely

from export.anchor_plan.rows import Row, RowKind, TextSizes, WallLine
from export.anchor_plan.rows_of_a_side import BELOW, SideRows, face_point, row_strokes, rows_of_a_side, start_arrow
from export.paper.lettering import text_width_in
from export.paper.sheet import (
    Layer,
    Line,
    Pen,
    Point,
    Polyline,
    RunningDimension,
    Scale,
    Sign,
    Stroke,
    Text,
    View,
)
from export.paper.symbols import UNRESOLVED, plain_strokes, sign_strokes

TITLE_IN = 0.42
BETWEEN_IN = 0.35
MOST_PIECES = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of a wall drawn apart; the drawn wall's left end on the outside face is the origin."""

    line: WallLine
    title: str
    rows: tuple[Row, ...]
    from_ft: float
    to_ft: float
    scale: Scale
    left_in: float
    width_in: float
    height_in: float


def pieces_of(line: WallLine, rows: tuple[Row, ...], scale: Scale, width_in: float, sizes: TextSizes) -> list[Piece]:
    """The wall in as few equal stretches as fit the width, each with its own rows."""
    marks = [r for r in rows if r.kind not in (RowKind.START, RowKind.HEADING)]
    first = [r for r in rows if r.kind in (RowKind.START, RowKind.HEADING)]
    n = max(1, math.ceil(line.length_ft * scale.in_per_ft / (width_in - 1.5)))
    while True:
        pieces = []
        for k in range(n):
            a, b = line.length_ft * k / n, line.length_ft * (k + 1) / n
            low, high = (-math.inf if k == 0 else a), (math.inf if k == n - 1 else b)
            own = tuple(r for r in marks if low <= r.station_ft < high)
            head = tuple(first) if k == 0 else tuple(replace(r, station_ft=a) for r in first[1:])
            title = (
                f"{line.name} apart, {scale.written}"
                + (f", part {k + 1} of {n}" if n > 1 else "")
                + (", START on part 1" if k else "")
            )
            draft = Piece(
                line=line,
                title=title,
                rows=(*head, *own),
                from_ft=a,
                to_ft=b,
                scale=scale,
                left_in=0.0,
                width_in=0.0,
                height_in=0.0,
            )
            pieces.append(_measured(draft, sizes))
        if all(p.width_in <= width_in for p in pieces) or n > MOST_PIECES:
            return pieces
        n += 1


def _straight(line: WallLine) -> WallLine:
    end = (line.length_ft, 0.0)
    return replace(line, start_ft=(0.0, 0.0), end_ft=end, outward=(0.0, -1.0), outside=True)


def _measured(draft: Piece, sizes: TextSizes) -> Piece:
    """The piece with the room that it needs."""
    side, _view = _laid_out(draft, (0.0, 0.0), sizes)
    right = (draft.to_ft - draft.from_ft) * draft.scale.in_per_ft
    low = min((p.at_in - p.row.height_in(sizes) / 2 for p in side.rows), default=0.0)
    high = max((p.at_in + p.row.height_in(sizes) / 2 for p in side.rows), default=right)
    left = max(0.1, -low)
    height = TITLE_IN + _thickness_in(draft) + side.depth_in
    title = 0.1 + sizes.width_ratio * text_width_in(draft.title, sizes.figure_in, bold=True)
    return replace(draft, left_in=left, width_in=max(left + max(right, high), title) + 0.1, height_in=height)


def _thickness_in(piece: Piece) -> float:
    return max(piece.line.thickness_ft * piece.scale.in_per_ft, 0.16)


def _laid_out(piece: Piece, origin: Point, sizes: TextSizes) -> tuple[SideRows, View]:
    view = View(scale=piece.scale, angle_deg=0.0, shift=(origin[0] - piece.from_ft * piece.scale.in_per_ft, origin[1]))
    x1 = origin[0] + (piece.to_ft - piece.from_ft) * piece.scale.in_per_ft
    band = shapely.box(origin[0], origin[1], x1, origin[1] + _thickness_in(piece))
    return rows_of_a_side(BELOW, [(_straight(piece.line), piece.rows)], view, band, sizes), view


def piece_strokes(piece: Piece, corner: Point, signs: dict[str, Sign], sizes: TextSizes) -> tuple[Stroke, ...]:
    """The piece with its upper left corner there."""
    thick = _thickness_in(piece)
    origin = (corner[0] + piece.left_in, corner[1] - TITLE_IN - thick)
    side, view = _laid_out(piece, origin, sizes)
    line = _straight(piece.line)
    x1 = origin[0] + (piece.to_ft - piece.from_ft) * piece.scale.in_per_ft
    band = ((origin[0], origin[1]), (x1, origin[1]), (x1, origin[1] + thick), (origin[0], origin[1] + thick))
    strokes: list[Stroke] = [
        Text(
            at=(corner[0] + 0.1, corner[1] - 0.2),
            text=piece.title,
            height_in=sizes.figure_in,
            layer=Layer.DETAIL,
            bold=True,
            width_ratio=sizes.width_ratio,
        ),
        Polyline(points=band, layer=Layer.DETAIL, pen=Pen.MEDIUM, closed=True),
        Line(start=band[0], end=band[1], layer=Layer.DETAIL, pen=Pen.HEAVY),
    ]
    start = view.paper((piece.from_ft, 0.0))
    last = side.rows[-1]
    for p in side.rows:
        if p.row.kind is RowKind.START:
            strokes.append(start_arrow(start, (0.0, -1.0), Layer.DETAIL))
        elif p.row.kind is not RowKind.HEADING:
            end = face_point(p.row, line, view)
            strokes += plain_strokes(
                RunningDimension(wall=line.name, start=start, end=end, outward=(0.0, -1.0), figure="", whole=p is last)
            )
        if p.row.mark and p.row.tick:
            m = p.row.mark
            deep_ft = p.row.tick.strap.in_from_face_ft
            middle = origin[1] + (thick / 2 if deep_ft is None else deep_ft * piece.scale.in_per_ft)
            sign = signs[m.anchor.id] if m.anchor else UNRESOLVED
            strokes += sign_strokes(sign, (view.paper((p.row.station_ft, 0.0))[0], middle), 0.0, Layer.DETAIL)
        strokes += row_strokes(p, side, view, sizes)
    return tuple(strokes)
