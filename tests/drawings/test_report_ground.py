"""The report's sections on where the pull stops and for the engineer: every figure equal to the run's."""

from __future__ import annotations

import json
import re
from html import unescape

import pytest

from drawings.test_report import number, page_of
from export.report.page import report_html
from export.tables.run_json import run_json
from export.words.check import findings_text
from framing.run import Run
from parts.masonry_houses import ELL, ONE_5, Footing, nothing_said, opening, run_of, steel

DOWELLED = Footing(width_ft=20.0 / 12.0, depth_ft=10.0 / 12.0, dowelled=True)


@pytest.fixture(scope="module")
def said() -> Run:
    return run_of(openings=(opening("W1", 12.0, 28.0),), footing=DOWELLED)


@pytest.fixture(scope="module")
def silent() -> Run:
    return run_of(said=nothing_said())


def text_of(run: Run) -> str:
    """The words of the section, without its tags."""
    html = report_html(run).decode().split('<section id="ground">')[1].split("</section>")[0]
    return unescape(re.sub(r"<[^>]+>", " ", html))


def test_each_wall_has_its_pull_and_net_line_load_in_numbers(said: Run) -> None:
    rows = page_of(said).rows("ground", "Where the pull stops")
    assert [r[0] for r in rows] == ["W1", "W2", "W3", "W4"]
    for row, beam in zip(rows, said.ground.beams, strict=True):
        assert number(row[2]) == pytest.approx(beam.pull_lb, abs=0.5)
        assert row[3].endswith(f"= {beam.net_plf:.1f}")
        assert row[4] == str(len(beam.cells.at_ft))


def test_spans_openings_cells_and_weights_are_all_listed(said: Run) -> None:
    page = page_of(said)
    spans = [s for b in said.ground.beams for s in b.spans if s.opening is None]
    found = page.rows("ground", "From cell to cell")
    assert [number(r[3]) for r in found] == pytest.approx([s.asd.top_ft_lb for s in spans], abs=0.5)
    assert [number(r[8]) for r in found] == pytest.approx([s.strength.shear_lb for s in spans], abs=0.5)
    assert [number(r[9]) for r in found] == pytest.approx([s.ratio for s in spans], abs=0.005001)
    [over] = page.rows("ground", "Over openings")
    [beam] = said.ground.openings
    assert [number(c) for c in over[1:8]] == pytest.approx(
        [
            beam.span_ft,
            *(beam.asd.top_ft_lb, beam.asd.bottom_ft_lb, beam.asd.shear_lb),
            *(beam.strength.top_ft_lb, beam.strength.bottom_ft_lb, beam.strength.shear_lb),
        ],
        abs=0.5,
    )
    assert f"{beam.jamb_lb[0]:.0f} (11'-8\")" in over[9]
    cells = page.rows("ground", "Filled cells")
    assert [number(r[1]) for r in cells] == pytest.approx([c.pull_lb for c in said.ground.cells], abs=0.5)
    assert [number(r[3]) for r in cells] == pytest.approx([c.holds_lb for c in said.ground.cells], abs=0.5)
    weights = page.rows("ground", "What lies on each mark's own strip of wall")
    assert [r[0] for r in weights] == [m.mark for m in said.schedule.marks]
    assert [number(r[5]) for r in weights] == pytest.approx([w.held_lb for w in said.ground.ladders], abs=0.5)
    assert [number(r[6]) for r in weights] == pytest.approx([w.missing_lb for w in said.ground.ladders], abs=0.5)


def test_the_strength_of_the_bars_is_worked_out_in_numbers(said: Run) -> None:
    """Two #5, 2,500 psi: a = 0.62 x 60,000 / (0.85 x 2,500 x 7.625) = 2.296 in., phi M_n 34,288 ft-lb (table)."""
    text = text_of(said)
    assert "= 2.296 in.; phi M_n = 0.9" in text
    assert "= 34288 ft-lb" in text
    assert "phi V_c = 7685 lb (ACI 318-14), 5174 lb without stirrups (318-19); without stirrups 3842 lb counts" in text


def test_what_is_not_said_is_asked_for_and_nothing_is_judged(silent: Run) -> None:
    page, text = page_of(silent), text_of(silent)
    assert "The plan does not say tie_beam.top_bars, tie_beam.bottom_bars, tie_beam.f_c_psi, tie_beam.cover" in text
    rows = page.rows("ground", "Where the pull stops")
    assert {r[4] for r in rows} == {"not said"}
    assert all(r[5].endswith("(bars taken)") for r in rows)
    assert "From cell to cell" not in text
    assert "phi M_n" not in text


def test_bars_unsaid_leave_the_demand_and_no_ratio() -> None:
    bare = run_of(said=steel(top_bars=None, bottom_bars=None))
    found = page_of(bare).rows("ground", "From cell to cell")
    assert {r[9] for r in found} == {"not said"}
    assert all(number(r[3]) >= 0 for r in found)


def test_the_engineers_page_has_pressures_and_walls(said: Run) -> None:
    page = page_of(said)
    assert len(page.rows("engineer", "For the engineer of record")) == 10
    walls = page.rows("engineer", "Walls")
    assert [number(r[1]) for r in walls] == pytest.approx([b.pull_lb for b in said.ground.beams], abs=0.5)
    assert [number(r[5]) for r in walls] == pytest.approx([sum(b.cell_lb) for b in said.ground.beams], abs=0.5)


def test_the_weight_that_a_corners_cell_wants_stands_with_both_its_walls() -> None:
    """Each wall's figure is the sum of the column 'missing' over the rows that name the wall, as a reader adds it up;
    at the inside corner stands a girder.
    """
    page = page_of(run_of(ELL, footing=DOWELLED))
    cells = [(row[0], number(row[4])) for row in page.rows("ground", "Filled cells")]
    corner = next(lb for name, lb in cells if name == "corner of W1 and W2")
    assert corner > 500.0
    for row in page.rows("engineer", "Walls"):
        assert number(row[6]) == pytest.approx(sum(lb for name, lb in cells if row[0] in name), abs=4.0)


def test_a_wall_whose_cells_hold_as_given_is_not_asked_for_closer_ones() -> None:
    """By its own column: a wall with no ratio over 1.00 from cell to cell holds as given, another is told a spacing."""
    for spacing_ft in (4.0, 8.0):
        page = page_of(run_of(ELL, said=steel(top_bars=ONE_5, cell_spacing_ft=spacing_ft)))
        spans = [(r[0], number(r[9])) for r in page.rows("ground", "From cell to cell")]
        for row in page.rows("ground", "Where the pull stops"):
            holds = max(ratio for wall, ratio in spans if wall == row[0]) <= 1.0
            assert (row[5] == "hold as given") is holds


def test_check_says_it_in_a_line_for_each_wall_and_opening(said: Run, silent: Run) -> None:
    text = findings_text(said)
    block = text.split("Where the pull stops (ASD)\n")[1].split("\n\n")[0].splitlines()
    assert len(block) == 5
    assert "ratio " in block[0]
    assert block[4].strip().startswith("opening 1, W1 12'-0\" to 28'-0\": ")
    quiet = findings_text(silent).split("Where the pull stops (ASD)\n")[1].split("\n\n")[0].splitlines()
    assert all("filled cells not said, wanted at most" in line for line in quiet)
    unbarred = findings_text(run_of(said=steel(f_c_psi=None)))
    assert "bars not said" in unbarred


def test_run_json_holds_all_of_it(said: Run, silent: Run) -> None:
    data = json.loads(run_json(said))["tie_beam"]
    assert data["beam_plf"] == pytest.approx(124.1, abs=0.05)
    assert [b["wall"] for b in data["beams"]] == ["W1", "W2", "W3", "W4"]
    assert data["openings"][0]["asd"]["top_ft_lb"] == said.ground.openings[0].asd.top_ft_lb
    assert len(data["cells"]) == len(said.ground.cells)
    assert [w["mark"] for w in data["weights"]] == [m.mark for m in said.schedule.marks]
    assert all(g["within_24_in"] == (g["away_ft"] <= 2.0) for g in data["girders"])
    empty = json.loads(run_json(silent))["tie_beam"]
    assert empty["strength"]["top_ft_lb"] is None
    assert empty["beams"][0]["spans"] == []
    assert empty["beams"][0]["spacing_needed_with_bars_taken"] is True
