"""Run -> the sheets of one paper size: the plan first, walls drawn apart and what else needs room after it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from export.anchor_plan.apart import BETWEEN_IN, Piece, piece_strokes, pieces_of
from export.anchor_plan.blocks import (
    caution_block,
    north_on_sheet_deg,
    notes_block,
    said_blocks,
    scale_block,
    stamp_block,
    title_block,
)
from export.anchor_plan.plan_view import PlanView, fit_plan, plan_strokes
from export.anchor_plan.rows import TextSizes, rows_of
from export.anchor_plan.tables import legend_block, schedule_block
from export.paper.block import Block, placed
from export.paper.sheet import Layer, Pen, Point, Polyline, Scale, Sheet, Sign, Stroke
from export.paper.symbols import signs_of
from export.wall_marks.tape_marks import wall_tapes
from export.words.demand import demand_lines
from framing.run import Run

GUTTER_IN = 0.15
UNRESOLVED_HEAD = "Unresolved: no anchor holds"
DEMAND_WORDS = "Pull up, push along the wall, push across it, allowable-stress level; ask the engineer before the pour."
Item = Piece | Block


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A size of paper and how the sheet on it is divided. [in]."""

    name: str
    width_in: float
    height_in: float
    margin_in: float
    column_in: float
    stamp_in: float
    apart: Scale
    sizes: TextSizes
    column_sizes: TextSizes

    @property
    def window(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top of what the plan may cover."""
        right = self.width_in - self.margin_in - self.column_in - 2 * GUTTER_IN
        return (self.margin_in, self.margin_in, right, self.height_in - self.margin_in)


ARCH_D = Paper(
    name="ARCH D",
    width_in=36.0,
    height_in=24.0,
    margin_in=0.5,
    column_in=5.8,
    stamp_in=3.0,
    apart=Scale(in_per_ft=1 / 4, written="1/4 in. = 1 ft"),
    sizes=TextSizes(label_in=3 / 32, figure_in=1 / 8, start_in=3 / 16, width_ratio=1.0, names_in_rows=True),
    column_sizes=TextSizes(label_in=0.115, figure_in=0.16, start_in=0.22, width_ratio=1.0, names_in_rows=True),
)
TABLOID = Paper(
    name="Tabloid",
    width_in=17.0,
    height_in=11.0,
    margin_in=0.3,
    column_in=3.4,
    stamp_in=1.2,
    apart=Scale(in_per_ft=1 / 8, written="1/8 in. = 1 ft"),
    sizes=TextSizes(label_in=3 / 32, figure_in=3 / 32, start_in=5 / 32, width_ratio=0.85, names_in_rows=False),
    column_sizes=TextSizes(label_in=3 / 32, figure_in=0.1, start_in=5 / 32, width_ratio=0.85, names_in_rows=False),
)
PAPERS = (ARCH_D, TABLOID)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """Where an item of the flow stands: its sheet, from 0, and its upper left corner."""

    sheet: int
    corner: Point
    item: Item


@lru_cache(maxsize=4)  # DXF and PDF of one run ask for the same sheets
def anchor_plan_sheets(run: Run, paper: Paper) -> tuple[Sheet, ...]:
    """The anchor placement plan on one size of paper.

    The same on every machine; as many sheets as the walls drawn apart and the notes need.
    """
    left, bottom, right, top = paper.window
    plan = fit_plan(run, (right - left, top - bottom), paper.sizes)
    side, flow = _column_flow(run, paper, plan)
    spots = _shelved([*_pieces(run, paper, plan), *flow], paper.window, top - plan.size_in[1] - 0.3)
    above = 0.0 if any(s.sheet == 0 for s in spots) else (top - bottom - plan.size_in[1]) / 2
    x = left + (right - left - plan.size_in[0]) / 2 + plan.reach_in[0]
    plan = plan.shifted((x, top - above - plan.size_in[1] + plan.reach_in[1]))
    signs = signs_of(run)
    n_sheets = 1 + max((s.sheet for s in spots), default=0)
    sheets = []
    for k in range(n_sheets):
        name = f"{paper.name}, sheet {k + 1} of {n_sheets}"
        drawing: list[Stroke] = list(plan_strokes(run, plan, paper.sizes, paper.window)) if k == 0 else []
        for spot in (s for s in spots if s.sheet == k):
            drawing += _item_strokes(spot, signs, paper.sizes)
        sheets.append(
            Sheet(
                name=name,
                width_in=paper.width_in,
                height_in=paper.height_in,
                view=plan.view,
                window=paper.window,
                drawing=tuple(drawing),
                surround=_surround(run, paper, plan, name, side if k == 0 else []),
            )
        )
    return tuple(sheets)


def _pieces(run: Run, paper: Paper, plan: PlanView) -> list[Piece]:
    """The walls drawn apart."""
    left, _, right, _ = paper.window
    tapes = {t.name: t for t in wall_tapes(run)}
    pieces = []
    for line in plan.apart:
        rows = rows_of(tapes[line.name], plan.unnamed, paper.sizes)
        pieces += pieces_of(line, rows, paper.apart, right - left, paper.sizes)
    return pieces


def _item_strokes(spot: _Spot, signs: dict[str, Sign], sizes: TextSizes) -> tuple[Stroke, ...]:
    if isinstance(spot.item, Block):
        return placed(spot.item, spot.corner)
    return piece_strokes(spot.item, spot.corner, signs, sizes)


def _fixed(run: Run, paper: Paper, plan: PlanView, name: str) -> list[Block]:
    """What stands at the top of the column of every sheet."""
    width, sizes = paper.column_in, paper.column_sizes
    north = north_on_sheet_deg(run, plan.view.angle_deg)
    return [
        title_block(run, name, width, sizes),
        caution_block(width, sizes),
        scale_block(plan.view.scale, north, width, sizes),
    ]


def _column_flow(run: Run, paper: Paper, plan: PlanView) -> tuple[list[Block], list[Item]]:
    """What else stands in the column while there is room, and what has to go elsewhere."""
    width, sizes = paper.column_in, paper.column_sizes
    room = paper.height_in - 2 * paper.margin_in - paper.stamp_in - 0.3
    room -= sum(b.height_in for b in _fixed(run, paper, plan, ""))
    said = [*run.flags, *run.outline.notes, *run.roof.notes, *run.framing.notes, *run.notes]
    assumed = ("; ".join(run.plan.assumed) + ".",) if run.plan.assumed else ()
    more = [
        legend_block(run, width, sizes),
        schedule_block(run, width, sizes),
        *said_blocks(UNRESOLVED_HEAD, _unresolved(run), width, sizes),
        notes_block(run, width, sizes),
        *said_blocks("Notes of this run", tuple(dict.fromkeys(said)), width, sizes),
        *said_blocks("Assumed, not given in the plan file", assumed, width, sizes),
    ]
    kept, flow = [], list[Item]()
    for block in more:
        if block.height_in <= room and not flow:
            kept.append(block)
            room -= block.height_in
        else:
            flow.append(block)
    return kept, flow


def _unresolved(run: Run) -> tuple[str, ...]:
    """What each mark that no anchor holds asks for, under a line that explains the words."""
    said = [
        f"{m.mark} ({m.bearing.member}, {m.bearing.plies} ply): {', '.join(demand_lines(m))}"
        for m in run.schedule.unresolved
    ]
    return (DEMAND_WORDS, *said) if said else ()


def _surround(run: Run, paper: Paper, plan: PlanView, name: str, side: list[Block]) -> tuple[Stroke, ...]:
    """The border, and the column with its blocks from the top and the stamp at its foot."""
    m, right, top = paper.margin_in, paper.width_in - paper.margin_in, paper.height_in - paper.margin_in
    x = right - paper.column_in - GUTTER_IN
    border = ((m, m), (right, m), (right, top), (m, top))
    strokes: list[Stroke] = [
        Polyline(points=border, layer=Layer.TITLE, pen=Pen.HEAVY, closed=True),
        Polyline(points=((x - GUTTER_IN, m), (x - GUTTER_IN, top)), layer=Layer.TITLE, pen=Pen.MEDIUM),
    ]
    y = top - 0.05
    for block in [*_fixed(run, paper, plan, name), *side]:
        strokes += placed(block, (x, y))
        y -= block.height_in
    stamp = stamp_block(paper.column_in, paper.stamp_in, paper.column_sizes)
    return (*strokes, *placed(stamp, (x, m + paper.stamp_in + 0.1)))


def _shelved(items: list[Item], window: tuple[float, float, float, float], under: float) -> list[_Spot]:
    """The items on shelves from left to right, under the plan first and then on sheets of their own."""
    left, bottom, right, top = window
    sheet, shelf_top, x, deepest = 0, under, left + 0.1, 0.0
    spots = []
    for item in items:
        if x + item.width_in > right and deepest > 0:
            shelf_top, x, deepest = shelf_top - deepest - BETWEEN_IN, left + 0.1, 0.0
        while shelf_top - item.height_in < bottom and not (sheet > 0 and shelf_top >= top - 0.2 and deepest == 0):
            sheet, shelf_top, x, deepest = sheet + 1, top - 0.15, left + 0.1, 0.0
        spots.append(_Spot(sheet=sheet, corner=(x, shelf_top), item=item))
        x += item.width_in + BETWEEN_IN
        deepest = max(deepest, item.height_in)
    return spots
