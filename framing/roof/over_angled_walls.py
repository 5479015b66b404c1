"""Angled outline -> the visible roof: the faces of the straight skeleton over the eaves, and its lines.

Each face is cut along the squared house's faces, so that every part of it knows the wing and the side whose wind
pressures it takes: those of the square corner that an angled wall stands in for.
"""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass

import shapely
from shapely.geometry import LineString, Polygon

from framing.plan import Point
from framing.roof.angled_eaves import AngledEaves, Plane, eaves_of, wall_plane
from framing.roof.lines import LineKind, RoofLine
from framing.roof.skeleton import skeleton_faces
from framing.tolerances import FINE_GRID_FT, PROBE_FT, SLIVER_FT2, TIE_FT
from framing.walls.outline import Frame, Outline


@dataclass(frozen=True, slots=True, kw_only=True)
class WallFace:
    """The plan of the roof that rises from one wall, in the outline's frame; `plane` (a, b, c) makes
    a x + b y + c the distance in from the wall's outside face. [ft]
    """

    wall: int
    polygon: Polygon
    plane: Plane


@dataclass(frozen=True, slots=True, kw_only=True)
class AngledRoof:
    """The eaves and the faces; `gable_edges` are the eaves' edges past gable walls and the ends of eaves longer than
    the next, `highest_run_ft` the run of the highest point; `notes` say where eaves are shortened.
    """

    eave: Polygon
    faces: tuple[WallFace, ...]
    gable_edges: tuple[LineString, ...]
    highest_run_ft: float
    notes: tuple[str, ...] = ()


def angled_roof(outline: Outline, gables: frozenset[int], overhangs_ft: Point) -> AngledRoof:
    """The roof of equal pitch over walls at any angle, gables on whole walls. Where the eaves would meet over a recess
    or run past one another and leave no one ring, some are shortened, and said.

    Source: own derivation: tests/invariants/test_skeleton.py.

    Raises
    ------
    LayoutError
        If the eaves leave no one ring with those shortened either.
    """
    eaves = eaves_of(outline, gables, overhangs_ft)
    walls, n = eaves.walls, len(eaves.walls)
    speeds = tuple(0.0 if w in gables else 1.0 for w in walls)
    faces = tuple(
        WallFace(
            wall=walls[f.edge],
            polygon=_down_to_its_eave(f.polygon, f.edge, eaves),
            plane=wall_plane(outline, walls[f.edge]),
        )
        for f in skeleton_faces(eaves.level, speeds, tuple(outline.walls[w].name for w in walls))
    )
    runs = [a * x + b * y + c for f in faces for a, b, c in (f.plane,) for x, y in f.polygon.exterior.coords]
    edges = [LineString([eaves.ring[i], eaves.ring[(i + 1) % n]]) for i in range(n) if walls[i] in gables]
    return AngledRoof(
        eave=Polygon(eaves.ring),
        faces=faces,
        gable_edges=(*edges, *eaves.ends),
        highest_run_ft=max(runs),
        notes=eaves.notes,
    )


def _down_to_its_eave(face: Polygon, edge: int, eaves: AngledEaves) -> Polygon:
    """A face from the level of the shortest eaves run on down to its own; the end of the longer of two eaves is cut
    along the edge of the shorter.
    """
    if eaves.level == eaves.ring:
        return face
    k = (edge + 1) % len(eaves.ring)
    more = Polygon([eaves.level[edge], eaves.ring[edge], eaves.ring[k], eaves.level[k]])
    out = shapely.union_all([face, more], grid_size=FINE_GRID_FT) if more.area > SLIVER_FT2 else face
    return out if isinstance(out, Polygon) else face


def angled_lines(roof: AngledRoof, frame: Frame, rise_per_run: float, heel_ft: float) -> tuple[RoofLine, ...]:
    """Every line of the roof, told apart by the slopes on its two sides."""
    out = [_line(LineKind.EAVE, f.plane, *e, frame, rise_per_run, heel_ft) for f in roof.faces for e in _eaves(f)]
    for f in roof.faces:
        for edge in roof.gable_edges:
            for a, b in _shared(f.polygon.exterior, edge):
                out.append(_line(LineKind.RAKE, f.plane, a, b, frame, rise_per_run, heel_ft))
    for i, j, a, b in _meetings(roof):
        f, g = roof.faces[i], roof.faces[j]
        if max(abs(p - q) for p, q in zip(f.plane, g.plane, strict=True)) > TIE_FT:  # else two walls in one line
            out.append(_line(_fold(f, g, a, b), f.plane, a, b, frame, rise_per_run, heel_ft))
    order = list(LineKind)
    return tuple(sorted(out, key=lambda line: order.index(line.kind)))


def _eaves(face: WallFace) -> list[tuple[Point, Point]]:
    """The level edges at the face's foot."""
    a, b, c = face.plane
    pairs = list(itertools.pairwise(face.polygon.exterior.coords))
    foot = min(a * x + b * y + c for x, y in face.polygon.exterior.coords)
    return [(p, q) for p, q in pairs if max(a * p[0] + b * p[1], a * q[0] + b * q[1]) + c <= foot + TIE_FT]


def _meetings(roof: AngledRoof) -> list[tuple[int, int, Point, Point]]:
    """Every straight line along which two faces meet, with their places in the roof's list."""
    rings = [f.polygon.exterior for f in roof.faces]
    pairs = shapely.STRtree(rings).query(rings, predicate="dwithin", distance=TIE_FT).T.tolist()
    return [(i, j, a, b) for i, j in sorted(pairs) if i < j for a, b in _shared(rings[i], rings[j])]


def _shared(one: shapely.Geometry, other: shapely.Geometry) -> list[tuple[Point, Point]]:
    """The straight stretches that two lines share."""
    (a, b, c, d), (e, f, g, h) = one.bounds, other.bounds
    if max(a, e) > min(c, g) + TIE_FT or max(b, f) > min(d, h) + TIE_FT:
        return []
    common = shapely.intersection(one, other, grid_size=TIE_FT)
    lines = [part for part in shapely.get_parts(common) if isinstance(part, LineString)]
    if not lines:
        return []
    merged = shapely.get_parts(shapely.simplify(shapely.line_merge(shapely.union_all(lines)), 2 * TIE_FT))
    pairs = [pair for g in merged for pair in itertools.pairwise(g.coords)]
    return [(a, b) for a, b in pairs if math.dist(a, b) > PROBE_FT]


def _fold(f: WallFace, g: WallFace, a: Point, b: Point) -> LineKind:
    """Whether two faces meet in a ridge, a hip or a valley: a hair off the line into g, f's plane is the higher one
    where they fold down, so g's is the roof.
    """
    dx, dy = b[0] - a[0], b[1] - a[1]
    length = math.hypot(dx, dy)
    nx, ny = -dy / length, dx / length
    hair = shapely.Point((a[0] + b[0]) / 2 + PROBE_FT * nx, (a[1] + b[1]) / 2 + PROBE_FT * ny)
    if g.polygon.distance(hair) > f.polygon.distance(hair):
        nx, ny = -nx, -ny
    bend = (g.plane[0] - f.plane[0]) * nx + (g.plane[1] - f.plane[1]) * ny
    if bend > 0:
        return LineKind.VALLEY
    level = abs(f.plane[0] * dx + f.plane[1] * dy) < 0.1 * length
    return LineKind.RIDGE if level else LineKind.HIP


def _line(kind: LineKind, plane: Plane, a: Point, b: Point, frame: Frame, rise: float, heel_ft: float) -> RoofLine:
    z = [heel_ft + rise * (plane[0] * x + plane[1] * y + plane[2]) for x, y in (a, b)]
    return RoofLine(kind=kind, start_ft=(*frame.to_plan(a), z[0]), end_ft=(*frame.to_plan(b), z[1]))


def angled_eaves_and_hips(
    roof: AngledRoof, outline: Outline
) -> tuple[tuple[tuple[Point, Point], ...], tuple[tuple[Point, Point], ...]]:
    """The eaves of angled walls, and the hips and ridges between their faces and the others, in the outline's frame."""
    angled = [outline.axes[f.wall] is None for f in roof.faces]
    eaves = tuple(e for f, one in zip(roof.faces, angled, strict=True) if one for e in _eaves(f))
    hips = tuple(
        (a, b)
        for i, j, a, b in _meetings(roof)
        if (angled[i] or angled[j]) and _fold(roof.faces[i], roof.faces[j], a, b) is not LineKind.VALLEY
    )
    return eaves, hips
