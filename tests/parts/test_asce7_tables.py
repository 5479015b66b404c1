"""The tables beside the chapters: every figure with its source and its mark, every source known."""

from __future__ import annotations

import re
from importlib.resources import files

import pytest

from framing.asce7.chapter2 import combination
from framing.asce7.tables import by_key, constants, rows

MARKS = {
    "solid",
    "good",
    "good; flat area in doubt",
    "good; in doubt",
    "fair",
    "weak",
    "low confidence",
    "inferred",
    "from memory",
    "practice",
}
TABLES = sorted(
    path.name.removesuffix(".csv") for path in files("framing.asce7.data").iterdir() if path.name.endswith(".csv")
)
COEFFICIENTS = [name for name in TABLES if name not in ("sources", "unconfirmed")]


@pytest.mark.parametrize("table", COEFFICIENTS)
def test_every_row_has_a_source_that_is_listed_and_one_of_the_marks(table: str) -> None:
    known = {row["id"] for row in rows("sources")}
    for row in rows(table):
        assert row["mark"] in MARKS
        cited = re.findall(r"\bS\d+\b", row["source"])
        assert set(cited) <= known
        assert cited or row["mark"] in ("inferred", "from memory")


def test_every_unconfirmed_item_says_where_it_is_used_and_what_to_check() -> None:
    for row in rows("unconfirmed"):
        assert set(row) == {"item", "mark", "where_used", "what_to_check"}
        assert row["mark"] in MARKS
        assert all(row.values())


def test_every_table_of_lower_mark_has_its_line_in_the_unconfirmed_list() -> None:
    lower = {row["mark"] for table in COEFFICIENTS for row in rows(table) if row["mark"] not in ("solid", "good")}
    assert lower - {"good; flat area in doubt"} <= {row["mark"] for row in rows("unconfirmed")}


def test_a_row_and_a_single_figure_are_found_by_name() -> None:
    assert by_key("chapter26_K_z", "exposure", "D")["z_g_ft"] == "1935"
    assert constants("chapter26_constants")["K_d"] == 0.85


def test_combinations_for_uplift_leave_no_live_load_and_reduce_the_dead_load() -> None:
    asd, lrfd = combination("ASD 0.6D + 0.6W"), combination("LRFD 0.9D + 1.0W")
    assert (asd.net_uplift(1000.0, 500.0), lrfd.net_uplift(1000.0, 500.0)) == (300.0, 550.0)
    assert asd.roof_live_factor == lrfd.roof_live_factor == 0.0


@pytest.mark.parametrize(
    ("name", "dead", "roof_live", "wind"),
    [
        ("ASD D", 1.0, 0.0, 0.0),
        ("ASD D + Lr", 1.0, 1.0, 0.0),
        ("ASD D + 0.6W", 1.0, 0.0, 0.6),
        ("ASD D + 0.75Lr + 0.45W", 1.0, 0.75, 0.75 * 0.6),
        ("ASD 0.6D + 0.6W", 0.6, 0.0, 0.6),
        ("LRFD 1.2D + 0.5Lr + 1.0W", 1.2, 0.5, 1.0),
        ("LRFD 0.9D + 1.0W", 0.9, 0.0, 1.0),
    ],
)
def test_a_combination_has_the_factors_of_its_section(name: str, dead: float, roof_live: float, wind: float) -> None:
    """ASCE 7-22, sec. 2.4.1 (1a, 3a, 5a, 6a, 7a) and 2.3.1 (4a, 5a): good, those without wind from memory."""
    found = combination(name)
    assert (found.dead_factor, found.roof_live_factor) == (dead, roof_live)
    assert found.wind_factor == pytest.approx(wind)
