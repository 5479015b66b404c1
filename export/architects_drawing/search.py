"""An architect's DXF -> the outlines that may be the outside face of the walls, numbered for a person to choose."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import shapely
from shapely.geometry import Polygon

from export.architects_drawing.boundaries import Boundary, How
from export.architects_drawing.file import BROKEN, RIGHT, nothing_drawn, open_to_look
from export.architects_drawing.fills import as_seen
from export.architects_drawing.finding import Drawn, boundaries_of, same
from export.architects_drawing.layer_sets import is_other, is_wall, matching
from export.architects_drawing.layers import Chain
from export.architects_drawing.loops import crossing, join, place
from export.architects_drawing.pairs import Flags, Floats
from export.architects_drawing.strokes import Strokes, strokes_of
from export.architects_drawing.unit_votes import Vote, is_sure, votes_of
from export.architects_drawing.units import FT_PER_UNIT, WORDS, Unit
from framing.errors import PlanError
from framing.plan import Point
from framing.units import shown

SURE_DOUBLE, SURE_NEARBY, SURE_LEAD, SURE_FT2 = 0.75, 0.9, 0.3, 400.0
SAME_SHARE = 0.97
RIVAL_DOUBLE, RIVAL_SHARE = 0.95, 0.6
"""A rival within the first that is walled all round: what lies between them may be no house."""
SURE_OPENING_IN = 16.5 * 12.0
"""A garage for two cars; what closes wider may be a court, and is asked about."""
MOST_JOINED, MOST_LOOSE = 4000, 600
"""Of lines on a layer that are joined to loops: a closed outline is a few lines on a layer of its own."""
LEAST_LOOP_FT2 = 100.0
WALL_BONUS, OTHER_BONUS = 0.5, -1.5


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """What somebody asks of a drawing: patterns of layers, unit, code page, a part of the sheet (x0 y0 x1 y1)."""

    layers: tuple[str, ...] = ()
    unit: str | None = None
    encoding: str | None = None
    crop: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """An outline that may be the house's.

    `corners` and `inside` (a point in it) are in the drawing's coordinates, counter-clockwise; `closed` the gaps
    that were closed, each (width in feet, middle), `cut` the free walls that were left out; `sheet_plan` counts
    the plans of the sheet from 1; `double` is the share of the edge with a second line behind it.
    """

    number: int
    how: How
    layers: tuple[str, ...]
    corners: tuple[Point, ...]
    size_ft: Point
    area_ft2: float
    inside: Point
    closed: tuple[tuple[float, Point], ...]
    cut: tuple[tuple[float, Point], ...]
    sheet_plan: int
    double: float

    @property
    def single_lines(self) -> bool:
        """Whether the walls are single lines here, so that the line itself was taken as their outside face."""
        return self.how is not How.DRAWN and self.double < 0.5


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Search:
    """What was found: the candidates, whether the first is beyond doubt, the unit, and what was drawn.

    `seen` is what the drawing shows, `pieces` per candidate its walls and bridges, both in drawing coordinates.
    """

    unit: Unit
    votes: tuple[Vote, ...]
    unit_sure: bool
    candidates: tuple[Candidate, ...]
    sure: bool
    n_plans: int
    notes: tuple[str, ...]
    seen: Floats
    dashed: Floats
    bent: Floats
    walls: tuple[tuple[Polygon, ...], ...]
    bridges: tuple[tuple[Polygon, ...], ...]


def search_drawing(path: Path, request: Request) -> Search:
    """The outlines in a drawing that may be the outside face of the walls, the likeliest first.

    Parameters
    ----------
    path : Path
        A DXF file in text form, R12 to R2018; a damaged one is repaired as far as that goes, and said.
    request : Request
        What to look at.

    Returns
    -------
    Search
        Without candidates where no house is found.

    Raises
    ------
    PlanError
        If there is no such file, no DXF in it, no such layer, or nothing drawn.
    """
    document, repaired = open_to_look(path, request.encoding)
    try:
        seen, code = strokes_of(document), int(document.header.get("$INSUNITS", 0) or 0)
    except BROKEN:
        raise PlanError(f"{path}: this is a broken DXF file; {RIGHT}") from None
    if not len(seen.segments):
        raise nothing_drawn(path, document)
    strokes = _cropped(seen, request, path)
    chosen = _chosen(strokes, request, path)
    votes = votes_of(strokes, code)
    unit = votes[0].unit
    if request.unit is not None:
        unit = Unit(words=WORDS[request.unit], ft=FT_PER_UNIT[request.unit], asked=True)
    strokes = as_seen(strokes, unit.ft * 12.0)
    middle, per_in = _middle(strokes), unit.ft * 12.0
    drawn = _in_inches(strokes, middle, per_in)
    found = boundaries_of(drawn, chosen, _loops(strokes, middle, per_in, chosen))
    notes = [
        *(["the file is damaged and was repaired as far as that goes: look at the picture"] if repaired else []),
        *([f"{strokes.unread} pieces of the drawing could not be read"] if strokes.unread else []),
    ]
    return Search(
        unit=unit,
        votes=votes,
        unit_sure=request.unit is not None or is_sure(votes),
        candidates=tuple(_candidate(k + 1, b, strokes.names, middle, per_in) for k, b in enumerate(found)),
        sure=_is_sure(found),
        n_plans=len({b.place for b in found}),
        notes=tuple(notes),
        seen=strokes.segments,
        dashed=strokes.dashed,
        bent=strokes.bent,
        walls=tuple(tuple(_back(p, middle, per_in) for p in b.origin.walls) for b in found),
        bridges=tuple(tuple(_back(p, middle, per_in) for p in b.bridges) for b in found),
    )


def _cropped(strokes: Strokes, request: Request, path: Path) -> Strokes:
    """What lies wholly in the part that was asked for."""
    if request.crop is None:
        return strokes
    x0, y0, x1, y1 = request.crop

    def inside(xy: Floats) -> Flags:
        return np.asarray((xy[:, 0] >= x0) & (xy[:, 0] <= x1) & (xy[:, 1] >= y0) & (xy[:, 1] <= y1), bool)

    keep = inside(strokes.segments[:, :2]) & inside(strokes.segments[:, 2:])
    if not keep.any():
        raise PlanError(
            f"{path}: --crop: nothing is drawn between {place((x0, y0))} and {place((x1, y1))}; "
            f"the drawing reaches from {place(tuple(strokes.segments.reshape(-1, 2).min(axis=0)))} "
            f"to {place(tuple(strokes.segments.reshape(-1, 2).max(axis=0)))}"
        )
    return replace(
        strokes.only(keep),
        arcs=strokes.arcs[inside(strokes.arcs)],
        words=tuple(w for w in strokes.words if x0 <= w[0] <= x1 and y0 <= w[1] <= y1),
    )


def _chosen(strokes: Strokes, request: Request, path: Path) -> Flags | None:
    """Which layers were asked for; None for all."""
    if not request.layers:
        return None
    chosen = matching(strokes.names, request.layers)
    used = np.unique(strokes.layer[chosen[strokes.layer]])
    if not len(used):
        drawn = dict.fromkeys(strokes.names[k] for k in np.unique(strokes.layer).tolist())
        names = ", ".join(map(shown, list(drawn)[:8]))
        raise PlanError(
            f"{path}: nothing is seen on a layer like {', '.join(map(shown, request.layers))}; "
            f"what is drawn is on {names}"
        )
    return chosen


def _middle(strokes: Strokes) -> Floats:
    """The middle of what is drawn: figures stay small about it, wherever on earth the drawing lies."""
    return np.asarray(np.median(strokes.segments.reshape(-1, 2), axis=0), float)


def _in_inches(strokes: Strokes, middle: Floats, per_in: float) -> Drawn:
    arcs = strokes.arcs.copy()
    arcs[:, :2] -= middle
    arcs[:, :3] *= per_in
    return Drawn(
        segments=(strokes.segments - np.tile(middle, 2)) * per_in,
        layer=strokes.layer,
        shape=strokes.shape,
        names=strokes.names,
        arcs=arcs,
        words=tuple(((x - middle[0]) * per_in, (y - middle[1]) * per_in, t) for x, y, t in strokes.words),
    )


def _loops(strokes: Strokes, middle: Floats, per_in: float, chosen: Flags | None) -> list[tuple[Polygon, int, float]]:
    """The closed lines of a house's size on each layer, in inches about the middle."""
    by_layer: defaultdict[int, dict[int, list[int]]] = defaultdict(dict)
    for k, (layer, shape) in enumerate(zip(strokes.layer.tolist(), strokes.shape.tolist(), strict=True)):
        if layer not in strokes.hatched and (chosen is None or chosen[layer]):
            by_layer[layer].setdefault(shape, []).append(k)
    inches = (strokes.segments - np.tile(middle, 2)) * per_in
    found = []
    for layer, shapes in by_layer.items():
        name = strokes.names[layer]
        chains = [_chain(inches[rows]) for rows in shapes.values()]
        if len(chains) > (MOST_JOINED if chosen is not None or is_wall(name) else MOST_LOOSE):
            chains = [c for c in chains if c.closed]
        loops, _ = join(chains, 1.0 / 12.0)
        bonus = WALL_BONUS if is_wall(name) else OTHER_BONUS if is_other(name) else 0.0
        for loop in loops:
            if loop.ring.area >= LEAST_LOOP_FT2 * 144.0 and crossing(loop) is None:
                found.append((loop.ring, layer, bonus))
    return found


def _chain(rows: Floats) -> Chain:
    points = [(float(x), float(y)) for x, y in (*rows[:, :2], rows[-1, 2:])]
    closed = len(points) > 3 and points[0] == points[-1]
    return Chain(points=tuple(points[:-1] if closed else points), closed=closed)


def _is_sure(found: Sequence[Boundary]) -> bool:
    """Whether the first boundary may be taken without asking: walls all round, one plan, no near rival, none within."""
    if not found:
        return False
    first = found[0]
    rivals = [b for b in found[1:] if not same(b.shape, first.shape, SAME_SHARE)]
    lead = first.score - max((b.score for b in rivals), default=-9.0)
    one = all(b.place == 0 or b.looks.double < 0.5 for b in found)
    walls = first.looks.double >= SURE_DOUBLE and first.looks.nearby >= SURE_NEARBY
    narrow = max((wide for wide, _ in first.closed), default=0.0) <= SURE_OPENING_IN
    grown = first.shape.buffer(1.0)
    inside = any(
        b.looks.double >= RIVAL_DOUBLE and b.shape.area >= RIVAL_SHARE * first.shape.area and grown.covers(b.shape)
        for b in rivals
    )
    whole = first.origin.how is not How.CLOSED and not inside and all(b.origin.how is not How.WITHOUT for b in rivals)
    return walls and one and narrow and whole and lead >= SURE_LEAD and first.looks.area_ft2 >= SURE_FT2


def _back(shape: Polygon, middle: Floats, per_in: float) -> Polygon:
    """A shape in inches about the middle, where it was drawn."""
    made: Polygon = shapely.transform(shape, lambda xy: xy / per_in + middle)
    return made


def _candidate(number: int, b: Boundary, names: Sequence[str], middle: Floats, per_in: float) -> Candidate:
    ring = np.array(b.shape.exterior.coords)[:-1]
    if not b.shape.exterior.is_ccw:
        ring = ring[::-1]
    start = int(np.lexsort((ring[:, 0], np.round(ring[:, 0] + ring[:, 1], 3)))[0])
    ring = np.roll(ring, -start, axis=0)
    sides = np.roll(ring, -1, axis=0) - ring
    u = sides[np.argmax(np.hypot(*sides.T))]
    u = u / np.hypot(*u)
    spans = sorted((float(np.ptp(ring @ w)) / 12.0 for w in (u, np.array((-u[1], u[0])))), reverse=True)
    inside = b.shape.representative_point()

    def back(p: Point) -> Point:
        return (float(p[0] / per_in + middle[0]), float(p[1] / per_in + middle[1]))

    return Candidate(
        number=number,
        how=b.origin.how,
        layers=tuple(dict.fromkeys(names[k] for k in b.origin.layers)),
        corners=tuple(back((x, y)) for x, y in ring),
        size_ft=(spans[0], spans[1]),
        area_ft2=b.shape.area / 144.0,
        inside=back((inside.x, inside.y)),
        closed=tuple((wide / 12.0, back(at)) for wide, at in b.closed),
        cut=tuple((long / 12.0, back(at)) for long, at in b.cut),
        sheet_plan=b.place + 1,
        double=b.looks.double,
    )
