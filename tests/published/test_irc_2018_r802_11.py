"""Uplift at rafter and truss bearings.

Source: International Code Council, International Residential Code for One- and Two-Family Dwellings, 2015, 2018
and 2021 editions, table R802.11 'Rafter or truss uplift connection forces from wind (ASD)', pounds per
connection, Exposure B; read in two public copies without a mismatch in the 226 cells seen in both. The figures
and the basis stand in data/irc_r802_11_uplift_exposure_b.csv. Its 16 in. cells are 1.33 times and its 24 in.
cells twice the rounded 12 in. cells, so a rounding of 0.5 lb at 12 in. is one of 1 lb at 24 in.

Named assumptions, chosen to fit and not read: the underside of the overhang at 0.85 x 0.8 of q under 5:12 and
0.85 x 0.7 from 5:12 on; 4:12 and 5:12 as the slopes of the two columns (the table's own fit is 20 degrees, where
the leeward coefficient is -0.69: worth up to 3 lb per foot of spacing).
"""

from __future__ import annotations

import pytest

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.chapter28 import OVERHANG_UNDERSIDE_GC_P
from framing.plan import EditionName, Exposure
from framing.quick import QuickInputs, quick
from published.end_zone_truss import end_zone_truss
from published.figures import figures

ROWS = figures("irc_r802_11_uplift_exposure_b")
PITCHES = {"lt": (4.0 / 12.0, 0.68), "ge": (5.0 / 12.0, 0.595)}
CELLS = [
    pytest.param(row, column, id=f"{row['spacing_in']} in., {row['span_ft']} ft, {column[:2]} 5:12, {column[2:]} mph")
    for row in ROWS
    for column in row
    if column[:2] in PITCHES
]


def uplift_lb(row: dict[str, str], column: str, overhang_underside_ratio: float) -> float:
    """Through the house: the truss whose whole strip lies in the end zone."""
    found = end_zone_truss(
        span_ft=float(row["span_ft"]),
        spacing_ft=float(row["spacing_in"]) / 12.0,
        rise_per_run=PITCHES[column[:2]][0],
        speed_mph=float(column[2:]),
        exposure=Exposure(row["exposure"]),
        mean_roof_height_ft=33.0,
        overhang_ft=2.0,
        overhang_underside_ratio=overhang_underside_ratio,
        dead_psf=15.0,
    )
    return max(0.0, ASD_UPLIFT.net_uplift(found.wind_lb, found.dead_lb))


def test_every_cell_of_the_table_is_tried() -> None:
    assert len(CELLS) == 240


@pytest.mark.parametrize(("row", "column"), CELLS)
def test_the_cell_is_met_with_the_tables_own_overhang_underside(row: dict[str, str], column: str) -> None:
    """The worst of all: 1.6 lb a foot of spacing, of which the table's own rounding is up to 0.7; 2.0 %."""
    table_lb, spacing_ft = float(row[column]), float(row["spacing_in"]) / 12.0
    ours_lb = uplift_lb(row, column, PITCHES[column[:2]][1])
    assert ours_lb == pytest.approx(table_lb, abs=1.65 * spacing_ft)
    assert ours_lb == pytest.approx(table_lb, rel=0.021)


@pytest.mark.parametrize(("row", "column"), CELLS)
def test_the_standards_own_underside_is_never_short_of_the_cell_and_little_over_it(
    row: dict[str, str], column: str
) -> None:
    spacing_ft = float(row["spacing_in"]) / 12.0
    over_plf = (uplift_lb(row, column, OVERHANG_UNDERSIDE_GC_P) - float(row[column])) / spacing_ft
    assert -1.0 <= over_plf <= 5.9


@pytest.mark.parametrize("column", ["lt130", "ge130"])
def test_the_command_without_a_plan_reads_the_same_truss(column: str) -> None:
    """28 ft, 24 in. on centre."""
    row = next(r for r in ROWS if (r["spacing_in"], r["span_ft"]) == ("24", "28"))
    inputs = QuickInputs(
        span_ft=28.0,
        spacing_ft=2.0,
        rise_per_run=PITCHES[column[:2]][0],
        speed_mph=130.0,
        exposure=Exposure.B,
        overhang_underside_ratio=PITCHES[column[:2]][1],
        edition=EditionName.ASCE_7_16,
    )
    house_lb = uplift_lb(row, column, PITCHES[column[:2]][1])
    assert quick(inputs).mwfrs["end_zone"].uplift_lb == pytest.approx(house_lb, rel=1e-9)
