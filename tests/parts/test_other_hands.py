"""Houses drawn by twenty-two more hands: the outside face is the first outline, within half an inch of the true one.

The outline that a sheet was drawn from is the truth; how people draw: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from shapely.geometry import Polygon

from export.architects_drawing.search import Request, Search, search_drawing
from parts.drawn_houses import saved
from parts.drawn_sheets import Sheet
from parts.filled_hands import unit_blocks
from parts.other_hands import HANDS, two_floors

WITHIN_IN = 0.51  # a sill drawn half an inch before the wall's face may count as the face


def off_in(found: Search, sheet: Sheet) -> list[float]:
    """How far each outline is from the true one, or one of them, at most. [in]."""
    true = [sheet.truth, *sheet.others]
    return [
        min(Polygon(c.corners).exterior.hausdorff_distance(t.exterior) for t in true) / sheet.per_in
        for c in found.candidates
    ]


@pytest.mark.parametrize("hand", HANDS, ids=[h.__name__ for h in HANDS])
def test_a_house_by_another_hand_is_the_first_outline(hand: Callable[[], Sheet], tmp_path: Path) -> None:
    sheet = hand()
    found = search_drawing(saved(sheet.document, tmp_path), Request())
    assert off_in(found, sheet)[0] <= WITHIN_IN
    assert found.unit_sure
    assert found.n_plans == (3 if hand is two_floors else found.n_plans)
    assert not (found.sure and found.n_plans > 1)


def test_a_block_that_holds_itself_is_read_once(tmp_path: Path) -> None:
    """No drawing program lets anybody make one, damaged files have them: six deep it would be 26,000 lines."""
    sheet = unit_blocks()
    for name in ("PLANTA", "HOJA"):
        sheet.document.blocks.get("PLANTA").add_blockref(name, (30, 20))
    found = search_drawing(saved(sheet.document, tmp_path), Request())
    assert off_in(found, sheet)[0] <= WITHIN_IN
    assert "could not be read" in found.notes[-1]
