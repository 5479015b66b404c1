"""The open porch: what a plan may say of it, the sentence for each mistake, and what the wind puts under its roof.

Standards have no rule of their own for a porch under the main roof: its underside is taken as a deep overhang's
(inferred). By hand on one gable house: 40 ft by 24 ft, 9 ft 4 in. to the tie beam, 5:12, 2 ft eaves, trusses 2 ft on
centre, 160 mph, Exposure C, enclosed; h = 13.6667 ft, so K_z is that of 15 ft. A beam along W3 from 10 to 30 ft of the
plan's x, the open floor behind it 8 ft deep.
"""

from __future__ import annotations

import itertools
import json
import math
import re
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
import shapely

from export.report.assumptions import plan_lines
from export.tables.run_json import run_json
from export.words.check import findings, findings_text
from framing.anchors.catalogue_file import shipped_catalogue
from framing.errors import PlanError
from framing.explain.trace import trace
from framing.fingerprint import fingerprint
from framing.loads.cases import LoadCase
from framing.members import MemberKind
from framing.plan import Basis, EditionName, MwfrsProcedure, Plan, Point, Porch, RoofType, Support, SupportKind
from framing.plan_file import plan_from_text
from framing.run import Run, make_run
from invariants.houses import plan_of
from parts.plans import porch_text

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
FLOOR = ((10.0, 16.0), (30.0, 16.0), (30.0, 24.0), (10.0, 24.0))
SPAN_FT = 24.0 - 8 / 12
AREA_FT2 = SPAN_FT**2 / 3.0
Q_PSF = 0.00256 * 2.41 * (15 / 2460) ** (2 / 9.8) * 0.85 * 160.0**2  # ASCE 7-22, eq. 26.10-1 and table 26.10-1
SHARE = (math.degrees(math.atan(5 / 12)) - 20.0) / 10.0


def beam(start: Point, end: Point) -> Support:
    return Support(kind=SupportKind.BEAM, start_ft=start, end_ft=end, holds_down=False)


def porch_plan(*, floor: tuple[Point, ...] = FLOOR, **changed: object) -> Plan:
    supports = (beam((10.0, 24.0), (30.0, 24.0)),)
    return plan_of(BOX, type=RoofType.GABLE, supports=supports, porches=(Porch(corners_ft=floor),), **changed)


@cache
def run(**changed: object) -> Run:
    return make_run(porch_plan(**changed), shipped_catalogue())


def up_psf(r: Run, case: LoadCase, point: Point) -> float:
    """What a case puts on a square foot of plan at a point, positive up."""
    (k,) = shapely.STRtree(r.patches.polygon).query(shapely.Point(point), predicate="within")
    piece = np.flatnonzero(r.pieces.patch == k)[0]
    return float(case.force_lb[piece] / r.pieces.area_ft2[piece])


def case_of(r: Run, name: str) -> LoadCase:
    return next(c for c in r.loads.cases if c.name == name)


def cladding(r: Run) -> LoadCase:
    """The cladding case of the effective area of a common truss."""
    return min((c for c in r.loads.cases if c.basis == "cladding"), key=lambda c: abs((c.area_ft2 or 0.0) - AREA_FT2))


@pytest.mark.parametrize(
    "floor",
    [
        ((10.0, 10.0), (30.0, 10.0), (30.0, 20.0), (10.0, 20.0)),  # inside the house
        ((0.0, 0.0), (10.0, 0.0), (10.0, 8.0), (0.0, 8.0)),  # behind block walls
        ((10.0, 16.0), (30.0, 16.0), (30.0, 23.7), (10.0, 23.7)),  # to the beam's middle, not its outside face
    ],
)
def test_a_porch_without_a_porch_beam_is_refused(floor: tuple[Point, ...]) -> None:
    with pytest.raises(PlanError) as caught:
        make_run(porch_plan(floor=floor), shipped_catalogue())
    assert re.fullmatch(
        r"porch 1: no side of it lies along a porch beam; write its open side on the outline, where W\d and W\d are "
        r'the nearest walls, and give that side a \[\[support\]\] with kind = "beam"',
        str(caught.value),
    )


def test_a_porch_is_read_shown_and_in_the_fingerprint() -> None:
    plan = plan_from_text(porch_text('[["10\'", 20], [30, 20], [30, 28], [10, 28]]'), "house.toml")
    assert plan.porches == (Porch(corners_ft=((10.0, 20.0), (30.0, 20.0), (30.0, 28.0), (10.0, 28.0))),)
    other = replace(plan, porches=(Porch(corners_ft=((10.0, 21.0), *plan.porches[0].corners_ft[1:])),))
    assert fingerprint(plan, shipped_catalogue()) != fingerprint(other, shipped_catalogue())
    r = make_run(plan, shipped_catalogue())
    assert findings(r)["porches"] == [
        {"name": "porch 1", "corners_ft": list(plan.porches[0].corners_ft), "open_to": ["W3"]}
    ]
    corners = "(10'-0\", 20'-0\"), (30'-0\", 20'-0\"), (30'-0\", 28'-0\"), (10'-0\", 28'-0\")"
    assert f"  porch 1: open to W3, corners {corners}" in findings_text(r).splitlines()
    assert f"Open floor: porch 1, corners {corners}, open to W3." in list(plan_lines(r))
    assert (
        "Porch 1 is open to W3: wind onto an open side lifts its roof from below as it does a deep overhang, other "
        "wind does not; nothing presses from inside."
    ) in r.notes
    assert r.flags == ()
    assert json.loads(run_json(r))["plan"]["porches"] == [{"corners_ft": [list(p) for p in plan.porches[0].corners_ft]}]


@pytest.mark.parametrize("floor", [None, ((10.0, 16.0), (25.0, 16.0), (25.0, 24.0), (10.0, 24.0))])
def test_a_porch_beam_without_a_porch_behind_all_of_it_is_flagged(floor: tuple[Point, ...] | None) -> None:
    plan = porch_plan(floor=floor or FLOOR)
    r = make_run(plan if floor else replace(plan, porches=()), shipped_catalogue())
    assert r.flags == (
        "porch beam S1: no porch of the plan lies behind all of it, so the wind from below is left out there and the "
        "uplifts are too small; write [[porch]] with corners = [[x, y], ...], outside faces of the open floor",
    )


def test_corners_half_an_inch_off_the_outside_face_lie_on_it() -> None:
    off = tuple((x, y + (1 / 24 if y > 20 else 0.0)) for x, y in FLOOR)
    near = make_run(porch_plan(floor=off), shipped_catalogue())
    np.testing.assert_allclose(near.reactions.uplift_lb, run().reactions.uplift_lb, atol=1e-6)


def test_wind_onto_the_open_side_lifts_the_porch_s_roof_as_a_deep_overhang() -> None:
    """Eq. 28.3-1: zone 2 (load case 1) at 22.62 degrees less 0.7 (sec. 28.3.5, number inferred), nothing from inside;
    beside the porch zone 2 with the pressure from inside.
    """
    zone_2 = -0.69 + 0.90 * SHARE
    for inside in (0.18, -0.18):
        case = case_of(run(), f"wind onto W3, left corner, internal {inside:+.2f}")
        assert up_psf(run(), case, (20.1, 20.1)) == pytest.approx(-Q_PSF * (zone_2 - 0.7))
        assert up_psf(run(), case, (20.1, 24.5)) == pytest.approx(-Q_PSF * (zone_2 - 0.7))
        assert up_psf(run(), case, (20.1, 15.9)) == pytest.approx(-Q_PSF * (zone_2 - inside))
        assert up_psf(run(), case, (30.1, 20.1)) == pytest.approx(-Q_PSF * (zone_2 - inside))


def test_other_wind_leaves_the_porch_s_underside_alone() -> None:
    """Onto W1 the porch's slope is zone 3 of load case 1; along the ridge zone 3 of load case 2, with the reference
    corner at W1, and no underside; with the corner at W3 zone 2 and 0.7, as the eave beside it has.
    """
    onto = case_of(run(), "wind onto W1, left corner, internal +0.18")
    assert up_psf(run(), onto, (20.1, 20.1)) == pytest.approx(-Q_PSF * (-0.48 + 0.05 * SHARE))
    at_w1, at_w3 = (case_of(run(), f"wind onto W2, {c} corner, internal +0.18") for c in ("left", "right"))
    assert up_psf(run(), at_w1, (20.1, 20.1)) == pytest.approx(-Q_PSF * -0.37)
    assert up_psf(run(), at_w3, (20.1, 20.1)) == pytest.approx(-Q_PSF * (-0.69 - 0.7))
    assert up_psf(run(), at_w3, (20.1, 24.5)) == pytest.approx(-Q_PSF * (-0.69 - 0.7))


def test_by_the_directional_procedure_it_takes_the_gust_factor_times_0_8() -> None:
    """Eq. 27.3-1 and sec. 27.3.3 (number inferred): G = 0.85; top pressures are those beside the porch."""
    r = run(mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)
    for onto, under in (("W3", 0.85 * 0.8), ("W1", 0.0), ("W2", 0.0), ("W4", 0.0)):
        case = case_of(r, f"wind onto {onto}, suction, internal +0.18")
        beside = up_psf(r, case, (20.1, 15.9)) - Q_PSF * 0.18
        assert up_psf(r, case, (20.1, 20.1)) == pytest.approx(beside + Q_PSF * under), onto


def test_cladding_over_the_porch_has_the_wall_s_positive_pressure_on_its_soffit() -> None:
    """Fig. 30.3-2C zone 1 less fig. 30.3-1 positive (sec. 30.7), at a common's 181.48 sq ft, without the inside."""
    zone_1 = -2.038 + 0.538 * math.log10(AREA_FT2)
    soffit = 1.1766 - 0.1766 * math.log10(AREA_FT2)
    assert up_psf(run(), cladding(run()), (20.1, 20.1)) == pytest.approx(-Q_PSF * (zone_1 - soffit), rel=2e-4)
    assert up_psf(run(), cladding(run()), (20.1, 15.5)) == pytest.approx(-Q_PSF * (zone_1 - 0.18), rel=2e-4)
    assert up_psf(run(), cladding(run()), (34.1, 20.1)) == pytest.approx(-Q_PSF * (zone_1 - 0.18), rel=2e-4)


def test_cladding_by_7_16_takes_that_edition_s_own_overhang_curve() -> None:
    """ASCE 7-16, fig. 30.3-2C (fair): overhang of zone 1, -2.2212 + 0.1701 log A from 20 to 300 sq ft, both faces."""
    r = run(edition=EditionName.ASCE_7_16)
    q = 0.00256 * 2.01 * (15 / 900) ** (2 / 9.5) * 0.85 * 160.0**2
    overhang = -2.2212 + 0.1701 * math.log10(AREA_FT2)
    assert up_psf(r, cladding(r), (20.1, 20.1)) == pytest.approx(-q * overhang, rel=2e-4)


def common_over_the_porch(r: Run) -> tuple[int, int]:
    """The two bearings, on W1 and on the beam, of the common truss nearest the middle of the porch."""
    commons = [m for m in r.framing.members if m.kind is MemberKind.COMMON]
    name = min(commons, key=lambda m: abs(m.start_ft[0] - 20.0)).name
    found = {b.wall: i for i, b in enumerate(r.framing.bearings) if b.member == name}
    return found["W1"], found["S1"]


@pytest.mark.parametrize("variant", ["heel", "deck"])
def test_one_truss_over_the_porch_by_hand(variant: str) -> None:
    """Moments about the beam, own statics: each foot p at x from the bearing on W1 lifts with L - x; held at the heel
    its push, p tan(theta) downhill and outward at its height over the bearing line, takes part: - p x tan^2 on the
    slope at W1, + p (L - x) tan^2 on the other. The porch's floor begins at 16 ft, 8 ft inside the outside face.
    """
    tan = 5 / 12
    windward, lee, inside = 0.69 - 0.90 * SHARE, 0.48 - 0.05 * SHARE, 0.18
    half, eave, L = 1 / 3, 2 + 1 / 3, SPAN_FT
    strips = [  # from, to, p / q, whether the slope at W1; wind onto W3
        (-eave, -half, lee, True),
        (-half, L / 2, lee + inside, True),
        (L / 2, 16.0 - half, windward + inside, False),
        (16.0 - half, L + eave, windward + 0.7, False),
    ]
    lift = sum(p * (b - a) for a, b, p, _ in strips)
    moment = 0.0
    for a, b, p, at_w1 in strips:
        mid = (a + b) / 2.0
        push = (-mid if at_w1 else L - mid) * tan**2 if variant == "heel" else 0.0
        moment += p * (b - a) * (L - mid + push)
    wall_lb = 2.0 * Q_PSF * moment / L
    beam_lb = 2.0 * Q_PSF * lift - wall_lb
    r = run().reactions
    name = f"wind onto W3, left corner, internal +0.18, {variant}"
    case = next(j for j, c in enumerate(r.cases) if c.name == name)
    at_wall, at_beam = common_over_the_porch(run())
    assert r.by_case_lb[at_wall, case] == pytest.approx(wall_lb, rel=1e-9)
    assert r.by_case_lb[at_beam, case] == pytest.approx(beam_lb, rel=1e-9)


def test_the_trace_of_a_mark_on_the_beam_names_the_porch_and_its_underside() -> None:
    r = run(basis=Basis.MWFRS)
    _, at_beam = common_over_the_porch(r)
    found = trace(r, r.framing.bearings[at_beam].mark)
    under = [line for line in found.wind[0].roof if line.pressure.under == "open porch"]
    assert sum(line.area_ft2 for line in under) == pytest.approx(2.0 * 8.0)
    assert {line.pressure.underside_factor for line in under} == {0.7}
    assert {line.pressure.inside_factor for line in under} == {0.0}
    assert found.wind[0].lb == pytest.approx(float(r.reactions.wind_lb[at_beam]), rel=1e-9)


@pytest.mark.parametrize("edition", EditionName)
@pytest.mark.parametrize("procedure", MwfrsProcedure)
def test_the_zones_give_every_case_again_and_the_porch_lifts_more(
    edition: EditionName, procedure: MwfrsProcedure
) -> None:
    r = run(edition=edition, mwfrs_procedure=procedure)
    closed = make_run(replace(porch_plan(edition=edition, mwfrs_procedure=procedure), porches=()), shipped_catalogue())
    for case in r.loads.cases:
        assert case.wind is None or "" not in case.wind.zone, case.name
    on_beam = [i for i, b in enumerate(r.framing.bearings) if b.wall == "S1"]
    assert len(on_beam) >= 9
    assert (r.reactions.uplift_lb[on_beam] > 1.05 * closed.reactions.uplift_lb[on_beam]).all()
    np.testing.assert_allclose(r.reactions.down_lb, closed.reactions.down_lb, rtol=1e-9)


def test_a_porch_at_a_corner_is_open_to_both_winds() -> None:
    supports = (beam((30.0, 0.3), (40.0, 0.3)), beam((39.7, 0.0), (39.7, 10.0)))
    floor = Porch(corners_ft=((30.0, 0.0), (40.0, 0.0), (40.0, 10.0), (30.0, 10.0)))
    r = make_run(plan_of(BOX, supports=supports, porches=(floor,)), shipped_catalogue())
    (porch,) = r.framing.porches
    assert [r.outline.walls[w].name for w in porch.open_walls] == ["W1", "W2"]
    assert porch.open_sides == (1, 2)
    open_to = {s: bool(r.patches.open_below[:, s].any()) for s in range(4)}
    assert open_to == {0: False, 1: True, 2: True, 3: False}


def test_a_porch_on_an_angled_wall_is_open_to_the_winds_that_it_faces_by_60_degrees_or_less() -> None:
    clipped = [(0, 0), (40, 0), (40, 20), (32, 28), (0, 28)]
    floor = Porch(corners_ft=((40.0, 20.0), (32.0, 28.0), (32.0, 20.0)))
    plan = plan_of(clipped, supports=(beam((40.0, 20.0), (32.0, 28.0)),), porches=(floor,))
    (porch,) = make_run(plan, shipped_catalogue()).framing.porches
    assert porch.open_sides == (1, 3)


def test_the_porch_s_floor_is_cut_out_of_the_roof_to_its_own_size() -> None:
    r = run()
    over = shapely.area(r.patches.polygon[r.patches.over_porch]).sum()
    assert over == pytest.approx(20.0 * 8.0, rel=1e-9)
    outside = [
        p
        for p, q in itertools.product(r.patches.polygon[~r.patches.over_porch], [shapely.Polygon(FLOOR)])
        if p.intersection(q).area > 1e-6
    ]
    assert outside == []


def test_a_wall_that_is_all_porch_beam_with_its_porch_behind_it_is_framed() -> None:
    """The tied-down wall behind the porch carries nothing: every truss runs along it."""
    supports = (
        Support(kind=SupportKind.BEAM, start_ft=(0.0, 0.0), end_ft=(26.0, 0.0), holds_down=False),
        Support(kind=SupportKind.BEARING_WALL, start_ft=(0.0, 10.0), end_ft=(26.0, 10.0), holds_down=True),
    )
    floor = Porch(corners_ft=((0.0, 0.0), (26.0, 0.0), (26.0, 10.0), (0.0, 10.0)))
    plan = plan_of([(0, 0), (26, 0), (26, 30), (0, 30)], supports=supports, porches=(floor,), type=RoofType.HIP)
    r = make_run(plan, shipped_catalogue())
    assert {m.bearing.wall for m in r.schedule.marks} == {"S1", "W2", "W3", "W4"}
    assert not r.schedule.unresolved
