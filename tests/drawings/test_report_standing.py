"""What the marks stand on, in report and check: supports, rests, trusses askew; every figure equal to run.json's."""

from __future__ import annotations

import json
from typing import Any

import pytest

from drawings.drawn import supported_house
from drawings.marked_run import sample
from drawings.test_report import number, page_of
from export.tables.run_json import run_json
from export.words.check import findings, findings_text
from framing.run import Run
from framing.units import feet_inches


@pytest.fixture(scope="module")
def supported() -> Run:
    return supported_house()


def told(run: Run) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(run_json(run))
    return data


def test_every_mark_on_a_support_and_every_truss_askew_is_listed_with_what_holds_it(supported: Run) -> None:
    for run in (supported, sample("bay_and_corners")):
        rows = page_of(run).rows("standing", "What the marks stand on")
        odd = [b for b in told(run)["bearings"] if b["wall"].startswith("S") or b["skew_deg"] >= 1.0]
        assert [r[:4] for r in rows] == [[b["mark"], b["member"], b["wall"], b["held_by"]] for b in odd]
        assert [number(r[4]) for r in rows] == pytest.approx([b["skew_deg"] for b in odd], abs=0.05 + 1e-9)
        assert [number(r[5]) for r in rows] == pytest.approx([b["bearing_length_in"] for b in odd], abs=0.005 + 1e-9)
        square = [b for b in told(run)["bearings"] if b not in odd]
        assert {b["bearing_length_in"] for b in square} == {12 * run.plan.wall_thickness_ft}
        assert {b["held_by"] for b in square} == {"tie beam"}
    assert {b["held_by"] for b in told(supported)["bearings"]} == {"tie beam", "support", "engineer's connection"}


def test_every_rest_is_listed_with_its_place_and_its_reaction_down(supported: Run) -> None:
    rows = page_of(supported).rows("standing", "Where trusses run on over")
    rests = told(supported)["rests"]
    assert {r["support"] for r in rests} == {"S2", "S3"}
    for row, rest in zip(rows, rests, strict=True):
        assert row[:4] == [rest["mark"], rest["member"], rest["support"], feet_inches(rest["station_ft"])]
        assert number(row[4]) == pytest.approx(rest["down_lb"], abs=0.05 + 1e-9)


def test_check_tells_of_each_support_what_run_json_has_on_it(supported: Run) -> None:
    data, found = told(supported), findings(supported)["supports"]
    assert [s["name"] for s in found] == ["S1", "S2", "S3", "S4"]
    for support in found:
        marks = [b for b in data["bearings"] if b["wall"] == support["name"]]
        rests = [r for r in data["rests"] if r["support"] == support["name"]]
        assert (support["n_marks"], support["n_rests"]) == (len(marks), len(rests))
        assert support["largest_uplift_lb"] == max((b["uplift_lb"] for b in marks), default=0.0)
        assert support["largest_down_lb"] == max(b["down_lb"] for b in (*marks, *rests))
    text = findings_text(supported)
    n, down = found[1]["n_rests"], found[1]["largest_down_lb"]
    over = f"{n} trusses run on over it and only press on it; up to {down:,.0f} lb down"
    assert f"S2 bearing wall from (0'-0\", 16'-0\") to (22'-0\", 16'-0\"), not tied down: {over}" in text
    assert text.count(f"; up to {down:,.0f} lb down") == 1


def test_a_house_without_supports_says_nothing_of_them() -> None:
    run = sample("hip_house")
    assert "Supports" not in findings_text(run)
    titles = [title for block, title, _ in page_of(run).tables if block == "standing"]
    assert titles == ["What the marks stand on"]
