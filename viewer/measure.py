"""Measuring between two points that somebody picks."""

from __future__ import annotations

import numpy as np

from framing.units import feet_inches
from viewer.scene import Point3


class Measure:
    """Whether points are being picked, and those picked so far, two at most; a third begins the next measure."""

    def __init__(self) -> None:
        self.on = False
        self.points_ft: tuple[Point3, ...] = ()

    def turn(self, *, on: bool) -> None:
        """Begins, or ends and forgets."""
        self.on, self.points_ft = on, ()

    def pick(self, point_ft: Point3) -> None:
        """Takes a point."""
        self.points_ft = (*(self.points_ft if len(self.points_ft) == 1 else ()), point_ft)

    def words(self) -> str:
        """What to do next, or what was measured in feet and inches; '' when off."""
        if not self.on:
            return ""
        if len(self.points_ft) < 2:
            return f"Measure: click the {'second' if self.points_ft else 'first'} point"
        first, second = self.points_ft
        x, y, z = np.abs(np.subtract(first, second)).tolist()
        whole, level = float(np.linalg.norm((x, y, z))), float(np.hypot(x, y))
        return f"{feet_inches(whole)} apart: {feet_inches(level)} level, {feet_inches(z)} up"
