"""Catalogue file -> Catalogue: the only reader of anchor catalogues."""

from __future__ import annotations

import csv
import difflib
import io
import re
from collections.abc import Iterator
from importlib.resources import files
from pathlib import Path

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.catalogue_columns import COLUMNS, COMMENT, REQUIRED_COLUMNS
from framing.anchors.house_minimum import check_minimum
from framing.anchors.interaction import Interaction
from framing.errors import CatalogueError
from framing.plan import Plan
from framing.text_file import digest, read_text
from framing.units import shown

SAMPLE_NAME = "sample_anchors.csv"
LONGEST_CELL = 120
MOST_ROWS = 5_000

BOUNDS = {  # column: least, most, unit, whole numbers only
    "count": (1, 2, "", True),
    "plies": (1, 6, "", True),
    "allowable_uplift_lb": (1, 100_000, "lb", False),
    "allowable_parallel_lb": (1, 100_000, "lb", False),
    "allowable_perpendicular_lb": (1, 100_000, "lb", False),
    "embedment_in": (0, 48, "in.", False),
    "length_in": (0, 120, "in.", False),
    "spacing_in": (0, 48, "in.", False),
    "end_in": (0, 48, "in.", False),
    "edge_in": (0, 48, "in.", False),
    "f_c_psi": (1_500, 10_000, "psi", False),
    "minutes": (0, 600, "minutes", False),
    "n_nails": (0, 500, "", True),
    "price": (0, 100_000, "", False),
}
_DECIMAL = re.compile(r"-?\d{1,12}(\.\d{1,12})?", re.ASCII)
_WHOLE = re.compile(r"-?\d{1,12}", re.ASCII)


def read_catalogue(path: Path) -> Catalogue:
    """The anchors in a CSV file, in its order.

    Parameters
    ----------
    path : Path
        UTF-8, with or without byte-order mark; a header in line 1, the columns in any order; all but
        `REQUIRED_COLUMNS` may be left out; lines that begin with `COMMENT` are passed over.

    Returns
    -------
    Catalogue
        `invented` where the note of any row says so.

    Raises
    ------
    CatalogueError
        If the file cannot be read or a cell is wrong: one sentence with the row (the header is row 1) and
        the column.
    """
    return _catalogue(read_text(path, "catalogue", CatalogueError), path.name)


def shipped_catalogue() -> Catalogue:
    """The invented sample that comes with the program."""
    return _catalogue((files("framing.anchors") / SAMPLE_NAME).read_text(encoding="utf-8"), SAMPLE_NAME)


def catalogue_of(plan: Plan, folder: Path) -> Catalogue:
    """The catalogue that a plan names, relative to the plan's folder; the shipped one if it names none.

    Raises
    ------
    CatalogueError
        As `read_catalogue`.
    PlanError
        If the plan's house minimum is not in the catalogue; names the nearest id.
    """
    named = plan.anchors.catalogue
    catalogue = read_catalogue(folder / named) if named else shipped_catalogue()
    check_minimum(plan.anchors.minimum, catalogue)
    return catalogue


def _catalogue(text: str, name: str) -> Catalogue:
    rows = list(_rows(text, name))
    if not rows:
        raise CatalogueError(f"{name}: there is no anchor in it; write a row for each anchor below the header")
    anchors = tuple(_anchor(row, order) for order, row in enumerate(rows))
    seen: dict[tuple[str, int, int], int] = {}
    for row, anchor in zip(rows, anchors, strict=True):
        key = (anchor.id, anchor.count, anchor.plies)
        if key in seen:
            raise row.wrong("id", f"repeats row {seen[key]}; write one row for each id, count and plies")
        seen[key] = row.number
    invented = any("invented" in row.cells.get("note", "").lower() for row in rows)
    return Catalogue(name=name, anchors=anchors, invented=invented, sha256=digest(text))


def _rows(text: str, name: str) -> Iterator[_Row]:
    """The rows below the header that hold anything."""
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=_delimiter(text), strict=True))
    except csv.Error as problem:
        right = "save the table as text with commas, tabs or semicolons"
        raise CatalogueError(f"{name}: this is not CSV ({problem}); {right}") from None
    header = tuple(cell.strip().lower() for cell in lines[0]) if lines else ()
    _check_header(header, name)
    if len(lines) > MOST_ROWS:
        raise CatalogueError(f"{name}: {len(lines)} rows are too many; write at most {MOST_ROWS}")
    for number, line in enumerate(lines[1:], 2):
        cells = [cell.strip() for cell in line]
        if not any(cells) or line[0].startswith(COMMENT):
            continue
        if any(cells[len(header) :]) or len(cells) < len(header):
            raise CatalogueError(
                f"{name} row {number}: it has {len(cells)} cells and the header {len(header)}; "
                "write one cell for each column, and text with separators in double quotes"
            )
        yield _Row(name, number, dict(zip(header, cells, strict=False)))


def _delimiter(text: str) -> str:
    """What parts the columns: comma, tab or semicolon, whichever the header has most of."""
    header = text.partition("\n")[0]
    return max((",", "\t", ";"), key=header.count)


def _check_header(header: tuple[str, ...], name: str) -> None:
    for column in header:
        if column not in COLUMNS:
            nearest = max(COLUMNS, key=lambda known: difflib.SequenceMatcher(None, column, known).ratio())
            raise CatalogueError(f"{name} row 1: unknown column {shown(column)}; the nearest known is {nearest}")
        if header.count(column) > 1:
            raise CatalogueError(f"{name} row 1: the column {column} is there twice; write each column once")
    for column in REQUIRED_COLUMNS:
        if column not in header:
            raise CatalogueError(f"{name} row 1: the column {column} is missing; write {', '.join(REQUIRED_COLUMNS)}")


class _Row:
    """One row's cells by column, each read or refused with its place."""

    def __init__(self, file: str, number: int, cells: dict[str, str]) -> None:
        self.file, self.number, self.cells = file, number, cells

    def wrong(self, column: str, what: str) -> CatalogueError:
        """The error for a cell."""
        return CatalogueError(f"{self.file} row {self.number}, {column}: {what}")

    def text(self, column: str) -> str:
        """A cell of text; '' where the column is not there."""
        cell = self.cells.get(column, "")
        if len(cell) > LONGEST_CELL or not cell.isprintable():
            raise self.wrong(column, f"{shown(cell)} is not one short line; write at most {LONGEST_CELL} characters")
        return cell

    def one_of(self, column: str, words: tuple[str, ...]) -> str:
        """A cell with one of a few words; '' where it is empty."""
        cell = self.text(column)
        if cell and cell not in words:
            right = " or ".join(f'"{word}"' for word in words)
            raise self.wrong(column, f"{shown(cell)} is not known; write {right}, or leave the cell empty")
        return cell

    def needed(self, column: str) -> float:
        """A cell with a number within its column's bounds; empty is an error."""
        number = self.number_or_none(column)
        if number is None:
            raise self.wrong(column, f"the cell is empty; {_right(column)}")
        return number

    def number_or_none(self, column: str) -> float | None:
        """A cell with a number within its column's bounds; None where it is empty."""
        cell = self.text(column)
        low, high, _, whole = BOUNDS[column]
        if not cell:
            return None
        if not (_WHOLE if whole else _DECIMAL).fullmatch(cell):
            raise self.wrong(column, f"{shown(cell)} is not a {'whole ' * whole}number; {_right(column)}")
        if not low <= float(cell) <= high:
            raise self.wrong(column, f"{shown(cell)} is out of range; {_right(column)}")
        return float(cell)


def _right(column: str) -> str:
    low, high, unit, _ = BOUNDS[column]
    return f"write {low} to {high} {unit}".rstrip()


def _anchor(row: _Row, order: int) -> Anchor:
    if not row.text("id"):
        raise row.wrong("id", "the cell is empty; write the anchor's name or number")
    return Anchor(
        id=row.text("id"),
        name=row.text("name") or row.text("id"),
        count=int(row.needed("count")),
        plies=int(row.needed("plies")),
        allowable_uplift_lb=row.needed("allowable_uplift_lb"),
        allowable_parallel_lb=row.number_or_none("allowable_parallel_lb"),
        allowable_perpendicular_lb=row.number_or_none("allowable_perpendicular_lb"),
        embedment_in=row.number_or_none("embedment_in"),
        length_in=row.number_or_none("length_in"),
        fasteners=row.text("fasteners"),
        n_nails=int(row.number_or_none("n_nails") or 0),
        approval=row.text("approval"),
        price=row.number_or_none("price") or 0.0,
        interaction=Interaction(row.one_of("interaction", tuple(Interaction)) or Interaction.SUM),
        spacing_in=row.number_or_none("spacing_in"),
        end_in=row.number_or_none("end_in"),
        edge_in=row.number_or_none("edge_in"),
        f_c_psi=row.number_or_none("f_c_psi"),
        minutes=row.number_or_none("minutes"),
        kind=AnchorKind(row.one_of("kind", tuple(AnchorKind)) or AnchorKind.CAST),
        order=order,
    )
