"""Outline + wings -> Roof: the visible faces and the lines where they meet.

The roof is the upper envelope of the roofs over all wings (equal pitches). With hips all round its height
is the pitch times the square-ball distance to the eave.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon, box

from framing.asce7.chapter26 import mean_roof_height_ft
from framing.errors import PlanError
from framing.frame_side import FrameSide
from framing.plan import Plan, Point
from framing.roof.eave_refusals import in_parts, refuse_small_holes
from framing.roof.gables import build_wings, gable_walls
from framing.roof.lines import RoofLine, roof_lines
from framing.roof.over_angled_walls import AngledRoof, angled_eaves_and_hips, angled_lines, angled_roof
from framing.roof.visible_faces import less_no_eave, visible_polygons
from framing.roof.wings import Wing, covers, reach, side_line
from framing.tolerances import FINE_GRID_FT, SLIVER_FT2, TIE_FT2
from framing.walls.outline import Frame, Outline
from framing.walls.squared_outline import Squared, square_off

Point3 = tuple[float, float, float]
Floats = NDArray[np.float64]
TALLEST_FT = 60.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """One visible plane of the roof, overhang included.

    `ring_ft` is the outer ring (x, y, z) in plan coordinates, counter-clockwise from above, z above the top
    of the tie beam; `holes_ft` likewise. `wing` names the wing whose roof it is, `side` the side of that
    wing it rises from; `downhill` is the plan direction in which water runs off. `in_frame` is the same
    polygon in the outline's frame, `plane` (a, b, c) makes a x + b y + c there the distance in from the outside
    face of the wall it rises from. Over an angled wall, `wing` and `side` are those of the squared house, whose
    wind pressures the part takes.
    """

    ring_ft: tuple[Point3, ...]
    holes_ft: tuple[tuple[Point3, ...], ...]
    wing: str
    side: FrameSide
    downhill: Point
    in_frame: Polygon
    plane: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Roof:
    """The roof as seen.

    `eave_ft` is the outer edge in plan coordinates, one ring, counter-clockwise, `eave_holes_ft` any holes
    in it; `eave_in_frame` the same in the outline's frame. Heights `eave_height_ft`, `highest_ft` and
    `mean_roof_height_ft` are above ground; `eave_height_ft` is to the top of the roof plane above the
    wall's outside face. `angled_eaves` and `angled_hips` are lines in the outline's frame: the eaves of angled walls,
    and the hips and ridges along their faces.
    """

    wings: tuple[Wing, ...]
    faces: tuple[Face, ...]
    lines: tuple[RoofLine, ...]
    eave_ft: tuple[Point, ...]
    eave_holes_ft: tuple[tuple[Point, ...], ...]
    eave_in_frame: Polygon
    plan_area_ft2: float
    rise_per_run: float
    heel_ft: float
    overhang_ft: float
    rake_overhang_ft: float
    angled_eaves: tuple[tuple[Point, Point], ...]
    angled_hips: tuple[tuple[Point, Point], ...]
    eave_height_ft: float
    highest_ft: float
    notes: tuple[str, ...] = ()

    def wing(self, name: str) -> Wing:
        """The wing of that name."""
        return self.wings[int(name.rsplit(maxsplit=1)[-1]) - 1]


def build_roof(plan: Plan, outline: Outline) -> Roof:
    """The roof over an outline.

    Raises
    ------
    PlanError
        If a gable mark in the plan cannot be built, or the mean roof height is over 60 ft.
    LayoutError
        If the eaves leave a hole under 1 ft.
    """
    spec = plan.roof
    squared = square_off(outline)
    wings = build_wings(plan, squared)
    rise, heel = spec.rise_per_run, plan.trusses.heel_ft
    seen = (_seen_square if outline.right_angled else _seen_angled)(plan, outline, squared, wings)
    eave = seen.eave
    eave_height = plan.ground_to_floor_ft + plan.wall_height_ft + heel
    highest = eave_height + rise * seen.highest_run_ft
    _refuse_tall_houses(mean_roof_height_ft(eave_height, highest, spec.theta_deg))
    return Roof(
        wings=wings,
        faces=seen.faces,
        lines=seen.lines,
        eave_ft=_ring_in_plan(eave.exterior, outline.frame),
        eave_holes_ft=tuple(_ring_in_plan(r, outline.frame) for r in eave.interiors),
        eave_in_frame=eave,
        plan_area_ft2=float(eave.area),
        rise_per_run=rise,
        heel_ft=heel,
        overhang_ft=spec.overhang_ft,
        rake_overhang_ft=spec.rake_overhang_ft,
        angled_eaves=seen.angled_eaves,
        angled_hips=seen.angled_hips,
        eave_height_ft=eave_height,
        highest_ft=highest,
        notes=seen.notes or _notes(eave, outline, plan),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Seen:
    """What is seen from above; `highest_run_ft` is the plan distance of the highest point from its wall."""

    eave: Polygon
    faces: tuple[Face, ...]
    lines: tuple[RoofLine, ...]
    highest_run_ft: float
    angled_eaves: tuple[tuple[Point, Point], ...] = ()
    angled_hips: tuple[tuple[Point, Point], ...] = ()
    notes: tuple[str, ...] = ()


def _seen_square(plan: Plan, outline: Outline, _: Squared, wings: tuple[Wing, ...]) -> _Seen:
    """Over right-angled walls: the upper envelope of the wings' roofs."""
    overhangs = (plan.roof.overhang_ft, plan.roof.rake_overhang_ft)
    rise, heel = plan.roof.rise_per_run, plan.trusses.heel_ft
    polygons = visible_polygons(wings, overhangs)
    eave = shapely.union_all([_cover(w, overhangs) for w in wings])
    if not isinstance(eave, Polygon):
        raise in_parts(eave, outline)
    refuse_small_holes(eave, outline, plan.roof.overhang_ft)
    return _Seen(
        eave=eave,
        faces=tuple(_face(p, w, k, side_line(w, k), outline.frame, rise, heel) for p, w, k in polygons),
        lines=roof_lines([p for p, _, _ in polygons], wings, overhangs, rise, heel, outline.frame),
        highest_run_ft=max(w.half_width_ft for w in wings),
    )


def _seen_angled(plan: Plan, outline: Outline, squared: Squared, wings: tuple[Wing, ...]) -> _Seen:
    """Over angled walls: the straight skeleton of the eaves."""
    overhangs = (plan.roof.overhang_ft, plan.roof.rake_overhang_ft)
    rise, heel = plan.roof.rise_per_run, plan.trusses.heel_ft
    angled = angled_roof(outline, gable_walls(squared, wings), overhangs)
    eaves, hips = angled_eaves_and_hips(angled, outline)
    return _Seen(
        eave=angled.eave,
        faces=_cut_by_squared(angled, visible_polygons(wings, overhangs), outline.frame, rise, heel),
        lines=angled_lines(angled, outline.frame, rise, heel),
        highest_run_ft=angled.highest_run_ft,
        angled_eaves=eaves,
        angled_hips=hips,
        notes=angled.notes,
    )


def _cut_by_squared(
    angled: AngledRoof, polygons: list[tuple[Polygon, Wing, FrameSide]], frame: Frame, rise: float, heel: float
) -> tuple[Face, ...]:
    """The faces over an angled outline, each part with the wing and side of the squared house that it lies under;
    where an eave reaches out past the squared house's, with those of the nearest.
    """
    out, tree = [], shapely.STRtree([over for over, _, _ in polygons])
    for face in angled.faces:
        parts = [
            (part, wing, k)
            for over, wing, k in (polygons[at] for at in sorted(tree.query(face.polygon)))
            for part in _polygons(shapely.intersection(face.polygon, over, grid_size=FINE_GRID_FT))
        ]
        under = shapely.union_all([p for p, _, _ in parts], grid_size=FINE_GRID_FT)
        for past in _polygons(shapely.difference(face.polygon, under, grid_size=FINE_GRID_FT)):
            _, wing, k = min(polygons, key=lambda p: p[0].distance(past))
            parts.append((past, wing, k))
        out += [_face(part, wing, k, face.plane, frame, rise, heel) for part, wing, k in parts]
    return tuple(out)


def _polygons(geometry: shapely.Geometry) -> list[Polygon]:
    return [p for p in shapely.get_parts(geometry) if isinstance(p, Polygon) and p.area > SLIVER_FT2]


def _refuse_tall_houses(mean_roof_height: float) -> None:
    """Source: ASCE 7-22, sec. 28.2 and 30.3: low-rise buildings, mean roof height up to 60 ft (solid)."""
    if mean_roof_height > TALLEST_FT:
        raise PlanError(
            f"roof: the mean roof height comes to {mean_roof_height:.1f} ft, but the wind procedures here end at "
            "60 ft; make the walls lower, the pitch flatter or the wings narrower"
        )


def _cover(wing: Wing, overhangs_ft: Point) -> Polygon:
    return less_no_eave(box(*reach(wing, overhangs_ft)), wing)


def _face(
    p: Polygon, wing: Wing, side: FrameSide, plane: tuple[float, float, float], frame: Frame, rise: float, heel: float
) -> Face:
    p = shapely.geometry.polygon.orient(p)
    a, b, c = plane

    def ring(coords: shapely.LinearRing) -> tuple[Point3, ...]:
        out = []
        for x, y in list(coords.coords)[:-1]:
            px, py = frame.to_plan((x, y))
            out.append((px, py, heel + rise * (a * x + b * y + c)))
        return tuple(out)

    return Face(
        ring_ft=ring(p.exterior),
        holes_ft=tuple(ring(r) for r in p.interiors),
        wing=wing.name,
        side=side,
        downhill=frame.turn_to_plan((-a, -b)),
        in_frame=p,
        plane=plane,
    )


def _ring_in_plan(ring: shapely.LinearRing, frame: Frame) -> tuple[Point, ...]:
    pts = [frame.to_plan((x, y)) for x, y in list(ring.coords)[:-1]]
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(pts, pts[1:] + pts[:1], strict=True))
    return tuple(pts if area > 0 else reversed(pts))


def _notes(eave: Polygon, outline: Outline, plan: Plan) -> tuple[str, ...]:
    """What people should hear of the eaves."""
    walls = Polygon(outline.local_ft)
    over = plan.roof.overhang_ft
    notes = []
    if eave.interiors:
        notes.append("The eaves leave an open hole over the court; its edges are eaves.")
    if _closed_recess_area_ft2(walls, over) > TIE_FT2:
        notes.append(
            "Eaves meet over a recess narrower than twice the overhang: the roof covers it, "
            "the bearings stay on the walls."
        )
    return tuple(notes)


def _closed_recess_area_ft2(walls: Polygon, overhang_ft: float) -> float:
    """Area of the recesses that the eaves close: what an outward then inward offset adds. [ft2]"""
    if overhang_ft <= 0:
        return 0.0
    grown = walls.buffer(overhang_ft, join_style="mitre", mitre_limit=10.0)
    return float(grown.buffer(-overhang_ft, join_style="mitre", mitre_limit=10.0).difference(walls).area)


def visible_height_ft(roof: Roof, points_ft: Floats) -> Floats:
    """Height of the roof as seen over points (n, 2) in the outline's frame, measured from the roof plane above the
    outside face of the walls; -inf where there is none. (n,) [ft]
    """
    out = np.full(len(points_ft), -math.inf)
    low, high = points_ft.min(axis=0), points_ft.max(axis=0)
    bounds = shapely.bounds([f.in_frame for f in roof.faces])
    near = (bounds[:, :2] <= high).all(axis=1) & (bounds[:, 2:] >= low).all(axis=1)
    for k in np.flatnonzero(near):
        face = roof.faces[k]
        at = shapely.intersects_xy(face.in_frame, points_ft)
        a, b, c = face.plane
        out[at] = np.maximum(out[at], roof.rise_per_run * (points_ft[at] @ (a, b) + c))
    return out


def own_height_ft(
    wing: Wing, overhangs_ft: Point, rise_per_run: float, points_ft: Floats, without: tuple[int, ...] = ()
) -> Floats:
    """Height over points (n, 2) of one wing's own roof but its slopes from the sides `without`, measured from the roof
    plane above the outside face of its walls; -inf where it does not reach. (n,) [ft]
    """
    lines = np.array([side_line(wing, k) for k in wing.eave_sides if k not in without]).reshape(-1, 3)
    run: Floats = (points_ft @ lines[:, :2].T + lines[:, 2]).min(axis=1, initial=math.inf)
    return np.where(covers(wing, overhangs_ft, points_ft), rise_per_run * run, -math.inf)
