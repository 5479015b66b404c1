"""The layout where two wings meet, on an L, a T, a U and a Z laid out by hand as a framer would draw them.

Common practice, no source. 5:12, heel 6 in., walls 8 in., setback 7 ft, trusses at 2 ft from the hip girder. Heights of
a top chord are above the tie beam: run from the outside face x 5/12 + 6 in.
"""

from __future__ import annotations

import numpy as np
import pytest

from framing.layout.assembly import build_framing
from framing.members import CarrierKind, Framing, Member, MemberKind
from framing.plan import Point, RoofType
from framing.roof.surface import build_roof
from framing.walls.outline import build_outline
from invariants.houses import plan_of

RISE, HEEL_FT, HALF_WALL_FT = 5.0 / 12.0, 0.5, 4.0 / 12.0
ELL = [(0, 0), (58, 0), (58, 32), (22, 32), (22, 54), (0, 54)]
NARROW_ELL = [(0, 0), (58, 0), (58, 32), (12, 32), (12, 54), (0, 54)]
FLUSH_END = [(0, 0), (80, 0), (80, 12), (58, 12), (58, 32), (0, 32)]
TEE = [(0, 0), (20, 0), (20, -12), (44, -12), (44, 0), (70, 0), (70, 30), (0, 30)]
YOU = [(0, 0), (70, 0), (70, 50), (46, 50), (46, 24), (24, 24), (24, 50), (0, 50)]
ZED = [(0, 0), (40, 0), (40, 10), (60, 10), (60, 38), (20, 38), (20, 28), (0, 28)]


def framing_of(ring: list[Point], **changed: object) -> Framing:
    plan = plan_of(ring, **changed)
    outline = build_outline(plan)
    return build_framing(plan, outline, build_roof(plan, outline))


def kind(framing: Framing, wanted: MemberKind) -> list[Member]:
    return [m for m in framing.members if m.kind is wanted]


def on_line(framing: Framing, wanted: MemberKind, axis: int, at_ft: float) -> Member:
    """The member of a kind that stands along a line: `axis` is the coordinate that is the same at both its ends."""
    [found] = [m for m in kind(framing, wanted) if all(abs(p[axis] - at_ft) < 0.01 for p in (m.start_ft, m.end_ft))]
    return found


def top_ft(member: Member, along_ft: float) -> float:
    """How high a member's top is `along_ft` from its start bearing."""
    return float(np.interp(along_ft, *zip(*member.profile, strict=True)))


def plane_ft(run_ft: float) -> float:
    return HEEL_FT + RISE * run_ft


def feet(members: list[Member]) -> set[Point]:
    return {(round(m.start_ft[0], 2), round(m.start_ft[1], 2)) for m in members}


def across_ft(pieces: list[Member]) -> list[tuple[float, float]]:
    """From where to where along x each piece runs."""
    return [tuple(sorted(round(p[0], 3) for p in (m.start_ft, m.end_ft))) for m in pieces]


def on_names(member: Member) -> list[str]:
    return [c.name for c in member.carriers]


def test_an_l_has_a_corner_jack_at_each_of_its_five_hips_and_none_at_the_seam() -> None:
    """The west wall runs on past (0, 32): no hip rises there."""
    ell = framing_of(ELL)
    corners = {(0.33, 0.33), (57.67, 0.33), (57.67, 31.67), (21.67, 53.67), (0.33, 53.67)}
    assert feet(kind(ell, MemberKind.CORNER_JACK)) == corners
    assert all(m.carriers[0].kind is CarrierKind.WALL for m in kind(ell, MemberKind.CORNER_JACK))


def test_the_end_jacks_of_an_l_run_square_from_the_west_wall_as_far_as_the_seam_s_girder() -> None:
    """From the one corner jack's top at y = 7, at 2 ft to y = 31: 12 jacks and, in the other corner's place, none."""
    ell = framing_of(ELL)
    west = [m for m in kind(ell, MemberKind.END_JACK) if abs(m.end_ft[0] - 7.0) < 0.01 and m.start_ft[1] < 32.0]
    assert sorted(round(m.start_ft[1], 2) for m in west) == [7.0 + 2.0 * k for k in range(13)]
    assert {tuple(on_names(m)) for m in west} == {("W6", "hip girder 1")}
    assert {m.start_ft[1] == m.end_ft[1] for m in west} == {True}


def test_the_hip_girder_and_step_downs_of_an_l_keep_their_flat_top_to_the_seam() -> None:
    """The garage wing is 22 ft wide, its ridge 11 ft from the west wall: as far as there the west plane runs on."""
    ell = framing_of(ELL)
    span_ft = 32.0 - 2.0 * HALF_WALL_FT
    for at_ft, wanted in ((7.0, MemberKind.HIP_GIRDER), (9.0, MemberKind.STEP_DOWN), (11.0, MemberKind.STEP_DOWN)):
        truss = on_line(ell, wanted, 0, at_ft)
        assert on_names(truss) == ["W1", "girder 1"]
        assert truss.profile[-1] == pytest.approx((span_ft, plane_ft(at_ft)))
        assert top_ft(truss, at_ft - HALF_WALL_FT) == pytest.approx(plane_ft(at_ft))
    for at_ft in (13.0, 15.0):
        past_the_ridge = on_line(ell, MemberKind.STEP_DOWN, 0, at_ft)
        assert past_the_ridge.profile[-1] == pytest.approx((span_ft, plane_ft(HALF_WALL_FT)))


def test_the_seam_s_girder_of_an_l_is_as_high_as_the_roof_seen_over_it() -> None:
    """It carries the half-hips' vertical ends: a triangle like the garage wing's own trusses."""
    ell = framing_of(ELL)
    [girder] = kind(ell, MemberKind.GIRDER)
    along_ft, top = zip(*girder.profile, strict=True)
    assert along_ft == pytest.approx((0.0, 11.0 - HALF_WALL_FT, 22.0 - 2.0 * HALF_WALL_FT))
    assert top == pytest.approx((plane_ft(HALF_WALL_FT), plane_ft(11.0), plane_ft(HALF_WALL_FT)))


def test_the_valley_set_of_an_l_lies_only_beside_the_valley_that_is_seen() -> None:
    """From the inside corner (22, 32) at 45 degrees to the ridge at (11, 21); from the seam at 2 ft: 9, 7, 5, 3 ft."""
    pieces = kind(framing_of(ELL), MemberKind.VALLEY)
    assert across_ft(pieces) == [(11.0, x) for x in (20.0, 18.0, 16.0, 14.0)]
    assert [m.start_ft[1] for m in pieces] == [30.0, 28.0, 26.0, 24.0]


def test_the_half_bay_beside_the_seam_is_its_girder_s() -> None:
    """The last end jack stands at y = 31, the girder at y = 31.67: the strip between their middle and y = 32."""
    ell = framing_of(ELL)
    girder = ell.members.index(kind(ell, MemberKind.GIRDER)[0])
    beside = [t.ring_ft for t in ell.tributaries if t.owner == girder and max(p[1] for p in t.ring_ft) < 32.01]
    corners = {(x, y) for x in (0.0, 7.0) for y in ((31.0 + 31.0 + 2.0 / 3.0) / 2.0, 32.0)}
    inside = [r for r in beside if min(p[0] for p in r) > -0.01 and min(p[1] for p in r) < 31.99]
    assert [{(round(x, 6), round(y, 6)) for x, y in r} for r in inside] == [{(x, round(y, 6)) for x, y in corners}]


def test_a_wing_narrower_than_two_setbacks_leaves_a_corner_jack_on_the_girder_s_heel_without_a_mark() -> None:
    """12 ft wide under a setback of 7 ft: over the corner the roof seen falls to 5 ft of run, under the end's 7."""
    narrow = framing_of(NARROW_ELL)
    [hung] = [m for m in kind(narrow, MemberKind.CORNER_JACK) if m.carriers[0].kind is CarrierKind.MEMBER]
    assert on_names(hung) == ["girder 1", "hip girder 1"]
    assert feet([hung]) == {(0.33, 31.67)}
    assert hung.name not in {b.member for b in narrow.bearings}
    [note] = [n for n in narrow.notes if n.startswith("Hung at the heel of a girder")]
    assert f"{hung.name} on girder 1" in note


def test_where_the_side_s_plane_runs_on_past_an_end_the_corner_is_framed_as_a_hip_on_the_girder() -> None:
    """A wing flush with the long wall goes on past the hip end: under its lower roof end jacks would stand too high."""
    flush = framing_of(FLUSH_END)
    hung = [m for m in kind(flush, MemberKind.CORNER_JACK) if m.carriers[0].kind is CarrierKind.MEMBER]
    assert feet(hung) == {(57.67, 0.33)}


def test_a_truss_where_the_girder_lies_on_the_wall_hangs_on_it() -> None:
    """The common at x = 21 of an L with its setback 1 ft longer stands in the wood of the girder's end, which reaches
    to the inside corner at x = 22; at x = 22.02 it would still.
    """
    ell = framing_of(ELL, setback_ft=8.0)
    common = on_line(ell, MemberKind.COMMON, 0, 22.0)
    assert on_names(common) == ["W1", "girder 1"]
    assert f"{common.name} on girder 1" in " ".join(ell.notes)


def test_a_t_has_no_half_hip_and_a_valley_set_as_wide_as_its_stem_from_the_seam_inward() -> None:
    """No corner of a wing lies at the seam. The stem's ridge runs 12 ft into the main roof: 20, 16, 12, 8, 4 ft."""
    tee = framing_of(TEE)
    assert len(kind(tee, MemberKind.CORNER_JACK)) == 6
    pieces = kind(tee, MemberKind.VALLEY)
    assert [(m.start_ft[1], round(m.span_ft, 3)) for m in pieces] == [
        (2.0, 20.0), (4.0, 16.0), (6.0, 12.0), (8.0, 8.0), (10.0, 4.0),
    ]  # fmt: skip
    assert {m.profile[-1][1] for m in kind(tee, MemberKind.HIP_GIRDER)} == {plane_ft(-2.0)}


def test_a_u_has_six_hips_two_seams_and_valleys_at_its_two_inside_corners_alone() -> None:
    """Arms and back are 24 ft wide: the arms' outer planes run on over the back's ends, one plane, as far as the ridge
    12 ft in; a valley rises from (24, 24) to (12, 12) and another from (46, 24) to (58, 12).
    """
    you = framing_of(YOU)
    assert len(kind(you, MemberKind.CORNER_JACK)) == 6
    assert not [m for m in kind(you, MemberKind.CORNER_JACK) if m.carriers[0].kind is CarrierKind.MEMBER]
    west, east = [[m for m in kind(you, MemberKind.VALLEY) if (m.start_ft[0] < 35.0) is at] for at in (True, False)]
    assert across_ft(west) == [(11.0, x) for x in (22.0, 20.0, 18.0, 16.0, 14.0)]
    assert across_ft(east) == [(x, x) for x in (48.0, 50.0, 52.0, 54.0, 56.0)]
    assert {min(m.start_ft[1], m.end_ft[1]) for m in east} == {11.0}


def test_a_z_has_a_half_hip_at_both_seams_and_six_corner_jacks() -> None:
    """The east plane of the lower wing and the west plane of the upper one run on past their seams."""
    zed = framing_of(ZED)
    outside = {(0.33, 0.33), (39.67, 0.33), (59.67, 10.33), (59.67, 37.67), (20.33, 37.67), (0.33, 27.67)}
    assert feet(kind(zed, MemberKind.CORNER_JACK)) == outside
    lower = on_line(zed, MemberKind.HIP_GIRDER, 0, 33.0)
    assert lower.profile[-1] == pytest.approx((28.0 - 2.0 * HALF_WALL_FT, plane_ft(7.0)))
    upper = on_line(zed, MemberKind.HIP_GIRDER, 0, 27.0)
    assert upper.profile[0] == pytest.approx((0.0, plane_ft(7.0)))


def test_equal_wings_round_an_inside_corner_get_no_valley_piece_where_their_faces_are_one_plane() -> None:
    """A house 12 ft deep round an inside corner at (12, 12): the valley rises to (6, 6); on its west side the outer
    plane is one. Two pieces, both east of the ridge.
    """
    skirt = framing_of([(0, 0), (40, 0), (40, 12), (12, 12), (12, 40), (0, 40)])
    pieces = kind(skirt, MemberKind.VALLEY)
    assert across_ft(pieces) == [(6.0, 10.0), (6.0, 8.0)]


@pytest.mark.parametrize(
    "ring",
    [
        [(0, 0), (50, 0), (50, 28), (32, 28), (32, 31), (18, 31), (18, 28), (0, 28)],
        [(0, 0), (50, 0), (50, 28), (25, 28), (25, 31), (0, 31)],
    ],
    ids=["a bay 14 ft wide", "half the wall"],
)
def test_a_wall_stepped_out_by_3_ft_gets_longer_trusses_and_no_girder(ring: list[Point]) -> None:
    """Its trusses follow the roof that is seen down to the eave of the step: no girder, no valley piece."""
    stepped = framing_of(ring)
    assert not kind(stepped, MemberKind.GIRDER)
    assert not kind(stepped, MemberKind.VALLEY)
    longer = [m for m in kind(stepped, MemberKind.COMMON) if m.span_ft > 28.0]
    assert {round(m.span_ft, 6) for m in longer} == {round(31.0 - 2.0 * HALF_WALL_FT, 6)}
    assert {round(m.profile[-1][1], 5) for m in longer} == {round(plane_ft(-2.0), 5)}
    assert all(top_ft(m, m.span_ft) == pytest.approx(plane_ft(HALF_WALL_FT), abs=1e-5) for m in longer)


def test_a_wing_of_4_ft_keeps_its_girder() -> None:
    """Past 4 ft trusses are no longer lengthened."""
    assert kind(
        framing_of([(0, 0), (50, 0), (50, 28), (32, 28), (32, 32), (18, 32), (18, 28), (0, 28)]), MemberKind.GIRDER
    )


def test_gables_have_no_half_hips() -> None:
    """Under gables the end's plane does not exist: commons to the gable, and a whole valley set."""
    ell = framing_of(ELL, type=RoofType.GABLE)
    assert not kind(ell, MemberKind.CORNER_JACK)
    assert all(not t.open_sides for t in ell.tributaries)
