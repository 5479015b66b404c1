"""Lines that lie side by side, alike and equally far apart, six or more: stairs, siding, tiles, paving, hatching."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from export.architects_drawing.pairs import LEVEL_IN, Flags, Floats, Pairs, lengths_of, nearest, pairs_of, some

FEWEST_STEPS = 6
SHORTEST_IN = 12.0
SAME_IN = 0.1


def patterns(segments: Floats) -> Flags:
    """The segments of such a pattern as they were drawn, before a wall's face that lies on one is made one with it.

    Parameters
    ----------
    segments : (n, 4) float
        x0 y0 x1 y1. [in]

    Returns
    -------
    (n,) bool
        Of two in one place one alone: the other may be a wall's face.
    """
    out = np.zeros(len(segments), bool)
    asked = _often(segments)
    if not len(asked):
        return out
    ends = np.round(segments[asked] / SAME_IN).astype(int)
    back = (ends[:, 2] < ends[:, 0]) | ((ends[:, 2] == ends[:, 0]) & (ends[:, 3] < ends[:, 1]))
    ends[back] = ends[back][:, [2, 3, 0, 1]]
    _, once = np.unique(ends, axis=0, return_index=True)
    lines = segments[asked[once]]
    out[asked[once]] = steps(lines, pairs_of(lines))
    return out


def _often(segments: Floats) -> NDArray[np.int64]:
    """The segments as long as five others of their direction."""
    length = lengths_of(segments)
    long = np.flatnonzero(length > SHORTEST_IN)
    way = segments[long, 2:] - segments[long, :2]
    turn = np.round(np.degrees(np.arctan2(way[:, 1], way[:, 0])) % 180.0).astype(int) % 180
    kind = np.column_stack([turn, np.round(length[long]).astype(int)])
    _, which, count = np.unique(kind, axis=0, return_inverse=True, return_counts=True)
    return long[count[which.ravel()] >= FEWEST_STEPS]


def steps(lines: Floats, pairs: Pairs) -> Flags:
    """The lines that are one of six or more, equally long and equally far apart: stairs, siding, hatching."""
    length = lengths_of(lines)
    alike = np.abs(length[pairs.i] - length[pairs.j]) < np.maximum(LEVEL_IN, 0.02 * length[pairs.i])
    facing = pairs.high_in - pairs.low_in > 0.5 * length[pairs.i]
    near = some(pairs, alike & facing)
    near = nearest(near)
    next_to: dict[tuple[int, bool], tuple[int, float]] = {}
    for i, j, d in zip(near.i.tolist(), near.j.tolist(), near.d_in.tolist(), strict=True):
        next_to.setdefault((i, d > 0), (j, abs(d)))
    out = np.zeros(len(lines), bool)
    for start in range(len(lines)):
        if (start, True) not in next_to or out[start]:
            continue
        run, gap = [start], next_to[start, True][1]
        while (step := next_to.get((run[-1], _left_of(lines, start, run[-1])))) and step[0] not in run:
            if abs(step[1] - gap) > max(0.25, 0.05 * gap):
                break
            run.append(step[0])
        if len(run) >= FEWEST_STEPS:
            out[run] = True
    return out


def _left_of(lines: Floats, first: int, other: int) -> bool:
    """On which side of a line to look on, so that the run keeps its way however the line was drawn."""
    a, b = lines[first, 2:] - lines[first, :2], lines[other, 2:] - lines[other, :2]
    return bool(a @ b > 0)
