"""Houses with a wall at 45 degrees by hand: what stands on it, its tails and pieces, the gable and the eaves beside it.

5:12, walls 8 in., eaves 2 ft, rakes 1 ft, trusses at 2 ft.
"""

from __future__ import annotations

import math

import pytest
import shapely
from shapely.geometry import Polygon

from framing.layout.assembly import build_framing
from framing.members import CarrierKind, Framing, MemberKind
from framing.plan import Plan, Point, RoofEdge, RoofType
from framing.roof.lines import LineKind
from framing.roof.surface import Roof, build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of
from invariants.test_outlines import House, assert_carried, assert_covered_once_and_in_balance, assert_on_masonry

HALF_WALL_FT, OVER_FT, RAKE_FT = 4 / 12, 2.0, 1.0
CLIPPED: list[Point] = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
WEST_GABLE = RoofEdge(wall="W5", type=RoofType.GABLE, from_ft=None, to_ft=None)


def clipped(legs_ft: float) -> list[Point]:
    return [(0, 0), (40 - legs_ft, 0), (40, legs_ft), (40, 28), (0, 28)]


def laid_out(plan: Plan) -> tuple[Roof, Framing]:
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    return roof, build_framing(plan, outline, roof)


def test_beside_an_angled_wall_a_gable_end_stands_on_its_own_wall_with_its_tails_and_anchors() -> None:
    """The wall is 28 ft long: anchors a foot from each end."""
    _, framing = laid_out(plan_of(CLIPPED, edges=(WEST_GABLE,)))
    (end,) = [m for m in framing.members if m.kind is MemberKind.GABLE_END]
    assert {(c.kind, c.name) for c in end.carriers} == {(CarrierKind.WALL, "W5")}
    assert [end.tail_start_ft, end.tail_end_ft] == pytest.approx([OVER_FT + HALF_WALL_FT] * 2)
    own = [b for b in framing.bearings if b.member == end.name]
    assert {b.wall for b in own} == {"W5"}
    assert sorted(b.station_ft for b in own)[:: len(own) - 1] == pytest.approx([1.0, 27.0])
    pieces = [Polygon(t.ring_ft) for t in framing.tributaries if framing.members[t.owner] is end]
    assert shapely.union_all(pieces, grid_size=1e-6).bounds == pytest.approx((-RAKE_FT, -OVER_FT, 2.0, 28 + OVER_FT))


@pytest.mark.parametrize(("legs_ft", "long"), [(4.0, False), (8.0, False), (9.0, True)])
def test_angled_walls_over_12_ft_ask_for_trusses_square_to_them(legs_ft: float, long: bool) -> None:
    """A corner clipped at 45 degrees is root two times its legs long: 5.7, 11.3 and 12.7 ft."""
    notes = laid_out(plan_of(clipped(legs_ft)))[1].notes
    assert sum(n.startswith("At an angle to the rest: W2; ") for n in notes) == 1
    assert sum(n.startswith("Over 12 ft at an angle: W2; ") for n in notes) == long


@pytest.mark.parametrize("legs_ft", [4.0, 9.0])
def test_a_jack_cut_by_an_angled_wall_ends_on_its_bearing_line_and_its_tail_at_the_eave(legs_ft: float) -> None:
    """A wall at 45 degrees: half its thickness is root two times as long along a jack."""
    roof, framing = laid_out(plan_of(clipped(legs_ft)))
    on_it = {b.member for b in framing.bearings if b.wall == "W2"}
    jacks = [m for m in framing.members if m.name in on_it and m.kind is MemberKind.SIDE_JACK]
    assert len(jacks) >= 2
    for m in jacks:
        (x, y), (u, v) = m.start_ft, m.end_ft
        assert x - y == pytest.approx(40 - legs_ft - HALF_WALL_FT * math.sqrt(2))
        far = m.tail_start_ft / m.span_ft
        tip = shapely.Point(x + (x - u) * far, y + (y - v) * far)
        assert roof.eave_in_frame.exterior.distance(tip) == pytest.approx(0.0, abs=1e-6)


def test_eaves_that_close_a_recess_beside_an_angled_wall_make_the_roof_of_the_house_without_it() -> None:
    """A recess 3 ft wide between eaves of 2 ft each."""
    recessed: list[Point] = [*CLIPPED[:4], (22, 28), (22, 24), (19, 24), (19, 28), (0, 28)]
    (closed, _), (plain, _) = laid_out(plan_of(recessed)), laid_out(plan_of(CLIPPED))
    assert closed.eave_in_frame.symmetric_difference(plain.eave_in_frame).area == pytest.approx(0.0, abs=1e-6)
    assert sum(f.in_frame.area for f in closed.faces) == pytest.approx(plain.plan_area_ft2)
    assert closed.highest_ft == pytest.approx(plain.highest_ft)


def test_only_a_jack_that_an_angled_wall_cuts_short_is_measured_along_itself() -> None:
    """The others' pieces, cut at 45 degrees, are carried as if square: measured along the wall's normal."""
    _, framing = laid_out(plan_of(CLIPPED))
    on_angled = {b.member for b in framing.bearings if b.wall == "W2"}
    side = [t for t in framing.tributaries if framing.members[t.owner].kind is MemberKind.SIDE_JACK and not t.outward]
    cut = [framing.members[t.owner].name in on_angled for t in side]
    assert 0 < sum(cut) < len(cut)
    assert [t.measure is None for t in side] == cut


def test_the_lines_of_a_roof_over_an_angled_wall_lie_as_high_as_the_run_in_from_their_walls_says() -> None:
    """Eaves 2 ft of run under the roof plane over the walls, the ridge 14 ft over it, half of 28 ft in."""
    roof, _ = laid_out(plan_of(CLIPPED))
    by_kind = {
        kind: [z for r in roof.lines if r.kind is kind for z in (r.start_ft[2], r.end_ft[2])] for kind in LineKind
    }
    assert by_kind[LineKind.EAVE] == pytest.approx([0.5 - 2 * 5 / 12] * 10)
    assert by_kind[LineKind.RIDGE] == pytest.approx([0.5 + 14 * 5 / 12] * 2)
    assert min(by_kind[LineKind.HIP]) == pytest.approx(0.5 - 2 * 5 / 12)
    assert max(by_kind[LineKind.HIP]) == pytest.approx(0.5 + 14 * 5 / 12)
    sloped = [r for r in roof.lines if r.kind is LineKind.HIP]
    for r in sloped:
        assert r.length_ft > abs(r.end_ft[2] - r.start_ft[2])


@pytest.mark.parametrize("legs_ft", [4.0, 9.0])
def test_eaves_of_angled_walls_are_told_apart_and_their_hips_bound_their_faces(legs_ft: float) -> None:
    """The one angled wall's eave runs at 45 degrees, 2 ft out; two hips or ridges bound its face."""
    roof, _ = laid_out(plan_of(clipped(legs_ft)))
    ((a, b),) = roof.angled_eaves
    assert abs(b[0] - a[0]) == pytest.approx(abs(b[1] - a[1]))
    off = abs(a[0] - a[1] - (40 - legs_ft)) / math.sqrt(2)
    assert off == pytest.approx(OVER_FT)
    assert math.dist(a, b) == pytest.approx(legs_ft * math.sqrt(2) + 2 * OVER_FT * math.tan(math.radians(22.5)))
    for pair in roof.angled_hips:
        assert math.dist(*pair) > 0.1
        face = [f for f in roof.faces if max(abs(f.plane[0]), abs(f.plane[1])) < 0.99]
        assert all(min(f.in_frame.distance(shapely.Point(p)) for f in face) < 1e-3 for p in pair)


def test_a_girder_that_an_inside_corner_cuts_is_built_on_both_sides_of_it_and_carries_what_stands_there() -> None:
    """The line of W1 and W8, over the mouths of W3 and of the bay, meets the walls again where W3 and W4 do."""
    ring: list[Point] = [(0, 0), (6, 0), (6, -2), (20, 0), (23, -3), (29, -3), (32, 0), (53, 0), (53, 28), (0, 28)]
    plan = plan_of(ring)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    level = [m for m in framing.members if m.kind is MemberKind.GIRDER and abs(m.frame_ft[0][1] - HALF_WALL_FT) < 1e-6]
    low, high = sorted((min(m.frame_ft)[0], max(m.frame_ft)[0], i) for i, m in enumerate(framing.members) if m in level)
    assert low[0] == pytest.approx(6.0 + HALF_WALL_FT)
    assert low[1] == pytest.approx(20.0, abs=HALF_WALL_FT)
    assert low[1] <= high[0] < 21.0
    stood = [(p.carrier, m) for m in framing.members for p in m.paths if p.carrier in (low[2], high[2])]
    common = [(on, m.frame_ft[0][0]) for on, m in stood if m.kind is MemberKind.COMMON]
    assert {on for on, _ in common} == {low[2], high[2]}
    assert all((on == low[2]) == (x < 20.0) for on, x in common)
    house = House(plan=plan, outline=outline, roof=roof, framing=framing, took_s=0.0)
    assert_carried(framing)
    assert_on_masonry(house)
    assert_covered_once_and_in_balance(house)
