"""The blocks an inspector looks for, alike on sheets and strips: wind and its doubts, anchors, placing, sign-off."""

from __future__ import annotations

from collections.abc import Sequence

from export.paper.block import Block, paragraphs, placed, stacked
from export.paper.sheet import Layer, Pen, Polyline
from export.paper.table import Lettering, chunks, table_block
from export.words.inspection import (
    ANCHOR_HEAD,
    ANCHOR_NOTE,
    REVISION_HEAD,
    WRONG_STRAP,
    anchor_rows,
    placing_words,
    revision_rows,
    wind_rows,
)
from framing.run import Run

SIGN_OFF_HEAD = ("wall", "straps", "marks checked", "straps set", "inspector", "date")
MOST_ROWS = 24
PAD_IN = 0.06


def wind_block(run: Run, width_in: float, letters: Lettering) -> Block:
    """The wind that was reckoned with, in a frame."""
    said = "; ".join(f"{what} {value}" for what, value in wind_rows(run))
    lines = [("Wind", letters.title_in, True), (said, letters.cell_in, False)]
    inner = paragraphs(lines, width_in - 2 * PAD_IN, Layer.NOTES, letters.width_ratio)
    height = inner.height_in
    frame = ((0.0, 0.0), (width_in, 0.0), (width_in, -height), (0.0, -height))
    box = Polyline(points=frame, layer=Layer.NOTES, pen=Pen.MEDIUM, closed=True)
    return Block(strokes=(box, *placed(inner, (PAD_IN, 0.0))), width_in=width_in, height_in=height + 0.06)


def open_wind_block(run: Run, width_in: float, letters: Lettering) -> list[Block]:
    """What the plan leaves open about the wind; nothing where nothing is."""
    if not run.wind_doubts:
        return []
    said = [("Open about the wind", letters.title_in, True), *((t, letters.cell_in, False) for t in run.wind_doubts)]
    return [paragraphs(said, width_in, Layer.NOTES, letters.width_ratio)]


def anchors_block(run: Run, width_in: float | None, letters: Lettering) -> list[Block]:
    """Per anchor used: embedment, length, nails, allowable loads, approval; nothing where no anchor is used.

    Without a width the table is as wide as its words.
    """
    rows = anchor_rows(run)
    if not rows:
        return []
    right = frozenset({1, 2, 3, 5, 6, 7})
    tables = [
        table_block(title, ANCHOR_HEAD, part, width_in, letters, Layer.SCHEDULE, right=right)
        for title, part in _titled("Anchors in this house", rows)
    ]
    last = tables.pop()
    said = [(ANCHOR_NOTE, letters.cell_in, False)]
    note = paragraphs(said, last.width_in, Layer.SCHEDULE, letters.width_ratio)
    return [*tables, stacked([last, note])]


def placing_blocks(run: Run, width_in: float, letters: Lettering) -> list[Block]:
    """How near a strap must stand, and what to do with one that is missing or wrong."""
    parts = (("How near a strap must stand", placing_words(run)), ("A strap that is missing or wrong", WRONG_STRAP))
    return [
        paragraphs(
            [(head, letters.title_in, True), *((words, letters.cell_in, False) for words in said)],
            width_in,
            Layer.NOTES,
            letters.width_ratio,
        )
        for head, said in parts
    ]


def sign_off_block(straps: tuple[tuple[str, str], ...], width_in: float, letters: Lettering) -> list[Block]:
    """A line per wall (name, straps) to be signed."""
    rows = [(name, n, "", "", "", "") for name, n in straps]
    return [
        table_block(title, SIGN_OFF_HEAD, part, width_in, letters, Layer.SCHEDULE, boxed=True)
        for title, part in _titled("Sign-off by wall", rows)
        if rows
    ]


def revision_block(run: Run, width_in: float, letters: Lettering) -> Block:
    """The revisions: this one, and lines for those to come."""
    return table_block("Revisions", REVISION_HEAD, revision_rows(run), width_in, letters, Layer.TITLE, boxed=True)


def _titled(words: str, rows: Sequence[Sequence[str]]) -> list[tuple[str, Sequence[Sequence[str]]]]:
    """The rows in parts that fit a sheet, each with its title."""
    return [(f"{words}, continued" if k else words, part) for k, part in enumerate(chunks(rows, MOST_ROWS))]
