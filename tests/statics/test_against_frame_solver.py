"""Whole houses against the general-purpose frame solver: every bearing, under one-sided loads that push sideways too.

The framing is ours; the forces are cut from the faces afresh and the statics are the solver's (see roof_model.py and
frame_model.py). The wind figures play no part: each side of the roof takes a suction of its own, unlike the others,
so that whatever goes to the wrong place shows.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest

from framing.layout.assembly import build_framing
from framing.load_path import Variant, build_map
from framing.loads import edge_widths
from framing.members import Framing, MemberKind
from framing.outline import Outline, build_outline
from framing.patches import build_patches
from framing.pieces import build_pieces
from framing.plan_file import read_plan
from framing.roof import Roof, build_roof
from statics.frame_model import seat_forces_lb
from statics.roof_model import beams_of, loads_of

SAMPLES = Path(__file__).parents[2] / "sample_plans"
SUCTION_PSF = (31.0, 7.0, 19.0, -3.0)  # by the side that a face falls toward


@dataclass(frozen=True, slots=True, kw_only=True)
class House:
    outline: Outline
    roof: Roof
    framing: Framing
    ours_lb: dict[Variant, np.ndarray]


@pytest.fixture(scope="module", params=["hip_house", "garage_wing"])
def house(request: pytest.FixtureRequest) -> House:
    plan = read_plan(SAMPLES / f"{request.param}.toml")
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    patches = build_patches(plan, outline, roof, edge_widths(plan, outline, roof))
    pieces = build_pieces(roof, framing, patches)
    force_lb = np.array(SUCTION_PSF)[patches.side[pieces.patch]] * pieces.area_ft2
    maps = {
        v: build_map(framing, patches, pieces, roof.rise_per_run, plan.wall_thickness_ft, v).apply(force_lb[:, None])
        for v in Variant
    }
    return House(outline=outline, roof=roof, framing=framing, ours_lb={v: m[:, 0] for v, m in maps.items()})


def by_solver_lb(house: House, variant: Variant) -> np.ndarray:
    """What every bearing receives, by the frame solver."""
    loads = loads_of(
        house.roof,
        house.framing,
        house.outline,
        lambda face: SUCTION_PSF[face.side],
        heel=variant is Variant.HEEL,
    )
    forces = seat_forces_lb(beams_of(house.framing), loads)
    found = np.zeros(len(house.framing.bearings))
    for member in house.framing.members:
        for end, path in enumerate(member.paths):
            if path.bearing is not None:
                found[path.bearing] = forces[member.name, end]
    return found


@pytest.mark.parametrize("variant", list(Variant))
def test_every_bearing_of_a_house_receives_what_the_frame_solver_finds(house: House, variant: Variant) -> None:
    solver = by_solver_lb(house, variant)
    kinds = {bearing.kind for bearing in house.framing.bearings}
    assert {MemberKind.COMMON, MemberKind.HIP_GIRDER, MemberKind.END_JACK, MemberKind.CORNER_JACK} <= kinds
    off = {
        bearing.mark: (bearing.member, ours, theirs)
        for bearing, ours, theirs in zip(house.framing.bearings, house.ours_lb[variant], solver, strict=True)
        if abs(ours - theirs) > 1e-6 * np.abs(solver).max()
    }
    assert off == {}


def test_a_sideways_push_is_part_of_what_is_compared(house: House) -> None:
    heel, deck = house.ours_lb[Variant.HEEL], house.ours_lb[Variant.DECK]
    assert np.abs(heel - deck).max() > 20.0
