"""Run -> the cutaways of the client's page: each set of pieces once, and for every mark where it goes, small."""

from __future__ import annotations

import base64
from typing import Any

import numpy as np

from framing.run import Run
from viewer.closer import EYE_ASIDE, EYE_FT, EYE_TILT, closers
from viewer.closer_parts import PART_RGB, Part, PartSet
from viewer.closer_scene import HEEL_FT

WAY = 16_000
"""Steps in a length of 1: vectors in plan are kept as signed 16-bit numbers."""
FEET = 4_000
"""Steps in a foot of the short lengths of a mark."""
PARTS = list(Part)


def closer_data(run: Run, middle_ft: tuple[float, ...], step_ft: float) -> dict[str, Any]:
    """The cutaways as plain values for JSON.

    Returns
    -------
    dict
        `rgb` of each part; `sets`, each a pair of boxes (part, middle, half sizes) and names (text, place); `words`,
        the sentences; `numbers`, 12 for each mark in base64: the frame's origin [steps from the middle], far, near,
        across and normal, how far on its cells stand and how high its straps end; `which`, 6 for each mark: the sets
        behind, before, cells and nails, 1 where the wall is cut along, the words.
    """
    made = closers(run)
    sets: dict[PartSet, int] = {}
    words: dict[tuple[str, ...], int] = {}
    which, rows = [], []
    for c in made:
        mine = [sets.setdefault(one, len(sets)) for one in (c.behind, c.before, c.cells, c.nails)]
        which.append([*mine, int(c.along), words.setdefault(c.words, len(words))])
        at = [(v - m) / step_ft for v, m in zip(c.at_ft[:2], middle_ft[:2], strict=True)]
        ways = [v * WAY for way in (c.far, c.near, c.across, c.normal) for v in way]
        rows.append([*at, *ways, c.cells_ft * FEET, c.head_ft * FEET])
    return {
        "rgb": [PART_RGB[p] for p in PARTS],
        "strap": PARTS.index(Part.STRAP),
        "wood": PARTS.index(Part.WOOD),
        "sets": [_packed(one) for one in sets],
        "words": [" ".join(said) for said in words],
        "numbers": _text(np.rint(rows), "<i2"),
        "which": _text(which, "u1"),
        "top_ft": round(made[0].at_ft[2], 3) if made else 0.0,
        "eye": [EYE_FT, EYE_TILT, EYE_ASIDE, HEEL_FT],
    }


def _packed(one: PartSet) -> tuple[list[list[float]], list[list[Any]]]:
    boxes = [[PARTS.index(p.part), *(round(v, 3) for v in (*p.middle, *p.half))] for p in one.pieces]
    return boxes, [[text, *(round(v, 3) for v in place)] for text, place in one.names]


def _text(numbers: Any, kind: str) -> str:
    return base64.b64encode(np.ascontiguousarray(numbers, dtype=kind).tobytes()).decode("ascii")
