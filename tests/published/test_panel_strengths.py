"""A deck panel across three spans and more.

Source: a worked example of an agency's, as an open test code quotes it (mark: fair): plywood rated 32/16, trusses 32
in. apart, F_b S = 407 lb-in, F_s Ib/Q = 198 lb, EI = 126,500 lb-in2, each per foot of width, C_D 1.15: bending 54.85
psf, shear 149.3 psf, 32.88 psf at a sag of a 240th. The coefficients 120, 20 and 1743 are statics of three even
spans.
"""

from __future__ import annotations

import pytest

from framing.deck.panels import bending_psf, panel_strength, shear_psf, stiffness_psf
from framing.deck.tables import panel_of
from published.figures import figures


def test_the_worked_example() -> None:
    """A3, A4, A5."""
    assert bending_psf(407.0, 32.0, 1.15) == pytest.approx(54.85, abs=0.005)
    assert shear_psf(198.0, 32.0, 1.15) == pytest.approx(149.3, abs=0.05)
    assert stiffness_psf(126_500.0, 32.0) == pytest.approx(32.88, abs=0.005)


def test_at_24_in_and_in_wind_the_same_panel_bends_at_136_psf() -> None:
    """120 x 407 x 1.6 / 576 = 135.7: by hand."""
    found = panel_strength(panel_of("15/32 plywood", "32/16"), 24.0)
    assert found.bending_psf == pytest.approx(135.67, abs=0.01)
    assert found.allowable_psf == found.bending_psf


def test_bending_governs_in_4_zones_3_and_10_overhangs_of_the_table_of_36_roofs() -> None:
    """`deck_spacing.csv` (mark calc): the reference counts the roofs whose zone 3, and whose overhang, reach what a
    panel rated 32/16 holds over 24 in.: 4 and 10 of 36.
    """
    most = bending_psf(407.0, 24.0, 1.6)
    rows = figures("deck_spacing")
    assert len(rows) == 36
    assert sum(-float(r["z3_psf"]) > most for r in rows) == 4
    assert sum(-float(r["oh_psf"]) > most for r in rows) == 10


def test_three_even_spans_bend_by_a_tenth_and_shear_by_six_tenths() -> None:
    """Handbook statics of three equal spans under an even load: M = 0.100 w l2, V = 0.600 w l, sag 0.0069 w l4 / EI."""
    w_psf, l_ft = 40.0, 2.0
    assert bending_psf(12.0 * 0.100 * w_psf * l_ft**2, 24.0, 1.0) == pytest.approx(w_psf)
    clear_ft = (24.0 - 1.5) / 12.0
    assert shear_psf(0.600 * w_psf * clear_ft, 24.0, 1.0) == pytest.approx(w_psf)
    span_in, sag_in = 24.0 - 1.5 + 0.25, 24.0 / 240.0
    EI = 0.0069 * (w_psf / 12.0) * span_in**4 / sag_in
    assert stiffness_psf(EI, 24.0) == pytest.approx(w_psf, rel=0.005)


def test_a_panel_whose_strengths_are_not_in_hand_has_none() -> None:
    found = panel_strength(panel_of("19/32 plywood", ""), 24.0)
    assert (found.bending_psf, found.shear_psf, found.stiffness_psf, found.allowable_psf) == (None,) * 4
