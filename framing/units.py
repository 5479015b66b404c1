"""What people type and read - feet and inches, pitches, angles - to and from plain numbers.

Signs, said once for the whole program: z up; a force on the roof is positive up; `uplift_lb` is positive
when it lifts; `down_lb` is positive when it presses. Plan angles run counter-clockwise from +x. Inside,
every length is in feet, every force in pounds, every pressure in psf, speeds in mph, angles in degrees,
and each name ends in its unit.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

from framing.tolerances import TIE_SIXTEENTHS

LONGEST_TEXT = 40
LENGTH_HINT = '12\'-4 1/2", 12ft 4in, 24" or plain feet such as 12.375'
FOOT_M = Fraction(3048, 10_000)  # the international foot, exact
METRES = {"m": Fraction(1), "cm": Fraction(1, 100), "mm": Fraction(1, 1000)}

_ROUND_UP_SIXTEENTHS = (Fraction(1, 2) + TIE_SIXTEENTHS).as_integer_ratio()
_MARKS = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "−": "-", "\u00a0": " "})
_NUMBER = r"\d+(?:\.\d+)?"
_FRACTION = r"\d+/\d+"
_LENGTH = re.compile(
    rf"""(?P<minus>-)?\s*
    (?:(?P<feet>{_NUMBER})\s*(?:'|ft\.?))?
    (?P<join>\s*-\s*|\s*)
    (?:(?:(?P<inches>{_NUMBER})(?:(?:\s+|-)(?P<part>{_FRACTION}))?|(?P<only_part>{_FRACTION}))\s*(?:"|in\.?))?""",
    re.VERBOSE | re.ASCII | re.IGNORECASE,
)
_UNMARKED = re.compile(  # 9'4, 9-4 and 9-4 1/2: inches after feet without their mark
    rf"""(?P<minus>-)?\s*(?P<feet>{_NUMBER})(?P<join>\s*(?:'|ft\.?)\s*-?\s*|\s*-\s*)
    (?P<inches>{_NUMBER})(?:(?:\s+|-)(?P<part>{_FRACTION}))?(?P<only_part>)\s*(?:"|in\.?)?""",
    re.VERBOSE | re.ASCII | re.IGNORECASE,
)
_METRIC = re.compile(rf"(-?{_NUMBER})\s*(mm|cm|m)", re.ASCII | re.IGNORECASE)
_PLAIN = re.compile(rf"-?{_NUMBER}", re.ASCII)
_PITCH = re.compile(rf"\s*({_NUMBER})\s*[:/]\s*12\s*", re.ASCII)
_DEGREES = re.compile(rf"\s*(-?{_NUMBER})\s*(?:deg|°)\s*", re.ASCII)


def parse_length(text: str) -> Fraction:
    """The exact length that a text of feet and inches says.

    Parameters
    ----------
    text : str
        `46'-8"`, `46' 8 1/2"`, `24"`, `46ft 8in`, `-0'-4"`, with straight or typographic marks; `46'8` and `46-8`,
        feet and inches; `12.2m`, `366 cm`, `3660mm`; or plain feet.

    Returns
    -------
    Fraction
        The length without rounding. [ft]

    Raises
    ------
    ValueError
        If the text is no length; says what is wrong with it and what would be right.
    """
    plain = text.translate(_MARKS).strip()
    if len(plain) > LONGEST_TEXT:
        raise ValueError(f"{shown(text)} is too long for a length; write {LENGTH_HINT}")
    if _PLAIN.fullmatch(plain):
        return Fraction(plain)
    if metric := _METRIC.fullmatch(plain):
        return Fraction(metric[1]) * METRES[metric[2].lower()] / FOOT_M
    match = _LENGTH.fullmatch(plain) or _UNMARKED.fullmatch(plain)
    if match is None or not (match["feet"] or match["inches"] or match["only_part"]):
        raise ValueError(f"{shown(text)} is not a length; write {LENGTH_HINT}")
    return _sum_parts(text, match)


def _sum_parts(text: str, match: re.Match[str]) -> Fraction:
    """Feet, inches and the fraction of an inch added up, each within its own bounds."""
    has_inches = bool(match["inches"] or match["only_part"])
    if "-" in match["join"] and not (match["feet"] and has_inches):
        raise ValueError(f"{shown(text)} has a dash that joins nothing; write {LENGTH_HINT}")
    inches = Fraction(match["inches"] or 0)
    if part := match["part"] or match["only_part"]:
        top, bottom = (int(n) for n in part.split("/"))
        if bottom == 0 or top >= bottom:
            raise ValueError(f"{shown(text)} has the fraction {part}; write one below a whole inch, such as 1/2")
        if inches.denominator != 1:
            raise ValueError(f"{shown(text)} has both a decimal and a fraction of an inch; write one of them")
        inches += Fraction(top, bottom)
    if match["feet"] and has_inches:
        if inches >= 12:
            raise ValueError(f"{shown(text)} has {_decimal(inches)} inches beside feet; write 0 to under 12 of them")
        if "." in match["feet"]:
            raise ValueError(f"{shown(text)} has decimal feet beside inches; write whole feet, or feet alone")
    total = Fraction(match["feet"] or 0) + inches / 12
    return -total if match["minus"] else total


def length_ft(text: str) -> float:
    """The length in feet that a text says, as a plain number; raises ValueError as `parse_length` does."""
    return float(parse_length(text))


def sixteenths(length_ft: float) -> int:
    """The length in whole sixteenths of an inch, half up (toward plus infinity).

    A length within a millionth of a sixteenth of a half counts as the half, so that the last bit of a
    float cannot decide which way a mark on the wall is rounded.
    """
    n, d = length_ft.as_integer_ratio()  # whole numbers throughout: exact, and a fifth of the time of fractions
    n_up, d_up = _ROUND_UP_SIXTEENTHS
    return (192 * n * d_up + n_up * d) // (d * d_up)


def feet_inches(length_ft: float) -> str:
    """A length as the trade writes it, to 1/16 in. half up: `0'-0 3/4"`, `12'-0"`, `-0'-4"`."""
    total = sixteenths(length_ft)
    feet, rest = divmod(abs(total), 192)
    return f"{'-' if total < 0 else ''}{feet}'-{_mixed_inches(rest)}"


def inches(length_ft: float) -> str:
    """A length in plain inches, to 1/16 in. half up: `151 1/4"`; always the same mark as `feet_inches`."""
    total = sixteenths(length_ft)
    return f"{'-' if total < 0 else ''}{_mixed_inches(abs(total))}"


def _mixed_inches(n_sixteenths: int) -> str:
    whole, rest = divmod(n_sixteenths, 16)
    if rest == 0:
        return f'{whole}"'
    shared = math.gcd(rest, 16)
    return f'{whole} {rest // shared}/{16 // shared}"'


def rise_per_run(text: str) -> float:
    """The slope that a pitch says: `5:12` and `5/12` are 0.41667, `22.6 deg` its tangent.

    Raises
    ------
    ValueError
        If the text is no pitch; says what would be right.
    """
    if len(text) <= LONGEST_TEXT:
        if match := _PITCH.fullmatch(text):
            return float(Fraction(match[1]) / 12)
        if (match := _DEGREES.fullmatch(text)) and -90 < float(match[1]) < 90:
            return math.tan(math.radians(float(match[1])))
    raise ValueError(f'{shown(text)} is not a pitch; write "5:12" or "22.6 deg"')


def angle_deg(text: str) -> float:
    """The angle in degrees that a text such as `90 deg` says.

    Raises
    ------
    ValueError
        If the text is no angle; says what would be right.
    """
    if len(text) <= LONGEST_TEXT and (match := _DEGREES.fullmatch(text)):
        return float(match[1])
    raise ValueError(f'{shown(text)} is not an angle; write "90 deg"')


def shown(value: object) -> str:
    """A typed value for a one-line message: text in double quotes, never more than 40 characters."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return str(value) if abs(value) < 10**15 else "a number beyond all bounds"
    if not isinstance(value, str):
        return _clipped(str(value))
    line = "".join(c if c.isprintable() else "?" for c in value)
    return f'"{_clipped(line)}"'


def _clipped(line: str) -> str:
    return line if len(line) <= LONGEST_TEXT else line[: LONGEST_TEXT - 3] + "..."


def _decimal(number: Fraction) -> str:
    return f"{float(number):g}"
