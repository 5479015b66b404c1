"""What goes in sideways comes out: force and moment of every case, and a house with gables by hand. Statics own.

The house by hand: 40 ft by 24 ft, gables on the 24 ft walls, 9 ft 4 in. to the tie beam, 5:12 (22.62 degrees), heel
6 in., 160 mph, Exposure C, enclosed, ASCE 7-22; eave 11 ft 2 in. above ground, h = 11.1667 + 5/2 = 13.6667 ft, so that
K_z is that of 15 ft: 2.41 (15/2460)^(2/9.8); a is 3 ft. Fig. 28.3-1 (solid): load case 1 linear between 20 and 30
degrees, load case 2 as printed. Fig. 30.3-1 (good): zone 4 suction -1.2766 + 0.1766 log A, zone 5 -1.7532 + 0.3532
log A.
"""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.plan import MwfrsProcedure, Plan, Porch, RoofType, Support, SupportKind
from framing.plan_masonry import TopsHeldBy
from framing.run import Run, make_run
from framing.sideways.deck import line_forces_lb
from framing.sideways.lines import lever_shares
from framing.sideways.pushes import Sideways
from invariants.houses import SAMPLES, SUPPORTED, house_plan, moved, moved_plan, plan_of, random_plan

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
ELL = [(0, 0), (60, 0), (60, 28), (24, 28), (24, 52), (0, 52)]
HEIGHT_FT, RISE, HEEL_FT, A_FT = 9 + 4 / 12, 5 / 12, 0.5, 3.0
Q_PSF = 0.00256 * 2.41 * (15 / 2460) ** (2 / 9.8) * 0.85 * 160.0**2
SHARE = (math.degrees(math.atan(RISE)) - 20.0) / 10.0


def between(at_20: float, at_30: float) -> float:
    return at_20 + (at_30 - at_20) * SHARE


ZONE_1, ZONE_1E = between(0.53, 0.56), between(0.80, 0.69)
ZONE_4, ZONE_4E = between(-0.43, -0.37), between(-0.64, -0.48)
ZONE_2, ZONE_2E = between(-0.69, 0.21), between(-1.07, 0.27)
ZONE_3, ZONE_3E = between(-0.48, -0.43), between(-0.69, -0.53)


def run_of(plan: Plan, held_by: TopsHeldBy = TopsHeldBy.ROOF) -> Run:
    return make_run(replace(plan, masonry=replace(plan.masonry, tops_held_by=held_by)), shipped_catalogue())


def out_of_balance(found: Sideways) -> float:
    """The worst of force along x, force along y and moment about the vertical, over all cases and both readings, each
    over the sum of the magnitudes of the forces that the walls bring.
    """
    off = []
    for reading in found.readings:
        lines = line_forces_lb(found.deck, reading)
        off += [np.abs(lines[axis].sum(axis=0) - reading.force_lb[axis]).max() for axis in (0, 1)]
        at = [found.deck.line_ft(axis) for axis in (0, 1)]
        turned = reading.moment_lbft[1] - reading.moment_lbft[0]  # x F_y - y F_x
        off.append(np.abs(turned - (at[1] @ lines[1] - at[0] @ lines[0])).max() / 100.0)
    pressed = found.parts.length_ft.sum() * 10.0 * np.abs(found.loads.wall_psf).max()
    return float(np.max(off) / pressed)


def anchors_pass_on_what_the_lines_take(found: Sideways) -> None:
    """Along x and along y the anchors of all walls together put into the beam what the deck's lines take."""
    for axis in (0, 1):
        passed = found.along_lb[:, :, axis].sum(axis=0)
        assert passed == pytest.approx(found.lines_lb[axis].sum(axis=0), rel=1e-9, abs=1e-6)


HOUSES = (*SAMPLES, *SUPPORTED, 3, 11, 24)


@pytest.mark.parametrize("held_by", list(TopsHeldBy))
@pytest.mark.parametrize("house", HOUSES)
def test_in_every_case_force_and_moment_about_the_vertical_balance(house: int | str, held_by: TopsHeldBy) -> None:
    found = run_of(house_plan(house), held_by).sideways
    assert out_of_balance(found) <= 1e-9
    anchors_pass_on_what_the_lines_take(found)


def open_front() -> Plan:
    """A hip whose south wall is all porch beam: only one line of walls runs along x."""
    beam = Support(kind=SupportKind.BEAM, start_ft=(0.0, 0.0), end_ft=(26.0, 0.0), holds_down=False)
    floor = Porch(corners_ft=((0.0, 0.0), (26.0, 0.0), (26.0, 10.0), (0.0, 10.0)))
    return plan_of([(0, 0), (26, 0), (26, 30), (0, 30)], supports=(beam,), porches=(floor,))


@pytest.mark.parametrize("held_by", list(TopsHeldBy))
def test_where_one_line_alone_holds_an_axis_the_others_hold_what_turns_about_it(held_by: TopsHeldBy) -> None:
    found = run_of(open_front(), held_by).sideways
    assert [len(lines) for lines in found.deck.lines] == [1, 2]
    assert out_of_balance(found) <= 1e-9
    anchors_pass_on_what_the_lines_take(found)


@pytest.mark.full
@pytest.mark.parametrize("seed", range(2000))
def test_on_two_thousand_random_houses_too(seed: int) -> None:
    held_by = list(TopsHeldBy)[seed % 2]
    procedure = list(MwfrsProcedure)[seed // 2 % 2]
    found = run_of(replace(random_plan(seed), wind=replace(plan_of(BOX).wind, mwfrs_procedure=procedure)), held_by)
    assert out_of_balance(found.sideways) <= 1e-9
    anchors_pass_on_what_the_lines_take(found.sideways)


@pytest.mark.parametrize("held_by", list(TopsHeldBy))
@pytest.mark.parametrize(("turn_deg", "mirror"), [(90.0, False), (37.0, False), (0.0, True), (90.0, True)])
@pytest.mark.parametrize("seed", [1, 6, 13])
def test_a_house_turned_or_mirrored_is_pushed_the_same(
    seed: int, turn_deg: float, mirror: bool, held_by: TopsHeldBy
) -> None:
    here, there = (
        run_of(p, held_by) for p in (random_plan(seed), moved_plan(random_plan(seed), turn_deg, mirror=mirror))
    )
    for i, b in enumerate(here.framing.bearings):
        spot = moved(b.point_ft, turn_deg, mirror=mirror, shift=(0.0, 0.0))
        near = [
            j for j, o in enumerate(there.framing.bearings) if math.dist(o.point_ft, spot) < 1e-6 and o.kind is b.kind
        ]
        mine = asked_of(here, i)
        theirs = [asked_of(there, j) for j in near]
        assert any(other == pytest.approx(mine, abs=1e-6) for other in theirs)


def asked_of(run: Run, i: int) -> list[float]:
    """The largest pushes on the strap's axes; on the wall's too, but at a corner, whose mirror image is on the other
    wall.
    """
    d = run.demands
    corner = run.framing.bearings[i].kind is MemberKind.CORNER_JACK
    on_wall = [] if corner else [d.along_wall_lb[i].max(), d.square_lb[i].max()]
    return [d.demand.across_lb[i].max(), d.demand.along_lb[i].max(), *on_wall]


def test_between_two_lines_a_force_goes_by_the_lever_and_past_the_last_one_it_pulls_the_other_way() -> None:
    """On lines at 0, 20 and 30 ft: at 5 ft three quarters and one; at 36 ft 1.6 on the last, -0.6 on the one before."""
    share, _ = lever_shares(np.array([5.0, 20.0, 36.0]), np.array([0.0, 20.0, 30.0]))
    assert share == pytest.approx(np.array([[0.75, 0.25, 0.0], [0.0, 1.0, 0.0], [0.0, -0.6, 1.6]]))


def gabled(**changed: object) -> Run:
    return run_of(plan_of(BOX, type=RoofType.GABLE, **changed))


def case(run: Run, *words: str) -> int:
    (found,) = [k for k, c in enumerate(run.sideways.cases) if all(w in c.name for w in words)]
    return found


def row(run: Run, wall: str, low_ft: float, high_ft: float) -> int:
    return next(i for i, b in enumerate(run.framing.bearings) if b.wall == wall and low_ft < b.station_ft < high_ft)


def test_wind_along_the_ridge_goes_to_the_long_walls_with_the_gables_triangles() -> None:
    """Onto W4 (x = 0), internal pressure out of it. Of each end wall H/2 + heel on 24 ft and the triangle 12 x 5; end
    strips 5E and 6E 3 ft from the reference corner, their part of the triangle 3 x 1.25/2. By the lever rule the
    strip's middle gives its excess to the line near it.
    """
    run = gabled()
    k = case(run, "wind onto W4, right corner, internal +0.18")
    whole = (HEIGHT_FT / 2 + HEEL_FT) * 24.0 + 60.0
    strip, near_end = (HEIGHT_FT / 2 + HEEL_FT) * 3.0, 3.0 * 1.25 / 2
    excess = 0.6 * Q_PSF * ((0.61 - 0.40) + (0.43 - 0.29))
    even = 0.6 * Q_PSF * (0.40 + 0.29) * whole
    turned = excess * (strip * 1.5 + near_end * 2.0) / 24.0
    lines = run.sideways.lines_lb[0][:, k]
    assert lines.sum() == pytest.approx(even + excess * (strip + near_end), rel=1e-9)
    assert sorted(lines) == pytest.approx([even / 2 + turned, even / 2 + excess * (strip + near_end) - turned])
    near = run.sideways.lines_lb[0][:, k].max()
    mid = row(run, "W1", 19.0, 21.0)
    along = abs(run.sideways.along_lb[mid, k, 0])
    assert along == pytest.approx(near / 40.0 * 2.0) or along == pytest.approx(lines.min() / 40.0 * 2.0)


def test_wind_across_the_ridge_goes_to_the_end_walls_with_the_roof_s_push_or_without_it() -> None:
    """Onto W1: zones 1 and 4 on H/2 + heel of 40 ft, the end strip 2a = 6 ft; with the slopes' part (zone 2 less 3 on 5
    ft of rise) the sum is smaller here, zone 2 being suction: the reading without the roof holds.
    """
    run = gabled()
    k = case(run, "wind onto W1, left corner, internal +0.18")
    tall = HEIGHT_FT / 2 + HEEL_FT
    walls = 0.6 * Q_PSF * tall * ((ZONE_1 - ZONE_4) * 34.0 + (ZONE_1E - ZONE_4E) * 6.0)
    without, with_roof = run.sideways.readings[1], run.sideways.readings[0]
    assert without.force_lb[1][k] == pytest.approx(walls, rel=1e-9)
    slopes = 0.6 * Q_PSF * 5.0 * ((ZONE_2 - ZONE_3) * (34.0 - 0.0) + (ZONE_2E - ZONE_3E) * 6.0)
    over = with_roof.force_lb[1][k] - walls
    assert over == pytest.approx(slopes, abs=0.6 * Q_PSF * 5.0 * 1.0 * 2.0 + 0.6 * Q_PSF * 44.0)  # overhangs and rakes
    assert run.sideways.lines_lb[1][:, k].sum() >= walls - 1e-6


def test_a_common_of_a_long_wall_takes_half_the_wall_s_height_over_its_two_feet() -> None:
    """Mid-wall W1, windward with suction inside: 0.6 q (zone 1 + 0.18) x H/2 x 2 ft."""
    run = gabled()
    k = case(run, "wind onto W1, left corner, internal -0.18")
    mid = row(run, "W1", 19.0, 21.0)
    square = abs(run.sideways.square_lb[mid, k, 1])
    assert square == pytest.approx(0.6 * Q_PSF * (ZONE_1 + 0.18) * HEIGHT_FT / 2 * 2.0, rel=1e-9)


def test_a_gable_s_anchor_takes_the_wall_s_half_alone_and_the_deck_the_triangle() -> None:
    """Mid-wall W2, leeward of wind onto W4: 0.6 q (0.29 + 0.18) x H/2 x its own 4 ft."""
    run = gabled()
    k = case(run, "wind onto W4, right corner, internal +0.18")
    mid = row(run, "W2", 11.0, 14.5)
    (own,) = [h for h in run.sideways.held if h.bearing == mid]
    square = abs(run.sideways.square_lb[mid, k, 0])
    assert square == pytest.approx(0.6 * Q_PSF * (0.29 + 0.18) * HEIGHT_FT / 2 * own.length_ft, rel=1e-9)


def test_the_least_load_is_sixteen_psf_on_the_windward_wall_alone_and_eight_on_the_roof() -> None:
    """Onto W1: 0.6 (16 x (H/2 + heel) x 40 + 8 x 5.8333 x 42), half to either end wall; onto W4 0.6 x 16 x 184."""
    run = gabled()
    lines = run.sideways.lines_lb
    onto_w1 = 0.6 * (16.0 * (HEIGHT_FT / 2 + HEEL_FT) * 40.0 + 8.0 * (5.0 + 2.0 * RISE) * 42.0)
    onto_w4 = 0.6 * 16.0 * ((HEIGHT_FT / 2 + HEEL_FT) * 24.0 + 60.0)
    assert lines[1][:, case(run, "least horizontal loads, wind onto W1")] == pytest.approx([onto_w1 / 2] * 2)
    assert lines[0][:, case(run, "least horizontal loads, wind onto W4")] == pytest.approx([onto_w4 / 2] * 2)
    k = case(run, "least horizontal loads, wind onto W1")
    assert abs(run.sideways.square_lb[row(run, "W1", 19.0, 21.0), k, 1]) == pytest.approx(0.6 * 16.0 * HEIGHT_FT)
    assert not run.sideways.square_lb[row(run, "W3", 19.0, 21.0), k].any()


def test_as_a_component_a_strip_is_pulled_by_zone_4_or_5_at_the_area_of_its_wall() -> None:
    """A = 9.333 x 9.333/3 = 29.04 ft2 for trusses at 2 ft, 9.333 x 4 = 37.33 ft2 for a gable's anchors at 4 ft."""
    run = gabled()
    for wall, places, area in (("W1", (19.0, 21.0), HEIGHT_FT**2 / 3), ("W2", (11.0, 14.5), 4 * HEIGHT_FT)):
        i = row(run, wall, *places)
        (strip,) = run.sideways.cladding.strips[i]
        net_psf = Q_PSF * (1.2766 - 0.1766 * math.log10(area) + 0.18)
        assert strip.area_ft2 == pytest.approx(area)
        assert np.abs(run.sideways.cladding.push_lb[i, 0]).max() == pytest.approx(
            0.6 * net_psf * strip.pushing_ft2, rel=1e-9
        )
    (corner, *_) = run.sideways.cladding.strips[row(run, "W1", 0.0, 2.5)]
    assert corner.end_ratio == pytest.approx(1.0)
    assert corner.away_psf[1] == pytest.approx(Q_PSF * (1.7532 - 0.3532 * math.log10(HEIGHT_FT**2 / 3) + 0.18))


def test_held_by_the_tie_beam_a_common_brings_its_roof_s_thrust_and_a_gable_half_its_triangle() -> None:
    """Onto W1 at mid-length: of 2 ft of roof, 12 ft of each slope and its overhang: 0.6 q (net zone 2 - net zone 3) x
    rise x 2 ft; the same inside pressure on both cancels within the walls.
    """
    run = run_of(plan_of(BOX, type=RoofType.GABLE, overhang_ft=0.0, rake_overhang_ft=0.0), TopsHeldBy.TIE_BEAM)
    k = case(run, "wind onto W1, left corner, internal +0.18")
    for wall in ("W1", "W3"):
        mid = row(run, wall, 19.0, 21.0)
        thrust = abs(run.sideways.square_lb[mid, k, 1])
        assert thrust == pytest.approx(abs(0.6 * Q_PSF * (ZONE_2 - ZONE_3) * RISE * 12.0 * 2.0), rel=1e-9)
    k = case(run, "wind onto W4, right corner, internal +0.18")
    gable = row(run, "W2", 11.0, 14.5)
    (own,) = [h for h in run.sideways.held if h.bearing == gable]
    low, high = own.from_ft, own.to_ft
    triangle = (high - low) * HEEL_FT + sum(
        RISE * (12.0 - abs(s - 12.0)) * (high - low) / 2000 for s in np.linspace(low, high, 2001)[:-1] + 0.0
    )
    square = abs(run.sideways.square_lb[gable, k, 0])
    assert square == pytest.approx(0.6 * Q_PSF * (0.29 + 0.18) * triangle / 2, rel=1e-3)


def test_under_the_tie_beam_only_the_roof_and_the_upper_half_of_the_triangles_go_along_the_walls() -> None:
    """Onto W4, no roof along x on a gable: the heel and half of it with the triangle at each end wall."""
    run = run_of(plan_of(BOX, type=RoofType.GABLE), TopsHeldBy.TIE_BEAM)
    k = case(run, "wind onto W4, right corner, internal +0.18")
    whole = (HEEL_FT * 24.0 + 60.0) / 2
    strip = (HEEL_FT * 3.0 + 3.0 * 1.25 / 2) / 2
    total = 0.6 * Q_PSF * ((0.40 + 0.29) * whole + (0.21 + 0.14) * strip)
    assert run.sideways.readings[1].force_lb[0][k] == pytest.approx(total, rel=1e-9)


def test_walls_under_four_feet_take_nothing_and_lines_under_four_feet_apart_are_one() -> None:
    """A jog of 3 ft: its return is too short to hold along y, and the two walls that it parts are one line along x."""
    jogged = [(0, 0), (20, 0), (20, -3), (44, -3), (44, 24), (0, 24)]
    found = run_of(plan_of(jogged)).sideways
    assert [line.at_ft for line in found.deck.lines[0]] == pytest.approx([(0.0 * 20 - 3.0 * 24) / 44, 24.0])
    names = [{found.stretches[k].name for k in line.stretches} for line in found.deck.lines[1]]
    assert names == [{"W6"}, {"W4"}]


def test_a_gable_end_s_truss_and_a_jack_at_45_degrees_turn_the_pushes_onto_the_strap_s_axes() -> None:
    run = gabled()
    for i, b in enumerate(run.framing.bearings):
        along, square = run.demands.along_wall_lb[i], run.demands.square_lb[i]
        own = (square, along) if b.kind is MemberKind.GABLE_END else (along, square)
        assert run.demands.demand.across_lb[i] == pytest.approx(own[0])
        assert run.demands.demand.along_lb[i] == pytest.approx(own[1])
    hip = run_of(plan_of(BOX))
    i = next(i for i, b in enumerate(hip.framing.bearings) if b.kind is MemberKind.CORNER_JACK)
    both = hip.sideways.along_lb[i] + hip.sideways.square_lb[i]
    turned = np.sort(np.abs(np.stack([both.sum(axis=1), np.diff(both, axis=1)[:, 0]])) / math.sqrt(2.0), axis=0)
    k = len(hip.sideways.cases) - 4  # the main frame's cases stand first here and there
    mine = np.stack([hip.demands.demand.across_lb[i, :k], hip.demands.demand.along_lb[i, :k]])
    assert np.sort(mine, axis=0) == pytest.approx(turned[:, :k])
