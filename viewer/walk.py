"""The window's own behaviour: keys, picking, stages, section cut. Loads pyvista, so `viewer.window` imports it late.

The lettering is one picture laid over the whole window, drawn by the same functions as the picture's; the model is
drawn in the part that the lettering leaves free.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import numpy as np
import pyvista as pv
from vtkmodules.vtkCommonDataModel import vtkPlane
from vtkmodules.vtkRenderingCore import vtkActor2D, vtkCellPicker, vtkImageMapper, vtkRenderer

from framing.run import Run
from viewer.camera import Camera, View, nearer, standard_camera, turned
from viewer.cards import Rows, bearing_card, member_card
from viewer.colours import ColourKey
from viewer.look import Look
from viewer.meshes import add_model, colour_model, set_camera, show_stage
from viewer.overlay import Frame, draw_hint, draw_labels, draw_panel, frame_sheet, place_labels
from viewer.pieces import BOX_QUADS
from viewer.scene import Point3, Scene
from viewer.stages import Stage

Word = TypeVar("Word")
NEAR_PX = 14.0
TURN_DEG = 7.5
NEARER_RATIO = 0.88
LABEL_PX = 13
HINT = "h: help   q: close"
CUTS = ("off", "across W1", "along W1")
HELP: Rows = (
    ("1 to 6", "build stage: walls, tie beam, anchors, trusses, deck, covering"),
    ("page up, page down", "next and earlier stage"),
    ("c", "next colouring"),
    ("v", "next standard view"),
    ("n, b", "next and earlier bearing, with its card"),
    ("m, k", "next and earlier member, with its card"),
    ("click", "card of the bearing or member under the pointer"),
    ("x", "section cut: off, across W1, along W1"),
    ("comma, period", "move the cut"),
    ("l", "labels on and off"),
    ("arrows, drag", "turn the model"),
    ("plus, minus, wheel", "nearer and farther"),
    ("escape", "put the card or this help away"),
    ("h", "this help"),
    ("q", "close the window"),
)


class Walk:
    """One open window (or, for tests, one off-screen plotter): its state and what each key does to it."""

    def __init__(self, run: Run, scene: Scene, look: Look, plotter: Any) -> None:
        self.run, self.scene, self.plotter = run, scene, plotter
        self.colour, self.view, self.stage = look.colour, look.view, look.stage
        self.labels_on, self.help_on = True, False
        self.bearing: int | None = None
        self.member: int | None = None
        self.cut, self.cut_ratio = 0, 0.5
        self.layers = add_model(plotter, scene)
        self._plane = vtkPlane()
        self._highlight: Any = None
        self._pressed: tuple[int, int] | None = None
        self._sheet_actor = self._add_sheet()
        self._actions = self._keys()
        self._set_colour(self.colour)
        self._set_stage(self.stage)
        self._set_view(self.view)

    def _keys(self) -> dict[str, Callable[[], None]]:
        """What each key does, by its X name; `HELP` says it in words."""
        bearings, members = len(self.scene.bearings), len(self.run.framing.members)
        return {
            **{str(s + 1): self._stage_setter(s) for s in Stage},
            "Next": lambda: self._set_stage(min(self.stage + 1, Stage.COVERING)),
            "Prior": lambda: self._set_stage(max(self.stage - 1, Stage.WALLS)),
            "c": lambda: self._set_colour(_after(list(ColourKey), self.colour)),
            "v": lambda: self._set_view(_after(list(View), self.view)),
            "n": lambda: self.point_at(bearing=_step(self.bearing, 1, bearings)),
            "b": lambda: self.point_at(bearing=_step(self.bearing, -1, bearings)),
            "m": lambda: self.point_at(member=_step(self.member, 1, members)),
            "k": lambda: self.point_at(member=_step(self.member, -1, members)),
            "x": lambda: self._set_cut((self.cut + 1) % len(CUTS), 0.5),
            "comma": lambda: self._set_cut(self.cut, max(self.cut_ratio - 0.04, 0.0)),
            "period": lambda: self._set_cut(self.cut, min(self.cut_ratio + 0.04, 1.0)),
            "l": self._toggle_labels,
            "h": self._toggle_help,
            "Escape": self._put_away,
            "Left": lambda: self._look_from(turned(self.camera(), -TURN_DEG, 0.0)),
            "Right": lambda: self._look_from(turned(self.camera(), TURN_DEG, 0.0)),
            "Up": lambda: self._look_from(turned(self.camera(), 0.0, TURN_DEG)),
            "Down": lambda: self._look_from(turned(self.camera(), 0.0, -TURN_DEG)),
            "plus": lambda: self._look_from(nearer(self.camera(), NEARER_RATIO)),
            "equal": lambda: self._look_from(nearer(self.camera(), NEARER_RATIO)),
            "KP_Add": lambda: self._look_from(nearer(self.camera(), NEARER_RATIO)),
            "minus": lambda: self._look_from(nearer(self.camera(), 1 / NEARER_RATIO)),
            "KP_Subtract": lambda: self._look_from(nearer(self.camera(), 1 / NEARER_RATIO)),
        }

    def press(self, key: str) -> None:
        """Does what a key (by its X name) means; an unknown key does nothing."""
        action = self._actions.get(key)
        if action is not None:
            action()
            self.refresh()

    def point_at(self, *, bearing: int | None = None, member: int | None = None) -> None:
        """Shows the card of a bearing or a member, by its place in the schedule or in the layout; of neither, none."""
        self.bearing, self.member = bearing, member
        if self._highlight is not None:
            self.plotter.remove_actor(self._highlight, render=False)
            self._highlight = None
        name = self._pointed_name()
        if name is None:
            return
        picked = [i for i, item in enumerate(self.scene.items) if name in (item.mark, item.node)]
        corners = self.scene.boxes.corners_ft()[np.isin(self.scene.boxes.item, picked)]
        faces = (np.arange(len(corners))[:, None, None] * 8 + BOX_QUADS).reshape(-1, 4)
        mesh = pv.PolyData.from_regular_faces(corners.reshape(-1, 3), faces)
        self._highlight = self.plotter.add_mesh(
            mesh, style="wireframe", color="black", line_width=2.5, lighting=False, reset_camera=False, render=False
        )

    def click(self, x_px: float, y_px: float) -> None:
        """Shows the card of what stands at a place in the window, in pixels from its left and top edge."""
        left, top, width, height = self._frame().model_px
        seen = self.camera().project(np.array([b.point_ft for b in self.scene.bearings]), width, height)
        distance = np.hypot(seen[:, 0] + left - x_px, seen[:, 1] + top - y_px)
        distance[[not self._is_kept(b.point_ft) for b in self.scene.bearings]] = np.inf
        if self.stage >= Stage.ANCHORS and len(distance) and distance.min() <= NEAR_PX:
            self.point_at(bearing=int(distance.argmin()))
        else:
            self.point_at(member=self._member_under(x_px, y_px))
        self.refresh()

    def camera(self) -> Camera:
        """Where the eye is now."""
        eye = self.plotter.camera
        return Camera(
            position_ft=eye.GetPosition(),
            focus_ft=eye.GetFocalPoint(),
            up=eye.GetViewUp(),
            view_angle_deg=eye.GetViewAngle(),
        )

    def card(self) -> Rows:
        """The rows of the card that is shown, none when nothing is pointed at."""
        if self.bearing is not None:
            return bearing_card(self.run.schedule.marks[self.bearing])
        return () if self.member is None else member_card(self.run, self.run.framing.members[self.member])

    def refresh(self, *, moving: bool = False) -> None:
        """Draws the lettering again; while the model moves, without the labels."""
        frame = self._frame()
        left, top, width, height = frame.model_px
        sheet = frame_sheet(self.scene, self.scene.colouring(self.colour), self.stage, frame)
        if self.labels_on and not moving:
            wanted = [
                label for label in self.scene.labels if label.stage <= self.stage and self._is_kept(label.point_ft)
            ]
            draw_labels(sheet, frame, place_labels(wanted, self.camera(), (width, height), LABEL_PX), LABEL_PX)
        rows = HELP if self.help_on else self.card()
        if rows:
            draw_panel(sheet, frame, rows, middle=self.help_on)
        draw_hint(sheet, frame, HINT)
        self.plotter.renderer.SetViewport(
            left / frame.width_px,
            1 - (top + height) / frame.height_px,
            (left + width) / frame.width_px,
            1 - top / frame.height_px,
        )
        pixels = np.asarray(sheet, np.uint8)[::-1].reshape(-1, 4)
        image = pv.ImageData(dimensions=(frame.width_px, frame.height_px, 1))
        image.point_data["rgba"] = pixels
        self._sheet_actor.GetMapper().SetInputData(image)
        self.plotter.render()

    def _frame(self) -> Frame:
        width, height = self.plotter.render_window.GetSize()
        return Frame(width_px=int(width), height_px=int(height))

    def _add_sheet(self) -> Any:
        """The layer of lettering over the whole window."""
        mapper = vtkImageMapper()
        mapper.SetColorWindow(255.0)
        mapper.SetColorLevel(127.5)
        actor = vtkActor2D()
        actor.SetMapper(mapper)
        over = vtkRenderer()
        over.SetLayer(1)
        over.InteractiveOff()
        over.AddViewProp(actor)
        window = self.plotter.render_window
        window.SetNumberOfLayers(2)
        window.AddRenderer(over)
        return actor

    def _pointed_name(self) -> str | None:
        if self.bearing is not None:
            return self.scene.bearings[self.bearing].mark
        return None if self.member is None else self.run.framing.members[self.member].name

    def _member_under(self, x_px: float, y_px: float) -> int | None:
        picker = vtkCellPicker()
        picker.SetTolerance(0.0005)
        picker.PickFromListOn()
        mine = [layer for layer in self.layers if layer.stage == Stage.TRUSSES and layer.stage <= self.stage]
        for layer in mine:
            picker.AddPickList(layer.actor)
        picker.Pick(x_px, self._frame().height_px - 1 - y_px, 0.0, self.plotter.renderer)
        for layer in mine:
            if picker.GetActor() is layer.actor and picker.GetCellId() >= 0:
                item = self.scene.items[int(layer.item[picker.GetCellId()])]
                return [m.name for m in self.run.framing.members].index(item.member)
        return None

    def _stage_setter(self, stage: Stage) -> Callable[[], None]:
        return lambda: self._set_stage(stage)

    def _set_stage(self, stage: int) -> None:
        self.stage = Stage(stage)
        show_stage(self.layers, self.stage)

    def _set_colour(self, colour: ColourKey) -> None:
        self.colour = colour
        colour_model(self.layers, self.scene.colouring(colour))

    def _set_view(self, view: View) -> None:
        self.view = view
        _, _, width, height = self._frame().model_px
        set_camera(self.plotter, self.scene, standard_camera(self.scene, view, width, height))

    def _set_cut(self, cut: int, ratio: float) -> None:
        """Cuts away what stands before an upright plane across W1 or along it."""
        self.cut, self.cut_ratio = cut, ratio
        c, s = self.scene.w1_direction
        normal = np.array((c, s, 0.0) if cut == 1 else (-s, c, 0.0))
        reach = self.scene.points_ft() @ normal
        origin = normal * (reach.min() + ratio * (reach.max() - reach.min()))
        self._plane.SetOrigin(*origin)
        self._plane.SetNormal(*normal)
        for layer in self.layers:
            mapper = layer.actor.GetMapper()
            mapper.RemoveAllClippingPlanes()
            if cut:
                mapper.AddClippingPlane(self._plane)
            if layer.mesh is not None and not layer.see_through:
                layer.actor.GetProperty().SetBackfaceCulling(not cut)

    def _is_kept(self, point_ft: Point3) -> bool:
        """Whether the cut leaves a point standing."""
        return not self.cut or self._plane.EvaluateFunction(*point_ft) >= 0.0

    def _toggle_labels(self) -> None:
        self.labels_on = not self.labels_on

    def _toggle_help(self) -> None:
        self.help_on = not self.help_on

    def _put_away(self) -> None:
        self.help_on = False
        self.point_at()

    def _look_from(self, camera: Camera) -> None:
        set_camera(self.plotter, self.scene, camera)


def _after(options: Sequence[Word], now: Word) -> Word:
    return options[(options.index(now) + 1) % len(options)]


def _step(now: int | None, by: int, n: int) -> int | None:
    """The place after or before the present one; the first or last where there is none yet."""
    if n == 0:
        return None
    return (0 if by > 0 else n - 1) if now is None else (now + by) % n


def new_window(size_px: tuple[int, int], title: str, *, off_screen: bool = False) -> Any:
    """An empty window in which a drag turns the model and never tips the ground."""
    plotter: Any = pv.Plotter(off_screen=off_screen, window_size=list(size_px), title=title, lighting="none")
    if not off_screen:
        plotter.enable_terrain_style(mouse_wheel_zooms=True, shift_pans=True)
    return plotter
