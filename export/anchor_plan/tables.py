"""The two tables beside the plan: what the signs mean, and how many of each stand on each wall."""

from __future__ import annotations

from export.anchor_plan.rows import UNRESOLVED, TextSizes
from export.paper.block import LEADING, Block, paragraphs, placed
from export.paper.lettering import wrapped
from export.paper.sheet import Align, Layer, Line, Primitive, Sign, Text
from export.paper.symbols import UNRESOLVED as UNRESOLVED_SIGN
from export.paper.symbols import sign_strokes, used_signs
from export.wall_marks.tape_marks import SAMPLE_WORDS, Tape, n_straps_by_type, wall_tapes
from framing.run import Run

SIGN_ROOM_IN = 0.3
COUNT_ROOM_IN = 0.5
WALL_ROOM_IN = 0.45
MOST_HEAD_LINES = 4


def legend_block(run: Run, width_in: float, sizes: TextSizes) -> Block:
    """Sign, id, name and number of every anchor type used."""
    marks = run.schedule.marks
    names = {a.id: a.name for a in sorted(run.schedule.catalogue.anchors, key=lambda a: (-a.count, -a.order))}
    counts = dict(n_straps_by_type(marks))
    entries = [(sign, f"{i}: {names[i]}", str(counts[i])) for i, sign in used_signs(run).items()]
    if n := len(run.schedule.unresolved):
        entries.append((UNRESOLVED_SIGN, f"{UNRESOLVED}: no anchor holds; ask the engineer", str(n)))
    head = f"Anchors, {sum(counts.values())} in all"
    block = paragraphs([(head, sizes.figure_in, True)], width_in, Layer.LEGEND)
    strokes, y = list(block.strokes), -block.height_in
    if run.schedule.catalogue.invented:
        said = paragraphs([(SAMPLE_WORDS, sizes.label_in, True)], width_in, Layer.LEGEND, sizes.width_ratio)
        strokes += placed(said, (0.0, y))
        y -= said.height_in
    for entry in entries:
        row, height = _legend_row(entry, y, width_in, sizes)
        strokes += row
        y -= height
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + 0.15)


def _legend_row(
    entry: tuple[Sign, str, str], top: float, width_in: float, sizes: TextSizes
) -> tuple[list[Primitive], float]:
    """One sign with its words, on as many lines as they need, and its count; and how high that is. [in]."""
    sign, words, count = entry
    pitch, lead = sizes.label_in * 2.1, sizes.label_in * LEADING
    first = top - pitch
    room = (width_in - SIGN_ROOM_IN - COUNT_ROOM_IN) / sizes.width_ratio
    lines = wrapped(words, room, sizes.label_in)
    strokes = list(sign_strokes(sign, (0.12, first + sizes.label_in / 2), 0.0, Layer.LEGEND))
    strokes += [_text(line, (SIGN_ROOM_IN, first - k * lead), Layer.LEGEND, sizes) for k, line in enumerate(lines)]
    strokes.append(
        Text(
            at=(width_in, first),
            text=count,
            height_in=sizes.label_in,
            layer=Layer.LEGEND,
            align=Align.RIGHT,
            bold=True,
        )
    )
    return strokes, pitch + (len(lines) - 1) * lead


def schedule_block(run: Run, width_in: float, sizes: TextSizes) -> Block:
    """How many of each anchor on each wall, and in all."""
    signs = used_signs(run)
    columns = [*signs, *([UNRESOLVED] if run.schedule.unresolved else [])]
    rows = [(t.name, _counts(t, columns)) for t in wall_tapes(run) if t.ticks]
    total = ("all", [sum(c[i] for _, c in rows) for i in range(len(columns))])
    head = paragraphs([("Straps by wall", sizes.figure_in, True)], width_in, Layer.SCHEDULE)
    pitch, lead = sizes.label_in * 2.2, sizes.label_in * LEADING
    step = (width_in - WALL_ROOM_IN - COUNT_ROOM_IN) / max(1, len(columns))
    x = (WALL_ROOM_IN, step, width_in)
    strokes, y = list(head.strokes), -head.height_in - 0.2
    for i, c in enumerate(columns):
        at = (WALL_ROOM_IN + (i + 0.5) * step, y + 0.08)
        strokes += sign_strokes(signs.get(c, UNRESOLVED_SIGN), at, 0.0, Layer.SCHEDULE)
    y -= pitch
    ids = [_id_lines(c if c != UNRESOLVED else "none", step - 0.05, sizes) for c in columns]
    for k in range(n_lines := max(map(len, ids), default=1)):
        cells = [lines[k] if k < len(lines) else "" for lines in ids]
        words = ("wall", cells, "straps") if k == n_lines - 1 else ("", cells, "")
        strokes += _table_row(words, y - k * lead, x, sizes, bold=False)
    y -= (n_lines - 1) * lead
    for name, counts in (*rows, total):
        if name == "all" or name == rows[0][0]:
            rule = y - 0.7 * sizes.label_in
            strokes.append(Line(start=(0, rule), end=(width_in, rule), layer=Layer.SCHEDULE))
        y -= pitch
        n = sum(counts[: len(signs)])
        cells = [str(c) if c else "-" for c in counts]
        strokes += _table_row((name, cells, str(n)), y, x, sizes, bold=name == "all")
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-y + 0.18)


def _id_lines(name: str, width_in: float, sizes: TextSizes) -> tuple[str, ...]:
    """An id over its column; with very many columns only its beginning, since the legend has the whole."""
    lines = wrapped(name, width_in / sizes.width_ratio, sizes.label_in)
    return lines if len(lines) <= MOST_HEAD_LINES else (*lines[: MOST_HEAD_LINES - 1], "...")


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
    return [_text(text, (at, y), Layer.SCHEDULE, sizes, align=align, bold=bold) for at, text, align in spots if text]


def _text(
    text: str, at: tuple[float, float], layer: Layer, sizes: TextSizes, *, align: Align = Align.LEFT, bold: bool = False
) -> Text:
    return Text(
        at=at,
        text=text,
        height_in=sizes.label_in,
        layer=layer,
        align=align,
        bold=bold,
        width_ratio=sizes.width_ratio,
    )
