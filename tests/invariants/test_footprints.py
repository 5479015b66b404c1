"""Real buildings: every one is framed, with the invariants of the design: on every eighth of 144, on all under the mark
'full'.
"""

from __future__ import annotations

import math

import pytest

from framing.errors import PlanError
from framing.layout.assembly import build_framing
from framing.layout.doubtful_members import too_short
from framing.plan import Point
from framing.plan_file.outline_rules import check_outline
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.footprints import SHORTEST_WALL_FT, footprints_ft, raw_footprints_ft
from invariants.houses import plan_of
from invariants.test_outlines import House, assert_carried, assert_covered_once_and_in_balance, assert_on_masonry

N_BUILDINGS = 144


def assert_framed(ring: tuple[Point, ...]) -> None:
    """A building is framed, its roof carried, covered once and in balance, and no truss of it under 1 ft."""
    plan = plan_of(list(ring))
    check_outline(plan.outline_ft, plan.straighten_ft)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    house = House(plan=plan, outline=outline, roof=roof, framing=framing, took_s=0.0)
    assert_carried(framing)
    assert_on_masonry(house)
    assert_covered_once_and_in_balance(house)
    assert not too_short(list(framing.members))


def assert_all_framed(numbers: range) -> None:
    for number in numbers:
        try:
            assert_framed(footprints_ft()[number])
        except Exception as fault:
            raise AssertionError(f"building {number}") from fault


@pytest.mark.parametrize("number", [66, 97])
def test_two_walls_in_line_but_for_2_in_leave_no_truss_between_them(number: int) -> None:
    """Two buildings whose inside corners, far apart, leave a strip of 2 in. between two girders."""
    assert_framed(footprints_ft()[number])


def test_a_yard_whose_eaves_leave_a_hole_behind_its_mouth_is_framed_with_shorter_eaves_there() -> None:
    assert_framed(footprints_ft()[32])


@pytest.mark.parametrize("number", [3, 55, 118])
def test_a_building_with_its_short_walls_is_framed(number: int) -> None:
    """Of 3 an angled wall's legs run into another wall, of 55 an inside corner cuts a girder; 118 has two turrets, and
    a leg of a wall of one, put in line with another's, ran into the wall between.
    """
    assert_framed(raw_footprints_ft()[number])


def test_every_eighth_building_is_framed() -> None:
    assert_all_framed(range(1, N_BUILDINGS, 8))


@pytest.mark.full
def test_every_building_is_framed() -> None:
    """The share of the README."""
    assert_all_framed(range(N_BUILDINGS))


@pytest.mark.full
def test_every_building_with_its_short_walls_is_framed_but_one_with_a_corner_of_28_degrees() -> None:
    """The share of the README."""
    refused = []
    for number, ring in enumerate(raw_footprints_ft()):
        try:
            assert_framed(ring)
        except PlanError as told:
            refused.append((number, str(told)))
    assert [number for number, _ in refused] == [22]
    assert "W22 and W1 meet at 27.6 degrees" in refused[0][1]


def test_the_footprints_are_real_ones_of_a_house_s_size_without_walls_under_2_ft() -> None:
    """144 buildings of 4 to 42 corners, most of them with walls that are not square to one another."""
    rings = footprints_ft()
    assert len(rings) == N_BUILDINGS
    sides = [[math.dist(p, q) for p, q in zip(r, (*r[1:], r[0]), strict=True)] for r in rings]
    assert min(min(s) for s in sides) >= SHORTEST_WALL_FT
    assert (min(len(r) for r in rings), max(len(r) for r in rings)) == (4, 42)
