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

from framing.plan import EditionName, Exposure
from framing.quick import QuickInputs, quick
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
    inputs = QuickInputs(
        span_ft=float(row["span_ft"]),
        spacing_ft=float(row["spacing_in"]) / 12.0,
        rise_per_run=PITCHES[column[:2]][0],
        speed_mph=float(column[2:]),
        exposure=Exposure(row["exposure"]),
        mean_roof_height_ft=33.0,
        overhang_ft=2.0,
        overhang_underside_ratio=overhang_underside_ratio,
        dead_psf=15.0,
        edition=EditionName.ASCE_7_16,
    )
    return quick(inputs).mwfrs["end_zone"].uplift_lb


def test_every_cell_of_the_table_is_tried() -> None:
    assert len(CELLS) == 240


@pytest.mark.parametrize(("row", "column"), CELLS)
def test_the_cell_is_met_with_the_tables_own_overhang_underside(row: dict[str, str], column: str) -> None:
    table_lb, spacing_ft = float(row[column]), float(row["spacing_in"]) / 12.0
    ours_lb = uplift_lb(row, column, PITCHES[column[:2]][1])
    assert ours_lb == pytest.approx(table_lb, abs=max(0.03 * table_lb, 3.0 * spacing_ft))


@pytest.mark.parametrize(("row", "column"), CELLS)
def test_the_default_underside_is_never_short_of_the_cell_and_little_over_it(row: dict[str, str], column: str) -> None:
    over_plf = (uplift_lb(row, column, 0.7) - float(row[column])) / (float(row["spacing_in"]) / 12.0)
    assert -1.0 <= over_plf <= 5.5
