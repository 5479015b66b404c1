"""Seven hands with lines close to the walls or none: leaves, a solid eave, dimensions, old stone, loose corners.

How people draw such sheets: common practice, no source.
"""

from __future__ import annotations

import math
import random

from shapely.geometry import LineString, box
from shapely.ops import unary_union

from parts.drawn_sheets import Sheet
from parts.wall_pieces import (
    Point,
    closed,
    doors,
    faces,
    house_of,
    new,
    openings_of,
    ring_of,
    sides_of,
    walls_of,
)


def brick_veneer() -> Sheet:
    """Four lines a wall: brick, an air space of an inch, studs with their board; jambs through all of it."""
    house, document = house_of(0), new(layers=("WALL",))
    space, thick = document.modelspace(), 9.0
    gaps = unary_union([g for g, _ in openings_of(house, thick)])
    for off in (0.0, 3.625, 4.625, thick):
        ring = LineString(house.buffer(-off, join_style="mitre", mitre_limit=20.0).exterior.coords)
        for line in ring.difference(gaps).geoms:
            space.add_lwpolyline(list(line.coords), dxfattribs={"layer": "WALL"})
    for gap, _ in openings_of(house, thick):
        for a, b in sides_of(gap.intersection(house)):
            if abs(math.dist(a, b) - thick) < 0.01:
                space.add_line(a, b, dxfattribs={"layer": "WALL"})
    faces(space, walls_of(house, thick)[1], "WALL")
    return Sheet(document=document, truth=house, per_in=1.0)


def solid_eave() -> Sheet:
    """The eave as one whole line sixteen inches before the walls, on their layer."""
    house, document = house_of(0), new()
    outside, inside = walls_of(house)
    faces(document.modelspace(), (*outside, *inside), "0")
    closed(document.modelspace(), [house.buffer(16.0, join_style="mitre")], "0")
    return Sheet(document=document, truth=house, per_in=1.0)


def close_dimensions() -> Sheet:
    """Strings of dimensions before two walls, the nearest at a foot, with their ends marked, on the walls' layer."""
    house, document = house_of(2), new()
    space = document.modelspace()
    outside, inside = walls_of(house)
    faces(space, (*outside, *inside), "0")
    x0, y0, x1, y1 = house.bounds
    for off in (12.0, 30.0):
        space.add_line((x0, y0 - off), (x1, y0 - off))
    space.add_line((x0 - 12.0, y0), (x0 - 12.0, y1))
    for x in (x0, x1):
        space.add_line((x, y0 - 32.0), (x, y0 - 2.0))
    return Sheet(document=document, truth=house, per_in=1.0)


def old_stone() -> Sheet:
    """Walls two feet thick."""
    house, document = house_of(1), new()
    outside, inside = walls_of(house, 24.0, 6.0)
    faces(document.modelspace(), (*outside, *inside), "0")
    return Sheet(document=document, truth=house, per_in=1.0)


def loose_corners() -> Sheet:
    """Lines that stop short of their corners or run past them by up to 0.3 in., a little askew, some drawn twice."""
    house, document = house_of(2), new()
    space, rng = document.modelspace(), random.Random(3)
    outside, inside = walls_of(house)
    for shape in (*outside, *inside):
        for a, b in sides_of(shape):
            long = math.dist(a, b)
            u = ((b[0] - a[0]) / long, (b[1] - a[1]) / long)
            short, past, askew = rng.uniform(-0.3, 0.3), rng.uniform(-0.3, 0.3), rng.uniform(-0.08, 0.08)
            start: Point = (a[0] - u[0] * short - u[1] * askew, a[1] - u[1] * short + u[0] * askew)
            end: Point = (b[0] + u[0] * past, b[1] + u[1] * past)
            space.add_line(start, end)
            if rng.random() < 0.2:
                space.add_line(end, start)
    return Sheet(document=document, truth=house, per_in=1.0)


def one_line_walls() -> Sheet:
    """Walls as one line along their outside face, broken at doors and windows."""
    house, document = house_of(2), new()
    space = document.modelspace()
    ring = LineString([*ring_of(house), ring_of(house)[0]])
    for line in ring.difference(unary_union([g for g, _ in openings_of(house)])).geoms:
        space.add_lwpolyline(list(line.coords))
    doors(space, house, "0")
    return Sheet(document=document, truth=house, per_in=1.0)


def all_on_one_layer() -> Sheet:
    """Walls, open leaves of doors, an eave with its gutter, a garden wall and the sheet's double frame on one layer."""
    house, document = house_of(3), new()
    space = document.modelspace()
    outside, inside = walls_of(house)
    faces(space, (*outside, *inside), "0")
    doors(space, house, "0")
    _, y0, x1, y1 = house.bounds
    frame = house.envelope.buffer(600.0, join_style="mitre")
    eaves = [house.buffer(off, join_style="mitre") for off in (24.0, 29.0)]
    garden = box(x1 + 60.0, y0 - 200.0, x1 + 68.0, y1 + 50.0)
    closed(space, [*eaves, garden, frame, frame.buffer(-8.0, join_style="mitre")], "0")
    return Sheet(document=document, truth=house, per_in=1.0)
