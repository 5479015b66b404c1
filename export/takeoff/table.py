"""Run -> takeoff.csv: what to order, the rule behind every quantity, and prices where they are known."""

from __future__ import annotations

from export.tables.csv_rows import csv_bytes, safe_text
from export.takeoff.anchors import anchor_rows
from export.takeoff.concrete import concrete_rows
from export.takeoff.cover import cover_rows
from export.takeoff.rows import Row, unit_price
from export.takeoff.wood import package_truss_rows, wood_rows
from framing.run import Run

COLUMNS = ("item", "quantity", "unit", "note", "unit_price", "price")


def takeoff_rows(run: Run) -> tuple[Row, ...]:
    """Every row, anchors first; of an engineer's layout what does not come from our own framing."""
    if run.by_engineer:
        return (*anchor_rows(run), *package_truss_rows(run), *concrete_rows(run))
    return (*anchor_rows(run), *wood_rows(run), *cover_rows(run), *concrete_rows(run))


def takeoff_total(run: Run) -> float | None:
    """What all that has a price costs; None where nothing has."""
    spec = run.plan.trades.takeoff
    priced = [(unit_price(spec, row), row.quantity) for row in takeoff_rows(run)]
    known = [price * quantity for price, quantity in priced if price is not None]
    return sum(known) if known else None


def takeoff_csv(run: Run) -> bytes:
    """Anchors with spares, trusses by profile, hangers, eaves, deck, underlayment and tie beam.

    Returns
    -------
    bytes
        UTF-8 with byte-order mark, comma, CRLF; `COLUMNS`, then the fingerprint and the caution. The last row adds up
        what has a price.

    Source: common practice, no source (every waste rule; each note says so).
    """
    spec = run.plan.trades.takeoff
    lines, total, n_priced = [], 0.0, 0
    rows = takeoff_rows(run)
    for row in rows:
        price = unit_price(spec, row)
        total += (price or 0.0) * row.quantity
        n_priced += price is not None
        money = ("", "") if price is None else (f"{price:.2f}", f"{price * row.quantity:.2f}")
        lines.append(
            (row.item, f"{row.quantity:g}" if row.quantity < 1e5 else f"{row.quantity:.0f}", row.unit, row.note, *money)
        )
    if n_priced:
        note = f"{n_priced} of {len(rows)} rows have a price; the others are not in it."
        lines.append(("all that has a price", "", "", note, "", f"{total:.2f}"))
    return csv_bytes(run, COLUMNS, [tuple(safe_text(cell) for cell in line) for line in lines])
