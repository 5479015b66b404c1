"""The samples are invented, say so, and are told in the README."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from house.project import ROOT, tracked_files

SAMPLES = [path for path in tracked_files() if path.parts[0] == "sample_plans"]
PLANS = [path for path in SAMPLES if path.suffix == ".toml"]
CATALOGUES = [path for path in (*SAMPLES, *tracked_files()) if path.name.endswith("anchors.csv")]


@pytest.mark.parametrize("path", PLANS, ids=lambda path: path.stem)
def test_a_sample_plan_says_in_its_first_line_and_in_its_title_that_it_is_invented(path: Path) -> None:
    lines = (ROOT / path).read_text(encoding="utf-8").splitlines()
    assert lines[0].startswith("#")
    assert "invented" in lines[0]
    assert "invented" in next(line for line in lines if line.startswith("name = "))


@pytest.mark.parametrize("path", CATALOGUES, ids=lambda path: path.stem)
def test_every_row_of_a_shipped_catalogue_says_in_its_first_column_that_it_is_invented(path: Path) -> None:
    rows = list(csv.reader((ROOT / path).read_text(encoding="utf-8-sig").splitlines()))
    assert len(rows) > 1
    assert {row[0] for row in rows[1:]} == {"invented"}


def test_the_readme_tells_every_sample_plan() -> None:
    readme = (ROOT / "README.md").read_text(encoding="utf-8")
    assert [path.as_posix() for path in PLANS if f"`{path.as_posix()}`" not in readme] == []
