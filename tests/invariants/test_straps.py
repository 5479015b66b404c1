"""Every strap against a face of its own member, every tape figure its point on the wall, nothing in one place unsaid.

On every sample, on 48 of the random outlines, on six with angled walls and on every eighth real footprint; on 2,000,
100 and all under the mark 'full'. Every third mark is given a pair. The ground that the wood covers is put together
here from the members' ends and plies alone.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields
from itertools import combinations
from typing import Any

import pytest
import shapely
from shapely.geometry import Point as Spot
from shapely.geometry import Polygon

from framing.anchors.catalogue_file import shipped_catalogue
from framing.anchors.schedule import AnchorSchedule, Mark, Totals
from framing.anchors.strap_room import StrapRoom, strap_room, with_clear_distances
from framing.errors import LayoutError, PlanError
from framing.layout.assembly import build_framing
from framing.members import Bearing, CarrierKind, Crossing, Framing, Member, MemberKind
from framing.plan import Plan, Point
from framing.roof.surface import build_roof
from framing.walls.outline import Outline, Wall, build_outline
from invariants.angled_houses import angled_plan, house_plan
from invariants.footprints import footprints_ft
from invariants.houses import SAMPLES, plan_of
from invariants.outlines import random_house
from invariants.test_outlines import BLOCKS

TAPE_FT = 1.0 / 32.0 / 12.0
TOUCH_FT = 1.0 / 16.0 / 12.0
PLY_FT = 1.5 / 12.0
ASK_FT = 0.25
N_FOOTPRINTS = 144
STRAP = {1: "the strap of", 2: "a strap of the pair at"}


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """One layout, a schedule in which every third mark has a pair, and what is said of its straps."""

    plan: Plan
    outline: Outline
    framing: Framing
    schedule: AnchorSchedule
    room: StrapRoom


def house(plan: Plan) -> House:
    outline = build_outline(plan)
    framing = build_framing(plan, outline, build_roof(plan, outline))
    marks = tuple(_mark(b, 2 if k % 3 == 2 else 1) for k, b in enumerate(framing.bearings))
    totals = Totals(n_anchors=sum(m.count for m in marks), price=0.0, n_unresolved=0)
    schedule = AnchorSchedule(catalogue=shipped_catalogue(), marks=marks, totals=totals, main_frame_alone=totals)
    schedule = with_clear_distances(schedule)
    return House(
        plan=plan,
        outline=outline,
        framing=framing,
        schedule=schedule,
        room=strap_room(plan, outline, framing, schedule),
    )


def _mark(bearing: Bearing, count: int) -> Mark:
    """A mark whose straps are asked for, nothing else."""
    left_out: dict[str, Any] = {f.name: None for f in fields(Mark)}
    return Mark(**(left_out | {"bearing": bearing, "count": count}))


def assert_tape_figures(h: House) -> None:
    """Between 0 and the wall's length, and the strap point projected on the outside face; in a corner block, where the
    point lies past the end, both distances in from the outside faces.
    """
    for mark in h.schedule.marks:
        if mark.bearing.on_support:
            continue
        wall = h.outline.wall(mark.bearing.wall)
        for strap in mark.straps:
            station_ft, in_ft = _on_face(wall, strap.point_ft)
            assert 0.0 <= strap.tape_ft <= wall.length_ft, mark.mark
            assert abs(strap.in_from_face_ft - in_ft) <= TAPE_FT, mark.mark
            if strap.in_from_next_ft is None:
                assert abs(strap.tape_ft - station_ft) <= TAPE_FT, mark.mark
                continue
            assert strap.tape_ft in (0.0, wall.length_ft), mark.mark
            assert not 0.0 <= station_ft <= wall.length_ft, mark.mark
            at = h.outline.walls.index(wall)
            beside = h.outline.walls[(at + (1 if station_ft > 0.0 else -1)) % len(h.outline.walls)]
            assert beside.name == mark.bearing.next_wall, mark.mark
            assert abs(strap.in_from_next_ft - _on_face(beside, strap.point_ft)[1]) <= TAPE_FT, mark.mark


def _on_face(wall: Wall, point: Point) -> tuple[float, float]:
    """Where a plan point stands along a wall's outside face, and how far in from it. [ft]"""
    (ax, ay), (bx, by), (x, y) = wall.start_ft, wall.end_ft, point
    ux, uy = (bx - ax) / math.dist((ax, ay), (bx, by)), (by - ay) / math.dist((ax, ay), (bx, by))
    return (x - ax) * ux + (y - ay) * uy, (y - ay) * ux - (x - ax) * uy


def assert_on_own_faces(h: House) -> None:
    """Every strap half the plies off its member's centre line, a pair on both sides of it; what overlaps the tie beam
    there is the member's wood.
    """
    members = {m.name: m for m in h.framing.members}
    for mark in h.schedule.marks:
        member = members[mark.bearing.member]
        (ax, ay), (bx, by) = member.start_ft, member.end_ft
        offs = [
            ((s.point_ft[1] - ay) * (bx - ax) - (s.point_ft[0] - ax) * (by - ay)) / member.span_ft for s in mark.straps
        ]
        assert [abs(off) for off in offs] == pytest.approx([member.plies * PLY_FT / 2.0] * len(offs), abs=1e-6), (
            mark.mark
        )
        assert len(offs) < 2 or offs[0] * offs[1] < 0.0, mark.mark
        assert mark.bearing.on_support or mark.bearing.by_engineer or len(mark.bearing.wood_ft) >= 3, mark.mark


def assert_nothing_in_one_place_unsaid(h: House) -> None:
    """Members that cover the same ground of the beam, straps in other members' wood or off the beam, straps of two
    members under 3 in. apart: each said by both names, a flag but for the last, which asks.
    """
    flags, beam = " ".join(h.room.flags), _beam(h.outline)
    ground = {m.name: _wood(m, h.outline) for m in h.framing.members if m.kind is not MemberKind.VALLEY}
    on = {m.name: {c.name for c in m.carriers if c.kind is CarrierKind.MEMBER} for m in h.framing.members}
    on_beam = {name: wood.intersection(beam) for name, wood in ground.items()}
    names = list(on_beam)
    tree = shapely.STRtree([on_beam[n] for n in names])
    for i, j in tree.query(tree.geometries, predicate="intersects").T.tolist():
        a, b = sorted((names[i], names[j]), key=names.index)
        if a == b or b in on[a] or a in on[b]:
            continue
        shared, both = on_beam[a].intersection(on_beam[b]).buffer(-TOUCH_FT), on[a] & on[b]
        for carrier in both:  # at whose faces they meet
            shared = shared.difference(ground[carrier].buffer(TOUCH_FT))
        if not shared.is_empty:
            on_one = [f"{a} and {b} on {carrier}" in " ".join(h.room.notes) for carrier in both]
            assert any(on_one) if both else f"{a} and {b} stand in one another" in flags
    for mark in h.schedule.marks:
        for strap in mark.straps:
            at = Spot(strap.point_ft)
            inside = [names[k] for k in tree.query(at) if ground[names[k]].buffer(-TOUCH_FT).contains(at)]
            for name in inside:
                says = f"{mark.mark}: {STRAP[mark.count]} {mark.bearing.member} stands inside {name}"
                assert name == mark.bearing.member or says in flags
            assert mark.bearing.on_support or beam.distance(at) <= TOUCH_FT or f"{mark.mark}: the strap of" in flags
    said = " ".join(h.room.notes)
    for a, b in combinations([m for m in h.schedule.marks if m.straps], 2):
        if a.bearing.member != b.bearing.member:
            apart_ft = min(math.dist(s.point_ft, t.point_ft) for s in a.straps for t in b.straps)
            assert min(a.clear_ft, b.clear_ft) <= apart_ft + 1e-9
            assert apart_ft >= ASK_FT - TOUCH_FT or f"{a.mark} and {b.mark} (" in said


def _beam(outline: Outline) -> Polygon:
    """What of the house lies within a wall's thickness of its outside face, square corners kept."""
    inside = Polygon(outline.corners_ft)
    return inside.difference(inside.buffer(-outline.walls[0].thickness_ft, join_style="mitre", mitre_limit=20.0))


def _wood(member: Member, outline: Outline) -> Polygon:
    """The ground of a member from bearing to bearing, on a wall on to its outside face; a gable end's where it has a
    tail there.
    """
    (ax, ay), (bx, by) = member.start_ft, member.end_ft
    ux, uy = (bx - ax) / member.span_ft, (by - ay) / member.span_ft
    half, thickness = member.plies * PLY_FT / 2.0, outline.walls[0].thickness_ft
    ends = (member.carriers[0], member.carriers[-1])
    past = [thickness / 2.0 if c.kind is CarrierKind.WALL else 0.0 for c in ends]
    if member.kind is MemberKind.GABLE_END:  # without a tail it stops in front of a girder of up to four plies
        past = [thickness / 2.0 if t > 0.0 else -2.0 * PLY_FT for t in (member.tail_start_ft, member.tail_end_ft)]
    along = ((-past[0], 1), (member.span_ft + past[1], 1), (member.span_ft + past[1], -1), (-past[0], -1))
    return Polygon([(ax + ux * t - uy * half * s, ay + uy * t + ux * half * s) for t, s in along])


def checked(plan: Plan) -> bool:
    """Whether a plan is framed; if it is, every rule of this file holds."""
    try:
        h = house(plan)
    except (PlanError, LayoutError):
        return False
    assert_tape_figures(h)
    assert_on_own_faces(h)
    assert_nothing_in_one_place_unsaid(h)
    return True


@pytest.mark.parametrize("name", SAMPLES)
def test_the_straps_of_every_sample_stand_as_their_tapes_say(name: str) -> None:
    assert checked(house_plan(name))


@pytest.mark.parametrize("seeds", BLOCKS, ids=lambda seeds: f"{seeds.start} to {seeds.stop - 1}")
def test_the_straps_of_random_outlines_stand_as_their_tapes_say(seeds: range) -> None:
    for seed in seeds:
        try:
            assert checked(random_house(seed))
        except Exception as fault:
            raise AssertionError(f"house {seed}") from fault


@pytest.mark.parametrize("seeds", [range(6), pytest.param(range(6, 106), marks=pytest.mark.full)], ids=["6", "100"])
def test_the_straps_on_angled_walls_stand_as_their_tapes_say(seeds: range) -> None:
    for seed in seeds:
        try:
            checked(angled_plan(seed))
        except Exception as fault:
            raise AssertionError(f"angled house {seed}") from fault


@pytest.mark.parametrize("every", [8, pytest.param(1, marks=pytest.mark.full)])
def test_the_straps_of_real_footprints_stand_as_their_tapes_say(every: int) -> None:
    framed = 0
    for number in range(1, N_FOOTPRINTS, every):
        try:
            framed += checked(plan_of(list(footprints_ft()[number])))
        except Exception as fault:
            raise AssertionError(f"building {number}") from fault
    assert framed >= 0.9 * N_FOOTPRINTS / every - 1


def test_a_single_strap_goes_on_the_free_face_where_another_member_takes_the_plans() -> None:
    """In some of two dozen random houses; on the plan's side there the strap would stand in that member's wood."""
    found = 0
    for seed in range(48, 72):
        h = house(random_house(seed))
        ground = [(m.name, _wood(m, h.outline)) for m in h.framing.members if m.kind is not MemberKind.VALLEY]
        for mark in h.schedule.marks:
            b = mark.bearing
            if b.crossing is Crossing.ALONG or b.side is h.plan.anchors.side:
                continue
            usual, free = Spot(b.straps[1].point_ft), Spot(b.straps[0].point_ft)
            others = [wood for name, wood in ground if name != b.member]
            assert any(wood.buffer(TOUCH_FT).contains(usual) for wood in others), (seed, b.mark)
            assert not any(wood.buffer(-TOUCH_FT).contains(free) for wood in others), (seed, b.mark)
            assert mark.count == 2 or f"{b.mark}" in " ".join(n for n in h.room.notes if n.startswith("Not on the"))
            found += 1
    assert found >= 1
