"""The choice of an anchor: the lightest that holds, singles before pairs, never under the house minimum."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from framing.anchors.catalogue import Anchor, AnchorKind, Catalogue
from framing.anchors.interaction import Interaction
from framing.anchors.schedule import Mark
from framing.plan import Basis, Plan, Porch, Side, Support, SupportKind
from framing.run import make_run
from invariants.houses import changed_plan, plan_of

ELL = [(0, 0), (36, 0), (36, -20), (60, -20), (60, 30), (0, 30)]


def row(name: str, uplift_lb: float, *, plies: int = 1, count: int = 1, price: float = 1.0) -> Anchor:
    return Anchor(
        id=name,
        name=name,
        count=count,
        plies=plies,
        allowable_uplift_lb=uplift_lb,
        allowable_parallel_lb=None,
        allowable_perpendicular_lb=None,
        embedment_in=None,
        length_in=None,
        fasteners="",
        n_nails=0,
        approval="invented",
        price=price,
        interaction=Interaction.SUM,
        spacing_in=None,
        end_in=None,
        edge_in=None,
        f_c_psi=None,
        minutes=None,
        kind=AnchorKind.CAST,
        order=0,
    )


def catalogue(*rows: Anchor) -> Catalogue:
    numbered = tuple(replace(r, order=i) for i, r in enumerate(rows))
    return Catalogue(name="invented", anchors=numbered, invented=True, sha256="0")


def marks(plan: Plan, *rows: Anchor) -> tuple[Mark, ...]:
    return make_run(plan, catalogue(*rows)).schedule.marks


def ell(**changed: object) -> Plan:
    return plan_of(ELL, **changed)


def minimum(plan: Plan, name: str) -> Plan:
    return replace(plan, anchors=replace(plan.anchors, minimum=name))


BOTH = (*(row("small", 900.0, plies=p) for p in (1, 2)), *(row("large", 9000.0, plies=p) for p in (1, 2)))


def test_each_mark_has_the_lightest_anchor_that_holds_it() -> None:
    for mark in marks(ell(), *BOTH):
        assert mark.anchor is not None
        assert mark.anchor.id == ("small" if mark.uplift_lb <= 900.0 else "large")
        assert mark.anchor.plies == mark.bearing.plies
        assert mark.ratio == pytest.approx(mark.uplift_lb / mark.anchor.allowable_uplift_lb)


def test_of_equal_allowables_the_cheaper_and_then_the_earlier_row_is_taken() -> None:
    dear, cheap, also = (row("dear", 5000.0, price=9.0), row("cheap", 5000.0), row("also cheap", 5000.0))
    two = row("two ply", 9000.0, plies=2)
    assert {m.anchor.id for m in marks(ell(), dear, cheap, also, two) if m.anchor and m.bearing.plies == 1} == {"cheap"}


def test_every_single_comes_before_any_pair() -> None:
    found = marks(ell(), row("pair", 2500.0, count=2), row("huge", 9999.0), row("two ply", 9999.0, plies=2))
    assert {m.anchor.id for m in found if m.anchor and m.bearing.plies == 1} == {"huge"}


def test_a_pair_stands_on_both_faces_and_counts_two() -> None:
    found = marks(ell(), row("small", 900.0), row("small", 9999.0, count=2), row("two ply", 9999.0, plies=2))
    pairs = [m for m in found if m.count == 2]
    assert pairs
    assert all(m.side is Side.BOTH and m.uplift_lb > 900.0 for m in pairs)
    assert {m.side for m in found if m.count == 1} == {Side.START}


def test_no_mark_is_under_the_house_minimum() -> None:
    found = marks(minimum(ell(), "large"), *BOTH)
    assert {m.anchor.id for m in found if m.anchor} == {"large"}


def test_a_bearing_that_nothing_holds_is_unresolved_with_its_demand() -> None:
    run = make_run(ell(), catalogue(row("small", 900.0), row("small", 900.0, plies=2)))
    assert run.schedule.unresolved
    for mark in run.schedule.unresolved:
        assert mark.uplift_lb > 900.0
        assert (mark.anchor, mark.count, mark.ratio) == (None, 0, None)


def test_a_pavilion_on_beams_that_nothing_ties_down_has_marks_and_no_strap() -> None:
    """The engineer connects every end; no flag speaks of a strap in wood or off a beam."""
    corners = [(0.0, 0.0), (24.0, 0.0), (24.0, 20.0), (0.0, 20.0)]
    beams = tuple(
        Support(kind=SupportKind.BEAM, start_ft=a, end_ft=b, holds_down=False)
        for a, b in zip(corners, (*corners[1:], corners[0]), strict=True)
    )
    plan = plan_of(list(corners), supports=beams, porches=(Porch(corners_ft=tuple(corners)),))
    run = make_run(plan, catalogue(*BOTH))
    assert run.schedule.marks == run.schedule.by_engineer
    assert not any(m.straps for m in run.schedule.marks)
    assert run.flags == ()


@pytest.mark.slow
@pytest.mark.parametrize("basis", [Basis.MWFRS, Basis.WORSE])
def test_at_the_speed_it_is_good_to_an_anchor_is_used_up(basis: Basis) -> None:
    """The house run again at that speed has just the allowable as its uplift (cladding's 16 psf floor aside)."""
    plan = ell(basis=basis)
    first = marks(plan, *BOTH)
    for mark in [m for m in first if m.good_to_mph is not None and m.good_to_mph <= 250.0][::7]:
        again = marks(changed_plan(plan, speed_mph=mark.good_to_mph), *BOTH)
        there = next(m for m in again if m.mark == mark.mark)
        assert there.uplift_lb == pytest.approx(mark.allowable_uplift_lb, rel=1e-6)


@pytest.mark.parametrize(("speed_mph", "told"), [(299.9, True), (300.1, False)])
def test_a_speed_beyond_300_mph_is_not_told(speed_mph: float, told: bool) -> None:
    """V sqrt((allowable + 0.6 D) / (0.6 W)) is set to that speed for the mark that pulls hardest; dead and wind from
    the run's own reactions.
    """
    r = make_run(ell(), catalogue(*BOTH)).reactions
    i = int(np.argmax(r.uplift_lb))
    wind_lb, dead_lb = r.wind_lb[i], r.dead_for_uplift_lb[i]
    allowable_lb = 0.6 * (wind_lb * (speed_mph / ell().wind.speed_mph) ** 2 - dead_lb)
    found = marks(ell(), *(row("exact", allowable_lb, plies=p) for p in (1, 2)))[i].good_to_mph
    assert found == (pytest.approx(speed_mph) if told else None)


def test_an_anchor_that_is_just_used_up_holds() -> None:
    """At or under 1.0: the greatest uplift as the allowable."""
    most_lb = float(make_run(ell(), catalogue(*BOTH)).reactions.uplift_lb.max())
    found = marks(ell(), *(row("exact", most_lb, plies=p) for p in (1, 2)))
    assert max(m.ratio for m in found if m.ratio is not None) == 1.0
    assert all(m.resolved for m in found)


def test_uplift_never_falls_as_the_wind_rises() -> None:
    rows = [[m.uplift_lb for m in marks(ell(speed_mph=v), *BOTH)] for v in (110.0, 130.0, 150.0, 170.0, 190.0)]
    assert np.all(np.diff(np.array(rows), axis=0) >= -1e-9)


def test_a_house_minimum_in_pounds_bars_every_lighter_single() -> None:
    ids = {m.anchor.id for m in marks(minimum(ell(), "900.5 lb"), *BOTH) if m.anchor}
    assert ids == {"large"}
    assert {m.anchor.id for m in marks(minimum(ell(), "900 lb"), *BOTH) if m.anchor} == {"small", "large"}


def test_an_anchor_that_is_put_on_afterwards_is_never_chosen_for_the_wet_concrete() -> None:
    later = tuple(replace(r, id="later", price=0.1, kind=AnchorKind.RETROFIT) for r in BOTH)
    assert {m.anchor.id for m in marks(ell(), *later, *BOTH) if m.anchor} == {"small", "large"}
