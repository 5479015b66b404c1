"""Outlines, invented, that could not be framed once: random walls shifted by feet, cut down to what it took."""

from __future__ import annotations

import pytest

from framing.errors import LayoutError
from framing.layout import assembly
from framing.plan import Point, RoofType
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of
from invariants.test_round_houses import assert_framed

JOG: list[Point] = [
    *[(24, -37), (24, -47), (16, -47), (16, -52), (6, -52), (9, -47), (9, -46)],
    *[(-12, -49), (-5, -28), (-5, -18), (-4, -18)],
]
SPUR: list[Point] = [(-33, 42), (-33, -2.5), (-9, -14), (-12, -2.5), (-9.5, 0), (-9.5, -9), (0, -9)]
SLOT: list[Point] = [(0, 0), (56, 0), (56, 60), (28, 60), (28, 48.9), (28, 38), (20, 39.5), (27.9, 48.8), (0, 43)]

STEP: list[Point] = [
    *[(6.71, 26.96), (-20.04, 33.62), (-20.09, 33.33), (-37.55, 44.96)],
    *[(-28.92, -19.04), (-17.07, -21.99), (-11.6, -0.02), (-24.73, 3.25)],
]

HORN: list[Point] = [
    *[(14.58, -51.99), (18.45, -47.84), (18.45, -53.42), (16.69, -53.67)],
    *[(34.98, -64.68), (34.98, 8.24), (18.45, 0)],
]


def test_a_jack_of_which_an_angled_wall_leaves_nothing_is_not_built() -> None:
    assert_framed(plan_of(HORN, type=RoofType.GABLE, overhang_ft=2.5, rake_overhang_ft=1.5, rise_per_run=1 / 3))


def test_a_jog_is_kept_where_filling_it_leaves_a_truss_end_nothing_to_stand_on() -> None:
    """W6, 1 ft long between two angled walls."""
    assert_framed(plan_of(JOG, overhang_ft=2.5, rake_overhang_ft=0.0))


def test_a_truss_end_without_a_carrier_names_the_angled_walls_and_drawn_square_they_carry_it(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """With every jog filled, as no plan is known that is refused with fewer of them filled too."""
    monkeypatch.setattr(assembly, "ABSORBED_FT", (2.0,))
    with pytest.raises(LayoutError) as told:
        assert_framed(plan_of(JOG))
    assert str(told.value) == (
        "walls outline: no wall or girder carries the truss end near (3.67, -52.00) ft; draw W5 and W7 square to the "
        "rest of the house"
    )
    assert_framed(plan_of([*JOG[:4], (9, -52), (9, -46), (-12, -46), *JOG[8:]]))


def test_a_hip_end_over_neither_wall_nor_girder_takes_no_jacks() -> None:
    assert_framed(plan_of(SPUR, overhang_ft=2.5, rake_overhang_ft=0.0))


def test_where_walls_all_but_touch_they_have_no_eaves_and_it_is_said() -> None:
    """The corner between W7 and W8 stands 1.2 in. from W5, and no eaves of whole inches fit between them."""
    plan = plan_of(SLOT, overhang_ft=1.0)
    assert_framed(plan)
    (note,) = build_roof(plan, build_outline(plan)).notes
    assert note.startswith("Eaves of 1'-0\" would meet or run past one another: they are made 0'-0\" along ")


def test_an_angled_wall_beside_a_step_may_hide_the_tip_of_the_wall_before_it() -> None:
    """W1 ends 1/4 in. within the square corner that W3 stands for, past W2 of 3-1/2 in."""
    assert_framed(plan_of(STEP, overhang_ft=1.5, rake_overhang_ft=1.5))
