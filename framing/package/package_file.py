"""Package file -> Package: the only reader of a truss engineer's table of reactions."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from pathlib import Path
from typing import TypeVar

from framing.errors import PackageError, StraplineError
from framing.package.headings import FORCES, LENGTHS, WIND, Heading, force_unit, headings, passed_over
from framing.package.levels import Level, level_of, sentences, signed
from framing.package.numbers import Style, force, length, style_of
from framing.package.rows import Package, PackageRow, like_ours
from framing.package.wind_cells import package_wind
from framing.plan_trades import PackageSpec
from framing.table_file import LONGEST_CELL, Table, read_table
from framing.text_file import digest, read_text
from framing.units import shown

Read = TypeVar("Read")
MOST_PLIES, MOST_NAMED, MOST_ROWS = 6, 8, 5_000
OF_OUR_SCHEDULE = ("mwfrs", "cladding", "truss package")  # our own schedule's basis: which wind, at allowable stress
YES, NO = ("yes", "y", "x", "true", "accepted"), ("", "no", "n", "false")
HUNG_WORDS = ("hung", "hanger", "mechanical", "girder", "on girder", "member")
WALL_WORDS = ("wall", "bearing", "beam", "tie beam", "on the wall", "support")


def read_package(path: Path, spec: PackageSpec, *, accept_all: bool = False) -> Package:
    """The reactions in a table.

    Parameters
    ----------
    path : Path
        UTF-8 text with commas, tabs or semicolons, with or without byte-order mark, the header on top.
    spec : PackageSpec
        Which of our columns stand under which of theirs.
    accept_all : bool
        Whether partners that are not found by mark are taken without the table's own yes.

    Returns
    -------
    Package
        Forces in lb at allowable-stress level, uplift positive up, in the table's order.

    Raises
    ------
    PackageError
        If the file cannot be read or a cell is wrong: one sentence with the row (the header is row 1) and the column.
    """
    return package_from_text(
        read_text(path, "package", PackageError), path.name, columns=spec.columns, accept_all=accept_all
    )


def package_from_text(
    text: str, name: str, *, columns: tuple[tuple[str, str], ...] = (), accept_all: bool = False
) -> Package:
    """The same of a text; raises as `read_package`."""
    cells = _filled(read_table(text, name, PackageError, most_rows=MOST_ROWS))
    table = _Table(cells, headings(cells.header, columns, name))
    level, stated = level_of(table.same("basis", but=OF_OUR_SCHEDULE), lambda what: table.wrong_once("basis", what))
    forces = {column: table.forces(column) for column in FORCES}
    if not any(lb is not None for column in ("uplift", "down") for lb in forces[column]):
        column = "uplift" if table.has("uplift") else "down"
        raise table.wrong(0, "every cell of the column is empty; write a reaction for each bearing", column)
    for column in ("uplift", "down"):
        forces[column] = signed(forces[column], partial(table.wrong, column=column))
    rows = tuple(_row(table, i, {c: forces[c][i] for c in FORCES}, level) for i in range(len(cells.lines)))
    _refuse_twice(table, rows)
    read = sentences(level, stated, table.typed, table.units, table.has)
    over = passed_over(cells.header, table.found)
    more = f" and {len(over) - MOST_NAMED} more" if len(over) > MOST_NAMED else ""
    return Package(
        name=name,
        revision=table.same("rev"),
        rows=rows,
        wind=package_wind({c: table.same(c) for c in WIND}, table.wrong_once),
        said=(*read, *([f"columns not read: {', '.join(over[:MOST_NAMED])}{more}"] if over else [])),
        accept_all=accept_all,
        sha256=digest(f"{text}\n{accept_all}\n{columns}"),
    )


def _filled(cells: Table) -> Table:
    """The table, which has a header and rows."""
    first = cells.header_row
    if not cells.header:
        raise cells.wrong(first, "the table is empty; write a header and below it a row for each bearing")
    if not cells.lines:
        raise cells.wrong(first + 1, "there is no reaction below the header; write a row for each bearing")
    return cells


class _Table:
    """The cells by our columns, each read or refused with its row and its column as typed."""

    def __init__(self, cells: Table, found: Mapping[str, Heading]) -> None:
        self.cells, self.found = cells, found
        for column in found:
            for i in range(len(cells.lines)):
                cell = self.cell(i, column)
                if len(cell) > LONGEST_CELL or not cell.isprintable():
                    right = f"write one short line of at most {LONGEST_CELL} characters"
                    raise self.wrong(i, f"{shown(cell)} is too much for a cell; {right}", column)
        numbers = [self.cell(i, c) for c in (*FORCES, *LENGTHS) for i in range(len(cells.lines))]
        self.style: Style = style_of(numbers, cells.delimiter)
        self.units: dict[str, str] = {}
        self.typed: dict[str, tuple[float, ...]] = {}

    def has(self, column: str) -> bool:
        """Whether the table has the column."""
        return column in self.found

    def cell(self, i: int, column: str) -> str:
        """A cell; '' where the column is not there."""
        heading = self.found.get(column)
        return self.cells.lines[i][1][heading.at] if heading else ""

    def wrong(self, i: int, what: str, column: str) -> StraplineError:
        """The error for a cell."""
        heading = self.found.get(column)
        return self.cells.wrong(self.cells.lines[i][0], what, heading.typed if heading else column)

    def wrong_once(self, column: str, what: str) -> StraplineError:
        """The error for what a column says once for all rows."""
        return self.wrong(next(i for i in range(len(self.cells.lines)) if self.cell(i, column)), what, column)

    def same(self, column: str, but: tuple[str, ...] = ()) -> str:
        """What a column says that holds for the whole table, words that say nothing left out; '' where none do."""
        said = [(i, cell) for i in range(len(self.cells.lines)) if (cell := self.cell(i, column)) and cell not in but]
        for i, cell in said[1:]:
            if cell.lower() != said[0][1].lower():
                first = f"{shown(said[0][1])} stands in row {self.cells.lines[said[0][0]][0]}"
                raise self.wrong(i, f"{shown(cell)} where {first}; a table has one for all its rows", column)
        return said[0][1] if said else ""

    def read(self, i: int, column: str, reader: Callable[[str], Read]) -> Read | None:
        """A cell by its reader; None where it is empty."""
        cell = self.cell(i, column)
        if not cell:
            return None
        try:
            return reader(cell)
        except ValueError as problem:
            raise self.wrong(i, str(problem), column) from None

    def length(self, i: int, column: str) -> float | None:
        """A cell of length in feet; None where it is empty."""
        return self.read(i, column, lambda cell: length(cell, self.found[column], self.style))

    def forces(self, column: str) -> list[float | None]:
        """A column of forces in lb with the signs as typed."""
        if column not in self.found:
            return [None] * len(self.cells.lines)
        heading, whole = self.found[column], self.same("unit")
        unit = force_unit(whole) if whole else ""
        if unit is None:
            raise self.wrong_once("unit", f"{shown(whole)} is no unit of force; write lb, kip, kN or N")
        if unit and heading.unit and unit != heading.unit:
            raise self.wrong_once(
                "unit", f"{unit} where the header {shown(heading.typed)} says {heading.unit}; write one unit"
            )
        out: list[float | None] = []
        for i in range(len(self.cells.lines)):
            read = self.read(i, column, lambda cell: force(cell, heading, unit, self.style))
            out.append(None if read is None else read[0])
            if read is not None and self.units.setdefault(column, read[1]) != read[1]:
                raise self.wrong(i, f"{read[1]} where rows above have {self.units[column]}; write one unit", column)
        self.typed[column] = tuple(lb for lb in out if lb)
        return out


def _row(table: _Table, i: int, lb: Mapping[str, float | None], level: Level) -> PackageRow:
    lengths = {c: table.length(i, c) for c in LENGTHS}
    asd = {c: None if v is None else v * level.factor for c, v in lb.items()}
    row = PackageRow(
        number=table.cells.lines[i][0],
        **{c: table.cell(i, c) for c in ("mark", "member", "wall", "joint")},
        station_ft=lengths["station"],
        plies=table.read(i, "plies", _plies),
        hung=table.read(i, "bearing", _hung),
        down_lb=None if level.factor != 1.0 else asd["down"],
        uplift_lb=asd["uplift"],
        horizontal_lb=asd["horizontal"],
        parallel_lb=None if asd["parallel"] is None else abs(asd["parallel"]),
        perpendicular_lb=None if asd["perpendicular"] is None else abs(asd["perpendicular"]),
        span_ft=lengths["span"],
        overhang_ft=lengths["overhang"],
        accepted=table.read(i, "accepted", _yes) or False,
    )
    if not (row.mark or row.member or row.wall or row.span_ft is not None):
        first = next(c for c in ("mark", "member", "wall", "span") if table.has(c))
        raise table.wrong(i, "the cell is empty; write a mark, a member, or a wall and a station", first)
    if row.station_ft is not None and not row.wall:
        raise table.wrong(i, "there is no wall beside it; write the wall, such as W1", "station")
    return row


def _plies(cell: str) -> int:
    if not cell.isdecimal() or not 1 <= int(cell) <= MOST_PLIES:
        raise ValueError(f"{shown(cell)} is no number of plies; write 1 to {MOST_PLIES}")
    return int(cell)


def _hung(cell: str) -> bool:
    plain = cell.lower()
    if plain in HUNG_WORDS or plain.startswith(("hung ", "girder ", "hip girder ")):
        return True
    if plain in WALL_WORDS:
        return False
    raise ValueError(f'{shown(cell)} is neither; write "wall" or "hung"')


def _yes(cell: str) -> bool:
    if cell.lower() in YES or cell.lower() in NO:
        return cell.lower() in YES
    raise ValueError(f'{shown(cell)} is neither; write "yes" or leave the cell empty')


def _refuse_twice(table: _Table, rows: tuple[PackageRow, ...]) -> None:
    """One bearing in two rows: the same mark, joint and place, or one of our own marks."""
    seen: dict[tuple[object, ...], int] = {}
    for i, row in enumerate(rows):
        key: tuple[object, ...] = (row.mark, row.joint, row.member, row.wall, row.station_ft)
        key = (row.mark.upper(),) if like_ours(row.mark) else key
        if row.hung and row.station_ft is None and not like_ours(row.mark):
            continue  # ends that hang have no place: of trusses alike there are as many rows
        if (row.mark or row.station_ft is not None) and key in seen:
            column = "mark" if row.mark else "station"
            what = f"{shown(row.mark or row.wall)} stands in row {seen[key]} too; write one row for each bearing"
            raise table.wrong(i, what, column)
        seen.setdefault(key, row.number)
