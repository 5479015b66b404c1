"""The program's reactions under a uniform normal pressure against the closed forms of a roof's pieces.

Closed forms: own statics of simple beams, checked against AWC Design Aid No. 6 (2007), figures 1, 2 and 5, in
test_frame_model.py: setback S, width W, spacing s, unit pressure, so that a reaction is an area. The corner
jack's and the hip girder's forms are the limit of close spacing.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.layout import hip_corners, hip_ends
from framing.loads.load_path import Variant, build_map
from framing.loads.rake_frames import framed_by
from framing.members import MemberKind
from framing.plan import Plan, RakeFrame, RoofType
from framing.run import Run, make_run
from invariants.houses import plan_of

S, W, LENGTH = 7.0, 30.0, 60.0
RISE = 5.0 / 12.0
EXACT = 1e-9


def hip_plan(spacing_ft: float, overhang_ft: float = 0.0) -> Plan:
    """A hip rectangle whose bearing lines are its outside faces (no wall thickness), as the closed forms have it."""
    return plan_of(
        [(0, 0), (LENGTH, 0), (LENGTH, W), (0, W)],
        wall_thickness_ft=0.0,
        overhang_ft=overhang_ft,
        rake_overhang_ft=0.0,
        setback_ft=S,
        spacing_ft=spacing_ft,
    )


def areas(run: Run, variant: Variant) -> np.ndarray:
    """What each bearing receives from one pound on every square foot of plan."""
    load_path = build_map(run.plan, run.framing, run.patches, run.pieces, variant)
    return load_path.apply(run.pieces.area_ft2[:, None])[:, 0]


def by_kind(plan: Plan, variant: Variant = Variant.DECK) -> dict[MemberKind, list[float]]:
    run = make_run(plan, shipped_catalogue())
    out: dict[MemberKind, list[float]] = defaultdict(list)
    for bearing, area in zip(run.framing.bearings, areas(run, variant), strict=True):
        out[bearing.kind].append(float(area))
    return out


@pytest.mark.parametrize("kind", [MemberKind.COMMON, MemberKind.STEP_DOWN])
def test_a_common_and_a_step_down_truss_give_each_wall_half_their_strip(kind: MemberKind) -> None:
    full = [a for a in by_kind(hip_plan(2.0))[kind] if a > 0.9 * W]
    assert len(full) > 10
    np.testing.assert_allclose(full, 2.0 * W / 2.0, atol=EXACT)


def test_an_end_jack_gives_the_wall_half_its_strip() -> None:
    inner = [a for a in by_kind(hip_plan(2.0))[MemberKind.END_JACK] if a > 6.0]
    np.testing.assert_allclose(inner, 2.0 * S / 2.0, atol=EXACT)
    assert len(inner) == 14


def test_a_side_jack_of_plan_length_x_gives_the_wall_half_of_s_times_x() -> None:
    jacks = np.sort(by_kind(hip_plan(2.0))[MemberKind.SIDE_JACK])
    np.testing.assert_allclose(jacks[:8], 2.0 * 2.0 / 2.0, atol=EXACT)
    np.testing.assert_allclose(jacks[8:16], 2.0 * 4.0 / 2.0, atol=EXACT)
    # the one next to the girder has a strip from 5 to 6.5 ft: its own half of the odd bay
    np.testing.assert_allclose(jacks[16:], 1.5 * 5.75 / 2.0, atol=EXACT)


@pytest.mark.parametrize(
    ("variant", "share"), [(Variant.HEEL, (1.0 - RISE**2) / 2.0), (Variant.DECK, 0.5)], ids=["heel", "deck"]
)
def test_a_jack_under_a_normal_pressure_splits_by_where_its_sideways_part_is_held(
    variant: Variant, share: float
) -> None:
    """Heel: the wall takes p S (1 - tan^2 theta) / 2 and the girder the rest; deck: half each."""
    inner = np.sort(by_kind(hip_plan(2.0), variant)[MemberKind.END_JACK])[4:]
    np.testing.assert_allclose(inner, 2.0 * S * share, atol=EXACT)


def test_an_overhang_levers_a_jack_at_the_wall() -> None:
    """The wall takes the inside's half and s OH (S + OH / 2) / S of the overhang."""
    over, s = 2.0, 2.0
    inner = np.sort(by_kind(hip_plan(s, over))[MemberKind.END_JACK])[4:]
    np.testing.assert_allclose(inner, s * S / 2.0 + s * over * (S + over / 2.0) / S, atol=EXACT)


def test_the_corner_jack_and_the_hip_girder_come_to_their_limits_as_the_spacing_shrinks(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Corner of wall S^2 / 6; hip girder S (W - 2 S) / 4 + S^2 / 3 + s W / 4. Within 5 % at 24 in., and closer at 12,
    6 and 3 in. once jacks shorter than 12 in. are built too.
    """
    for module in (hip_corners, hip_ends):
        monkeypatch.setattr(module, "SHORTEST_PIECE_FT", 0.0)
    corner_off, girder_off = [], []
    for s in (2.0, 1.0, 0.5, 0.25):
        found = by_kind(hip_plan(s))
        girder = S * (W - 2 * S) / 4.0 + S**2 / 3.0 + s * W / 4.0
        corner_off.append(found[MemberKind.CORNER_JACK][0] - S**2 / 6.0)
        girder_off.append(found[MemberKind.HIP_GIRDER][0] - girder)
        assert abs(corner_off[-1]) < 0.05 * S**2 / 6.0
        assert abs(girder_off[-1]) < 0.05 * girder
    assert np.all(np.diff(np.abs(corner_off)) < 0)
    assert np.all(np.diff(np.abs(girder_off)) < 0)
    assert abs(corner_off[-1]) < 0.001 * S**2


@pytest.mark.parametrize("spacing_ft", [2.0, 4.0 / 3.0, 1.0, 0.7])
def test_the_whole_hip_end_comes_down_at_any_spacing(spacing_ft: float) -> None:
    """One hip end and half the house: W x L / 2, by symmetry of the two ends where the layout is symmetric."""
    found = by_kind(hip_plan(spacing_ft))
    assert sum(map(sum, found.values())) == pytest.approx(W * LENGTH, rel=EXACT)


def test_outlookers_lever_over_the_gable_wall() -> None:
    """With backspan b and overhang OH the wall takes OH + b / 2 + OH^2 / (2 b) a foot, the truss inside gives up
    b / 2 + its own half bay on that side less OH^2 / (2 b).
    """
    depth, over = 24.0, 1.0
    plan = plan_of(
        [(0, 0), (40, 0), (40, depth), (0, depth)],
        type=RoofType.GABLE,
        wall_thickness_ft=0.0,
        overhang_ft=0.0,
        rake_overhang_ft=over,
    )
    run = make_run(plan, shipped_catalogue())
    found = dict(zip([b.mark for b in run.framing.bearings], areas(run, Variant.DECK), strict=True))
    gable = [m for b, m in zip(run.framing.bearings, found.values(), strict=True) if b.wall == "W4"]
    flush = 0.75 / 12.0  # the gable truss stands flush with the wall's face
    b, reach = 2.0 - flush, over + flush
    assert sum(gable) == pytest.approx(depth * (reach + b / 2.0 + reach**2 / (2.0 * b)), rel=EXACT)
    first = next(a for bearing, a in zip(run.framing.bearings, found.values(), strict=True) if bearing.wall == "W1")
    assert first == pytest.approx(depth / 2.0 * (1.0 + b / 2.0 - reach**2 / (2.0 * b)), rel=EXACT)


def test_a_ladder_hangs_on_the_gable_wall_alone_and_the_truss_inside_carries_its_plain_strip() -> None:
    """The wall OH + b/2 a foot, the truss its half bays; both ways of carrying the rake balance by themselves."""
    depth, over = 24.0, 1.0
    plan = plan_of(
        [(0, 0), (40, 0), (40, depth), (0, depth)],
        type=RoofType.GABLE,
        wall_thickness_ft=0.0,
        overhang_ft=0.0,
        rake_overhang_ft=over,
    )
    run = make_run(plan, shipped_catalogue())
    ladder = replace(run, framing=framed_by(run.framing, RakeFrame.LADDER))
    found = areas(ladder, Variant.DECK)
    gable = [a for b, a in zip(run.framing.bearings, found, strict=True) if b.wall == "W4"]
    first = next(a for b, a in zip(run.framing.bearings, found, strict=True) if b.wall == "W1")
    half_bay = (2.0 - 0.75 / 12.0) / 2.0
    assert sum(gable) == pytest.approx(depth * (over + 0.75 / 12.0 + half_bay), rel=EXACT)
    assert first == pytest.approx(depth / 2.0 * (1.0 + half_bay), rel=EXACT)
    assert {c.rake for c in run.reactions.cases} == set(RakeFrame)
    for case in run.reactions.cases:
        assert case.reactions_vertical_lb == pytest.approx(case.applied_vertical_lb, rel=1e-9, abs=1e-6)


def test_a_girder_at_an_inside_corner_carries_half_its_trusses_and_its_own_strip() -> None:
    """R = (Lt / 2)(Lg / 2) + half of its own strip: trusses of span Lt over an opening Lg."""
    truss, opening = 24.0, 14.0
    plan = plan_of(
        [(0, 0), (30, 0), (30, -10), (30 + opening, -10), (30 + opening, truss), (0, truss)],
        type=RoofType.GABLE,
        wall_thickness_ft=0.0,
        overhang_ft=0.0,
        rake_overhang_ft=0.0,
        spacing_ft=0.5,
    )
    run = make_run(plan, shipped_catalogue())
    girder = [
        a for b, a in zip(run.framing.bearings, areas(run, Variant.DECK), strict=True) if b.kind is MemberKind.GIRDER
    ]
    assert len(girder) == 2
    spacing, flush = 0.5, 0.75 / 12.0
    on_the_wall = spacing / 2.0  # the truss at the girder's end stands on the wall, with its half bay
    to_the_gable = flush + (spacing - flush) / 2.0  # the gable end's half bay
    own_strip = spacing / 2.0 * opening
    carried = opening - on_the_wall - to_the_gable
    assert sum(girder) == pytest.approx(truss / 2.0 * carried + own_strip, rel=EXACT)
