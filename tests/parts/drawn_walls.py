"""A floor plan as practice draws it, in a manner: walls as double lines with openings, partitions, rooms, furniture.

How people draw such plans: common practice, no source.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence
from dataclasses import dataclass

from ezdxf.layouts import BlockLayout
from shapely.geometry import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry

Point = tuple[float, float]
PER_IN = {"in": 1.0, "ft": 1 / 12, "mm": 25.4, "cm": 2.54, "m": 0.0254}
CODE = {"in": 1, "ft": 2, "mm": 4, "cm": 5, "m": 6}

KINDS = ("wall", "part", "door", "glaz", "furn", "text")
NAMES = {
    name: dict(zip(KINDS, layers, strict=True))
    for name, layers in {
        "plain": ("A-WALL", "A-WALL", "A-DOOR", "A-GLAZ", "A-FURN", "A-ANNO-TEXT"),
        "split": ("WALLS EXT", "WALLS INT", "DOORS", "WINDOWS", "FURNITURE", "TEXT"),
        "muro": ("MUROS", "TABIQUES", "PUERTAS", "VENTANAS", "MUEBLES", "TEXTOS"),
        "wand": ("Aussenwand", "Innenwand", "Türen", "Fenster", "Möbel", "Text"),
        "zero": ("0", "0", "0", "0", "0", "0"),
        "numbers": ("L1", "L1", "L2", "L3", "L4", "L5"),
    }.items()
}


@dataclass(frozen=True, kw_only=True)
class Manner:
    """How a sheet is drawn."""

    seed: int
    names: str = "plain"
    unit: str = "in"
    said: str | None = "right"  # the header's unit: right, none, or another one
    thick_in: float = 8.0
    turn_deg: float = 0.0
    mirrored: bool = False
    in_block: bool = False
    polylines: bool = False
    windows: str = "lines"  # or "block", "gap"
    garage: bool = False
    porch: bool = False
    stairs: bool = False
    hatch: bool = False
    lot: bool = False
    frozen: bool = False
    copies: int = 0
    dimensions: bool = False
    free_wall: bool = False
    cut_at_partitions: bool = False
    far_away: bool = False
    version: str = "R2010"


class Pencil:
    """Draws in inches of house into a block or the model, as the manner has it."""

    def __init__(self, space: BlockLayout, per_in: float, names: dict[str, str], turn: Manner, shift: Point) -> None:
        self.space, self.per_in, self.names, self.shift = space, per_in, names, shift
        self.c, self.s = math.cos(math.radians(turn.turn_deg)), math.sin(math.radians(turn.turn_deg))
        self.flip = -1.0 if turn.mirrored else 1.0

    def at(self, p: Point) -> Point:
        x, y = p[0] * self.flip, p[1]
        x, y = x * self.c - y * self.s + self.shift[0], x * self.s + y * self.c + self.shift[1]
        return (x * self.per_in, y * self.per_in)

    def look(self, what: str, **more: object) -> dict[str, object]:
        return {"layer": self.names.get(what, what), **more}

    def line(self, a: Point, b: Point, what: str, **more: object) -> None:
        self.space.add_line(self.at(a), self.at(b), dxfattribs=self.look(what, **more))

    def path(self, points: Sequence[Point], what: str, *, closed: bool = False, **more: object) -> None:
        if self.space.doc is not None and self.space.doc.dxfversion == "AC1009":
            self.space.add_polyline2d([self.at(p) for p in points], close=closed, dxfattribs=self.look(what, **more))
        else:
            self.space.add_lwpolyline([self.at(p) for p in points], close=closed, dxfattribs=self.look(what, **more))

    def arc(self, centre: Point, radius: float, start_deg: float, what: str) -> None:
        """A quarter of a circle, counter-clockwise from a direction, as it lies after turning and mirroring."""
        turned = math.degrees(math.atan2(self.s, self.c))
        start = (180.0 - start_deg - 90.0 if self.flip < 0 else start_deg) + turned
        self.space.add_arc(self.at(centre), radius * self.per_in, start, start + 90.0, dxfattribs=self.look(what))

    def text(self, at: Point, words: str, height_in: float = 6.0) -> None:
        self.space.add_text(
            words, height=height_in * self.per_in, dxfattribs={**self.look("text"), "insert": self.at(at)}
        )


@dataclass(frozen=True)
class Opening:
    """A gap in a wall: stations of its ends, and what stands in it."""

    low: float
    high: float
    what: str


def openings_of(length: float, manner: Manner, rng: random.Random, *, garage: bool, door: bool) -> list[Opening]:
    """Gaps along a wall, clear of its ends."""
    clear = manner.thick_in + 16.0
    out: list[Opening] = []
    at = clear
    if garage:
        out.append(Opening(at, at + 192.0, "garage"))
        at += 192.0 + 24.0
    while True:
        wide = 38.0 if door and not out else rng.choice((24.0, 36.0, 48.0, 60.0, 72.0))
        at += rng.uniform(12.0, 72.0)
        if at + wide > length - clear:
            return out
        out.append(Opening(at, at + wide, "door" if wide == 38.0 else "window"))
        at += wide


def draw_house(pencil: Pencil, house: Polygon, manner: Manner, rng: random.Random) -> None:
    """Walls, openings, partitions, rooms."""
    t = manner.thick_in
    inner = house.buffer(-t, join_style="mitre", mitre_limit=20.0)
    corners = list(house.exterior.coords)[:-1]
    if not house.exterior.is_ccw:
        corners.reverse()
    n = len(corners)
    lengths = [math.dist(corners[k], corners[(k + 1) % n]) for k in range(n)]
    longest = max(range(n), key=lengths.__getitem__)
    garage = -1
    if manner.garage:
        fits = [k for k in range(n) if lengths[k] > 260.0 and k != longest]
        garage = fits[0] if fits else longest
    gaps: list[Polygon] = []
    for k in range(n):
        a, b = corners[k], corners[(k + 1) % n]
        gaps += _wall(pencil, a, b, manner, rng, garage=k == garage and lengths[k] > 260.0, door=k == longest)
    cut = _union(gaps) if gaps else None
    parts = _partitions(pencil, inner, manner, rng)
    outer_face, inner_face = house.exterior, inner.boundary
    if cut is not None:
        outer_face, inner_face = outer_face.difference(cut), inner_face.difference(cut)
    if manner.cut_at_partitions and parts:
        inner_face = inner_face.difference(_union(parts).buffer(0.05))
    for line in _lines(outer_face):
        _face(pencil, line, manner)
    for line in _lines(inner_face):
        _face(pencil, line, manner)
    _rooms(pencil, inner, manner, rng)


def _union(shapes: Sequence[Polygon]) -> BaseGeometry:
    out: BaseGeometry = shapes[0]
    for shape in shapes[1:]:
        out = out.union(shape)
    return out


def _lines(shape: BaseGeometry) -> list[list[Point]]:
    if shape.is_empty:
        return []
    if hasattr(shape, "geoms"):
        return [line for part in shape.geoms for line in _lines(part)]
    return [list(shape.coords)]


def _face(pencil: Pencil, line: list[Point], manner: Manner) -> None:
    if manner.polylines:
        pencil.path(line, "wall")
        return
    for a, b in itertools.pairwise(line):
        pencil.line(a, b, "wall")


def _wall(
    pencil: Pencil, a: Point, b: Point, manner: Manner, rng: random.Random, *, garage: bool, door: bool
) -> list[Polygon]:
    """Draw what stands in the openings of a wall; the gaps to be cut out of its faces."""
    length, t = math.dist(a, b), manner.thick_in
    u = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    n = (-u[1], u[0])

    def at(along: float, inward: float) -> Point:
        return (a[0] + u[0] * along + n[0] * inward, a[1] + u[1] * along + n[1] * inward)

    gaps = []
    for o in openings_of(length, manner, rng, garage=garage, door=door):
        gaps.append(Polygon([at(o.low, -1), at(o.high, -1), at(o.high, t + 1), at(o.low, t + 1)]))
        for end in (o.low, o.high):
            pencil.line(at(end, 0), at(end, t), "wall")
        if o.what == "window":
            _window(pencil, at, o, manner)
        elif o.what == "door":
            wide = o.high - o.low
            pencil.line(at(o.low, t), at(o.low, t + wide), "door")
            pencil.arc(at(o.low, t), wide, math.degrees(math.atan2(u[1], u[0])), "door")
            pencil.line(at(o.low, 0), at(o.high, 0), "door")
        else:
            pencil.line(at(o.low, t / 2), at(o.high, t / 2), "door")
    return gaps


def _window(pencil: Pencil, at: object, o: Opening, manner: Manner) -> None:
    t = manner.thick_in
    if manner.windows == "gap":
        return
    if manner.windows == "block":
        document = pencil.space.doc
        name = f"WIN{round(o.high - o.low)}"
        if name not in document.blocks:
            block = document.blocks.new(name)
            wide = (o.high - o.low) * pencil.per_in
            for off in (0.0, 0.5, 1.0):
                block.add_line((0, off * t * pencil.per_in), (wide, off * t * pencil.per_in))
        low, high = pencil.at(at(o.low, 0)), pencil.at(at(o.high, 0))  # type: ignore[operator]
        inside = pencil.at(at(o.low, t))  # type: ignore[operator]
        angle = math.degrees(math.atan2(high[1] - low[1], high[0] - low[0]))
        turn = (high[0] - low[0]) * (inside[1] - low[1]) - (high[1] - low[1]) * (inside[0] - low[0])
        pencil.space.add_blockref(
            name, low, dxfattribs={**pencil.look("glaz"), "rotation": angle, "yscale": 1.0 if turn > 0 else -1.0}
        )
        return
    for off in (0.0, t * 0.4, t * 0.6, t):
        pencil.line(at(o.low, off), at(o.high, off), "glaz")  # type: ignore[operator]


def _partitions(pencil: Pencil, inner: BaseGeometry, manner: Manner, rng: random.Random) -> list[Polygon]:
    """Walls of 4 1/2 in. across the house, each with a doorway."""
    x0, y0, x1, y1 = inner.bounds
    out = []
    for k in range(rng.choice((1, 2, 3))):
        x = x0 + (x1 - x0) * (k + 1) / 4.0 + rng.uniform(-18, 18)
        strip = inner.intersection(box(x, y0 - 9, x + 4.5, y1 + 9))
        for part in getattr(strip, "geoms", [strip]):
            if part.is_empty or part.bounds[3] - part.bounds[1] < 80.0:
                continue
            low, high = part.bounds[1], part.bounds[3]
            door = low + rng.uniform(20.0, high - low - 56.0) if high - low > 90.0 else low + 20.0
            gap = box(x - 1, door, x + 5.5, door + 32.0)
            for line in _lines(LineString([(x, low - 60), (x, high + 60)]).intersection(part).difference(gap)):
                pencil.line(line[0], line[-1], "part")
            for line in _lines(
                LineString([(x + 4.5, low - 60), (x + 4.5, high + 60)]).intersection(part).difference(gap)
            ):
                pencil.line(line[0], line[-1], "part")
            for y in (door, door + 32.0):
                pencil.line((x, y), (x + 4.5, y), "part")
            pencil.arc((x + 4.5, door), 32.0, 0.0, "door")
            pencil.line((x + 4.5, door), (x + 36.5, door), "door")
            out.append(part)
    return out


ROOMS = ("KITCHEN", "LIVING", "BED 1", "BED 2", "BATH", "LAUNDRY")


def _rooms(pencil: Pencil, inner: BaseGeometry, manner: Manner, rng: random.Random) -> None:
    """Words, a bed, a table, a counter along a wall, stairs."""
    x0, y0, x1, y1 = inner.bounds
    for words in ROOMS:
        p = (rng.uniform(x0 + 40, x1 - 80), rng.uniform(y0 + 40, y1 - 40))
        if inner.contains(LineString([p, (p[0] + 40, p[1])])):
            pencil.text(p, words)
    for wide, deep in ((60.0, 80.0), (36.0, 60.0), (18.0, 18.0), (30.0, 30.0), (24.0, 72.0)):
        p = (rng.uniform(x0 + 30, x1 - 120), rng.uniform(y0 + 30, y1 - 120))
        ring = [p, (p[0] + wide, p[1]), (p[0] + wide, p[1] + deep), (p[0], p[1] + deep)]
        if inner.contains(Polygon(ring)):
            pencil.path(ring, "furn", closed=True)
            pencil.path(
                [(x + (4 if x == p[0] else -4), y + (4 if y == p[1] else -4)) for x, y in ring], "furn", closed=True
            )
    if manner.stairs:
        p = (x0 + 60.0, y0 + 60.0)
        if inner.contains(box(p[0], p[1], p[0] + 110, p[1] + 36)):
            for k in range(11):
                pencil.line((p[0] + 10 * k, p[1]), (p[0] + 10 * k, p[1] + 36), "furn")
