"""The deck by hand: what lifts a line of nails, and how far apart they stand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.deck.nailing import nailing
from framing.deck.zones import Part
from framing.errors import PlanError
from framing.plan import Plan, RoofType
from framing.plan_trades import DeckSpec
from framing.run import Run, make_run
from invariants.houses import plan_of

BOX = [(0, 0), (46, 0), (46, 28), (0, 28)]
NAILED = {"panel": "15/32 plywood", "nail": "8d ring shank", "chord_species": "southern pine"}
HEAD_LB = 80.587  # 690 pi x 0.281 x 0.42^2 x 0.46875 x 1.6, by a pocket calculator


def house(type: RoofType = RoofType.HIP, **deck: object) -> Run:
    return make_run(nailed(plan_of(BOX, type=type), **deck), shipped_catalogue())


def nailed(plan: Plan, **deck: object) -> Plan:
    spec = DeckSpec(
        **({"rating": "", "edge_in": None, "field_in": None, "zone_3_in": None} | NAILED | deck)  # type: ignore[arg-type]
    )
    return replace(plan, trades=replace(plan.trades, deck=spec))


def test_a_hip_roof_in_160_mph_by_hand() -> None:
    """H = 10.67 + 0.5 + ... is 14.1 ft: under 15 ft, K_z = 0.849 (15 ft, Exposure C); q K_d = 0.00256 x 0.849 x 160^2
    x 0.85 = 47.3 psf. GC_p at 10 ft2, hip 20 to 27 degrees: zones 1 and 2 and 3 of figure 30.3-2F.
    """
    deck = house().cover.deck
    assert deck.q_K_d_psf == pytest.approx(0.00256 * 0.8512 * 160.0**2 * 0.85, rel=1e-3)
    for zone in deck.zones:
        inside = 0.18 if zone.part is Part.ROOMS else 0.0
        assert zone.suction_psf == pytest.approx(0.6 * deck.q_K_d_psf * (inside - zone.outside_factor))


def test_the_zones_cover_the_roof_once() -> None:
    """The slope's area is the plan's over the cosine: (46 + 4) x (28 + 4) x 13/12 at 5:12."""
    deck = house().cover.deck
    assert sum(z.area_ft2 for z in deck.zones) == pytest.approx(50.0 * 32.0 * 13.0 / 12.0)
    assert sorted(k for z in deck.zones for k in z.patches) == list(range(len(house().patches.polygon)))


def test_a_line_of_nails_over_a_truss_takes_a_bay_of_suction() -> None:
    for n in house().cover.deck.nailings:
        assert n.truss_plf == pytest.approx(2.0 * n.zone.suction_psf)
        assert n.truss.exact_in == pytest.approx(12.0 * HEAD_LB / n.truss_plf, rel=1e-4)
        assert n.gable is None


def test_a_gable_end_s_line_takes_half_a_bay_and_the_rake() -> None:
    """Rake overhang 1 ft: w 1 ft inside, the same zone's overhang pressure on 1 ft outside."""
    deck = house(RoofType.GABLE).cover.deck
    over = {z.zone: z.suction_psf for z in deck.zones if z.part is Part.OVERHANG}
    with_gable = [n for n in deck.nailings if n.gable is not None]
    assert {n.zone.number for n in with_gable} == {"1", "2", "3"}
    for n in with_gable:
        assert n.gable_plf == pytest.approx(n.zone.suction_psf * 1.0 + over[n.zone.zone] * 1.0)


@pytest.mark.parametrize(
    ("line_plf", "user_in", "expected"),
    [
        (100.0, None, (12.0, 12.0, 6.0, False)),
        (150.0, None, (8.0, 8.0, 6.0, False)),
        (200.0, None, (6.0, 6.0, 6.0, False)),
        (201.0, None, (1200.0 / 201.0, 4.0, 4.0, False)),
        (350.0, None, (1200.0 / 350.0, 3.0, 3.0, False)),
        (401.0, None, (1200.0 / 401.0, None, None, False)),
        (100.0, 4.0, (12.0, 12.0, 4.0, True)),
        (350.0, 6.0, (1200.0 / 350.0, 3.0, 3.0, False)),
    ],
)
def test_a_nail_of_100_lb_stands_as_far_apart_as_a_crew_nails(
    line_plf: float, user_in: float | None, expected: tuple[float, float | None, float | None, bool]
) -> None:
    found = nailing(line_plf, 100.0, user_in)
    assert (found.exact_in, found.table_in, found.spacing_in, found.by_user) == pytest.approx(expected)


def test_the_user_s_own_closer_schedule_governs_where_it_is_given() -> None:
    deck = house(edge_in=4.0, field_in=6.0, zone_3_in=3.0).cover.deck
    assert {(n.zone.number, n.truss.spacing_in) for n in deck.nailings} == {("1", 4.0), ("2", 4.0), ("3", 3.0)}
    assert all(n.truss.by_user for n in deck.nailings)


def test_nails_that_would_have_to_stand_closer_than_3_in_are_flagged() -> None:
    plan = nailed(plan_of(BOX), nail="8d common", chord_species="SPF", panel="7/16 plywood")
    fast = replace(plan, wind=replace(plan.wind, speed_mph=240.0))
    flags = make_run(fast, shipped_catalogue()).flags
    assert any(f.startswith("Deck, overhang, zone 3: ") and "closer than 3 in." in f for f in flags)


def test_a_panel_bends_over_its_136_psf() -> None:
    """120 x 407 x 1.6 / 24^2 = 135.7 psf: reached on the overhangs of a fast wind, not at 160 mph."""
    assert not [f for f in house().flags if "panel holds between trusses" in f]
    fast = replace(house().plan, wind=replace(house().plan.wind, speed_mph=220.0))
    run = make_run(fast, shipped_catalogue())
    over = [z for z in run.cover.deck.zones if z.suction_psf > 135.67]
    told = [f for f in run.flags if "more than the 135.7 psf that the 15/32 plywood panel holds" in f]
    assert len(told) == len(over) > 0


def test_without_panel_nail_and_wood_there_is_demand_and_no_spacing() -> None:
    deck = make_run(plan_of(BOX), shipped_catalogue()).cover.deck
    assert (deck.choice, deck.nailings, deck.beside, deck.flags) == (None, (), (), ())
    assert deck.hardest.suction_psf > 50.0


def test_half_an_inch_beside_five_eighths_the_thicker_panel_holds_more_heads() -> None:
    thin, thick = (choice.strength for choice, _ in house().cover.deck.beside)
    assert thick.head_lb / thin.head_lb == pytest.approx((19 / 32) / (15 / 32))


@pytest.mark.parametrize(
    ("deck", "sentence"),
    [
        ({"nail": "8d"}, 'deck nail: "8d" is not known here; the nearest is "8d common" of '),
        ({"panel": "half inch"}, 'deck panel: "half inch" begins with no thickness known here; write one of 7/16, '),
        ({"chord_species": "oak"}, 'deck chord_species: "oak" is not known here; the nearest is '),
    ],
)
def test_what_is_not_known_is_named(deck: dict[str, str], sentence: str) -> None:
    with pytest.raises(PlanError) as problem:
        house(**deck)
    assert str(problem.value).startswith(sentence)


def test_panels_by_courses_are_no_fewer_than_the_area_needs_and_not_many_more() -> None:
    """A gable roof 46 x 28 ft with 1 ft rakes and 2 ft eaves: each slope 48 ft by 17.33 ft, 5 courses of 4 ft but the
    last of 1.33: 24, 24, 24, 24 and 8 half bays: 4 x 6 panels and 48 x 1.33 / 4 = 16 ft, 2 panels: 26; twice, 52.
    """
    count = house(RoofType.GABLE).cover.panels
    assert count.panels == pytest.approx(52.0)
    assert count.area_ft2 == pytest.approx(2 * 48.0 * 17.3333, rel=1e-4)
