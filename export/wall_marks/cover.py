"""The first page of the strips: key plan, the house's total, and what crew and inspector must know of all walls."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from export.paper.block import Block, paragraphs
from export.paper.inspector import anchors_block, open_wind_block, placing_blocks, revision_block
from export.paper.key_plan import key_plan_block
from export.paper.lettering import cap_in
from export.paper.sheet import Layer
from export.paper.table import Lettering, chunks, table_block
from export.wall_marks.pen import SMALL_PT
from export.wall_marks.tape_marks import Tape, count_words, n_straps_by_type
from framing.anchors.schedule import Mark
from framing.run import Run

LETTERS = Lettering(title_in=cap_in(11.0), cell_in=cap_in(SMALL_PT), width_ratio=0.88)
KEY_PLAN_IN, SMALL_KEY_PLAN_IN = 2.75, 2.2
MOST_WALLS = 10
MOST_ROWS = 30
READ_ME = (
    "Hook the tape at START, the wall's left end seen from outside, and read every mark from there without moving it; "
    "check it from the far end.",
    "Tick: the truss face that the strap lies against. X: the truss stands there. Arrow: the strap's side.",
    "Double lines at the X: the truss stands as they do, along the wall or off square. A box around the tick: the "
    "strap stands in the beam's block behind an inside corner. 'In from face': how far in from the outside face (of "
    "each wall named); without it in the middle of the wall.",
    "White on black: a girder. Two columns in one frame: a pair, one strap on each face. Dashed frame: no anchor "
    "holds, ask the engineer before the pour.",
)


def cover_blocks(run: Run, tapes: Sequence[Tape], width_in: float) -> list[Block]:
    """The blocks of the first page in their order, each that wide."""
    return [
        key_plan_block(run, (width_in, SMALL_KEY_PLAN_IN if len(tapes) > MOST_WALLS else KEY_PLAN_IN), cap_in(9.0)),
        *_total_blocks(run, tapes, width_in),
        *anchors_block(run, width_in, LETTERS),
        paragraphs(
            [("How to read a strip", LETTERS.title_in, True), *((t, LETTERS.cell_in, False) for t in READ_ME)],
            width_in,
            Layer.NOTES,
            LETTERS.width_ratio,
        ),
        *open_wind_block(run, width_in, replace(LETTERS, cell_in=cap_in(8.5), width_ratio=1.0)),
        *placing_blocks(run, width_in, LETTERS),
        revision_block(run, width_in, LETTERS),
    ]


def _total_blocks(run: Run, tapes: Sequence[Tape], width_in: float) -> list[Block]:
    """How many of each anchor on each wall, so that each wall gets its own bag, and in all."""
    marks = [m for tape in tapes for m in tape.marks]
    ids = [anchor_id for anchor_id, _ in n_straps_by_type(marks)]
    rows = [_row(tape.name, tape.marks, ids) for tape in tapes]
    said = [(f"All walls: {count_words(marks)}", cap_in(10.0), True)]
    if others := run.schedule.by_engineer:
        where = " and ".join(dict.fromkeys(m.bearing.wall for m in others))
        said.append((f"{len(others)} more marks on {where} have the engineer's connection.", cap_in(9.0), True))
    rows.append(_row("all", marks, ids))
    head = ("wall", *ids, "straps", "no anchor")
    parts = chunks(rows, MOST_ROWS)
    right = frozenset(range(1, len(head)))
    return [
        paragraphs(said, width_in, Layer.SCHEDULE),
        *(
            table_block(
                "" if k else "A bag for each wall",
                head,
                part,
                width_in,
                LETTERS,
                Layer.SCHEDULE,
                right=right,
                last_bold=part is parts[-1],
            )
            for k, part in enumerate(parts)
        ),
    ]


def _row(name: str, marks: Sequence[Mark], ids: Sequence[str]) -> tuple[str, ...]:
    straps = dict(n_straps_by_type(marks))
    n_open = sum(not m.resolved for m in marks)
    counts = (str(straps.get(i, "-")) for i in ids)
    return (name, *counts, str(sum(straps.values())), str(n_open or "-"))
