"""Hip and gable ends of small boxes by hand: 5:12, walls 8 in., eaves 2 ft, rakes 1 ft, setback 7 ft, trusses at 2 ft.

Common practice, no source: hips at 45 degrees, a member's tail from mid-thickness to the eave.
"""

from __future__ import annotations

import itertools
import math

import pytest
import shapely
from shapely.geometry import LineString, Polygon, box

from framing.layout.assembly import build_framing
from framing.members import Crossing, Framing, MemberKind
from framing.plan import Point, RoofType
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of

HALF_WALL_FT, OVER_FT, RAKE_FT = 4 / 12, 2.0, 1.0


def framing_of(long_ft: float, wide_ft: float, **changed: object) -> Framing:
    ring: list[Point] = [(0, 0), (long_ft, 0), (long_ft, wide_ft), (0, wide_ft)]
    plan = plan_of(ring, **changed)
    outline = build_outline(plan)
    return build_framing(plan, outline, build_roof(plan, outline))


def places(framing: Framing, kind: MemberKind, axis: int) -> list[float]:
    return sorted({round(m.frame_ft[0][axis], 6) for m in framing.members if m.kind is kind})


def test_a_tail_reaches_two_feet_past_the_wall_and_a_corner_jack_s_the_eaves_corner_at_45_degrees() -> None:
    framing = framing_of(30, 14)
    for m in framing.members:
        if m.kind is MemberKind.CORNER_JACK:
            assert m.tail_start_ft == pytest.approx(math.sqrt(2) * (OVER_FT + HALF_WALL_FT))
        elif m.kind in (MemberKind.END_JACK, MemberKind.SIDE_JACK):
            assert m.tail_start_ft == pytest.approx(OVER_FT + HALF_WALL_FT)
        assert m.tail_end_ft in (0.0, pytest.approx(OVER_FT + HALF_WALL_FT))


@pytest.mark.parametrize(
    ("long_ft", "girders_ft"),
    [(30.0, [7.0, 23.0]), (20.0, [7.0, 13.0]), (14.3, [7.0, 7.3]), (14.2, [7.1])],
)
def test_hip_girders_stand_at_the_setback_until_no_bay_of_3_in_is_left_between_them(
    long_ft: float, girders_ft: list[float]
) -> None:
    assert places(framing_of(long_ft, 14.0), MemberKind.HIP_GIRDER, 0) == pytest.approx(girders_ft)


@pytest.mark.parametrize(
    ("wide_ft", "jacks_ft"),
    [(14.0, [7.0]), (14.2, [7.1]), (15.0, [7.0, 8.0]), (17.0, [7.0, 9.0, 10.0]), (18.0, [7.0, 9.0, 11.0])],
)
def test_end_jacks_stand_from_one_corner_jack_to_the_other_and_alone_in_the_middle_where_both_meet(
    wide_ft: float, jacks_ft: list[float]
) -> None:
    assert places(framing_of(30.0, wide_ft), MemberKind.END_JACK, 1) == pytest.approx(jacks_ft)


@pytest.mark.parametrize(("long_ft", "wide_ft"), [(14.2, 14.0), (9.25, 9.0 + 1 / 12), (9.0, 9.2)])
def test_in_a_nearly_square_house_the_corner_jacks_meet_and_its_roof_is_taken_once_by_convex_strips(
    long_ft: float, wide_ft: float
) -> None:
    """One hip girder stands midway between the two ends; jacks at 45 degrees meet in pairs at the middle of the width,
    up to half of 3 in. before the girder's centre, where its face is: geometry, and two plies of 1-1/2 in.
    """
    framing = framing_of(long_ft, wide_ft)
    strips = [Polygon(t.ring_ft) for t in framing.tributaries if not t.outward]
    assert all(s.is_valid and s.convex_hull.area == pytest.approx(s.area) for s in strips)
    assert sum(s.area for s in strips) == pytest.approx(long_ft * wide_ft)
    assert shapely.union_all(strips, grid_size=1e-9).area == pytest.approx(long_ft * wide_ft)
    jacks = [m.frame_ft for m in framing.members if m.kind is MemberKind.CORNER_JACK]
    assert len(jacks) == 4
    assert not any(LineString(a).crosses(LineString(b)) for a, b in itertools.combinations(jacks, 2))
    assert all(abs(bx - ax) == pytest.approx(abs(by - ay)) for (ax, ay), (bx, by) in jacks)
    tops, (short, long) = [top for _, top in jacks], sorted((long_ft, wide_ft))
    across = 0 if long_ft < wide_ft else 1
    assert [top[across] for top in tops] == pytest.approx([short / 2.0] * 4)
    assert [abs(top[1 - across] - long / 2.0) for top in tops] == pytest.approx([(long - short) / 2.0] * 4)


def test_only_corner_jacks_cross_a_wall_at_45_degrees_and_no_strap_stands_in_a_corner_block() -> None:
    for b in framing_of(30, 14).bearings:
        assert b.crossing is (Crossing.DIAGONAL if b.kind is MemberKind.CORNER_JACK else Crossing.SQUARE)


@pytest.mark.parametrize("rake_ft", [0.0, RAKE_FT])
def test_the_strips_of_a_gable_end_reach_from_the_rake_s_edge_to_the_truss_inside(rake_ft: float) -> None:
    """The deck or the outlookers over the gable end on the first truss inside, 2 ft from the face of the block."""
    framing = framing_of(20, 14, type=RoofType.GABLE, rake_overhang_ft=rake_ft, gable_truss_ft=0.0)
    ends = {i for i, m in enumerate(framing.members) if m.kind is MemberKind.GABLE_END}
    taken = shapely.union_all([Polygon(t.ring_ft) for t in framing.tributaries if t.owner in ends])
    strips = [box(-rake_ft, -OVER_FT, 2.0, 14 + OVER_FT), box(18.0, -OVER_FT, 20 + rake_ft, 14 + OVER_FT)]
    assert taken.symmetric_difference(shapely.union_all(strips)).area == pytest.approx(0.0, abs=1e-3)
