"""The directional procedure on whole houses: figure 27.3-1 laid out on a gable and on a hip, by hand.

The coefficients are the figure's own rows as printed in tests/parts/test_asce7_directional.py; G 0.85. The house: 48 ft
by 24 ft, 6:12 (26.565 degrees), eave 11 ft 2 in. above ground, so h = 11.1667 + 6/2 = 14.1667 ft.
"""

from __future__ import annotations

import itertools
from functools import cache

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.chapter27 import C_p_leeward_roof, C_p_windward_roof
from framing.frame_side import FrameSide
from framing.plan import EditionName, Enclosure, MwfrsProcedure, Plan, RoofType
from framing.run import Run, make_run
from framing.wind.directional import directional_coefficients
from framing.wind.patches import Patches
from framing.wind.patterns import DirectionalPattern, directional_patterns
from invariants.houses import changed_plan, plan_of, random_plan

HOUSE = [(0, 0), (48, 0), (48, 24), (0, 24)]
H_FT = 9 + 4 / 12 + 16 / 12 + 0.5 + 3.0
G = 0.85
SOUTH, WEST = (
    FrameSide.Y_LOW,
    FrameSide.X_LOW,
)  # sides of the frame: y low is an eave of both houses, x low the gable or the hip end


def directional(plan: Plan) -> Plan:
    return changed_plan(plan, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)


@cache
def run(roof: RoofType) -> Run:
    return make_run(directional(plan_of(HOUSE, type=roof, rise_per_run=0.5)), shipped_catalogue())


def at(
    roof: RoofType, point: tuple[float, float], from_side: FrameSide, *, other: bool = False
) -> tuple[str, float, float]:
    """Zone, G C_p outside and G C_p underneath at a point of the plan."""
    r = run(roof)
    (k,) = shapely.STRtree(r.patches.polygon).query(shapely.Point(point), predicate="within")
    pattern = DirectionalPattern(from_side=from_side, other_value=other)
    found = directional_coefficients(r.roof, r.patches, r.loads.widths, r.plan.roof.theta_deg, pattern)
    return str(found.zone[k]), float(found.outside_factor[k]), float(found.underside_factor[k])


def test_the_mean_roof_height_is_the_one_that_the_figures_below_are_for() -> None:
    assert run(RoofType.GABLE).loads.widths.h_ft == pytest.approx(H_FT, abs=1e-9)


def test_wind_square_to_a_gable_s_ridge_takes_the_windward_and_the_leeward_row() -> None:
    """h/L = 14.1667 / 24 = 0.59; at 26.565 degrees between 25 (-0.3, -0.5) and 30 (-0.2, -0.3) of h/L 0.5 and 1.0."""
    half = -0.3 + 0.1 * (26.565 - 25) / 5, -0.5 + 0.2 * (26.565 - 25) / 5
    by_hand = half[0] + (half[1] - half[0]) * (H_FT / 24 - 0.5) / 0.5
    assert at(RoofType.GABLE, (20.1, 5.1), SOUTH) == ("windward slope", pytest.approx(G * by_hand, abs=1e-5), 0.0)
    assert at(RoofType.GABLE, (20.1, 19.1), SOUTH) == ("leeward slope", pytest.approx(G * -0.6), 0.0)


@pytest.mark.parametrize(
    ("x_ft", "zone", "C_p"),
    [(3.0, "0 to h/2", -0.9), (10.0, "h/2 to h", -0.9), (20.0, "h to 2h", -0.5), (40.0, "over 2h", -0.3)],
)
def test_wind_along_a_gable_s_ridge_takes_the_row_by_distance_on_both_slopes(
    x_ft: float, zone: str, C_p: float
) -> None:
    """h/L = 14.1667 / 48 = 0.295: the row of 0.5 and under."""
    for y_ft in (5.1, 19.1):
        assert at(RoofType.GABLE, (x_ft, y_ft), WEST) == (f"along the wind, {zone}", pytest.approx(G * C_p), 0.0)
        assert at(RoofType.GABLE, (x_ft, y_ft), WEST, other=True)[1] == pytest.approx(G * -0.18)


def test_a_hip_end_is_the_windward_slope_of_its_own_wind_and_the_side_slopes_go_by_distance() -> None:
    """h/L = 0.295 along the house: at 26.565 degrees between h/L 0.25 (-0.2) and 0.5 (-0.3 at 25, -0.2 at 30)."""
    by_hand = -0.2 + (-0.1 * (30 - 26.565) / 5) * (H_FT / 48 - 0.25) / 0.25
    assert at(RoofType.HIP, (3.0, 12.1), WEST) == ("windward slope", pytest.approx(G * by_hand, abs=1e-5), 0.0)
    assert at(RoofType.HIP, (45.0, 12.1), WEST) == ("leeward slope", pytest.approx(G * -0.6), 0.0)
    assert at(RoofType.HIP, (20.1, 5.1), WEST) == ("along the wind, h to 2h", pytest.approx(G * -0.5), 0.0)
    # Square to the ridge the hip end lies along the wind: h/L 0.59, 0 to h/2, between -0.9 and -1.3.
    along = -0.9 - 0.4 * (H_FT / 24 - 0.5) / 0.5
    assert at(RoofType.HIP, (1.1, 6.6), SOUTH) == ("along the wind, 0 to h/2", pytest.approx(G * along), 0.0)


def test_the_wind_pushes_under_the_eave_that_faces_it_and_under_the_rake_past_the_gable_that_faces_it() -> None:
    assert at(RoofType.GABLE, (20.1, -1.0), SOUTH)[2] == pytest.approx(G * 0.8)
    assert at(RoofType.GABLE, (20.1, 25.0), SOUTH)[2] == 0.0
    assert at(RoofType.GABLE, (-0.5, 6.0), WEST)[2] == pytest.approx(G * 0.8)
    assert at(RoofType.GABLE, (48.5, 6.0), WEST)[2] == 0.0
    assert at(RoofType.GABLE, (20.1, -1.0), WEST)[2] == 0.0


@pytest.mark.parametrize(("out_ft", "east_pushes"), [((4.0, 4.0), True), ((4.0, 2.5), True), ((4.0, 2.25), False)])
def test_the_wind_pushes_under_the_eave_of_an_angled_wall_that_faces_it_by_60_degrees_or_less(
    out_ft: tuple[float, float], east_pushes: bool
) -> None:
    """Own choice. The wall cuts off the south-east corner; its outward normal is 45, 58.0 and 60.6 degrees from east,
    45, 32.0 and 29.4 from south, over 90 from north and west.
    """
    x, y = out_ft
    clipped = [(0, 0), (40 - x, 0), (40, y), (40, 28), (0, 28)]
    r = make_run(directional(plan_of(clipped)), shipped_catalogue())
    length = np.hypot(x, y)
    off_the_eave = shapely.Point(40 - x / 2 + y / length, y / 2 - x / length)  # 1 ft outside the middle of the wall
    (k,) = shapely.STRtree(r.patches.polygon).query(off_the_eave, predicate="within")
    under = [
        directional_coefficients(
            r.roof, r.patches, r.loads.widths, r.plan.roof.theta_deg, DirectionalPattern(from_side=s, other_value=False)
        ).underside_factor[k]
        for s in (SOUTH, FrameSide.X_HIGH, FrameSide.Y_HIGH, WEST)
    ]
    assert under == pytest.approx([G * 0.8, G * 0.8 * east_pushes, 0.0, 0.0])


def test_under_10_degrees_every_slope_goes_by_distance() -> None:
    low = make_run(directional(plan_of(HOUSE, rise_per_run=2 / 12)), shipped_catalogue())
    for pattern in directional_patterns():
        found = directional_coefficients(low.roof, low.patches, low.loads.widths, low.plan.roof.theta_deg, pattern)
        assert all(str(zone).startswith("along the wind") for zone in found.zone)


def test_there_are_sixteen_cases_four_winds_two_values_two_internal_pressures() -> None:
    cases = [c for c in run(RoofType.HIP).reactions.cases if c.basis == "mwfrs" and c.variant == "deck"]
    assert len({c.name for c in cases}) == len(cases) == 16


@pytest.mark.parametrize("edition", list(EditionName))
def test_a_case_is_q_h_times_the_coefficients_outside_less_inside(edition: EditionName) -> None:
    """Eq. 27.3-1 with q_h, K_d 0.85 once: 0.00256 K_z 0.85 V^2 [(G C_p) - (GC_pi)], on the leeward slope."""
    K_z = {
        EditionName.ASCE_7_22: 2.41 * (15 / 2460) ** (2 / 9.8),
        EditionName.ASCE_7_16: 2.01 * (15 / 900) ** (2 / 9.5),
    }
    plan = changed_plan(run(RoofType.GABLE).plan, edition=edition, enclosure=Enclosure.PARTIALLY_ENCLOSED)
    r = make_run(plan, shipped_catalogue())
    load = next(c for c in r.loads.cases if c.name == "wind onto W1, suction, internal +0.55")
    k = shapely.STRtree(r.patches.polygon).query(shapely.Point(20.1, 19.1), predicate="within")[0]
    piece = np.flatnonzero(r.pieces.patch == k)[0]
    lifted = load.force_lb[piece] / r.pieces.area_ft2[piece]
    assert lifted == pytest.approx(0.00256 * K_z[edition] * 0.85 * 160.0**2 * (0.6 * G + 0.55), rel=1e-9)


def inner_points(patches: Patches) -> list[np.ndarray]:
    """For each patch, points nearly at each of its corners."""
    out = []
    for polygon, point in zip(patches.polygon, patches.point_ft, strict=True):
        corners = shapely.get_coordinates(polygon)[:-1]
        near = point + 0.97 * (corners - point)
        out.append(near[shapely.contains_xy(polygon, near)])
    return out


@pytest.mark.parametrize("seed", range(5))
def test_on_a_patch_every_coefficient_is_the_same_wherever_it_is_asked_for(seed: int) -> None:
    r = make_run(directional(random_plan(seed)), shipped_catalogue())
    many = inner_points(r.patches)
    for pattern in directional_patterns():
        theta_deg, widths = r.plan.roof.theta_deg, r.loads.widths
        here = directional_coefficients(r.roof, r.patches, widths, theta_deg, pattern)
        for k in range(max(len(m) for m in many)):
            points = np.array([m[k] if k < len(m) else p for m, p in zip(many, r.patches.point_ft, strict=True)])
            moved = Patches(**{f: getattr(r.patches, f) for f in Patches.__slots__} | {"point_ft": points})
            there = directional_coefficients(r.roof, moved, widths, theta_deg, pattern)
            assert (there.zone == here.zone).all()
            np.testing.assert_array_equal(there.outside_factor, here.outside_factor)
            np.testing.assert_array_equal(there.underside_factor, here.underside_factor)


@given(st.floats(10.0, 45.0), st.floats(0.05, 2.0))
def test_windward_suction_fades_and_the_other_value_grows_with_the_slope(theta_deg: float, h_over_L: float) -> None:
    here, steeper = (C_p_windward_roof(t, h_over_L, 0.0) for t in (theta_deg, theta_deg + 5.0))
    assert here[0] <= steeper[0] + 1e-12
    assert here[1] <= steeper[1] + 1e-12


@given(st.floats(10.0, 89.0), st.floats(0.05, 2.0))
def test_the_leeward_coefficient_is_continuous(theta_deg: float, h_over_L: float) -> None:
    here = C_p_leeward_roof(theta_deg, h_over_L)
    for step in itertools.product((0.0, 1e-7), repeat=2):
        assert C_p_leeward_roof(theta_deg + step[0], h_over_L + step[1]) == pytest.approx(here, abs=1e-6)
