"""`quick`: one common truss without a plan."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from framing.asce7.edition import edition
from framing.errors import LoadError
from framing.plan import EditionName, Enclosure, Exposure
from framing.quick import QuickInputs, QuickResult, quick

# The worked example of the R802.11 derivation: 36 ft, under 5:12, Exposure B, 140 mph, 12 in. spacing.
WORKED = QuickInputs(
    span_ft=36.0,
    spacing_ft=1.0,
    rise_per_run=4.0 / 12.0,
    speed_mph=140.0,
    exposure=Exposure.B,
    overhang_underside_ratio=0.68,
    edition=EditionName.ASCE_7_16,
)


def every_uplift_lb(result: QuickResult) -> list[float]:
    return [answer.uplift_lb for answers in (result.mwfrs, result.cladding) for answer in answers.values()]


def test_the_defaults_are_those_that_the_command_shows_and_the_plans_edition() -> None:
    inputs = QuickInputs(span_ft=36.0, spacing_ft=2.0, rise_per_run=0.4, speed_mph=160.0, exposure=Exposure.C)
    assert (inputs.mean_roof_height_ft, inputs.overhang_ft, inputs.overhang_underside_ratio) == (33.0, 2.0, 0.7)
    assert (inputs.dead_psf, inputs.enclosure, inputs.edition) == (15.0, Enclosure.ENCLOSED, EditionName.ASCE_7_22)


@pytest.mark.parametrize(
    ("edition_name", "rise_per_run", "zones"),
    [
        (EditionName.ASCE_7_22, 4.0 / 12.0, ["1", "2", "3"]),
        (EditionName.ASCE_7_16, 4.0 / 12.0, ["1", "2e", "2n", "2r", "3e", "3r"]),
        (EditionName.ASCE_7_22, 1.0 / 12.0, ["1", "1'", "2", "3"]),
    ],
)
def test_cladding_is_given_for_every_zone_of_the_gable_figure(
    edition_name: EditionName, rise_per_run: float, zones: list[str]
) -> None:
    result = quick(replace(WORKED, edition=edition_name, rise_per_run=rise_per_run))
    assert sorted(result.cladding) == zones
    assert list(result.mwfrs) == ["end_zone", "interior"]


def test_the_last_step_of_each_part_is_its_answer_and_the_steps_name_their_clauses() -> None:
    result = quick(WORKED)
    last = {step.part: step.value for step in result.steps}
    assert last["main frame, end zone"] == result.mwfrs["end_zone"].uplift_lb
    assert last["main frame, interior"] == result.mwfrs["interior"].uplift_lb
    assert all(last[f"cladding, zone {zone}"] == answer.uplift_lb for zone, answer in result.cladding.items())
    assert all(step.source for step in result.steps)


def test_the_velocity_pressure_step_says_its_numbers() -> None:
    (step,) = [step for step in quick(WORKED).steps if step.text.startswith("main frame: q K_d")]
    assert step.text.startswith("main frame: q K_d = 0.00256 x 0.7199 x 1.0 x 1.0 x 0.85 x 140^2")
    # 0.6 x this is the 18.423 psf of the worked example.
    assert 0.6 * step.value == pytest.approx(18.423, abs=5e-4)


def test_up_to_10_degrees_the_whole_truss_may_stand_in_zone_2() -> None:
    # 1.07 + 0.18 on both slopes, no overhang: 1.25 q L/2.
    low = replace(WORKED, rise_per_run=1.0 / 12.0, overhang_ft=0.0)
    q_psf = 18.423 / 0.6
    assert quick(low).mwfrs["end_zone"].wind_lb == pytest.approx(1.25 * q_psf * 18.0, rel=1e-4)


def test_a_weak_wind_on_a_heavy_roof_lifts_nothing() -> None:
    assert every_uplift_lb(quick(replace(WORKED, speed_mph=85.0, dead_psf=60.0))) == [0.0] * 8


def test_cladding_is_never_under_16_psf_net() -> None:
    gentle = quick(replace(WORKED, speed_mph=85.0, overhang_ft=0.0))
    assert min(answer.wind_lb for answer in gentle.cladding.values()) == pytest.approx(16.0 * 18.0)


@settings(max_examples=15)
@given(st.sampled_from(EditionName), st.floats(0.0, 1.0), st.floats(85.0, 240.0), st.floats(8.0, 60.0))
def test_more_wind_never_lifts_less(
    edition_name: EditionName, rise_per_run: float, speed_mph: float, span_ft: float
) -> None:
    slow = replace(WORKED, edition=edition_name, rise_per_run=rise_per_run, speed_mph=speed_mph, span_ft=span_ft)
    fast = replace(slow, speed_mph=speed_mph + 10.0)
    pairs = zip(every_uplift_lb(quick(slow)), every_uplift_lb(quick(fast)), strict=True)
    assert all(weak <= strong for weak, strong in pairs)


def test_an_open_side_lifts_more_than_a_closed_house() -> None:
    closed, leaky = (quick(replace(WORKED, enclosure=e)) for e in (Enclosure.ENCLOSED, Enclosure.PARTIALLY_ENCLOSED))
    # 0.55 - 0.18 more inside pressure on half the span.
    more_lb = (0.55 - 0.18) * (18.423 / 0.6) * 18.0
    assert leaky.mwfrs["interior"].wind_lb - closed.mwfrs["interior"].wind_lb == pytest.approx(more_lb, rel=1e-4)


def test_what_build_takes_is_never_less_than_either_way_of_holding_the_horizontal_parts() -> None:
    """Zone 2E lifts more than 3E: held at the bearings the windward one is relieved by (w - l) L tan^2(theta)/8."""
    answer = quick(replace(WORKED, overhang_ft=0.0)).mwfrs["end_zone"]
    w, far = (0.18 + 1.07) * 18.423, (0.18 + 0.673) * 18.423
    assert answer.held_by_deck_uplift_lb - answer.uplift_lb == pytest.approx((w - far) * 36.0 / 72.0, abs=0.02)


def test_an_edition_is_found_by_its_name() -> None:
    assert [edition(name).name for name in EditionName] == list(EditionName)


@pytest.mark.parametrize(
    ("field", "value", "sentence"),
    [
        ("span_ft", 3.0, "span_ft is 3: it must be from 4 to 100 ft."),
        ("span_ft", float("nan"), "span_ft is nan: it must be from 4 to 100 ft."),
        ("spacing_ft", 0.0, "spacing_ft is 0: it must be from 0.5 to 8 ft."),
        ("rise_per_run", 1.1, "rise_per_run is 1.1: it must be from 0 to 1 (12:12 is 1)."),
        ("speed_mph", 300.0, "speed_mph is 300: it must be from 85 to 250 mph."),
        ("mean_roof_height_ft", 61.0, "mean_roof_height_ft is 61: it must be from 5 to 60 ft."),
        ("overhang_ft", -1.0, "overhang_ft is -1: it must be from 0 to 8 ft."),
        ("overhang_underside_ratio", 3.0, "overhang_underside_ratio is 3: it must be from 0 to 2."),
        ("dead_psf", 101.0, "dead_psf is 101: it must be from 0 to 100 psf."),
    ],
)
def test_a_number_outside_its_range_is_refused_in_one_sentence(field: str, value: float, sentence: str) -> None:
    with pytest.raises(LoadError) as caught:
        replace(WORKED, **{field: value})
    assert str(caught.value) == sentence
