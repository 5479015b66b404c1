"""What the window adds to the model: the highlight, the suction arrows, the crosses of a storm, the measuring line."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import numpy as np
import pyvista as pv
from vtkmodules.vtkRenderingCore import vtkCellPicker

from viewer.meshes import Layer
from viewer.pieces import BOX_QUADS
from viewer.scene import BearingPoint, Point3, Scene
from viewer.suction import ARROW_FT, Suction

ARROW_RGB = "#7b1fa2"
CROSS_FT = 0.7
CLEAR_OF_TAG_FT = 0.25


class Props:
    """Named actors in one plotter: putting one of a name takes the earlier one away."""

    def __init__(self, plotter: Any) -> None:
        self.plotter = plotter
        self.actors: dict[str, Any] = {}

    def put(self, name: str, mesh: Any, **look: Any) -> None:
        """Shows a mesh under a name; None takes the name's earlier mesh away."""
        old = self.actors.pop(name, None)
        if old is not None:
            self.plotter.remove_actor(old, render=False)
        if mesh is not None:
            self.actors[name] = self.plotter.add_mesh(
                mesh, lighting=False, reset_camera=False, render=False, pickable=False, **look
            )

    def highlight(self, scene: Scene, name: str | None) -> None:
        """Draws the edges of every item of a mark or a node in black; of None, nothing."""
        picked = [i for i, item in enumerate(scene.items) if name is not None and name in (item.mark, item.node)]
        corners = scene.boxes.corners_ft()[np.isin(scene.boxes.item, picked)]
        if not len(corners):
            return self.put("highlight", None)
        faces = (np.arange(len(corners))[:, None, None] * 8 + BOX_QUADS).reshape(-1, 4)
        mesh = pv.PolyData.from_regular_faces(corners.reshape(-1, 3), faces)
        return self.put("highlight", mesh, style="wireframe", color="black", line_width=2.5)

    def arrows(self, suction: Suction | None, ratio: float) -> None:
        """Draws the suction grown by the ratio of the winds' pressures; of None, nothing."""
        if suction is None or not len(suction.psf) or ratio <= 0.0:
            return self.put("arrows", None)
        cloud = pv.PolyData(suction.foot_ft)
        cloud["length"] = suction.psf / suction.psf.max() * ARROW_FT * ratio
        cloud["normal"] = suction.normal
        shape = pv.Arrow(tip_resolution=8, shaft_resolution=6, shaft_radius=0.03, tip_radius=0.09)
        return self.put("arrows", cloud.glyph(orient="normal", scale="length", geom=shape), color=ARROW_RGB)

    def crosses(self, bearings: Iterable[BearingPoint]) -> None:
        """Draws an X of black lines on the plates of these bearings."""
        lines = []
        for b in bearings:
            out, side = np.array((*b.outward, 0.0)), np.array((-b.outward[1], b.outward[0], 0.0))
            at = np.array(b.point_ft) + out * CLEAR_OF_TAG_FT
            for sign in (-1.0, 1.0):
                reach = (side + sign * np.array((0.0, 0.0, 1.0))) * CROSS_FT
                lines += [at - reach, at + reach]
        mesh = pv.line_segments_from_points(np.array(lines)) if lines else None
        self.put("crosses", mesh, color="black", line_width=5)

    def measure(self, points_ft: Sequence[Point3]) -> None:
        """Draws the points that were picked, and the line between two of them, over everything."""
        if not points_ft:
            return self.put("measure", None)
        ends = np.array([*points_ft, *points_ft][:2])
        self.put("measure", pv.line_segments_from_points(ends), color="black", line_width=4)
        self.actors["measure"].GetProperty().SetVertexVisibility(True)
        self.actors["measure"].GetProperty().SetVertexColor(0.0, 0.0, 0.0)
        self.actors["measure"].GetProperty().SetPointSize(12)
        return None


def cell_under(plotter: Any, layers: Iterable[Layer], at_px: tuple[float, float]) -> tuple[Layer, int, Point3] | None:
    """The layer, the cell in it and the point that are seen at a place in the window, from its left and lower edge."""
    picker = vtkCellPicker()
    picker.SetTolerance(0.0005)
    picker.PickFromListOn()
    mine = [layer for layer in layers if layer.item is not None]
    for layer in mine:
        picker.AddPickList(layer.actor)
    picker.Pick(*at_px, 0.0, plotter.renderer)
    for layer in mine:
        if picker.GetActor() is layer.actor and picker.GetCellId() >= 0:
            x, y, z = picker.GetPickPosition()
            return layer, int(picker.GetCellId()), (x, y, z)
    return None
