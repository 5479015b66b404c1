"""Outlines of many angled walls: the wings of a house of 120 corners are found in little memory."""

from __future__ import annotations

import math
import tracemalloc

from framing.roof.wings import largest_rectangles
from framing.walls.outline import build_outline
from framing.walls.squared_outline import square_off
from invariants.houses import plan_of

N_CORNERS = 120
MOST_BYTES = 50e6  # the way over all pairs of lines in both directions at once took 12.9 GB for 140 corners


def test_the_wings_of_a_round_house_are_found_in_50_mb_and_none_lies_in_another() -> None:
    turns = [2.0 * math.pi * k / N_CORNERS for k in range(N_CORNERS)]
    round_house = build_outline(plan_of([(60 + 60 * math.cos(a), 60 + 60 * math.sin(a)) for a in turns]))
    squared = square_off(round_house).outline
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
