"""How members stand on one wall, in numbers by hand: stations, straps against both faces, corners, askew and along."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from framing.layout.assembly import build_framing
from framing.layout.strap_places import (
    NextWall,
    Stand,
    StandingLine,
    along_stand,
    crossing_stand,
    support_line,
    wall_lines_of,
)
from framing.layout.wood_places import in_other_wood
from framing.members import CarrierKind, Crossing, MemberKind
from framing.plan import Point, Side
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of
from invariants.outlines import random_house

HALF_WALL_FT, PLY_FT, CORNER_FT = 4 / 12, 1.5 / 12, 0.25
CENTRES: Point = (2 + HALF_WALL_FT, 5 + HALF_WALL_FT)
BEFORE = NextWall(name="W4", origin_ft=(2.0, 25.0), direction=(0.0, -1.0), centres_ft=CENTRES, outward=True)
INSIDE = NextWall(name="W2", origin_ft=(32.0, 5.0), direction=(0.0, -1.0), centres_ft=(32.33, 5.33), outward=False)
WALL = StandingLine(
    kind=CarrierKind.WALL,
    name="W1",
    index=0,
    origin_ft=(2.0, 5.0),
    direction=(1.0, 0.0),
    length_ft=30.0,
    beside=(BEFORE, INSIDE),
)


def stand(here: Point, turned_deg: float, side: Side = Side.START, plies: int = 1) -> Stand:
    """A member that comes from inside the house, turned from square toward the far end of the tape."""
    a = math.radians(turned_deg)
    inner = (here[0] + 10 * math.sin(a), here[1] + 10 * math.cos(a))
    return crossing_stand(WALL, here, inner, plies * PLY_FT, side, CORNER_FT)


def test_stations_run_from_the_left_end_and_inward_is_into_the_house() -> None:
    assert WALL.inward == (0.0, 1.0)
    assert WALL.station_ft((9.0, 11.0)) == 7.0
    assert [WALL.on_it_ft(at) for at in (-0.5, 0.0, 12.0, 30.5)] == [0.0, 0.0, 12.0, 30.0]
    up = support_line("S1", 0, (4.0, 20.0), (4.0, 8.0))
    assert (up.direction, up.inward, up.length_ft, up.station_ft((9.0, 14.0))) == ((0.0, -1.0), (1.0, 0.0), 12.0, 6.0)


def test_a_square_member_has_its_straps_half_its_thickness_to_both_sides() -> None:
    for side, plies in ((Side.START, 1), (Side.FAR, 1), (Side.START, 2)):
        found = stand((12.0, 5 + HALF_WALL_FT), 0.0, side, plies)
        off = plies * PLY_FT / 2
        assert (found.crossing, found.skew_deg, found.station_ft) == (Crossing.SQUARE, 0.0, 10.0)
        first = -1 if side is Side.START else 1
        assert [p.tape_ft for p in found.straps] == pytest.approx([10 + first * off, 10 - first * off])
        assert [p.in_from_face_ft for p in found.straps] == pytest.approx([HALF_WALL_FT] * 2)
        other = found.on_other_face
        assert (other.straps, other.crossing) == (found.straps[::-1], Crossing.SQUARE)


def test_askew_the_straps_lie_farther_apart_along_the_wall() -> None:
    """At 60 degrees off square half a ply is twice as long along the wall."""
    found = stand((12.0, 5 + HALF_WALL_FT), 60.0)
    assert (found.crossing, found.skew_deg) == (Crossing.ASKEW, pytest.approx(60.0))
    assert [p.tape_ft for p in found.straps] == pytest.approx([10 - PLY_FT, 10 + PLY_FT])
    assert stand((12.0, 5 + HALF_WALL_FT), 0.9).crossing is Crossing.SQUARE
    assert stand((12.0, 5 + HALF_WALL_FT), 1.1).crossing is Crossing.ASKEW
    assert stand((12.0, 5 + HALF_WALL_FT), 84.0).crossing is Crossing.ASKEW
    assert stand((12.0, 5 + HALF_WALL_FT), 84.5).crossing is Crossing.ALONG


@pytest.mark.parametrize(
    ("turned_deg", "diagonal"), [(14.5, False), (15.5, True), (45, True), (74.5, True), (75.5, False)]
)
def test_what_crosses_an_outside_corner_s_centres_between_15_and_75_degrees_stands_at_the_corner(
    turned_deg: float, diagonal: bool
) -> None:
    found = stand(CENTRES, turned_deg)
    assert found.crossing is (Crossing.DIAGONAL if diagonal else Crossing.ASKEW)
    assert found.station_ft == pytest.approx(0.0 if diagonal else HALF_WALL_FT)
    assert stand((CENTRES[0] + 0.01, CENTRES[1]), turned_deg).crossing is Crossing.ASKEW


def test_a_corner_jack_s_strap_stands_inboard_of_the_centres_along_it() -> None:
    """3 in. along 45 degrees, and half a ply square to it toward either end of the tape."""
    run, half = CORNER_FT / math.sqrt(2), PLY_FT / 2 / math.sqrt(2)
    first, second = stand(CENTRES, 45.0).straps
    assert first.point_ft == pytest.approx((CENTRES[0] + run - half, CENTRES[1] + run + half))
    assert second.point_ft == pytest.approx((CENTRES[0] + run + half, CENTRES[1] + run - half))


def test_past_an_inside_corner_a_strap_stands_in_the_corner_block_and_says_both_distances() -> None:
    """A member whose near face lies past the wall's end, 30 ft along: the other strap is on the wall."""
    found = stand((31.99, 5 + HALF_WALL_FT), 0.0, Side.FAR)
    assert (found.crossing, found.member_crossing, found.next_wall) == (Crossing.CORNER_BLOCK, Crossing.SQUARE, "W2")
    past, on_wall = found.straps
    assert past.tape_ft == 30.0
    assert past.in_from_next_ft == pytest.approx(PLY_FT / 2 - 0.01)
    assert (on_wall.tape_ft, on_wall.in_from_next_ft) == (pytest.approx(29.99 - PLY_FT / 2), None)
    assert found.on_other_face.crossing is Crossing.SQUARE
    back = stand((31.99, 5 + HALF_WALL_FT), 0.0, Side.START)
    assert (back.crossing, back.on_other_face.crossing) == (Crossing.SQUARE, Crossing.CORNER_BLOCK)


def test_along_its_wall_a_truss_has_a_strap_on_either_face() -> None:
    found = along_stand(WALL, (12.0, 5.2), 0.2, PLY_FT)
    assert (found.crossing, found.station_ft) == (Crossing.ALONG, 10.0)
    assert [p.side for p in found.straps] == [Side.INSIDE, Side.OUTSIDE]
    assert [p.in_from_face_ft for p in found.straps] == pytest.approx([0.2 + PLY_FT, 0.2])
    assert [p.tape_ft for p in found.straps] == [10.0, 10.0]


def test_a_house_s_walls_know_the_walls_they_meet_the_centres_there_and_which_way_the_house_turns() -> None:
    ring: list[Point] = [(0, 0), (30, 0), (30, 12), (18, 12), (18, 28), (0, 28)]
    lines = wall_lines_of(build_outline(plan_of(ring)))
    assert [line.length_ft for line in lines] == [30, 12, 12, 16, 18, 28]
    assert [[n.name for n in line.beside] for line in lines] == [
        [f"W{(k - 1) % 6 + 1}", f"W{(k + 1) % 6 + 1}"] for k in range(6)
    ]
    assert [line.beside[1].outward for line in lines] == [True, True, False, True, True, True]
    corners = [(30 - 1 / 3, 1 / 3), (30 - 1 / 3, 12 - 1 / 3), (18 - 1 / 3, 12 - 1 / 3), (18 - 1 / 3, 28 - 1 / 3)]
    for line, corner in zip(lines, corners, strict=False):
        assert line.beside[1].centres_ft == pytest.approx(corner)
        after = lines[(line.index + 1) % 6]
        assert after.beside[0].centres_ft == pytest.approx(corner)


def test_a_strap_is_in_another_member_s_wood_only_more_than_a_hair_inside_it() -> None:
    """1/32 in. is no overlap, and a member's own wood never counts."""
    one = ((0.0, 0.0), (0.125, 0.0), (0.125, 8.0), (0.0, 8.0))
    other = ((0.125, 0.0), (0.25, 0.0), (0.25, 8.0), (0.125, 8.0))
    hair = 1 / 32 / 12
    at = [
        (0, (0.125, 4.0)),
        (0, (0.125 + hair / 2, 4.0)),
        (0, (0.125 + 2 * hair, 4.0)),
        (1, (0.19, 4.0)),
        (1, (0.06, 4.0)),
    ]
    assert in_other_wood([one, other], at) == [False, False, True, False, True]


@pytest.mark.parametrize("seed", [40, 53])
def test_of_two_marks_at_one_station_the_girder_s_comes_first(seed: int) -> None:
    plan = random_house(seed)
    outline = build_outline(plan)
    bearings = build_framing(plan, outline, build_roof(plan, outline)).bearings
    shared = [
        (a, b)
        for a, b in pairwise(bearings)
        if a.wall == b.wall and abs(a.station_ft - b.station_ft) < 1e-6 and MemberKind.GIRDER in (a.kind, b.kind)
    ]
    assert shared
    assert all(a.kind is MemberKind.GIRDER for a, _ in shared)
