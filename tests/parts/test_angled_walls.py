"""Marks on angled walls: where a truss crosses its wall askew. Expected figures are plane geometry by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest
from shapely.geometry import LineString
from shapely.geometry import Point as Spot

from export.wall_marks.tape_marks import tick_words, wall_tapes
from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind
from framing.run import Run, make_run
from invariants.houses import plan_of

CLIPPED = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
BAY = [(0, 0), (12, 0), (14.5, -2.5), (20.5, -2.5), (23, 0), (40, 0), (40, 28), (0, 28)]


@pytest.fixture(scope="module")
def clipped() -> Run:
    return make_run(plan_of(CLIPPED), shipped_catalogue())


@pytest.fixture(scope="module")
def bay() -> Run:
    return make_run(plan_of(BAY), shipped_catalogue())


def test_a_jack_that_crosses_a_45_degree_wall_bears_on_root_two_of_its_thickness(clipped: Run) -> None:
    jacks = [m for m in clipped.schedule.marks if m.bearing.wall == "W2" and m.bearing.kind is MemberKind.SIDE_JACK]
    assert len(jacks) == 2
    for mark in jacks:
        assert mark.bearing.skew_deg == pytest.approx(45.0)
        assert 12 * mark.bearing.bearing_length_ft == pytest.approx(8.0 * math.sqrt(2.0))


def test_its_strap_is_marked_where_the_truss_face_crosses_the_wall(clipped: Run) -> None:
    """Half of 1-1/2 in. lumber at 45 degrees is 3/4 in. times root two along the wall; the strap point lies on the
    truss's face, 3/4 in. off its centre line.
    """
    members = {m.name: m for m in clipped.framing.members}
    for mark in (
        m for m in clipped.schedule.marks if m.bearing.wall == "W2" and m.bearing.kind is MemberKind.SIDE_JACK
    ):
        assert 12 * (mark.bearing.station_ft - mark.bearing.strap_station_ft) == pytest.approx(0.75 * math.sqrt(2.0))
        jack = members[mark.bearing.member]
        along = np.subtract(jack.end_ft, jack.start_ft) / jack.span_ft
        off = np.subtract(mark.bearing.strap_ft, mark.bearing.point_ft)
        assert 12 * abs(along[0] * off[1] - along[1] * off[0]) == pytest.approx(0.75)


def test_the_corner_jack_meets_the_clipped_corner_square_and_in_its_middle(clipped: Run) -> None:
    (mark,) = [m for m in clipped.schedule.marks if m.bearing.wall == "W2" and m.bearing.kind is MemberKind.CORNER_JACK]
    assert mark.bearing.skew_deg == pytest.approx(0.0, abs=1e-6)
    assert mark.bearing.station_ft == pytest.approx(2.0 * math.sqrt(2.0), abs=1e-6)


def test_every_bearing_lies_at_mid_thickness_of_its_wall(clipped: Run, bay: Run) -> None:
    for run in (clipped, bay):
        for b in run.framing.bearings:
            wall = run.outline.wall(b.wall)
            line = LineString([wall.point_ft(-1.0, 1 / 3), wall.point_ft(wall.length_ft + 1.0, 1 / 3)])
            assert line.distance(Spot(b.point_ft)) <= 1e-6


def test_a_bay_is_framed_by_jacks_onto_the_girder_over_its_mouth(bay: Run) -> None:
    """Common practice, no source: the bay's walls carry jacks that hang on a girder in the line of the house wall."""
    on_front = [m for m in bay.schedule.marks if m.bearing.wall == "W3"]
    assert [m.bearing.kind for m in on_front] == [MemberKind.END_JACK] * len(on_front)
    assert len(on_front) >= 2
    girder = next(m for m in bay.framing.members if m.kind is MemberKind.GIRDER)
    assert {c.name for c in girder.carriers} == {"W2", "W4"}
    carried = {m.name for m in bay.framing.members if any(c.name == girder.name for c in m.carriers)}
    assert {m.bearing.member for m in on_front} <= carried


def test_the_crew_is_told_that_the_truss_crosses_askew(clipped: Run) -> None:
    (tape,) = [t for t in wall_tapes(clipped) if t.name == "W2"]
    words = [tick_words(t) for t in tape.ticks if t.mark.bearing.kind is MemberKind.SIDE_JACK]
    assert words == ['truss 45 deg off square; bears 11 5/16"; 4" in from face'] * 2


def test_the_clipped_corner_takes_the_edge_zones_of_its_own_eave(clipped: Run) -> None:
    """Every patch within a of the angled eave is in an edge zone of the cladding figures, zone 1 nowhere there."""
    patches, a_ft = clipped.patches, clipped.loads.widths.a_ft
    (eave,) = clipped.roof.angled_eaves
    near = np.array([LineString(eave).distance(Spot(p)) < a_ft / 2 for p in patches.point_ft])
    assert near.any()
    assert (patches.at_angled_eave | patches.at_angled_hip | ~near | _past_the_ends(eave, patches.point_ft)).all()


def _past_the_ends(eave: tuple[tuple[float, float], ...], points: np.ndarray) -> np.ndarray:
    (a, b) = np.array(eave)
    along = (points - a) @ (b - a) / ((b - a) @ (b - a))
    out: np.ndarray = (along < 0.0) | (along > 1.0)
    return out
