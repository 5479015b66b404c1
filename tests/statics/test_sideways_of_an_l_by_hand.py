"""An L at 160 mph in Exposure C against figures worked out by hand, every case of both options, to the pound.

Sources: as in test_sideways_by_hand.py; the load path is the project's own design.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from framing.run import Run
from framing.sideways.deck import line_forces_lb
from framing.sideways.drag import drags
from statics.sideways_of_an_l_by_hand import CORNERS
from statics.sideways_of_an_l_in_wind_by_hand import Case, Force, cases, forces, lines_and_drag_lb, under_tie_beam
from statics.test_sideways_by_hand import built

OPTIONS = ("roof", "tie beam")
ONTO = {"+y": "W1", "-y": "W3", "+x": "W6", "-x": "W2"}


@cache
def house(held_by: str) -> Run:
    return built("hip", held_by, (160, "C"), CORNERS)


def name_of(case: Case) -> str:
    """Left and right are those of the wall blown onto, seen from outside."""
    onto = ONTO[case.wind]
    corner = "left" if case.reference == ("low" if onto in ("W1", "W2") else "high") else "right"
    return f"wind onto {onto}, {corner} corner{', second reading' if case.second else ''}, internal {case.gcpi:+.2f}"


def by_hand(case: Case, held_by: str, *, with_roof: bool) -> list[Force]:
    found = forces(case) if held_by == "roof" else under_tie_beam(forces(case))
    return [p for p in found if with_roof or p.kind != "roof"]


@pytest.mark.parametrize("held_by", OPTIONS)
def test_each_of_32_winds_brings_to_the_three_lines_each_way_what_the_hand_gets_to_the_pound(held_by: str) -> None:
    """With the roof's own horizontal part and without it; every wind of the program has its own by hand."""
    found = house(held_by).sideways
    names = [c.name for c in found.cases if not c.least]
    assert sorted(names) == sorted(map(name_of, cases()))
    assert len(names) == 32
    for reading, with_roof in zip(found.readings, (True, False), strict=True):
        lines = dict(zip("xy", line_forces_lb(found.deck, reading), strict=True))
        for case in cases():
            k, pieces = names.index(name_of(case)), by_hand(case, held_by, with_roof=with_roof)
            for axis in "xy":
                hand, _ = lines_and_drag_lb(pieces, axis)
                assert lines[axis][:, k] == pytest.approx(hand, abs=1.0), (name_of(case), axis)


@pytest.mark.parametrize(("held_by", "axis", "figure"), [
    ("roof", "x", 2813.2),
    ("roof", "y", 3138.3),
    ("tie beam", "x", 367.6),
    ("tie beam", "y", 388.8),
])  # fmt: skip
def test_the_drag_force_at_the_inside_corner_is_the_hands_and_its_case_is_one_that_makes_it(
    held_by: str, axis: str, figure: float
) -> None:
    """The figures stand here themselves, so that the script by hand cannot change unseen."""
    run = house(held_by)
    hand = {
        name_of(c): max(abs(lines_and_drag_lb(by_hand(c, held_by, with_roof=r), axis)[1]) for r in (True, False))
        for c in cases()
    }
    [found] = [d for d in drags(run.plan, run.outline, run.framing, run.sideways) if d.axis == "xy".index(axis)]
    assert max(hand.values()) == pytest.approx(figure, abs=0.05)
    assert found.force_lb == pytest.approx(figure, abs=0.05)
    assert hand[found.case] == pytest.approx(figure, abs=0.05)
    assert found.point_ft == pytest.approx((26.0, 28.0))
    assert found.member == ("girder 1" if axis == "x" else "")  # the chord's girder runs along y = 28 ft


@pytest.mark.parametrize("held_by", OPTIONS)
def test_the_wall_at_the_inside_corner_has_its_lines_whole_force_over_its_own_20_ft(held_by: str) -> None:
    run = house(held_by)
    most = max(
        abs(lines_and_drag_lb(by_hand(c, held_by, with_roof=r), "y")[0][1]) for c in cases() for r in (True, False)
    )
    least = np.abs(run.sideways.lines_lb[1][1, [c.least for c in run.sideways.cases]]).max()
    [shear] = [s for s in run.tops.shears if (s.axis, s.line) == (1, 1)]
    assert shear.plf == pytest.approx(max(most, least) / 20.0, abs=0.05)


def test_the_drag_forces_do_not_hang_on_the_corner_that_is_typed_first() -> None:
    """From the inside corner on, or from the far end of the wing: the frame's origin and axes are others then."""
    for first in (1, 3, 4, 5):
        typed = (*CORNERS[first:], *CORNERS[:first])
        run = built("hip", "roof", (160, "C"), typed)
        found = sorted(drags(run.plan, run.outline, run.framing, run.sideways), key=lambda d: d.force_lb)
        assert [d.force_lb for d in found] == pytest.approx([2813.2, 3138.3], abs=0.05)
        each = [sorted((d.low_plf, d.high_plf)) for d in found]
        assert each == [pytest.approx([48.94, 59.26], abs=0.01), pytest.approx([47.90, 64.18], abs=0.01)]
