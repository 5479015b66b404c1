"""What was found in an architect's drawing, drawn over it: the outline taken, what was closed, the others small."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon, box

from export.anchor_plan.blocks import caution_block
from export.architects_drawing.boundary import polygons
from export.architects_drawing.search import Candidate, Search
from export.paper.block import Block, paragraphs, placed, stacked
from export.paper.lettering import printable
from export.paper.sheet import Align, Circle, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Text
from export.picture.check_picture import Form
from export.picture.key import SIZES
from export.picture.pens import Style, stroked
from export.picture.png import png
from export.picture.svg import svg
from export.words.architects_drawing import said_of
from framing.units import feet_inches

Floats = NDArray[np.float64]
WIDTH_IN, HEIGHT_IN, MARGIN_IN = 24.0, 16.0, 0.4
COLUMN_IN, SMALL_IN, GUTTER_IN = 4.6, 3.0, 0.3
MOST_SMALL, SMALL_COLUMNS = 10, 2
MOST_SMALL_LINES = 700
AROUND = 0.1
TAG_IN = 0.17
BESIDE_IN = 0.2
MOST_SAID = 10
SEEN = Style(pen=Pen.HAIR, layer=Layer.DETAIL)
PASSED_BY = Style(pen=Pen.HAIR, dashes_in=(0.07, 0.05), layer=Layer.DETAIL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A rectangle of paper, and the part of the drawing that is seen in it."""

    left: float
    bottom: float
    right: float
    top: float
    seen: tuple[float, float, float, float]

    @property
    def in_per_unit(self) -> float:
        """Inches of paper a unit of the drawing."""
        x0, y0, x1, y1 = self.seen
        return min((self.right - self.left) / (x1 - x0), (self.top - self.bottom) / (y1 - y0))

    def paper(self, xy: Floats) -> Floats:
        """Where points of the drawing lie on the paper."""
        x0, y0, x1, y1 = self.seen
        middle = np.array(((self.left + self.right) / 2.0, (self.bottom + self.top) / 2.0))
        return np.asarray((xy - np.array(((x0 + x1) / 2.0, (y0 + y1) / 2.0))) * self.in_per_unit + middle, float)

    @property
    def frame(self) -> Polygon:
        """The rectangle of paper."""
        return box(self.left, self.bottom, self.right, self.top)


def outlines_picture(found: Search, chosen: Candidate | None, name: str, form: Form) -> bytes:
    """The drawing with what was found in it drawn over, so that a person sees in one look what was taken and closed.

    Parameters
    ----------
    found : Search
        What the drawing holds.
    chosen : Candidate or None
        The one picked; None for the first of every plan on the sheet.
    name : str
        The drawing's name.
    form : Form
        SVG, or PNG of 120 dots to the inch.

    Returns
    -------
    bytes
        The file; equal input gives equal bytes.
    """
    strokes = outlines_strokes(found, chosen, name)
    size = (WIDTH_IN, HEIGHT_IN)
    return png(strokes, size) if form is Form.PNG else svg(strokes, size, f"{name}: outlines found")


def outlines_strokes(found: Search, chosen: Candidate | None, name: str) -> tuple[Primitive, ...]:
    """The picture as strokes and texts in inches of paper, y up."""
    large = [chosen] if chosen else [c for c in found.candidates if c.number <= found.n_plans]
    small = [c for c in found.candidates if c not in large][:MOST_SMALL]
    right = WIDTH_IN - MARGIN_IN - COLUMN_IN - GUTTER_IN
    if small:
        right -= SMALL_COLUMNS * SMALL_IN + GUTTER_IN
    main = Window(left=MARGIN_IN, bottom=MARGIN_IN, right=right, top=HEIGHT_IN - MARGIN_IN, seen=_seen(found, large))
    strokes: list[Primitive] = [*_frame(main)]
    for each in large:
        strokes += _filled(found, each, main)
    strokes += _underlay(found.seen, main) + _underlay(found.bent, main) + _underlay(found.dashed, main, PASSED_BY)
    for each in large:
        strokes += _outline(each, main, Pen.HEAVY)
    strokes += _tags(found, large, main)
    for k, each in enumerate(small):
        strokes += _small(found, each, k, right + GUTTER_IN)
    beside = _column(found, chosen, large, name)
    x = WIDTH_IN - MARGIN_IN - COLUMN_IN
    return (*strokes, *placed(beside, (x, HEIGHT_IN - MARGIN_IN)))


def _seen(found: Search, shown: Sequence[Candidate]) -> tuple[float, float, float, float]:
    """The part of the drawing around some outlines, or all of it."""
    xy = np.array([p for c in shown for p in c.corners]) if shown else found.seen.reshape(-1, 2)
    low, high = xy.min(axis=0), xy.max(axis=0)
    room = max(float((high - low).max()) * AROUND, 1e-6)
    return (float(low[0] - room), float(low[1] - room), float(high[0] + room), float(high[1] + room))


def _frame(window: Window) -> list[Primitive]:
    corners = ((window.left, window.bottom), (window.right, window.bottom), (window.right, window.top))
    return [Polyline(points=(*corners, (window.left, window.top)), layer=Layer.TITLE, closed=True)]


def _underlay(lines: Floats, window: Window, style: Style = SEEN, most: int = 100_000) -> list[Primitive]:
    """What the drawing shows, with a hair line, cut at the window's frame."""
    if not len(lines):
        return []
    ends = window.paper(lines.reshape(-1, 2)).reshape(-1, 2, 2)
    made = shapely.linestrings(ends)
    made = made[shapely.intersects(made, window.frame)]
    made = made[np.argsort(-shapely.length(made), kind="stable")[:most]]
    cut = shapely.get_parts(shapely.intersection(made, window.frame))
    kept = [np.asarray(line.coords) for line in cut]
    return [stroke for c in kept if len(c) > 1 for stroke in stroked((_point(c[0]), _point(c[-1])), style)]


def _filled(found: Search, c: Candidate, window: Window) -> list[Primitive]:
    """The walls that were taken, grey."""
    shapes = [Polygon(window.paper(np.asarray(shape.exterior.coords))) for shape in found.walls[c.number - 1]]
    seen = [p for shape in shapes for p in polygons(shape.intersection(window.frame))]
    return [
        Polyline(
            points=tuple(_point(p) for p in np.asarray(shape.exterior.coords)[:-1]),
            layer=Layer.WALL,
            pen=Pen.HAIR,
            closed=True,
            fill=Fill.GREY,
        )
        for shape in seen
    ]


def _outline(c: Candidate, window: Window, pen: Pen) -> list[Primitive]:
    points = tuple(_point(p) for p in window.paper(np.array(c.corners)))
    return [Polyline(points=points, layer=Layer.WALL, pen=pen, closed=True)]


def _tags(found: Search, large: Sequence[Candidate], window: Window) -> list[Primitive]:
    """The number of each outline, and the width of each opening that was closed, where there is room."""
    out: list[Primitive] = []
    taken: list[Polygon] = []
    for c in large:
        out += _number(c, window)
        middle = window.paper(np.array([c.inside]))[0]
        taken.append(Polygon(shapely.Point(middle).buffer(TAG_IN * 1.5).exterior))
    for c in large:
        house = Polygon(window.paper(np.array(c.corners)))
        shapes = found.bridges[c.number - 1]
        for shape, (wide, at) in zip(shapes, c.closed, strict=True):
            ring = window.paper(np.asarray(shape.exterior.coords)[:-1])
            out += _crossed(ring)
            text = _beside(house, window.paper(np.array([at]))[0], feet_inches(wide))
            ground = Polygon(text.box).buffer(0.03)
            if window.frame.contains(ground) and not any(ground.intersects(t) for t in taken):
                taken.append(ground)
                out.append(text)
    return out


def _crossed(ring: Floats) -> list[Primitive]:
    """An opening that was closed: its frame and both diagonals, told apart from wall without colour."""
    points = tuple(_point(p) for p in ring)
    frame = Polyline(points=points, layer=Layer.WALL, pen=Pen.MEDIUM, closed=True, fill=Fill.WHITE)
    if len(points) < 4:
        return [frame]
    pairs = ((points[0], points[2]), (points[1], points[3]))
    return [frame, *(Line(start=a, end=b, layer=Layer.WALL, pen=Pen.MEDIUM) for a, b in pairs)]


def _beside(house: Polygon, at: Floats, words: str) -> Text:
    """A width, outside the house beside the opening."""
    near = house.exterior.interpolate(house.exterior.project(shapely.Point(at)))
    step = house.exterior.project(near)
    a, b = house.exterior.interpolate(max(0.0, step - 0.05)), house.exterior.interpolate(step + 0.05)
    way = np.array((b.x - a.x, b.y - a.y))
    side = np.array((way[1], -way[0])) / max(float(np.hypot(*way)), 1e-9)
    text = Text(at=(0.0, 0.0), text=words, height_in=SIZES.label_in, layer=Layer.MARKS, align=Align.CENTRE)
    clear = BESIDE_IN + abs(float(side[0])) * text.width_in / 2.0
    spot = np.array((near.x, near.y)) + side * clear
    if house.contains(shapely.Point(spot)):
        spot = np.array((near.x, near.y)) - side * clear
    return replace(text, at=(float(spot[0]), float(spot[1]) - SIZES.label_in / 2.0))


def _number(c: Candidate, window: Window) -> list[Primitive]:
    x, y = _point(window.paper(np.array([c.inside]))[0])
    return [
        Circle(centre=(x, y), radius_in=TAG_IN, layer=Layer.MARKS, pen=Pen.MEDIUM, fill=Fill.WHITE),
        Text(
            at=(x, y - SIZES.figure_in / 2.0),
            text=str(c.number),
            height_in=SIZES.figure_in,
            layer=Layer.MARKS,
            align=Align.CENTRE,
            bold=True,
        ),
    ]


def _small(found: Search, c: Candidate, k: int, left: float) -> list[Primitive]:
    """Another outline, small: its frame, the drawing under it, its size."""
    x = left + SMALL_IN * (k % SMALL_COLUMNS)
    top = HEIGHT_IN - MARGIN_IN - SMALL_IN * (k // SMALL_COLUMNS)
    window = Window(
        left=x + 0.05, bottom=top - SMALL_IN + 0.3, right=x + SMALL_IN - 0.05, top=top, seen=_seen(found, [c])
    )
    words = f"{c.number}   {feet_inches(c.size_ft[0])} by {feet_inches(c.size_ft[1])}"
    return [
        *_frame(window),
        *_underlay(found.seen, window, most=MOST_SMALL_LINES),
        *_outline(c, window, Pen.HEAVY),
        Text(at=(x + 0.08, top - SMALL_IN + 0.1), text=words, height_in=SIZES.label_in, layer=Layer.MARKS, bold=True),
    ]


def _column(found: Search, chosen: Candidate | None, large: Sequence[Candidate], name: str) -> Block:
    """Title, caution, key, the list of the outlines, what is to be known."""
    known = f" ({found.unit.known_by})" if found.unit.known_by else ""
    head = [
        (printable(name), SIZES.start_in, True),
        ("Outlines found in this drawing", SIZES.figure_in, True),
        (f"The drawing's unit: {found.unit.words}{known}", SIZES.label_in, False),
    ]
    rows = [("Outlines", SIZES.figure_in, True)] if found.candidates else [("No outline found", SIZES.figure_in, True)]
    for c in found.candidates:
        mark = " (picked)" if chosen is not None and c.number == chosen.number else ""
        size = f"{feet_inches(c.size_ft[0])} by {feet_inches(c.size_ft[1])}"
        rows.append((f"{c.number}: {size}, {len(c.corners)} corners, {c.how}{mark}", SIZES.label_in, bool(mark)))
    said = [
        ("To know", SIZES.figure_in, True),
        *((s, SIZES.label_in, False) for s in said_of(found, chosen)[:MOST_SAID]),
    ]
    return stacked(
        [
            paragraphs(head, COLUMN_IN, Layer.TITLE),
            caution_block(COLUMN_IN, SIZES),
            *([_key()] if large else []),
            paragraphs(rows, COLUMN_IN, Layer.LEGEND),
            *([paragraphs(said, COLUMN_IN, Layer.NOTES)] if len(said) > 1 else []),
        ],
        0.1,
    )


def _key() -> Block:
    """What the lines mean."""
    head = paragraphs([("Large picture", SIZES.figure_in, True)], COLUMN_IN, Layer.LEGEND)
    y = -head.height_in
    strokes: list[Primitive] = list(head.strokes)
    ring = ((0.0, 0.0), (0.7, 0.0), (0.7, 0.16), (0.0, 0.16))
    samples: tuple[tuple[str, list[Primitive]], ...] = (
        (
            "outside face that was taken",
            [Line(start=(0.0, 0.08), end=(0.7, 0.08), layer=Layer.LEGEND, pen=Pen.HEAVY)],
        ),
        (
            "wall, between two lines of the drawing",
            [Polyline(points=ring, layer=Layer.LEGEND, pen=Pen.HAIR, closed=True, fill=Fill.GREY)],
        ),
        ("opening that was closed, with its width", _crossed(np.array(ring))),
        (
            "the drawing itself; dashed: passed by",
            [Line(start=(0.0, 0.08), end=(0.7, 0.08), layer=Layer.LEGEND, pen=Pen.HAIR)],
        ),
    )
    for words, drawn in samples:
        y -= 0.27
        strokes += placed(Block(strokes=tuple(drawn), width_in=0.7, height_in=0.2), (0.0, y))
        strokes.append(Text(at=(0.85, y + 0.02), text=words, height_in=SIZES.label_in, layer=Layer.LEGEND))
    return Block(strokes=tuple(strokes), width_in=COLUMN_IN, height_in=-y + 0.1)


def _point(xy: Floats) -> Point:
    return (float(xy[0]), float(xy[1]))
