"""A mark's reaction taken apart: the lines add up to it, and each line is pressure x area x levers.

The whole is checked against the reactions that the linear map gives; the parts against closed forms of a truss on
two walls (AWC Design Aid No. 6 (2007), figure 1: uniform load, and figure 5: point load; from memory).
"""

from __future__ import annotations

import math
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from export.architects_drawing.outline import outline_of_drawing
from framing.anchors.catalogue_file import catalogue_of
from framing.explain.trace import MarkTrace, trace, traces
from framing.explain.trace_pieces import RoofPart
from framing.explain.wind_cases import leading_case, velocity_pressures
from framing.loads.cases import LoadBasis
from framing.members import MemberKind
from framing.plan import EditionName, Enclosure
from framing.plan_file import read_plan
from framing.run import Run, make_run
from invariants.houses import SUPPORTED, supported_plan

SAMPLES = sorted((Path(__file__).parents[2] / "sample_plans").glob("*.toml"))
NAMES = [*(path.stem for path in SAMPLES), *SUPPORTED]


@cache
def run_of(name: str, **wind: object) -> Run:
    path = next((path for path in SAMPLES if path.stem == name), SAMPLES[0])
    plan = supported_plan(name) if name in SUPPORTED else read_plan(path, outline_of_drawing)
    plan = replace(plan, wind=replace(plan.wind, **dict(wind)))
    return make_run(plan, catalogue_of(plan, path.parent))


@cache
def traces_of(name: str) -> tuple[MarkTrace, ...]:
    return tuple(traces(run_of(name)))


def by_levers(line: RoofPart) -> float:
    return line.pressure.up_psf * line.area_ft2 * math.prod(lever.share_ratio for lever in line.levers)


@pytest.mark.parametrize("name", NAMES)
def test_the_lines_of_every_mark_add_up_to_its_governing_wind_and_its_dead_reaction(name: str) -> None:
    run = run_of(name)
    found = traces_of(name)
    assert [t.mark for t in found] == [m.mark for m in run.schedule.marks]
    for i, t in enumerate(found):
        wind, dead = run.reactions.by_case_lb[i, run.reactions.governing[i]], -run.reactions.dead_for_uplift_lb[i]
        assert t.case.name == run.schedule.marks[i].case
        assert t.dead_case.basis == "dead"
        assert t.wind[0].lb == pytest.approx(wind, rel=1e-9, abs=1e-6), t.mark
        assert t.dead[0].lb == pytest.approx(dead, rel=1e-9, abs=1e-6), t.mark


@pytest.mark.parametrize("name", NAMES)
def test_every_line_is_pressure_times_area_times_its_levers_and_every_end_the_sum_of_its_lines(name: str) -> None:
    for t in traces_of(name):
        for ends in (t.wind, t.dead):
            for end in ends:
                lines = [
                    *(by_levers(line) for line in end.roof),
                    *(c.force_lb * c.lever.share_ratio for c in end.carried),
                ]
                said = [line.lb for line in (*end.roof, *end.carried)]
                assert said == pytest.approx(lines, rel=1e-9, abs=1e-7)
                assert end.lb == pytest.approx(sum(lines), rel=1e-9, abs=1e-6)
                assert [c.force_lb for c in end.carried] == [ends[c.end].lb for c in end.carried]


@pytest.mark.parametrize("name", NAMES)
def test_every_wind_line_names_its_zone_and_its_coefficients_give_its_pressure(name: str) -> None:
    for t in traces_of(name):
        for line in (line for end in t.wind for line in end.roof):
            p = line.pressure
            assert p.zone
            assert p.q_K_d_psf is not None
            assert p.outside_factor is not None
            assert p.underside_factor is not None
            assert p.inside_factor is not None
            lifted = -p.q_K_d_psf * (p.outside_factor - p.underside_factor - p.inside_factor)
            assert p.up_psf == pytest.approx(math.copysign(16.0, lifted) if p.least else lifted, abs=1e-6)


@pytest.mark.parametrize("enclosure", [Enclosure.ENCLOSED, Enclosure.PARTIALLY_ENCLOSED])
@pytest.mark.parametrize("edition", list(EditionName))
@pytest.mark.parametrize("name", NAMES)
def test_every_wind_case_knows_every_patch_s_zone_and_the_wind_it_blows_with(
    name: str, edition: EditionName, enclosure: Enclosure
) -> None:
    run = run_of(name, edition=edition, enclosure=enclosure)
    winds = [(c.basis, c.wind) for c in run.loads.cases if c.wind is not None]
    assert len(winds) > 16
    for basis, wind in winds:
        assert "" not in wind.zone
        assert np.isfinite(wind.up_psf).all()
        assert (wind.pattern is None) == (basis == "cladding")
    assert {c.basis for c in run.loads.cases if c.wind is None} == {"dead", "live"}


def test_a_common_truss_takes_half_of_an_even_weight_at_each_wall() -> None:
    run = run_of("cottage")
    mark = next(m for m in run.schedule.marks if m.bearing.kind is MemberKind.COMMON and m.mark.endswith("-08"))
    found = trace(run, mark.mark)
    # 22'-8" between outside faces, 8 in. walls: 22 ft between bearings; 24 in. on centre; 1'-4" of eave.
    area_ft2 = sum(line.area_ft2 for line in found.dead[0].roof)
    assert area_ft2 == pytest.approx(2.0 * (22 + 8 / 12 + 2 * 16 / 12), abs=1e-6)
    assert all(line.levers[0].span_ft == pytest.approx(22.0) for line in found.dead[0].roof)
    top_psf, ceiling_psf = run.plan.dead.top_before_covering_psf, run.plan.dead.bottom_for_uplift_psf
    by_hand = -2.0 * (top_psf * (22 + 8 / 12 + 2 * 16 / 12) + ceiling_psf * 22.0) / 2.0
    assert found.dead[0].lb == pytest.approx(by_hand, rel=1e-9)
    assert len(found.dead) == 1


def test_a_hip_girder_names_every_jack_that_stands_on_it_and_where() -> None:
    run = run_of("hip_house")
    mark = next(m for m in run.schedule.marks if m.bearing.kind is MemberKind.HIP_GIRDER)
    found = trace(run, mark.mark)
    on_it = {
        (m.name, path.at_ft)
        for m in run.framing.members
        for path in m.paths
        if path.carrier is not None and run.framing.members[path.carrier].name == mark.bearing.member
    }
    span_ft = run.framing.member(mark.bearing.member).span_ft
    told = {(found.wind[c.end].member, c.lever.arm_ft) for c in found.wind[0].carried}
    assert {name for name, _ in told} == {name for name, _ in on_it}
    arms = dict(told)
    from_start = all(arms[name] == pytest.approx(at_ft, abs=1e-9) for name, at_ft in on_it)
    from_end = all(arms[name] == pytest.approx(span_ft - at_ft, abs=1e-9) for name, at_ft in on_it)
    assert from_start or from_end


def test_the_horizontal_part_lengthens_an_arm_only_where_it_is_held_at_the_heel() -> None:
    for name in NAMES:
        for t in traces_of(name):
            pushes = [abs(lever.push_ft) for end in t.wind for line in end.roof for lever in line.levers]
            if t.case.variant == "deck":
                assert max(pushes) == 0.0
        heel = [t for t in traces_of(name) if t.case.variant == "heel"]
        assert any(lever.push_ft != 0.0 for t in heel for line in t.wind[0].roof for lever in line.levers)


@pytest.mark.parametrize("name", NAMES)
def test_the_velocity_pressures_are_the_products_of_their_numbers(name: str) -> None:
    for v in velocity_pressures(run_of(name)):
        factors = (v.constant_factor, v.exposure_factor, v.topographic_factor, v.elevation_factor)
        assert v.q_K_d_psf == pytest.approx(math.prod(factors) * v.directionality_factor * v.speed_mph**2, rel=1e-12)


@pytest.mark.parametrize("basis", [LoadBasis.MWFRS, LoadBasis.CLADDING])
@pytest.mark.parametrize("name", NAMES)
def test_no_other_case_of_its_basis_pulls_hardest_at_more_bearings_than_the_leading_one(
    name: str, basis: LoadBasis
) -> None:
    run = run_of(name)
    leading = leading_case(run, basis)
    assert leading is not None
    area_of = dict(zip([m.name for m in run.framing.members], run.loads.area_of_member_ft2, strict=True))
    tally = np.zeros(len(run.reactions.cases), dtype=int)
    for i, bearing in enumerate(run.framing.bearings):
        own = {
            j: run.reactions.by_case_lb[i, j]
            for j, c in enumerate(run.reactions.cases)
            if c.basis == basis and (c.area_ft2 is None or abs(c.area_ft2 - area_of[bearing.member]) < 1e-6)
        }
        tally[max(own, key=lambda j: own[j])] += 1
    assert tally[leading] == tally.max()


def test_a_mark_that_is_not_there_is_refused() -> None:
    with pytest.raises(StopIteration):
        trace(run_of("cottage"), "W9-01")
