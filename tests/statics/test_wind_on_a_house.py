"""The wind laid on a whole house: resultants of a worked example, and the plan areas of the cladding zones.

W4: NCh 432:2025 (whose chapter 7 follows ASCE 7-22 chapter 28), worked warehouse by the envelope method, in public
notes on that code (their author states agreement with a general frame-analysis program): 24 m x 24 m, gable of 10
degrees, eave 8 m, a = 2.4 m. Its mean GC_pf over the roof halves are compared; it averages the end strips over the
length, and a program that works strip by strip must give the same totals.
"""

from __future__ import annotations

import math
from collections import defaultdict

import numpy as np
import pytest
import shapely

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.curves import RoofForm
from framing.asce7.edition import Procedure, edition
from framing.plan import RoofEdge, RoofType
from framing.run import Run, make_run
from framing.wind.envelope_and_cladding import cladding_coefficients, cladding_zones
from invariants.houses import plan_of

FEET_PER_METRE = 1.0 / 0.3048
SIDE_FT = 24.0 * FEET_PER_METRE
MEAN_GC_PF = {"across": (-0.766, -0.442), "along": (-0.766, -0.402)}  # zones 2 and 3 with their end strips


@pytest.fixture(scope="module")
def warehouse() -> Run:
    outline = [
        (0, 0),
        (SIDE_FT + 1e-3, 0),
        (SIDE_FT + 1e-3, SIDE_FT),
        (0, SIDE_FT),
    ]  # a hair longer: the ridge runs along W1
    plan = plan_of(
        outline,
        type=RoofType.GABLE,
        rise_per_run=math.tan(math.radians(10.0)),
        overhang_ft=0.0,
        rake_overhang_ft=0.0,
        heel_ft=0.0,
        ground_to_floor_ft=0.0,
        wall_height_ft=8.0 * FEET_PER_METRE,
    )
    return make_run(plan, shipped_catalogue())


@pytest.mark.parametrize(("onto", "way"), [("W1", "across"), ("W3", "across"), ("W2", "along"), ("W4", "along")])
@pytest.mark.parametrize("corner", ["left", "right"])
@pytest.mark.parametrize("inside", [0.18, -0.18])
def test_the_lift_on_the_whole_roof_is_that_of_the_worked_warehouse(
    warehouse: Run, onto: str, way: str, corner: str, inside: float
) -> None:
    wind = warehouse.plan.wind
    q = edition(wind.edition).q_K_d_psf(wind, warehouse.loads.widths.h_ft, Procedure.ENVELOPE)
    case = next(
        c
        for c in warehouse.reactions.cases
        if c.name == f"wind onto {onto}, {corner} corner, internal {inside:+.2f}, deck"
    )
    windward, leeward = MEAN_GC_PF[way]
    lift_psf = q * (inside - (windward + leeward) / 2.0)
    assert warehouse.loads.widths.a_ft == pytest.approx(2.4 * FEET_PER_METRE, rel=1e-3)
    assert case.applied_vertical_lb == pytest.approx(lift_psf * SIDE_FT**2, rel=1e-3)


def zone_areas_ft2(run: Run, form: RoofForm) -> dict[str, float]:
    code = edition(run.plan.wind.edition)
    zoned = cladding_zones(run.roof, run.patches, run.loads.widths, code, run.plan.roof.theta_deg)
    zones = next(z for f, z, _ in zoned if f is form)
    out: dict[str, float] = defaultdict(float)
    for zone, area in zip(zones, shapely.area(run.patches.polygon), strict=True):
        out[str(zone)] += float(area)
    return out


def test_a_gable_roof_has_its_zones_along_the_rakes_and_the_ridge() -> None:
    """ASCE 7-22, fig. 30.3-2C (zone map: fair): zone 3 is a x a on each slope at each ridge end, zone 2 the rest of
    the rake strips and of the ridge strip, zone 1 the rest with the eaves.
    """
    run = make_run(plan_of([(0, 0), (60, 0), (60, 30), (0, 30)], type=RoofType.GABLE), shipped_catalogue())
    found = zone_areas_ft2(run, RoofForm.GABLE)
    a, length, width = run.loads.widths.a_ft, 60 + 2 * 1.0, 30 + 2 * 2.0
    three = 4 * a * a
    two = 2 * a * width + 2 * a * (length - 2 * a) - three
    assert found["3"] == pytest.approx(three, rel=1e-9)
    assert found["2"] == pytest.approx(two, rel=1e-9)
    assert found["1"] == pytest.approx(length * width - two - three, rel=1e-9)


def test_a_hip_roof_has_zone_3_all_round_and_zone_2_along_hips_and_ridge() -> None:
    """ASCE 7-22, fig. 30.3-2F (zone map: fair): zone 3 is the strip a along every eave; zone 2 the strips a either side
    of ridge and hips; the areas add up to the plan.
    """
    run = make_run(plan_of([(0, 0), (60, 0), (60, 30), (0, 30)], rise_per_run=0.42), shipped_catalogue())
    found = zone_areas_ft2(run, RoofForm.HIP)
    a, length, width = run.loads.widths.a_ft, 60 + 2 * 2.0, 30 + 2 * 2.0
    three = length * width - (length - 2 * a) * (width - 2 * a)
    assert found["3"] == pytest.approx(three, rel=1e-9)
    assert sum(found.values()) == pytest.approx(length * width, rel=1e-9)
    # four hip strips from the inner edge of zone 3 to the ridge's ends, each 2 a wide, and the ridge strip between
    hip_plan_ft = (width / 2.0 - a) * math.sqrt(2.0)
    roughly = 4 * hip_plan_ft * 2 * a + (length - width) * 2 * a
    assert found["2"] == pytest.approx(roughly, rel=0.12)


@pytest.mark.parametrize(
    ("point", "zone"),
    [
        ((30.1, 0.9), "3"),
        ((30.1, 1.1), "1"),
        ((30.1, 11.9), "1"),
        ((30.1, 12.1), "2"),
        ((8.0 + 2.9 / math.sqrt(2.0), 8.0 - 2.9 / math.sqrt(2.0)), "2"),
        ((8.0 + 3.1 / math.sqrt(2.0), 8.0 - 3.1 / math.sqrt(2.0)), "1"),
        ((8.0 - 2.9 / math.sqrt(2.0), 8.0 + 2.9 / math.sqrt(2.0)), "2"),
        ((8.0 - 3.1 / math.sqrt(2.0), 8.0 + 3.1 / math.sqrt(2.0)), "1"),
        ((0.9, 15.1), "3"),
        ((1.1, 15.1), "1"),
    ],
)
def test_the_strips_of_a_hip_roof_are_3_ft_wide_measured_square_to_eave_ridge_and_hip(
    point: tuple[float, float], zone: str
) -> None:
    """Fig. 30.3-2F (zone map: fair): a is 3 ft; eave strips from the outer edge of the 2 ft overhang, ridge and hip
    strips either side; the same mirrored in both axes of the house.
    """
    run = make_run(plan_of([(0, 0), (60, 0), (60, 30), (0, 30)], rise_per_run=0.42), shipped_catalogue())
    code = edition(run.plan.wind.edition)
    ((_, zones, _),) = cladding_zones(run.roof, run.patches, run.loads.widths, code, run.plan.roof.theta_deg)
    tree = shapely.STRtree(run.patches.polygon)
    for x, y in (point, (60.0 - point[0], point[1]), (point[0], 30.0 - point[1])):
        (k,) = tree.query(shapely.Point(x, y), predicate="within")
        assert zones[k] == zone, (x, y)


@pytest.mark.parametrize(
    ("in_ft", "along_ft", "zone"),
    [(1.9, 4.5, "3"), (2.1, 4.5, "1"), (2.1, 4.9, "2"), (1.9, -4.5, "3"), (2.1, -4.5, "1"), (2.1, -4.9, "2")],
)
def test_the_strips_of_a_hip_roof_follow_an_angled_wall_too(in_ft: float, along_ft: float, zone: str) -> None:
    """Common practice, no source. A 45 degree wall, (36, 0) to (50, 14): a is 0.1 x 40 = 4 ft, the overhang 2 ft;
    its hips lean 22.5 degrees from its ends, 9.90 ft either side of its middle, so that 4 ft from them is 4 / cos 22.5
    + in x tan 22.5 off the end: 4.70 ft from its middle at 2.1 ft in.
    """
    run = make_run(plan_of([(0, 0), (36, 0), (50, 14), (50, 40), (0, 40)], rise_per_run=0.42), shipped_catalogue())
    assert run.loads.widths.a_ft == pytest.approx(4.0)
    code = edition(run.plan.wind.edition)
    zoned = cladding_zones(run.roof, run.patches, run.loads.widths, code, run.plan.roof.theta_deg)
    at = shapely.Point(43.0 + (along_ft - in_ft) / math.sqrt(2.0), 7.0 + (along_ft + in_ft) / math.sqrt(2.0))
    (k,) = shapely.STRtree(run.patches.polygon).query(at, predicate="within")
    assert {str(zone_here) for _, zones, mine in zoned for zone_here in zones[mine == k]} == {zone}


@pytest.mark.parametrize("roof", RoofType)
@pytest.mark.parametrize(
    ("edge_ft", "other_ft", "zone"),
    [
        (2.2, 6.6, "3"),
        (2.2, 6.8, "2"),
        (2.3, 2.4, "2"),
        (2.2, 2.1, "3"),
        (6.6, 6.5, "2"),
        (6.8, 6.9, "1"),
        (6.6, 20.1, "2"),
        (13.3, 20.1, "1"),
        (13.5, 20.1, "1'"),
    ],
)
def test_a_roof_of_1_in_12_has_its_zones_by_the_eave_height_from_all_four_edges(
    edge_ft: float, other_ft: float, zone: str, roof: RoofType
) -> None:
    """Fig. 30.3-2A (zone map: fair), gable or hip: h is the eave's 11 ft 2 in., so the corners are Ls of 6.7 ft by
    2.233 ft, the edge strip is 6.7 ft, the next one ends at 13.4 ft; from the outer edges of 2 ft overhangs.
    """
    plan = plan_of([(0, 0), (64, 0), (64, 44), (0, 44)], type=roof, rise_per_run=1 / 12, rake_overhang_ft=2.0)
    run = make_run(plan, shipped_catalogue())
    code = edition(run.plan.wind.edition)
    ((_, zones, _),) = cladding_zones(run.roof, run.patches, run.loads.widths, code, run.plan.roof.theta_deg)
    tree = shapely.STRtree(run.patches.polygon)
    for x, y in ((edge_ft, other_ft), (other_ft, edge_ft)):
        for at in ((x, y), (68.0 - x, y), (x, 48.0 - y), (68.0 - x, 48.0 - y)):
            (k,) = tree.query(shapely.Point(at[0] - 2.0, at[1] - 2.0), predicate="within")
            assert zones[k] == zone, at


def test_beside_the_eave_of_an_angled_wall_a_roof_of_1_in_12_is_a_corner() -> None:
    """Own choice, safe side: 6.7 ft from the edge of its 2 ft overhang, fig. 30.3-2A has no such eave."""
    plan = plan_of([(0, 0), (50, 0), (64, 14), (64, 44), (0, 44)], rise_per_run=1 / 12)
    run = make_run(plan, shipped_catalogue())
    code = edition(run.plan.wind.edition)
    zoned = cladding_zones(run.roof, run.patches, run.loads.widths, code, run.plan.roof.theta_deg)
    for in_ft, corner in ((-1.9, True), (4.6, True), (4.8, False)):
        at = shapely.Point(57.3 - in_ft / math.sqrt(2.0), 7.3 + in_ft / math.sqrt(2.0))
        (k,) = shapely.STRtree(run.patches.polygon).query(at, predicate="within")
        assert {zone_here == "3" for _, zones, mine in zoned for zone_here in zones[mine == k]} == {corner}


@pytest.mark.parametrize(("point", "GC_p"), [((30.1, 0.5), -2.0), ((30.1, 13.1), -2.5), ((30.1, 7.1), -1.5)])
def test_a_house_with_one_hip_end_takes_the_larger_suction_of_gable_and_hip(
    point: tuple[float, float], GC_p: float
) -> None:
    """Own choice, safe side. At 10 sq ft, 5:12: eave strip 3 of the hip (-2.0) against 1 of the gable (-1.5), ridge
    strip 2 of the gable (-2.5) against 2 of the hip (-2.0), between them 1 and 1 (-1.5, -1.4): figs. 30.3-2C and 2F.
    """
    edges = (RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=None, to_ft=None),)
    run = make_run(plan_of([(0, 0), (60, 0), (60, 30), (0, 30)], edges=edges), shipped_catalogue())
    code, theta_deg = edition(run.plan.wind.edition), run.plan.roof.theta_deg
    zoned = cladding_zones(run.roof, run.patches, run.loads.widths, code, theta_deg)
    (found,) = cladding_coefficients(zoned, run.patches, code, theta_deg, np.array([10.0]), 0.18, 0.8)
    net = found.net_factor - 0.18 * run.patches.enclosed
    (k,) = shapely.STRtree(run.patches.polygon).query(shapely.Point(point), predicate="within")
    assert net[k] == pytest.approx(GC_p - 0.18, abs=1e-3)


def test_the_force_on_a_roof_grows_with_the_square_of_the_speed() -> None:
    """ASCE 7-22, eq. 26.10-1."""
    box = [(0, 0), (44, 0), (44, 28), (0, 28)]
    slow, fast = (make_run(plan_of(box, speed_mph=v), shipped_catalogue()).reactions for v in (120.0, 180.0))
    main_frame = np.array([c.basis == "mwfrs" for c in slow.cases])
    np.testing.assert_allclose(fast.by_case_lb[:, main_frame], 2.25 * slow.by_case_lb[:, main_frame], rtol=1e-9)
