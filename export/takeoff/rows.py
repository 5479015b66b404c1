"""One row of the takeoff, and the rules that hold for every row: rounding, waste, prices."""

from __future__ import annotations

import math
from dataclasses import dataclass

from framing.plan_trades import TakeoffSpec

NO_SOURCE = "common practice, no source"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What to order. `key` is the name that prices and wastes of the plan go by ('' where none do), `price` what one
    unit costs where it is known without the plan.
    """

    item: str
    quantity: float
    unit: str
    note: str
    key: str = ""
    price: float | None = None


def up(quantity: float) -> int:
    """The next whole number, forgiving the last bit of a float."""
    return math.ceil(quantity - 1e-9)


def waste(spec: TakeoffSpec, key: str, usual_percent: float) -> tuple[float, str]:
    """What a quantity is multiplied by, and the words for it: the user's waste, else the usual one."""
    own = dict(spec.waste_percent).get(key)
    if own is not None:
        return 1.0 + own / 100.0, f"{own:g} % waste by your plan"
    return 1.0 + usual_percent / 100.0, f"{usual_percent:g} % waste ({NO_SOURCE})"


def unit_price(spec: TakeoffSpec, row: Row) -> float | None:
    """What one unit costs: by the plan, else by the row itself."""
    return dict(spec.prices).get(row.key, row.price) if row.key else row.price
