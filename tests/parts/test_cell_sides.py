"""What a cell has at its sides, and what already hangs on what, in numbers by hand."""

from __future__ import annotations

import pytest

from framing.frame_side import FrameSide
from framing.layout.assembly import build_framing
from framing.layout.cell_ends import covers_side, hip_at, short_hip_at
from framing.layout.chords import cheapest_division
from framing.layout.jogs import absorb_jogs
from framing.layout.landing import Ground
from framing.layout.one_place import hung_on_girders
from framing.layout.records import Cell, Chord, ChordEnd, Draft, Key, KeyKind, Landing, girder_key
from framing.layout.supports import Supports
from framing.members import MemberKind
from framing.plan import Point
from framing.roof.surface import build_roof
from framing.roof.wings import Wing
from framing.walls.outline import build_outline
from invariants.houses import plan_of

HALF_WALL_FT = 4 / 12
WING = Wing(name="wing 1", low_ft=(0, 0), high_ft=(40, 20), ridge_axis=0, gable=(False,) * 4)
TEE: list[Point] = [(0, 0), (20, 0), (20, -12), (41, -12), (41, 0), (64, 0), (64, 30), (0, 30)]


def cell(low_ft: Point, high_ft: Point) -> Cell:
    return Cell(index=0, low_ft=low_ft, high_ft=high_ft, wing=0, ridge_axis=0, jog_ft=2.0)


def chord(axis: int, line_ft: float, low_ft: float, high_ft: float) -> Chord:
    return Chord(
        index=0,
        axis=axis,
        line_ft=line_ft,
        low_ft=low_ft,
        high_ft=high_ft,
        bearing_ft=line_ft,
        low_end=ChordEnd(wall=0, chord=None, at_ft=low_ft + HALF_WALL_FT),
        high_end=ChordEnd(wall=1, chord=None, at_ft=high_ft - HALF_WALL_FT),
        girder=True,
    )


@pytest.mark.parametrize(
    ("low_ft", "high_ft", "hip"),
    [(0.0, 2.9, False), (0.0, 3.1, True), (-1.5, 2.9, False), (-1.5, 3.1, True), (-2.1, 9, False)],
)
def test_a_hip_needs_3_ft_of_its_wing_however_far_the_cell_lies_past_it_over_a_jog(
    low_ft: float, high_ft: float, hip: bool
) -> None:
    assert hip_at(cell((low_ft, 0), (high_ft, 20)), WING, FrameSide.X_LOW) is hip
    mirrored = cell((40 - high_ft, 0), (40 - low_ft, 20))
    assert hip_at(mirrored, WING, FrameSide.X_HIGH) is hip


def test_jacks_run_to_a_chord_only_from_a_hip_end_of_a_cell_of_less_than_two_overhangs() -> None:
    short = cell((0, 0), (3.9, 20))
    assert [short_hip_at(short, WING, side, 2.0) for side in FrameSide] == [True, False, False, False]
    assert not short_hip_at(cell((0, 0), (4.0, 20)), WING, FrameSide.X_LOW, 2.0)
    assert not short_hip_at(cell((0, 0), (0.9, 20)), WING, FrameSide.X_LOW, 2.0)
    assert not short_hip_at(short, WING, FrameSide.X_LOW, 1.5)
    far = cell((36.1, 0), (40, 20))
    assert [short_hip_at(far, WING, side, 2.0) for side in FrameSide] == [False, True, False, False]


@pytest.mark.parametrize(
    ("low_ft", "high_ft", "covers"), [(0, 20, True), (-3, 25, True), (1, 20, False), (0, 19, False)]
)
def test_a_chord_covers_a_cell_s_side_from_end_to_end(low_ft: float, high_ft: float, covers: bool) -> None:
    at = cell((5, 0), (15, 20))
    assert covers_side(chord(1, 15.0, low_ft, high_ft), at, FrameSide.X_HIGH) is covers
    assert covers_side(chord(1, 5.0, low_ft, high_ft), at, FrameSide.X_LOW) is covers
    assert not covers_side(chord(1, 14.0, low_ft, high_ft), at, FrameSide.X_HIGH)


def test_a_corner_s_heel_is_the_bearing_of_the_girder_that_ends_there() -> None:
    """The girder over the tail's mouth bears 4 in. in from x = 20 and x = 41; 20 ft off there is none."""
    outline = build_outline(plan_of(TEE))
    roof, none = build_roof(plan_of(TEE), outline), Supports(inside=(), porch_beams=(), notes=())
    ground = Ground(
        house=outline,
        outline=outline,
        roof=roof,
        framed=absorb_jogs(outline),
        chords=(chord(0, 0.0, 20.0, 41.0),),
        cells=cheapest_division(outline, roof, 2.0, none).cells,
        supports=none,
        origin_ft=(0.0, 0.0),
    )
    main = cell((0, 0), (64, 30))
    for x, heel in ((20.0, 20 + HALF_WALL_FT), (41.0, 41 - HALF_WALL_FT), (30.0, 30.0)):
        found = ground.girder_heel(main, (FrameSide.X_LOW, FrameSide.Y_LOW), (x, 0.3))
        assert found is not None
        assert (found.member, found.point_ft) == (girder_key(0), pytest.approx((heel, 0.0)))
    assert ground.girder_heel(main, (FrameSide.Y_LOW,), (0.0, 0.3)) is None
    assert ground.girder_heel(main, (FrameSide.Y_HIGH,), (20.0, 0.3)) is None


def landing(x: float, y: float, on: Key | None = None) -> Landing:
    return Landing(wall=None if on else 0, member=on, point_ft=(x, y))


def draft(kind: MemberKind, key: Key, start: Landing, end: Landing) -> Draft:
    return Draft(
        key=key, kind=kind, plies=1, start=start, end=end, tail_start_ft=2.0, tail_end_ft=2.0, wing=0, width_ft=2.0
    )


@pytest.mark.parametrize("swap", [False, True])
def test_an_end_in_a_girder_s_wood_hangs_on_it_once_and_one_that_hangs_already_stays(swap: bool) -> None:
    """A girder along x from the west wall to the east; a truss along y whose foot stands in its end on the wall."""
    outline = build_outline(plan_of([(0, 0), (30, 0), (30, 20), (0, 20)]))
    girder = draft(MemberKind.GIRDER, girder_key(0), landing(0.33, 0.33), landing(29.67, 0.33))
    feet = (landing(12, 0.33), landing(12, 19.67))
    truss = draft(MemberKind.COMMON, Key(KeyKind.TRUSS, (0, 1)), *(feet[::-1] if swap else feet))
    hung = hung_on_girders(outline, [girder, truss])[1]
    here, there = (hung.end, hung.start) if swap else (hung.start, hung.end)
    assert (here.member, here.wall, there.member) == (girder.key, None, None)
    assert (hung.tail_end_ft if swap else hung.tail_start_ft) == 0.0
    assert hung_on_girders(outline, [girder, hung])[1] is hung
    other = draft(MemberKind.GIRDER, girder_key(1), landing(12, 0.33), landing(12, 19.67))
    on_other = draft(MemberKind.GIRDER, girder_key(0), landing(12, 0.33, girder_key(1)), landing(29.67, 0.33))
    assert hung_on_girders(outline, [on_other, other]) == [on_other, other]


def test_a_strap_s_distance_to_a_wall_s_end_is_to_the_nearer_one() -> None:
    plan = plan_of([(0, 0), (30, 0), (30, 14), (0, 14)])
    outline = build_outline(plan)
    for b in build_framing(plan, outline, build_roof(plan, outline)).bearings:
        for strap in b.straps:
            to_ends = strap.tape_ft, outline.wall(b.wall).length_ft - strap.tape_ft
            assert strap.end_ft == pytest.approx(min(to_ends))
