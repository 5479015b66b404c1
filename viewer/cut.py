"""The section cut: an upright plane across W1 or along it, before which nothing is drawn."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from vtkmodules.vtkCommonDataModel import vtkPlane

from viewer.meshes import Layer
from viewer.scene import Point3, Scene

CUTS = ("off", "across W1", "along W1")
STEP_RATIO = 0.04


class Cut:
    """Which cut is on, and how far through the house it stands (0 to 1)."""

    def __init__(self, scene: Scene, layers: Sequence[Layer]) -> None:
        self.scene, self.layers = scene, layers
        self.which, self.ratio = 0, 0.5
        self._plane = vtkPlane()

    def turn(self) -> None:
        """The next cut, in the middle of the house."""
        self._set((self.which + 1) % len(CUTS), 0.5)

    def move(self, steps: int) -> None:
        """Moves the cut, never out of the house."""
        self._set(self.which, min(max(self.ratio + steps * STEP_RATIO, 0.0), 1.0))

    def keeps(self, point_ft: Point3) -> bool:
        """Whether the cut leaves a point standing."""
        return not self.which or self._plane.EvaluateFunction(*point_ft) >= 0.0

    def _set(self, which: int, ratio: float) -> None:
        self.which, self.ratio = which, ratio
        c, s = self.scene.w1_direction
        normal = np.array((c, s, 0.0) if which == 1 else (-s, c, 0.0))
        reach = self.scene.points_ft() @ normal
        self._plane.SetOrigin(*(normal * (reach.min() + ratio * (reach.max() - reach.min()))))
        self._plane.SetNormal(*normal)
        for layer in self.layers:
            mapper = layer.actor.GetMapper()
            mapper.RemoveAllClippingPlanes()
            if which:
                mapper.AddClippingPlane(self._plane)
            if layer.mesh is not None and layer.opacity_ratio == 1.0:
                layer.actor.GetProperty().SetBackfaceCulling(not which)
