"""The frame solver's model against handbook cases, before anything of ours is held against it.

Source of the beam cases: American Wood Council, Design Aid No. 6, Beam Design Formulas (2007), figures 1, 2 and 5
and the overhanging beams. Source of the hip: areas carried by each piece, worked out by statics (equilibrium is
checked below); common practice, no source for the arrangement itself.
"""

from __future__ import annotations

import pytest

from statics.frame_model import Beam, Load, Seat, seat_forces_lb

SETBACK_FT, WIDTH_FT = 7.0, 30.0


def simple(span_ft: float) -> Beam:
    return Beam(name="beam", start_ft=(0, 0), end_ft=(span_ft, 0), seats=(Seat(at_ft=0.0), Seat(at_ft=span_ft)))


def ends(loads: list[Load], span_ft: float = 12.0) -> tuple[float, float]:
    forces = seat_forces_lb([simple(span_ft)], loads)
    return forces["beam", 0], forces["beam", 1]


def test_a_uniform_load_goes_half_to_each_end() -> None:
    strips = [Load(beam="beam", at_ft=at + 0.5, up_lb=100.0) for at in range(12)]
    assert ends(strips) == pytest.approx((600.0, 600.0), rel=1e-9)


def test_a_uniform_load_over_part_of_the_span_follows_figure_2() -> None:
    a, b, c, w = 2.0, 4.0, 6.0, 100.0
    strips = [Load(beam="beam", at_ft=a + at + 0.5, up_lb=w) for at in range(int(b))]
    expected = (w * b * (2 * c + b) / (2 * 12.0), w * b * (2 * a + b) / (2 * 12.0))
    assert ends(strips) == pytest.approx(expected, rel=1e-9)


def test_a_load_rising_from_zero_goes_a_third_and_two_thirds() -> None:
    strips = []
    for n in range(12):
        low, high = float(n), n + 1.0
        centre = 2 / 3 * (high**3 - low**3) / (high**2 - low**2)
        strips.append(Load(beam="beam", at_ft=centre, up_lb=(high**2 - low**2) / 144 * 900.0))
    assert ends(strips) == pytest.approx((300.0, 600.0), rel=1e-9)


def test_an_overhang_pries_the_far_end_down() -> None:
    w, a, span = 50.0, 3.0, 12.0
    tail = [Load(beam="beam", at_ft=span + at + 0.5, up_lb=w) for at in range(int(a))]
    expected = (-w * a**2 / (2 * span), w * a * (2 * span + a) / (2 * span))
    assert ends(tail) == pytest.approx(expected, rel=1e-9)


def test_a_push_along_the_beam_above_its_bearing_is_a_couple() -> None:
    push = [Load(beam="beam", at_ft=5.0, up_lb=0.0, along_lb=240.0, height_ft=2.0)]
    assert ends(push) == pytest.approx((40.0, -40.0), rel=1e-9)


def test_two_equal_spans_held_at_the_middle_put_three_eighths_on_the_ends() -> None:
    beam = Beam(
        name="beam", start_ft=(0, 0), end_ft=(24, 0), seats=(Seat(at_ft=0.0), Seat(at_ft=12.0), Seat(at_ft=24.0))
    )
    strips = [Load(beam="beam", at_ft=(n + 0.5) / 20, up_lb=5.0) for n in range(480)]
    forces = seat_forces_lb([beam], strips)
    found = [forces["beam", n] / 1200.0 for n in range(3)]
    assert found == pytest.approx([0.375, 1.25, 0.375], rel=1e-4)


def _hip_end(n_bays: int) -> tuple[list[Beam], list[Load]]:
    """Hip girder, end jacks, and at both corners a corner jack with its side jacks, under 1 lb per sq ft."""
    s, w, step = SETBACK_FT, WIDTH_FT, SETBACK_FT / n_bays
    girder = Beam(name="girder", start_ft=(0, s), end_ft=(w, s), seats=(Seat(at_ft=0.0), Seat(at_ft=w)))
    beams, loads = [girder], []
    for side, corner in (("left", 0.0), ("right", w)):
        inward = 1.0 if corner == 0.0 else -1.0
        tip = (corner + inward * s, s)
        hip = Beam(
            name=f"{side} corner",
            start_ft=(corner, 0.0),
            end_ft=tip,
            seats=(Seat(at_ft=0.0), Seat(at_ft=s * 2**0.5, on="girder")),
        )
        beams.append(hip)
        for n in range(n_bays):
            x = (n + 0.5) * step
            for kind, foot in (("end", (corner + inward * x, 0.0)), ("side", (corner, x))):
                name = f"{side} {kind} {n}"
                head = (corner + inward * x, x)
                beams.append(
                    Beam(name=name, start_ft=foot, end_ft=head, seats=(Seat(at_ft=0.0), Seat(at_ft=x, on=hip.name)))
                )
                loads.append(Load(beam=name, at_ft=x / 2, up_lb=x * step))
    n_middle = round((w - 2 * s) / step)
    for n in range(n_middle):
        x = s + (n + 0.5) * (w - 2 * s) / n_middle
        name = f"end jack {n}"
        beams.append(
            Beam(name=name, start_ft=(x, 0.0), end_ft=(x, s), seats=(Seat(at_ft=0.0), Seat(at_ft=s, on="girder")))
        )
        loads.append(Load(beam=name, at_ft=s / 2, up_lb=s * (w - 2 * s) / n_middle))
    return beams, loads


def test_a_hip_end_carries_the_areas_of_the_closed_forms() -> None:
    beams, loads = _hip_end(n_bays=8)
    forces = seat_forces_lb(beams, loads)
    s, w = SETBACK_FT, WIDTH_FT
    assert forces["left corner", 0] == pytest.approx(s**2 / 6, rel=0.01)
    assert forces["left corner", 1] == pytest.approx(s**2 / 3, rel=0.01)
    assert forces["girder", 0] == pytest.approx(s * (w - 2 * s) / 4 + s**2 / 3, rel=0.01)
    on_walls = sum(forces[b.name, n] for b in beams for n, seat in enumerate(b.seats) if seat.on is None)
    assert on_walls == pytest.approx(s * w, rel=1e-9)
