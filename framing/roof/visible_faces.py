"""Wings -> what is seen of each slope from above: the part that no other wing's roof hides."""

from __future__ import annotations

import shapely
from shapely.geometry import MultiPolygon, Polygon, box

from framing.frame_side import FrameSide
from framing.plan import Point
from framing.roof.wings import Wing, reach, side_line
from framing.tolerances import ROUNDING, SLIVER_FT2
from framing.walls.outline import on_grid


def visible_polygons(wings: tuple[Wing, ...], overhangs: Point) -> list[tuple[Polygon, Wing, FrameSide]]:
    """Each slope less what the other wings' roofs hide, polygon by polygon."""
    reaches = [reach(w, overhangs) for w in wings]
    lines = [{k: side_line(w, k) for k in w.eave_sides} for w in wings]
    out: list[tuple[Polygon, Wing, FrameSide]] = []
    for i, wing in enumerate(wings):
        for k, plane in lines[i].items():
            ring = _box_ring(reaches[i])
            for other, line in lines[i].items():
                if other != k:
                    ring = clip(ring, _minus(line, plane))
            hidden = []
            for j in range(len(wings)):
                if j != i and _boxes_meet(ring, reaches[j]):
                    part = _hidden_by(ring, plane, reaches[j], lines[j], earlier=j < i)
                    if len(part) >= 3 and (shadow := shapely.make_valid(Polygon(part))).area > SLIVER_FT2:
                        hidden.append(less_no_eave(shadow, wings[j]))
            if len(ring) < 3:
                continue
            hidden += [box(*b) for b in wing.no_eave_ft]
            seen = Polygon(ring).difference(shapely.union_all(hidden)) if hidden else Polygon(ring)
            parts = seen.geoms if isinstance(seen, MultiPolygon) else [seen]
            out += [(p, wing, k) for p in parts if isinstance(p, Polygon) and p.area > SLIVER_FT2]
    return out


def less_no_eave(part: Polygon, wing: Wing) -> Polygon:
    """A part of a wing's roof without the stretches where it has no eave."""
    return part.difference(shapely.union_all([box(*b) for b in wing.no_eave_ft])) if wing.no_eave_ft else part


def _hidden_by(
    ring: list[Point],
    plane: tuple[float, float, float],
    reach_ft: tuple[float, float, float, float],
    others: dict[FrameSide, tuple[float, float, float]],
    *,
    earlier: bool,
) -> list[Point]:
    """The part of a slope under another wing's roof; where both are one plane the earlier wing has it."""
    x0, y0, x1, y1 = reach_ft
    part = ring
    for half_plane in ((1.0, 0.0, -x0), (-1.0, 0.0, x1), (0.0, 1.0, -y0), (0.0, -1.0, y1)):
        part = clip(part, half_plane)
    if len(part) < 3:
        return []
    for line in others.values():
        a, b, c = _minus(line, plane)
        if a == 0.0 and b == 0.0:
            if c < -ROUNDING or (abs(c) <= ROUNDING and not earlier):
                return []
            continue
        part = clip(part, (a, b, c))
        if len(part) < 3:
            return []
    return part


def _minus(p: tuple[float, float, float], q: tuple[float, float, float]) -> tuple[float, float, float]:
    return (p[0] - q[0], p[1] - q[1], p[2] - q[2])


def _box_ring(b: tuple[float, float, float, float]) -> list[Point]:
    return [(b[0], b[1]), (b[2], b[1]), (b[2], b[3]), (b[0], b[3])]


def _boxes_meet(ring: list[Point], b: tuple[float, float, float, float]) -> bool:
    xs, ys = [p[0] for p in ring], [p[1] for p in ring]
    return bool(ring) and min(xs) < b[2] and max(xs) > b[0] and min(ys) < b[3] and max(ys) > b[1]


def clip(ring: list[Point], plane: tuple[float, float, float]) -> list[Point]:
    """The part of a convex ring where a plane, a x + b y + c, is not under 0; what lies within a rounding of that line
    lies on it, and corners within a rounding of each other are one, so that the part is a valid ring again.
    """
    a, b, c = plane
    out: list[Point] = []
    values = [v if abs(v) > ROUNDING else 0.0 for v in (a * x + b * y + c for x, y in ring)]
    for i, (x, y) in enumerate(ring):
        d, (xp, yp), dp = values[i], ring[i - 1], values[i - 1]
        if d * dp < 0:
            t = dp / (dp - d)
            out.append((on_grid(2.0 * (xp + t * (x - xp))) / 2.0, on_grid(2.0 * (yp + t * (y - yp))) / 2.0))
        if d >= 0:
            out.append((x, y))
    if max(values, default=0.0) <= 0:
        return []
    return [p for i, p in enumerate(out) if max(abs(p[0] - out[i - 1][0]), abs(p[1] - out[i - 1][1])) > ROUNDING]
