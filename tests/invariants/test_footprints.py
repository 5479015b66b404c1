"""Real buildings: every one is framed, with the invariants of the design, or refused by a sentence that is true of it.

On every eighth of 144; on all under the mark 'full', with the share that the README tells.
"""

from __future__ import annotations

import itertools
import math
import re
from collections import Counter

import pytest
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Spot

from framing.errors import LayoutError, PlanError
from framing.layout.assembly import build_framing
from framing.layout.doubtful_members import too_short
from framing.plan import Plan
from framing.plan_file.outline_rules import check_outline
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.footprints import SHORTEST_WALL_FT, footprints_ft
from invariants.houses import plan_of
from invariants.test_outlines import House, assert_carried, assert_covered_once_and_in_balance, assert_on_masonry

N_BUILDINGS = 144
FRAMED, CUT_AWAY, EAVES_MEET = "framed", "a carrier cut away", "eaves that meet"
NEAR_FT = 10.0  # as long as a corner jack over a setback of 7 ft


def outcome(number: int) -> str:
    """That a building is framed, or by what class of sentence it is refused, once the one or the other was checked."""
    corners = footprints_ft()[number]
    plan = plan_of(list(corners))
    try:
        check_outline(corners, 1 / 24)
        outline = build_outline(plan)
        roof = build_roof(plan, outline)
        framing = build_framing(plan, outline, roof)
    except (PlanError, LayoutError) as refused:
        return true_class(str(refused), plan)
    house = House(plan=plan, outline=outline, roof=roof, framing=framing, took_s=0.0)
    assert_carried(framing)
    assert_on_masonry(house)
    assert_covered_once_and_in_balance(house)
    assert not too_short(list(framing.members))
    return FRAMED


def outcomes(numbers: range) -> Counter[str]:
    found: Counter[str] = Counter()
    for number in numbers:
        try:
            found[outcome(number)] += 1
        except Exception as fault:
            raise AssertionError(f"building {number}") from fault
    return found


def true_class(sentence: str, plan: Plan) -> str:
    """The class of a refusal; what it says of the outline holds by the corners alone: an angled wall near the place, or
    an angled wall somewhere and an eave line that leaves a hole or closes a recess.
    """
    ring = [*plan.outline_ft, plan.outline_ft[0]]
    sides = [LineString(pair) for pair in itertools.pairwise(ring)]
    most = max(sides, key=lambda s: sum(other.length for other in sides if square(s, other)))
    angled = [s for s in sides if not square(s, most)]
    if found := re.match(r"walls outline: near \((\S+), (\S+)\) ft an angled wall cuts away what would", sentence):
        assert min(s.distance(Spot(float(found[1]), float(found[2]))) for s in angled) < NEAR_FT
        return CUT_AWAY
    assert re.match(r"roof overhang: over the recess by W\d+(, W\d+)* and W\d+ the eaves meet or", sentence)
    house, over = Polygon(ring), plan.roof.overhang_ft
    eaves = house.buffer(over, join_style="mitre", mitre_limit=100.0)
    closed_ft2 = eaves.buffer(-over, join_style="mitre", mitre_limit=100.0).difference(house).area
    assert angled
    assert eaves.interiors or closed_ft2 > 0.1
    return EAVES_MEET


def square(side: LineString, other: LineString) -> bool:
    """Whether two walls stand square or parallel to one another, within 0.05 degrees."""
    return abs(math.remainder(heading_deg(side) - heading_deg(other), 90.0)) <= 0.05


def heading_deg(side: LineString) -> float:
    (ax, ay), (bx, by) = side.coords
    return math.degrees(math.atan2(by - ay, bx - ax))


@pytest.mark.parametrize("number", [66, 97])
def test_two_walls_in_line_but_for_2_in_leave_no_truss_between_them(number: int) -> None:
    """Two buildings whose inside corners, far apart, leave a strip of 2 in. between two girders."""
    assert outcome(number) == FRAMED


def test_every_eighth_building_is_framed() -> None:
    assert set(outcomes(range(1, N_BUILDINGS, 8))) == {FRAMED}


@pytest.mark.full
def test_all_but_one_building_are_framed_and_that_is_refused_by_a_true_sentence() -> None:
    """The share of the README."""
    assert outcomes(range(N_BUILDINGS)) == {FRAMED: 143, EAVES_MEET: 1}


def test_the_footprints_are_real_ones_of_a_house_s_size_without_walls_under_2_ft() -> None:
    """144 buildings of 4 to 42 corners, most of them with walls that are not square to one another."""
    rings = footprints_ft()
    assert len(rings) == N_BUILDINGS
    sides = [[math.dist(p, q) for p, q in zip(r, (*r[1:], r[0]), strict=True)] for r in rings]
    assert min(min(s) for s in sides) >= SHORTEST_WALL_FT
    assert (min(len(r) for r in rings), max(len(r) for r in rings)) == (4, 42)
