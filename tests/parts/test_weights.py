"""The weight ladder: beam, wall, footing over each mark's own strip, and what hangs on each cell."""

from __future__ import annotations

from dataclasses import replace

import pytest

from framing.ground.weights import Ladder, cell_holds_lb, wall_weight_psf
from framing.run import Run
from parts.masonry_houses import Footing, masonry_plan, nothing_said, opening, run_of, steel

TALL_FT = 8.0 + 15.625 / 12.0  # 8 ft of block under an 8x16
DOWELLED = Footing(width_ft=20.0 / 12.0, depth_ft=10.0 / 12.0, dowelled=True)


def ladder_at(run: Run, wall: str, from_ft: float, to_ft: float) -> Ladder:
    """The ladder of an inside mark of a wall with a strip of 2 ft between two stations."""
    marks = run.schedule.marks
    found = [
        ladder
        for ladder in run.ground.ladders
        if marks[ladder.row].bearing.wall == wall and from_ft < marks[ladder.row].bearing.station_ft < to_ft
    ]
    two_ft = [ladder for ladder in found if ladder.strip_ft == pytest.approx(2.0)]
    assert two_ft
    return two_ft[0]


def rungs(ladder: Ladder) -> tuple[float, float, float]:
    return (ladder.beam_lb, ladder.beam_lb + ladder.wall_lb, ladder.held_lb)


def test_a_truss_at_24_in_has_149_687_and_937_lb_of_beam_wall_and_footing() -> None:
    """8 ft of wall, cells at 48 in. (56 psf), 8x16, footing 20 x 10: own arithmetic by hand, 0.6 of each."""
    run = run_of(footing=DOWELLED, wall_height_ft=TALL_FT)
    assert rungs(ladder_at(run, "W1", 14.0, 26.0)) == pytest.approx((149, 687, 937), abs=1.0)


def test_without_a_dowel_only_the_beam_and_the_grouted_cells_count_283_lb() -> None:
    run = run_of(footing=replace(DOWELLED, dowelled=False), wall_height_ft=TALL_FT)
    ladder = ladder_at(run, "W1", 14.0, 26.0)
    assert rungs(ladder) == pytest.approx((149, 283, 283), abs=1.0)
    assert not ladder.dowelled
    assert rungs(ladder_at(run_of(wall_height_ft=TALL_FT), "W1", 14.0, 26.0)) == pytest.approx((149, 283, 283), abs=1.0)


def test_without_known_cells_only_the_beam_counts_dowel_or_not() -> None:
    for footing in (DOWELLED, None):
        run = run_of(said=nothing_said(), footing=footing, wall_height_ft=TALL_FT)
        assert rungs(ladder_at(run, "W1", 14.0, 26.0)) == pytest.approx((149, 149, 149), abs=1.0)


def test_over_an_opening_there_is_the_beam_alone() -> None:
    run = run_of(footing=DOWELLED, openings=(opening("W1", 12.0, 28.0),))
    assert rungs(ladder_at(run, "W1", 16.0, 24.0)) == pytest.approx((149, 149, 149), abs=1.0)


def test_what_is_missing_is_the_pull_over_all_rungs_and_never_less_than_nothing() -> None:
    run = run_of(footing=DOWELLED, speed_mph=180.0)
    short = [ladder for ladder in run.ground.ladders if ladder.missing_lb > 0]
    assert 0 < len(short) < len(run.ground.ladders)
    for ladder in short:
        assert ladder.missing_lb == pytest.approx(run.schedule.marks[ladder.row].uplift_lb - ladder.held_lb)
    assert min(ladder.missing_lb for ladder in run.ground.ladders) == 0.0


def test_every_mark_on_a_tie_beam_has_a_ladder_and_the_strips_are_all_of_the_walls() -> None:
    run = run_of(footing=DOWELLED)
    assert [ladder.row for ladder in run.ground.ladders] == list(range(len(run.schedule.marks)))
    assert sum(ladder.strip_ft for ladder in run.ground.ladders) == pytest.approx(2 * (40 + 28))


@pytest.mark.parametrize(
    ("spacing_in", "psf"), [(8, 84), (16, 66), (24, 61), (32, 58), (48, 56), (96, 46), (40, 56.8), (4, 84), (1e9, 36)]
)
def test_a_wall_weighs_what_the_table_says_and_between_its_rows_by_cells_per_foot(
    spacing_in: float, psf: float
) -> None:
    """Rows of framing/ground/cmu_wall_weights.csv; 96 in. half way from none to 48, 40 in. two fifths from 48 to 32."""
    assert wall_weight_psf(spacing_in / 12.0) == pytest.approx(psf, abs=1e-6)


def test_a_thicker_wall_weighs_more_in_proportion() -> None:
    thick = run_of(footing=DOWELLED, wall_height_ft=TALL_FT, wall_thickness_ft=1.0)
    ladder = ladder_at(thick, "W1", 14.0, 26.0)
    assert ladder.wall_lb == pytest.approx(1.5 * 0.6 * 56 * 8 * 2, rel=1e-3)


def test_each_cell_has_its_half_bays_hanging_on_it() -> None:
    """Cells at 4 ft: 0.6 x 4 ft x (56 psf x 8 ft + 150 x 20 x 10 / 144 plf), half of that at the corner's own share."""
    plan = masonry_plan(footing=DOWELLED, wall_height_ft=TALL_FT)
    run = run_of(footing=DOWELLED, wall_height_ft=TALL_FT)
    beam = next(b for b in run.ground.beams if b.cells.stretch.name == "W1")
    held = cell_holds_lb(plan, beam)
    inside = 0.6 * 4.0 * (56 * 8 + 150 * 20 * 10 / 144)
    assert held[1] == pytest.approx(inside, rel=1e-6)
    assert held[0] == pytest.approx(inside / 2, rel=1e-6)
    bare = replace(plan, masonry=replace(plan.masonry, footing=None))
    assert cell_holds_lb(bare, beam)[1] == pytest.approx(0.6 * 84 * 2 / 3 * 8, rel=1e-6)


def test_a_jamb_has_no_wall_on_the_openings_side() -> None:
    plan = masonry_plan(footing=DOWELLED, openings=(opening("W1", 12.0, 28.0),), wall_height_ft=TALL_FT)
    beam = next(
        b
        for b in run_of(footing=DOWELLED, openings=(opening("W1", 12.0, 28.0),), wall_height_ft=TALL_FT).ground.beams
        if b.cells.stretch.name == "W1"
    )
    k = min(range(len(beam.cells.at_ft)), key=lambda i: abs(beam.cells.at_ft[i] - 12.0))
    bay_ft = beam.cells.at_ft[k] - beam.cells.at_ft[k - 1]
    beside = 0.6 * bay_ft / 2 * (wall_weight_psf(bay_ft) * 8 + 150 * 20 * 10 / 144)
    over = wall_weight_psf(beam.cells.at_ft[k + 1] - beam.cells.at_ft[k])
    sliver = 0.6 * (4 / 12) * (over * 8 + 150 * 20 * 10 / 144)
    assert cell_holds_lb(plan, beam)[k] == pytest.approx(beside + sliver, rel=1e-6)


def test_cells_said_one_by_one_count_bay_by_bay() -> None:
    """Bays of 6 ft between cells at 6, 12, 18 ft: 50.0 psf there (36 + 20 x (1/6) / (1/4) = 49.33)."""
    cells = tuple(("W1", at) for at in (0.5, 6.0, 12.0, 18.0, 39.5))
    run = run_of(said=steel(cell_spacing_ft=4.0), cells=cells, footing=DOWELLED, wall_height_ft=TALL_FT)
    ladder = ladder_at(run, "W1", 13.0, 17.0)
    assert ladder.wall_lb == pytest.approx(0.6 * 2 * 8 * (36 + 20 * 4 / 6), rel=1e-6)


def test_grouted_cells_of_a_thicker_wall_weigh_more_too() -> None:
    thin = ladder_at(run_of(wall_height_ft=TALL_FT), "W1", 14.0, 26.0)
    thick = ladder_at(run_of(wall_height_ft=TALL_FT, wall_thickness_ft=1.0), "W1", 14.0, 26.0)
    assert thick.wall_lb == pytest.approx(1.5 * thin.wall_lb, rel=0.02)
