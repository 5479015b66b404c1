"""Feet and inches, pitches and angles, as people type and read them."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from framing import units

HINT = 'write 12\'-4 1/2", 12ft 4in, 24" or plain feet such as 12.375'


@pytest.mark.parametrize(
    ("text", "total_in"),
    [
        ("46'-8\"", 560),
        ("46'-8", 560),
        ("46'8", 560),
        ("46-8", 560),
        ("46-8 1/2", 560.5),
        ("2.54m", 100),
        ("254 cm", 100),
        ("127MM", 5),
        ("46' 8 1/2\"", "560.5"),
        ("46'8\"", 560),
        ('24"', 24),
        ("46ft 8in", 560),
        ("46ft8in", 560),
        ("24in", 24),
        ("36 ft", 432),
        ("46′ 8″", 560),
        ("46’-8 1/2”", "560.5"),
        ("12'-4 1/2\"", "148.5"),
        ("12' 4.5\"", "148.5"),
        ('148.5"', "148.5"),
        ("12.375", "148.5"),
        ("3' 1/2\"", "36.5"),
        ('1/16"', "0.0625"),
        ("3'-6-1/2\"", "42.5"),
        ("-0'-4\"", -4),
        ("−4′", -48),
        ("0", 0),
    ],
)
def test_every_notation_reads_as_the_length_it_says(text: str, total_in: str | int) -> None:
    assert units.parse_length(text) == Fraction(total_in) / 12


@pytest.mark.parametrize(
    ("text", "sentence"),
    [
        ("banana", f'"banana" is not a length; {HINT}'),
        ("", f'"" is not a length; {HINT}'),
        ("46'-8-", f'"46\'-8-" is not a length; {HINT}'),
        ("9-1/2", f'"9-1/2" is not a length; {HINT}'),
        ("9-14", '"9-14" has 14 inches beside feet; write 0 to under 12 of them'),
        ("46''", f"\"46''\" is not a length; {HINT}"),
        ("12,5'", f'"12,5\'" is not a length; {HINT}'),
        ("5' 3'", f"\"5' 3'\" is not a length; {HINT}"),
        ("1e3", f'"1e3" is not a length; {HINT}'),
        ("nan", f'"nan" is not a length; {HINT}'),
        ("٣'", f'"٣\'" is not a length; {HINT}'),
        ("46'-", f'"46\'-" has a dash that joins nothing; {HINT}'),
        ("46'-13\"", '"46\'-13"" has 13 inches beside feet; write 0 to under 12 of them'),
        ("46'-12\"", '"46\'-12"" has 12 inches beside feet; write 0 to under 12 of them'),
        ("4.5'-3\"", '"4.5\'-3"" has decimal feet beside inches; write whole feet, or feet alone'),
        ("12'-4 9/8\"", '"12\'-4 9/8"" has the fraction 9/8; write one below a whole inch, such as 1/2'),
        ("12'-4 1/0\"", '"12\'-4 1/0"" has the fraction 1/0; write one below a whole inch, such as 1/2'),
        ("8'-4.5 1/2\"", '"8\'-4.5 1/2"" has both a decimal and a fraction of an inch; write one of them'),
        ("9" * 5000, f'"{"9" * 37}..." is too long for a length; {HINT}'),
        ("a\nb", f'"a?b" is not a length; {HINT}'),
    ],
)
def test_a_typing_slip_is_answered_in_one_sentence(text: str, sentence: str) -> None:
    with pytest.raises(ValueError) as caught:
        units.parse_length(text)
    assert str(caught.value) == sentence


@given(st.integers(min_value=-(500 * 192), max_value=500 * 192))
def test_what_is_written_reads_back_as_the_same_sixteenth(n_sixteenths: int) -> None:
    length_ft = n_sixteenths / 192
    for written in (units.feet_inches(length_ft), units.inches(length_ft)):
        assert units.parse_length(written) == Fraction(n_sixteenths, 192)


@given(st.floats(min_value=-500, max_value=500))
def test_feet_inches_and_plain_inches_are_one_mark_at_most_half_a_sixteenth_away(length_ft: float) -> None:
    exact = units.parse_length(units.feet_inches(length_ft))
    assert exact == units.parse_length(units.inches(length_ft))
    assert abs(exact - Fraction(length_ft)) * 192 <= Fraction(1, 2) + units.TIE_SIXTEENTHS


@given(st.text(max_size=60))
def test_any_text_is_a_length_or_a_one_line_sentence(text: str) -> None:
    try:
        answer = f"{units.length_ft(text):.6f}"
    except ValueError as problem:
        answer = str(problem)
    assert "\n" not in answer
    assert "; write " in answer or math.isfinite(float(answer))


@pytest.mark.parametrize(
    ("total_in", "written", "plain"),
    [
        (0.75, "0'-0 3/4\"", '0 3/4"'),
        (144.0, "12'-0\"", '144"'),
        (151.25, "12'-7 1/4\"", '151 1/4"'),
        (-4.0, "-0'-4\"", '-4"'),
        (11.96875, "1'-0\"", '12"'),
        (11.96, "0'-11 15/16\"", '11 15/16"'),
        (0.03125, "0'-0 1/16\"", '0 1/16"'),
        (-0.03125, "0'-0\"", '0"'),
        (-0.04, "-0'-0 1/16\"", '-0 1/16"'),
    ],
)
def test_marks_are_written_to_a_sixteenth_half_up(total_in: float, written: str, plain: str) -> None:
    assert units.feet_inches(total_in / 12) == written
    assert units.inches(total_in / 12) == plain


def test_a_pitch_is_a_ratio_to_twelve_or_degrees() -> None:
    assert units.rise_per_run("5:12") == 5 / 12
    assert units.rise_per_run("4.5 : 12") == 0.375
    # Right triangles known exactly: 45 degrees rises 1 in 1; 30 degrees 1 in the square root of 3.
    assert units.rise_per_run("45 deg") == pytest.approx(1.0, abs=1e-15)
    assert units.rise_per_run("30°") == pytest.approx(3**-0.5, abs=1e-15)


@pytest.mark.parametrize("text", ["5/10", "5:10", "-5:12", "steep", "90 deg", "5", "5:12:1", ""])
def test_what_is_no_pitch_is_refused_with_both_ways_to_write_one(text: str) -> None:
    with pytest.raises(ValueError) as caught:
        units.rise_per_run(text)
    assert str(caught.value) == f'"{text}" is not a pitch; write "5:12" or "22.6 deg"'


def test_an_angle_is_written_in_degrees() -> None:
    assert units.angle_deg("90 deg") == 90.0
    assert units.angle_deg("-12.5deg") == -12.5
    with pytest.raises(ValueError) as caught:
        units.angle_deg("north")
    assert str(caught.value) == '"north" is not an angle; write "90 deg"'
