"""The beam over an opening: its span, what it feels, what its jambs take, and what the plan must say for it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.ground.beam_strength import beam_strength, beam_weight_plf
from framing.ground.beam_stretches import Stretch
from framing.ground.filled_cells import cells_of
from framing.ground.over_openings import OpeningBeam
from framing.ground.strap_pulls import Pulls
from framing.ground.tie_beam import BeamDemand, beam_demand, simple_span
from framing.plan import TieBeam
from parts.masonry_houses import ONE_5, Bars, LintelKind, Stirrups, masonry_plan, nothing_said, opening, run_of, steel

THIRD = 1.0 / 3.0
DOOR = opening("W1", 12.0, 28.0)
ALL_KEYS = ("tie_beam.top_bars", "tie_beam.bottom_bars", "tie_beam.f_c_psi", "tie_beam.cover")


def over(**changed: object) -> OpeningBeam:
    [found] = run_of(**{"openings": (DOOR,), **changed}).ground.openings
    return found


def garage(size: str, n_top: int) -> tuple[float, float, float | None]:
    """A 16 ft door under trusses of 800 lb at 24 in.: moment, shear (ASD) and the ratio of ASD over 0.6 strength."""
    width, depth = (int(n) for n in size.split("x"))
    plan = masonry_plan(said=steel(top_bars=Bars(count=n_top, number=5)))
    plan = replace(plan, tie_beam=TieBeam(nominal_width_in=width, nominal_depth_in=depth))
    n = 4000
    at = (np.arange(n) + 0.5) * 50.0 / 3.0 / n
    pull = np.full((n, 1), 400.0 * 50.0 / 3.0 / n)
    pulls = Pulls(rows=tuple(range(n)), at_ft=at, asd_lb=pull, strength_lb=pull, patterns=("line",))
    feel, _ = simple_span(pulls, pull, 0.6 * beam_weight_plf(plan), (0.0, 50.0 / 3.0))
    strength = beam_strength(plan)
    return feel.top_ft_lb, feel.shear_lb, strength.ratio(feel.top_ft_lb / 0.6, 0.0, 0.0)


def test_a_16_ft_garage_door_wants_two_number_5_on_top_of_an_8x16() -> None:
    """By hand: L 16.67 ft, net 326 plf: M 11,308 ft-lb, V 2,713 lb. One #5 (0.6 phi M_n 10,767) fails."""
    moment, shear, ratio = garage("8x16", 1)
    assert moment == pytest.approx(11_308, rel=1e-3)
    assert shear == pytest.approx(2_713, rel=1e-3)
    assert ratio == pytest.approx(11_308 / 10_767, rel=1e-3)
    assert garage("8x16", 2)[2] == pytest.approx(11_308 / 20_573, rel=1e-3)


def test_an_8x24_over_that_door_feels_less_for_its_weight() -> None:
    """M 9,985 ft-lb, V 2,396 lb (hand)."""
    moment, shear, _ = garage("8x24", 1)
    assert moment == pytest.approx(9_985, rel=1e-3)
    assert shear == pytest.approx(2_396, rel=1e-3)


def test_the_beam_spans_clear_and_depth_but_no_more_than_cell_to_cell() -> None:
    """The depth d of an 8x16 is 13.44 in., of an 8x8 5.44 in.; the jamb cells stand 4 in. beside the door."""
    assert over().span_ft == pytest.approx(16 + 2 * THIRD)
    shallow = over(
        tie_beam=TieBeam(nominal_width_in=8, nominal_depth_in=8), said=steel(top_bars=ONE_5, bottom_bars=ONE_5)
    )
    assert shallow.span_ft == pytest.approx(16 + 5.4375 / 12)
    far = over(cells=(("W1", 0.5), ("W1", 11.2), ("W1", 28.8), ("W1", 39.5)))
    assert far.jambs_ft == (11.2, 28.8)
    assert far.span_ft == pytest.approx(16 + 13.4375 / 12)
    unknown = over(said=nothing_said())
    assert unknown.span_ft == pytest.approx(16 + 2 * THIRD)


def test_what_stands_over_the_opening_is_the_marks_between_its_sides() -> None:
    run = run_of(openings=(DOOR,))
    [found] = run.ground.openings
    stations = [run.schedule.marks[i].bearing.strap_station_ft for i in found.marks]
    assert len(stations) == 8
    assert all(12 < s < 28 for s in stations)
    assert found.girders == ()
    pulled = sum(run.schedule.marks[i].uplift_lb for i in found.marks)
    assert found.asd.shear_lb == pytest.approx((pulled - 0.6 * 124.1 * (16 + 2 * THIRD)) / 2, rel=0.15)


def test_a_girder_over_an_opening_is_named() -> None:
    """The hip girder stands 7 ft from either end of the long wall."""
    found = over(openings=(opening("W1", 5.0, 9.0),))
    assert len(found.girders) == 1
    assert found.girders[0].startswith("W1-")


def test_strength_is_asked_at_1_0_W_less_0_9_D_and_the_ratio_is_of_that() -> None:
    found = over()
    assert found.strength.top_ft_lb / found.asd.top_ft_lb == pytest.approx(1 / 0.6, rel=0.1)
    assert found.strength.top_ft_lb > found.asd.top_ft_lb / 0.6
    strength = beam_strength(masonry_plan())
    assert strength.top_ft_lb is not None
    assert strength.shear_lb is not None
    most = max(found.strength.top_ft_lb / strength.top_ft_lb, found.strength.shear_lb / strength.shear_lb)
    assert found.ratio == pytest.approx(most)


def test_everything_that_the_plan_must_say_is_named() -> None:
    assert over().unsaid == ()
    assert over(said=nothing_said()).unsaid == (*ALL_KEYS, "filled_cell beside it")
    assert over(cells=(("W1", 2.0), ("W1", 11.5), ("W1", 38.0))).unsaid == ("filled_cell beside it",)
    assert over(said=steel(top_bars=None)).unsaid == ("tie_beam.top_bars",)
    unnamed = run_of(openings=(replace(DOOR, lintel=None),))
    assert unnamed.ground.openings[0].unsaid == ("opening.lintel",)


def pulls(at_ft: list[float], lb: list[float]) -> Pulls:
    column = np.array(lb)[:, None]
    return Pulls(
        rows=tuple(range(len(lb))), at_ft=np.array(at_ft), asd_lb=column, strength_lb=column, patterns=("one",)
    )


def demand(cells: tuple[float, ...], at_ft: list[float], lb: list[float], beam_plf: float = 0.0) -> BeamDemand:
    plan = masonry_plan(openings=(DOOR,), cells=tuple(("W1", c) for c in cells))
    stretch = Stretch(wall=0, name="W1", from_ft=0.0, to_ft=40.0, corners=(0, 1))
    return beam_demand(cells_of(plan, stretch, None), pulls(at_ft, lb), beam_plf, beam_strength(plan))


CELLS = (0.0, 6.0, 11.0, 29.0, 34.0, 40.0)


def test_over_an_opening_the_beam_is_cut_at_its_jambs() -> None:
    """9,000 lb in the middle of the 18 ft: P L / 4, and nothing reaches the cells beyond the jambs."""
    found = demand(CELLS, [20.0], [9000.0])
    assert found.cell_lb == pytest.approx((0, 0, 4500, 4500, 0, 0))
    span = next(s for s in found.spans if s.opening is not None)
    assert (span.from_ft, span.to_ft) == (11.0, 29.0)
    assert span.asd.top_ft_lb == pytest.approx(9000 * 18 / 4)
    assert all(s.asd.top_ft_lb == 0.0 for s in found.spans if s.opening is None)


def test_beside_the_opening_the_beam_runs_on_over_its_cells() -> None:
    """Two spans of 6 and 5 ft under a force in the first: the cell between is pulled by more than its lever's share."""
    found = demand(CELLS, [3.0], [1000.0])
    assert sum(found.cell_lb[:3]) >= 1000.0
    assert found.cell_lb[1] > 500.0
    assert found.cell_lb[3:] == (0.0, 0.0, 0.0)
    assert [(s.from_ft, s.to_ft) for s in found.spans] == [(0, 6), (6, 11), (11, 29), (29, 34), (34, 40)]


def test_all_pulls_less_the_beam_come_down_at_the_cells() -> None:
    trusses = [1.0 + 2 * k for k in range(20)]
    found = demand(CELLS, trusses, [700.0] * 20, 124.1)
    assert sum(found.cell_lb) == pytest.approx(20 * 700 - 0.6 * 124.1 * 40)
    assert found.pull_lb == pytest.approx(14_000)
    assert found.net_plf == pytest.approx(350 - 0.6 * 124.1)


def test_a_lone_cell_between_two_doors_takes_both_halves() -> None:
    doors = (opening("W1", 10.0, 19.0), opening("W1", 20.0, 29.0))
    plan = masonry_plan(openings=doors, cells=tuple(("W1", c) for c in (0.0, 9.5, 19.5, 29.5, 40.0)))
    stretch = Stretch(wall=0, name="W1", from_ft=0.0, to_ft=40.0, corners=(0, 1))
    found = beam_demand(
        cells_of(plan, stretch, None), pulls([14.5, 19.5, 24.5], [1000.0, 77.0, 3000.0]), 0.0, beam_strength(plan)
    )
    assert found.cell_lb == pytest.approx((0, 500, 2077, 1500, 0))


def test_each_jamb_takes_its_half_of_the_opening_and_of_the_next_span() -> None:
    run = run_of(openings=(DOOR,))
    [found] = run.ground.openings
    beam = next(b for b in run.ground.beams if b.cells.stretch.name == "W1")
    plf, at = 0.6 * run.ground.beam_plf, beam.cells.at_ft
    own = simple_span(beam.pulls, beam.pulls.asd_lb, plf, (12 - THIRD, 28 + THIRD))[1]
    near, far = at.index(pytest.approx(12 - THIRD)), at.index(pytest.approx(28 + THIRD))
    before = simple_span(beam.pulls, beam.pulls.asd_lb, plf, (at[near - 1], at[near]))[1][1]
    beyond = simple_span(beam.pulls, beam.pulls.asd_lb, plf, (at[far], at[far + 1]))[1][0]
    assert found.jamb_lb[0] == pytest.approx(max(own[0] + before, beam.cell_lb[near]))
    assert found.jamb_lb[1] == pytest.approx(max(own[1] + beyond, beam.cell_lb[far]))
    for k, i in ((0, near), (1, far)):
        named = next(c for c in run.ground.cells if c.walls == ("W1",) and c.at_ft == (at[i],))
        assert named.jamb
        assert named.pull_lb == found.jamb_lb[k]


@pytest.mark.parametrize(("from_ft", "to_ft", "k"), [(0.5, 5.0, 0), (35.0, 39.5, 1)])
def test_a_jamb_that_is_the_corners_own_cell_has_no_span_beyond(from_ft: float, to_ft: float, k: int) -> None:
    run = run_of(openings=(opening("W1", from_ft, to_ft),))
    [found] = run.ground.openings
    beam = next(b for b in run.ground.beams if b.cells.stretch.name == "W1")
    assert found.jambs_ft[k] == pytest.approx((THIRD, 40 - THIRD)[k])
    ends = (THIRD, to_ft + THIRD) if k == 0 else (from_ft - THIRD, 40 - THIRD)
    own = simple_span(beam.pulls, beam.pulls.asd_lb, 0.6 * run.ground.beam_plf, ends)[1][k]
    assert found.jamb_lb[k] == pytest.approx(max(own, beam.cell_lb[(0, -1)[k]], 0.0))


def test_stirrups_carry_the_shear_that_the_concrete_does_not() -> None:
    bare, tied = over(), over(said=steel(stirrups=Stirrups(number=3, spacing_ft=0.5)))
    assert bare.ratio is not None
    assert tied.ratio is not None
    assert tied.ratio < bare.ratio
    assert bare.opening.lintel is LintelKind.TIE_BEAM


def test_tails_past_the_last_cells_are_spans_of_their_own_and_a_cells_own_block_is_none() -> None:
    """Cells at 6 and 34 ft of a 40 ft beam, a strap of 500 lb at either end: 6 ft tails, 500 x 6 ft-lb at the cell."""
    plan = masonry_plan(cells=(("W1", 6.0), ("W1", 34.0)))
    stretch = Stretch(wall=0, name="W1", from_ft=0.0, to_ft=40.0, corners=(0, 1))
    found = beam_demand(cells_of(plan, stretch, None), pulls([0.0, 40.0], [500.0, 500.0]), 0.0, beam_strength(plan))
    assert [(s.from_ft, s.to_ft) for s in found.spans] == [(0, 6), (6, 34), (34, 40)]
    assert [s.asd.bottom_ft_lb for s in found.spans] == pytest.approx([3000, 3000, 3000])
    assert [s.asd.top_ft_lb for s in found.spans] == pytest.approx([0, 0, 0])
    near = masonry_plan(cells=(("W1", 0.25), ("W1", 0.5), ("W1", 39.75)))
    spans = beam_demand(cells_of(near, stretch, None), pulls([0.0], [500.0]), 0.0, beam_strength(near)).spans
    assert [(s.from_ft, s.to_ft) for s in spans] == [(0.25, 0.5), (0.5, 39.75)]


def test_a_lone_cell_takes_its_worst_pattern_not_the_sum_of_all() -> None:
    doors = (opening("W1", 10.0, 19.0), opening("W1", 20.0, 29.0))
    plan = masonry_plan(openings=doors, cells=tuple(("W1", c) for c in (0.0, 9.5, 19.5, 29.5, 40.0)))
    stretch = Stretch(wall=0, name="W1", from_ft=0.0, to_ft=40.0, corners=(0, 1))
    two = np.array([[300.0, 700.0]])
    both = Pulls(rows=(0,), at_ft=np.array([19.5]), asd_lb=two, strength_lb=two, patterns=("one", "other"))
    found = beam_demand(cells_of(plan, stretch, None), both, 0.0, beam_strength(plan))
    assert found.cell_lb == pytest.approx((0, 0, 700, 0, 0))
    assert found.pull_lb == 300.0
