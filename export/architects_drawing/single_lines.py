"""Walls drawn as single lines -> the bridges over their doors and windows."""

from __future__ import annotations

import numpy as np
import shapely

from export.architects_drawing.bridges import END_TO_END, Bridges
from export.architects_drawing.pairs import Floats, Ints, lengths_of
from export.architects_drawing.strips import bands

NARROWEST_IN, WIDEST_IN = 18.0, 16.5 * 12.0
IN_LINE_IN, FREE_IN, HALF_PENCIL_IN = 0.6, 0.5, 0.15
MOST_LINES = 3000


def line_bridges(lines: Floats) -> Bridges:
    """What closes the gaps along single lines: from each free end to the next that looks back along the same line.

    Parameters
    ----------
    lines : (n, 4) float
        x0 y0 x1 y1. [in]

    Returns
    -------
    Bridges
        As wide as a pencil's line, over gaps of 18 in. to 16 1/2 ft.
    """
    lines = lines[np.argsort(-lengths_of(lines), kind="stable")[:MOST_LINES]]
    u = (lines[:, 2:] - lines[:, :2]) / lengths_of(lines)[:, None]
    at, out = np.vstack([lines[:, :2], lines[:, 2:]]), np.vstack([-u, u])
    free = _free(lines, at)
    n = len(free)
    ahead = bands(at[free], out[free], np.full(n, NARROWEST_IN), np.full(n, WIDEST_IN), np.full(n, IN_LINE_IN))
    k, other = shapely.STRtree(shapely.points(at[free])).query(ahead, predicate="intersects")
    back = np.sum(out[free][k] * out[free][other], axis=1) < -np.cos(np.radians(1.0))
    k, other = k[back], other[back]
    wide = np.hypot(*(at[free][other] - at[free][k]).T)
    nearest: dict[int, tuple[float, int]] = {}
    for a, b, w in zip(k.tolist(), other.tolist(), wide.tolist(), strict=True):
        nearest[a] = min(nearest.get(a, (np.inf, -1)), (w, b))
    gaps = [(a, b, w) for a, (w, b) in nearest.items() if a < b and nearest.get(b, (0.0, -1))[1] == a]
    ends = [(at[free][a], at[free][b]) for a, b, _ in gaps]
    shapes = [shapely.LineString(e).buffer(HALF_PENCIL_IN, cap_style="square") for e in ends]
    return Bridges(
        shapes=np.array(shapes, object),
        wide_in=np.array([w for _, _, w in gaps], float),
        middle=np.array([(p + q) / 2.0 for p, q in ends], float).reshape(-1, 2),
        kind=np.full(len(gaps), END_TO_END),
    )


def _free(lines: Floats, at: Floats) -> Ints:
    """The numbers of the ends that no other line touches."""
    end, line = shapely.STRtree(shapely.linestrings(lines.reshape(-1, 2, 2))).query(
        shapely.points(at), predicate="dwithin", distance=FREE_IN
    )
    touched = end[line != end % len(lines)]
    return np.setdiff1d(np.arange(len(at)), touched)
