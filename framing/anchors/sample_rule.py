"""The invented anchors that come with the program, by one rule of our own: no real anchor stands behind them.

A strap has a number of nails n, and everything else follows: what it takes up is so many pounds a nail, less into one
ply than into two or three; along and square to the wall it takes a fixed part of that; two at one truss take less than
twice of one; length, embedment, minutes of work and price grow with n. Nobody tested any of it.
"""

from __future__ import annotations

import csv
import io
import sys

POUNDS_PER_NAIL = {1: 94, 2: 103, 3: 103}
PAIR_FACTOR = {1: 1.55, 2: 1.85, 3: 1.85}
ALONG_FACTOR, SQUARE_FACTOR = 0.36, 0.29
NAILS = {1: "0.131 x 1-1/2 in. nails", 2: "0.131 x 2-1/2 in. nails", 3: "0.131 x 2-1/2 in. nails"}
COLUMNS = (
    *("note", "id", "name", "count", "plies", "allowable_uplift_lb", "allowable_parallel_lb"),
    *(
        "allowable_perpendicular_lb",
        "embedment_in",
        "length_in",
        "fasteners",
        "n_nails",
        "minutes",
        "approval",
        "price",
    ),
)
SHIPPED = {"slender": 9, "middling": 13, "broad": 19, "stout": 27, "massive": 43}
FOR_GIRDERS = 40


def sample_catalogue(
    nails: dict[str, int], *, pairs_of: tuple[str, ...] | None = None, retrofit: dict[str, int] | None = None
) -> str:
    """A catalogue of invented anchors as CSV.

    Parameters
    ----------
    nails : dict
        Id to number of nails; straps of `FOR_GIRDERS` nails or more are for two plies and three only.
    pairs_of : tuple of str, optional
        The ids that have rows for two at one truss; all unless given.
    retrofit : dict, optional
        Id to number of fasteners of what is put on afterwards: only such a catalogue has the column `kind`.

    Returns
    -------
    str
        The table, a header and a row for each id, count and number of plies.
    """
    out = io.StringIO(newline="")
    table = csv.writer(out, lineterminator="\n")
    kinds: tuple[str, ...] = ("kind",) if retrofit else ()
    table.writerow((*COLUMNS, *kinds))
    for name, n in nails.items():
        for count in (1, 2):
            if count == 2 and pairs_of is not None and name not in pairs_of:
                continue
            for plies in (1, 2, 3) if n < FOR_GIRDERS else (2, 3):
                table.writerow((*_row(name, n, count, plies), *("cast" for _ in kinds)))
    for name, n in (retrofit or {}).items():
        for plies in (1, 2, 3):
            table.writerow((*_retrofit_row(name, n, plies), "retrofit"))
    return out.getvalue()


def _row(name: str, n: int, count: int, plies: int) -> tuple[object, ...]:
    up_lb = n * POUNDS_PER_NAIL[plies] * (PAIR_FACTOR[plies] if count == 2 else 1.0)
    return (
        *("invented", name, f"{name} strap{', pair' if count == 2 else ''}", count, plies),
        *(round(up_lb), round(ALONG_FACTOR * up_lb), round(SQUARE_FACTOR * up_lb)),
        *(f"{3.4 + 0.1 * n:.1f}", f"{9.4 + 0.73 * n:.1f}", NAILS[plies], n * count, f"{(2 + 0.2 * n) * count:.1f}"),
        *("none: invented", f"{(0.75 + 0.21 * n) * count:.2f}"),
    )


def _retrofit_row(name: str, n: int, plies: int) -> tuple[object, ...]:
    """One that is put on after the pour: by the same pounds a fastener, at a higher price, with nothing in the beam."""
    up_lb = n * POUNDS_PER_NAIL[plies]
    return (
        *("invented", name, f"{name}, on the face of beam and truss", 1, plies),
        *(round(up_lb), round(ALONG_FACTOR * up_lb), round(SQUARE_FACTOR * up_lb)),
        *("", "", f"{NAILS[plies]} and what the engineer names into the beam", n, f"{20 + 0.6 * n:.1f}"),
        *("none: invented", f"{9 + 0.8 * n:.2f}"),
    )


if __name__ == "__main__":  # python -P -m framing.anchors.sample_rule > framing/anchors/sample_anchors.csv
    sys.stdout.write(sample_catalogue(SHIPPED))
