"""Six hands that draw walls as fill or closed pieces: wide polylines, multilines, solids, hatches, stretched blocks."""

from __future__ import annotations

import math

from shapely.affinity import affine_transform

from parts.drawn_sheets import Sheet
from parts.wall_pieces import (
    THICK_IN,
    boxes_of,
    doors,
    house_of,
    new,
    openings_of,
    ring_of,
    scaled,
    sides_of,
    straight_pieces,
    walls_of,
)


def wide_polylines() -> Sheet:
    """Walls as polylines with a width along their middle, a piece between two openings each; no other line."""
    house, document = house_of(0), new(layers=("WALLS", "DOORS"))
    space = document.modelspace()
    for rect in (*boxes_of(house), *walls_of(house)[1]):
        r = ring_of(rect.minimum_rotated_rectangle)
        if math.dist(r[0], r[1]) < math.dist(r[1], r[2]):
            r = r[1:] + r[:1]
        wide = math.dist(r[1], r[2])
        a, b = ((r[0][0] + r[3][0]) / 2, (r[0][1] + r[3][1]) / 2), ((r[1][0] + r[2][0]) / 2, (r[1][1] + r[2][1]) / 2)
        space.add_lwpolyline([a, b], dxfattribs={"layer": "WALLS", "const_width": wide})
    doors(space, house, "DOORS")
    return Sheet(document=document, truth=house, per_in=1.0)


def bulged_jambs() -> Sheet:
    """Closed polylines with half-round jambs, swings as bulges; a round terrace beside the house."""
    house, document = house_of(2), new(layers=("MUR", "PORTES", "TERRASSE"))
    space = document.modelspace()
    for shape in (*walls_of(house)[0], *walls_of(house)[1]):
        ring = ring_of(shape)
        n = len(ring)
        points = [
            (*ring[k], 0, 0, 0.4 if abs(math.dist(ring[k], ring[(k + 1) % n]) - THICK_IN) < 0.01 else 0.0)
            for k in range(n)
        ]
        space.add_lwpolyline(points, close=True, dxfattribs={"layer": "MUR"})
    for gap, wide in openings_of(house):
        p = ring_of(gap)[3]
        if wide < 48.0:
            space.add_lwpolyline(
                [(*p, 0, 0, 0), (p[0], p[1] + wide, 0, 0, -math.tan(math.pi / 8)), (p[0] + wide, p[1], 0, 0, 0)],
                dxfattribs={"layer": "PORTES"},
            )
    x0, _, _, y1 = house.bounds
    space.add_lwpolyline([(x0 + 60, y1, 0, 0, -1.0), (x0 + 360, y1, 0, 0, 0)], dxfattribs={"layer": "TERRASSE"})
    return Sheet(document=document, truth=house, per_in=1.0)


def multilines() -> Sheet:
    """Walls as multilines of two elements, set out on the outside face, a piece between two openings each."""
    house, document = house_of(4), new(4, layers=("Wand",))
    per, space = 25.4, document.modelspace()
    for a, b in straight_pieces(house):
        space.add_mline(
            [(a[0] * per, a[1] * per), (b[0] * per, b[1] * per)],
            dxfattribs={"layer": "Wand", "justification": 2, "scale_factor": THICK_IN * per},
        )
    for shape in walls_of(house)[1]:
        x0, y0, x1, y1 = shape.bounds
        space.add_mline(
            [((x0 + x1) / 2 * per, y0 * per), ((x0 + x1) / 2 * per, y1 * per)],
            dxfattribs={"layer": "Wand", "justification": 1, "scale_factor": 4.5 * per},
        )
    return Sheet(document=document, truth=scaled(house, per), per_in=per)


def solids_only() -> Sheet:
    """Walls as filled SOLIDs and no line at all."""
    house, document = house_of(1), new(layers=("POCHE",))
    for rect in (*boxes_of(house), *walls_of(house)[1]):
        a, b, c, d = ring_of(rect)
        document.modelspace().add_solid([a, b, d, c], dxfattribs={"layer": "POCHE"})
    return Sheet(document=document, truth=house, per_in=1.0)


def hatches_only() -> Sheet:
    """Walls as solid hatches and no line at all; a tiled floor hatched too."""
    house, document = house_of(3), new(layers=("FILL", "TILES"))
    space = document.modelspace()
    for k, shape in enumerate((*walls_of(house)[0], *walls_of(house)[1])):
        hatch = space.add_hatch(color=8, dxfattribs={"layer": "FILL"})
        if k % 2:
            hatch.paths.add_polyline_path(ring_of(shape), is_closed=True)
        else:
            path = hatch.paths.add_edge_path()
            for a, b in sides_of(shape):
                path.add_line(a, b)
    x0, y0, _, _ = house.bounds
    hatch = space.add_hatch(dxfattribs={"layer": "TILES"})
    hatch.set_pattern_fill("ANSI31", scale=8.0)
    hatch.paths.add_polyline_path([(x0 + 20, y0 + 20), (x0 + 180, y0 + 20), (x0 + 180, y0 + 120), (x0 + 20, y0 + 120)])
    return Sheet(document=document, truth=house, per_in=1.0)


def unit_blocks() -> Sheet:
    """Every wall a block of one by one, stretched and turned, in a house block that is mirrored in another block."""
    house, document = house_of(0), new(layers=("PAREDES",))
    one = document.blocks.new("MURO_UNIDAD")
    one.add_solid([(0, 0), (1, 0), (0, 1), (1, 1)])
    one.add_lwpolyline([(0, 0), (1, 0), (1, 1), (0, 1)], close=True)
    plan = document.blocks.new("PLANTA")
    for rect in (*boxes_of(house), *walls_of(house)[1]):
        a, b, c, _ = ring_of(rect)
        turn = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
        side = (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        plan.add_blockref(
            "MURO_UNIDAD",
            a,
            dxfattribs={
                "xscale": math.dist(a, b),
                "yscale": math.copysign(math.dist(b, c), side),
                "rotation": turn,
                "layer": "PAREDES",
            },
        )
    outer = document.blocks.new("HOJA")
    outer.add_blockref("PLANTA", (100, 50), dxfattribs={"xscale": -1, "yscale": 1})
    document.modelspace().add_blockref("HOJA", (0, 0), dxfattribs={"yscale": -1, "rotation": 90})
    truth = affine_transform(house, [-1, 0, 0, 1, 100, 50])
    truth = affine_transform(truth, [1, 0, 0, -1, 0, 0])
    truth = affine_transform(truth, [0, -1, 1, 0, 0, 0])
    return Sheet(document=document, truth=truth, per_in=1.0)
