"""The user's approvals file: what tiles, clips, fasteners and shingles hold, copied from their approvals.

Nothing of the kind is known here: what the file does not say is printed as demand, with 'resistance: not given'.
"""

from __future__ import annotations

import csv
import difflib
import hashlib
import io
from dataclasses import dataclass
from pathlib import Path

from framing.errors import PlanError
from framing.text_file import decoded, read_bytes
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
SUSPECT_PSF = 250.0


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
    data = read_bytes(path, "approvals", PlanError)
    text = decoded(data, path, "approvals", PlanError)
    lines = list(csv.reader(io.StringIO(text, newline="")))
    header = [cell.strip().lower() for cell in lines[0]] if lines else []
    if not {"item", "value"} <= set(header) <= set(COLUMNS):
        raise PlanError(f"{path.name} row 1: write the columns item,value and, if wanted, approval,note")
    values: list[tuple[str, float, str]] = []
    shingle_class = ""
    for number, line in enumerate(lines[1:], 2):
        row = dict(zip(header, (cell.strip() for cell in line), strict=False))
        if not any(row.values()):
            continue
        item, where = row.get("item", ""), f"{path.name} row {number}"
        if item == "shingle_class":
            shingle_class = _class(row.get("value", ""), where)
        elif item in [name for name, _, _ in values]:
            raise PlanError(f"{where}: {item} is there twice; write each item once")
        else:
            values.append((item, _value(item, row.get("value", ""), where, speed_mph), row.get("approval", "")))
    digest = hashlib.sha256("\n".join(map(repr, [*values, shingle_class])).encode()).hexdigest()
    return Approvals(name=path.name, values=tuple(values), shingle_class=shingle_class, sha256=digest)


def _class(cell: str, where: str) -> str:
    if cell.upper() not in CLASSES:
        raise PlanError(f"{where}: {shown(cell)} is no class of shingles; write {', '.join(CLASSES)} as on the wrapper")
    return cell.upper()


def _value(item: str, cell: str, where: str, speed_mph: float) -> float:
    if item not in ITEMS:
        nearest = max([*ITEMS, "shingle_class"], key=lambda known: difflib.SequenceMatcher(None, item, known).ratio())
        raise PlanError(f"{where}: unknown item {shown(item)}; the nearest known is {nearest}")
    low, high, unit, _ = ITEMS[item]
    right = f"write {low:g} to {high:g} {unit}".rstrip()
    try:
        value = float(cell)
    except ValueError:
        raise PlanError(f"{where}: {shown(cell)} is not a number; {right}") from None
    if item.endswith("_psf") and value == speed_mph:
        raise PlanError(
            f"{where}: {item} is {value:g}, the wind's speed in mph; write the pressure that goes with it, in psf"
        )
    if not low <= value <= high:
        raise PlanError(f"{where}: {shown(cell)} is out of range; {right}")
    return value
