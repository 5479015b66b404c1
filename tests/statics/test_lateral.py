"""What pushes a bearing sideways, by hand on rectangles. Pressures from the figures, statics own.

The house: 40 ft by 24 ft, 9 ft 4 in. to the tie beam, 5:12 (22.62 degrees), 160 mph, Exposure C, enclosed, ASCE 7-22;
eave 11 ft 2 in. above ground, h = 11.1667 + 5/2 = 13.6667 ft, so K_z is that of 15 ft: 2.41 (15/2460)^(2/9.8);
a is 3 ft. Wall coefficients of fig. 30.3-1 (good): zone 4 suction -1.2766 + 0.1766 log A, zone 5 -1.7532
+ 0.3532 log A;
A = 9.333 x 9.333/3 = 29.037 sq ft. Fig. 28.3-1 at 22.62 degrees (solid): linear between 20 and 30.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from framing.catalogue_file import shipped_catalogue
from framing.lateral import Lateral, horizontal_force_lb, silhouette_ft2
from framing.members import MemberKind
from framing.outline import build_outline
from framing.plan import Exposure, MwfrsProcedure, Plan, RoofType
from framing.run import Run, make_run
from framing.wall_strips import wall_strips
from invariants.houses import changed_plan, moved, moved_plan, plan_of, random_plan

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


@pytest.mark.parametrize("seed", range(6))
def test_the_strips_of_every_wall_make_up_its_length(seed: int) -> None:
    run = run_of(random_plan(seed))
    strips = wall_strips(run.outline, run.framing.bearings)
    for k, wall in enumerate(run.outline.walls):
        own = [s.length_ft for s in strips if s.wall == k]
        assert not own or sum(own) == pytest.approx(wall.length_ft, abs=1e-9)
        assert all(length >= 0.0 for length in own)


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


def test_a_taller_wall_pushes_no_harder_along_itself_but_by_the_wind_at_the_roof() -> None:
    """The upper half of the walls is not in the push along them: the tie beam carries it to the cross walls."""
    low, high = (run_of(changed_plan(plan_of(BOX), wall_height_ft=h)) for h in (8.0, 10.0))
    for one, other in zip(low.lateral, high.lateral, strict=True):
        assert one is not None
        assert other is not None
        assert other.parallel_lb == (pytest.approx(one.parallel_lb[0]), pytest.approx(one.parallel_lb[1]))


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


def test_a_bearing_on_a_support_inside_has_no_wall_to_push_it() -> None:
    run = run_of(plan_of(BOX))
    inside = replace(run.framing.bearings[0], wall="S1")
    strips = wall_strips(build_outline(run.plan), (inside, *run.framing.bearings[1:]))
    assert 0 not in {s.bearing for s in strips}


def test_changing_the_height_of_the_wall_alone_changes_the_push_in_proportion_where_zones_and_areas_allow() -> None:
    """Twice the height of a low wall: twice the depth pushed, at a suction that a larger area lowers."""
    low, high = (run_of(changed_plan(plan_of(BOX), wall_height_ft=h)) for h in (8.0, 16.0))
    for one, other in zip(low.lateral, high.lateral, strict=True):
        assert one is not None
        assert other is not None
        assert other.perpendicular_lb[1] == pytest.approx(2.0 * one.perpendicular_lb[1])
