"""A straight beam of uniform stiffness on any number of bearings: which share of a force goes to which bearing.

The influence line of a reaction is the shape that the beam takes when that bearing alone is lifted by one: a cubic
between bearings, straight beyond the outer two (Mueller-Breslau). Its curvatures are those of the three-moment equation
(Clapeyron). Source: own derivation: tests/statics/test_continuous_beam.py.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


def bearing_shares(bearings_ft: Floats, at_ft: Floats, couple_ft: Floats) -> Floats:
    """What each bearing takes of a unit force on the beam.

    Parameters
    ----------
    bearings_ft : (n,) array
        Places of the bearings along the beam, rising, two at least.
    at_ft : (k,) array
        Place of each force; beyond the outer bearings it stands on a tail.
    couple_ft : (k,) array
        The couple that comes with each force, over the force; it acts like a shift of the force along the beam.

    Returns
    -------
    (k, n) array
        Shares, each row's sum one.

    Source: own derivation: tests/statics/test_continuous_beam.py.
    """
    span = np.diff(bearings_ft)
    at = np.clip(at_ft, bearings_ft[0], bearings_ft[-1])
    beyond = at_ft - at
    i = np.clip(np.searchsorted(bearings_ft, at, side="right") - 1, 0, len(span) - 1)
    length = span[i]
    right = (at - bearings_ft[i]) / length
    left = 1.0 - right
    lift = np.eye(len(bearings_ft))
    bend = _curvatures(span)
    shape = left[:, None] * lift[i] + right[:, None] * lift[i + 1]
    curved = (left**3 - left)[:, None] * bend[i] + (right**3 - right)[:, None] * bend[i + 1]
    shape += curved * length[:, None] ** 2 / 6.0
    slope = (lift[i + 1] - lift[i]) / length[:, None]
    bowed = (1.0 - 3.0 * left**2)[:, None] * bend[i] + (3.0 * right**2 - 1.0)[:, None] * bend[i + 1]
    slope += bowed * length[:, None] / 6.0
    out: Floats = shape + slope * (beyond + couple_ft)[:, None]
    return out


def _curvatures(span_ft: Floats) -> Floats:
    """Curvature at each bearing for a unit lift of each: (bearing, lifted bearing); none at the outer two."""
    n = len(span_ft) + 1
    out = np.zeros((n, n))
    if n == 2:
        return out
    moments, lifts = np.zeros((n - 2, n - 2)), np.zeros((n - 2, n))
    for k in range(n - 2):
        a, b = span_ft[k], span_ft[k + 1]
        moments[k, k] = 2.0 * (a + b)
        if k:
            moments[k, k - 1] = a
        if k < n - 3:
            moments[k, k + 1] = b
        lifts[k, k : k + 3] = 6.0 * np.array([1.0 / a, -1.0 / a - 1.0 / b, 1.0 / b])
    out[1:-1] = np.linalg.solve(moments, lifts)
    return out
