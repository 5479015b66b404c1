"""Whole houses against the general-purpose frame solver: every bearing, under one-sided loads that push sideways too.

The framing is ours; the forces are cut from the faces afresh and the statics are the solver's (see roof_model.py and
frame_model.py). The wind figures play no part: each side of the roof takes a suction of its own, unlike the others,
so that whatever goes to the wrong place shows.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from framing.layout.assembly import build_framing
from framing.loads.load_path import Variant, build_map
from framing.loads.pieces import build_pieces
from framing.members import MemberKind
from framing.plan import Plan
from framing.plan_file import read_plan
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from framing.wind.edge_widths import edge_widths
from framing.wind.patches import build_patches
from invariants.houses import SUPPORTED, supported_plan
from statics.roof_model import House, bearing_forces_lb

SAMPLES = Path(__file__).parents[2] / "sample_plans"
SUCTION_PSF = (31.0, 7.0, 19.0, -3.0)  # by the side that a face falls toward


Ours = dict[Variant, np.ndarray]


@pytest.fixture(scope="module", params=["hip_house", "garage_wing", "cottage"])
def answers(request: pytest.FixtureRequest) -> tuple[House, Ours]:
    """A sample house, and what our own map gives every bearing under the suctions, in both variants."""
    return answers_of(read_plan(SAMPLES / f"{request.param}.toml"))


def answers_of(plan: Plan, *, lifted: bool = False) -> tuple[House, Ours]:
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    patches = build_patches(plan, outline, roof, framing.framed_ft, edge_widths(plan, outline, roof))
    pieces = build_pieces(roof, framing, patches)
    force_lb = np.array(SUCTION_PSF)[patches.side[pieces.patch]] * pieces.area_ft2
    ours_lb = {v: build_map(plan, framing, patches, pieces, v, lifted=lifted).apply(force_lb[:, None]) for v in Variant}
    return House(outline=outline, roof=roof, framing=framing), {v: lb[:, 0] for v, lb in ours_lb.items()}


@pytest.mark.parametrize("variant", list(Variant))
def test_every_bearing_of_a_house_receives_what_the_frame_solver_finds(
    answers: tuple[House, Ours], variant: Variant
) -> None:
    house, ours_lb = answers
    solver_lb = bearing_forces_lb(house, lambda face: SUCTION_PSF[face.side], heel=variant is Variant.HEEL)
    off = {
        bearing.mark: (bearing.member, ours, theirs)
        for bearing, ours, theirs in zip(house.framing.bearings, ours_lb[variant], solver_lb, strict=True)
        if abs(ours - theirs) > 1e-6 * np.abs(solver_lb).max()
    }
    assert off == {}


@pytest.mark.parametrize("variant", list(Variant))
@pytest.mark.parametrize("lifted", [False, True])
@pytest.mark.parametrize("name", SUPPORTED)
def test_members_that_run_on_over_supports_stand_as_the_frame_solver_finds(
    name: str, lifted: bool, variant: Variant
) -> None:
    house, ours_lb = answers_of(supported_plan(name), lifted=lifted)
    assert any(m.between for m in house.framing.members) or name == "a chord on a wall"
    solver_lb = bearing_forces_lb(
        house, lambda face: SUCTION_PSF[face.side], heel=variant is Variant.HEEL, lifted=lifted
    )
    np.testing.assert_allclose(ours_lb[variant], solver_lb, rtol=0, atol=1e-6 * np.abs(solver_lb).max())


def test_the_houses_hold_every_kind_of_piece_that_has_a_bearing(answers: tuple[House, Ours]) -> None:
    """With an overhang on every jack, and a girder at a seam where a wing meets the house."""
    framing = answers[0].framing
    kinds = {bearing.kind for bearing in framing.bearings}
    if MemberKind.GABLE_END in kinds:
        assert kinds == {MemberKind.GABLE_END, MemberKind.COMMON}
        return
    hips = {MemberKind.COMMON, MemberKind.STEP_DOWN, MemberKind.HIP_GIRDER}
    jacks = {MemberKind.END_JACK, MemberKind.SIDE_JACK, MemberKind.CORNER_JACK}
    assert kinds - {MemberKind.GIRDER} == hips | jacks
    assert all(member.tail_start_ft > 1.0 for member in framing.members if member.kind is MemberKind.CORNER_JACK)
    seams = [wall for wall in answers[0].outline.walls if len(answers[0].outline.walls) > 4]
    assert (MemberKind.GIRDER in kinds) == bool(seams)


def test_a_sideways_push_is_part_of_what_is_compared(answers: tuple[House, Ours]) -> None:
    heel, deck = answers[1][Variant.HEEL], answers[1][Variant.DECK]
    assert np.abs(heel - deck).max() > 20.0
