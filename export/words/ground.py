"""Filled cells and openings in words, short enough for a table."""

from __future__ import annotations

from collections.abc import Iterator

from framing.ground.near_girders import GirderCell
from framing.ground.over_openings import OpeningBeam
from framing.ground.stops import CellPull
from framing.run import Run
from framing.units import feet_inches


def cell_words(cell: CellPull) -> str:
    """Such as `W1 at 4'-4"`, `corner of W1 and W2`, `W5 at 2'-8", jamb`."""
    if len(cell.walls) > 1:
        place = f"corner of {' and '.join(cell.walls)}"
    else:
        place = f"{cell.walls[0]} at {feet_inches(max(cell.at_ft[0], 0.0))}"
    return f"{place}, jamb" if cell.jamb else place


def cell_words_of(girder: GirderCell) -> str:
    """What a mark with a girder or two straps wants: a filled cell within 24 in., where none is known to stand there.

    Source: common practice, no source.
    """
    if girder.near:
        return ""
    return "no filled cell within 24 in." if girder.cell_at_ft is not None else "filled cell within 24 in.?"


def opening_words(o: OpeningBeam) -> str:
    """Such as `opening 1, W5 3'-0" to 19'-0"`."""
    return f"opening {o.index + 1}, {o.opening.wall} {feet_inches(o.opening.from_ft)} to {feet_inches(o.opening.to_ft)}"


def beam_lines(run: Run) -> Iterator[str]:
    """For each stretch of tie beam its pull and what it makes of it, a line each."""
    for beam, needed in zip(run.ground.beams, run.ground.needed, strict=True):
        said = f"{beam.cells.stretch.name:<4} {beam.pull_lb:>7,.0f} lb up, {beam.net_plf:>5.0f} plf net of the beam; "
        if not beam.cells.known:
            wanted = (
                "closer than 16 in." if needed.spacing_ft is None else f"at most {feet_inches(needed.spacing_ft)} apart"
            )
            yield f"{said}filled cells not said, wanted {wanted}"
            continue
        feels = [s.asd for s in beam.spans if s.opening is None]
        most = max((max(f.top_ft_lb, f.bottom_ft_lb) for f in feels), default=0.0)
        shear = max((f.shear_lb for f in feels), default=0.0)
        ratios = [s.ratio for s in beam.spans if s.opening is None and s.ratio is not None]
        judged = f"ratio {max(ratios):.2f}" if ratios else "bars not said"
        yield f"{said}{len(beam.cells.at_ft)} cells: {most:,.0f} ft-lb, {shear:,.0f} lb shear, {judged}"


def opening_lines(run: Run) -> Iterator[str]:
    """For each opening what the beam over it feels, a line each."""
    for o in run.ground.openings:
        judged = "not judged" if o.ratio is None else f"ratio {o.ratio:.2f}"
        jambs = " and ".join(f"{lb:,.0f}" for lb in o.jamb_lb)
        yield (
            f"{opening_words(o)}: {o.asd.top_ft_lb:,.0f} ft-lb, {o.asd.shear_lb:,.0f} lb shear, {judged}; jambs pulled "
            f"by {jambs} lb"
        )
