"""A model file with the build as an animation: stage after stage comes down into its place, in the order of a crew."""

from __future__ import annotations

import json
import struct
from typing import Any

import numpy as np

ARRIVES_S, APART_S, DROP_M = 0.8, 1.2, 6.0
"""How long a stage takes to come down, how long after the one before it begins, and from how high."""
FLOAT, JSON_CHUNK, BIN_CHUNK = 5126, 0x4E4F534A, 0x004E4942
"""A 32-bit number, and the two chunks. Source: glTF 2.0 specification, ISO/IEC 12113:2022, sec. 3.6.2.2 and 4.4.3
(from memory)."""


def with_stages(data: bytes, stages: tuple[tuple[str, ...], ...]) -> bytes:
    """The file with the animation `stages`: the nodes named in each appear and come down, the first ones at once.

    Whoever plays nothing sees the whole house: the nodes themselves are not moved.
    """
    size = struct.unpack_from("<I", data, 12)[0]
    tree = json.loads(data[20 : 20 + size])
    binary = bytearray(data[28 + size :])
    number = {node.get("name"): k for k, node in enumerate(tree["nodes"])}
    samplers: list[dict[str, Any]] = []
    channels: list[dict[str, Any]] = []
    end_s = APART_S * (len(stages) - 1) + ARRIVES_S
    for k, names in enumerate(stages):
        start_s = APART_S * k
        times = _unique((0.0, start_s, start_s + ARRIVES_S, end_s))
        high = [(0.0, DROP_M if t <= start_s and k else 0.0, 0.0) for t in times]
        shown = _unique((0.0, start_s, end_s))
        sizes = [(1.0, 1.0, 1.0) if t >= start_s else (0.0, 0.0, 0.0) for t in shown]
        ways = (("translation", "LINEAR", times, high), ("scale", "STEP", shown, sizes))
        for path, way, at, values in ways:
            samplers.append(
                {"input": _add(tree, binary, at), "output": _add(tree, binary, values), "interpolation": way}
            )
            targets = [number[name] for name in names if name in number]
            channels += [{"sampler": len(samplers) - 1, "target": {"node": n, "path": path}} for n in targets]
    tree["animations"] = [{"name": "stages", "samplers": samplers, "channels": channels}]
    tree["buffers"][0]["byteLength"] = len(binary)
    return _written(tree, bytes(binary))


def _unique(times: tuple[float, ...]) -> list[float]:
    """Rising times, none twice: the format wants them so."""
    return sorted({round(t, 3) for t in times})


def _add(tree: dict[str, Any], binary: bytearray, numbers: Any) -> int:
    """Puts numbers (n,) or (n, 3) at the end of the data; the place of their accessor."""
    table = np.asarray(numbers, np.float32)
    tree["bufferViews"].append({"buffer": 0, "byteOffset": len(binary), "byteLength": table.nbytes})
    binary += table.tobytes()
    accessor: dict[str, Any] = {
        "bufferView": len(tree["bufferViews"]) - 1,
        "componentType": FLOAT,
        "count": len(table),
        "type": "VEC3" if table.ndim > 1 else "SCALAR",
    }
    if table.ndim == 1:
        accessor |= {"min": [float(table.min())], "max": [float(table.max())]}
    tree["accessors"].append(accessor)
    return len(tree["accessors"]) - 1


def _written(tree: dict[str, Any], binary: bytes) -> bytes:
    text = json.dumps(tree, separators=(",", ":")).encode("utf-8")
    text += b" " * (-len(text) % 4)
    binary += b"\0" * (-len(binary) % 4)
    whole = 12 + 8 + len(text) + 8 + len(binary)
    head = struct.pack("<4sII", b"glTF", 2, whole)
    return head + struct.pack("<II", len(text), JSON_CHUNK) + text + struct.pack("<II", len(binary), BIN_CHUNK) + binary
