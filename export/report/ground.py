"""Where the pull stops: the tie beam over its filled cells, the beam over openings, the cells and the weights."""

from __future__ import annotations

from collections.abc import Iterator

from export.report.markup import MINUS, TIMES, bullets, esc, num, paragraph, section, table
from export.words.ground import cell_words, opening_words
from framing.asce7.chapter2 import ASD_UPLIFT
from framing.ground.reinforced_concrete import (
    GRADE_60_PSI,
    PHI_FLEXURE,
    Section,
    concrete_shear_318_14_lb,
    concrete_shear_318_19_lb,
    stress_block_in,
)
from framing.ground.tie_beam import BeamDemand, Feel
from framing.ground.weights import Ladder
from framing.run import Run
from framing.units import feet_inches

BEAMS = ("wall", "length, ft#", "pull, lb#", "net line load, plf", "cells", "cells wanted at most apart")
FELT = ("M top#", "M bottom#", "V#", "M top, 1.0W#", "M bottom, 1.0W#", "V, 1.0W#", "ratio#")
CELLS = ("cell", "pull, lb#", "of its bar#", "hangs on it, lb#", "missing, lb#")
LADDER = ("mark", "strip, ft#", "pull, lb#", "beam#", "+ wall#", "+ footing#", "missing, lb#")
UNSAID = "not said"
METHOD = (
    f"Demand first, allowable-stress level (0.6 W {MINUS} 0.6 D) unless a column says 1.0W: 1.0 W {MINUS} 0.9 D, "
    "which the strength of the bars is held against. The tie beam runs on over its filled cells with the straps where "
    "they stand: once with every mark at its own uplift, and once for each wind case of the main frame; the worst "
    "counts. Over an opening it is a simple beam from jamb to jamb. 'Top' is what pulls at the top bars, between "
    "cells; 'bottom' what pulls at the bottom bars, at the cells; ft-lb. Shear counts at a cell's face, 4 in. from its "
    "middle; lb. Gravity over openings is not reckoned here."
)
HANGS = (
    "What hangs on a cell is 0.6 of the wall below the beam half way to its neighbours, and of its footing where the "
    "cell's bar is hooked into it (the beam is in the pull already). A bar takes 32,000 psi (TMS 402, from memory), "
    "lapped and hooked at both ends."
)


def where_the_pull_stops(run: Run) -> str:
    """From the straps through the beam and the cells to the ground, demand first."""
    parts = [
        paragraph(METHOD),
        bullets(_strength(run)),
        table(BEAMS, (_beam(run, k) for k in range(len(run.ground.beams))), name="ground"),
    ]
    spans = [row for beam in run.ground.beams for row in _spans(beam)]
    if spans:
        parts += ["<h3>From cell to cell</h3>", table(("wall", "from", "to", *FELT), spans, name="ground")]
    if run.ground.openings:
        head = ("opening", "spans, ft#", *FELT, "pull on its jamb cells, lb")
        parts += ["<h3>Over openings</h3>", table(head, _openings(run), name="ground")]
    if run.ground.cells:
        parts += ["<h3>Filled cells</h3>", paragraph(HANGS), table(CELLS, _cells(run), name="ground")]
    parts += ["<h3>What lies on each mark's own strip of wall</h3>", paragraph(_ladder_words(run))]
    parts.append(table(LADDER, (_ladder(run, ladder) for ladder in run.ground.ladders), name="ground"))
    return section("ground", "Where the pull stops", *parts)


def _strength(run: Run) -> Iterator[str]:
    """What the beam carries, in numbers, or what must be said first."""
    ground, plan = run.ground, run.plan
    yield (
        f"Tie beam {plan.tie_beam.name}: {num(ground.beam_plf, 1)} plf; 0.6 of it, "
        f"{num(ASD_UPLIFT.dead_factor * ground.beam_plf, 1)} plf, counts against the pull."
    )
    strength = ground.strength
    for face, beam, moment in (
        ("top", strength.top, strength.top_ft_lb),
        ("bottom", strength.bottom, strength.bottom_ft_lb),
    ):
        if beam is not None and moment is not None:
            yield _moment(face, beam, moment)
    if strength.shear_lb is not None and strength.top is not None and strength.bottom is not None:
        weaker = min(strength.top, strength.bottom, key=concrete_shear_318_19_lb)
        older, newer = concrete_shear_318_14_lb(weaker), concrete_shear_318_19_lb(weaker)
        kind = "with its stirrups" if strength.stirrups_count else "without stirrups"
        yield (
            f"Shear: phi V_c = {num(older, 0)} lb (ACI 318-14), {num(newer, 0)} lb without stirrups (318-19); "
            f"{kind} {num(strength.shear_lb, 0)} lb counts."
        )
    if strength.missing:
        yield f"The plan does not say {', '.join(strength.missing)}: nothing is judged that rests on them; ask."
    yield from (f"{fault[0].upper()}{fault[1:]}." for fault in strength.faults)


def _moment(face: str, beam: Section, moment_ft_lb: float) -> str:
    block, d = num(stress_block_in(beam), 3), num(beam.effective_depth_in, 4)
    steel, f_y = num(beam.steel_in2, 2), num(GRADE_60_PSI, 0)
    return (
        f"Bars at the {face}: a = {steel} {TIMES} {f_y} / (0.85 {TIMES} {num(beam.f_c_psi, 0)} {TIMES} "
        f"{num(beam.width_in, 3)}) = {block} in.; phi M_n = {PHI_FLEXURE:g} {TIMES} {steel} {TIMES} {f_y} {TIMES} ({d} "
        f"{MINUS} {block} / 2) / 12 = {num(moment_ft_lb, 0)} ft-lb (ACI 318 sec. 22.2 and 22.3, from memory; Grade 60)."
    )


def _beam(run: Run, k: int) -> tuple[str, ...]:
    beam, needed = run.ground.beams[k], run.ground.needed[k]
    stretch = beam.cells.stretch
    share = f"{num(beam.pull_lb, 0)} / {num(stretch.length_ft, 2)} {MINUS} {ASD_UPLIFT.dead_factor:g} {TIMES} "
    wanted = "closer than 16 in." if needed.spacing_ft is None else feet_inches(needed.spacing_ft)
    wanted += " (bars taken)" if needed.taken else ""
    if beam.cells.known and all(s.ratio is not None and s.ratio <= 1.0 for s in beam.spans if s.opening is None):
        wanted = "hold as given"
    return (
        esc(stretch.name),
        num(stretch.length_ft, 2),
        num(beam.pull_lb, 0),
        f"{share}{num(run.ground.beam_plf, 1)} = {num(beam.net_plf, 1)}",
        f"{len(beam.cells.at_ft)}" if beam.cells.known else UNSAID,
        esc(wanted),
    )


def _feel(asd: Feel, strength: Feel, ratio: float | None) -> tuple[str, ...]:
    felt = [num(v, 0) for f in (asd, strength) for v in (f.top_ft_lb, f.bottom_ft_lb, f.shear_lb)]
    return (*felt, UNSAID if ratio is None else f"<strong>{num(ratio, 2)}</strong>" if ratio > 1.0 else num(ratio, 2))


def _spans(beam: BeamDemand) -> Iterator[tuple[str, ...]]:
    for span in beam.spans:
        if span.opening is None:
            yield (
                esc(beam.cells.stretch.name),
                esc(feet_inches(max(span.from_ft, 0.0))),
                esc(feet_inches(span.to_ft)),
                *_feel(span.asd, span.strength, span.ratio),
            )


def _openings(run: Run) -> Iterator[tuple[str, ...]]:
    for o in run.ground.openings:
        jambs = [
            f"{num(lb, 0)} ({'no cell said' if at is None else feet_inches(max(at, 0.0))})"
            for at, lb in zip(o.jambs_ft, o.jamb_lb, strict=True)
        ]
        felt = _feel(o.asd, o.strength, o.ratio)
        yield (esc(opening_words(o)), num(o.span_ft, 2), *felt, esc("; ".join(jambs)))


def _cells(run: Run) -> Iterator[tuple[str, ...]]:
    for cell in run.ground.cells:
        ratio = UNSAID if cell.bar_ratio is None else num(cell.bar_ratio, 2)
        missing = max(cell.pull_lb - cell.holds_lb, 0.0)
        yield (esc(cell_words(cell)), num(cell.pull_lb, 0), ratio, num(cell.holds_lb, 0), num(missing, 0))


def _ladder_words(run: Run) -> str:
    footing = run.plan.masonry.footing
    counted = "the grouted cells alone: no bond of a mortar joint is counted"
    if footing is not None and footing.dowelled:
        counted = "the wall between the cells and the footing, for each cell's bar is hooked into it"
    return (
        f"0.6 of the weight over the strip of wall that is the mark's own: the beam, then {counted}; nothing under an "
        "opening. Weight of an 8 in. block wall by grouted cells: one public table, fair. What is missing the wall "
        "beside it, the slab's edge or the soil must hold: a question for the engineer of record."
    )


def _ladder(run: Run, ladder: Ladder) -> tuple[str, ...]:
    wall = ladder.beam_lb + ladder.wall_lb
    return (
        esc(run.schedule.marks[ladder.row].mark),
        num(ladder.strip_ft, 2),
        num(ladder.pull_lb, 0),
        num(ladder.beam_lb, 0),
        num(wall, 0),
        num(ladder.held_lb, 0),
        num(ladder.missing_lb, 0),
    )
