"""Text of a table that a person saved -> its header and rows, each cell read or refused with its row and column."""

from __future__ import annotations

import csv
import difflib
import io
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from framing.errors import StraplineError
from framing.units import shown

DELIMITERS = (",", "\t", ";")
LONGEST_CELL = 120
SAVED_RIGHT = "save the table as text with commas, tabs or semicolons"
_QUOTES = {"unexpected end of data": "a double quote opens a text there and none closes it"}
_TEXT_FORMULA = re.compile(r'="(.*)"')
_NUMBER = re.compile(r"-?(\d{1,12}(\.\d{0,12})?|\.\d{1,12})", re.ASCII)
_WHOLE = re.compile(r"-?\d{1,12}", re.ASCII)
_BLANKS = str.maketrans({"\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2212": "-"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The header as typed and the rows that hold anything, each as wide as the header; `error` is the kind to raise."""

    name: str
    error: type[StraplineError]
    delimiter: str
    header_row: int
    header: tuple[str, ...]
    lines: tuple[tuple[int, tuple[str, ...]], ...]

    def wrong(self, row: int, what: str, column: str = "") -> StraplineError:
        """The error for a row, or for one of its cells."""
        return self.error(f"{self.name} row {row}{column and f', {column}'}: {what}")

    def rows(self, known: tuple[str, ...], needed: tuple[str, ...], right: str) -> Iterator[Row]:
        """The rows by columns of known names; raises where one is not known, there twice, or needed and not there."""
        header = tuple(column.lower() for column in self.header)
        for column in header:
            if column not in known:
                what = f"unknown column {shown(column)}; the nearest known is {nearest(column, known)}"
                raise self.wrong(self.header_row, what)
            if header.count(column) > 1:
                raise self.wrong(self.header_row, f"the column {column} is there twice; write each column once")
        for column in needed:
            if column not in header:
                raise self.wrong(self.header_row, f"the column {column} is missing; write {right}")
        for number, line in self.lines:
            yield Row(table=self, number=number, cells=dict(zip(header, line, strict=True)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row's cells by column, each read or refused with its place."""

    table: Table
    number: int
    cells: Mapping[str, str]

    def wrong(self, column: str, what: str) -> StraplineError:
        """The error for a cell."""
        return self.table.wrong(self.number, what, column)

    def text(self, column: str, longest: int = LONGEST_CELL) -> str:
        """A cell of text in one line; '' where the column is not there."""
        cell = self.cells.get(column, "")
        if len(cell) > longest or not cell.isprintable():
            raise self.wrong(column, f"{shown(cell)} is not one short line; write at most {longest} characters")
        return cell

    def one_of(self, column: str, words: Iterable[str]) -> str:
        """A cell with one of a few words; '' where it is empty."""
        cell = self.text(column).lower()
        if cell and cell not in words:
            right = " or ".join(f'"{word}"' for word in words)
            raise self.wrong(column, f"{shown(cell)} is not known; write {right}, or leave the cell empty")
        return cell

    def number_or_none(
        self, column: str, low: float, high: float, unit: str = "", *, whole: bool = False
    ) -> float | None:
        """A cell with a number within its bounds; None where it is empty."""
        cell = self.text(column)
        if not cell:
            return None
        right = f"write {low:.12g} to {high:.12g} {unit}".rstrip()
        if not (_WHOLE if whole else _NUMBER).fullmatch(cell):
            raise self.wrong(column, f"{shown(cell)} is not a {'whole ' * whole}number; {right}")
        if not low <= float(cell) <= high:
            raise self.wrong(column, f"{shown(cell)} is out of range; {right}")
        return float(cell)

    def needed(self, column: str, low: float, high: float, unit: str = "", *, whole: bool = False) -> float:
        """The same where empty is an error."""
        number = self.number_or_none(column, low, high, unit, whole=whole)
        if number is None:
            raise self.wrong(column, f"the cell is empty; write {low:.12g} to {high:.12g} {unit}".rstrip())
        return number


def read_table(
    text: str, name: str, error: type[StraplineError], *, most_rows: int, comment: str = "", joined: bool = False
) -> Table:
    """The cells of a table whose columns are parted by commas, tabs or semicolons, header first.

    Parameters
    ----------
    text, name : str
        The file's text without byte-order mark, and its name.
    error : type
        The kind of error to raise.
    most_rows : int
        How many lines there may be.
    comment : str
        What a line begins with that is passed over; '' for none.
    joined : bool
        Whether the lines inside a cell are read as one.

    Returns
    -------
    Table
        A header without cells where the file is empty.

    Raises
    ------
    StraplineError
        Of the given kind, if it is no table, has too many rows, or a row is wider or narrower than the header.
    """
    head, _, rest = text.partition("\n")
    first = 1
    if head.strip().lower() in {f"sep={d}" for d in DELIMITERS}:  # a line that some spreadsheets write on top
        text, head, first = rest, rest.partition("\n")[0], 2
    delimiter = max(DELIMITERS, key=head.count)
    lines = list(_lines(text, name, error, delimiter, first))
    header = tuple(clean_cell(cell) for cell in lines[0]) if lines else ()
    while header and not header[-1]:
        header = header[:-1]
    if header and len(lines) > most_rows:
        raise error(f"{name}: {len(lines)} rows are too many; write at most {most_rows}")
    table = Table(name=name, error=error, delimiter=delimiter, header_row=first, header=header, lines=())
    rows = []
    for number, line in enumerate(lines[1:], first + 1):
        cells = tuple(clean_cell(" ".join(cell.splitlines()) if joined else cell) for cell in line)
        if not any(cells) or (comment and line[0].startswith(comment)):
            continue
        if header and (any(cells[len(header) :]) or len(cells) < len(header)):
            cells_words = f"{len(cells)} cell{'s' * (len(cells) != 1)}"
            right = "write one cell for each column, and text with separators in double quotes"
            raise table.wrong(number, f"it has {cells_words} and the header {len(header)}; {right}")
        rows.append((number, cells[: len(header)]))
    return Table(name=name, error=error, delimiter=delimiter, header_row=first, header=header, lines=tuple(rows))


def _lines(text: str, name: str, error: type[StraplineError], delimiter: str, first: int) -> Iterator[list[str]]:
    """The lines as cells; what cannot be read is answered with the row in which it begins."""
    number = first
    try:
        for line in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True):
            yield line
            number += 1
    except csv.Error as problem:
        why = _QUOTES.get(str(problem), str(problem))
        raise error(f"{name} row {number}: this is no table ({why}); {SAVED_RIGHT}") from None


def clean_cell(cell: str) -> str:
    """A cell without what a spreadsheet puts round a text so that it stays one."""
    plain = cell.translate(_BLANKS).strip()
    found = _TEXT_FORMULA.fullmatch(plain)
    return (found[1] if found else plain.removeprefix("'")).strip()


def nearest(typed: str, known: Iterable[str]) -> str:
    """The known word that is spelled most like a typed one; 'none' where none is known."""
    return max(
        known, key=lambda word: difflib.SequenceMatcher(None, typed.lower(), word.lower()).ratio(), default="none"
    )
