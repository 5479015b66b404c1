"""Each kind of load case on one gable house, by hand: what lies on a square foot, and what one truss gives its wall.

The house: 40 ft by 24 ft, 9 ft 4 in. to the tie beam, 5:12 (22.62 degrees), 2 ft eaves, trusses 2 ft on centre, 160
mph, Exposure C, enclosed, ASCE 7-22; h = 13.6667 ft, so K_z is that of 15 ft; a = 3 ft. Between bearings a common spans
23.3333 ft, so its effective area is 23.3333^2 / 3 = 181.48 sq ft. Fig. 30.3-2C (good), gable over 20 to 27 degrees:
zone 1 -2.038 + 0.538 log A to 200 sq ft, zone 2 -1.2 and zone 3 -1.4 from 100 sq ft; fig. 30.3-1 (good), walls +1.1766
- 0.1766 log A under an overhang (sec. 30.7). Weights: 10 and 5 psf for uplift, 15 and 10 psf for gravity, 20 psf live.
"""

from __future__ import annotations

import math
from functools import cache

import numpy as np
import pytest
import shapely

from framing.anchors.catalogue_file import shipped_catalogue
from framing.asce7.edition import edition
from framing.loads.cases import LoadCase
from framing.members import MemberKind
from framing.plan import Basis, Enclosure, Exposure, MwfrsProcedure, RoofType
from framing.run import Run, make_run
from invariants.houses import moved_plan, plan_of, random_plan

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
SPAN_FT = 24.0 - 8 / 12
AREA_FT2 = SPAN_FT**2 / 3.0
Q_PSF = 0.00256 * 2.41 * (15 / 2460) ** (2 / 9.8) * 0.85 * 160.0**2
ZONE_1 = -2.038 + 0.538 * math.log10(AREA_FT2)
SOFFIT = 1.1766 - 0.1766 * math.log10(AREA_FT2)


@cache
def run(**changed: object) -> Run:
    return make_run(plan_of(BOX, type=RoofType.GABLE, **changed), shipped_catalogue())


def up_psf(r: Run, case: LoadCase, point: tuple[float, float]) -> float:
    """What a case puts on a square foot of plan at a point, positive up."""
    (k,) = shapely.STRtree(r.patches.polygon).query(shapely.Point(point), predicate="within")
    piece = np.flatnonzero(r.pieces.patch == k)[0]
    return float(case.force_lb[piece] / r.pieces.area_ft2[piece])


def cladding(r: Run) -> LoadCase:
    """The cladding case of the effective area of a common truss."""
    return min((c for c in r.loads.cases if c.basis == "cladding"), key=lambda c: abs((c.area_ft2 or 0.0) - AREA_FT2))


def middle(r: Run) -> int:
    """A common truss near the middle of W1."""
    return next(i for i, b in enumerate(r.framing.bearings) if b.wall == "W1" and 19.0 < b.station_ft < 21.5)


@pytest.mark.parametrize(
    ("point", "net"),
    [
        ((20.1, 5.1), ZONE_1 - 0.18),
        ((20.1, 10.1), -1.2 - 0.18),  # within 3 ft of the ridge
        ((0.3, 5.1), -1.2 - 0.18),  # within 3 ft of the rake, 1 ft past the wall
        ((2.1, 5.1), ZONE_1 - 0.18),
        ((0.3, 10.1), -1.4 - 0.18),  # where both cross
        ((20.1, -1.0), ZONE_1 - SOFFIT),
        ((-0.5, 5.1), -1.2 - SOFFIT),
        ((-0.5, 13.1), -1.4 - SOFFIT),
    ],
)
def test_a_cladding_case_is_q_times_the_zone_s_coefficient_less_the_inside(
    point: tuple[float, float], net: float
) -> None:
    """Eq. 30.3-1; overhangs without internal pressure, with the wall's positive under them (sec. 30.7)."""
    r = run()
    assert cladding(r).area_ft2 == pytest.approx(AREA_FT2, abs=0.006)
    assert up_psf(r, cladding(r), point) == pytest.approx(-Q_PSF * net, rel=2e-4)


def test_a_partially_enclosed_house_has_the_larger_pressure_inside_but_not_under_its_eaves() -> None:
    r = run(enclosure=Enclosure.PARTIALLY_ENCLOSED)
    assert up_psf(r, cladding(r), (20.1, 5.1)) == pytest.approx(-Q_PSF * (ZONE_1 - 0.55), rel=2e-4)
    assert up_psf(r, cladding(r), (20.1, -1.0)) == pytest.approx(-Q_PSF * (ZONE_1 - SOFFIT), rel=2e-4)


def test_a_cladding_pressure_is_never_under_16_psf() -> None:
    """Sec. 30.2.2 (good): at 80 mph zone 1 would have 0.25 x Q x 0.99 = 9.5 psf."""
    r = run(speed_mph=80.0)
    assert Q_PSF / 4.0 * -(ZONE_1 - 0.18) < 16.0
    assert up_psf(r, cladding(r), (20.1, 5.1)) == 16.0


def test_a_main_frame_case_is_q_times_the_zone_s_coefficient_less_the_inside() -> None:
    """Eq. 28.3-1, load case 1, zone 3 at 22.62 degrees: -0.48 + 0.05 x 0.262; internal pressure not under the eave."""
    share = (math.degrees(math.atan(5 / 12)) - 20.0) / 10.0
    zone_3 = -0.48 + 0.05 * share
    zone_2 = -0.69 + 0.90 * share
    r = run()
    for inside in (0.18, -0.18):
        name = f"wind onto W1, left corner, internal {inside:+.2f}"
        case = next(c for c in r.loads.cases if c.name == name)
        assert up_psf(r, case, (20.1, 19.1)) == pytest.approx(-Q_PSF * (zone_3 - inside))
        assert up_psf(r, case, (20.1, 25.1)) == pytest.approx(-Q_PSF * zone_3)
        assert up_psf(r, case, (20.1, -1.1)) == pytest.approx(-Q_PSF * (zone_2 - 0.7))


@pytest.mark.parametrize(
    ("wall", "corner", "from_ft"),
    [
        ("W1", "left", (1.1, 5.1)),
        ("W1", "right", (38.9, 5.1)),
        ("W3", "left", (38.9, 19.1)),
        ("W3", "right", (1.1, 19.1)),
    ],
)
def test_a_case_names_the_corner_that_is_left_or_right_seen_from_outside(
    wall: str, corner: str, from_ft: tuple[float, float]
) -> None:
    """The end zone of load case 1 is at that corner: -1.07 + 1.34 x 0.262 against -0.69 + 0.90 x 0.262."""
    share = (math.degrees(math.atan(5 / 12)) - 20.0) / 10.0
    case = next(c for c in run().loads.cases if c.name == f"wind onto {wall}, {corner} corner, internal +0.18")
    assert up_psf(run(), case, from_ft) == pytest.approx(-Q_PSF * (-1.07 + 1.34 * share - 0.18))
    away = (40.0 - from_ft[0], from_ft[1])
    assert up_psf(run(), case, away) == pytest.approx(-Q_PSF * (-0.69 + 0.90 * share - 0.18))


@pytest.mark.parametrize(("wall", "corner"), [("W2", "left"), ("W4", "right")])
def test_onto_a_gable_the_left_corner_is_that_of_the_wall_s_left_end(wall: str, corner: str) -> None:
    """Load case 2: zone 2E (-1.07) on the slope of that corner, here the south one, 3E (-0.53) on the other."""
    case = next(c for c in run().loads.cases if c.name == f"wind onto {wall}, {corner} corner, internal +0.18")
    x_ft = 38.9 if wall == "W2" else 1.1
    assert up_psf(run(), case, (x_ft, 5.1)) == pytest.approx(-Q_PSF * (-1.07 - 0.18))
    assert up_psf(run(), case, (x_ft, 19.1)) == pytest.approx(-Q_PSF * (-0.53 - 0.18))


@pytest.mark.parametrize(
    ("name", "over_ceiling", "over_eave"),
    [
        ("dead for uplift", -15.0, -10.0),
        ("dead for gravity", -25.0, -15.0),
        ("roof live", -20.0, -20.0),
        ("dead for uplift, before the covering", -7.70, -2.70),
    ],
)
def test_weights_lie_on_plan_area_the_ceiling_s_between_the_bearings(
    name: str, over_ceiling: float, over_eave: float
) -> None:
    case = next(c for c in run().loads.cases if c.name == name)
    assert case.basis == ("live" if name == "roof live" else "dead")
    assert up_psf(run(), case, (20.1, 5.1)) == pytest.approx(over_ceiling)
    assert up_psf(run(), case, (20.1, -1.0)) == pytest.approx(over_eave)
    assert up_psf(run(), case, (20.1, 0.2)) == pytest.approx(over_eave)  # over the outer half of the wall


@pytest.mark.parametrize(
    ("name", "net"), [("dead for gravity", -40.0), ("dead for uplift", -15.0), ("roof live", -20.0)]
)
def test_the_deck_that_a_valley_set_covers_weighs_for_gravity_and_holds_nothing_down(name: str, net: float) -> None:
    """A wing 20 ft wide on the side of a house 30 ft deep: its roof runs on over the house's, 10 ft in at its ridge.
    Gravity there: both decks, 15 psf each, and the ceiling's 10; beside the valley 15 and 10.
    """
    tee = [(0, 0), (20, 0), (20, -16), (40, -16), (40, 0), (60, 0), (60, 30), (0, 30)]
    r = make_run(plan_of(tee), shipped_catalogue())
    case = next(c for c in r.loads.cases if c.name == name)
    assert up_psf(r, case, (30.3, 4.1)) == pytest.approx(net)
    assert up_psf(r, case, (14.3, 4.1)) == pytest.approx({"dead for gravity": -25.0}.get(name, net))


@pytest.mark.parametrize("seed", range(4))
def test_the_cases_of_a_house_have_names_of_their_own_and_the_same_however_it_stands(seed: int) -> None:
    """Areas are told, and so used, to 0.01 sq ft: members of one size share a case. Of walls that face alike the first
    gives its name.
    """
    here, turned = (make_run(moved_plan(random_plan(seed), turn), shipped_catalogue()).loads for turn in (0.0, 33.0))
    names = [c.name for c in here.cases]
    assert len(set(names)) == len(names)
    assert names == [c.name for c in turned.cases]
    areas = [c.area_ft2 for c in here.cases if c.area_ft2]
    assert [100.0 * a for a in areas] == pytest.approx([round(100.0 * a) for a in areas], abs=1e-6)
    assert set(areas) == set(here.area_of_member_ft2.tolist())


def test_a_common_truss_puts_its_dead_and_live_load_down_by_half() -> None:
    """2 ft x [14 ft x (15 + 20) + 11.6667 ft x 10] = 1,213.33 lb: combination 3a, D + L_r (from memory)."""
    assert run().reactions.down_lb[middle(run())] == pytest.approx(2.0 * (14.0 * 35.0 + SPAN_FT / 2.0 * 10.0), rel=1e-9)


def test_a_common_truss_lifts_by_half_of_its_own_cladding_case() -> None:
    """Symmetric: per foot of wall, the ridge strip 3 ft, zone 1 to the bearing line, the eave and the half wall; the
    outer half of the wall is still inside. Uplift 0.6 W less 0.6 D before the covering.
    """
    r, i = run(basis=Basis.CLADDING), middle(run())
    wind_lb = 2.0 * Q_PSF * (3.0 * 1.38 + 9.0 * (0.18 - ZONE_1) + 2.0 * (SOFFIT - ZONE_1))
    dead_lb = 2.0 * (14.0 * 2.70 + SPAN_FT / 2.0 * 5.0)
    assert r.reactions.wind_lb[i] == pytest.approx(wind_lb, rel=2e-4)
    assert r.reactions.uplift_lb[i] == pytest.approx(0.6 * (wind_lb - dead_lb), rel=3e-4)


@pytest.mark.parametrize("variant", ["heel", "deck"])
@pytest.mark.parametrize("onto", ["W1", "W3"])
def test_a_common_truss_in_wind_square_to_the_ridge_with_and_without_its_sideways_parts(
    variant: str, onto: str
) -> None:
    """Moments about the leeward bearing, own statics: each foot p at x from the windward bearing lifts with L - x; held
    at the heel its push, p tan(theta) downhill and outward, at its height over the bearing line takes part: - p x
    tan^2 on the windward slope, + p (L - x) tan^2 on the leeward. The wall at W1 is windward, then leeward.
    """
    tan = 5 / 12
    share = (math.degrees(math.atan(tan)) - 20.0) / 10.0
    w, lee, inside = 0.69 - 0.90 * share, 0.48 - 0.05 * share, 0.18
    half, eave, L = 1 / 3, 2 + 1 / 3, SPAN_FT
    strips = [  # from, to, p / q, whether the windward slope
        (-eave, -half, w + 0.7, True),
        (-half, L / 2, w + inside, True),
        (L / 2, L + half, lee + inside, False),
        (L + half, L + eave, lee, False),
    ]
    lift = sum(p * (b - a) for a, b, p, _ in strips)
    moment = 0.0
    for a, b, p, windward in strips:
        mid = (a + b) / 2.0
        push = (-mid if windward else L - mid) * tan**2 if variant == "heel" else 0.0
        moment += p * (b - a) * (L - mid + push)
    near_lb = 2.0 * Q_PSF * moment / L
    by_hand = near_lb if onto == "W1" else 2.0 * Q_PSF * lift - near_lb
    r = run().reactions
    case = next(
        j for j, c in enumerate(r.cases) if c.name == f"wind onto {onto}, left corner, internal +0.18, {variant}"
    )
    assert r.by_case_lb[middle(run()), case] == pytest.approx(by_hand, rel=1e-9)


def test_the_plan_s_basis_picks_the_cases_that_govern_and_the_worse_is_the_larger_of_both() -> None:
    main, skin, worse = (run(basis=b).reactions for b in (Basis.MWFRS, Basis.CLADDING, Basis.WORSE))
    assert {main.cases[g].basis for g in main.governing} == {"mwfrs"}
    assert {skin.cases[g].basis for g in skin.governing} == {"cladding"}
    np.testing.assert_allclose(worse.wind_lb, np.maximum(main.wind_lb, skin.wind_lb), rtol=1e-12)


def test_a_bearing_reads_the_cladding_case_of_its_own_member_s_area_alone() -> None:
    """The commons' 181.48 sq ft."""
    r = run(basis=Basis.CLADDING)
    for i, b in enumerate(r.framing.bearings):
        area_ft2 = r.reactions.cases[r.reactions.governing[i]].area_ft2
        assert area_ft2 is not None
        if b.kind is MemberKind.COMMON:
            assert area_ft2 == pytest.approx(AREA_FT2, abs=0.01)


def test_the_directional_procedure_has_no_floor_of_k_z_in_exposure_b() -> None:
    """Table 26.10-1, footnote: 0.70 holds for chapter 28 alone; at 15 ft K_z of Exposure B is 0.5747 in 7-22."""
    wind = [run(exposure=Exposure.B, mwfrs_procedure=p).plan.wind for p in MwfrsProcedure]
    q = {w.mwfrs_procedure: edition(w.edition).q_K_d_psf(w, 13.667, w.mwfrs_procedure) for w in wind}
    ratio = 2.41 * (15 / 3280) ** (2 / 7.5) / 0.70
    assert q[MwfrsProcedure.DIRECTIONAL] / q[MwfrsProcedure.ENVELOPE] == pytest.approx(ratio)
