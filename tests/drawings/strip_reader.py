"""Reads wall-marks.pdf as people and other programs do: words with their boxes, columns, strokes."""

from __future__ import annotations

import dataclasses
import re
import shutil
import subprocess
from fractions import Fraction
from functools import cache
from html import unescape

import pytest

POINTS = 72.0
LEFTS = (0.25 * POINTS, 5.6 * POINTS)  # where strips begin on a page


@dataclasses.dataclass(frozen=True)
class Word:
    """A word that pdftotext found; y runs down, in points."""

    page: int
    x0: float
    y0: float
    x1: float
    y1: float
    text: str


@cache
def words_of(pdf: bytes) -> list[Word]:
    """Every word with its box, by poppler's pdftotext."""
    program = shutil.which("pdftotext")
    if program is None:
        pytest.skip("pdftotext is not here to read the PDF: install poppler-utils")
    command = [program, "-bbox", "-", "-"]
    told = subprocess.run(command, input=pdf, capture_output=True, check=True).stdout.decode()
    found, page = [], 0
    for line in told.splitlines():
        page += "<page " in line
        if at := re.search(r'<word xMin="(.+?)" yMin="(.+?)" xMax="(.+?)" yMax="(.+?)">(.*)</word>', line):
            found.append(Word(page, *(float(at[k]) for k in range(1, 5)), unescape(at[5])))
    return found


def columns_of(pdf: bytes) -> list[dict[str, str]]:
    """Every column of every strip as a person reads it: the words beside each label, under each mark.

    The labels of a strip begin where its word `mark` does; two strips may stand beside each other.
    """
    words = sorted(words_of(pdf), key=lambda w: (w.page, w.y0, w.x0))
    columns: list[dict[str, str]] = []
    tops = [w for w in words if w.text == "mark" and any(abs(w.x0 - left) < 2 for left in LEFTS)]
    for top in tops:
        right = min(
            (w.x0 for w in tops if w.page == top.page and w.x0 > top.x0 + 9 and abs(w.y0 - top.y0) < 90), default=800
        )
        below = [w for w in words if w.page == top.page and w.y0 > top.y0 - 8 and top.x0 - 2 < w.x0 < right - 2]
        foot = next(w for w in below if w.text == "set" and abs(w.x0 - top.x0) < 2)
        strip = [w for w in below if w.y0 < foot.y0 + 6]
        labels = [w for w in strip if abs(w.x0 - top.x0) < 2]
        cells = [w for w in strip if w.x0 > top.x0 + 0.7 * POINTS]
        heads = [w for w in cells if re.fullmatch(r"[WS]\d+-\d+", w.text) and abs(w.y1 - top.y1) < 6]
        marks = [{"mark": h.text} for h in heads]
        for word in cells:
            label = max((w for w in labels if w.y1 < word.y1 + 3), key=lambda w: w.y1)
            middle = (word.x0 + word.x1) / 2
            near = min(range(len(heads)), key=lambda k: abs((heads[k].x0 + heads[k].x1) / 2 - middle))
            row = f"{label.text} {labels.index(label)}"
            marks[near][row] = f"{marks[near].get(row, '')} {word.text}".strip()
        columns += marks
    return columns


def row(column: dict[str, str], label: str) -> str:
    """The words of a column beside the label that begins so; the second `in` is that of the far end."""
    name, _, nth = label.partition("#")
    hits = [column[key] for key in column if key.split()[0] == name]
    return hits[int(nth or 0)] if hits else ""


def in_inches(text: str) -> Fraction:
    """A printed length, read by hand: `-1'-2 3/4"` or `14 3/4"`, in inches."""
    at = re.fullmatch(r"""(-?)(?:(\d+)'-)?(\d+)(?: (\d+)/(\d+))?\"""", text)
    assert at is not None, text
    size = Fraction(int(at[2] or 0) * 12 + int(at[3])) + Fraction(int(at[4] or 0), int(at[5] or 1))
    assert int(at[5] or 1) in (1, 2, 4, 8, 16)
    return -size if at[1] else size
