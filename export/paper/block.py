"""A block of strokes drawn from its upper left corner down, so that it can be measured first and placed after."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from export.paper.lettering import wrapped
from export.paper.sheet import Circle, Layer, Line, Point, Polyline, Primitive, Text

LEADING = 1.75


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """Strokes from the upper left corner (0, 0) down. [in]."""

    strokes: tuple[Primitive, ...]
    width_in: float
    height_in: float


def placed(block: Block, corner: Point) -> tuple[Primitive, ...]:
    """The block's strokes with its upper left corner there."""
    return tuple(moved(s, corner) for s in block.strokes)


def moved(s: Primitive, by: Point) -> Primitive:
    """A plain stroke shifted."""

    def shift(p: Point) -> Point:
        return (p[0] + by[0], p[1] + by[1])

    if isinstance(s, Line):
        return replace(s, start=shift(s.start), end=shift(s.end))
    if isinstance(s, Polyline):
        return replace(s, points=tuple(shift(p) for p in s.points))
    if isinstance(s, Circle):
        return replace(s, centre=shift(s.centre))
    return replace(s, at=shift(s.at))


def paragraphs(
    lines: Iterable[tuple[str, float, bool]], width_in: float, layer: Layer, width_ratio: float = 1.0
) -> Block:
    """Texts one below another, each (words, height, heavy) broken into lines."""
    strokes: list[Primitive] = []
    y = 0.0
    for words, height, bold in lines:
        for line in wrapped(words, width_in / width_ratio, height, bold=bold):
            y -= height * LEADING
            strokes.append(
                Text(at=(0.0, y), text=line, height_in=height, layer=layer, bold=bold, width_ratio=width_ratio)
            )
        y -= height * 0.35
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + (0.1 if strokes else 0.0))


def stacked(blocks: Iterable[Block], gap_in: float = 0.0) -> Block:
    """Blocks one below another, their left edges in line."""
    strokes: list[Primitive] = []
    width, y = 0.0, 0.0
    for block in blocks:
        strokes += placed(block, (0.0, y))
        width, y = max(width, block.width_in), y - block.height_in - gap_in
    return Block(strokes=tuple(strokes), width_in=width, height_in=max(0.0, -y - gap_in))
