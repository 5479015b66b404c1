"""Run -> the figures for the engineer of record, one a row: what, where, in which case, how much, by which clause."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from framing.asce7.chapter2 import ASD_UPLIFT
from framing.explain.component_pressures import AREA_FT2, component_pressures
from framing.explain.wall_bases import wall_bases
from framing.explain.wall_lines import square_pushes
from framing.ground.beam_sideways import bent_sideways
from framing.ground.stops import CellPull
from framing.ground.strap_pulls import EVERY_MARK
from framing.ground.tie_beam import BeamDemand, Feel
from framing.plan_masonry import TopsHeldBy
from framing.run import Run
from framing.units import feet_inches

STRENGTH, ALLOWABLE = "strength, 1.0 W", "ASD, 0.6 W"
NET = "ASD, 0.6 W - 0.6 D"
NET_STRENGTH = "strength, 1.0 W - 0.9 D"
STATICS = "statics"


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOver:
    """One row: uplift and pull positive up, pressure positive toward the surface."""

    what: str
    where: str
    case: str
    value: float
    unit: str
    clause: str


def hand_over(run: Run) -> tuple[HandOver, ...]:
    """Pressures, the deck's shear on each line of walls, then for each wall its net uplift, its beam, the openings and
    what comes down at its base.
    """
    parts = (_pressures, _lines, _tops, _bases, _uplift, _beams, _openings, _cells, _weights)
    return tuple(row for part in parts for row in part(run))


def _pressures(run: Run) -> Iterator[HandOver]:
    for p in component_pressures(run):
        for way, psf in (("pressure", p.toward_psf), ("suction", p.away_psf)):
            if psf is None:
                continue
            for case, factor in ((STRENGTH, 1.0), (ALLOWABLE, ASD_UPLIFT.wind_factor)):
                yield HandOver(
                    what=f"{p.what}, {way} on {AREA_FT2:g} ft2",
                    where=f"zone {p.zone}",
                    case=f"components and cladding, {case}",
                    value=factor * psf,
                    unit="psf",
                    clause=p.clause,
                )


def _lines(run: Run) -> Iterator[HandOver]:
    clause = f"{run.plan.wind.edition.value}, sec. 2.4.1; lever rule, flexible deck"
    for line in run.tops.shears:
        where, case = f"line of {' and '.join(line.walls)}", f"{ALLOWABLE}, {line.case}"
        yield _row("diaphragm shear brought to a line of walls", where, case, line.force_lb, "lb", clause)
        yield _row("diaphragm shear on each foot of that line", where, case, line.plf, "plf", clause)
    for drag in run.tops.drags:
        where = f"inside corner that ends {drag.wall}, {drag.member or 'no member runs there'}"
        case = f"{ALLOWABLE}, {drag.case}"
        yield _row("drag force along the line, inside", where, case, drag.force_lb, "lb", clause)
    for brace in run.tops.bracing:
        case = f"{ALLOWABLE}, {brace.case}"
        yield _row(
            "bracing of the gable's bottom chord, most on a foot", brace.wall, case, brace.most_plf, "plf", clause
        )
        yield _row("bracing of the gable's bottom chord, in all", brace.wall, case, brace.force_lb, "lb", clause)
    for span in run.tops.spans:
        where = f"{span.wall} {feet_inches(span.from_ft)} to {feet_inches(span.to_ft)}"
        case = f"{ALLOWABLE}, {span.case}"
        yield _row("tie beam bent sideways, moment", where, case, span.moment_ft_lb, "ft-lb", clause)
        yield _row("tie beam bent sideways, shear", where, case, span.shear_lb, "lb", clause)


def _bases(run: Run) -> Iterator[HandOver]:
    """Along each wall at its base, the moment about it, and square to it; the uplift at the cells stands apart."""
    height_ft = run.plan.wall_height_ft
    told = "" if run.plan.masonry.tops_held_by is TopsHeldBy.ROOF else ", with what the tie beam brings"
    for base in wall_bases(run):
        case, lb = f"{ALLOWABLE}, {base.case}{told}", base.shear_lb
        yield _row("base reaction along the wall", base.wall, case, lb, "lb", STATICS)
        yield _row("moment about the wall's base, in its plane", base.wall, case, lb * height_ft, "ft-lb", STATICS)
    for push in square_pushes(run):
        case, lb = f"{ALLOWABLE}, {push.case}", push.push_lb
        yield _row("push square to the wall at its top, outward positive", push.wall, case, lb, "lb", STATICS)
        yield _row("base reaction square to the wall, pinned at both", push.wall, case, lb, "lb", STATICS)


def _tops(run: Run) -> Iterator[HandOver]:
    """The deck's moment and the beam's spans, square to their walls."""
    for m in run.tops.moments:
        where = "along W1" if m.axis == 0 else "square to W1"
        what = "moment of the deck's forces about the bearings"
        yield _row(what, where, f"{ALLOWABLE}, {m.case}", m.moment_ft_lb, "ft-lb", STATICS)
    for bent in bent_sideways(run.plan, run.tops):
        span = bent.span
        where = f"{span.wall} {feet_inches(span.from_ft)} to {feet_inches(span.to_ft)}"
        what = "tie beam bent square to its wall, moment"
        yield _row(what, where, f"{STRENGTH}, {span.case}", bent.moment_ft_lb, "ft-lb", STATICS)


def _uplift(run: Run) -> Iterator[HandOver]:
    """Each wall's marks together, all at once and in the main-frame case that lifts the wall most, and per foot."""
    clause = f"{run.plan.wind.edition.value}, sec. 2.4.1"
    for beam in run.ground.beams:
        where, length_ft = _wall(run, beam), beam.cells.stretch.length_ft
        totals = beam.pulls.asd_lb.sum(axis=0)
        found = [(f"{NET}, {EVERY_MARK}", float(totals[0]))]
        if len(totals) > 1:
            k = 1 + int(totals[1:].argmax())
            found.append((f"{NET}, {beam.pulls.patterns[k]}", float(totals[k])))
        for case, lb in found:
            yield _row("net uplift on the wall", where, case, lb, "lb", clause)
        yield _row("net uplift per foot, less 0.6 of the tie beam", where, found[0][0], beam.net_plf, "plf", clause)
        yield _row("length of tie beam", where, "", length_ft, "ft", STATICS)
    supports = dict.fromkeys(m.bearing.wall for m in run.schedule.marks if m.bearing.on_support)
    for name in supports:
        total = sum(m.uplift_lb for m in run.schedule.marks if m.bearing.wall == name)
        yield _row("net uplift on the support", name, f"{NET}, {EVERY_MARK}", total, "lb", clause)


def _beams(run: Run) -> Iterator[HandOver]:
    for beam in run.ground.beams:
        for span in beam.spans:
            if span.opening is None:
                where = f"{beam.cells.stretch.name} {feet_inches(max(span.from_ft, 0.0))} to {feet_inches(span.to_ft)}"
                yield from _feel("tie beam", where, span.asd, span.strength, span.ratio)


def _openings(run: Run) -> Iterator[HandOver]:
    for o in run.ground.openings:
        place = f"{o.opening.wall} {feet_inches(o.opening.from_ft)} to {feet_inches(o.opening.to_ft)}"
        where = f"opening {o.index + 1}, {place}"
        yield _row("span of the beam over an opening", where, "", o.span_ft, "ft", STATICS)
        yield from _feel("beam over an opening", where, o.asd, o.strength, o.ratio)
        for side, lb in zip(("START side", "far side"), o.jamb_lb, strict=True):
            yield _row(f"pull on the jamb, {side}", where, NET, lb, "lb", STATICS)


def _feel(what: str, where: str, asd: Feel, strength: Feel, ratio: float | None) -> Iterator[HandOver]:
    for case, feel in ((NET, asd), (NET_STRENGTH, strength)):
        yield _row(f"{what}, moment that pulls at the top", where, case, feel.top_ft_lb, "ft-lb", STATICS)
        yield _row(f"{what}, moment that pulls at the bottom", where, case, feel.bottom_ft_lb, "ft-lb", STATICS)
        yield _row(f"{what}, shear", where, case, feel.shear_lb, "lb", STATICS)
    if ratio is not None:
        clause = "ACI 318-19 and -14, sec. 22 (from memory)"
        yield _row(f"{what}, demand over strength", where, NET_STRENGTH, ratio, "ratio", clause)


def _cells(run: Run) -> Iterator[HandOver]:
    for cell in run.ground.cells:
        where = _cell(cell)
        yield _row("pull on a filled cell, at its top", where, NET, cell.pull_lb, "lb", STATICS)
        yield _row("0.6 of what hangs on it below the beam", where, "", cell.holds_lb, "lb", STATICS)
        left = cell.pull_lb - cell.holds_lb
        yield _row("base reaction of a filled cell (up: not held by weight)", where, NET, left, "lb", STATICS)


def _weights(run: Run) -> Iterator[HandOver]:
    for ladder in run.ground.ladders:
        mark = run.schedule.marks[ladder.row].mark
        what = "uplift over the weight on the mark's own strip"
        yield _row(what, mark, NET, ladder.missing_lb, "lb", STATICS)


def _row(what: str, where: str, case: str, value: float, unit: str, clause: str) -> HandOver:
    return HandOver(what=what, where=where, case=case, value=value, unit=unit, clause=clause)


def _wall(run: Run, beam: BeamDemand) -> str:
    """The wall, with its stations where porch beams part it."""
    stretch = beam.cells.stretch
    if sum(b.cells.stretch.name == stretch.name for b in run.ground.beams) == 1:
        return stretch.name
    return f"{stretch.name} {feet_inches(max(stretch.from_ft, 0.0))} to {feet_inches(stretch.to_ft)}"


def _cell(cell: CellPull) -> str:
    if len(cell.walls) > 1:
        return f"corner of {' and '.join(cell.walls)}"
    return f"{cell.walls[0]} at {feet_inches(max(cell.at_ft[0], 0.0))}{', jamb' if cell.jamb else ''}"
