"""What a symbol means: the same on every sheet that is made from one catalogue."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import shapely
from shapely.geometry import LineString, Point

from export.paper.sheet import Circle, Fill, Line, Polyline, Shape, Sign, Text
from export.paper.symbols import RADIUS_IN, SHAPES, sign_strokes, signs_of, used_signs
from framing.run import Run, make_run


def test_a_revision_with_another_minimum_keeps_every_symbol_of_the_first(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("mixed_gable_hip")
    heaviest = max(run.schedule.catalogue.anchors, key=lambda a: a.allowable_uplift_lb).id
    plan = replace(run.plan, anchors=replace(run.plan.anchors, minimum=heaviest))
    second = make_run(plan, run.schedule.catalogue)
    assert used_signs(second).keys() != used_signs(run).keys()
    assert signs_of(second) == signs_of(run)


def test_past_the_shapes_that_stay_apart_a_ring_holds_the_id_s_number(sample_run: Callable[[str], Run]) -> None:
    run = sample_run("hip_house")
    some = run.schedule.catalogue.anchors[0]
    many = tuple(replace(some, id=f"type {k}", order=k) for k in range(30))
    catalogue = replace(run.schedule.catalogue, anchors=many)
    signs = signs_of(replace(run, schedule=replace(run.schedule, catalogue=catalogue)))
    assert len(set(signs.values())) == 30
    last = sign_strokes(signs["type 29"], (0.0, 0.0), 0.0)
    assert [s.text for s in last if isinstance(s, Text)] == ["30"]
    assert signs["type 29"].shape is Shape.NUMBERED


def test_no_two_shapes_cover_nearly_the_same_ink() -> None:
    inked = [_ink(sign_strokes(Sign(shape=shape), (0.0, 0.0), 0.0)) for shape in SHAPES]
    whole = Point(0, 0).buffer(RADIUS_IN).area
    for i, a in enumerate(inked):
        assert all(a.symmetric_difference(b).area > 0.08 * whole for b in inked[:i])


def _ink(strokes: tuple[object, ...]) -> shapely.Geometry:
    """What is black of a symbol, its pen at the width of a medium line."""
    parts = []
    for s in strokes:
        if isinstance(s, Circle):
            disc = Point(s.centre).buffer(s.radius_in)
            parts.append(disc if s.fill is Fill.BLACK else disc.boundary.buffer(0.007))
        elif isinstance(s, Polyline):
            ring = shapely.Polygon(s.points)
            parts.append(ring if s.fill is Fill.BLACK else ring.boundary.buffer(0.007))
        elif isinstance(s, Line):
            parts.append(LineString([s.start, s.end]).buffer(0.007))
    return shapely.union_all(parts)
