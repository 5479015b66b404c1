"""How far straps stand off along one wall -> the stretches that were shifted alike, by a robust fit."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
NOISE_IN = 0.25
"""How exactly a strap is set and measured: common practice, no source."""
STRANGE, STRETCH = 3.0, 4.0
LEAST_SHIFT_IN, LEAST_STRAPS = 0.5, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Straps `first` to `last` (their places, both included) that all stand `shift_in` off."""

    first: int
    last: int
    shift_in: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """The stretches, and what they leave unexplained: `misfit_ratio`, in units of the noise."""

    stretches: tuple[Stretch, ...]
    misfit_ratio: float


def misfit(off_in: Floats) -> Floats:
    """What each strap's distance from where it was expected counts for: bounded, so that one fault alone is one."""
    out: Floats = np.minimum(np.abs(off_in) / NOISE_IN, STRANGE)
    return out


def shifted_stretches(off_in: Floats) -> Fit:
    """The stretches of a wall that explain it best; every other strap is expected on its mark.

    The cheapest way to cut the wall into straps on their marks and stretches shifted by their median, over all ways
    (dynamic programming); a stretch costs something, so that noise makes none.

    Source: own derivation: tests/parts/test_asbuilt_patterns.py.
    """
    n = len(off_in)
    best, came = np.zeros(n + 1), [(-1, 0.0)] * (n + 1)
    on_mark = misfit(off_in)
    for end in range(1, n + 1):
        best[end], came[end] = best[end - 1] + on_mark[end - 1], (end - 1, 0.0)
        for start in range(end - LEAST_STRAPS + 1):
            part = off_in[start:end]
            shift = float(np.median(part))
            if abs(shift) < LEAST_SHIFT_IN or misfit(part[[0, -1]] - shift).max() >= STRANGE:
                continue
            cost = best[start] + STRETCH + misfit(part - shift).sum()
            if cost < best[end]:
                best[end], came[end] = cost, (start, shift)
    stretches, end = [], n
    while end > 0:
        start, shift = came[end]
        if shift:
            stretches.append(Stretch(first=start, last=end - 1, shift_in=shift))
        end = start
    return Fit(stretches=tuple(reversed(stretches)), misfit_ratio=float(best[n]))
