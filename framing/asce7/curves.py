"""Chapter 30's curves: GC_p linear in log10 of the effective wind area, flat outside; both editions read here."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from functools import cache

import numpy as np
from numpy.typing import NDArray

from framing.asce7.tables import Floats, Row, rows
from framing.errors import LoadError
from framing.tolerances import ROUNDING

Area = float | Floats
Zone = str | NDArray[np.str_]
Curve = Callable[[Area], Floats]


class RoofForm(StrEnum):
    """Which of the figures a piece of roof is read from. Source: ASCE 7-22, figs. 30.3-2A to 2G."""

    GABLE = "gable"
    HIP = "hip"


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One straight piece of a curve.

    Source: ASCE 7-22, tables C30.3-1 to C30.3-9 (good).
    """

    area_low_ft2: float
    area_high_ft2: float
    intercept_ratio: float
    per_decade_ratio: float

    def __call__(self, area_ft2: Area) -> Floats:
        """Intercept plus slope times log10(A), A held between the ends of the piece."""
        return np.asarray(
            self.intercept_ratio
            + self.per_decade_ratio * np.log10(np.clip(area_ft2, self.area_low_ft2, self.area_high_ft2))
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The pieces of one curve, small areas first.

    Source: ASCE 7-22, figs. 30.3-1 to 30.3-2G (good).
    """

    segments: tuple[Segment, ...]

    def __call__(self, area_ft2: Area) -> Floats:
        """GC_p at an effective wind area."""
        out = self.segments[0](area_ft2)
        for segment in self.segments[1:]:
            out = np.where(np.asarray(area_ft2) > segment.area_low_ft2, segment(area_ft2), out)
        return out


@cache
def chain(table: str, figure: str, part: str, zone: str, sign: str, *, h_over_B: str = "") -> Chain:
    """The curve of one zone of one figure; `h_over_B` picks the row where a figure has several.

    Raises
    ------
    LoadError
        If the figure has no such zone; names those that it has.

    Source: ASCE 7-22, figs. 30.3-1 to 30.3-2G (good; every row's own mark in data/chapter30_GC_p.csv).
    """
    found = [row for row in rows(table) if (row["figure"], row["part"], row["sign"]) == (figure, part, sign)]
    found = [row for row in found if not h_over_B or row["h_over_B"] in ("*", h_over_B)]
    wanted = [row for row in found if row["zone"] in ("*", zone)]
    if not wanted:
        known = ", ".join(sorted({row["zone"] for row in found})) or "none"
        raise LoadError(f"figure {figure} has no {part} zone {zone!r}; it has {known}.")
    return Chain(segments=tuple(_segment(row) for row in sorted(wanted, key=lambda row: float(row["area_low_ft2"]))))


def _segment(row: Row) -> Segment:
    return Segment(
        area_low_ft2=float(row["area_low_ft2"]),
        area_high_ft2=float(row["area_high_ft2"]),
        intercept_ratio=float(row["c0"]),
        per_decade_ratio=float(row["c1"]),
    )


def by_zone(curve_of: Callable[[str], Curve], zone: Zone, area_ft2: Area) -> Floats:
    """GC_p for one zone or an array of zones, broadcast against the areas.

    Parameters
    ----------
    curve_of : callable
        From the name of a zone to its curve.
    zone : str or (n,) str
        Names of zones.
    area_ft2 : float or (n,) float
        Effective wind area, above 0. [ft2]

    Returns
    -------
    () or (n,) float
        GC_p, negative away from the surface.

    Raises
    ------
    LoadError
        If an area is not above 0.

    Source: own derivation: tests/parts/test_asce7_properties.py.
    """
    if not np.all(np.asarray(area_ft2) > 0.0):
        raise LoadError(f"effective wind area {area_ft2} ft2: it must be above 0.")
    if isinstance(zone, str):
        return curve_of(zone)(area_ft2)
    zones, area = np.broadcast_arrays(zone, np.asarray(area_ft2, dtype=np.float64))
    out = np.empty(zones.shape)
    for name in sorted(set(zones.ravel().tolist())):
        here = zones == name
        out[here] = curve_of(name)(area[here])
    return out


def figure(table: str, form: RoofForm, theta_deg: float) -> str:
    """Which figure holds for a roof of that form and slope.

    Parameters
    ----------
    table : str
        The table of figures of the edition.
    form : RoofForm
        Gable or hip.
    theta_deg : float
        Roof slope, 0 to 45. [deg]

    Raises
    ------
    LoadError
        If the slope is outside 0 to 45 degrees.

    Source: ASCE 7-22, sec. 30.3.2, figs. 30.3-2A to 2G (good).
    """
    for row in rows(table):
        if row["form"] == form and 0.0 <= theta_deg <= float(row["theta_to_deg"]) + ROUNDING:
            return row["figure"]
    raise LoadError(f"roof slope {theta_deg} degrees: figures 30.3-2A to 2G are given from 0 to 45 degrees.")


def zones(table: str, figure: str) -> tuple[str, ...]:
    """The roof zones that a figure has, in order.

    Source: ASCE 7-22, figs. 30.3-2A to 2G (good).
    """
    found = {row["zone"] for row in rows(table) if (row["figure"], row["part"], row["sign"]) == (figure, "roof", "-")}
    return tuple(sorted(found))
