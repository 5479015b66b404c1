"""What is told of a pressure: zone, coefficients and pressure at points of one gable house, by hand.

The house: 40 ft by 24 ft, 5:12 (22.62 degrees), eave 11 ft 2 in. above ground, 160 mph, Exposure C, enclosed, ASCE
7-22; h = 13.6667 ft, so K_z is that of 15 ft; a = 3 ft. Fig. 28.3-1 (solid) between 20 and 30 degrees; figs. 30.3-2C
and 30.3-1 (good) at the 181.48 sq ft of a common of 23.3333 ft; fig. 27.3-1 (solid), h/L = 13.6667 / 24 = 0.5694.
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.edition import edition
from framing.explain.wind_cases import hardest_cases, leading_case, velocity_pressures, wind_toward
from framing.loads.cases import LoadBasis, LoadCase, build_loads
from framing.plan import EditionName, Exposure, Feature, MwfrsProcedure, RoofType, Topography
from framing.run import Run, make_run
from framing.wind.pressures import RoofPressures
from invariants.houses import plan_of

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
K_Z = 2.41 * (15 / 2460) ** (2 / 9.8)
Q_PSF = 0.00256 * K_Z * 0.85 * 160.0**2
SHARE = (math.degrees(math.atan(5 / 12)) - 20.0) / 10.0
TWO, TWO_END = -0.69 + 0.90 * SHARE, -1.07 + 1.34 * SHARE
AREA_FT2 = (24.0 - 8 / 12) ** 2 / 3.0
ZONE_1 = -2.038 + 0.538 * math.log10(AREA_FT2)
SOFFIT = 1.1766 - 0.1766 * math.log10(AREA_FT2)
MAIN, DIRECTIONAL, SKIN = "wind onto W1, left corner", "wind onto W1, suction", "cladding, effective area 181.4"


@cache
def run(**changed: object) -> Run:
    return make_run(plan_of(BOX, type=RoofType.GABLE, **changed), shipped_catalogue())


def case_of(r: Run, name: str) -> LoadCase:
    return next(c for c in r.loads.cases if c.name.startswith(name))


def zones(r: Run, name: str) -> RoofPressures:
    found = case_of(r, name).wind
    assert found is not None
    return found


def told(r: Run, name: str, point: tuple[float, float]) -> tuple[str, float, float, float, float]:
    """Zone, coefficients outside, underneath and inside, and the pressure up, at a point of the plan."""
    found = zones(r, name)
    (k,) = shapely.STRtree(r.patches.polygon).query(shapely.Point(point), predicate="within")
    numbers = (found.outside_factor, found.underside_factor, found.inside_factor, found.up_psf)
    return (str(found.zone[k]), *(float(n[k]) for n in numbers))


@pytest.mark.parametrize(
    ("name", "point", "zone", "outside", "under", "inside"),
    [
        (f"{MAIN}, internal +0.18", (20.1, 5.1), "2, load case 1", TWO, 0.0, 0.18),
        (f"{MAIN}, internal -0.18", (1.1, 5.1), "2E, load case 1", TWO_END, 0.0, -0.18),
        (f"{MAIN}, internal +0.18", (20.1, -1.1), "2, load case 1", TWO, 0.7, 0.0),
        ("wind onto W2, left corner, internal +0.18", (38.9, 5.1), "2E, load case 2", -1.07, 0.0, 0.18),
        ("wind onto W2, left corner, internal +0.18", (20.1, 19.1), "3, load case 2", -0.37, 0.0, 0.18),
        (SKIN, (20.1, 5.1), "1, gable roof", ZONE_1, 0.0, 0.18),
        (SKIN, (20.1, -1.1), "1, gable roof", ZONE_1 - SOFFIT, 0.0, 0.0),
        (SKIN, (0.3, 5.1), "2, gable roof", -1.2, 0.0, 0.18),
    ],
)
def test_a_point_s_zone_and_coefficients_are_those_of_the_figure_and_give_its_pressure(
    name: str, point: tuple[float, float], zone: str, outside: float, under: float, inside: float
) -> None:
    """Eq. 28.3-1 and 30.3-1: q K_d times outside less underneath less inside."""
    near = {"rel": 2e-4, "abs": 1e-12}
    by_hand = [outside, under, inside, -Q_PSF * (outside - under - inside)]
    found = told(run(), name, point)
    assert found[0] == zone
    assert list(found[1:]) == [pytest.approx(n, **near) for n in by_hand]
    assert zones(run(), name).q_K_d_psf == pytest.approx(Q_PSF)


def test_the_directional_procedure_tells_g_c_p_and_the_underside_apart() -> None:
    """Windward slope, h/L 0.5694: -0.4 + 0.1 x 0.524 at h/L 0.5, -0.7 + 0.2 x 0.524 at 1.0; 0.8 under the eave."""
    r = run(mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)
    half, one = -0.4 + 0.1 * 2 * SHARE, -0.7 + 0.2 * 2 * SHARE
    C_p = half + (one - half) * ((13 + 2 / 3) / 24 - 0.5) / 0.5
    for point, under, inside in (((20.1, 5.1), 0.0, -0.18), ((20.1, -1.1), 0.85 * 0.8, 0.0)):
        found = told(r, f"{DIRECTIONAL}, internal -0.18", point)
        by_hand = [0.85 * C_p, under, inside, -Q_PSF * (0.85 * C_p - under - inside)]
        assert found[0] == "windward slope"
        assert list(found[1:]) == [pytest.approx(n, abs=1e-12) for n in by_hand]


@pytest.mark.parametrize(
    ("outline", "point"),
    [(BOX, (20.1, 0.6)), ([(0, 0), (14, 0), (14, 60), (-10, 60), (-10, 20), (0, 20)], (13.4, 40.1))],
)
def test_a_low_hip_by_7_16_is_read_between_its_two_curves_of_h_over_b(
    outline: list[tuple[float, float]], point: tuple[float, float]
) -> None:
    """A house 24 ft in the lesser direction, in one wing or two. At 4:12 h = 11.1667 + 2 ft, over 24 ft 0.5486: 0.162
    of the way from 0.5 to 0.8 (fair): eave zone 2e at 181.48 sq ft -2.338 + 0.538 log A and -3.5223 + 0.9223 log A. K_z
    is 2.01 (15/900)^(2/9.5).
    """
    plan = plan_of(outline, rise_per_run=4 / 12, edition=EditionName.ASCE_7_16)
    r = make_run(plan, shipped_catalogue())
    share = ((11 + 2 / 12 + 2.0) / 24.0 - 0.5) / 0.3
    low, tall = (c0 + c1 * math.log10(AREA_FT2) for c0, c1 in ((-2.338, 0.538), (-3.5223, 0.9223)))
    GC_p = low + (tall - low) * share
    q = 0.00256 * 2.01 * (15 / 900) ** (2 / 9.5) * 0.85 * 160.0**2
    found = told(r, SKIN, point)
    assert found[0] == "2e, hip roof"
    assert list(found[1:]) == pytest.approx([GC_p, 0.0, 0.18, -q * (GC_p - 0.18)], rel=2e-4)


@pytest.mark.parametrize("wall", range(4))
def test_the_wind_of_a_main_frame_case_blows_straight_at_its_wall_and_that_of_cladding_from_everywhere(
    wall: int,
) -> None:
    """Onto W1 of a rectangle typed from the origin along x the wind blows toward +y, onto W2 toward -x."""
    toward = [(0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0)][wall]
    for r, name in ((run(), "left corner"), (run(mwfrs_procedure=MwfrsProcedure.DIRECTIONAL), "suction")):
        assert wind_toward(r, case_of(r, f"wind onto W{wall + 1}, {name}")) == pytest.approx(toward)
        assert wind_toward(r, case_of(r, SKIN)) is None


@pytest.mark.parametrize("row", [0.0, 0.7, 1.0, 1.3])
def test_another_pressure_under_the_overhang_changes_that_pressure_and_no_zone_s_name(row: float) -> None:
    """South eave in zone 2: q K_d (row - GC_pf) up; on the slope inside the wall the row takes no part."""
    r = run()
    code = replace(edition(r.plan.wind.edition), overhang_underside_factor=row)
    loads = build_loads(r.plan, code, r.outline, r.roof, r.framing, r.patches, r.pieces, r.loads.widths)
    changed = replace(r, loads=loads)
    for name in (MAIN, "wind onto W2, left corner"):
        np.testing.assert_array_equal(zones(changed, name).zone, zones(r, name).zone)
    eave, slope = ((20.1, -1.1), (20.1, 5.1))
    zone, outside, under, inside, up_psf = told(changed, f"{MAIN}, internal +0.18", eave)
    assert (zone, under, inside) == ("2, load case 1", row, 0.0)
    assert (outside, up_psf) == pytest.approx((TWO, Q_PSF * (row - TWO)), rel=2e-4)
    assert told(changed, MAIN, slope) == told(r, MAIN, slope)


def test_the_least_pressure_is_told_where_it_holds() -> None:
    """At 80 mph zone 1 has 0.25 x Q x 0.99 = 9.5 psf, so 16 psf hold; at 160 mph none (sec. 30.2.2, good)."""
    slow = run(speed_mph=80.0)
    (k,) = shapely.STRtree(slow.patches.polygon).query(shapely.Point(20.1, 5.1), predicate="within")
    assert zones(slow, SKIN).least[k]
    assert zones(slow, SKIN).up_psf[k] == 16.0
    assert not zones(run(), SKIN).least.any()
    assert not zones(slow, MAIN).least.any()


def test_the_numbers_in_the_velocity_pressure_are_those_of_the_site() -> None:
    """Exposure B at 13.6667 ft: 0.70 for chapter 28 alone, 2.41 (15/3280)^(2/7.5) for cladding; 1,000 ft up K_e is
    e^-0.0362; on the crest of a ridge 100 ft high with L_h 400 ft K_1 = 1.30 x 0.25, K_2 = 1, K_3 = e^(-3 z / L_h).
    """
    ridge = Topography(feature=Feature.RIDGE, height_ft=100.0, half_length_ft=400.0, distance_ft=0.0)
    main, skin = velocity_pressures(run(exposure=Exposure.B, ground_elevation_ft=1000.0, topography=ridge))
    assert (main.procedure, skin.procedure) == ("envelope", "cladding")
    assert (main.exposure_factor, skin.exposure_factor) == (0.70, pytest.approx(2.41 * (15 / 3280) ** (2 / 7.5)))
    for one in (main, skin):
        assert one.topographic_factor == pytest.approx((1 + 1.30 * 0.25 * math.exp(-3 * (13 + 2 / 3) / 400)) ** 2)
        assert one.elevation_factor == pytest.approx(math.exp(-0.0362))
        assert (one.constant_factor, one.directionality_factor, one.speed_mph) == (0.00256, 0.85, 160.0)


@pytest.mark.parametrize("basis", [LoadBasis.MWFRS, LoadBasis.CLADDING])
def test_no_case_of_its_basis_pulls_a_bearing_harder_than_its_hardest(basis: str) -> None:
    """A cladding case of another area than the member's own does not count for a bearing."""
    r = run()
    of_member = dict(zip([m.name for m in r.framing.members], r.loads.area_of_member_ft2, strict=True))
    for i, j in enumerate(hardest_cases(r, basis)):
        own_ft2 = of_member[r.framing.bearings[i].member]
        counted = [
            k
            for k, c in enumerate(r.reactions.cases)
            if c.basis == basis and (c.area_ft2 is None or c.area_ft2 == pytest.approx(own_ft2))
        ]
        assert j in counted
        assert r.reactions.by_case_lb[i, j] == r.reactions.by_case_lb[i, counted].max()


def test_there_is_no_hardest_case_of_a_basis_that_no_case_has() -> None:
    assert (hardest_cases(run(), "snow") == np.full(len(run().framing.bearings), -1)).all()
    assert leading_case(run(), "snow") is None
