"""The house of a published uplift table, run whole: plan, layout, wind, load path, reactions; and its truss in the end
zone.

A gable house 60 ft long whose walls are lines, so that the table's span and overhang are its own, with the table's mean
roof height and no rake overhang. The truss read is one whose whole strip lies in the end zone, not next to the gable.
Horizontal parts are held at the bearings (variant 'heel').
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from framing.asce7.edition import edition
from framing.layout.assembly import build_framing
from framing.loads.cases import GravityLoad, LoadBasis, build_loads
from framing.loads.load_path import Variant
from framing.loads.pieces import Pieces, build_pieces
from framing.loads.reactions import build_maps, build_reactions
from framing.members import Framing, MemberKind
from framing.plan import EditionName, Exposure, Plan, RakeFrame, RoofType
from framing.roof.surface import Roof, build_roof
from framing.walls.outline import Outline, build_outline
from framing.wind.edge_widths import EdgeWidths, edge_widths
from framing.wind.patches import Patches, build_patches
from invariants.houses import DEFAULT, changed_plan, plan_of

LENGTH_FT = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class EndZoneTruss:
    """What its worse bearing receives from the wind at strength level and from the dead load (positive down), and the
    greatest pressure on an overhang of its strip.
    """

    wind_lb: float
    dead_lb: float
    overhang_psf: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class House:
    """Everything before the wind."""

    plan: Plan
    outline: Outline
    roof: Roof
    framing: Framing
    widths: EdgeWidths
    patches: Patches
    pieces: Pieces


@cache
def house_of(*, span_ft: float, spacing_ft: float, mean_roof_height_ft: float, **changed: float) -> House:
    base = plan_of(
        [(0, 0), (LENGTH_FT, 0), (LENGTH_FT, span_ft), (0, span_ft)],
        type=RoofType.GABLE,
        rake_overhang_ft=0.0,
        rake_frame=RakeFrame.LADDER,
        spacing_ft=spacing_ft,
        edition=EditionName.ASCE_7_16,
        wall_thickness_ft=0.0,
        **changed,
    )
    outline = build_outline(base)
    lower_ft = edge_widths(base, outline, build_roof(base, outline)).h_ft - mean_roof_height_ft
    plan = replace(base, wall_height_ft=base.wall_height_ft - lower_ft)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    widths = edge_widths(plan, outline, roof)
    patches = build_patches(plan, outline, roof, framing.framed_ft, widths)
    return House(
        plan=plan,
        outline=outline,
        roof=roof,
        framing=framing,
        widths=widths,
        patches=patches,
        pieces=build_pieces(roof, framing, patches),
    )


def end_zone_truss(
    *, speed_mph: float, exposure: Exposure, overhang_underside_ratio: float, dead_psf: float, **measures: float
) -> EndZoneTruss:
    """`measures` are span_ft, spacing_ft, rise_per_run, overhang_ft and mean_roof_height_ft."""
    h = house_of(**measures)
    dead = replace(DEFAULT.dead, top_for_uplift_psf=dead_psf, bottom_for_uplift_psf=0.0)
    plan = changed_plan(h.plan, speed_mph=speed_mph, exposure=exposure, dead=dead)
    code = replace(edition(plan.wind.edition), overhang_underside_factor=overhang_underside_ratio)
    loads = build_loads(plan, code, h.outline, h.roof, h.framing, h.patches, h.pieces, h.widths)
    reactions = build_reactions(plan, h.framing, loads, build_maps(plan, h.framing, h.patches, h.pieces))
    truss = truss_of(h, measures["spacing_ft"])
    bearings = [i for i, b in enumerate(h.framing.bearings) if b.member == h.framing.members[truss].name]
    heel = [j for j, c in enumerate(reactions.cases) if c.basis is LoadBasis.MWFRS and c.variant is Variant.HEEL]
    (dead_case,) = [j for j, c in enumerate(reactions.cases) if c.gravity is GravityLoad.FINISHED and not c.lifted]
    eaves = np.unique(h.pieces.patch[(h.pieces.way.member == truss) & ~h.patches.in_walls[h.pieces.patch]])
    winds = [c.wind for c in loads.cases if c.basis is LoadBasis.MWFRS and c.wind is not None]
    return EndZoneTruss(
        wind_lb=float(reactions.by_case_lb[np.ix_(bearings, heel)].max()),
        dead_lb=-float(reactions.by_case_lb[bearings, dead_case].max()),
        overhang_psf=max(float(w.up_psf[eaves].max()) for w in winds) if len(eaves) else 0.0,
    )


def truss_of(house: House, spacing_ft: float) -> int:
    """The truss farthest in whose whole strip lies in the end zone."""
    at = {i: m.start_ft[0] for i, m in enumerate(house.framing.members) if m.kind is MemberKind.COMMON}
    inside = {i: x for i, x in at.items() if x + spacing_ft / 2.0 <= house.widths.end_zone_ft + 1e-9}
    truss = max(inside, key=lambda i: inside[i])
    assert len(inside) > 1, "the truss next to the gable carries outlookers as well"
    return truss
