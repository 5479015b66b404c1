"""Run -> wall-marks.pdf: the house at a glance, then the strips of every wall, on letter pages for a clipboard."""

from __future__ import annotations

from collections.abc import Sequence

from export.paper.block import Block, placed
from export.paper.lettering import cap_in, wrapped
from export.paper.pdf import Page, pdf_of
from export.paper.sheet import Align, Layer, Pen, Primitive
from export.wall_marks.cover import cover_blocks
from export.wall_marks.pen import SMALL_PT, box, stroke, write
from export.wall_marks.tape_marks import SAMPLE_WORDS, wall_tapes
from export.wall_marks.wall_drawing import BETWEEN_IN, HALF_WIDTH_IN, WIDTH_IN, paper_strips
from export.words.inspection import wind_line
from framing.run import CAUTION, Run

PAGE_WIDTH_IN, PAGE_HEIGHT_IN = 11.0, 8.5
MARGIN_IN = 0.25
TOP_IN, FOOT_IN = 0.66, 7.96
Placed = tuple[Block, tuple[float, float]]


def wall_marks_pdf(run: Run) -> bytes:
    """The strips of every wall, in order; equal runs give equal bytes."""
    drawn = framed(run, wall_mark_pages(run), "WALL MARKS")
    return pdf_of(drawn, f"Wall marks, {run.plan.project.name}", f"plan {run.fingerprint}")


def framed(run: Run, pages: Sequence[tuple[Primitive, ...]], title: str) -> list[Page]:
    """The pages of a set for the clipboard, each with the set's head and foot."""
    return [
        Page(
            width_in=PAGE_WIDTH_IN,
            height_in=PAGE_HEIGHT_IN,
            strokes=(*page, *_frame(run, number, len(pages), title)),
        )
        for number, page in enumerate(pages, start=1)
    ]


def wall_mark_pages(run: Run) -> list[tuple[Primitive, ...]]:
    """What each page holds between its head and its foot, in inches from the page's lower left corner."""
    tapes = wall_tapes(run)
    first = in_columns(cover_blocks(run, tapes, HALF_WIDTH_IN))
    return on_pages([*first, *shelved([s.block for t in tapes for s in paper_strips(t)])])


def on_pages(pages: Sequence[Sequence[Placed]]) -> list[tuple[Primitive, ...]]:
    """Placed blocks as each page's strokes, in inches from the page's lower left corner."""
    return [
        tuple(s for block, (x, down) in page for s in placed(block, (MARGIN_IN + x, PAGE_HEIGHT_IN - down)))
        for page in pages
    ]


def in_columns(blocks: Sequence[Block], *, in_order: bool = False) -> list[list[Placed]]:
    """The blocks in two columns a page, each in the first column that has room (`in_order`: from the last one on)."""
    pages: list[list[Placed]] = []
    ends: list[float] = []  # how far down each column is filled, two a page
    first = 0
    for block in blocks:
        free = (k for k in range(first, len(ends)) if ends[k] + block.height_in <= FOOT_IN)
        place = next(free, len(ends))
        first = place if in_order else 0
        if place == len(ends):
            ends += [TOP_IN, TOP_IN]
            pages.append([])
        pages[place // 2].append((block, (place % 2 * (HALF_WIDTH_IN + BETWEEN_IN), ends[place])))
        ends[place] += block.height_in
    return pages


def shelved(blocks: Sequence[Block]) -> list[list[Placed]]:
    """The blocks in their order on pages, two that take half a page's width beside each other, none cut."""
    pages: list[list[Placed]] = [[]]
    down, deepest, x = TOP_IN, 0.0, 0.0
    for block in blocks:
        beside = 0.0 < x <= HALF_WIDTH_IN and block.width_in <= HALF_WIDTH_IN and down + block.height_in <= FOOT_IN
        if not beside:
            down, x, deepest = down + deepest, 0.0, 0.0
            if pages[-1] and down + block.height_in > FOOT_IN:
                pages.append([])
                down = TOP_IN
        pages[-1].append((block, (x and HALF_WIDTH_IN + BETWEEN_IN, down)))
        x += block.width_in
        deepest = max(deepest, block.height_in + 0.035)
    return pages


def _frame(run: Run, number: int, n_pages: int, words: str) -> tuple[Primitive, ...]:
    """The page's head and foot."""
    project = run.plan.project
    package = (run.reconciled.words if run.reconciled else project.truss_package) or "______"
    made = (
        f"Revision {project.revision or '-'}   Date {project.date or '-'}   Use with truss package revision {package}"
    )
    page = f"plan {run.fingerprint}   page {number} of {n_pages}"
    title = write(words, 0.0, 0.17, 14.0, bold=True)
    right = write(page, WIDTH_IN, 0.17, 10.0, align=Align.RIGHT)
    undated = (
        [] if project.date else [write("NOT DATED", right.start[0] - 0.15, 0.17, 16.0, bold=True, align=Align.RIGHT)]
    )
    room = min(t.start[0] for t in (right, *undated)) - title.width_in - 0.35
    middle = WIDTH_IN - 5.75
    head: list[Primitive] = [
        title,
        write(project.name, title.width_in + 0.2, 0.17, 12.0, bold=True, within_in=room),
        right,
        *undated,
        write(made, 0.0, 0.325, 9.0, within_in=middle - 0.1),
        box(middle, 0.215, WIDTH_IN, 0.355, Layer.TITLE),
        write(wind_line(run), middle + 0.05, 0.32, SMALL_PT, within_in=WIDTH_IN - middle - 0.1),
        stroke((0.0, 0.39), (WIDTH_IN, 0.39), Layer.TITLE, Pen.MEDIUM),
    ]
    sample = f"   {SAMPLE_WORDS}" if run.schedule.catalogue.invented else ""
    caution = wrapped(f"{CAUTION}{sample}", WIDTH_IN, cap_in(SMALL_PT), bold=True)
    foot: list[Primitive] = [stroke((0.0, 0.02), (WIDTH_IN, 0.02), Layer.TITLE, Pen.MEDIUM)]
    foot += [write(t, 0.0, 0.135 + 0.122 * k, SMALL_PT, bold=True, within_in=WIDTH_IN) for k, t in enumerate(caution)]
    blocks = ((head, MARGIN_IN), (foot, FOOT_IN))
    return tuple(
        s
        for strokes, down in blocks
        for s in placed(
            Block(strokes=tuple(strokes), width_in=WIDTH_IN, height_in=0.4), (MARGIN_IN, PAGE_HEIGHT_IN - down)
        )
    )
