"""The names of the members, written along them where there is room and nowhere else."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from export.anchor_plan.rows import TextSizes, WallLine
from export.paper.lettering import printable
from export.paper.sheet import Circle, Layer, Line, Point, Polyline, Stroke, Symbol, Text, View, along
from export.paper.symbols import RADIUS_IN, plain_strokes
from framing.members import Member, MemberKind
from framing.run import Run

Geometries = NDArray[Any]
GAP_IN = 0.03
BETWEEN_NAMES_IN = 0.08
ROOM_FOR_START_IN = 0.4
OUTSIDE_IN, INSIDE_IN = (0.1, 0.3, 0.37, 0.5, 0.7, 0.9), (0.08, 0.25, 0.45, 0.65, 0.85)
PLACES = (0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9)
GIRDERS = frozenset({MemberKind.HIP_GIRDER, MemberKind.GIRDER})


def name_texts(
    run: Run, view: View, lines: tuple[WallLine, ...], sizes: TextSizes
) -> tuple[tuple[Text, ...], frozenset[str]]:
    """The names that find room beside their member, and the members that find none.

    A name touches no other name, no anchor, no wall and no line of a member.
    """
    members = sorted(run.framing.members, key=lambda m: (m.kind not in GIRDERS, -m.span_ft))
    if not members:
        return (), frozenset()
    inside, taken = _room(run, view, lines)
    drafts = [_candidates(m, view, sizes) for m in members]
    boxes = shapely.polygons(np.stack([bases[:, None] + np.subtract(t.box, t.at) for t, bases in drafts]))
    free = shapely.contains_properly(inside, boxes)
    free.flat[taken.query(boxes.ravel(), predicate="intersects")[0]] = False
    texts: list[Text] = []
    homeless = set()
    grid: dict[tuple[int, int], list[Polygon]] = {}
    for m, (text, bases), own, may in zip(members, drafts, boxes, free, strict=True):
        spot = next((i for i in np.flatnonzero(may) if not _meets(own[i], grid)), None)
        if spot is None:
            homeless.add(m.name)
            continue
        x, y = bases[spot].tolist()
        texts.append(replace(text, at=(x, y)))
        box = own[spot].buffer(BETWEEN_NAMES_IN, join_style="mitre")
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
    segments = [(view.paper(m.start_ft), view.paper(m.end_ft)) for m in run.framing.members]
    segments += [(view.paper(s.start_ft), view.paper(s.end_ft)) for s in run.plan.supports]
    straps = [view.paper(m.bearing.strap_ft) for m in run.schedule.marks]
    starts = [view.paper(w.start_ft) for w in lines if not w.outside]
    kept_free = _discs(starts, ROOM_FOR_START_IN) if starts else ()
    return inside, shapely.STRtree([*shapely.linestrings(segments), *_discs(straps, RADIUS_IN + GAP_IN), *kept_free])


def _discs(centres: Sequence[Point], radius_in: float) -> Geometries:
    """Full circles, by 64 points each."""
    turn = np.linspace(0.0, 2.0 * math.pi, 64, endpoint=False)
    rim = radius_in * np.column_stack((np.cos(turn), np.sin(turn)))
    discs: Geometries = shapely.polygons(np.reshape(centres, (-1, 1, 2)) + rim)
    return discs


def _candidates(m: Member, view: View, sizes: TextSizes) -> tuple[Text, NDArray[np.float64]]:
    """The name, and the left ends (14, 2) of its baseline above and below the member's line, the best first."""
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
    middles = np.array(a) + np.subtract(b, a) * np.array(PLACES)[:, None]
    up, back = along((0.0, 0.0), angle + 90.0, 1.0), along((0.0, 0.0), angle, -text.width_in / 2)
    return text, np.concatenate([middles + np.multiply(up, rise) + back for rise in rises])


def wall_labels(
    said: tuple[tuple[WallLine, tuple[str, ...]], ...],
    drawn: Iterable[Stroke],
    plan: tuple[View, TextSizes],
    window: Polygon,
) -> tuple[Text, ...]:
    """The first of each line's words that fit beside it, clear of all that is drawn."""
    if not said:
        return ()
    view, sizes = plan
    taken = shapely.STRtree(covered(drawn))
    labels: list[Text] = []
    for line, ways in said:
        tries = [t for words in ways for t in _beside_wall(words, line, view, sizes)]
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
    for off in (*(d + h / 2 for d in OUTSIDE_IN), *(-thick - d - h / 2 for d in INSIDE_IN)):
        for place in PLACES:
            x, y = (a[k] + (b[k] - a[k]) * place + out[k] * off for k in (0, 1))
            base = along(along((x, y), angle + 90.0, -h / 2), angle, -text.width_in / 2)
            tries.append(replace(text, at=base))
    return tries


def covered(drawn: Iterable[Stroke]) -> list[BaseGeometry]:
    """What the strokes cover, near enough for placing text."""
    boxes: list[tuple[Point, ...]] = []
    symbols: list[Point] = []
    bends: list[tuple[Point, ...]] = []
    circles: list[Circle] = []
    for stroke in drawn:
        if isinstance(stroke, Symbol):
            symbols.append(stroke.at)
            continue
        for s in plain_strokes(stroke):
            if isinstance(s, Text):
                boxes.append(s.box)
            elif isinstance(s, Line):
                bends.append((s.start, s.end))
            elif isinstance(s, Polyline) and len(s.points) > 1:
                bends.append((*s.points, s.points[0]) if s.closed else s.points)
            elif isinstance(s, Circle):
                circles.append(s)
    whose = np.repeat(np.arange(len(bends)), [len(points) for points in bends])
    lines = shapely.linestrings(np.concatenate(bends), indices=whose) if bends else ()
    discs = (d for c in circles for d in _discs([c.centre], c.radius_in))
    return [*shapely.polygons(np.reshape(boxes, (-1, 4, 2))), *lines, *_discs(symbols, RADIUS_IN + GAP_IN), *discs]


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
