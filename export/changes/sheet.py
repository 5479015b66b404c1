"""Changes -> one sheet, recorded once for PDF and DXF: the walls, every mark, and a cloud round what changed."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

import shapely

from export.changes.differences import SHEET, Change, What
from export.changes.sources import HouseThen, MarkThen
from export.changes.words import change_words, verdict
from export.paper.block import Block, paragraphs, placed, stacked
from export.paper.lettering import printable
from export.paper.pdf import Page, pdf_of
from export.paper.sheet import Align, Circle, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Text
from export.paper.table import Lettering, table_block
from framing.run import CAUTION

if TYPE_CHECKING:
    from ezdxf.document import Drawing

PAGE_IN = (17.0, 11.0)
MARGIN_IN, SIDE_IN = 0.45, 6.2
LETTERS = Lettering(title_in=0.15, cell_in=0.105)
MARK_IN, CLOUD_IN, SCALLOP_IN = 0.05, 0.2, 0.14
ROWS_A_PAGE = 46
NAME_IN, TEXT_IN = 0.42, 0.15


def changes_pdf(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> bytes:
    """changes.pdf: the plan with clouds, then every changed mark; equal input gives equal bytes."""
    pages = [
        Page(width_in=PAGE_IN[0], height_in=PAGE_IN[1], strokes=tuple(strokes), outline=name)
        for name, strokes in (("What changed", _plan(before, after, changes)), *_lists(after, changes))
    ]
    return pdf_of(pages, f"What changed, {before.fingerprint} to {after.fingerprint}")


def changes_dxf(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> bytes:
    """changes.dxf: the same plan in model space, in inches of the house; equal input gives equal bytes."""
    from export.anchor_plan.dxf import dxf_bytes

    return dxf_bytes(lambda: _model(before, after, changes))


def _model(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> Drawing:
    from ezdxf.filemanagement import new

    from export.anchor_plan.dxf_document import set_up
    from export.anchor_plan.dxf_strokes import Placement, add_strokes

    per_ft, to_ft = _scale(after, changes)
    factor = 12.0 / per_ft

    def point(p: Point) -> Point:
        x, y = to_ft(p)
        return (12.0 * x, 12.0 * y)

    doc = new("R2010")
    set_up(doc, factor)
    here = Placement(point=point, turn_deg=0.0, factor=factor)
    corner = (PAGE_IN[0] - MARGIN_IN - SIDE_IN, PAGE_IN[1] - MARGIN_IN)
    side = placed(_side(before, after, changes), corner)
    add_strokes(doc.modelspace(), (*_drawing(before, after, changes), *side), here)
    return doc


def _plan(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> Iterator[Primitive]:
    yield _frame()
    yield from _drawing(before, after, changes)
    yield from placed(_side(before, after, changes), (PAGE_IN[0] - MARGIN_IN - SIDE_IN, PAGE_IN[1] - MARGIN_IN))


def _frame() -> Primitive:
    m = MARGIN_IN / 2
    ring = ((m, m), (PAGE_IN[0] - m, m), (PAGE_IN[0] - m, PAGE_IN[1] - m), (m, PAGE_IN[1] - m))
    return Polyline(points=ring, layer=Layer.TITLE, pen=Pen.MEDIUM, closed=True)


def _scale(after: HouseThen, changes: tuple[Change, ...]) -> tuple[float, Callable[[Point], Point]]:
    """Paper inches a foot, and the way back from paper to plan feet."""
    xs, ys = zip(*_around(after, changes), strict=True)
    room = (PAGE_IN[0] - 2 * MARGIN_IN - SIDE_IN - 1.0, PAGE_IN[1] - 2 * MARGIN_IN - 1.0)
    per_ft = min(room[0] / max(max(xs) - min(xs), 1.0), room[1] / max(max(ys) - min(ys), 1.0))
    left = MARGIN_IN + 0.5 + (room[0] - per_ft * (max(xs) - min(xs))) / 2
    low = MARGIN_IN + 0.5 + (room[1] - per_ft * (max(ys) - min(ys))) / 2
    return per_ft, lambda p: ((p[0] - left) / per_ft + min(xs), (p[1] - low) / per_ft + min(ys))


def _around(after: HouseThen, changes: tuple[Change, ...]) -> list[Point]:
    marks = [m.strap_ft for c in changes for m in (c.before, c.after) if m is not None]
    return [*after.outline_ft, *marks]


def _drawing(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> Iterator[Primitive]:
    per_ft, to_ft = _scale(after, changes)
    zero = to_ft((0.0, 0.0))

    def place(p: Point) -> Point:
        return ((p[0] - zero[0]) * per_ft, (p[1] - zero[1]) * per_ft)

    if before.outline_ft != after.outline_ft:
        old = tuple(place(p) for p in before.outline_ft)
        yield Polyline(points=old, layer=Layer.WALL, pen=Pen.FINE, closed=True, dashed=True)
    yield Polyline(points=tuple(place(p) for p in after.outline_ft), layer=Layer.WALL, pen=Pen.HEAVY, closed=True)
    yield from _wall_names(after, changes, place)
    for c in changes:
        yield from _signs(c, place)
    changed = [place(c.one.strap_ft) for c in changes if SHEET & set(c.what)]
    if changed:
        spots = shapely.union_all([shapely.Point(p).buffer(CLOUD_IN) for p in changed])
        for part in shapely.get_parts(spots.buffer(0.06).buffer(-0.06)):
            yield Polyline(points=tuple(_cloud(part)), layer=Layer.NOTES, pen=Pen.MEDIUM, closed=True)


def _wall_names(after: HouseThen, changes: tuple[Change, ...], place: Callable[[Point], Point]) -> Iterator[Primitive]:
    """Each wall's name beside the middle of its marks, outside the house."""
    house = shapely.Polygon([place(p) for p in after.outline_ft])
    walls: dict[str, list[Point]] = {}
    for c in changes:
        if c.after is not None:
            walls.setdefault(c.after.wall, []).append(place(c.after.strap_ft))
    for wall, points in walls.items():
        middle = shapely.MultiPoint(points).centroid
        edge = house.exterior.interpolate(house.exterior.project(middle))
        away = math.dist((edge.x, edge.y), (middle.x, middle.y)) or 1.0
        out = ((edge.x - middle.x) / away, (edge.y - middle.y) / away)
        at = (edge.x + NAME_IN * out[0], edge.y + NAME_IN * out[1] - TEXT_IN / 2)
        yield Text(at=at, text=wall, height_in=TEXT_IN, layer=Layer.MARKS, align=Align.CENTRE, bold=True)


def _signs(c: Change, place: Callable[[Point], Point]) -> Iterator[Primitive]:
    """A full dot where a strap stands, a crossed ring where one is gone, a line from the old place to the new."""
    if c.after is not None:
        yield Circle(centre=place(c.after.strap_ft), radius_in=MARK_IN, layer=Layer.ANCHOR, fill=Fill.BLACK)
    if c.before is None or (c.after is not None and What.MOVED not in c.what):
        return
    x, y = place(c.before.strap_ft)
    yield Circle(centre=(x, y), radius_in=MARK_IN * 1.3, layer=Layer.ANCHOR, fill=Fill.WHITE)
    d = MARK_IN * 0.9
    yield Line(start=(x - d, y - d), end=(x + d, y + d), layer=Layer.ANCHOR)
    yield Line(start=(x - d, y + d), end=(x + d, y - d), layer=Layer.ANCHOR)
    if c.after is not None:
        yield Line(start=(x, y), end=place(c.after.strap_ft), layer=Layer.ANCHOR, pen=Pen.MEDIUM)


def _cloud(part: shapely.Polygon) -> Iterator[Point]:
    """The edge of a shape in scallops, as a revision cloud is drawn."""
    edge = part.exterior
    n = max(6, round(edge.length / SCALLOP_IN))
    for k in range(n):
        a, b = (edge.interpolate((k + j) / n, normalized=True) for j in (0, 1))
        mid, half = ((a.x + b.x) / 2, (a.y + b.y) / 2), math.dist((a.x, a.y), (b.x, b.y)) / 2
        start = math.atan2(a.y - mid[1], a.x - mid[0])
        outward = -1.0 if edge.is_ccw else 1.0
        for j in range(6):
            turn = start - outward * math.pi * j / 6
            yield (mid[0] + half * math.cos(turn), mid[1] + half * math.sin(turn))


def _side(before: HouseThen, after: HouseThen, changes: tuple[Change, ...]) -> Block:
    """What the sheet is, the verdict, the signs, the caution."""
    lines = [
        (printable(after.name), 0.2, True),
        ("What changed on the tie beam", LETTERS.title_in, True),
        (f"from revision {before.revision or '-'} {before.date} ({before.fingerprint})", LETTERS.cell_in, False),
        (f"to revision {after.revision or '-'} {after.date} ({after.fingerprint})", LETTERS.cell_in, False),
        *((line, LETTERS.title_in, True) for line in verdict(changes)),
        (
            "Full dot: strap as it is now. Crossed ring: where one was. Cloud: place, anchor, side or count "
            "changed. Dashed: "
            "the old outline.",
            LETTERS.cell_in,
            False,
        ),
        ("CAUTION", LETTERS.title_in, True),
        (CAUTION, LETTERS.cell_in, False),
    ]
    return paragraphs(lines, SIDE_IN, Layer.NOTES)


def _lists(after: HouseThen, changes: tuple[Change, ...]) -> Iterator[tuple[str, Iterator[Primitive]]]:
    """Every mark that changed, as many as fit a page."""
    rows = [(c.one.wall, _name(c.before), _name(c.after), change_words(c)) for c in changes if c.what]
    for k in range(0, len(rows), ROWS_A_PAGE):
        part = rows[k : k + ROWS_A_PAGE]
        yield f"Changed marks {k + 1} to {k + len(part)}", _list(part, after)


def _list(rows: list[tuple[str, str, str, str]], after: HouseThen) -> Iterator[Primitive]:
    yield _frame()
    wide = PAGE_IN[0] - 2 * MARGIN_IN
    table = table_block(
        f"Changed marks of {printable(after.name)}, fingerprint {after.fingerprint}",
        ("wall", "old mark", "new mark", "what changed"),
        rows,
        wide,
        LETTERS,
        Layer.SCHEDULE,
    )
    caution = paragraphs([(CAUTION, LETTERS.cell_in, True)], wide, Layer.NOTES)
    yield from placed(stacked([table, caution], 0.1), (MARGIN_IN, PAGE_IN[1] - MARGIN_IN))


def _name(m: MarkThen | None) -> str:
    return m.mark if m else "-"
