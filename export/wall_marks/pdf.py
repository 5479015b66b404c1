"""Run -> wall-marks.pdf: the strips of every wall on letter pages for a clipboard."""

from __future__ import annotations

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reportlab.lib.pagesizes import landscape, letter

from export.paper.pdf_operators import Point, add_operators, font_name, line, new_canvas, path, text
from export.paper.strip_strokes import POINTS_PER_IN, Drawing, Line, Text, fitted, text_width_in, wrapped
from export.wall_marks.tape_marks import SAMPLE_WORDS, Tape, count_words, wall_tapes
from export.wall_marks.wall_drawing import WIDTH_IN, wall_strips
from framing.anchors.schedule import Mark
from framing.run import CAUTION, Run

PAGE_WIDTH_IN, PAGE_HEIGHT_IN = 11.0, 8.5
MARGIN_IN = 0.35
HEAD_BOTTOM_IN = 0.78
FOOT_TOP_IN = 7.55
BETWEEN_IN = 0.08
READ_ME = (
    "Hook the tape at START and read every mark from there; check it from the far end. Tick: the truss face that the "
    "strap lies against. X: the truss stands there. Arrow: the strap's side."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A drawing and how far its top lies below the top of the page, in inches."""

    drawing: Drawing
    top_in: float


def wall_marks_pdf(run: Run) -> bytes:
    """The strips of every wall, in order, then the count in all; equal runs give equal bytes."""
    file = io.BytesIO()
    canvas = new_canvas(file, pagesize=landscape(letter))
    canvas.setTitle(f"Wall marks, {run.plan.project.name}")
    canvas.setSubject(f"plan {run.fingerprint}")
    fonts = {bold: font_name(canvas, bold=bold) for bold in (False, True)}
    pages = wall_mark_pages(run)
    for number, page in enumerate(pages, start=1):
        for placed in (*page, *_frame(run, number, len(pages))):
            add_operators(canvas, _operators(placed, fonts))
        canvas.showPage()
    canvas.save()
    return file.getvalue()


def wall_mark_pages(run: Run) -> list[list[Placed]]:
    """What each page holds between its head and its foot, filled from the top, no strip cut."""
    tapes = wall_tapes(run)
    strips: list[tuple[Drawing, float]] = [(s.drawing, s.height_in) for t in tapes for s in wall_strips(t)]
    pages: list[list[Placed]] = [[]]
    top_in = HEAD_BOTTOM_IN
    for drawing, height_in in [*strips, _total(tapes, run.schedule.by_engineer)]:
        if pages[-1] and top_in + height_in > FOOT_TOP_IN:
            pages.append([])
            top_in = HEAD_BOTTOM_IN
        pages[-1].append(Placed(drawing=drawing, top_in=top_in))
        top_in += height_in + BETWEEN_IN
    return pages


def _total(tapes: Sequence[Tape], others: Sequence[Mark]) -> tuple[Drawing, float]:
    """The count over all walls, what else has marks, and its height in inches."""
    marks = [m for tape in tapes for m in tape.marks]
    lines = wrapped(f"All walls: {count_words(marks)}", 10, WIDTH_IN, bold=True)
    if others:
        where = " and ".join(dict.fromkeys(m.bearing.wall for m in others))
        lines += wrapped(
            f"{len(others)} more marks on {where} have the engineer's connection.", 10, WIDTH_IN, bold=True
        )
    texts = tuple(Text(x_in=0.0, y_in=0.17 * (k + 1), text=t, size_pt=10, bold=True) for k, t in enumerate(lines))
    return Drawing(texts=texts), 0.17 * len(lines) + 0.05


def _frame(run: Run, number: int, n_pages: int) -> tuple[Placed, Placed]:
    """The page's head and foot."""
    project = run.plan.project
    right = f"page {number} of {n_pages}"
    package = project.truss_package or "______"
    made = f"Revision {project.revision or '-'}   Date {project.date or '-'}   "
    second = fitted(f"{made}Use with truss package revision {package}", 9, WIDTH_IN - 3)
    plan = f"plan {run.fingerprint}"
    sample = SAMPLE_WORDS if run.schedule.catalogue.invented else ""
    head = Drawing(
        texts=(
            Text(x_in=0.0, y_in=0.17, text="WALL MARKS", size_pt=14, bold=True),
            Text(x_in=1.45, y_in=0.17, text=fitted(project.name, 12, 7.3, bold=True), size_pt=12, bold=True),
            _right(right, 0.17, 10),
            Text(x_in=0.0, y_in=0.34, text=second, size_pt=9),
            _right(plan, 0.34, 9),
        ),
        lines=(Line(start_in=(0.0, 0.40), end_in=(WIDTH_IN, 0.40), width_pt=1.2),),
    )
    caution = wrapped(CAUTION, 8, WIDTH_IN, bold=True)
    notes = [(line, False) for line in wrapped(READ_ME, 8, WIDTH_IN)] + [(line, True) for line in caution]
    if sample:
        notes.append((sample, True))
    texts = tuple(
        Text(x_in=0.0, y_in=0.14 + 0.125 * k, text=t, size_pt=8, bold=bold) for k, (t, bold) in enumerate(notes)
    )
    foot = Drawing(texts=texts, lines=(Line(start_in=(0.0, 0.02), end_in=(WIDTH_IN, 0.02), width_pt=1.2),))
    return Placed(drawing=head, top_in=MARGIN_IN), Placed(drawing=foot, top_in=FOOT_TOP_IN)


def _right(text: str, y_in: float, size_pt: float) -> Text:
    return Text(x_in=WIDTH_IN - text_width_in(text, size_pt), y_in=y_in, text=text, size_pt=size_pt)


def _operators(placed: Placed, fonts: dict[bool, str]) -> Iterator[str]:
    """The recorded strokes at their place on the page; the page's y runs up in points."""

    def at(point_in: Point) -> Point:
        x_in, y_in = point_in
        return (x_in + MARGIN_IN) * POINTS_PER_IN, (PAGE_HEIGHT_IN - placed.top_in - y_in) * POINTS_PER_IN

    for stroke in placed.drawing.lines:
        yield f"{_dash(stroke.dashed)} {stroke.width_pt} w"
        yield line(at(stroke.start_in), at(stroke.end_in))
    for shape in placed.drawing.shapes:
        yield f"{_dash(shape.dashed)} {shape.width_pt} w"
        yield path(map(at, shape.corners_in), closed=True, filled=shape.filled)
    for words in placed.drawing.texts:
        yield text(words.text, at((words.x_in, words.y_in)), fonts[words.bold], words.size_pt)


def _dash(dashed: bool) -> str:
    return "[4 2.5] 0 d" if dashed else "[] 0 d"
