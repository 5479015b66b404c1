"""Facts of small houses by hand that no other test asks: gable ends, wood, chords on supports, walls at an angle.

5:12, heel 6 in., walls 8 in., eaves 2 ft, rakes 1 ft, trusses at 2 ft of one ply of 1-1/2 in.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon, box

from framing.errors import PlanError
from framing.frame_side import SIDES, FrameSide
from framing.layout.assembly import build_framing
from framing.layout.jogs import absorb_jogs
from framing.layout.records import Chord, ChordEnd
from framing.layout.seams import _over
from framing.layout.supports import SupportLine, Supports, chords_on_supports, stop_chords
from framing.members import Framing, Member, MemberKind
from framing.plan import Plan, Point, Porch, RoofEdge, RoofType, Support, SupportKind
from framing.roof.surface import Roof, build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of

HALF_WALL_FT, OVER_FT, RAKE_FT, PLY_FT = 4 / 12, 2.0, 1.0, 1.5 / 12
CLIPPED: list[Point] = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
WEST_GABLE = RoofEdge(wall="W5", type=RoofType.GABLE, from_ft=None, to_ft=None)


def rectangle(long_ft: float, wide_ft: float) -> list[Point]:
    return [(0, 0), (long_ft, 0), (long_ft, wide_ft), (0, wide_ft)]


def laid_out(plan: Plan) -> tuple[Roof, Framing]:
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    return roof, build_framing(plan, outline, roof)


def framing_of(ring: list[Point], **changed: object) -> Framing:
    return laid_out(plan_of(ring, **changed))[1]


def of_kind(framing: Framing, kind: MemberKind) -> list[Member]:
    return [m for m in framing.members if m.kind is kind]


def taken_by(framing: Framing, kind: MemberKind) -> Polygon:
    own = {i for i, m in enumerate(framing.members) if m.kind is kind}
    return shapely.union_all([Polygon(t.ring_ft) for t in framing.tributaries if t.owner in own], grid_size=1e-6)


def test_each_anchor_of_a_gable_end_takes_what_lies_nearer_to_it_than_to_the_others() -> None:
    framing = framing_of(rectangle(20, 14), type=RoofType.GABLE)
    parts = [(t.bearing, np.array(t.ring_ft)) for t in framing.tributaries if t.bearing is not None]
    ends = {w: [b.point_ft[1] for b in framing.bearings if b.wall == w] for w in ("W2", "W4")}
    assert all(len(places) == 4 for places in ends.values())
    for bearing, ring in parts:
        b = framing.bearings[bearing]
        own = np.abs(ring[:, 1] - b.point_ft[1])
        assert all((own <= np.abs(ring[:, 1] - at) + 1e-6).all() for at in ends[b.wall])


@pytest.mark.parametrize(("said_ft", "midway_ft"), [(None, (0.75 / 12 + 2) / 2), (2.5 / 12, (3.25 / 12 + 2) / 2)])
def test_a_ladder_s_half_on_the_truss_inside_begins_midway_where_not_said_as_from_a_flush_gable(
    said_ft: float | None, midway_ft: float
) -> None:
    """The gable's middle stands half a ply, 3/4 in., in from its outer face; the first truss at 2 ft."""
    framing = framing_of(rectangle(20, 14), type=RoofType.GABLE, gable_truss_ft=said_ft)
    inner = [p for t in framing.tributaries if t.lever and t.lever.nearer_inside for p in t.ring_ft if p[0] < 10]
    assert min(x for x, _ in inner) == pytest.approx(midway_ft)
    assert max(x for x, _ in inner) == pytest.approx(2.0)
    outer = [p for t in framing.tributaries if t.lever and not t.lever.nearer_inside for p in t.ring_ft if p[0] < 10]
    assert max(x for x, _ in outer) == pytest.approx(midway_ft)


def test_two_gable_ends_with_no_truss_between_them_share_the_roof() -> None:
    roof, framing = laid_out(plan_of(rectangle(6, 5), type=RoofType.GABLE, spacing_ft=8.0))
    assert {m.kind for m in framing.members} == {MemberKind.GABLE_END}
    assert taken_by(framing, MemberKind.GABLE_END).area == pytest.approx(roof.plan_area_ft2)
    for t in framing.tributaries:
        inside = [x for x, _ in t.ring_ft]
        assert max(inside) <= 3.0 + 1e-9 or min(inside) >= 3.0 - 1e-9


def test_the_outlookers_of_a_gable_end_reach_a_hip_girder_that_is_the_one_truss_inside() -> None:
    """7 ft long: the girder stands half of it in from the hip's end, and no truss has room between the two."""
    edge = RoofEdge(wall="W4", type=RoofType.GABLE, from_ft=None, to_ft=None)
    framing = framing_of(rectangle(7, 6.5), edges=(edge,), spacing_ft=4.0)
    spanning = {m.kind: m.frame_ft[0][0] for m in framing.members if m.kind is not MemberKind.END_JACK}
    girder_ft = spanning[MemberKind.HIP_GIRDER]
    west = taken_by(framing, MemberKind.GABLE_END)
    assert west.bounds == pytest.approx((-RAKE_FT, -OVER_FT, girder_ft, 6.5 + OVER_FT))
    assert {t.lever.inside_ft for t in framing.tributaries if t.lever} == {girder_ft}


def test_a_member_s_wood_is_as_thick_as_its_plies_and_runs_from_outside_face_to_outside_face() -> None:
    framing = framing_of(rectangle(30, 14))
    for kind, plies in ((MemberKind.COMMON, 1), (MemberKind.STEP_DOWN, 1), (MemberKind.HIP_GIRDER, 2)):
        for m in of_kind(framing, kind):
            assert m.plies == plies
            assert Polygon(m.ground_ft).area == pytest.approx(14.0 * plies * PLY_FT)
            assert Polygon(m.ground_ft).centroid.x == pytest.approx(m.start_ft[0])


def test_the_top_chord_of_a_gable_end_runs_at_its_strap_as_high_as_the_pitch_says() -> None:
    """At d ft in from the outside face the roof is 6 in. and 5 in. a foot high; the chord is 3-1/2 in. deep square to
    the slope, 13/12 of that upright. Under 3-1/2 in. clear there is no room between the chords.
    """
    framing = framing_of(rectangle(20, 14), type=RoofType.GABLE)
    found = {round(b.point_ft[1], 6): b.top_chord_in for b in framing.bearings if b.kind is MemberKind.GABLE_END}
    for at, top_in in found.items():
        d = min(at, 14 - at)
        assert top_in == pytest.approx(6 + 5 * d - 3.5 * 13 / 12)
    low = framing_of(rectangle(20, 14), type=RoofType.GABLE, heel_ft=2.2 / 12)
    tops = {
        b.top_chord_in
        for b in low.bearings
        if b.kind is MemberKind.GABLE_END and min(b.point_ft[1], 14 - b.point_ft[1]) < 1.1
    }
    assert tops == {None}


def test_no_truss_stands_within_3_in_of_the_line_where_another_cell_begins() -> None:
    """The tail's mouth is y = 0, the truss over it stands half a wall farther in: one at y = -0.1 is left out."""
    tee: list[Point] = [(0, 0), (20, 0), (20, -12.1), (41, -12.1), (41, 0), (64, 0), (64, 30), (0, 30)]
    framing = framing_of(tee, type=RoofType.GABLE, start="W3")
    in_the_tail = sorted(
        {
            round(m.frame_ft[0][1], 6)
            for m in of_kind(framing, MemberKind.COMMON)
            if m.frame_ft[0][1] == m.frame_ft[1][1]
        }
    )
    assert [y for y in in_the_tail if y < 0] == pytest.approx([-12.1 + 2 * k for k in range(1, 6)])


def test_the_lowest_of_two_slopes_is_highest_where_they_fold() -> None:
    """Slopes x and 10 - x over a level plane, from x = 0 to 10: 5 at the fold; along x = 3 they never cross."""
    slopes = np.array([(1.0, 0.0, 0.0), (-1.0, 0.0, 10.0)])
    level = np.array((0.0, 0.0, 0.0))
    assert _over(np.array([(0.0, 4.0), (10.0, 4.0)]), slopes, level) == pytest.approx(5.0)
    assert _over(np.array([(0.0, 4.0), (4.0, 4.0)]), slopes, level) == pytest.approx(4.0)
    assert _over(np.array([(3.0, 0.0), (3.0, 9.0)]), slopes, level) == pytest.approx(3.0)
    assert _over(np.array([(0.0, 0.0), (10.0, 0.0)]), slopes, np.array((0.0, 0.0, 7.0))) == pytest.approx(-2.0)


def chord(axis: int, line_ft: float, low: ChordEnd, high: ChordEnd, index: int = 0) -> Chord:
    ends = {"low_ft": low.at_ft - HALF_WALL_FT, "high_ft": high.at_ft + HALF_WALL_FT}
    return Chord(index=index, axis=axis, line_ft=line_ft, **ends, bearing_ft=line_ft, low_end=low, high_end=high)


def at_wall(at_ft: float) -> ChordEnd:
    return ChordEnd(wall=0, chord=None, at_ft=at_ft)


def supports(*lines: tuple[Point, Point]) -> Supports:
    inside = tuple(SupportLine(index=k, start_ft=a, end_ft=b, holds_down=True) for k, (a, b) in enumerate(lines))
    return Supports(inside=inside, porch_beams=(), notes=())


@pytest.mark.parametrize("axis", [0, 1])
def test_a_girder_runs_on_over_what_crosses_it_and_ends_where_a_support_along_it_begins(axis: int) -> None:
    def turned(*points: Point) -> tuple[Point, ...]:
        return points if axis == 0 else tuple((y, x) for x, y in points)

    def put_on(*lines: tuple[Point, Point]) -> Chord:
        girder = chord(axis, 10.0, at_wall(0.0), at_wall(40.0))
        return chords_on_supports((girder,), supports(*(turned(*ends) for ends in lines)))[0]  # type: ignore[misc]

    assert put_on(((15.0, 5.0), (15.0, 15.0))).over == ((15.0, 0),)
    assert put_on(((15.0, 11.0), (15.0, 15.0))).over == ()
    along = put_on(((25.0, 10.2), (40.0, 10.2)))
    assert (along.covered, along.high_end.support, along.high_end.at_ft) == (None, 0, 25.0)
    assert put_on(((1.5, 10.2), (38.5, 10.2))).covered == 0
    assert put_on(((12.0, 10.0), (15.0, 10.0))).over == ((13.5, 0),)


def test_a_chord_that_ends_where_an_earlier_one_lies_on_a_support_stands_on_the_support() -> None:
    below = chord(0, 10.0, at_wall(0.0), at_wall(40.0))
    found = []
    for x in (12.0, 30.0):
        on_it = chord(1, x, ChordEnd(wall=None, chord=0, at_ft=10.0), at_wall(28.0), 1)
        found.append(chords_on_supports((below, on_it), supports(((25.0, 10.2), (40.0, 10.2))))[1].low_end)
    assert [(e.chord, e.support) for e in found] == [(0, None), (None, 0)]


def test_chords_end_on_a_support_that_is_tied_down_from_wall_to_wall_and_on_no_other() -> None:
    framed = absorb_jogs(build_outline(plan_of(rectangle(50, 28))))
    (found,) = stop_chords(framed, supports(((0.4, 14.0), (49.6, 14.0)), ((0.4, 20.0), (40.0, 20.0))))
    assert (found.axis, found.line_ft, found.low_ft, found.high_ft, found.covered) == (0, 14.0, 0.0, 50.0, 0)
    assert (found.low_end.at_ft, found.high_end.at_ft) == pytest.approx((HALF_WALL_FT, 50 - HALF_WALL_FT))
    (upright,) = stop_chords(framed, supports(((32.0, 0.4), (32.0, 27.6))))
    assert (upright.axis, upright.line_ft, upright.low_ft, upright.high_ft) == (1, 32.0, 0.0, 28.0)
    assert stop_chords(framed, supports(((0.4, 26.5), (49.6, 26.5)))) == ()


@pytest.mark.parametrize(("off_in", "on_face"), [(0.9, True), (1.5, False)])
def test_a_porch_s_corner_lies_on_the_outside_face_within_an_inch_of_it(off_in: float, on_face: bool) -> None:
    beam = Support(kind=SupportKind.BEAM, start_ft=(10, 28), end_ft=(30, 28), holds_down=False)
    y = 28 - off_in / 12
    floor = Porch(corners_ft=((10, 20), (30, 20), (30, y), (10, 28)))
    (porch,) = framing_of(rectangle(46, 28), supports=(beam,), porches=(floor,)).porches
    assert porch.ring_ft[2] == (pytest.approx(30.0), pytest.approx(28.0 if on_face else y, abs=1e-4))


def test_every_face_of_a_roof_has_an_area_and_rises_from_the_eave_toward_the_house() -> None:
    for ring in (
        CLIPPED,
        rectangle(30, 14),
        [(0, 0), (20, 0), (20, -9), (41, -9), (41, 0), (64, 0), (64, 30), (0, 30)],
    ):
        roof, _ = laid_out(plan_of(ring))
        for face in roof.faces:
            assert face.in_frame.area > 0.01
            low = min(face.ring_ft, key=lambda p: p[2])
            inner = max(face.ring_ft, key=lambda p: p[2])
            down = (low[0] - inner[0]) * face.downhill[0] + (low[1] - inner[1]) * face.downhill[1]
            assert (inner[2] - low[2]) == pytest.approx(down * 5 / 12)


def test_the_pieces_of_a_house_reach_from_eave_to_eave_and_lie_over_one_another_nowhere() -> None:
    """But for those past the end of a wall, which take only what no other takes."""
    for ring, kind in ((rectangle(30, 14), RoofType.HIP), (rectangle(30, 14), RoofType.GABLE)):
        roof, framing = laid_out(plan_of(ring, type=kind))
        own = [Polygon(t.ring_ft) for t in framing.tributaries if not t.beyond]
        inside = [p.intersection(box(0, 0, 30, 14)) for p in own]
        assert sum(p.area for p in inside) == pytest.approx(30 * 14)
        assert shapely.union_all(inside, grid_size=1e-6).area == pytest.approx(30 * 14)
        every = shapely.union_all([Polygon(t.ring_ft) for t in framing.tributaries], grid_size=1e-6)
        assert roof.eave_in_frame.difference(every).area == pytest.approx(0.0, abs=1e-6)
        assert all(t.outward == () or set(t.outward) <= set(SIDES) for t in framing.tributaries)


@pytest.mark.parametrize("tail_ft", [8.3, 24.0])
def test_a_truss_s_pieces_inside_the_walls_reach_no_farther_than_to_its_neighbours(tail_ft: float) -> None:
    """Trusses stand 2 ft apart, beside a seam's girder or wall up to 2 ft 4 in. A support under half the girder over
    the tail's mouth leaves part of the half bay there to the next truss.
    """
    tee: list[Point] = [(0, 0), (20, 0), (20, -tail_ft), (44, -tail_ft), (44, 0), (70, 0), (70, 31), (0, 31)]
    wall = Support(kind=SupportKind.BEARING_WALL, start_ft=(20.5, 0.3), end_ft=(33, 0.3), holds_down=True)
    for k in range(4):  # typed from each of four corners on, so that the frame lies every way
        framing = framing_of([*tee[k:], *tee[:k]], supports=(wall,))
        for t in framing.tributaries:
            m = framing.members[t.owner]
            if t.outward or m.kind not in (MemberKind.COMMON, MemberKind.STEP_DOWN):
                continue
            along = 0 if abs(m.frame_ft[0][0] - m.frame_ft[1][0]) > 1e-6 else 1
            off = max(abs(p[1 - along] - m.frame_ft[0][1 - along]) for p in t.ring_ft)
            assert off <= 2 + HALF_WALL_FT + 1e-6, (m.name, off)


@pytest.mark.parametrize(("from_ft", "to_ft"), [(28.5, 33.0), (6.0, 10.5)])
def test_a_porch_is_open_where_a_foot_or_more_of_a_beam_stands_along_it(from_ft: float, to_ft: float) -> None:
    beam = Support(kind=SupportKind.BEAM, start_ft=(from_ft, 28), end_ft=(to_ft, 28), holds_down=False)
    floor = Porch(corners_ft=((9, 20), (30, 20), (30, 28), (9, 28)))
    (porch,) = framing_of(rectangle(46, 28), supports=(beam,), porches=(floor,)).porches
    assert (porch.open_walls, porch.open_sides) == ((2,), (FrameSide.Y_HIGH,))
    short = Support(kind=SupportKind.BEAM, start_ft=(29.3, 28), end_ft=(33, 28), holds_down=False)
    with pytest.raises(PlanError, match="porch 1: no side of it lies along a porch beam"):
        framing_of(rectangle(46, 28), supports=(short,), porches=(floor,))
