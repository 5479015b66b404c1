"""The tie beam held to two tables that a separate script made, without this program, and to ACI's coefficients.

Sources: tests/published/data/tie_beam_demand.csv and tie_beam_capacity.csv (own arithmetic, not publications; formulas
of ACI 318-14 and -19 from memory of the code); aci_coefficients.csv (ACI 318-19 table 6.5.2 and 6.5.4, two public
copies agree).
"""

from __future__ import annotations

import numpy as np
import pytest

from framing.ground import reinforced_concrete as concrete
from framing.ground.beam_on_cells import BeamForces, beam_forces
from framing.ground.reinforced_concrete import Section
from published.figures import figures

N_PHASES = 80
TRUSSES_FT = 2.0
DOWN_PLF = 74.5


def five_spans(pull_lb: float, spacing_ft: float, phase_ft: float) -> BeamForces:
    at = np.arange(phase_ft, 5 * spacing_ft + 1e-9, TRUSSES_FT)
    return beam_forces(np.arange(6) * spacing_ft, at, np.full((len(at), 1), pull_lb), DOWN_PLF, (0.0, 5 * spacing_ft))


@pytest.mark.parametrize("row", figures("tie_beam_demand"), ids=lambda r: f"{r['P_lb']} lb, {r['cell_spacing_ft']} ft")
def test_five_spans_under_trusses_in_the_worst_place_feel_what_the_table_says(row: dict[str, str]) -> None:
    """Moments within 3 ft-lb, pull within a pound; the table's shears are read a little inside the cells, so that those
    at the cell itself are up to 4 % more.
    """
    spacing = round(3.0 * float(row["cell_spacing_ft"])) / 3.0
    found = [five_spans(float(row["P_lb"]), spacing, p) for p in np.arange(N_PHASES) * TRUSSES_FT / N_PHASES]
    assert max(f.bottom_ft_lb.max() for f in found) == pytest.approx(float(row["Mmax_ftlb"]), abs=3.0)
    assert max(f.top_ft_lb.max() for f in found) == pytest.approx(-float(row["Mmin_ftlb"]), abs=3.0)
    assert max(f.cell_lb.max() for f in found) == pytest.approx(float(row["cell_tension_lb"]), abs=1.0)
    shear = max(f.shear_lb.max() for f in found)
    assert float(row["Vmax_lb"]) - 0.5 <= shear <= 1.04 * float(row["Vmax_lb"])


def section_of(row: dict[str, str]) -> Section:
    depth_in = int(row["beam"].removeprefix("8x")) - 0.375
    return Section(
        width_in=7.625,
        effective_depth_in=depth_in - 1.5 - 0.375 - 0.3125,
        depth_in=depth_in,
        steel_in2=float(row["As_in2"]),
        f_c_psi=float(row["fc_psi"]),
    )


@pytest.mark.parametrize("row", figures("tie_beam_capacity"), ids=lambda r: f"{r['beam']}, {r['top_bars']}")
def test_a_beam_carries_what_the_table_says(row: dict[str, str]) -> None:
    """Half of the last printed digit."""
    section = section_of(row)
    assert section.effective_depth_in == pytest.approx(float(row["d_in"]), abs=0.005)
    assert concrete.design_moment_ft_lb(section) == pytest.approx(float(row["phiMn_ftlb"]), abs=0.51)
    assert concrete.concrete_shear_318_14_lb(section) == pytest.approx(float(row["phiVc_318_14_lb"]), abs=0.51)
    assert concrete.concrete_shear_318_19_lb(section) == pytest.approx(
        float(row["phiVc_318_19_no_stirrup_lb"]), abs=0.51
    )
    assert concrete.tension_strain_ratio(section) == pytest.approx(float(row["eps_t"]), abs=5.1e-5)
    assert concrete.least_steel_in2(section) == pytest.approx(float(row["As_min_9.6.1.2_in2"]), abs=5.1e-4)


@pytest.mark.parametrize("row", figures("tie_beam_capacity"), ids=lambda r: f"{r['beam']}, {r['top_bars']}")
def test_stirrups_are_wanted_from_the_shear_that_the_table_says(row: dict[str, str]) -> None:
    """Over half of phi V_c by the older edition, over phi sqrt(f'c) b d by the newer, never over what the concrete
    carries; a beam up to 10 in. deep is let off until then.
    """
    newer = float(row["phiVc_318_19_no_stirrup_lb"])
    shallow = row["beam"] == "8x8"
    limit = min(newer, float(row["phiVc_318_14_lb" if shallow else "phi_sqrtfc_bwd_19_lb"]))
    assert concrete.shear_without_stirrups_lb(section_of(row)) == pytest.approx(limit, abs=0.51)


def test_an_8x8_with_two_number_5_is_over_reinforced_and_all_deeper_ones_are_not() -> None:
    """Strains eps_t .003 and .0042, under the .00507 of ACI 318-19 9.3.3.1 (from memory)."""
    over = {
        (row["beam"], row["top_bars"])
        for row in figures("tie_beam_capacity")
        if concrete.tension_strain_ratio(section_of(row)) < concrete.least_tension_strain_ratio()
    }
    assert over == {("8x8", "2#5 top")}


def coefficient(effect: str, where: str) -> float:
    row = next(r for r in figures("aci_coefficients") if r["effect"] == effect and r["where"] == where)
    text = row["coefficient"].removeprefix("w ln^2/").removeprefix("w ln/")
    return 1.0 / float(text) if effect != "V" else float(text.split(" ")[0]) / 2.0


def uniform(n_spans: int) -> BeamForces:
    """Unit line load up on equal spans of 1, by straps so close that they are one."""
    at = (np.arange(1000 * n_spans) + 0.5) / 1000.0
    return beam_forces(np.arange(n_spans + 1.0), at, np.full((len(at), 1), 1e-3), 0.0, (0.0, float(n_spans)))


def test_the_moment_over_the_first_inside_cell_is_acis_ninth_and_tenth_within_a_fifth() -> None:
    """ACI's coefficients are rounded and hold for uniform load: exact are 1/8 for two spans, 1/10 for three."""
    two = uniform(2).bottom_ft_lb.max()
    three = uniform(3).bottom_ft_lb.max()
    assert two == pytest.approx(1 / 8, rel=1e-3)
    assert three == pytest.approx(1 / 10, rel=1e-3)
    assert coefficient("M-", "exterior face of first interior support, two spans") == pytest.approx(two, rel=0.2)
    named = "exterior face of first interior support, more than two spans"
    assert coefficient("M-", named) == pytest.approx(three, rel=0.02)


def test_the_shear_at_the_first_inside_cell_is_near_acis_1_15_halves() -> None:
    row = next(r for r in figures("aci_coefficients") if r["where"] == "end member at first interior support")
    assert row["coefficient"] == "1.15 w ln/2"
    assert uniform(4).shear_lb.max() == pytest.approx(1.15 / 2.0, rel=0.06)
