"""The pieces that every hand draws: outside walls between openings, partitions, doors. All in inches of house.

How people lay such plans out: common practice, no source.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

import ezdxf
from ezdxf.document import Drawing
from ezdxf.layouts import BlockLayout
from shapely.affinity import affine_transform
from shapely.geometry import LineString, Polygon, box
from shapely.ops import unary_union

from parts.drawn_sheets import HOUSES

Point = tuple[float, float]
THICK_IN = 8.0
DOORS = (38.0, 62.0, 96.0, 74.0)


def house_of(number: int) -> Polygon:
    """One of the invented outlines, in inches."""
    return Polygon([(x * 12.0, y * 12.0) for x, y in HOUSES[number]])


def sides_of(house: Polygon) -> list[tuple[Point, Point]]:
    """The sides, counter-clockwise."""
    ring = list(house.exterior.coords) if house.exterior.is_ccw else list(house.exterior.coords)[::-1]
    return list(itertools.pairwise(ring))


def openings_of(house: Polygon, thick_in: float = THICK_IN) -> list[tuple[Polygon, float]]:
    """Gaps along every side long enough, each a rectangle through the wall, and its width."""
    out = []
    for k, (a, b) in enumerate(sides_of(house)):
        long = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
        at, wide = 40.0, DOORS[k % len(DOORS)]
        while at + wide + 40.0 < long:
            corners = [(at, -0.5), (at + wide, -0.5), (at + wide, thick_in + 0.5), (at, thick_in + 0.5)]
            out.append((Polygon([(a[0] + ux * s - uy * n, a[1] + uy * s + ux * n) for s, n in corners]), wide))
            at, wide = at + wide + 110.0, DOORS[(k + len(out)) % len(DOORS)]
    return out


def walls_of(house: Polygon, thick_in: float = THICK_IN, across_in: float = 4.5) -> tuple[list[Polygon], list[Polygon]]:
    """The pieces of outside wall between the openings, and two partitions with a doorway each."""
    inner = house.buffer(-thick_in, join_style="mitre", mitre_limit=20.0)
    gaps = unary_union([g for g, _ in openings_of(house, thick_in)])
    outside = house.difference(inner).difference(gaps)
    x0, y0, x1, y1 = inner.bounds
    places = [box(x, y0 - 99, x + across_in, y1 + 99) for x in range(round(x0) + 100, round(x1) - 100, 12)]
    clear = [p for p in places if not p.buffer(12.0).intersects(gaps.intersection(house.boundary))]
    cuts = [clear[len(clear) // 3], clear[2 * len(clear) // 3]]
    door = box(x0, (y0 + y1) / 2.0, x1, (y0 + y1) / 2.0 + 32.0)
    inside = unary_union(cuts).intersection(inner).difference(door)
    return list(getattr(outside, "geoms", [outside])), list(getattr(inside, "geoms", [inside]))


def straight_pieces(house: Polygon, thick_in: float = THICK_IN) -> list[tuple[Point, Point]]:
    """The stretches of outside face between openings, corner to corner."""
    gaps = unary_union([g for g, _ in openings_of(house, thick_in)])
    out: list[tuple[Point, Point]] = []
    for a, b in sides_of(house):
        line = LineString([a, b]).difference(gaps)
        out += [(part.coords[0], part.coords[-1]) for part in getattr(line, "geoms", [line])]
    return out


def new(unit_code: int = 1, version: str = "R2010", layers: Sequence[str] = ()) -> Drawing:
    document = ezdxf.new(version, setup=["linetypes"])
    document.header["$INSUNITS"] = unit_code
    for name in layers:
        document.layers.add(name)
    return document


def ring_of(shape: Polygon) -> list[Point]:
    return [(x, y) for x, y, *_ in list(shape.exterior.coords)[:-1]]


def faces(space: BlockLayout, shapes: Sequence[Polygon], layer: str, z: float | None = None) -> None:
    """Each piece's edge as single lines."""
    for shape in shapes:
        for a, b in sides_of(shape):
            ends = [(*a, z), (*b, z)] if z is not None else [a, b]
            space.add_line(*ends, dxfattribs={"layer": layer})


def closed(space: BlockLayout, shapes: Sequence[Polygon], layer: str) -> None:
    for shape in shapes:
        space.add_lwpolyline(ring_of(shape), close=True, dxfattribs={"layer": layer})


def doors(space: BlockLayout, house: Polygon, layer: str, per: float = 1.0) -> None:
    """A leaf and its swing, to the inside, in every opening of a door's width."""
    for gap, wide in openings_of(house):
        if wide > 48.0:
            continue
        out, _, on, hinge = ring_of(gap)
        u, n = ((q[0] - p[0], q[1] - p[1]) for p, q in ((hinge, on), (out, hinge)))
        tip = (hinge[0] + n[0] / math.hypot(*n) * wide, hinge[1] + n[1] / math.hypot(*n) * wide)
        space.add_line(*[(x * per, y * per) for x, y in (hinge, tip)], dxfattribs={"layer": layer})
        start = math.degrees(math.atan2(u[1], u[0]))
        space.add_arc((hinge[0] * per, hinge[1] * per), wide * per, start, start + 90, dxfattribs={"layer": layer})


def boxes_of(house: Polygon, thick_in: float = THICK_IN) -> list[Polygon]:
    """The outside walls as straight rectangles, corners in one of the two."""
    out = []
    for a, b in straight_pieces(house, thick_in):
        long = math.dist(a, b)
        ux, uy = (b[0] - a[0]) / long, (b[1] - a[1]) / long
        out.append(
            Polygon([a, b, (b[0] - uy * thick_in, b[1] + ux * thick_in), (a[0] - uy * thick_in, a[1] + ux * thick_in)])
        )
    return out


def scaled(shape: Polygon, per: float, dx: float = 0.0, dy: float = 0.0) -> Polygon:
    return affine_transform(shape, [per, 0, 0, per, dx, dy])
