"""A tie beam held down at its filled cells and pulled up at its straps: moments both ways, shear, pull on each cell.

Even stiffness; a cell holds up and down and lets the beam turn. Source: own derivation: tests/statics/test_tie_beam.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.loads.continuous_beam import bearing_forces
from framing.tolerances import ROUNDING

Floats = NDArray[np.float64]
Ints = NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BeamForces:
    """What a beam on n cells feels under m load patterns.

    `cell_lb` (n, m) is the pull on each cell, positive up. Of each of the n + 1 stretches (the tail before the first
    cell, the spans, the tail after the last): `top_ft_lb` (n + 1, m) the largest moment that pulls at the top bars,
    `bottom_ft_lb` at the bottom bars, `shear_lb` the largest shear between the faces of its cells, all 0 or more.
    """

    cell_lb: Floats
    top_ft_lb: Floats
    bottom_ft_lb: Floats
    shear_lb: Floats


def beam_forces(
    cells_ft: Floats,
    at_ft: Floats,
    pull_lb: Floats,
    down_plf: float | Floats,
    extent_ft: tuple[float, float],
    half_cell_ft: float = 0.0,
) -> BeamForces:
    """Reactions and section forces of the beam.

    Parameters
    ----------
    cells_ft : (n,) array
        Places of the filled cells along the beam, rising, two at least. [ft]
    at_ft : (k,) array
        Places of the straps. [ft]
    pull_lb : (k, m) array
        Pull of each strap in each pattern, positive up. [lb]
    down_plf : float or (m,) array
        What counts of the beam's own weight, in all patterns or in each. [plf]
    extent_ft : tuple
        From where to where the beam weighs; it covers the cells.
    half_cell_ft : float
        From a cell's middle to its face, where the shear counts; a strap nearer than that stands on the cell. [ft]

    Source: own derivation: tests/statics/test_tie_beam.py; the face by ACI 318-19, sec. 9.4.3.1 (from memory).
    """
    weighed_ft, feet = _simpson(cells_ft, extent_ft)
    weight_lb = -np.outer(feet, np.broadcast_to(down_plf, pull_lb.shape[1]))
    cell_lb = bearing_forces(cells_ft, np.r_[at_ft, weighed_ft], np.r_[pull_lb, weight_lb])
    faces = np.clip(np.r_[cells_ft - half_cell_ft, cells_ft + half_cell_ft], *extent_ft)
    places = np.unique(np.r_[extent_ft, at_ft, cells_ft, faces])
    up = _placed(places, at_ft, pull_lb) - _placed(places, cells_ft, cell_lb)
    after = np.cumsum(up, axis=0) - np.outer(np.clip(places - extent_ft[0], 0.0, extent_ft[1] - extent_ft[0]), down_plf)
    before = after - up
    moment = np.zeros_like(after)  # positive where it pulls at the top
    run = np.diff(places)[:, None]
    moment[1:] = np.cumsum(-(after[:-1] + before[1:]) / 2.0 * run, axis=0)
    crest = _crests(after[:-1], before[1:], moment[:-1], run)
    edges: Ints = np.searchsorted(places, np.array([places[0], *cells_ft, places[-1]]))
    sheared = np.maximum(np.abs(after[:-1]), np.abs(before[1:]))
    sheared[~_clear(places, edges, half_cell_ft)] = 0.0
    return BeamForces(
        cell_lb=cell_lb,
        top_ft_lb=_most(np.maximum(np.maximum(moment[:-1], moment[1:]), crest), edges),
        bottom_ft_lb=_most(-np.minimum(np.minimum(moment[:-1], moment[1:]), crest), edges),
        shear_lb=_most(sheared, edges),
    )


def _most(value: Floats, edges: Ints) -> Floats:
    """The largest over each stretch, 0 at least, of what its pieces have. (pieces, m) -> (n + 1, m)"""
    out = np.zeros((len(edges) - 1, value.shape[1]))
    there = edges[1:] > edges[:-1]
    out[there] = np.maximum(np.maximum.reduceat(value, edges[:-1][there], axis=0), 0.0)
    return out


def _clear(places: Floats, edges: Ints, half_cell_ft: float) -> NDArray[np.bool_]:
    """Which pieces between two places lie clear of the cells at both ends of their stretch."""
    low, high = (np.repeat(places[at], np.diff(edges)) for at in (edges[:-1], edges[1:]))
    first, last = np.full((2, len(places) - 1), half_cell_ft)
    first[: edges[1]], last[edges[-2] :] = 0.0, 0.0  # a tail's outer end stands on no cell
    clear: NDArray[np.bool_] = (places[:-1] >= low + first - ROUNDING) & (places[1:] <= high - last + ROUNDING)
    return clear


def _placed(places: Floats, at_ft: Floats, force_lb: Floats) -> Floats:
    out = np.zeros((len(places), force_lb.shape[1]))
    np.add.at(out, np.searchsorted(places, at_ft), force_lb)
    return out


def _crests(after: Floats, before_next: Floats, moment: Floats, run: Floats) -> Floats:
    """The moment where the shear changes sign between two places; where it does not, that at the first."""
    fall = after - before_next
    inside = (after > 0.0) & (before_next < 0.0)
    part = np.divide(after, fall, out=np.zeros_like(after), where=inside)
    return np.where(inside, moment - after * part * run / 2.0, moment)


def _simpson(cells_ft: Floats, extent_ft: tuple[float, float]) -> tuple[Floats, Floats]:
    """A unit load on every foot as forces, exact for the cubics of the influence lines: their places and sizes. [ft]"""
    edges = np.unique(np.clip(np.r_[extent_ft, cells_ft], *extent_ft))
    low, high = edges[:-1], edges[1:]
    return np.r_[low, (low + high) / 2.0, high], np.outer([1.0, 4.0, 1.0], high - low).ravel() / 6.0
