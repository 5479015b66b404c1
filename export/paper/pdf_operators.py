"""Strokes and text as the operators of a PDF page, in points: a tenth of what a call of the library for each costs.

The library makes the document, its pages and fonts; a page's strokes are handed to it as one text.
Source: ISO 32000-2, sec. 8.4.4 (lines), 8.5 (paths), 8.6.8 (greys), 9.3 and 9.4 (text) (from memory).
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache
from typing import Any, BinaryIO

from reportlab import rl_config
from reportlab.pdfgen.canvas import Canvas

Point = tuple[float, float]
REGULAR, BOLD = "Helvetica", "Helvetica-Bold"
ROUND = 4 / 3 * (math.sqrt(2.0) - 1.0)
"""How far the handles of a quarter circle stand from its ends, over its radius; common practice, no source."""


def new_canvas(file: BinaryIO, **options: Any) -> Canvas:
    """A document without a clock in it, its streams compressed and not armoured in letters."""
    rl_config.useA85 = 0
    return Canvas(file, invariant=1, pageCompression=1, **options)


def add_operators(canvas: Canvas, operators: Iterable[str]) -> None:
    """Lay them on the page that is open."""
    canvas.addLiteral("\n".join(operators))


def font_name(canvas: Canvas, *, bold: bool) -> str:
    """What the document calls one of the two fonts."""
    return str(canvas._doc.getInternalFontName(BOLD if bold else REGULAR))


def line(a: Point, b: Point) -> str:
    """A straight stroke."""
    return f"{a[0]:.3f} {a[1]:.3f} m {b[0]:.3f} {b[1]:.3f} l S"


def path(points: Iterable[Point], *, closed: bool, filled: bool) -> str:
    """Strokes joined end to end, filled first where asked."""
    first, *others = [f"{x:.3f} {y:.3f}" for x, y in points]
    return f"{first} m {''.join(f'{p} l ' for p in others)}{'h ' if closed else ''}{'B' if filled else 'S'}"


def circle(centre: Point, r: float, *, filled: bool) -> str:
    """A full circle in four curves."""
    (x, y), h = centre, r * ROUND
    quarters = (
        (x + r, y + h, x + h, y + r, x, y + r),
        (x - h, y + r, x - r, y + h, x - r, y),
        (x - r, y - h, x - h, y - r, x, y - r),
        (x + h, y - r, x + r, y - h, x + r, y),
    )
    curves = "".join(" ".join(f"{v:.3f}" for v in q) + " c " for q in quarters)
    return f"{x + r:.3f} {y:.3f} m {curves}h {'B' if filled else 'S'}"


def text(words: str, start: Point, font: str, size: float, turned: tuple[float, float] = (1.0, 0.0)) -> str:
    """One line of letters from the left end of its baseline; `turned` is the baseline's direction."""
    c, s = turned
    return (
        f"BT {font} {size:.4f} Tf {c:.6f} {s:.6f} {-s:.6f} {c:.6f} {start[0]:.3f} {start[1]:.3f} Tm "
        f"({_escaped(words)}) Tj ET"
    )


@lru_cache(maxsize=4096)
def _escaped(words: str) -> str:
    """The words in the fonts' encoding, every byte that is not a plain letter as an octal number."""
    return "".join(
        chr(b) if 32 <= b < 127 and b not in b"()\\" else f"\\{b:03o}" for b in words.encode("cp1252", "replace")
    )
