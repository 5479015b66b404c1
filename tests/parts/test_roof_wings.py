"""Wings by themselves, in numbers small enough to see: half-widths, what a wing covers; and the marks of gables."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import box

from framing.errors import PlanError
from framing.frame_side import SIDES, FrameSide
from framing.plan import Point, RoofEdge, RoofType
from framing.roof.lines import LineKind
from framing.roof.surface import Roof, build_roof, own_height_ft
from framing.roof.visible_faces import less_no_eave
from framing.roof.wings import Wing, covers, reach, side_line
from framing.walls.outline import build_outline
from invariants.houses import plan_of

NO_GABLE = (False, False, False, False)
CLIPPED: list[Point] = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
CROSSED: list[Point] = [(0, 0), (40, 0), (40, 30), (30, 30), (30, 50), (10, 50), (10, 30), (0, 30)]


def wing(x_ft: float, y_ft: float, gable: tuple[bool, bool, bool, bool] = NO_GABLE, cut: bool = False) -> Wing:
    """A wing with its low corner at (5, 3) and its ridge along x, `cut` without 2 ft of the eave on its x-low side."""
    no_eave = ((3.0, 4.0, 5.0, 6.0),) if cut else ()
    high = (5.0 + x_ft, 3.0 + y_ft)
    return Wing(name="wing 1", low_ft=(5.0, 3.0), high_ft=high, ridge_axis=0, gable=gable, no_eave_ft=no_eave)


def roof_of(ring: list[Point], **changed: object) -> Roof:
    plan = plan_of(ring, **changed)
    return build_roof(plan, build_outline(plan))


def mark(wall: str, kind: RoofType, from_ft: float | None = None, to_ft: float | None = None) -> RoofEdge:
    return RoofEdge(wall=wall, type=kind, from_ft=from_ft, to_ft=to_ft)


def rakes(roof: Roof) -> set[tuple[float, float]]:
    """The lines that the rakes lie on: whether upright, and where."""
    lines = [line for line in roof.lines if line.kind is LineKind.RAKE]
    upright = [math.isclose(line.start_ft[0], line.end_ft[0]) for line in lines]
    return {(up, round(line.start_ft[0 if up else 1], 6)) for up, line in zip(upright, lines, strict=True)}


def test_only_a_wing_as_long_as_wide_with_hips_all_round_has_a_point_for_a_ridge() -> None:
    assert wing(20, 20).square
    assert not wing(24, 20).square
    assert not wing(20, 20, (True, False, False, False)).square


@pytest.mark.parametrize(
    ("along_ft", "across_ft", "gables", "half_ft"),
    [(40, 28, 0, 14), (40, 28, 2, 14), (12, 30, 2, 15), (12, 30, 1, 12), (20, 30, 1, 15), (12, 30, 0, 6)],
)
def test_a_ridge_lies_half_the_width_in_but_no_farther_than_the_hips_at_its_ends_have_room(
    along_ft: float, across_ft: float, gables: int, half_ft: float
) -> None:
    """Equal pitches: a hip's plane over a point is as high as the point lies deep in from the end."""
    ends = (gables > 0, gables > 1, False, False)
    assert wing(along_ft, across_ft, ends).half_width_ft == half_ft


def test_a_side_s_line_is_the_distance_in_from_it() -> None:
    lines = [side_line(wing(20, 30), side) for side in SIDES]
    assert [a * 9.0 + b * 4.5 + c for a, b, c in lines] == [4.0, 16.0, 1.5, 28.5]


def test_a_wing_s_roof_reaches_the_eave_s_overhang_past_hips_and_the_rake_s_past_gables() -> None:
    assert reach(wing(20, 30, (False, True, False, False)), (2.0, 1.0)) == (3.0, 1.0, 26.0, 35.0)


def test_where_another_wing_s_gable_stands_a_wing_has_no_eave() -> None:
    points = np.array([(4.0, 5.0), (4.0, 6.5), (4.0, 2.0), (2.5, 6.5), (15.0, 20.0), (15.0, 36.0)])
    assert covers(wing(20, 30, cut=True), (2.0, 1.0), points).tolist() == [False, True, True, False, True, False]
    assert covers(wing(20, 30), (2.0, 1.0), points).tolist() == [True, True, True, False, True, False]
    whole = box(3.0, 1.0, 27.0, 35.0)
    assert less_no_eave(whole, wing(20, 30, cut=True)).area == whole.area - 4.0
    assert less_no_eave(whole, wing(20, 30)) is whole


def test_without_a_slope_a_wing_s_roof_goes_on_rising_from_the_others() -> None:
    """10 ft in from x-low, 3 ft in from y-low and 27 ft from y-high; with no slope left nothing bounds it."""
    at, own = np.array([(15.0, 6.0)]), wing(60, 30)
    without: list[tuple[FrameSide, ...]] = [(), (FrameSide.Y_LOW,), (FrameSide.Y_LOW, FrameSide.X_LOW)]
    found = [float(own_height_ft(own, (2.0, 1.0), 0.5, at, w)[0]) for w in without]
    assert found == [1.5, 5.0, 13.5]
    assert own_height_ft(own, (2.0, 1.0), 0.5, np.array([(-9.0, 6.0)])).tolist() == [-math.inf]


def test_of_two_wings_as_wide_the_longer_comes_first() -> None:
    """A Z of two wings 24 ft wide, 50 and 60 ft long, and what they share."""
    roof = roof_of([(0, 0), (50, 0), (50, 10), (80, 10), (80, 34), (20, 34), (20, 24), (0, 24)])
    assert [w.size_ft for w in roof.wings if min(w.size_ft) == 24.0] == [(60.0, 24.0), (50.0, 24.0)]
    assert [w.name for w in roof.wings] == [f"wing {k}" for k in range(1, len(roof.wings) + 1)]
    assert all(roof.wing(w.name) is w for w in roof.wings)


def test_a_hip_mark_cuts_a_gable_mark_and_what_is_left_of_it_still_gables_the_wing_that_ends_there() -> None:
    """Both wings end on W1, 40 ft long: the one across it from 10 to 30 ft. A hip on 8 ft leaves it a gable."""
    gable, hip = mark("W1", RoofType.GABLE), mark("W1", RoofType.HIP, 0.0, 8.0)
    stem = next(w for w in roof_of(CROSSED, edges=(gable, hip)).wings if w.size_ft == (20.0, 50.0))
    assert stem.gable == (False, False, True, False)
    with pytest.raises(PlanError, match="a gable there changes nothing"):
        roof_of(CROSSED, edges=(gable, mark("W1", RoofType.HIP, 0.0, 12.0)))


def test_along_another_wing_s_gable_the_eave_stops_and_past_the_gable_it_runs_on() -> None:
    """The stem's gable stands 20 ft wide in the eave of W1: under it the wing along W1 has no eave, beside it 2 ft."""
    roof = roof_of(CROSSED, edges=(mark("W1", RoofType.GABLE, 10.0, 30.0),))
    (main,) = [w for w in roof.wings if w.size_ft == (40.0, 30.0)]
    assert main.no_eave_ft == ((10.0, -2.0, 30.0, 0.0),)
    over = roof.eave_in_frame.intersection(box(-9.0, -9.0, 49.0, 0.0))
    assert over.symmetric_difference(box(-2, -2, 10, 0) | box(10, -1, 30, 0) | box(30, -2, 42, 0)).area < 1e-6


def test_by_type_gables_beside_an_angled_wall_stand_only_on_whole_walls_between_square_corners() -> None:
    """The east wall lost its lower 4 ft to the angled one: it stays a hip."""
    roof = roof_of(CLIPPED, type=RoofType.GABLE)
    assert rakes(roof) == {(True, -1.0)}
    assert roof.eave_in_frame.bounds == pytest.approx((-1.0, -2.0, 42.0, 30.0))
    assert rakes(roof_of([(0, 0), (40, 0), (40, 28), (0, 28)], type=RoofType.GABLE)) == {(True, -1.0), (True, 41.0)}


@pytest.mark.parametrize("edge", [mark("W3", RoofType.GABLE), mark("W5", RoofType.GABLE, 0.0, 14.0)])
def test_beside_an_angled_wall_no_part_of_a_wall_and_none_that_the_angled_one_cuts_is_marked_as_a_gable(
    edge: RoofEdge,
) -> None:
    with pytest.raises(PlanError, match=rf"wall {edge.wall}: in a plan with angled walls a gable takes a whole wall"):
        roof_of(CLIPPED, edges=(edge,))


@pytest.mark.parametrize(
    ("wide_ft", "deep_ft", "told"),
    [(3.0, 4.0, "Eaves meet over a recess"), (9.0, 4.0, ""), (9.0, 20.0, "")],
)
def test_eaves_that_meet_over_a_recess_are_told_and_an_open_recess_is_not(
    wide_ft: float, deep_ft: float, told: str
) -> None:
    """Two eaves of 2 ft close a recess of less than 4 ft."""
    ring: list[Point] = [
        (0, 0),
        (20, 0),
        (20, deep_ft),
        (20 + wide_ft, deep_ft),
        (20 + wide_ft, 0),
        (60, 0),
        (60, 40),
        (0, 40),
    ]
    notes = roof_of(ring).notes
    assert [n.split(" narrower")[0] for n in notes] == ([told] if told else [])


def test_an_open_hole_between_the_eaves_is_told() -> None:
    """A mouth of 3.5 ft before a recess of 9.5 ft by 6 ft: the eaves close the mouth and leave 5.5 ft by 2 ft."""
    mouth: list[Point] = [(31.5, 40), (31.5, 36), (34.5, 36), (34.5, 30), (25, 30), (25, 36), (28, 36), (28, 40)]
    notes = roof_of([(0, 0), (60, 0), (60, 40), *mouth, (0, 40)]).notes
    assert [n.split(" ")[0:5] for n in notes] == [
        ["The", "eaves", "leave", "an", "open"],
        ["Eaves", "meet", "over", "a", "recess"],
    ]


@pytest.mark.parametrize(("wall_ft", "refused"), [(54.4, False), (54.8, True)])
def test_a_house_is_refused_from_a_mean_roof_height_of_60_ft_on(wall_ft: float, refused: bool) -> None:
    """1 ft 4 in. to the floor, 6 in. of heel, 14 ft of run at 6:12: the mean lies 3.5 ft over the eave.

    Source: ASCE 7-22, sec. 28.2 and 30.3 (low-rise buildings).
    """
    ring: list[Point] = [(0, 0), (50, 0), (50, 28), (0, 28)]
    changed = {"rise_per_run": 0.5, "wall_height_ft": wall_ft, "ground_to_floor_ft": 4 / 3}
    if not refused:
        roof = roof_of(ring, **changed)
        assert (roof.eave_height_ft + roof.highest_ft) / 2 == pytest.approx(59.7333, abs=1e-3)
        return
    with pytest.raises(PlanError, match=r"mean roof height comes to 60\.1 ft"):
        roof_of(ring, **changed)
