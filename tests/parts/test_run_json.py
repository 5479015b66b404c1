"""run.json: plain JSON (RFC 8259) with everything that the interfaces promise, in agreement with the schedule."""

from __future__ import annotations

import csv
import io
import json
from typing import Any

import pytest

from drawings.drawn import run_of_outline
from export.tables.run_json import run_json
from export.tables.schedule import schedule_csv
from framing.members import MemberKind
from framing.run import CAUTION, Run

ELL = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (22.0, 28.0), (22.0, 50.0), (0.0, 50.0))


@pytest.fixture(scope="module")
def run() -> Run:
    return run_of_outline(ELL)


@pytest.fixture(scope="module")
def data(run: Run) -> dict[str, Any]:
    def refuse(name: str) -> float:
        raise AssertionError(f"{name} is no JSON number")

    return dict(json.loads(run_json(run), parse_constant=refuse))


def test_it_holds_every_promised_key(data: dict[str, Any]) -> None:
    promised = {"format", "plan", "fingerprint", "totals", "cases", "members", "bearings", "unresolved", "combinations"}
    assert promised <= set(data)
    assert (data["format"], data["caution"]) == (1, CAUTION)


def test_the_roof_area_is_the_outline_with_its_eaves(data: dict[str, Any]) -> None:
    # 2 ft eaves round an L of six corners: 46 x 28 + 22 x 22 + 2 x its girth of 192 + 4 corners of 2 x 2 more
    assert data["totals"]["roof_plan_area_ft2"] == pytest.approx(46 * 28 + 22 * 22 + 2 * 192 + 16)


def test_members_are_counted_by_kind_and_each_says_what_carries_its_ends(data: dict[str, Any]) -> None:
    counts = data["totals"]["members"]
    assert set(counts) == {k.value for k in MemberKind}
    assert sum(counts.values()) == len(data["members"])
    names = {m["name"] for m in data["members"]} | {w["name"] for w in data["walls"]}
    for m in data["members"]:
        assert m["carriers"]
        assert {c["name"] for c in m["carriers"]} <= names
        assert m["plies"] >= 1


def test_each_case_gives_to_the_bearings_what_the_roof_receives(data: dict[str, Any]) -> None:
    for i, case in enumerate(data["cases"]):
        gross = sum(abs(b["reactions_lb"][i]) for b in data["bearings"]) + 1.0
        assert abs(case["applied_vertical_lb"] - case["reactions_vertical_lb"]) <= 1e-9 * gross
        assert abs(sum(b["reactions_lb"][i] for b in data["bearings"]) - case["reactions_vertical_lb"]) < 1e-3


def test_combinations_name_cases_that_exist(data: dict[str, Any]) -> None:
    cases = {c["name"] for c in data["cases"]}
    assert {t["case"] for c in data["combinations"] for t in c["terms"]} <= cases
    uplift = [c for c in data["combinations"] if c["for"] == "uplift"]
    n_winds = sum(c["basis"] in ("mwfrs", "cladding") for c in data["cases"])
    assert len(uplift) == 2 * n_winds  # each wind with the finished roof and with the one before its covering
    assert {t["factor"] for c in uplift for t in c["terms"]} == {0.6}


def test_the_bearings_are_the_rows_of_the_schedule(run: Run, data: dict[str, Any]) -> None:
    rows = list(csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig"))))
    assert len(rows) == len(data["bearings"])
    for row, bearing in zip(rows, data["bearings"], strict=True):
        first, *others = bearing["straps"]
        second = others[0] if others else dict.fromkeys(first)
        place = {c: first[c] for c in ("in_from_face_in", "in_from_next_face_in", "end_in", "edge_in")}
        place |= {f"second_{c}": second[c] for c in ("in_from_face_in", "in_from_next_face_in", "x_ft", "y_ft")}
        told = bearing | place | {"second_station": second["tape"]}
        for column in set(row) - {"open_about_the_wind", "fingerprint", "caution"}:
            value, text = told[column], row[column].lstrip("'")
            if isinstance(value, float):
                assert float(text) == pytest.approx(value, abs=0.06)
            else:
                assert text == ("" if value is None else str(value).lstrip("'"))


def test_each_bearing_says_its_uplift_finished_and_before_the_covering_and_the_worse_is_its_uplift(
    data: dict[str, Any],
) -> None:
    for bearing in data["bearings"]:
        stages = bearing["finished_uplift_lb"], bearing["before_covering_uplift_lb"]
        assert bearing["uplift_lb"] == max(stages)
        assert bearing["before_covering_governs"] == (stages[1] > stages[0])


def test_the_plan_is_there_with_every_assumption(run: Run, data: dict[str, Any]) -> None:
    assert data["plan"]["trusses"]["spacing_ft"] == 2.0
    assert data["plan"]["wind"]["exposure"] == "C"
    assert tuple(data["plan"]["assumed"]) == run.plan.assumed


def test_equal_input_gives_equal_bytes(run: Run) -> None:
    assert run_json(run) == run_json(run_of_outline(ELL))
