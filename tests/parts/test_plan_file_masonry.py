"""Openings, filled cells, cross walls, bars and bands of the plan file: the sentence for each mistake."""

from __future__ import annotations

import pytest

from framing.errors import PlanError
from framing.plan_file import plan_from_text
from parts.plans import SHORT

WRONG = {
    '[[opening]]\nwall = "W5"\nfrom = 1\nto = 4': 'opening 1 wall: "W5" is no wall of this house; write W1 to W4',
    '[[opening]]\nwall = "W2"\nfrom = 20\nto = 30': (
        "opening 1: it runs past the end of W2; write stations up to 28'-0\""
    ),
    '[[opening]]\nwall = "W2"\nfrom = 6\nto = 6.2': (
        'opening 1: it is under 6" wide; write a to that is larger than its from'
    ),
    '[[opening]]\nwall = "W2"\nfrom = 6\nto = 9\nsill = 7': (
        "opening 1: its head is not over its sill; write heights above the floor, the head the larger"
    ),
    '[[opening]]\nwall = "W2"\nfrom = 6\nto = 9\nhead = 10': (
        "opening 1: its head stands over the top of the wall; write a head up to 9'-4\""
    ),
    '[[opening]]\nwall = "W2"\nfrom = 6\nto = 9\n[[opening]]\nwall = "W2"\nfrom = 8\nto = 12': (
        "opening 2: it overlaps opening 1 on W2; write each opening once"
    ),
    '[[filled_cell]]\nwall = "W4"\nat = 29': (
        "filled_cell 1: it runs past the end of W4; write stations up to 28'-0\""
    ),
    "[[cross_wall]]\nfrom = [10, 0]\nto = [10, 40]": (
        "cross_wall 1: it leaves the house; write from and to so that all of it lies inside"
    ),
    "[[cross_wall]]\nfrom = [10, 0]\nto = [10, 0.5]": (
        "cross_wall 1: it is shorter than a foot; write from and to at least 1'-0\" apart"
    ),
    '[tie_beam]\ntop_bars = "two"': 'tie_beam top_bars: "two" names no bars; write 1 to 8 of #3 to #11, such as "2 #5"',
    '[tie_beam]\ntop_bars = "2 #14"': (
        'tie_beam top_bars: "2 #14" names no bars; write 1 to 8 of #3 to #11, such as "2 #5"'
    ),
    '[tie_beam]\nstirrups = "8 in"': (
        'tie_beam stirrups: "8 in" names no stirrups; write number and spacing, #3 to #5: "#3 at 8 in"'
    ),
    '[takeoff]\nprices = { bar = "much" }': (
        'takeoff prices: "bar": "much" is text; write a number without quotes, 0 to 1e+06'
    ),
    "[takeoff]\nprices = 4": "takeoff prices: 4 is not a table; write { name = value }",
    "[takeoff]\nprices = { 'deck panels' = 4 }": (
        'takeoff prices: "deck panels" is no item; the nearest is "deck panel" of truss, hanger, barrier, fascia, drip '
        "edge, soffit, outlooker, deck panel, deck nail, underlayment, strip, cap nail, concrete, bar, stirrup, nail"
    ),
    '[anchors]\ngap_good = "1 in"': (
        "anchors gap_filler: write gap_good, gap_filler and gap_ask, none smaller than the one before"
    ),
}


@pytest.mark.parametrize("text", WRONG)
def test_each_mistake_is_one_sentence_that_names_it(text: str) -> None:
    with pytest.raises(PlanError) as problem:
        plan_from_text(f"{SHORT}\n{text}\n", "house.toml")
    assert str(problem.value) == WRONG[text]


def test_what_is_empty_text_is_not_known_and_not_assumed() -> None:
    plan = plan_from_text(f'{SHORT}\n[tie_beam]\ntop_bars = ""\nf_c_psi = ""\n', "house.toml")
    assert plan.masonry.steel.top_bars is None
    assert plan.masonry.steel.f_c_psi is None
    assert not [line for line in plan.assumed if line.startswith(("tie_beam", "deck", "covering"))]
