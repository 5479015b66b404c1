"""Nails in withdrawal and heads through panels.

Sources: AWC solved example E2.1a, as an open test code quotes it (20.67 lb/in.; mark: good); FEMA P-55 volume II,
example 9.1 (66 lb per 8d common through 7/16 in. OSB into spruce-pine-fir: 20.67 x 1.6 x 2.0 in.; good);
`nail_capacity.csv`, a table of our own arithmetic made apart from this code, whose constants for ring shanks and
heads are from memory, as ours are: it checks the arithmetic, not the constants. Read on 2026-11-29.
"""

from __future__ import annotations

import pytest

from framing.deck.nails import Mode, head_pull_through_lb, nail_strength, withdrawal_lb_per_in
from framing.deck.tables import nail_of, panel_of, wood_of
from published.figures import figures

NAILS = {
    "RSRS-01 2-3/8x.113": "ring shank 2-3/8 x 0.113",
    "RSRS-03 2-1/2x.131": "8d ring shank",
    "RSRS-04 3x.120": "ring shank 3 x 0.120",
    "8d common 2-1/2x.131": "8d common",
    "10d common 3x.148": "10d common",
}
WOODS = {"SP": "SP", "DF-L": "DF-L", "SPF/HF": "SPF"}
ROWS = figures("nail_capacity")
MODES = {"head": Mode.HEAD, "withdrawal": Mode.WITHDRAWAL}


def test_a_smooth_nail_of_0_131_in_spruce_pine_fir_is_the_solved_example() -> None:
    """A1: 20.67 lb/in."""
    assert withdrawal_lb_per_in(0.131, 0.42, ringed=False) == pytest.approx(20.67, abs=0.005)


def test_an_8d_common_two_inches_deep_holds_66_lb() -> None:
    """A2: 20.67 x 1.6 x 2.0 in."""
    assert withdrawal_lb_per_in(0.131, 0.42, ringed=False) * 1.6 * 2.0 == pytest.approx(66.0, abs=0.5)


@pytest.mark.parametrize("row", ROWS, ids=[f"{r['framing']}, {r['panel']}, {r['nail']}" for r in ROWS])
def test_every_row_of_the_table(row: dict[str, str]) -> None:
    panel = panel_of(f"{row['panel']} OSB", "")
    found = nail_strength(nail_of(NAILS[row["nail"]]), panel, wood_of(WOODS[row["framing"]]))
    assert found.penetration_in == pytest.approx(float(row["penetration_in"]), abs=6e-4)
    assert found.withdrawal_lb == pytest.approx(float(row["withdrawal_lb"]), abs=0.05 + 1e-9)
    assert found.head_lb == pytest.approx(float(row["head_G0.50_lb"]), abs=0.05 + 1e-9)
    assert found.mode is MODES[row["mode"]]
    plywood = panel_of(f"{row['panel']} plywood", "")
    other = nail_strength(nail_of(NAILS[row["nail"]]), plywood, wood_of(WOODS[row["framing"]]))
    assert other.head_lb == pytest.approx(float(row["head_G0.42_lb"]), abs=0.05 + 1e-9)


def test_the_state_form_s_mean_resistances_are_1_3_to_3_times_ours() -> None:
    """OIR-B1-1802 (solid for the text): mean uplift of 103 psf for 8d at 6 and 12 in., 182 psf for 8d at 6 and 6 in.,
    on trusses 24 in. apart; ours is allowable: a ring shank in southern pine over 2 sq ft at 12 in., 1 sq ft at 6.
    """
    nail_lb = nail_strength(nail_of("8d ring shank"), panel_of("15/32 OSB", ""), wood_of("SP")).allowable_lb
    for mean_psf, spacing_ft in ((103.0, 1.0), (182.0, 0.5)):
        assert 1.3 <= mean_psf / (nail_lb / (2.0 * spacing_ft)) <= 3.0


def test_a_nail_by_hand() -> None:
    """8d common, 15/32 in. plywood on southern pine: 2.5 - 0.469 = 2.031 in. deep; 1380 x 0.55^2.5 x 0.131 = 40.56
    lb/in.; x 2.031 x 1.6 = 131.8 lb. Head 0.281 in. through G 0.42: 690 pi x 0.281 x 0.1764 x 0.469 x 1.6 = 80.6 lb.
    """
    found = nail_strength(nail_of("8d common"), panel_of("15/32 plywood", ""), wood_of("southern pine"))
    assert found.withdrawal_lb == pytest.approx(131.8, abs=0.1)
    assert found.head_lb == pytest.approx(80.6, abs=0.05)
    assert (found.mode, found.allowable_lb) == (Mode.HEAD, found.head_lb)


def test_a_head_holds_no_more_through_a_panel_thicker_than_two_and_a_half_heads() -> None:
    at = head_pull_through_lb(0.281, 2.5 * 0.281, 0.5)
    assert head_pull_through_lb(0.281, 2.5 * 0.281 + 1e-9, 0.5) == pytest.approx(at)
    assert head_pull_through_lb(0.281, 2.0, 0.5) == pytest.approx(at)
