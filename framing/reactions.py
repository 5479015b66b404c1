"""Framing + Loads -> Reactions: one linear map, then every case is a product."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One load pattern by itself: its name, its basis and what it puts on the whole roof.

    `basis` is 'dead', 'live', 'mwfrs' or 'cladding'. Both vertical figures are positive up; they are equal.
    """

    name: str
    basis: str
    applied_vertical_lb: float
    reactions_vertical_lb: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Reactions:
    """Every bearing's reaction in every case.

    `by_case_lb` is (n_bearings, n_cases): what the bearing receives, positive up, unfactored, at strength
    level for wind. `uplift_lb` is the governing ASD net uplift (0 where nothing lifts), `down_lb` the
    largest gravity reaction, `dead_for_uplift_lb` the dead load that resists (positive down),
    `governing` the index of the governing case.
    """

    cases: tuple[Case, ...]
    by_case_lb: Floats
    uplift_lb: Floats
    down_lb: Floats
    dead_for_uplift_lb: Floats
    governing: NDArray[np.int64]
