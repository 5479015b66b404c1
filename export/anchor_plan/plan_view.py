"""The plan on one size of paper: the largest standard scale at which house and rows fit, and its strokes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import shapely
from shapely.affinity import translate
from shapely.geometry import Polygon

from export.anchor_plan.names import GIRDERS, name_texts, wall_labels
from export.anchor_plan.rows import Detail, Row, TextSizes, WallLine, rows_of, support_line, wall_lines
from export.anchor_plan.rows_of_a_side import (
    FACINGS,
    FAN_TO_IN,
    Facing,
    SideRows,
    bare_dimensions,
    facings_of,
    house_on_paper,
    overflow_in,
    rows_of_a_side,
    side_strokes,
    start_arrow,
)
from export.paper.sheet import Layer, Line, Pen, Point, Polyline, Scale, Sign, Stroke, Symbol, Text, View
from export.paper.symbols import UNRESOLVED, signs_of
from export.wall_marks.tape_marks import wall_tapes
from framing.anchors.schedule import Mark
from framing.errors import OutputError
from framing.members import PorchBeam
from framing.run import Run
from framing.walls.standing_walls import beam_ground, standing_lines

SCALES = (
    Scale(in_per_ft=1 / 4, written="1/4 in. = 1 ft"),
    Scale(in_per_ft=3 / 16, written="3/16 in. = 1 ft"),
    Scale(in_per_ft=1 / 8, written="1/8 in. = 1 ft"),
    Scale(in_per_ft=3 / 32, written="3/32 in. = 1 ft"),
    Scale(in_per_ft=1 / 16, written="1/16 in. = 1 ft"),
    Scale(in_per_ft=1 / 32, written="1/32 in. = 1 ft"),
    Scale(in_per_ft=1 / 60, written="1 in. = 60 ft"),
    Scale(in_per_ft=1 / 100, written="1 in. = 100 ft"),
)
SPARE_IN = 0.15
LEAST_REACH_IN = 0.4
BESIDE_IN = 0.15
PIER_REACH_IN = 0.14


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanView:
    """The plan set out: its view with the house's lower left corner at the origin, rows and walls drawn apart."""

    view: View
    house: Polygon
    sides: tuple[SideRows, ...]
    apart: tuple[WallLine, ...]
    crowded: bool
    names: tuple[Text, ...]
    unnamed: frozenset[str]
    lines: tuple[WallLine, ...]
    reach_in: tuple[float, float, float, float]

    @property
    def size_in(self) -> Point:
        """Width and height of house and rows together. [in]."""
        left, below, right, above = self.reach_in
        x0, y0, x1, y1 = self.house.bounds
        return (x1 - x0 + left + right, y1 - y0 + below + above)

    def fits(self, room_in: Point) -> bool:
        """Whether it fits the room with no two rows in each other's way."""
        return not self.crowded and self.size_in[0] <= room_in[0] and self.size_in[1] <= room_in[1]

    def shifted(self, by: Point) -> PlanView:
        """The same plan elsewhere on the sheet."""
        view = replace(self.view, shift=(self.view.shift[0] + by[0], self.view.shift[1] + by[1]))
        return replace(
            self,
            view=view,
            house=translate(self.house, *by),
            sides=tuple(s.shifted(by) for s in self.sides),
            names=tuple(replace(t, at=(t.at[0] + by[0], t.at[1] + by[1])) for t in self.names),
        )


def sheet_angle_deg(run: Run) -> float:
    """By how much the plan is turned on the sheet so that its walls run along it, at most 45 degrees."""
    frame = run.outline.frame
    return -math.remainder(math.degrees(math.atan2(frame.sin, frame.cos)), 90.0)


def fit_plan(run: Run, room_in: Point, sizes: TextSizes) -> PlanView:
    """The plan at the largest standard scale that fits the room.

    Full rows down to 3/32 in. = 1 ft; else short rows, the full ones drawn apart; else a plan without rows.
    """
    lines = wall_lines(run)
    tapes = wall_tapes(run)
    for detail, scales in ((Detail.FULL, SCALES[:4]), (Detail.SHORT, SCALES), (None, SCALES)):
        rows = {t.name: rows_of(t, frozenset(), sizes, detail) for t in tapes} if detail else {}
        for scale in scales:
            plan = _at_scale(run, lines, scale, sizes, rows)
            if not plan.fits(room_in):
                continue
            names, unnamed = name_texts(run, plan.view, lines, sizes)
            if sizes.names_in_rows and detail:
                named = {t.name: rows_of(t, unnamed, sizes, detail) for t in tapes}
                plan = _at_scale(run, lines, scale, sizes, named)
            if plan.fits(room_in):
                shown = {p.line.name for s in plan.sides for p in s.rows} if detail is Detail.FULL else set()
                apart = tuple(w for w in lines if w.name not in shown and w.name in {t.name for t in tapes})
                return replace(plan, names=names, unnamed=unnamed, apart=apart)
    raise OutputError("the anchor plan: the house is larger than a sheet at 1 in. = 100 ft; a side is at most 500 ft")


def _at_scale(
    run: Run, lines: tuple[WallLine, ...], scale: Scale, sizes: TextSizes, rows: dict[str, tuple[Row, ...]]
) -> PlanView:
    """House and rows set out, names and walls drawn apart still left out."""
    view = View(scale=scale, angle_deg=sheet_angle_deg(run), shift=(0.0, 0.0))
    x0, y0 = house_on_paper(lines, view).bounds[:2]
    view = replace(view, shift=(-x0, -y0))
    house = house_on_paper(lines, view)
    by_facing: dict[Facing, list[tuple[WallLine, tuple[Row, ...]]]] = {f: [] for f in FACINGS}
    facings = facings_of(lines, {name: len(own) for name, own in rows.items()}, view, house)
    for w in lines:
        if w.name in facings:
            by_facing[facings[w.name]].append((w, rows[w.name]))
    sides = tuple(rows_of_a_side(f, walls, view, house, sizes) for f, walls in by_facing.items())
    reach, crowded = _reach(sides, house, sizes)
    return PlanView(
        view=view,
        house=house,
        sides=sides,
        apart=(),
        crowded=crowded,
        names=(),
        unnamed=frozenset(),
        lines=lines,
        reach_in=reach,
    )


def _reach(
    sides: tuple[SideRows, ...], house: Polygon, sizes: TextSizes
) -> tuple[tuple[float, float, float, float], bool]:
    """How far the rows reach past the house (left, below, right, above), and whether two sides meet at a corner."""
    over = [overflow_in(s, house, sizes) for s in sides]
    below, right, above, left = (s.depth_in for s in sides)
    free = FAN_TO_IN - SPARE_IN
    crowded = any(over[i][1] > free and over[(i + 1) % 4][0] > free for i in range(4))
    reach = (
        max(left, over[0][0], over[2][1], LEAST_REACH_IN),
        max(below, over[1][0], over[3][1], LEAST_REACH_IN),
        max(right, over[0][1], over[2][0], LEAST_REACH_IN),
        max(above, over[1][1], over[3][0], LEAST_REACH_IN),
    )
    return reach, crowded


def plan_strokes(
    run: Run, plan: PlanView, sizes: TextSizes, window: tuple[float, float, float, float]
) -> tuple[Stroke, ...]:
    """Walls, tie beam, members with names, anchors, dimensions and rows, where the plan's view puts them."""
    view = plan.view
    strokes: list[Stroke] = [*_wall_strokes(run, plan)]
    for m in run.framing.members:
        girder = m.kind in GIRDERS
        a, b = view.paper(m.start_ft), view.paper(m.end_ft)
        layer, pen = (Layer.GIRDER, Pen.HEAVY) if girder else (Layer.TRUSS, Pen.FINE)
        strokes.append(Line(start=a, end=b, layer=layer, pen=pen))
    strokes += plan.names
    tapes = {t.name: t for t in wall_tapes(run)}
    signs = signs_of(run)
    for mark in (m for m in run.schedule.marks if not m.bearing.by_engineer):
        strokes += anchor_symbols(mark, signs, view)
    for side in plan.sides:
        strokes += side_strokes(side, view, sizes)
    for line in (w for w in plan.apart if w.outside):
        strokes += bare_dimensions(line, tapes[line.name], view)
    named = {p.line.name for side in plan.sides for p in side.rows}
    silent = tuple(
        (w, _words(run, w, apart=w.name in tapes)) for w in (*plan.lines, *_unmarked(run)) if w.name not in named
    )
    inside = [w for w in plan.lines if not w.outside]
    strokes += [
        start_arrow(view.paper(w.start_ft), view.turned(w.outward), Layer.DIMENSIONS, BESIDE_IN) for w in inside
    ]
    starts = tuple((replace(w, end_ft=w.point_ft(w.length_ft / 4)), (f"START {w.name}",)) for w in inside)
    return (*strokes, *wall_labels((*starts, *silent), strokes, (view, sizes), shapely.box(*window)))


def _words(run: Run, line: WallLine, *, apart: bool) -> tuple[str, ...]:
    """What may be said beside a line without rows on the plan, the longest first; `apart` where it has a tape."""
    if line.name in {b.name for b in run.framing.porch_beams}:
        beam = f"{line.name} porch beam"
        return (f"{beam} apart" if apart else f"{beam}, no tie beam", beam, line.name)
    return (f"{line.name} apart" if apart else f"{line.name}, no anchors", line.name)


def _unmarked(run: Run) -> tuple[WallLine, ...]:
    """The supports on which no anchor stands; the porch beams along the walls that they stand for."""
    marked = {m.bearing.wall for m in run.schedule.marks if not m.bearing.by_engineer}
    beams = {b.name: b for b in run.framing.porch_beams}
    named = ((f"S{k}", support) for k, support in enumerate(run.plan.supports, start=1))
    return tuple(
        _beam_line(run, beams[name]) if name in beams else support_line(name, support)
        for name, support in named
        if name not in marked
    )


def _beam_line(run: Run, beam: PorchBeam) -> WallLine:
    wall = run.outline.walls[beam.wall]
    return WallLine(
        name=beam.name,
        start_ft=wall.point_ft(beam.from_ft),
        end_ft=wall.point_ft(beam.to_ft),
        length_ft=beam.to_ft - beam.from_ft,
        outward=wall.outward,
        thickness_ft=wall.thickness_ft,
        outside=False,
    )


def anchor_symbols(m: Mark, signs: dict[str, Sign], view: View) -> list[Symbol]:
    """The anchor at its strap point, and the second strap of a pair on the truss's other face."""
    sign = signs[m.anchor.id] if m.anchor else UNRESOLVED
    at = [s.point_ft for s in m.straps] or [m.bearing.strap_ft]
    return [Symbol(at=view.paper(p), angle_deg=0.0, sign=sign, mark=m.mark, strap=k) for k, p in enumerate(at, start=1)]


def _wall_strokes(run: Run, plan: PlanView) -> list[Stroke]:
    """The outside face heavy, the tie beam's inside face lighter, supports as their own lines."""
    view = plan.view
    more = [*_pier_strokes(run, plan), *_support_strokes(run, view)]
    if run.framing.porch_beams:
        return [*_open_wall_strokes(run, view), *more]
    ring = tuple(view.paper(w.start_ft) for w in run.outline.walls)
    thickness = run.outline.walls[0].thickness_ft * view.scale.in_per_ft
    inner = plan.house.buffer(-thickness, join_style="mitre", mitre_limit=20.0)
    strokes: list[Stroke] = [Polyline(points=ring, layer=Layer.WALL, pen=Pen.HEAVY, closed=True)]
    for part in getattr(inner, "geoms", [inner]):
        points = tuple((x, y) for x, y in list(part.exterior.coords)[:-1])
        strokes.append(Polyline(points=points, layer=Layer.BEAM, pen=Pen.MEDIUM, closed=True))
    return [*strokes, *more]


def _pier_strokes(run: Run, plan: PlanView) -> list[Stroke]:
    """The piers, which no mark stands on, where they leave the wall: cut short of the tape's arrow."""
    near = plan.house.buffer(PIER_REACH_IN, join_style="mitre")
    rings = [shapely.LinearRing([plan.view.paper(p) for p in ring]) for ring in run.outline.piers_ft]
    faces = (shapely.get_parts(shapely.line_merge(r.difference(plan.house.exterior).intersection(near))) for r in rings)
    return [
        Polyline(points=tuple((x, y) for x, y in line.coords), layer=Layer.WALL, pen=Pen.MEDIUM)
        for lines in faces
        for line in lines
        if isinstance(line, shapely.LineString) and line.length > 0.0
    ]


def _support_strokes(run: Run, view: View) -> list[Stroke]:
    """The supports inside the house as their own lines."""
    porch_beams = {b.support for b in run.framing.porch_beams}
    inside = [s for i, s in enumerate(run.plan.supports) if i not in porch_beams]
    return [
        Line(start=view.paper(s.start_ft), end=view.paper(s.end_ft), layer=Layer.BEAM, pen=Pen.MEDIUM) for s in inside
    ]


def _open_wall_strokes(run: Run, view: View) -> list[Stroke]:
    """The walls and the tie beam where they stand, closed at their ends, and the porch beams between them, fine."""
    beams = run.framing.porch_beams
    strokes: list[Stroke] = []
    for inset, layer, pen in ((0.0, Layer.WALL, Pen.HEAVY), (run.plan.wall_thickness_ft, Layer.BEAM, Pen.MEDIUM)):
        for line in standing_lines(run.outline, beams, inset):
            strokes.append(Polyline(points=tuple(view.paper(p) for p in line), layer=layer, pen=pen))
    for beam in beams:
        ring = tuple(view.paper(p) for p in beam_ground(run.outline, beam, beams).exterior.coords[:-1])
        strokes.append(Polyline(points=ring, layer=Layer.BEAM, pen=Pen.FINE, closed=True))
    return strokes
