"""Plain truss lines at the ends of cells that lie in one place are one; and the kinds of things are all different."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum

import pytest

from framing.frame_side import FrameSide
from framing.layout.assembly import build_framing
from framing.layout.cell_plan import CellEnd, CellPlan, EndKind, Slot
from framing.layout.doubtful_members import too_short
from framing.layout.records import Cell, Key, KeyKind
from framing.layout.shared_truss_lines import share_truss_lines
from framing.layout.truss_lines import _one_on_chord
from framing.members import CarrierKind, Crossing, MemberKind
from framing.plan import Point
from framing.roof.lines import LineKind
from framing.roof.surface import build_roof
from framing.roof.wings import Wing
from framing.walls.outline import build_outline
from invariants.houses import plan_of


def plain_end(side: FrameSide, at_ft: float, chord_number: int) -> CellEnd:
    key = Key(KeyKind.SEAM, (chord_number,))
    return CellEnd(side=side, kind=EndKind.CHORD, line_ft=at_ft, truss_ft=at_ft, key=key)


def sharing(index: int, across_ft: Point, axis: int, at_ft: float) -> CellPlan:
    """A cell whose high end along the axis is the plain truss line of the chord of its own number."""
    low, high = (0.0, across_ft[0]), (at_ft, across_ft[1])
    if axis:
        low, high = low[::-1], high[::-1]
    own = Cell(index=index, low_ft=low, high_ft=high, wing=0, ridge_axis=axis, jog_ft=2.0)
    near, far = own.ends
    ends = plain_end(near, 0.0, 90 + index), plain_end(far, at_ft, index)
    slots = tuple(Slot(at_ft=e.truss_ft, key=e.key, kind=MemberKind.COMMON, plies=1) for e in ends)
    wing = Wing(name="wing 1", low_ft=own.low_ft, high_ft=own.high_ft, ridge_axis=axis, gable=(False,) * 4)
    return CellPlan(
        cell=own,
        wing=wing,
        low_end=ends[0],
        high_end=ends[1],
        setback_ft=7.0,
        slots=slots,
        half_hips=(),
        merged_ft=(),
    )


@pytest.mark.parametrize("axis", [0, 1])
def test_a_plain_truss_line_within_3_in_of_one_that_spans_it_is_that_one(axis: int) -> None:
    """Of three the widest stands for all; none that reaches past it, lies 3 in. off or across is one with it."""
    narrow, wide, widest = (sharing(k, a, axis, 20 + k / 10) for k, a in enumerate([(8, 12), (5, 20), (0, 30)]))
    past, off = sharing(3, (25, 35), axis, 20.1), sharing(4, (8, 12), axis, 20.5)
    across = sharing(5, (8, 12), 1 - axis, 20.1)
    found = share_truss_lines([narrow, wide, widest, past, off, across])
    assert [cp.high_end.key.place[0] for cp in found] == [2, 2, 2, 3, 4, 5]
    assert [cp.slots[-1].key for cp in found] == [cp.high_end.key for cp in found]


@pytest.mark.parametrize("names", [KeyKind, EndKind, LineKind, MemberKind, CarrierKind, Crossing])
def test_no_two_kinds_are_one(names: type[Enum]) -> None:
    assert len(names) == len(names.__members__)


def test_a_plain_wall_s_own_truss_within_3_in_of_the_chord_at_the_other_end_is_the_chord_s() -> None:
    chord, wall = plain_end(FrameSide.X_HIGH, 20.2, 7), plain_end(FrameSide.X_LOW, 20.0, 8)
    wall = replace(wall, kind=EndKind.WALL)
    low, high = _one_on_chord(wall, chord)
    assert (low.key, low.truss_ft, high) == (chord.key, 20.2, chord)
    high_wall = replace(wall, side=FrameSide.X_HIGH, truss_ft=20.1)
    low, high = _one_on_chord(replace(chord, side=FrameSide.X_LOW, truss_ft=19.9), high_wall)
    assert (high.key, high.truss_ft) == (chord.key, 19.9)
    far = replace(wall, truss_ft=19.9)
    assert _one_on_chord(far, chord) == (far, chord)


def test_a_truss_under_1_ft_is_flagged_and_a_jack_is_not() -> None:
    plan = plan_of([(0, 0), (30, 0), (30, 14), (0, 14)])
    outline = build_outline(plan)
    members = build_framing(plan, outline, build_roof(plan, outline)).members
    found = []
    for kind in (MemberKind.COMMON, MemberKind.HIP_GIRDER, MemberKind.SIDE_JACK):
        for feet in (0.9, 1.1):
            one = next(m for m in members if m.kind is kind)
            found.append(replace(one, end_ft=(one.start_ft[0], one.start_ft[1] + feet)))
    flags = too_short(found)
    assert [f.split(" near ")[0] for f in flags] == [found[0].name, found[2].name]
