"""Text of a table -> its header and rows as cells, whatever a spreadsheet parts and quotes them with."""

from __future__ import annotations

import csv
import io
import re
from dataclasses import dataclass

from framing.errors import PackageError

DELIMITERS = {",": "commas", "\t": "tabs", ";": "semicolons"}
MOST_ROWS = 5_000
_TEXT_FORMULA = re.compile(r'="(.*)"')
_BLANKS = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2212": "-"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Cells:
    """The header and the rows that hold anything: line in the file and cells, each as wide as the header."""

    name: str
    delimiter: str
    header: tuple[str, ...]
    rows: tuple[tuple[int, tuple[str, ...]], ...]


def table_cells(text: str, name: str) -> Cells:
    """The cells of a table whose columns are parted by commas, tabs or semicolons, header first.

    Raises
    ------
    PackageError
        If it is no table, is empty, or a row is wider than the header; one sentence with the row.
    """
    lines, delimiter, first = _lines(text, name)
    header = tuple(_clean(cell) for cell in lines[0]) if lines else ()
    if not any(header):
        raise PackageError(
            f"{name} row {first}: the table is empty; write a header and below it a row for each bearing"
        )
    rows = []
    for number, line in enumerate(lines[1:], first + 1):
        cells = tuple(_clean(cell) for cell in line)
        if not any(cells):
            continue
        if any(cells[len(header) :]) or len(cells) < len(header):
            raise PackageError(
                f"{name} row {number}: it has {len(cells)} cells and the header {len(header)}; write one cell for each "
                "column, and text with separators in double quotes"
            )
        rows.append((number, cells[: len(header)]))
    if not rows:
        raise PackageError(
            f"{name} row {first + 1}: there is no reaction below the header; write a row for each bearing"
        )
    if len(rows) > MOST_ROWS:
        raise PackageError(f"{name} row {MOST_ROWS + 2}: these are too many rows; write at most {MOST_ROWS}")
    return Cells(name=name, delimiter=delimiter, header=header, rows=tuple(rows))


def _lines(text: str, name: str) -> tuple[list[list[str]], str, int]:
    """The lines as cells, what parts them, and the number of the header's line."""
    head, _, rest = text.partition("\n")
    first = 1
    if head.strip().lower() in {f"sep={d}" for d in DELIMITERS}:  # a line that some spreadsheets write on top
        text, head, first = rest, rest.partition("\n")[0], 2
    delimiter = max(DELIMITERS, key=head.count)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        return list(reader), delimiter, first
    except csv.Error as problem:
        right = "save the table as text with commas, tabs or semicolons"
        raise PackageError(f"{name} row {reader.line_num}: this is no table ({problem}); {right}") from None


def _clean(cell: str) -> str:
    """A cell without what a spreadsheet puts round a text so that it stays one."""
    plain = cell.translate(_BLANKS).strip()
    found = _TEXT_FORMULA.fullmatch(plain)
    return (found[1] if found else plain.removeprefix("'")).strip()
