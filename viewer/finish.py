"""What closes the house: gables and the band over the beam, soffit and fascia on the overhangs, wall under a step."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely
from shapely.geometry import Polygon

from framing.roof.lines import LineKind, RoofLine
from framing.roof.surface import Face
from framing.run import Run
from framing.tolerances import PROBE_FT, SLIVER_FT2
from viewer.masonry import ring_ft, tie_beam_top_ft
from viewer.pieces import Floats, Item, ItemKind, Pieces, boxes_from, prism, solids_from
from viewer.sheathing import ROOF_FT
from viewer.stages import Stage

PANEL_FT = 0.2
"""Thickness drawn for what closes the house. For the eye only."""
FASCIA_DEPTH_FT = 5.5 / 12
"""From the top of the truss tail down, a 2x6. Source: common practice (dressed size), no source."""
FASCIA_FT = 1.5 / 12
SOFFIT_FT = 0.04
SEEN_FT = 0.25
"""A band of the wall that stands less than this out of the soffit is out of sight and not drawn."""
Row = tuple[tuple[float, ...], ...]


def finish(run: Run) -> Pieces:
    """`closing W1` ... from the beam up to the roof along a wall where that can be seen, `soffit 1` ... under a face's
    overhang, `fascia` along eaves and rakes, `step` where a gable stands over a lower roof.
    """
    items: list[Item] = []
    meshes = []
    plans = shapely.STRtree([_plan(face) for face in run.roof.faces])
    for i, wall in enumerate(run.outline.walls):
        corners = [wall.point_ft(at, inset) for inset in (0.0, PANEL_FT) for at in (0.0, wall.length_ft)]
        strip = Polygon([corners[k] for k in (0, 1, 3, 2)])
        mine = list(_under(run, strip, plans))
        meshes += [(len(items), mesh) for mesh in mine]
        items += [_item(f"closing {run.outline.walls[i].name}", ItemKind.CLOSING)] if mine else []
    house = Polygon(run.outline.corners_ft)
    for n, face in enumerate(run.roof.faces, start=1):
        mine = list(_soffit(face, house, tie_beam_top_ft(run)))
        meshes += [(len(items), mesh) for mesh in mine]
        items += [_item(f"soffit {n}", ItemKind.SOFFIT)] if mine else []
    eaves = _outline(run)
    rows = [_fascia(line, eaves, tie_beam_top_ft(run)) for line in run.roof.lines if line.kind in _EDGES]
    owners = [len(items)] * len(rows)
    items.append(_item("fascia", ItemKind.FASCIA))
    steps = [row for line in run.roof.lines if line.kind is LineKind.STEP for row in _step(run, line)]
    rows += steps
    owners += [len(items)] * len(steps)
    items += [_item("step", ItemKind.CLOSING)] if steps else []
    return Pieces(items=tuple(items), boxes=boxes_from(rows, owners), solids=solids_from(meshes))


_EDGES = (LineKind.EAVE, LineKind.RAKE)


def _item(node: str, kind: ItemKind) -> Item:
    return Item(node=node, kind=kind, stage=Stage.FINISHED)


def _plan(face: Face) -> Polygon:
    return Polygon([p[:2] for p in face.ring_ft], [[p[:2] for p in hole] for hole in face.holes_ft])


def _heights_ft(face: Face, points: Floats) -> Floats:
    """The height of a face's plane over plan points (n, 2), from the top of the tie beam [ft]."""
    ring = np.asarray(face.ring_ft, float)
    plane, *_ = np.linalg.lstsq(np.column_stack((ring[:, :2], np.ones(len(ring)))), ring[:, 2], rcond=None)
    return np.asarray(points @ plane[:2] + plane[2])


def _parts(shape: object) -> list[Polygon]:
    return [p for p in shapely.get_parts(shape) if isinstance(p, Polygon) and p.area > SLIVER_FT2]


def _under(run: Run, ground: Polygon, plans: shapely.STRtree) -> Iterator[tuple[Floats, np.ndarray]]:
    """Upright solids from the top of the beam to the roof over a strip of ground, by the faces' plans."""
    top = tie_beam_top_ft(run)
    for k in sorted(plans.query(ground, predicate="intersects").tolist()):
        for part in _parts(plans.geometries[k].intersection(ground)):
            ring = ring_ft(part)
            high = _heights_ft(run.roof.faces[k], ring)
            if high.max() > FASCIA_DEPTH_FT + SEEN_FT and high.min() > PROBE_FT:
                yield prism([ring], top, top + high)


def _soffit(face: Face, house: Polygon, top_ft: float) -> Iterator[tuple[Floats, np.ndarray]]:
    """The underside of a face's overhang, along its slope at the foot of the fascia."""
    for part in _parts(_plan(face).difference(house)):
        rings = [ring_ft(part), *(np.array(hole.coords[:-1])[::-1] for hole in part.interiors)]
        low = np.concatenate([_heights_ft(face, ring) for ring in rings]) + top_ft - FASCIA_DEPTH_FT
        yield prism(rings, low, low + SOFFIT_FT)


def _outline(run: Run) -> Polygon:
    return Polygon(run.roof.eave_ft, run.roof.eave_holes_ft)


def _fascia(line: RoofLine, roof: Polygon, top_ft: float) -> Row:
    """A board along an edge of the roof, outside of the deck's and the covering's edge."""
    a, b = np.array(line.start_ft), np.array(line.end_ft)
    half, middle = (b - a) / 2, (a + b) / 2
    flat = float(np.hypot(*half[:2]))
    out = np.array((half[1], -half[0])) / flat
    if roof.contains(shapely.Point(middle[:2] + out * PROBE_FT)):
        out = -out
    if line.kind is LineKind.EAVE:
        half = half * (1 + FASCIA_FT / flat)  # on round the corner
    middle[:2] += out * FASCIA_FT / 2
    upright = (FASCIA_DEPTH_FT + ROOF_FT) / 2
    across = np.array((-half[1], half[0])) / np.hypot(*half[:2]) * FASCIA_FT / 2
    return (
        (middle[0], middle[1], top_ft + middle[2] + ROOF_FT - upright),
        (half[0], half[1], half[2]),
        (across[0], across[1], 0.0),
        (0.0, 0.0, upright),
    )


def _step(run: Run, line: RoofLine) -> Iterator[Row]:
    """The wall between a roof's edge and the lower roof that it stands over."""
    top = tie_beam_top_ft(run)
    a, b = np.array(line.start_ft), np.array(line.end_ft)
    half, middle = (b - a) / 2, (a + b) / 2
    across = np.array((-half[1], half[0])) / max(float(np.hypot(*half[:2])), PROBE_FT)
    sides = [middle[:2] + across * sign * PROBE_FT for sign in (-1.0, 1.0)]
    found = [
        float(_heights_ft(face, side[None])[0])
        for side in sides
        for face in run.roof.faces
        if _plan(face).covers(shapely.Point(side))
    ]
    if found and middle[2] - min(found) > PROBE_FT:
        up = (middle[2] - min(found)) / 2
        thick = across * PANEL_FT / 2
        yield ((*middle[:2], top + min(found) + up), tuple(half), (*thick, 0.0), (0.0, 0.0, up))
