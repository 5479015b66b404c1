"""What `quick` is told and what it answers."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from framing.asce7.chapter28 import OVERHANG_UNDERSIDE_GC_P
from framing.errors import LoadError
from framing.plan import EditionName, Enclosure, Exposure

# Least and greatest of each number, and its unit, as named in the error. Source: common practice, no source.
_RANGES = {
    "span_ft": (4.0, 100.0, "ft"),
    "spacing_ft": (0.5, 8.0, "ft"),
    "rise_per_run": (0.0, 1.0, "(12:12 is 1)"),
    "speed_mph": (85.0, 250.0, "mph"),
    "mean_roof_height_ft": (5.0, 60.0, "ft"),
    "overhang_ft": (0.0, 8.0, "ft"),
    "overhang_underside_ratio": (0.0, 2.0, ""),
    "dead_psf": (0.0, 100.0, "psf"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickInputs:
    """One common truss of a gable roof and its wind.

    `overhang_underside_ratio` is the envelope procedure's GC_p under the windward overhang; its default is
    that of chapter 28.

    Raises
    ------
    LoadError
        If a number is outside its range; names it and the range.
    """

    span_ft: float
    spacing_ft: float
    rise_per_run: float
    speed_mph: float
    exposure: Exposure
    mean_roof_height_ft: float = 33.0
    overhang_ft: float = 2.0
    overhang_underside_ratio: float = OVERHANG_UNDERSIDE_GC_P
    dead_psf: float = 15.0
    enclosure: Enclosure = Enclosure.ENCLOSED
    edition: EditionName = EditionName.ASCE_7_22

    def __post_init__(self) -> None:
        for name, (least, greatest, unit) in _RANGES.items():
            value = getattr(self, name)
            if not least <= value <= greatest:
                raise LoadError(f"{name} is {value:g}: it must be from {least:g} to {greatest:g} {unit}".rstrip() + ".")

    @property
    def theta_deg(self) -> float:
        """Angle of the roof plane from the horizontal. [deg]."""
        return math.degrees(math.atan(self.rise_per_run))


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One line of the arithmetic: which part it belongs to, the formula in numbers, its value and its clause."""

    part: str
    text: str
    value: float
    unit: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class QuickUplift:
    """ASD net uplift at the worse bearing, 0 where nothing lifts, and what it is made of.

    `wind_lb` is at strength level, positive when it lifts, `dead_lb` positive down, both unfactored. The horizontal
    parts of the pressures are held at the bearings, as the published tables have it; `held_by_deck_uplift_lb` is the
    same with the roof deck holding them, as `build` tries too.
    """

    uplift_lb: float
    wind_lb: float
    dead_lb: float
    held_by_deck_uplift_lb: float
    case: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class QuickResult:
    """The answer: main frame by place ('end_zone', 'interior'), cladding by roof zone, and the steps in order."""

    inputs: QuickInputs
    mwfrs: Mapping[str, QuickUplift]
    cladding: Mapping[str, QuickUplift]
    steps: tuple[Step, ...]
