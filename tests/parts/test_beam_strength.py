"""What the plan's bars carry: depth, stirrups, faults, least steel, and what the plan must say first."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.errors import PlanError
from framing.ground import reinforced_concrete as concrete
from framing.ground.beam_strength import (
    beam_strength,
    beam_weight_plf,
    effective_depth_ft,
    taken_strength,
)
from framing.ground.reinforced_concrete import Section
from framing.plan import Plan, TieBeam
from parts.masonry_houses import ONE_5, TWO_5, Bars, Stirrups, masonry_plan, nothing_said, steel


def beam(size: str, plan: Plan | None = None, **said: object) -> Plan:
    width, depth = (int(n) for n in size.split("x"))
    plan = masonry_plan(said=steel(**said)) if plan is None else plan
    return replace(plan, tie_beam=TieBeam(nominal_width_in=width, nominal_depth_in=depth))


SECTION = Section(width_in=7.625, effective_depth_in=13.4375, depth_in=15.625, steel_in2=0.62, f_c_psi=2500.0)


@pytest.mark.parametrize(("size", "plf"), [("8x8", 60.6), ("8x12", 92.3), ("8x16", 124.1), ("8x24", 187.6)])
def test_a_tie_beam_weighs_what_the_trades_table_says(size: str, plf: float) -> None:
    """Common practice (150 pcf, 7-5/8 in. wide, actual depths), no source."""
    assert beam_weight_plf(beam(size)) == pytest.approx(plf, abs=0.06)


def test_the_bars_lie_under_cover_and_a_tie_of_three_eighths_or_the_plans_own() -> None:
    assert effective_depth_ft(beam("8x16")) == pytest.approx(13.4375 / 12)
    four = Stirrups(number=4, spacing_ft=0.5)
    assert effective_depth_ft(beam("8x16", stirrups=four)) == pytest.approx((13.4375 - 0.125) / 12)
    assert effective_depth_ft(beam("8x16", cover_ft=2.0 / 12)) == pytest.approx(12.9375 / 12)
    assert effective_depth_ft(beam("8x16", top_bars=Bars(count=2, number=7))) == pytest.approx(13.3125 / 12)
    assert effective_depth_ft(beam("8x16", top_bars=None)) is None
    assert effective_depth_ft(beam("8x16", cover_ft=None)) is None
    assert effective_depth_ft(beam("8x16", f_c_psi=None)) == pytest.approx(13.4375 / 12)


def test_cover_that_leaves_no_room_for_the_bars_is_refused() -> None:
    with pytest.raises(PlanError) as caught:
        beam_strength(beam("8x4", cover_ft=3.5 / 12))
    assert str(caught.value) == (
        'tie_beam cover: 3 1/2" leaves the bars no depth in an 8x4 tie beam; write less cover or a deeper beam'
    )


def test_top_and_bottom_are_each_judged_with_their_own_bars() -> None:
    """The phi M_n of tests/published/data/tie_beam_capacity.csv: 34,288 with two #5, 17,945 with one."""
    strength = beam_strength(beam("8x16", bottom_bars=ONE_5))
    assert strength.top_ft_lb == pytest.approx(34_288, abs=1)
    assert strength.bottom_ft_lb == pytest.approx(17_945, abs=1)
    assert strength.ratio(3428.8, 0.0, 0.0) == pytest.approx(0.1, abs=1e-4)
    assert strength.ratio(0.0, 3589.0, 0.0) == pytest.approx(0.2, abs=1e-4)
    assert strength.ratio(0.0, 0.0, 0.3 * (strength.shear_lb or 0.0)) == pytest.approx(0.3)


def test_shear_counts_the_face_with_fewer_bars() -> None:
    """8x24, 2,500 psi: 4,841 lb with one #5 (318-19, no stirrups), 6,100 with two, both of the capacity table."""
    assert beam_strength(beam("8x24", bottom_bars=ONE_5)).shear_lb == pytest.approx(4841, abs=1)
    assert beam_strength(beam("8x24")).shear_lb == pytest.approx(6100, abs=1)
    assert beam_strength(beam("8x16")).shear_lb == pytest.approx(3842, abs=1)


def test_what_is_missing_is_named_by_its_key_and_nothing_is_judged() -> None:
    strength = beam_strength(masonry_plan(said=nothing_said()))
    assert strength.missing == ("tie_beam.top_bars", "tie_beam.bottom_bars", "tie_beam.f_c_psi", "tie_beam.cover")
    assert (strength.top_ft_lb, strength.bottom_ft_lb, strength.shear_lb) == (None, None, None)
    assert strength.ratio(1.0, 1.0, 1.0) is None
    only_bottom = beam_strength(beam("8x16", bottom_bars=None))
    assert only_bottom.missing == ("tie_beam.bottom_bars",)
    assert only_bottom.top_ft_lb == pytest.approx(34_288, abs=1)
    assert only_bottom.ratio(1.0, 0.0, 0.0) is None


def test_stirrups_at_8_in_of_an_8x24_add_their_part() -> None:
    """#3 two legs 0.22 in2 at 8 in., d 21.4375: phi V_s = 0.75 x 0.22 x 60,000 x 21.4375 / 8 = 26,529 lb; the least
    legs are 50 x 7.625 x 8 / 60,000 = 0.051 in2. With them phi V_c is 12,260 (capacity table).
    """
    strength = beam_strength(beam("8x24", stirrups=Stirrups(number=3, spacing_ft=8.0 / 12)))
    assert strength.shear_lb == pytest.approx(12_260 + 26_529, abs=2)
    assert strength.stirrups_count
    assert strength.faults == ()


def test_stirrups_too_far_apart_count_for_nothing_and_it_is_said() -> None:
    strength = beam_strength(beam("8x16", stirrups=Stirrups(number=3, spacing_ft=8.0 / 12)))
    assert strength.shear_lb == pytest.approx(3842, abs=1)
    assert not strength.stirrups_count
    assert strength.faults == (
        "the stirrups at 0'-8\" stand farther apart than half the depth to the bars (6.7 in.) and count for nothing",
    )


def test_stirrups_never_count_for_more_than_8_roots() -> None:
    """8 x 50 x 7.625 x 13.4375 = 40,985 lb before phi 0.75, however close they stand."""
    most = concrete.shear_with_stirrups_lb(SECTION, 5.0, 2.0)
    assert most == pytest.approx(7685 + 0.75 * 40_985, abs=2)


def test_least_stirrups_grow_with_the_concrete_past_4_444_psi() -> None:
    """0.75 sqrt(f'c), at least 50 psi, times b s / f_y: 0.0508 in2 at 8 in. and 2,500 psi, 0.0762 at 10,000."""
    assert concrete.least_stirrup_in2(SECTION, 8.0) == pytest.approx(50 * 7.625 * 8 / 60_000)
    assert concrete.least_stirrup_in2(replace(SECTION, f_c_psi=10_000.0), 8.0) == pytest.approx(0.07625)


def test_stirrups_under_the_least_area_count_for_nothing() -> None:
    wide = replace(beam("16x48", stirrups=Stirrups(number=3, spacing_ft=20.0 / 12), f_c_psi=10_000.0))
    strength = beam_strength(wide)
    assert strength.faults == ("the stirrups are under the least area of a beam and count for nothing",)


def test_stirrups_never_stand_over_24_in_apart() -> None:
    deep = replace(SECTION, effective_depth_in=60.0)
    assert concrete.largest_stirrup_spacing_in(deep) == 24.0


def test_an_8x8_with_two_number_5_is_told_to_become_deeper() -> None:
    strength = beam_strength(beam("8x8"))
    assert strength.faults == tuple(
        f"the {face} bars are too many for an 8x8: the concrete would crush before they yield; take fewer bars or a "
        "deeper beam"
        for face in ("top", "bottom")
    )
    assert beam_strength(beam("8x8", top_bars=ONE_5, bottom_bars=ONE_5)).faults == ()


def test_one_number_5_in_an_8x16_is_under_the_least_steel_unless_a_third_more_than_asked() -> None:
    """0.31 under 0.342 in2 (capacity table); the moment that asks for 0.2325 in2 is phi 0.2325 x 60,000 x (13.4375 -
    a/2) / 12 with a = 0.861 in.: 13,610 ft-lb.
    """
    strength = beam_strength(beam("8x16", top_bars=ONE_5, bottom_bars=TWO_5))
    assert strength.lacks_least_steel(13_500.0, 30_000.0) == ()
    [line] = strength.lacks_least_steel(13_700.0, 30_000.0)
    assert line.startswith("its top bars are under the least steel of a beam (0.34 sq in.)")
    assert beam_strength(beam("8x16")).lacks_least_steel(34_000.0, 34_000.0) == ()
    turned = beam_strength(beam("8x16", top_bars=TWO_5, bottom_bars=ONE_5))
    [line] = turned.lacks_least_steel(30_000.0, 13_700.0)
    assert line.startswith("its bottom bars are under the least steel of a beam (0.34 sq in.)")


def test_the_steel_that_a_moment_asks_for_gives_that_moment_back() -> None:
    needed = concrete.required_steel_in2(SECTION, 20_000.0)
    assert concrete.design_moment_ft_lb(replace(SECTION, steel_in2=needed)) == pytest.approx(20_000.0)
    assert concrete.required_steel_in2(SECTION, 1e6) == float("inf")


def test_beta_1_falls_by_a_twentieth_for_every_1000_psi_over_4000_down_to_0_65() -> None:
    """ACI 318-19 table 22.2.2.4.3, from memory."""
    found = [concrete.beta_1_ratio(psi) for psi in (2500.0, 4000.0, 6000.0, 9000.0)]
    assert found == [0.85, 0.85, pytest.approx(0.75), 0.65]


def test_the_bar_of_a_cell_takes_32_ksi() -> None:
    """TMS 402 8.3.3, from memory: #5 9,920 lb; areas of ASTM A615 from memory."""
    assert concrete.cell_bar_tension_lb(5) == pytest.approx(9920)
    assert concrete.cell_bar_tension_lb(4) == pytest.approx(6400)
    assert concrete.bar_diameter_in(5) == 0.625


def test_what_is_taken_is_one_number_5_2500_psi_and_an_inch_and_a_half_only_where_the_plan_is_silent() -> None:
    taken = taken_strength(masonry_plan(said=nothing_said()))
    assert taken.top_ft_lb == taken.bottom_ft_lb == pytest.approx(17_945, abs=1)
    said = taken_strength(masonry_plan(said=steel(bottom_bars=None)))
    assert (said.top_ft_lb, said.bottom_ft_lb) == (pytest.approx(34_288, abs=1), pytest.approx(17_945, abs=1))


def test_bars_have_the_areas_of_their_numbers() -> None:
    """ASTM A615, from memory; each within 3 % of a circle of its number in eighths, but #9 to #11 (old squares)."""
    areas = [concrete.bar_area_in2(n) for n in range(3, 12)]
    assert areas == [0.11, 0.20, 0.31, 0.44, 0.60, 0.79, 1.00, 1.27, 1.56]


def test_least_steel_grows_with_strong_concrete() -> None:
    """Three roots of 10,000 psi are 300 psi, over the 200: 300 / 60,000 x 7.625 x 13.4375 = 0.512 in2."""
    assert concrete.least_steel_in2(replace(SECTION, f_c_psi=10_000.0)) == pytest.approx(0.5123, abs=1e-4)


def test_a_beam_of_just_10_in_is_let_off_the_half_and_a_deeper_one_is_not() -> None:
    shallow = replace(SECTION, depth_in=10.0, effective_depth_in=7.8125)
    deeper = replace(shallow, depth_in=10.01)
    assert concrete.shear_without_stirrups_lb(shallow) > 1.2 * concrete.shear_without_stirrups_lb(deeper)
