"""Catalogue file -> Catalogue: the only reader of anchor catalogues."""

from __future__ import annotations

from importlib.resources import files
from pathlib import Path

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.catalogue_columns import COLUMNS, COMMENT, REQUIRED_COLUMNS
from framing.anchors.house_minimum import check_minimum
from framing.anchors.interaction import Interaction
from framing.errors import CatalogueError
from framing.plan import Plan
from framing.table_file import Row, read_table
from framing.text_file import digest, read_text

SAMPLE_NAME = "sample_anchors.csv"
MOST_ROWS = 5_000

BOUNDS = {  # column: least, most, unit
    "allowable_uplift_lb": (1, 100_000, "lb"),
    "allowable_parallel_lb": (1, 100_000, "lb"),
    "allowable_perpendicular_lb": (1, 100_000, "lb"),
    "embedment_in": (0, 48, "in."),
    "length_in": (0, 120, "in."),
    "spacing_in": (0, 48, "in."),
    "end_in": (0, 48, "in."),
    "edge_in": (0, 48, "in."),
    "f_c_psi": (1_500, 10_000, "psi"),
    "minutes": (0, 600, "minutes"),
    "price": (0, 100_000, ""),
}


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
    table = read_table(text, name, CatalogueError, most_rows=MOST_ROWS, comment=COMMENT)
    rows = list(table.rows(COLUMNS, REQUIRED_COLUMNS, ", ".join(REQUIRED_COLUMNS)))
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


def _anchor(row: Row, order: int) -> Anchor:
    def number(column: str) -> float | None:
        return row.number_or_none(column, *BOUNDS[column])

    if not row.text("id"):
        raise row.wrong("id", "the cell is empty; write the anchor's name or number")
    return Anchor(
        id=row.text("id"),
        name=row.text("name") or row.text("id"),
        count=int(row.needed("count", 1, 2, whole=True)),
        plies=int(row.needed("plies", 1, 6, whole=True)),
        allowable_uplift_lb=row.needed("allowable_uplift_lb", *BOUNDS["allowable_uplift_lb"]),
        allowable_parallel_lb=number("allowable_parallel_lb"),
        allowable_perpendicular_lb=number("allowable_perpendicular_lb"),
        embedment_in=number("embedment_in"),
        length_in=number("length_in"),
        fasteners=row.text("fasteners"),
        n_nails=int(row.number_or_none("n_nails", 0, 500, whole=True) or 0),
        approval=row.text("approval"),
        price=number("price") or 0.0,
        interaction=Interaction(row.one_of("interaction", tuple(Interaction)) or Interaction.SUM),
        spacing_in=number("spacing_in"),
        end_in=number("end_in"),
        edge_in=number("edge_in"),
        f_c_psi=number("f_c_psi"),
        minutes=number("minutes"),
        kind=AnchorKind(row.one_of("kind", tuple(AnchorKind)) or AnchorKind.CAST),
        order=order,
    )
