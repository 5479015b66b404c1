"""A straight beam of uniform stiffness on any number of bearings: which share of a force goes to which bearing.

The influence line of a reaction is the shape that the beam takes when that bearing alone is lifted by one: a cubic
between bearings, straight beyond the outer two (Mueller-Breslau). Its curvatures are those of the three-moment equation
(Clapeyron). Source: own derivation: tests/statics/test_continuous_beam.py.
"""

from __future__ import annotations

from dataclasses import dataclass

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
    own = _own_parts(bearings_ft, at_ft, couple_ft)
    row = np.arange(len(at_ft))
    lift, bend = np.zeros((2, len(at_ft), len(bearings_ft)))
    for k in (0, 1):
        lift[row, own.span + k], bend[row, own.span + k] = own.lift_ratio[k], own.bend_ft2[k]
    out: Floats = lift + bend @ _curvatures(np.diff(bearings_ft))
    return out


def bearing_forces(bearings_ft: Floats, at_ft: Floats, force_lb: Floats) -> Floats:
    """What each bearing takes of forces (k, m) on the beam [lb], m patterns of them: (n, m). The same shares, but no
    influence line is made.

    Source: own derivation: tests/statics/test_continuous_beam.py.
    """
    rising = np.argsort(at_ft, kind="stable")
    own, force_lb = _own_parts(bearings_ft, at_ft[rising], np.zeros(len(at_ft))), force_lb[rising]
    spans, first = np.unique(own.span, return_index=True)
    lift, bend = np.zeros((2, len(bearings_ft), force_lb.shape[1]))
    for k in (0, 1):
        lift[spans + k] += np.add.reduceat(own.lift_ratio[k][:, None] * force_lb, first, axis=0)
        bend[spans + k] += np.add.reduceat(own.bend_ft2[k][:, None] * force_lb, first, axis=0)
    if len(bearings_ft) > 2:
        steep = 6.0 / np.diff(bearings_ft)[:, None]
        bent = np.zeros_like(bend)
        bent[1:-1] = np.linalg.solve(_three_moments(np.diff(bearings_ft))[0], bend[1:-1])  # the matrix is symmetric
        turned = np.diff(bent, axis=0) * steep
        lift[:-1] += turned
        lift[1:] -= turned
    return lift


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Own:
    """Where k forces stand: the span, and what the influence line there takes of the lift (2, k) and of the curvature
    (2, k) at its left and its right bearing.
    """

    span: NDArray[np.intp]
    lift_ratio: Floats
    bend_ft2: Floats


def _own_parts(bearings_ft: Floats, at_ft: Floats, couple_ft: Floats) -> _Own:
    """Of a cubic between the two bearings, and its slope times what comes as a couple or from a tail."""
    span = np.diff(bearings_ft)
    at = np.clip(at_ft, bearings_ft[0], bearings_ft[-1])
    turned = at_ft - at + couple_ft
    i = np.clip(np.searchsorted(bearings_ft, at, side="right") - 1, 0, len(span) - 1)
    length = span[i]
    right = (at - bearings_ft[i]) / length
    left = 1.0 - right
    lift = np.stack([left - turned / length, right + turned / length])
    bow = np.stack([1.0 - 3.0 * left**2, 3.0 * right**2 - 1.0]) * turned * length / 6.0
    cubic = np.stack([left**3 - left, right**3 - right]) * length**2 / 6.0
    return _Own(span=i, lift_ratio=lift, bend_ft2=cubic + bow)


def _curvatures(span_ft: Floats) -> Floats:
    """Curvature at each bearing for a unit lift of each: (bearing, lifted bearing); none at the outer two."""
    n = len(span_ft) + 1
    out = np.zeros((n, n))
    if n > 2:
        moments, lifts = _three_moments(span_ft)
        out[1:-1] = np.linalg.solve(moments, lifts)
    return out


def _three_moments(span_ft: Floats) -> tuple[Floats, Floats]:
    """The equation at each bearing but the outer two, of the curvatures (n - 2, n - 2) and of the lifts (n - 2, n)."""
    n = len(span_ft) + 1
    k, a, b = np.arange(n - 2), span_ft[:-1], span_ft[1:]
    moments, lifts = np.zeros((n - 2, n - 2)), np.zeros((n - 2, n))
    moments[k, k] = 2.0 * (a + b)
    moments[k[1:], k[:-1]] = moments[k[:-1], k[1:]] = a[1:]
    lifts[k, k], lifts[k, k + 1], lifts[k, k + 2] = 6.0 / a, -6.0 / a - 6.0 / b, 6.0 / b
    return moments, lifts
