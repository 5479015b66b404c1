"""What comes along each wall to its base where the tie beam holds the tops of the walls: by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from drawings.test_report import number, page_of
from framing.anchors.catalogue_file import shipped_catalogue
from framing.explain.hand_over import hand_over
from framing.explain.wall_bases import wall_bases
from framing.explain.wall_lines import wall_shears
from framing.plan import Plan, RoofType
from framing.plan_masonry import CrossWall, TopsHeldBy
from framing.run import Run, make_run
from framing.sideways.at_the_tops import beam_load_lb
from invariants.houses import moved_plan, plan_of, supported_plan


def gabled(held_by: TopsHeldBy, cross_walls: tuple[CrossWall, ...] = ()) -> Plan:
    """50 ft by 30 ft, gables at 6:12 on the 30 ft walls, walls 9 ft, heel 6 in., 150 mph in Exposure C, enclosed."""
    plan = plan_of(
        [(0, 0), (50, 0), (50, 30), (0, 30)],
        type=RoofType.GABLE,
        rise_per_run=0.5,
        overhang_ft=1.5,
        speed_mph=150.0,
        wall_height_ft=9.0,
    )
    return replace(plan, masonry=replace(plan.masonry, tops_held_by=held_by, cross_walls=cross_walls))


def run_of(held_by: TopsHeldBy, cross_walls: tuple[CrossWall, ...] = ()) -> Run:
    return make_run(gabled(held_by, cross_walls), shipped_catalogue())


def test_a_long_wall_takes_half_of_both_gable_walls_beams_and_its_share_of_the_deck() -> None:
    """Wind along the ridge, load case 2; h = 1.333 + 9 + 0.5 + 3.75 = 14.58 ft: K_z at 15 ft 2.41 (15/2460)^(2/9.8) =
    0.85115, 0.6 q K_d = 0.6 x 0.00256 x 0.85115 x 0.85 x 150^2 = 25.0035 psf; a = 3 ft. Windward less leeward 0.40 +
    0.29 = 0.69, in the strips 0.61 + 0.43, 0.35 more; what is inside cancels.
    The beams: upper half 30 x 4.5 = 135 ft2 and the lower half of the gable (0.5 x 30 + 30 x 7.5 / 2) / 2 = 63.75,
    in the strip 3 x 4.5 = 13.5 and (1.5 + 2.25) / 2 = 1.875. Both: 25.0035 x (0.69 x 198.75 + 0.35 x 15.375) =
    3563.4 lb, half to either long wall: 1781.7 lb.
    The deck: the gable's upper half, 63.75 ft2 at mid-width, and 1.875 ft2 of strip whose middle lies at 0.94 of the
    width: 25.0035 x (0.69 x 63.75 / 2 + 0.35 x 1.875 x 0.94) = 565.3 lb. Together 2347.0 lb.
    """
    found = {b.wall: b for b in wall_bases(run_of(TopsHeldBy.TIE_BEAM))}
    assert list(found) == ["W1", "W3", "W4", "W2"]
    for wall in ("W1", "W3"):
        assert found[wall].beam_lb == pytest.approx(1781.7, abs=1.0)
        assert found[wall].deck_lb == pytest.approx(565.3, abs=1.0)
        assert found[wall].shear_lb == pytest.approx(2347.0, abs=1.0)


def test_cross_walls_take_the_beams_of_both_spans_beside_them() -> None:
    """Cross walls at 20 and 30 ft: half of 20 and of 10 ft of each long wall's load comes to a cross wall, half of 20
    ft to an end wall, 15 to 10 where the load is even. End strips hang on one end wall's span: a little less.
    """
    crossing = tuple(CrossWall(start_ft=(x, 0.0), end_ft=(x, 30.0)) for x in (20.0, 30.0))
    found = {b.wall: b for b in wall_bases(run_of(TopsHeldBy.TIE_BEAM, crossing))}
    assert list(found)[4:] == ["cross wall 1", "cross wall 2"]
    for name in ("cross wall 1", "cross wall 2"):
        assert found[name].deck_lb == 0.0
        assert 1.3 < found[name].beam_lb / found["W2"].beam_lb < 1.5


def test_where_the_roof_holds_the_walls_a_base_takes_the_deck_s_share_alone() -> None:
    run = run_of(TopsHeldBy.ROOF)
    assert [(b.wall, b.shear_lb, b.beam_lb) for b in wall_bases(run)] == [
        (s.wall, s.shear_lb, 0.0) for s in wall_shears(run)
    ]


def test_a_wall_parted_by_a_porch_beam_has_one_base_with_both_its_parts() -> None:
    """W3 of 46 ft has a beam over 28 ft of it: 6 and 12 ft of wall share the line's force by length."""
    run = make_run(supported_plan("a porch"), shipped_catalogue())
    [base] = [b for b in wall_bases(run) if b.wall == "W3"]
    parts = [s for s in wall_shears(run) if s.wall == "W3"]
    assert len(parts) == 2
    assert base.shear_lb == pytest.approx(parts[0].plf * 18.0, rel=0.02)


def test_a_house_with_a_wall_at_an_angle_has_the_same_bases_in_the_mirror() -> None:
    """Nothing is symmetrical in it, so that the sign of a force shows. The slanting wall, 12 ft by 12 ft, holds no line
    of the deck; half of W1's load (outward -y) and half of W3's (outward +x) come to it, each with 0.7071 along it.
    """
    plan = plan_of([(0, 0), (40, 0), (52, 12), (52, 36), (0, 36)])
    plan = replace(plan, masonry=replace(plan.masonry, tops_held_by=TopsHeldBy.TIE_BEAM))
    run = make_run(plan, shipped_catalogue())
    here, there = (wall_bases(r) for r in (run, make_run(moved_plan(plan, 0.0, mirror=True), shipped_catalogue())))
    assert sorted(b.shear_lb for b in here) == pytest.approx(sorted(b.shear_lb for b in there), abs=0.01)
    assert len(here) == 5
    [slant] = [b for b in here if b.wall == "W2"]
    k = [c.name for c in run.sideways.cases].index(slant.case)
    below_lb, beside_lb = (beam_load_lb(run.sideways, wall, 0.0, ft)[k] for wall, ft in ((0, 40.0), (2, 24.0)))
    assert slant.deck_lb == 0.0
    assert slant.beam_lb == pytest.approx(abs(0.70711 * (beside_lb - below_lb) / 2.0), rel=1e-4)


def test_page_and_table_hand_the_bases_over() -> None:
    run = run_of(TopsHeldBy.TIE_BEAM)
    bases = wall_bases(run)
    handed = [r for r in hand_over(run) if r.what == "base reaction along the wall"]
    assert [(r.where, r.value) for r in handed] == [(b.wall, b.shear_lb) for b in bases]
    printed = page_of(run).rows("engineer", "Bases of walls")
    assert [number(r[3]) for r in printed] == pytest.approx([b.shear_lb for b in bases], abs=0.5)
    assert [number(r[4]) for r in printed] == pytest.approx([9.0 * b.shear_lb for b in bases], abs=0.5)
