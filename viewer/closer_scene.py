"""A cutaway in the plan's feet: the wall's pieces, the nails, and the truss's own boxes cut off beside its bearing."""

from __future__ import annotations

import math

import numpy as np

from viewer.closer import Closer, Plan2
from viewer.closer_parts import Part, PartSet
from viewer.pieces import Floats, ItemKind
from viewer.scene import Scene
from viewer.straps import STRAP_THICKNESS_FT

HEEL_FT = 1.7
"""How much of the truss is drawn to either side of its bearing."""
Frame = tuple[PartSet, Plan2, Plan2, float, Floats]


def heel_boxes(scene: Scene, closer: Closer, member: str) -> Floats:
    """The truss's own boxes near its bearing, (n, 4, 3) as centre, u, v, w, its long bars cut off. [ft]"""
    items = [i for i, item in enumerate(scene.items) if item.kind is ItemKind.MEMBER and item.member == member]
    boxes = scene.boxes
    mine = np.isin(boxes.item, items)
    table = np.stack([p[mine] for p in (boxes.centre_ft, boxes.u_ft, boxes.v_ft, boxes.w_ft)], 1)
    way = np.array((-closer.normal[1], closer.normal[0]))
    middle = (table[:, 0, :2] - closer.at_ft[:2]) @ way
    reach = table[:, 1, :2] @ way
    with np.errstate(divide="ignore", invalid="ignore"):
        ends = np.sort(np.stack(((-HEEL_FT - middle) / reach, (HEEL_FT - middle) / reach), 1), axis=1)
    upright = np.abs(reach) < 1e-6
    ends[upright] = np.where(np.abs(middle[upright]) <= HEEL_FT, 1.0, 0.0)[:, None] * (-1.0, 1.0)
    low, high = np.clip(ends, -1.0, 1.0).T
    table[:, 0] += table[:, 1] * ((low + high) / 2)[:, None]
    table[:, 1] *= ((high - low) / 2)[:, None]
    return np.asarray(table[high - low > 1e-6])


def placed(closer: Closer, straps: Floats) -> tuple[Floats, tuple[Part, ...], tuple[tuple[str, Floats], ...]]:
    """A cutaway without truss and straps in the plan's feet: boxes (n, 4, 3), their parts, and what is named where.

    `straps` (k, 4, 3) are the mark's straps; nails are put on the one next to the eye.
    """
    rows, parts, names = [], [], []
    for pieces, x, y, high, start in _frames(closer, straps):
        x3, y3 = np.array((*x, 0.0)), np.array((*y, 0.0))
        axes = np.stack((x3, y3, np.array((0.0, 0.0, high))))
        flip = math.copysign(1.0, float(np.linalg.det(axes)))
        for piece in pieces.pieces:
            u, v, w = axes * np.array(piece.half)[:, None]
            rows.append((start + np.array(piece.middle) @ axes, u * flip, v, w))
            parts.append(piece.part)
        names += [(text, start + np.array(place) @ axes) for text, place in pieces.names]
    return np.array(rows).reshape(-1, 4, 3), tuple(parts), tuple(names)


def _frames(closer: Closer, straps: Floats) -> list[Frame]:
    """Each set with its x, its y, the length of its z, and its origin."""
    at = np.array(closer.at_ft)
    unit = np.array(closer.across) / math.hypot(*closer.across)
    cells_y = (float(unit[0]), float(unit[1])) if closer.along else closer.across
    shift = np.array((*(unit if closer.along else np.array(closer.near)), 0.0)) * closer.cells_ft
    frames = [
        (closer.behind, closer.far, closer.across, 1.0, at),
        (closer.before, closer.near, closer.across, 1.0, at),
        (closer.cells, closer.near, cells_y, 1.0, at + shift),
    ]
    if len(straps):
        normal = np.array((*closer.normal, 0.0))
        front = straps[int(np.argmax(straps[:, 0] @ normal)), 0]
        foot = np.array((*(front + normal * STRAP_THICKNESS_FT / 2)[:2], at[2]))
        frames.append((closer.nails, closer.normal, (float(unit[0]), float(unit[1])), closer.head_ft, foot))
    return frames
