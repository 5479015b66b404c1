"""The starter plan's commented examples: each of them alone is right once its # is taken away."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path

import pytest

from export.architects_drawing.outline import outline_of_drawing
from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import make_run
from parts.drawn_houses import draw_ring, new_drawing, saved

LINES = (files("export.commands") / "starter.toml").read_text(encoding="utf-8").splitlines()
EXAMPLE = re.compile(r"# (\[|\w+ = )")
DRAWN_IN = ((0.0, 0.0), (600.0, 0.0), (600.0, 336.0), (0.0, 336.0))


def blocks() -> dict[str, range]:
    """The lines of each commented example, by its first: from there to the end of the comment."""
    out = {}
    k = 0
    while k < len(LINES):
        if EXAMPLE.match(LINES[k]):
            end = next((j for j in range(k, len(LINES)) if not LINES[j].startswith("# ")), len(LINES))
            out[LINES[k][2:].split(" = ")[0]] = range(k, end)
            k = end
        k += 1
    return out


def with_block(name: str) -> list[str]:
    return [line[2:] if i in blocks()[name] else line for i, line in enumerate(LINES)]


def test_these_are_the_commented_examples() -> None:
    tables = ["[[support]]", "[[porch]]", "[[cross_wall]]", "[[opening]]", "[[filled_cell]]", "[footing]"]
    assert list(blocks()) == ["outline_dxf", *tables, "[[roof.edge]]", "[wind.topography]", "[[option]]"]


@pytest.mark.parametrize("name", [name for name in blocks() if name != "outline_dxf"])
def test_an_example_alone_reads_and_is_framed_once_its_sign_is_taken_away(name: str) -> None:
    plan = plan_from_text("\n".join(with_block(name)), "house.toml")
    plain = plan_from_text("\n".join(LINES), "house.toml")
    assert plan != plain
    assert make_run(plan, shipped_catalogue()).schedule.marks


def test_the_outline_from_a_drawing_reads_in_place_of_the_typed_one(tmp_path: Path) -> None:
    drawing = new_drawing()
    draw_ring(drawing, DRAWN_IN)
    saved(drawing, tmp_path)
    told = with_block("outline_dxf")
    begins = told.index("outline = [")
    del told[begins : told.index("]", begins) + 1]
    plan = plan_from_text("\n".join(told), "house.toml", tmp_path, outline_of_drawing)
    assert sorted(plan.outline_ft) == [(0.0, 0.0), (0.0, 28.0), (50.0, 0.0), (50.0, 28.0)]
