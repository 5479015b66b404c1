"""An anchor that the beam cannot hold does not count: embedment, spacing, end, edge and concrete, column by column."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import numpy as np
import pytest
import shapely

from export.commands.run_of_plan import load_run
from export.tables.schedule import schedule_csv
from export.words.demand import unresolved_words
from framing.anchors.catalogue import Anchor, Catalogue
from framing.anchors.in_the_beam import beam_faults, column_questions, room
from framing.members import Bearing, CarrierKind
from framing.plan import Plan, Porch, Support, SupportKind, TieBeam
from framing.run import Run, make_run
from framing.walls.standing_walls import wall_ground
from invariants.houses import SAMPLES, plan_of
from parts.masonry_houses import ELL, masonry_plan, nothing_said, run_of, steel
from parts.test_anchors import catalogue, row

ROOM_IN = 15.625 - 1.5  # an 8x16 less 1-1/2 in. of cover


@pytest.fixture(scope="module")
def run() -> Run:
    return run_of()


@pytest.fixture
def bearing(run: Run) -> Bearing:
    """A common in the middle of the long wall."""
    return next(m.bearing for m in run.schedule.marks if m.bearing.wall == "W1" and 16 < m.bearing.station_ft < 20)


def strap(**columns: object) -> Anchor:
    return replace(row("strap", 1000.0), **columns)


def test_a_beam_offers_its_depth_less_the_cover_and_half_its_width(bearing: Bearing) -> None:
    here = room(masonry_plan(), bearing, 1)
    assert here.depth_in == pytest.approx(ROOM_IN)
    assert here.edge_in == pytest.approx(4.0)
    assert here.end_in == pytest.approx(12 * bearing.straps[0].tape_ft)
    assert here.pair_in is None
    assert room(masonry_plan(said=nothing_said()), bearing, 1).depth_in == pytest.approx(15.625)


def test_a_pair_stands_its_plies_apart_and_its_nearer_strap_counts(bearing: Bearing) -> None:
    pair = room(masonry_plan(), bearing, 2)
    assert pair.pair_in == 1.5
    assert pair.end_in == pytest.approx(12 * min(s.end_ft or 99.0 for s in bearing.straps))
    assert room(masonry_plan(), replace(bearing, plies=3), 2).pair_in == 4.5


@pytest.mark.parametrize(
    ("columns", "fault"),
    [
        ({"embedment_in": ROOM_IN}, None),
        ({"embedment_in": ROOM_IN + 0.1}, 'embedment 14.225", but the 8x16 less its cover has 14.1"'),
        ({"edge_in": 4.0}, None),
        ({"edge_in": 4.25}, '4" to the beam\'s face, but it wants 4.25"'),
        ({"f_c_psi": 2500.0}, None),
        ({"f_c_psi": 3000.0}, "concrete of 2,500 psi, but it wants 3,000 psi"),
        ({"end_in": 100.0}, None),
        ({"spacing_in": 6.0}, None),
        ({"spacing_in": 6.0, "count": 2}, '1.5" between the two straps of the pair, but it wants 6"'),
        ({"spacing_in": 1.5, "count": 2}, None),
    ],
)
def test_each_column_is_held_against_what_is_there(
    bearing: Bearing, columns: dict[str, object], fault: str | None
) -> None:
    assert beam_faults(masonry_plan(), bearing, strap(**columns)) == (() if fault is None else (fault,))


def test_the_distance_to_the_walls_end_is_held_against_its_column(run: Run) -> None:
    near = min((m.bearing for m in run.schedule.marks), key=lambda b: b.straps[0].end_ft or 0.0)
    [fault] = beam_faults(masonry_plan(), near, strap(end_in=12.0))
    assert fault.endswith("to the wall's end, but it wants 12\"")


def test_what_the_plan_or_the_catalogue_does_not_say_is_no_fault(bearing: Bearing) -> None:
    silent = masonry_plan(said=nothing_said())
    assert beam_faults(silent, bearing, strap(f_c_psi=9000.0, embedment_in=15.0)) == ()
    [fault] = beam_faults(silent, bearing, strap(embedment_in=16.0))
    assert fault == 'embedment 16", but the 8x16 has 15.6"'
    assert beam_faults(masonry_plan(), bearing, strap()) == ()


def test_a_support_is_no_tie_beam(bearing: Bearing) -> None:
    inside = replace(bearing, stands_on=CarrierKind.SUPPORT)
    assert beam_faults(masonry_plan(), inside, strap(embedment_in=40.0)) == ()


def test_every_fault_is_named(bearing: Bearing) -> None:
    shallow = replace(masonry_plan(), tie_beam=TieBeam(nominal_width_in=8, nominal_depth_in=8))
    everything = strap(embedment_in=9.0, edge_in=5.0, f_c_psi=4000.0)
    assert len(beam_faults(shallow, bearing, everything)) == 3


def question(plan: Plan, run: Run, anchors: Catalogue) -> tuple[str, ...]:
    used = tuple((m.bearing, anchors.anchors[0]) for m in run.schedule.marks)
    return column_questions(plan, anchors, used)


def test_empty_columns_print_the_least_distances_and_the_question(run: Run) -> None:
    [said] = question(masonry_plan(), run, catalogue(strap(embedment_in=4.0)))
    n = len(run.schedule.marks)
    assert "gives no clear spacing, distance to a wall's end, distance to the beam's face, least strength" in said
    assert f"least strength of the concrete ({n} marks): not judged." in said
    assert "embedment (" not in said
    assert '14.1" of beam under its cover' in said
    least = min(12 * (m.bearing.straps[0].end_ft or 0.0) for m in run.schedule.marks)
    assert f"{least:.3g}\" to a wall's end" in said
    assert "between a pair's straps" not in said
    assert said.endswith("Read the anchor's approval, or ask the maker, before the pour.")
    [silent] = question(masonry_plan(said=nothing_said()), run, catalogue(strap(count=2)))
    assert '15.6" of beam, cover not said' in silent
    assert "between a pair's straps" in silent


def test_a_full_catalogue_asks_nothing(run: Run) -> None:
    full = strap(embedment_in=4.0, spacing_in=1.0, end_in=1.0, edge_in=1.0, f_c_psi=2500.0)
    assert question(masonry_plan(), run, catalogue(full)) == ()
    assert column_questions(masonry_plan(said=steel()), catalogue(full), ()) == ()


def test_concrete_that_the_catalogue_wants_is_asked_for_where_the_plan_does_not_say_its_own(run: Run) -> None:
    full = strap(embedment_in=4.0, spacing_in=1.0, end_in=1.0, edge_in=1.0, f_c_psi=3000.0)
    used = tuple((m.bearing, full) for m in run.schedule.marks[:5])
    [said] = column_questions(masonry_plan(said=nothing_said()), catalogue(full), used)
    assert said == (
        "5 anchors want concrete of up to 3,000 psi, and the plan does not say its strength (tie_beam.f_c_psi): not "
        "judged; ask the engineer."
    )
    assert column_questions(masonry_plan(said=steel()), catalogue(full), used) == ()


def made(*rows: Anchor, **said: object) -> Run:
    return make_run(masonry_plan(**said), catalogue(*rows))


def test_the_lightest_that_the_beam_can_hold_stands_and_the_note_says_why_a_lighter_does_not() -> None:
    deep, plain = replace(row("deep", 4000.0), embedment_in=20.0), row("plain", 5000.0)
    two = (deep, replace(deep, plies=2), plain, replace(plain, plies=2))
    run = made(*two)
    assert {m.anchor.id for m in run.schedule.marks if m.anchor} == {"plain"}
    assert run.schedule.unresolved == ()
    [note] = [n for n in run.notes if "cannot hold the lightest anchor" in n]
    n = len(run.schedule.marks)
    assert note == (
        f"At {n} marks the tie beam cannot hold the lightest anchor that carries the load, so another stands there; "
        'W1-01: deep: embedment 20", but the 8x16 less its cover has 14.1".'
    )
    assert [n for n in made(*two[2:]).notes if "cannot hold the lightest anchor" in n] == []


def test_where_the_beam_can_hold_none_the_mark_is_unresolved_and_says_why() -> None:
    deep = replace(row("deep", 9000.0), embedment_in=20.0)
    run = made(deep, replace(deep, plies=2))
    assert len(run.schedule.unresolved) == len(run.schedule.marks)
    words = unresolved_words(run.schedule.unresolved[0], run.schedule.catalogue)
    assert words.endswith(': the tie beam cannot hold deep: embedment 20", but the 8x16 less its cover has 14.1"')
    assert [n for n in run.notes if "cannot hold the lightest" in n] == []


def test_a_pair_too_close_for_its_row_is_no_answer() -> None:
    single = row("strap", 600.0)
    pair = replace(row("strap", 9000.0, count=2), spacing_in=6.0)
    run = made(single, pair, replace(single, plies=2), replace(pair, plies=2))
    pulled = [m for m in run.schedule.marks if m.uplift_lb > 650.0]
    assert pulled
    for m in pulled:
        assert m.anchor is None
        assert m.beam_refuses.startswith("strap (pair): ")


def test_the_load_still_decides_first() -> None:
    weak = replace(row("weak", 1.0), embedment_in=20.0)
    run = made(weak, replace(weak, plies=2))
    lifted = [m for m in run.schedule.marks if m.uplift_lb > 1.0]
    assert all(m.beam_refuses == "" for m in lifted)
    assert "over 1.0" in unresolved_words(lifted[0], run.schedule.catalogue)


def test_a_strap_in_the_block_of_an_inside_corner_has_no_end_near_it() -> None:
    run = run_of(ELL)
    blocks = [m.bearing for m in run.schedule.marks if m.bearing.straps[0].in_from_next_ft is not None]
    assert blocks
    assert all(room(masonry_plan(ELL), b, 1).end_in is None for b in blocks)


def n_straps_past_an_inside_corner(found: Run) -> int:
    """Each strap's distance to its wall's end held against rays that run along the wall at the strap's own depth, both
    ways, through the ground of all that stands; how many have more concrete than tape before them.
    """
    beams = found.framing.porch_beams
    ground = [g for k in range(len(found.outline.walls)) for g in wall_ground(found.outline, k, beams)]
    concrete, walls, n = shapely.union_all(ground), {w.name: w for w in found.outline.walls}, 0
    for bearing in [m.bearing for m in found.schedule.marks if not m.bearing.on_support]:
        along = np.array(walls[bearing.wall].direction)
        for s in bearing.straps:
            if s.in_from_next_ft is not None:
                assert s.end_ft is None
                continue
            here = shapely.Point(s.point_ft)
            rays = [shapely.LineString([here, np.array(s.point_ft) + sign * 500.0 * along]) for sign in (-1.0, 1.0)]
            within = [min(shapely.get_parts(r.intersection(concrete)), key=here.distance) for r in rays]
            assert s.end_ft == pytest.approx(min(w.length for w in within), abs=1e-5), bearing.mark
            n += s.end_ft > s.tape_ft + 0.5
    return n


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_a_strap_is_as_far_from_its_walls_end_as_a_ray_along_the_wall_runs_in_concrete(name: str) -> None:
    found = n_straps_past_an_inside_corner(load_run(SAMPLES[name]))
    assert (found > 0) == (name not in ("cottage", "hip_house"))


@pytest.mark.parametrize(("from_ft", "to_ft"), [(8.0, 20.0), (20.0, 34.0)])
def test_a_porch_beam_is_the_end_of_the_wall_on_both_sides_of_it(from_ft: float, to_ft: float) -> None:
    beam = Support(kind=SupportKind.BEAM, start_ft=(from_ft, 0.0), end_ft=(to_ft, 0.0), holds_down=False)
    floor = Porch(corners_ft=((from_ft, 0.0), (to_ft, 0.0), (to_ft, 8.0), (from_ft, 8.0)))
    run = make_run(
        plan_of([(0, 0), (40, 0), (40, 28), (0, 28)], supports=(beam,), porches=(floor,)), catalogue(strap())
    )
    assert n_straps_past_an_inside_corner(run) == 0
    sides = {m.bearing.station_ft > to_ft for m in run.schedule.marks if m.bearing.wall == "W1"}
    assert sides == {True, False}


def test_the_schedule_prints_the_anchors_own_embedment() -> None:
    full = replace(row("strap", 9000.0), embedment_in=4.25)
    run = made(full, replace(full, plies=2))
    [first, *_] = csv.DictReader(io.StringIO(schedule_csv(run).decode("utf-8-sig")))
    assert float(first["embedment_in"]) == 4.25


def test_a_thirty_second_of_an_inch_is_no_fault_and_a_sixteenth_is(bearing: Bearing) -> None:
    assert beam_faults(masonry_plan(), bearing, strap(edge_in=4.0 + 1 / 33, embedment_in=ROOM_IN + 1 / 33)) == ()
    assert len(beam_faults(masonry_plan(), bearing, strap(edge_in=4.0 + 1 / 31, embedment_in=ROOM_IN + 1 / 31))) == 2


def test_each_column_is_asked_for_by_its_own_words(run: Run) -> None:
    n = len(run.schedule.marks)
    [said] = question(masonry_plan(), run, catalogue(strap()))
    for words in (
        "embedment",
        "clear spacing",
        "distance to a wall's end",
        "distance to the beam's face",
        "least strength of the concrete",
    ):
        assert said.count(words) == 1
    assert said.count(f"({n} marks)") == 1


def test_columns_empty_for_some_anchors_alone_are_counted_each_for_itself(run: Run) -> None:
    marks = run.schedule.marks
    anchors = (strap(embedment_in=4.0, spacing_in=3.0), strap(embedment_in=4.0))
    used = tuple((m.bearing, anchors[k < 3]) for k, m in enumerate(marks))
    [said] = column_questions(masonry_plan(), catalogue(*anchors), used)
    assert "clear spacing (3 marks)" in said
    assert f"least strength of the concrete ({len(marks)} marks)" in said
