"""The sign of a truss that does not cross its wall square: it leans as the member itself does in plan."""

from __future__ import annotations

import math

import pytest

from drawings import marked_run
from export.paper.sheet import Layer, Line, Polyline
from export.wall_marks.crossing_signs import crossing_sign
from export.wall_marks.tape_marks import Tick, wall_tapes
from framing.members import Crossing

RUNS = {name: marked_run.sample(name) for name in ("hip_house", "bay_and_corners", "cottage")}


def ticks(name: str, crossing: Crossing) -> list[Tick]:
    return [t for tape in wall_tapes(RUNS[name]) for t in tape.ticks if t.mark.bearing.crossing is crossing]


@pytest.mark.parametrize("name", RUNS)
def test_a_truss_leans_by_its_skew_and_the_way_its_member_runs(name: str) -> None:
    run = RUNS[name]
    for tape in wall_tapes(run):
        if tape.name.startswith("S"):
            continue
        wall = run.outline.wall(tape.name)
        for tick in tape.ticks:
            b = tick.mark.bearing
            if b.crossing is Crossing.ALONG:
                continue
            assert abs(tick.lean_deg) == pytest.approx(b.skew_deg, abs=0.01)
            if b.skew_deg > 1.0:  # the member's other end lies that way along the wall
                m = run.framing.member(b.member)
                middle = [(m.start_ft[i] + m.end_ft[i]) / 2 - b.point_ft[i] for i in (0, 1)]
                along = -wall.outward[1] * middle[0] + wall.outward[0] * middle[1]
                assert math.copysign(1.0, along) == math.copysign(1.0, tick.lean_deg)


def test_a_corner_jack_at_start_leans_inward_to_the_far_end_and_its_strap_lies_toward_start() -> None:
    jacks = ticks("hip_house", Crossing.DIAGONAL)
    assert len(jacks) == 4
    for tick in jacks:
        strokes = crossing_sign(tick, 0.0, 0.0)
        edges = [s for s in strokes if isinstance(s, Line) and s.layer is Layer.DETAIL]
        assert len(edges) == 2
        for edge in edges:  # up on the sheet is into the house, to the right is the far end
            low, high = sorted((edge.start, edge.end), key=lambda p: p[1])
            assert high[0] - low[0] == pytest.approx(high[1] - low[1])
        (head,) = (s for s in strokes if isinstance(s, Polyline) and s.layer is Layer.ANCHOR)
        assert min(x for x, _ in head.points) < -0.3


def test_a_gable_end_s_sign_has_the_truss_along_the_wall_and_the_arrow_into_the_house() -> None:
    for tick in ticks("cottage", Crossing.ALONG):
        strokes = crossing_sign(tick, 0.0, 0.0)
        edges = [s for s in strokes if isinstance(s, Line) and s.layer is Layer.DETAIL]
        assert all(edge.start[1] == edge.end[1] for edge in edges)
        (head,) = (s for s in strokes if isinstance(s, Polyline) and s.layer is Layer.ANCHOR)
        assert head.points[0][1] > max(edge.start[1] for edge in edges)


def test_a_strap_in_a_corner_block_has_the_block_around_its_tick() -> None:
    inside = ticks("bay_and_corners", Crossing.CORNER_BLOCK)
    assert inside
    for tick in inside:
        blocks = [s for s in crossing_sign(tick, 0.0, 0.0) if isinstance(s, Polyline) and s.layer is Layer.DETAIL]
        assert len(blocks) == 1
