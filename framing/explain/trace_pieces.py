"""Run -> the lines of a trace that are pieces of roof: how much presses, and by which levers it gets to an end."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from operator import mul
from typing import Any

import numpy as np
from numpy.typing import NDArray

from framing.loads.cases import LoadBasis, LoadCase
from framing.loads.load_path import Variant, first_step, seats
from framing.loads.pieces import Ints
from framing.loads.rake_frames import framed_by
from framing.members import Framing
from framing.plan import RakeFrame
from framing.run import Run
from framing.tolerances import SAME_PSF_DECIMALS
from framing.wind.patches import Floats


class Under(StrEnum):
    """What lies under a part of the roof; inside walls is inside their outside faces."""

    INSIDE_WALLS = "inside walls"
    OPEN_PORCH = "open porch"
    OVERHANG = "overhang"


@dataclass(frozen=True, slots=True, kw_only=True)
class Pressure:
    """What presses on a part of the roof, and how it is made up. The coefficients are None for dead load."""

    zone: str
    under: Under
    q_K_d_psf: float | None
    outside_factor: float | None
    underside_factor: float | None
    inside_factor: float | None
    least: bool
    up_psf: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """Where a force stands: `arm_ft` of `span_ft`, in plan and measured from the other end, goes to this end.

    `push_ft` is what the horizontal part of the pressures adds to the arm (variant 'heel'). `on` names the member, or a
    gable end's `outlookers`.
    A member on more than two bearings has their places in `bearings_ft`; the arm is then its span times the share that
    continuity gives.
    """

    on: str
    outlookers: bool
    arm_ft: float
    push_ft: float
    span_ft: float
    bearings_ft: tuple[float, ...]

    @property
    def share_ratio(self) -> float:
        """The part of the force that goes to this end."""
        return (self.arm_ft + self.push_ft) / self.span_ft


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofPart:
    """The roof under one pressure that bears on one end: lb = up_psf x area_ft2 x every lever's share.

    No lever: it stands on the wall right there. Two: a gable end's outlookers, then the truss inside.
    """

    pressure: Pressure
    area_ft2: float
    levers: tuple[Lever, ...]
    lb: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pressures:
    """The different pressures of a case, and for each piece (n,) which of them presses on it."""

    kinds: tuple[Pressure, ...]
    kind_of: Ints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Shares:
    """The way from pieces to member ends, by node: the pieces, their shares, and those without horizontal parts.

    `standing` names for each member the nodes that stand on it, `node_at` for each bearing the member's end on it,
    `seats` a member's own places and nodes, `member_of` for each node of a spanning member that member. `framing` is
    the house with its rakes carried as this way has them.
    """

    framing: Framing

    piece_of: dict[int, Ints]
    share_of: dict[int, Floats]
    plain_of: dict[int, Floats]
    standing: dict[int, list[int]]
    node_at: dict[int, int]
    seats: tuple[tuple[tuple[float, int], ...], ...]
    member_of: dict[int, int]


def shares_of(run: Run, variant: Variant, rake: RakeFrame | None, *, lifted: bool) -> Shares:
    """The shares of one variant, on the supports or lifted off those that only push, and who stands on whom."""
    framing = framed_by(run.framing, rake)

    def step(v: Variant) -> tuple[Ints, Ints, Floats]:
        return first_step(run.plan, framing, run.patches, run.pieces, v, lifted=lifted)

    (node, piece, share), (_, _, plain) = step(variant), step(Variant.DECK)
    order = np.argsort(node, kind="stable")
    nodes, starts = np.unique(node[order], return_index=True)
    rows = dict(zip(nodes.tolist(), np.split(order, starts[1:]), strict=True))
    standing: dict[int, list[int]] = {}
    node_at: dict[int, int] = {}
    for i, member in enumerate(run.framing.members):
        for k, path in enumerate(member.paths):
            if path.carrier is not None:
                standing.setdefault(path.carrier, []).append(2 * i + k)
            if path.bearing is not None:
                node_at.setdefault(path.bearing, 2 * i + k)
    on = tuple(seats(run.framing, i, lifted=lifted) for i in range(len(run.framing.members)))
    return Shares(
        framing=framing,
        standing=standing,
        node_at=node_at,
        seats=on,
        member_of={n: i for i, m in enumerate(run.framing.members) if m.paths for _, n in on[i]},
        piece_of={n: piece[r] for n, r in rows.items()},
        share_of={n: share[r] for n, r in rows.items()},
        plain_of={n: plain[r] for n, r in rows.items()},
    )


def pressures_of(run: Run, load: LoadCase) -> Pressures:
    """What presses on each piece, for dead load and wind alike."""
    zones = load.wind
    patch = run.pieces.patch
    up_psf = np.round(load.force_lb / run.pieces.area_ft2, SAME_PSF_DECIMALS)
    ceiling = run.patches.in_bearings[patch] if load.basis is LoadBasis.DEAD else np.zeros(len(patch), dtype=bool)
    each = [zones.zone[patch] if zones else ceiling, _under(run)[patch], up_psf]
    if zones is not None:
        factors = (zones.outside_factor, zones.underside_factor, zones.inside_factor)
        each += [*(np.round(f[patch], SAME_PSF_DECIMALS) for f in factors), zones.least[patch]]
    keys = list(zip(*(a.tolist() for a in each), strict=True))
    place = {key: n for n, key in enumerate(dict.fromkeys(keys))}
    return Pressures(
        kinds=tuple(_pressure(key, zones.q_K_d_psf if zones else None, load.basis) for key in place),
        kind_of=np.array([place[key] for key in keys], dtype=np.int64),
    )


def _under(run: Run) -> NDArray[np.str_]:
    """The value of what lies under each patch. (n,)"""
    inside = np.where(run.patches.over_porch, Under.OPEN_PORCH.value, Under.INSIDE_WALLS.value)
    return np.where(run.patches.in_walls, inside, Under.OVERHANG.value)


def _pressure(key: tuple[Any, ...], q_K_d_psf: float | None, basis: LoadBasis) -> Pressure:
    zone, under, up_psf, *factors = key
    outside, underside, inside, least = factors or (None, None, None, False)
    if basis is LoadBasis.DEAD:
        zone = "roof and ceiling" if zone else "roof alone"
    return Pressure(
        zone=zone or "",
        under=Under(under),
        q_K_d_psf=q_K_d_psf,
        outside_factor=outside,
        underside_factor=underside,
        inside_factor=inside,
        least=bool(least),
        up_psf=up_psf,
    )


def roof_parts_at(run: Run, shares: Shares, pressures: Pressures, node: int) -> Iterator[RoofPart]:
    """The roof that bears on one end, a line for each pressure and each way there, the largest first."""
    pieces = shares.piece_of.get(node)
    if pieces is None:
        return
    area_ft2, kind_of = run.pieces.area_ft2[pieces].tolist(), pressures.kind_of[pieces].tolist()
    share_of, tributary_of = shares.share_of[node].tolist(), run.pieces.tributary[pieces].tolist()
    groups: dict[tuple[int, bool, int], list[int]] = {}
    for k, share in enumerate(share_of):
        if share != 0.0:
            owner = shares.framing.tributaries[tributary_of[k]].owner
            groups.setdefault((owner, share > 0.0, kind_of[k]), []).append(k)
    lines = []
    for (owner, _, kind), rows in groups.items():
        area = [area_ft2[k] for k in rows]
        pressure = pressures.kinds[kind]
        lines.append(
            RoofPart(
                pressure=pressure,
                area_ft2=sum(area),
                levers=_levers(run, shares, node, owner, rows, area),
                lb=pressure.up_psf * sum(area_ft2[k] * share_of[k] for k in rows),
            )
        )
    yield from sorted(lines, key=lambda line: -abs(line.lb))


def _levers(run: Run, shares: Shares, node: int, owner: int, rows: list[int], area: list[float]) -> tuple[Lever, ...]:
    """The levers of a group of pieces, each at the middle of what it passes on."""
    members = run.framing.members
    share = shares.share_of[node][rows]
    if owner == shares.member_of.get(node):
        plain = shares.plain_of[node][rows].tolist()
        return (_lever(members[owner].name, shares.seats[owner], area, share.tolist(), plain),)
    pieces = shares.piece_of[node][rows]
    tributary = shares.framing.tributaries[run.pieces.tributary[pieces[0]]]
    if tributary.lever is None:
        return ()
    inside, gable_ft, inside_ft = tributary.lever.inside, tributary.lever.gable_ft, tributary.lever.inside_ft
    backspan = ((0.0, -1), (abs(inside_ft - gable_ft), -1))
    on = f"outlookers of {members[owner].name}"
    if inside != shares.member_of.get(node):
        return (replace(_lever(on, backspan, area, share.tolist(), share.tolist()), outlookers=True),)
    lifted = np.zeros(len(pieces))  # what the outlookers pass to the truss inside
    for _, n in shares.seats[inside]:
        lifted += shares.share_of[n][_same_pieces(shares, n, pieces)]
    passed_ft2, kept = np.multiply(area, lifted).tolist(), (share / lifted).tolist()
    return (
        replace(_lever(on, backspan, area, lifted.tolist(), lifted.tolist()), outlookers=True),
        _lever(members[inside].name, shares.seats[inside], passed_ft2, kept, kept),
    )


def _same_pieces(shares: Shares, node: int, pieces: Ints) -> Ints:
    place = {int(p): k for k, p in enumerate(shares.piece_of[node])}
    return np.array([place[int(p)] for p in pieces], dtype=np.int64)


def _lever(
    on: str, places: tuple[tuple[float, int], ...], weight: list[float], share: list[float], plain: list[float]
) -> Lever:
    middle, in_plan = (sum(map(mul, weight, each)) / sum(weight) for each in (share, plain))
    span_ft = places[-1][0]
    return Lever(
        on=on,
        outlookers=False,
        arm_ft=in_plan * span_ft,
        push_ft=(middle - in_plan) * span_ft,
        span_ft=span_ft,
        bearings_ft=bearings_ft(places),
    )


def bearings_ft(places: tuple[tuple[float, int], ...]) -> tuple[float, ...]:
    """The places of a member's bearings where it has more than two. [ft]"""
    return tuple(at for at, _ in places) if len(places) > 2 else ()
