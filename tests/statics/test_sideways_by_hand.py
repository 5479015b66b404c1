"""The sideways load path against figures worked out by hand from the design's text, case by case, to the pound.

Hip and gable, the roof or the tie beam holding the walls' tops, 160 mph in Exposure C and 85 mph in Exposure B, where
the least horizontal loads govern; an L with the drag force at its inside corner.
Sources: ASCE 7-22 fig. 28.3-1 (solid; -0.45 on walls along the wind in load case 1 from memory), table 26.10-1 with
footnote a (solid), table 26.13-1 (solid), sec. 28.3.6 (number inferred). The load path is the project's own design.
"""

from __future__ import annotations

from functools import cache
from math import sqrt

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan_file import plan_from_text
from framing.run import Run, make_run
from framing.sideways.deck import line_forces_lb
from framing.sideways.drag import drags
from statics.sideways_by_hand import MIDDLE_STRIP_FT, Case, House, Piece, cases, least_pieces, wind_pieces
from statics.sideways_lines_by_hand import line_forces, middle_common_lb, middle_of_gable_lb, under_tie_beam
from statics.sideways_of_an_l_by_hand import CORNERS, lines_and_drag_lb

RECTANGLE = ((0, 0), (46, 0), (46, 28), (0, 28))
ONTO = {"+y": "W1", "-y": "W3", "+x": "W4", "-x": "W2"}
LEAST = tuple(ONTO)
HOUSES = [
    pytest.param(roof, held_by, wind, id=f"{roof}, {held_by}, {wind[0]} mph")
    for roof in ("hip", "gable")
    for held_by in ("roof", "tie beam")
    for wind in ((160, "C"), (85, "B"))
]


@cache
def built(roof: str, held_by: str, wind: tuple[int, str], corners: tuple[tuple[int, int], ...] = RECTANGLE) -> Run:
    outline = ", ".join(f'["{x}ft", "{y}ft"]' for x, y in corners)
    text = f"""
        walls = {{ outline = [{outline}], tops_held_by = "{held_by}" }}
        roof = {{ type = "{roof}", pitch = "5:12" }}
        wind = {{ speed = {wind[0]}, exposure = "{wind[1]}" }}
        """
    return make_run(plan_from_text(text, "by hand"), shipped_catalogue())


def by_hand(roof: str, wind: tuple[int, str]) -> House:
    return House(gable=roof == "gable", speed_mph=float(wind[0]), exposure=wind[1])


def name_of(case: Case | str) -> str:
    """The program's name of a case: left and right are those of the wall blown onto, seen from outside."""
    if isinstance(case, str):
        return f"least horizontal loads, wind onto {ONTO[case]}"
    left = "low" if ONTO[case.wind] in ("W1", "W2") else "high"
    side = "left" if case.reference == left else "right"
    reading = ", second reading" if case.reading == 3 else ""
    return f"wind onto {ONTO[case.wind]}, {side} corner{reading}, internal {case.gcpi:+.2f}"


def pieces_of(house: House, case: Case | str) -> list[Piece]:
    return least_pieces(house, case) if isinstance(case, str) else wind_pieces(house, case)


def number_of(run: Run, case: Case | str) -> int:
    return [c.name for c in run.sideways.cases].index(name_of(case))


@pytest.mark.parametrize(("roof", "held_by", "wind"), HOUSES)
def test_each_case_brings_to_each_line_of_walls_what_the_hand_gets_to_the_pound(
    roof: str, held_by: str, wind: tuple[int, str]
) -> None:
    """With the roof's own horizontal part and without it; every case of the program has its own by hand."""
    run, house = built(roof, held_by, wind), by_hand(roof, wind)
    found = run.sideways
    every = (*cases(house), *LEAST)
    assert sorted(name_of(case) for case in every) == sorted(c.name for c in found.cases)
    for reading, with_roof in zip(found.readings, (True, False), strict=True):
        along_x, along_y = line_forces_lb(found.deck, reading)
        for case in every:
            k = number_of(run, case)
            pieces = pieces_of(house, case)
            if held_by == "tie beam":
                pieces = list(under_tie_beam(house, pieces))
            hand = line_forces(house, [p for p in pieces if with_roof or p.kind != "roof"])
            assert along_x[:, k] == pytest.approx([hand["W1"], hand["W3"]], abs=1.0), name_of(case)
            assert along_y[:, k] == pytest.approx([hand["W4"], hand["W2"]], abs=1.0), name_of(case)


@pytest.mark.parametrize(("roof", "held_by", "wind"), HOUSES)
def test_the_strap_of_the_middle_common_is_pushed_square_as_by_hand(
    roof: str, held_by: str, wind: tuple[int, str]
) -> None:
    run, house = built(roof, held_by, wind), by_hand(roof, wind)
    strip = MIDDLE_STRIP_FT[house.gable]
    (row,) = [h.bearing for h in run.sideways.held if (h.from_ft, h.to_ft) == strip and row_is_on(run, h.bearing)]
    for case in (*cases(house), *LEAST):
        hand = middle_common_lb(house, pieces_of(house, case), held_by)
        assert run.sideways.square_lb[row, number_of(run, case)] == pytest.approx([0.0, hand], abs=1.0), name_of(case)


def row_is_on(run: Run, bearing: int, wall: str = "W1") -> bool:
    return run.framing.bearings[bearing].mark.startswith(wall)


def test_under_the_tie_beam_the_lower_half_of_a_gables_triangle_is_square_to_its_straps() -> None:
    run, house = built("gable", "tie beam", (160, "C")), by_hand("gable", (160, "C"))
    mine = [h for h in run.sideways.held if row_is_on(run, h.bearing, "W2") and h.from_ft > 6 and h.to_ft < 22]
    assert len(mine) >= 2
    for case in cases(house):
        for h in mine:
            hand = middle_of_gable_lb(house, wind_pieces(house, case), h.from_ft, h.to_ft)
            assert run.sideways.square_lb[h.bearing, number_of(run, case), 0] == pytest.approx(hand, abs=1.0)


def test_the_largest_line_forces_are_these() -> None:
    """The figures themselves, so that the script by hand cannot change unseen: plf on W1 and W2."""
    plf = {}
    for roof in ("hip", "gable"):
        for wind in ((160, "C"), (85, "B")):
            lines = built(roof, "roof", wind).sideways.lines_lb
            plf[roof, wind[0]] = (np.abs(lines[0][0]).max() / 46.0, np.abs(lines[1][1]).max() / 28.0)
    assert plf == {
        ("hip", 160): pytest.approx((49.73, 127.65), abs=0.01),
        ("gable", 160): pytest.approx((51.84, 127.24), abs=0.01),
        ("hip", 85): pytest.approx((20.66, 60.17), abs=0.01),
        ("gable", 85): pytest.approx((23.62, 68.17), abs=0.01),
    }


def test_the_least_loads_govern_a_corner_and_an_end_jack_at_85_mph_by_hand() -> None:
    """Onto W1 or W3: 9.6 psf x 5.1667 ft x 46 ft of wall and 4.8 psf x (50 + 18)/2 x 6.6667 ft of roof, half to W4.

    An end jack's strap holds 2 ft of W4: all along the wall, which is its parallel. The corner jack's holds 1 ft, at
    45 degrees to both of its axes. The invented slender strap: 305 lb parallel, 245 lb square.
    """
    plf = (9.6 * (28.0 / 6.0 + 0.5) * 46.0 + 4.8 * (50.0 + 18.0) / 2.0 * 20.0 / 3.0) / 2.0 / 28.0
    run = built("hip", "roof", (85, "B"))
    ratio = {m.bearing.mark: m.ratio for m in run.schedule.marks}
    assert plf == pytest.approx(60.17, abs=0.01)
    assert ratio["W4-08"] == pytest.approx(plf * 2.0 / 305.0, abs=1e-6)
    assert ratio["W4-01"] == pytest.approx(plf / sqrt(2.0) * (1.0 / 305.0 + 1.0 / 245.0), abs=1e-6)


@pytest.mark.parametrize("wind", LEAST)
def test_an_l_by_hand_brings_its_least_loads_to_three_lines_and_drags_at_the_inside_corner(wind: str) -> None:
    run = built("hip", "roof", (85, "B"), CORNERS)
    lines, drag = lines_and_drag_lb(wind)
    axis = 0 if wind[1] == "x" else 1
    onto = {"+y": "W1", "-y": "W3", "+x": "W6", "-x": "W2"}[wind]
    k = [c.name for c in run.sideways.cases].index(f"least horizontal loads, wind onto {onto}")
    assert np.abs(run.sideways.lines_lb[axis][:, k]) == pytest.approx(lines, abs=1.0)
    (largest,) = [d for d in drags(run.plan, run.outline, run.framing, run.sideways) if d.axis == axis]
    assert largest.case.startswith("least horizontal loads")
    assert largest.force_lb == pytest.approx(drag, abs=1.0)  # the same from either side


def test_the_bracing_of_a_gables_bottom_chord_carries_the_walls_half_and_half_the_triangle_by_hand() -> None:
    """Least loads at 85 mph: 9.6 psf on 9 ft 4 in. / 2 of wall, half of the 6 in. heel and half of the triangle."""
    run = built("gable", "roof", (85, "B"))
    [bracing] = [b for b in run.tops.bracing if b.wall == "W2"]
    high = 14.0 * 5.0 / 12.0
    assert bracing.case.startswith("least horizontal loads")
    assert bracing.force_lb == pytest.approx(9.6 * (28.0 * 28.0 / 6.0 + (28.0 * 0.5 + 14.0 * high) / 2.0), abs=1.0)
    assert bracing.most_plf == pytest.approx(9.6 * (28.0 / 6.0 + (0.5 + high) / 2.0), abs=0.1)


def test_the_deck_s_forces_turn_about_the_bearings_as_by_hand() -> None:
    """Least loads at 85 mph on gables. Onto W1: 4.8 psf on (14 + 2) ft x 5/12 by 48 ft of slope, its middle 6 ft of run
    over the heel of 6 in., and 9.6 psf on the heel at its top. Onto W4: of the 28 ft of gable the upper half of each
    foot at its top, half of 9.6 psf on h with h from 6 in. to 6 ft 4 in. and back: 2 (h1^3 - h0^3) / (3 x 5/12).
    """
    moments = {m.axis: m for m in built("gable", "roof", (85, "B")).tops.moments}
    assert all(m.case.startswith("least horizontal loads") for m in moments.values())
    heel, high = 0.5, 0.5 + 14.0 * 5.0 / 12.0
    onto_w1 = 4.8 * 16.0 * 5.0 / 12.0 * 48.0 * (6.0 * 5.0 / 12.0 + heel) + 9.6 * heel * 46.0 * heel
    onto_w4 = 9.6 / 2.0 * 2.0 * (high**3 - heel**3) / (3.0 * 5.0 / 12.0)
    assert moments[1].moment_ft_lb == pytest.approx(onto_w1, rel=1e-6)
    assert moments[0].moment_ft_lb == pytest.approx(onto_w4, rel=1e-6)
