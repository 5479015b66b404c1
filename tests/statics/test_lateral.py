"""What pushes a bearing sideways, by hand on rectangles. Pressures from the figures, statics own.

The house: 40 ft by 24 ft, 9 ft 4 in. to the tie beam, 5:12 (22.62 degrees), 160 mph, Exposure C, enclosed, ASCE 7-22;
eave 11 ft 2 in. above ground, h = 11.1667 + 5/2 = 13.6667 ft, so K_z is that of 15 ft: 2.41 (15/2460)^(2/9.8);
a is 3 ft. Wall coefficients of fig. 30.3-1 (good): zone 4 suction -1.2766 + 0.1766 log A, zone 5 -1.7532
+ 0.3532 log A;
A = 9.333 x 9.333/3 = 29.037 sq ft. Fig. 28.3-1 at 22.62 degrees (solid): linear between 20 and 30.
"""

from __future__ import annotations

import math

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.edition import Procedure, edition
from framing.members import MemberKind
from framing.plan import Exposure, Plan, RoofType
from framing.run import Run, make_run
from framing.sideways.pushes import Lateral, _larger, horizontal_force_lb, silhouette_ft2
from framing.walls.held_lengths import wall_strips
from invariants.houses import changed_plan, moved, moved_plan, plan_of, random_plan, supported_plan

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
HEIGHT_FT, RISE = 9 + 4 / 12, 5 / 12
Q_PSF = 0.00256 * 2.41 * (15 / 2460) ** (2 / 9.8) * 0.85 * 160.0**2
SHARE = (math.degrees(math.atan(RISE)) - 20.0) / 10.0
ZONE_1E_LESS_4E = (0.80 + (0.69 - 0.80) * SHARE) - (-0.64 + (-0.48 + 0.64) * SHARE)
ZONE_2_LESS_3 = (-0.69 + (0.21 + 0.69) * SHARE) - (-0.48 + (-0.43 + 0.48) * SHARE)


def run_of(plan: Plan) -> Run:
    return make_run(plan, shipped_catalogue())


def lateral(run: Run, wall: str, station_ft: float) -> Lateral:
    at = next(i for i, b in enumerate(run.framing.bearings) if b.wall == wall and abs(b.station_ft - station_ft) < 1e-6)
    found = run.lateral[at]
    assert found is not None
    return found


def test_square_to_the_wall_a_common_takes_half_the_wall_s_height_over_its_two_feet() -> None:
    run = run_of(plan_of(BOX, type=RoofType.GABLE))
    mid = next(b for b in run.framing.bearings if b.wall == "W1" and 19.0 < b.station_ft < 21.0)
    area = HEIGHT_FT**2 / 3.0
    net_psf = Q_PSF * (1.2766 - 0.1766 * math.log10(area) + 0.18)
    by_hand = 0.6 * net_psf * 2.0 * HEIGHT_FT / 2.0
    assert lateral(run, "W1", mid.station_ft).perpendicular_lb[0] == pytest.approx(by_hand, rel=1e-9)
    assert lateral(run, "W1", mid.station_ft).perpendicular_lb[1] == pytest.approx(0.6 * 16.0 * 2.0 * HEIGHT_FT / 2.0)


def test_near_the_corner_the_wall_is_zone_5() -> None:
    run = run_of(plan_of(BOX))
    jack = next(i for i, b in enumerate(run.framing.bearings) if b.kind is MemberKind.CORNER_JACK)
    strips = [s for s in wall_strips(run.outline, run.framing.bearings) if s.bearing == jack]
    assert len(strips) == 2  # both walls of its corner
    longest = max(s.length_ft for s in strips)
    area = HEIGHT_FT**2 / 3.0
    net_psf = Q_PSF * (1.7532 - 0.3532 * math.log10(area) + 0.18)
    found = run.lateral[jack]
    assert found is not None
    assert found.perpendicular_lb[0] == pytest.approx(0.6 * net_psf * longest * HEIGHT_FT / 2.0, rel=1e-9)


def test_the_wall_behind_a_porch_is_pushed_as_an_outside_wall_by_zone_5() -> None:
    # The porch stands before all 28 ft of the inside wall S2: its anchors share the whole of that wall, and no more.
    run = run_of(supported_plan("a porch"))
    rows = [i for i, b in enumerate(run.framing.bearings) if b.wall == "S2"]
    pushes = [found for i in rows if (found := run.lateral[i]) is not None]
    assert len(pushes) == len(rows) > 10
    assert sum(p.perpendicular_lb[1] for p in pushes) == pytest.approx(0.6 * 16.0 * 28.0 * HEIGHT_FT / 2.0)
    assert {p.parallel_lb for p in pushes} == {(0.0, 0.0)}
    area = HEIGHT_FT**2 / 3.0  # every strip is narrower than a third of the height
    q_psf = edition(run.plan.wind.edition).q_K_d_psf(run.plan.wind, run.loads.widths.h_ft, Procedure.CLADDING)
    net_psf = q_psf * (1.7532 - 0.3532 * math.log10(area) + 0.18)
    ratios = [p.perpendicular_lb[0] / p.perpendicular_lb[1] for p in pushes]
    assert ratios == pytest.approx([net_psf / 16.0] * len(rows))
    assert all(run.lateral[i] is None for i, b in enumerate(run.framing.bearings) if b.wall == "S1")


def test_the_silhouette_of_a_hip_is_a_trapezoid_and_of_a_gable_end_a_triangle_on_the_heel() -> None:
    """Heel 6 in., rise 12 ft x 5/12 = 5 ft: 40 x 0.5 + (40 + 16)/2 x 5 = 160 on y, 24 x 0.5 + 12 x 5 = 72 along x."""
    hip, gable = run_of(plan_of(BOX)).roof, run_of(plan_of(BOX, type=RoofType.GABLE)).roof
    assert silhouette_ft2(hip, 1) == pytest.approx(160.0)
    assert silhouette_ft2(hip, 0) == pytest.approx(72.0)
    assert silhouette_ft2(gable, 1) == pytest.approx(40 * 5.5)
    assert silhouette_ft2(gable, 0) == pytest.approx(72.0)


def test_the_wings_of_an_l_hide_one_another() -> None:
    """An L of two hips 24 ft wide, 40 ft long both ways: seen along x both wings show, the legs' hips alike."""
    ell = [(0, 0), (40, 0), (40, 24), (24, 24), (24, 40), (0, 40)]
    roof = run_of(plan_of(ell)).roof
    assert silhouette_ft2(roof, 0) == pytest.approx(160.0)  # the wing along y covers that along x
    assert silhouette_ft2(roof, 1) == pytest.approx(160.0)


def test_along_the_walls_the_wind_on_the_roof_is_shared_by_every_foot() -> None:
    """Wind along y on the 40 ft side of the hip: zone 2 less 3, 0.013 q, on 160 sq ft of roof, on the two 24 ft walls,
    48 ft; at least 8 psf: 0.6 x 8 x 160 / 48 = 16 lb on a foot, 32 lb on the two feet of an end jack.
    """
    run = run_of(plan_of(BOX))
    force = Q_PSF * ZONE_2_LESS_3 * 160.0
    found = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 1)
    assert found == (pytest.approx(force, rel=1e-9), pytest.approx(1280.0, rel=1e-9))
    at = next(i for i, b in enumerate(run.framing.bearings) if b.kind is MemberKind.END_JACK and b.station_ft > 10.0)
    push = run.lateral[at]
    assert push is not None
    assert push.parallel_lb == (pytest.approx(0.6 * force / 48.0 * 2.0, rel=1e-9), pytest.approx(32.0, rel=1e-9))
    assert run.schedule.marks[at].parallel_lb == pytest.approx(32.0, rel=1e-9)


def test_the_walls_that_run_along_the_ridge_share_the_wind_along_the_ridge() -> None:
    """Wind along x on the hip ends: 72 sq ft on the two 40 ft walls; at least 0.6 x 8 x 72 / 80 = 4.32 lb on a foot,
    8.64 lb on the two feet of a common. By the wind zone 2 less 3 as well (the hip end as the windward slope).
    """
    run = run_of(plan_of(BOX))
    mid = next(b for b in run.framing.bearings if b.wall == "W1" and 18.0 < b.station_ft < 20.0)
    by_wind = 0.6 * Q_PSF * ZONE_2_LESS_3 * 72.0 / 80.0 * 2.0
    found = lateral(run, "W1", mid.station_ft).parallel_lb
    assert found == (pytest.approx(by_wind, rel=1e-9), pytest.approx(8.64, rel=1e-9))


@pytest.mark.parametrize("box", [BOX, [(0, 0), (24, 0), (24, 40), (0, 40)]])
def test_a_corner_jack_takes_the_larger_of_its_two_walls_pushes(box: list[tuple[float, float]]) -> None:
    """The 40 x 24 ft hip has 160 sq ft on its 24 ft walls and 72 on its 40 ft ones; 24 x 40 the other way round. At
    least 0.6 x 8 x 160 / 48 = 16 lb on a foot of the short walls.
    """
    run = run_of(plan_of(box))
    strips = wall_strips(run.outline, run.framing.bearings)
    for i, b in enumerate(run.framing.bearings):
        found = run.lateral[i]
        assert found is not None
        assert found.gable_wall_lb == 0.0
        if b.kind is MemberKind.CORNER_JACK:
            (short,) = [s for s in strips if s.bearing == i and run.outline.walls[s.wall].length_ft < 30.0]
            assert found.parallel_lb[1] == pytest.approx(16.0 * short.length_ft)


def test_of_two_walls_the_one_that_pushes_harder_counts_with_both_of_its_figures() -> None:
    one = Lateral(parallel_lb=(10.0, 50.0), perpendicular_lb=(70.0, 20.0), gable_wall_lb=0.0)
    other = Lateral(parallel_lb=(30.0, 40.0), perpendicular_lb=(60.0, 15.0), gable_wall_lb=0.0)
    for pair in ((one, other), (other, one)):
        found = _larger(*pair)
        assert (found.parallel_lb, found.perpendicular_lb) == ((10.0, 50.0), (70.0, 20.0))


def test_a_wall_at_an_angle_takes_the_larger_push_of_both_directions_on_its_foot() -> None:
    """Own choice, safe side. The angled wall itself shares neither load: 36 and 40 ft run along x, 24 and 28 ft along
    y.
    """
    clipped = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
    run = run_of(plan_of(clipped))
    strips = wall_strips(run.outline, run.framing.bearings)
    per_foot = [
        0.6 * max(horizontal_force_lb(run.plan, run.roof, run.loads.widths, axis)) / length
        for axis, length in ((0, 36.0 + 40.0), (1, 24.0 + 28.0))
    ]
    assert max(per_foot) > 1.5 * min(per_foot)
    angled = [s for s in strips if run.outline.walls[s.wall].name == "W2"]
    side = [s for s in angled if run.framing.bearings[s.bearing].kind is MemberKind.SIDE_JACK]
    assert side
    for strip in side:
        found = run.lateral[strip.bearing]
        assert found is not None
        assert max(found.parallel_lb) == pytest.approx(max(per_foot) * strip.length_ft)


@pytest.mark.parametrize(
    "outline", [[(0, 0), (40, 0), (34, 24), (6, 24)], [(0, 0), (40, 0), (44, 10), (38, 24), (2, 24), (-4, 10)]]
)
def test_walls_at_an_angle_hold_all_the_wind_that_no_other_wall_can(outline: list[tuple[float, float]]) -> None:
    """A house with slanted ends, 24 ft deep: nothing but the slanted walls, 24 ft at either end in that direction,
    stands in the way of the wind on its long side: what they hold in that direction adds up to its push, so that every
    foot along them has 0.6 of it over 48.
    """
    run = run_of(plan_of(outline))
    push = horizontal_force_lb(run.plan, run.roof, run.loads.widths, 1)[1]
    assert push > 8.0 * 24.0 * 5.0
    names = {w.name for w in run.outline.walls} - {"W1", run.outline.walls[len(outline) // 2].name}
    strips = [s for s in wall_strips(run.outline, run.framing.bearings) if run.outline.walls[s.wall].name in names]
    for s in strips:
        found = run.lateral[s.bearing]
        assert found is not None
        if run.framing.bearings[s.bearing].kind is not MemberKind.CORNER_JACK:
            assert found.parallel_lb[1] == pytest.approx(0.6 * push / 48.0 * s.length_ft)


def test_a_taller_wall_pushes_no_harder_along_itself_but_by_the_wind_at_the_roof() -> None:
    """The upper half of the walls is not in the push along them: the tie beam carries it to the cross walls."""
    low, high = (run_of(changed_plan(plan_of(BOX), wall_height_ft=h)) for h in (8.0, 10.0))
    for one, other in zip(low.lateral, high.lateral, strict=True):
        assert one is not None
        assert other is not None
        assert other.parallel_lb == (pytest.approx(one.parallel_lb[0]), pytest.approx(one.parallel_lb[1]))


def test_a_gable_end_s_anchors_are_told_the_wall_s_pressure_and_not_given_it() -> None:
    """The strip of the anchor nearest the middle: its wall to half height and the triangle over it."""
    run = run_of(plan_of(BOX, type=RoofType.GABLE))
    total = 0.0
    for i, b in enumerate(run.framing.bearings):
        found, mark = run.lateral[i], run.schedule.marks[i]
        assert found is not None
        if b.kind is MemberKind.GABLE_END and b.wall == "W2":
            assert (found.perpendicular_lb, mark.perpendicular_lb) == ((0.0, 0.0), None)
            total += found.gable_wall_lb
        else:
            assert mark.perpendicular_lb == max(found.perpendicular_lb) or b.kind is MemberKind.GABLE_END
    zone_4, zone_5 = (
        Q_PSF * (c0 - c1 * math.log10(HEIGHT_FT**2 / 3.0) + 0.18) for c0, c1 in ((1.2766, 0.1766), (1.7532, 0.3532))
    )
    wall_and_gable = 24 * HEIGHT_FT / 2.0 + 72.0
    assert 0.6 * zone_4 * wall_and_gable < total < 0.6 * zone_5 * wall_and_gable


@pytest.mark.parametrize("wall", ["W2", "W4"])
def test_each_anchor_of_a_gable_end_is_told_its_strip_of_wall_and_of_gable(wall: str) -> None:
    """From the tie beam the gable is 6 in. + 5/12 of the way in high: up to y ft in 0.5 y + 5/24 y^2, 36 sq ft to the
    middle. Zone 5 within 3 ft of the ends; the area is the wall's height by the larger of the strip and its third.
    """
    run = run_of(plan_of(BOX, type=RoofType.GABLE))

    def gable_ft2(to_ft: float) -> float:
        half = min(to_ft, 24.0 - to_ft)
        area = 0.5 * half + 5.0 / 24.0 * half**2
        return area if to_ft <= 12.0 else 72.0 - area

    strips = [s for s in wall_strips(run.outline, run.framing.bearings) if run.outline.walls[s.wall].name == wall]
    assert len(strips) >= 7
    for s in strips:
        area = HEIGHT_FT * max(s.length_ft, HEIGHT_FT / 3.0)
        four, five = (Q_PSF * (c0 - c1 * math.log10(area) + 0.18) for c0, c1 in ((1.2766, 0.1766), (1.7532, 0.3532)))
        in_five = max(0.0, min(s.to_ft, 3.0) - s.from_ft) + max(0.0, s.to_ft - max(s.from_ft, 21.0))
        psf = 0.6 * (four + (five - four) * in_five / s.length_ft)
        by_hand = psf * (s.length_ft * HEIGHT_FT / 2.0 + gable_ft2(s.to_ft) - gable_ft2(s.from_ft))
        found = run.lateral[s.bearing]
        assert found is not None
        assert found.gable_wall_lb == pytest.approx(by_hand, rel=1e-9)


@pytest.mark.parametrize("exposure", list(Exposure))
def test_a_faster_wind_pushes_harder_and_by_the_square(exposure: Exposure) -> None:
    slow, fast = (run_of(plan_of(BOX, exposure=exposure, speed_mph=mph)) for mph in (100.0, 200.0))
    for one, other in zip(slow.lateral, fast.lateral, strict=True):
        assert one is not None
        assert other is not None
        for push in ("parallel_lb", "perpendicular_lb"):
            by_wind, least = getattr(one, push)
            assert getattr(other, push) == (pytest.approx(4.0 * by_wind), pytest.approx(least))


@pytest.mark.parametrize(("turn_deg", "mirror"), [(90.0, False), (33.0, False), (0.0, True)])
@pytest.mark.parametrize("seed", range(6))
def test_turning_and_mirroring_change_no_push(seed: int, turn_deg: float, *, mirror: bool) -> None:
    plan = random_plan(seed)
    here, there = run_of(plan), run_of(moved_plan(plan, turn_deg, mirror=mirror))
    places = np.array([b.point_ft for b in there.framing.bearings])
    for b, one in zip(here.framing.bearings, here.lateral, strict=True):
        at = moved(b.point_ft, turn_deg, mirror=mirror, shift=(0.0, 0.0))
        near = np.flatnonzero(np.hypot(*(places - at).T) < 2e-3)
        alike = [there.lateral[j] for j in near if there.framing.bearings[j].kind is b.kind]
        assert one is not None
        assert any(
            other is not None
            and other.parallel_lb == pytest.approx(one.parallel_lb, abs=1e-6)
            and other.perpendicular_lb == pytest.approx(one.perpendicular_lb, abs=1e-6)
            and other.gable_wall_lb == pytest.approx(one.gable_wall_lb, abs=1e-6)
            for other in alike
        ), b.mark


def test_changing_the_height_of_the_wall_alone_changes_the_push_in_proportion_where_zones_and_areas_allow() -> None:
    """Twice the height of a low wall: twice the depth pushed, at a suction that a larger area lowers."""
    low, high = (run_of(changed_plan(plan_of(BOX), wall_height_ft=h)) for h in (8.0, 16.0))
    for one, other in zip(low.lateral, high.lateral, strict=True):
        assert one is not None
        assert other is not None
        assert other.perpendicular_lb[1] == pytest.approx(2.0 * one.perpendicular_lb[1])
