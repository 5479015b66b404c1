"""Run -> Scene: frozen arrays, colours, labels and stages. No graphics library is needed to make or read one.

Shape of a scene (window, picture, page and model file are all made from it)
---------------------------------------------------------------------------
`items`      what a person can point at, in build order; everything else refers to an item by its index in it.
             `Item.node` is its name in the model file, unique; `mark` and `member` link to the schedule.
`boxes`      n closed boxes: `centre_ft` (n, 3) and three half-edge vectors `u_ft`, `v_ft`, `w_ft` (n, 3), right-handed,
             not always square to one another (top chords are cut plumb), so that a corner is centre ± u ± v ± w and
             the outward normals are ± v x w, ± w x u, ± u x v. `item` (n,) is the index of each one's item.
             Ground, inside supports, anchors, tags, crosses, members, openings and fascia are boxes.
`solids`     closed triangle meshes: `points_ft` (m, 3), `triangles` (k, 3) counter-clockwise from outside, `item` (k,).
             Floor, walls, tie beam, deck, covering, what closes the house and the north arrow are solids; items of kind
             ZONE are the deck once more, cut by the wind's zones, drawn in its place in that one colouring alone.
`colourings` five, each with `rgb` (n_items, 3) uint8, a title, a unit and its legend (a ramp with ticks, swatches).
`bearings`   one per row of the schedule and in its order: the mark, and where to point at it (on the tag's face).
`notes`      sentences that belong on every picture beside the caution.
`labels`     texts with a place and a rank, lowest first; whoever draws them drops the later where two would overlap.
`signs`      what became of each strap, only where a scene is coloured by state (`viewer.states`).

x and y are the plan's feet, z is feet above the ground; every array is read-only. What is said about an item is in
`viewer.cards`, what is said about a stage and how see-through it is in `viewer.stages`. Items of kind TAG are coloured
plates on the beam's outside face, because a true strap is too thin to see from the street; a CROSS is the shape of a
bearing that no anchor of the catalogue holds. Neither is a part of the house.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from framing.run import CAUTION, Run
from viewer.colours import Colouring, ColourKey, Rgb, colourings
from viewer.deck_zones import deck_by_zone, zone_letters
from viewer.finish import finish
from viewer.masonry import masonry, tie_beam_top_ft
from viewer.pieces import Boxes, Floats, Item, ItemKind, Solids, house_points_ft, join
from viewer.sheathing import sheathing
from viewer.signs import Shape
from viewer.site import site
from viewer.stages import Stage
from viewer.straps import straps
from viewer.timber import timber

WEB_NOTE = "The webs drawn inside the trusses are only a pattern; the truss engineer decides them."
TAG_NOTE = "The coloured plates on the beam are drawn for the eye; the straps themselves are drawn true."
POST_NOTE = "The posts drawn under a porch beam are only a pattern; the engineer decides them."
INVENTED_NOTE = "The anchors come from an invented sample catalogue and are for show only."
Point3 = tuple[float, float, float]
OWN_LABELS = (ColourKey.DECK, ColourKey.STATE)
"""The colourings that letter other things than the marks."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BearingPoint:
    """Where a row of the schedule is shown: the point to aim at, on its tag. Where `resolved` is False stands a cross.

    `outward` (x, y) is the unit direction in which the tag faces.
    """

    mark: str
    point_ft: Point3
    outward: tuple[float, float]
    resolved: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A text at a place that faces `outward` (x, y). By rank: unresolved marks, then walls, then marks by uplift.

    `zone` is the item that it letters where it names a zone of the deck, '' elsewhere; `only` the one colouring that it
    belongs to, None where it belongs to those of the marks. One that faces (0, 0) is seen from everywhere.
    """

    text: str
    point_ft: Point3
    outward: tuple[float, float]
    rank: int
    stage: Stage
    unresolved: bool
    zone: str = ""
    only: ColourKey | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Signed:
    """A sign of a strap's state, and where the strap stood before, None where that is the same. [ft]"""

    shape: Shape
    rgb: Rgb
    point_ft: Point3
    from_ft: Point3 | None


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Scene:
    """Everything that can be drawn of one run; see the top of this file for its shape.

    `centre_ft` and `radius_ft` are of a ball round the house without the ground; `w1_direction` (2,) is the unit
    vector along W1, by which standard views are turned.
    """

    title: str
    fingerprint: str
    caution: str
    notes: tuple[str, ...]
    items: tuple[Item, ...]
    boxes: Boxes
    solids: Solids
    colourings: tuple[Colouring, ...]
    bearings: tuple[BearingPoint, ...]
    labels: tuple[Label, ...]
    centre_ft: Point3
    radius_ft: float
    tie_beam_top_ft: float
    w1_direction: tuple[float, float]
    signs: tuple[Signed, ...] = ()

    def points_ft(self) -> Floats:
        """Every corner of every piece, the ground included: (n, 3) [ft]."""
        return np.concatenate((self.boxes.corners_ft().reshape(-1, 3), self.solids.points_ft))

    def colouring(self, key: ColourKey | str) -> Colouring:
        """The colouring of that key."""
        return next(c for c in self.colourings if c.key is ColourKey(key))

    def labels_of(self, key: ColourKey, stage: Stage) -> tuple[Label, ...]:
        """What a colouring letters up to a stage: its own labels and the walls, else those of the marks.

        The finished house is solid: a label of what it hides would stand on its roof.
        """
        last = Stage.WALLS if stage is Stage.FINISHED else stage
        shown = [n for n in self.labels if n.stage <= last]
        own = [n for n in shown if n.only is key and (stage is Stage.DECK or not n.zone)]
        return (*own, *(n for n in shown if n.only is None and (n.stage is Stage.WALLS or key not in OWN_LABELS)))


@lru_cache(maxsize=1)  # the model file and the walkthrough show the same one
def build_scene(run: Run) -> Scene:
    """The scene of a run: equal runs give equal arrays."""
    drawn = (masonry(run), straps(run), timber(run), sheathing(run), deck_by_zone(run), site(run), finish(run))
    parts = join(drawn)
    points = house_points_ft(parts.items, parts.boxes, parts.solids)
    low, high = points.min(axis=0), points.max(axis=0)
    bearings = _bearings(run, parts.items, parts.boxes)
    return Scene(
        title=f"{run.plan.project.name}, revision {run.plan.project.revision}".removesuffix(", revision "),
        fingerprint=run.fingerprint,
        caution=CAUTION,
        notes=(
            WEB_NOTE,
            TAG_NOTE,
            *((POST_NOTE,) if run.framing.porch_beams else ()),
            *((INVENTED_NOTE,) if run.schedule.catalogue.invented else ()),
            *((f"Truss package {run.reconciled.words}.",) if run.reconciled else ()),
            *run.wind_doubts,
        ),
        items=parts.items,
        boxes=parts.boxes,
        solids=parts.solids,
        colourings=colourings(run, parts.items),
        bearings=bearings,
        labels=_labels(run, bearings),
        centre_ft=_point((low + high) / 2),
        radius_ft=float(np.linalg.norm(high - low) / 2),
        tie_beam_top_ft=tie_beam_top_ft(run),
        w1_direction=run.outline.walls[0].direction,
    )


def _point(xyz: Floats) -> Point3:
    x, y, z = (float(v) for v in xyz)
    return (x, y, z)


def _bearings(run: Run, items: tuple[Item, ...], boxes: Boxes) -> tuple[BearingPoint, ...]:
    """One per row of the schedule; a tag's first edge is the way that it faces."""
    tags = {item.mark: i for i, item in enumerate(items) if item.kind is ItemKind.TAG}
    row = {int(i): k for k, i in enumerate(boxes.item)}
    points = []
    for mark in run.schedule.marks:
        k = row[tags[mark.mark]]
        x, y = (boxes.u_ft[k, :2] / np.linalg.norm(boxes.u_ft[k, :2])).tolist()
        point = _point(boxes.centre_ft[k] + boxes.u_ft[k])
        points.append(BearingPoint(mark=mark.mark, point_ft=point, outward=(x, y), resolved=mark.resolved))
    return tuple(points)


def _labels(run: Run, bearings: tuple[BearingPoint, ...]) -> tuple[Label, ...]:
    """Unresolved marks, then wall names, the other marks from the greatest uplift down, the deck's zones."""
    height_ft = run.plan.ground_to_floor_ft + run.plan.wall_height_ft / 3
    walls = [
        Label(
            text=w.name,
            point_ft=(*w.point_ft(w.length_ft / 2), height_ft),
            outward=w.outward,
            rank=0,
            stage=Stage.WALLS,
            unresolved=False,
        )
        for w in run.outline.walls
    ]
    lift = {m.mark: m.uplift_lb for m in run.schedule.marks}
    marks = [
        Label(
            text=b.mark,
            point_ft=b.point_ft,
            outward=b.outward,
            rank=0,
            stage=Stage.ANCHORS,
            unresolved=not b.resolved,
        )
        for b in sorted(bearings, key=lambda b: -round(lift[b.mark], 3))
    ]
    zones = [
        Label(
            text=z.text,
            point_ft=z.point_ft,
            outward=z.outward,
            rank=0,
            stage=Stage.DECK,
            unresolved=False,
            zone=z.node,
            only=ColourKey.DECK,
        )
        for z in zone_letters(run)
    ]
    order = [*(m for m in marks if m.unresolved), *walls, *(m for m in marks if not m.unresolved), *zones]
    return tuple(replace(label, rank=i) for i, label in enumerate(order))
