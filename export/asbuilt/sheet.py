"""Findings -> asbuilt.pdf and asbuilt.dxf: the verdict, the plan by state, each fault for the letter, the strips."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from export.asbuilt.plan import plan_block, room_of
from export.asbuilt.sketch import HEIGHT_IN, sketch
from export.asbuilt.sketch import WIDTH_IN as SKETCH_IN
from export.asbuilt.strips import as_built_strips
from export.asbuilt.words import Findings, band_words, fault_lines, fault_title, mistake_lines, package_line, verdict
from export.paper.block import Block, paragraphs, placed, stacked
from export.paper.lettering import cap_in, printable
from export.paper.pdf import pdf_of
from export.paper.sheet import Layer, Line, Pen, Point
from export.paper.table import Lettering, chunks, table_block
from export.wall_marks.pdf import framed, in_columns, on_pages, shelved
from export.wall_marks.wall_drawing import HALF_WIDTH_IN, WIDTH_IN
from framing.asbuilt.faults import Fault
from framing.asbuilt.judge import Ways, wall_ways
from framing.run import CAUTION

if TYPE_CHECKING:
    from ezdxf.document import Drawing

PLAN_IN = (WIDTH_IN, 7.1)
MODEL_IN = (16.0, 11.0)
MOST_ROWS = 40
BIG, CELL = cap_in(11.0), cap_in(8.5)
DESIGNED = (
    "A list for the engineer's letter. Nothing on it is a design: demands are the plan's or its truss package's; a "
    "neighbour's spare is what its anchor is not asked for in uplift, and nothing may lean on it unasked; retrofit "
    "rows are figures to ask by. Leave every strap as it is until the answer is there; do not bend, cut or drill "
    "(common practice, no source)."
)


def asbuilt_pdf(found: Findings) -> bytes:
    """asbuilt.pdf; equal input gives equal bytes."""
    ways = wall_ways(found.run)
    pages = in_columns([_summary(found), *_index(found)])
    pages += [[(plan_block(found, PLAN_IN), (0.0, 0.75))]]
    if found.faults:
        said = [(DESIGNED, CELL, True), *((t, CELL, False) for t in mistake_lines(found))]
        head = paragraphs(said, HALF_WIDTH_IN, Layer.NOTES)
        pages += in_columns([head, *(_fault(found, f, ways) for f in found.faults)], in_order=True)
    pages += shelved(list(as_built_strips(found)))
    title = f"As built, {found.run.plan.project.name}"
    return pdf_of(framed(found.run, on_pages(pages), "AS BUILT"), title, f"plan {found.run.fingerprint}")


def _summary(found: Findings) -> Block:
    lines = [("Straps as set", BIG, True), *((t, CELL * 1.1, k == 0) for k, t in enumerate(verdict(found)))]
    lines += [(printable(t), CELL, True) for t in package_line(found.run)]
    if found.run.wind_doubts:
        lines += [("Open about the wind", BIG, True), *((t, CELL, False) for t in found.run.wind_doubts)]
    lines += [("How they are judged", BIG, True), (band_words(found.run), CELL, False)]
    lines += [("Lists read", BIG, True), (printable(", ".join(found.survey.names)), CELL, False)]
    return paragraphs(lines, HALF_WIDTH_IN, Layer.NOTES)


def _index(found: Findings) -> Iterator[Block]:
    """Every finding in a row, to be ticked off."""
    rows = [(f.strap.name, f.strap.state.value, f.before, "") for f in found.faults]
    for part in chunks(rows, MOST_ROWS) if rows else []:
        head = ("strap", "found", "to be settled", "settled")
        letters = Lettering(title_in=BIG, cell_in=cap_in(8.0))
        yield table_block("Findings", head, part, HALF_WIDTH_IN, letters, Layer.NOTES, boxed=True)


def _fault(found: Findings, fault: Fault, ways: dict[str, Ways]) -> Block:
    """The sketch with the words beside it, a line above."""
    s = fault.strap
    picture = sketch(
        s, ways[s.mark.bearing.wall], found.run.framing.member(s.mark.bearing.member), found.run.plan.wall_thickness_ft
    )
    room = HALF_WIDTH_IN - SKETCH_IN - 0.15
    lines = [(fault_title(fault), cap_in(9.5), True), *((t, cap_in(7.5), False) for t in fault_lines(fault))]
    words = paragraphs(lines, room, Layer.NOTES)
    rule = Line(start=(0.0, 0.0), end=(HALF_WIDTH_IN, 0.0), layer=Layer.NOTES, pen=Pen.HAIR)
    strokes = (rule, *placed(picture, (0.0, -0.08)), *placed(words, (SKETCH_IN + 0.15, 0.0)))
    return Block(strokes=strokes, width_in=HALF_WIDTH_IN, height_in=max(words.height_in, HEIGHT_IN + 0.15) + 0.03)


def asbuilt_dxf(found: Findings) -> bytes:
    """asbuilt.dxf: the plan by state in inches of the house, the verdict beside it; equal input gives equal bytes."""
    from export.anchor_plan.dxf import dxf_bytes

    return dxf_bytes(lambda: _model(found))


def _model(found: Findings) -> Drawing:
    from ezdxf.filemanagement import new

    from export.anchor_plan.dxf_document import set_up
    from export.anchor_plan.dxf_strokes import Placement, add_strokes

    room = room_of(found, MODEL_IN)
    factor = 12.0 / room.per_ft

    def point(p: Point) -> Point:
        x, y = room.plan_ft(p)
        return (12.0 * x, 12.0 * y)

    doc = new("R2010")
    set_up(doc, factor)
    project = found.run.plan.project
    made = f"revision {project.revision or '-'} {project.date or ''} plan {found.run.fingerprint}"
    head = paragraphs([(printable(project.name), 0.2, True), (made, CELL, False)], HALF_WIDTH_IN, Layer.NOTES)
    caution = paragraphs([("CAUTION", BIG, True), (CAUTION, CELL, True)], HALF_WIDTH_IN, Layer.NOTES)
    side = placed(stacked([head, _summary(found), caution]), (MODEL_IN[0] + 0.3, 0.0))
    add_strokes(
        doc.modelspace(),
        (*plan_block(found, MODEL_IN).strokes, *side),
        Placement(point=point, turn_deg=0.0, factor=factor),
    )
    return doc
