"""What every clause must do whatever its coefficients: monotone, continuous, ends of the tables, mirror.

Source of the printed end values: the commentary tables of ASCE 7-22 and 7-16 chapter 30 as transcribed beside each
curve (columns GC_p_low, GC_p_high); they were read apart from the curve's two constants.
"""

from __future__ import annotations

import itertools
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing.asce7 import chapter26, chapter28, chapter30, edition_2016
from framing.asce7.curves import RoofForm, chain, figure
from framing.asce7.edition import Edition, Procedure, edition
from framing.asce7.tables import rows
from framing.errors import LoadError
from framing.plan import EditionName, Exposure, WindSpec
from invariants.houses import DEFAULT

EDITIONS = [edition(name) for name in EditionName]
HEIGHTS_FT = st.floats(0.0, 60.0)
SPEEDS_MPH = st.floats(85.0, 250.0)
AREAS_FT2 = st.floats(1.0, 2000.0)
# One slope inside each figure, and both ends of the slopes over which hips are interpolated.
SLOPES_DEG = (3.0, 7.0, 14.0, 20.0, 22.62, 27.0, 30.0, 36.0, 45.0)
ROOFS = list(itertools.product(EDITIONS, RoofForm, SLOPES_DEG))

# The one row whose overhang suction grows with area, as transcribed: 7-16 hip, h/B up to 0.5, zone 1 (fair).
GROWS = (EditionName.ASCE_7_16, RoofForm.HIP, "1")


def wind(speed_mph: float, exposure: Exposure) -> WindSpec:
    return replace(DEFAULT.wind, speed_mph=speed_mph, exposure=exposure)


@given(st.sampled_from(EDITIONS), st.sampled_from(Procedure), st.sampled_from(Exposure), HEIGHTS_FT, HEIGHTS_FT)
def test_velocity_pressure_never_falls_with_height(
    clauses: Edition, procedure: Procedure, exposure: Exposure, one_ft: float, other_ft: float
) -> None:
    low_ft, high_ft = sorted((one_ft, other_ft))
    at = wind(150.0, exposure)
    assert clauses.q_K_d_psf(at, low_ft, procedure) <= clauses.q_K_d_psf(at, high_ft, procedure)


@given(st.sampled_from(EDITIONS), st.sampled_from(Procedure), st.sampled_from(Exposure), SPEEDS_MPH, HEIGHTS_FT)
def test_velocity_pressure_goes_with_the_square_of_the_speed(
    clauses: Edition, procedure: Procedure, exposure: Exposure, speed_mph: float, height_ft: float
) -> None:
    single = clauses.q_K_d_psf(wind(speed_mph, exposure), height_ft, procedure)
    assert clauses.q_K_d_psf(wind(2.0 * speed_mph, exposure), height_ft, procedure) == pytest.approx(4.0 * single)


@given(st.sampled_from(EDITIONS), HEIGHTS_FT)
def test_a_rougher_exposure_never_blows_harder(clauses: Edition, height_ft: float) -> None:
    B, C, D = (clauses.q_K_d_psf(wind(150.0, exposure), height_ft, Procedure.CLADDING) for exposure in Exposure)
    assert B < C < D


@given(st.sampled_from(EDITIONS), HEIGHTS_FT, st.sampled_from([Exposure.C, Exposure.D]))
def test_the_floor_of_exposure_B_touches_the_envelope_procedure_in_exposure_B_alone(
    clauses: Edition, height_ft: float, exposure: Exposure
) -> None:
    assert clauses.K_z_envelope(height_ft, exposure) == clauses.K_z(height_ft, exposure)
    assert clauses.K_z_envelope(height_ft, Exposure.B) == max(0.70, clauses.K_z(height_ft, Exposure.B))
    assert clauses.K_z_of(height_ft, Exposure.B, "directional") == clauses.K_z(height_ft, Exposure.B)


@given(st.floats(0.0, 5000.0), st.floats(0.0, 5000.0))
def test_thinner_air_higher_up_never_presses_harder(one_ft: float, other_ft: float) -> None:
    low_ft, high_ft = sorted((one_ft, other_ft))
    assert chapter26.K_e(high_ft) <= chapter26.K_e(low_ft) <= 1.0


@given(st.floats(0.0, 90.0), st.sampled_from([(case, zone) for case in (1, 2) for zone in chapter28.ZONES]))
def test_the_envelope_coefficients_are_continuous_in_the_slope(theta_deg: float, entry: tuple[int, str]) -> None:
    if entry not in chapter28.GC_pf(theta_deg).by_case_and_zone:
        assert (entry[0], entry[1][0]) in {(1, "5"), (1, "6")}
        return
    step_deg = min(90.0, theta_deg + 1e-7)
    here, next_door = (chapter28.GC_pf(slope).GC_pf(*entry) for slope in (theta_deg, step_deg))
    assert next_door == pytest.approx(here, abs=1e-7)


@given(st.floats(4.0, 500.0), st.floats(5.0, 60.0), st.floats(1.0, 50.0))
def test_the_edge_width_never_shrinks_with_the_building_and_is_never_under_3_ft(
    least_ft: float, h_ft: float, more_ft: float
) -> None:
    a_ft = chapter28.edge_width_a_ft(least_ft, h_ft)
    assert 3.0 <= a_ft <= chapter28.edge_width_a_ft(least_ft + more_ft, h_ft + more_ft)


def test_edge_width_by_each_of_its_four_rules() -> None:
    # 28 ft x 0.10 under the floor of 3 ft; 36 x 0.10; 0.4 x 12; 0.04 x 200.
    widths_ft = [
        chapter28.edge_width_a_ft(*sides) for sides in ((28.0, 13.0), (36.0, 14.0), (60.0, 12.0), (200.0, 12.0))
    ]
    assert widths_ft == pytest.approx([3.0, 3.6, 4.8, 8.0])


def test_zone_2_ends_at_half_the_building_or_two_and_a_half_eave_heights() -> None:
    assert chapter28.zone_2_extent_ft(36.0, 10.0) == 18.0
    assert chapter28.zone_2_extent_ft(60.0, 10.0) == 25.0


def curve_rows() -> list[pytest.ParameterSet]:
    return [
        pytest.param(table, row, id=" ".join((table[:12], row["figure"], row["part"], row["zone"], row["sign"])))
        for table in ("chapter30_GC_p", "edition_2016_GC_p")
        for row in rows(table)
    ]


@pytest.mark.parametrize(("table", "row"), curve_rows())
def test_the_curve_reaches_its_printed_values_at_both_ends_and_is_flat_beyond(table: str, row: dict[str, str]) -> None:
    zone = "1" if row["zone"] == "*" else row["zone"]
    h_over_B = row.get("h_over_B", "").replace("*", "0.5")
    curve = chain(table, row["figure"], row["part"], zone, row["sign"], h_over_B=h_over_B)
    low_ft2, high_ft2 = float(row["area_low_ft2"]), float(row["area_high_ft2"])
    assert curve(low_ft2) == pytest.approx(float(row["GC_p_low"]), abs=4e-4)
    assert curve(high_ft2) == pytest.approx(float(row["GC_p_high"]), abs=4e-4)
    ends_ft2 = [s.area_low_ft2 for s in curve.segments] + [s.area_high_ft2 for s in curve.segments]
    assert curve(min(ends_ft2) / 10.0) == curve(min(ends_ft2))
    assert curve(max(ends_ft2) * 10.0) == curve(max(ends_ft2))


@pytest.mark.parametrize(("clauses", "form", "theta_deg"), ROOFS, ids=lambda value: str(getattr(value, "name", value)))
def test_cladding_coefficients_never_grow_with_area_and_have_no_jump_in_it(
    clauses: Edition, form: RoofForm, theta_deg: float
) -> None:
    area_ft2 = np.geomspace(0.5, 3000.0, 4000)
    for zone in clauses.roof_zones(form, theta_deg):
        for h_over_B_ratio in (0.4, 0.65, 0.9):
            plus, minus = clauses.roof_GC_p(form, theta_deg, zone, area_ft2, h_over_B_ratio)
            tail = clauses.overhang_GC_p(form, theta_deg, zone, area_ft2, h_over_B_ratio)
            steps = [np.diff(plus), -np.diff(minus)]
            if (clauses.name, form, zone) != GROWS:
                steps.append(-np.diff(tail))
            for step in steps:
                assert np.all(step <= 1e-12), zone
            for values in (plus, minus, tail):
                assert np.max(np.abs(np.diff(values))) < 0.006, zone
            assert np.all(plus > 0.0)
            assert np.all(minus < 0.0)
            assert np.all(tail < 0.0)


@given(st.sampled_from(["1", "2", "3"]), AREAS_FT2, st.floats(27.0, 45.0))
def test_a_steep_hip_lies_between_its_two_figures_and_joins_them(zone: str, area_ft2: float, theta_deg: float) -> None:
    def minus(slope_deg: float) -> float:
        return float(chapter30.roof_GC_p(RoofForm.HIP, slope_deg, zone, area_ft2)[1])

    low, high = sorted((minus(27.0), minus(45.0)))
    assert low - 1e-12 <= minus(theta_deg) <= high + 1e-12
    assert minus(27.0 + 1e-7) == pytest.approx(minus(27.0), abs=1e-6)
    assert minus(36.0) == pytest.approx(0.5 * (minus(27.0) + minus(45.0)))


@given(AREAS_FT2, st.sampled_from(["1", "2e", "3"]), st.floats(0.5, 0.8))
def test_a_7_16_hip_lies_between_its_two_curves_of_h_over_B(area_ft2: float, zone: str, h_over_B_ratio: float) -> None:
    def minus(ratio: float) -> float:
        return float(edition_2016.roof_GC_p(RoofForm.HIP, 15.0, zone, area_ft2, ratio)[1])

    assert minus(0.8) - 1e-12 <= minus(h_over_B_ratio) <= minus(0.5) + 1e-12
    assert minus(0.2) == minus(0.5)
    assert minus(2.0) == minus(0.8)
    assert minus(0.65) == pytest.approx(0.5 * (minus(0.5) + minus(0.8)))


@given(st.sampled_from(EDITIONS), st.sampled_from(RoofForm), st.floats(7.01, 45.0), st.lists(st.booleans(), min_size=4))
def test_every_piece_of_roof_gets_a_zone_that_its_figure_has(
    clauses: Edition, form: RoofForm, theta_deg: float, flags: list[bool]
) -> None:
    strips = dict(zip(("in_eave", "in_rake", "in_ridge", "in_hip"), np.array(flags[:4])[:, None], strict=True))
    (zone,) = clauses.roof_zone(form, theta_deg, **strips)
    assert zone in clauses.roof_zones(form, theta_deg)


@given(st.floats(0.0, 60.0), st.floats(0.0, 60.0), st.floats(8.0, 30.0))
def test_a_flat_roof_zone_is_the_same_from_either_edge_and_only_milder_inward(
    one_ft: float, other_ft: float, h_ft: float
) -> None:
    order = ["3", "2", "1", "1'"]
    zone = str(chapter30.flat_zone(one_ft, other_ft, h_ft))
    assert zone == str(chapter30.flat_zone(other_ft, one_ft, h_ft))
    assert order.index(zone) <= order.index(str(chapter30.flat_zone(one_ft + 3.0, other_ft + 3.0, h_ft)))


def test_flat_roof_corner_is_an_l_with_legs_of_0_6_by_0_2_h() -> None:
    # h = 10 ft: legs 6 ft long, 2 ft wide; edge strip 6 ft, next strip to 12 ft.
    along_ft, across_ft = (
        np.array([1.9, 1.9, 2.1, 5.9, 6.1, 6.1, 12.1]),
        np.array([5.9, 6.1, 2.1, 1.9, 6.1, 13.0, 12.1]),
    )
    assert chapter30.flat_zone(along_ft, across_ft, 10.0).tolist() == ["3", "2", "2", "3", "1", "1", "1'"]


@pytest.mark.parametrize("clauses", EDITIONS, ids=lambda clauses: clauses.name)
def test_one_call_for_many_zones_gives_what_single_calls_give(clauses: Edition) -> None:
    zones = np.array(clauses.roof_zones(RoofForm.HIP, 30.0) * 2)
    area_ft2 = np.linspace(5.0, 300.0, zones.size)
    together = clauses.roof_GC_p(RoofForm.HIP, 30.0, zones, area_ft2)[1]
    apart = [
        float(clauses.roof_GC_p(RoofForm.HIP, 30.0, str(z), float(a))[1]) for z, a in zip(zones, area_ft2, strict=True)
    ]
    assert together.tolist() == apart


@given(st.floats(1.0, 80.0), st.floats(0.1, 30.0))
def test_the_effective_area_is_span_times_the_wider_of_width_and_a_third_of_the_span(
    span_ft: float, width_ft: float
) -> None:
    area_ft2 = chapter30.effective_wind_area_ft2(span_ft, width_ft)
    assert area_ft2 == pytest.approx(max(span_ft * width_ft, span_ft**2 / 3.0))


def test_a_wall_takes_nine_tenths_up_to_10_degrees() -> None:
    steep, low = (chapter30.wall_GC_p("5", 50.0, theta_deg) for theta_deg in (10.1, 10.0))
    assert np.array(low) == pytest.approx(0.9 * np.array(steep))


def test_a_net_cladding_pressure_under_16_psf_becomes_16_psf_in_its_own_direction() -> None:
    net_psf = chapter30.with_least_net_pressure_psf(np.array([-30.0, -3.0, 2.0, 17.0]))
    assert net_psf.tolist() == [-30.0, -16.0, 16.0, 17.0]


def test_exposure_constants_are_those_of_table_26_11_1_of_each_edition() -> None:
    # As read in five and three public codes: alpha, z_g in ft, coefficient of the table's note.
    ours = [clauses.exposure_constants(exposure) for clauses in EDITIONS for exposure in Exposure]
    edition_16 = [(7.0, 1200.0, 2.01), (9.5, 900.0, 2.01), (11.5, 700.0, 2.01)]
    edition_22 = [(7.5, 3280.0, 2.41), (9.8, 2460.0, 2.41), (11.5, 1935.0, 2.41)]
    assert ours == edition_16 + edition_22


def test_the_floor_lifts_exposure_B_to_0_70_and_leaves_the_others() -> None:
    assert [chapter28.with_floor(0.57, exposure) for exposure in Exposure] == [0.70, 0.57, 0.57]
    assert chapter28.with_floor(0.72, Exposure.B) == 0.72


@pytest.mark.parametrize(
    ("form", "theta_deg", "printed"),
    [
        (RoofForm.GABLE, 7.0, "30.3-2A"),
        (RoofForm.GABLE, 7.1, "30.3-2B"),
        (RoofForm.GABLE, 20.1, "30.3-2C"),
        (RoofForm.GABLE, 27.1, "30.3-2D"),
        (RoofForm.HIP, 7.0, "30.3-2A"),
        (RoofForm.HIP, 7.1, "30.3-2E"),
        (RoofForm.HIP, 20.0, "30.3-2E"),
        (RoofForm.HIP, 20.1, "30.3-2F"),
        (RoofForm.HIP, 27.0, "30.3-2F"),
        (RoofForm.HIP, 27.1, "30.3-2G"),
        (RoofForm.HIP, 45.0, "30.3-2G"),
    ],
)
def test_the_slope_picks_the_figure(form: RoofForm, theta_deg: float, printed: str) -> None:
    """Titles of the figures: over 7 to 20, over 20 to 27, over 27 to 45 degrees; 7-16 has the hips' two by two."""
    assert figure("chapter30_figures", form, theta_deg) == printed
    of_2016 = {"30.3-2E": "30.3-2E/2F", "30.3-2F": "30.3-2G", "30.3-2G": "30.3-2H/2I"}.get(printed, printed)
    assert figure("edition_2016_figures", form, theta_deg) == of_2016


@pytest.mark.parametrize("form", RoofForm)
@pytest.mark.parametrize("table", ["chapter30_figures", "edition_2016_figures"])
def test_no_figure_holds_over_45_degrees_or_under_the_level(table: str, form: RoofForm) -> None:
    for theta_deg in (-0.1, 45.1):
        with pytest.raises(LoadError):
            figure(table, form, theta_deg)


def test_the_mean_roof_height_is_the_eave_height_up_to_10_degrees() -> None:
    assert chapter26.mean_roof_height_ft(10.0, 13.0, 10.0) == 10.0
    assert chapter26.mean_roof_height_ft(10.0, 16.0, 18.4) == 13.0
    assert chapter26.mean_roof_height_ft(10.0, 10.0, 0.0) == 10.0
