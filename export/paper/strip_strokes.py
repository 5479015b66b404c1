"""What a strip is made of: lines, filled or open shapes, and text, in paper inches; nothing else."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from reportlab.pdfbase.pdfmetrics import stringWidth

POINTS_PER_IN = 72.0
CAP_HEIGHT_RATIO = 0.718  # Helvetica: height of a capital over the type size (the font's own metrics)
DESCENT_RATIO = 0.207
REGULAR, BOLD = "Helvetica", "Helvetica-Bold"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight stroke."""

    start_in: tuple[float, float]
    end_in: tuple[float, float]
    width_pt: float
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """A closed outline, black inside when filled, else nothing inside."""

    corners_in: tuple[tuple[float, float], ...]
    width_pt: float
    filled: bool = False
    dashed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """One line of text that begins at `x_in` on the base line `y_in`."""

    x_in: float
    y_in: float
    text: str
    size_pt: float
    bold: bool = False

    @property
    def width_in(self) -> float:
        """Width as printed, in inches."""
        return text_width_in(self.text, self.size_pt, bold=self.bold)

    @property
    def box_in(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the letters, y down, in inches."""
        em_in = self.size_pt / POINTS_PER_IN
        return (
            self.x_in,
            self.y_in - CAP_HEIGHT_RATIO * em_in,
            self.x_in + self.width_in,
            self.y_in + DESCENT_RATIO * em_in,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """Strokes and texts, x to the right and y down from the top left corner."""

    lines: tuple[Line, ...] = ()
    shapes: tuple[Shape, ...] = ()
    texts: tuple[Text, ...] = ()

    def __add__(self, other: Drawing) -> Drawing:
        """Both drawings on one sheet."""
        return Drawing(
            lines=self.lines + other.lines, shapes=self.shapes + other.shapes, texts=self.texts + other.texts
        )


@lru_cache(maxsize=4096)
def text_width_in(text: str, size_pt: float, *, bold: bool = False) -> float:
    """Width of a line of text as printed, in inches."""
    return float(stringWidth(text, BOLD if bold else REGULAR, size_pt)) / POINTS_PER_IN


def printable(text: str) -> str:
    """The text with what the printed font has no letter for, line ends too, as `?`.

    The PDF uses the fonts that every reader brings, so only Western European letters print.
    """
    one_line = text if text.isprintable() else "".join(c if c.isprintable() else " " for c in text)
    return one_line.encode("cp1252", "replace").decode("cp1252")


def wrapped(text: str, size_pt: float, width_in: float, *, bold: bool = False) -> list[str]:
    """The text in lines no wider than `width_in`, broken at blanks, and inside a word only where it must be."""
    words = printable(text).split()
    whole = " ".join(words)
    if text_width_in(whole, size_pt, bold=bold) <= width_in:
        return [whole]
    lines = [""]
    for word in words:
        trial = f"{lines[-1]} {word}".strip()
        if text_width_in(trial, size_pt, bold=bold) <= width_in:
            lines[-1] = trial
            continue
        if lines[-1]:
            lines.append("")
        for letter in word:
            if lines[-1] and text_width_in(lines[-1] + letter, size_pt, bold=bold) > width_in:
                lines.append("")
            lines[-1] += letter
    return lines


def fitted(text: str, size_pt: float, width_in: float, *, bold: bool = False) -> str:
    """The text on one line, its end replaced by `...` where it is wider than `width_in`."""
    line = printable(text)
    if text_width_in(line, size_pt, bold=bold) <= width_in:
        return line
    while line and text_width_in(line + "...", size_pt, bold=bold) > width_in:
        line = line[:-1]
    return line.rstrip() + "..."
