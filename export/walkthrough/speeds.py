"""The wind that each anchor is good to, as the page counts by it."""

from __future__ import annotations

import math

from framing.anchors.schedule import Mark
from viewer.colours import HIGHEST_MPH


def good_to(m: Mark) -> float | None:
    """The wind that an anchor is good to, None where there is none; beyond any wind where nothing lifts [mph]. Rounded
    down, so that a whole number of mph is past it where it is past the figure itself.
    """
    if m.anchor is None:
        return None
    return 2 * HIGHEST_MPH if m.good_to_mph is None else math.floor(10.0 * m.good_to_mph) / 10.0
