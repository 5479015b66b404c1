"""The user's approvals file: what tiles, clips, fasteners and shingles hold, copied from their approvals.

Nothing of the kind is known here: what the file does not say is printed as demand, with 'resistance: not given'.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from pathlib import Path

from framing.errors import PlanError
from framing.table_file import Row, nearest, read_table
from framing.text_file import read_text
from framing.units import shown

COLUMNS = ("item", "value", "approval", "note")
ITEMS = {  # item: least, most, unit and what it is
    "tile_length_ft": (0.5, 3.0, "ft", "length of a tile"),
    "tile_width_ft": (0.3, 3.0, "ft", "exposed width of a tile"),
    "tile_lap_in": (0.0, 12.0, "in.", "head lap of a tile"),
    "tile_nose_in": (0.1, 6.0, "in.", "thickness of a tile's nose"),
    "tile_free_ratio": (0.0, 1.0, "", "share of a tile's underside free of mortar or adhesive"),
    "tile_fasteners": (0, 6, "", "nails or screws through the underlayment at each tile"),
    "field_moment_ft_lb": (0.1, 1000.0, "ft-lb", "allowable attachment moment of field tiles"),
    "eave_moment_ft_lb": (0.1, 1000.0, "ft-lb", "the same of the first course"),
    "hip_ridge_moment_ft_lb": (0.1, 1000.0, "ft-lb", "the same of hip and ridge tiles"),
    "tile_lambda_ft3": (0.001, 10.0, "ft3", "lambda of the high-velocity zone's form"),
    "tile_restoring_ft_lb": (0.0, 100.0, "ft-lb", "M_g of that form"),
    "zone_1_pressure_psf": (1.0, 400.0, "psf", "a pressure of one's own for zone 1, allowable-stress level"),
    "zone_2_pressure_psf": (1.0, 400.0, "psf", "the same for zone 2"),
    "zone_3_pressure_psf": (1.0, 400.0, "psf", "the same for zone 3"),
    "metal_cover_in": (2.0, 60.0, "in.", "width that one metal panel covers"),
    "clip_spacing_in": (1.0, 72.0, "in.", "clips along a seam"),
    "clip_lb": (1.0, 5000.0, "lb", "what one clip holds"),
    "clip_fasteners": (1, 10, "", "fasteners at each clip"),
    "fastener_lb": (1.0, 5000.0, "lb", "what one fastener holds"),
    "shingle_fasteners_per_100_ft2": (50, 1000, "", "shingle nails on 100 sq ft"),
    "underlayment_roll_ft2": (50.0, 2000.0, "sq ft", "underlayment in one roll"),
}
CLASSES = ("D", "G", "H")
MOST_ROWS = 1_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Approvals:
    """What the file says: (item, value, approval) in its order, the shingles' class, and its hash; '' where none."""

    name: str
    values: tuple[tuple[str, float, str], ...]
    shingle_class: str
    sha256: str

    def value(self, item: str) -> float | None:
        """What is said of an item; None where nothing is."""
        return next((v for name, v, _ in self.values if name == item), None)

    def approval(self, item: str) -> str:
        """The approval that it is from."""
        return next((a for name, _, a in self.values if name == item), "")


NONE_GIVEN = Approvals(name="", values=(), shingle_class="", sha256="")


def read_approvals(path: Path, speed_mph: float) -> Approvals:
    """The approvals in a CSV file: a header with `item,value` and, if wanted, `approval` and `note`.

    Raises
    ------
    PlanError
        If the file cannot be read, an item is not known, a value is out of its bounds, or a pressure equals the wind
        speed: a speed typed as a pressure. One sentence with the row, the header being row 1.
    """
    table = read_table(read_text(path, "approvals", PlanError), path.name, PlanError, most_rows=MOST_ROWS)
    values: dict[str, tuple[float, str]] = {}
    shingle_class = ""
    for row in table.rows(COLUMNS, COLUMNS[:2], "item,value and, if wanted, approval,note"):
        item = row.text("item")
        if item in values or (item == "shingle_class" and shingle_class):
            raise row.wrong("item", f"{item} is there twice; write each item once")
        if item == "shingle_class":
            shingle_class = _class(row)
        else:
            values[item] = (_value(row, item, speed_mph), row.text("approval"))
    listed = [(item, value, approval) for item, (value, approval) in values.items()]
    digest = hashlib.sha256("\n".join(map(repr, [*listed, shingle_class])).encode()).hexdigest()
    return Approvals(name=path.name, values=tuple(listed), shingle_class=shingle_class, sha256=digest)


def _class(row: Row) -> str:
    cell = row.text("value")
    if cell.upper() not in CLASSES:
        right = f"write {', '.join(CLASSES)} as on the wrapper"
        raise row.wrong("value", f"{shown(cell)} is no class of shingles; {right}")
    return cell.upper()


def _value(row: Row, item: str, speed_mph: float) -> float:
    if item not in ITEMS:
        known = nearest(item, [*ITEMS, "shingle_class"])
        raise row.wrong("item", f"unknown item {shown(item)}; the nearest known is {known}")
    low, high, unit, _ = ITEMS[item]
    value = row.needed("value", low, high, unit)
    if item.endswith("_psf") and value == speed_mph:
        right = "write the pressure that goes with it, in psf"
        raise row.wrong("value", f"{item} is {value:g}, the wind's speed in mph; {right}")
    return value
