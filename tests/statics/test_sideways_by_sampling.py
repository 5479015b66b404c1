"""A rectangle and an L of hips against brute force (sideways_by_sampling.py): every line of the deck, to the pound.

The houses: 44 ft by 26 ft, and an L of a wing 60 ft by 28 ft with one 24 ft by 52 ft; 160 mph, Exposure C, enclosed.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import pytest

from framing.plan import EditionName, MwfrsProcedure, Support, SupportKind
from framing.plan_masonry import TopsHeldBy
from framing.run import Run
from invariants.houses import Outline, plan_of
from statics.sideways_by_sampling import EAVE_FT, RISE, House, Wind, Wing, line_forces
from statics.test_sideways import run_of

Q_PSF = 0.00256 * 0.85 * 160.0**2
K_Z_OF = {EditionName.ASCE_7_22: (2.41, 2460.0, 9.8), EditionName.ASCE_7_16: (2.01, 900.0, 9.5)}  # Exposure C


@dataclass(frozen=True)
class Sample:
    outline: Outline
    wings: tuple[Wing, ...]
    walls: tuple[tuple[int, float, float, float], ...]
    least_ft: float
    half_width_ft: float

    def house(self, edition: EditionName) -> House:
        h = EAVE_FT + RISE * self.half_width_ft / 2
        a = max(min(0.1 * self.least_ft, 0.4 * h), 3.0)
        factor, gradient_ft, power = K_Z_OF[edition]
        k_z = factor * (max(h, 15.0) / gradient_ft) ** (2 / power)
        return House(wings=self.wings, walls=self.walls, a_ft=a, h_ft=h, q_psf=Q_PSF * k_z)


SAMPLES = {
    "rectangle": Sample(
        outline=[(0, 0), (44, 0), (44, 26), (0, 26)],
        wings=(Wing((0, 0), (44, 26)),),
        walls=((2, 0, 0, 44), (1, 44, 0, 26), (3, 26, 0, 44), (0, 0, 0, 26)),
        least_ft=26.0,
        half_width_ft=13.0,
    ),
    "L": Sample(
        outline=[(0, 0), (60, 0), (60, 28), (24, 28), (24, 52), (0, 52)],
        wings=(Wing((0, 0), (60, 28)), Wing((0, 0), (24, 52))),
        walls=((2, 0, 0, 60), (1, 60, 0, 28), (3, 28, 24, 60), (1, 24, 28, 52), (3, 52, 0, 24), (0, 0, 0, 52)),
        least_ft=52.0,
        half_width_ft=14.0,
    ),
}


def found_case(run: Run, wind: Wind) -> int:
    """The program's case of a wind, by its side, corner and internal pressure; the figure's plain reading."""
    for k, c in enumerate(run.sideways.cases):
        load = next((one for one in run.loads.cases if one.name == c.load), None)
        if load is None or load.wind is None or load.wind.pattern is None:
            continue
        pattern = load.wind.pattern
        plain = not getattr(pattern, "reading", 0) and not getattr(pattern, "other_value", False)
        corner = wind.directional or getattr(pattern, "high_corner", None) == wind.high_corner
        inside = math.isclose(load.wind.internal_factor, wind.inside)
        if plain and corner and inside and int(pattern.from_side) == wind.side:
            return k
    raise AssertionError(wind)


WINDS = [Wind(side, corner, inside, False) for side in range(4) for corner in (False, True) for inside in (0.18, -0.18)]
WINDS += [Wind(side, False, inside, True) for side in range(4) for inside in (0.18, -0.18)]


@pytest.mark.parametrize("sample", SAMPLES)
@pytest.mark.parametrize("directional", [False, True])
@pytest.mark.parametrize("winds", ["some", pytest.param("all", marks=pytest.mark.full)])
def test_every_line_takes_what_brute_force_brings_to_it_to_the_pound(
    sample: str, directional: bool, winds: str
) -> None:
    chosen = [w for w in (WINDS if winds == "all" else WINDS[::5]) if w.directional is directional]
    as_brute_force(sample, EditionName.ASCE_7_22, [w for w in chosen if w.inside > 0.0 or w.side in (0, 2)])


@pytest.mark.parametrize("wind", [Wind(2, True, 0.18, False), Wind(0, False, -0.18, True)])
def test_the_older_edition_brings_what_brute_force_brings_too(wind: Wind) -> None:
    """ASCE 7-16: the same coefficients at its own K_z, 2.01 (z / 900)^(2/9.5) in Exposure C, not under 15 ft."""
    as_brute_force("L", EditionName.ASCE_7_16, [wind])


def as_brute_force(sample: str, edition: EditionName, winds: list[Wind]) -> None:
    """Each line's force, and what bearings and deck hold between them under the other option, wind by wind."""
    mine = SAMPLES[sample]
    procedure = MwfrsProcedure.DIRECTIONAL if winds[0].directional else MwfrsProcedure.ENVELOPE
    run = run_of(plan_of(mine.outline, mwfrs_procedure=procedure, edition=edition))
    held = run_of(run.plan, TopsHeldBy.TIE_BEAM)
    for wind in winds:
        k = found_case(run, wind)
        *lines, roof_lb = line_forces(mine.house(edition), wind)
        for axis in (0, 1):
            found = zip(run.sideways.deck.lines[axis], run.sideways.lines_lb[axis][:, k], strict=True)
            there = {round(line.at_ft, 6): lb for line, lb in found}
            assert there == {at: pytest.approx(lb, abs=1.0) for at, lb in lines[axis].items()}, (wind, axis)
        what_the_bearings_and_the_deck_hold(held, k, roof_lb)


def what_the_bearings_and_the_deck_hold(run: Run, k: int, roof_lb: np.ndarray) -> None:
    """Held by the tie beam: the members' thrusts, each once, and what the roof leaves to the deck are the roof's whole
    horizontal force.
    """
    found = run.sideways
    first = {b.member: i for i, b in reversed(list(enumerate(run.framing.bearings)))}
    thrust = sum(found.square_lb[i, k] for i in first.values())
    deck = np.array([found.readings[0].force_lb[a][k] - found.readings[1].force_lb[a][k] for a in (0, 1)])
    assert thrust + deck == pytest.approx(roof_lb, abs=1.0)


def test_an_l_s_drag_is_the_unit_shears_of_both_sides_over_the_depth_inside() -> None:
    """Along the line of W3 (y = 28): what comes from below over 60 ft, from above over 24 ft, times the 24 inside."""
    run = run_of(plan_of(SAMPLES["L"].outline))
    drag = next(d for d in run.tops.drags if d.wall == "W3")
    k = next(k for k, c in enumerate(run.sideways.cases) if c.name == drag.case)
    by_reading = []
    for reading in run.sideways.readings:
        _, from_below, from_above, _ = reading.ends_lb[0][:, k]
        by_reading.append(abs((from_below / 60.0 + from_above / 24.0) * 24.0))
    assert drag.force_lb == pytest.approx(max(by_reading))
    assert drag.force_lb == pytest.approx((drag.low_plf + drag.high_plf) * 24.0)
    assert drag.point_ft == pytest.approx((24.0, 28.0))
    assert run.framing.member(drag.member).kind.value == "girder"


def test_at_an_inside_corner_where_a_tied_down_wall_runs_on_the_drag_is_told_once_and_goes_to_that_wall() -> None:
    """The line y = 28 is then held over all 60 ft: 36 of W3, 24 of S1. By hand, below it the deck is 60 ft deep, above
    it 24: V_b and V_a bring V_b / 60 and V_a / 24 a foot, the walls hold (V_a + V_b) / 60, so that over the 24 ft of
    S1 V_a (1 - 24 / 60) = 0.6 V_a comes together, and passes from the one wall to the other.
    """
    ell = SAMPLES["L"].outline
    wall = Support(kind=SupportKind.BEARING_WALL, start_ft=(0.0, 28.0), end_ft=(24.0, 28.0), holds_down=True)
    run = run_of(plan_of(ell, supports=(wall,)))
    [drag] = [d for d in run.tops.drags if d.axis == 0]
    assert (drag.wall, drag.member) == ("W3", "S1")
    k = next(k for k, c in enumerate(run.sideways.cases) if c.name == drag.case)
    above_lb = [abs(reading.ends_lb[0][2, k]) for reading in run.sideways.readings]
    assert drag.force_lb == pytest.approx(0.6 * max(above_lb))
    assert not any("where S1 ends" in note for note in run.notes)


@pytest.mark.parametrize(("apart_ft", "n_lines", "return_holds"), [(3.9, 2, False), (4.0, 3, True), (4.2, 3, True)])
def test_from_four_feet_on_two_lines_are_two_and_a_stretch_holds(
    apart_ft: float, n_lines: int, return_holds: bool
) -> None:
    jogged = [(0, 0), (20, 0), (20, -apart_ft), (44, -apart_ft), (44, 24), (0, 24)]
    found = run_of(plan_of(jogged)).sideways
    assert len(found.deck.lines[0]) == n_lines
    names = {found.stretches[k].name for line in found.deck.lines[1] for k in line.stretches}
    anchored = any(s.name == "W2" for s in found.stretches)
    assert ("W2" in names) == (return_holds and anchored)
