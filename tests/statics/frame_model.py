"""An independent model of the roof's beams for a general-purpose frame solver (PyNiteFEA).

The solver knows nothing of this project: it is given straight beams in space, what they rest on, and forces with
their heights, and answers with the force in every seat. Three things make it the statics of design.md:

- a wall holds a beam up and down and lets it turn;
- what a beam hands to another passes through a hanger that can only pull or push vertically (a stiff spring
  between the two; each beam is modelled at a level of its own, so that nothing else touches);
- an arm square to the beam keeps it from rolling, yawing and sliding, and takes no vertical force and no bending.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from Pynite import FEModel3D

LEVEL_FT = 10.0
STIFF_LB_PER_FT = 1e9
LIMP = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """Where a beam rests: the distance from its start, and the beam that carries it there (None: a wall)."""

    at_ft: float
    on: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Beam:
    """A straight beam in plan from `start_ft` to `end_ft`; forces may stand beyond its ends, on its tails."""

    name: str
    start_ft: tuple[float, float]
    end_ft: tuple[float, float]
    seats: tuple[Seat, ...]

    @property
    def span_ft(self) -> float:
        return math.dist(self.start_ft, self.end_ft)

    @property
    def direction(self) -> tuple[float, float]:
        (x0, y0), (x1, y1) = self.start_ft, self.end_ft
        return ((x1 - x0) / self.span_ft, (y1 - y0) / self.span_ft)

    def point_ft(self, at_ft: float) -> tuple[float, float]:
        """The plan point at a distance from the start."""
        return (self.start_ft[0] + self.direction[0] * at_ft, self.start_ft[1] + self.direction[1] * at_ft)

    def distance_ft(self, point_ft: tuple[float, float]) -> float:
        """How far along the beam a plan point lies."""
        return sum((p - s) * d for p, s, d in zip(point_ft, self.start_ft, self.direction, strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """A force on a beam, at a distance from its start and a height above its bearing.

    `up_lb` is positive up, `along_lb` positive from start to end.
    """

    beam: str
    at_ft: float
    up_lb: float
    along_lb: float = 0.0
    height_ft: float = 0.0


def seat_forces_lb(beams: Sequence[Beam], loads: Sequence[Load]) -> dict[tuple[str, int], float]:
    """What each seat receives, positive up, by (beam, number of the seat)."""
    return {seat: lb[0] for seat, lb in seat_forces_of_cases_lb(beams, [loads]).items()}


def seat_forces_of_cases_lb(
    beams: Sequence[Beam], cases: Sequence[Sequence[Load]]
) -> dict[tuple[str, int], tuple[float, ...]]:
    """What each seat receives in every case, of one model whose stiffness is put together once."""
    names = [f"case {n}" for n in range(len(cases))]
    lines = {beam.name: _Line(beam=beam, level_ft=-LEVEL_FT * n) for n, beam in enumerate(beams)}
    hooks = {
        (beam.name, n): lines[seat.on].node(lines[seat.on].beam.distance_ft(beam.point_ft(seat.at_ft)))
        for beam in beams
        for n, seat in enumerate(beam.seats)
        if seat.on is not None
    }
    model = FEModel3D()
    model.add_material("any", E=1e7, G=4e6, nu=0.25, rho=0.0)
    model.add_section("any", A=10.0, Iy=1.0, Iz=1.0, J=1.0)
    model.add_section("limp", A=10.0, Iy=LIMP, Iz=LIMP, J=LIMP)
    for line in lines.values():
        line.add_to(
            model,
            [(name, ld) for name, case in zip(names, cases, strict=True) for ld in case if ld.beam == line.beam.name],
        )
    for (name, n), hook in hooks.items():
        model.add_spring(f"{name} hanger {n}", hook, lines[name].seat(n), STIFF_LB_PER_FT)
    for name in names:
        model.add_load_combo(name, {name: 1.0})
    model.analyze_linear(check_stability=len(cases) == 1)
    return {
        (beam.name, n): tuple(
            float(
                -model.nodes[lines[beam.name].seat(n)].RxnFY[name]
                if seat.on is None
                else model.springs[f"{beam.name} hanger {n}"].axial(name)
            )
            for name in names
        )
        for beam in beams
        for n, seat in enumerate(beam.seats)
    }


@dataclass(slots=True, kw_only=True)
class _Line:
    """One beam at its level, gathering the places that need a node: seats, hooks and the ends of its tails."""

    beam: Beam
    level_ft: float
    nodes: dict[float, str] = field(default_factory=dict)

    @property
    def section(self) -> str:
        """A beam on more than two seats that hangs on another gives way with it, so little that it does not count."""
        hung = any(seat.on is not None for seat in self.beam.seats)
        return "limp" if hung and len(self.beam.seats) > 2 else "any"

    def node(self, at_ft: float) -> str:
        return self.nodes.setdefault(round(at_ft, 6), f"{self.beam.name} at {at_ft:.6f}")

    def seat(self, n: int) -> str:
        return self.node(self.beam.seats[n].at_ft)

    def add_to(self, model: FEModel3D, loads: Sequence[tuple[str, Load]]) -> None:
        seats = [self.seat(n) for n in range(len(self.beam.seats))]
        reach_ft = [0.0, self.beam.span_ft, *(load.at_ft for _, load in loads)]
        self.node(min(reach_ft) - 1.0)
        self.node(max(reach_ft) + 1.0)
        for at_ft, node in self.nodes.items():
            x, y = self.beam.point_ft(at_ft)
            model.add_node(node, x, self.level_ft, -y)
        self._add_segments(model, loads)
        for node, seat in zip(seats, self.beam.seats, strict=True):
            if seat.on is None:
                model.def_support(node, support_DY=True)
        (x, y), (ux, uy) = self.beam.point_ft(self.beam.seats[0].at_ft), self.beam.direction
        arm = model.add_node(f"{self.beam.name} arm", x - uy, self.level_ft, -(y + ux))
        model.def_support(arm, *[True] * 6)
        model.add_member(f"{self.beam.name} arm", arm, seats[0], "any", "any")
        model.def_releases(f"{self.beam.name} arm", Dyj=True, Rxj=True)

    def _add_segments(self, model: FEModel3D, loads: Sequence[tuple[str, Load]]) -> None:
        """The beam from node to node; each force on its segment, its height as the couple about the axis."""
        ordered = sorted(self.nodes)
        for low, high in pairwise(ordered):
            name = f"{self.nodes[low]} on"
            segment = model.add_member(name, self.nodes[low], self.nodes[high], "any", self.section)
            for case, load in ((case, load) for case, load in loads if low <= load.at_ft < high):
                model.add_member_pt_load(segment, "Fy", load.up_lb, load.at_ft - low, case)
                if load.along_lb:
                    model.add_member_pt_load(segment, "Fx", load.along_lb, load.at_ft - low, case)
                    model.add_member_pt_load(segment, "Mz", -load.along_lb * load.height_ft, load.at_ft - low, case)
