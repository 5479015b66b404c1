"""Wings, faces and lines of roofs small enough to draw by hand: 5:12, heel 6 in., eaves 2 ft, rakes 1 ft."""

from __future__ import annotations

import math
from collections import defaultdict

import numpy as np
import pytest

from framing.errors import LayoutError
from framing.frame_side import FrameSide
from framing.plan import RoofEdge, RoofType
from framing.roof.lines import LineKind
from framing.roof.surface import Roof, build_roof, own_height_ft, visible_height_ft
from framing.walls.outline import build_outline
from invariants.houses import plan_of

BOX = [(0, 0), (50, 0), (50, 28), (0, 28)]
TEE = [(0, 0), (20, 0), (20, -8), (41, -8), (41, 0), (64, 0), (64, 30), (0, 30)]
RISE, HEEL = 5 / 12, 0.5


def roof_of(outline: list[tuple[float, float]], **changed: object) -> Roof:
    plan = plan_of(outline, **changed)
    return build_roof(plan, build_outline(plan))


def lengths(roof: Roof) -> dict[LineKind, list[float]]:
    found: dict[LineKind, list[float]] = defaultdict(list)
    for line in roof.lines:
        found[line.kind].append(line.length_ft)
    return {kind: sorted(each) for kind, each in found.items()}


def test_a_hip_has_its_ridge_half_the_width_in_from_every_wall_and_hips_from_the_corners_of_the_eaves() -> None:
    roof = roof_of(BOX)
    (ridge,) = [line for line in roof.lines if line.kind is LineKind.RIDGE]
    assert sorted((ridge.start_ft, ridge.end_ft)) == [pytest.approx((x, 14.0, HEEL + 14 * RISE)) for x in (14.0, 36.0)]
    hip = math.sqrt(16**2 + 16**2 + (16 * RISE) ** 2)
    assert lengths(roof) == {
        LineKind.RIDGE: pytest.approx([22.0]),
        LineKind.HIP: pytest.approx([hip] * 4),
        LineKind.EAVE: pytest.approx([32.0, 32.0, 54.0, 54.0]),
    }
    assert roof.plan_area_ft2 == pytest.approx(54 * 32)


def test_a_gable_has_rakes_from_the_ridge_to_the_eaves_a_rake_overhang_past_the_wall() -> None:
    """16 ft of run at 5:12 are 17 ft 4 in. of rake, because 5, 12 and 13 make a right triangle."""
    roof = roof_of(BOX, type=RoofType.GABLE)
    assert lengths(roof) == {
        LineKind.RIDGE: pytest.approx([52.0]),
        LineKind.RAKE: pytest.approx([16 * 13 / 12] * 4),
        LineKind.EAVE: pytest.approx([52.0, 52.0]),
    }
    assert roof.plan_area_ft2 == pytest.approx(52 * 32)
    assert {line.start_ft[0] for line in roof.lines if line.kind is LineKind.RAKE} == {-1.0, 51.0}


def chambered(to_ft: float) -> list[tuple[float, float]]:
    """A house of 60 ft by 40 ft with a recess 9.5 ft wide behind a mouth of 3.5 ft, which the eaves close."""
    mouth = [(31.5, 40.0), (31.5, to_ft), (34.5, to_ft), (34.5, 30.0), (25.0, 30.0), (25.0, to_ft), (28.0, to_ft)]
    return [(0, 0), (60, 0), (60, 40), *mouth, (28, 40), (0, 40)]


def test_a_hole_that_the_eaves_leave_over_a_recess_stays_open_from_a_foot_on_and_is_refused_below() -> None:
    """The eaves take 2 ft on each side of 9.5 ft, and of 6 ft or of 4.5 ft."""
    assert roof_of(chambered(36.0)).plan_area_ft2 == pytest.approx(64 * 44 - 5.5 * 2.0)
    with pytest.raises(LayoutError, match=r"the eaves leave a hole of 5\.50 x 0\.50 ft over a recess by W7 and W8; "):
        roof_of(chambered(34.5))


def test_a_square_hip_has_no_ridge() -> None:
    found = lengths(roof_of([(0, 0), (28, 0), (28, 28), (0, 28)]))
    assert LineKind.RIDGE not in found
    assert len(found[LineKind.HIP]) == 4


def test_eave_and_mean_roof_height_are_measured_from_the_ground() -> None:
    """1 ft 4 in. to the floor, 9 ft 4 in. of wall, 6 in. of heel; the ridge 14 ft of run higher."""
    roof = roof_of(BOX)
    eave = 16 / 12 + 112 / 12 + HEEL
    assert roof.eave_height_ft == pytest.approx(eave)
    assert roof.highest_ft == pytest.approx(eave + 14 * RISE)


def test_a_tee_has_two_wings_the_wider_first_each_with_its_ridge_along_its_longer_side() -> None:
    main, tail = roof_of(TEE).wings
    assert (main.low_ft, main.high_ft, main.ridge_axis) == ((0, 0), (64, 30), 0)
    assert (tail.low_ft, tail.high_ft, tail.ridge_axis) == ((20, -8), (41, 30), 1)
    assert (main.half_width_ft, tail.half_width_ft) == (15.0, 10.5)
    assert not any((*main.gable, *tail.gable))


def test_the_valleys_of_a_tee_run_from_the_eaves_corners_to_where_the_tail_s_ridge_meets_the_main_slope() -> None:
    roof = roof_of(TEE)
    valleys = [line for line in roof.lines if line.kind is LineKind.VALLEY]
    ends = {tuple(round(v, 6) for v in p) for line in valleys for p in (line.start_ft, line.end_ft)}
    low = round(HEEL - 2 * RISE, 6)
    assert ends == {(18.0, -2.0, low), (43.0, -2.0, low), (30.5, 10.5, round(HEEL + 10.5 * RISE, 6))}
    ridges = [sorted((line.start_ft[:2], line.end_ft[:2])) for line in roof.lines if line.kind is LineKind.RIDGE]
    assert sorted(ridges) == [
        [pytest.approx((15, 15)), pytest.approx((49, 15))],
        [pytest.approx((30.5, 2.5)), pytest.approx((30.5, 10.5))],
    ]


def test_by_type_gable_the_main_wing_has_two_gables_and_the_tail_one_at_its_free_end() -> None:
    main, tail = roof_of(TEE, type=RoofType.GABLE).wings
    assert [s for s in FrameSide if main.gable[s]] == [FrameSide.X_LOW, FrameSide.X_HIGH]
    assert [s for s in FrameSide if tail.gable[s]] == [FrameSide.Y_LOW]


def test_an_edge_of_the_plan_makes_one_end_a_gable_and_the_ridge_runs_out_to_its_rake() -> None:
    edge = RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=None, to_ft=None)
    roof = roof_of(BOX, edges=(edge,))
    (ridge,) = [line for line in roof.lines if line.kind is LineKind.RIDGE]
    assert sorted(p[0] for p in (ridge.start_ft, ridge.end_ft)) == pytest.approx([14.0, 51.0])


def test_a_face_falls_square_to_the_wall_that_it_rises_from_and_the_faces_fill_the_eaves_once() -> None:
    roof = roof_of(TEE)
    outward = {side: side.outward for side in FrameSide}
    for face in roof.faces:
        assert face.downhill == pytest.approx(outward[face.side])
    assert sum(f.in_frame.area for f in roof.faces) == pytest.approx(roof.plan_area_ft2)
    assert roof.plan_area_ft2 == pytest.approx(68 * 34 + 25 * 8)


@pytest.mark.parametrize(
    ("point", "run_ft"),
    [((5.0, 15.0), 5.0), ((32.0, 3.0), 9.0), ((32.0, 12.0), 12.0), ((10.0, -1.0), -1.0), ((30.5, -9.5), -1.5)],
)
def test_the_roof_over_a_point_is_as_high_as_the_nearest_wall_of_the_wing_seen_there_allows(
    point: tuple[float, float], run_ft: float
) -> None:
    """In the tail's mouth, at (32, 3), its own slope is 9 ft in from its wall, the main slope 3 ft."""
    roof = roof_of(TEE)
    assert visible_height_ft(roof, np.array([point])) == pytest.approx([run_ft * RISE])
    own = max(own_height_ft(w, (2.0, 1.0), RISE, np.array([point]))[0] for w in roof.wings)
    assert own == pytest.approx(run_ft * RISE)
