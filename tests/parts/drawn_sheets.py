"""Floor plans of invented houses as practice draws them, made with ezdxf from a seed.

Walls as double lines with openings, on one layer or several, in blocks, in any unit, among partitions, furniture,
doors, dimensions, hatches, splines, a porch on posts, steps, the lot and other plans. The outside face is known.
How people draw such sheets: common practice, no source.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence
from dataclasses import dataclass, field

import ezdxf
from ezdxf.document import Drawing
from shapely.geometry import Polygon

from parts.drawn_walls import CODE, NAMES, PER_IN, Manner, Pencil, Point, draw_house

HOUSES: tuple[tuple[Point, ...], ...] = (
    ((0, 0), (46, 0), (46, 30), (20, 30), (20, 22.5), (0, 22.5)),
    ((0, 0), (60, 0), (60, 28), (0, 28)),
    ((0, 0), (24, 0), (24, -8), (44, -8), (44, 0), (62, 0), (62, 32), (0, 32)),
    ((0, 0), (20, 0), (20, 16), (38, 16), (38, 0), (58, 0), (58, 34), (0, 34)),
    ((0, 0), (40, 0), (40, 10), (52, 10), (52, 36), (28, 36), (28, 44), (12, 44), (12, 36), (0, 36)),
    ((0, 0), (14, 0), (17, -3), (23, -3), (26, 0), (50, 0), (50, 30), (0, 30)),
)
"""Invented outlines in feet: an L, a rectangle, one with a front, one about a court, a cut-up one, one with a bay."""


def manner_of(seed: int) -> Manner:
    """A manner of drawing by chance, the same for the same seed."""
    r = random.Random(1000 + seed)
    return Manner(
        seed=seed,
        names=r.choice(list(NAMES)),
        unit=r.choice(list(PER_IN)),
        thick_in=r.choice((5.5, 6, 7.625, 8, 9.5, 12)),
        turn_deg=r.choice((0, 0, 0, 7, 90, 33)),
        mirrored=r.random() < 0.3,
        in_block=r.random() < 0.25,
        polylines=r.random() < 0.35,
        windows=r.choice(("lines", "block", "gap")),
        garage=r.random() < 0.5,
        porch=r.random() < 0.5,
        stairs=r.random() < 0.4,
        hatch=r.random() < 0.3,
        lot=r.random() < 0.5,
        frozen=r.random() < 0.3,
        copies=r.choice((0, 0, 0, 1, 2)),
        dimensions=r.random() < 0.6,
        free_wall=r.random() < 0.25,
        cut_at_partitions=r.random() < 0.4,
        far_away=r.random() < 0.2,
        said=r.choice(("right", "right", None, "in")),
    )


@dataclass
class Sheet:
    """A document with the true outside face in its own coordinates."""

    document: Drawing
    truth: Polygon
    per_in: float
    others: list[Polygon] = field(default_factory=list)


def sheet_of(house_ft: Sequence[Point], manner: Manner) -> Sheet:
    """A sheet with a house of that outside face, drawn in that manner."""
    rng = random.Random(manner.seed)
    document = ezdxf.new(manner.version, setup=["linetypes"])
    if manner.version != "R12":
        document.header["$INSUNITS"] = {"right": CODE[manner.unit], None: 0}.get(
            manner.said, CODE.get(manner.said or "", 0)
        )
    names, per_in = NAMES[manner.names], PER_IN[manner.unit]
    for name in dict.fromkeys((*names.values(), "OLD PLAN", "LOT", "ROOF ABOVE", "SHEET")):
        if name != "0":
            document.layers.add(name)
    away = (60_000.0, 180_000.0) if manner.far_away else (0.0, 0.0)
    house = Polygon([(x * 12.0, y * 12.0) for x, y in house_ft])
    model = document.modelspace()
    space = document.blocks.new("FLOOR PLAN") if manner.in_block else model
    pencil = Pencil(space, per_in, names, manner, (0.0, 0.0) if manner.in_block else away)
    draw_house(pencil, house, manner, rng)
    if manner.in_block:
        model.add_blockref("FLOOR PLAN", (away[0] * per_in, away[1] * per_in))
    around = Pencil(model, per_in, names, manner, away)
    draw_around(document, around, house, manner, rng)
    truth = Polygon([around.at((x, y)) for x, y in list(house.exterior.coords)[:-1]])
    sheet = Sheet(document=document, truth=truth, per_in=per_in)
    low, _, high, _ = truth.bounds
    width = (high - low) / per_in
    for k in range(manner.copies):
        beside = Pencil(model, per_in, names, manner, (away[0] + (width + 240.0) * (k + 1), away[1]))
        draw_house(beside, house, manner, rng)
        sheet.others.append(Polygon([beside.at((x, y)) for x, y in list(house.exterior.coords)[:-1]]))
    return sheet


def draw_around(document: Drawing, pencil: Pencil, house: Polygon, manner: Manner, rng: random.Random) -> None:
    """What stands about the house: porch, steps, lot, dimensions, an old plan on a frozen layer, a tree."""
    x0, y0, x1, y1 = house.bounds
    if manner.porch:
        _porch(pencil, house, manner)
    if manner.hatch:
        hatch = pencil.space.add_hatch(color=8, dxfattribs=pencil.look("wall"))
        ring = [pencil.at(p) for p in house.exterior.coords]
        inner = house.buffer(-manner.thick_in, join_style="mitre", mitre_limit=20.0)
        hatch.paths.add_polyline_path(ring, is_closed=True)
        if isinstance(inner, Polygon):
            hatch.paths.add_polyline_path([pencil.at(p) for p in inner.exterior.coords], is_closed=True, flags=16)
    if manner.lot:
        lot = [(x0 - 300, y0 - 420), (x1 + 260, y0 - 400), (x1 + 280, y1 + 500), (x0 - 310, y1 + 480)]
        pencil.path(lot, "LOT", closed=True)
        pencil.path(
            [(x0 - 600, y0 - 900), (x1 + 900, y0 - 900), (x1 + 900, y1 + 900), (x0 - 600, y1 + 900)],
            "SHEET",
            closed=True,
        )
        tree = [(x1 + 150 + 40 * math.cos(k), y1 + 200 + 40 * math.sin(k)) for k in range(7)]
        if document.dxfversion != "AC1009":
            pencil.space.add_spline([pencil.at(p) for p in tree], dxfattribs=pencil.look("LOT"))
    if manner.frozen:
        old = document.layers.get("OLD PLAN")
        old.freeze()
        for d in (0.0, manner.thick_in):
            grown = house.buffer(60.0 - d, join_style="mitre")
            pencil.path(list(grown.exterior.coords)[:-1], "OLD PLAN", closed=True)
    roof = house.buffer(24.0, join_style="mitre", mitre_limit=20.0)
    pencil.path(list(roof.exterior.coords)[:-1], "ROOF ABOVE", closed=True, linetype="DASHED")
    if manner.free_wall:
        a, (bx, by) = (x1, y1), (x1 + 168.0, y1 - manner.thick_in)
        pencil.line(a, (bx, y1), "wall")
        pencil.line((x1, by), (bx, by), "wall")
        pencil.line((bx, y1), (bx, by), "wall")
    if manner.dimensions and document.dxfversion != "AC1009":
        _dimensions(pencil, house, manner)


def _porch(pencil: Pencil, house: Polygon, manner: Manner) -> None:
    """A slab with posts and a dashed beam before the lowest side, and two steps."""
    corners = list(house.exterior.coords)
    sides = [(a, b) for a, b in itertools.pairwise(corners) if abs(a[1] - b[1]) < 1e-6]
    a, b = min(sides, key=lambda s: (s[0][1], -abs(s[1][0] - s[0][0]))) if sides else (corners[0], corners[1])
    left, right, y = min(a[0], b[0]), max(a[0], b[0]), a[1]
    left, right = left + 30.0, min(right - 30.0, left + 200.0)
    pencil.path([(left, y), (left, y - 96), (right, y - 96), (right, y)], "PORCH")
    for x in (left, (left + right) / 2 - 4, right - 8):
        pencil.path([(x, y - 96), (x + 8, y - 96), (x + 8, y - 88), (x, y - 88)], "wall", closed=True)
    for off in (96.0, 88.0):
        pencil.line((left, y - off), (right, y - off), "PORCH", linetype="DASHED")
    for off in (107.0, 118.0):
        pencil.line((left + 40, y - off), (right - 40, y - off), "PORCH")


def _dimensions(pencil: Pencil, house: Polygon, manner: Manner) -> None:
    x0, y0, x1, _y1 = house.bounds
    feet = manner.unit in ("in", "ft")

    def words(length_in: float) -> str:
        if feet:
            whole = round(length_in)
            return f"{whole // 12}'-{whole % 12}\""
        return f"{length_in * 25.4:.0f}" if manner.unit == "mm" else f"{length_in * 0.0254:.2f}"

    p, q = pencil.at((x0, y0 - 60)), pencil.at((x1, y0 - 60))
    dim = pencil.space.add_aligned_dim(
        p1=p, p2=q, distance=-30 * pencil.per_in, text=words(x1 - x0), dxfattribs=pencil.look("text")
    )
    dim.render()
