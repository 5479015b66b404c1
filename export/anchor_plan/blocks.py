"""What stands beside the plan: title, caution, legend, schedule by wall, notes, stamp; each a block of strokes."""

from __future__ import annotations

import math

from export.anchor_plan.rows import HEADINGS, TextSizes
from export.paper.block import Block, paragraphs, placed
from export.paper.lettering import printable, wrapped
from export.paper.sheet import (
    Align,
    Circle,
    Fill,
    Layer,
    Line,
    Pen,
    Point,
    Polyline,
    Primitive,
    Scale,
    Text,
    TitleCells,
    along,
)
from export.words.inspection import dated
from framing.plan import Side
from framing.run import CAUTION, Run

PAD_IN = 0.08
CELLS_EM = 3.9
TALLEST_IN = 6.0


def title_block(run: Run, sheet: str, width_in: float, sizes: TextSizes) -> Block:
    """The project, what the sheet is, and what tells this run from any other."""
    project = run.plan.project
    undated = [] if project.date else [("NOT DATED", sizes.start_in, True)]
    package = printable(run.reconciled.words if run.reconciled else project.truss_package) or "____________"
    lines = [
        *((line, sizes.start_in, True) for line in wrapped(project.name, width_in, sizes.start_in, bold=True)[:2]),
        *undated,
        ("Tie-beam anchor placement plan", sizes.figure_in, True),
        (sheet, sizes.label_in, False),
        (f"Revision {printable(project.revision) or '__'}    {dated(run)}", sizes.label_in, True),
        (f"Use with truss package revision {package}", sizes.label_in, True),
        (f"Fingerprint {run.fingerprint}    strapline {run.version}", sizes.label_in, False),
    ]
    said = paragraphs(lines, width_in, Layer.TITLE)
    height = said.height_in + CELLS_EM * sizes.label_in + 0.08  # room for the cells at its foot
    return Block(strokes=said.strokes, width_in=width_in, height_in=height)


def title_cells(run: Run, sheet: str, foot: Point, width_in: float, sizes: TextSizes) -> TitleCells:
    """The cells at the foot of the title block, whose lower left corner lies at `foot`, that an office fills in."""
    issue = " ".join(filter(None, (printable(run.plan.project.revision), dated(run))))
    cells = (
        ("SHEET", "sheet", sheet.rpartition("sheet ")[2]),
        ("ISSUE", "issue", issue),
        ("DRAWN", "drawn", ""),
        ("CHECKED", "checked", ""),
    )
    height = CELLS_EM * sizes.label_in
    return TitleCells(
        at=(foot[0], foot[1] + height + 0.08), width_in=width_in, height_in=height, text_in=sizes.label_in, cells=cells
    )


def caution_block(width_in: float, sizes: TextSizes) -> Block:
    """The caution, word for word, in a frame."""
    words = [("CAUTION", sizes.figure_in, True), (CAUTION, sizes.label_in, False)]
    inner = paragraphs(words, width_in - 2 * PAD_IN, Layer.NOTES)
    height = inner.height_in + PAD_IN
    frame = ((0.0, 0.0), (width_in, 0.0), (width_in, -height), (0.0, -height))
    strokes = (Polyline(points=frame, layer=Layer.NOTES, pen=Pen.HEAVY, closed=True), *placed(inner, (PAD_IN, 0.0)))
    return Block(strokes=strokes, width_in=width_in, height_in=height + 0.06)


def scale_block(scale: Scale, north_deg: float, width_in: float, sizes: TextSizes) -> Block:
    """The scale in words and as a bar, and the direction of north on this sheet."""
    r = 0.26
    height = 2 * r + 0.5
    middle = (width_in - r - 0.3, -height / 2)
    tip, tail = along(middle, north_deg, r), along(middle, north_deg, -r)
    wings = (along(middle, north_deg + 150, r), along(middle, north_deg - 150, r))
    letter = along(middle, north_deg, r + 0.12)
    strokes: list[Primitive] = [
        Circle(centre=middle, radius_in=r, layer=Layer.TITLE),
        Line(start=tail, end=tip, layer=Layer.TITLE),
        Polyline(points=(tip, wings[0], middle), layer=Layer.TITLE, pen=Pen.MEDIUM, closed=True, fill=Fill.BLACK),
        Polyline(points=(tip, wings[1], middle), layer=Layer.TITLE, pen=Pen.MEDIUM, closed=True),
        Text(
            at=(letter[0], letter[1] - sizes.label_in / 2),
            text="N",
            height_in=sizes.label_in,
            layer=Layer.TITLE,
            align=Align.CENTRE,
            bold=True,
        ),
    ]
    words = f"Plan {scale.written}"
    strokes.append(
        Text(
            at=(0, -0.25),
            text=words,
            height_in=sizes.label_in,
            layer=Layer.TITLE,
            bold=True,
            width_ratio=sizes.width_ratio,
        )
    )
    strokes += _scale_bar(scale, width_in - 2 * r - 1.0, sizes)
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=height)


def _scale_bar(scale: Scale, longest_in: float, sizes: TextSizes) -> list[Primitive]:
    """A bar of a round number of feet, its first half black."""
    feet = next((f for f in (40, 20, 10, 8, 4) if f * scale.in_per_ft <= longest_in), 2)
    y, tall, length = -0.75, 0.06, feet * scale.in_per_ft
    boxes = []
    for k in (0, 1):
        a, b = k * length / 2, (k + 1) * length / 2
        ring = ((a, y), (b, y), (b, y + tall), (a, y + tall))
        boxes.append(Polyline(points=ring, layer=Layer.TITLE, closed=True, fill=Fill.NONE if k else Fill.BLACK))
    figures = [
        Text(at=(x, y + tall + 0.05), text=t, height_in=sizes.label_in, layer=Layer.TITLE, align=Align.CENTRE)
        for x, t in ((0.05, "0"), (length, f"{feet} ft"))
    ]
    return [*boxes, *figures]


def notes_block(run: Run, width_in: float, sizes: TextSizes) -> Block:
    """How to read the rows, and what holds for the whole house."""
    side = "START" if run.plan.anchors.side is Side.START else "far"
    beam = run.plan.tie_beam.name
    notes = [
        f"A row says: {', '.join(HEADINGS)}. The tape figure is the strap's own place, from the black arrowhead at "
        "START, along the outside face; the truss centre is for checking.",
        f"Straps stand on the {side} side of the truss, in the middle of the wall. A row says where one does not: on "
        "another face, at a truss off square, how far in from the outside face ('in'). A row with a far face: one "
        "strap on each.",
        "'Corner': in the beam's block behind an inside corner, on no wall's face; measure in from both walls' outside "
        "faces.",
        "START is the wall's left end seen from outside, facing the wall.",
        "A wall marked 'apart' is drawn again with its rows, straight, outside below, here or on the next sheets.",
        f"Tie beam {beam}: between the heavy line (outside face) and the line inside it. Girders are heavy lines.",
    ]
    if run.framing.porch_beams:
        notes.append("Fine on both sides, without a heavy line: a porch beam stands there, no wall.")
    lines = [("Notes", sizes.figure_in, True), *((n, sizes.label_in, False) for n in notes)]
    return paragraphs(lines, width_in, Layer.NOTES, sizes.width_ratio)


def said_blocks(head: str, said: tuple[str, ...], width_in: float, sizes: TextSizes) -> list[Block]:
    """A heading and sentences, in as many blocks as keep each under a tabloid sheet's height; none without any."""
    blocks: list[Block] = []
    lines: list[tuple[str, float, bool]] = []
    for sentence in said:
        longer = [*(lines or [(head, sizes.figure_in, True)]), (sentence, sizes.label_in, False)]
        block = paragraphs(longer, width_in, Layer.NOTES, sizes.width_ratio)
        if len(longer) > 2 and block.height_in > TALLEST_IN:
            blocks.append(paragraphs(lines, width_in, Layer.NOTES, sizes.width_ratio))
            longer = [(head + ", continued", sizes.figure_in, True), (sentence, sizes.label_in, False)]
        lines = longer
    return [*blocks, paragraphs(lines, width_in, Layer.NOTES, sizes.width_ratio)] if lines else []


def stamp_block(width_in: float, height_in: float, sizes: TextSizes) -> Block:
    """The empty place for the engineer's stamp."""
    frame = ((0.0, 0.0), (width_in, 0.0), (width_in, -height_in), (0.0, -height_in))
    words = Text(
        at=(PAD_IN, -height_in + PAD_IN), text="Stamp and signature", height_in=sizes.label_in, layer=Layer.TITLE
    )
    return Block(
        strokes=(Polyline(points=frame, layer=Layer.TITLE, pen=Pen.MEDIUM, closed=True), words),
        width_in=width_in,
        height_in=height_in,
    )


def north_on_sheet_deg(run: Run, sheet_angle_deg: float) -> float:
    """The direction of north on the sheet, counter-clockwise from its right. [deg]."""
    return math.fmod(run.plan.project.north_deg + sheet_angle_deg, 360.0)
