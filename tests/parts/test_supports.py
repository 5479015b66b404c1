"""Supports inside the house: what stands on them, what is flagged, and what lies too near to count."""

from __future__ import annotations

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import CarrierKind, MemberKind
from framing.plan import Basis, Point, RoofType, Support, SupportKind
from framing.run import Run, make_run
from framing.walls.held_lengths import wall_strips
from invariants.houses import plan_of, supported_plan

BOX = [(0, 0), (40, 0), (40, 28), (0, 28)]
TEE = [(0, 0), (20, 0), (20, -12), (44, -12), (44, 0), (70, 0), (70, 40), (0, 40)]
WIDE = [(0, 0), (20, 0), (20, -30), (66, -30), (66, 0), (90, 0), (90, 50), (0, 50)]


def support(start: Point, end: Point, kind: str = "bearing wall", *, holds_down: bool = False) -> Support:
    return Support(kind=SupportKind(kind), start_ft=start, end_ft=end, holds_down=holds_down)


def run_of(outline: list[Point], *supports: Support, **changed: object) -> Run:
    return make_run(plan_of(outline, supports=supports, **changed), shipped_catalogue())


def common_at_mid_length(run: Run) -> str:
    return min(
        (m for m in run.framing.members if m.kind is MemberKind.COMMON), key=lambda m: abs(m.start_ft[0] - 20)
    ).name


@pytest.mark.parametrize("holds_down", [False, True])
def test_every_truss_runs_on_over_a_wall_across_it(holds_down: bool) -> None:
    run = run_of(BOX, support((0, 14), (40, 14), holds_down=holds_down), type=RoofType.GABLE)
    commons = [m for m in run.framing.members if m.kind is MemberKind.COMMON]
    assert commons
    for m in commons:
        assert [c.kind for c in m.carriers] == [CarrierKind.WALL, CarrierKind.SUPPORT, CarrierKind.WALL]
        assert [b.at_ft for b in m.between] == pytest.approx([14 - 1 / 3])
        assert m.longest_span_ft == pytest.approx(14 - 1 / 3)
    held = [m.bearing for m in run.schedule.marks if m.bearing.wall == "S1"]
    assert (len(held), len(run.framing.rests)) == ((len(commons), 0) if holds_down else (0, len(commons)))
    numbered = held if holds_down else run.framing.rests
    assert [b.mark for b in numbered] == [f"S1-{n:02d}" for n in range(1, len(commons) + 1)]
    assert [b.station_ft for b in numbered] == sorted(b.station_ft for b in numbered)
    assert run.flags == ()


def test_a_wall_that_only_pushes_changes_no_uplift_of_the_outside_walls() -> None:
    """Two equal spans not held at the middle put 1.0 wL on the ends: what they put there without the support."""
    with_wall = run_of(BOX, support((0, 14), (40, 14)), type=RoofType.GABLE)
    without = run_of(BOX, type=RoofType.GABLE)
    np.testing.assert_allclose(with_wall.reactions.uplift_lb, without.reactions.uplift_lb, rtol=1e-9)
    assert all(
        "lifted off the supports" in m.case for m in with_wall.schedule.marks if m.bearing.kind is MemberKind.COMMON
    )


def test_a_wall_that_holds_down_takes_the_uplift_of_two_equal_spans_held_at_the_middle() -> None:
    """0.375 wL and 1.25 wL under an even dead load (AWC Design Aid No. 6, figure 29, from memory)."""
    wall = support((0, 14), (40, 14), holds_down=True)
    run = run_of(BOX, wall, type=RoofType.GABLE, overhang_ft=0.0, basis=Basis.MWFRS)
    name = common_at_mid_length(run)
    dead = {b.wall: -run.reactions.by_case_lb[i, 0] for i, b in enumerate(run.framing.bearings) if b.member == name}
    span_ft, top_psf, ceiling_psf = 14 - 1 / 3, 10.0, 5.0
    w_plf = 2.0 * (top_psf + ceiling_psf)
    on_the_wall_lb = 2.0 * top_psf / 3  # the roof over the outer half of the wall, beyond the bearing
    assert dead["S1"] == pytest.approx(1.25 * w_plf * span_ft, rel=0.01)
    assert dead["W1"] == pytest.approx(0.375 * w_plf * span_ft + on_the_wall_lb, rel=0.01)
    assert sum(dead.values()) == pytest.approx(2 * (w_plf * span_ft + on_the_wall_lb), rel=1e-9)


def test_a_chord_along_a_wall_needs_no_girder_and_trusses_stand_on_it_from_both_sides() -> None:
    open_house = run_of(TEE)
    assert [m.kind for m in open_house.framing.members].count(MemberKind.GIRDER) == 1
    run = run_of(TEE, support((20, 0.3), (44, 0.3), holds_down=True))
    assert MemberKind.GIRDER not in [m.kind for m in run.framing.members]
    on_it = {b.member for b in run.framing.bearings if b.wall == "S1"}
    assert len(on_it) > 10
    assert all(CarrierKind.SUPPORT in [c.kind for c in run.framing.member(name).carriers] for name in on_it)


@pytest.mark.parametrize(("wall_ft", "truss_ft"), [(27.6667, 28.0625), (28.0, 28.3958)])
def test_a_porch_s_last_truss_stands_beside_the_wall_on_which_the_house_s_trusses_end(
    wall_ft: float, truss_ft: float
) -> None:
    """A porch wing 20 ft wide behind a house 28 ft deep, over a wall of 8 in. along its mouth: the house's trusses come
    at that wall square, so the porch's, 1-1/2 in. thick, lies against the wall's outer face: 4 in. and 3/4 in. out.
    """
    behind = [(0, 0), (60, 0), (60, 28), (40, 28), (40, 36), (20, 36), (20, 28), (0, 28)]
    run = run_of(behind, support((20, wall_ft), (40, wall_ft), holds_down=True))
    spanning = [m for m in run.framing.members if m.kind in (MemberKind.COMMON, MemberKind.STEP_DOWN)]
    porch = sorted((m for m in spanning if m.start_ft[1] == m.end_ft[1]), key=lambda m: m.start_ft[1])
    assert porch[0].start_ft == pytest.approx((20 + 1 / 3, truss_ft), abs=1e-3)
    assert {c.kind for m in porch for c in m.carriers} == {CarrierKind.WALL}
    on_it = [m for m in spanning if any(c.name == "S1" for c in m.carriers)]
    assert len(on_it) >= 9
    assert all(m.start_ft[0] == m.end_ft[0] and m.end_ft[1] == pytest.approx(wall_ft) for m in on_it)
    assert run.flags == ()


def test_ends_on_a_wall_that_is_not_tied_down_get_marks_without_anchors_and_are_flagged() -> None:
    run = run_of(TEE, support((20, 0.3), (44, 0.3)))
    marks = [m for m in run.schedule.marks if m.bearing.on_support]
    assert marks
    assert all((m.anchor, m.count, m.bearing.by_engineer, m.resolved) == (None, 0, True, True) for m in marks)
    worst = max(marks, key=lambda m: m.uplift_lb)
    assert run.flags == (
        f"support S1 is not tied down, but truss ends that stand on it lift, up to {worst.uplift_lb:,.0f} lb at "
        f"{worst.mark}: write holds_down = true and tie it down, or ask the truss engineer",
    )


def test_a_girder_ends_where_a_wall_along_it_begins() -> None:
    run = run_of(TEE, support((20, 0.3), (30, 0.3), holds_down=True))
    girder = next(m for m in run.framing.members if m.kind is MemberKind.GIRDER)
    assert [(c.kind, c.name) for c in girder.carriers] == [(CarrierKind.SUPPORT, "S1"), (CarrierKind.WALL, "W4")]
    assert girder.span_ft == pytest.approx(44 - 1 / 3 - 30)
    last = [b for b in run.framing.bearings if b.wall == "S1"][-1]
    assert (last.member, last.station_ft) == (girder.name, pytest.approx(10.0))


@pytest.mark.parametrize("post", [((43, -1), (43, 1.5)), ((42, 0.3), (44, 0.3))], ids=["across", "along"])
def test_a_girder_over_40_ft_that_a_post_halves_is_no_longer_flagged(post: tuple[Point, Point]) -> None:
    assert "spans 45.3 ft, over 40 ft" in run_of(WIDE).flags[0]
    run = run_of(WIDE, support(*post, kind="beam", holds_down=True))
    girder = next(m for m in run.framing.members if m.kind is MemberKind.GIRDER)
    assert [c.kind for c in girder.carriers] == [CarrierKind.WALL, CarrierKind.SUPPORT, CarrierKind.WALL]
    assert girder.longest_span_ft == pytest.approx(22.667, abs=0.01)
    assert not any("over 40 ft" in flag for flag in run.flags)


def test_a_chord_ends_on_a_wall_that_is_tied_down_from_wall_to_wall() -> None:
    """Else it runs on to the far wall, 40 ft; the wall cuts the trusses across it in two."""
    run = make_run(supported_plan("a chord on a wall"), shipped_catalogue())
    assert all(not m.between for m in run.framing.members)
    ends = [b for b in run.framing.bearings if b.wall == "S1"]
    assert len({(round(b.station_ft, 3)) for b in ends}) < len(ends)


@pytest.mark.parametrize(
    ("start", "end", "kind", "sentence"),
    [
        (
            (0, 27),
            (40, 27),
            "bearing wall",
            "Support S1 lies within 6 in. of wall W3 and is left out: the trusses stand on the wall.",
        ),
        (
            (13, 1),
            (13, 27),
            "bearing wall",
            "Support S1 carries nothing: no truss ends on it or crosses it 2 ft or more from the truss's own ends.",
        ),
        (
            (8, 2),
            (32, 2),
            "beam",
            "Support S1 carries nothing: no truss ends on it or crosses it 2 ft or more from the truss's own ends.",
        ),
    ],
    ids=["beside a wall", "along the trusses", "under the trusses' ends"],
)
def test_a_support_that_carries_nothing_is_said(start: Point, end: Point, kind: str, sentence: str) -> None:
    run = run_of(BOX, support(start, end, kind), type=RoofType.GABLE)
    assert sentence in run.notes
    assert not any(m.bearing.on_support for m in run.schedule.marks)
    assert run.framing.rests == ()


def test_ends_on_a_porch_beam_are_listed_apart() -> None:
    run = make_run(supported_plan("a porch"), shipped_catalogue())
    there = [m for m in run.schedule.marks if m.bearing.wall == "S1"]
    assert run.schedule.by_engineer == tuple(there)
    assert all((m.anchor, m.count, m.parallel_lb, m.perpendicular_lb) == (None, 0, None, None) for m in there)
    assert all(
        12.0 <= m.bearing.point_ft[0] <= 40.0 and m.bearing.station_ft == pytest.approx(m.bearing.point_ft[0] - 12.0)
        for m in there
    )
    assert not [m for m in run.schedule.marks if m.bearing.wall == "W3" and 12.0 < m.bearing.point_ft[0] < 40.0]
    assert all(m.anchor is not None for m in run.schedule.marks if m.bearing.wall == "S2")
    worst = max(there, key=lambda m: m.uplift_lb)
    assert (
        f"On porch beam S1 stand {len(there)} truss ends without a tie-beam anchor, listed apart: order their post and "
        f"beam connections from the engineer, up to {worst.uplift_lb:,.0f} lb up at {worst.mark}."
    ) in run.notes
    assert (
        "Support S2 stands between a porch and the rooms: its anchors take the wind's push square to it as those of "
        "an outside wall do."
    ) in run.notes
    assert run.flags == ()


def test_a_wall_s_strips_end_where_a_porch_beam_stands_in_its_place() -> None:
    run = make_run(supported_plan("a porch"), shipped_catalogue())
    wall = next(i for i, w in enumerate(run.outline.walls) if w.name == "W3")
    strips = [s for s in wall_strips(run.outline, run.framing.bearings, run.framing.porch_beams) if s.wall == wall]
    assert sum(s.length_ft for s in strips) == pytest.approx(46.0 - 28.0)
    assert all(s.to_ft <= 6.0 + 1e-9 or s.from_ft >= 34.0 - 1e-9 for s in strips)


def test_gravity_that_lifts_a_short_end_is_flagged() -> None:
    run = run_of(BOX, support((0, 25), (40, 25), holds_down=True), type=RoofType.GABLE, speed_mph=85.0)
    assert any(f.startswith("gravity alone lifts common ") and "runs on over a support" in f for f in run.flags)
