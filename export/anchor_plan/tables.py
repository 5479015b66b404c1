"""The two tables beside the plan: what the shapes mean, and how many of each stand on each wall."""

from __future__ import annotations

from export.anchor_plan.blocks import Block, paragraphs, placed
from export.anchor_plan.rows import UNRESOLVED, TextSizes
from export.anchor_plan.symbols import shape_strokes, shapes_of
from export.paper.sheet import Align, Layer, Line, Primitive, Shape, Text, clipped
from export.wall_marks.tape_marks import SAMPLE_WORDS, Tape, n_straps_by_type, wall_tapes
from framing.run import Run


def legend_block(run: Run, width_in: float, sizes: TextSizes) -> Block:
    """Shape, word, name and number of every anchor type used."""
    pitch = sizes.label_in * 2.1
    marks = run.schedule.marks
    names = {a.id: a.name for a in sorted(run.schedule.catalogue.anchors, key=lambda a: (-a.count, -a.order))}
    counts = dict(n_straps_by_type(marks))
    entries = [(shape, f"{i}: {names[i]}", str(counts[i])) for i, shape in shapes_of(run).items()]
    if n := len(run.schedule.unresolved):
        entries.append((Shape.UNRESOLVED, f"{UNRESOLVED}: no anchor holds; ask the engineer", str(n)))
    head = f"Anchors, {sum(counts.values())} in all"
    block = paragraphs([(head, sizes.figure_in, True)], width_in, Layer.LEGEND)
    strokes, y = list(block.strokes), -block.height_in
    if run.schedule.catalogue.invented:
        said = paragraphs([(SAMPLE_WORDS, sizes.label_in, True)], width_in, Layer.LEGEND, sizes.width_ratio)
        strokes += placed(said, (0.0, y))
        y -= said.height_in
    for shape, words, count in entries:
        y -= pitch
        strokes += shape_strokes(shape, (0.12, y + sizes.label_in / 2), 0.0, Layer.LEGEND)
        room = (width_in - 0.8) / sizes.width_ratio
        strokes.append(
            Text(
                at=(0.3, y),
                text=clipped(words, room, sizes.label_in),
                height_in=sizes.label_in,
                layer=Layer.LEGEND,
                width_ratio=sizes.width_ratio,
            )
        )
        strokes.append(
            Text(
                at=(width_in, y),
                text=count,
                height_in=sizes.label_in,
                layer=Layer.LEGEND,
                align=Align.RIGHT,
                bold=True,
            )
        )
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + 0.15)


def schedule_block(run: Run, width_in: float, sizes: TextSizes) -> Block:
    """How many of each anchor on each wall, and in all."""
    shapes = shapes_of(run)
    tapes = [t for t in wall_tapes(run) if t.ticks]
    unresolved = [UNRESOLVED] if run.schedule.unresolved else []
    columns = [*shapes, *unresolved]
    rows = [(t.name, _counts(t, columns)) for t in tapes]
    total = ("all", [sum(c[i] for _, c in rows) for i in range(len(columns))])
    head = paragraphs([("Straps by wall", sizes.figure_in, True)], width_in, Layer.SCHEDULE)
    first, pitch = 0.45, sizes.label_in * 2.2
    step = (width_in - first - 0.5) / max(1, len(columns))
    strokes, y = list(head.strokes), -head.height_in - 0.2
    strokes += [
        s
        for i, c in enumerate(columns)
        for s in shape_strokes(
            shapes.get(c, Shape.UNRESOLVED), (first + (i + 0.5) * step, y + 0.08), 0.0, Layer.SCHEDULE
        )
    ]
    y -= pitch
    ids = [
        clipped(c if c != UNRESOLVED else "none", (step - 0.05) / sizes.width_ratio, sizes.label_in) for c in columns
    ]
    strokes += _table_row(("wall", ids, "straps"), y, (first, step, width_in), sizes, bold=False)
    for name, counts in (*rows, total):
        if name == "all" or name == rows[0][0]:
            rule = y - 0.7 * sizes.label_in
            strokes.append(Line(start=(0, rule), end=(width_in, rule), layer=Layer.SCHEDULE))
        y -= pitch
        n = sum(counts[: len(shapes)])
        cells = [str(c) if c else "-" for c in counts]
        strokes += _table_row((name, cells, str(n)), y, (first, step, width_in), sizes, bold=name == "all")
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + 0.18)


def _counts(tape: Tape, columns: list[str]) -> list[int]:
    straps = dict(n_straps_by_type(tape.marks))
    straps[UNRESOLVED] = sum(1 for m in tape.marks if not m.resolved)
    return [straps.get(c, 0) for c in columns]


def _table_row(
    row: tuple[str, list[str], str], y: float, x: tuple[float, float, float], sizes: TextSizes, *, bold: bool
) -> list[Primitive]:
    name, cells, end = row
    first, step, width_in = x
    spots = [(0.0, name, Align.LEFT), (width_in, end, Align.RIGHT)]
    spots += [(first + (i + 0.5) * step, c, Align.CENTRE) for i, c in enumerate(cells)]
    return [
        Text(
            at=(x, y),
            text=text,
            height_in=sizes.label_in,
            layer=Layer.SCHEDULE,
            align=align,
            bold=bold,
            width_ratio=sizes.width_ratio,
        )
        for x, text, align in spots
    ]
