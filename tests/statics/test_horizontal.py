"""The main frame's push on a whole roof, by hand on the house of test_lateral.py. Pressures from the figures."""

from __future__ import annotations

import math

import pytest

from framing.plan import MwfrsProcedure, RoofEdge, RoofType
from framing.sideways.pushes import horizontal_force_lb
from invariants.houses import plan_of
from statics.test_lateral import BOX, Q_PSF, RISE, ZONE_1E_LESS_4E, run_of


def test_a_gable_that_faces_the_wind_counts_as_wall() -> None:
    """Wind along x on the gable: zones 1E less 4E on its 72 sq ft over the tie beam; at least 16 psf."""
    run = run_of(plan_of(BOX, type=RoofType.GABLE))
    found = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 0)
    assert found == (pytest.approx(Q_PSF * ZONE_1E_LESS_4E * 72.0, rel=1e-9), pytest.approx(16.0 * 72.0, rel=1e-9))


def test_the_directional_procedure_takes_its_own_coefficients() -> None:
    """Wind along y, h/L = 13.6667/24 = 0.5694; roof 0.85 (windward other + 0.6):
    other value at 22.62 degrees between 20 and 25: h/L 0.5: 0.0, 0.2; h/L 1.0: -0.18, 0.0.
    """
    run = run_of(plan_of(BOX, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL))
    share = (math.degrees(math.atan(RISE)) - 20.0) / 5.0
    half, one = 0.2 * share, -0.18 + 0.18 * share
    onto = half + (one - half) * (13.0 + 2 / 3 - 12.0) / 12.0
    force = Q_PSF * 0.85 * (onto + 0.6) * 160.0
    found = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 1)
    assert found[0] == pytest.approx(force, rel=1e-9)


def test_by_the_directional_procedure_a_gable_that_faces_the_wind_takes_the_walls_coefficients() -> None:
    """Wind along x, L/B = 40/24 = 1.667: leeward wall -0.5 + 0.2 x 0.667 = -0.3667 (fig. 27.3-1, solid)."""
    run = run_of(plan_of(BOX, type=RoofType.GABLE, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL))
    found = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 0)
    assert found[0] == pytest.approx(Q_PSF * 0.85 * (0.8 + 0.5 - 0.2 * 2 / 3) * 72.0, rel=1e-9)


@pytest.mark.parametrize("end", [0, 1])
@pytest.mark.parametrize("along", [0, 1])
def test_a_house_with_one_gable_counts_as_wall_for_the_wind_along_its_ridge(along: int, end: int) -> None:
    """Whichever end the gable stands at: wind blows from both sides, and the gable's coefficients are the larger."""
    box, walls = (BOX, ("W4", "W2")) if along == 0 else ([(0, 0), (24, 0), (24, 40), (0, 40)], ("W1", "W3"))
    edges = (RoofEdge(wall=walls[end], type=RoofType.GABLE, from_ft=None, to_ft=None),)
    run = run_of(plan_of(box, edges=edges))
    found = horizontal_force_lb(run.plan, run.roof, run.loads.widths, along)
    assert found == (pytest.approx(Q_PSF * ZONE_1E_LESS_4E * 72.0, rel=1e-9), pytest.approx(16.0 * 72.0, rel=1e-9))
    other = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 1 - along)
    assert other[1] == pytest.approx(8.0 * (40.0 * 0.5 + (40.0 + 28.0) / 2.0 * 5.0))


@pytest.mark.parametrize("procedure", MwfrsProcedure)
def test_a_low_roof_that_the_wind_sucks_to_windward_is_pushed_by_the_least_load_alone(
    procedure: MwfrsProcedure,
) -> None:
    """At 3:12 (14.04 degrees) zone 2 is -0.69 and zone 3 over -0.48: nothing is left of the push (fig. 28.3-1, solid).
    By fig. 27.3-1 at 9.46 degrees (2:12) no slope is windward.
    """
    rise = 3 / 12 if procedure is MwfrsProcedure.ENVELOPE else 2 / 12
    run = run_of(plan_of(BOX, rise_per_run=rise, mwfrs_procedure=procedure))
    by_wind, least = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 1)
    assert by_wind == 0.0
    assert least > 0.0
