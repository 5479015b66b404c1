"""What holds for random right-angled outlines, unions of 2 to 8 rectangles with up to 40 corners: on 48 of them, on
2,000 under the mark 'full'.
"""

from __future__ import annotations

from functools import cache, lru_cache

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from framing.layout.assembly import build_framing
from framing.load_path import Variant, build_map
from framing.loads import edge_widths
from framing.members import Framing, MemberKind
from framing.outline import Outline, build_outline
from framing.patches import build_patches
from framing.pieces import build_pieces
from framing.plan import Plan
from framing.roof import Roof, build_roof
from invariants.houses import moved_plan
from invariants.outlines import random_house
from invariants.test_houses import SAME_LB, worst_difference_lb

N_SHARE, N_ALL = 48, 2000
HOUSES = [*range(N_SHARE), *(pytest.param(seed, marks=pytest.mark.full) for seed in range(N_SHARE, N_ALL))]
MOVED = [*range(0, N_SHARE, 6), *(pytest.param(seed, marks=pytest.mark.full) for seed in range(N_SHARE, N_ALL, 16))]
LONGEST_GIRDER_FT, SHORT_TRUSS_FT, LONG_CHAIN = 40.0, 3.0, 3


@lru_cache(maxsize=N_SHARE)
def laid_out(seed: int) -> tuple[Plan, Outline, Roof, Framing]:
    plan = random_house(seed)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    return plan, outline, roof, build_framing(plan, outline, roof)


@pytest.mark.parametrize("seed", HOUSES)
def test_every_outline_is_carried_covered_once_and_in_balance(seed: int) -> None:
    """Invariants 1 to 3 of the design: one test for all, because one layout serves them."""
    plan, outline, roof, framing = laid_out(seed)
    assert_carried(framing)
    assert_on_masonry(plan, outline, framing)
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


def assert_on_masonry(plan: Plan, outline: Outline, framing: Framing) -> None:
    """Every mark lies on the walls as they stand, absorbed jogs or not."""
    house = Polygon(outline.corners_ft)
    inside = house.buffer(-plan.wall_thickness_ft - 1e-6, join_style="mitre", mitre_limit=10.0)
    masonry = house.buffer(1e-6).difference(inside)
    off = [b.mark for b in framing.bearings if not masonry.contains(shapely.Point(b.point_ft))]
    assert not off, f"{off} stand on no wall"


@pytest.mark.parametrize("seed", HOUSES)
def test_what_is_doubtful_to_build_is_flagged_where_it_stands(seed: int) -> None:
    """A girder over 40 ft by a flag, and nothing else; a truss under 3 ft and girders in a chain by a note."""
    framing = laid_out(seed)[3]
    long = [m.name for m in framing.members if m.kind is MemberKind.GIRDER and m.span_ft > LONGEST_GIRDER_FT]
    assert [flag.split(" spans")[0] for flag in framing.flags] == long
    said = " ".join(framing.notes)
    assert all(f"{m.name} near (" in said for m in short_trusses(framing))
    longest = longest_chain(framing)
    assert (f"{longest} girders stand on one another in a chain (" in said) == (longest >= LONG_CHAIN)


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


def test_few_houses_need_a_girder_over_40_ft_or_a_truss_under_3_ft() -> None:
    assert_few(N_SHARE)


@pytest.mark.full
def test_few_of_all_houses_need_a_girder_over_40_ft_or_a_truss_under_3_ft() -> None:
    assert_few(N_ALL)


def assert_few(n: int) -> None:
    houses = [laid_out(seed)[3] for seed in range(n)]
    assert sum(bool(f.flags) for f in houses) <= 0.03 * n
    assert sum(bool(short_trusses(f)) for f in houses) <= 0.08 * n


@pytest.mark.parametrize("seed", MOVED)
def test_turning_shifting_and_mirroring_change_no_reaction(seed: int) -> None:
    """Invariant 4 of the design."""
    plan, shift = random_house(seed), (1234.5, -678.9)
    turn_deg = (90.0, 33.0)[seed % 2]
    assert worst_difference_lb(plan, moved_plan(plan, turn_deg, shift=shift), turn_deg, False, shift) <= SAME_LB
    assert worst_difference_lb(plan, moved_plan(plan, 0.0, mirror=True), 0.0, True, (0.0, 0.0)) <= SAME_LB
