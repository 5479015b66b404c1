"""One set of layers -> every boundary that can be made of it: around the walls, with open fronts closed, of lines."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from export.architects_drawing.boundaries import Boundary, How, Origin, boundary_of
from export.architects_drawing.boundary import filled, growing, houses, union_of, united, with_lines, with_pockets
from export.architects_drawing.bridges import AT_SLANT, Bridges, bridges_of, mouths_of, walled_in
from export.architects_drawing.layer_sets import LayerSet, is_opening
from export.architects_drawing.pairs import THICKEST_IN, Flags, Floats, Ints, Pairs, lengths_of, nearest, some, taken
from export.architects_drawing.ranking import Evidence
from export.architects_drawing.single_lines import line_bridges
from export.architects_drawing.strips import Strips, strips_of

THICK_IN = 25.0
THICK_BONUS = -0.05
LESS_AT_SLANT = 0.1
"""What ends at a slanted wall is less likely an opening than the edge of a court."""
FEW_WALLS = 0.2
"""Of the drawn length: where less is double, walls are single lines."""
PEAK_SHARE, PEAK_IN = 0.08, 0.4


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Lines:
    """The lines worth looking at, with their layers by number; pairs up to a wall's thickness and wider ones.

    `useless` flags what is no wall.
    """

    lines: Floats
    layer: Ints
    pairs: Pairs
    wide: Pairs
    useless: Flags
    names: tuple[str, ...]


def ways_over(read: Lines, each: LayerSet, evidence: Evidence) -> Iterator[Boundary]:
    """Every boundary over one set of layers.

    Parameters
    ----------
    read : Lines
        What is drawn.
    each : LayerSet
        The layers to read.
    evidence : Evidence
        What ranks a boundary.

    Yields
    ------
    Boundary
        In no order.
    """
    chosen = each.layers[read.layer] & ~read.useless
    origin = Origin(how=How.WALLS, layers=tuple(np.flatnonzero(each.layers).tolist()), bonus=each.bonus)
    near = nearest(taken(read.pairs, chosen))
    strips = strips_of(read.lines, near)
    closings = _closings(strips, bridges_of(strips), origin)
    for shape, way in (
        *(each for closing in closings for each in _around_walls(read, near, strips, *closing)),
        *_around_thick_walls(read, chosen, origin),
        *_around_lines(read, chosen, strips, *closings[0][:2], origin),
    ):
        for house in houses(shape, evidence.lines, read.lines):
            near_it = tuple(p for p in way.walls if p.intersects(house))
            yield boundary_of(house, replace(way, walls=near_it), shape, evidence)


def _around_walls(
    read: Lines, near: Pairs, strips: Strips, bridges: Bridges, walls: BaseGeometry, origin: Origin
) -> Iterator[tuple[BaseGeometry, Origin]]:
    """Around all walls, around those of the main thicknesses, and with the open fronts closed."""
    if not len(strips.shapes):
        return
    own = read.lines[np.unique(np.r_[near.i, near.j])]
    way = replace(origin, walls=tuple(strips.shapes), bridges=(bridges,))
    yield with_pockets(walls, own), way
    main = _main_thicknesses(strips)
    if not main.all():
        kept = strips.some(main)
        shape = with_pockets(_joined(kept, bridges), own)
        yield shape, replace(way, how=How.MAIN_WALLS, walls=tuple(kept.shapes))
    mouths = walled_in(mouths_of(strips, walls), walls)
    if len(mouths.shapes):
        shape = filled(union_of([walls, *mouths.shapes]))
        yield shape, replace(way, how=How.MOUTH, bridges=(bridges, mouths))


def _around_thick_walls(read: Lines, chosen: Flags, origin: Origin) -> Iterator[tuple[BaseGeometry, Origin]]:
    """The same where some walls are thicker than is usual: old masonry."""
    near = nearest(taken(some(read.wide, np.abs(read.wide.d_in) <= THICK_IN), chosen))
    if not (np.abs(near.d_in) > THICKEST_IN).any():
        return
    strips = strips_of(read.lines, near)
    own = read.lines[np.unique(np.r_[near.i, near.j])]
    less = replace(origin, bonus=origin.bonus + THICK_BONUS, walls=tuple(strips.shapes))
    for bridges, walls, way in _closings(strips, bridges_of(strips), less):
        yield with_pockets(walls, own), replace(way, bridges=(bridges,))


def _around_lines(
    read: Lines, chosen: Flags, strips: Strips, bridges: Bridges, walls: BaseGeometry, origin: Origin
) -> Iterator[tuple[BaseGeometry, Origin]]:
    """Around walls and lines together, and with wider and wider mouths closed where that brings a room inside."""
    opening = np.array([is_opening(n) for n in read.names], bool)[read.layer]
    base = with_lines(walls, read.lines[chosen | (opening & ~read.useless)])
    way = replace(origin, walls=tuple(strips.shapes), bridges=(bridges,))
    for gap_in, shape in growing(base):
        yield shape, replace(way, how=How.CLOSED if gap_in else How.LINES)
    drawn = read.lines[chosen]
    if strips.long_in.sum() < FEW_WALLS * lengths_of(drawn).sum():
        gaps = line_bridges(drawn)
        if len(gaps.shapes):
            yield filled(union_of([base, *gaps.shapes])), replace(way, how=How.LINES, bridges=(bridges, gaps))


def _closings(strips: Strips, bridges: Bridges, origin: Origin) -> list[tuple[Bridges, BaseGeometry, Origin]]:
    """The walls with their openings closed; where some end at a slanted wall, without these as well."""
    square = bridges.some(bridges.kind != AT_SLANT)
    if len(square.kind) == len(bridges.kind):
        return [(bridges, _joined(strips, bridges), origin)]
    less = replace(origin, bonus=origin.bonus - LESS_AT_SLANT)
    return [(bridges, _joined(strips, bridges), less), (square, _joined(strips, square), origin)]


def _joined(strips: Strips, bridges: Bridges) -> BaseGeometry:
    parts = [*strips.shapes, *bridges.shapes]
    return united(parts) if parts else Polygon()


def _main_thicknesses(strips: Strips) -> Flags:
    """The strips as thick as many others: those of the thicknesses that make up 8 % of all wall."""
    thick = strips.thick_in
    alike = np.abs(thick[:, None] - thick[None, :]) <= PEAK_IN
    share = alike @ strips.long_in / max(float(strips.long_in.sum()), 1e-9)
    return np.asarray(share >= PEAK_SHARE, bool)
