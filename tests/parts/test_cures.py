"""What a refusal of an outline or a layout tells to do frames the house: each plan is refused, and framed once that,
and nothing else, is done. The plans are invented; what was done is read off the sentence beside it.
"""

from __future__ import annotations

import math

import pytest

from framing.errors import StraplineError
from framing.layout.assembly import build_framing
from framing.plan import GableWall, Plan, Point, RoofEdge, RoofType
from framing.plan_file.outline_rules import check_outline, check_walls
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of

BOX: list[Point] = [(0, 0), (40, 0), (40, 28), (0, 28)]
CLIPPED: list[Point] = [(0, 0), (36, 0), (40, 4), (40, 28), (0, 28)]
POINTED: list[Point] = [(0, 0), (40, 0), (0, 20), (0, 28), (-20, 28), (-20, 0)]
DIAGONAL: list[Point] = [(12, 0), (60, 0), (60, 35), (0, 35), (0, 12)]
SLIT: list[Point] = [(5.75, 6.25), (7.75, 8.25), (8.25, 7.75), (6.25, 5.75)]
HOOK: list[Point] = [
    *[(4, 0), (40, 0), (40, 40), (15, 40), (15, 23), (25, 23)],
    *[(25, 30), (30, 30), (30, 20), (0, 20), (0, 4)],
]


def gables(*walls: str) -> tuple[RoofEdge, ...]:
    return tuple(RoofEdge(wall=w, type=RoofType.GABLE, from_ft=None, to_ft=None) for w in walls)


def tip_cut(at: Point, before: Point, after: Point, by_ft: float) -> list[Point]:
    """The two ends of a wall of a length that cuts a corner's tip off, as far along both its sides."""
    unit = [((x - at[0]) / math.dist((x, y), at), (y - at[1]) / math.dist((x, y), at)) for x, y in (before, after)]
    along = by_ft / math.dist(*unit)
    return [(at[0] + along * u, at[1] + along * v) for u, v in unit]


def chambered(overhang_ft: float) -> Plan:
    """Eaves of 2 ft on each side of a chamber 9.5 ft by 4.5 ft leave a hole of 5.5 ft by 6 in."""
    mouth = [(31.5, 40.0), (31.5, 34.5), (34.5, 34.5), (34.5, 30.0), (25.0, 30.0), (25.0, 34.5), (28.0, 34.5)]
    return plan_of([(0, 0), (60, 0), (60, 40), *mouth, (28, 40), (0, 40)], overhang_ft=overhang_ft)


def dumbbell(neck_ft: float) -> Plan:
    return plan_of([(0, 0), (42, 0), (42, 20), (22, 20), (22, neck_ft), (20, neck_ft), (20, 20), (0, 20)])


def gabled_hook(overhang_ft: float, rake_ft: float, gap_ft: float = 3.0) -> Plan:
    """A gable, W5, across a gap from W9, with a corner clipped so that eaves are those of angled walls."""
    low = [(x, y - gap_ft + 3.0 if y < 23 else y) for x, y in HOOK]
    return plan_of(low, edges=gables("W5"), overhang_ft=overhang_ft, rake_overhang_ft=rake_ft)


def notched(depth_ft: float, straighten_ft: float = 1 / 24) -> Plan:
    """A step too short for a side in the long wall: over 1/2 in., under 1 in."""
    return plan_of([(0, 0), (20, 0), (20, -depth_ft), (40, -depth_ft), (40, 28), (0, 28)], straighten_ft=straighten_ft)


CURES = [
    (
        "cut its tip off by a wall of 2'-0\" or more",
        plan_of(POINTED),
        plan_of([POINTED[0], *tip_cut(POINTED[1], POINTED[0], POINTED[2], 2.0), *POINTED[2:]]),
    ),
    ("draw the part between it and W8 closed", plan_of([*DIAGONAL, *SLIT]), plan_of(DIAGONAL)),
    ("leave the mark out", plan_of(CLIPPED, edges=gables("W2")), plan_of(CLIPPED)),
    ("mark such a wall", plan_of(CLIPPED, edges=gables("W2")), plan_of(CLIPPED, edges=gables("W5"))),
    (
        "leave the mark out",
        plan_of(BOX, edges=(RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=4.0, to_ft=20.0),)),
        plan_of(BOX),
    ),
    (
        "mark the whole end of a wing",
        plan_of(BOX, edges=(RoofEdge(wall="W2", type=RoofType.GABLE, from_ft=4.0, to_ft=20.0),)),
        plan_of(BOX, edges=gables("W2")),
    ),
    ("mark one of them", plan_of(BOX, edges=gables("W1", "W2")), plan_of(BOX, edges=gables("W2"))),
    ("or two that face one another", plan_of(BOX, edges=gables("W1", "W2")), plan_of(BOX, edges=gables("W2", "W4"))),
    (
        "make the overhang 1'-5\" or less and the rake overhang too",
        gabled_hook(2.0, 3.5),
        gabled_hook(17 / 12, 17 / 12),
    ),
    ("widen the recess to more than twice the overhang", gabled_hook(2.0, 3.5), gabled_hook(2.0, 3.5, gap_ft=7.1)),
    ("make the overhang 2'-3\" to close it", chambered(2.0), chambered(2.25)),
    ("or 1'-9\" to leave it 1 ft wide", chambered(2.0), chambered(1.75)),
    (
        "W1 and W5, a part about as narrow as the walls leaves a girder no length; move one of the two so that it is "
        "2'-0\" or more",
        dumbbell(0.5),
        dumbbell(2.0),
    ),
    ("or draw them as one straight wall", dumbbell(0.5), plan_of([(0, 0), (42, 0), (42, 20), (0, 20)])),
    (
        "the pitch flatter",
        plan_of([(0, 0), (240, 0), (240, 240), (0, 240)], rise_per_run=1.0),
        plan_of([(0, 0), (240, 0), (240, 240), (0, 240)], rise_per_run=0.75),
    ),
    (
        'write "truss" for a gable-end truss',
        plan_of(BOX, type=RoofType.GABLE, gable_wall=GableWall.MASONRY),
        plan_of(BOX, type=RoofType.GABLE, gable_wall=GableWall.TRUSS),
    ),
    ('make it 1" or more', notched(5 / 96), notched(1 / 12)),
    ("or write walls straighten larger than it", notched(5 / 96), notched(5 / 96, straighten_ft=1 / 16)),
    ("exchange corners 2 and 3", plan_of([BOX[0], BOX[2], BOX[1], BOX[3]]), plan_of(BOX)),
    ("write each corner once", plan_of([*BOX[:2], BOX[1], *BOX[2:]]), plan_of(BOX)),
    ("leave it out", plan_of([*BOX, BOX[0]]), plan_of(BOX)),
]


def framed(plan: Plan) -> bool:
    check_outline(plan.outline_ft, plan.straighten_ft)
    check_walls(plan)
    outline = build_outline(plan)
    return bool(build_framing(plan, outline, build_roof(plan, outline)).bearings)


@pytest.mark.parametrize(("cure", "refused", "cured"), CURES, ids=[c[0][:40] for c in CURES])
def test_what_a_refusal_tells_to_do_frames_the_house(cure: str, refused: Plan, cured: Plan) -> None:
    with pytest.raises(StraplineError) as told:
        framed(refused)
    assert cure in str(told.value)
    assert framed(cured)
