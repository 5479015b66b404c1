"""QuickInputs -> a long gable house: layout, patches, pieces and load path, as `build` makes them for any plan.

Its walls are lines, so that span and overhang are those asked for, and its rakes have no overhang. The truss looked at
stands a quarter of the length in, on one side of mid-length, where its strip is a whole spacing wide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from framing.layout.assembly import build_framing
from framing.loads.load_path import LinearMap, Variant, build_map
from framing.loads.pieces import Pieces, build_pieces
from framing.members import MemberKind
from framing.plan import Plan
from framing.plan_file import plan_from_text
from framing.quick.inputs import QuickInputs
from framing.roof.surface import Roof, build_roof
from framing.walls.outline import Outline, build_outline
from framing.wind.edge_widths import EdgeWidths, edge_widths
from framing.wind.patches import Patches, build_patches

_ANY_HOUSE = """
[walls]
outline = [[0, 0], [40, 0], [40, 20], [0, 20]]
[roof]
type = "gable"
pitch = "4:12"
rake_overhang = 0
[wind]
speed = 140
exposure = "B"
"""
_LEAST_BAYS = 12


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LongGable:
    """The house and its one truss, `member`; `bearings` are its two, `maps` both variants of the load path."""

    plan: Plan
    outline: Outline
    roof: Roof
    patches: Patches
    pieces: Pieces
    widths: EdgeWidths
    maps: dict[Variant, LinearMap]
    member: int
    bearings: tuple[int, int]


def long_gable(inputs: QuickInputs) -> LongGable:
    """The house of one common truss; its widths hold `mean_roof_height_ft`, no end zone, and zone 2 up to the ridge."""
    plan = _plan(inputs)
    outline = build_outline(plan)
    roof = build_roof(plan, outline)
    framing = build_framing(plan, outline, roof)
    half_ft = inputs.span_ft / 2.0
    widths = replace(
        edge_widths(plan, outline, roof),
        a_ft=0.0,
        h_ft=inputs.mean_roof_height_ft,
        zone_2_ft=((half_ft, half_ft),) * len(roof.wings),
    )
    patches = build_patches(plan, outline, roof, framing.framed_ft, widths)
    pieces = build_pieces(roof, framing, patches)
    quarter_ft = _n_bays(inputs) // 4 * inputs.spacing_ft
    commons = [i for i, m in enumerate(framing.members) if m.kind is MemberKind.COMMON]
    member = min(commons, key=lambda i: abs(framing.members[i].start_ft[0] - quarter_ft))
    bearings = [path.bearing for path in framing.members[member].paths if path.bearing is not None]
    return LongGable(
        plan=plan,
        outline=outline,
        roof=roof,
        patches=patches,
        pieces=pieces,
        widths=widths,
        maps={v: build_map(plan, framing, patches, pieces, v) for v in Variant},
        member=member,
        bearings=(bearings[0], bearings[1]),
    )


def _n_bays(inputs: QuickInputs) -> int:
    """Enough that the ridge runs along the house."""
    return max(_LEAST_BAYS, math.ceil(inputs.span_ft / inputs.spacing_ft) + 1)


def _plan(inputs: QuickInputs) -> Plan:
    house = plan_from_text(_ANY_HOUSE, "quick")
    length_ft, span_ft = _n_bays(inputs) * inputs.spacing_ft, inputs.span_ft
    return replace(
        house,
        outline_ft=((0.0, 0.0), (length_ft, 0.0), (length_ft, span_ft), (0.0, span_ft)),
        wall_thickness_ft=0.0,
        roof=replace(house.roof, rise_per_run=inputs.rise_per_run, overhang_ft=inputs.overhang_ft),
        trusses=replace(house.trusses, spacing_ft=inputs.spacing_ft),
        dead=replace(house.dead, top_for_uplift_psf=inputs.dead_psf, bottom_for_uplift_psf=0.0),
        wind=replace(
            house.wind,
            speed_mph=inputs.speed_mph,
            exposure=inputs.exposure,
            enclosure=inputs.enclosure,
            edition=inputs.edition,
        ),
    )
