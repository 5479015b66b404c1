"""Where the sentences on the ground begin: at which ratio, at which head, how many names, what a lintel must lift."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import pytest

from framing.ground.sentences import ground_flags, ground_notes
from framing.ground.tie_beam import Feel
from framing.run import Run
from parts.masonry_houses import BOX, ELL, LintelKind, nothing_said, opening, run_of


@cache
def house(*, said: bool, corners: int = 4) -> Run:
    """A box or an L, with a door of 3 ft on W1 where its masonry is said."""
    outline = BOX if corners == 4 else ELL
    return run_of(outline, openings=(opening("W1", 12.0, 15.0),)) if said else run_of(outline, said=nothing_said())


def over_the_door(**changed: object) -> Run:
    """The beam over the door as given."""
    run = house(said=True)
    [found] = run.ground.openings
    return replace(run, ground=replace(run.ground, openings=(replace(found, **changed),)))


def flags(run: Run) -> list[str]:
    return [f for f in ground_flags(run.plan, run.ground) if f.startswith("opening 1")]


@pytest.mark.parametrize(("ratio", "n"), [(0.999, 0), (1.0, 0), (1.001, 1), (1.9, 1)])
def test_over_an_opening_the_beam_may_be_used_to_the_full_and_no_more(ratio: float, n: int) -> None:
    assert len(flags(over_the_door(ratio=ratio))) == n


@pytest.mark.parametrize(("over_in", "n"), [(0.49, 0), (0.51, 1)])
def test_a_head_may_reach_half_an_inch_into_the_beam(over_in: float, n: int) -> None:
    """The wall of 9'-4" less a beam of 15-5/8 in."""
    door = replace(opening("W1", 12.0, 15.0), head_ft=(112.0 - 15.625 + over_in) / 12.0)
    assert len(flags(over_the_door(opening=door, ratio=0.5))) == n


def test_a_precast_lintels_line_load_is_twice_its_shear_over_its_span() -> None:
    """V = w L / 2: of 326 plf on 16.667 ft 2,717 lb."""
    door = opening("W1", 12.0, 28.0, lintel=LintelKind.PRECAST)
    feel = Feel(top_ft_lb=11_320.0, bottom_ft_lb=0.0, shear_lb=2_717.0)
    run = over_the_door(opening=door, asd=feel, span_ft=50.0 / 3.0)
    [note] = [n for n in ground_notes(run.plan, run.schedule, run.ground) if n.startswith("opening 1")]
    assert note.endswith("is to be read against 11,320 ft-lb, some 326 plf up (ASD).")


@pytest.mark.parametrize(
    ("corners", "spacing_ft", "words"),
    [
        (4, 4.0, "needed at most 4'-0\" apart on W1, W2, W3, W4 (for"),
        (4, None, "needed closer than 16 in. on W1, W2, W3, W4 (for"),
        (6, None, "needed closer than 16 in. on W1, W2, W3, W4, W5, W6 (for"),
    ],
)
def test_how_close_cells_would_have_to_stand_is_said_with_up_to_six_walls(
    corners: int, spacing_ft: float | None, words: str
) -> None:
    run = house(said=False, corners=corners)
    needed = tuple(replace(n, spacing_ft=spacing_ft) for n in run.ground.needed)
    [note] = [n for n in ground_notes(run.plan, run.schedule, replace(run.ground, needed=needed)) if "not judged" in n]
    assert words in note
