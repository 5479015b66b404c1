"""Run -> roof.glb: the house as an open 3D model file (glTF 2.0 binary), every piece a closed solid with a name.

Metres and +Y up, as the format asks: x of the file is x of the plan, y is the height above the ground, z is minus y of
the plan, all times 0.3048. Coordinates of the file's world are the plan's; the root node carries the shift to W1's
start, so that the numbers in the arrays stay small and exact.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

import numpy as np
from numpy.typing import NDArray

from export.walkthrough.glb_file import Material, Node, Solid, glb
from framing.anchors.schedule import Mark
from framing.members import Member
from framing.run import CAUTION, Run
from viewer.colours import ColourKey
from viewer.pieces import BOX_QUADS, Item, ItemKind
from viewer.scene import WEB_NOTE, Scene, build_scene
from viewer.stages import STAGES

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
BOX_TRIANGLES = np.concatenate((BOX_QUADS[:, (0, 1, 2)], BOX_QUADS[:, (0, 2, 3)]))
Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def roof_glb(run: Run) -> bytes:
    """The model file of a run: equal runs give equal bytes.

    Nodes: `house` / `site`, `walls`, `tie beam`, `anchors`, `trusses` / one group per kind, `deck`, `covering`; a
    member's or anchor's figures are the `extras` of its node, the caution and the fingerprint those of `house`.
    """
    scene = build_scene(run)
    colouring = scene.colouring(ColourKey.UPLIFT)
    shift_ft = np.array((*run.outline.walls[0].start_ft, 0.0))
    marks = {m.mark: m for m in run.schedule.marks}
    members = {m.name: m for m in run.framing.members}
    nodes = {ROOT: Node(name=ROOT, parent="", says=_root_words(run, scene))}
    for i, points_ft, triangles in _meshes(scene):
        item = scene.items[i]
        if item.kind not in GROUPS:
            continue
        look = Material(rgb=tuple(colouring.rgb[i].tolist()), opacity_ratio=STAGES[item.stage].opacity_ratio)
        parent = ROOT
        for group in _groups(item, members):
            nodes.setdefault(group, Node(name=group, parent=parent, says={}))
            parent = group
        nodes[item.node] = Node(
            name=item.node,
            parent=parent,
            says=_words(run, item, marks, members),
            solid=_solid(points_ft - shift_ft, triangles, look),
        )
    asset = {"generator": f"strapline {run.version}", "extras": {"caution": CAUTION}}
    return glb(tuple(nodes.values()), _metres(shift_ft[None])[0], asset)


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


def _solid(points_ft: Floats, triangles: Ints, look: Material) -> Solid | None:
    """What is drawn of an item; nothing where a house has none of it, since the format has no empty mesh."""
    return Solid(points_m=_metres(points_ft), triangles=triangles, material=look) if len(triangles) else None


def _groups(item: Item, members: dict[str, Member]) -> tuple[str, ...]:
    """The nodes under which an item hangs, from the root on; members by their kind."""
    if item.kind is ItemKind.MEMBER:
        return (GROUPS[item.kind], f"{members[item.member].kind} trusses")
    return (GROUPS[item.kind],)


def _root_words(run: Run, scene: Scene) -> dict[str, Any]:
    return {
        "caution": CAUTION,
        "notes": list(scene.notes),
        "project": run.plan.project.name,
        "revision": run.plan.project.revision,
        "fingerprint": run.fingerprint,
        "colours": f"{scene.colouring(ColourKey.UPLIFT).title}, lb",
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
