"""A house drawn from another corner, or mirrored, is the same house: every line of its roof, member, piece of roof and
mark. The frame that it is laid out in then lies along another wall, so that x and y, low and high change places. Each
house has one thing that the layout treats by itself. Lengths are odd, so that nothing is decided by the order typed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from framing.layout.assembly import build_framing
from framing.members import Framing, MemberKind
from framing.plan import Plan, Point, RoofEdge, RoofType, Support, SupportKind
from framing.roof.surface import Roof, build_roof
from framing.walls.outline import build_outline
from invariants.houses import changed_plan, moved, moved_plan, plan_of

Thing = tuple[object, ...]
OFFSET = 0.000137  # keeps the rounding of what two ways of reckoning give from deciding
TEE: list[Point] = [(0, 0), (20, 0), (20, -11.3), (41, -11.3), (41, 0), (63.7, 0), (63.7, 30), (0, 30)]
ELL: list[Point] = [(0, 0), (26.3, 0), (26.3, -15.1), (49, -15.1), (49, 23.7), (0, 23.7)]
JOGS: list[Point] = [
    *((0, 0), (14.2, 0), (14.2, 1.3), (33.1, 1.3), (33.1, 0.4), (52.7, 0.4), (52.7, 13.4), (54.2, 13.4)),
    *((54.2, 27.1), (21.3, 27.1), (21.3, 25.4), (0, 25.4)),
]


def wall_on(house: list[Point], x_ft: float) -> str:
    """The upright wall at x."""
    (k,) = [i for i, (a, b) in enumerate(zip(house, house[1:] + house[:1], strict=True)) if a[0] == b[0] == x_ft]
    return f"W{k + 1}"


def inside(start: Point, end: Point) -> Support:
    return Support(kind=SupportKind.BEARING_WALL, start_ft=start, end_ft=end, holds_down=False)


GABLE_49 = RoofEdge(wall=wall_on(ELL, 49), type=RoofType.GABLE, from_ft=None, to_ft=None)
BAY: list[Point] = [(0, 0), (12.1, 0), (14.6, -2.5), (20.6, -2.5), (23.1, 0), (41.3, 0), (41.3, 27.2), (0, 27.2)]
CLIPPED: list[Point] = [(0, 0), (36.3, 0), (40.6, 4.3), (40.6, 27.4), (0, 27.4)]
SHORT_TAIL: list[Point] = [(0, 0), (20.3, 0), (20.3, -3.1), (41, -3.1), (41, 0), (63.7, 0), (63.7, 29.9), (0, 29.9)]
FLUSH: list[Point] = [(0, 0), (80.3, 0), (80.3, 12.1), (58.2, 12.1), (58.2, 32.3), (0, 32.3)]
LONG_TAIL: list[Point] = [(0, 0), (20, 0), (20, -40.3), (41, -40.3), (41, 0), (63.7, 0), (63.7, 30), (0, 30)]
YOU: list[Point] = [(0, 0), (70.3, 0), (70.3, 50), (46.1, 50), (46.1, 23.9), (24, 23.9), (24, 54.3), (0, 54.3)]
HOUSES: dict[str, Plan] = {
    "a tail": plan_of(TEE),
    "an l": plan_of(ELL),
    "an l with gables": plan_of(ELL, type=RoofType.GABLE),
    "an l with a gable": plan_of(ELL, edges=(GABLE_49,)),
    "jogs": plan_of(JOGS),
    "jogs and gables": plan_of(JOGS, type=RoofType.GABLE),
    "a short tail": plan_of(SHORT_TAIL),
    "a bay": plan_of(BAY),
    "a wing flush with a long wall": plan_of(FLUSH),
    "a long tail": plan_of(LONG_TAIL),
    "a u": plan_of(YOU),
    "a clipped corner and a gable": plan_of(
        CLIPPED, edges=(RoofEdge(wall="W5", type=RoofType.GABLE, from_ft=None, to_ft=None),)
    ),
    "walls inside": plan_of(ELL, supports=(inside((0.4, 12.2), (48.6, 12.2)), inside((40.2, 3.0), (40.2, 5.0)))),
}


def from_corner(plan: Plan, k: int) -> Plan:
    """The same outline typed from another of its corners on."""
    n = len(plan.outline_ft)

    def renamed(wall: str) -> str:
        return f"W{(int(wall[1:]) - 1 - k) % n + 1}"

    turned = replace(plan, outline_ft=plan.outline_ft[k:] + plan.outline_ft[:k])
    edges = tuple(replace(e, wall=renamed(e.wall)) for e in plan.roof.edges)
    return changed_plan(turned, start=renamed(plan.trusses.start), edges=edges)


def laid_out(plan: Plan) -> tuple[Roof, Framing]:
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    return roof, build_framing(plan, outline, roof)


def rounded(*values: float) -> tuple[float, ...]:
    return tuple(round(v + OFFSET, 3) for v in values)


def things(plan: Plan, *, mirror: bool) -> Counter[Thing]:
    """All that a house is made of, by figures that do not depend on how it is typed; mirrored back where it is."""
    roof, framing = laid_out(plan)

    def at(*points: Point) -> tuple[tuple[float, ...], ...]:
        return tuple(rounded(*moved(p, 0.0, mirror=mirror, shift=(0.0, 0.0))) for p in points)

    found: Counter[Thing] = Counter()
    for line in roof.lines:
        ends = ((line.start_ft[:2], line.start_ft[2]), (line.end_ft[:2], line.end_ft[2]))
        found[("line", line.kind, *sorted((*at(p), *rounded(z)) for p, z in ends))] += 1
    for row in members(framing, at):
        found[row] += 1
    for b in (*framing.bearings, *framing.rests):
        found[("mark", b.kind, b.stands_on, b.by_engineer, *at(b.point_ft))] += 1
    for seam in framing.seams_ft:
        found[("seam", *sorted(at(*seam)))] += 1
    return found


def members(framing: Framing, at: object) -> Iterator[Thing]:
    taken: dict[int, list[Polygon]] = {}
    for t in framing.tributaries:
        if not t.beyond:
            taken.setdefault(t.owner, []).append(Polygon(t.ring_ft))
    for i, m in enumerate(framing.members):
        assert callable(at)
        a, b = at(m.start_ft, m.end_ft)
        places, tops = zip(*m.profile, strict=True)
        heights = np.interp(np.linspace(places[0], places[-1], 12), places, tops)
        one, other = (a, *rounded(m.tail_start_ft, *heights)), (b, *rounded(m.tail_end_ft, *heights[::-1]))
        area = shapely.union_all(taken.get(i, [Polygon()])).area
        over = sorted(min(c.at_ft, m.span_ft - c.at_ft) for c in m.between)
        carried = tuple(sorted(c.kind for c in m.carriers)) if m.kind is not MemberKind.VALLEY else ()
        figures = rounded(m.width_ft, m.effective_span_ft, m.base_ft, area, *over)
        yield ("member", m.kind, m.plies, carried, *sorted((one, other)), *figures)


@pytest.mark.parametrize("house", HOUSES)
def test_a_house_typed_from_another_corner_or_mirrored_has_the_same_roof_members_pieces_and_marks(house: str) -> None:
    plan = HOUSES[house]
    wanted = things(plan, mirror=False)
    for k in (1, 2, 3):  # every way that the frame can lie
        assert things(from_corner(plan, k), mirror=False) == wanted, k
    assert things(moved_plan(plan, 0.0, mirror=True), mirror=True) == wanted
