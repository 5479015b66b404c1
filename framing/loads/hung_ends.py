"""Loads + load path -> HungEnds: what every end that hangs on a member hands to its carrier, for its hanger."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from framing.asce7.chapter2 import ASD_GRAVITY, ASD_UPLIFT
from framing.loads.cases import GravityLoad, LoadBasis, Loads
from framing.loads.load_path import Variant, build_hung_map, hung_ends
from framing.loads.pieces import Pieces
from framing.loads.rake_frames import framed_by, rake_frames
from framing.members import Framing
from framing.plan import Basis, Plan
from framing.tolerances import TIE_FT2
from framing.wind.patches import Floats, Patches


@dataclass(frozen=True, slots=True, kw_only=True)
class HungEnd:
    """One end on its carrier: both by name, the carrier's plies, and the largest reactions there, ASD. [lb]"""

    member: str
    end: int
    carrier: str
    carrier_plies: int
    down_lb: float
    uplift_lb: float


def build_hung_ends(
    plan: Plan, framing: Framing, patches: Patches, pieces: Pieces, loads: Loads
) -> tuple[HungEnd, ...]:
    """Every end that hangs on a member, in the members' order.

    A wind case counts as at the bearings: main frame by the plan's basis, cladding with the member's own area, both
    variants, rakes carried in every way that the plan leaves open; against it the least dead load that may be up there.

    Source: ASCE 7-22, sec. 2.4.1, combinations 7a (0.6 D + 0.6 W) and 3a (D + L_r).
    """
    ends = hung_ends(framing)
    if not ends:
        return ()
    area = np.array([loads.area_of_member_ft2[member] for member, _ in ends])
    force = np.column_stack([c.force_lb for c in loads.cases])
    down, uplift = np.zeros(len(ends)), np.zeros(len(ends))
    for rake in rake_frames(plan, framing):
        carried = framed_by(framing, rake)
        by_variant = {v: build_hung_map(plan, carried, patches, pieces, v).apply(force) for v in Variant}
        wind = np.full(len(ends), -np.inf)
        for by_case in by_variant.values():
            for j, case in enumerate(loads.cases):
                counts = _counts(plan, case.basis, case.area_ft2, area)
                wind = np.where(counts, np.maximum(wind, by_case[:, j]), wind)
        gravity = {c.gravity: by_variant[Variant.DECK][:, j] for j, c in enumerate(loads.cases) if c.gravity}
        down = np.maximum(down, -_pressing(gravity))
        uplift = np.maximum(uplift, ASD_UPLIFT.net_uplift(wind, _resisting(plan, gravity)))
    found = []
    for k, (i, end) in enumerate(ends):
        carrier = framing.members[framing.members[i].paths[end].carrier or 0]
        found.append(
            HungEnd(
                member=framing.members[i].name,
                end=end,
                carrier=carrier.name,
                carrier_plies=carrier.plies,
                down_lb=float(down[k]),
                uplift_lb=float(uplift[k]),
            )
        )
    return tuple(found)


def _pressing(gravity: dict[GravityLoad, Floats]) -> Floats:
    """Dead and roof live load, positive up. [lb]"""
    dead, live = gravity[GravityLoad.PRESSING], gravity[GravityLoad.ROOF_LIVE]
    out: Floats = ASD_GRAVITY.dead_factor * dead + ASD_GRAVITY.roof_live_factor * live
    return out


def _resisting(plan: Plan, gravity: dict[GravityLoad, Floats]) -> Floats:
    """The least weight that may be up there, positive down. [lb]"""
    finished, bare = -gravity[GravityLoad.FINISHED], -gravity[GravityLoad.BEFORE_COVERING]
    out: Floats = np.minimum(finished, bare) if plan.dead.without_covering else finished
    return out


def _counts(plan: Plan, basis: LoadBasis, case_ft2: float | None, area_ft2: Floats) -> np.ndarray:
    """At which ends a case of wind counts."""
    if basis is LoadBasis.MWFRS:
        return np.full(len(area_ft2), plan.wind.basis is not Basis.CLADDING)
    if basis is LoadBasis.CLADDING and case_ft2 is not None and plan.wind.basis is not Basis.MWFRS:
        return np.abs(area_ft2 - case_ft2) < TIE_FT2
    return np.zeros(len(area_ft2), dtype=bool)
