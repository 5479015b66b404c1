"""What holds for random right-angled outlines, unions of 2 to 8 rectangles with up to 40 corners: on 48 of them, on
2,000 under the mark 'full', in blocks so that one layout serves all that is asked of it.
"""

from __future__ import annotations

import time
from dataclasses import dataclass
from functools import cache

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from framing.layout.assembly import build_framing
from framing.loads.load_path import Variant, build_map
from framing.loads.pieces import build_pieces
from framing.members import Framing, MemberKind
from framing.plan import Plan
from framing.roof.surface import Roof, build_roof
from framing.walls.outline import Outline, build_outline
from framing.wind.edge_widths import edge_widths
from framing.wind.patches import build_patches
from invariants.houses import moved_plan
from invariants.outlines import random_house
from invariants.test_houses import SAME_LB, worst_difference_lb

N_ALL, BLOCK, SHARE, SHARE_BLOCK = 2000, 250, 48, 16
BLOCKS = [
    *(range(k, k + SHARE_BLOCK) for k in range(0, SHARE, SHARE_BLOCK)),
    *(pytest.param(range(k, k + BLOCK), marks=pytest.mark.full) for k in range(0, N_ALL, BLOCK)),
]
TIED = (360, 438, 488, 659, 672, 854, 890, 1209, 1270, 1413, 1702, 1784, 1894)  # whose mirror image once differed
MOVED_HERE = (*range(1, SHARE, 12), *TIED[::2])
MOVED_TOO = {*range(1, SHARE, 6), *TIED, *range(SHARE, N_ALL, 13)} - {*MOVED_HERE}
MOVED = [*MOVED_HERE, *(pytest.param(seed, marks=pytest.mark.full) for seed in sorted(MOVED_TOO))]
LONGEST_GIRDER_FT, SHORT_TRUSS_FT, LONG_CHAIN = 40.0, 3.0, 3
SLOWEST_S, SHORTEST_PIECE_FT, SMALLEST_BAY_FT, TIE_FT = 2.0, 1.0, 0.25, 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    """One random outline, laid out; `took_s` of processor time, without the plan."""

    plan: Plan
    outline: Outline
    roof: Roof
    framing: Framing
    took_s: float


def laid_out(seed: int) -> House:
    plan = random_house(seed)
    start_s = time.process_time()
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    return House(plan=plan, outline=outline, roof=roof, framing=framing, took_s=time.process_time() - start_s)


@pytest.mark.parametrize("seeds", BLOCKS, ids=lambda seeds: f"{seeds.start} to {seeds.stop - 1}")
def test_every_outline_is_carried_covered_once_in_balance_and_flagged_and_few_are_doubtful(seeds: range) -> None:
    """Invariants 1 to 3 of the design, what is doubtful to build named where it stands, and the shares of a girder over
    40 ft, at most 3 %, and of a truss under 3 ft, at most 8 %, in every block.
    """
    n_long = n_short = 0
    for seed in seeds:
        try:
            house = laid_out(seed)
            assert_carried(house.framing)
            assert_on_masonry(house)
            assert_covered_once_and_in_balance(house)
            assert_doubts_are_said(house.framing)
            assert_can_be_built(house.framing)
            assert_quick(seed, house)
        except Exception as fault:
            raise AssertionError(f"house {seed}") from fault
        n_long += bool(house.framing.flags)
        n_short += bool(short_trusses(house.framing))
    assert n_long <= max(1.0, 0.03 * len(seeds))
    assert n_short <= max(1.0, 0.08 * len(seeds))


@pytest.mark.full
def test_the_random_outlines_reach_40_corners() -> None:
    """What the invariants are tried on: from 6 corners to 40, and one outline in twenty with more than 32."""
    n_corners = [len(random_house(seed).outline_ft) for seed in range(N_ALL)]
    assert (min(n_corners), max(n_corners)) == (6, 40)
    assert sum(n > 32 for n in n_corners) == N_ALL // 20


def test_two_girders_in_line_with_walls_2_in_out_of_line_are_said() -> None:
    framing = laid_out(871).framing
    assert slim_bays(framing) == [("girder 1", "girder 3")]
    assert_can_be_built(framing)


def assert_quick(seed: int, house: House) -> None:
    """Laid out in seconds (of processor time; some 0.2 to 0.5 s on a machine alone); measured twice where it is not."""
    assert house.took_s < SLOWEST_S or laid_out(seed).took_s < SLOWEST_S


def assert_covered_once_and_in_balance(house: House) -> None:
    plan, outline, roof, framing = house.plan, house.outline, house.roof, house.framing
    patches = build_patches(plan, outline, roof, framing.framed_ft, edge_widths(plan, outline, roof))
    pieces = build_pieces(roof, framing, patches)
    area = roof.eave_in_frame.area
    faces = [f.in_frame for f in roof.faces]
    assert sum(f.area for f in faces) == pytest.approx(area, rel=1e-9)
    assert shapely.union_all(faces, grid_size=1e-9).area == pytest.approx(area, rel=1e-9)
    assert pieces.area_ft2.sum() == pytest.approx(area, rel=1e-9)
    by_patch = np.bincount(pieces.patch, weights=pieces.area_ft2, minlength=len(patches.side))
    np.testing.assert_allclose(by_patch, shapely.area(patches.polygon), atol=1e-6)
    for variant in Variant:
        load_path = build_map(plan, framing, patches, pieces, variant)
        np.testing.assert_allclose(load_path.column_sums(), 1.0, atol=1e-9)


def assert_carried(framing: Framing) -> None:
    """Every end of a member stands on a bearing or on another member, and nothing carries itself."""
    members = framing.members
    kept = [m for m in members if m.kind not in (MemberKind.GABLE_END, MemberKind.VALLEY)]
    assert all(len(m.paths) == 2 for m in kept)
    assert all((p.bearing is None) != (p.carrier is None) for m in kept for p in m.paths)
    on = {m.name: {members[p.carrier].name for p in m.paths if p.carrier is not None} for m in kept}
    grounded = {m.name for m in members if m.kind is MemberKind.GABLE_END}
    while on:
        ready = {name for name, carriers in on.items() if carriers <= grounded}
        assert ready, f"{sorted(on)} carry one another"
        grounded |= ready
        on = {name: carriers for name, carriers in on.items() if name not in ready}
    assert all(m.carriers for m in members if m.kind is MemberKind.VALLEY)


def assert_on_masonry(house: House) -> None:
    """Every mark lies on the walls as they stand, absorbed jogs or not."""
    shape = Polygon(house.outline.corners_ft)
    inside = shape.buffer(-house.plan.wall_thickness_ft - 1e-6, join_style="mitre", mitre_limit=10.0)
    masonry = shape.buffer(1e-6).difference(inside)
    off = [b.mark for b in house.framing.bearings if not masonry.contains(shapely.Point(b.point_ft))]
    assert not off, f"{off} stand on no wall"


def assert_doubts_are_said(framing: Framing) -> None:
    """A girder over 40 ft by a flag, and nothing else; a truss under 3 ft and girders in a chain by a note."""
    long = [m.name for m in framing.members if m.kind is MemberKind.GIRDER and m.span_ft > LONGEST_GIRDER_FT]
    assert [flag.split(" spans")[0] for flag in framing.flags] == long
    said = " ".join(framing.notes)
    assert all(f"{m.name} near (" in said for m in short_trusses(framing))
    longest = longest_chain(framing)
    assert (f"{longest} girders stand on one another in a chain (" in said) == (longest >= LONG_CHAIN)


def assert_can_be_built(framing: Framing) -> None:
    """No piece is shorter than 12 in., and none stands beside another with a bay under 3 in. between them, but for two
    girders, each in line with its own wall, which are said.
    """
    short = [f"{m.name}: {m.span_ft:.3f} ft" for m in framing.members if m.span_ft < SHORTEST_PIECE_FT - TIE_FT]
    assert not short
    for a, b in slim_bays(framing):
        assert f"{a} and {b} stand within 3 in. of one another near (" in " ".join(framing.notes), (a, b)


def slim_bays(framing: Framing) -> list[tuple[str, str]]:
    """The pairs of members along one another, valley pieces on the trusses below left out, nearer than 3 in."""
    out = []
    for axis in (0, 1):
        along = [
            m
            for m in framing.members
            if m.kind is not MemberKind.VALLEY and abs(m.frame_ft[0][1 - axis] - m.frame_ft[1][1 - axis]) < TIE_FT
        ]
        ends = np.array([m.frame_ft for m in along]).reshape(-1, 2, 2)
        low, high, line = ends[:, :, axis].min(axis=1), ends[:, :, axis].max(axis=1), ends[:, 0, 1 - axis]
        shared = np.minimum(high, high[:, None]) - np.maximum(low, low[:, None])
        near = np.abs(line - line[:, None]) < SMALLEST_BAY_FT - TIE_FT
        out += [(along[i].name, along[j].name) for i, j in np.argwhere(near & (shared > TIE_FT)) if i < j]
    return out


def longest_chain(framing: Framing) -> int:
    """How many girders at most stand each on the next."""

    @cache
    def n_from(i: int) -> int:
        below = [p.carrier for p in framing.members[i].paths if p.carrier is not None]
        return 1 + max((n_from(j) for j in below if framing.members[j].kind is MemberKind.GIRDER), default=0)

    return max((n_from(i) for i, m in enumerate(framing.members) if m.kind is MemberKind.GIRDER), default=0)


def short_trusses(framing: Framing) -> list:
    kinds = (MemberKind.COMMON, MemberKind.STEP_DOWN)
    return [m for m in framing.members if m.kind in kinds and m.span_ft < SHORT_TRUSS_FT]


@pytest.mark.parametrize("seed", MOVED)
def test_turning_shifting_and_mirroring_change_no_reaction(seed: int) -> None:
    """Invariant 4 of the design."""
    plan, shift = random_house(seed), (1234.5, -678.9)
    turn_deg = (90.0, 33.0)[seed % 2]
    assert worst_difference_lb(plan, moved_plan(plan, turn_deg, shift=shift), turn_deg, False, shift) <= SAME_LB
    assert worst_difference_lb(plan, moved_plan(plan, 0.0, mirror=True), 0.0, True, (0.0, 0.0)) <= SAME_LB
