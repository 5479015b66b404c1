"""Where people look from: the standard views, fitted to the house, and where each point lands on the screen."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from viewer.pieces import Floats
from viewer.scene import Point3, Scene

VIEW_ANGLE_DEG = 24.0
LOWEST_DEG, HIGHEST_DEG = -10.0, 89.0
MARGIN_RATIO = 0.94
"""Share of the picture's width and height that the house may fill."""


class View(StrEnum):
    """The word people type to choose where to look from. Front faces W1; the others go round from there."""

    CORNER = "corner"
    OPPOSITE_CORNER = "opposite corner"
    FRONT = "front"
    RIGHT = "right"
    BACK = "back"
    LEFT = "left"
    PLAN = "plan"


TOWARD: dict[View, Point3] = {
    View.CORNER: (0.62, 0.95, -0.52),
    View.OPPOSITE_CORNER: (-0.62, -0.95, -0.52),
    View.FRONT: (0.0, 1.0, -0.06),
    View.RIGHT: (-1.0, 0.0, -0.06),
    View.BACK: (0.0, -1.0, -0.06),
    View.LEFT: (1.0, 0.0, -0.06),
    View.PLAN: (0.0, 0.0, -1.0),
}
"""Direction of sight of each view where W1 runs along +x; z up."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Camera:
    """An eye at `position_ft` that looks at `focus_ft`, `up` upward, through a view angle from bottom to top."""

    position_ft: Point3
    focus_ft: Point3
    up: Point3
    view_angle_deg: float = VIEW_ANGLE_DEG

    def axes(self) -> Floats:
        """Unit vectors (3, 3) as rows: right, up, and toward what is seen."""
        ahead = np.subtract(self.focus_ft, self.position_ft)
        ahead /= np.linalg.norm(ahead)
        right = np.cross(ahead, self.up)
        right /= np.linalg.norm(right)
        return np.stack((right, np.cross(right, ahead), ahead))

    def project(self, points_ft: Floats, width_px: int, height_px: int) -> Floats:
        """Where points (n, 3) land: x to the right and y down in pixels, and depth in feet (n, 3)."""
        seen = (np.asarray(points_ft, float).reshape(-1, 3) - self.position_ft) @ self.axes().T
        scale = height_px / 2 / math.tan(math.radians(self.view_angle_deg) / 2)
        depth = np.maximum(seen[:, 2], 1e-6)
        x = width_px / 2 + scale * seen[:, 0] / depth
        y = height_px / 2 - scale * seen[:, 1] / depth
        return np.stack((x, y, seen[:, 2]), axis=1)


def standard_camera(scene: Scene, view: View, width_px: int, height_px: int) -> Camera:
    """The camera of a standard view, as near as all of the house and its ground stay in the picture."""
    c, s = scene.w1_direction
    turn = np.array(((c, -s, 0.0), (s, c, 0.0), (0.0, 0.0, 1.0)))
    ahead = turn @ np.array(TOWARD[view])
    ahead /= np.linalg.norm(ahead)
    up = turn @ np.array((0.0, 1.0, 0.0) if view is View.PLAN else (0.0, 0.0, 1.0))
    right = np.cross(ahead, up) / np.linalg.norm(np.cross(ahead, up))
    points = scene.points_ft() @ np.stack((right, np.cross(right, ahead), ahead)).T
    tangent = math.tan(math.radians(VIEW_ANGLE_DEG) / 2) * MARGIN_RATIO
    eye = [0.0, 0.0, 0.0]
    back = []
    for axis, tan in ((0, tangent * width_px / height_px), (1, tangent)):
        # The eye must stand at or behind both lines of sight through the outermost points on either side.
        high = np.max(points[:, axis] - points[:, 2] * tan)
        low = np.min(points[:, axis] + points[:, 2] * tan)
        eye[axis] = float(high + low) / 2
        back.append(float(high - low) / 2 / tan)
    eye[2] = -max(back)
    axes = np.stack((right, np.cross(right, ahead), ahead))
    position = np.array(eye) @ axes
    distance = float(np.asarray(scene.centre_ft) @ ahead) - eye[2]
    return Camera(position_ft=_triple(position), focus_ft=_triple(position + ahead * distance), up=_triple(axes[1]))


def turned(camera: Camera, around_deg: float, up_deg: float) -> Camera:
    """The camera turned round its focus and raised, z staying up; never under the ground or over the top."""
    focus = np.array(camera.focus_ft)
    x, y, z = (float(v) for v in np.array(camera.position_ft) - focus)
    flat_ft = math.hypot(x, y)
    # Straight above there is no bearing; what is up on the screen then says which way the eye came from.
    bearing = math.atan2(y, x) if flat_ft > 1e-6 else math.atan2(-camera.up[1], -camera.up[0])
    bearing += math.radians(around_deg)
    height = math.radians(min(max(math.degrees(math.atan2(z, flat_ft)) + up_deg, LOWEST_DEG), HIGHEST_DEG))
    toward_eye = (math.cos(height) * math.cos(bearing), math.cos(height) * math.sin(bearing), math.sin(height))
    eye = focus + math.hypot(flat_ft, z) * np.array(toward_eye)
    return Camera(position_ft=_triple(eye), focus_ft=camera.focus_ft, up=(0.0, 0.0, 1.0))


def nearer(camera: Camera, ratio: float) -> Camera:
    """The camera at that share of its distance from its focus."""
    focus = np.array(camera.focus_ft)
    return replace(camera, position_ft=_triple(focus + (np.array(camera.position_ft) - focus) * ratio))


def _triple(xyz: Floats) -> Point3:
    x, y, z = (float(v) for v in xyz)
    return (x, y, z)
