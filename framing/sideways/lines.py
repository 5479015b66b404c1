"""Stretches of wall -> the lines that hold the deck along either axis of the house, and the lever rule between them.

The deck is flexible: between two lines it is a beam on two bearings, past the last one it hangs over.
Source: own derivation: tests/statics/test_sideways.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.sideways.held import Stretch
from framing.tolerances import TIE_FT

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """Stretches that together hold the deck along an axis (0 x, 1 y): their places in the list, the length that each
    counts with, and `at_ft`, the line's own coordinate on the other axis, the middle of those of its stretches.
    """

    axis: int
    at_ft: float
    stretches: tuple[int, ...]
    lengths_ft: tuple[float, ...]

    @property
    def length_ft(self) -> float:
        """All that counts. [ft]"""
        return sum(self.lengths_ft)


def lines_along(stretches: tuple[Stretch, ...], axis: int, within_ft: float, shortest_ft: float) -> tuple[Line, ...]:
    """The lines that hold the deck along an axis, by their coordinate: square walls and tied-down supports; walls at an
    angle, by their extent along the axis, only where no square one does; those under `shortest_ft` only where no other
    is there. Those nearer than `within_ft` to one another are one. Source: common practice, no source; the plan's.
    """
    long = [k for k, s in enumerate(stretches) if s.length_ft >= shortest_ft - TIE_FT]
    for among in (long, range(len(stretches))):
        for wanted in (axis, None):
            found = [k for k in among if stretches[k].axis == wanted and stretches[k].extent_ft(axis) > TIE_FT]
            if found:
                return _joined(stretches, axis, found, within_ft)
    return ()


def _joined(stretches: tuple[Stretch, ...], axis: int, found: list[int], within_ft: float) -> tuple[Line, ...]:
    """Those nearer than this to their neighbour are one line."""
    across = 1 - axis
    found = sorted(found, key=lambda k: stretches[k].middle_ft(across))
    groups: list[list[int]] = []
    for k in found:
        apart = stretches[k].middle_ft(across) - stretches[groups[-1][-1]].middle_ft(across) if groups else np.inf
        if apart < within_ft - TIE_FT:
            groups[-1].append(k)
        else:
            groups.append([k])
    return tuple(_line(stretches, axis, sorted(g)) for g in groups)


def _line(stretches: tuple[Stretch, ...], axis: int, group: list[int]) -> Line:
    length = [stretches[k].extent_ft(axis) for k in group]
    at = [stretches[k].middle_ft(1 - axis) for k in group]
    return Line(
        axis=axis,
        at_ft=float(np.average(at, weights=length)),
        stretches=tuple(group),
        lengths_ft=tuple(length),
    )


def lever_shares(at_ft: Floats, line_ft: Floats) -> tuple[Floats, NDArray[np.int64]]:
    """What each line takes of forces across a flexible deck.

    Parameters
    ----------
    at_ft : (m,) array
        Where the forces stand.
    line_ft : (n,) array
        Where the lines are, rising.

    Returns
    -------
    (m, n) array
        Shares, each row's sum one; with two lines and more their moment is the force's own.
    (m,) array
        The line below the span that each force stands on (past the last lines the outermost span).

    Source: own derivation: tests/statics/test_sideways.py.
    """
    share = np.zeros((len(at_ft), len(line_ft)))
    below = np.clip(np.searchsorted(line_ft, at_ft, side="right") - 1, 0, max(len(line_ft) - 2, 0))
    rows = np.arange(len(at_ft))
    if len(line_ft) == 1:
        share[:, 0] = 1.0
    elif len(line_ft):
        far = (at_ft - line_ft[below]) / (line_ft[below + 1] - line_ft[below])
        share[rows, below], share[rows, below + 1] = 1.0 - far, far
    return share, below
