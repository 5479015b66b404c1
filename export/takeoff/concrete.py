"""Run -> the tie beam's concrete, and its bars where the plan names them."""

from __future__ import annotations

from collections.abc import Iterator

import shapely

from export.takeoff.rows import NO_SOURCE, Row, up, waste
from framing.plan import SupportKind
from framing.run import Run
from framing.walls.standing_walls import standing_lines

BLOCK_JOINT_IN = 0.375
BAR_FT, LAP_DIAMETERS = 20.0, 40.0
CONCRETE_WASTE_PERCENT = 0.0


def concrete_rows(run: Run) -> Iterator[Row]:
    """Concrete along the middle of the walls and the tied inside walls; bars by length with laps; stirrups by count.

    Under a porch beam there is no tie beam, but where the beam is said to hold down it is the tie beam, run on.
    Source: common practice, no source (block sizes: actual is 3/8 in. under nominal; laps of 40 diameters).
    """
    beam, steel = run.plan.tie_beam, run.plan.masonry.steel
    width_ft = (beam.nominal_width_in - BLOCK_JOINT_IN) / 12.0
    other = tuple(b for b in run.framing.porch_beams if not run.plan.supports[b.support].holds_down)
    walls_ft = sum(shapely.LineString(s).length for s in standing_lines(run.outline, other, width_ft / 2.0))
    inside_ft = sum(
        shapely.LineString([s.start_ft, s.end_ft]).length
        for s in run.plan.supports
        if s.holds_down and s.kind is SupportKind.BEARING_WALL
    )
    length_ft = walls_ft + inside_ft
    factor, words = waste(run.plan.trades.takeoff, "concrete", CONCRETE_WASTE_PERCENT)
    yards = length_ft * beam.depth_ft * width_ft / 27.0 * factor
    inside = f" and {inside_ft:.1f} ft of tied inside walls" if inside_ft else ""
    porch = f"; none along porch beam {' and '.join(b.name for b in other)}" if other else ""
    bars = "" if steel.top_bars or steel.bottom_bars else " The plan names no bars, so none are listed."
    note = (
        f"Tie beam {beam.name}: {walls_ft:.1f} ft along the middle of the walls{inside}{porch} x "
        f"{12 * beam.depth_ft:g} in. deep x {12 * width_ft:g} in. wide (actual sizes, {NO_SOURCE}), {words}; filled "
        f"cells not counted.{bars}"
    )
    yield Row(item="concrete of the tie beam", quantity=round(yards, 2), unit="cu yd", note=note, key="concrete")
    yield from _bars(run, length_ft)


def _bars(run: Run, length_ft: float) -> Iterator[Row]:
    steel = run.plan.masonry.steel
    corners = len(run.outline.walls)
    for where, bars in (("top", steel.top_bars), ("bottom", steel.bottom_bars)):
        if bars is None:
            continue
        lap_ft = LAP_DIAMETERS * bars.number / 8.0 / 12.0
        laps = up(length_ft / BAR_FT) + corners
        total = bars.count * (length_ft + laps * lap_ft)
        note = (
            f"{bars.name} at the {where}: {length_ft:.1f} ft of beam and {laps} laps of {12 * lap_ft:.0f} in., one "
            f"each {BAR_FT:g} ft and one a corner ({NO_SOURCE})."
        )
        yield Row(item=f"bar #{bars.number}, {where}", quantity=up(total), unit="ft", note=note, key="bar")
    if steel.stirrups is not None:
        n = up(length_ft / steel.stirrups.spacing_ft)
        note = f"Along {length_ft:.1f} ft of beam, {12 * steel.stirrups.spacing_ft:g} in. apart."
        yield Row(item=f"stirrup #{steel.stirrups.number}", quantity=n, unit="each", note=note, key="stirrup")
