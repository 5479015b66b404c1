"""Scene -> pyvista: one mesh per build stage and manner of drawing, coloured cell by cell.

Never one actor per member: measured at 1,300 members, that takes nine times as long to the first picture.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Any

import numpy as np
import pyvista as pv

from viewer.camera import Camera
from viewer.colours import Colouring, ColourKey
from viewer.pieces import BOX_QUADS, ItemKind
from viewer.ramp import Bytes
from viewer.scene import Scene
from viewer.sheathing import LIFT_FT
from viewer.stages import STAGES, Stage

FLAT_KINDS = (ItemKind.TAG, ItemKind.CROSS, ItemKind.ZONE)
"""Drawn without shading, so that their colour is exactly the legend's."""
SKY = "#f6f8fa"
EDGE = "#606266"
ZONE_EDGE = "#ffffff"
"""Every colour that a zone can have is darker."""
LIGHTS = (((-0.45, 0.6, 1.0), 0.85), ((1.0, 0.3, 0.8), 0.25))
"""Where from (right, up, toward the eye) and how bright; they go with the eye, so that no view is in the dark."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Layer:
    """One mesh of the model: its stage, its actor, the item of each of its cells; edges have neither mesh nor item.

    `opacity_ratio` is how solid it is drawn until the house is finished. `kind` is DECK or ZONE where the mesh is one
    of the two ways to draw the deck, else None.
    """

    stage: Stage
    opacity_ratio: float
    kind: ItemKind | None
    mesh: Any
    actor: Any
    item: Any


def model_pixels(scene: Scene, colouring: Colouring, stage: Stage, camera: Camera, size_px: tuple[int, int]) -> Bytes:
    """The model alone, drawn off screen: (height, width, 3) uint8."""
    plotter = pv.Plotter(off_screen=True, window_size=list(size_px), lighting="none")
    try:
        plotter.enable_anti_aliasing("ssaa")
        layers = add_model(plotter, scene)
        colour_model(layers, colouring)
        show_stage(layers, stage, colouring.key)
        set_camera(plotter, scene, camera)
        return np.asarray(plotter.screenshot(return_img=True), np.uint8)
    finally:
        plotter.close()


def add_model(plotter: Any, scene: Scene) -> tuple[Layer, ...]:
    """The whole scene as few meshes, uncoloured, in a pyvista plotter."""
    plotter.set_background(SKY)
    for position, intensity in LIGHTS:
        plotter.add_light(pv.Light(position=position, intensity=intensity, light_type="camera light"))
    stage = np.array([i.stage for i in scene.items])
    flat, zone = (np.array([i.kind in kinds for i in scene.items]) for kinds in (FLAT_KINDS, (ItemKind.ZONE,)))
    corners = scene.boxes.corners_ft()
    layers = []
    for text in STAGES:
        whole = ItemKind.DECK if text.stage is Stage.DECK else None
        for kind, is_flat in ((whole, False), (whole, True), (ItemKind.ZONE, True)):
            opacity_ratio = 1.0 if kind is ItemKind.ZONE else text.opacity_ratio
            layer = partial(Layer, stage=text.stage, opacity_ratio=opacity_ratio, kind=kind)
            wanted = (stage == text.stage) & (flat == is_flat) & (zone == (kind is ItemKind.ZONE))
            box, triangle = wanted[scene.boxes.item], wanted[scene.solids.item]
            pieces = []
            if box.any():
                faces = (np.arange(int(box.sum()))[:, None, None] * 8 + BOX_QUADS).reshape(-1, 4)
                mesh = pv.PolyData.from_regular_faces(corners[box].reshape(-1, 3), faces)
                pieces.append((mesh, np.repeat(scene.boxes.item[box], 6)))
            if triangle.any():
                mesh = pv.PolyData.from_regular_faces(scene.solids.points_ft, scene.solids.triangles[triangle])
                pieces.append((mesh, scene.solids.item[triangle]))
            for mesh, item in pieces:
                actor = _surface(plotter, mesh, len(item), is_flat, opacity_ratio)
                layers.append(layer(mesh=mesh, actor=actor, item=item))
            if triangle.any():
                edges = mesh.extract_feature_edges(feature_angle=20.0)
                if kind is ItemKind.ZONE:
                    edges.points[:, 2] += LIFT_FT
                ink, width = (ZONE_EDGE, 3.0) if kind is ItemKind.ZONE else (EDGE, 1.5)
                actor = plotter.add_mesh(edges, color=ink, line_width=width, lighting=False, reset_camera=False)
                layers.append(layer(mesh=None, actor=actor, item=None))
    return tuple(layers)


def _surface(plotter: Any, mesh: Any, n_cells: int, is_flat: bool, opacity_ratio: float) -> Any:
    """Adds a mesh that is coloured cell by cell; its actor."""
    mesh.cell_data["rgb"] = np.full((n_cells, 3), 128, np.uint8)
    return plotter.add_mesh(
        mesh,
        scalars="rgb",
        rgb=True,
        lighting=not is_flat,
        ambient=1.0 if is_flat else 0.55,
        diffuse=0.0 if is_flat else 0.6,
        specular=0.0,
        opacity=opacity_ratio,
        culling="back",
        show_scalar_bar=False,
        reset_camera=False,
        render=False,
    )


def colour_model(layers: tuple[Layer, ...], colouring: Colouring) -> None:
    """Gives every cell its item's colour."""
    for layer in layers:
        if layer.mesh is None:
            continue
        layer.mesh.cell_data["rgb"][:] = colouring.rgb[layer.item]
        layer.mesh.GetCellData().Modified()
        layer.mesh.Modified()


def show_stage(layers: tuple[Layer, ...], stage: Stage, key: ColourKey) -> None:
    """Shows every layer up to a stage and hides the others, the finished house solid; of the deck, whole and by zones,
    one.
    """
    other = ItemKind.DECK if key is ColourKey.DECK and stage is Stage.DECK else ItemKind.ZONE
    for layer in layers:
        layer.actor.SetVisibility(layer.stage <= stage and layer.kind is not other)
        if layer.mesh is not None:
            layer.actor.GetProperty().SetOpacity(1.0 if stage is Stage.FINISHED else layer.opacity_ratio)


def set_camera(plotter: Any, scene: Scene, camera: Camera) -> None:
    """Puts the plotter's eye where the camera says."""
    eye = plotter.camera
    eye.SetPosition(*camera.position_ft)
    eye.SetFocalPoint(*camera.focus_ft)
    eye.SetViewUp(*camera.up)
    eye.SetViewAngle(camera.view_angle_deg)
    far = float(np.linalg.norm(np.subtract(camera.position_ft, scene.centre_ft))) + 4 * scene.radius_ft
    eye.SetClippingRange(max(far / 400, 0.05), far)
