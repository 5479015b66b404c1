"""Which length of wall each bearing holds: plane geometry on straight walls."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.members import MemberKind, PorchBeam
from framing.plan import Porch, RoofEdge, RoofType, Support, SupportKind
from framing.plan_file import read_plan
from framing.run import make_run
from framing.walls.held_lengths import WallStrip, wall_strips
from framing.walls.outline import build_outline
from invariants.houses import SAMPLES, plan_of, random_plan

BOX = plan_of([(0, 0), (40, 0), (40, 24), (0, 24)])


@pytest.mark.parametrize("seed", range(6))
def test_the_strips_of_every_wall_make_up_its_length(seed: int) -> None:
    run = make_run(random_plan(seed), shipped_catalogue())
    strips = wall_strips(run.outline, run.framing.bearings)
    for k, wall in enumerate(run.outline.walls):
        own = [s.length_ft for s in strips if s.wall == k]
        assert not own or sum(own) == pytest.approx(wall.length_ft, abs=1e-9)
        assert all(length >= 0.0 for length in own)


def test_a_bearing_on_a_support_inside_has_no_wall_to_push_it() -> None:
    run = make_run(BOX, shipped_catalogue())
    inside = replace(run.framing.bearings[0], wall="S1")
    strips = wall_strips(build_outline(run.plan), (inside, *run.framing.bearings[1:]))
    assert 0 not in {s.bearing for s in strips}


def three(*beams: tuple[float, float], wall: int = 0) -> list[WallStrip]:
    """Three bearings of W1, 40 ft long, at 10, 20 and 30 ft, beside porch beams from and to given stations."""
    run = make_run(BOX, shipped_catalogue())
    common = next(b for b in run.framing.bearings if b.kind is MemberKind.COMMON)
    bearings = tuple(replace(common, wall="W1", station_ft=at) for at in (10.0, 20.0, 30.0))
    made = tuple(PorchBeam(support=0, wall=wall, from_ft=a, to_ft=b, has_porch=False) for a, b in beams)
    return list(wall_strips(build_outline(run.plan), bearings, made))


@pytest.mark.parametrize(
    ("beams", "strips"),
    [
        ([], [(0, 15), (15, 25), (25, 40)]),
        ([(22, 28)], [(0, 15), (15, 22), (28, 40)]),
        ([(12, 15)], [(0, 12), (15, 25), (25, 40)]),
        ([(10, 20)], [(0, 10), (20, 25), (25, 40)]),
        ([(2, 4), (32, 36)], [(4, 15), (15, 25), (25, 32)]),
        ([(15, 18), (22, 25)], [(0, 15), (18, 22), (25, 40)]),
    ],
)
def test_a_bearing_holds_the_wall_to_midway_and_no_porch_beam(
    beams: list[tuple[float, float]], strips: list[tuple[float, float]]
) -> None:
    assert [(s.from_ft, s.to_ft) for s in three(*beams)] == strips
    assert [(s.from_ft, s.to_ft) for s in three(*beams, wall=2)] == [(0, 15), (15, 25), (25, 40)]


def test_bearings_at_one_station_share_the_strip() -> None:
    """A rounding apart is the same station."""
    run = make_run(replace(BOX, roof=replace(BOX.roof, type=RoofType.GABLE)), shipped_catalogue())
    common = next(b for b in run.framing.bearings if b.kind is MemberKind.COMMON)
    bearings = tuple(replace(common, wall="W1", station_ft=at) for at in (10.0 + 1e-9, 10.0, 30.0))
    found = wall_strips(run.outline, bearings)
    lengths = [length for s in found for length in (s.from_ft, s.to_ft, s.length_ft)]
    assert lengths == pytest.approx([0, 20, 10, 0, 20, 10, 20, 40, 20], abs=1e-8)


@pytest.mark.parametrize(("depth_ft", "faces"), [((0.0, 10.0), (0.0, -1.0)), ((20.0, 30.0), (0.0, 1.0))])
def test_the_wall_between_a_porch_and_the_rooms_is_a_wall_that_faces_the_porch(
    depth_ft: tuple[float, float], faces: tuple[float, float]
) -> None:
    """Its upper half, 9 ft 4 in. / 2 over 26 ft, whichever side of it the porch lies on."""
    low, high = depth_ft
    outer, inner = (low, high) if low == 0.0 else (high, low)
    beam = Support(kind=SupportKind.BEAM, start_ft=(0.0, outer), end_ft=(26.0, outer), holds_down=False)
    wall = Support(kind=SupportKind.BEARING_WALL, start_ft=(0.0, inner), end_ft=(26.0, inner), holds_down=True)
    floor = Porch(corners_ft=((0.0, low), (26.0, low), (26.0, high), (0.0, high)))
    plan = plan_of([(0, 0), (26, 0), (26, 30), (0, 30)], supports=(beam, wall), porches=(floor,))
    parts = make_run(plan, shipped_catalogue()).sideways.parts
    mine = parts.name == "S2"
    assert parts.outward[mine] == pytest.approx(np.array([faces] * mine.sum()))
    assert parts.half_ft2[mine].sum() == pytest.approx(26.0 * 28.0 / 6.0, rel=0.06)  # between the outside walls


def test_walls_at_an_angle_hold_the_deck_only_where_no_square_wall_does() -> None:
    """The bay's W2 and W4 stand at 45 degrees and have anchors."""
    found = make_run(read_plan(SAMPLES["bay_and_corners"]), shipped_catalogue()).sideways
    assert {"W2", "W4"} <= {s.name for s in found.stretches if s.axis is None}
    for axis in (0, 1):
        assert {found.stretches[k].axis for line in found.deck.lines[axis] for k in line.stretches} == {axis}


def test_of_two_gables_on_one_wall_the_higher_counts_foot_by_foot() -> None:
    """W1, 44 ft, under the gable of a bay 12 ft deep, level from 12 ft in, and of the house behind it, from 4 to 40 ft,
    past it from 16 ft on and up to 18 ft of run: 2 (12 x 12 / 2 + 12 x 4 + (12 + 18) x 6 / 2) ft of run, 5 in. to a
    foot, and the heel of 6 in.
    """
    tee = [(0, 0), (44, 0), (44, 12), (40, 12), (40, 60), (4, 60), (4, 12), (0, 12)]
    edge = RoofEdge(wall="W1", type=RoofType.GABLE, from_ft=None, to_ft=None)
    parts = make_run(plan_of(tee, edges=(edge,)), shipped_catalogue()).sideways.parts
    above_ft2 = parts.above_ft2[parts.name == "W1"].sum()
    assert above_ft2 == pytest.approx(2 * (72 + 48 + 90) * 5 / 12 + 44 / 2, rel=1e-9)


def test_the_deck_drags_at_both_inside_corners_of_a_pointed_bay() -> None:
    """Where W1 and W4 end on either side of it; the bay's own walls stand at 45 degrees and hold no line."""
    house = [(0, 0), (20, 0), (26, -6), (32, 0), (52, 0), (52, 28), (0, 28)]
    drags = make_run(plan_of(house), shipped_catalogue()).tops.drags
    found = sorted((d.wall, d.point_ft) for d in drags)
    assert found == [("W1", pytest.approx((20, 0))), ("W4", pytest.approx((32, 0)))]


def test_a_wing_claims_the_wall_on_its_own_side_to_the_foot() -> None:
    """W1 is 44 ft of one wing and 37 ft of the other, so near that their side walls hold the deck as one line."""
    tee = [(0, 0), (44, 0), (44, 12), (40.5, 12), (40.5, 60), (3.5, 60), (3.5, 12), (0, 12)]
    run = make_run(plan_of(tee), shipped_catalogue())
    parts = run.sideways.parts
    claimed = [parts.length_ft[(parts.name == "W1") & claims].sum() for claims in parts.claims.T]
    assert sorted(claimed) == pytest.approx([37.0, 44.0], abs=1e-9)
