"""Run -> the deck's part of the phone page: the roof by zone as on the deck's sheet, and a card for each zone."""

from __future__ import annotations

import html
from collections.abc import Iterator

import shapely

from export.deck_plan.sheets import placement, roof_by_zone
from export.deck_plan.words import GABLE, PATTERN, ZONE_NOTE, line_words, measure_lines, nail_notes, panel_count_words
from export.paper.block import Block
from export.paper.sheet import Layer
from export.paper.svg import svg_of
from export.paper.zone_hatches import families, hatched
from framing.deck.nailing import Nailing
from framing.deck.zones import DeckZone
from framing.run import Run

PLAN_IN = 3.4
SWATCH_IN = (0.56, 0.42)
EDGE_IN = 0.02
NO_DECK = "Not made: the marks are the engineer's layout, and the deck's zones would be arithmetic of ours."


def deck_section(run: Run) -> str:
    """The section's inside: the words and figures of the deck's sheets, a box to tick for each zone that is nailed."""
    if run.by_engineer:
        return f"<p>{html.escape(NO_DECK)}</p>"
    lines = {id(n.zone): n for n in run.cover.deck.nailings}
    cards = []
    for zone in run.cover.deck.zones:
        n = lines.get(id(zone))
        cards.append(_card(zone, [] if n is None else [(PATTERN, n.truss), (GABLE, n.gable)]))
    measures = "".join(f"<li>{html.escape(words)}</li>" for words in measure_lines(run))
    notes = "".join(f"<p>{html.escape(words)}</p>" for words in (ZONE_NOTE, *nail_notes(run), panel_count_words(run)))
    return (
        f'{_plan(run)}<ul class="zones">{"".join(cards)}</ul>'
        f"<h3>Where zones change, to be measured on the roof</h3><ul>{measures}</ul>{notes}"
    )


def _plan(run: Run) -> str:
    """The roof by zone, as wide as a phone; its dimensions are told below it, where there is room for them."""
    place = placement(run, (0.0, 0.0), (PLAN_IN, 4.0 * PLAN_IN))
    outline = [place(run.outline.frame.to_plan(p)) for q in run.patches.polygon for p in q.exterior.coords]
    low, top = min(y for _, y in outline), max(y for _, y in outline)

    def lifted(p: tuple[float, float]) -> tuple[float, float]:
        x, y = place(p)
        return (x + EDGE_IN, y - top - EDGE_IN)

    strokes = tuple(s for s in roof_by_zone(run, lifted, Layer.DETAIL) if s.layer is not Layer.DIMENSIONS)
    high = top - low + 2 * EDGE_IN
    return svg_of(
        Block(strokes=strokes, width_in=PLAN_IN + 2 * EDGE_IN, height_in=high), "The roof in plan by wind zone"
    )


def _card(zone: DeckZone, lines: list[tuple[str, Nailing | None]]) -> str:
    """A zone's hatch, name, nails, suction and area; ticked only where the nails are known."""
    name = html.escape(zone.name)
    w, h = SWATCH_IN
    box = shapely.box(EDGE_IN, -EDGE_IN, w - EDGE_IN, EDGE_IN - h)
    swatch = svg_of(
        Block(strokes=tuple(hatched(box, families(zone), Layer.DETAIL)), width_in=w, height_in=h), zone.name
    )
    given = [(where, line) for where, line in lines if line is not None]
    said = [html.escape(line_words(line, where)) for where, line in given] or ["Nails: not given"]
    figures = f"{zone.suction_psf:.0f} psf, {zone.area_ft2:.0f} sq ft"
    nails = "".join(f'<p class="nails">{words}</p>' for words in said)
    return (
        f'<li class="zone"><div class="top">{swatch}<h3>{name}</h3><p>{figures}</p></div>{nails}'
        f"{''.join(_tick(zone, [line for _, line in given]))}</li>"
    )


def _tick(zone: DeckZone, lines: list[Nailing]) -> Iterator[str]:
    """The box, with what it was ticked for, so that another plan's tick counts only where that is the same."""
    if not lines or any(line.spacing_in is None for line in lines):
        return
    asked = html.escape(f"{zone.suction_psf:.0f} psf, {', '.join(line.words for line in lines)}")
    name = html.escape(zone.name)
    yield (
        f'<label class="nailed"><input type="checkbox" data-zone="{name}" data-asked="{asked}">'
        f'<span>{name} is nailed</span></label><p class="stamp"></p>'
    )
