"""Where members stand, on houses small enough to lay out by hand: 8 in. walls, 2 ft spacing, 5:12, eaves 2 ft."""

from __future__ import annotations

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.layout.gable_ends import anchor_places_ft
from framing.layout.hip_corners import side_jack_distances
from framing.members import Member, MemberKind
from framing.plan import RoofType
from framing.run import Run, make_run
from invariants.houses import plan_of

HALF_WALL = 4 / 12
BOX = [(0, 0), (50, 0), (50, 28), (0, 28)]


def run_of(outline: list[tuple[float, float]], **changed: object) -> Run:
    return make_run(plan_of(outline, **changed), shipped_catalogue())


def of_kind(run: Run, *kinds: MemberKind) -> list[Member]:
    return [m for m in run.framing.members if m.kind in kinds]


def tee(tail_ft: float, width_ft: float = 21.0) -> list[tuple[float, float]]:
    """A house of 64 ft by 30 ft with a tail on its south side from x = 20 ft on."""
    far = 20.0 + width_ft
    return [(0, 0), (20, 0), (20, -tail_ft), (far, -tail_ft), (far, 0), (64, 0), (64, 30), (0, 30)]


@pytest.mark.parametrize("rake_ft", [0.5, 1.0, 1.5])
def test_a_gable_end_takes_half_its_bay_and_the_rake_overhang_whatever_the_eaves_are(rake_ft: float) -> None:
    """Flush: its middle is half a ply in from the block's face, the next truss 2 ft."""
    run = run_of(
        [(0, 0), (40, 0), (40, 26), (0, 26)], type=RoofType.GABLE, rake_overhang_ft=rake_ft, gable_truss_ft=0.0
    )
    ends = of_kind(run, MemberKind.GABLE_END)
    assert [m.frame_ft[0][0] for m in ends] == pytest.approx([0.75 / 12, 40 - 0.75 / 12])
    assert [m.width_ft for m in ends] == pytest.approx([(2.0 - 0.75 / 12) / 2 + rake_ft] * 2)


@pytest.mark.parametrize("tail_ft", [8.0, 40.0])
def test_valley_trusses_are_laid_from_the_mouth_of_a_tail_inward_however_long_the_tail_is(
    tail_ft: float,
) -> None:
    """The tail, 20.5 ft wide, is seen over the main slope as a triangle that ends 10.25 ft in: the first piece stands a
    spacing in from the mouth, and each is shorter than the mouth by twice its distance from it.
    """
    valleys = of_kind(run_of(tee(tail_ft, 20.5)), MemberKind.VALLEY)
    assert [(m.start_ft[1], m.span_ft) for m in valleys] == [
        (pytest.approx(at), pytest.approx(20.5 - 2 * at)) for at in (2.0, 4.0, 6.0, 8.0)
    ]


def test_over_a_main_wing_that_lies_the_other_way_the_valley_is_laid_from_the_same_end() -> None:
    turned = [(-y, x) for x, y in tee(8.0, 20.5)]
    valleys = of_kind(run_of(turned), MemberKind.VALLEY)
    assert [(m.start_ft[0], m.span_ft) for m in valleys] == [
        (pytest.approx(-at), pytest.approx(20.5 - 2 * at)) for at in (2.0, 4.0, 6.0, 8.0)
    ]


def test_hip_girders_stand_at_the_setback_and_the_trusses_between_them_drop_where_the_ridge_has_not_begun() -> None:
    """The ridge of a hip 28 ft wide begins 14 ft in."""
    run = run_of(BOX)
    kinds = (MemberKind.HIP_GIRDER, MemberKind.STEP_DOWN, MemberKind.COMMON)
    places = sorted((m.frame_ft[0][0], m.kind) for m in of_kind(run, *kinds))
    assert [x for x, _ in places] == pytest.approx([7.0 + 2 * k for k in range(19)])
    for x, kind in places:
        along = min(x, 50 - x)
        wanted = MemberKind.HIP_GIRDER if along == 7 else MemberKind.STEP_DOWN if along < 14 else MemberKind.COMMON
        assert kind is wanted, x


@pytest.mark.parametrize(("start", "first_ft"), [("W1", 0.0), ("W2", 41.5)])
def test_the_odd_bay_is_the_last_before_the_end_far_from_the_start(start: str, first_ft: float) -> None:
    """41.5 ft: twenty bays of 2 ft from the start's end, the rest at the other."""
    run = run_of([(0, 0), (41.5, 0), (41.5, 26), (0, 26)], type=RoofType.GABLE, start=start)
    places = sorted(abs(m.frame_ft[0][0] - first_ft) for m in of_kind(run, MemberKind.COMMON))
    assert places == pytest.approx([2.0 * k for k in range(1, 21)])


def test_a_truss_runs_from_mid_thickness_to_mid_thickness_and_its_tails_to_the_eaves() -> None:
    for m in of_kind(run_of(BOX), MemberKind.COMMON):
        assert (m.frame_ft[0][1], m.frame_ft[1][1]) == pytest.approx((HALF_WALL, 28 - HALF_WALL))
        assert (m.tail_start_ft, m.tail_end_ft) == pytest.approx((2 + HALF_WALL, 2 + HALF_WALL))


@pytest.mark.parametrize(
    ("overhang_ft", "built", "bounds"),
    [(2.0, [2.0, 4.0, 6.0], [1.0, 3.0, 5.0, 6.5]), (3.0, [4.0, 6.0], [3.0, 5.0, 6.5]), (6.5, [], [6.5])],
)
def test_side_jacks_stand_at_the_spacing_and_those_shorter_than_the_overhang_are_left_to_the_corner_jack(
    overhang_ft: float, built: list[float], bounds: list[float]
) -> None:
    plan = plan_of(BOX, overhang_ft=overhang_ft)
    assert side_jack_distances(plan, 7.0) == (built, bounds)


def test_each_hip_corner_has_a_jack_of_its_own_and_side_jacks_along_both_walls() -> None:
    run = run_of(BOX)
    assert len(of_kind(run, MemberKind.CORNER_JACK)) == 4
    feet = sorted(m.frame_ft[0] for m in of_kind(run, MemberKind.SIDE_JACK))
    near = [(x, HALF_WALL) for x in (2, 4, 6)] + [(HALF_WALL, y) for y in (2, 4, 6)]
    wanted = {(x if a else 50 - x, y if b else 28 - y) for x, y in near for a in (0, 1) for b in (0, 1)}
    assert feet == [pytest.approx(p) for p in sorted(wanted)]


def test_end_jacks_run_from_the_end_wall_to_the_hip_girder_between_the_corner_jacks() -> None:
    west = [m for m in of_kind(run_of(BOX), MemberKind.END_JACK) if m.frame_ft[0][0] < 25]
    assert sorted(m.frame_ft[0][1] for m in west) == pytest.approx([7.0 + 2 * k for k in range(8)])
    assert {m.frame_ft[1][0] for m in west} == {7.0}


@pytest.mark.parametrize(
    ("length_ft", "from_low", "places"),
    [
        (26.0, True, [1, 5, 9, 13, 17, 21, 25]),
        (27.0, True, [1, 5, 9, 13, 17, 21, 25, 26]),
        (27.0, False, [1, 2, 6, 10, 14, 18, 22, 26]),
        (25.2, True, [1, 5, 9, 13, 17, 21, 24.2]),
        (2.2, True, [1.1]),
    ],
)
def test_a_gable_s_anchors_stand_a_foot_from_each_end_and_at_the_spacing_between(
    length_ft: float, from_low: bool, places: list[float]
) -> None:
    found = anchor_places_ft(3.0, 3.0 + length_ft, 4.0, from_low=from_low)
    assert found == pytest.approx([3.0 + at for at in places])


@pytest.mark.parametrize(("step_ft", "n_girders", "n_corners"), [(1.9, 0, 4), (2.1, 0, 6), (4.1, 1, 6)])
def test_a_step_under_two_feet_is_framed_straight_through_one_of_two_by_longer_trusses_and_one_over_four_by_a_girder(
    step_ft: float, n_girders: int, n_corners: int
) -> None:
    stepped = [(0, 0), (24, 0), (24, -step_ft), (48, -step_ft), (48, 28), (0, 28)]
    run = run_of(stepped)
    assert len(of_kind(run, MemberKind.GIRDER)) == n_girders
    assert len(run.framing.framed_ft) == n_corners


def test_the_chord_at_a_tail_s_mouth_is_a_girder_on_the_bearing_line_of_the_wall_that_it_continues() -> None:
    (girder,) = of_kind(run_of(tee(8.0)), MemberKind.GIRDER)
    assert girder.plies == 2
    assert [p[1] for p in girder.frame_ft] == pytest.approx([HALF_WALL] * 2)
    assert [p[0] for p in girder.frame_ft] == pytest.approx([20 + HALF_WALL, 41 - HALF_WALL])
