"""Run -> roof.glb: the house as an open 3D model file (glTF 2.0 binary), every piece a closed solid with a name.

Metres and +Y up, as the format asks: x of the file is x of the plan, y is the height above the ground, z is minus y of
the plan, all times 0.3048. Coordinates of the file's world are the plan's; the root node carries the shift to W1's
start, so that the numbers in the arrays stay small and exact.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import numpy as np
import trimesh
from numpy.typing import NDArray

from export.walkthrough.glb_stages import with_stages
from framing.anchors.schedule import Mark
from framing.members import Member
from framing.run import CAUTION, Run
from viewer.colours import UNRESOLVED_RGB
from viewer.pieces import BOX_QUADS, Item, ItemKind
from viewer.scene import WEB_NOTE, Scene, build_scene

ARRAY_BUFFER, ELEMENT_ARRAY_BUFFER = 34962, 34963
"""What a part of the data is for. Source: glTF 2.0 specification, ISO/IEC 12113:2022, sec. 5.11.5 (from memory)."""
METRES_PER_FT = 0.3048
"""Exact by definition of the international foot. Source: NIST SP 811:2008, app B.6 (from memory)."""
ROOT = "house"
GROUPS: dict[ItemKind, str] = {
    ItemKind.GROUND: "site",
    ItemKind.FLOOR: "walls",
    ItemKind.WALL: "walls",
    ItemKind.SUPPORT: "supports",
    ItemKind.TIE_BEAM: "tie beam",
    ItemKind.ANCHOR: "anchors",
    ItemKind.CROSS: "anchors",
    ItemKind.MEMBER: "trusses",
    ItemKind.DECK: "deck",
    ItemKind.COVERING: "covering",
    ItemKind.OPENING: "walls",
    ItemKind.CLOSING: "finish",
    ItemKind.SOFFIT: "finish",
    ItemKind.FASCIA: "finish",
    ItemKind.NORTH: "site",
}
"""The node under which an item hangs. Tags are drawn for the eye and left out; a cross marks an unresolved bearing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """What a thing is made of, and how it looks."""

    name: str
    rgb: tuple[int, int, int]
    metallic_ratio: float = 0.0
    roughness_ratio: float = 0.9


CONCRETE = Material(name="concrete", rgb=(186, 186, 184))
FINISH = Material(name="finish", rgb=(240, 238, 232))
MATERIALS: dict[ItemKind, Material] = {
    ItemKind.GROUND: Material(name="ground", rgb=(196, 204, 182)),
    ItemKind.FLOOR: CONCRETE,
    ItemKind.WALL: Material(name="block", rgb=(226, 210, 184)),
    ItemKind.SUPPORT: Material(name="support", rgb=(205, 203, 197)),
    ItemKind.TIE_BEAM: CONCRETE,
    ItemKind.ANCHOR: Material(name="steel", rgb=(128, 138, 150), metallic_ratio=0.9, roughness_ratio=0.35),
    ItemKind.CROSS: Material(name="no anchor", rgb=UNRESOLVED_RGB),
    ItemKind.MEMBER: Material(name="wood", rgb=(222, 184, 122), roughness_ratio=0.8),
    ItemKind.DECK: Material(name="wood panel", rgb=(206, 178, 130), roughness_ratio=0.8),
    ItemKind.COVERING: Material(name="covering", rgb=(112, 120, 132)),
    ItemKind.OPENING: Material(name="door or window", rgb=(66, 78, 92), roughness_ratio=0.4),
    ItemKind.CLOSING: FINISH,
    ItemKind.SOFFIT: FINISH,
    ItemKind.FASCIA: FINISH,
    ItemKind.NORTH: Material(name="north", rgb=(78, 84, 88)),
}
STAGE_NODES = (
    ("site", "walls", "supports"),
    ("tie beam",),
    ("anchors",),
    ("trusses",),
    ("deck",),
    ("covering",),
    ("finish",),
)
"""The nodes that come down together, in the order of the build."""
BOX_TRIANGLES = np.concatenate((BOX_QUADS[:, (0, 1, 2)], BOX_QUADS[:, (0, 2, 3)]))
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def roof_glb(run: Run) -> bytes:
    """The model file of a run: equal runs give equal bytes.

    Nodes: `house` / `site`, `walls`, `supports`, `tie beam`, `anchors`, `trusses`, `deck`, `covering`, `finish`; in
    each one mesh a material, so that a viewer draws the house in few calls. What can be named stands beside it as a
    node without a mesh: a member's or anchor's figures and its triangles in that mesh are the `extras` of its node,
    the caution and the fingerprint those of `house`. The animation `stages` builds the house.
    """
    scene = build_scene(run)
    model: Any = trimesh.Scene()
    surfaces: Any = trimesh.visual
    shift_ft = np.array((*run.outline.walls[0].start_ft, 0.0))
    model.graph.update(frame_from="world", frame_to=ROOT, matrix=_shift(shift_ft), metadata=_root_words(run, scene))
    marks = {m.mark: m for m in run.schedule.marks}
    members = {m.name: m for m in run.framing.members}
    merged: dict[tuple[str, str], tuple[list[Floats], list[Ints]]] = {}
    known = {ROOT}
    for i, points_ft, triangles in _meshes(scene):
        item = scene.items[i]
        if item.kind not in GROUPS:
            continue
        parent, words = _group(model, known, item, members), _words(run, item, marks, members)
        if len(triangles):  # the format has no empty mesh
            group, material = GROUPS[item.kind], MATERIALS[item.kind].name
            points, faces = merged.setdefault((group, material), ([], []))
            words |= {"mesh": f"{group}: {material}", "first_triangle": sum(map(len, faces))}
            words["n_triangles"] = len(triangles)
            faces.append(triangles + sum(map(len, points)))
            points.append(points_ft)
        model.graph.update(frame_from=parent, frame_to=item.node, metadata=words)
    looks = {m.name: _material(m) for m in MATERIALS.values()}
    for (group, material), (points, faces) in merged.items():
        mesh = trimesh.Trimesh(
            vertices=_metres(np.concatenate(points) - shift_ft), faces=np.concatenate(faces), process=False
        )
        mesh.visual = surfaces.TextureVisuals(material=looks[material])
        name = f"{group}: {material}"
        model.add_geometry(mesh, node_name=name, geom_name=name, parent_node_name=group)
    data = model.export(
        file_type="glb", include_normals=False, tree_postprocessor=lambda tree: _sign(tree, run.version)
    )
    return with_stages(bytes(data), STAGE_NODES)


def _meshes(scene: Scene) -> Iterable[tuple[int, Floats, Ints]]:
    """The index, points and triangles of every item, in the scene's order."""
    corners, solids, n_items = scene.boxes.corners_ft(), scene.solids, len(scene.items)
    own_boxes, own_triangles = _rows_of_each(scene.boxes.item, n_items), _rows_of_each(solids.item, n_items)
    for i, (boxes, triangles) in enumerate(zip(own_boxes, own_triangles, strict=True)):
        points = corners[boxes].reshape(-1, 3)
        faces = (np.arange(len(boxes))[:, None, None] * 8 + BOX_TRIANGLES).reshape(-1, 3)
        if len(triangles):
            used, again = np.unique(solids.triangles[triangles], return_inverse=True)
            faces = np.concatenate((faces, again.reshape(-1, 3) + len(points)))
            points = np.concatenate((points, solids.points_ft[used]))
        yield i, points, faces


def _rows_of_each(item: NDArray[np.signedinteger[Any]], n_items: int) -> list[Ints]:
    """For every item the rows of a table that are its own, in their order."""
    order = np.argsort(item, kind="stable")
    return np.split(order, np.searchsorted(item[order], np.arange(1, n_items)))


def _metres(points_ft: Floats) -> Floats:
    """Plan feet with z up, in the format's metres with y up."""
    metres: Floats = points_ft[:, (0, 2, 1)] * np.array((1.0, 1.0, -1.0)) * METRES_PER_FT
    return metres


def _shift(by_ft: Floats) -> Floats:
    matrix = np.eye(4)
    matrix[:3, 3] = _metres(by_ft[None])[0]
    return matrix


def _material(material: Material) -> Any:
    """A surface; the format wants colours linear, not as a screen shows them."""
    screen = np.array(material.rgb) / 255
    linear = np.where(screen <= 0.04045, screen / 12.92, ((screen + 0.055) / 1.055) ** 2.4)
    library: Any = trimesh.visual.material
    return library.PBRMaterial(
        name=material.name,
        baseColorFactor=[*(round(float(c), 6) for c in linear), 1.0],
        metallicFactor=material.metallic_ratio,
        roughnessFactor=material.roughness_ratio,
        alphaMode="OPAQUE",
    )


def _group(model: Any, known: set[str], item: Item, members: dict[str, Member]) -> str:
    """The node under which an item hangs, made when it is first needed; members by their kind."""
    path = [GROUPS[item.kind]]
    if item.kind is ItemKind.MEMBER:
        path.append(f"{members[item.member].kind} trusses")
    parent = ROOT
    for name in path:
        if name not in known:
            known.add(name)
            model.graph.update(frame_from=parent, frame_to=name)
        parent = name
    return parent


def _root_words(run: Run, scene: Scene) -> dict[str, Any]:
    return {
        "caution": CAUTION,
        "notes": list(scene.notes),
        "project": run.plan.project.name,
        "revision": run.plan.project.revision,
        "fingerprint": run.fingerprint,
        "colours": "by material",
        "units": "metres; extras are in feet and pounds",
    }


def _words(run: Run, item: Item, marks: dict[str, Mark], members: dict[str, Member]) -> dict[str, Any]:
    """What a node says of itself: the schedule's words and figures."""
    if item.kind is ItemKind.MEMBER:
        member = members[item.member]
        mine = [m for m in run.schedule.marks if m.bearing.member == member.name]
        return {
            "member": member.name,
            "kind": str(member.kind),
            "plies": member.plies,
            "span_ft": member.span_ft,
            "carried_by": list(dict.fromkeys(c.name for c in member.carriers)),
            "marks": [m.mark for m in mine],
            "uplift_lb": [m.uplift_lb for m in mine],
            "webs": WEB_NOTE,
        }
    if not item.mark:
        return {"kind": str(item.kind)}
    mark = marks[item.mark]
    return {
        "mark": mark.mark,
        "member": mark.bearing.member,
        "station_ft": mark.bearing.station_ft,
        "strap_station_ft": mark.bearing.strap_station_ft,
        "strap_x_ft": mark.bearing.strap_ft[0],
        "strap_y_ft": mark.bearing.strap_ft[1],
        "side": str(mark.side),
        "uplift_lb": mark.uplift_lb,
        "down_lb": mark.down_lb,
        "case": mark.case,
        "anchor": mark.anchor.id if mark.anchor else "",
        "count": mark.count,
        "allowable_uplift_lb": mark.allowable_uplift_lb,
        "ratio": mark.ratio,
        "good_to_mph": mark.good_to_mph,
    }


def _sign(tree: dict[str, Any], version: str) -> None:
    """Says what wrote the file, and what each part of its data is for."""
    tree["asset"] = {"version": "2.0", "generator": f"strapline {version}", "extras": {"caution": CAUTION}}
    for mesh in tree["meshes"]:
        for primitive in mesh["primitives"]:
            for accessor in primitive["attributes"].values():
                _view_of(tree, accessor)["target"] = ARRAY_BUFFER
            _view_of(tree, primitive["indices"])["target"] = ELEMENT_ARRAY_BUFFER


def _view_of(tree: dict[str, Any], accessor: int) -> dict[str, Any]:
    view: dict[str, Any] = tree["bufferViews"][tree["accessors"][accessor]["bufferView"]]
    return view
