"""The columns of an anchor catalogue: what each says, and the empty catalogue that says so to a person."""

from __future__ import annotations

import csv
import io

REQUIRED_COLUMNS = ("id", "count", "plies", "allowable_uplift_lb")
COMMENT = "# "
MEANINGS = {  # column: what a cell in it says, its unit
    "id": "the anchor's short name or number, as on the drawings and on the bag",
    "name": "its name in full; left out, the id",
    "count": "1, or 2 for a pair: one strap on each side of the truss, at the pair's own allowable values",
    "plies": "the plies of the truss that the row's values are for, 1 to 6: a row for each",
    "allowable_uplift_lb": "allowable uplift, lb (allowable stress, wind)",
    "allowable_parallel_lb": "allowable push along the wall, lb, for a truss that crosses it square",
    "allowable_perpendicular_lb": "allowable push square to the wall, lb, for a truss that crosses it square",
    "interaction": "sum: the three ratios add; each 0.75: none over 0.75, no sum; left out, sum",
    "embedment_in": "how deep the anchor goes into the concrete, in.",
    "length_in": "its whole length, in.",
    "spacing_in": "least clear distance between two anchors, in.",
    "end_in": "least distance to a wall's end, in.",
    "edge_in": "least distance to the beam's face, in.",
    "f_c_psi": "least strength of the concrete, psi",
    "fasteners": "what nails or screws fill its holes, in words",
    "n_nails": "how many",
    "minutes": "what setting and nailing one takes, minutes",
    "price": "of one anchor, or of the pair, in your currency",
    "approval": "the product approval that the values are copied from",
    "kind": "cast: set into the wet concrete; retrofit: put on afterwards; left out, cast",
    "note": "a word of your own",
}
COLUMNS = tuple(MEANINGS)
ABOVE = (
    "Write a row for each anchor, number of straps and number of plies, copied from the product approvals you work "
    "under. Lines that begin with this sign are passed over; columns that you do not need may be taken out."
)


def empty_catalogue() -> str:
    """A catalogue with every column and no anchor: the header, then a line for each column that the reader passes
    over.
    """
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(COLUMNS)
    table.writerow([f"{COMMENT}{ABOVE}"])
    for column, what in MEANINGS.items():
        table.writerow([f"{COMMENT}{column}{' (must be there)' * (column in REQUIRED_COLUMNS)}: {what}"])
    return out.getvalue()
