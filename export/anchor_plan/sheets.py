"""Run -> the sheets of one paper size: the plan first, walls drawn apart and what else needs room after it."""

from __future__ import annotations

from functools import lru_cache

from export.anchor_plan.apart import Piece, piece_strokes, pieces_of
from export.anchor_plan.blocks import (
    caution_block,
    north_on_sheet_deg,
    scale_block,
    stamp_block,
    title_block,
    title_cells,
)
from export.anchor_plan.names import covered
from export.anchor_plan.papers import ARCH_D, GUTTER_IN, PAPERS, TABLOID, Paper
from export.anchor_plan.placing import Column, spots_of
from export.anchor_plan.plan_view import PlanView, fit_plan, plan_strokes
from export.anchor_plan.rows import TextSizes, rows_of
from export.anchor_plan.said import said_blocks_of
from export.paper.block import Block, placed
from export.paper.inspector import wind_block
from export.paper.sheet import Layer, Pen, Point, Polyline, Sheet, Sign, Stroke
from export.paper.symbols import signs_of
from export.wall_marks.tape_marks import wall_tapes
from framing.run import Run

Item = Piece | Block
SMALL_PLAN = 0.7
__all__ = ["ARCH_D", "PAPERS", "TABLOID", "Paper", "anchor_plan_sheets"]


@lru_cache(maxsize=4)  # DXF and PDF of one run ask for the same sheets
def anchor_plan_sheets(run: Run, paper: Paper) -> tuple[Sheet, ...]:
    """The anchor placement plan on one size of paper.

    The same on every machine; as many sheets as the walls drawn apart and the notes need.
    """
    left, bottom, right, top = paper.window
    plan = fit_plan(run, (right - left, top - bottom), paper.sizes)
    side, flow = _column_flow(run, paper, plan)
    items = [*_pieces(run, paper, plan), *flow]
    plan = _placed(plan, paper, alone=not items)
    drawn = plan_strokes(run, plan, paper.sizes, paper.window)
    taken = [plan.house, *covered(drawn)]
    room = Column(width_in=paper.column_in, height_in=_room_in(run, paper, plan))
    spots = spots_of([(i.width_in, i.height_in) for i in items], paper.window, taken, room)
    n_sheets = 1 + max((s.sheet for s in spots), default=0)
    signs = signs_of(run)
    sheets = []
    for k in range(n_sheets):
        name = f"{paper.name}, sheet {k + 1} of {n_sheets}"
        apart: list[Stroke] = []
        beside = list(side) if k == 0 else []
        for spot in (s for s in spots if s.sheet == k):
            item = items[spot.item]
            if spot.corner is not None:
                apart += _item_strokes(item, spot.corner, signs, paper.sizes)
            elif isinstance(item, Block):
                beside.append(item)
        sheets.append(
            Sheet(
                name=name,
                width_in=paper.width_in,
                height_in=paper.height_in,
                view=plan.view,
                window=paper.window,
                drawing=drawn if k == 0 else (),
                apart=tuple(apart),
                surround=_surround(run, paper, plan, name, beside),
            )
        )
    return tuple(sheets)


def _placed(plan: PlanView, paper: Paper, *, alone: bool) -> PlanView:
    """The plan in the middle of its window, or in its upper left corner where it leaves little room for the rest."""
    left, bottom, right, top = paper.window
    wide, tall = plan.size_in
    spare = (right - left - wide, top - bottom - tall)
    alone = alone or (wide < SMALL_PLAN * (right - left) and tall < SMALL_PLAN * (top - bottom))
    x = left + (spare[0] / 2 if alone else min(0.1, spare[0] / 2)) + plan.reach_in[0]
    above = spare[1] / 2 if alone else min(0.1, spare[1] / 2)
    return plan.shifted((x, top - above - tall + plan.reach_in[1]))


def _pieces(run: Run, paper: Paper, plan: PlanView) -> list[Piece]:
    """The walls drawn apart."""
    left, _, right, _ = paper.window
    tapes = {t.name: t for t in wall_tapes(run)}
    pieces = []
    for line in plan.apart:
        rows = rows_of(tapes[line.name], plan.unnamed, paper.sizes)
        pieces += pieces_of(line, rows, paper.apart, right - left, paper.sizes)
    return pieces


def _item_strokes(item: Item, corner: Point, signs: dict[str, Sign], sizes: TextSizes) -> tuple[Stroke, ...]:
    return placed(item, corner) if isinstance(item, Block) else piece_strokes(item, corner, signs, sizes)


def _fixed(run: Run, paper: Paper, plan: PlanView, name: str) -> list[Block]:
    """What stands at the top of the column of every sheet."""
    width, sizes = paper.column_in, paper.column_sizes
    north = north_on_sheet_deg(run, plan.view.angle_deg)
    return [
        title_block(run, name, width, sizes),
        caution_block(width, sizes),
        wind_block(run, width, paper.letters),
        scale_block(plan.view.scale, north, width, sizes),
    ]


def _column_flow(run: Run, paper: Paper, plan: PlanView) -> tuple[list[Block], list[Item]]:
    """What else stands in the column while there is room, and what has to go elsewhere."""
    room = _room_in(run, paper, plan)
    kept, flow = [], list[Item]()
    for block in said_blocks_of(run, paper):
        if block.height_in <= room and block.width_in <= paper.column_in + 1e-9:
            kept.append(block)
            room -= block.height_in
        else:
            flow.append(block)
    return kept, flow


def _room_in(run: Run, paper: Paper, plan: PlanView) -> float:
    """The height that is left in the column of a sheet. [in]."""
    fixed = sum(b.height_in for b in _fixed(run, paper, plan, ""))
    return paper.height_in - 2 * paper.margin_in - paper.stamp_in - 0.3 - fixed


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
    foot = (x, top - 0.05 - _fixed(run, paper, plan, name)[0].height_in)
    strokes.append(title_cells(run, name, foot, paper.column_in, paper.column_sizes))
    stamp = stamp_block(paper.column_in, paper.stamp_in, paper.column_sizes)
    return (*strokes, *placed(stamp, (x, m + paper.stamp_in + 0.1)))
