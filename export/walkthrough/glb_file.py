"""Named solids in a tree -> the bytes of a glTF 2.0 binary file, triangles in plain colours and nothing else.

Two chunks of four-byte words: JSON filled up with spaces, then the arrays; each says what it is for, and points how far
they reach. Source: Khronos glTF 2.0, secs 3.6, 3.7, 3.9 and 4.4 (from memory).
"""

from __future__ import annotations

import json
import struct
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Words = dict[str, Any]
ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER = 34962, 34963
UNSIGNED_INT, FLOAT = 5125, 5126
TRIANGLES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """A dull surface; `rgb` as a screen shows it, 0 to 255."""

    rgb: tuple[int, ...]
    opacity_ratio: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Solid:
    """Triangles (m, 3) between points (n, 3), y up. [m]"""

    points_m: Floats
    triangles: Ints
    material: Material


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Node:
    """One piece of the tree: what it hangs on by its name ('' at the root), what it says of itself, and its solid."""

    name: str
    parent: str
    says: Words
    solid: Solid | None = None


def glb(nodes: Sequence[Node], root_at_m: Floats, asset: Words) -> bytes:
    """The file of a tree whose first node is its root, which lies at `root_at_m` in the file's world."""
    place = {node.name: k for k, node in enumerate(nodes)}
    solids = [node for node in nodes if node.solid is not None]
    looks = list(dict.fromkeys(node.solid.material for node in solids if node.solid))
    below: dict[str, list[int]] = {}
    for node in nodes[1:]:
        below.setdefault(node.parent, []).append(place[node.name])
    arrays = [a for node in solids if node.solid for a in _arrays(node.solid)]
    mesh_of = {node.name: k for k, node in enumerate(solids)}
    told = [_node(node, below.get(node.name, []), mesh_of.get(node.name)) for node in nodes]
    told[0]["translation"] = root_at_m.tolist()
    views = list(_views(arrays))
    tree = {
        "asset": {"version": "2.0", **asset},
        "scene": 0,
        "scenes": [{"nodes": [0]}],
        "nodes": told,
        "meshes": [_mesh(node, k, looks) for k, node in enumerate(solids)],
        "materials": [_material(look) for look in looks],
        "accessors": [_accessor(a, k) for k, a in enumerate(arrays)],
        "bufferViews": views,
        "buffers": [{"byteLength": sum(view["byteLength"] for view in views)}],
    }
    text = json.dumps(tree, separators=(",", ":"), allow_nan=False).encode("ascii")
    chunks = _chunk(b"JSON", text + b" " * (-len(text) % 4)) + _chunk(b"BIN\0", b"".join(a.tobytes() for a in arrays))
    return struct.pack("<4sII", b"glTF", 2, 12 + len(chunks)) + chunks


def _chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack("<I4s", len(data), kind) + data


def _arrays(solid: Solid) -> tuple[NDArray[Any], NDArray[Any]]:
    """The corners of its triangles, then its points, as the file holds them."""
    return solid.triangles.astype("<u4").ravel(), solid.points_m.astype("<f4")


def _node(node: Node, children: list[int], mesh: int | None) -> Words:
    told: Words = {"name": node.name}
    if children:
        told["children"] = children
    if mesh is not None:
        told["mesh"] = mesh
    if node.says:
        told["extras"] = node.says
    return told


def _mesh(node: Node, k: int, looks: list[Material]) -> Words:
    material = looks.index(node.solid.material) if node.solid else 0
    part = {"attributes": {"POSITION": 2 * k + 1}, "indices": 2 * k, "mode": TRIANGLES, "material": material}
    return {"name": node.name, "primitives": [part]}


def _accessor(array: NDArray[Any], view: int) -> Words:
    told: Words = {"bufferView": view, "count": len(array)}
    if array.ndim == 1:
        return told | {"componentType": UNSIGNED_INT, "type": "SCALAR"}
    reach = {"min": array.min(axis=0).tolist(), "max": array.max(axis=0).tolist()}
    return told | {"componentType": FLOAT, "type": "VEC3"} | reach


def _views(arrays: list[NDArray[Any]]) -> Iterator[Words]:
    at = 0
    for array in arrays:
        target = ELEMENT_ARRAY_BUFFER if array.ndim == 1 else ARRAY_BUFFER
        yield {"buffer": 0, "byteOffset": at, "byteLength": array.nbytes, "target": target}
        at += array.nbytes


def _material(look: Material) -> Words:
    """The format wants colours linear; a screen shows them by the sRGB curve. Source: from memory."""
    screen = np.array(look.rgb) / 255
    linear = np.where(screen <= 0.04045, screen / 12.92, ((screen + 0.055) / 1.055) ** 2.4)
    colour = [*(round(float(c), 6) for c in linear), look.opacity_ratio]
    clear = look.opacity_ratio == 1.0
    return {
        "name": f"rgb {' '.join(map(str, look.rgb))}" + ("" if clear else " see-through"),
        "pbrMetallicRoughness": {"baseColorFactor": colour, "metallicFactor": 0.0, "roughnessFactor": 0.9},
        "alphaMode": "OPAQUE" if clear else "BLEND",
    }
