"""The house of the published uplift table built whole: every truss beside its cell, the first inside the gable too.

Source: International Residential Code 2018, table R802.11 (as in test_irc_2018_r802_11.py), the 28 ft rows at 24 in.:
Exposure B, mean roof height 33 ft, 24 in. eaves, 15 psf of roof and ceiling. The house: 28 ft between bearings, 8 in.
walls, 60 ft long, rakes of 1 and 2 ft, main frame alone, the finished roof with the plan's usual 10 and 5 psf. The
cells are for the end zone.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.plan import Basis, EditionName, Exposure, RakeFrame, RoofType
from framing.roof.surface import build_roof
from framing.run import Run, make_run
from framing.walls.outline import build_outline
from framing.wind.edge_widths import edge_widths
from framing.wind.patches import Floats
from invariants.houses import DEFAULT, plan_of
from published.figures import figures

(ROW,) = [r for r in figures("irc_r802_11_uplift_exposure_b") if (r["spacing_in"], r["span_ft"]) == ("24", "28")]
COLUMNS = [c for c in ROW if c[:2] in ("lt", "ge")]
RISE = {"lt": 4.0 / 12.0, "ge": 5.0 / 12.0}
NOT_SAID_OR_LADDER = (None, RakeFrame.LADDER)


@cache
def house(column: str, rake_ft: float, rake_frame: RakeFrame | None) -> Run:
    plan = plan_of(
        [(0, 0), (60, 0), (60, 28 + 8 / 12), (0, 28 + 8 / 12)],
        type=RoofType.GABLE,
        rise_per_run=RISE[column[:2]],
        rake_overhang_ft=rake_ft,
        rake_frame=rake_frame,
        speed_mph=float(column[2:]),
        exposure=Exposure.B,
        edition=EditionName.ASCE_7_16,
        basis=Basis.MWFRS,
        dead=replace(DEFAULT.dead, without_covering=False),
    )
    outline = build_outline(plan)
    lower_ft = edge_widths(plan, outline, build_roof(plan, outline)).h_ft - 33.0
    return make_run(replace(plan, wall_height_ft=plan.wall_height_ft - lower_ft), shipped_catalogue())


def of_commons(run: Run) -> tuple[Floats, Floats, Floats]:
    """Every common's bearing: from the nearer gable [ft], uplift [lb] and the wind alone, strength level [lb]."""
    rows = [i for i, b in enumerate(run.framing.bearings) if b.kind is MemberKind.COMMON]
    x = np.array([run.framing.bearings[i].point_ft[0] for i in rows])
    return np.minimum(x, 60.0 - x), run.reactions.uplift_lb[rows], run.reactions.wind_lb[rows]


@pytest.mark.parametrize("rake_frame", NOT_SAID_OR_LADDER)
@pytest.mark.parametrize("rake_ft", [1.0, 2.0])
@pytest.mark.parametrize("column", COLUMNS)
def test_no_truss_of_the_end_zone_is_under_its_cell_and_none_farther_in_under_0_59_of_it(
    column: str, rake_ft: float, rake_frame: RakeFrame | None
) -> None:
    """Farther in at 140 mph; at less wind the dead load is the larger part, and 0.59 holds for the wind alone: the cell
    and its own 0.6 x 15 psf x 2 ft x 16 ft.
    """
    run, cell_lb = house(column, rake_ft, rake_frame), float(ROW[column])
    from_gable, uplift_lb, wind_lb = of_commons(run)
    in_end_zone = from_gable + 1.0 <= run.loads.widths.end_zone_ft + 1e-9
    assert from_gable.min() == pytest.approx(2.0, abs=0.1)
    assert in_end_zone.sum() >= 8
    assert uplift_lb[in_end_zone].min() >= cell_lb
    assert 0.6 * wind_lb.min() >= 0.59 * (cell_lb + 0.6 * 15.0 * 2.0 * 16.0)
    assert uplift_lb.min() >= 0.59 * cell_lb or not column.endswith("140")


@pytest.mark.parametrize("column", ["lt140", "ge110"])
def test_outlookers_that_are_declared_relieve_the_first_truss_alone(column: str) -> None:
    """By the lever OH^2/(2b); on the gable wall they pull more than a ladder."""
    declared, ladder, open_ = (house(column, 1.0, rake) for rake in (RakeFrame.OUTLOOKERS, *NOT_SAID_OR_LADDER[::-1]))
    from_gable, relieved_lb, _ = of_commons(declared)
    first = from_gable < 2.1
    np.testing.assert_allclose(relieved_lb[~first], of_commons(ladder)[1][~first], rtol=1e-12)
    assert (relieved_lb[first] < 0.85 * of_commons(ladder)[1][first]).all()
    worse = np.maximum(declared.reactions.uplift_lb, ladder.reactions.uplift_lb)
    np.testing.assert_allclose(open_.reactions.uplift_lb, worse, rtol=1e-12)
    down = np.maximum(declared.reactions.down_lb, ladder.reactions.down_lb)
    np.testing.assert_allclose(open_.reactions.down_lb, down, rtol=1e-12)
