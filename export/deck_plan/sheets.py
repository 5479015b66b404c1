"""Run -> the two sheets of the deck: the roof in plan by zone, and what nails, panels and covering need in each."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import shapely

from export.deck_plan.measures import measure_strokes
from export.deck_plan.nail_pattern import nail_pattern
from export.deck_plan.words import (
    ZONE_NOTE,
    covering_rows,
    covering_words,
    measure_lines,
    nail_notes,
    panel_words,
    water_words,
    zone_rows,
)
from export.paper.block import Block, paragraphs, placed, stacked
from export.paper.inspector import open_wind_block, wind_block
from export.paper.lettering import printable, wrapped
from export.paper.pdf import Page, pdf_of
from export.paper.sheet import Align, Fill, Layer, Line, Pen, Point, Polyline, Primitive, Text
from export.paper.table import Lettering, table_block
from export.paper.zone_hatches import families, hatched, zone_shape
from export.words.inspection import dated
from framing.deck.zones import DeckZone
from framing.roof.lines import LineKind
from framing.run import CAUTION, Run

PAGE_IN = (17.0, 11.0)
MARGIN_IN, SIDE_IN, GAP_IN = 0.45, 5.6, 0.3
LETTERS = Lettering(title_in=0.15, cell_in=0.115)
TITLE_IN = 0.22
SWATCH_IN = (0.5, 0.16)
ZONE_HEAD = ("zone", "psf", "each truss", "gable end", "sq ft")
PATTERN_IN = 4.9
CAUTION_UP_IN, BETWEEN_IN = 0.3, 0.1


def deck_pdf(run: Run) -> bytes:
    """deck.pdf: two tabloid sheets, vector, searchable; equal runs give equal bytes."""
    return pdf_of(deck_sheets(run), f"Deck and covering, {run.fingerprint}")


def deck_sheets(run: Run) -> tuple[Page, ...]:
    """The roof in plan by zone, then nails, panels, covering and water barrier."""
    details = _detail_sheets(run)
    sheets = [("Zones of the deck", tuple(_plan_sheet(run, 1 + len(details))))]
    sheets += [("Nails, panels, covering", strokes) for strokes in details]
    return tuple(
        Page(width_in=PAGE_IN[0], height_in=PAGE_IN[1], strokes=strokes, outline=name) for name, strokes in sheets
    )


def _plan_sheet(run: Run, n_sheets: int) -> Iterator[Primitive]:
    yield from _frame()
    room = (PAGE_IN[0] - 2 * MARGIN_IN - SIDE_IN - GAP_IN, PAGE_IN[1] - 2 * MARGIN_IN - 0.2)
    yield from roof_by_zone(run, placement(run, (MARGIN_IN + 0.1, MARGIN_IN + 0.1), room), Layer.DETAIL)
    left, caution = PAGE_IN[0] - MARGIN_IN - SIDE_IN, _caution()
    beside = _beside_the_plan(run, n_sheets, open_wind=_open_wind_on_first(run))
    yield from placed(beside, (left, PAGE_IN[1] - MARGIN_IN))
    yield from placed(caution, (left, CAUTION_UP_IN + caution.height_in))


def _beside_the_plan(run: Run, n_sheets: int, *, open_wind: bool) -> Block:
    blocks = [
        _title(run, f"Zones of the deck: sheet 1 of {n_sheets}"),
        wind_block(run, SIDE_IN, LETTERS),
        *(open_wind_block(run, SIDE_IN, LETTERS) if open_wind else ()),
        _zone_table(run),
        paragraphs(
            [("Where zones change, to be measured on the roof", LETTERS.title_in, True), *_measures(run)],
            SIDE_IN,
            Layer.NOTES,
        ),
        paragraphs([(ZONE_NOTE, LETTERS.cell_in, False)], SIDE_IN, Layer.NOTES),
    ]
    return stacked(blocks, 0.06)


def _open_wind_on_first(run: Run) -> bool:
    """Whether what is open about the wind has room on the first sheet; else it stands on the second."""
    room = PAGE_IN[1] - MARGIN_IN - CAUTION_UP_IN - _caution().height_in
    return _beside_the_plan(run, 2, open_wind=True).height_in <= room


def _detail_sheets(run: Run) -> list[tuple[Primitive, ...]]:
    """Nails, panels, covering and water barrier, on a sheet more where they have no room on one."""
    wide = PAGE_IN[0] - 2 * MARGIN_IN - SIDE_IN - 2 * GAP_IN
    caution, top = _caution(wide), PAGE_IN[1] - MARGIN_IN - 0.1
    columns = _columns(_details(run, wide), top - CAUTION_UP_IN - caution.height_in)
    out = []
    for k, column in enumerate(columns, start=2):
        title = _title(run, f"Nails, panels, covering: sheet {k} of {len(columns) + 1}")
        left = [title, *(_patterns(run) if k == 2 else ())]
        out.append(
            (
                *_frame(),
                *placed(stacked(left, 0.14), (MARGIN_IN + 0.1, top)),
                *placed(stacked([*column, caution], BETWEEN_IN), (MARGIN_IN + SIDE_IN + 2 * GAP_IN, top)),
            )
        )
    return out


def _columns(blocks: list[Block], room_in: float) -> list[list[Block]]:
    """Blocks one under another, a new column before the first that has no room."""
    out: list[list[Block]] = [[]]
    for block in blocks:
        if out[-1] and stacked([*out[-1], block], BETWEEN_IN).height_in + BETWEEN_IN > room_in:
            out.append([])
        out[-1].append(block)
    return out


def _details(run: Run, wide: float) -> list[Block]:
    return [
        *(() if _open_wind_on_first(run) else open_wind_block(run, wide, LETTERS)),
        _said("Nails", nail_notes(run), wide),
        _said("Panels", panel_words(run), wide),
        table_block(
            "Covering", ("where", "what", "demand", "resistance"), covering_rows(run), wide, LETTERS, Layer.SCHEDULE
        ),
        paragraphs([(t, LETTERS.cell_in, False) for t in covering_words(run)], wide, Layer.NOTES),
        _said("Water barrier", water_words(run), wide),
        _own_schedule(run, wide),
    ]


def _said(head: str, lines: Iterator[str], wide: float) -> Block:
    """A heading and its paragraphs."""
    return paragraphs(
        [(head, LETTERS.title_in, True), *((t, LETTERS.cell_in, False) for t in lines)], wide, Layer.NOTES
    )


def placement(run: Run, corner: Point, room: Point) -> Callable[[Point], Point]:
    """Plan feet to paper inches: the roof as large as the room lets it, its first square wall along the sheet."""
    frame = run.outline.frame
    turn = -math.remainder(math.degrees(math.atan2(frame.sin, frame.cos)), 90.0)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    around = [frame.to_plan(p) for patch in run.patches.polygon for p in patch.exterior.coords]
    turned = [(x * c - y * s, x * s + y * c) for x, y in around]
    x0, y0 = min(x for x, _ in turned), min(y for _, y in turned)
    wide, deep = max(x for x, _ in turned) - x0, max(y for _, y in turned) - y0
    scale = min(room[0] / wide, room[1] / deep)
    left = corner[0] + (room[0] - scale * wide) / 2
    low = corner[1] + (room[1] - scale * deep) / 2
    return lambda p: (left + scale * (p[0] * c - p[1] * s - x0), low + scale * (p[0] * s + p[1] * c - y0))


def roof_by_zone(run: Run, place: Callable[[Point], Point], layer: Layer) -> Iterator[Primitive]:
    """Zones hatched, ridges, hips and valleys heavy, walls dashed, a name in each zone where there is room."""
    for zone in run.cover.deck.zones:
        shape = zone_shape(run, zone.patches, place)
        yield from hatched(shape, families(zone), layer)
    for line in run.roof.lines:
        if line.kind in (LineKind.RIDGE, LineKind.HIP, LineKind.VALLEY):
            yield Line(start=place(line.start_ft[:2]), end=place(line.end_ft[:2]), layer=layer, pen=Pen.HEAVY)
    walls = tuple(place(w.start_ft) for w in run.outline.walls)
    yield Polyline(points=walls, layer=Layer.WALL, pen=Pen.MEDIUM, closed=True, dashed=True)
    for zone in run.cover.deck.zones:
        yield from _zone_names(run, zone, place)
    yield from measure_strokes(run, place, LETTERS.cell_in)


def _zone_names(run: Run, zone: DeckZone, place: Callable[[Point], Point]) -> Iterator[Primitive]:
    """The zone's number on white, in the largest piece of each face."""
    h = 0.14
    sides = run.patches.side[list(zone.patches)]
    for side in sorted({int(s) for s in sides}):
        mine = tuple(p for p, s in zip(zone.patches, sides, strict=True) if s == side)
        part = max(shapely.get_parts(zone_shape(run, mine, place)), key=lambda p: p.area)
        middle = shapely.maximum_inscribed_circle(part, tolerance=0.02).coords
        (x, y), reach = middle[0], shapely.LineString(middle).length
        if reach < 0.75 * h:
            continue
        half = 0.09 * len(zone.number)
        box = ((x - half, y - 0.75 * h), (x + half, y - 0.75 * h), (x + half, y + 0.75 * h), (x - half, y + 0.75 * h))
        yield _white(box)
        yield Text(at=(x, y - h / 2), text=zone.number, height_in=h, layer=Layer.DETAIL, align=Align.CENTRE, bold=True)


def _white(ring: tuple[Point, ...]) -> Polyline:
    return Polyline(points=ring, layer=Layer.DETAIL, pen=Pen.HAIR, closed=True, fill=Fill.WHITE)


def _frame() -> Iterator[Primitive]:
    m = MARGIN_IN / 2
    ring = ((m, m), (PAGE_IN[0] - m, m), (PAGE_IN[0] - m, PAGE_IN[1] - m), (m, PAGE_IN[1] - m))
    yield Polyline(points=ring, layer=Layer.TITLE, pen=Pen.MEDIUM, closed=True)


def _title(run: Run, what: str) -> Block:
    project = run.plan.project
    undated = [] if project.date else [("NOT DATED", TITLE_IN, True)]
    lines = [
        *((line, TITLE_IN, True) for line in wrapped(project.name, SIDE_IN, TITLE_IN, bold=True)[:2]),
        *undated,
        (what, LETTERS.title_in, True),
        (
            f"Revision {printable(project.revision) or '__'}    {dated(run)}    Fingerprint {run.fingerprint}",
            LETTERS.cell_in,
            False,
        ),
    ]
    return paragraphs(lines, SIDE_IN, Layer.TITLE)


def _caution(width_in: float = SIDE_IN) -> Block:
    said = paragraphs(
        [("CAUTION", LETTERS.title_in, True), (CAUTION, LETTERS.cell_in, False)], width_in - 0.16, Layer.NOTES
    )
    ring = ((0.0, 0.0), (width_in, 0.0), (width_in, -said.height_in - 0.05), (0.0, -said.height_in - 0.05))
    box = Polyline(points=ring, layer=Layer.NOTES, pen=Pen.HEAVY, closed=True)
    return Block(strokes=(box, *placed(said, (0.08, 0.0))), width_in=width_in, height_in=said.height_in + 0.1)


def _zone_table(run: Run) -> Block:
    """The zones, a swatch of each hatch before its row."""
    rows = zone_rows(run)
    beside = SWATCH_IN[0] + 0.1
    table = table_block(
        "Zones: suction, and nails at most apart",
        ZONE_HEAD,
        rows,
        SIDE_IN - beside,
        LETTERS,
        Layer.SCHEDULE,
        right=frozenset({1, 4}),
    )
    swatches: list[Primitive] = []
    texts = iter([s for s in table.strokes if isinstance(s, Text)])
    for zone, row in zip(run.cover.deck.zones, rows, strict=True):
        y = next(t.at[1] for t in texts if t.text not in ZONE_HEAD and row[0].startswith(t.text)) - 0.02
        swatches += hatched(shapely.box(0.0, y, SWATCH_IN[0], y + SWATCH_IN[1]), families(zone), Layer.SCHEDULE)
    return Block(strokes=(*placed(table, (beside, 0.0)), *swatches), width_in=SIDE_IN, height_in=table.height_in)


def _measures(run: Run) -> Iterator[tuple[str, float, bool]]:
    for line in measure_lines(run):
        yield (line, LETTERS.cell_in, False)


def _patterns(run: Run) -> list[Block]:
    """A pattern for each spacing that is nailed, over the zones that have it."""
    spacings: dict[float, list[str]] = {}
    for n in run.cover.deck.nailings:
        for line, words in ((n.truss, n.zone.name), (n.gable, f"gable end in {n.zone.name}")):
            if line is not None and line.spacing_in is not None:
                spacings.setdefault(line.spacing_in, []).append(words)
    return [
        nail_pattern(inches, run.plan.trusses.spacing_ft, PATTERN_IN, LETTERS.cell_in, "; ".join(dict.fromkeys(names)))
        for inches, names in sorted(spacings.items(), reverse=True)
    ]


def _own_schedule(run: Run, width_in: float) -> Block:
    """Boxes for the user's own code schedule, filled where the plan gives it."""
    spec = run.plan.trades.deck
    given = [f"{v:g} in." if v else "" for v in (spec.edge_in, spec.field_in, spec.zone_3_in)]
    head = ("edges", "field", "zone 3", "read in", "by", "date")
    return table_block(
        "Your code's own nailing schedule, to be read by you",
        head,
        [(*given, "", "", "")],
        width_in,
        LETTERS,
        Layer.SCHEDULE,
        boxed=True,
    )
