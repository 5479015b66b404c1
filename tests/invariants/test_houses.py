"""What holds for every plan that is accepted: on every sample plan, on a dozen random right-angled houses, six with
angled walls and one that has supports and a porch too, and on 200 and 100 more under the mark 'full'.
"""

from __future__ import annotations

import itertools
from functools import lru_cache

import numpy as np
import pytest
import shapely

from framing.anchors.catalogue_file import shipped_catalogue
from framing.loads.load_path import Variant, build_map
from framing.members import CarrierKind, MemberKind
from framing.plan import Plan, RoofType
from framing.roof.surface import build_roof
from framing.run import Run, make_run
from framing.walls.outline import build_outline
from invariants.angled_houses import ANGLED, house_plan
from invariants.angled_houses import SUPPORTED as SUPPORTED_ANGLED
from invariants.houses import SAMPLES, SUPPORTED, WITH_SUPPORTS, changed_plan, moved, moved_plan, plan_of

SHARE, ALL = range(4), range(4, 212)
SAME_PLACE_FT = 2e-3
SAME_LB = 1e-6
TURNS_DEG = (90.0, 180.0, 270.0, 33.0)
WITH_A_BAY = "bay_and_corners"  # the sample whose bay has walls at 45 degrees

RIGHT_ANGLED = [*SAMPLES, *SUPPORTED, *SHARE, *(pytest.param(seed, marks=pytest.mark.full) for seed in ALL)]
HOUSES = [
    *RIGHT_ANGLED,
    SUPPORTED_ANGLED,
    *(f"{ANGLED} {seed}" for seed in range(2)),
    *(pytest.param(f"{ANGLED} {seed}", marks=pytest.mark.full) for seed in range(2, 106)),
    *(f"{WITH_SUPPORTS}{seed}" for seed in range(2)),
    *(pytest.param(f"{WITH_SUPPORTS}{seed}", marks=pytest.mark.full) for seed in range(2, 106)),
]


@lru_cache(maxsize=8)
def run_of(plan: Plan) -> Run:
    """The run of a plan, for all the tests of one house: they follow one another by their scope."""
    return make_run(plan, shipped_catalogue())


@pytest.mark.parametrize("house", HOUSES, scope="module")
def test_every_member_end_stands_on_a_wall_or_on_another_member_and_nothing_carries_itself(house: int | str) -> None:
    """Invariant 1: every member end stands on a wall, a declared support or another member, without a loop."""
    run = run_of(house_plan(house))
    by_name = {m.name: m for m in run.framing.members}
    walls = {w.name for w in run.outline.walls} | {f"S{n}" for n, _ in enumerate(run.plan.supports, 1)}
    standing: set[str] = set()

    def stands(name: str, above: tuple[str, ...]) -> None:
        assert name not in above, f"{' -> '.join((*above, name))} is a loop"
        if name in standing:
            return
        member = by_name[name]
        assert len(member.carriers) >= (1 if member.kind in (MemberKind.GABLE_END, MemberKind.VALLEY) else 2)
        for carrier in member.carriers:
            if carrier.kind is CarrierKind.MEMBER:
                stands(carrier.name, (*above, name))
            else:
                assert carrier.name in walls
        standing.add(name)

    for name in by_name:
        stands(name, ())


@pytest.mark.parametrize("house", HOUSES, scope="module")
def test_every_square_foot_of_the_roof_belongs_to_one_member(house: int | str) -> None:
    """Invariant 2: the faces cover the eave outline once, the pieces cover the faces once."""
    run = run_of(house_plan(house))
    eave = run.roof.eave_in_frame
    assert sum(f.in_frame.area for f in run.roof.faces) == pytest.approx(eave.area, rel=1e-9)
    assert shapely.union_all([f.in_frame for f in run.roof.faces]).area == pytest.approx(eave.area, rel=1e-9)
    assert run.pieces.area_ft2.sum() == pytest.approx(eave.area, rel=1e-9)
    by_patch = np.bincount(run.pieces.patch, weights=run.pieces.area_ft2, minlength=len(run.patches.side))
    np.testing.assert_allclose(by_patch, shapely.area(run.patches.polygon), atol=1e-6)


@pytest.mark.parametrize("house", HOUSES, scope="module")
def test_every_case_comes_down_at_the_bearings(house: int | str) -> None:
    """Invariant 3: vertical forces balance to 1e-9 of the load, case by case, and for any pressure field."""
    run = run_of(house_plan(house))
    for case in run.reactions.cases:
        assert case.reactions_vertical_lb == pytest.approx(case.applied_vertical_lb, rel=1e-9, abs=1e-6)
    for variant, lifted in itertools.product(Variant, (False, True)):
        load_path = build_map(run.plan, run.framing, run.patches, run.pieces, variant, lifted=lifted)
        np.testing.assert_allclose(load_path.column_sums(), 1.0, atol=1e-9)


@pytest.mark.parametrize("house", HOUSES, scope="module")
def test_a_uniform_pressure_on_a_hip_roof_pushes_nowhere_sideways(house: int | str) -> None:
    """Statics: under a uniform normal pressure p any roof has a vertical sum of p x plan area inside the eaves; a hip
    roof, whose eave is level all round, has no horizontal sum.
    """
    run = run_of(changed_plan(house_plan(house), type=RoofType.HIP, edges=()))
    area = run.pieces.area_ft2
    sideways = -(run.patches.gradient[run.pieces.patch] * area[:, None]).sum(axis=0)
    np.testing.assert_allclose(sideways, 0.0, atol=1e-9 * area.sum())


def test_a_uniform_pressure_on_a_gabled_t_pushes_with_the_triangle_of_its_one_open_gable() -> None:
    """Statics: the main wing's two gables cancel; the stem's triangle, 24 ft and two 2 ft overhangs wide, is left."""
    stem = [(0, 0), (20, 0), (20, -12), (44, -12), (44, 0), (70, 0), (70, 30), (0, 30)]
    run = run_of(plan_of(stem, type=RoofType.GABLE))
    sideways = -(run.patches.gradient[run.pieces.patch] * run.pieces.area_ft2[:, None]).sum(axis=0)
    triangle_ft2 = 0.5 * 28.0 * (14.0 * 5.0 / 12.0)
    np.testing.assert_allclose(np.abs(sideways), [0.0, triangle_ft2], atol=1e-9 * run.pieces.area_ft2.sum())


@pytest.mark.parametrize("house", HOUSES, scope="module")
def test_turning_and_shifting_the_plan_changes_no_reaction(house: int | str) -> None:
    """Invariant 4, turning by 90, 180, 270 and 33 degrees far from the origin."""
    plan, shift = house_plan(house), (1234.5, -678.9)
    off_lb = {t: worst_difference_lb(plan, moved_plan(plan, t, shift=shift), t, False, shift) for t in TURNS_DEG}
    assert max(off_lb.values()) <= SAME_LB, off_lb


@pytest.mark.parametrize("house", HOUSES, scope="module")
def test_mirroring_the_plan_and_its_start_changes_no_reaction(house: int | str) -> None:
    """Invariant 4, mirrored: the layout's start mirrored too. Where a member runs on over a support, pieces cut on the
    fine grid shift gravity between its bearings: by up to 1.1e-5 lb of some thousand, where the support stands at no
    even place by up to 7e-3 lb.
    """
    plan = house_plan(house)
    limit_lb = 2e-2 if str(house).startswith(WITH_SUPPORTS) else 2e-5 if plan.supports else SAME_LB
    assert worst_difference_lb(plan, moved_plan(plan, 0.0, mirror=True), 0.0, True, (0.0, 0.0)) <= limit_lb


def worst_difference_lb(plan: Plan, other: Plan, turn_deg: float, mirror: bool, shift: tuple[float, float]) -> float:
    """The largest difference of an uplift or a gravity reaction between a plan and its image."""
    here, there = run_of(plan), run_of(other)
    assert len(here.framing.bearings) == len(there.framing.bearings)
    left = list(range(len(there.framing.bearings)))
    places = np.array([b.point_ft for b in there.framing.bearings])
    worst = 0.0
    for i, b in enumerate(here.framing.bearings):
        x, y = moved(b.point_ft, turn_deg, mirror=mirror, shift=shift)
        near = [
            j
            for j in left
            if np.hypot(*(places[j] - (x, y))) < SAME_PLACE_FT and there.framing.bearings[j].kind is b.kind
        ]
        assert near, f"{b.mark} ({b.member}) has no image"
        both = np.column_stack([there.reactions.uplift_lb[near], there.reactions.down_lb[near]])
        off = np.abs(both - (here.reactions.uplift_lb[i], here.reactions.down_lb[i])).max(axis=1)
        left.remove(near[int(off.argmin())])  # of two alike at one place, a girder's end and another's, the one meant
        worst = max(worst, float(off.min()))
    return worst


@pytest.mark.parametrize("house", [house for house in RIGHT_ANGLED if house != WITH_A_BAY], scope="module")
def test_a_right_angled_hip_roof_rises_with_the_square_ball_distance_to_the_eave(house: int | str) -> None:
    """The roof over equal pitches: its height above the eave is the pitch times the L-infinity distance to the
    eave outline, at 1,000 random points (where no recess is closed by its eaves).
    """
    plan = changed_plan(house_plan(house), type=RoofType.HIP, edges=())
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    eave = roof.eave_in_frame
    x0, y0, x1, y1 = eave.bounds
    points = np.random.default_rng(7).uniform((x0, y0), (x1, y1), (1000, 2))
    points = points[shapely.contains_xy(eave, points)]
    edges = np.array(
        [[*a, *b] for r in (eave.exterior, *eave.interiors) for a, b in zip(r.coords, r.coords[1:], strict=False)]
    )
    low, high = np.minimum(edges[:, :2], edges[:, 2:]), np.maximum(edges[:, :2], edges[:, 2:])
    gap = np.maximum(np.maximum(low - points[:, None], points[:, None] - high), 0.0)
    distance = gap.max(axis=2).min(axis=1)
    tree = shapely.STRtree([f.in_frame for f in roof.faces])
    at_point, at_face = tree.query(shapely.points(points), predicate="within")
    height = np.full(len(points), np.nan)
    for i, k in zip(at_point, at_face, strict=True):
        ring = np.array([(*outline.frame.to_local(p[:2]), p[2] - roof.heel_ft) for p in roof.faces[k].ring_ft])
        plane, *_ = np.linalg.lstsq(np.column_stack([ring[:, :2], np.ones(len(ring))]), ring[:, 2], rcond=None)
        height[i] = plane @ (*points[i], 1.0)
    seen = ~np.isnan(height)
    assert seen.sum() > 0.95 * len(points)
    over = plan.roof.overhang_ft
    np.testing.assert_allclose(height[seen], plan.roof.rise_per_run * (distance[seen] - over), atol=1e-7)
