"""A case on the long gable -> the lines that add up to a bearing's reaction: one for each slope and each overhang."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from framing.loads.cases import LoadCase
from framing.loads.load_path import Variant
from framing.quick.long_gable import LongGable
from framing.wind.patches import Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class RoofLine:
    """A slope or an overhang: lb = up_psf x area_ft2 x (arm_ft + push_ft) / span.

    `arm_ft` is in plan from the other bearing; `push_ft` is what the horizontal part adds to it, held at the bearing.
    """

    where: str
    zone: str
    q_K_d_psf: float
    outside_factor: float
    underside_factor: float
    inside_factor: float
    up_psf: float
    area_ft2: float
    arm_ft: float
    push_ft: float
    lb: float


def roof_lines(house: LongGable, case: LoadCase, bearing: int, span_ft: float) -> list[RoofLine]:
    """The lines of a wind case at one of the truss's bearings, its own slope first; none for another case."""
    wind = case.wind
    if wind is None:
        return []
    heel, deck = (_shares(house, variant, bearing) for variant in (Variant.HEEL, Variant.DECK))
    mine = np.flatnonzero(deck != 0.0)
    patch, area = house.pieces.patch[mine], house.pieces.area_ft2[mine]
    here = house.patches.side[patch] == house.patches.side[patch[deck[mine].argmax()]]
    inside = house.patches.in_walls[patch]
    groups = {
        "slope at this bearing": here & inside,
        "the other slope": ~here & inside,
        "overhang at this bearing": here & ~inside,
        "the other overhang": ~here & ~inside,
    }
    lines = []
    for where, group in groups.items():
        rows, weight = mine[group], area[group]
        if not len(rows):
            continue
        k = patch[group][weight.argmax()]  # not a sliver that rounding leaves at the ridge
        in_plan, held = (float(share[rows] @ weight / weight.sum()) for share in (deck, heel))
        lines.append(
            RoofLine(
                where=where,
                q_K_d_psf=wind.q_K_d_psf,
                zone=str(wind.zone[k]),
                outside_factor=float(wind.outside_factor[k]),
                underside_factor=float(wind.underside_factor[k]),
                inside_factor=float(wind.inside_factor[k]),
                up_psf=float(wind.up_psf[k]),
                area_ft2=float(weight.sum()),
                arm_ft=in_plan * span_ft,
                push_ft=(held - in_plan) * span_ft,
                lb=float(case.force_lb[rows] @ heel[rows]),
            )
        )
    return lines


def _shares(house: LongGable, variant: Variant, bearing: int) -> Floats:
    """The part of each piece's force that goes to a bearing. (n_pieces,)"""
    to = house.maps[variant]
    mine = to.bearing == bearing
    out = np.zeros(to.n_pieces)
    out[to.piece[mine]] = to.share[mine]
    return out
