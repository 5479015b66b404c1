"""The window itself and the layer of lettering that lies over all of it."""

from __future__ import annotations

from typing import Any

import numpy as np
import pyvista as pv
from PIL import Image
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkImageMapper, vtkRenderer

from viewer.overlay import Frame


def new_window(size_px: tuple[int, int], title: str, *, off_screen: bool = False) -> Any:
    """An empty window in which a drag turns the model and never tips the ground."""
    plotter: Any = pv.Plotter(off_screen=off_screen, window_size=list(size_px), title=title, lighting="none")
    if not off_screen:
        plotter.enable_terrain_style(mouse_wheel_zooms=True, shift_pans=True)
    return plotter


class SheetLayer:
    """A picture over the whole window, with the model seen through the part of it that is clear."""

    def __init__(self, plotter: Any) -> None:
        self.plotter = plotter
        self._mapper = vtkImageMapper()
        self._mapper.SetColorWindow(255.0)
        self._mapper.SetColorLevel(127.5)
        actor = vtkActor2D()
        actor.SetMapper(self._mapper)
        over = vtkRenderer()
        over.SetLayer(1)
        over.InteractiveOff()
        over.AddViewProp(actor)
        plotter.render_window.SetNumberOfLayers(2)
        plotter.render_window.AddRenderer(over)

    def show(self, sheet: Image.Image, frame: Frame) -> None:
        """Lays a sheet over the window and puts the model into its clear part."""
        left, top, width, height = frame.model_px
        self.plotter.renderer.SetViewport(
            left / frame.width_px,
            1 - (top + height) / frame.height_px,
            (left + width) / frame.width_px,
            1 - top / frame.height_px,
        )
        image = pv.ImageData(dimensions=(frame.width_px, frame.height_px, 1))
        image.point_data["rgba"] = np.asarray(sheet, np.uint8)[::-1].reshape(-1, 4)
        self._mapper.SetInputData(image)
        self.plotter.render()
