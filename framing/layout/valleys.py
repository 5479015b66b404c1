"""Valley sets: small trusses laid on the main trusses to carry the roof above a cell's own wing."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry import LineString, MultiPolygon, Polygon
from shapely.geometry import Point as Spot

from framing.frame_side import FrameSide
from framing.layout.cell_plan import CellPlan
from framing.layout.profiles import bent_only, folds, seen_folds
from framing.layout.records import SHORTEST_PIECE_FT, Cell, cell_ring
from framing.members import Carrier, CarrierKind, Member, MemberKind, Tributary
from framing.plan import Plan, Point
from framing.roof.surface import Floats, Roof, own_height_ft, visible_height_ft
from framing.roof.visible_faces import clip
from framing.roof.wings import Wing, side_line
from framing.tolerances import TIE_FT
from framing.walls.outline import Outline


def valley_members(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    cell_plans: list[CellPlan],
    tributaries: tuple[Tributary, ...],
    members: list[Member],
) -> tuple[Member, ...]:
    """The valley trusses over every cell where the roof seen stands above its own trusses, square to the ridge that
    they carry, at the truss spacing.

    They stand on the trusses below and need no wall anchor; their roof stays with those trusses.
    """
    strips = [t for t in tributaries if not t.outward]
    inside = shapely.STRtree([Polygon(t.ring_ft) for t in strips])
    owners = [members[t.owner].name for t in strips]
    seen = {w.name: shapely.union_all([f.in_frame for f in roof.faces if f.wing == w.name]) for w in roof.wings}
    walls = Polygon(outline.local_ft)
    out: list[Member] = []
    for cp in cell_plans:
        above = shapely.union_all(
            [_above(roof, cp.wing, open_sides, ground.intersection(walls)) for ground, open_sides in _bands(cp)],
            grid_size=TIE_FT,
        )
        over = [(replace(cp.wing, ridge_axis=1 - cp.cell.ridge_axis), above)]
        if not roof.angled_eaves:
            over = [
                (w, shapely.intersection(seen[w.name], above, grid_size=TIE_FT))
                for w in roof.wings
                if w.name != cp.wing.name
            ]
        for wing, area in over:
            for line in _lines(plan, cp.cell, wing, area) if area.area > SHORTEST_PIECE_FT**2 else []:
                carriers = _below(line, inside, owners)
                if carriers:  # else over what angled walls cut away: the deck spans it
                    out.append(_member(plan, outline, roof, wing, cp, line, carriers, len(out) + 1))
    return tuple(out)


def _bands(cp: CellPlan) -> list[tuple[Polygon, tuple[FrameSide, ...]]]:
    """A cell from half-hip to half-hip along its ridge, and the sides toward which its trusses there do not fall."""
    axis = cp.cell.ridge_axis
    places = sorted({cp.cell.low_ft[axis], cp.cell.high_ft[axis], *(h.to_ft for h in cp.half_hips)})
    across = (cp.cell.low_ft[1 - axis], cp.cell.high_ft[1 - axis])
    return [(Polygon(cell_ring(axis, (a, b), across)), cp.open_sides((a + b) / 2.0)) for a, b in pairwise(places)]


def _above(roof: Roof, own: Wing, open_sides: tuple[FrameSide, ...], ground: Polygon) -> shapely.Geometry:
    """Where, over a piece of ground, the roof seen stands above a wing's own less its slopes from the open sides."""
    faces = np.array([f.in_frame for f in roof.faces], dtype=object)
    parts = []
    for k in np.flatnonzero(shapely.intersects(faces, ground)):
        over = _polygons(faces[k].intersection(ground))
        corners = shapely.get_coordinates(over)
        a, b, c = roof.faces[k].plane
        for d, e, f in (side_line(own, side) for side in own.eave_sides if side not in open_sides):
            line = (a - d, b - e, c - f - TIE_FT)
            higher = corners @ line[:2] + line[2] > 0
            if higher.all():
                parts.append(over)
                break
            if higher.any():
                parts.append(over.intersection(_half_plane(line, over)))
    return _polygons(shapely.union_all(parts, grid_size=TIE_FT))


def _polygons(geometry: shapely.Geometry) -> MultiPolygon:
    """What of a geometry has an area."""
    return MultiPolygon([p for p in shapely.get_parts(shapely.get_parts(geometry)) if isinstance(p, Polygon)])


def _half_plane(line: tuple[float, float, float], around: shapely.Geometry) -> Polygon:
    """The part of a square around a geometry where a x + b y + c > 0, which is not nowhere in it."""
    x0, y0, x1, y1 = around.bounds
    ring = [(x0 - 1, y0 - 1), (x1 + 1, y0 - 1), (x1 + 1, y1 + 1), (x0 - 1, y1 + 1)]
    return Polygon(clip(ring, line))


def _lines(plan: Plan, cell: Cell, wing: Wing, area: shapely.Geometry) -> list[LineString]:
    """Where valley trusses lie: across the wing's ridge, from the seam at the edge of the cell, where the wing's own
    trusses end and the set is highest, down over the covered deck.
    """
    axis = wing.ridge_axis
    bounds = area.bounds
    low, high, c0, c1 = bounds[axis], bounds[axis + 2], bounds[1 - axis] - 1, bounds[3 - axis] + 1
    spacing = plan.trusses.spacing_ft
    at_low, at_high = low - cell.low_ft[axis] <= TIE_FT, cell.high_ft[axis] - high <= TIE_FT
    n = math.ceil((high - low) / spacing - TIE_FT) - 1
    if at_low == at_high:  # over the whole cell, or within it
        at_low = abs(low - wing.low_ft[axis]) > abs(wing.high_ft[axis] - high)
    places = [low + k * spacing if at_low else high - k * spacing for k in range(1, n + 1)]
    out = []
    for at in places:
        across = LineString([(at, c0), (at, c1)] if axis == 0 else [(c0, at), (c1, at)])
        for piece in shapely.get_parts(across.intersection(area)):
            if isinstance(piece, LineString) and piece.length >= SHORTEST_PIECE_FT:
                out.append(piece)
    return out


def _below(line: LineString, inside: shapely.STRtree, owners: list[str]) -> tuple[Carrier, ...]:
    """The members under a line, in order along it; `owners` names whose each strip of the tree is."""
    strips = inside.query(line, predicate="intersects")
    shared = shapely.intersection(inside.geometries[strips], line)
    from_start_ft = shapely.distance(shapely.centroid(shared), Spot(line.coords[0]))
    in_order = np.argsort(from_start_ft, kind="stable")
    under = in_order[shapely.length(shared[in_order]) > TIE_FT]
    names = dict.fromkeys(owners[i] for i in strips[under])
    return tuple(Carrier(kind=CarrierKind.MEMBER, name=n) for n in names)


def _member(
    plan: Plan,
    outline: Outline,
    roof: Roof,
    wing: Wing,
    cp: CellPlan,
    line: LineString,
    carriers: tuple[Carrier, ...],
    number: int,
) -> Member:
    pts = np.array(line.coords)
    a, b = pts[0], pts[-1]
    profile, floor = _profile(plan, roof, wing, cp, a, b)
    points: tuple[Point, Point] = ((float(a[0]), float(a[1])), (float(b[0]), float(b[1])))
    return Member(
        name=f"valley {number}",
        kind=MemberKind.VALLEY,
        plies=1,
        start_ft=outline.frame.to_plan(points[0]),
        end_ft=outline.frame.to_plan(points[1]),
        tail_start_ft=0.0,
        tail_end_ft=0.0,
        profile=profile,
        base_ft=floor,
        carriers=carriers,
        wing=wing.name,
        paths=(),
        frame_ft=points,
        between=(),
        width_ft=plan.trusses.spacing_ft,
        effective_span_ft=math.dist(a, b),
        ground_ft=(),
    )


def _profile(plan: Plan, roof: Roof, wing: Wing, cp: CellPlan, a: Floats, b: Floats) -> tuple[tuple[Point, ...], float]:
    """The top line of a valley piece, and the height of the deck that it stands on at its lower end."""
    length = math.dist(a, b)
    u, over = (b - a) / length, (plan.roof.overhang_ft, plan.roof.rake_overhang_ft)
    if roof.angled_eaves:
        bends = seen_folds(roof, a, u, (0.0, length))
    else:
        bends = folds([side_line(wing, k) for k in wing.eave_sides], a, u, (0.0, length))
    s = np.array(sorted({0.0, length} | bends))
    along = a + np.outer(s, u)
    top = visible_height_ft(roof, along) if roof.angled_eaves else own_height_ft(wing, over, roof.rise_per_run, along)
    below = cp.open_sides(float((a + b)[cp.cell.ridge_axis]) / 2.0)
    base = own_height_ft(cp.wing, over, roof.rise_per_run, along, below)
    heel = plan.trusses.heel_ft
    floor = heel + (float(base[np.isfinite(base)].min()) if np.isfinite(base).any() else 0.0)
    return bent_only(list(zip(s.tolist(), np.maximum(heel + top, floor).tolist(), strict=True))), floor
