"""Parts of the outline from 8 in. to 3 ft wide: under 1 ft clear they are piers, and the house is framed as without
them; from there on they are framed. One rule at every width, in the middle of a wall, at outside and inside corners.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
import shapely

from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan import Plan, Point, RoofType
from framing.plan_file.outline_rules import check_outline
from framing.run import Run, make_run
from invariants.houses import plan_of

THICKNESS_FT = 2 / 3
PIER_UNDER_FT = 2 * THICKNESS_FT + 1.0
WIDTHS_IN = (8, 10, 12, 16, 18, 20, 22, 24, 26, 27.9, 28, 28.1, 30, 32, 36)
BOX: list[Point] = [(0, 0), (40, 0), (40, 28), (0, 28)]
ELL: list[Point] = [(0, 0), (40, 0), (40, 28), (24, 28), (24, 48), (0, 48)]


def middle(w: float, deep: float) -> tuple[list[Point], list[Point]]:
    return BOX, [(0, 0), (12, 0), (12, -deep), (12 + w, -deep), (12 + w, 0), *BOX[1:]]


def outside_corner(w: float, deep: float) -> tuple[list[Point], list[Point]]:
    return BOX, [(0, 0), (40, 0), (40, 28), (w, 28), (w, 28 + deep), (0, 28 + deep)]


def inside_corner(w: float, deep: float) -> tuple[list[Point], list[Point]]:
    """A thicker stretch of the ell's wall from its inside corner on: no part with two sides, but a step."""
    return ELL, [*ELL[:3], (24 + w, 28), (24 + w, 28 + deep), (24, 28 + deep), *ELL[4:]]


def beside_inside_corner(w: float, deep: float) -> tuple[list[Point], list[Point]]:
    """Along the same wall, a foot and a half off the inside corner."""
    return ELL, [*ELL[:3], (25.5 + w, 28), (25.5 + w, 28 + deep), (25.5, 28 + deep), (25.5, 28), *ELL[3:]]


def run_of(outline: list[Point], roof: RoofType, pitch: float = 5 / 12) -> Run:
    plan: Plan = plan_of(outline, type=roof, rise_per_run=pitch, wall_thickness_ft=THICKNESS_FT)
    check_outline(plan.outline_ft, plan.straighten_ft)
    return make_run(plan, shipped_catalogue())


Place = Callable[[float, float], tuple[list[Point], list[Point]]]
ROOFS = [RoofType.HIP, pytest.param(RoofType.GABLE, marks=pytest.mark.full)]
PLACES = (middle, outside_corner, beside_inside_corner)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("roof", ROOFS)
def test_a_part_under_1_ft_clear_is_drawn_and_the_house_framed_as_without_it(place: Place, roof: RoofType) -> None:
    clean = run_of(place(1.0, 3.0)[0], roof)
    uplift = [m.uplift_lb for m in clean.schedule.marks]
    for width_in in WIDTHS_IN:
        if width_in / 12 < PIER_UNDER_FT - 1e-9:
            run = run_of(place(width_in / 12, 3.0)[1], roof)
            assert [m.mark for m in run.schedule.marks] == [m.mark for m in clean.schedule.marks]
            assert np.allclose([m.uplift_lb for m in run.schedule.marks], uplift, atol=1e-6)
            (pier,) = run.outline.piers_ft
            assert shapely.Polygon(pier).area == pytest.approx(width_in / 12 * 3.0, abs=1e-3)
            assert [n for n in run.notes if "pier" in n] == [run.notes[0]]


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("roof", ROOFS)
def test_a_wider_part_is_framed_and_nothing_spans_under_1_ft_unsaid(place: Place, roof: RoofType) -> None:
    for width_in in WIDTHS_IN:
        for deep in (1.0, 3.0):
            if width_in / 12 >= PIER_UNDER_FT - 1e-9:
                run = run_of(place(width_in / 12, deep)[1], roof)
                assert run.outline.piers_ft == ()
                assert len(run.outline.walls) == len(place(width_in / 12, deep)[1])
                assert_no_truss_under_1_ft_unsaid(run)


@pytest.mark.parametrize("roof", ROOFS)
def test_a_step_at_an_inside_corner_is_framed_at_every_width(roof: RoofType) -> None:
    for width_in in WIDTHS_IN:
        run = run_of(inside_corner(width_in / 12, 3.0)[1], roof)
        assert run.outline.piers_ft == ()
        assert_no_truss_under_1_ft_unsaid(run)


def assert_no_truss_under_1_ft_unsaid(run: Run) -> None:
    short = [m.name for m in run.framing.members if m.kind in ("common", "step-down", "girder") and m.span_ft < 1.0]
    said = [f for f in run.flags if "no truss is built under 1 ft" in f]
    assert len(said) == len(short)
    for m in run.schedule.marks:
        wall = next((w for w in run.outline.walls if w.name == m.bearing.wall), None)
        assert wall is None or -1e-6 <= m.bearing.station_ft <= wall.length_ft + 1e-6


def test_a_pier_with_a_return_goes_whole() -> None:
    """An L of masonry 8 in. thick, as a screen wall beside a door."""
    w = THICKNESS_FT
    ring = [(0, 0), (10, 0), (10, -4), (14, -4), (14, -4 + w), (10 + w, -4 + w), (10 + w, 0), *BOX[1:]]
    run = run_of(ring, RoofType.HIP)
    assert [w.length_ft for w in run.outline.walls] == [40.0, 28.0, 40.0, 28.0]
    assert shapely.Polygon(run.outline.piers_ft[0]).area == pytest.approx(w * 4 + w * (4 - w), abs=1e-4)


def test_a_neck_under_1_ft_clear_between_two_rooms_is_no_pier_and_what_spans_it_is_flagged() -> None:
    neck = 1.5
    ring = [(0, 0), (20, 0), (20, 10), (26, 10), (26, 0), (46, 0), (46, 24), (26, 24), (26, 10 + neck), (20, 10 + neck)]
    run = run_of([*ring, (20, 24), (0, 24)], RoofType.HIP)
    assert run.outline.piers_ft == ()
    assert any("no truss is built under 1 ft" in f for f in run.flags)


def test_the_same_holds_for_an_outline_typed_the_other_way_round_and_from_inside_the_pier() -> None:
    _, ring = middle(1.0, 3.0)
    for typed in (ring[::-1], [*ring[2:], *ring[:2]], [*ring[3:], *ring[:3]]):
        run = run_of(typed, RoofType.HIP)
        assert sorted(w.length_ft for w in run.outline.walls) == [28.0, 28.0, 40.0, 40.0]
