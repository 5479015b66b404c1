"""Straps as set -> each wall's strip redrawn: the planned places above the line, what stands there below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from export.asbuilt.plan import state_sign
from export.asbuilt.words import Findings
from export.paper.block import Block
from export.paper.lettering import cap_in, wrapped
from export.paper.sheet import Align, Layer, Pen, Primitive
from export.paper.table import chunks
from export.wall_marks.pen import SMALL_PT, stroke, write
from export.wall_marks.wall_drawing import WIDTH_IN, fan_out
from framing.asbuilt.judge import AsBuilt
from framing.units import feet_inches, inches

COLUMN_IN, LABELS_IN = 0.7, 0.75
MOST = int((WIDTH_IN - LABELS_IN) / COLUMN_IN)
LINE_IN = 0.58
FIRST_ROW_IN = 1.08
ROWS = ("mark", "planned", "as set", "off", "state")


def as_built_strips(found: Findings) -> Iterator[Block]:
    """A strip or several for every wall that has straps, from START on."""
    for wall in dict.fromkeys(s.mark.bearing.wall for s in found.straps):
        own = sorted((s for s in found.straps if s.mark.bearing.wall == wall), key=lambda s: s.strap.tape_ft)
        parts = chunks(own, MOST)
        for k, part in enumerate(parts):
            yield _strip(wall, part, k + 1, len(parts))


def _set_ft(s: AsBuilt) -> float | None:
    return None if s.along_in is None else s.strap.tape_ft + s.along_in / 12.0


def _strip(wall: str, straps: Sequence[AsBuilt], number: int, n_strips: int) -> Block:
    planned = [s.strap.tape_ft for s in straps]
    stands = [s.strap.tape_ft if _set_ft(s) is None else _set_ft(s) or 0.0 for s in straps]
    low, high = min(planned + stands), max(planned + stands)
    left, right = LABELS_IN + COLUMN_IN / 2, WIDTH_IN - COLUMN_IN / 2
    right = min(right, left + COLUMN_IN * 1.6 * max(1, len(straps) - 1))
    per_ft = (right - left) / max(high - low, 1.0)

    def x(ft: float) -> float:
        return left + (ft - low) * per_ft

    place = f"strip {number} of {n_strips}, " if n_strips > 1 else ""
    bad = sum(not s.as_planned for s in straps)
    words = f"{place}as built: {len(straps) - bad} as planned, {bad} not. START is to the left."
    name = write(wall, 0.0, 0.2, 16.0, bold=True)
    strokes: list[Primitive] = [name, write(words, name.width_in + 0.15, 0.2, 9.0)]
    strokes.append(stroke((x(low) - 0.2, LINE_IN), (x(high) + 0.2, LINE_IN), Layer.WALL, Pen.MEDIUM))
    strokes += [write("planned", 0.0, LINE_IN - 0.08, SMALL_PT), write("as set", 0.0, LINE_IN + 0.17, SMALL_PT)]
    order = sorted(range(len(straps)), key=lambda k: stands[k])
    columns = fan_out([x(stands[k]) for k in order], COLUMN_IN, LABELS_IN + COLUMN_IN / 2, WIDTH_IN - COLUMN_IN / 2)
    deepest = FIRST_ROW_IN
    for k, column in zip(order, columns, strict=True):
        strokes.append(stroke((x(planned[k]), LINE_IN - 0.16), (x(planned[k]), LINE_IN), Layer.DIMENSIONS, Pen.MEDIUM))
        sign_at = (x(stands[k]), -(LINE_IN + 0.12))
        strokes.append(stroke((x(stands[k]), LINE_IN + 0.2), (column, FIRST_ROW_IN - 0.16), Layer.DIMENSIONS))
        strokes += state_sign(straps[k].state, sign_at)
        drawn, deep = _column(straps[k], column)
        strokes += drawn
        deepest = max(deepest, deep)
    strokes += [write(label, 0.0, FIRST_ROW_IN + 0.15 * k, SMALL_PT) for k, label in enumerate(ROWS)]
    return Block(strokes=tuple(strokes), width_in=WIDTH_IN, height_in=deepest + 0.12)


def _signed(off_in: float) -> str:
    """Inches with their sign; 0 has none."""
    size = inches(abs(off_in) / 12.0).removeprefix("0 ")
    return size if size == '0"' else f"{'+' if off_in > 0 else '-'}{size}"


def _column(s: AsBuilt, at: float) -> tuple[list[Primitive], float]:
    """The words under one strap, heavy where it is not as planned; what was not measured has a dash."""
    set_ft = _set_ft(s)
    number = f"/{s.number}" if len(s.mark.straps) > 1 else ""
    off = "-" if s.along_in is None else _signed(s.along_in)
    cells = [s.mark.mark + number, feet_inches(s.strap.tape_ft), "-" if set_ft is None else feet_inches(set_ft), off]
    cells += wrapped(s.state.value, COLUMN_IN - 0.06, cap_in(SMALL_PT), bold=not s.as_planned)
    strokes: list[Primitive] = [
        write(
            words,
            at,
            FIRST_ROW_IN + 0.15 * k,
            9.0 if k == 0 else SMALL_PT,
            bold=k == 0 or not s.as_planned,
            align=Align.CENTRE,
            within_in=COLUMN_IN - 0.05,
        )
        for k, words in enumerate(cells)
    ]
    return strokes, FIRST_ROW_IN + 0.15 * (len(cells) - 1)
