"""Uplift under another reading of the wind, by the linear map: of every bearing, or for what reaches one alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry import Polygon

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.asce7.edition import Edition
from framing.loads.cases import GravityLoad, LoadBasis, LoadCase, Loads, main_frame_cases
from framing.loads.load_path import LinearMap, build_map
from framing.loads.load_points import Ways, load_points
from framing.loads.pieces import Ints, Pieces
from framing.loads.rake_frames import framed_by
from framing.loads.reactions import Reactions, Stand, Way
from framing.members import Framing
from framing.plan import Basis, Enclosure, MwfrsProcedure, Plan
from framing.roof.surface import Roof
from framing.tolerances import TIE_FT2
from framing.walls.outline import Outline
from framing.wind.edge_widths import edge_widths
from framing.wind.patches import Bools, Floats, Patches

Maps = Mapping[Way, LinearMap]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class House:
    """A house worked out as its plan reads, and by which maps."""

    plan: Plan
    code: Edition
    outline: Outline
    roof: Roof
    framing: Framing
    patches: Patches
    pieces: Pieces
    loads: Loads
    reactions: Reactions
    maps: Maps


def uplift_if_lb(house: House, enclosure: Enclosure) -> Floats:
    """ASD net uplift if the building were open in another way, by the plan's basis. (n_bearings,) [lb]

    Source: ASCE 7-22, table 26.13-1 (solid).
    """
    row = {m.name: i for i, m in enumerate(house.framing.members)}
    own_ft2 = house.loads.area_of_member_ft2[[row[b.member] for b in house.framing.bearings]]
    columns, counted = [], []
    for case in house.loads.cases:
        if case.wind is None:
            continue
        counts = _counts(house.plan, case, own_ft2)
        if not counts.any():
            continue
        inside = house.code.GC_pi(enclosure)
        for ratio in inside if case.basis is LoadBasis.MWFRS else (max(inside),):
            wind = replace(case.wind, inside_factor=np.where(house.patches.enclosed, ratio, 0.0))
            columns.append(wind.up_psf[house.pieces.patch] * house.pieces.area_ft2)
            counted.append(counts)
    force_lb, of_these = np.column_stack(columns), np.column_stack(counted)
    wind_lb = {
        way: np.where(of_these, to.apply(force_lb)[: len(own_ft2)], -np.inf).max(axis=1)
        for way, to in house.maps.items()
    }
    return _net_lb(house, slice(None), wind_lb)


def main_frame_uplift_lb(house: House, bearing: int) -> float:
    """ASD net uplift at a bearing by the plan's main-frame procedure alone. [lb]"""
    reactions = house.reactions
    wind_lb = {
        way: max(
            reactions.by_case_lb[bearing : bearing + 1, j]
            for j, c in enumerate(reactions.cases)
            if c.basis is LoadBasis.MWFRS and (c.variant, c.lifted, c.rake) == (way.variant, *_of(way.stand))
        )
        for way in house.maps
    }
    return float(_net_lb(house, slice(bearing, bearing + 1), wind_lb)[0])


def directional_uplift_lb(house: House, bearing: int) -> float:
    """ASD net uplift at a bearing by the directional procedure's main frame alone. [lb]

    What reaches the bearing is cut along that procedure's strips and carried as before.
    """
    plan = house.plan
    other = replace(plan, wind=replace(plan.wind, mwfrs_procedure=MwfrsProcedure.DIRECTIONAL))
    widths = edge_widths(other, house.outline, house.roof)
    strips, parts = _cut(house, widths.strips_ft, _reaching(house.maps, bearing))
    cases = main_frame_cases(other, house.code, house.outline, house.roof, strips, parts, widths)
    force_lb = np.column_stack([c.force_lb for c in cases])
    wind_lb = {}
    for way in house.maps:
        framed = framed_by(house.framing, way.stand.rake)
        to = build_map(plan, framed, strips, parts, way.variant, lifted=way.stand.lifted)
        wind_lb[way] = to.apply(force_lb)[bearing].max(keepdims=True)
    return float(_net_lb(house, slice(bearing, bearing + 1), wind_lb)[0])


def _counts(plan: Plan, case: LoadCase, own_ft2: Floats) -> Bools:
    """Whether a wind case sizes bearings by the plan's basis; of cladding only their members' own areas do."""
    if case.basis is LoadBasis.MWFRS:
        return np.full(len(own_ft2), plan.wind.basis is not Basis.CLADDING)
    if plan.wind.basis is Basis.MWFRS or case.area_ft2 is None:
        return np.zeros(len(own_ft2), dtype=bool)
    near: Bools = np.abs(case.area_ft2 - own_ft2) < TIE_FT2
    return near


def _row(to: LinearMap, bearing: int) -> Floats:
    """The part of each piece's force that goes to a bearing. (n_pieces,)"""
    out, mine = np.zeros(to.n_pieces), to.bearing == bearing
    np.add.at(out, to.piece[mine], to.share[mine])
    return out


def _reaching(maps: Maps, bearing: int) -> Ints:
    """The pieces that reach a bearing in any way."""
    found: Ints = np.flatnonzero(np.sum([_row(to, bearing) != 0.0 for to in maps.values()], axis=0))
    return found


def _of(stand: Stand) -> tuple[object, object]:
    return stand.lifted, stand.rake


def _net_lb(house: House, bearings: slice, wind_lb: Mapping[Way, Floats]) -> Floats:
    """The wind less the dead load of the same way of standing, the worst of all, at some bearings. [lb]"""
    plan, reactions = house.plan, house.reactions
    counted = (
        (GravityLoad.FINISHED, GravityLoad.BEFORE_COVERING) if plan.dead.without_covering else (GravityLoad.FINISHED,)
    )
    dead_lb: dict[tuple[object, object], Floats] = {}
    for j, c in enumerate(reactions.cases):
        if c.gravity in counted:
            weight, at = -reactions.by_case_lb[bearings, j], (c.lifted, c.rake)
            dead_lb[at] = np.minimum(weight, dead_lb.get(at, weight))
    net_lb = [ASD_UPLIFT.net_uplift(lb, dead_lb[_of(way.stand)]) for way, lb in wind_lb.items()]
    worst: Floats = np.maximum(0.0, np.max(net_lb, axis=0))
    return worst


def _cut(house: House, strips_ft: tuple[float, ...], which: Ints) -> tuple[Patches, Pieces]:
    """Pieces `which` cut along the strips of the wings that claim them, each part a patch and a piece of its own."""
    pieces = house.pieces
    of_piece, shapes = [], []
    for i in which.tolist():
        for part in _between(pieces.polygon[i], *_strip_lines(house, strips_ft, pieces.patch[i])):
            of_piece.append(i)
            shapes.append(part)
    rows, cut = np.array(of_piece, dtype=np.int64), np.array(shapes, dtype=object)
    centre = shapely.get_coordinates(shapely.centroid(cut))
    way = Ways(
        member=pieces.way.member[rows],
        start_ft=pieces.way.start_ft[rows],
        unit=pieces.way.unit[rows],
        measure=pieces.way.measure[rows],
    )
    parts = Pieces(
        patch=np.arange(len(rows)),
        tributary=pieces.tributary[rows],
        polygon=cut,
        area_ft2=shapely.area(cut),
        centre_ft=centre,
        on_valley=pieces.on_valley[rows],
        way=way,
        points=load_points(house.framing, way, cut, centre),
    )
    return house.patches.parts(pieces.patch[rows], cut, centre), parts


def _strip_lines(house: House, strips_ft: tuple[float, ...], patch: int) -> tuple[list[float], list[float]]:
    """Where the strips of a patch's wings begin and end, along x and along y."""
    wings = [house.roof.wings[k] for k in np.flatnonzero(house.patches.claims[patch])]
    ends = [[(w.low_ft[axis], w.high_ft[axis]) for w in wings] for axis in (0, 1)]
    xs, ys = (sorted({at for a, b in of for s in strips_ft for at in (a + s, b - s)}) for of in ends)
    return xs, ys


def _between(shape: Polygon, xs: list[float], ys: list[float]) -> list[Polygon]:
    """The parts of a polygon between lines across x and across y."""
    x0, y0, x1, y1 = shape.bounds
    across = [x0, *(x for x in xs if x0 < x < x1), x1], [y0, *(y for y in ys if y0 < y < y1), y1]
    if len(across[0]) == len(across[1]) == 2:
        return [shape]
    boxes = [(a, c, b, d) for a, b in pairwise(across[0]) for c, d in pairwise(across[1])]
    parts = [p for box in boxes for p in shapely.get_parts(shapely.intersection(shape, shapely.box(*box)))]
    return [p for p in parts if isinstance(p, Polygon) and p.area > TIE_FT2]
