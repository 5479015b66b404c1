"""The user's approvals file: what it may say and the sentence for each mistake."""

from __future__ import annotations

from pathlib import Path

import pytest

from framing.deck.approvals import read_approvals
from framing.errors import PlanError

GOOD = """item,value,approval,note
tile_length_ft,1.42,invented 1,
tile_width_ft,1.0,invented 1,
field_moment_ft_lb,32.5,invented 2,two screws
zone_3_pressure_psf,88,,
shingle_class,h,,
"""
WRONG = {
    "": "mine.csv row 1: the column item is missing; write item,value and, if wanted, approval,note",
    "item,value\ntile_lenght_ft,1": (
        'mine.csv row 2, item: unknown item "tile_lenght_ft"; the nearest known is tile_length_ft'
    ),
    "item,value\ntile_length_ft,long": 'mine.csv row 2, value: "long" is not a number; write 0.5 to 3 ft',
    "item,value\ntile_length_ft,14": 'mine.csv row 2, value: "14" is out of range; write 0.5 to 3 ft',
    "item,value\nclip_lb,90\nclip_lb,91": "mine.csv row 3, item: clip_lb is there twice; write each item once",
    "item,value\nshingle_class,F": (
        'mine.csv row 2, value: "F" is no class of shingles; write D, G, H as on the wrapper'
    ),
    "item,value\nzone_2_pressure_psf,160": (
        "mine.csv row 2, value: zone_2_pressure_psf is 160, the wind's speed in mph; "
        "write the pressure that goes with it, in psf"
    ),
}


def read(folder: Path, text: str) -> object:
    path = folder / "mine.csv"
    path.write_text(text)
    return read_approvals(path, 160.0)


def test_what_the_file_says_is_read_with_its_approval(tmp_path: Path) -> None:
    (tmp_path / "mine.csv").write_text(GOOD)
    found = read_approvals(tmp_path / "mine.csv", 160.0)
    assert (found.value("field_moment_ft_lb"), found.approval("field_moment_ft_lb")) == (32.5, "invented 2")
    assert (found.value("clip_lb"), found.approval("clip_lb"), found.shingle_class) == (None, "", "H")


@pytest.mark.parametrize("text", WRONG)
def test_each_mistake_is_one_sentence(tmp_path: Path, text: str) -> None:
    with pytest.raises(PlanError) as problem:
        read(tmp_path, text)
    assert str(problem.value) == WRONG[text]
