"""report.html: both roofs side by side, the pushes sideways, and every key of the plan, equal to run.json."""

from __future__ import annotations

import dataclasses
import json
import math
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from drawings.marked_run import SAMPLES, sample
from drawings.test_report import PLAIN, number, page_of, places, product
from export.report.assumptions import plan_lines, plan_values
from export.tables.run_json import run_json
from framing.plan import Feature, Topography
from framing.run import Run, make_run

SCHEMA = Path(__file__).parents[2] / "framing" / "plan_file" / "plan.schema.json"
ON_TOP = {"format", "project.name", "project.revision", "project.date", "project.truss_package"}
TURNS_THE_SHEET_ONLY = {"project.north"}
IN_SENTENCES = {"walls.outline", "walls.outline_dxf", "support", "roof.edge", "porch", "opening", "cross_wall"}
IN_SENTENCES |= {"filled_cell", "footing", "option"}


@pytest.mark.parametrize("name", SAMPLES)
def test_both_roofs_and_the_pushes_of_every_mark_are_those_of_run_json(name: str) -> None:
    run = sample(name)
    page, data = page_of(run), json.loads(run_json(run))
    cases = [c["name"] for c in data["cases"]]
    rows = page.rows("stages", "Finished")
    assert [r[0] for r in rows] == [b["mark"] for b in data["bearings"]]
    for row, b in zip(rows, data["bearings"], strict=True):
        rakes = ", rakes as ladders" * b["case"].endswith("rakes as ladders")
        names = [f"dead for uplift{w}{rakes}" for w in ("", ", before the covering")]
        dead = [-b["reactions_lb"][cases.index(name)] for name in names]
        wind = b["reactions_lb"][cases.index(b["case"])]
        finished, before = b["finished_uplift_lb"], b["before_covering_uplift_lb"]
        said = [number(c) for c in row[1:6]]
        assert said == pytest.approx([wind, dead[0], finished, dead[1], before], abs=0.05 + 1e-6)
        assert row[6] == ("before" if b["before_covering_governs"] else "finished")
        pushes = [b[c] for c in ("uplift_mwfrs_lb", "uplift_cladding_lb", "parallel_lb", "perpendicular_lb")]
        assert row[7:11] == ["–" if lb is None else f"{lb:.1f}" for lb in pushes]
        ratios = [b[c] for c in ("ratio_uplift", "ratio_parallel", "ratio_perpendicular", "ratio")]
        assert row[11:15] == ["–" if r is None else f"{r:.3f}" for r in ratios]
        assert row[15] == (b["rule"] or "")


@pytest.mark.parametrize("name", ["cottage", "hip_house"])
def test_the_arithmetic_of_a_mark_says_both_uplifts(name: str) -> None:
    run = sample(name)
    said = page_of(run).lists
    for b in json.loads(run_json(run))["bearings"]:
        mine = [text for block, text in said if block == f"worked-{b['mark']}"]
        both = f"finished {b['finished_uplift_lb']:.2f} lb, before the covering {b['before_covering_uplift_lb']:.2f} lb"
        assert sum(both in text for text in mine) == 1


@pytest.mark.parametrize("name", SAMPLES)
def test_the_combination_of_every_mark_gives_the_uplift_and_ratio_of_the_schedule(name: str) -> None:
    run = sample(name)
    page = page_of(run)
    marks = {f"worked-{m.mark}": m for m in run.schedule.marks}
    seen = set()
    for block, text in page.lists:
        if block in marks and text.startswith("0.6 W"):
            _, numbers, net = (
                text.translate(PLAIN).removesuffix(": nothing lifts here, so the uplift is 0").split(" = ")
            )
            assert product(numbers) == pytest.approx(number(net.split()[0]), abs=0.012)
            assert max(number(net.split()[0]), 0.0) == places(marks[block].uplift_lb, 2)
            seen.add(block)
        elif block in marks and text.startswith("hardest case: "):
            mark = marks[block]
            assert mark.ratio is not None
            assert mark.use is not None
            assert mark.use.case in text
            parts, _, whole = text.translate(PLAIN).rpartition(": ")[2].partition("; ")
            for part in parts.split(", "):
                way, numbers, value = re.findall(r"(\w+) ([\d.]+ / [\d.]+) = ([\d.]+)", part)[0]
                assert product(numbers) == pytest.approx(number(value), abs=1e-4)
                assert number(value) == places(getattr(mark.use, f"{way}_ratio"), 4)
            _, numbers, value = whole.split(" = ")
            assert product(numbers) == pytest.approx(number(value), abs=2e-4)
            assert number(value) == places(mark.ratio, 4)
        elif block in marks and text.startswith("down"):
            assert number(text.split(" = ")[2].split()[0]) == places(marks[block].down_lb, 2)
        elif block in marks and text.startswith("good to"):
            said, speed, root = re.findall(r"good to ([\d.]+) mph, .*: ([\d.]+) × √\[(.*)\]", text)[0]
            assert float(speed) * math.sqrt(product(root)) == pytest.approx(float(said), abs=0.06)
    assert seen == set(marks)


def keys(schema: dict[str, Any], here: dict[str, Any], path: str = "") -> Iterator[str]:
    """Every key that a plan file may have, lists of tables as one."""
    here = schema["$defs"][here["$ref"].rpartition("/")[2]] if "$ref" in here else here
    tables = [*here.get("anyOf", []), here]
    inside = {k: v for t in tables for k, v in _table(schema, t).get("properties", {}).items()}
    if not inside or path in IN_SENTENCES:
        yield path
    for key, value in inside.items():
        yield from keys(schema, value, f"{path}.{key}".removeprefix(".")) if path not in IN_SENTENCES else ()


def _table(schema: dict[str, Any], here: dict[str, Any]) -> dict[str, Any]:
    found = schema["$defs"][here["$ref"].rpartition("/")[2]] if "$ref" in here else here
    return dict(found)


def on_a_ridge() -> Run:
    run = sample("cottage")
    rise = Topography(feature=Feature.RIDGE, height_ft=60.0, half_length_ft=200.0, distance_ft=-30.0)
    wind = dataclasses.replace(run.plan.wind, topography=rise, ground_elevation_ft=2500.0)
    dead = dataclasses.replace(run.plan.dead, without_covering=False)
    return make_run(dataclasses.replace(run.plan, wind=wind, dead=dead), run.schedule.catalogue)


def test_what_the_figures_rest_on_names_every_key_of_a_plan_file() -> None:
    schema = json.loads(SCHEMA.read_text(encoding="utf-8"))
    wanted = set(keys(schema, schema)) - ON_TOP - TURNS_THE_SHEET_ONLY - IN_SENTENCES
    assert len(wanted) > 30
    assert wanted <= {path for path, _, _ in plan_values(on_a_ridge())}


def test_the_rise_of_ground_the_elevation_and_the_storm_left_out_are_told() -> None:
    run = on_a_ridge()
    page = page_of(run)
    cells = [c for row in page.rows("assumed", "What the figures rest on") for c in row]
    told = {what: value for what, value in pairwise(cells) if what}
    plan = json.loads(run_json(run))["plan"]
    assert told["isolated rise of ground"] == plan["wind"]["topography"]["feature"] == "ridge"
    assert (told["its height"], told["upwind from its crest to half its height"]) == ("60'-0\"", "200'-0\"")
    assert told["from its crest to the house, downwind positive"] == "-30'-0\""
    assert told["ground above the sea"] == f"{plan['wind']['ground_elevation_ft']:g} ft" == "2500 ft"
    assert told["storm before the covering counts"] == "no"
    bare = plan["dead"]["top_before_covering_psf"]
    assert told["dead load of the roof before its covering"] == f"{bare:g} psf"
    assert {row[6] for row in page.rows("stages", "Finished")} == {"finished"}


def test_walls_and_edges_set_by_hand_are_told_in_sentences() -> None:
    run = sample("mixed_gable_hip")
    said = list(plan_lines(run))
    assert said[0].startswith("Outside faces of the walls, counter-clockwise: W1 60'-0\", W2 28'-0\", ")
    assert len(said) == 1 + len(run.plan.roof.edges) + len(run.plan.supports)
    assert len(run.plan.roof.edges) > 0
    assert all(edge.wall in line for edge, line in zip(run.plan.roof.edges, said[1:], strict=False))
