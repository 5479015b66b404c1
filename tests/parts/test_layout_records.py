"""What the steps of the layout hand on, and what they ask of supports, chords and walls, in numbers by hand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.frame_side import FrameSide
from framing.layout.chords import cheapest_division
from framing.layout.gable_ends import anchor_places_ft
from framing.layout.jogs import absorb_jogs
from framing.layout.landing import Ground
from framing.layout.records import (
    Cell,
    Chord,
    ChordEnd,
    Key,
    KeyKind,
    WallLine,
    cell_ring,
    gable_truss_ft,
    girder_key,
    on_wing_side,
)
from framing.layout.supports import SupportLine, Supports, read_supports
from framing.members import PorchBeam
from framing.plan import Plan, Point, Support, SupportKind
from framing.roof.surface import build_roof
from framing.roof.wings import Wing
from framing.walls.outline import build_outline
from invariants.houses import plan_of

BOX: list[Point] = [(0, 0), (50, 0), (50, 28), (0, 28)]
TEE: list[Point] = [(0, 0), (20, 0), (20, -12), (41, -12), (41, 0), (64, 0), (64, 30), (0, 30)]
HALF_WALL_FT = 4 / 12


def chord(axis: int, line_ft: float, low_ft: float, high_ft: float, index: int = 0, *, girder: bool = True) -> Chord:
    """A chord between walls 8 in. thick whose girder stands on its own line."""
    low = ChordEnd(wall=0, chord=None, at_ft=low_ft + HALF_WALL_FT)
    high = ChordEnd(wall=1, chord=None, at_ft=high_ft - HALF_WALL_FT)
    place = {"index": index, "axis": axis, "line_ft": line_ft, "low_ft": low_ft, "high_ft": high_ft}
    return Chord(**place, bearing_ft=line_ft, low_end=low, high_end=high, girder=girder)


def cell(low_ft: Point, high_ft: Point, ridge_axis: int = 0, jog_ft: float = 2.0) -> Cell:
    return Cell(index=0, low_ft=low_ft, high_ft=high_ft, wing=0, ridge_axis=ridge_axis, jog_ft=jog_ft)


def ground(ring: list[Point], *chords: Chord, origin_ft: Point = (0.0, 0.0), **changed: object) -> Ground:
    """A house with the chords given, and no others."""
    plan = plan_of(ring, **changed)
    outline = build_outline(plan)
    roof, supports = build_roof(plan, outline), read_supports(plan, outline)
    cells = cheapest_division(outline, roof, 2.0, supports).cells
    return Ground(
        house=outline,
        outline=outline,
        roof=roof,
        framed=absorb_jogs(outline),
        chords=chords,
        cells=cells,
        supports=supports,
        origin_ft=origin_ft,
    )


def test_a_girder_spans_from_bearing_to_bearing_and_takes_the_roof_as_far_as_a_support_along_it() -> None:
    on_walls = chord(0, 10.0, 0.0, 30.0)
    assert on_walls.girder_ft == (0.0, 30.0)
    assert on_walls.span_ft == pytest.approx(30.0 - 8 / 12)
    post = replace(on_walls, over=((12.0, 0),))
    assert post.span_ft == pytest.approx(30.0 - HALF_WALL_FT - 12.0)
    wall = ChordEnd(wall=None, chord=None, at_ft=22.0, support=0)
    assert replace(on_walls, high_end=wall).girder_ft == (0.0, 22.0)
    assert replace(on_walls, low_end=replace(wall, at_ft=6.0)).girder_ft == (6.0, 30.0)
    assert not Chord.__dataclass_fields__["girder"].default


def wall_line(own_ft: Point, low_ft: float, high_ft: float, inward: int = 1) -> WallLine:
    ends = {"own_ft": own_ft, "low_ft": low_ft, "high_ft": high_ft}
    return WallLine(index=0, axis=0, line_ft=5.0, face_ft=6.0, **ends, inward=inward, thickness_ft=2 * HALF_WALL_FT)


def test_a_wall_bears_at_mid_thickness_and_past_its_end_over_a_jog_in_the_middle_of_its_corner() -> None:
    """A truss stands 1-1/2 in. or more from the end of a wall that the framing line runs on past; at its own end
    anywhere.
    """
    assert wall_line((10, 30), 10, 30).bearing_ft == pytest.approx(6.0 + HALF_WALL_FT)
    assert wall_line((10, 30), 10, 30, inward=-1).bearing_ft == pytest.approx(6.0 - HALF_WALL_FT)
    past = wall_line((10, 30), 8, 31)
    found = [past.on_masonry_ft(at) for at in (8.0, 10.1, 10.125, 20.0, 29.875, 29.9, 30.5)]
    assert found == pytest.approx([10 + HALF_WALL_FT] * 2 + [10.125, 20.0, 29.875] + [30 - HALF_WALL_FT] * 2)
    own = wall_line((10, 30), 10, 30)
    assert [own.on_masonry_ft(at) for at in (10.0, 10.1, 29.9, 30.0)] == [10.0, 10.1, 29.9, 30.0]


@pytest.mark.parametrize(("past_ft", "on_it"), [(-0.1, False), (0.0, True), (1.9, True), (2.0, False), (3.0, False)])
def test_a_cell_lies_on_its_wing_s_side_up_to_an_absorbed_jog_past_it(past_ft: float, on_it: bool) -> None:
    own = Wing(name="wing 1", low_ft=(0, 0), high_ft=(40, 20), ridge_axis=0, gable=(False,) * 4)
    assert on_wing_side(cell((-past_ft, 0), (40, 20)), own, FrameSide.X_LOW) is on_it
    assert on_wing_side(cell((0, 0), (40 + past_ft, 20)), own, FrameSide.X_HIGH) is on_it
    assert on_wing_side(cell((0, 0), (40, 20 + past_ft)), own, FrameSide.Y_HIGH) is on_it


def test_a_cell_s_ends_lie_along_its_ridge_and_its_flanks_across() -> None:
    long, tall = cell((1, 2), (41, 22)), cell((1, 2), (21, 52), ridge_axis=1)
    assert long.ends == tall.flanks == (FrameSide.X_LOW, FrameSide.X_HIGH)
    assert long.flanks == tall.ends == (FrameSide.Y_LOW, FrameSide.Y_HIGH)
    assert [long.size_ft(0), long.size_ft(1)] == [40, 20]
    assert cell_ring(0, (5, 1), (9, 2)) == ((1, 2), (5, 2), (5, 9), (1, 9))
    assert cell_ring(1, (5, 1), (9, 2)) == ((2, 1), (2, 5), (9, 5), (9, 1))


@pytest.mark.parametrize(("said_ft", "wall_ft", "in_ft"), [(None, 8, 2.5), (None, 2, 0), (1.25, 8, 1.25), (0, 8, 0)])
def test_a_gable_truss_not_said_stands_so_that_a_strap_at_mid_thickness_lies_inside_it(
    said_ft: float | None, wall_ft: float, in_ft: float
) -> None:
    """Inches: half of 8 less a ply of 1-1/2, and never past the block's face."""
    plan = plan_of(BOX, gable_truss_ft=None if said_ft is None else said_ft / 12, wall_thickness_ft=wall_ft / 12)
    assert 12 * gable_truss_ft(plan) == pytest.approx(in_ft)


@pytest.mark.parametrize(
    ("length_ft", "places_ft"), [(2.2, [1.1]), (2.3, [1, 1.3]), (6.2, [1, 5.2]), (6.3, [1, 5, 5.3]), (10, [1, 5, 9])]
)
def test_a_gable_s_anchors_stand_a_foot_in_and_at_the_spacing_but_no_bay_is_under_3_in(
    length_ft: float, places_ft: list[float]
) -> None:
    assert anchor_places_ft(20.0, 20.0 + length_ft, 4.0, from_low=True) == pytest.approx([20 + p for p in places_ft])
    mirrored = [20.0 + length_ft - p for p in reversed(places_ft)]
    assert anchor_places_ft(20.0, 20.0 + length_ft, 4.0, from_low=False) == pytest.approx(mirrored)


def line(start: Point, end: Point, index: int = 0) -> SupportLine:
    return SupportLine(index=index, start_ft=start, end_ft=end, holds_down=True)


def test_a_support_counts_along_a_line_within_6_in_of_it_and_2_ft_past_its_ends_whichever_way_it_is_typed() -> None:
    for ends in (((30.0, 10.0), (12.0, 10.05)), ((12.0, 10.05), (30.0, 10.0))):
        found = Supports(inside=(line(*ends),), porch_beams=(), notes=())
        assert found.inside[0].axis == 0
        assert found.inside[0].between_ft(0) == (12.0, 30.0)
        assert found.inside[0].line_ft(0) == pytest.approx(10.025)
        reached = [found.along(0, 10.4, at) is not None for at in (9.9, 10.1, 20.0, 31.9, 32.1)]
        assert reached == [False, True, True, True, False]
        assert found.along(0, 10.6, 20.0) is None
        assert found.along(1, 10.0, 20.0) is None
    assert line((5.0, 3.0), (5.08, 20.0)).axis == 1
    assert line((5.0, 3.0), (5.09, 20.0)).axis is None


def test_a_porch_beam_stands_in_place_of_its_own_wall_between_its_ends() -> None:
    beam = PorchBeam(support=0, wall=2, from_ft=5.0, to_ft=15.0, has_porch=True)
    found = Supports(inside=(), porch_beams=(beam,), notes=())
    assert [found.porch_beam_at(2, at) is beam for at in (4.9, 5.0, 10.0, 15.0, 15.1)] == [
        False,
        True,
        True,
        True,
        False,
    ]
    assert found.porch_beam_at(1, 10.0) is None


def read(start: Point, end: Point, kind: str = "beam") -> Supports:
    plan: Plan = plan_of(BOX, supports=(Support(kind=SupportKind(kind), start_ft=start, end_ft=end, holds_down=True),))
    return read_supports(plan, build_outline(plan))


def test_a_beam_in_a_wall_or_an_inch_behind_it_stands_in_its_place_farther_in_it_is_left_out_and_then_counts() -> None:
    """The wall is 8 in. thick; within 6 in. of its inside face a support cannot carry a truss of its own."""
    for in_ft in (0.0, 8.9 / 12):
        assert [b.wall for b in read((10, in_ft), (30, in_ft)).porch_beams] == [0]
    for in_ft in (9.1 / 12, 13.9 / 12):
        left_out = read((10, in_ft), (30, in_ft))
        assert (left_out.porch_beams, left_out.inside, len(left_out.notes)) == ((), (), 1)
    assert [s.index for s in read((10, 14.1 / 12), (30, 14.1 / 12)).inside] == [0]
    assert len(read((10, 0.3), (30, 0.3), "bearing wall").notes) == 1


def test_a_support_that_runs_past_a_wall_by_more_than_a_foot_does_not_lie_along_it() -> None:
    assert [(b.from_ft, b.to_ft) for b in read((40, 0.3), (50.9, 0.3)).porch_beams] == [(40.0, 50.0)]
    assert read((40, 0.3), (51.1, 0.3)).porch_beams == ()


def test_the_chord_along_a_cell_s_side_is_the_longest_that_shares_some_of_it() -> None:
    """Four chords in the line x = 20, one ending where the cell begins, and one on another line."""
    chords = (
        chord(1, 20, 0, 5, 0),
        chord(1, 20, 6, 8, 1),
        chord(1, 20, 9, 14, 2),
        chord(1, 20, 15, 29, 3),
        chord(1, 21, 0, 29, 4),
    )
    at = ground(TEE, *chords)
    found = at.chord_at(cell((0, 5), (20, 14.5)), FrameSide.X_HIGH)
    assert found is chords[2]
    assert at.chord_at(cell((20, 5), (30, 29)), FrameSide.X_LOW) is chords[3]
    assert at.chord_at(cell((20, 14), (30, 15)), FrameSide.X_LOW) is None
    assert at.chord_at(cell((0, 0), (19.5, 29)), FrameSide.X_HIGH) is None


def test_a_girder_beside_a_member_stands_within_3_in_of_some_of_it_whichever_way_the_member_runs() -> None:
    at = ground(TEE, chord(1, 20, 0, 12, 0), chord(0, 5, 20, 41, 1), chord(0, 9, 20, 41, 2, girder=False))
    for start, end in (((20.2, 2.0), (20.2, 20.0)), ((20.2, 20.0), (20.2, 2.0)), ((19.8, 8.0), (19.8, 30.0))):
        assert at.girder_beside(start, end) == girder_key(0)
    assert at.girder_beside((20.3, 2.0), (20.3, 20.0)) is None
    assert at.girder_beside((20.0, 12.0), (20.0, 25.0)) is None
    assert at.girder_beside((40.0, 5.1), (22.0, 5.1)) == girder_key(1)
    assert at.girder_beside((22.0, 9.0), (40.0, 9.0)) is None


def test_a_truss_line_within_3_in_of_a_girder_or_a_longer_line_along_all_of_it_is_that_one() -> None:
    plain = [
        chord(1, 20 + d, *ends, k, girder=g)
        for k, (d, ends, g) in enumerate([(0, (0, 12), False), (0.2, (0, 20), False)])
    ]
    at = ground(TEE, *plain)
    assert [at.chord_key(c) for c in plain] == [Key(KeyKind.SEAM, (1,))] * 2
    girder = chord(1, 19.9, 0, 13, 2)
    assert ground(TEE, *plain, girder).chord_key(plain[0]) == girder_key(2)
    assert ground(TEE, *plain, girder).chord_key(plain[1]) == Key(KeyKind.SEAM, (1,))
    far = [plain[0], chord(1, 20.3, 0, 20, 1, girder=False)]
    assert ground(TEE, *far).chord_key(far[0]) == Key(KeyKind.SEAM, (0,))


def test_corners_of_the_framed_outline_turn_outward_but_for_the_two_beside_a_tail() -> None:
    at = ground(TEE)
    assert [at.is_outside_corner((float(x), float(y))) for x, y in TEE] == [
        True,
        False,
        True,
        True,
        False,
        True,
        True,
        True,
    ]
    assert not at.is_outside_corner((20.0, 12.0))
    assert not at.is_outside_corner((-20.0, -12.0))
    assert [at.corner_at((float(x), float(y))) for x, y in TEE] == list(range(8))


def test_the_walls_at_a_cell_s_side_are_those_in_its_line_that_share_some_of_it() -> None:
    at = ground(TEE)
    south = cell((0, 0), (64, 30))
    assert [w.index for w in at.walls_at(south, FrameSide.Y_LOW)] == [0, 4]
    assert [w.index for w in at.walls_at(cell((20, 0), (41, 30)), FrameSide.Y_LOW)] == []
    assert at.wall_parts(south, FrameSide.Y_LOW, 15.0, 50.0) == [(15.0, 20.0), (41.0, 50.0)]
    assert at.wall_parts(south, FrameSide.Y_LOW, 25.0, 35.0) == []
    assert at.wall_parts(south, FrameSide.Y_HIGH, 5.0, 7.0) == [(5.0, 7.0)]


@pytest.mark.parametrize(("origin_ft", "low"), [((0, 0), True), ((64, 30), False), ((33, 0), False), ((31, 0), True)])
def test_the_layout_of_a_cell_starts_at_its_end_nearer_the_house_s_start(origin_ft: Point, low: bool) -> None:
    at = ground(TEE, origin_ft=origin_ft)
    assert at.starts_low(cell((0, 0), (64, 30)), 0, 0.0, 64.0) is low


def test_a_truss_lands_on_a_girder_between_its_bearings_else_on_the_wall_in_line() -> None:
    """The tail's mouth, y = 0 from x = 20 to 41, and the walls beside it; bearings 4 in. in."""
    at = ground(TEE, chord(0, 0.0, 20.0, 41.0))
    main = cell((0, 0), (64, 30))
    on_girder = at.land(main, FrameSide.Y_LOW, 30.0)
    assert (on_girder.member, on_girder.wall, on_girder.point_ft) == (girder_key(0), None, (30.0, 0.0))
    on_wall = at.land(main, FrameSide.Y_LOW, 10.0)
    assert (on_wall.member, on_wall.wall) == (None, 0)
    assert on_wall.point_ft == pytest.approx((10.0, HALF_WALL_FT))
    assert at.land(main, FrameSide.Y_LOW, 50.0).wall == 4
    assert at.land(main, FrameSide.X_HIGH, 12.0).point_ft == pytest.approx((64 - HALF_WALL_FT, 12.0))
