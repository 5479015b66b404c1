"""What stands beside the views: title, caution, scale and north, the key to the lines with counts, notes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from export.anchor_plan.blocks import (
    caution_block,
    north_on_sheet_deg,
    said_blocks,
    scale_block,
)
from export.anchor_plan.rows import TextSizes
from export.paper.block import Block, paragraphs, placed
from export.paper.lettering import printable
from export.paper.sheet import Layer, Primitive, Scale, Text
from export.picture.pens import (
    MEMBERS,
    PORCH,
    PORCH_BEAM,
    ROOF_LINES,
    SEAM,
    SUPPORT,
    WALL,
    WALL_UNDER_ROOF,
    WING,
    Style,
    stroked,
)
from export.picture.views import TITLES
from framing.run import Run

SIZES = TextSizes(label_in=0.12, figure_in=0.16, start_in=0.24, width_ratio=1.0, names_in_rows=False)
SAMPLE_IN = 0.8
PITCH_IN = 0.24
Entry = tuple[Style, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """What the views have to tell the column: how many seams there are, and what found no room for its name."""

    n_seams: int
    unnamed: tuple[str, ...]


def column(run: Run, scale: Scale, angle_deg: float, said: Said, width_in: float) -> Block:
    """Everything beside the views, one below another."""
    notes = tuple(dict.fromkeys((*run.flags, *run.notes)))
    blocks = [
        _title(run, width_in),
        caution_block(width_in, SIZES),
        scale_block(scale, north_on_sheet_deg(run, angle_deg), width_in, SIZES),
        *(_key(title, entries, width_in) for title, entries in zip(TITLES, _entries(run, said.n_seams), strict=True)),
        *said_blocks("Without room for a name", said.unnamed, width_in, SIZES),
        *said_blocks("Notes", notes, width_in, SIZES),
    ]
    strokes: list[Primitive] = []
    y = 0.0
    for block in blocks:
        strokes += placed(block, (0.0, y))
        y -= block.height_in
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y)


def _title(run: Run, width_in: float) -> Block:
    project = run.plan.project
    date = project.date.isoformat() if project.date else "no date given"
    lines = [
        (project.name, SIZES.start_in, True),
        ("What the program understood", SIZES.figure_in, True),
        (f"Revision {printable(project.revision) or '__'}    {date}", SIZES.label_in, False),
        (f"Fingerprint {run.fingerprint}    strapline {run.version}", SIZES.label_in, False),
    ]
    return paragraphs(lines, width_in, Layer.TITLE)


def _entries(run: Run, n_seams: int) -> tuple[list[Entry], list[Entry], list[Entry]]:
    """The lines of each view that occur in this run, with their number."""
    members = Counter(m.kind for m in run.framing.members)
    roof = {line.kind for line in run.roof.lines}
    n_beams = len(run.framing.porch_beams)
    n_inside = len(run.plan.supports) - n_beams
    walls = [
        (WALL, f"wall, outside face ({len(run.outline.walls)})"),
        (WING, f"wing of the roof ({len(run.roof.wings)})"),
        *([(SEAM, f"where trusses of two cells meet ({n_seams})")] if n_seams else []),
        *(
            (style, f"{kind} ({members[kind]})")
            for kind, style in MEMBERS.items()
            if kind == "girder" and members[kind]
        ),
        *([(SUPPORT, f"support inside ({n_inside})")] if n_inside else []),
        *([(PORCH_BEAM, f"porch beam in place of wall ({n_beams})")] if n_beams else []),
        *([(PORCH, f"open porch ({len(run.framing.porches)})")] if run.framing.porches else []),
    ]
    pieces = [(style, f"{kind} ({members[kind]})") for kind, style in MEMBERS.items() if members[kind]]
    lines = [
        (WALL_UNDER_ROOF, "wall below"),
        *((style, str(kind)) for kind, style in ROOF_LINES.items() if kind in roof),
    ]
    return walls, pieces, lines


def _key(title: str, entries: Iterable[Entry], width_in: float) -> Block:
    """A heading, and a stroke of each kind with its words."""
    head = paragraphs([(title, SIZES.figure_in, True)], width_in, Layer.LEGEND)
    strokes, y = list(head.strokes), -head.height_in
    for style, words in entries:
        y -= PITCH_IN
        middle = y + SIZES.label_in / 2
        strokes += stroked(((0.0, middle), (SAMPLE_IN, middle)), style)
        strokes.append(Text(at=(SAMPLE_IN + 0.12, y), text=words, height_in=SIZES.label_in, layer=Layer.LEGEND))
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + 0.12)
