"""Strips of wall, bridges and lines -> the outer boundaries around them, with clean corners."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from export.architects_drawing.pairs import Floats

LEAST_IN2 = 100.0 * 144.0
POCKET_IN2 = 120.0 * 144.0
CLOSINGS_IN = (6.0, 12.0, 24.0, 36.0)
OPENED_IN = 9.0
LINE_IN = 0.3
ON_LINE_IN = 0.15
JOG_IN = 1.5
MITRE = 6.0
LEAST_REACH_IN = 48.0
MOST_POINTS = 8000
"""Of a shape whose mouths are closed; a busier one is taken as it is."""
RECESS_IN, BUMP_IN, WIDEST_FLUSH_IN = 8.0, 4.5, 20.0 * 12.0
CUT_IN, SLIVER_IN = 24.0, 2.2
SMALL_POCKET_IN2 = 3.0 * 144.0
NEAR_IN = 0.5
GRID_IN = 1e-3
"""Points nearer than this are one: unions of many strips stay sound."""


def offset(shape: BaseGeometry, by_in: float) -> BaseGeometry:
    """The shape grown or shrunk with sharp corners, so that its sides stay on the drawing's lines. [in]."""
    return shape.buffer(by_in, join_style="mitre", mitre_limit=MITRE)


def united(shapes: Sequence[BaseGeometry]) -> BaseGeometry:
    """One shape of many; hairline gaps between them are closed."""
    return offset(offset(union_of(shapes), ON_LINE_IN), -ON_LINE_IN)


def union_of(shapes: Sequence[BaseGeometry]) -> BaseGeometry:
    """One shape of many; where rounding defeats that, on a grid finer than a hair."""
    try:
        return shapely.union_all(np.array(shapes, object))
    except shapely.errors.GEOSException:
        return shapely.union_all(np.array(shapes, object), grid_size=GRID_IN)


def polygons(shape: BaseGeometry) -> list[Polygon]:
    """The polygons in a shape."""
    if isinstance(shape, Polygon):
        return [] if shape.is_empty else [shape]
    return [p for part in getattr(shape, "geoms", ()) for p in polygons(part)]


def filled(shape: BaseGeometry) -> BaseGeometry:
    """The shape with its holes filled, without what lies inside another part."""
    return shapely.union_all([Polygon(p.exterior) for p in polygons(shape)])


def with_pockets(walls: BaseGeometry, lines: Floats) -> BaseGeometry:
    """The walls with the small pockets that lie between them and their own lines: a corner that no strip fills."""
    if not len(lines):
        return filled(walls)
    solid = filled(walls)
    shapely.prepare(solid)
    near = shapely.intersects(solid, shapely.linestrings(lines.reshape(-1, 2, 2)))
    closed = filled(with_lines(solid, lines[near]))
    pockets = [p for p in polygons(offset(closed.difference(solid), -LINE_IN)) if p.area < SMALL_POCKET_IN2]
    if not pockets:
        return solid
    return filled(union_of([solid, *(offset(p, LINE_IN * 1.5) for p in pockets)]))


def with_lines(walls: BaseGeometry, lines: Floats) -> BaseGeometry:
    """The walls, their rooms filled, with the lines that are not wholly inside them as strips of a pencil's width."""
    solid = filled(walls)
    within = solid.buffer(-LINE_IN)
    shapely.prepare(within)
    made = shapely.linestrings(lines.reshape(-1, 2, 2))
    return union_of([solid, *shapely.buffer(made[~shapely.covers(within, made)], LINE_IN / 2.0, cap_style="square")])


def houses(shape: BaseGeometry, tree: shapely.STRtree, lines: Floats) -> list[Polygon]:
    """The parts of a filled shape that are wide enough for a house: free walls, gates and door leaves cut off.

    Their sides lie on the drawn lines wherever one runs there.
    """
    large = [p for p in polygons(shape) if p.area >= LEAST_IN2]
    opened = offset(offset(shapely.union_all(large), -OPENED_IN), OPENED_IN)
    found = [Polygon(p.exterior) for p in polygons(opened) if p.area >= LEAST_IN2]
    tidy = [None if q is None else on_lines(q, tree, lines) for q in map(clean, found)]
    return [p for p in tidy if p is not None and p.area >= LEAST_IN2]


def on_lines(shape: Polygon, tree: shapely.STRtree, lines: Floats) -> Polygon:
    """The polygon with each side moved onto the line that is drawn within half an inch of it."""
    ring = np.array(shape.exterior.coords)[:-1]
    after = np.roll(ring, -1, axis=0)
    way = after - ring
    long = np.hypot(*way.T)
    u = way / long[:, None]
    at = ring.copy()
    side, line = tree.query(shapely.linestrings(np.stack([ring, after], axis=1)), predicate="dwithin", distance=NEAR_IN)
    drawn = lines[line, 2:] - lines[line, :2]
    length = np.hypot(*drawn.T)
    level = np.abs(u[side, 0] * drawn[:, 1] - u[side, 1] * drawn[:, 0]) < 0.01 * length
    share = np.minimum(length, long[side])
    best: dict[int, tuple[float, int]] = {}
    for k in np.flatnonzero(level).tolist():
        middle = (ring[side[k]] + after[side[k]]) / 2.0 - lines[line[k], :2]
        off = abs(middle[0] * drawn[k, 1] - middle[1] * drawn[k, 0]) / length[k]
        if off <= NEAR_IN and share[k] > 0.15 * long[side[k]]:
            best[int(side[k])] = max(best.get(int(side[k]), (0.0, -1)), (float(share[k] - 40.0 * off), k))
    for s, (_, k) in best.items():
        if k >= 0:
            at[s], u[s] = lines[line[k], :2], drawn[k] / length[k]
    before_at, before_u = np.roll(at, 1, axis=0), np.roll(u, 1, axis=0)
    turn = before_u[:, 0] * u[:, 1] - before_u[:, 1] * u[:, 0]
    gap = at - before_at
    t = (gap[:, 0] * u[:, 1] - gap[:, 1] * u[:, 0]) / np.where(np.abs(turn) < 1e-9, 1.0, turn)
    met = before_at + before_u * t[:, None]
    fits = (np.abs(turn) > 0.08) & (np.hypot(*(met - ring).T) < 4.0 * NEAR_IN)
    made = Polygon(np.where(fits[:, None], met, ring))
    return made if made.is_valid else shape


def growing(base: BaseGeometry) -> Iterable[tuple[float, BaseGeometry]]:
    """The shape with its mouths closed by more and more, wherever that brings a room inside."""
    last = shapely.union_all([p for p in polygons(filled(base)) if _reach(p) > LEAST_REACH_IN])
    area = _wide_area(last)
    yield 0.0, last
    if shapely.get_num_coordinates(last) > MOST_POINTS:
        return
    for gap_in in CLOSINGS_IN:
        shape = filled(offset(offset(last, gap_in / 2.0), -gap_in / 2.0))
        wide = _wide_area(shape)
        if wide - area > POCKET_IN2:
            yield gap_in, shape
            area = wide


def _wide_area(shape: BaseGeometry) -> float:
    """The area of what is wide enough for a house."""
    return float(sum(p.area for p in polygons(offset(offset(shape, -OPENED_IN), OPENED_IN))))


def _reach(shape: Polygon) -> float:
    """The longer side of the box around a shape."""
    x0, y0, x1, y1 = shape.bounds
    return float(max(x1 - x0, y1 - y0))


def clean(shape: Polygon) -> Polygon | None:
    """The polygon without points on a straight side and without jogs under 1 1/2 in.; None if nothing is left."""
    ring = np.array(shapely.orient_polygons(shape).exterior.coords)[:-1]
    for _ in range(200):
        ring, changed = _straightened(ring)
        if len(ring) < 3:
            return None
        shorter = _without_jog(ring)
        if shorter is None:
            if not changed:
                break
            continue
        ring = shorter
        if len(ring) < 3:
            return None
    made = Polygon(_flush(_sharpened(ring)))
    if not made.is_valid:
        parts = polygons(shapely.make_valid(made))
        made = max(parts, key=lambda p: p.area) if parts else made
    return Polygon(made.exterior) if made.is_valid and not made.is_empty else None


def _sharpened(ring: Floats) -> Floats:
    """The ring with its corners sharp where two walls' lines do not quite meet and a strip cuts the corner off."""
    k = 0
    while k < len(ring) and len(ring) > 4:
        a, b, c, d = (ring[(k + s) % len(ring)] for s in (-1, 0, 1, 2))
        u, v, side = b - a, d - c, float(np.hypot(*(c - b)))
        turn = u[0] * v[1] - u[1] * v[0]
        if side <= CUT_IN and min(np.hypot(*u), np.hypot(*v)) > side and abs(turn) > 0.2 * np.hypot(*u) * np.hypot(*v):
            met = b + u * ((c - b)[0] * v[1] - (c - b)[1] * v[0]) / turn
            if min(np.hypot(*(met - b)), np.hypot(*(met - c))) <= SLIVER_IN:
                ring = np.delete(ring, (k + 1) % len(ring), axis=0)
                ring[k if k < len(ring) else k - 1] = met
                k = 0
                continue
        k += 1
    return ring


def _flush(ring: Floats) -> Floats:
    """The ring without shallow recesses and bumps between two stretches of one wall: frames, sills, door leaves."""
    k = 0
    while k < len(ring) and len(ring) > 6:
        p = np.roll(ring, -k, axis=0)
        way = p[1] - p[0]
        long = float(np.hypot(*way))
        off = (way[0] * (p[2:, 1] - p[0, 1]) - way[1] * (p[2:, 0] - p[0, 0])) / max(long, 1e-9)
        on = (p[2:] - p[0]) @ way / max(long, 1e-9)
        n = int(np.argmin([*(np.abs(off - off[0]) < JOG_IN / 2), False]))  # the points of the recess, of the bump
        most = RECESS_IN if off[0] > 0 else BUMP_IN  # to the left of a counter-clockwise ring is inside
        level = 2 <= n < len(off) - 1 and max(abs(off[n]), abs(off[n + 1])) < JOG_IN / 3
        wide = level and long < min(on[1:n]) and max(on[:n]) < long + WIDEST_FLUSH_IN and long < on[n] < on[n + 1]
        if wide and 0.1 < abs(off[0]) <= most:
            ring = np.vstack([p[0], p[n + 3 :]])
            k = 0
        else:
            k += 1
    return ring


def _straightened(ring: Floats) -> tuple[Floats, bool]:
    """The ring without the corner that lies most nearly on the line of its neighbours, again and again."""
    changed = False
    while len(ring) > 3:
        before, after = np.roll(ring, 1, axis=0), np.roll(ring, -1, axis=0)
        way = after - before
        long = np.hypot(*way.T)
        off = np.abs(way[:, 0] * (ring[:, 1] - before[:, 1]) - way[:, 1] * (ring[:, 0] - before[:, 0]))
        off = np.where(long > 1e-9, off / np.maximum(long, 1e-9), 0.0)
        k = int(np.argmin(off))
        if off[k] > ON_LINE_IN:
            break
        ring, changed = np.delete(ring, k, axis=0), True
    return ring, changed


def _without_jog(ring: Floats) -> Floats | None:
    """The ring with its shortest side taken out, if it is under 1 1/2 in.; None if none is."""
    n = len(ring)
    sides = np.hypot(*(np.roll(ring, -1, axis=0) - ring).T)
    k = int(np.argmin(sides))
    if sides[k] >= JOG_IN or n <= 4:
        return None
    a, b, c, d = (ring[(k + s) % n] for s in (-1, 0, 1, 2))
    u, v = b - a, d - c
    turn = u[0] * v[1] - u[1] * v[0]
    if abs(turn) > 0.2 * np.hypot(*u) * np.hypot(*v):
        t = ((c - a)[0] * v[1] - (c - a)[1] * v[0]) / turn
        met = a + u * t
        if np.hypot(*(met - b)) < 4.0 * JOG_IN:
            ring = ring.copy()
            ring[k] = met
            return np.delete(ring, (k + 1) % n, axis=0)
    ring = ring.copy()
    if np.hypot(*u) >= np.hypot(*v):  # the shorter wall moves onto the longer one's line
        ring[(k + 2) % n] = _onto(d, a, u)
    else:
        ring[(k - 1) % n] = _onto(a, c, v)
    return np.delete(ring, [k, (k + 1) % n], axis=0)


def _onto(p: Floats, on: Floats, way: Floats) -> Floats:
    return np.asarray(on + way * ((p - on) @ way) / (way @ way), float)
