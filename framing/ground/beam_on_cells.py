"""A tie beam held down at its filled cells and pulled up at its straps: moments both ways, shear, pull on each cell.

Even stiffness; a cell holds up and down and lets the beam turn. Source: own derivation: tests/statics/test_tie_beam.py.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from framing.loads.continuous_beam import bearing_shares
from framing.tolerances import ROUNDING

Floats = NDArray[np.float64]


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
    down_plf: float,
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
    down_plf : float
        What counts of the beam's own weight. [plf]
    extent_ft : tuple
        From where to where the beam weighs; it covers the cells.
    half_cell_ft : float
        From a cell's middle to its face, where the shear counts; a strap nearer than that stands on the cell. [ft]

    Source: own derivation: tests/statics/test_tie_beam.py; the face by ACI 318-19, sec. 9.4.3.1 (from memory).
    """
    cell_lb = bearing_shares(cells_ft, at_ft, np.zeros(len(at_ft))).T @ pull_lb
    cell_lb -= down_plf * _uniform_shares(cells_ft, extent_ft)[:, None]
    faces = np.clip(np.r_[cells_ft - half_cell_ft, cells_ft + half_cell_ft], *extent_ft)
    places = np.unique(np.r_[extent_ft, at_ft, cells_ft, faces])
    up = _placed(places, at_ft, pull_lb) - _placed(places, cells_ft, cell_lb)
    weight = down_plf * np.clip(places - extent_ft[0], 0.0, extent_ft[1] - extent_ft[0])[:, None]
    after = np.cumsum(up, axis=0) - weight
    before = after - up
    moment = np.zeros_like(after)  # positive where it pulls at the top
    run = np.diff(places)[:, None]
    moment[1:] = np.cumsum(-(after[:-1] + before[1:]) / 2.0 * run, axis=0)
    crest = _crests(after[:-1], before[1:], moment[:-1], run)
    edges = [int(np.searchsorted(places, at)) for at in (places[0], *cells_ft, places[-1])]
    n, m = len(cells_ft) + 1, pull_lb.shape[1]
    top, bottom, shear = np.zeros((n, m)), np.zeros((n, m)), np.zeros((n, m))
    for k in range(n):
        low, high = edges[k], edges[k + 1]
        met = np.concatenate([moment[low : high + 1], crest[low:high]])
        top[k] = met.max(axis=0, initial=0.0)
        bottom[k] = (-met).max(axis=0, initial=0.0)
        first = places[low:high] >= places[low] + (half_cell_ft if k else 0.0) - ROUNDING
        last = places[low + 1 : high + 1] <= places[high] - (half_cell_ft if k < n - 1 else 0.0) + ROUNDING
        clear = first & last
        sheared = np.abs(np.concatenate([after[low:high][clear], before[low + 1 : high + 1][clear]]))
        shear[k] = sheared.max(axis=0, initial=0.0)
    return BeamForces(cell_lb=cell_lb, top_ft_lb=top, bottom_ft_lb=bottom, shear_lb=shear)


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


def _uniform_shares(cells_ft: Floats, extent_ft: tuple[float, float]) -> Floats:
    """What each cell takes of a unit load on every foot: its influence line, cubic by cubic, by Simpson's rule."""
    edges = np.unique(np.clip(np.r_[extent_ft, cells_ft], *extent_ft))
    low, high = edges[:-1], edges[1:]
    at = np.stack([low, (low + high) / 2.0, high])
    shares = bearing_shares(cells_ft, at.ravel(), np.zeros(at.size)).reshape(3, len(low), len(cells_ft))
    out: Floats = np.einsum("s,sin,i->n", np.array([1.0, 4.0, 1.0]) / 6.0, shares, high - low)
    return out
