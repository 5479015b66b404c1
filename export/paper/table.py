"""A table as a block: columns as wide as their words where there is room, else the words on more lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeVar

from export.paper.block import Block, paragraphs
from export.paper.lettering import printable, text_width_in, wrapped
from export.paper.sheet import Align, Layer, Line, Pen, Primitive, Text

GAP_IN = 0.1
ROW_GAP_EM = 0.65
LINE_EM = 1.55
Cells = Sequence[str]
Row = TypeVar("Row")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """Heights of capitals of a table's title and of its cells, and how narrow its letters are. [in]."""

    title_in: float
    cell_in: float
    width_ratio: float = 1.0


def table_block(
    title: str,
    head: Cells,
    rows: Sequence[Cells],
    width_in: float | None,
    letters: Lettering,
    layer: Layer,
    *,
    right: frozenset[int] = frozenset(),
    last_bold: bool = False,
    boxed: bool = False,
) -> Block:
    """Title, heads and rows, that wide, or without a width as wide as its words.

    `right` are the columns set to the right. A `boxed` table has its lines drawn, to be written into.
    """
    widths = _widths([head, *rows], width_in, letters)
    width_in = sum(widths)
    block = paragraphs([(title, letters.title_in, True)] if title else [], width_in, layer)
    strokes, y = list(block.strokes), -block.height_in
    lines_at = [y]
    for k, cells in enumerate((head, *rows)):
        bold = last_bold and k == len(rows)
        drawn, deep = _row(cells, y, widths, letters, layer, right=right, bold=bold)
        strokes += drawn
        y -= deep
        lines_at.append(y)
    ruled = lines_at if boxed else [lines_at[1], *([lines_at[-2]] if last_bold else [])]
    strokes += [Line(start=(0.0, at), end=(sum(widths), at), layer=layer, pen=Pen.HAIR) for at in ruled]
    if boxed:
        edges = [sum(widths[:i]) for i in range(len(widths) + 1)]
        strokes += [Line(start=(x, lines_at[0]), end=(x, y), layer=layer, pen=Pen.HAIR) for x in edges]
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + 0.1)


def _row(
    cells: Cells,
    top: float,
    widths: list[float],
    letters: Lettering,
    layer: Layer,
    *,
    right: frozenset[int],
    bold: bool,
) -> tuple[list[Primitive], float]:
    """One row, and how deep it is. [in]."""
    h, strokes, n_lines, x = letters.cell_in, list[Primitive](), 1, 0.0
    for i, (cell, width) in enumerate(zip(cells, widths, strict=True)):
        room = (width - GAP_IN) / letters.width_ratio
        lines = wrapped(cell, room, h, bold=bold)
        n_lines = max(n_lines, len(lines))
        at_right = i in right
        strokes += [
            Text(
                at=(x + (width - GAP_IN / 2 if at_right else GAP_IN / 2), top - (ROW_GAP_EM / 2 + 1 + k * LINE_EM) * h),
                text=line,
                height_in=h,
                layer=layer,
                align=Align.RIGHT if at_right else Align.LEFT,
                bold=bold,
                width_ratio=letters.width_ratio,
            )
            for k, line in enumerate(lines)
        ]
        x += width
    return strokes, (ROW_GAP_EM + 1 + (n_lines - 1) * LINE_EM) * h + 0.02


def _widths(rows: Sequence[Cells], width_in: float | None, letters: Lettering) -> list[float]:
    """Column widths that fill the table: the widest columns give way first where there is not enough."""
    natural = [
        GAP_IN + letters.width_ratio * max(text_width_in(printable(c), letters.cell_in, bold=True) for c in column)
        for column in zip(*rows, strict=True)
    ]
    if width_in is None:
        return natural
    spare = width_in - sum(natural)
    if spare >= 0.0:
        return [w + spare / len(natural) for w in natural]
    low, high = 0.0, max(natural)
    for _ in range(40):  # the cap at which the columns just fit
        cap = (low + high) / 2
        low, high = (cap, high) if sum(min(w, cap) for w in natural) <= width_in else (low, cap)
    return [min(w, low) for w in natural]


def chunks(rows: Sequence[Row], most: int) -> list[Sequence[Row]]:
    """The rows in pieces of at most that many."""
    return [rows[i : i + most] for i in range(0, len(rows), most)] or [rows]
