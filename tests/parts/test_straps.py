"""Where straps stand, worked by hand: corners, corner blocks, gable ends, pairs, and how near they come to others."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.anchors.schedule import Mark
from framing.anchors.strap_room import StrapRoom, strap_room
from framing.members import CarrierKind, Crossing, MemberKind
from framing.plan import Plan, RoofType, Side
from framing.run import Run, make_run
from invariants.houses import plan_of

BOX = [(0, 0), (40, 0), (40, 28), (0, 28)]
ELL = [(0, 0), (36, 0), (36, -20), (60, -20), (60, 30), (0, 30)]
GABLED = plan_of(BOX, type=RoofType.GABLE)


def run_of(plan: Plan, **changed: float) -> Run:
    """The run of a plan with the shipped anchors, each given a spacing, an embedment or a length."""
    catalogue = shipped_catalogue()
    anchors = tuple(replace(a, **changed) for a in catalogue.anchors)
    return make_run(plan, replace(catalogue, anchors=anchors))


def with_anchors(plan: Plan, **changed: object) -> Plan:
    return replace(plan, anchors=replace(plan.anchors, **changed))


def inches_in(run: Run, kind: MemberKind) -> list[tuple[float, float]]:
    """(along the wall from START, in from its face) of each single strap of a kind. [in]"""
    straps = [b.straps[0] for b in run.framing.bearings if b.kind is kind]
    return [(12.0 * s.tape_ft, 12.0 * (s.in_from_face_ft or 0.0)) for s in straps]


def test_a_corner_strap_on_the_far_side_changes_places_with_one_on_the_start_side() -> None:
    """Wall centres cross 4 in. in; 2 in. on at 45 degrees 1.414 each way; half of 1-1/2 in. lumber 0.530 each way."""
    start = inches_in(run_of(plan_of(BOX)), MemberKind.CORNER_JACK)
    far = inches_in(run_of(with_anchors(plan_of(BOX), side=Side.FAR)), MemberKind.CORNER_JACK)
    assert start == [pytest.approx((4.8839, 5.9445), abs=1e-3)] * 4
    assert far == [pytest.approx((5.9445, 4.8839), abs=1e-3)] * 4


def test_the_plan_says_how_far_inboard_a_corner_strap_stands() -> None:
    """3 in. along 45 degrees are 2.121 in. each way."""
    run = run_of(with_anchors(plan_of(BOX), corner_strap_ft=3.0 / 12.0))
    assert inches_in(run, MemberKind.CORNER_JACK)[0] == pytest.approx((5.5910, 6.6517), abs=1e-3)


def test_a_girder_behind_an_inside_corner_has_its_strap_in_the_corner_block_with_both_distances() -> None:
    """The girder's 3 in. stand on the centre line of the wall that it continues, so its faces are 2-1/2 and 5-1/2 in.
    in from that wall's face; along the other wall's centre line the strap is 4 in. in.
    """
    run = run_of(plan_of(ELL))
    (at,) = [b for b in run.framing.bearings if b.crossing is Crossing.CORNER_BLOCK and b.kind is MemberKind.GIRDER]
    wall = run.outline.wall(at.wall)
    for strap in at.straps:
        assert strap.tape_ft in (0.0, wall.length_ft)
        distances = (12.0 * (strap.in_from_face_ft or 0.0), 12.0 * (strap.in_from_next_ft or 0.0))
        assert distances in [pytest.approx((4.0, 2.5)), pytest.approx((4.0, 5.5))]
    assert abs(run.outline.walls.index(wall) - run.outline.walls.index(run.outline.wall(at.next_wall))) == 1


def test_a_gable_end_said_flush_with_the_block_has_its_straps_a_ply_in_and_asks_nothing() -> None:
    flush = replace(GABLED, roof=replace(GABLED.roof, gable_truss_ft=0.0))
    run = run_of(flush)
    assert {b.side for b in run.framing.bearings if b.kind is MemberKind.GABLE_END} == {Side.INSIDE}
    assert {round(d, 6) for _, d in inches_in(run, MemberKind.GABLE_END)} == {1.5}
    gable = next(m for m in run.framing.members if m.kind is MemberKind.GABLE_END)
    assert 12.0 * min(abs(gable.start_ft[0]), abs(40.0 - gable.start_ft[0])) == pytest.approx(0.75)
    assert not any("roof.gable_truss" in note for note in run.notes)


def test_a_gable_end_not_said_has_its_straps_at_mid_thickness_and_asks() -> None:
    """Half of 8 in. less a ply of 1-1/2 in. is 2-1/2 in.; half of the real block, 7-5/8 in., less a ply 2-5/16 in."""
    run = run_of(GABLED)
    assert {round(d, 6) for _, d in inches_in(run, MemberKind.GABLE_END)} == {4.0}
    (note,) = [note for note in run.notes if "roof.gable_truss" in note]
    assert 'outer face 2 1/2" in (2 5/16" where a block sold as 8 in. is 7 5/8" thick): ask' in note


def test_a_gable_ends_mark_is_the_strap_itself_and_only_the_bottom_chord_is_there_a_foot_from_the_corner() -> None:
    """12 in. from a corner of a 5:12 roof with a 6 in. heel the truss is 6 + 5 in. high, the underside of its top chord
    11 in. less 3-1/2 in. x 13/12; 4 ft on, 20 in. higher. A strap that leaves the concrete by 9 in. reaches an inch
    into the former, one by 8 in. no nail's room.
    """
    gables = [b for b in run_of(GABLED).framing.bearings if b.kind is MemberKind.GABLE_END]
    assert all(b.straps[0].tape_ft == b.station_ft for b in gables)
    assert [b.top_chord_in for b in gables[:2]] == pytest.approx([11.0 - 3.5 * 13 / 12, 31.0 - 3.5 * 13 / 12])
    for length_in, within_reach in ((13.0, 1), (12.0, 0)):
        marks = run_of(GABLED, embedment_in=4.0, length_in=length_in).schedule.marks
        at_gable = [m for m in marks if m.bearing.wall == gables[0].wall]
        near = [m for m in at_gable if (m.bearing.top_chord_in or 0.0) < 8.0]
        assert near
        assert sum(not m.only_bottom_chord for m in near) == within_reach * len(near)
        assert all(m.only_bottom_chord for m in at_gable if m not in near)


def test_a_pair_at_a_gable_end_is_marked_on_both_faces_at_one_tape_figure() -> None:
    (inner, outer) = next(b for b in run_of(GABLED).framing.bearings if b.kind is MemberKind.GABLE_END).straps
    assert (inner.side, outer.side) == (Side.INSIDE, Side.OUTSIDE)
    assert inner.tape_ft == outer.tape_ft
    assert 12.0 * ((inner.in_from_face_ft or 0.0) - (outer.in_from_face_ft or 0.0)) == pytest.approx(1.5)


def test_straps_of_two_members_under_the_catalogues_spacing_are_flagged_and_without_one_asked_about() -> None:
    """Trusses at 24 in.; at the hip the corner jack's strap and the first side jack's stand 18.5 in. apart."""
    run = run_of(plan_of(BOX), spacing_in=20.0)
    close = [flag for flag in run.flags if "under the catalogue's spacing of 20" in flag]
    assert any(flag.startswith("W1-01 and W1-02: their straps stand ") for flag in close)
    assert not any("under the catalogue's spacing" in flag for flag in run_of(plan_of(BOX), spacing_in=1.0).flags)
    assert not any("Straps of different members" in note for note in run_of(plan_of(BOX)).notes)


def test_each_mark_tells_the_distance_to_the_nearest_strap_of_another_member() -> None:
    """Between two commons 24 in. apart."""
    commons = [m for m in run_of(plan_of(BOX)).schedule.marks if m.bearing.kind is MemberKind.COMMON]
    assert 12.0 * (commons[3].clear_ft or 0.0) == pytest.approx(24.0)


def with_marks(run: Run, changed: dict[int, Mark]) -> StrapRoom:
    """What is said of the straps where some marks stand otherwise."""
    marks = tuple(changed.get(i, m) for i, m in enumerate(run.schedule.marks))
    return strap_room(run.plan, run.outline, run.framing, replace(run.schedule, marks=marks))


@pytest.mark.parametrize(("apart_in", "asks"), [(2.9, True), (3.1, False)])
def test_straps_of_two_members_are_asked_about_up_to_3_in_apart(apart_in: float, asks: bool) -> None:
    """A strap brought near to that of the next common. Common practice, no source."""
    run = run_of(plan_of(BOX))
    k, near = (i for i, m in enumerate(run.schedule.marks) if m.mark in ("W1-08", "W1-09"))
    x, y = run.schedule.marks[near].straps[0].point_ft
    bearing = run.schedule.marks[k].bearing
    straps = tuple(replace(s, point_ft=(x - apart_in / 12.0, y)) for s in bearing.straps)
    notes = with_marks(run, {k: replace(run.schedule.marks[k], bearing=replace(bearing, straps=straps))}).notes
    assert any("Straps of different members" in note and "W1-08 and W1-09" in note for note in notes) is asks


@pytest.mark.parametrize(("count", "told"), [(1, True), (2, False)])
def test_a_single_strap_on_the_other_face_is_told_and_a_pair_that_has_both_is_not(count: int, told: bool) -> None:
    run = run_of(plan_of(BOX))
    mark = run.schedule.marks[7]
    other = replace(mark, count=count, bearing=replace(mark.bearing, straps=mark.bearing.straps[::-1]))
    notes = with_marks(run, {7: other}).notes
    assert [n for n in notes if n.startswith("Not on the ")] == (
        [f"Not on the start side but on the other, since another member takes that face: {mark.mark}."] if told else []
    )


def test_the_carriers_that_two_members_share_are_named_in_one_order() -> None:
    """By name, whatever order the plan's layout met them in: equal plans give equal sheets."""
    run = run_of(plan_of(BOX))
    jack = next(m for m in run.framing.members if m.kind is MemberKind.COMMON)
    names = [m.name for m in run.framing.members if m.kind is MemberKind.COMMON and m.name != jack.name][-5:]
    hung = tuple(replace(jack.carriers[0], kind=CarrierKind.MEMBER, name=name) for name in reversed(names))
    twins = tuple(replace(jack, name=name, carriers=hung) for name in ("A", "B"))
    others = tuple(m for m in run.framing.members if m.name != jack.name)
    room = strap_room(run.plan, run.outline, replace(run.framing, members=(*others, *twins)), run.schedule)
    [note] = [n for n in room.notes if n.startswith("Hung in one place")]
    assert f"A and B on {' and '.join(sorted(names))} near (" in note
