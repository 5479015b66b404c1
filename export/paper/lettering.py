"""The letters of every sheet: which face shows a text, how wide it is, where its lines break.

One rule for all drawings. The face is the standard Helvetica, which every reader brings, as long as it has all
letters of a line; else a free face that goes into the file (Latin, Greek, Cyrillic and more, written from left to
right). A letter that neither has stands as its number, `<U+4E2D>`, so that nothing comes out wrong unseen.
"""

from __future__ import annotations

import unicodedata
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any

from reportlab.pdfbase.pdfmetrics import registerFont, stringWidth

CAP_HEIGHT_EM = 0.718
DESCENT_EM = 0.207
WIDE_CAP_HEIGHT_EM = 0.729
"""Height of a capital over the type size, and how far a letter reaches below its line: the fonts' own metrics."""
POINTS_PER_IN = 72.0
WIDE, WIDE_BOLD = "DejaVuSans", "DejaVuSans-Bold"
BREAKS_AFTER = "-/_"


def face_of(text: str, *, bold: bool = False) -> str:
    """The name of the face that shows a printable text, ready to be written with."""
    if _has(text):
        return "Helvetica-Bold" if bold else "Helvetica"
    name = WIDE_BOLD if bold else WIDE
    _free_face(name)
    return name


def type_size_in(text: str, height_in: float) -> float:
    """The type size at which the capitals of a text's face are that high. [in]."""
    return height_in / (CAP_HEIGHT_EM if _has(text) else WIDE_CAP_HEIGHT_EM)


def free_face_file(*, bold: bool) -> str:
    """The file of the free face; it comes with the plotting library, which is found and not loaded."""
    spec = find_spec("matplotlib")
    if spec is None or spec.origin is None:
        raise ModuleNotFoundError("matplotlib, which brings the face for letters outside Western Europe")
    return str(Path(spec.origin).parent / "mpl-data" / "fonts" / "ttf" / f"{WIDE_BOLD if bold else WIDE}.ttf")


def cap_in(size_pt: float) -> float:
    """The height of the capitals of a type size in points. [in]."""
    return size_pt * CAP_HEIGHT_EM / POINTS_PER_IN


@lru_cache(maxsize=8192)
def text_width_in(text: str, height_in: float, *, bold: bool = False) -> float:
    """How wide a text of that height of capitals is. [in]."""
    return float(stringWidth(text, face_of(text, bold=bold), type_size_in(text, height_in)))


@lru_cache(maxsize=4096)
def printable(text: str) -> str:
    """The text in one line of letters that a face has, each other letter as its number.

    Letters that are set from right to left or on top of others are numbers too: they need more than a face.
    """
    return "".join(_shown(c) for c in unicodedata.normalize("NFC", text))


def narrowing(text: str, width_in: float, height_in: float, *, bold: bool = False, at_most: float = 1.0) -> float:
    """How narrow the letters must be for the text to fit on one line, `at_most` where it does anyway."""
    wide = text_width_in(text, height_in, bold=bold)
    return min(at_most, width_in / wide) if wide > 0.0 else at_most


def wrapped(text: str, width_in: float, height_in: float, *, bold: bool = False) -> tuple[str, ...]:
    """The text in lines no wider than that, broken between words, in a longer word after a hyphen, else anywhere."""
    words = printable(text).split()
    lines = [""]
    for word in words:
        trial = f"{lines[-1]} {word}".strip()
        if text_width_in(trial, height_in, bold=bold) <= width_in:
            lines[-1] = trial
            continue
        if lines[-1]:
            lines.append("")
        for part in _parts(word, width_in, height_in, bold=bold):
            if lines[-1] and text_width_in(lines[-1] + part, height_in, bold=bold) > width_in:
                lines.append("")
            lines[-1] += part
    return tuple(lines) if words else ()


def _parts(word: str, width_in: float, height_in: float, *, bold: bool) -> list[str]:
    """A word in what may stand on lines of its own; a piece still too wide letter by letter."""
    pieces = [""]
    for letter in word:
        pieces[-1] += letter
        if letter in BREAKS_AFTER:
            pieces.append("")
    parts: list[str] = []
    for piece in filter(None, pieces):
        parts += [piece] if text_width_in(piece, height_in, bold=bold) <= width_in else list(piece)
    return parts


def _shown(letter: str) -> str:
    if letter.isspace() or not letter.isprintable():
        return " "
    if _has(letter):
        return letter
    plain = unicodedata.bidirectional(letter) not in ("R", "AL") and unicodedata.category(letter)[0] != "M"
    if plain and ord(letter) in _free_face(WIDE).face.charToGlyph:
        return letter
    return f"<U+{ord(letter):04X}>"


def _has(text: str) -> bool:
    """Whether the standard face has all its letters."""
    try:
        text.encode("cp1252")
    except UnicodeEncodeError:
        return False
    return True


@lru_cache(maxsize=2)
def _free_face(name: str) -> Any:
    """The free face, loaded where a letter asks for it."""
    from reportlab.pdfbase.ttfonts import TTFont

    font = TTFont(name, free_face_file(bold=name == WIDE_BOLD))
    registerFont(font)
    return font
