"""The deck cut by the zones of the wind: closed sheets in the deck's own place, and where each is lettered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
import shapely.ops
from shapely.geometry import Polygon

from framing.deck.zones import DeckZone, Part
from framing.run import Run
from framing.tolerances import SPECK_FT2
from viewer.masonry import tie_beam_top_ft
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, prism, solids_from
from viewer.sheathing import DECK_FT, LIFT_FT
from viewer.stages import Stage

JOIN_FT = 1e-6
CLEAR_FT = 0.2
"""Drawn this much over the deck's own place, so that no edge of a truss shines through. For the eye only."""
LEAST_REACH_FT = 0.4
"""A piece that no circle of this radius fits into gets no letters: they would stand on its neighbours."""
SHORT = {Part.ROOMS: "", Part.OVERHANG: "overhang ", Part.PORCH: "porch "}


@dataclass(frozen=True, slots=True, kw_only=True)
class ZonePiece:
    """One piece of one plane of the roof in one zone: its shape in plan (m, 2) rings, outer first, and the height of
    the sheet's underside as a x + b y + c there. `node` is its item's name. [ft]
    """

    node: str
    zone: DeckZone
    shape: Polygon
    plane: tuple[float, float, float]

    def height_ft(self, points_ft: Floats) -> Floats:
        """The sheet's underside at points (n, 2). (n,) [ft]"""
        return np.asarray(points_ft @ self.plane[:2] + self.plane[2])


@lru_cache(maxsize=1)
def zone_pieces(run: Run) -> tuple[ZonePiece, ...]:
    """Every zone's pieces in the zones' order; together they cover the roof once."""
    patches, frame = run.patches, run.outline.frame
    turn = np.array(((frame.cos, frame.sin), (-frame.sin, frame.cos)))
    rise_ft = tie_beam_top_ft(run) + run.roof.heel_ft + LIFT_FT + CLEAR_FT
    out: list[ZonePiece] = []
    for zone in run.cover.deck.zones:
        mine = np.array(zone.patches)
        planes, of_plane = np.unique(patches.plane[mine].round(6), axis=0, return_inverse=True)
        for k, (a, b, c) in enumerate(planes.tolist()):
            whole = shapely.union_all(patches.polygon[mine[of_plane.ravel() == k]], grid_size=JOIN_FT)
            slope = np.array((a, b)) @ turn
            low = c + rise_ft - float(slope @ frame.origin_ft)
            for part in shapely.get_parts(whole):
                if part.geom_type != "Polygon" or part.area <= SPECK_FT2:
                    continue
                plan = shapely.transform(part.simplify(JOIN_FT), lambda p: p @ turn + frame.origin_ft)
                shape = shapely.geometry.polygon.orient(plan)
                node = f"deck {zone.name}, piece {len(out) + 1}"
                out.append(ZonePiece(node=node, zone=zone, shape=shape, plane=(*slope.tolist(), low)))
    return tuple(out)


def deck_by_zone(run: Run) -> Pieces:
    """An item and a closed sheet for every piece."""
    items: list[Item] = []
    meshes = []
    for piece in zone_pieces(run):
        rings = [np.array(r.coords[:-1]) for r in (piece.shape.exterior, *piece.shape.interiors)]
        low = piece.height_ft(np.concatenate(rings))
        meshes.append((len(items), prism(rings, low, low + DECK_FT)))
        items.append(Item(node=piece.node, kind=ItemKind.ZONE, stage=Stage.DECK))
    return Pieces(items=tuple(items), boxes=boxes_from((), ()), solids=solids_from(meshes))


def _place(piece: ZonePiece, reach_ft: float) -> tuple[float, float]:
    """Well inside a piece, by its middle; over open air halfway to a corner, clear of the strip's beside it."""
    aim = piece.shape.centroid
    if piece.zone.part is not Part.ROOMS:
        corner = piece.shape.exterior.coords[0]
        aim = shapely.Point((aim.x + corner[0]) / 2, (aim.y + corner[1]) / 2)
    x, y = shapely.ops.nearest_points(piece.shape.buffer(-0.8 * reach_ft), aim)[0].coords[0]
    return (float(x), float(y))


@dataclass(frozen=True, slots=True, kw_only=True)
class ZoneLetters:
    """What is lettered on a piece, where, and the plan direction in which its plane falls."""

    node: str
    text: str
    point_ft: tuple[float, float, float]
    outward: tuple[float, float]


def zone_letters(run: Run) -> Iterator[ZoneLetters]:
    """The letters of the pieces that have room for them, the roomiest first."""
    roomy = []
    for piece in zone_pieces(run):
        reach = shapely.maximum_inscribed_circle(piece.shape, tolerance=0.1).length
        if reach >= LEAST_REACH_FT:
            roomy.append((reach, piece, _place(piece, reach)))
    for _, piece, (x, y) in sorted(roomy, key=lambda r: -round(r[0], 3)):
        z = float(piece.height_ft(np.array(((x, y),)))[0]) + DECK_FT
        fall = -np.array(piece.plane[:2])
        east, north = (fall / max(float(np.hypot(*fall)), 1e-9)).tolist()
        zone = piece.zone
        text = f"{SHORT[zone.part]}{zone.number}: {zone.suction_psf:.0f} psf"
        yield ZoneLetters(node=piece.node, text=text, point_ft=(x, y, z), outward=(east, north))
