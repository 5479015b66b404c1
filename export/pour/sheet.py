"""Run -> pour.pdf: what the crew takes on the day of the pour, in one set to print."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from export.paper.block import Block, paragraphs
from export.paper.lettering import cap_in, printable
from export.paper.pdf import pdf_of
from export.paper.sheet import Layer
from export.paper.table import Lettering, chunks, table_block
from export.pour.checklist import HOLDERS, STAGES
from export.wall_marks.pdf import framed, in_columns, on_pages, wall_mark_pages
from export.wall_marks.tape_marks import Tape, count_words, n_straps_by_type, wall_tapes
from export.wall_marks.wall_drawing import HALF_WIDTH_IN
from framing.run import Run

LETTERS = Lettering(title_in=cap_in(11.0), cell_in=cap_in(8.5))
MOST_ROWS = 26


def pour_pdf(run: Run) -> bytes:
    """pour.pdf: counts and boxes, who holds what, the lists, then the strips; equal runs give equal bytes."""
    tapes = wall_tapes(run)
    own = on_pages(in_columns(list(_blocks(run, tapes)), in_order=True))
    pages = framed(run, [*own, *wall_mark_pages(run)], "POUR DAY")
    return pdf_of(pages, f"Pour day, {run.plan.project.name}", f"plan {run.fingerprint}")


def _blocks(run: Run, tapes: Sequence[Tape]) -> Iterator[Block]:
    marks = [m for tape in tapes for m in tape.marks]
    lines = [("The bags, counted before the truck comes", LETTERS.title_in, True)]
    lines += [(f"All walls: {count_words(marks)}", LETTERS.cell_in, True)]
    if not_held := [m.mark for m in run.schedule.unresolved]:
        words = f"Not to be poured before the engineer has answered: {', '.join(not_held)}."
        lines.append((printable(words), LETTERS.cell_in, True))
    yield paragraphs(lines, HALF_WIDTH_IN, Layer.NOTES)
    rows = [(tape.name, anchor, str(n), "", "") for tape in tapes for anchor, n in n_straps_by_type(tape.marks)]
    yield from _boxed("Bags", ("wall", "anchor", "straps", "in the bag", "left over"), rows, frozenset({2}))
    signed = [(tape.name, *[""] * 5) for tape in tapes if tape.ticks]
    head = ("wall", "marks checked", "steel seen", "straps set", "counted after", "by, time")
    yield from _boxed("Each wall, signed as it is done", head, signed)
    yield from _boxed("Who holds what", ("who", "takes", "name"), [(*h, " " * 24) for h in HOLDERS])
    for stage in STAGES:
        yield from _boxed(
            stage.name, ("done", "what", "source"), [("", line.words, line.source) for line in stage.lines]
        )


def _boxed(
    title: str, head: Sequence[str], rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset()
) -> Iterator[Block]:
    for k, part in enumerate(chunks(rows, MOST_ROWS)):
        words = f"{title}, continued" if k and title else title
        yield table_block(words, head, part, HALF_WIDTH_IN, LETTERS, Layer.SCHEDULE, right=right, boxed=True)
