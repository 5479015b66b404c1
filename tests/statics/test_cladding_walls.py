"""What of a wall pushes on its anchors as a component: plane geometry on a house with gables."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan import RoofType
from framing.plan_masonry import TopsHeldBy
from framing.run import Run, make_run
from invariants.houses import plan_of


def gabled(held_by: TopsHeldBy) -> Run:
    """40 ft by 24 ft, gables on the 24 ft walls W2 and W4, 9 ft 4 in. to the tie beam, 5:12, heel 6 in."""
    plan = plan_of([(0, 0), (40, 0), (40, 24), (0, 24)], type=RoofType.GABLE)
    return make_run(replace(plan, masonry=replace(plan.masonry, tops_held_by=held_by)), shipped_catalogue())


@pytest.mark.parametrize(
    ("held_by", "on_a_gable_ft2", "on_a_long_wall_ft2"),
    [
        # Half of the wall's height; what stands over the beam goes into the deck.
        (TopsHeldBy.ROOF, 28.0 / 6.0 * 24.0, 28.0 / 6.0 * 40.0),
        # Half of the heel and of the triangle, 12 ft x 5 ft; the beam holds the walls.
        (TopsHeldBy.TIE_BEAM, (0.5 * 24.0 + 12.0 * 5.0) / 2.0, 0.0),
    ],
)
def test_all_straps_of_a_wall_together_take_what_its_top_holds(
    held_by: TopsHeldBy, on_a_gable_ft2: float, on_a_long_wall_ft2: float
) -> None:
    run = gabled(held_by)
    walls = {"W1": 0.0, "W2": 0.0, "W3": 0.0, "W4": 0.0}
    for strip in [s for of in run.sideways.cladding.strips for s in of]:
        held = run.sideways.held[strip.held]
        walls[run.sideways.stretches[held.stretch].name] += strip.pushing_ft2
    long, gable = pytest.approx(on_a_long_wall_ft2), pytest.approx(on_a_gable_ft2)
    assert walls == {"W1": long, "W2": gable, "W3": long, "W4": gable}
