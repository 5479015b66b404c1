"""What is behind an interpolated coefficient makes it again: by hand on the figures' own rows."""

from __future__ import annotations

import math

import pytest

from framing.explain.coefficients import coefficients_behind
from framing.plan import MwfrsProcedure, RoofType
from invariants.houses import plan_of
from statics.test_sideways import BOX, run_of


def test_between_20_and_30_degrees_the_main_frame_s_coefficients_are_told_with_both_rows() -> None:
    """Fig. 28.3-1 (solid): zone 2 is -0.69 at 20 degrees and 0.21 at 30; 5:12 is 22.62 degrees."""
    found = {b.what: b for b in coefficients_behind(run_of(plan_of(BOX)))}
    zone_2 = next(b for what, b in found.items() if what.startswith("zone 2, load case 1"))
    assert [value for _, value in zone_2.parts] == [-0.69, 0.21]
    share = (math.degrees(math.atan(5 / 12)) - 20.0) / 10.0
    assert zone_2.value_factor == pytest.approx(-0.69 + 0.90 * share)
    assert not any(what.startswith("zone 5") for what in found)


def test_a_cladding_curve_and_an_overhang_s_sum_give_the_coefficient() -> None:
    """Fig. 30.3-2B, gable (good): zone 2 is -4.0067 + 1.3066 log A up to 200 ft2, a wall 1.1766 - 0.1766 log A."""
    plan = plan_of(BOX, type=RoofType.GABLE, rise_per_run=4 / 12)
    found = [b for b in coefficients_behind(run_of(plan)) if ", gable roof, " in b.what]
    seen = 0
    for b in found:
        area = float(b.what.rsplit(", ", 1)[1].split()[0])
        if b.what.startswith("zone 2"):
            assert dict(b.parts) == {"c0": pytest.approx(-4.0067, abs=2e-3), "c1": pytest.approx(1.3066, abs=1e-3)}
            assert b.value_factor == pytest.approx(-4.0067 + 1.3066 * math.log10(area), abs=3e-4)
        elif b.what.startswith("overhang"):
            seen += 1
            (_, roof), (_, wall) = b.parts
            assert b.value_factor == pytest.approx(roof - wall)
            assert wall == pytest.approx(1.1766 - 0.1766 * math.log10(min(max(area, 10.0), 500.0)), abs=3e-4)
    assert seen


def test_by_the_directional_procedure_the_rows_about_the_slope_are_told() -> None:
    found = coefficients_behind(run_of(plan_of(BOX, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)))
    lee = [b for b in found if b.what.startswith("leeward slope")]
    assert lee
    assert {value for b in lee for _, value in b.parts} == {-0.6}
