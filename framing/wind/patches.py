"""Roof -> patches: the visible faces cut along every line at which a wind pressure may change.

On a patch every coefficient of every case is constant, so a case is one number per patch.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass, fields

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from framing.asce7.chapter27 import read_by_distance
from framing.asce7.chapter28 import mid_length_reading
from framing.asce7.chapter30 import edge_strip_ft, is_flat, zone_lines_ft
from framing.frame_side import FrameSide
from framing.members import OpenPorch
from framing.plan import Plan, Point
from framing.roof.surface import Face, Roof, own_height_ft
from framing.roof.wings import Wing, reach, side_line
from framing.tolerances import SLIVER_FT2, SPECK_FT2, TIE_FT
from framing.walls.outline import Outline
from framing.wind.edge_widths import EdgeWidths

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Patches:
    """Arrays over n patches, in the outline's frame.

    `polygon` (n,) shapely polygons; `point_ft` (n, 2) a point inside each; `side` (n,) the side toward which
    the patch falls; `gradient` (n, 2) rise per run of its plane; `plane` (n, 3) its height as
    a x + b y + c above the roof plane over the walls' outside faces; `claims` (n, n_wings) the wings whose
    own roof is the visible one there; `in_walls` within the walls' outside faces; `in_bearings` within the
    bearing lines; `in_cells` within the framed outline (walls with absorbed jogs filled); `at_angled_eave` and
    `at_angled_hip` within an edge zone's width of the eave of an angled wall and of the hips along its face;
    `open_below` (n, 4) the sides of the frame from which wind comes in below, over the floor of an open porch.
    """

    polygon: NDArray[np.object_]
    point_ft: Floats
    side: NDArray[np.int64]
    gradient: Floats
    plane: Floats
    claims: Bools
    in_walls: Bools
    in_bearings: Bools
    in_cells: Bools
    at_angled_eave: Bools
    at_angled_hip: Bools
    open_below: Bools

    @property
    def over_porch(self) -> Bools:
        """Whether a patch lies over the floor of an open porch. (n,)"""
        return np.asarray(self.open_below.any(axis=1))

    @property
    def enclosed(self) -> Bools:
        """Whether a patch takes pressure from inside: within the walls, not over an open porch. (n,)"""
        out: Bools = self.in_walls & ~self.over_porch
        return out

    def parts(self, which: NDArray[np.int64], polygon: NDArray[np.object_], point_ft: Floats) -> Patches:
        """Parts of patches `which` (m,) as patches of their own: their shapes (m,) and a point inside each (m, 2)."""
        whole = {f.name: getattr(self, f.name)[which] for f in fields(self)}
        return Patches(**whole | {"polygon": polygon, "point_ft": point_ft})

    def claimed_by(self, wing: int) -> tuple[Ints, Patches]:
        """The places (m,) of the patches that a wing claims, and those patches alone."""
        which = np.flatnonzero(self.claims[:, wing])
        return which, self.parts(which, self.polygon[which], self.point_ft[which])

    def height_ft(self, which: NDArray[np.int64], points_ft: Floats) -> Floats:
        """Height of the roof plane of patches `which` (m,) at points (m, 2). (m,) [ft]"""
        p = self.plane[which]
        out: Floats = p[:, 0] * points_ft[:, 0] + p[:, 1] * points_ft[:, 1] + p[:, 2]
        return out


def build_patches(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    framed_ft: tuple[Point, ...],
    widths: EdgeWidths,
    porches: tuple[OpenPorch, ...] = (),
) -> Patches:
    """The visible roof as patches of constant pressure."""
    walls, framed = Polygon(outline.local_ft), Polygon(framed_ft)
    bearings = walls.buffer(-plan.wall_thickness_ft / 2.0, join_style="mitre", mitre_limit=10.0)
    over = (roof.overhang_ft, roof.rake_overhang_ft)
    lines = _run_on(walls.exterior, max(over)) + [
        line for p in shapely.get_parts(bearings) for line in _run_on(p.exterior, plan.wall_thickness_ft / 2.0)
    ]
    if len(framed_ft) != len(outline.local_ft) or not outline.right_angled:
        lines += _run_on(framed.exterior, max(over))
    eaves, hips = _strips_along(roof, widths)
    rings = shapely.get_rings(shapely.get_parts([*(Polygon(p.ring_ft) for p in porches), eaves, hips]))
    lines += [LineString(side) for ring in rings for side in itertools.pairwise(ring.coords)]
    polygons = _cut_faces(roof, widths, np.array(lines, dtype=object))
    polygon = np.concatenate(polygons)
    of_face = np.repeat(np.arange(len(polygons)), [len(parts) for parts in polygons])
    point = _points_inside(polygon)
    plane = roof.rise_per_run * np.array([f.plane for f in roof.faces])[of_face]
    return Patches(
        polygon=polygon,
        point_ft=point,
        side=np.array([f.side for f in roof.faces])[of_face],
        gradient=plane[:, :2],
        plane=plane,
        claims=_claims(roof, of_face, point),
        in_walls=shapely.contains_xy(walls, point),
        in_bearings=shapely.contains_xy(bearings, point),
        in_cells=shapely.contains_xy(framed, point),
        at_angled_eave=shapely.contains_xy(eaves, point),
        at_angled_hip=shapely.contains_xy(hips, point),
        open_below=_open_below(porches, point),
    )


def _open_below(porches: tuple[OpenPorch, ...], point: Floats) -> Bools:
    """The sides from which wind comes in below each point. (n, 4)"""
    out = np.zeros((len(point), 4), dtype=bool)
    for porch in porches:
        over = shapely.contains_xy(Polygon(porch.ring_ft), point)
        out[np.ix_(over, porch.open_sides)] = True
    return out


def _cut_faces(roof: Roof, widths: EdgeWidths, lines: NDArray[np.object_]) -> list[NDArray[np.object_]]:
    """The parts of each face between these lines and those of its zones."""
    over = (roof.overhang_ft, roof.rake_overhang_ft)
    out = []
    for face in roof.faces:
        near = lines[shapely.intersects(lines, face.in_frame)]
        out.append(_cut(face, [*near, *_zone_lines(face, roof, widths, over, roof.rise_per_run)]))
    return out


def _cut(face: Face, lines: list[shapely.Geometry]) -> NDArray[np.object_]:
    """A face's parts between lines."""
    cut = [face.in_frame.exterior, *face.in_frame.interiors, *lines]
    parts = np.array(shapely.get_parts(shapely.polygonize([shapely.union_all(cut)])), dtype=object)
    parts = parts[shapely.area(parts) > SPECK_FT2]
    parts = parts[shapely.contains_xy(face.in_frame, _points_inside(parts))]
    return _filling(face.in_frame, parts)


def _claims(roof: Roof, of_face: NDArray[np.int64], point: Floats) -> Bools:
    """Each patch's wings: its face's own and those whose roof is as high there. (n, n_wings)"""
    lines = roof.rise_per_run * np.array([side_line(roof.wing(f.wing), f.side) for f in roof.faces])[of_face]
    height = (lines[:, :2] * point).sum(axis=1) + lines[:, 2]
    over = (roof.overhang_ft, roof.rake_overhang_ft)
    rise = roof.rise_per_run
    as_high = [np.abs(own_height_ft(w, over, rise, point) - height) <= TIE_FT for w in roof.wings]
    named = [np.array([f.wing == w.name for f in roof.faces])[of_face] for w in roof.wings]
    out: Bools = np.column_stack(as_high) | np.column_stack(named)
    return out


def _strips_along(roof: Roof, widths: EdgeWidths) -> tuple[shapely.Geometry, shapely.Geometry]:
    """The strips of an edge zone's width along the eaves of angled walls and the hips of their faces.

    Source: ASCE 7-22, figs. 30.3-2A to 2G, widths (fair); that they follow an angled eave: common practice, no source.
    """
    width = edge_strip_ft(math.degrees(math.atan(roof.rise_per_run)), widths.a_ft, widths.h_ft)
    eaves, hips = (
        shapely.union_all([LineString(line).buffer(width, cap_style="flat") for line in lines])
        for lines in (roof.angled_eaves, roof.angled_hips)
    )
    return eaves, hips


def _points_inside(polygon: NDArray[np.object_]) -> Floats:
    """A point inside each part, off its edges: rounding at crossing lines can leave a part a spike without width,
    where a point may lie past a zone's line or on another face. (n, 2)
    """
    point = shapely.point_on_surface(polygon)
    at_edge = np.flatnonzero(shapely.distance(point, shapely.boundary(polygon)) < TIE_FT)
    inner = shapely.buffer(polygon[at_edge], -TIE_FT)
    whole = ~shapely.is_empty(inner)
    point[at_edge[whole]] = shapely.point_on_surface(inner[whole])
    out: Floats = shapely.get_coordinates(point)
    return out


def _filling(face: Polygon, parts: NDArray[np.object_]) -> NDArray[np.object_]:
    """The parts of a face made to fill it once, where rounding at crossing lines kept them from it (rarely)."""
    if abs(face.area - shapely.area(parts).sum()) <= SLIVER_FT2:
        return parts
    whole: list[Polygon] = []
    left: shapely.Geometry = face
    for part in parts:
        whole += [p for p in shapely.get_parts(left.intersection(part)) if p.area > SLIVER_FT2]
        left = left.difference(part)
    whole += [p for p in shapely.get_parts(left) if p.area > SLIVER_FT2]
    return np.array(whole, dtype=object)


def _run_on(ring: shapely.LinearRing, by_ft: float) -> list[LineString]:
    """The sides of a ring, each run on past both ends, so that no patch bends around a corner."""
    out = []
    for a, b in zip(ring.coords[:-1], ring.coords[1:], strict=True):
        length = math.dist(a, b)
        dx, dy = (b[0] - a[0]) / length * by_ft, (b[1] - a[1]) / length * by_ft
        out.append(LineString([(a[0] - dx, a[1] - dy), (b[0] + dx, b[1] + dy)]))
    return out


def _zone_lines(
    face: Face, roof: Roof, widths: EdgeWidths, overhangs: tuple[float, float], rise: float
) -> list[LineString]:
    """Every line on a face at which a coefficient of a wing that may claim it changes."""
    x0, y0, x1, y1 = face.in_frame.bounds
    plane = side_line(roof.wing(face.wing), face.side)
    theta_deg = math.degrees(math.atan(rise))
    flat = is_flat(theta_deg)
    out: list[LineString] = []
    for i, wing in enumerate(roof.wings):
        if face.side not in wing.eave_sides or side_line(wing, face.side) != plane:
            continue
        at = _axis_places(wing, face.side, widths, i, overhangs, theta_deg)
        out += [LineString([(x, y0 - 1), (x, y1 + 1)]) for x in at[0] if x0 < x < x1]
        out += [LineString([(x0 - 1, y), (x1 + 1, y)]) for y in at[1] if y0 < y < y1]
        if not flat:
            out += _hip_lines(wing, face, widths.a_ft)
        if wing.name != face.wing:  # where that wing's own slope begins and ends
            out += _hip_lines(wing, face, 0.0)
    return out


def _axis_places(
    wing: Wing, side: FrameSide, widths: EdgeWidths, index: int, overhangs: tuple[float, float], theta_deg: float
) -> tuple[list[float], list[float]]:
    """Coordinates along x and y of the zone lines square to the walls."""
    a, ridge, ends = widths.a_ft, wing.ridge_axis, widths.end_zone_ft
    edges = reach(wing, overhangs)
    places: tuple[list[float], list[float]] = ([], [])
    for axis in (0, 1):
        low, high = wing.low_ft[axis], wing.high_ft[axis]
        places[axis].extend((edges[axis], low, high, edges[axis + 2]))
        both_ways = mid_length_reading(theta_deg) or any(not wing.gable[s] for s in wing.ends)
        if axis == ridge or both_ways:
            places[axis].extend((low + ends, high - ends, (low + high) / 2.0))
        if axis != ridge or wing.square:
            extent = widths.zone_2_ft[index][axis]
            places[axis].extend((low + extent, high - extent, (low + high) / 2.0))
        steps = zone_lines_ft(theta_deg, a, widths.h_ft)
        places[axis].extend(edges[axis] + s for s in steps)
        places[axis].extend(edges[axis + 2] - s for s in steps)
        if axis != side.axis or read_by_distance(theta_deg):  # a slope along the wind
            places[axis].extend(low + s for s in widths.strips_ft)
            places[axis].extend(high - s for s in widths.strips_ft)
    across = side.axis
    places[across].append((wing.low_ft[across] + wing.high_ft[across]) / 2.0)
    if across != ridge and not is_flat(theta_deg):
        line = wing.side_ft(side) + side.inward * (wing.half_width_ft - a)
        places[across].append(line)
    return places


def _hip_lines(wing: Wing, face: Face, a_ft: float) -> list[LineString]:
    """On a face, the lines a from each of the hips at its ends."""
    mine = side_line(wing, face.side)
    x0, y0, x1, y1 = face.in_frame.bounds
    out: list[LineString] = []
    for other in wing.eave_sides:
        if other.axis == face.side.axis:
            continue
        theirs = side_line(wing, other)
        # theirs - mine = a sqrt(2): p x + q y = r with p and q of size 1
        p, q = theirs[0] - mine[0], theirs[1] - mine[1]
        r = a_ft * math.sqrt(2.0) - theirs[2] + mine[2]
        at = [(x, (r - p * x) / q) for x in (x0 - 1, x1 + 1)]
        ys = sorted(y for _, y in at)
        if ys[0] < y1 and ys[1] > y0:
            out.append(LineString(at))
    return out
