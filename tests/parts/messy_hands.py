"""Houses as drawings arrive: chopped by a converter, tiled, paved, with rows of dimensions; and with parts that a wall
cuts off, of which nobody but a person knows whether the roof is over them.

How people draw such sheets: common practice, no source.
"""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Sequence

from ezdxf.document import Drawing
from ezdxf.layouts import BlockLayout
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from parts.drawn_sheets import Sheet
from parts.wall_pieces import THICK_IN, Point, faces, house_of, new, openings_of, sides_of, walls_of


def drawn(number: int) -> tuple[Polygon, Drawing]:
    """A house of double lines on layer 0."""
    house, document = house_of(number), new()
    outside, inside = walls_of(house)
    faces(document.modelspace(), (*outside, *inside), "0")
    return house, document


def of(house: Polygon, document: Drawing) -> Sheet:
    return Sheet(document=document, truth=house, per_in=1.0)


def within(space: BlockLayout, lines: Sequence[LineString], shape: Polygon) -> None:
    """What of some lines lies in a shape."""
    for line in lines:
        part = line.intersection(shape)
        for piece in getattr(part, "geoms", [part]):
            if piece.length > 0.3:
                space.add_line(piece.coords[0], piece.coords[-1])


def grid(bounds: tuple[float, float, float, float], step: float) -> list[LineString]:
    x0, y0, x1, y1 = bounds
    across = [LineString([(x0 + step * k, y0), (x0 + step * k, y1)]) for k in range(int((x1 - x0) / step) + 1)]
    return across + [LineString([(x0, y0 + step * k), (x1, y0 + step * k)]) for k in range(int((y1 - y0) / step) + 1)]


def chopped() -> Sheet:
    """Every line in pieces a hair askew, the eave as dashes of their own, words as strokes: a converted print."""
    dice, house, document = random.Random(3), house_of(0), new()
    space = document.modelspace()

    def chop(a: Point, b: Point, piece: tuple[float, float], gap: tuple[float, float], askew: float) -> None:
        long, at = math.dist(a, b), 0.0
        u = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
        while at < long - 1e-6:
            end = min(long, at + dice.uniform(*piece))
            ends = [
                tuple(p + w * t + dice.uniform(-askew, askew) for p, w in zip(a, u, strict=True)) for t in (at, end)
            ]
            space.add_line(*[(x + dice.uniform(-askew, askew), y + dice.uniform(-askew, askew)) for x, y in ends])
            at = end + dice.uniform(*gap)

    outside, inside = walls_of(house)
    for a, b in (side for shape in (*outside, *inside) for side in sides_of(shape)):
        chop(a, b, (8.0, 40.0), (0.0, 0.06), 0.04)
    for a, b in sides_of(house.buffer(24.0, join_style="mitre")):
        chop(a, b, (6.0, 6.0), (3.0, 3.0), 0.0)
    for _ in range(40):
        x, y = dice.uniform(60, 400), dice.uniform(60, 200)
        for k in range(8):
            space.add_line((x + k * 4, y), (x + k * 4 + dice.uniform(0, 3), y + 6))
            space.add_line((x + k * 4, y + 3), (x + k * 4 + 3, y + 3))
    return of(house, document)


def hatched_by_lines() -> Sheet:
    """Walls filled with lines at 45 degrees, on the walls' layer."""
    house, document = drawn(0)
    x0, y0, x1, y1 = house.bounds
    slanted = [LineString([(y0 + k, y0), (y1 + k, y1)]) for k in range(round(x0 - y1), round(x1 - y0), 2)]
    for wall in (*walls_of(house)[0], *walls_of(house)[1]):
        within(document.modelspace(), slanted, wall)
    return of(house, document)


def tiled() -> Sheet:
    """Tiles of a foot all over the floor, their first lines on the walls' faces, on the walls' layer."""
    house, document = drawn(0)
    inner = house.buffer(-THICK_IN, join_style="mitre")
    within(document.modelspace(), grid(inner.bounds, 12.0), inner)
    return of(house, document)


def paved() -> Sheet:
    """Slabs of a foot before the front, whose joints run on in the walls' own lines."""
    house, document = drawn(0)
    x0, y0, x1, _ = house.bounds
    court = (x0, y0 - 144.0, x1, y0)
    within(document.modelspace(), grid(court, 12.0), box(*court))
    return of(house, document)


def with_sills() -> Sheet:
    """A sill, closed, 3 in. before every opening and past both its ends."""
    house, document = drawn(0)
    for gap, _ in openings_of(house):
        for a, b in sides_of(gap.buffer(3.0, join_style="mitre").difference(house)):
            document.modelspace().add_line(a, b)
    return of(house, document)


def rows_of_dimensions(
    number: int, offs_in: Sequence[float], *, chained: bool, extended: bool, blank: bool = False
) -> Sheet:
    """Rows of lines all round, the first broken at the openings if `chained`, with lines out to them if `extended`;
    with a `blank` front no opening tells what they are.
    """
    house, document = house_of(number), new()
    space, (x0, y0, x1, y1) = document.modelspace(), house.bounds
    gaps = [g for g, _ in openings_of(house) if not blank or g.bounds[1] > y0 + 20.0]
    shell = house.difference(house.buffer(-THICK_IN, join_style="mitre")).difference(unary_union(gaps))
    faces(space, (*getattr(shell, "geoms", [shell]), *walls_of(house)[1]), "0")
    at = [g.bounds for g in gaps] if chained else []
    xs = sorted({x0, x1, *(x for g in at if g[1] < y0 + 5.0 for x in (g[0], g[2]))})
    ys = sorted({y0, y1, *(y for g in at if g[0] < x0 + 5.0 for y in (g[1], g[3]))})
    for n, off in enumerate(offs_in):
        for a, b in itertools.pairwise(xs if n == 0 else (x0, x1)):
            space.add_line((a, y0 - off), (b, y0 - off))
        for a, b in itertools.pairwise(ys if n == 0 else (y0, y1)):
            space.add_line((x0 - off, a), (x0 - off, b))
        space.add_line((x0, y1 + off), (x1, y1 + off))
        space.add_line((x1 + off, y0), (x1 + off, y1))
        for x in xs:
            space.add_line((x - 2.0, y0 - off - 2.0), (x + 2.0, y0 - off + 2.0))
    far = offs_in[-1] + 3.0
    for x in xs if extended else ():
        space.add_line((x, y0 - far), (x, y0 - 2.0))
    for y in ys if extended else ():
        space.add_line((x0 - far, y), (x0 - 2.0, y))
    return of(house, document)


def porch(number: int, deep_in: float, beam_in: float, from_share: float, to_share: float) -> Sheet:
    """A porch behind beams of two lines on the walls' layer, along a share of the longest wall."""
    house, document = drawn(number)
    a, b = max(sides_of(house), key=lambda side: math.dist(*side))
    long = math.dist(a, b)
    u = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
    low, high = from_share * long, to_share * long
    for off in (0.0, beam_in):
        line = [(low + off, 0.0), (low + off, deep_in - off), (high - off, deep_in - off), (high - off, 0.0)]
        points = [(a[0] + u[0] * t + u[1] * n, a[1] + u[1] * t - u[0] * n) for t, n in line]
        for p, q in itertools.pairwise(points):
            document.modelspace().add_line(p, q)
    return of(house, document)


def lanai(beam_in: float, words: str = "") -> Sheet:
    """The inside corner of an L closed by beams on posts in the walls' lines, as thick as they or not."""
    house, document = drawn(0)
    space = document.modelspace()
    for a, b in (
        *(((0.0, 270.0), (0.0, 360.0)), ((0.0, 360.0), (240.0, 360.0))),
        *(((beam_in, 270.0), (beam_in, 360.0 - beam_in)), ((beam_in, 360.0 - beam_in), (240.0, 360.0 - beam_in))),
    ):
        space.add_line(a, b)
    for x in (0.0, 110.0):
        faces(space, [box(x, 352.0, x + 8.0, 360.0)], "0")
    if words:
        space.add_text(words, height=6.0, dxfattribs={"insert": (100.0, 310.0)})
    return of(house, document)


def beside(number: int, *, gate: bool, words: str = "", taken_down: bool = False) -> Sheet:
    """A garage with its gate against the end of a house, or a wing that is to be taken down, in the same two lines."""
    house, document = drawn(number)
    space, (_, y0, x1, _) = document.modelspace(), house.bounds
    shape = box(x1, y0, x1 + 260.0, y0 + 200.0)
    open_ = box(x1 + 40.0, y0 - 1.0, x1 + 232.0, y0 + THICK_IN + 1.0) if gate else Polygon()
    for ring in (shape, box(x1, y0 + THICK_IN, x1 + 260.0 - THICK_IN, y0 + 200.0 - THICK_IN)):
        for a, b in sides_of(ring):
            if min(a[0], b[0]) > x1 or abs(a[0] - b[0]) > 1.0:
                left = LineString([a, b]).difference(open_)
                for piece in getattr(left, "geoms", [left]):
                    space.add_line(piece.coords[0], piece.coords[-1])
    for x in (x1 + 40.0, x1 + 232.0) if gate else ():
        space.add_line((x, y0), (x, y0 + THICK_IN))
    if words:
        space.add_text(words, height=6.0, dxfattribs={"insert": (x1 + 100.0, y0 + 90.0)})
    return of(house if taken_down else unary_union([house, shape]), document)
