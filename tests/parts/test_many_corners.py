"""Outlines of many angled walls: few wings stand for a curve, and those of 120 corners are found in little memory."""

from __future__ import annotations

import math
import tracemalloc

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Polygon

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.chapter30 import edge_strip_ft
from framing.roof.wings import largest_rectangles
from framing.run import make_run
from framing.walls.outline import Outline, build_outline
from framing.walls.squared_outline import square_off
from invariants.houses import plan_of

N_CORNERS = 120
MOST_WINGS = 40  # a leg to every wall made some 240 of 140 corners
MOST_BYTES = 50e6  # the way over all pairs of lines in both directions at once took 12.9 GB for 140 corners


def round_house(n_corners: int) -> Outline:
    turns = [2.0 * math.pi * k / n_corners for k in range(n_corners)]
    return build_outline(plan_of([(60 + 60 * math.cos(a), 60 + 60 * math.sin(a)) for a in turns]))


def test_the_wings_of_a_round_house_are_found_in_50_mb_and_none_lies_in_another() -> None:
    squared = square_off(round_house(N_CORNERS)).outline
    tracemalloc.start()
    found = largest_rectangles(squared)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < MOST_BYTES
    for a, b in found:
        assert not any(
            c[0] <= a[0] and c[1] <= a[1] and d[0] >= b[0] and d[1] >= b[1] for c, d in found if (c, d) != (a, b)
        )
    xs, ys = ({p[k] for p in squared.local_ft} for k in (0, 1))
    assert {a[0] for a, _ in found} | {b[0] for _, b in found} == xs
    assert {a[1] for a, _ in found} | {b[1] for _, b in found} == ys


@pytest.mark.parametrize("n_corners", [70, 140, 200])
def test_a_curve_is_squared_off_in_steps_of_some_feet_around_the_house(n_corners: int) -> None:
    outline = round_house(n_corners)
    squared = square_off(outline).outline
    assert len(largest_rectangles(squared)) < MOST_WINGS
    assert min(w.length_ft for w in squared.walls) >= 1.0
    around = Polygon(squared.local_ft)
    assert around.buffer(1e-6).contains(Polygon(outline.local_ft))
    assert (
        shapely.hausdorff_distance(around, Polygon(outline.local_ft)) < 12.0
    )  # a step of 8 ft either way at 45 degrees


def test_the_strips_along_the_hips_and_eaves_of_angled_walls_are_cut_out_of_the_patches() -> None:
    """Geometry: no patch lies half in a strip, so that those marked are the strips as far as they lie on the roof. Two
    bays, so that their strips are apart; a strip is as wide as figs. 30.3-2A to 2G say.
    """
    bays = [(6, 0), (8, -2), (12, -2), (14, 0), (46, 0), (48, -2), (52, -2), (54, 0)]
    run = make_run(plan_of([(0, 0), *bays, (60, 0), (60, 34), (0, 34)]), shipped_catalogue())
    width = edge_strip_ft(run.plan.roof.theta_deg, run.loads.widths.a_ft, run.loads.widths.h_ft)
    area = shapely.area(run.patches.polygon)
    marked = (run.patches.at_angled_eave, run.roof.angled_eaves), (run.patches.at_angled_hip, run.roof.angled_hips)
    for inside, lines in marked:
        strips = shapely.union_all([LineString(line).buffer(width, cap_style="flat") for line in lines])
        on_roof = strips.intersection(run.roof.eave_in_frame).area
        assert float(np.sum(area[inside])) == pytest.approx(on_roof, rel=1e-6)
