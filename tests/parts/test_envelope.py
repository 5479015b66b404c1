"""The envelope procedure on whole houses: figure 28.3-1 laid out on a gable, a hip, a wide and a low roof, by hand.

The coefficients are the rows of figure 28.3-1 as printed in tests/published/data/asce7_22_fig_28_3_1_gcpf.csv (solid),
linear between 20 and 30 degrees. Houses stand with W1 along x: 48 ft by 24 ft at 6:12 (26.565 degrees), eave 11 ft
2 in. above ground, a = 3 ft, so end zones are 6 ft; the wide one is 100 ft by 80 ft.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import pytest
import shapely

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.edition import edition
from framing.frame_side import FrameSide
from framing.plan import RoofEdge, RoofType
from framing.run import Run, make_run
from framing.wind.envelope_and_cladding import envelope_coefficients
from framing.wind.patterns import Pattern, patterns
from invariants.houses import plan_of

HOUSE, WIDE = [(0, 0), (48, 0), (48, 24), (0, 24)], [(0, 0), (100, 0), (100, 80), (0, 80)]
WEST, EAST, SOUTH, NORTH = FrameSide
SHARE = (math.degrees(math.atan(0.5)) - 20.0) / 10.0
ZONE = {
    "2": -0.69 + (0.21 + 0.69) * SHARE,
    "3": -0.48 + (-0.43 + 0.48) * SHARE,
    "2E": -1.07 + (0.27 + 1.07) * SHARE,
    "3E": -0.69 + (-0.53 + 0.69) * SHARE,
}
ALONG = {"2": -0.69, "3": -0.37, "2E": -1.07, "3E": -0.53}
LOW = {"2": -0.69, "3": -0.37, "2E": -1.07, "3E": -0.53}  # load case 1, 0 to 5 degrees
UNDER = 0.7  # sec. 28.3.5 (fair)


@cache
def run(roof: RoofType, rise_per_run: float = 0.5, *, wide: bool = False) -> Run:
    return make_run(plan_of(WIDE if wide else HOUSE, type=roof, rise_per_run=rise_per_run), shipped_catalogue())


def at(r: Run, point: tuple[float, float], from_side: FrameSide, *, high: bool = False, reading: int = 0) -> float:
    """GC_pf less the underside at a point of the plan."""
    (k,) = shapely.STRtree(r.patches.polygon).query(shapely.Point(point), predicate="within")
    pattern = Pattern(from_side=from_side, high_corner=high, reading=reading)
    code, theta_deg = edition(r.plan.wind.edition), r.plan.roof.theta_deg
    return float(envelope_coefficients(r.roof, r.patches, r.loads.widths, code, theta_deg, pattern).net_factor[k])


@pytest.mark.parametrize(
    ("point", "high", "square", "along"),
    [
        ((20.1, 5.1), False, "2", "2"),
        ((20.1, 19.1), False, "3", "3"),
        ((5.9, 5.1), False, "2E", "2E"),
        ((5.9, 19.1), False, "3E", "3E"),
        ((6.1, 5.1), False, "2", "2"),
        ((6.1, 19.1), False, "3", "3"),
        ((47.1, 5.1), False, "2", "2"),
        ((20.1, 19.1), True, "3", "2"),
        ((5.9, 5.1), True, "2", "3E"),
        ((42.1, 5.1), True, "2E", "3"),
        ((41.9, 19.1), True, "3", "2"),
    ],
)
def test_a_place_on_a_gable_is_in_its_zones_for_wind_square_to_the_ridge_and_along_it(
    point: tuple[float, float], high: bool, square: str, along: str
) -> None:
    """Load case 1: zone 2 windward, end zones within 6 ft of the reference corner's end. Load case 2, the same at every
    slope: zone 2 on the reference corner's slope, end zones at the windward gable. From the north and from the east
    it is the same house seen from behind, from its other end.
    """
    r, (x, y) = run(RoofType.GABLE), point
    for place, side in (((x, y), SOUTH), ((x, 24.0 - y), NORTH)):
        assert at(r, place, side, high=high) == pytest.approx(ZONE[square], abs=1e-9)
    for place, side in (((x, y), WEST), ((48.0 - x, y), EAST)):
        assert at(r, place, side, high=high) == pytest.approx(ALONG[along], abs=1e-9)


def test_the_wind_pushes_under_the_eave_that_it_meets_and_under_no_other() -> None:
    r = run(RoofType.GABLE)
    assert at(r, (20.1, -1.0), SOUTH) == pytest.approx(ZONE["2"] - UNDER)
    assert at(r, (20.1, 25.0), SOUTH) == pytest.approx(ZONE["3"])
    assert at(r, (-0.5, 12.5), SOUTH, high=True) == pytest.approx(ZONE["3"])


def test_wind_along_the_ridge_pushes_under_the_rake_that_it_meets_and_the_eave_of_the_reference_corner() -> None:
    """The eave of load case 2 as the published table for 5:12 and over has it: test_irc_2018_r802_11.py."""
    r = run(RoofType.GABLE)
    assert at(r, (-0.5, 6.0), WEST) == pytest.approx(ALONG["2E"] - UNDER)
    assert at(r, (-0.5, 18.0), WEST) == pytest.approx(ALONG["3E"] - UNDER)
    assert at(r, (48.5, 6.0), WEST) == pytest.approx(ALONG["2"])
    assert at(r, (20.1, -1.0), WEST) == pytest.approx(ALONG["2"] - UNDER)
    assert at(r, (20.1, 25.0), WEST) == pytest.approx(ALONG["3"])
    assert at(r, (20.1, 25.0), WEST, high=True) == pytest.approx(ALONG["2"] - UNDER)
    assert at(r, (20.1, -1.0), WEST, high=True) == pytest.approx(ALONG["3"])


def test_on_a_wide_house_a_suction_of_zone_2_ends_two_and_a_half_eave_heights_in() -> None:
    """Fig. 28.3-1, note on zones 2 and 3 (good): 80 ft deep, eave 11.1667 ft, so 27.9 ft in from the wall and not 40;
    at 14.04 degrees zone 2 is -0.69 and zone 3 between -0.37 and -0.48.
    """
    r = run(RoofType.GABLE, 0.25, wide=True)
    three = -0.37 + (-0.48 + 0.37) * (math.degrees(math.atan(0.25)) - 5.0) / 15.0
    assert at(r, (50.1, 27.8), SOUTH) == pytest.approx(-0.69)
    assert at(r, (50.1, 28.0), SOUTH) == pytest.approx(three)
    assert at(r, (50.1, 39.9), SOUTH) == pytest.approx(three)


def test_on_a_wide_house_a_push_on_zone_2_reaches_to_the_ridge() -> None:
    """The note cuts off suctions alone; at 30 degrees zone 2 is +0.21."""
    r = run(RoofType.GABLE, math.tan(math.radians(30.0)), wide=True)
    assert at(r, (50.1, 39.9), SOUTH) == pytest.approx(0.21)
    assert at(r, (50.1, 40.1), SOUTH) == pytest.approx(-0.43)


def test_wind_along_a_ridge_of_up_to_10_degrees_is_read_at_mid_length_too() -> None:
    """Fig. 28.3-1, note: theta 0, zones 2 and 3 meet at mid-length, end zones along the side of the corner."""
    r = run(RoofType.GABLE, 2 / 12)
    zones = {(10.0, 12.1): "2", (23.9, 12.1): "2", (24.1, 12.1): "3", (10.0, 5.9): "2E", (40.0, 5.9): "3E"}
    for place, zone in (zones | {(40.0, 6.1): "3"}).items():
        assert at(r, place, WEST, reading=1) == pytest.approx(LOW[zone])
    assert at(r, (40.0, 5.9), WEST, high=True, reading=1) == pytest.approx(LOW["3"])
    assert at(r, (40.0, 5.9), WEST) == pytest.approx(ALONG["2"])  # the plain reading stays load case 2


def test_wind_onto_a_hip_end_is_read_with_the_hip_end_as_the_windward_slope_too() -> None:
    """From memory of fig. C28.3-2: load case 1 at the hip's pitch; the far end is zone 3, the side slopes as along."""
    r = run(RoofType.HIP)
    ends = {(3.0, 12.1): "2", (3.0, 5.0): "2E", (45.0, 12.1): "3", (45.0, 5.0): "3E"}
    slopes = {(20.1, 5.1): "2", (20.1, 19.1): "3", (5.0, 2.0): "2E", (5.0, 22.0): "3E", (24.1, 11.5): "2"}
    for place, zone in (ends | slopes | {(24.1, 12.5): "3"}).items():
        assert at(r, place, WEST, reading=1) == pytest.approx(ZONE[zone])
    assert at(r, (20.1, 5.1), WEST) == pytest.approx(ALONG["2"])
    assert at(r, (-1.0, 12.1), WEST, reading=1) == pytest.approx(ZONE["2"] - UNDER)


@pytest.mark.parametrize(("gable", "from_side", "x_ft"), [("W2", WEST, 3.0), ("W4", EAST, 45.0)])
def test_wind_onto_the_only_hip_end_is_read_so_too_whichever_end_it_is(
    gable: str, from_side: FrameSide, x_ft: float
) -> None:
    edges = (RoofEdge(wall=gable, type=RoofType.GABLE, from_ft=None, to_ft=None),)
    r = make_run(plan_of(HOUSE, rise_per_run=0.5, edges=edges), shipped_catalogue())
    assert at(r, (x_ft, 12.1), from_side, reading=1) == pytest.approx(ZONE["2"])
    assert at(r, (20.1, 19.1), from_side, reading=1) == pytest.approx(ZONE["3"])


def test_onto_a_hip_end_the_end_strips_are_6_ft_along_the_eave_and_the_sides_and_a_house_may_stand_either_way() -> None:
    r = run(RoofType.HIP)
    assert at(r, (3.0, 6.1), WEST, reading=1) == pytest.approx(ZONE["2"])
    assert at(r, (6.1, 2.0), WEST, reading=1) == pytest.approx(ZONE["2"])
    assert at(r, (6.1, 22.0), WEST, reading=1) == pytest.approx(ZONE["3"])
    turned = make_run(plan_of([(0, 0), (24, 0), (24, 48), (0, 48)], rise_per_run=0.5), shipped_catalogue())
    assert at(turned, (11.9, 3.0), SOUTH, reading=1) == pytest.approx(ZONE["2"])
    assert at(turned, (5.1, 24.1), SOUTH, reading=1) == pytest.approx(ZONE["2"])
    assert at(turned, (19.1, 24.1), SOUTH, reading=1) == pytest.approx(ZONE["3"])


def one_hip_end() -> Run:
    edges = (RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=None, to_ft=None),)
    return make_run(plan_of(HOUSE, rise_per_run=0.5, edges=edges), shipped_catalogue())


def square() -> Run:
    return make_run(plan_of([(0, 0), (24, 0), (24, 24), (0, 24)], rise_per_run=0.5), shipped_catalogue())


def patterns_of(r: Run) -> tuple[Pattern, ...]:
    return patterns(r.roof, r.plan.roof.theta_deg)


def test_a_hip_and_a_low_gable_are_read_twice_along_the_ridge_a_square_house_everywhere_and_a_steep_gable_once() -> (
    None
):
    """Four winds and two reference corners each; the second reading of two of the winds, of all four, of none."""
    houses = (run(RoofType.HIP), run(RoofType.GABLE, 2 / 12), one_hip_end(), square(), run(RoofType.GABLE))
    assert [len(patterns_of(r)) for r in houses] == [12, 12, 12, 16, 8]


@pytest.mark.parametrize("roof", [RoofType.HIP, RoofType.GABLE])
def test_a_reading_that_is_not_tried_presses_as_the_first_one_does(roof: RoofType) -> None:
    for r in (run(roof), run(roof, 2 / 12)):
        code, theta_deg = edition(r.plan.wind.edition), r.plan.roof.theta_deg
        for first in [p for p in patterns_of(r) if not p.reading]:
            second = replace(first, reading=1)
            one, other = (
                envelope_coefficients(r.roof, r.patches, r.loads.widths, code, theta_deg, p).net_factor
                for p in (first, second)
            )
            assert (second in patterns_of(r)) == bool((one != other).any())


def test_a_square_house_is_read_with_its_ridge_either_way() -> None:
    """24 ft by 24 ft, hipped: wind from the south is load case 1 with the ridge along x and load case 2 along y."""
    r = square()
    readings = [at(r, (10.3, 6.2), SOUTH, reading=k) for k in (0, 1)]
    assert sorted(readings) == pytest.approx(sorted([ZONE["2"], ALONG["2"]]))
