"""Schedule + reactions -> what pulls on each stretch of tie beam, strap by strap, in every load pattern.

The first pattern is every mark at its own uplift, all at once; the others are the main frame's wind cases one by one,
where marks pull unevenly and some press.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from framing.anchors.schedule import AnchorSchedule, Mark
from framing.asce7.chapter2 import ASD_UPLIFT, combination
from framing.ground.beam_stretches import Stretch
from framing.loads.cases import GravityLoad, LoadBasis
from framing.loads.reactions import Floats, Reactions
from framing.plan import Plan
from framing.walls.outline import Outline

EVERY_MARK = "every mark at its uplift"
STRENGTH_UPLIFT = combination("LRFD 0.9D + 1.0W")


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pulls:
    """The straps on one stretch: `rows` are places in the schedule, `at_ft` stations of the straps.

    `asd_lb` and `strength_lb` (k, m) are the pulls of 0.6 W - 0.6 D and 1.0 W - 0.9 D in the patterns named in
    `patterns`, positive up.
    """

    rows: tuple[int, ...]
    at_ft: Floats
    asd_lb: Floats
    strength_lb: Floats
    patterns: tuple[str, ...]


def strap_pulls(
    plan: Plan, outline: Outline, schedule: AnchorSchedule, reactions: Reactions, stretches: tuple[Stretch, ...]
) -> tuple[Pulls, ...]:
    """The pulls on every stretch; a mark stands on the stretch of its own wall, but on the nearest of another where a
    porch beam leaves no beam of its own wall under it.

    Source: ASCE 7-22, sec. 2.4.1 and 2.3.1.
    """
    asd, strength, names = _patterns(plan, schedule, reactions)
    on: list[list[tuple[int, float]]] = [[] for _ in stretches]
    for i, mark in enumerate(schedule.marks):
        if stretches and not mark.bearing.on_support:
            k, station_ft = _stands_on(outline, stretches, mark)
            on[k].append((i, station_ft))
    out = []
    for found in on:
        rows = [i for i, _ in found]
        out.append(
            Pulls(
                rows=tuple(rows),
                at_ft=np.array([at for _, at in found], dtype=float),
                asd_lb=asd[rows],
                strength_lb=strength[rows],
                patterns=names,
            )
        )
    return tuple(out)


def _stands_on(outline: Outline, stretches: tuple[Stretch, ...], mark: Mark) -> tuple[int, float]:
    """The place of the stretch under a mark's strap, and the strap's station along that stretch's wall."""
    own = [k for k, s in enumerate(stretches) if s.name == mark.bearing.wall]
    for places in (own, range(len(stretches))):
        found = [(*_off_and_station(outline, stretches[k], mark), k) for k in places]
        off_ft, station_ft, k = min(found, key=lambda f: f[0], default=(math.inf, 0.0, 0))
        if off_ft <= outline.walls[stretches[k].wall].thickness_ft:
            break
    return k, station_ft


def _off_and_station(outline: Outline, stretch: Stretch, mark: Mark) -> tuple[float, float]:
    """How far a mark's strap stands from the middle line of a stretch, and its station along that wall. [ft]"""
    wall, (x, y) = outline.walls[stretch.wall], mark.bearing.strap_ft
    (x0, y0), (ux, uy) = wall.start_ft, wall.direction
    station = (x - x0) * ux + (y - y0) * uy
    nearest = wall.point_ft(min(max(station, stretch.from_ft), stretch.to_ft), wall.thickness_ft / 2.0)
    return math.dist((x, y), nearest), station


def _patterns(plan: Plan, schedule: AnchorSchedule, reactions: Reactions) -> tuple[Floats, Floats, tuple[str, ...]]:
    """Both levels of every pattern, (n_marks, m), and the patterns' names."""
    uplift = np.array([m.uplift_lb for m in schedule.marks])
    w, d = ASD_UPLIFT.wind_factor, ASD_UPLIFT.dead_factor
    dead = np.asarray(reactions.dead_for_uplift_lb)
    wind = (uplift + d * dead) / w  # the wind behind that uplift, also where an engineer's figure stands there
    strength = np.where(uplift > 0.0, STRENGTH_UPLIFT.net_uplift(wind, dead), 0.0)
    asd_columns, strength_columns, names = [uplift], [strength], [EVERY_MARK]
    left = GravityLoad.BEFORE_COVERING if plan.dead.without_covering else GravityLoad.FINISHED
    resisting = {c.lifted: -reactions.by_case_lb[:, j] for j, c in enumerate(reactions.cases) if c.gravity is left}
    for j, case in enumerate(reactions.cases):
        if case.basis is LoadBasis.MWFRS:
            here, dead = reactions.by_case_lb[:, j], resisting[case.lifted]
            asd_columns.append(ASD_UPLIFT.net_uplift(here, dead))
            strength_columns.append(STRENGTH_UPLIFT.net_uplift(here, dead))
            names.append(case.name)
    return np.column_stack(asd_columns), np.column_stack(strength_columns), tuple(names)
