"""The pieces of a scene: items that people can point at, closed boxes and closed solids."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

import mapbox_earcut
import numpy as np
from numpy.typing import NDArray

from viewer.stages import Stage

Floats = NDArray[np.float64]
Ints = NDArray[np.int32]

BOX_QUADS = np.array(((0, 1, 3, 2), (4, 6, 7, 5), (0, 4, 5, 1), (2, 3, 7, 6), (0, 2, 6, 4), (1, 5, 7, 3)))
"""Faces of a box by its corners as `Boxes.corners_ft` lists them, counter-clockwise from outside."""
BOX_QUADS.setflags(write=False)


class ItemKind(StrEnum):
    """What an item is."""

    GROUND = "ground"
    FLOOR = "floor"
    WALL = "wall"
    SUPPORT = "support"
    TIE_BEAM = "tie beam"
    ANCHOR = "anchor"
    TAG = "tag"
    CROSS = "cross"
    MEMBER = "member"
    DECK = "deck"
    ZONE = "deck by zone"
    COVERING = "covering"
    OPENING = "opening"
    CLOSING = "closing"
    SOFFIT = "soffit"
    FASCIA = "fascia"
    NORTH = "north arrow"


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing in the scene. `node` is its name in the model file, unique in a scene.

    `mark` is set on anchors, tags and crosses, `member` on those and on members, '' elsewhere.
    """

    node: str
    kind: ItemKind
    stage: Stage
    mark: str = ""
    member: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Boxes:
    """Closed boxes (n): centre, three right-handed half-edge vectors, and the index of each one's item [ft]."""

    centre_ft: Floats
    u_ft: Floats
    v_ft: Floats
    w_ft: Floats
    item: Ints

    def corners_ft(self) -> Floats:
        """The corners (n, 8, 3), the sign of w changing fastest, then v, then u [ft]."""
        signs = np.array([(i, j, k) for i in (-1, 1) for j in (-1, 1) for k in (-1, 1)], float)
        edges = np.stack((self.u_ft, self.v_ft, self.w_ft), axis=1)
        corners: Floats = self.centre_ft[:, None, :] + signs @ edges
        return corners


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solids:
    """Closed triangle meshes: points (m, 3), triangles (k, 3) counter-clockwise from outside, items (k,) [ft]."""

    points_ft: Floats
    triangles: Ints
    item: Ints


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pieces:
    """Some items with their boxes and solids; indices count within `items`."""

    items: tuple[Item, ...]
    boxes: Boxes
    solids: Solids


def boxes_from(rows: Sequence[Sequence[Sequence[float]]] | Floats, item: Sequence[int] | Ints) -> Boxes:
    """Boxes from rows (n, 4, 3) of centre, u, v, w, read-only."""
    table = np.asarray(rows, float).reshape(-1, 4, 3)
    owner = np.asarray(item, np.int32)
    for array in (table, owner):
        array.setflags(write=False)
    return Boxes(centre_ft=table[:, 0], u_ft=table[:, 1], v_ft=table[:, 2], w_ft=table[:, 3], item=owner)


def prism(rings_ft: Sequence[Floats], low_ft: Floats | float, high_ft: Floats | float) -> tuple[Floats, Ints]:
    """A closed upright prism over a plan polygon, as points (2n, 3) and triangles.

    Parameters
    ----------
    rings_ft : sequence of (n_i, 2) float
        The outer ring counter-clockwise from above, then holes clockwise; first point not repeated. [ft]
    low_ft, high_ft : float or (n,) float
        Heights of its two ends at each point, rings one after the other. [ft]

    Returns
    -------
    (2n, 3) float, (k, 3) int32
        The points, low ones first, and triangles counter-clockwise seen from outside.
    """
    plan = np.concatenate(rings_ft)
    n = len(plan)
    ends = np.cumsum([len(r) for r in rings_ft]).astype(np.uint32)
    caps = mapbox_earcut.triangulate_float64(plan, ends).reshape(-1, 3).astype(np.int32)
    a, b, c = plan[caps[:, 0]], plan[caps[:, 1]], plan[caps[:, 2]]
    turns = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    caps[turns < 0] = caps[turns < 0, ::-1]
    here = np.arange(n, dtype=np.int32)
    after = here + 1
    after[ends - 1] = np.concatenate(([0], ends[:-1]))
    sides = np.concatenate((np.stack((here, after, after + n), axis=1), np.stack((here, after + n, here + n), axis=1)))
    points = np.concatenate(
        (np.column_stack((plan, np.broadcast_to(low_ft, n))), np.column_stack((plan, np.broadcast_to(high_ft, n))))
    )
    return points, np.concatenate((caps[:, ::-1], caps + n, sides)).astype(np.int32)


def solids_from(meshes: Iterable[tuple[int, tuple[Floats, Ints]]]) -> Solids:
    """Solids from (item, (points, triangles)) pairs, read-only."""
    listed = list(meshes)
    start = np.cumsum([0] + [len(points) for _, (points, _) in listed])
    points = np.concatenate([np.zeros((0, 3))] + [p for _, (p, _) in listed])
    faces = [t + s for (_, (_, t)), s in zip(listed, start[:-1], strict=True)]
    triangles = np.concatenate([np.zeros((0, 3), np.int32), *faces]).astype(np.int32)
    item = np.repeat([i for i, _ in listed], [len(t) for _, (_, t) in listed]).astype(np.int32)
    for array in (points, triangles, item):
        array.setflags(write=False)
    return Solids(points_ft=points, triangles=triangles, item=item)


def join(parts: Sequence[Pieces]) -> Pieces:
    """All the pieces as one, the indices of items and points moved on."""
    first = np.cumsum([0] + [len(p.items) for p in parts])[:-1]
    point = np.cumsum([0] + [len(p.solids.points_ft) for p in parts])[:-1]
    rows = [np.stack((p.boxes.centre_ft, p.boxes.u_ft, p.boxes.v_ft, p.boxes.w_ft), axis=1) for p in parts]
    points = np.concatenate([p.solids.points_ft for p in parts])
    triangles = np.concatenate([p.solids.triangles + k for p, k in zip(parts, point, strict=True)]).astype(np.int32)
    item = np.concatenate([p.solids.item + k for p, k in zip(parts, first, strict=True)]).astype(np.int32)
    for array in (points, triangles, item):
        array.setflags(write=False)
    return Pieces(
        items=tuple(i for p in parts for i in p.items),
        boxes=boxes_from(
            np.concatenate(rows), np.concatenate([p.boxes.item + k for p, k in zip(parts, first, strict=True)])
        ),
        solids=Solids(points_ft=points, triangles=triangles, item=item),
    )


def house_points_ft(items: Sequence[Item], boxes: Boxes, solids: Solids) -> Floats:
    """Every corner of every piece but the ground and what lies on it: (n, 3) [ft]."""
    ground = [i for i, item in enumerate(items) if item.kind in (ItemKind.GROUND, ItemKind.NORTH)]
    used = np.unique(solids.triangles[~np.isin(solids.item, ground)])
    boxed = boxes.corners_ft()[~np.isin(boxes.item, ground)].reshape(-1, 3)
    return np.concatenate((boxed, solids.points_ft[used]))
