"""The wind columns of a package table -> the wind that it was made for."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping

from framing.errors import StraplineError
from framing.package.rows import PackageWind
from framing.plan import EditionName, Enclosure, Exposure
from framing.units import shown

SLOWEST_MPH, FASTEST_MPH = 85.0, 250.0
_SPEED = re.compile(r"(\d{1,4}(?:\.\d+)?)\s*(?:mph)?", re.ASCII | re.IGNORECASE)
_EDITION = re.compile(r"(?:ASCE(?:/SEI)?\s*)?7\s*-\s*(?:20)?(16|22)", re.ASCII | re.IGNORECASE)
Wrong = Callable[[str, str], StraplineError]


def package_wind(cells: Mapping[str, str], wrong: Wrong) -> PackageWind:
    """The wind that a table states once for all its rows; `wrong` makes the error for one of its columns.

    Raises
    ------
    StraplineError
        If a cell is no wind speed, exposure, enclosure or edition.
    """
    return PackageWind(
        speed_mph=_speed(cells["wind_speed"], wrong),
        exposure=_exposure(cells["exposure"], wrong),
        enclosure=_enclosure(cells["enclosure"], wrong),
        edition=_edition(cells["edition"], wrong),
    )


def _speed(cell: str, wrong: Wrong) -> float | None:
    if not cell:
        return None
    match = _SPEED.fullmatch(cell)
    right = f"write the basic wind speed, {SLOWEST_MPH:.0f} to {FASTEST_MPH:.0f} mph"
    if match is None:
        why = "is a pressure" if "psf" in cell.lower() else "is no wind speed"
        raise wrong("wind_speed", f"{shown(cell)} {why}; {right}")
    mph = float(match[1])
    if mph < SLOWEST_MPH:
        raise wrong("wind_speed", f"{shown(cell)} is too slow, perhaps a pressure in psf; {right}")
    if mph > FASTEST_MPH:
        raise wrong("wind_speed", f"{shown(cell)} is out of range; {right}")
    return mph


def _exposure(cell: str, wrong: Wrong) -> Exposure | None:
    plain = cell.upper().removeprefix("EXPOSURE").removeprefix("EXP").strip(" .")
    if cell and plain not in tuple(Exposure):
        raise wrong("exposure", f"{shown(cell)} is no exposure; write B, C or D")
    return Exposure(plain) if cell else None


def _enclosure(cell: str, wrong: Wrong) -> Enclosure | None:
    if cell and cell.lower() not in tuple(Enclosure):
        right = ", ".join(e.value for e in Enclosure)
        raise wrong("enclosure", f"{shown(cell)} is no enclosure; write one of {right}")
    return Enclosure(cell.lower()) if cell else None


def _edition(cell: str, wrong: Wrong) -> EditionName | None:
    if not cell:
        return None
    match = _EDITION.fullmatch(cell)
    if match is None:
        raise wrong("edition", f"{shown(cell)} is not a known edition; write ASCE 7-16 or ASCE 7-22")
    return EditionName.ASCE_7_16 if match[1] == "16" else EditionName.ASCE_7_22
