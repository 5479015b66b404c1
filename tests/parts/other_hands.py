"""Houses drawn by twenty-two more hands: fill, multilines, blocks, jambs, heights, code pages, eaves, decks, frames.

Each draws the same pieces of wall in a habit of its own and adds what such a sheet has about it; the outside face is
known. How people draw such sheets: common practice, no source.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from shapely.affinity import affine_transform
from shapely.geometry import LineString, box
from shapely.ops import unary_union

from parts.close_line_hands import (
    all_on_one_layer,
    brick_veneer,
    close_dimensions,
    loose_corners,
    old_stone,
    one_line_walls,
    solid_eave,
)
from parts.drawn_sheets import Sheet
from parts.filled_hands import bulged_jambs, hatches_only, multilines, solids_only, unit_blocks, wide_polylines
from parts.wall_pieces import (
    THICK_IN,
    closed,
    doors,
    faces,
    house_of,
    new,
    openings_of,
    ring_of,
    scaled,
    sides_of,
    walls_of,
)


def broken_with_jambs() -> Sheet:
    """Faces broken at every opening and at every wall that meets them, jambs on a layer of their own, sills through."""
    house, document = house_of(4), new(layers=("A-WALL", "A-WALL-JAMB", "A-SILL"))
    space = document.modelspace()
    outside, inside = walls_of(house)
    for shape in outside:
        for a, b in sides_of(shape):
            jamb = abs(math.dist(a, b) - THICK_IN) < 0.01
            cut = unary_union([p.buffer(0.2) for p in inside])
            line = LineString([a, b]).difference(cut)
            for part in getattr(line, "geoms", [line]):
                space.add_line(
                    part.coords[0], part.coords[-1], dxfattribs={"layer": "A-WALL-JAMB" if jamb else "A-WALL"}
                )
    for shape in inside:
        for a, b in sides_of(shape):
            if math.dist(a, b) > 6.0:
                space.add_line(a, b, dxfattribs={"layer": "A-WALL"})
    for gap, _ in openings_of(house):
        ring = ring_of(gap)
        space.add_line(ring[0], ring[1], dxfattribs={"layer": "A-SILL"})
    return Sheet(document=document, truth=house, per_in=1.0)


def centre_and_faces() -> Sheet:
    """A thin line along the middle of every wall, drawn through openings and corners, between its two faces."""
    house, document = house_of(5), new(layers=("0 MAUER", "0 ACHSE"))
    space = document.modelspace()
    outside, inside = walls_of(house)
    faces(space, (*outside, *inside), "0 MAUER")
    middle = house.buffer(-THICK_IN / 2.0, join_style="mitre", mitre_limit=20.0)
    for a, b in sides_of(middle):
        space.add_line(a, b, dxfattribs={"layer": "0 MAUER"})
    for shape in inside:
        x0, y0, x1, y1 = shape.bounds
        space.add_line(((x0 + x1) / 2, y0 - 20), ((x0 + x1) / 2, y1 + 20), dxfattribs={"layer": "0 ACHSE"})
    return Sheet(document=document, truth=house, per_in=1.0)


def bound_reference() -> Sheet:
    """A plan in metres, bound in as a block and inserted into a drawing in millimetres that says inches."""
    house, document = house_of(2), new(1, layers=("plan$0$WALL", "plan$0$DOOR", "BORDER"))
    block = document.blocks.new("plan$0$GROUND")
    per = 0.0254
    outside, inside = walls_of(house)
    faces(block, [scaled(s, per) for s in (*outside, *inside)], "plan$0$WALL")
    doors(block, house, "plan$0$DOOR", per)
    document.modelspace().add_blockref(
        "plan$0$GROUND", (5000, 3000), dxfattribs=dict.fromkeys(("xscale", "yscale", "zscale"), 1000.0)
    )
    x0, y0, x1, y1 = scaled(house, 25.4, 5000, 3000).bounds
    frame = [(x0 - 4000, y0 - 4000), (x1 + 9000, y0 - 4000), (x1 + 9000, y1 + 4000), (x0 - 4000, y1 + 4000)]
    for d in (0.0, 250.0):
        ring = [(x + (d if x < x0 else -d), y + (d if y < y0 else -d)) for x, y in frame]
        document.modelspace().add_lwpolyline(ring, close=True, dxfattribs={"layer": "BORDER"})
    return Sheet(document=document, truth=scaled(house, 25.4, 5000, 3000), per_in=25.4)


def far_in_feet() -> Sheet:
    """In feet on a state's grid, a million and more from the origin, no unit in the header, turned with the lot."""
    house, document = house_of(0), new(0, layers=("BLDG", "LOT LINE"))
    c, s = math.cos(math.radians(17.0)) / 12.0, math.sin(math.radians(17.0)) / 12.0
    put = [c, -s, s, c, 1_234_567.0, 2_345_678.0]
    outside, inside = walls_of(house)
    faces(document.modelspace(), [affine_transform(p, put) for p in (*outside, *inside)], "BLDG")
    lot = affine_transform(house.envelope.buffer(400.0, join_style="mitre"), put)
    closed(document.modelspace(), [lot], "LOT LINE")
    return Sheet(document=document, truth=affine_transform(house, put), per_in=1 / 12.0)


def with_heights() -> Sheet:
    """Lines at their heights: wall tops at 96 in., sills at 30, uprights at every corner that plan shows as points."""
    house, document = house_of(4), new(layers=("WALL3D",))
    space = document.modelspace()
    outside, inside = walls_of(house)
    for z in (0.0, 96.0):
        faces(space, (*outside, *inside), "WALL3D", z)
    for shape in outside:
        for x, y in ring_of(shape):
            space.add_line((x, y, 0), (x, y, 96), dxfattribs={"layer": "WALL3D"})
    for gap, _ in openings_of(house):
        ring = ring_of(gap.intersection(house))
        for z in (30.0, 80.0):
            space.add_polyline3d([(*p, z) for p in ring], close=True, dxfattribs={"layer": "WALL3D"})
    return Sheet(document=document, truth=house, per_in=1.0)


def old_code_page() -> Sheet:
    """Layers in a Cyrillic code page; the old walls off, a survey frozen, today's walls on a locked layer."""
    house, document = house_of(1), new(5, "R2000", layers=("СТЕНЫ", "СТЕНЫ_СТАРЫЕ", "СЪЁМКА", "ДВЕРИ"))
    document.encoding = "cp1251"
    document.header["$DWGCODEPAGE"] = "ANSI_1251"
    document.layers.get("СТЕНЫ_СТАРЫЕ").off()
    document.layers.get("СЪЁМКА").freeze()
    document.layers.get("СТЕНЫ").lock()
    per, space = 2.54, document.modelspace()
    outside, inside = walls_of(house)
    faces(space, [scaled(p, per) for p in (*outside, *inside)], "СТЕНЫ")
    old = scaled(house.buffer(90.0, join_style="mitre"), per)
    for d in (0.0, 20.0):
        closed(space, [old.buffer(-d, join_style="mitre")], "СТЕНЫ_СТАРЫЕ")
        closed(space, [old.buffer(50.0 - d, join_style="mitre")], "СЪЁМКА")
    return Sheet(document=document, truth=scaled(house, per), per_in=per)


def two_floors() -> Sheet:
    """Two floors side by side with one outline, and the roof plan beside them as eaves, ridge and hips."""
    house, document = house_of(0), new(layers=("WALLS", "ROOF"))
    space = document.modelspace()
    outside, inside = walls_of(house)
    faces(space, (*outside, *inside), "WALLS")
    beside = [scaled(p, 1.0, 800.0, 0.0) for p in (*outside, *inside)]
    faces(space, beside, "WALLS")
    roof = scaled(house.buffer(24.0, join_style="mitre"), 1.0, 1700.0, 0.0)
    closed(space, [roof, roof.buffer(-24.0, join_style="mitre")], "ROOF")
    x0, y0, x1, y1 = roof.bounds
    space.add_line((x0, y0), ((x0 + x1) / 2, (y0 + y1) / 2), dxfattribs={"layer": "ROOF"})
    return Sheet(document=document, truth=house, per_in=1.0, others=[scaled(house, 1.0, 800.0, 0.0)])


def eaves_around() -> Sheet:
    """The eave and the gutter's edge around the house as two whole lines five inches apart, the eave dashed too."""
    house, document = house_of(3), new(layers=("WALLS", "EAVE"))
    space = document.modelspace()
    outside, inside = walls_of(house)
    faces(space, (*outside, *inside), "WALLS")
    for off, linetype in ((24.0, "CONTINUOUS"), (29.0, "CONTINUOUS"), (22.5, "DASHED")):
        ring = ring_of(house.buffer(off, join_style="mitre"))
        space.add_lwpolyline(ring, close=True, dxfattribs={"layer": "EAVE", "linetype": linetype})
    doors(space, house, "WALLS")
    return Sheet(document=document, truth=house, per_in=1.0)


def deck_and_dimensions() -> Sheet:
    """A deck of boards and a terrace of single lines against the house, dimensions along it, a double frame."""
    house, document = house_of(2), new(layers=("FRAME",))
    space = document.modelspace()
    outside, inside = walls_of(house)
    faces(space, (*outside, *inside), "0")
    x0, y0, x1, y1 = house.bounds
    closed(space, [box(x0 + 100, y1, x0 + 340, y1 + 144)], "0")
    for k in range(1, 26):
        space.add_line((x0 + 100, y1 + 5.5 * k), (x0 + 340, y1 + 5.5 * k), dxfattribs={"layer": "0"})
    terrace = [(x1, y1 - 200), (x1 + 150, y1 - 200), (x1 + 190, y1 - 100), (x1 + 150, y1), (x1, y1)]
    space.add_lwpolyline(terrace, dxfattribs={"layer": "0"})
    for off in (18.0, 36.0, 60.0):
        space.add_line((x0, y0 - off), (x1, y0 - off), dxfattribs={"layer": "0"})
        for x in (x0, (x0 + x1) / 2, x1):
            space.add_line((x, y0 - off - 3), (x, y0 - 2), dxfattribs={"layer": "0"})
            space.add_line((x - 2, y0 - off - 2), (x + 2, y0 - off + 2), dxfattribs={"layer": "0"})
    for off in (420.0, 428.0):
        closed(space, [house.envelope.buffer(off, join_style="mitre")], "FRAME")
    closed(space, [box(x1 + 200, y0 - 412, x1 + 412, y0 - 300)], "FRAME")
    return Sheet(document=document, truth=house, per_in=1.0)


HANDS: tuple[Callable[[], Sheet], ...] = (
    wide_polylines,
    bulged_jambs,
    multilines,
    solids_only,
    hatches_only,
    unit_blocks,
    broken_with_jambs,
    centre_and_faces,
    bound_reference,
    far_in_feet,
    with_heights,
    old_code_page,
    two_floors,
    eaves_around,
    deck_and_dimensions,
    brick_veneer,
    solid_eave,
    close_dimensions,
    old_stone,
    loose_corners,
    one_line_walls,
    all_on_one_layer,
)
