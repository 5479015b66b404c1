"""The names of the members, written along them where there is room and nowhere else."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from export.anchor_plan.rows import TextSizes, WallLine
from export.anchor_plan.symbols import RADIUS_IN, plain_strokes
from export.sheet import Circle, Layer, Line, Polyline, Stroke, Symbol, Text, View, along, printable
from framing.members import Member, MemberKind
from framing.run import Run

GAP_IN = 0.03
BETWEEN_NAMES_IN = 0.08
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
GIRDERS = frozenset({MemberKind.HIP_GIRDER, MemberKind.GIRDER})


def name_texts(
    run: Run, view: View, lines: tuple[WallLine, ...], sizes: TextSizes
) -> tuple[tuple[Text, ...], frozenset[str]]:
    """The names that find room beside their member, and the members that find none.

    A name touches no other name, no anchor, no wall and no line of a member.
    """
    inside, taken = _room(run, view, lines)
    texts: list[Text] = []
    homeless = set()
    grid: dict[tuple[int, int], list[Polygon]] = {}
    for m in sorted(run.framing.members, key=lambda m: (m.kind not in GIRDERS, -m.span_ft)):
        tries = _candidates(m, view, sizes)
        boxes = shapely.polygons([t.box for t in tries])
        free = shapely.contains_properly(inside, boxes)
        free[taken.query(boxes, predicate="intersects")[0]] = False
        spot = next((i for i in np.flatnonzero(free) if not _meets(boxes[i], grid)), None)
        if spot is None:
            homeless.add(m.name)
            continue
        texts.append(tries[spot])
        box = boxes[spot].buffer(BETWEEN_NAMES_IN, join_style="mitre")
        for cell in _cells(box):
            grid.setdefault(cell, []).append(box)
    return tuple(texts), frozenset(homeless)


def member_name(m: Member) -> str:
    """What the plan calls it: its name, with the plies where there are several."""
    return printable(f"{m.name}, {m.plies} ply" if m.plies > 1 else m.name)


def _room(run: Run, view: View, lines: tuple[WallLine, ...]) -> tuple[BaseGeometry, shapely.STRtree]:
    """Where a name may stand at all, and what it must not touch."""
    house = shapely.Polygon([view.paper(w.start_ft) for w in lines if w.outside])
    thickness = max((w.thickness_ft for w in lines), default=0.0) * view.scale.in_per_ft
    inside = house.buffer(-thickness - GAP_IN, join_style="mitre")
    shapely.prepare(inside)
    strokes: list[BaseGeometry] = [
        LineString([view.paper(s.start_ft), view.paper(s.end_ft)]) for s in run.framing.members
    ]
    strokes += [LineString([view.paper(s.start_ft), view.paper(s.end_ft)]) for s in run.plan.supports]
    strokes += [shapely.Point(view.paper(m.strap_ft)).buffer(RADIUS_IN + GAP_IN) for m in run.schedule.marks]
    return inside, shapely.STRtree(strokes)


def _candidates(m: Member, view: View, sizes: TextSizes) -> list[Text]:
    """The name above and below the member's line, at several places along it, the best first."""
    a, b = view.paper(m.start_ft), view.paper(m.end_ft)
    angle = readable_deg(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])))
    text = Text(
        at=a,
        text=member_name(m),
        height_in=sizes.label_in,
        layer=Layer.TRUSS_NAMES,
        angle_deg=angle,
        bold=m.kind in GIRDERS,
        width_ratio=sizes.width_ratio,
    )
    rises = (0.29 * sizes.label_in + GAP_IN, -sizes.label_in - GAP_IN)
    middles = [(a[0] + (b[0] - a[0]) * place, a[1] + (b[1] - a[1]) * place) for place in PLACES]
    bases = [along(along(p, angle + 90.0, rise), angle, -text.width_in / 2) for rise in rises for p in middles]
    return [replace(text, at=base) for base in bases]


def wall_labels(
    lines: tuple[WallLine, ...], drawn: Iterable[Stroke], plan: tuple[View, TextSizes], window: Polygon
) -> tuple[Text, ...]:
    """The name of each wall whose rows stand elsewhere, beside it and clear of all that is drawn."""
    view, sizes = plan
    taken = shapely.STRtree([g for s in drawn for g in _covered(s)])
    labels: list[Text] = []
    for line in lines:
        tries = [t for words in (f"{line.name} apart", line.name) for t in _beside_wall(words, line, view, sizes)]
        boxes = shapely.polygons([t.box for t in tries])
        met = set(taken.query(boxes, predicate="intersects")[0].tolist())
        met |= set(np.flatnonzero(~shapely.contains(window, boxes)).tolist())
        others = [Polygon(t.box) for t in labels]
        free = (i for i in range(len(tries)) if i not in met and not any(boxes[i].intersects(o) for o in others))
        spot = next(free, None)
        if spot is not None:
            labels.append(tries[spot])
    return tuple(labels)


def _beside_wall(words: str, line: WallLine, view: View, sizes: TextSizes) -> list[Text]:
    """A wall's name along it, outside first, then inside."""
    a, b = view.paper(line.start_ft), view.paper(line.end_ft)
    angle = readable_deg(math.degrees(math.atan2(b[1] - a[1], b[0] - a[0])))
    thick = line.thickness_ft * view.scale.in_per_ft
    h = sizes.figure_in
    out = view.turned(line.outward)
    text = Text(
        at=a,
        text=words,
        height_in=h,
        layer=Layer.MARKS,
        angle_deg=angle,
        bold=True,
        width_ratio=sizes.width_ratio,
    )
    tries = []
    for off in (0.1 + h / 2, 0.3 + h / 2, 0.5 + h / 2, -thick - 0.08 - h / 2, -thick - 0.25 - h / 2):
        for place in PLACES:
            x, y = (a[k] + (b[k] - a[k]) * place + out[k] * off for k in (0, 1))
            base = along(along((x, y), angle + 90.0, -h / 2), angle, -text.width_in / 2)
            tries.append(replace(text, at=base))
    return tries


def _covered(s: Stroke) -> list[BaseGeometry]:
    """What a stroke covers, near enough for placing text."""
    if isinstance(s, Text):
        return [Polygon(s.box)]
    if isinstance(s, Symbol):
        return [shapely.Point(s.at).buffer(RADIUS_IN + GAP_IN)]
    shapes = []
    for plain in plain_strokes(s):
        if isinstance(plain, Line):
            shapes.append(LineString([plain.start, plain.end]))
        elif isinstance(plain, Polyline) and len(plain.points) > 1:
            shapes.append(LineString([*plain.points, plain.points[0]] if plain.closed else plain.points))
        elif isinstance(plain, Circle):
            shapes.append(shapely.Point(plain.centre).buffer(plain.radius_in))
    return shapes


def _meets(box: Polygon, grid: dict[tuple[int, int], list[Polygon]]) -> bool:
    return any(box.intersects(other) for cell in _cells(box) for other in grid.get(cell, ()))


def _cells(box: Polygon) -> list[tuple[int, int]]:
    """The inch squares of the sheet that a box touches."""
    x0, y0, x1, y1 = (math.floor(v) for v in box.bounds)
    return [(x, y) for x in range(x0, x1 + 1) for y in range(y0, y1 + 1)]


def readable_deg(angle_deg: float) -> float:
    """The direction of a text along a line so that it is read from below or from the right."""
    angle = math.remainder(angle_deg, 360.0)
    if angle <= -89.0:
        angle += 180.0
    elif angle > 91.0:
        angle -= 180.0
    return angle
