"""What the plan's column says, block by block: legend, counts, anchors, notes, placing, sign-off, revisions."""

from __future__ import annotations

import math

from export.anchor_plan.blocks import notes_block, said_blocks
from export.anchor_plan.papers import Paper
from export.anchor_plan.rows import TextSizes
from export.anchor_plan.tables import legend_block, schedule_block
from export.paper.block import Block
from export.paper.inspector import anchors_block, placing_blocks, revision_block, sign_off_block
from export.paper.table import chunks
from export.wall_marks.tape_marks import wall_tapes
from export.words.demand import demand_lines
from framing.run import Run

ASSUMED_HEAD = "Assumed, not given in the plan file"
MOST_ASSUMED = 12
UNRESOLVED_HEAD = "Unresolved: no anchor holds"
DEMAND_WORDS = "Pull up, push along the wall, push across it, allowable-stress level; ask the engineer before the pour."


def said_blocks_of(run: Run, paper: Paper) -> list[Block]:
    """The blocks in the order in which people look for them."""
    width, sizes, letters = paper.column_in, paper.column_sizes, paper.letters
    said = [*run.flags, *run.outline.notes, *run.roof.notes, *run.framing.notes, *run.notes]
    straps = tuple((t.name, str(sum(m.count for m in t.marks))) for t in wall_tapes(run) if t.ticks)
    return [
        legend_block(run, width, sizes),
        schedule_block(run, width, sizes),
        *anchors_block(run, None, letters),
        *said_blocks(UNRESOLVED_HEAD, _unresolved(run), width, sizes),
        notes_block(run, width, sizes),
        *said_blocks("Notes of this run", tuple(dict.fromkeys(said)), width, sizes),
        *placing_blocks(run, width, letters),
        *sign_off_block(straps, width, letters),
        revision_block(run, width, letters),
        *_assumed(run, width, sizes),
    ]


def _assumed(run: Run, width_in: float, sizes: TextSizes) -> list[Block]:
    """What the plan left out, in parts small enough to stand where there is room."""
    n_parts = math.ceil(len(run.plan.assumed) / MOST_ASSUMED)
    parts = chunks(run.plan.assumed, math.ceil(len(run.plan.assumed) / n_parts)) if n_parts else []
    heads = (ASSUMED_HEAD if k == 0 else f"{ASSUMED_HEAD}, continued" for k in range(len(parts)))
    blocks: list[Block] = []
    for head, part in zip(heads, parts, strict=True):
        blocks += said_blocks(head, ("; ".join(part) + ".",), width_in, sizes)
    return blocks


def _unresolved(run: Run) -> tuple[str, ...]:
    """What each mark that no anchor holds asks for, under a line that explains the words."""
    said = [
        f"{m.mark} ({m.bearing.member}, {m.bearing.plies} ply): {', '.join(demand_lines(m))}"
        for m in run.schedule.unresolved
    ]
    return (DEMAND_WORDS, *said) if said else ()
