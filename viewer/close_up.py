"""'Look closer' in the window: one mark cut open in place of the house, its parts named, pull beside allowed."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import pyvista as pv
from PIL import Image, ImageDraw

from framing.run import Run
from viewer.camera import VIEW_ANGLE_DEG, Camera
from viewer.closer import EYE_FT, EYE_TILT, Closer, closers
from viewer.closer_parts import PART_RGB, Part
from viewer.closer_scene import heel_boxes
from viewer.closer_scene import placed as placed_pieces
from viewer.meshes import EDGE, Layer, set_camera
from viewer.overlay import INK, PAPER, Frame, letters
from viewer.panels import draw_panel
from viewer.pieces import BOX_QUADS, Floats, ItemKind, boxes_from
from viewer.scene import Scene

PAGE_ANGLE_DEG = 30.0
"""The view angle that `EYE_FT` is meant for."""
NAME_PX, LETTER_PX, BARS_PX = 24, 14, (330, 84)
HATCH_PX = 7
Names = tuple[tuple[str, Floats], ...]


class CloseUp:
    """Which mark is looked at closely, by its place in the schedule; None while the house is seen."""

    def __init__(self, run: Run, scene: Scene, plotter: Any, layers: Sequence[Layer]) -> None:
        self.run, self.scene, self.plotter, self.layers = run, scene, plotter, layers
        self.mark: int | None = None
        self._names: Names = ()
        self._actors: list[Any] = []
        self._hidden: list[Any] = []
        self._before: Camera | None = None

    def show(self, mark: int, camera: Camera) -> None:
        """Cuts a mark open in place of what is seen; `camera` is where the eye goes back to."""
        before = self._before or camera
        self.leave()
        self.mark, self._before = mark, before
        closer = closers(self.run)[mark]
        mesh, self._names = cutaway_mesh(self.run, self.scene, closer, mark)
        self._hidden = [a for a in self.plotter.renderer.GetActors() if a.GetVisibility()]
        for actor in self._hidden:
            actor.SetVisibility(False)
        shown = {"reset_camera": False, "render": False, "pickable": False, "show_scalar_bar": False}
        edges = mesh.extract_feature_edges(feature_angle=20.0)
        self._actors = [
            self.plotter.add_mesh(mesh, scalars="rgb", rgb=True, ambient=0.55, diffuse=0.6, specular=0.0, **shown),
            self.plotter.add_mesh(edges, color=EDGE, line_width=1.5, lighting=False, **shown),
        ]
        set_camera(self.plotter, self.scene, closer_camera(closer))

    def turn(self, walk: Any) -> None:
        """Cuts the bearing that is pointed at open, the first where none is; again, the house is back."""
        if self.mark is not None or not self.scene.bearings:
            return self.leave()
        mark = walk.bearing or 0
        walk.point_at(bearing=mark)
        return self.show(mark, walk.camera())

    def follow(self, mark: int | None, camera: Camera) -> None:
        """Goes on to the bearing that is pointed at now, and back to the house where none is."""
        if self.mark is not None and mark is not None:
            self.show(mark, camera)
        else:
            self.leave()

    def leave(self) -> None:
        """The house again, from where it was seen."""
        if self.mark is None:
            return
        for actor in self._actors:
            self.plotter.remove_actor(actor, render=False)
        for actor in self._hidden:
            actor.SetVisibility(True)
        if self._before is not None:
            set_camera(self.plotter, self.scene, self._before)
        self.mark, self._before, self._names = None, None, ()

    def letter(self, sheet: Image.Image, frame: Frame, camera: Camera) -> None:
        """Names the parts at the sides, says what is drawn, and draws pull beside allowed."""
        if self.mark is None:
            return
        draw_names(sheet, frame, self._names, camera)
        draw_panel(sheet, frame, (("", " ".join(closers(self.run)[self.mark].words)),), middle=False)
        mark = self.run.schedule.marks[self.mark]
        draw_pulls(sheet, frame, mark.uplift_lb, mark.allowable_uplift_lb)


def closer_camera(closer: Closer) -> Camera:
    """Where a mark is looked at from: out of its strap's face and a little above."""
    tall = max(0.0, closer.head_ft - 0.8)
    grown = math.tan(math.radians(PAGE_ANGLE_DEG) / 2) / math.tan(math.radians(VIEW_ANGLE_DEG) / 2)
    x, y, z = closer.at_ft
    focus = (x, y, z - 0.6 + tall / 2)
    reach = (EYE_FT + 2.4 * tall) * grown
    flat = reach * math.cos(EYE_TILT)
    eye = (x + closer.eye[0] * flat, y + closer.eye[1] * flat, focus[2] + reach * math.sin(EYE_TILT))
    return Camera(position_ft=eye, focus_ft=focus, up=(0.0, 0.0, 1.0))


def cutaway_mesh(run: Run, scene: Scene, closer: Closer, mark: int) -> tuple[Any, Names]:
    """A mark's cutaway as one coloured mesh, and what is named where."""
    boxes = scene.boxes
    own = [i for i, t in enumerate(scene.items) if t.kind is ItemKind.ANCHOR and t.mark == closer.mark]
    mine = np.isin(boxes.item, own)
    straps = np.stack([p[mine] for p in (boxes.centre_ft, boxes.u_ft, boxes.v_ft, boxes.w_ft)], 1)
    heel = heel_boxes(scene, closer, run.schedule.marks[mark].bearing.member)
    rows, parts, names = placed_pieces(closer, straps)
    parts = (*parts, *[Part.STRAP] * len(straps), *[Part.WOOD] * len(heel))
    table = np.concatenate((rows, straps, heel))
    corners = boxes_from(table, range(len(table))).corners_ft()
    faces = (np.arange(len(corners))[:, None, None] * 8 + BOX_QUADS).reshape(-1, 4)
    mesh = pv.PolyData.from_regular_faces(corners.reshape(-1, 3), faces)
    mesh.cell_data["rgb"] = np.repeat(np.array([PART_RGB[p] for p in parts], np.uint8), 6, axis=0)
    way = np.array((-closer.normal[1], closer.normal[0], 0.0))
    inward = way if float(way[:2] @ closer.across) < 0 else -way
    named = [("truss", np.array(closer.at_ft) + inward * 0.9 + (0.0, 0.0, 0.15))]
    if len(straps):
        front = straps[int(np.argmax(straps[:, 0, :2] @ closer.normal))]
        named.append(("strap", front[0] - front[3] / 2))
    return mesh, (*names, *named)


def draw_names(sheet: Image.Image, frame: Frame, names: Names, camera: Camera) -> None:
    """The names in two columns at the sides of the model's part, each with a line to its part."""
    left, top, width, height = frame.model_px
    draw, font = ImageDraw.Draw(sheet), letters(LETTER_PX)
    seen = camera.project(np.array([at for _, at in names]), width, height)
    placed = sorted((float(x), float(y), text) for (x, y, _), (text, _) in zip(seen, names, strict=True))
    high, deep, half = BARS_PX[1] + 20.0, height - 96.0, (len(placed) + 1) // 2
    pitch = min(NAME_PX, (deep - high) / max(half, 1))
    for right in (False, True):
        mine = sorted((y, x, text) for x, y, text in (placed[half:] if right else placed[:half]))
        low = high
        for k, (y, x, text) in enumerate(mine):
            wide = font.getlength(text) + 10
            low = min(max(low, y - pitch / 2), deep - pitch * (len(mine) - k))
            x0, y0 = left + (width - wide - 10 if right else 10), top + low
            low += pitch
            for line, ink in ((4, PAPER), (2, INK)):
                draw.line((x0 + (0 if right else wide), y0 + 10, left + x, top + y), fill=ink, width=line)
            draw.ellipse((left + x - 4, top + y - 4, left + x + 4, top + y + 4), fill=INK, outline=PAPER)
            draw.rectangle((x0, y0, x0 + wide, y0 + pitch - 4), fill=INK)
            draw.text((x0 + 5, y0 + pitch / 2 - 2), text, font=font, fill=PAPER, anchor="lm")


def draw_pulls(sheet: Image.Image, frame: Frame, pull_lb: float, allowed_lb: float | None) -> None:
    """Two bars at the upper left of the model's part, as long as their pounds; the allowed one is hatched."""
    left, top, room, _ = frame.model_px
    x, y, wide = left + 10, top + 8, min(BARS_PX[0], 0.42 * room)
    draw, font = ImageDraw.Draw(sheet), letters(LETTER_PX)
    draw.rectangle((x, y, x + wide, y + BARS_PX[1]), fill=PAPER, outline=INK)
    most = max(pull_lb, allowed_lb or 0.0, 1.0)
    for k, (word, pounds) in enumerate((("pull", pull_lb), ("allowed", allowed_lb))):
        y0 = y + 12 + 34 * k
        draw.text((x + 10, y0 + 13), word, font=font, fill=INK, anchor="lm")
        if pounds is None:
            draw.text((x + 74, y0 + 13), "the engineer decides", font=font, fill=INK, anchor="lm")
            continue
        end = x + 74 + (wide - 160) * pounds / most
        draw.rectangle((x + 74, y0, end, y0 + 26), fill=INK if k == 0 else PAPER, outline=INK, width=2)
        for at in np.arange(x + 74 + HATCH_PX, end - 2, HATCH_PX) if k else ():
            draw.line((float(at), y0 + 2, float(at), y0 + 24), fill=INK, width=1)
        draw.text((end + 8, y0 + 13), f"{pounds:,.0f} lb", font=font, fill=INK, anchor="lm")
