"""Scene -> the numbers of the client's page: quantised, base64, small enough to send to a phone."""

from __future__ import annotations

import base64
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from viewer.colours import ColourKey
from viewer.pieces import ItemKind, house_points_ft
from viewer.scene import Scene
from viewer.stages import STAGES, Stage, StageText

N_STEPS = 32000
"""Steps from the middle of the model to its farthest side; a signed 16-bit number holds 32,767."""
CREASE_COS = 0.98
"""Two faces that turn by less than about 11 degrees have no edge drawn between them."""
Floats = NDArray[np.float64]
Ints = NDArray[np.integer]


def model_data(scene: Scene) -> dict[str, Any]:
    """The scene as plain values for JSON.

    Parameters
    ----------
    scene : Scene
        Whatever is to be walked through.

    Returns
    -------
    dict
        `step_ft`, `middle_ft`: a length is a whole number of steps, a place the same from the middle; `layers`:
        the boxes or the mesh of one stage, with the item of each box or corner; `items`, `bearings`, `labels` and
        `colourings` in the scene's order. Arrays are little-endian 16-bit (colours 8-bit) in base64.
    """
    house = house_points_ft(scene.items, scene.boxes, scene.solids)
    middle, step_ft = _grid(scene)
    members = sorted({item.member for item in scene.items if item.kind is ItemKind.MEMBER})
    number = {name: i for i, name in enumerate(members)}
    bearing = {b.mark: i for i, b in enumerate(scene.bearings)}
    return {
        "step_ft": step_ft,
        "middle_ft": _rounded(middle),
        "low_ft": _rounded(house.min(axis=0)),
        "high_ft": _rounded(house.max(axis=0)),
        "w1_turn": round(float(np.arctan2(scene.w1_direction[1], scene.w1_direction[0])), 6),
        "anchors_stage": int(Stage.ANCHORS),
        "trusses_stage": int(Stage.TRUSSES),
        "first_stage": int(Stage.FINISHED),
        "deck_stage": int(Stage.DECK),
        "deck_colouring": [c.key for c in scene.colourings].index(ColourKey.DECK),
        "stages": [{"title": s.title, "sentence": s.sentence} for s in STAGES],
        "layers": _layers(scene, middle, step_ft),
        "members": members,
        "items": {
            "bearing": packed([bearing.get(item.mark, -1) for item in scene.items], "<i2"),
            "member": packed([number[i.member] if i.kind is ItemKind.MEMBER else -1 for i in scene.items], "<i2"),
        },
        "bearings": _bearings(scene, middle, step_ft),
        "labels": _labels(scene, bearing),
        "colourings": [packed(c.rgb, "u1") for c in scene.colourings],
    }


def second_roof_data(scene: Scene, other: Scene) -> dict[str, Any]:
    """What another roof on the same house has of its own, in the first one's steps: its straps' layers, its colours.

    Parameters
    ----------
    scene, other : Scene
        Of one house; they differ in what stands at each mark. A colouring that is the same in both is ''.
    """
    straps = _layers(other, *_grid(scene), (STAGES[Stage.ANCHORS],))
    pairs = zip(scene.colourings, other.colourings, strict=True)
    colours = ["" if np.array_equal(a.rgb, b.rgb) else packed(b.rgb, "u1") for a, b in pairs]
    return {"layers": straps, "colourings": colours}


def _grid(scene: Scene) -> tuple[Floats, float]:
    """The middle of a scene [ft], and the step in which its places are counted from there [ft]."""
    everything = scene.points_ft()
    middle = (everything.min(axis=0) + everything.max(axis=0)) / 2
    return middle, float(np.abs(everything - middle).max() / N_STEPS)


def _layers(scene: Scene, middle: Floats, step_ft: float, stages: Sequence[StageText] = STAGES) -> list[dict[str, Any]]:
    """The boxes, then the mesh, of each stage that has any, from the walls up; the deck whole, then cut by zones."""
    stage_of = np.array([item.stage for item in scene.items])
    is_zone = np.array([item.kind is ItemKind.ZONE for item in scene.items])
    boxes, solids = scene.boxes, scene.solids
    layers: list[dict[str, Any]] = []
    for text in stages:
        glass = STAGES[min(text.stage, Stage.COVERING)].opacity_ratio
        common = {"stage": int(text.stage), "opacity": glass}
        mine = stage_of[boxes.item] == text.stage
        if mine.any():
            places = (boxes.centre_ft - middle, boxes.u_ft, boxes.v_ft, boxes.w_ft)
            vectors = [packed(_steps(part[mine], step_ft), "<i2") for part in places]
            layers.append({**common, "boxes": vectors, "items": packed(boxes.item[mine], "<u2")})
        for zoned in (False, True):
            mine = (stage_of[solids.item] == text.stage) & (is_zone[solids.item] == zoned)
            if zoned:
                mine &= upward(solids.points_ft, solids.triangles)
            if not mine.any():
                continue
            used, inverse = np.unique(solids.triangles[mine], return_inverse=True)
            triangles = inverse.reshape(-1, 3)
            owner = np.zeros(len(used), np.int32)
            owner[triangles] = solids.item[mine][:, None]
            mesh = {
                "places": packed(_steps(solids.points_ft[used] - middle, step_ft), "<i2"),
                "triangles": packed(triangles, "<u2"),
                "edges": packed(rims(triangles) if zoned else creases(solids.points_ft[used], triangles), "<u2"),
                "items": packed(owner, "<u2"),
            }
            deck = {"deck": "zoned" if zoned else "whole"} if text.stage is Stage.DECK else {}
            layers.append({**common, **({"opacity": 1.0} if zoned else {}), **deck, **mesh})
    return layers


def upward(points_ft: Floats, triangles: Ints) -> NDArray[np.bool_]:
    """Whether each triangle (n, 3) is seen from above. (n,)"""
    a, b, c = (points_ft[triangles[:, k], :2] for k in range(3))
    (ux, uy), (vx, vy) = (b - a).T, (c - a).T
    seen: NDArray[np.bool_] = ux * vy - uy * vx > 1e-9
    return seen


def rims(triangles: Ints) -> Ints:
    """The edges (k, 2) that one triangle alone has: the rims of open sheets."""
    pairs = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    edges, counts = np.unique(pairs, axis=0, return_counts=True)
    alone: Ints = edges[counts == 1]
    return alone


def creases(points_ft: Floats, triangles: Ints) -> Ints:
    """The edges (k, 2) of a closed mesh at which its surface bends.

    Parameters
    ----------
    points_ft : (m, 3) float
        Corners. [ft]
    triangles : (n, 3) int
        Faces, every edge shared by two of them.
    """
    a, b, c = (points_ft[triangles[:, k]] for k in range(3))
    normal = np.cross(b - a, c - a)
    normal /= np.maximum(np.linalg.norm(normal, axis=1, keepdims=True), 1e-12)
    pairs = np.sort(triangles[:, [0, 1, 1, 2, 2, 0]].reshape(-1, 2), axis=1)
    order = np.lexsort((pairs[:, 1], pairs[:, 0]))
    first, second = order[::2], order[1::2]
    bends = np.einsum("ij,ij->i", normal[first // 3], normal[second // 3]) < CREASE_COS
    edges: Ints = pairs[first[bends]]
    return edges


def _bearings(scene: Scene, middle: Floats, step_ft: float) -> dict[str, str]:
    """Where each bearing is pointed at, and the direction (times 1 ft) in which its tag faces."""
    tags = {item.mark: i for i, item in enumerate(scene.items) if item.kind is ItemKind.TAG}
    row_of = {int(item): k for k, item in enumerate(scene.boxes.item)}
    rows = [row_of[tags[b.mark]] for b in scene.bearings]
    faces = scene.boxes.u_ft[rows]
    outward = faces / np.maximum(np.linalg.norm(faces, axis=1, keepdims=True), 1e-9)
    points = np.array([b.point_ft for b in scene.bearings]).reshape(-1, 3) + faces
    return {
        "points": packed(_steps(points - middle, step_ft), "<i2"),
        "outward": packed(_steps(outward, step_ft), "<i2"),
    }


def _labels(scene: Scene, bearing: dict[str, int]) -> list[tuple[str | float, ...]]:
    """By rank: the text, its bearing or -1, the item that it names, its place in feet, 1 for a zone of the deck; of a
    wall the way it faces.
    """
    items = {item.mark or item.node.removeprefix("wall "): i for i, item in reversed(list(enumerate(scene.items)))}
    ranked = sorted(scene.labels, key=lambda label: label.rank)
    nodes = {item.node: i for i, item in enumerate(scene.items)}
    return [
        (
            b.text,
            bearing.get(b.text, -1),
            nodes[b.zone] if b.zone else items.get(b.text, -1),
            *_rounded(b.point_ft),
            int(bool(b.zone)),
            *(() if b.zone or b.text in bearing else (round(v, 3) for v in b.outward)),
        )
        for b in ranked
    ]


def _steps(feet: Floats, step_ft: float) -> Floats:
    return np.rint(feet / step_ft)


def _rounded(feet: ArrayLike) -> tuple[float, float, float]:
    x, y, z = (round(float(v), 3) for v in np.asarray(feet))
    return (x, y, z)


def packed(numbers: Sequence[int] | ArrayLike, kind: str) -> str:
    """Numbers as base64 text, in numpy's name of a little-endian kind."""
    return base64.b64encode(np.ascontiguousarray(numbers, dtype=kind).tobytes()).decode("ascii")
