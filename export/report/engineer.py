"""For the engineer of record: pressures by zone, and wall by wall what the wind brings; all of it in engineer.csv."""

from __future__ import annotations

from collections.abc import Iterator

from export.report.markup import MINUS, esc, num, paragraph, section, table
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.explain.component_pressures import AREA_FT2, component_pressures
from framing.explain.wall_bases import wall_bases
from framing.explain.wall_lines import wall_shears
from framing.ground.filled_cells import HALF_CELL_FT
from framing.ground.stops import CellPull
from framing.ground.tie_beam import BeamDemand
from framing.plan_masonry import TopsHeldBy
from framing.run import Run

PRESSURES = ("on", "zone", "pressure, psf#", "suction, psf#", "ASD, psf#", "ASD, psf#", "by")
LINES = ("wall", "length that counts, ft#", "shear, lb#", "plf#", "moment about its base, ft-lb#", "in the case")
BASES = ("wall", "from the deck, lb#", "from the tie beam, lb#", "at the base, lb#", "moment, ft-lb#", "in the case")
WALLS = (
    "wall",
    "uplift, every mark, lb#",
    "largest at once, lb#",
    "in the case",
    "net plf#",
    "pull at its cells, lb#",
    "weight missing, lb#",
)


def for_the_engineer(run: Run) -> str:
    """What the engineer of record asks first, on a page of its own."""
    said = (
        f"Pressures at strength level on {AREA_FT2:g} square feet, positive toward the surface, with the internal "
        "pressure but on overhangs and soffits; never under 16 psf. A soffit takes the pressure of the wall below it "
        "(from memory). Reactions and uplift are ASD. All of it, cell by cell, stands in engineer.csv."
    )
    uplift = (
        f"Uplift of the roof on each wall, 0.6 W {MINUS} 0.6 D: every mark at its own governing case, and the largest "
        "sum of one main-frame case. Net: the first over the wall's length less 0.6 of the tie beam. The pull at the "
        "cells is the sum of each cell's own largest; what weight is missing is what they are over 0.6 of the wall and "
        "footing that hang on them; a corner's cell stands with both its walls."
    )
    return section(
        "engineer",
        "For the engineer of record",
        paragraph(said),
        table(PRESSURES, _pressures(run), name="ground"),
        "<h3>Lines of walls</h3>",
        paragraph(_lines_words(run)),
        table(LINES, _lines(run), name="ground"),
        *_bases(run),
        "<h3>Walls</h3>",
        paragraph(uplift),
        table(WALLS, (_wall(run, beam) for beam in run.ground.beams), name="ground"),
    )


def _lines_words(run: Run) -> str:
    said = (
        "Shear that the deck brings to each line of walls, 0.6 W, the largest of all cases, by the lever rule over a "
        "flexible deck; the wall's own share of it by length, and its moment about the base, shear times the height to "
        "the beam's top."
    )
    if run.plan.masonry.tops_held_by is TopsHeldBy.ROOF:
        return said
    return (
        f"{said} The tops of the walls are held by the tie beam: what it brings to walls square to it is not in them "
        "but in the bases below."
    )


def _bases(run: Run) -> Iterator[str]:
    """What comes to each wall's base along it where the tie beam brings its part; else the lines say it."""
    if run.plan.masonry.tops_held_by is TopsHeldBy.ROOF:
        return
    height_ft = run.plan.wall_height_ft
    yield "<h3>Bases of walls</h3>"
    yield paragraph(
        "Along each wall in its worst case, 0.6 W: the deck's share and half the load of each span of the tie beam "
        "that ends at it. A thrust that either bearing may hold is on both beams: on the safe side."
    )
    rows = (
        (
            *(esc(b.wall), num(b.deck_lb, 0), num(b.beam_lb, 0), num(b.shear_lb, 0)),
            *(num(b.shear_lb * height_ft, 0), esc(b.case)),
        )
        for b in wall_bases(run)
    )
    yield table(BASES, rows, name="ground")


def _lines(run: Run) -> Iterator[tuple[str, ...]]:
    for share in wall_shears(run):
        moment = num(share.shear_lb * run.plan.wall_height_ft, 0)
        felt = (num(share.length_ft, 2), num(share.shear_lb, 0), num(share.plf, 1), moment)
        yield (esc(share.wall), *felt, esc(share.case))


def _pressures(run: Run) -> Iterator[tuple[str, ...]]:
    factor = ASD_UPLIFT.wind_factor
    for p in component_pressures(run):
        toward = None if p.toward_psf is None else factor * p.toward_psf
        both = (num(toward, 1), num(factor * p.away_psf, 1))
        yield (esc(p.what), esc(p.zone), num(p.toward_psf, 1), num(p.away_psf, 1), *both, esc(p.clause))


def _wall(run: Run, beam: BeamDemand) -> tuple[str, ...]:
    totals = beam.pulls.asd_lb.sum(axis=0)
    k = 1 + int(totals[1:].argmax()) if len(totals) > 1 else 0
    mine = [c for c in run.ground.cells if _stands_under(c, beam)]
    pull = num(sum(beam.cell_lb), 0) if beam.cells.known else "cells not said"
    missing = sum(max(c.pull_lb - c.holds_lb, 0.0) for c in mine)
    return (
        esc(beam.cells.stretch.name),
        num(beam.pull_lb, 0),
        num(float(totals[k]), 0),
        esc(beam.pulls.patterns[k]),
        num(beam.net_plf, 1),
        pull,
        num(missing, 0) if beam.cells.known else num(None, 0),
    )


def _stands_under(cell: CellPull, beam: BeamDemand) -> bool:
    """Whether a filled cell stands under this stretch; one at a corner stands under both."""
    stretch = beam.cells.stretch
    return any(
        wall == stretch.name and stretch.from_ft - HALF_CELL_FT <= at <= stretch.to_ft + HALF_CELL_FT
        for wall, at in zip(cell.walls, cell.at_ft, strict=True)
    )
