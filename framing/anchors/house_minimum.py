"""The house minimum as typed - an id of the catalogue, or pounds - as the least uplift that an anchor must take."""

from __future__ import annotations

import re

from framing.anchors.catalogue import AnchorKind, Catalogue
from framing.errors import PlanError
from framing.table_file import nearest
from framing.units import shown

_POUNDS = re.compile(r"\s*(\d{1,6}(?:\.\d{1,3})?)\s*lbs?\.?\s*", re.ASCII)


def check_minimum(minimum: str, catalogue: Catalogue) -> None:
    """Refuse a house minimum that is neither pounds nor an id.

    Raises
    ------
    PlanError
        Names the nearest id of the catalogue.
    """
    ids = {anchor.id: None for anchor in catalogue.anchors if anchor.kind is AnchorKind.CAST}
    if not minimum or minimum in ids or _POUNDS.fullmatch(minimum):
        return
    near = shown(nearest(minimum, ids)) if ids else '""'
    raise PlanError(
        f"anchors minimum: {shown(minimum)} is not in {catalogue.name}; the nearest id there is {near} "
        '(or write pounds, such as "900 lb")'
    )


def least_uplift_lb(minimum: str, catalogue: Catalogue, plies: int) -> float:
    """What a single anchor at that ply count must take at least; an id stands for what its own single takes. [lb]"""
    typed = _POUNDS.fullmatch(minimum)
    if typed and minimum not in {anchor.id for anchor in catalogue.anchors}:
        return float(typed[1])
    mine = [a.allowable_uplift_lb for a in catalogue.anchors if (a.id, a.plies, a.count) == (minimum, plies, 1)]
    return max(mine, default=0.0)
