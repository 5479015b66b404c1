"""The tie beam bent sideways between the walls that hold it, beside the plan's own bars: by hand.

An 8x16 beam (7-5/8 by 15-5/8 in.) with 2 #5 top and bottom, 3,000 psi, 1-1/2 in. of cover, a #3 tie: at either face one
bar of each, A_s = 0.62 sq in., d = 7.625 - 1.5 - 0.375 - 0.3125 = 5.4375 in. ACI 318 22.2 (from memory): a = A_s f_y /
(0.85 f'c b), phi M_n = 0.9 A_s f_y (d - a/2).
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.ground.beam_sideways import beam_flags, bent_sideways
from framing.plan import Plan, RoofType
from framing.plan_masonry import Bars, CrossWall, Stirrups, TopsHeldBy
from framing.sideways.at_the_tops import BeamSpan, beam_spans
from invariants.houses import plan_of
from statics.test_sideways import open_front, run_of


def house(*, bars: bool, cross_walls: tuple[CrossWall, ...] = ()) -> Plan:
    plan = plan_of([(0, 0), (64, 0), (64, 24), (0, 24)], type=RoofType.GABLE)
    steel = plan.masonry.steel
    if bars:
        two = Bars(count=2, number=5)
        steel = replace(steel, top_bars=two, bottom_bars=two, f_c_psi=3000.0, cover_ft=1.5 / 12.0)
    return replace(plan, masonry=replace(plan.masonry, steel=steel, cross_walls=cross_walls))


def test_with_the_plan_s_bars_the_beam_is_held_to_them_and_a_long_span_is_flagged() -> None:
    run = run_of(house(bars=True), TopsHeldBy.TIE_BEAM)
    a = 0.62 * 60.0 / (0.85 * 3.0 * 15.625)
    by_hand = 0.9 * 0.62 * 60_000.0 * (5.4375 - a / 2) / 12.0
    bent = bent_sideways(run.plan, run.tops)
    assert [b.carries_ft_lb for b in bent] == pytest.approx([by_hand] * len(bent))
    long = next(b for b in bent if b.span.wall == "W1")
    assert long.moment_ft_lb == pytest.approx(long.span.load_lb / 0.6 * 64.0 / 8.0)
    assert long.ratio is not None
    assert long.ratio > 1.0
    assert any("tie beam of W1 between 0'-0\" and 64'-0\"" in flag for flag in run.flags)
    assert not any(note.startswith("The tie beam holds the tops of the walls") for note in run.notes)


def test_a_cross_wall_halves_the_span_and_quarters_the_moment() -> None:
    cross = CrossWall(start_ft=(32.0, 0.5), end_ft=(32.0, 23.5))
    one, two = (run_of(house(bars=True, cross_walls=c), TopsHeldBy.TIE_BEAM) for c in ((), (cross,)))
    whole = next(b for b in bent_sideways(one.plan, one.tops) if b.span.wall == "W1")
    halves = [b for b in bent_sideways(two.plan, two.tops) if b.span.wall == "W1"]
    assert [(b.span.from_ft, b.span.to_ft) for b in halves] == [(0.0, 32.0), (32.0, 64.0)]
    assert max(b.moment_ft_lb for b in halves) == pytest.approx(whole.moment_ft_lb / 4, rel=0.2)


def test_without_bars_the_span_is_a_question_and_no_flag() -> None:
    run = run_of(house(bars=False), TopsHeldBy.TIE_BEAM)
    assert beam_flags(run.plan, run.tops) == ()
    assert any(note.startswith("The tie beam holds the tops of the walls and bends sideways") for note in run.notes)


def test_where_the_roof_holds_the_tops_the_beam_does_not_bend() -> None:
    run = run_of(house(bars=True))
    assert run.tops.spans == ()
    assert {b.wall for b in run.tops.bracing} == {"W2", "W4"}


def test_a_thicker_stirrup_leaves_the_bars_an_eighth_of_an_inch_less_depth() -> None:
    """#4 in place of the #3 that is taken where none is said: 1/2 in. for 3/8."""
    run = run_of(house(bars=True), TopsHeldBy.TIE_BEAM)
    steel = replace(run.plan.masonry.steel, stirrups=Stirrups(number=4, spacing_ft=8.0 / 12.0))
    plan = replace(run.plan, masonry=replace(run.plan.masonry, steel=steel))
    a = 0.62 * 60.0 / (0.85 * 3.0 * 15.625)
    by_hand = 0.9 * 0.62 * 60_000.0 * (5.4375 - 0.125 - a / 2) / 12.0
    assert bent_sideways(plan, run.tops)[0].carries_ft_lb == pytest.approx(by_hand)


def test_a_span_of_the_bent_beam_is_a_beam_on_two_bearings_under_an_even_load() -> None:
    """W L / 8 and W / 2."""
    span = BeamSpan(wall="W1", from_ft=4.0, to_ft=24.0, load_lb=3000.0, case="")
    assert (span.length_ft, span.moment_ft_lb, span.shear_lb) == (20.0, 7500.0, 1500.0)


@pytest.mark.parametrize(("from_ft", "n"), [(0.75, 2), (1.75, 2), (1.8, 1)])
def test_a_cross_wall_meets_a_wall_up_to_a_foot_off_its_inside_face(from_ft: float, n: int) -> None:
    """A wall of 9 in.; the foot is an own choice, for cross walls drawn a little short."""
    run = run_of(replace(house(bars=False), wall_thickness_ft=0.75), TopsHeldBy.TIE_BEAM)
    cross = CrossWall(start_ft=(32.0, from_ft), end_ft=(32.0, 12.0))
    plan = replace(run.plan, masonry=replace(run.plan.masonry, cross_walls=(cross,)))
    assert sum(s.wall == "W1" for s in beam_spans(plan, run.outline, run.sideways)) == n


def test_a_wall_that_is_all_porch_beam_has_no_tie_beam_to_bend() -> None:
    assert {s.wall for s in run_of(open_front(), TopsHeldBy.TIE_BEAM).tops.spans} == {"W2", "W3", "W4"}
