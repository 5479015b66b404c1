"""takeoff.csv against arithmetic worked out by hand and the trade's tie-beam table.

Outside facts: tie beam 8x16, 15-5/8 x 7-5/8 in. actual, 3.06 cubic yards per 100 ft, and 8x8, 7-5/8 in., 1.50
(calculated from the actual sizes); hip and valley length per foot of run sqrt(2 + slope^2), slope factor
sqrt(1 + slope^2) (general framing texts); anchors plus 5 % and at least 1, nails plus 10 %, deck waste 8, 15 and
20 %: common practice, no source.
"""

from __future__ import annotations

import csv
import io
import math
from dataclasses import replace

import pytest

from drawings.drawn import run_of_outline
from export.commands.run_of_plan import load_run
from export.takeoff.table import takeoff_csv
from export.takeoff.truss_profiles import truss_profiles
from framing.members import MemberKind
from framing.plan import TieBeam
from framing.plan_masonry import Bars
from framing.run import CAUTION, Run, make_run
from framing.units import feet_inches
from invariants.houses import SAMPLES

HIP = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (0.0, 28.0))
ELL = ((0.0, 0.0), (46.0, 0.0), (46.0, 28.0), (22.0, 28.0), (22.0, 50.0), (0.0, 50.0))
SLOPE = 5 / 12


@pytest.fixture(scope="module")
def run() -> Run:
    return run_of_outline(HIP)


def rows(run: Run) -> dict[str, dict[str, str]]:
    found = list(csv.DictReader(io.StringIO(takeoff_csv(run).decode("utf-8-sig"))))
    assert len({row["item"] for row in found}) == len(found)
    return {row["item"]: row for row in found}


def quantity(run: Run, item: str) -> float:
    return float(rows(run)[item]["quantity"])


def with_marks(run: Run, n: int) -> Run:
    """The run with n marks that all hold by one single strap."""
    mark = next(m for m in run.schedule.marks if m.anchor and m.anchor.count == 1)
    schedule = replace(run.schedule, marks=(mark,) * n)
    return replace(run, schedule=schedule)


def test_it_has_the_promised_columns_and_every_row_the_caution(run: Run) -> None:
    assert takeoff_csv(run).startswith(
        b"\xef\xbb\xbfitem,quantity,unit,note,unit_price,price,open_about_the_wind,fingerprint,caution\r\n"
    )
    assert {(r["fingerprint"], r["caution"]) for r in rows(run).values()} == {(run.fingerprint, CAUTION)}


@pytest.mark.parametrize(("n", "order"), [(1, 2), (20, 21), (100, 105), (101, 107), (200, 210)])
def test_anchors_are_ordered_with_five_percent_and_at_least_one_spare(run: Run, n: int, order: int) -> None:
    found = [r for item, r in rows(with_marks(run, n)).items() if item.startswith("anchor ")]
    assert [r["quantity"] for r in found] == [str(order)]
    assert "common practice, no source" in found[0]["note"]
    assert "invented anchors" in found[0]["note"]


def test_nails_are_those_of_the_straps_and_ten_percent(run: Run) -> None:
    some = with_marks(run, 20)
    each = some.schedule.marks[0].anchor
    assert each is not None
    assert quantity(some, f"nail {each.fasteners}") == math.ceil(20 * each.n_nails * 1.1 - 1e-9)


def test_roof_lengths_and_area_of_a_plain_hip_are_the_framing_tables(run: Run) -> None:
    wide, long = 28.0 + 4.0, 46.0 + 4.0  # eaves of 2 ft
    assert quantity(run, "hip") == pytest.approx(4 * wide / 2 * math.sqrt(2 + SLOPE**2), abs=0.051)
    assert quantity(run, "ridge") == pytest.approx(long - wide, abs=0.051)
    assert quantity(run, "eave") == pytest.approx(2 * (wide + long), abs=0.051)
    assert quantity(run, "valley") == 0.0
    area_ft2 = wide * long * math.sqrt(1 + SLOPE**2)
    assert quantity(run, "roof area on the slope") == pytest.approx(area_ft2, abs=0.051)
    assert quantity(run, "deck panel 4 x 8 ft") == math.ceil(area_ft2 * 1.15 / 32)


def test_a_gable_has_rakes_and_less_waste() -> None:
    run = run_of_outline(HIP, "gable")
    wide, long = 28.0 + 4.0, 46.0 + 2.0  # eaves of 2 ft, rakes of 1 ft
    assert quantity(run, "rake") == pytest.approx(4 * wide / 2 * math.sqrt(1 + SLOPE**2), abs=0.051)
    assert quantity(run, "deck panel 4 x 8 ft") == math.ceil(wide * long * math.sqrt(1 + SLOPE**2) * 1.08 / 32)


def test_a_cut_up_roof_has_valleys_and_most_waste() -> None:
    deck = rows(run_of_outline(ELL))["deck panel 4 x 8 ft"]
    assert quantity(run_of_outline(ELL), "valley") > 10.0
    assert "20 % waste (common practice, no source) for a cut-up roof" in deck["note"]


@pytest.mark.parametrize(("depth_in", "yards_per_100_ft"), [(8, 1.50), (12, 2.28), (16, 3.06), (24, 4.63)])
def test_tie_beam_concrete_is_that_of_the_trades_table(run: Run, depth_in: int, yards_per_100_ft: float) -> None:
    beam = TieBeam(nominal_width_in=8, nominal_depth_in=depth_in)
    changed = replace(run, plan=replace(run.plan, tie_beam=beam))
    length_ft = 2 * (46 + 28) - 4 * 7.625 / 12  # along the middle of the walls
    wanted = yards_per_100_ft * length_ft / 100
    assert quantity(changed, "concrete of the tie beam") == pytest.approx(wanted, abs=0.005 * length_ft / 100 + 0.006)


def test_every_member_is_in_one_profile_and_a_profile_s_members_are_alike(run: Run) -> None:
    profiles = truss_profiles(run)
    assert sorted(n for p in profiles for n in p.members) == sorted(m.name for m in run.framing.members)
    for p in profiles:
        members = [run.framing.member(n) for n in p.members]
        assert len({(m.kind, m.plies, feet_inches(m.span_ft)) for m in members}) == 1
        assert len({tuple(sorted((feet_inches(m.tail_start_ft), feet_inches(m.tail_end_ft)))) for m in members}) == 1
    found = rows(run)
    assert {p.name: len(p.members) for p in profiles} == {p.name: int(found[p.name]["quantity"]) for p in profiles}
    assert quantity(run, "plies of all members") == sum(m.plies for m in run.framing.members)
    # 28 ft over all between bearings at the middle of 8 in. walls
    assert "Span 27'-4\" between bearings" in found["common profile 1"]["note"]


def test_a_hip_s_jacks_are_one_profile_for_both_hands_and_both_ends_of_the_house(run: Run) -> None:
    """A hip roof 46 x 28 ft: 2 girders, 4 corner jacks and the end jacks are each alike; side jacks 6, 4 and 2 ft."""
    n = {str(kind): sum(p.kind is kind for p in truss_profiles(run)) for kind in MemberKind}
    assert (n["hip girder"], n["corner jack"], n["end jack"], n["side jack"], n["common"]) == (1, 1, 1, 3, 1)


def test_every_hung_end_has_a_hanger_with_its_hardest_reactions(run: Run) -> None:
    hangers = {item: r for item, r in rows(run).items() if item.startswith("hanger, ")}
    assert sum(int(r["quantity"]) for r in hangers.values()) == len(run.hung)
    corner = [e for e in run.hung if e.member.startswith("corner jack")]
    note = hangers["hanger, corner jack of 1 ply on hip girder of 2"]["note"]
    assert f"up to {max(e.down_lb for e in corner):,.0f} lb down" in note
    assert f"{max(e.uplift_lb for e in corner):,.0f} lb up" in note


def test_a_barrier_lies_under_every_truss_end_on_concrete(run: Run) -> None:
    assert quantity(run, "barrier or treated plate under a truss") == len(run.framing.bearings)


def test_eaves_and_rakes_are_fascia_drip_edge_and_soffit_with_the_user_s_waste() -> None:
    """A gable house 46 x 28 ft, eaves 2 ft, rakes 1 ft: eaves 2 x 48 ft; rakes 4 x 16 x 13/12 = 69.33 ft; 165.33 ft,
    10 % over is 182; soffit 96 x 2 + 69.33 = 261.3 sq ft, with 5 % by the plan 275; outlookers 69.33 / 2: 35.
    """
    run = run_of_outline(HIP, "gable")
    own = replace(run.plan.trades.takeoff, waste_percent=(("soffit", 5.0),), prices=(("fascia", 2.5),))
    run = replace(run, plan=replace(run.plan, trades=replace(run.plan.trades, takeoff=own)))
    assert [quantity(run, item) for item in ("fascia", "drip edge", "soffit", "outlooker")] == [182, 182, 275, 35]
    assert "5 % waste by your plan" in rows(run)["soffit"]["note"]
    assert rows(run)["fascia"]["price"] == "455.00"


def test_what_has_a_price_is_added_up_and_what_has_none_is_said() -> None:
    found = list(csv.DictReader(io.StringIO(takeoff_csv(run_of_outline(HIP)).decode("utf-8-sig"))))
    *others, last = found
    priced = [float(r["price"]) for r in others if r["price"]]
    assert float(last["price"]) == pytest.approx(sum(priced), abs=0.005 * len(priced))
    assert last["note"] == f"{len(priced)} of {len(others)} rows have a price; the others are not in it."
    for r in others:
        if r["price"]:
            assert float(r["price"]) == pytest.approx(float(r["quantity"]) * float(r["unit_price"]), abs=0.006)


def test_bars_are_ordered_with_laps_only_where_the_plan_names_them(run: Run) -> None:
    """145.46 ft of beam: 8 laps by length and 4 at corners, 40 x 5/8 = 25 in. each: 2 x (145.46 + 12 x 2.083) = 341
    ft.
    """
    assert not [item for item in rows(run) if item.startswith("bar #")]
    assert "The plan names no bars" in rows(run)["concrete of the tie beam"]["note"]
    masonry = replace(run.plan.masonry, steel=replace(run.plan.masonry.steel, top_bars=Bars(count=2, number=5)))
    told = replace(run, plan=replace(run.plan, masonry=masonry))
    assert quantity(told, "bar #5, top") == math.ceil(2 * (2 * 74 - 4 * 7.625 / 12 + 12 * 25 / 12))


def test_deck_nails_are_there_only_where_panel_nail_and_wood_are_said(run: Run) -> None:
    """6 in. everywhere: 2 a foot, on trusses 2 ft apart and once more every 8 ft: 2 x (1/2 + 1/8) = 1.25 a sq ft."""
    assert not [item for item in rows(run) if item.startswith("deck nail")]
    spec = replace(
        run.plan.trades.deck, panel="19/32 OSB", nail="8d ring shank", chord_species="southern pine", field_in=6.0
    )
    plan = replace(run.plan, trades=replace(run.plan.trades, deck=spec))
    told = make_run(plan, run.schedule.catalogue)
    assert {n.truss.spacing_in for n in told.cover.deck.nailings} == {6.0}
    area = sum(z.area_ft2 for z in told.cover.deck.zones)
    assert quantity(told, "deck nail 8d ring shank") == math.ceil(1.25 * area * 1.1)


@pytest.mark.parametrize("name", sorted(SAMPLES))
def test_panels_are_within_8_percent_of_the_area_and_its_waste(name: str) -> None:
    run = load_run(SAMPLES[name])
    deck = rows(run)["deck panel 4 x 8 ft"]
    waste = float(deck["note"].split(" with ")[1].split(" %")[0]) / 100
    area = sum(z.area_ft2 for z in run.cover.deck.zones)
    assert float(deck["quantity"]) * 32.0 == pytest.approx(area * (1 + waste), rel=0.08)


def test_marks_that_no_anchor_holds_are_told_and_not_ordered(run: Run) -> None:
    lost = replace(run.schedule.marks[0], anchor=None, count=0)
    found = rows(replace(run, schedule=replace(run.schedule, marks=(lost,))))
    assert found["anchor not chosen"]["quantity"] == "1"
    assert lost.mark in found["anchor not chosen"]["note"]
