"""Internal pressure by how open the building is, from the table to the reactions.

Source: American Society of Civil Engineers, ASCE/SEI 7-22, table 26.13-1 (ASCE/SEI 7-16, p. 271, the same), as read in
four public texts that agree. Figures in data/asce_table_26_13_1.csv.
"""

from __future__ import annotations

import itertools
from functools import cache

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.edition import edition
from framing.plan import EditionName, Enclosure, MwfrsProcedure
from framing.run import Run, make_run
from invariants.houses import plan_of
from published.figures import figures

ROWS = {Enclosure(row["enclosure"]): (float(row["plus"]), float(row["minus"])) for row in figures("asce_table_26_13_1")}
BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]


@cache
def run(enclosure: Enclosure, procedure: MwfrsProcedure) -> Run:
    return make_run(plan_of(BOX, enclosure=enclosure, mwfrs_procedure=procedure), shipped_catalogue())


@pytest.mark.parametrize("name", list(EditionName))
@pytest.mark.parametrize("enclosure", list(Enclosure))
def test_the_row_is_met_in_both_editions(name: EditionName, enclosure: Enclosure) -> None:
    assert edition(name).GC_pi(enclosure) == ROWS[enclosure]


@pytest.mark.parametrize("procedure", list(MwfrsProcedure))
@pytest.mark.parametrize("enclosure", list(Enclosure))
def test_each_main_frame_case_differs_from_the_open_house_s_by_the_row_times_q_inside_the_walls(
    enclosure: Enclosure, procedure: MwfrsProcedure
) -> None:
    """The sum over the roof: q K_d x GC_pi x 40 x 24 sq ft, for either sign."""
    open_house, ours = run(Enclosure.OPEN, procedure), run(enclosure, procedure)
    q = next(f.value for f in ours.wind if f.symbol == f"q K_d {procedure}")
    pairs = [[c for c in r.reactions.cases if c.basis == "mwfrs"] for r in (open_house, ours)]
    assert len(pairs[0]) == len(pairs[1])
    for (one, other), sign in zip(zip(*pairs, strict=True), itertools.cycle((0, 1))):
        step = other.applied_vertical_lb - one.applied_vertical_lb
        assert step == pytest.approx(q * ROWS[enclosure][sign] * 40 * 24, rel=1e-9, abs=1e-6)


def test_more_openings_never_lift_less() -> None:
    order = (Enclosure.OPEN, Enclosure.ENCLOSED, Enclosure.PARTIALLY_ENCLOSED)
    uplift = np.array([run(e, MwfrsProcedure.ENVELOPE).reactions.uplift_lb for e in order])
    assert (np.diff(uplift, axis=0) > 0.0).all()
    half = run(Enclosure.PARTIALLY_OPEN, MwfrsProcedure.ENVELOPE).reactions.uplift_lb
    np.testing.assert_array_equal(half, uplift[1])
