"""One panel over its trusses with every nail in its place, drawn large."""

from __future__ import annotations

from export.deck_plan.words import PATTERN
from export.paper.block import Block
from export.paper.lettering import wrapped
from export.paper.sheet import Align, Circle, Fill, Layer, Line, Pen, Polyline, Primitive, Text
from framing.deck.panel_count import PANEL_FT

EDGE_IN = 0.375
NAIL_IN = 0.022


def nail_pattern(spacing_in: float, truss_ft: float, width_in: float, text_in: float, words: str) -> Block:
    """A 4 x 8 ft panel to scale: nails that far apart on every truss, on both sides of a joint where its ends are.

    Parameters
    ----------
    spacing_in, truss_ft : float
        Nails along a truss, trusses on centre. [in, ft]
    width_in, text_in : float
        Width of the block and height of its letters. [in]
    words : str
        What stands over it.
    """
    per_ft = (width_in - 0.3) / PANEL_FT[0]
    lines = wrapped(words, width_in, text_in, bold=True)
    top = -(0.7 + 1.5 * len(lines)) * text_in
    left, tall = 0.15, PANEL_FT[1] * per_ft
    strokes: list[Primitive] = [
        *(
            Text(at=(0.0, -(1.3 + 1.5 * k) * text_in), text=line, height_in=text_in, layer=Layer.DETAIL, bold=True)
            for k, line in enumerate(lines)
        ),
        Polyline(
            points=(
                (left, top),
                (left + PANEL_FT[0] * per_ft, top),
                (left + PANEL_FT[0] * per_ft, top - tall),
                (left, top - tall),
            ),
            layer=Layer.DETAIL,
            pen=Pen.HEAVY,
            closed=True,
        ),
    ]
    said = f'{spacing_in:g}" {PATTERN}'
    at = (width_in / 2, top - tall - 0.12 - text_in)
    strokes.append(Text(at=at, text=said, height_in=text_in, layer=Layer.DETAIL, align=Align.CENTRE))
    n_trusses = round(PANEL_FT[0] / truss_ft)
    for k in range(n_trusses + 1):
        x_ft = min(k * truss_ft, PANEL_FT[0])
        x = left + (x_ft + {0: EDGE_IN, n_trusses: -EDGE_IN}.get(k, 0.0) / 12.0) * per_ft
        strokes.append(
            Line(start=(x, top + 0.08), end=(x, top - tall - 0.08), layer=Layer.DETAIL, pen=Pen.HAIR, dashed=True)
        )
        strokes += [
            Circle(centre=(x, top - y_ft * per_ft), radius_in=NAIL_IN, layer=Layer.DETAIL, fill=Fill.BLACK)
            for y_ft in _along(spacing_in)
        ]
    return Block(strokes=tuple(strokes), width_in=width_in, height_in=-top + tall + 0.3 + text_in)


def _along(spacing_in: float) -> list[float]:
    """Where the nails of one truss stand across a panel, 3/8 in. in from its edges, no farther apart than that. [ft]"""
    low, high = EDGE_IN, 12.0 * PANEL_FT[1] - EDGE_IN
    n = -(-(high - low) // spacing_in)
    return [(low + (high - low) * k / n) / 12.0 for k in range(int(n) + 1)]
