"""Roof-to-wall uplift within 6 ft of a building corner.

Source: Florida Building Code, Existing Building, table 708.8.1 'Required uplift capacities for roof-to-wall
connections', plf; read in one public copy that does not show the edition; figures in
data/fbc_existing_708_8_1_uplift.csv.

Named assumptions, chosen to fit: the speed is nominal (its header says ultimate) and the wind factor 1.0,
Exposure C, mean roof height 30 ft, 20 degrees, 0.6 of 10 psf; the overhang has a column of its own, both faces
(1.07 + 0.68), without dead load. It is a check of pressures and statics, not a demand for any ultimate speed.
"""

from __future__ import annotations

import math

import pytest

from framing.asce7.chapter2 import Combination
from framing.plan import Exposure
from published.end_zone_truss import EndZoneTruss, end_zone_truss
from published.figures import figures

ROWS = figures("fbc_existing_708_8_1_uplift")
NOMINAL = Combination(name="0.6D + 1.0W, nominal wind", dead_factor=0.6, roof_live_factor=0.0, wind_factor=1.0)
SPAN_CELLS = [
    pytest.param(row, column, id=f"{row['speed_mph']} mph, {column[1:]} ft")
    for row in ROWS
    for column in row
    if column.startswith("s") and column != "speed_mph" and row[column]
]
OVERHANG_CELLS = [pytest.param(row, id=f"{row['speed_mph']} mph") for row in ROWS if row["oh"]]


def truss(speed_mph: float, span_ft: float, overhang_ft: float) -> EndZoneTruss:
    """Through the house, a foot of wall to a truss."""
    return end_zone_truss(
        span_ft=span_ft,
        spacing_ft=1.0,
        rise_per_run=math.tan(math.radians(20.0)),
        speed_mph=speed_mph,
        exposure=Exposure.C,
        mean_roof_height_ft=30.0,
        overhang_ft=overhang_ft,
        overhang_underside_ratio=0.68,
        dead_psf=10.0,
    )


def test_every_readable_cell_of_the_table_is_tried() -> None:
    assert (len(SPAN_CELLS), len(OVERHANG_CELLS)) == (54, 7)


@pytest.mark.parametrize(("row", "column"), SPAN_CELLS)
def test_the_roof_cell_is_met(row: dict[str, str], column: str) -> None:
    span_ft = float(column[1:])
    found = truss(float(row["speed_mph"]), span_ft, 0.0)
    assert NOMINAL.net_uplift(found.wind_lb, found.dead_lb) == pytest.approx(float(row[column]), abs=0.02)


@pytest.mark.parametrize("row", OVERHANG_CELLS)
def test_the_overhang_cell_is_met(row: dict[str, str]) -> None:
    found = truss(float(row["speed_mph"]), 30.0, 1.0)
    assert found.overhang_psf == pytest.approx(float(row["oh"]), abs=0.1)
