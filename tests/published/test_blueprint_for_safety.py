"""A public safety group's worked figure for uplift at a truss.

Source: blueprintforsafety.org, page on roof-to-wall structural connections (date not shown): 50 psf uplift less 10 psf
of roof weight on a house 30 ft wide is 600 lb per foot of wall, 1,200 lb per truss at 2 ft. Named assumption: the page
factors neither load, so the check is of the statics alone: the reactions to a uniform 50 psf and to 10 psf.
"""

from __future__ import annotations

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.loads.load_path import Variant, build_map
from framing.members import MemberKind
from framing.plan import RoofType
from framing.run import make_run
from invariants.houses import plan_of


def test_a_truss_at_2_ft_on_a_30_ft_house_wants_1200_lb() -> None:
    plan = plan_of(
        [(0, 0), (40, 0), (40, 30), (0, 30)],
        type=RoofType.GABLE,
        overhang_ft=0.0,
        rake_overhang_ft=0.0,
        wall_thickness_ft=0.0,
    )
    run = make_run(plan, shipped_catalogue())
    to_bearings = build_map(plan, run.framing, run.patches, run.pieces, Variant.DECK)
    net_lb = to_bearings.apply((50.0 - 10.0) * run.pieces.area_ft2[:, None])[:, 0]
    commons = [
        lb
        for b, lb in zip(run.framing.bearings, net_lb, strict=True)
        if b.kind is MemberKind.COMMON and 6.0 < b.station_ft < 34.0
    ]
    assert len(commons) > 20
    np.testing.assert_allclose(commons, 1200.0, rtol=1e-9)
    assert commons[0] / 2.0 == pytest.approx(600.0)
