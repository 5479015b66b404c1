"""The wind figures that every output prints, by hand on one house.

40 ft by 24 ft, 5:12 (22.62 degrees), eave 9 ft 4 in. + 16 in. + 6 in. = 11 ft 2 in. above ground, h 2 ft 6 in. more;
a is 3 ft. Clause by clause: ASCE 7-22, tables 26.10-1 (solid) and its footnote (good), 26.13-1, eq. 26.10-1 (solid).
"""

from __future__ import annotations

import math

import pytest

from framing.anchors.catalogue_file import shipped_catalogue
from framing.plan import EditionName, Enclosure, Exposure, Feature, MwfrsProcedure, Topography
from framing.run import make_run
from framing.wind.figures import WindFigure
from invariants.houses import plan_of

BOX = [(0, 0), (40, 0), (40, 24), (0, 24)]
H_FT = 11 + 2 / 12 + 2.5


def figures(**changed: object) -> dict[str, WindFigure]:
    run = make_run(plan_of(BOX, **changed), shipped_catalogue())
    return {f.symbol: f for f in run.wind}


def test_every_figure_of_a_house_is_the_one_by_hand() -> None:
    """Exposure B, partially enclosed, 1,000 ft up, on the crest of a ridge 100 ft high with L_h 400 ft."""
    ridge = Topography(feature=Feature.RIDGE, height_ft=100.0, half_length_ft=400.0, distance_ft=0.0)
    found = figures(
        exposure=Exposure.B, enclosure=Enclosure.PARTIALLY_ENCLOSED, ground_elevation_ft=1000.0, topography=ridge
    )
    K_zt, K_e = (1 + 1.30 * 0.25 * math.exp(-3 * H_FT / 400)) ** 2, math.exp(-0.0362)
    K_z = 2.41 * (15 / 3280) ** (2 / 7.5)
    product = 0.00256 * K_zt * K_e * 0.85 * 160.0**2
    by_hand = {
        "V": (160.0, "mph"),
        "theta": (math.degrees(math.atan(5 / 12)), "deg"),
        "eave height": (11 + 2 / 12, "ft"),
        "h": (H_FT, "ft"),
        "a": (3.0, "ft"),
        "K_zt": (K_zt, ""),
        "K_e": (K_e, ""),
        "K_z envelope": (0.70, ""),
        "q K_d envelope": (0.70 * product, "psf"),
        "K_z cladding": (K_z, ""),
        "q K_d cladding": (K_z * product, "psf"),
        "GC_pi +": (0.55, ""),
        "GC_pi -": (-0.55, ""),
    }
    assert {s: (f.value, f.unit) for s, f in found.items()} == {
        s: (pytest.approx(value), unit) for s, (value, unit) in by_hand.items()
    }
    assert list(found) == list(by_hand)


def test_the_directional_procedure_tells_its_gust_factor_and_its_own_k_z() -> None:
    """Sec. 26.11.1 (good): 0.85; the footnote's 0.70 is chapter 28's alone."""
    found = figures(exposure=Exposure.B, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)
    assert (found["G"].value, found["G"].unit) == (0.85, "")
    assert found["K_z directional"].unit == ""
    assert found["K_z directional"].value == pytest.approx(2.41 * (15 / 3280) ** (2 / 7.5))
    assert "K_z envelope" not in found
    assert "G" not in figures()


@pytest.mark.parametrize("edition", EditionName)
def test_every_figure_names_its_edition_and_every_velocity_pressure_its_equation(edition: EditionName) -> None:
    envelope = figures(edition=edition)
    directional = figures(edition=edition, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)
    for f in (*envelope.values(), *directional.values()):
        assert f.source.startswith(f"{edition.value}, ")
    sources = {
        "28.3-1": envelope["q K_d envelope"],
        "27.3-1": directional["q K_d directional"],
        "30.3-1": envelope["q K_d cladding"],
    }
    for equation, f in sources.items():
        assert f.source.endswith(f"eq. 26.10-1 and {equation}")
    footnote = {s for s, f in (envelope | directional).items() if "footnote" in f.source}
    assert footnote == {"K_z envelope"}
    for f in (envelope["K_z cladding"], directional["K_z directional"]):
        assert f.source == f"{edition.value}, table 26.10-1"


CLAUSE = {  # ASCE 7-22, as cited in public codes and texts
    "V": "sec. 26.5",
    "h": "sec. 26.2",
    "eave height": "sec. 26.2",
    "a": "fig. 28.3-1",
    "theta": "fig. 28.3-1",
    "K_zt": "sec. 26.8.2, eq. 26.8-1",
    "K_e": "sec. 26.9, table 26.9-1",
    "K_z directional": "table 26.10-1",
    "K_z cladding": "table 26.10-1",
    "q K_d directional": "eq. 26.10-1",
    "q K_d cladding": "eq. 26.10-1",
    "G": "sec. 26.11",
    "GC_pi +": "table 26.13-1",
    "GC_pi -": "table 26.13-1",
}


def test_every_figure_names_the_clause_that_it_comes_from() -> None:
    found = figures(mwfrs_procedure=MwfrsProcedure.DIRECTIONAL)
    assert set(found) == set(CLAUSE)
    for symbol, f in found.items():
        assert f.source.startswith(f"ASCE 7-22, {CLAUSE[symbol]}"), symbol


def test_each_pair_says_whether_it_is_the_main_frame_s_or_the_cladding_s() -> None:
    found = figures()
    for what, procedure in (("main frame", "envelope"), ("cladding", "cladding")):
        for symbol in (f"K_z {procedure}", f"q K_d {procedure}"):
            assert found[symbol].meaning.endswith(f", {what}")
