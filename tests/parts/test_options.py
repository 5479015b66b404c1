"""`strapline options`: each choice is its plan's own run, and the page and the table say the same."""

from __future__ import annotations

import csv
import html
from pathlib import Path

import pytest
from typer.testing import CliRunner

from export.cli import app
from export.commands.run_of_plan import load_run, load_variants
from export.options.figures import figures
from export.options.page import options_html
from export.options.table import options_csv
from framing.anchors.catalogue_file import catalogue_of
from framing.errors import PlanError
from framing.plan_file import read_options
from framing.run import CAUTION, make_run
from invariants.houses import SAMPLES
from parts.plans import SHORT

OPTIONS = """
[[option]]
name = "one size up, stronger & <safer>"
set = { "anchors.minimum" = "stout" }
[[option]]
name = "170 mph"
set = { "wind.speed" = 170, "anchors.minimum" = "1000 lb" }
[[option]]
name = "walls' tops held by the tie beam, as the engineer of record may want it"
set = { "walls.tops_held_by" = "tie beam" }
"""


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "house.toml"
    path.write_text(SHORT + OPTIONS)
    return path


def test_each_option_is_what_the_plan_with_its_keys_typed_would_give(plan: Path, tmp_path: Path) -> None:
    named, runs = load_variants(plan)
    assert [name for name, _ in named][:2] == ["as planned", "one size up, stronger & <safer>"]
    typed = tmp_path / "typed.toml"
    typed.write_text(SHORT.replace("speed = 160", "speed = 170") + '[anchors]\nminimum = "1000 lb"\n')
    alone = load_run(typed)
    assert [(m.bearing.mark, m.anchor, m.count, m.ratio) for m in runs[2].schedule.marks] == [
        (m.bearing.mark, m.anchor, m.count, m.ratio) for m in alone.schedule.marks
    ]
    assert runs[2].plan.wind.speed_mph == 170.0


def test_the_figures_of_a_choice_add_up_from_its_schedule(plan: Path) -> None:
    named, runs = load_variants(plan)
    for (name, keys), run in zip(named, runs, strict=True):
        f = figures(name, keys, run)
        held = [m for m in run.schedule.marks if m.anchor]
        assert f.n_straps == sum(m.count for m in held) == sum(n for _, n in f.anchors)
        assert f.price == pytest.approx(sum(m.anchor.price for m in held if m.anchor))
        assert f.weakest_ratio == max(m.ratio or 0.0 for m in held)
        assert f.good_to_mph == min(m.good_to_mph for m in held if m.good_to_mph)


def test_table_and_page_say_the_same_and_bear_the_caution(plan: Path) -> None:
    named, runs = load_variants(plan)
    found = tuple(figures(n, k, r) for (n, k), r in zip(named, runs, strict=True))
    rows = list(csv.DictReader(options_csv(runs[0], found).decode("utf-8-sig").splitlines()))
    page = options_html(runs[0], found).decode()
    assert [r["option"] for r in rows] == [f.name for f in found]
    for f, r in zip(found, rows, strict=True):
        assert r["price"] == f"{f.price:.2f}"
        assert f"{f.price:.2f}" in page
        assert float(r["more_than_planned"]) == pytest.approx((f.price or 0.0) - (found[0].price or 0.0), abs=0.011)
    assert page.count(CAUTION.replace("'", "&#x27;")) == 2
    assert "<safer>" not in page
    assert all(html.escape(doubt) in page for doubt in runs[0].wind_doubts)
    assert any("debris" in doubt for doubt in runs[0].wind_doubts)
    assert {r["caution"] for r in rows} == {CAUTION}


def test_a_plan_that_names_no_option_gets_the_usual_ones() -> None:
    named, runs = load_variants(SAMPLES["hip_house"])
    names = [name for name, _ in named]
    assert names[0] == "as planned"
    assert {"at least wide", "175 mph", "185 mph", "roof finished before a storm"} <= set(names)
    catalogue = catalogue_of(runs[0].plan, SAMPLES["hip_house"].parent)
    faster = runs[names.index("185 mph")]
    alone = make_run(faster.plan, catalogue, runs[0].cover.approvals)
    assert [m.ratio for m in faster.schedule.marks] == [m.ratio for m in alone.schedule.marks]


@pytest.mark.parametrize(
    ("option", "sentence"),
    [
        ('set = { "wind.sped" = 170 }', "option 1: wind sped: unknown key; the nearest known key is wind.speed"),
        ('set = { "wind.speed" = 400 }', "option 1: wind speed: 400 is out of range; write 85 to 250 mph"),
        (
            'set = { "wind.speed.x" = 4 }',
            'option 1: set: "wind.speed.x" is no key of one value; write such as wind.speed',
        ),
    ],
)
def test_a_wrong_option_is_named_with_its_key(tmp_path: Path, option: str, sentence: str) -> None:
    path = tmp_path / "house.toml"
    path.write_text(f'{SHORT}[[option]]\nname = "x"\n{option}\n')
    with pytest.raises(PlanError) as problem:
        read_options(path)
    assert str(problem.value) == sentence


def test_the_command_writes_both_files_and_replaces_its_own(plan: Path) -> None:
    for _ in range(2):
        result = CliRunner().invoke(app, ["options", str(plan)])
        assert result.exit_code == 0, result.stderr
    assert sorted(p.name for p in plan.with_name("house-options").iterdir()) == ["options.csv", "options.html"]
