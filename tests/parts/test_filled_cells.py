"""Where the tie beam runs and where its filled cells stand: corners shared, jambs, spacing, one by one."""

from __future__ import annotations

import math

import numpy as np
import pytest

from framing.errors import PlanError
from framing.ground.beam_strength import beam_strength, beam_weight_plf
from framing.ground.beam_stretches import Stretch, beam_stretches
from framing.ground.cell_spacing import BLOCKS_FT, spacing_needed
from framing.ground.filled_cells import cells_of, filled_cells
from framing.ground.reinforced_concrete import cell_bar_tension_lb
from framing.ground.strap_pulls import Pulls
from framing.ground.tie_beam import beam_demand
from framing.members import PorchBeam
from framing.plan import Plan
from framing.walls.outline import Outline, build_outline
from invariants.houses import supported_plan
from parts.masonry_houses import BOX, ELL, Bars, masonry_plan, nothing_said, opening, run_of, steel

THIRD = 1.0 / 3.0  # half of an 8 in. wall


def at(plan: Plan, name: str) -> tuple[float, ...]:
    outline = build_outline(plan)
    return next(c.at_ft for c in filled_cells(plan, beam_stretches(outline, ())) if c.stretch.name == name)


def ends(outline: Outline) -> dict[int, list[tuple[float, float]]]:
    """The plan points of the stretches' ends by the corner they stand in."""
    found: dict[int, list[tuple[float, float]]] = {}
    for s in beam_stretches(outline, ()):
        wall = outline.walls[s.wall]
        for corner, station in zip(s.corners, (s.from_ft, s.to_ft), strict=True):
            assert corner is not None
            found.setdefault(corner, []).append(wall.point_ft(station, wall.thickness_ft / 2.0))
    return found


@pytest.mark.parametrize(
    "outline",
    [BOX, ELL, [(0, 0), (40, 0), (40, 20), (32, 28), (0, 28)], [(0, 0), (30, 0), (42, 12), (42, 36), (0, 36)]],
)
def test_both_walls_of_a_corner_end_at_the_crossing_of_their_centre_lines(outline: list[tuple[float, float]]) -> None:
    for one, other in ends(build_outline(masonry_plan(outline))).values():
        assert one == pytest.approx(other, abs=1e-9)


def test_an_outside_corner_is_4_in_inside_both_walls_and_an_inside_corner_4_in_past_their_ends() -> None:
    """The L of 36 ft, turning in at its second corner."""
    stretches = beam_stretches(build_outline(masonry_plan(ELL)), ())
    first, second = stretches[0], stretches[1]
    assert (first.from_ft, first.to_ft) == (pytest.approx(THIRD), pytest.approx(36 + THIRD))
    assert (second.from_ft, second.to_ft) == (pytest.approx(-THIRD), pytest.approx(20 - THIRD))
    assert first.corners == (0, 1)
    assert stretches[-1].corners == (5, 0)


def test_the_beam_is_cut_where_porch_beams_stand_and_each_part_ends_in_wall() -> None:
    outline = build_outline(supported_plan("a porch"))
    wall = next(k for k, w in enumerate(outline.walls) if w.length_ft == pytest.approx(46) and k > 0)
    beam = PorchBeam(support=0, wall=wall, from_ft=6.0, to_ft=34.0, has_porch=True)
    parts = [s for s in beam_stretches(outline, (beam,)) if s.wall == wall]
    spans = [(s.from_ft, s.to_ft) for s in parts]
    assert spans == [
        (pytest.approx(THIRD), pytest.approx(6 - THIRD)),
        (pytest.approx(34 + THIRD), pytest.approx(46 - THIRD)),
    ]
    assert parts[0].corners[1] is None
    assert parts[1].corners[0] is None


def test_a_porch_beam_from_the_corner_on_leaves_one_part_without_that_corner() -> None:
    outline = build_outline(masonry_plan())
    beam = PorchBeam(support=0, wall=0, from_ft=0.0, to_ft=10.0, has_porch=True)
    parts = [s for s in beam_stretches(outline, (beam,)) if s.wall == 0]
    assert [(s.from_ft, s.corners) for s in parts] == [(pytest.approx(10 + THIRD), (None, 1))]
    whole = PorchBeam(support=0, wall=0, from_ft=0.0, to_ft=40.0, has_porch=True)
    assert [s for s in beam_stretches(outline, (whole,)) if s.wall == 0] == []


def test_cells_by_spacing_run_from_START_with_one_at_every_end() -> None:
    """28 ft: at 4 in., every 4 ft from there, and 4 in. before the end."""
    want = [THIRD + 4 * k for k in range(7)] + [28 - THIRD]
    assert at(masonry_plan(), "W2") == pytest.approx(tuple(want))


def test_a_cell_of_the_spacing_that_falls_on_the_ends_own_is_that_one() -> None:
    """36'-8" wall, cells at 4 in. and every 4 ft: the ninth is the end's."""
    box = [(0, 0), (36 + 2 * THIRD, 0), (36 + 2 * THIRD, 28), (0, 28)]
    found = at(masonry_plan(box), "W1")
    assert found == pytest.approx(tuple(THIRD + 4 * k for k in range(10)))


def test_a_cell_stands_4_in_beside_each_opening_and_none_inside() -> None:
    """Door from 12 to 28 ft on a 40 ft wall."""
    found = at(masonry_plan(openings=(opening("W1", 12.0, 28.0),)), "W1")
    assert found == pytest.approx(
        (THIRD, 4 + THIRD, 8 + THIRD, 12 - THIRD, 28 + THIRD, 32 + THIRD, 36 + THIRD, 40 - THIRD)
    )


def test_a_cell_of_the_spacing_that_would_touch_the_jambs_own_is_that_one() -> None:
    """Cells at 4'-4" and 8'-4"; the door's jamb at 8'-8" is the second of them; from 9'-1" on, both stand."""
    found = at(masonry_plan(openings=(opening("W1", 9.0, 12.0),)), "W1")
    assert found[:3] == (pytest.approx(THIRD), pytest.approx(4 + THIRD), pytest.approx(9 - THIRD))
    apart = at(masonry_plan(openings=(opening("W1", 9.5, 12.0),)), "W1")
    assert apart[2:4] == (pytest.approx(8 + THIRD), pytest.approx(9.5 - THIRD))


def test_a_pier_of_one_block_cell_between_two_openings_has_one_cell() -> None:
    doors = (opening("W1", 10.0, 14.0), opening("W1", 14 + 2 * THIRD, 18.0))
    found = at(masonry_plan(openings=doors), "W1")
    assert [c for c in found if 13 < c < 16] == pytest.approx([14 + THIRD])


def test_an_opening_at_a_corner_uses_the_corners_own_cell() -> None:
    found = at(masonry_plan(openings=(opening("W1", 0.25, 10.0),)), "W1")
    assert found[:2] == (pytest.approx(THIRD), pytest.approx(10 + THIRD))


def test_jambs_are_the_cells_within_a_foot_of_the_opening_and_no_others() -> None:
    door = opening("W1", 12.0, 28.0)
    plan = masonry_plan(openings=(door,), cells=(("W1", 0.5), ("W1", 10.9), ("W1", 29.0), ("W1", 39.5)))
    cells = cells_of(plan, beam_stretches(build_outline(plan), ())[0], None)
    assert cells.jambs(door) == (None, 29.0)
    by_spacing = masonry_plan(openings=(door,))
    cells = cells_of(by_spacing, beam_stretches(build_outline(by_spacing), ())[0], 4.0)
    assert cells.jambs(door) == (pytest.approx(12 - THIRD), pytest.approx(28 + THIRD))


def test_a_wall_with_cells_one_by_one_has_no_others_and_the_next_wall_keeps_its_spacing() -> None:
    plan = masonry_plan(cells=(("W1", 30.0), ("W1", 2.0)))
    assert at(plan, "W1") == (2.0, 30.0)
    assert len(at(plan, "W2")) == 8


def test_without_spacing_or_cells_none_are_known() -> None:
    plan = masonry_plan(said=nothing_said())
    cells = filled_cells(plan, beam_stretches(build_outline(plan), ()))
    assert [c.known for c in cells] == [False] * 4


def test_a_cell_in_an_opening_is_refused_with_both_named() -> None:
    with pytest.raises(PlanError) as caught:
        run_of(openings=(opening("W1", 12.0, 28.0),), cells=(("W1", 20.0),))
    assert str(caught.value) == (
        "filled_cell on W1 at 20'-0\": it stands in the opening from 12'-0\" to 28'-0\"; write its station in the wall "
        "beside it"
    )


def pulls(at_ft: list[float], lb: list[float]) -> Pulls:
    column = np.array(lb)[:, None]
    return Pulls(
        rows=tuple(range(len(lb))), at_ft=np.array(at_ft), asd_lb=column, strength_lb=column / 0.6, patterns=("one",)
    )


def stretch(length_ft: float) -> Stretch:
    return Stretch(wall=0, name="W1", from_ft=0.0, to_ft=length_ft, corners=(0, 1))


def test_the_spacing_needed_is_a_whole_number_of_blocks_and_falls_with_the_pull() -> None:
    trusses = [1.0 + 2 * k for k in range(16)]
    found = [
        spacing_needed(masonry_plan(), stretch(32.0), pulls(trusses, [lb] * 16)).spacing_ft
        for lb in (1000.0, 1200.0, 1500.0, 2000.0)
    ]
    assert found[0] == BLOCKS_FT[-1] == 8.0
    assert all(f is not None and math.isclose(f * 1.5, round(f * 1.5)) for f in found)
    assert found == sorted(found, reverse=True)
    assert len(set(found)) == 4


@pytest.mark.parametrize("girder_at_ft", [4.0, 6.5, 9.0, 11.0, 13.5, 21.0])
def test_every_spacing_closer_than_the_one_asked_for_holds_wherever_a_girder_falls(girder_at_ft: float) -> None:
    plan, where = masonry_plan(), stretch(32.0)
    loads = pulls([1.0 + 2 * k for k in range(16)] + [girder_at_ft], [600.0] * 16 + [4000.0])
    asked = spacing_needed(plan, where, loads).spacing_ft
    assert asked is not None
    strength, plf = beam_strength(plan), beam_weight_plf(plan)
    holds = []
    for spacing_ft in BLOCKS_FT:
        demand = beam_demand(cells_of(plan, where, spacing_ft), loads, plf, strength)
        bar_lb = cell_bar_tension_lb(5)
        holds.append(
            all(s.ratio is not None and s.ratio <= 1.0 for s in demand.spans) and max(demand.cell_lb) <= bar_lb
        )
    assert all(h for ft, h in zip(BLOCKS_FT, holds, strict=True) if ft <= asked)
    wider = [h for ft, h in zip(BLOCKS_FT, holds, strict=True) if ft > asked]
    assert not wider or not wider[0]


def test_no_spacing_is_given_where_even_16_in_does_not_do() -> None:
    trusses = [1.0 + 2 * k for k in range(16)]
    assert spacing_needed(masonry_plan(), stretch(32.0), pulls(trusses, [30_000.0] * 16)).spacing_ft is None


def test_the_cells_own_bar_may_decide_the_spacing() -> None:
    """A #5 takes 9,920 lb (32 ksi). 2,400 plf less 74 of the beam put some 8/7 x 2,326 x 4 = 10,600 lb on a cell at 4
    ft, and 8,900 at 3 ft 4 in.
    """
    line = pulls([0.25 + 0.5 * k for k in range(64)], [1200.0] * 64)
    found = [
        spacing_needed(
            masonry_plan(said=steel(f_c_psi=10_000.0, cell_bar=Bars(count=n, number=5))), stretch(32.0), line
        ).spacing_ft
        for n in (1, 4)
    ]
    assert found == [pytest.approx(10 / 3), pytest.approx(4.0)]


def test_what_is_taken_where_the_plan_is_silent_is_said() -> None:
    assert spacing_needed(masonry_plan(said=nothing_said()), stretch(32.0), pulls([4.0], [900.0])).taken
    assert not spacing_needed(masonry_plan(), stretch(32.0), pulls([4.0], [900.0])).taken
    assert spacing_needed(masonry_plan(said=steel(cell_bar=None)), stretch(32.0), pulls([4.0], [900.0])).taken


def test_one_cell_alone_is_no_beams_footing_and_two_are() -> None:
    for n, known in ((0, False), (1, False), (2, True)):
        cells = cells_of(
            masonry_plan(cells=tuple(("W1", 5.0 + k) for k in range(n)) or (("W3", 1.0),)), stretch(40.0), None
        )
        assert len(cells.at_ft) == n
        assert cells.known is known


def test_an_opening_counts_on_its_own_wall_and_its_own_part_of_it_only() -> None:
    plan = masonry_plan(openings=(opening("W1", 12.0, 20.0),))
    assert len(at(plan, "W2")) == 8
    for length, n in ((11.0, 0), (12.0, 0), (12.5, 1), (40.0, 1)):
        assert len(cells_of(plan, stretch(length), 4.0).openings) == n
    beyond = Stretch(wall=0, name="W1", from_ft=20.0, to_ft=40.0, corners=(None, 1))
    assert cells_of(plan, beyond, 4.0).openings == ()


def test_a_cell_on_the_openings_edge_is_beside_it_and_one_a_foot_off_is_still_its_jamb() -> None:
    door = opening("W1", 12.0, 28.0)
    edge = masonry_plan(openings=(door,), cells=(("W1", 0.5), ("W1", 12.0), ("W1", 28.0), ("W1", 39.5)))
    assert cells_of(edge, stretch(40.0), None).jambs(door) == (12.0, 28.0)
    foot = masonry_plan(openings=(door,), cells=(("W1", 0.5), ("W1", 11.0), ("W1", 29.0), ("W1", 39.5)))
    assert cells_of(foot, stretch(40.0), None).jambs(door) == (11.0, 29.0)


def test_a_cell_typed_within_4_in_past_the_beams_end_is_kept_and_one_past_that_is_not() -> None:
    cells = cells_of(masonry_plan(cells=(("W1", 1.0), ("W1", 30 + THIRD), ("W1", 31.0))), stretch(30.0), None)
    assert cells.at_ft == pytest.approx((1.0, 30 + THIRD))


@pytest.mark.parametrize("length_ft", [20.0, 20 + 2 / 12, 20 + 5 / 12, 33 + 7 / 12, 40.0])
def test_cells_typed_at_both_ends_of_a_walls_tape_are_kept_whatever_its_length(length_ft: float) -> None:
    """At 0 and at the wall's whole length: 4 in. past the crossings of the centre lines."""
    box = [(0.0, 0.0), (length_ft, 0.0), (length_ft, 28.0), (0.0, 28.0)]
    typed = (0.0, length_ft / 2.0, length_ft)
    assert at(masonry_plan(box, cells=tuple(("W1", ft) for ft in typed)), "W1") == typed


def test_where_no_cell_bar_is_said_a_number_5_decides_and_16_in_is_the_closest_tried() -> None:
    line = pulls([0.25 + 0.5 * k for k in range(64)], [1200.0] * 64)
    strong = [
        spacing_needed(masonry_plan(said=steel(f_c_psi=10_000.0, cell_bar=bar)), stretch(32.0), line).spacing_ft
        for bar in (None, Bars(count=1, number=5), Bars(count=1, number=6))
    ]
    assert strong[0] == strong[1] != strong[2]
    assert BLOCKS_FT[0] == pytest.approx(16 / 12)
