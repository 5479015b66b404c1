"""What a builder is told of where the pull stops: flags for what is given and fails, notes for what is not said."""

from __future__ import annotations

from dataclasses import replace

import pytest

from export.wall_marks.tape_marks import tick_words, wall_tapes
from framing.anchors.catalogue_file import shipped_catalogue
from framing.ground.near_girders import GirderCell
from framing.ground.sentences import cell_name, ground_flags
from framing.members import MemberKind
from framing.plan import TieBeam
from framing.plan_masonry import FilledCell
from framing.run import Run, make_run
from invariants.houses import supported_plan
from parts.masonry_houses import (
    ELL,
    ONE_5,
    Bars,
    Footing,
    LintelKind,
    Stirrups,
    nothing_said,
    opening,
    run_of,
    steel,
)

DOWELLED = Footing(width_ft=20.0 / 12.0, depth_ft=10.0 / 12.0, dowelled=True)
DOOR = opening("W1", 12.0, 28.0)
SMALL = opening("W1", 12.0, 15.0)
WIDE_OF_GIRDERS = opening("W1", 4.0, 10.0)


def told(run: Run, start: str) -> list[str]:
    return [line for line in (*run.notes, *run.flags) if line.startswith(start)]


def test_a_house_that_says_everything_and_holds_is_told_nothing_of_it() -> None:
    run = run_of(openings=(SMALL,), footing=DOWELLED, speed_mph=100.0, said=steel(cell_spacing_ft=2.0))
    assert run.flags == ()
    for start in ("Where the pull", "The tie beam", "The plan says no doors", "No filled cell"):
        assert told(run, start) == []
    [weight] = told(run, "The weight")  # over the door hangs nothing but the beam
    assert "does not hold 1 of 72 marks down" in weight


def test_what_lifts_on_a_tied_down_support_is_told_for_nothing_under_it_is_reckoned() -> None:
    """From the schedule's rows, as a reader adds them up; a porch's posts, with no anchor of ours, are left out."""
    for name, walls in (("a porch", ["S2"]), ("a spine wall", ["S2"])):
        run = make_run(supported_plan(name), shipped_catalogue())
        marks = [m for m in run.schedule.marks if m.mark.startswith(f"{walls[0]}-")]
        [note] = told(run, "Where the pull stops is not reckoned under ")
        assert [w for w in ("S1", "S2") if f"{w} (" in note] == walls
        assert f"({sum(round(m.uplift_lb, 2) for m in marks):,.0f} lb up in all)" in note
    assert told(run_of(), "Where the pull stops is not reckoned") == []


def test_a_silent_plan_is_a_note_with_the_spacing_that_would_be_needed() -> None:
    run = run_of(said=nothing_said())
    assert run.flags == ()
    [note] = told(run, "Where the pull stops is not judged")
    assert "the plan says no filled cells (tie_beam.cell_spacing or [[filled_cell]])" in note
    assert "at most " in note
    assert "W1" in note
    assert "1 #5 at top and bottom, 2,500 psi, 1-1/2 in. of cover and a #5 in each cell are taken" in note
    assert "are taken" not in told(run_of(said=steel(cell_spacing_ft=None)), "Where the pull stops")[0]


def test_cells_without_bars_are_a_note_that_names_the_keys() -> None:
    run = run_of(said=replace(nothing_said(), cell_spacing_ft=4.0))
    assert run.flags == ()
    [note] = told(run, "The tie beam's pull is printed but not judged for want of ")
    for key in (
        "tie_beam.top_bars",
        "tie_beam.bottom_bars",
        "tie_beam.f_c_psi",
        "tie_beam.cover",
        "cell_bar",
        "[footing]",
    ):
        assert key in note
    [openings] = told(run, "The plan says no doors or windows")
    assert "[[opening]]" in openings


def test_an_opening_whose_bars_jambs_or_lintel_are_not_said_is_a_flag_with_its_demand_first() -> None:
    run = run_of(openings=(DOOR,), said=nothing_said())
    [flag] = run.flags
    assert flag.startswith("opening 1 on W1, 12'-0\" to 28'-0\": the tie beam over it is pulled up with ")
    assert "ft-lb and " in flag
    assert "the plan does not say tie_beam.top_bars, " in flag
    assert "filled_cell beside it" in flag
    unnamed = run_of(openings=(replace(DOOR, lintel=None),))
    assert unnamed.flags[0].endswith("does not say opening.lintel; write them, or ask the engineer")


def test_an_opening_that_holds_is_no_flag_and_one_that_fails_says_by_how_much() -> None:
    assert run_of(openings=(DOOR,), speed_mph=120.0).flags == ()
    weak = run_of(openings=(DOOR,), speed_mph=180.0, said=steel(top_bars=ONE_5, bottom_bars=ONE_5))
    [flag] = [f for f in weak.flags if f.startswith("opening 1")]
    ratio = weak.ground.openings[0].ratio
    assert ratio is not None
    assert ratio > 1.0
    assert f"{ratio:.2f} of what the 8x16 with its bars carries" in flag


def test_a_girder_over_an_opening_is_stop_and_ask_the_engineer() -> None:
    run = run_of(openings=(WIDE_OF_GIRDERS,), said=steel(stirrups=Stirrups(number=3, spacing_ft=0.5)))
    [girder] = run.ground.openings[0].girders
    assert run.flags[0] == (
        f"opening 1 on W1, 4'-0\" to 10'-0\": a girder stands over it ({girder}): stop and ask the engineer"
    )


def test_a_head_that_cuts_into_the_beam_is_a_flag() -> None:
    """Wall 9'-4", beam 15-5/8 in.: underside at 8'-0 3/8"."""
    run = run_of(openings=(replace(SMALL, head_ft=8.5),), speed_mph=100.0)
    assert run.flags == (
        "opening 1 on W1, 12'-0\" to 15'-0\": its head at 8'-6\" cuts into the tie beam, whose underside is 8'-0 3/8\" "
        "above the floor; lower it or ask the engineer",
    )
    assert run_of(openings=(replace(SMALL, head_ft=8.0),), speed_mph=100.0).flags == ()


def test_a_precast_lintel_is_not_counted_and_its_approval_is_asked_for() -> None:
    run = run_of(openings=(replace(SMALL, lintel=LintelKind.PRECAST),), speed_mph=120.0)
    assert run.flags == ()
    [note] = told(run, "opening 1 on W1")
    assert "its precast lintel is not counted" in note
    assert "uplift rating from its approval" in note
    weak = run_of(openings=(replace(DOOR, lintel=LintelKind.PRECAST),), speed_mph=200.0)
    assert any("the precast lintel must carry it" in flag for flag in weak.flags)


def test_a_beam_too_weak_between_its_cells_is_a_flag_with_the_spacing_that_holds() -> None:
    run = run_of(said=steel(cell_spacing_ft=8.0), speed_mph=190.0, wall_height_ft=9.0)
    flags = [f for f in run.flags if f.startswith("tie beam on ")]
    assert flags
    assert "between the cells at " in flags[0]
    assert "in shear; it wants cells at most " in flags[0]
    assert flags[0].endswith(", or stirrups")
    tied = run_of(
        said=steel(cell_spacing_ft=8.0, stirrups=Stirrups(number=3, spacing_ft=0.5)),
        speed_mph=190.0,
        wall_height_ft=9.0,
    )
    assert [f for f in tied.flags if f.startswith("tie beam on ")] == []


def test_a_cells_bar_pulled_too_hard_is_a_flag() -> None:
    run = run_of(said=steel(cell_bar=Bars(count=1, number=3), cell_spacing_ft=8.0), speed_mph=190.0)
    [flag] = [f for f in run.flags if f.startswith("filled cells: ")]
    worst = max(c.pull_lb for c in run.ground.cells)
    assert f"with {worst:,.0f} lb, {worst / 3520:.2f} of it" in flag
    assert "the 1 #3 in them takes" in flag


def test_bars_that_are_wrong_whatever_pulls_are_a_flag() -> None:
    run = run_of(tie_beam=TieBeam(nominal_width_in=8, nominal_depth_in=8), speed_mph=100.0)
    assert run.flags[0].startswith("tie beam: the top bars are too many for an 8x8")


def test_too_little_steel_is_a_flag_only_once_a_third_more_is_asked() -> None:
    light = run_of(said=steel(top_bars=ONE_5, bottom_bars=ONE_5), speed_mph=120.0)
    assert light.flags == ()
    heavy = run_of(said=steel(top_bars=ONE_5), openings=(opening("W1", 10.0, 30.0),), speed_mph=160.0)
    assert [f for f in heavy.flags if f.startswith("tie beam: its top bars are under the least steel")]


def test_girders_far_from_a_filled_cell_are_named_and_near_ones_are_not() -> None:
    far = run_of(cells=tuple((w, at) for w in ("W1", "W3") for at in (0.5, 12.0, 20.0, 28.0, 39.5)))
    [note] = told(far, "No filled cell within 24 in. of ")
    girders = [far.schedule.marks[g.row].mark for g in far.ground.girders if not g.near]
    assert girders
    assert all(name in note for name in girders[:6])
    assert told(run_of(said=steel(cell_spacing_ft=2.0)), "No filled cell") == []
    assert told(run_of(said=nothing_said()), "No filled cell") == []


def test_a_girder_is_near_a_cell_up_to_24_in() -> None:
    run = run_of(cells=(("W1", 0.5), ("W1", 20.0), ("W1", 39.5)))
    on_w1 = [g for g in run.ground.girders if run.schedule.marks[g.row].bearing.wall == "W1"]
    assert {round(g.away_ft or 0.0, 6) for g in on_w1} == {
        round(min(abs(g.strap_at_ft - c) for c in (0.5, 20.0, 39.5)), 6) for g in on_w1
    }
    assert [g.near for g in on_w1] == [(g.away_ft or 9.0) <= 2.0 for g in on_w1]


def test_missing_weight_is_a_note_with_the_worst_mark() -> None:
    run = run_of(footing=DOWELLED, speed_mph=170.0)
    [note] = told(run, "The weight on its own strip of wall does not hold ")
    worst = max(run.ground.ladders, key=lambda ladder: ladder.missing_lb)
    assert f"at {run.schedule.marks[worst.row].mark}, {worst.missing_lb:,.0f} of {worst.pull_lb:,.0f} lb" in note
    assert "beam, wall and footing counted" in note
    bare = run_of(speed_mph=170.0)
    assert "the beam and the grouted cells counted" in told(bare, "The weight")[0]


def test_an_inside_corners_cell_takes_the_pulls_of_both_its_walls() -> None:
    run = run_of(ELL)
    both = [c for c in run.ground.cells if len(c.walls) == 2]
    assert len(both) == 6
    inside = next(c for c in both if c.walls == ("W1", "W2"))
    parts = [
        lb
        for b in run.ground.beams
        for at, lb in zip(b.cells.at_ft, b.cell_lb, strict=True)
        if (b.cells.stretch.name == "W1" and at > 36) or (b.cells.stretch.name == "W2" and at < 0)
    ]
    assert len(parts) == 2
    assert inside.pull_lb == pytest.approx(sum(parts))
    assert len(run.ground.cells) == sum(len(b.cells.at_ft) for b in run.ground.beams) - 6


def test_the_crew_is_asked_for_the_cell_by_a_girder_where_none_is_known_and_told_where_there_is_none() -> None:
    def said(run: Run) -> dict[str, str]:
        girders = {run.schedule.marks[g.row].mark for g in run.ground.girders}
        ticks = [t for tape in wall_tapes(run) for t in tape.ticks]
        assert all(not t.cell_words for t in ticks if t.mark.mark not in girders)
        assert sum("cell" in tick_words(t) for t in ticks) == sum(bool(t.cell_words) for t in ticks if t.number == 1)
        return {t.mark.mark: t.cell_words for t in ticks if t.mark.mark in girders}

    assert set(said(run_of(said=nothing_said())).values()) == {"filled cell within 24 in.?"}
    assert set(said(run_of(said=steel(cell_spacing_ft=2.0))).values()) == {""}
    far = run_of(cells=tuple((w, at) for w in ("W1", "W3") for at in (0.5, 12.0, 20.0, 28.0, 39.5)))
    assert "no filled cell within 24 in." in said(far).values()
    [note] = told(run_of(said=nothing_said()), "A filled cell belongs within 24 in. of every mark with a girder")
    assert "W1-" in note


def test_an_opening_or_a_cell_under_a_porch_beam_is_told() -> None:
    """The porch beam stands on W3 from 6 to 34 ft of its tape."""
    plan = supported_plan("a porch")
    cells = tuple(FilledCell(wall="W3", at_ft=at) for at in (0.5, 5.5, 20.0, 34.5, 45.5))
    said = replace(plan.masonry, steel=steel(), openings=(opening("W3", 10.0, 14.0), SMALL), filled_cells=cells)
    run = make_run(replace(plan, masonry=said), shipped_catalogue())
    assert told(run, "No tie beam stands over") == [
        "No tie beam stands over opening 1 on W3, filled_cell 3 on W3: a porch beam is in its place, so nothing is "
        "reckoned there."
    ]
    assert [o.index for o in run.ground.openings] == [1]
    assert told(run_of(openings=(SMALL,), cells=(("W1", 1.0), ("W1", 39.0))), "No tie beam stands over") == []


def test_a_filled_cell_is_named_by_its_wall_and_station_and_at_a_corner_by_both_walls() -> None:
    names = [cell_name(c) for c in run_of().ground.cells]
    assert "at the corner of W1 and W4" in names or "at the corner of W4 and W1" in names
    assert "on W1 at 4'-4\"" in names  # 4 ft on from the corner cell's middle, 4 in. in
    assert len(names) == len(set(names))


def test_a_beam_that_is_used_to_the_full_holds_and_one_a_little_over_does_not() -> None:
    run = run_of(speed_mph=100.0)

    def flags(ratio: float) -> list[str]:
        beams = tuple(
            replace(b, spans=tuple(replace(s, ratio=ratio) if k == 1 else s for k, s in enumerate(b.spans)))
            for b in run.ground.beams
        )
        return [f for f in ground_flags(run.plan, replace(run.ground, beams=beams)) if f.startswith("tie beam on ")]

    assert flags(1.0) == []
    assert len(flags(1.001)) == len(run.ground.beams)
    # That ratio is not the shear's, so bending makes it, and stirrups are no cure.
    assert all("carries in bending; it wants " in f and "stirrups" not in f for f in flags(1.001))


@pytest.mark.parametrize(("cell_at_ft", "near"), [(12.0, True), (8.0, True), (12.05, False), (None, False)])
def test_a_cell_within_24_inches_of_a_girder_s_strap_is_near_it(cell_at_ft: float | None, near: bool) -> None:
    assert GirderCell(row=0, strap_at_ft=10.0, cell_at_ft=cell_at_ft).near is near


def test_only_girders_and_pairs_that_lift_are_looked_at_for_a_cell() -> None:
    run = run_of()
    looked_at = {run.schedule.marks[g.row].mark for g in run.ground.girders}
    girders = {m.mark for m in run.schedule.marks if m.bearing.kind is MemberKind.HIP_GIRDER}
    pairs = {m.mark for m in run.schedule.marks if m.count > 1}
    assert looked_at == girders | pairs
    assert len(looked_at) < len(run.schedule.marks) / 2
