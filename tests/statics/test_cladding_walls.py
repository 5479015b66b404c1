"""What of a wall pushes on its anchors as a component: plane geometry on a house with gables."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.plan import RoofType
from framing.plan_masonry import TopsHeldBy
from framing.run import Run, make_run
from invariants.houses import plan_of
from statics.test_sideways import BOX, HEIGHT_FT, Q_PSF


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


def test_a_corner_strap_is_pulled_or_pushed_by_each_of_its_walls_in_all_four_ways_by_hand() -> None:
    """A foot of either wall's upper half, all in zone 5, on A = 9.333 x 9.333 / 3 ft2. Fig. 30.3-1 (good): suction
    -1.7532 + 0.3532 log A, pressure 1.1766 - 0.1766 log A; 0.18 inside; 0.6 of it.
    """
    log_a = math.log10(HEIGHT_FT**2 / 3.0)
    lb_a_unit = 0.6 * Q_PSF * HEIGHT_FT / 2.0 * 1.0
    pull, push = lb_a_unit * (1.7532 - 0.3532 * log_a + 0.18), lb_a_unit * (1.1766 - 0.1766 * log_a + 0.18)
    run = make_run(plan_of(BOX), shipped_catalogue())
    corners = {(0.0, 0.0): (-1, -1), (40.0, 0.0): (1, -1), (40.0, 24.0): (1, 1), (0.0, 24.0): (-1, 1)}
    met = 0
    for i, b in enumerate(run.framing.bearings):
        if b.kind is not MemberKind.CORNER_JACK:
            continue
        out = next(way for at, way in corners.items() if math.dist(at, b.point_ft) < 2.0)
        own = 1 if b.wall in ("W1", "W3") else 0  # the axis that its own wall faces along
        for j, (by_own, by_other) in enumerate(((pull, pull), (-push, pull), (pull, -push), (-push, -push))):
            wanted = [by_other, by_other]
            wanted[own] = by_own
            found = run.sideways.cladding.push_lb[i, j] * out
            assert found == pytest.approx(wanted, rel=1e-6), (b.mark, j)
        met += 1
    assert met == 4
